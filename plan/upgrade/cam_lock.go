package upgrade

import (
	"fettle/plan/drive"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// camLock: a lever and eccentric in place of a nut under the tailstock. What is
// computed is its lift, its pull, and whether it stays.
var camLock = &guided{
	about: About{
		Key: "cam_lock", Label: "Lever lock for the tailstock",
		Words:   []string{"cam lock", "camlock", "eccentric", "quick clamp", "locking lever", "bed clamp"},
		Purpose: "The tailstock is clamped and let go with one move of a lever, with no spanner.",
		Measure: []string{"How much the clamp plate drops when it is loose, and what the bed's underside looks like.", "Room for a lever's swing, and whom it points at."},
		Cautions: []string{"Isolate the machine before you work under the bed.", "A lock that lets go under a drill hurts: it has to hold 1 kN, tried with a lever against the chuck's jaws, before it is trusted.",
			"The lever swings clear of chuck, belt and fingers, and points away when it is locked."},
		Proof: "Locked with one hand, it holds a push of 1 kN along the bed; it comes free by the lever alone.",
		Hours: [2]float64{3, 5}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Boring, part.Milling}, Own: true,
		Cures: []string{"rocks.unlocked"},
	},
	suits: tailstock,
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"throw", "Throw of the eccentric", "e", unit.MM, "1 to 2 mm is usual", "", 0.2, 10}, given{"dia", "Diameter of the eccentric", "D", unit.MM, "", "", 5, 80}, given{"lever", "Length of the lever", "", unit.MM, "from the shaft to the hand", "", 20, 500},
			given{"swing", "Swing of the lever up to its dead centre", "φ", unit.Degree, "from slack to tight", "90", 10, 170})
		l.Assume(sc, quiet("hand", "force of a hand on the lever", "F", unit.Newton), 80, "common practice, no source: 20 to 100 N")
		l.Assume(sc, quiet("friction", "friction, oiled steel", "µ", unit.One), 0.12, "common practice, no source: 0.1 to 0.15")
		l.Assume(sc, quiet("short", "before its dead centre", "", unit.Degree), 15, "assumed: locked a little short of it, so that wear can be followed")
		sc.Formula(quiet("radius", "radius of the eccentric", "r", unit.MM), "dia / 2", "geometry")
		sc.Method(shown("lift", "clamp plate is lifted by", "", unit.MM), drive.EccentricLift)
		sc.Method(shown("pull", "pull of the lock", "F", unit.Newton), drive.EccentricPull)
		l.Assume(sc, quiet("bed_friction", "friction of the ways", "µ", unit.One), slide.Friction, slide.FrictionSource)
		sc.Formula(shown("holds", "push along the bed that it holds", "F", unit.Newton), "2 * bed_friction * pull", "statics: friction above and below the bed")
		l.Assume(sc, quiet("holds_least", "push that it has to hold", "", unit.Newton), 1000, "common practice, no source: 1 kN, of a large drill")
		sc.Check(sheet.Check{Key: "holds_check", Label: "Lock holds a large drill", Figure: "holds", Limit: "holds_least", Level: sheet.Rule,
			Sentence: "Locked by hand it holds {figure} along the bed, and {limit} is wanted.", Source: "common practice, no source"})
		sc.Method(quiet("stays", "throw up to which it stays wherever it stands", "", unit.MM), drive.EccentricHolds)
		sc.Formula(quiet("near", "throw that counts so near its dead centre", "", unit.MM), "throw * sin(short)", "geometry: e sin φ")
		sc.Check(sheet.Check{Key: "stays_check", Label: "Lever stays locked by itself", Figure: "near", Limit: "stays", AtMost: true, Level: sheet.Rule,
			Sentence: "So near its dead centre {figure} of throw works against the lever, and up to {limit} friction holds it.", Source: drive.EccentricHolds.Source})
	},
	says: []says{{"The plate is lifted by ", "lift", "."}, {"A hand draws it up with ", "pull", "."}, {"It holds ", "holds", " along the bed."}},
	make: func(m *making) {
		d := m.class(want{part: "cam", name: "dia", label: "eccentric", key: m.mine("dia"), nominal: 16}, "f7")
		throw := m.or(m.mine("throw"), 1.5)
		shaft := m.class(want{part: "cam", name: "shaft", label: "shaft, off the eccentric's middle by the throw", nominal: max(4, d.Nominal-2*throw-1)}, "f7")
		m.add(part.Part{Key: "cam", Label: "eccentric shaft", Material: "silver_steel", Round: &part.Round{Outside: []part.Step{{Label: "shaft", Length: drawn("as the base is wide", 30), Dia: shaft, Chamfer: 0.5}, {Label: "eccentric", Length: drawn("", 20), Dia: d}, {Label: "shaft, as the other", Length: drawn("", 30), Dia: drawn("", shaft.Nominal), Chamfer: 0.5}}},
			Notes: []string{"Turn the eccentric in the four-jaw chuck, set off by the throw, by gauge: the dial shows twice the throw.", "Shafts on the drawing are off the eccentric's middle by the throw.", "Lever fixed with a pin; a stop each way."}})
		m.step(measured, "", part.Operation{Key: "measure_drop", Do: "Slacken the clamp: how far does the plate drop, and where is there room for a cross shaft in the base?", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "drop of the plate, room"})
		m.step(made, "cam", part.Operation{Key: "turn_cam", Do: "Turn shaft and eccentric in one piece, and the draw bolt with its block.", Needs: []part.Capability{part.Turning, part.Boring}, After: []string{"measure_drop"}, Envelope: [2]float64{80, d.Nominal}, Minutes: [2]float64{90, 200}, Record: "throw, by gauge", Cautions: []string{eyes, "Work in the four-jaw chuck is out of balance: low speed."}})
		m.step(cut, "", part.Operation{Key: "bore_base", Do: "Bore the base across for the shaft.", Needs: []part.Capability{part.Milling}, Minutes: [2]float64{60, 150}, Record: "bore", Cautions: []string{eyes, ironDust}, Asks: []string{"How thick is the wall where the bore comes through, and what is behind it?"}})
		m.step(assembled, "", part.Operation{Key: "set_lock", Do: "Set the draw bolt's nut so that the lever comes tight a little before its dead centre; try it against 1 kN with a lever, spindle stopped.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "push at which it slips", Cautions: []string{isolate}})
	},
}
