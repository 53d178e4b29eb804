package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// A dial against the lead of its screw.

// leadOf is the lead that was chosen for a new screw, or the one that was measured;
// 0 where it is not known.
func leadOf(l *axis.Layout, t *axis.Part) float64 {
	if leaf, ok := l.Scope.Leaf(t.Key + ".lead_chosen"); ok {
		return leaf.Value
	}
	if lead := asFound(l, t.Key+".pitch"); !math.IsNaN(lead) {
		return lead
	}
	return 0
}

// dialsMade counts the dials that are made anew, one after the other: what watches
// a dial watches it no longer once another takes its place.
func dialsMade(l *axis.Layout, d *axis.Part) {
	if !l.Scope.Has(d.Key + ".replaced") {
		l.Scope.In(d.Key).Measure(quiet("replaced", "dials made anew", "", unit.One), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	}
}

// dialMadeAnew counts another one.
func (s *Site) dialMadeAnew(d *axis.Part) {
	dialsMade(s.Layout, d)
	s.Layout.Scope.Change(d.Key+".replaced", "was + 1", "as chosen: a new dial")
}

// dialSuits checks that a dial shows what the slide moves. off is the key of the
// share by which it does not, and cure what may be said of it after a colon.
func (s *Site) dialSuits(off, cure string) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("off_most", "most that a dial may show wrong", "", unit.Percent), unit.Percent.In(dial.OffMost), dial.OffSource)
	l.Assume(sc, quiet("off_near", "error of a dial below that within which it is tight", "", unit.Percent), unit.Percent.In(dial.OffMost-dial.OffTight), dial.OffSource)
	sc.Check(sheet.Check{Key: "off_check", Label: "Dial suits the lead", Figure: off, Limit: "off_most", AtMost: true, Tight: "off_near", Level: sheet.Rule,
		Sentence: "What the dial shows is {figure} off what the slide moves, and {limit} is the most" + cure + ".", Source: dial.OffSource})
}
