package axis

import (
	"fmt"

	"fettle/plan/sheet"
)

// within is a pair of diameters of which the first must go into the second.
type within struct {
	what, dia, into, bore string
	runs                  bool // it runs in it, and so is nearly as large
}

// sane finds diameters that cannot be, or are hardly meant: a radius taken for a
// diameter, an inch for a millimetre.
func (l *Layout) sane() {
	var pairs []within
	for _, p := range l.Parts {
		pairs = append(pairs, within{"the bore of the " + p.Label, p.Key + ".bore", "its outside", p.Key + ".dia", false})
	}
	shank, okS := l.WithRole("shank")
	thread, okT := l.WithRole("thread")
	if b, ok := l.WithRole("bracket"); ok && okS {
		pairs = append(pairs, within{"the " + shank.Label, shank.Key + ".dia", "the bore of the " + b.Label, b.Key + ".bore", true})
	}
	if n, ok := l.WithRole("nut"); ok && okT {
		pairs = append(pairs, within{"the bore of the " + n.Label, n.Key + ".bore", "the thread's outside", thread.Key + ".dia", false})
	}
	for _, p := range pairs {
		dia, okD := l.measured(p.dia)
		bore, okB := l.measured(p.bore)
		switch say := fmt.Sprintf("%s, %s, and %s, %s", capital(p.what), l.units.With(dia), p.into, l.units.With(bore)); {
		case !okD || !okB:
		case dia > bore+fitsWithin:
			l.Findings = append(l.Findings, say+": the one does not go into the other. Is one of them a radius, or in another unit?")
		case p.runs && dia < hardlyMeant*bore:
			l.Findings = append(l.Findings, say+": that is hardly more than half. Is one of them a radius, or in another unit?")
		}
	}
}

const (
	fitsWithin  = 0.3 // mm: two readings by caliper of what fits
	hardlyMeant = 0.6 // of the bore that it runs in
)

// measured is a leaf as found, in mm, where it is known.
func (l *Layout) measured(name string) (mm float64, ok bool) {
	leaf, ok := l.Scope.Leaf(name)
	return leaf.Value, ok && leaf.Origin != sheet.Unknown
}
