package fastener

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Designation is what a standard calls a thing, read from text.
type Designation struct {
	Standard string  // "ISO 4762"
	Size     string  // "M6", "4", "110"
	Length   float64 // 0 where it has none
	Tail     string  // property class or material, as it was written: "8.8", "A2-70"
}

// What [Parse] and [Check] say.
var (
	ErrDesignation = errors.New("give a designation such as ISO 4762 M6 × 30")
	ErrOther       = errors.New("no standard of the tables")
)

// Designations in lower case with their signs made plain: the number of the
// standard, its year, the size, the length, and what follows. The type A and the
// tolerance m6 of pins, and the measures of a ring, say nothing more.
var (
	form     = regexp.MustCompile(`^iso[ -]*(\d+)(?::\d{4})?[ -]+(?:a )?(m?)(\d+(?:\.\d+)?)(?: m6)?(?: ?x ?(\d+(?:\.\d+)?))?(?:[ -]+([^ -].*))?$`)
	ringForm = regexp.MustCompile(`^iso[ -]*(3601-1)(?::\d{4})?[ -]+()(\d{3})()(?: \d+(?:\.\d+)? ?x ?\d+(?:\.\d+)?)?(?:[ -]+([^ -].*))?$`)
)

// tailTimes finds a length that was not understood.
var tailTimes = regexp.MustCompile(`(?:^|[ 0-9])x(?:[ 0-9]|$)`)

var plain = strings.NewReplacer("×", "x", "✕", "x", "*", "x", "–", "-", "\u00a0", " ", ",", ".")

// Parse reads a designation as it is said or written: "ISO 4762 M6 × 30",
// "iso4762-m6x30-8.8", "ISO 8734 4x20", "ISO 7089 - 6 - 200 HV". A pin of another
// type or tolerance than those of [Pin.Designation] is not understood.
//
// It returns [ErrOther] for standards that are not here and [ErrDesignation].
func Parse(text string) (Designation, error) {
	if len(text) > 80 {
		return Designation{}, ErrDesignation
	}
	s := strings.Join(strings.Fields(strings.ToLower(plain.Replace(text))), " ")
	if rest, ok := strings.CutPrefix(s, "iso"); !ok || !slices.ContainsFunc(Standards, func(std Standard) bool {
		return strings.HasPrefix(strings.TrimLeft(rest, " -"), strings.TrimPrefix(std.Number, "ISO "))
	}) {
		return Designation{}, ErrOther
	}
	m := ringForm.FindStringSubmatch(s)
	if m == nil {
		m = form.FindStringSubmatch(s)
	}
	if m == nil || tailTimes.MatchString(m[5]) {
		return Designation{}, ErrDesignation
	}
	d := Designation{Standard: "ISO " + m[1], Size: m[3], Tail: strings.ToUpper(m[5])}
	if _, ok := StandardNamed(d.Standard); !ok {
		return Designation{}, ErrOther
	}
	if d.Standard != "ISO 3601-1" { // a ring's code is no number
		v, ok := size(m[3])
		if !ok {
			return Designation{}, ErrDesignation
		}
		d.Size = strings.ToUpper(m[2]) + bare(v)
	}
	if m[4] != "" {
		v, ok := size(m[4])
		if !ok {
			return Designation{}, ErrDesignation
		}
		d.Length = v
	}
	return d, nil
}

// size reads a length of at most 1 m, to 0.01 mm.
func size(s string) (float64, bool) {
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && v > 0 && v <= 1000 && v == math.Round(v*100)/100
}

// String is the designation as the tables write it, its tail last:
// "ISO 4762 M6 × 30 8.8".
func (d Designation) String() string {
	s := d.Standard + " " + d.Size
	switch {
	case d.Standard == "ISO 3601-1":
		if r, ok := RingNamed(d.Size); ok {
			s = r.Designation()
		}
	case d.Length > 0:
		dia, _ := strconv.ParseFloat(d.Size, 64)
		if p, ok := PinNamed(d.Standard, dia); ok {
			s = p.Designation(d.Length)
		} else {
			s += " × " + bare(d.Length)
		}
	}
	if d.Tail != "" {
		s += " " + d.Tail
	}
	return s
}

// Check tells whether a designation is of a size and a length that is made: nil
// where it is, else a sentence that says what is. For a standard that is not
// here it is [ErrOther].
func Check(text string) error {
	d, err := Parse(text)
	if err != nil {
		return err
	}
	dia, _ := strconv.ParseFloat(d.Size, 64)
	var lengths []float64
	known := false
	if s, ok := ScrewNamed(d.Standard, d.Size); ok {
		known, lengths = true, s.Lengths()
	} else if p, ok := PinNamed(d.Standard, dia); ok {
		known, lengths = true, p.Lengths()
	} else if _, ok := NutNamed(d.Standard, d.Size); ok {
		known = true
	} else if _, ok := WasherFor(dia); ok && d.Standard == "ISO 7089" {
		known = true
	} else if _, ok := RingNamed(d.Size); ok && d.Standard == "ISO 3601-1" {
		known = true
	}
	switch {
	case !known:
		return fmt.Errorf("%s has no size %s here", d.Standard, d.Size)
	case lengths == nil && d.Length > 0:
		return fmt.Errorf("%s has no length", d.Standard)
	case lengths == nil || slices.Contains(lengths, d.Length):
		return nil
	case d.Length == 0:
		return fmt.Errorf("%s %s needs a length, from %s to %s", d.Standard, d.Size, mm(lengths[0]), mm(lengths[len(lengths)-1]))
	}
	none := &NoLength{}
	_, _ = between(lengths, d.Length, d.Length, none) // only for the neighbours
	switch {
	case none.Shorter > 0 && none.Longer > 0:
		return fmt.Errorf("%s is no length of %s %s: take %s or %s", mm(d.Length), d.Standard, d.Size, mm(none.Shorter), mm(none.Longer))
	case none.Shorter > 0:
		return fmt.Errorf("%s %s is made up to %s", d.Standard, d.Size, mm(none.Shorter))
	}
	return fmt.Errorf("%s %s is made from %s", d.Standard, d.Size, mm(none.Longer))
}
