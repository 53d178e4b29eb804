package upgrade

import (
	"fettle/plan/drive"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// backPlates: what chucks, faceplates and steadies are fitted with. What is computed
// is how fast a plate of grey iron may turn, and its register.
var backPlates = &guided{
	about: About{
		Key: "back_plates", Label: "Back plates and steadies",
		Words:   []string{"backplate", "chuck adapter", "adapter plate", "chuck back", "register", "fixed steady", "follower rest", "follow rest", "steady rest", "faceplate"},
		Purpose: "A chuck runs true on its own plate, and long or thin work is held by a steady.",
		Measure: []string{"The spindle's nose: register, face, thread or taper, by micrometer.", "The chuck's recess: diameter at three places, depth; its bolts.", "Centre height above bed and cross slide, for a steady."},
		Cautions: []string{"Isolate the machine before chucks are changed: no key stays in a chuck.", "A chuck weighs 5 to 30 kg: a board across the bed, and help.", "A chuck on a threaded nose unscrews when the spindle is braked or reversed.",
			"An iron plate bursts when it turns too fast, and one that was dropped may be cracked: ring it.", "Jaws of a steady are set with the spindle stopped."},
		Proof: "Run-out on the plate's register and face at most 0.01 mm, in the chuck at most 0.02 mm; taken off and on three times.",
		Hours: [2]float64{3, 10}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Boring, part.Threads}, Own: true,
		Cures: []string{"rocks.spindle", "rocks.stack"},
	},
	suits: latheSlide,
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"outside", "Diameter of the plate", "D", unit.MM, "as the chuck", "", 20, 600}, given{"recess", "Recess in the chuck", "d", unit.MM, "inside micrometer, three places", "", 10, 500}, given{"fastest", "Fastest speed of the spindle", "n", unit.RPM, "the machine's plate", "", 1, 10000})
		l.Assume(sc, quiet("rim", "speed that a rim of grey iron takes", "v", metrePerS), drive.IronRim, drive.IronRimSource)
		sc.Method(shown("turns_most", "plate turns at most", "n_max", unit.RPM), drive.RimTurns, sheet.With{"dia": "outside"})
		sc.Check(sheet.Check{Key: "speed_check", Label: "Plate stands the fastest speed", Figure: "fastest", Limit: "turns_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The spindle runs up to {figure}, and a plate of grey iron of that size takes {limit}: make it of steel, or mark the speed on it.", Source: drive.IronRimSource})
	},
	says: []says{{"A plate of grey iron of that size turns at ", "turns_most", " at the most: the chuck's own limit may be lower, and then counts."}},
	make: func(m *making) {
		outside, recess := m.or(m.mine("outside"), 125), m.or(m.mine("recess"), 95)
		register := m.class(want{part: "plate", name: "register", label: "register, turned on the spindle", key: m.mine("recess"), nominal: recess}, "h6")
		m.add(part.Part{Key: "plate", Label: "back plate", Material: "gjl250", Round: &part.Round{Outside: []part.Step{{Label: "plate", Length: drawn("", 20), Dia: drawn("", outside), Chamfer: 1}, {Label: "register", Length: drawn("a little less than the recess is deep", 3), Dia: register, Chamfer: 0.5}}},
			Notes: []string{"Nose side first: bored and threaded, or to the taper, so that it seats on its face; then all else turned in place on its own spindle.", "The chuck seats on the plate's face, not on the bottom of its recess.", "Holes: spotted from the chuck."}})
		m.buy(part.Bought{Key: "casting", Label: "casting or blank of grey iron for the plate, or a set of castings for a steady", Quantity: 1, For: "plate", Confirm: "measure_nose", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "measure_nose", Do: "Measure nose and recess, and make a plug gauge of the nose: the spindle cannot be tried while work is in it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "nose and recess", Cautions: []string{isolate},
			Asks: []string{"Has the chuck in hand been measured, or only its list? A recess turned to a list is turned twice."}})
		m.step(made, "plate", part.Operation{Key: "turn_plate", Do: "Bore and thread the nose side, screw it home, then turn face and register in place, register last and by trial with the chuck.", Needs: []part.Capability{part.Turning, part.Boring, part.Threads}, After: []string{"measure_nose"}, Envelope: [2]float64{40, outside}, Minutes: [2]float64{150, 400}, Record: "register, run-out", Cautions: []string{eyes, ironDust}})
		m.step(assembled, "", part.Operation{Key: "fit_chuck", Do: "Draw the chuck on with its bolts, crosswise; mark plate and chuck so that they go together again.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "run-out in the chuck, three times off and on", Cautions: []string{"A board across the bed under the chuck.", "No key left in a chuck."}})
	},
}
