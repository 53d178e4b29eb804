package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/unit"
)

// kneeClearance: room under a knee's screw. What is computed is how deep the hole,
// or how high the stand, has to be.
var kneeClearance = &guided{
	about: About{
		Key: "knee_clearance", Label: "Room under an elevating screw",
		Words:   []string{"elevating screw", "knee screw", "stand hole", "floor hole", "bottoming out", "Z travel"},
		Purpose: "The knee, or whatever else the screw lifts, comes right down: the screw no longer touches floor or stand before the end of its ways.",
		Measure: []string{"Where the screw's end stands with the knee at its lowest as it is, and how much further down the ways would let it go.", "What is under it: stand, floor, pipes."},
		Cautions: []string{"Isolate the machine before you reach under it.", "Prop the knee with timber before its screw is touched: it comes down by its own weight.", "Never reach under a machine that is jacked up: blocks under all corners first.",
			"Before a floor is drilled: find out about pipes, cables and damp proofing. A hole in the floor is covered.", "A machine that stands higher tips sooner: bolt it down."},
		Proof: "The whole travel of the knee with 10 mm left under the screw.",
		Hours: [2]float64{2, 5}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Bench},
		Cures: []string{"height.column", "reach.travel"},
	},
	suits: lifted,
	lay: func(s *Site) {
		s.given(given{"more", "Further way down that is wanted", "x", unit.MM, "", "", 0, 1000}, given{"room", "Room under the screw's end now", "c", unit.MM, "to whatever it would touch, right down", "", 0, 1000})
		l, sc := s.Layout, s.Scope
		l.Assume(sc, quiet("clear", "room to leave under the screw", "", unit.MM), 10, "common practice, no source: 10 mm, for swarf")
		sc.Formula(shown("deeper", "hole deeper, or stand higher, by", "h", unit.MM), "max(0, more + clear - room)", "geometry")
	},
	says: []says{{"The hole has to be ", "deeper", " deeper, or the stand so much higher."}},
	make: func(m *making) {
		m.step(measured, "", part.Operation{Key: "look_under", Do: "Knee at its lowest: measure from the screw's end to what is under it, and how much of the ways is left below the knee.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "both figures",
			Asks: []string{"Does the thread go so far, and the gib still bear on its ways?", "Does the handle's bevel case, or its crank, meet the base first?"}})
		m.step(stripped, "", part.Operation{Key: "raise_machine", Do: "Hoist or jack the machine a corner at a time onto blocks; cut the stand's top, or set spacers under its feet.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 150}, Record: "a photo of each foot before it is lifted", Cautions: []string{isolate, "Blocks under all corners before a hand goes under.", "A bench mill weighs 60 to 300 kg, a knee mill more: a hoist, and its sling above the middle of the weight."}})
		m.step(assembled, "", part.Operation{Key: "level", Do: "Set the machine down, level it, bolt it, cover the hole; oil the screw and wind the knee right down and up.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 120}, Record: "room left under the screw"})
	},
}
