package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/drive"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// smallGrinder: the wheel head of a small surface grinder. What is computed is what
// a line feeds, and how fast its wheel's rim runs. It is kept with the table, which a
// rack drives to and fro.
var smallGrinder = &guided{
	about: About{
		Key: "small_grinder", Label: "Grinder: wheel head, dial and wipers",
		Words:   []string{"surface grinder", "wheel head", "downfeed", "grinding wheel", "table rack", "dust wipers", "spindle end float"},
		Purpose: "A step of some thousandths on the dial is one at the wheel, and grit stays out of ways and screw.",
		Measure: []string{"A step of one line, five times, by a gauge between head and table: does the head follow, or stick and jump?", "Spindle: run-out on its taper, end float.", "Lead of the head's screw, lines of its dial, diameter and marked speed of the wheel."},
		Cautions: []string{"Isolate the machine before wheel or guard are touched.", "Ring every wheel before it is fitted; never above the speed that is marked on it; blotters on both sides, flanges of one size; guard closed; a minute at full speed, standing aside.", "Grinding dust: extraction or coolant and a mask; goggles always.",
			"A wheel head that hangs on a spring or a weight holds stored energy: prop it."},
		Proof: "Ten steps of one line seen on the gauge, down and up; a plate ground and measured at its four corners.",
		Hours: [2]float64{5, 15}, Risk: MediumRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Threads, part.Dividing},
		Cures: []string{"reading.value", "reading.small", "wears.swarf"},
	},
	suits: func(l *axis.Layout) bool { return has(l, "table", "rack") },
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"lead", "Lead of the wheel head's screw", "l", unit.MM, "with any gears before it: travel in ten turns, divided by ten", "", 0.05, 10}, given{"divisions", "Lines of its dial", "N", unit.Count, "", "", 1, 1000}, given{"dial_dia", "Diameter of the dial", "D", unit.MM, "", "", 10, 300},
			given{"wheel", "Diameter of the wheel", "", unit.MM, "", "", 20, 400}, given{"turns", "Speed of the wheel's spindle", "n", unit.RPM, "counter", "", 100, 40000}, given{"marked", "Speed marked on the wheel", "", metrePerS, "30 or 35 m/s is usual", "", 5, 125})
		sc.Method(shown("per_division", "a line feeds", "", unit.Micrometre), dial.PerDivision)
		sc.Method(shown("spacing", "lines apart", "s", unit.MM), dial.Spacing)
		sc.Method(shown("rim", "wheel's rim runs at", "v", metrePerS), drive.Rim, sheet.With{"dia": "wheel"})
		sc.Check(sheet.Check{Key: "rim_check", Label: "Wheel within its marked speed", Figure: "rim", Limit: "marked", AtMost: true, Level: sheet.Stop,
			Sentence: "The wheel's rim runs at {figure}, and it is marked {limit}: beyond that it bursts.", Source: "the mark on the wheel (EN 12413 has what it means)"})
		l.Assume(sc, quiet("line_most", "most that a line should feed", "", unit.Micrometre), 5, "common practice, no source: 0.005 mm")
		sc.Check(sheet.Check{Key: "line_check", Label: "Line fine enough", Figure: "per_division", Limit: "line_most", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "A line feeds {figure}, and {limit} is what a grinder wants.", Source: "common practice, no source"})
	},
	says: []says{{"A line feeds ", "per_division", "."}, {"The wheel's rim runs at ", "rim", "."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "felt", Label: "felt for the wipers, and bellows for the head's ways", Quantity: 1, For: "fit_head", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "steps", Do: "Ten steps of one line down and ten up, gauge between head and table, wheel off.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "twenty readings", Cautions: []string{isolate}, Asks: []string{"Does the head's own weight take up the screw's play, at all heights?"}})
		m.step(stripped, "", part.Operation{Key: "head_open", Do: "Prop the head, take its screw and dial out, wash all grit off before anything is wiped.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate, "The head falls when its screw is out: prop it."}})
		m.step(assembled, "", part.Operation{Key: "fit_head", Do: "Fit screw, bush, dial and wipers; oil; ring the wheel, fit it, close the guard, a minute at full speed with nobody before it.", Needs: []part.Capability{part.Turning, part.Threads, part.Dividing}, Minutes: [2]float64{180, 480}, Record: "twenty readings", Cautions: []string{"Ring the wheel; never above its marked speed; guard closed; stand aside."}})
	},
}
