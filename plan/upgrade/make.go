package upgrade

import (
	"errors"
	"math"
	"slices"

	"fettle/plan/fastener"
	"fettle/plan/fit"
	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Make is what an upgrade asks the workshop for.
type Make struct {
	Parts []part.Part      // to make, and old ones to alter
	Buy   []part.Bought    // what is bought
	Steps []part.Operation // in the order in which they are done
}

// EffortSource is where the minutes of the operations come from.
const EffortSource = "common practice, no source: an owner's own pace; the first time takes half as long again, or twice as long"

// Part is the part with the key.
func (m Make) Part(key string) (*part.Part, bool) {
	for i := range m.Parts {
		if m.Parts[i].Key == key {
			return &m.Parts[i], true
		}
	}
	return nil, false
}

// stage is the version of the sheet that an upgrade's parts have their sizes
// from: what is finished is as it is now.
func (s *Site) stage() sheet.Stage {
	if s.State == Finished {
		return sheet.Now
	}
	return sheet.Planned
}

// making collects what an upgrade asks for, from a result.
type making struct {
	*Site
	r      *sheet.Result
	out    Make
	steps  []step
	cannot []string // keys of parts that cannot be made as planned
}

func (s *Site) making(r *sheet.Result) *making { return &making{Site: s, r: r} }

// figure is a figure by its name within the axis. ok is false where it does not
// exist, or has not one value.
func (m *making) figure(name string) (v float64, ok bool) {
	f, ok := m.r.Figure(m.Layout.Find(name), m.stage())
	if !ok || !f.Known() || math.IsInf(f.Value, 0) || math.IsNaN(f.Value) {
		return 0, false
	}
	return f.Value, true
}

// earlier is a figure by its name within the axis as it was before the upgrade
// was made: as found of what is finished, else as it is now.
func (m *making) earlier(name string) (v float64, ok bool) {
	f, ok := m.r.Figure(m.Layout.Find(name), m.stage()-1)
	if !ok || !f.Known() || math.IsInf(f.Value, 0) || math.IsNaN(f.Value) {
		return 0, false
	}
	return f.Value, true
}

// or is a figure, or what is taken for it in a picture where it is not known.
func (m *making) or(name string, guess float64) float64 {
	if v, ok := m.figure(name); ok {
		return v
	}
	return guess
}

// more tells whether a figure is more than nothing, to what is shown.
func (m *making) more(key string) bool {
	f, ok := m.r.Figure(key, m.stage())
	return ok && f.Best(0) > shownLength
}

// add adds a part, unless it is there already, or cannot be: a wall with less
// than nothing left. The checks say so.
func (m *making) add(p part.Part) {
	if _, there := m.out.Part(p.Key); there {
		return
	}
	if !turnable(p) {
		m.cannot = append(m.cannot, p.Key)
		return
	}
	if p.Quantity == 0 {
		p.Quantity = 1
	}
	m.out.Parts = append(m.out.Parts, p)
}

// turnable tells whether every size of a part that is measured, and every step
// that is turned on it, is more than nothing.
func turnable(p part.Part) bool {
	for _, s := range p.Measured() {
		if !(s.Nominal > 0) {
			return false
		}
	}
	return p.Round == nil || !slices.ContainsFunc(p.Round.Outside, func(s part.Step) bool { return !(s.Length.Nominal > 0 && s.Dia.Nominal > 0) })
}

// buy adds something to buy, unless it is there already. What no standard makes
// in such a size is told, and is not ordered by one.
func (m *making) buy(b part.Bought) {
	if err := fastener.Check(b.Designation); err != nil && !errors.Is(err, fastener.ErrOther) {
		b.Designation, b.Label = "", b.Label+": "+err.Error()
	}
	if !slices.ContainsFunc(m.out.Buy, func(o part.Bought) bool { return o.Key == b.Key }) {
		m.out.Buy = append(m.out.Buy, b)
	}
}

// want is a size as a kind asks for it.
type want struct {
	part, name, label string
	key               string  // of the figure within the axis that it is; "" where nominal says it
	nominal           float64 // where there is no such figure, or it is not known
	leaf, formula     string  // how its size as made goes back: a leaf within the axis, a formula of made
	also              []part.Made
	grows             bool
}

// sized is the size without its limits. One whose figure is not known waits for
// what has to be measured.
func (m *making) sized(w want) part.Size {
	s := part.Size{Name: w.name, Label: w.label, Nominal: w.nominal, Grows: w.grows}
	if w.key != "" {
		s.Key = m.Layout.Find(w.key)
		if v, ok := m.figure(w.key); ok {
			s.Nominal = v
		} else if missing := m.r.Missing(s.Key, m.stage()); len(missing) > 0 {
			s.Awaits, s.Suits, s.Limits = missing[0].Key, "the "+missing[0].Label+", which is not measured", toSuit
		}
	}
	if w.leaf != "" {
		s.Made = &part.Made{Leaf: m.Layout.Find(w.leaf), Formula: w.formula}
		for _, a := range w.also {
			s.Made.Also = append(s.Made.Also, part.Made{Leaf: m.Layout.Find(a.Leaf), Formula: a.Formula})
		}
	}
	if t, ok := m.settled[w.part+"."+w.name]; ok && w.name != "" {
		s.AsMade = &part.Taken{Value: t.value, PlusMinus: t.leaf.Spread.Half, Typed: t.typed}
		if f, ok := m.r.Figure(t.planned, m.stage()); ok && f.Known() {
			s.Nominal = f.Value
		}
	}
	return s
}

const toSuit = "to suit"

// general gives a size the general tolerance.
func (m *making) general(w want) part.Size {
	s := m.sized(w)
	if s.Open() {
		return s
	}
	s.Limits, s.Source = "ISO 2768-m", fit.GeneralSource
	if t, err := fit.GeneralLength("m", s.Nominal); err == nil {
		s.Upper, s.Lower = t, -t
	}
	return s
}

// class gives a size the limits of a tolerance class.
func (m *making) class(w want, class string) part.Size {
	s := m.sized(w)
	if s.Open() {
		return s
	}
	if l, err := fit.Deviations(class, s.Nominal); err == nil {
		s.Limits, s.Upper, s.Lower, s.Source = class, l.Upper/1000, l.Lower/1000+0, "ISO 286-2:2010" // no −0
	}
	return s
}

// limits gives a size limits of its own, in mm from the nominal.
func (m *making) limits(w want, upper, lower float64, source string) part.Size {
	s := m.sized(w)
	if !s.Open() {
		s.Upper, s.Lower, s.Source = upper, lower, source
	}
	return s
}

// suits leaves a size open until what it must suit is measured well enough:
// within so many mm. The measurement is a leaf of the axis.
func (m *making) suits(s part.Size, what, leaf string, within float64) part.Size {
	if s.Open() {
		return s
	}
	s.Suits = what
	l, ok := m.Layout.Scope.Leaf(leaf)
	if !ok || l.Origin == sheet.Unknown || l.Origin == sheet.Assumed || l.Spread.Half > within {
		s.Awaits = m.Layout.Find(leaf)
	}
	return s
}

// suitsMade leaves a size open until a size of another part of this upgrade has
// been measured as made.
func (m *making) suitsMade(s part.Size, what, made string) part.Size {
	if s.Open() {
		return s
	}
	s.Suits = what
	if _, ok := m.settled[made]; !ok {
		s.Awaits = made
	}
	return s
}

// micrometer is how near a reading by micrometer is, in mm.
const micrometer = 0.0101

// drawn is a size that a picture needs and nobody has to keep.
func drawn(label string, mm float64) part.Size { return part.Size{Label: label, Nominal: mm} }

// stock is a material of room material for what the owner says that a part is of.
func stock(said, usual string) string {
	for from, to := range map[string]string{
		"aluminium": "6082", "steel": "11smn30", "cast_iron": "gjl250", "bronze": "c93200", "brass": "cuzn39pb3",
	} {
		if said == from {
			return to
		}
	}
	if said != "" {
		return said
	}
	return usual
}

// quillStock is what a quill is made of: one that is only known to be of steel is
// not made of the soft free-cutting sort.
func quillStock(said string) string {
	if said == "steel" {
		said = ""
	}
	return stock(said, "c45")
}

// casting is the material of an old casting.
func casting(said string) string {
	if said == "cast_iron" || said == "" {
		return "old_iron"
	}
	return stock(said, "")
}
