package axis

import (
	"fmt"
	"math"
	"slices"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// overlap is how far two parts may lie in one another, as measured, before
// something is wrong with the figures, in mm.
const overlap = 0.5

// defineMeetings finds the pairs of parts that can meet: on opposite sides, in
// one lane. Each gives a bound on the position of the moving side.
func (l *Layout) defineMeetings() {
	for i := range l.Parts {
		for j := range l.Parts {
			f, m := &l.Parts[i], &l.Parts[j]
			if f.Side == Moving || m.Side != Moving || !share(f.lanes(), m.lanes()) {
				continue
			}
			for _, e := range l.meetAt(f, m) {
				l.meeting(f, m, e)
			}
		}
	}
	for i := range l.Obstacles {
		l.obstacle(&l.Obstacles[i])
	}
}

func share(a, b []string) bool {
	return slices.ContainsFunc(a, func(x string) bool { return slices.Contains(b, x) })
}

// meetAt is the end at which two parts meet: both, where nothing says which;
// none, where as measured they lie in one another.
func (l *Layout) meetAt(f, m *Part) []end {
	plus, minus := l.end(Plus), l.end(Minus)
	at, with := l.place[f.Key], l.place[m.Key]
	switch {
	case at[0] >= with[1]-overlap:
		return []end{plus}
	case at[1] <= with[0]+overlap:
		return []end{minus}
	case !math.IsNaN(at[0] + at[1] + with[0] + with[1]):
		l.Findings = append(l.Findings, fmt.Sprintf("As measured, %s and %s lie in one another: one of the figures is wrong, or they never meet.", m.Label, f.Label))
		return nil
	}
	switch a, b := l.about(f), l.about(m); {
	case a > b:
		return []end{plus}
	case a < b:
		return []end{minus}
	}
	return []end{plus, minus}
}

// about is where a part lies, as far as that is known: one of its faces, or of
// the part that it is tied to. NaN where nothing is known.
func (l *Layout) about(p *Part) float64 {
	for p != nil {
		for _, x := range l.place[p.Key] {
			if !math.IsNaN(x) {
				return x
			}
		}
		if p.Tie == nil || p.Tie.Part == p.Key {
			break
		}
		next, ok := l.Part(p.Tie.Part)
		if _, above := l.place[p.Tie.Part]; !ok || !above {
			break
		}
		p = next
	}
	return math.NaN()
}

// meeting bounds the position where two faces come together. Where one of them
// is not measured, the bound lies at or beyond the travel as found.
func (l *Layout) meeting(f, m *Part, e end) {
	s := Stop{Key: l.stopKey(f.Key + "_" + m.Key), Label: m.Label + " meets " + f.Label, Says: "the " + m.Label + " meets the " + f.Label,
		End: e.End, Fixed: f.Key, Moving: m.Key, Kind: Meets}
	fixedFace, movingFace := "from", "to"
	s.Found = l.place[f.Key][0] - l.place[m.Key][1]
	if e.End == Minus {
		fixedFace, movingFace = "to", "from"
		s.Found = l.place[f.Key][1] - l.place[m.Key][0]
	}
	sc := l.Scope.In(s.Key)
	l.Assume(sc, quiet("clearance", s.Label+": clearance to keep", "clearance", unit.MM), 0, "touching is the limit")
	text := e.bound
	if s.Unmeasured = math.IsNaN(s.Found); s.Unmeasured {
		text = e.most + "(" + e.found + ", " + text + ")"
	}
	faces := sheet.With{"fixed_face": f.Key + "." + fixedFace, "moving_face": m.Key + "." + movingFace}
	// What is smaller than the room under the slide passes below it.
	if l.Scope.Has(f.Key+".dia") && l.Scope.Has(m.Key+".underside") {
		text = "when(thing / 2 > room, " + text + ", " + e.never + ")"
		faces["thing"], faces["room"] = f.Key+".dia", m.Key+".underside"
	}
	sc.Formula(quiet("bound", s.Label+", "+l.Moves()+" at", s.Label, unit.MM), text, "geometry: where the faces meet", faces)
	l.stop(s, e, "between the "+m.Label+" and the "+f.Label)
}

// obstacle is measured by the gap to it at the end of the travel as found.
// Not measured, it lies at or beyond that: the travel as it is stays exact, and
// a gain is "at most".
func (l *Layout) obstacle(o *Obstacle) {
	if o.Clear {
		return
	}
	e, text := l.end(o.End), "travel_found + gap_left"
	if e.End == Minus {
		text = "0 - gap_left"
	}
	sc := l.Scope.In(o.Key)
	leaf := l.read(o.Key+".gap", o.Gap, l.units)
	leaf = l.refused(leaf, o.Key+".gap", NothingOrMore.refuses(leaf.Value))
	s := Stop{Key: o.Key, Label: o.Label, Says: "the " + o.Label + " is met", End: e.End, Found: math.NaN(), Unmeasured: leaf.Origin == sheet.Unknown, Kind: Meets}
	if s.Unmeasured {
		leaf.Min, leaf.Max = 0, math.Inf(1)
	}
	sc.Measure(quiet("gap_left", "gap to the "+o.Label, "gap to the "+o.Label, unit.MM), leaf)
	sc.Formula(quiet("bound", o.Label+" met, "+l.Moves()+" at", o.Label, unit.MM), text, "geometry: the gap at the end of the travel as found")
	l.stop(s, e, "to the "+o.Label)
}

// closeEnds takes the nearest stop at either end, and a nameless one where no
// named stop explains the travel as found.
func (l *Layout) closeEnds() {
	sc := l.Scope
	for _, e := range l.ends() {
		k := string(e.End)
		sc.Family("named_"+k, "named stops, "+e.name, unit.MM)
		maybe := sheet.Leaf{Origin: sheet.Chosen, Note: "every part that may stop it there is measured"}
		for _, s := range l.Stops {
			switch {
			case s.End != e.End:
			case !s.Unmeasured:
				sc.Family("named_"+k, "", unit.MM, s.Key+".bound")
			case s.Fixed != "":
				maybe = sheet.Leaf{Origin: sheet.Unknown, Min: 0, Max: math.Inf(1)}
			}
		}
		beyond := map[End]string{Plus: "min(named_plus) - travel_found", Minus: "0 - max(named_minus)"}[e.End]
		past := map[End]string{Plus: "travel_found + maybe", Minus: "0 - maybe"}[e.End]
		in := sc.In("unnamed_" + k)
		in.Measure(quiet("maybe", "what stops it, "+e.name, "", unit.MM), maybe)
		// Decided as found: naming the stop later is a correction of the measurements.
		in.Fix(quiet("bound", "not named, "+e.name+": "+l.Moves()+" at", "what is not named", unit.MM), "when("+beyond+" > agree_within, "+past+", "+e.never+")",
			"the travel as found ends where no named stop explains it")
		l.stop(Stop{Key: "unnamed_" + k, Label: "what is not named", Says: "something is met that is not named", End: e.End, Found: math.NaN(), Kind: Meets}, e, "to what is not named")
		// The travel as found is measured, and is exact, whatever is unknown beyond it.
		in.Formula(quiet("found", "travel as found, "+e.name, "travel as found", unit.MM),
			map[End]string{Plus: "when(asked_plus <= travel_found, travel_found, inf)", Minus: "when(asked_minus >= 0, 0, -inf)"}[e.End],
			"measured: no further unless more is asked for")
		sc.Family(e.stops, "", unit.MM, "unnamed_"+k+".found")
		sc.Formula(quiet(e.reach, "reached, "+e.name, "reach", unit.MM), e.least+"("+e.stops+")", "geometry: the nearest stop")
		sc.Formula(quiet("disagreement_"+k, "named stops beyond the travel as found, "+e.name, "", unit.MM), beyond, "geometry")
	}
	sc.Formula(shown("travel", "travel got, from stop to stop", "travel", unit.MM), "reach_plus - reach_minus", "geometry")
}

// Unexplained tells whether nothing that is on the sheet can stop the axis at an
// end: no two parts that come together there, and no obstacle that was measured.
func (l *Layout) Unexplained(e End) bool {
	stops := func(s Stop) bool {
		return s.End == e && (s.Fixed != "" || !s.Unmeasured && s.Key != "unnamed_"+string(e))
	}
	return len(l.Arr.Moving) > 0 && !slices.ContainsFunc(l.Stops, stops)
}

func (l *Layout) defineUsable() {
	sc := l.Scope
	for _, e := range l.ends() {
		sc.Family(e.uses, "no good beyond, "+e.name, unit.MM)
		sc.Formula(quiet("usable_"+string(e.End), "usable to, "+e.name, "", unit.MM), fmt.Sprintf("%s(%s, %s(%s))", e.least, e.reach, e.least, e.uses), "geometry: no further than it is of use")
	}
	sc.Formula(shown("usable", "travel that is of use", "", unit.MM), "max(0, usable_plus - usable_minus)", "geometry")
}
