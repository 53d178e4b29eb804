package upgrade

import (
	"fettle/plan/drive"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// speedBelts: speeds, belts and what drives them. What is computed is the belt and
// the speed that it gives.
var speedBelts = &guided{
	about: About{
		Key: "speed_belts", Label: "Belts and speed control", Whole: true,
		Words:   []string{"variable speed", "inverter", "pulley", "vee belt", "v-belt", "poly-vee", "tachometer", "rev counter", "reversing", "motor", "low speed", "brake"},
		Purpose: "The spindle turns as slowly or as fast as the work wants, quietly, and its speed can be read.",
		Measure: []string{"Pulleys: the diameters at which the belt runs, and how far their axes are apart, at both ends of the adjustment.", "Speed of the motor by its plate, of the spindle by a counter."},
		Cautions: []string{"Isolate the machine before a guard is opened: a belt takes fingers.", "Wiring is for a competent electrician: earth, fuse, no-volt release and emergency stop stay in circuit, and nothing starts again by itself when the supply comes back.", "A drive keeps a charge after it is unplugged: wait as long as its label says.",
			"A chuck on a threaded nose unscrews when it is reversed or braked hard: do neither, or lock it on.", "Never above the speed that the chuck, the plate or the wheel is marked with.", "A motor that turns slowly cools badly: low speeds by pulleys, not by the drive alone."},
		Proof: "Speeds by a counter, loaded; motor and bearings, felt at a standstill after 20 minutes, no more than hand-warm; the emergency stop tried at the fastest speed.",
		Hours: [2]float64{6, 20}, Risk: MediumRisk, Undo: UndonePart, Needs: []part.Capability{part.Turning, part.Bench}, Own: true,
		Cures: []string{"speed.range"},
	},
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"speed", "Speed of the motor", "n_1", unit.RPM, "its plate", "", 1, 30000}, given{"driver", "Diameter of the motor's pulley", "d", unit.MM, "where the belt runs", "", 5, 1000},
			given{"driven", "Diameter of the driven pulley", "D", unit.MM, "the same", "", 5, 1500}, given{"centres", "Distance of the two axes", "C", unit.MM, "middle to middle", "", 10, 3000})
		sc.Method(shown("turns", "driven pulley turns at", "n_2", unit.RPM), drive.Driven)
		sc.Method(shown("belt", "belt, along its pitch line", "L", unit.MM), drive.BeltLength)
		sc.Method(shown("wrap", "belt lies on the smaller pulley over", "β", unit.Degree), drive.BeltWrap)
		l.Assume(sc, quiet("wrap_least", "least angle on the smaller pulley", "", unit.Degree), drive.WrapLeast, drive.WrapLeastSource)
		sc.Check(sheet.Check{Key: "wrap_check", Label: "Belt grips the smaller pulley", Figure: "wrap", Limit: "wrap_least", Level: sheet.Rule,
			Sentence: "The belt lies on the smaller pulley over {figure}, and {limit} is the least: a step less between them, or a jockey pulley.", Source: drive.WrapLeastSource})
		sc.Formula(quiet("apart", "axes apart, less what the pulleys take", "", unit.MM), "centres - (driver + driven) / 2", "geometry")
		sc.Check(sheet.Check{Key: "apart_check", Label: "Pulleys clear of one another", Figure: "apart", Limit: l.Find("touching"), Level: sheet.Stop,
			Sentence: "{figure} is left between the two pulleys.", Source: "geometry"})
	},
	says: []says{{"The driven pulley turns at ", "turns", ", slip not counted."}, {"The belt is ", "belt", " long along its pitch line."}, {"It lies on the smaller pulley over ", "wrap", "."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "belt", Label: "belt of the section that the pulleys are cut for, in the nearest length that the adjustment takes", Quantity: 1, For: "fit_belt", Confirm: "measure_pulleys", Source: "ISO 4184: lengths of vee belts"})
		m.step(measured, "", part.Operation{Key: "measure_pulleys", Do: "Measure pulleys, distance and adjustment, and write down what each setting turns at.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "all speeds as found", Cautions: []string{isolate},
			Asks: []string{"Is the motor of a sort that a drive may feed? Ask the electrician, with a photo of its plate.", "Does the nose have a thread, and so must not be reversed?"}})
		m.step(made, "", part.Operation{Key: "turn_pulleys", Do: "Turn the pulleys while the machine still runs: grooves to the belt's standard, bore and key to the shafts.", Needs: []part.Capability{part.Turning}, After: []string{"measure_pulleys"}, Minutes: [2]float64{120, 360}, Record: "bores", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "fit_belt", Do: "Line the pulleys up with a straightedge, tension the belt so that a thumb pushes it in by a hundredth of its free length and a half, and close the guard.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 180}, Record: "speeds by a counter", Cautions: []string{isolate, "Guard closed before it is switched on."}})
		m.step(assembled, "", part.Operation{Key: "wire", Do: "Have drive, switch, emergency stop and interlock wired and tested by a competent electrician.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 240}, Record: "who wired it, and when it was tested", Cautions: []string{"Electrical work is for a competent electrician; local codes decide."}})
	},
}
