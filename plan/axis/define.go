package axis

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"fettle/plan"
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

	units unit.Unit // of a bare number
	place map[string][2]float64
}

// Stop is something that ends the travel at one end.
type Stop struct {
	Key           string // scope in the axis: "front_wall_nut"; its bound is Key + ".bound"
	Label         string // "nut meets front wall"
	End           End
	Fixed, Moving string  // part keys; "" for an obstacle, the thread's end and what is not named
	Found         float64 // mm, roughly: where it lies as found, to put the stops in order
	Unmeasured    bool
	Jam           bool // the thread's end, where the shank does not enter the nut
}

// end holds what differs between the two ends of an axis.
type end struct {
	End
	name         string // in words, short
	asked, reach string
	stops, uses  string
	least        string // min or max
	bound        string // formula of a meeting
	gap          string // from the asked position to a bound
}

func (l *Layout) ends() [2]end {
	return [2]end{
		{End: Plus, name: short(l.Plus), asked: "asked_plus", reach: "reach_plus", stops: "stops_plus", uses: "uses_plus", least: "min",
			bound: "fixed_face - moving_face - clearance", gap: "bound - asked_plus"},
		{End: Minus, name: short(l.Minus), asked: "asked_minus", reach: "reach_minus", stops: "stops_minus", uses: "uses_minus", least: "max",
			bound: "fixed_face - moving_face + clearance", gap: "asked_minus - bound"},
	}
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
// listed in Problems; nothing is an error.
func Define(sc *sheet.Scope, a *Axis, units unit.Unit) *Layout {
	l := &Layout{Axis: a, Scope: sc.In(a.Key), units: units, place: map[string][2]float64{}}
	var ok bool
	if l.Arr, ok = ArrangementNamed(a.Arrangement); !ok {
		l.problem("arrangement", fmt.Sprintf("there is no arrangement %q", a.Arrangement))
		return l
	}
	l.Capacity, _ = CapacityNamed(a.Capacity)
	for _, s := range append(l.Arr.Sizes, l.Capacity.Sizes...) {
		l.leaf(l.Scope, "", s, a.Entries[s.Key], "")
	}
	l.defineTravel()
	for i := range a.Parts {
		l.definePart(&a.Parts[i])
	}
	l.defineMeetings()
	l.defineEngagements()
	l.defineBracket()
	l.defineShaftEnd()
	l.defineScrew()
	l.closeEnds()
	if l.Capacity.define != nil {
		l.Capacity.define(l.Scope)
	}
	l.defineUsable()
	return l
}

func (l *Layout) problem(field, say string) {
	l.Problems = append(l.Problems, plan.Problem{Field: l.Key + "." + field, Say: say})
}

// leaf defines one size from its entry, or from its default. An optional size
// that was not given is not defined at all.
func (l *Layout) leaf(sc *sheet.Scope, owner string, s Size, e plan.Entry, prefix string) {
	if !e.Given() && s.Optional && s.Default == "" {
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
	leaf, err := e.Leaf(u)
	if p := (plan.Problem{}); errors.As(err, &p) {
		field := prefix + s.Key
		if p.Field != "" {
			field += "." + p.Field
		}
		l.problem(field, p.Say)
	}
	if s.Whole && leaf.Origin != sheet.Unknown && leaf.Value != math.Round(leaf.Value) {
		l.problem(prefix+s.Key, "give a whole number")
	}
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

func (l *Layout) defineTravel() {
	sc := l.Scope
	sc.Measure(quiet("touching", "nothing between", "0", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "touching is the limit"})
	assumed(sc, quiet("agree_within", "what measurements may disagree by", "", unit.MM), 0.5, "common practice, no source: a few readings by caliper and rule")
	if !sc.Has("travel_found") {
		l.leaf(sc, "", travelFound, l.Entries["travel_found"], "")
	}
	for _, e := range []struct {
		key, asked, text, end string
		quiet                 bool
	}{
		{"extra_plus", "asked_plus", "travel_found + extra_plus", short(l.Plus), false},
		{"extra_minus", "asked_minus", "0 - extra_minus", short(l.Minus), false},
	} {
		sc.Measure(quiet(e.key, "asked beyond the travel as found, "+e.end, "Δ", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "nothing as found"})
		sc.Formula(sheet.Q{Key: e.asked, Label: "travel, " + e.end, Symbol: "travel", Unit: unit.MM, Quiet: e.quiet}, e.text, "as asked")
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
	q := func(key, label string) sheet.Q { return quiet(key, p.Label+" "+label, p.Label+" "+key, unit.MM) }
	if p.Tie != nil {
		face := p.Tie.Part + "." + p.Tie.Face
		if _, ok := l.place[p.Tie.Part]; !ok || p.Tie.Face != "from" && p.Tie.Face != "to" {
			l.problem(p.Key+".tie", "tie it to a face of a part that stands above it in the list")
			face = "touching"
		}
		sc.Formula(q("from", "begins at"), "face + gap", "it follows the face that it is tied to", sheet.With{"face": face})
		sc.Formula(q("to", "ends at"), "from + length", "geometry")
	} else {
		length := q("length", "length")
		length.Quiet = role.Length == ""
		if role.Length != "" {
			length.Label = p.Label + " " + role.Length
		}
		sc.Formula(length, "to - from", "geometry")
	}
	l.place[p.Key] = l.found(p)
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
