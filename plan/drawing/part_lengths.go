package drawing

import (
	"math"

	"fettle/plan/part"
)

// lengths tells of each outside step whether its length is dimensioned: where it
// says something of itself, and on a part to be made so many more that every
// shoulder is placed. Where the length over all is given, one is left to it.
func lengths(p *part.Part) []bool {
	r := p.Round
	given := make([]bool, len(r.Outside))
	rest := -1
	for i, s := range r.Outside {
		given[i] = named(s.Length)
		if given[i] || s.Old || p.Altered || size(s.Length) == 0 {
			continue
		}
		given[i] = true
		if rest < 0 || size(s.Length) > size(r.Outside[rest].Length) {
			rest = i
		}
	}
	if rest >= 0 && named(r.Length) {
		given[rest] = false
	}
	return given
}

// depth tells whether the depth of a bore is dimensioned: not of one that goes
// through, nor of one that an altered part had.
func depth(p *part.Part, s part.Step) bool {
	if s.Through || size(s.Length) == 0 {
		return false
	}
	long := 0.0
	for _, o := range p.Round.Outside {
		long += size(o.Length)
	}
	return named(s.Length) || !s.Old && !p.Altered && math.Abs(size(s.Length)-long) > same
}
