// Package fastener holds what a small machine is screwed, pinned and sealed
// with, by the designations of its standards: sizes, heads, keys, and the
// lengths in which each is made.
//
//	m6, _ := fastener.ScrewNamed("ISO 4762", "M6")
//	m6.For(fastener.Hole{Grip: 22, Engagement: 9, Depth: 20}) // M6 × 35
//	m6.Designation(35)                                        // "ISO 4762 M6 × 35"
//	fastener.Check("ISO 4762 M6 × 33")                        // no standard length: 30 or 35
//
// Here are socket cap screws (ISO 4762), hexagon screws (ISO 4017), grub screws
// (ISO 4026 to 4029), nuts (ISO 4032, 4035), washers (ISO 7089), clearance
// holes (ISO 273), parallel pins (ISO 2338, 8734), taper pins (ISO 2339) and
// O-rings (ISO 3601-1). Metric sizes from M2 to M20, those that ISO 262 prefers.
// Not here: inch screws; and circlips, for which there is no ISO standard.
//
// All lengths are in mm.
package fastener

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fettle/plan/unit"
)

// Standard is one standard of which there are sizes here.
type Standard struct {
	Number string // "ISO 4762"
	Label  string // "socket cap screw"
	Source string // and how far it was checked
}

const (
	twice     = "dimensions agree with a general-purpose CAD package's tables; lengths from memory"
	twiceBoth = "dimensions and lengths agree with a general-purpose CAD package's tables"
)

// Standards lists every standard of the tables.
var Standards = []Standard{
	{"ISO 4762", "socket cap screw", "ISO 4762; " + twice + ", which begin at 10 for M6 and 12 for M8 where that package has 8 and 10"},
	{"ISO 4017", "hexagon screw", "ISO 4017; " + twice},
	{"ISO 4026", "grub screw, flat point", "ISO 4026; " + twice},
	{"ISO 4027", "grub screw, cone point", "ISO 4027; keys agree with a general-purpose CAD package's tables; the rest from memory"},
	{"ISO 4028", "grub screw, dog point", "ISO 4028; " + twice},
	{"ISO 4029", "grub screw, cup point", "ISO 4029; keys and points agree with a supplier's table; lengths from memory"},
	{"ISO 4032", "hexagon nut", "ISO 4032; " + twiceBoth},
	{"ISO 4035", "thin hexagon nut", "ISO 4035; " + twiceBoth},
	{"ISO 7089", "plain washer", "ISO 7089; " + twiceBoth},
	{"ISO 2338", "parallel pin", "ISO 2338; " + twiceBoth},
	{"ISO 8734", "hardened dowel pin", "ISO 8734; " + twiceBoth},
	{"ISO 2339", "taper pin, 1 in 50", "ISO 2339; " + twiceBoth},
	{"ISO 3601-1", "O-ring", "ISO 3601-1; inside diameters from memory, those of a published size chart agree"},
}

// StandardNamed is the standard with the number.
func StandardNamed(number string) (Standard, bool) {
	i := slices.IndexFunc(Standards, func(s Standard) bool { return s.Number == number })
	if i < 0 {
		return Standard{}, false
	}
	return Standards[i], true
}

// ErrAsked is returned for lengths that cannot be: negative, nought where there
// must be some, or not known.
var ErrAsked = errors.New("give lengths above zero")

// NoLength says that no standard length is long enough and short enough.
type NoLength struct {
	What        string  // "M6 socket cap screw (ISO 4762)"
	Least, Most float64 // what was wanted
	Shorter     float64 // the next length below, 0 where there is none
	Longer      float64 // the next above, 0 where there is none
	Help        string  // what would help
}

// Error is a sentence for whoever chose the sizes.
func (n *NoLength) Error() string {
	var s strings.Builder
	if n.Least > n.Most {
		fmt.Fprintf(&s, "no %s can be both %s or longer and %s or shorter", n.What, mm(n.Least), mm(n.Most))
	} else {
		fmt.Fprintf(&s, "no %s is made between %s and %s", n.What, mm(n.Least), mm(n.Most))
	}
	switch {
	case n.Shorter > 0 && n.Longer > 0:
		fmt.Fprintf(&s, ": the next are %s and %s", mm(n.Shorter), mm(n.Longer))
	case n.Shorter > 0:
		fmt.Fprintf(&s, ": the longest is %s", mm(n.Shorter))
	case n.Longer > 0:
		fmt.Fprintf(&s, ": the shortest is %s", mm(n.Longer))
	}
	if n.Help != "" {
		s.WriteString("; " + n.Help)
	}
	return s.String()
}

// forgiven is what a sum may miss a standard length by.
const forgiven = 1e-9

// between is the shortest of the lengths from least to most; in none it keeps
// the lengths on either side.
func between(lengths []float64, least, most float64, none *NoLength) (float64, error) {
	if !(least >= 0) || !(most > 0) {
		return 0, ErrAsked
	}
	none.Least, none.Most = least, most
	for _, l := range lengths {
		switch {
		case l < least-forgiven:
			none.Shorter = l
		case l <= most+forgiven:
			return l, nil
		case none.Longer == 0:
			none.Longer = l
		}
	}
	return 0, none
}

func within(all []float64, least, most float64) (some []float64) {
	for _, l := range all {
		if l >= least && l <= most {
			some = append(some, l)
		}
	}
	return some
}

func mm(v float64) string { return unit.MM.With(v) }

// bare is a length as designations have it: "2.5".
func bare(v float64) string { return unit.MM.Text(v, 2) }
