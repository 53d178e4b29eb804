package axis

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"fettle/plan"
	"fettle/plan/joint"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Layout is an axis laid onto a sheet: what meets what, and what was found
// wrong with the measurements.
type Layout struct {
	*Axis
	Scope    *sheet.Scope
	Arr      Arrangement
	Capacity Capacity // the zero Capacity where the axis has none
	Stops    []Stop
	Problems []plan.Problem // what was typed that cannot be read
	Findings []string       // what does not agree, in sentences
	Advice   []string       // what follows from the answers to the arrangement's questions
	GibRow   []GibScrew     // the gib screws along the slide, in order; an upgrade that adds some writes it anew

	units      unit.Unit // of a bare number
	place      map[string][2]float64
	taken      map[string]bool // names of scopes
	held       [2][]string     // keys of how far each hold lasts, plus and minus
	thresholds []Threshold
}

// end holds what differs between the two ends of an axis.
type end struct {
	End
	at           int    // 0 for plus, 1 for minus
	name         string // in words, short
	asked, reach string
	stops, uses  string
	found        string // where the travel as found ends
	never        string // a bound that stops nothing
	least        string // min or max: the nearest of several
	most         string // max or min
	bound        string // formula of a meeting
	gap          string // from the asked position to a bound
}

func (l *Layout) ends() [2]end {
	return [2]end{
		{End: Plus, at: 0, name: short(l.Plus), asked: "asked_plus", reach: "reach_plus", stops: "stops_plus", uses: "uses_plus",
			found: "travel_found", never: "inf", least: "min", most: "max", bound: "fixed_face - moving_face - clearance", gap: "bound - asked_plus"},
		{End: Minus, at: 1, name: short(l.Minus), asked: "asked_minus", reach: "reach_minus", stops: "stops_minus", uses: "uses_minus",
			found: "0", never: "-inf", least: "max", most: "min", bound: "fixed_face - moving_face + clearance", gap: "asked_minus - bound"},
	}
}

// end is the end with the name.
func (l *Layout) end(e End) end {
	if e == Minus {
		return l.ends()[1]
	}
	return l.ends()[0]
}

// EndName is what an end is called: "outward" of "outward, towards the operator".
func (a *Axis) EndName(e End) string {
	if e == Minus {
		return short(a.Minus)
	}
	return short(a.Plus)
}

func short(name string) string {
	s, _, _ := strings.Cut(name, ",")
	return s
}

// Define lays the axis onto a sheet, in a scope of its own. units is what a
// bare number is taken for. Figures that cannot be read become unknown and are
// listed in Problems; nothing is an error. The axis's key must be one ([IsKey]).
func Define(sc *sheet.Scope, a *Axis, units unit.Unit) *Layout {
	l := &Layout{Axis: a, Scope: sc.In(a.Key), units: units, place: map[string][2]float64{}, taken: map[string]bool{}}
	var ok bool
	if l.Arr, ok = ArrangementNamed(a.Arrangement); !ok {
		l.problem("arrangement", fmt.Sprintf("there is no arrangement %q", a.Arrangement))
		return l
	}
	if l.Capacity, ok = CapacityNamed(a.Capacity); !ok && a.Capacity != "" {
		l.problem("capacity", fmt.Sprintf("nothing is known of a capacity %q", a.Capacity))
	}
	sc.Sheet().Register(joint.StockBolt())
	l.named()
	for _, s := range append(l.Arr.Sizes, l.Capacity.Sizes...) {
		l.leaf(l.Scope, "", s, a.Entries[s.Key], "")
	}
	l.defineTravel()
	for i := range l.Parts {
		l.definePart(&l.Parts[i])
	}
	l.defineMeetings()
	l.defineEngagements()
	l.defineDrive()
	l.defineBracket()
	l.defineShaftEnd()
	l.defineGearMesh()
	l.defineDial()
	l.defineHandle()
	l.defineScrewLine()
	if l.asksLostMotion() {
		l.DefineLostMotion()
	}
	l.closeEnds()
	if l.Capacity.define != nil {
		l.Capacity.define(l)
	}
	l.defineUsable()
	l.sane()
	for _, q := range l.Arr.Questions {
		if a.Answers[q.Key] == "yes" {
			l.Advice = append(l.Advice, q.Advice)
		}
	}
	return l
}

// On is the layout on a branch of its sheet, of which root is the outermost scope. What is done to the one
// does not reach the other.
func (l *Layout) On(root *sheet.Scope) *Layout {
	c := *l
	c.Scope = root.In(l.Key)
	c.Stops, c.Problems, c.Findings, c.Advice = slices.Clip(l.Stops), slices.Clip(l.Problems), slices.Clip(l.Findings), slices.Clip(l.Advice)
	c.GibRow, c.thresholds = slices.Clip(l.GibRow), slices.Clip(l.thresholds)
	c.place, c.taken = maps.Clone(l.place), maps.Clone(l.taken)
	for i := range c.held {
		c.held[i] = slices.Clip(l.held[i])
	}
	return &c
}

func (l *Layout) problem(field, say string) {
	l.Problems = append(l.Problems, plan.Problem{Field: l.Key + "." + field, Say: say})
}

// leaf defines one size from its entry, or from its default. An optional size
// that was not given is not defined at all.
func (l *Layout) leaf(sc *sheet.Scope, owner string, s Size, e plan.Entry, prefix string) {
	if !e.Given() && s.Optional && s.Default == "" || s.List || s.Choices != nil {
		return
	}
	u := s.Unit
	if u.Dim == unit.LengthD {
		u = l.units
	}
	if !e.Given() && s.Default != "" {
		e = plan.Entry{Typed: s.Default, Origin: sheet.Assumed, Note: s.Source}
		u = s.Unit
	} else if e.Given() && e.With == "" && e.Spread == "" && e.Origin == "" {
		e.With = s.With
	}
	leaf := l.read(prefix+s.Key, e, u)
	say := s.Least.refuses(leaf.Value)
	if s.Whole && leaf.Value != math.Round(leaf.Value) {
		say = "give a whole number"
	}
	leaf = l.refused(leaf, prefix+s.Key, say)
	label := s.Label
	if owner != "" {
		label = owner + " " + label
	}
	symbol := s.Symbol
	if symbol == "" || owner != "" {
		symbol = label
	}
	sc.Measure(sheet.Q{Key: s.Key, Label: label, Symbol: symbol, Unit: s.Unit, Quiet: !s.Visible, Whole: s.Whole}, leaf)
}

// read is what an entry says; what cannot be read is a problem at the key.
func (l *Layout) read(key string, e plan.Entry, u unit.Unit) sheet.Leaf {
	leaf, err := e.Leaf(u)
	if p := (plan.Problem{}); errors.As(err, &p) {
		if p.Field != "" {
			key += "." + p.Field
		}
		l.problem(key, p.Say)
	}
	return leaf
}

// refused is a leaf of which say tells why it cannot be: it counts as not
// measured, and that is a problem at the key. Where say is "" the leaf stands.
func (l *Layout) refused(leaf sheet.Leaf, key, say string) sheet.Leaf {
	if say == "" || leaf.Origin == sheet.Unknown {
		return leaf
	}
	l.problem(key, say)
	return sheet.Leaf{Origin: sheet.Unknown}
}

func (l *Layout) defineTravel() {
	sc := l.Scope
	sc.Measure(quiet("touching", "nothing between", "0", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "touching is the limit"})
	l.Assume(sc, quiet("agree_within", "what measurements may disagree by", "", unit.MM), 0.5, "common practice, no source: a few readings by caliper and rule")
	for _, e := range l.ends() {
		extra := "extra_" + string(e.End)
		sc.Measure(quiet(extra, "asked beyond the travel as found, "+e.name, "Δ", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "nothing as found"})
		text, label := "travel_found + extra_plus", "travel, "
		if e.End == Minus {
			text, label = "0 - extra_minus", "end of the travel, "
		}
		sc.Formula(shown(e.asked, label+e.name, "travel", unit.MM), text, "as asked")
	}
}

func (l *Layout) definePart(p *Part) {
	sc := l.Scope.In(p.Key)
	role, ok := RoleNamed(p.Role)
	if !ok {
		l.problem(p.Key+".role", fmt.Sprintf("there is no role %q", p.Role))
	}
	for _, s := range p.Sizes() {
		l.leaf(sc, p.Label, s, p.Entries[s.Key], p.Key+".")
	}
	q := func(s Size) sheet.Q { return quiet(s.Key, p.Label+" "+s.Label, p.Label+" "+s.Label, unit.MM) }
	if p.Tie != nil {
		face := p.Tie.Part + "." + p.Tie.Face
		if _, ok := l.place[p.Tie.Part]; !ok || p.Tie.Face != "from" && p.Tie.Face != "to" {
			l.problem(p.Key+".tie", "tie it to a face of a part that stands above it in the list")
			face = "touching"
		}
		sc.Formula(q(from), "face + gap", "it follows the face that it is tied to", sheet.With{"face": face})
		sc.Formula(q(to), "from + length", "geometry")
	} else {
		length := q(long)
		length.Quiet = role.Length == ""
		if role.Length != "" {
			length.Label = p.Label + " " + role.Length
		}
		sc.Formula(length, "to - from", "geometry")
	}
	l.place[p.Key] = l.found(p)
	if at := l.place[p.Key]; at[1] < at[0] {
		l.problem(p.Key+"."+map[bool]string{true: "length", false: "to"}[p.Tie != nil], "the "+p.Label+" would end before it begins")
	}
}

// found is where a part lies as found, NaN where that is not known: used only
// to see which parts lie before which.
func (l *Layout) found(p *Part) [2]float64 {
	sc := l.Scope.In(p.Key)
	value := func(name string) float64 {
		if leaf, ok := sc.Leaf(name); ok && leaf.Origin != sheet.Unknown {
			return leaf.Value
		}
		return math.NaN()
	}
	if p.Tie == nil {
		return [2]float64{value("from"), value("to")}
	}
	at := l.place[p.Tie.Part][0]
	if p.Tie.Face == "to" {
		at = l.place[p.Tie.Part][1]
	}
	at += value("gap")
	return [2]float64{at, at + value("length")}
}

// Part is the part with the key.
func (a *Axis) Part(key string) (*Part, bool) {
	for i := range a.Parts {
		if a.Parts[i].Key == key {
			return &a.Parts[i], true
		}
	}
	return nil, false
}

// WithRole is the first part of a role.
func (a *Axis) WithRole(role string) (*Part, bool) {
	for i := range a.Parts {
		if a.Parts[i].Role == role {
			return &a.Parts[i], true
		}
	}
	return nil, false
}

// Find is the layout's key for a local name: "cross.bracket.length".
func (l *Layout) Find(name string) string { return l.Scope.Key(name) }
