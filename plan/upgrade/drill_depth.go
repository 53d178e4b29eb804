package upgrade

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// drillDepth: a hole that is deeper than the quill travels. More travel is
// almost never to be had: it studies the four limits, and raises the table.
type drillDepth struct{}

func (drillDepth) About() About {
	return About{
		Key: "drill_depth", Label: "Holes deeper than the quill goes",
		Words:   []string{"drill quill travel", "drill press stroke", "deep drilling", "spindle travel", "spline", "return spring", "long drill", "second stage"},
		Purpose: "What limits the quill is told, limit by limit; and the hole gets deeper by raising the table between two strokes.",
		Cautions: []string{
			"Isolate the machine before cover, spring or spindle are touched.",
			"The return spring holds stored energy: let it down a quarter of a turn at a time, gloves on, face away.",
			"A spindle that leaves its spline stops driving at once, and drops: never take the stop off to get deeper.",
			"A long drill whips: start the hole with a short one, and run it slowly.",
		},
		Proof: "Depth of a blind hole by depth gauge; the hole's far end beside its near one, by pin, for a step where the strokes meet.",
		Hours: [2]float64{1, 3}, Risk: LowRisk, Undo: Undone,
		Needs: []part.Capability{part.Bench},
		Cures: []string{"height.quill"},
	}
}

// Suits a quill that a pinion moves.
func (drillDepth) Suits(l *axis.Layout) bool {
	q, ok := l.WithRole("quill")
	return ok && l.Arr.Key == "rack" && q.Side == axis.Moving && l.Scope.Has("deepest")
}

// Trials of a deeper hole: the table raised as far as was drilled.
func (drillDepth) Trials(*axis.Layout) []Trial { return asUsual }

func (k drillDepth) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	s.aim("deepest", unit.MM, false)
	s.typed(sc, quiet("amount", "table raised by", "r", unit.MM), Field{Name: "amount", Label: "Raise the table between two strokes by", Hint: "no more than was drilled: 50"}, "", 0, mostTravel, 0)
	s.Amount, s.Most = sc.Key("amount"), 300
	l.Scope.Change("raised", "was + amount", "as asked", sheet.With{"amount": s.Amount})
	sc.Formula(quiet("solid", "hole there is, beyond what the table is raised by", "", unit.MM), "usable - amount", "geometry")
	sc.Check(sheet.Check{Key: "solid_check", Label: "Drill still stands in its hole", Figure: "solid", Limit: "touching", Level: sheet.Stop,
		Sentence: "Of the hole that the quill drills, {figure} is left when the table is raised; below {limit} the drill comes up against solid metal.", Source: "geometry"})
	if strings.TrimSpace(s.input("flute", "")) == "" {
		s.Fields = append(s.Fields, fluteField)
	} else {
		s.typed(sc, quiet("flute", "drill's flutes", "l_f", unit.MM), fluteField, "", 1, 1000, nan)
		sc.Check(sheet.Check{Key: "flute_check", Label: "Flutes come out of the hole", Figure: "flute", Limit: "deepest", Level: sheet.Use, Advice: true,
			Sentence: "The flutes are {figure} long; in a hole of {limit} they must reach its top, or the swarf jams.", Source: "geometry"})
	}
	k.limits(s)
}

var fluteField = Field{Name: "flute", Label: "Flutes of your longest drill", Hint: "blank: not compared"}

// quillLimit is one thing that the quill cannot pass.
type quillLimit struct{ key, says string }

// limits are rack, guide, spline and spring, as far as each is known.
func (k drillDepth) limits(s *Site) {
	l, sc := s.Layout, s.Scope
	k.spring(s)
	for _, x := range k.known(s) {
		sc.Family("limits", "what the quill cannot pass", unit.MM, x.key)
	}
	sc.Formula(quiet("most", "the "+l.Moves()+" goes no further than", "s", unit.MM), "min(limits)", "geometry: the nearest of rack, guide, spline and spring")
}

// known lists the limits that the axis has parts for.
func (drillDepth) known(s *Site) []quillLimit {
	l := s.Layout
	var all []quillLimit
	role := func(key string) string {
		p, ok := l.Part(key)
		if !ok {
			return ""
		}
		return p.Role
	}
	for _, st := range l.Stops {
		if st.End == axis.Plus && st.Kind == axis.RunsOut && (role(st.Fixed) == "rack" || role(st.Moving) == "rack") {
			all = append(all, quillLimit{l.Find(st.Key + ".bound"), "the rack ends"})
		}
	}
	for _, pair := range [][3]string{{"quill", "guide", "too little of it is left in its guide"}, {"spline", "spline_sleeve", "its spline leaves the sleeve"}} {
		inner, okI := l.WithRole(pair[0])
		outer, okO := l.WithRole(pair[1])
		if key := ""; okI && okO {
			key = inner.Key + "_on_" + outer.Key + ".lasts_plus"
			if l.Scope.Has(key) {
				all = append(all, quillLimit{l.Find(key), pair[2]})
			}
		}
	}
	if s.Scope.Has("spring") {
		all = append(all, quillLimit{s.Scope.Key("spring"), "the return spring is wound up"})
	}
	return all
}

// spring asks what turns the return spring has left; blank, it is not counted.
func (drillDepth) spring(s *Site) {
	pinion, ok := s.Layout.WithRole("pinion")
	if !ok {
		return
	}
	const group = "Return spring"
	turns := Field{Name: "turns", Label: "Turns left in the return spring, quill right down", Hint: "blank: the spring is not counted", Group: group}
	if strings.TrimSpace(s.input("turns", "")) == "" {
		s.Fields = append(s.Fields, turns)
		return
	}
	sc := s.Scope
	s.typed(sc, quiet("turns", "turns left in the return spring", "n", unit.One), turns, "", 0, 20, nan)
	s.typed(sc, sheet.Q{Key: "teeth", Label: "teeth of the pinion", Symbol: "z", Unit: unit.Count, Quiet: true, Whole: true}, Field{Name: "teeth", Label: "Teeth of the pinion", Hint: "12 to 16 are usual", Group: group}, "", 6, 60, nan)
	module := s.measuredOr(pinion.Key+".module", quiet("module", "module of the pinion", "m", unit.MM), Field{Name: "module", Label: "Module of the pinion", Hint: "1 to 1.5 is usual: outside diameter by teeth and two", Group: group}, "", 0.3, 6)
	sc.Formula(quiet("spring", "return spring wound up, at", "s", unit.MM), "travel_found + turns * pi * module * teeth", "geometry: a turn of the pinion moves π m z", sheet.With{"module": module})
}

func (k drillDepth) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	say.failures(s, r)
	k.tellLimits(&say, s, r)
	if amount, _ := r.Figure(s.Amount, sheet.Planned); !(amount.Value > 0) {
		say.text("Say by how much the table is raised between two strokes, and how deep the hole gets is shown here.")
		return say.runs
	}
	say.became("With the table raised in between, a hole can be ", " deep", s, r, s.Goals[0].Key)
	say.text(" Clamp table and work with the drill in its hole; nothing else follows.")
	return say.runs
}

// tellLimits tells how far the quill goes, and what comes one after another beyond.
func (k drillDepth) tellLimits(say *teller, s *Site, r *sheet.Result) {
	reach, ok := r.Figure(s.Layout.Find("reach_plus"), sheet.Planned)
	if !ok || !reach.Known() {
		return
	}
	type at struct {
		quillLimit
		mm float64
	}
	var list []at
	for _, x := range k.known(s) {
		if f, ok := r.Figure(x.key, sheet.Planned); ok && f.Known() && !math.IsInf(f.Value, 0) {
			list = append(list, at{x, f.Value})
		}
	}
	slices.SortStableFunc(list, func(a, b at) int { return cmp.Compare(a.mm, b.mm) })
	if len(list) == 0 {
		say.text("Measure rack, guide and spline: what stops the " + s.Layout.Moves() + " is told by them. ")
		return
	}
	var beyond []string
	for _, x := range list {
		beyond = append(beyond, "at "+show(s, x.mm)+" "+x.says)
	}
	say.text("The " + s.Layout.Moves() + " goes ").strong(show(s, reach.Value)).text(" down. Not beyond: " + strings.Join(beyond, "; ") + ". ")
}

// Parts: nothing is made. What is bought is a drill; what is done is told.
func (k drillDepth) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if !m.more(s.Amount) {
		return Make{}
	}
	bench := []part.Capability{part.Bench}
	by, _ := m.figure(sheet.Local(s.Amount, s.Layout.Key))
	m.buy(part.Bought{Key: "drill", Label: "long drill, its flutes at least as long as the hole is deep", Quantity: 1, For: "second_stroke", Confirm: "limits", Source: "ISO 494: twist drills with a parallel shank, long series (from memory, unchecked)"})
	m.step(measured, "", part.Operation{Key: "limits", Do: "Write down what is left, quill right down: of the rack beyond the pinion, of the quill in the head, of the spline in its sleeve, of the spring's turns.", Needs: bench, Minutes: [2]float64{30, 90}, Record: "the four lengths", Cautions: []string{isolate, "Leave the return spring wound: it holds stored energy."},
		Asks: []string{"How much of the spline is in its sleeve, quill right down? It is seen with the belt cover off.", "Does the table come back to its place sideways when it is raised? On a round column it swings."}})
	m.step(fitted, "", part.Operation{Key: "second_stroke", Do: "Drill to the quill's end with a short drill, then with the long one. Leave it in the hole, stop, raise the table by " + m.Units.With(by) + " along it, clamp, and drill on.", Needs: bench, After: []string{"limits"}, Minutes: [2]float64{10, 30}, Record: "depth of the hole", Cautions: []string{"Stop the spindle before the table is moved. Clear swarf with a brush, never by hand.", "A table that comes loose drops: hold its crank while it is unclamped."}})
	m.proofOf(k.About())
	return m.finish()
}
