package upgrade

import (
	"fmt"
	"math"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/unit"
)

// worth is a value that a line can have.
type worth struct {
	dial.Value
	lines int // whole: the nearest where the value does not divide the turn
	dia   bool
}

// said is a worth in a sentence: "0.02 mm on the diameter".
func (w worth) said() string {
	if w.dia {
		return w.Said + " on the diameter"
	}
	return w.Said
}

// label names a worth in the form, with the lines that it takes.
func (w worth) label() string {
	s := w.said() + fmt.Sprintf(": %d lines", w.lines)
	if off := w.Off(w.lines); off != 0 {
		s += fmt.Sprintf(", which read %s %% %s", unit.One.Text(100*math.Abs(off), 2), map[bool]string{true: "too much", false: "too little"}[off > 0])
	}
	return s
}

// worths are the values that a line can have with a lead: those that divide it
// first, then those by which the dial is off by no more than is borne.
func worths(lead float64, dia bool) []worth {
	if dia {
		lead *= 2
	}
	var whole, near []worth
	for _, v := range dial.Counts(lead) {
		n := int(math.Round(v.Lines))
		w := worth{v, n, dia}
		switch {
		case v.Whole():
			whole = append(whole, w)
		case math.Abs(v.Off(n)) <= dial.OffMost:
			near = append(near, w)
		}
	}
	return append(whole, near...)
}

// usualLines is as many as a dial of usual size shows well.
const usualLines = 100

// readsDia tells whether the dial is to show what the work's diameter changes by.
func (s *Site) readsDia() bool { return s.input("reads", "radius") == "diameter" }

// worth asks what a line is to stand for.
func (s *Site) worth(t *axis.Part) worth {
	all := worths(leadOf(s.Layout, t), s.readsDia())
	if len(all) == 0 {
		return worth{}
	}
	var options []Option
	proposal, own := "", false // own: in the machine's own units
	for _, w := range all {
		options = append(options, Option{w.Said, w.label()})
		if !w.Whole() || w.lines > usualLines {
			continue
		}
		if its := w.Inch == (s.Units == unit.Inch); proposal == "" || its && !own {
			proposal, own = w.Said, its
		}
	}
	if proposal == "" {
		proposal = all[0].Said
	}
	chosen := s.choose(Field{Name: "value", Label: "A line is worth", Options: options}, proposal)
	i := slices.IndexFunc(all, func(w worth) bool { return w.Said == chosen })
	return all[i] // one of the options
}

// worthOf is what a line stands for on a dial of so many: as it was chosen, where
// several have as many.
func (s *Site) worthOf(t *axis.Part, lines int) (chosen worth) {
	for _, w := range worths(leadOf(s.Layout, t), s.readsDia()) {
		if w.lines == lines && (chosen.lines == 0 || s.input("value", "") == w.Said) {
			chosen = w
		}
	}
	return chosen
}
