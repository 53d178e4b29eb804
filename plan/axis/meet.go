package axis

import (
	"fmt"
	"math"
	"slices"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// overlapping parts were measured wrong, or do not lie in one lane.
const overlap = 0.5

// defineMeetings finds the pairs of parts that can meet: on opposite sides, in
// one lane. Each gives a bound on the position of the moving side.
func (l *Layout) defineMeetings() {
	for i := range l.Parts {
		for j := range l.Parts {
			f, m := &l.Parts[i], &l.Parts[j]
			if f.Side != Fixed || m.Side != Moving || !share(f.lanes(), m.lanes()) {
				continue
			}
			l.meeting(f, m)
		}
	}
	for i := range l.Obstacles {
		l.obstacle(&l.Obstacles[i])
	}
	// What was not asked is unknown, not clear.
	for _, u := range l.Arr.Obstacles {
		if !slices.ContainsFunc(l.Obstacles, func(o Obstacle) bool { return o.Key == u.Key }) {
			l.obstacle(&Obstacle{Key: u.Key, Label: u.Label, End: u.End})
		}
	}
}

func share(a, b []string) bool {
	return slices.ContainsFunc(a, func(x string) bool { return slices.Contains(b, x) })
}

func (l *Layout) meeting(f, m *Part) {
	at, with := l.place[f.Key], l.place[m.Key]
	e, fixedFace, movingFace := l.ends()[0], "from", "to"
	switch {
	case math.IsNaN(at[0]+at[1]) || math.IsNaN(with[0]+with[1]):
		l.Findings = append(l.Findings, fmt.Sprintf("It is not known where %s and %s meet: measure where they begin and end.", m.Label, f.Label))
		return
	case at[0] >= with[1]-overlap:
	case at[1] <= with[0]+overlap:
		e, fixedFace, movingFace = l.ends()[1], "to", "from"
	default:
		l.Findings = append(l.Findings, fmt.Sprintf("As measured, %s and %s lie in one another: one of the figures is wrong, or they never meet.", m.Label, f.Label))
		return
	}
	s := Stop{Key: f.Key + "_" + m.Key, Label: m.Label + " meets " + f.Label, End: e.End, Fixed: f.Key, Moving: m.Key}
	sc := l.Scope.In(s.Key)
	size := Size{Key: "clearance", Label: "clearance to keep", Unit: unit.MM, Default: "0", Source: "touching is the limit"}
	l.leaf(sc, s.Label+":", size, l.Entries[s.Key+".clearance"], s.Key+".")
	text := e.bound
	faces := sheet.With{"fixed_face": f.Key + "." + fixedFace, "moving_face": m.Key + "." + movingFace}
	// What is smaller than the room under the slide passes below it.
	if l.Scope.Has(f.Key+".dia") && l.Scope.Has(m.Key+".underside") {
		text = "when(thing / 2 > room, " + e.bound + ", " + map[End]string{Plus: "inf", Minus: "-inf"}[e.End] + ")"
		faces["thing"], faces["room"] = f.Key+".dia", m.Key+".underside"
	}
	sc.Formula(quiet("bound", s.Label+", slide at", s.Label, unit.MM), text, "geometry: where the faces meet", faces)
	s.Found = at[0] - with[1]
	if e.End == Minus {
		s.Found = at[1] - with[0]
	}
	l.stop(s, e)
}

// stop adds a bound that is already defined to its end, with its check.
func (l *Layout) stop(s Stop, e end) {
	sc := l.Scope.In(s.Key)
	l.Scope.Family(e.stops, "stops, "+e.name, unit.MM, s.Key+".bound")
	sc.Formula(quiet("gap", s.Label+": gap, "+e.name, "gap", unit.MM), e.gap, "geometry")
	sc.Check(sheet.Check{Key: "check", Label: s.title() + ", " + e.name, Figure: "gap", Limit: "touching", Level: sheet.Stop,
		Sentence: "As asked, {figure} is left where " + s.Label + ".", Source: "geometry"})
	l.Stops = append(l.Stops, s)
}

func (s Stop) title() string {
	r := []rune(s.Label)
	if len(r) > 0 && r[0] >= 'a' && r[0] <= 'z' {
		r[0] -= 'a' - 'A'
	}
	return string(r)
}

// obstacle is measured by the gap to it at the end of the travel as found.
// Not measured, it lies at or beyond that: the travel as it is stays exact, and
// a gain is "at most".
func (l *Layout) obstacle(o *Obstacle) {
	if o.Clear {
		return
	}
	e, text := l.ends()[0], "travel_found + gap_left"
	if o.End == Minus {
		e, text = l.ends()[1], "0 - gap_left"
	}
	sc := l.Scope.In(o.Key)
	leaf, err := o.Gap.Leaf(l.units)
	if err != nil {
		l.problem(o.Key+".gap", err.Error()[len(": "):])
	}
	unknown := leaf.Origin == sheet.Unknown
	if unknown {
		leaf.Min, leaf.Max = 0, math.Inf(1)
	}
	sc.Measure(quiet("gap_left", "gap to the "+o.Label, "gap to the "+o.Label, unit.MM), leaf)
	s := Stop{Key: o.Key, Label: "the " + o.Label + " is met", End: o.End, Unmeasured: unknown}
	sc.Formula(quiet("bound", o.Label+" met, slide at", o.Label, unit.MM), text, "geometry: the gap at the end of the travel as found")
	l.stop(s, e)
}

// closeEnds takes the nearest stop at either end, and a nameless one where no
// named stop explains the travel as found.
func (l *Layout) closeEnds() {
	sc := l.Scope
	for _, e := range l.ends() {
		var named []string
		for _, s := range l.Stops {
			if s.End == e.End && !s.Unmeasured {
				named = append(named, s.Key+".bound")
			}
		}
		sc.Family("named_"+string(e.End), "named stops, "+e.name, unit.MM, named...)
		key := "unnamed_" + string(e.End)
		in := sc.In(key)
		text := "when(min(named_plus) - travel_found > agree_within, travel_found, inf)"
		if e.End == Minus {
			text = "when(0 - max(named_minus) > agree_within, 0, -inf)"
		}
		// Decided as found: naming the stop later is a correction of the measurements.
		in.Fix(quiet("bound", "not named, "+e.name+": slide at", "what is not named", unit.MM), text, "the travel as found ends where no named stop explains it")
		l.stop(Stop{Key: key, Label: "something that is not named is met", End: e.End}, e)
		sc.Formula(sheet.Q{Key: e.reach, Label: "reached, " + e.name, Symbol: "reach", Unit: unit.MM, Quiet: true},
			e.least+"("+e.stops+")", "geometry: the nearest stop")
	}
	sc.Formula(shown("travel", "travel got, from stop to stop", "travel", unit.MM), "reach_plus - reach_minus", "geometry")
	sc.Formula(quiet("disagreement_plus", "named stops less the travel as found, "+short(l.Plus), "", unit.MM), "min(named_plus) - travel_found", "geometry")
	sc.Formula(quiet("disagreement_minus", "the start less the named stops, "+short(l.Minus), "", unit.MM), "0 - max(named_minus)", "geometry")
}

func (l *Layout) defineUsable() {
	sc := l.Scope
	sc.Family("uses_plus", "no good beyond", unit.MM)
	sc.Family("uses_minus", "no good beyond", unit.MM)
	sc.Formula(quiet("usable_plus", "usable to, "+short(l.Plus), "", unit.MM), "min(reach_plus, min(uses_plus))", "geometry: no further than it is of use")
	sc.Formula(quiet("usable_minus", "usable from, "+short(l.Minus), "", unit.MM), "max(reach_minus, max(uses_minus))", "geometry: no further than it is of use")
	sc.Formula(shown("usable", "travel that is of use", "", unit.MM), "max(0, usable_plus - usable_minus)", "geometry")
}
