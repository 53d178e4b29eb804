package upgrade

import (
	"math"

	"fettle/plan/fastener"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/thread"
	"fettle/plan/unit"
)

// oilScrew asks whether the screw that holds the nut is drilled, so that oil goes
// through it to the thread, and what the hole leaves of it.
func oilScrew(s *Site) {
	l := s.Layout
	const group = "Oil through the nut's fixing screw"
	size := s.choose(Field{Name: "oil_screw", Label: "Drilled", Options: []Option{{"none", "no"}, {"M5", "M5"}, {"M6", "M6"}, {"M8", "M8"}}, Group: group}, "none")
	if size == "none" {
		return
	}
	s.claim("nut_screw", "the nut's fixing screw")
	sc := s.Scope.In("oil_screw")
	t := coarse(size)
	own := func(q sheet.Q, v float64, note string) {
		sc.Measure(q, sheet.Leaf{Value: q.Unit.Inside(v), Origin: sheet.Chosen, Note: note})
	}
	own(quiet("dia", "nut's fixing screw, diameter", "d", unit.MM), t.Dia, size)
	own(quiet("pitch", "nut's fixing screw, pitch", "P", unit.MM), t.Pitch, size+", ISO 261")
	proposal := map[string]float64{"M5": 1.5, "M6": 2, "M8": 2.5}[size]
	s.typed(sc, quiet("hole", "hole through the nut's screw", "d_h", unit.MM), Field{Name: "hole", Label: "Hole through it", Hint: "1.5 to 3: under 1.5 dirt stops it", Group: group}, s.proposed(proposal), 0.3, 10, proposal)
	s.typed(sc, quiet("long", "nut's screw, length under its head", "l", unit.MM), Field{Name: "screw_length", Label: "Its length under the head", Group: group}, "", 4, 120, nan)
	classes := map[string]float64{"8.8": 580, "10.9": 830, "12.9": 970}
	class := s.choose(Field{Name: "class", Label: "Strength class, as marked on its head", Options: []Option{{"8.8", "8.8"}, {"10.9", "10.9"}, {"12.9", "12.9"}}, Group: group}, "8.8")
	own(quiet("proof", "proof stress of the screw", "S_p", unit.MPa), classes[class], "ISO 898-1, from memory, unchecked: 580 MPa of class 8.8, 830 of 10.9, 970 of 12.9")

	sc.Method(quiet("root", "nut's screw, root diameter", "d_3", unit.MM), screw.Root)
	sc.Method(quiet("pitch_dia", "nut's screw, pitch diameter", "d_2", unit.MM), thread.Metric.PitchDia)
	sc.Method(quiet("stress_area", "stress area of the plain screw", "A_s", unit.MM2), thread.Metric.StressArea)
	sc.Method(quiet("drilled_area", "section of the drilled screw", "A", unit.MM2), joint.DrilledArea)
	l.Assume(sc, quiet("full_torque", "torque of the plain screw", "T", unit.NewtonMetre), unit.NewtonMetre.In(0.7*joint.BoltTorques[t.Dia]), "common practice: class 8.8 at a friction of 0.14, 70 % of it into iron or bronze")
	sc.Method(shown("torque", "torque of the nut's drilled screw", "T", unit.NewtonMetre), joint.DrilledTorque)
	sc.Method(quiet("pull", "pull of the drilled screw", "F", unit.Newton), joint.BoltForce, sheet.With{"bolt_torque": "torque", "bolt_dia": "dia"})
	oilScrewChecks(s, sc)
}

func oilScrewChecks(s *Site, sc *sheet.Scope) {
	l := s.Layout
	sc.Method(quiet("wall", "wall of the drilled screw, at the root of its thread", "", unit.MM), joint.DrilledWall)
	l.Assume(sc, quiet("wall_least", "least wall of a drilled screw", "", unit.MM), 1, "common practice, no source: 1 mm, a drill wanders")
	sc.Check(sheet.Check{Key: "wall_check", Label: "Wall of the drilled screw", Figure: "wall", Limit: "wall_least", Level: sheet.Rule,
		Sentence: "{figure} is left around the hole, and {limit} is the least.", Source: "common practice, no source"})
	sc.Formula(quiet("stress", "stress in the drilled screw", "σ", unit.MPa), "pull / drilled_area", "elementary mechanics: F / A")
	l.Limit(sc, quiet("stress_most", "most stress in a screw that is tightened", "", unit.MPa), sheet.Method{Text: "0.7 * proof", Source: "common practice: 70 % of the proof stress (ISO 898-1)"})
	sc.Check(sheet.Check{Key: "stress_check", Label: "Stress in the drilled screw", Figure: "stress", Limit: "stress_most", AtMost: true, Level: sheet.Rule,
		Sentence: "Tightened, the drilled screw bears {figure}, and {limit} is the most for its class.", Source: "ISO 898-1"})
	l.Assume(sc, quiet("friction", "friction of the nut on its seat", "µ", unit.One), joint.ClampFriction, joint.ClampFrictionSource)
	sc.Formula(quiet("held", "thrust that friction holds the nut against", "", unit.Newton), "friction * pull", "statics: µ F")
	l.Assume(sc, quiet("thrust", "thrust of a cut on the nut", "", unit.Newton), 500, "common practice, no source: 100 to 500 N on a small machine's slide")
	sc.Check(sheet.Check{Key: "held_check", Label: "Nut held by its drilled screw", Figure: "held", Limit: "thrust", Level: sheet.Rule, Advice: true,
		Sentence: "Friction holds the nut against {figure}, and a cut pushes up to {limit}: a spigot or a dowel must take the rest.", Source: "statics"})
	sc.Formula(quiet("slender", "length of the hole, times its diameter", "", unit.One), "long / hole", "geometry")
	l.Assume(sc, quiet("slender_most", "most that is drilled by hand feed, times the diameter", "", unit.One), 15, "common practice, no source: 15 diameters, cleared often")
	sc.Check(sheet.Check{Key: "slender_check", Label: "Hole not too deep for its drill", Figure: "slender", Limit: "slender_most", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "The hole is {figure} times as deep as wide, and {limit} is what goes well: drill from both ends, or a larger hole.", Source: "common practice, no source"})
}

// oilScrewParts are the drilled screw, its cap, and the nut's cross hole.
func oilScrewParts(m *making) {
	size := m.input("oil_screw", "none")
	if size == "none" {
		return
	}
	own := "upgrade_" + m.ID + ".oil_screw."
	head, _ := fastener.ScrewNamed("ISO 4762", size)
	long := m.or(own+"long", 20)
	hole := m.general(want{part: "oil_screw", name: "hole", label: "hole right through", key: own + "hole", nominal: 2, leaf: own + "hole", formula: "made", grows: true})
	m.add(part.Part{Key: "oil_screw", Label: "nut's fixing screw, drilled", Altered: true, Material: "42crmo4", Round: &part.Round{
		Outside: []part.Step{{Label: "head, as it is", Length: drawn("", head.Height), Dia: drawn("", head.Head), Old: true}, {Label: "thread, as it is", Length: drawn("", long), Dia: drawn("", head.Dia), Thread: size, Old: true}},
		Left:    []part.Step{{Label: "hole", Length: drawn("", head.Height+long), Dia: hole, Through: true}}},
		Notes: []string{"Drilled from the bottom of the socket, along the axis; break both ends of the hole.", "Deburr, and blow it out towards a rag with a hand bellows: swarf in it goes into the nut's thread."}})
	spigot := m.limits(want{part: "oil_cap", name: "spigot", label: "spigot, in the socket", nominal: head.Key}, 0.08, 0.03, "common practice, no source: a light press between the six flats")
	m.add(part.Part{Key: "oil_cap", Label: "cap of the oil screw, against swarf", Material: "cuzn39pb3", Round: &part.Round{
		Outside: []part.Step{{Label: "head", Length: m.general(want{part: "oil_cap", label: "head, thickness", nominal: 1.5}), Dia: m.general(want{part: "oil_cap", label: "head", nominal: head.Head}), Chamfer: 0.3},
			{Label: "spigot", Length: drawn("", math.Round(head.Height/2)), Dia: spigot, Chamfer: 0.5}}},
		Notes: []string{"A shallow groove round the head's edge, so that a nail lifts it.", "It goes back after each oiling: an open hole collects swarf."}})
	m.step(made, "oil_cap", part.Operation{Key: "turn_oil_cap", Do: "Turn the cap, its spigot a light press in the socket.", Needs: []part.Capability{part.Turning}, Envelope: [2]float64{20, head.Head}, Minutes: [2]float64{15, 30}, Record: "spigot, by micrometer", Cautions: []string{eyes}})
	m.step(stripped, "", part.Operation{Key: "nut_screw_out", Do: "Take the nut's fixing screw out, and the nut.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "shims and where they lay, with a photo", Cautions: []string{isolate}})
	m.step(fitted, "oil_screw", part.Operation{Key: "drill_oil_screw", Do: "Hold the screw in a collet or a split bush, centre it, and drill it in steps, clearing the drill at every diameter of depth. A class 12.9 screw is hard: slowly, with oil, or a softer screw.", Needs: []part.Capability{part.Turning}, Envelope: [2]float64{head.Height + long, head.Head}, Minutes: [2]float64{30, 60}, Record: "its hole at both ends, with a photo", Cautions: []string{eyes},
		Asks: []string{"Does a spare screw stay as it is, in case the drill breaks?"}})
	m.step(fitted, "", part.Operation{Key: "drill_nut", Do: "Drill on from the nut's tapped hole into its thread, deburr the thread, and scratch a groove along one side of it.", Needs: []part.Capability{part.Bench}, After: []string{"nut_screw_out"}, Minutes: [2]float64{20, 45}, Record: "the hole in the nut, with a photo", Cautions: []string{eyes},
		Asks: []string{"Does the screw's end stand clear of the feed screw by 1 mm at least?", "Is the cap clear of what passes over the slide?"}})
	torque := "by what the plan says"
	if v, ok := m.figure(own + "torque"); ok {
		torque = unit.NewtonMetre.With(v)
	}
	m.step(assembled, "", part.Operation{Key: "fit_oil_screw", Do: "Nip the nut up with the slide at the end nearest the bracket, wind out, and tighten its drilled screw with " + torque + ", no more. Fill it until oil stands in the socket, and press the cap in.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "how many drops it took", Cautions: []string{isolate}})
}
