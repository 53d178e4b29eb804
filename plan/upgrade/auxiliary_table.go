package upgrade

import (
	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// auxiliaryTable: a plate on the table, longer than it. What is computed is what it
// weighs and how far its end gives.
var auxiliaryTable = &guided{
	about: About{
		Key: "auxiliary_table", Label: "Auxiliary or longer table",
		Words:   []string{"sub-table", "tooling plate", "fixture plate", "table extension", "bolt-on table"},
		Purpose: "Longer or wider work is held on a plate that is bolted to the table. It takes height under the spindle, and weight for the slide to carry.",
		Measure: []string{"Length, width and T-slots of the table.", "Room at both ends of the travel, and what the plate would meet there.", "Height between spindle and table with your tallest work."},
		Cautions: []string{"Isolate the machine before you work around the spindle.", "A plate weighs 10 to 60 kg: a hoist or a second pair of hands.", "A plate that stands out beyond the table meets the column, a wall or somebody's hip: try the whole travel by hand before the motor is started.",
			"A heavy weight at its end tips a small machine, and wears the gibs on one side: support it, or keep it in the middle."},
		Proof: "Flat within 0.02 mm in 300 mm, by gauge; droop at both ends of the travel, with and without your heaviest work.",
		Hours: [2]float64{10, 40}, Risk: HighRisk, Undo: Undone, Needs: []part.Capability{part.Milling, part.Grinding, part.Scraping}, Own: true,
		Cures: []string{"reach.travel"},
	},
	suits: overTable,
	lay: func(s *Site) {
		s.given(given{"long", "Length of the plate", "L", unit.MM, "", "", 10, 3000}, given{"wide", "Width of the plate", "b", unit.MM, "", "", 10, 1500}, given{"thick", "Thickness of the plate", "t", unit.MM, "15 to 25 mm is usual", "", 2, 150},
			given{"out", "Overhang of the plate at one end", "a", unit.MM, "beyond the table under it", "", 0, 1000})
		l, sc := s.Layout, s.Scope
		stuff, _ := material.Named(s.choose(Field{Name: "material", Label: "Made of", Options: []Option{{"6082", "aluminium"}, {"gjl250", "grey cast iron"}, {"s275", "mild steel"}}}, "6082"))
		l.Assume(sc, quiet("modulus", "modulus of "+lower(stuff.Name), "E", unit.MPa), stuff.Modulus, stuff.Source)
		l.Assume(sc, quiet("density", "density of "+lower(stuff.Name), "ρ", unit.Density), unit.Density.In(stuff.Density), stuff.Source)
		l.Assume(sc, quiet("force", "push at the plate's end", "F", unit.Newton), 200, "common practice, no source: a firm push, or 20 kg of work")
		sc.Formula(quiet("area", "plate, area", "", unit.MM2), "long * wide", "geometry")
		sc.Formula(shown("mass", "plate, mass", "m", unit.Kilogram), "area * thick * density", material.Weight.Source)
		sc.Method(quiet("second_moment", "second moment of the plate", "I", unit.MM4), slide.BlockSecondMoment, sheet.With{"width": "wide", "height": "thick"})
		sc.Method(shown("droop", "plate's end gives, under that push", "f", unit.Micrometre), screw.BendFree, sheet.With{"side_load": "force", "length": "out"})
		l.Assume(sc, quiet("droop_most", "most that a table's end may give", "", unit.Micrometre), 20, "common practice, no source: 0.02 mm")
		sc.Check(sheet.Check{Key: "droop_check", Label: "Plate stiff enough where it stands out", Figure: "droop", Limit: "droop_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The plate's end gives {figure} under a firm push, and {limit} is the most.", Source: screw.BendFree.Source})
	},
	says: []says{{"The plate weighs ", "mass", ", which the slide and the foot must carry."}, {"Its end gives ", "droop", " under a push of 200 N."}, {"It takes ", "thick", " of the height under the spindle."}},
	make: func(m *making) {
		long, wide, thick := want{part: "plate", name: "length", label: "length", key: m.mine("long"), nominal: 500}, want{part: "plate", name: "width", label: "width", key: m.mine("wide"), nominal: 160}, want{part: "plate", name: "thickness", label: "thickness", key: m.mine("thick"), nominal: 20}
		p := part.Part{Key: "plate", Label: "auxiliary table", Material: m.input("material", "6082"), Flat: &part.Flat{Length: m.general(long), Width: m.general(wide), Thickness: m.general(thick), Angle: 90},
			Notes: []string{"Top and underside parallel within 0.02 mm in 300 mm; the underside relieved in the middle.", "A key under it, fitted to a T-slot, brings it back to its place.", "Holes for its bolts: spot through over the T-slots."}}
		m.add(p)
		m.buy(part.Bought{Key: "bolts", Label: "T-bolts or T-nuts for the table's slots, with washers", Quantity: 6, For: "plate", Confirm: "measure_table", Source: "ISO 299: T-slots and their bolts"})
		m.step(measured, "", part.Operation{Key: "measure_table", Do: "Measure the table and its T-slots, and the room at both ends of the travel with a batten as long as the plate.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "what the batten meets, and where",
			Asks: []string{"What does the plate meet at either end of the travel?", "Does your tallest work still go under the spindle?"}})
		m.step(made, "plate", part.Operation{Key: "mill_plate", Do: "Mill the underside, turn it over and mill the top; relieve it, and let it rest between roughing and finishing.", Needs: []part.Capability{part.Milling}, After: []string{"measure_table"},
			Envelope: [2]float64{p.Flat.Length.Nominal, p.Flat.Width.Nominal}, Minutes: [2]float64{240, 900}, Record: "thickness at the four corners", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "fit_plate", Do: "Stone both faces, set the plate on with its key, tighten from the middle outwards, and wind the whole travel by hand.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 120}, Record: "flatness, by gauge", Cautions: []string{isolate, tableWeight}})
	},
}
