package axis

import (
	"math"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Threshold is a limit, or an assumption, that the program brings along. An
// entry of the axis under its key takes its place, for this axis alone.
type Threshold struct {
	Key     string // in [Axis.Entries]: "slide_on_ways.overhang_most"
	Label   string
	Unit    unit.Unit
	Value   float64 // inside, as it counts now; NaN where it follows from other figures
	Default float64 // inside; NaN where it follows from other figures
	Source  string  // of the default
	Changed bool
	Note    string // of the change: who, when, why
}

// Thresholds lists what the program assumed for this axis and its upgrades, in
// the order in which it came up.
func (l *Layout) Thresholds() []Threshold { return l.thresholds }

// Assume defines a leaf that rests on a default, in the unit of q, unless the
// owner of the axis has said otherwise.
func (l *Layout) Assume(sc *sheet.Scope, q sheet.Q, value float64, source string) {
	value = q.Unit.Inside(value)
	if l.chosen(sc, q, value, source) {
		return
	}
	sc.Measure(q, sheet.Leaf{Value: value, Origin: sheet.Assumed, Note: source})
}

// Limit defines a limit that follows from other figures, unless the owner of
// the axis has given one instead.
func (l *Layout) Limit(sc *sheet.Scope, q sheet.Q, m sheet.Method, with ...sheet.With) {
	if !l.chosen(sc, q, math.NaN(), m.Source) {
		sc.Method(q, m, with...)
	}
}

// chosen defines q by the entry that stands in place of its default, if one
// can be read, and keeps it for the list in either case.
func (l *Layout) chosen(sc *sheet.Scope, q sheet.Q, value float64, source string) bool {
	t := Threshold{Key: sheet.Local(sc.Key(q.Key), l.Key), Label: q.Label, Unit: q.Unit, Value: value, Default: value, Source: source}
	leaf, ok := l.override(t.Key, q.Unit)
	if ok {
		t.Value, t.Changed, t.Note = leaf.Value, true, leaf.Note
		sc.Measure(q, leaf)
	}
	l.thresholds = append(l.thresholds, t)
	return ok
}

// override is what the owner gave under a threshold's key.
func (l *Layout) override(key string, u unit.Unit) (sheet.Leaf, bool) {
	e := l.Entries[key]
	if !e.Given() {
		return sheet.Leaf{}, false
	}
	if e.Origin == "" {
		e.Origin = sheet.Chosen
	}
	if u.Dim == unit.LengthD && u.Scale == 1 {
		u = l.units
	}
	leaf := l.read(key, e, u)
	return leaf, leaf.Origin != sheet.Unknown
}
