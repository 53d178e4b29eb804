package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// gaugeHolder: a dial gauge that reads a slide. What is computed is how far its rod
// gives.
var gaugeHolder = &guided{
	about: About{
		Key: "gauge_holder", Label: "Holder for a dial gauge on the slide",
		Words:    []string{"dial indicator", "DTI", "dial test indicator", "travel indicator", "clock gauge", "indicator holder", "backlash readout"},
		Purpose:  "The slide itself is read, past all play of the screw, and every test of this plan can be taken at the same place again.",
		Measure:  []string{"Where a clamp can hold on the fixed part, and a face of the slide that is square to the travel.", "How far the gauge's plunger goes, against the travel that is to be read."},
		Cautions: []string{"Isolate the machine while you set a gauge near chuck or cutter, and take it off before it runs where it can be caught.", "A plunger that is run against its end is bent: a stop for the slide before it."},
		Proof:    "Up to one place ten times: the same within 0.01 mm; a push on the holder with a finger, and it comes back.",
		Hours:    [2]float64{1, 3}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Milling}, Own: true,
		Cures: []string{"reading.none", "untrue.lead"},
	},
	suits: sliding,
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"rod", "Diameter of the rod", "d", unit.MM, "12 mm is usual", "", 2, 40}, given{"reach", "Reach of the rod from its clamp to the gauge", "L", unit.MM, "", "", 5, 500})
		l.Assume(sc, quiet("push", "force of a gauge's plunger", "F", unit.Newton), 1.5, "common practice, no source: up to 1.5 N, as ISO 463 has it: from memory, unchecked")
		l.Assume(sc, quiet("modulus", "modulus of steel", "E", unit.MPa), screw.SteelModulus, screw.SteelModulusSource)
		sc.Method(quiet("second_moment", "second moment of the rod", "I", unit.MM4), screw.SecondMoment, sheet.With{"root": "rod"})
		sc.Method(shown("gives", "holder gives under the plunger by", "f", unit.Micrometre), screw.BendFree, sheet.With{"side_load": "push", "length": "reach"})
		l.Assume(sc, quiet("gives_most", "most that a holder may give", "", unit.Micrometre), 1, "common practice, no source: a tenth of a division of 0.01 mm")
		sc.Check(sheet.Check{Key: "gives_check", Label: "Holder stiff enough", Figure: "gives", Limit: "gives_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The rod gives {figure} under the plunger, and {limit} is the most: thicker, or shorter.", Source: screw.BendFree.Source})
	},
	says: []says{{"The rod gives ", "gives", " under the plunger."}},
	make: func(m *making) {
		rod := m.general(want{part: "rod", name: "dia", label: "diameter", key: m.mine("rod"), nominal: 12})
		long := drawn("reach, and what the clamp holds", m.or(m.mine("reach"), 80)+25)
		m.add(part.Part{Key: "rod", Label: "gauge rod", Material: "11smn30", Round: &part.Round{Length: long, Outside: []part.Step{{Label: "rod", Length: long, Dia: rod, Chamfer: 0.5}}}, Notes: []string{"Its end bored 8 H7 across for the gauge's stem, and slit: ISO 463 has stems of 8 mm."}})
		m.step(made, "rod", part.Operation{Key: "turn_rod", Do: "Turn the rod, mill its clamp to the way or the slide's edge, with a brass pad.", Needs: []part.Capability{part.Turning, part.Milling}, Envelope: [2]float64{long.Nominal, rod.Nominal}, Minutes: [2]float64{45, 120}, Record: "", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "fit_gauge", Do: "Clamp it where swarf does not fall, the plunger along the travel: out of line by an angle it reads too much.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "ten readings at one place", Cautions: []string{isolate}})
	},
}
