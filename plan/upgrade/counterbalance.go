package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// counterbalance: gas struts that carry a head, or a table, that goes up and down.
type counterbalance struct{}

func (counterbalance) About() About {
	return About{
		Key: "counterbalance", Label: "Counterbalance by gas struts",
		Words:   []string{"gas strut", "gas spring", "head counterweight", "Z axis", "heavy head", "lift assist", "balance weight"},
		Purpose: "The head is as light to wind up as down, and its weight no longer sits on the screw.",
		Cautions: []string{
			"Isolate the machine before the head is touched.",
			"A gas strut holds stored energy: fit it, and take it off, only where it is fully out, with the head locked and blocked from below.",
			"Lock the head and put a block of wood under it before the screw, the nut or an old strut comes off: a head weighs 25 to 90 kg.",
			"Never drill, heat or cut a strut. Keep hands out of where it closes.",
			"With the weight off the screw its play shows: approach from one side.",
		},
		Proof: "Force at the handle, upwards and downwards, by spring balance at both ends and in the middle: alike within 20 %.",
		Hours: [2]float64{2, 5}, Risk: MediumRisk, Undo: UndonePart, Own: false,
		Needs: []part.Capability{part.Bench},
		Cures: []string{"stiff.weight"},
	}
}

// Suits what goes up and down, but for a quill, which has a spring of its own.
func (counterbalance) Suits(l *axis.Layout) bool {
	if _, quill := l.WithRole("quill"); quill || l.Arr.Key == "" {
		return false
	}
	return upright(l) || l.Upright()
}

// Trials of struts: one, and two, as strong as all holds, with the next 50 mm of
// stroke above the travel and what it is to spare.
func (counterbalance) Trials(l *axis.Layout) []Trial {
	stroke := ""
	if travel := asFound(l, "travel_found"); travel > 0 {
		stroke = unit.MM.With(50 * math.Ceil((travel+slide.StrutSpare)/50))
	}
	return []Trial{{"one strut", map[string]string{"struts": "1", "stroke": stroke}}, {"two struts", map[string]string{"struts": "2", "stroke": stroke}}}
}

func (k counterbalance) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	s.claim("counterbalance", "what carries the head")
	names := sheet.With{"mass": s.measuredOr("moving_mass", quiet("mass", "mass of what goes up and down", "m", unit.Kilogram), Field{Name: "mass", Label: "Mass of what goes up and down", Hint: "on a scale when it is off, or from its sizes"}, "", 0.5, 5000)}
	s.typed(sc, quiet("force", "push of one strut, fully out", "F", unit.Newton), Field{Name: "force", Label: "Push of one strut, fully out", Hint: "as it is sold: 150 N"}, "", 0, 20000, nan)
	s.Amount, s.Most = sc.Key("force"), 1500
	n := s.choose(Field{Name: "struts", Label: "Struts", Options: []Option{{"1", "one"}, {"2", "two, one on either side"}}}, "2")
	s.own(quiet("struts", "struts", "n", unit.Count), float64(few(n)), "as chosen")
	s.typed(sc, quiet("stroke", "stroke of a strut", "h", unit.MM), Field{Name: "stroke", Label: "Stroke of a strut", Hint: "the travel and 10 mm more, at the least"}, "", 1, 2000, nan)
	s.typed(sc, quiet("angle", "strut from the direction of travel", "α", unit.Degree), Field{Name: "angle", Label: "Strut leans from the direction of travel by", Hint: "0 where it stands along it"}, "0", 0, 60, 0)
	l.Assume(sc, quiet("rise", "strut pushes more all the way in, by a share", "", unit.Percent), unit.Percent.In(slide.StrutRise), slide.StrutRiseSource)
	names["strut_force"] = "force"
	sc.Method(quiet("weight", "weight of what goes up and down", "W", unit.Newton), slide.Weight, names)
	sc.Method(shown("out", "struts lift, right up", "", unit.Newton), slide.StrutOut, names)
	sc.Method(shown("in", "struts lift, right down", "", unit.Newton), slide.StrutIn, names)
	old := "0"
	if l.Scope.Has("counterweight") {
		sc.Method(quiet("old", "carried by what there is", "", unit.Newton), slide.Weight, sheet.With{"mass": "counterweight"})
		old = "old"
	}
	sc.Measure(quiet("fitted", "struts fitted", "", unit.One), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	carried := func(lift string) string { return "abs(weight - when(fitted > 0, " + lift + ", " + old + "))" }
	sc.Formula(shown("off", "weight not carried, at the worst", "", unit.Newton), "max("+carried("out")+", "+carried("in")+")", "statics: right up or right down")
	s.aim("upgrade_"+s.ID+".off", unit.Newton, true)
	sc.Change("fitted", "1", "as chosen")
	k.checks(s)
	k.stroke(s)
}

// checks: it is as heavy upwards as downwards, at both ends.
func (counterbalance) checks(s *Site) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("off_most", "most of the weight that may not be carried", "", unit.Percent), unit.Percent.In(slide.BalanceOff), slide.BalanceSource)
	for _, e := range []struct{ key, lift, where string }{{"top", "out", "right up"}, {"bottom", "in", "right down"}} {
		sc.Formula(quiet("off_"+e.key, "share of the weight not carried, "+e.where, "", unit.Percent), "abs(weight - "+e.lift+") / weight", "definition")
		sc.Check(sheet.Check{Key: e.key + "_check", Label: "Balanced, " + e.where, Figure: "off_" + e.key, Limit: "off_most", AtMost: true, Level: sheet.Rule,
			Sentence: capital(e.where) + ", {figure} of the weight is not carried, or carried too much, and {limit} is the most.", Source: slide.BalanceSource})
	}
	s.own(quiet("no_creep", "no more than it weighs", "0", unit.Newton), 0, "what it weighs is the limit")
	sc.Formula(quiet("creeps", "struts push more than it weighs, right down", "", unit.Newton), "max(0, in - weight)", "statics")
	sc.Check(sheet.Check{Key: "creep_check", Label: "Does not rise by itself", Figure: "creeps", Limit: "no_creep", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "Right down the struts push {figure} more than it weighs: unlocked and off its screw it rises.", Source: "statics"})
}

// stroke: as long as the travel and more, also when a riser lifts the head.
func (counterbalance) stroke(s *Site) {
	l, sc := s.Layout, s.Scope
	sc.Formula(quiet("spare", "stroke beyond the travel", "", unit.MM), "stroke - travel", "geometry")
	l.Assume(sc, quiet("spare_least", "stroke beyond the travel, at the least", "", unit.MM), slide.StrutSpare, slide.StrutSource)
	sc.Check(sheet.Check{Key: "stroke_check", Label: "Stroke of the struts", Figure: "spare", Limit: "spare_least", Level: sheet.Stop,
		Sentence: "The stroke is {figure} longer than the travel, and {limit} is the least: a strut must end nothing.", Source: slide.StrutSource})
	if l.Scope.Has("strut_spare") {
		l.Scope.Change("strut_spare", "max(0, spare)", "geometry: the new strut's stroke beyond the travel", sheet.With{"spare": sc.Key("spare")})
	} else if l.Scope.Has("riser") {
		sc.Formula(quiet("left", "stroke left with the riser", "", unit.MM), "spare - riser", "geometry: the riser lifts the head, and the anchors stay")
		sc.Check(sheet.Check{Key: "riser_check", Label: "Struts with the riser", Figure: "left", Limit: "touching", Level: sheet.Stop,
			Sentence: "{figure} of the stroke is left with the riser: lift the lower anchors as well.", Source: "geometry"})
	}
}

func (counterbalance) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("force", "")) == "" {
		say.text("Say how hard a strut pushes, and how well it balances is shown here.")
		if w, ok := s.figured(r, s.Scope.Key("weight")); ok {
			say.text(" The weight to be carried is ").strong(w).text(".")
		}
		return say.runs
	}
	say.failures(s, r)
	out, okO := s.figured(r, s.Scope.Key("out"))
	in, okI := s.figured(r, s.Scope.Key("in"))
	if w, ok := s.figured(r, s.Scope.Key("weight")); ok && okO {
		say.text("Of a weight of " + w + " the struts carry ").strong(out).text(" right up")
		if okI {
			say.text(" and ").strong(in).text(" right down")
		}
		say.text(". ")
	}
	say.became("At the worst the weight not carried comes to ", "", s, r, s.Goals[0].Key)
	return say.runs
}

// Parts of a counterbalance: struts and their anchors.
func (k counterbalance) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if strings.TrimSpace(s.input("force", "")) == "" {
		return Make{}
	}
	own := "upgrade_" + s.ID + "."
	n := few(s.input("struts", "2"))
	label := "gas struts"
	if f, ok := s.figured(r, s.Scope.Key("force")); ok {
		label += ", " + f + " fully out"
	}
	if h, ok := m.figure(own + "stroke"); ok {
		label += ", stroke " + s.Units.With(h)
	}
	m.buy(part.Bought{Key: "gas_struts", Label: label + ", with ball ends", Quantity: n, For: "fit_struts", Confirm: "measure_anchors", Source: "common practice, no source"})
	m.buy(part.Bought{Key: "strut_balls", Label: "ball studs for their ends, M8", Quantity: 2 * n, For: "fit_struts", Source: "common practice, no source"})
	anchor := &part.Flat{Length: m.general(want{part: "strut_anchor", name: "length", label: "length", nominal: 60}), Width: m.general(want{part: "strut_anchor", name: "width", label: "width", nominal: 30}), Thickness: m.general(want{part: "strut_anchor", name: "thickness", label: "thickness", nominal: 8}), Angle: 90}
	at := func(x float64, thread string, dia float64, label string) part.Feature {
		return part.Feature{Kind: part.Hole, Label: label, X: m.general(want{part: "strut_anchor", label: label + ", from the end", nominal: x}), Y: drawn("", 15), Dia: drawn("", dia), Thread: thread}
	}
	anchor.Features = []part.Feature{at(12, "", 6.6, "for the bolts"), at(32, "", 6.6, "for the bolts"), at(50, "M8", 6.8, "ball stud")}
	m.add(part.Part{Key: "strut_anchor", Label: "anchor of a strut", Material: "s275", Quantity: 2 * n, Flat: anchor, Notes: []string{"Both anchors of a strut in its line of travel, or it binds.", "Bolt holes for M6, spotted through into the castings: 1.5 diameters of thread in cast iron."}})
	const stored = "A gas strut holds stored energy: only fully out, the head locked and blocked from below."
	m.step(measured, "", part.Operation{Key: "measure_anchors", Do: "Weigh the head, or reckon its weight. Mark where the anchors can stand, with the head right up: there the strut is out and all but slack.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "between the anchors, head right up and right down", Cautions: []string{isolate},
		Asks: []string{"Does the strut clear motor, belt guard and cables over all the travel?"}})
	m.step(made, "strut_anchor", part.Operation{Key: "make_strut_anchor", Do: "Saw, drill and tap the anchors.", Needs: []part.Capability{part.Bench}, Envelope: [2]float64{60, 30}, Minutes: [2]float64{60, 120}, Record: "the anchors, with a photo", Cautions: []string{eyes}})
	m.step(stripped, "", part.Operation{Key: "lock_head", Do: "Wind the head right up, lock it, and block it from below with wood between head and table.", Needs: []part.Capability{part.Bench}, After: []string{"make_strut_anchor"}, Minutes: [2]float64{15, 30}, Record: "the block in its place, with a photo", Cautions: []string{isolate, stored},
		Asks: []string{"Is the head locked, and does it stand on its block?", "Is the old strut or weight let off, and nobody's hand in its way?"}})
	m.step(assembled, "", part.Operation{Key: "fit_struts", Do: "Bolt the anchors on, put the struts in fully out, and wind the head down by hand slowly, watching them.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "the struts at both ends, with photos", Cautions: []string{stored, "Hands and face out of the line of a strut."},
		Asks: []string{"Does the strut have stroke left with the head right down, and with it right up?"}})
	m.proofOf(k.About())
	return m.finish()
}
