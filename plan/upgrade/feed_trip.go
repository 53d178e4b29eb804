package upgrade

import (
	"fettle/plan/joint"
	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// shearStuffs are what shear pins are made of, the weakest first.
var shearStuffs = []Option{{"6082", "aluminium"}, {"cuzn39pb3", "brass"}, {"11smn30", "free-cutting steel"}}

// feedTrip: what lets a feed go before something breaks. What is computed is the
// torque at which a pin shears.
var feedTrip = &guided{
	about: About{
		Key: "feed_trip", Label: "Feed trip and shear pin",
		Words:   []string{"shear pin", "feed stop", "dog clutch", "threading stop", "overload clutch", "crash protection", "knock-off"},
		Purpose: "A feed that runs into something lets go: a trip opens it at a set place, a pin shears before a gear does.",
		Measure: []string{"Diameter of the shaft where the pin goes across it.", "Torque that the feed takes at your heaviest cut, by a spring balance on a lever.", "What the weakest gear or key in the train takes, if it is known."},
		Cautions: []string{"Isolate the machine before the gear cover is opened.", "A pin of a stronger stuff than is marked protects nothing: mark on the machine what it is made of, and keep spares there.", "A trip repeats to some tenths of a millimetre, and later at more speed: leave room behind it, and try it with nothing in the way.",
			"Half nuts and threading: a trip that opens at the wrong instant loses the thread. Try it on scrap."},
		Proof: "Ten trips against a gauge: within 0.2 mm; a pin broken on the bench by a lever and a spring balance.",
		Hours: [2]float64{4, 12}, Risk: MediumRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Milling}, Own: true,
		Cures: []string{"danger.runaway"},
	},
	suits: powered,
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"pin", "Diameter of the shear pin", "d", unit.MM, "at its neck", "", 0.5, 20}, given{"dia", "Diameter of the shaft that it goes across", "D", unit.MM, "", "", 3, 100},
			given{"works", "Torque at your heaviest cut", "T_1", unit.NewtonMetre, "", "", 0.1, 500}, given{"bears", "Torque that the weakest part bears", "T_2", unit.NewtonMetre, "a key, a tooth, the screw", "", 0.1, 2000})
		stuff, _ := material.Named(s.choose(Field{Name: "material", Label: "Pin made of", Options: shearStuffs}, "cuzn39pb3"))
		l.Assume(sc, quiet("tensile", "tensile strength of "+lower(stuff.Name), "σ", unit.MPa), stuff.Strength, stuff.Source)
		l.Assume(sc, quiet("share", "shear strength as a part of it", "", unit.Percent), 65, "common practice, from memory, unchecked: 60 to 70 %")
		sc.Formula(quiet("shear", "shear strength of the pin", "τ", unit.MPa), "tensile * share", "common practice, from memory, unchecked")
		sc.Method(shown("breaks", "pin shears at", "T", unit.NewtonMetre), joint.PinnedSleeve)
		sc.Formula(quiet("works_most", "torque that the pin must outlast", "", unit.NewtonMetre), "1.5 * works", "common practice, no source: half as much again as the heaviest cut, or it tires")
		sc.Formula(quiet("bears_most", "torque at which the pin must have gone", "", unit.NewtonMetre), "bears / 1.25", "common practice, no source: pins scatter by a fifth")
		sc.Check(sheet.Check{Key: "outlasts_check", Label: "Pin outlasts your heaviest cut", Figure: "breaks", Limit: "works_most", Level: sheet.Rule,
			Sentence: "The pin shears at {figure}, and {limit} is the least that lasts.", Source: "common practice, no source"})
		sc.Check(sheet.Check{Key: "protects_check", Label: "Pin goes before anything else", Figure: "breaks", Limit: "bears_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The pin shears at {figure}; above {limit} something else may go first.", Source: "common practice, no source"})
	},
	says: []says{{"The pin shears at ", "breaks", ", at its two sections."}},
	make: func(m *making) {
		d := m.general(want{part: "pin", name: "dia", label: "neck", key: m.mine("pin"), nominal: 3})
		across := m.or(m.mine("dia"), 16)
		m.add(part.Part{Key: "pin", Label: "shear pin", Material: m.input("material", "cuzn39pb3"), Quantity: 5, Round: &part.Round{Outside: []part.Step{{Label: "pin", Length: drawn("across the hub", across+10), Dia: d, Chamfer: 0.3}}},
			Notes: []string{"Keep the rest as spares at the machine, and mark there what they are made of.", "Hole in hub and shaft: a sliding fit, edges sharp where it is to shear."}})
		m.step(measured, "", part.Operation{Key: "measure_torque", Do: "Measure the torque that the feed takes in your heaviest cut, and find the weakest part of the train.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 120}, Record: "torque, by lever and spring balance", Cautions: []string{"Lever and balance with the machine isolated, turning the shaft by hand against the load."},
			Asks: []string{"Which part would cost most, if it went first?"}})
		m.step(made, "pin", part.Operation{Key: "turn_pins", Do: "Turn the pins, and break one on the bench with a lever before the others are trusted.", Needs: []part.Capability{part.Turning}, After: []string{"measure_torque"}, Envelope: [2]float64{40, 10}, Minutes: [2]float64{45, 90}, Record: "torque at which it went", Cautions: []string{eyes, "What breaks flies: stand aside, face covered."}})
		m.step(assembled, "", part.Operation{Key: "fit_trip", Do: "Cross-drill hub and shaft together, fit the pin and the trip's stop; try it ten times by hand, then ten times under power with nothing in the way.", Needs: []part.Capability{part.Milling}, Minutes: [2]float64{90, 300}, Record: "ten trips, by gauge", Cautions: []string{isolate, eyes}})
	},
}
