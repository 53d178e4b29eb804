package upgrade

import (
	"math"

	"fettle/plan/dial"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// carriageDial: a dial on the wheel that winds a carriage along its rack. What is
// computed is how many lines it wants, and what the nearest whole number reads wrong.
var carriageDial = &guided{
	about: About{
		Key: "carriage_dial", Label: "Dial on the carriage's handwheel",
		Words:   []string{"carriage handwheel dial", "saddle dial", "apron handwheel", "leadscrew handwheel", "lead screw dial", "rack and pinion dial", "longitudinal feed"},
		Purpose: "Lengths along the bed can be read at the handwheel. A pinion on a rack seldom moves a round distance a turn: a gear to the dial can make it round.",
		Measure: []string{"What one turn of the handwheel moves: ten turns against a rule or a gauge, divided by ten. Or by the pinion: π, its module and its teeth, divided by the gears before it.", "Room round the wheel's hub."},
		Cautions: []string{"Isolate the machine before the apron is opened.", "The wheel turns by itself under power feed: no handle on it that catches a sleeve, and a guard over added gears.", "Rack and pinion have play: come up to a length from one side, always the same.",
			"On the lead screw's end: shut half nuts wear the screw where you work most."},
		Proof: "Ten turns against a scale; a shoulder turned to a length and measured.",
		Hours: [2]float64{4, 12}, Risk: LowRisk, Undo: UndonePart, Needs: []part.Capability{part.Turning, part.Dividing, part.Milling}, Own: true,
		Cures: []string{"reading.none", "reading.value"},
	},
	suits: carriage,
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		turn := s.measuredOr("per_turn", quiet("per_turn", "distance that a turn of the wheel moves", "p", unit.MM), Field{Name: "per_turn", Label: "Distance that a turn of the wheel moves", Hint: "ten turns, divided by ten"}, "", 0.5, 500)
		s.given(given{"value", "Value of a line", "v", unit.MM, "0.1, 0.2, 0.25 or 0.5 mm", "", 0.01, 5}, given{"dial_dia", "Diameter of the dial", "D", unit.MM, "as large as there is room", "", 10, 300})
		sc.Formula(quiet("exact", "lines that would be exact", "N", unit.One), "turn / value", "definition: what a turn moves / what a line reads", sheet.With{"turn": turn})
		sc.Formula(shown("lines", "lines to cut", "N", unit.Count), "floor(exact + 0.5)", "the nearest whole number")
		sc.Formula(shown("off", "dial reads wrong over 100 mm, by", "", unit.MM), "mm(100) * abs(lines - exact) / exact", "geometry: s (N v / p − 1)")
		l.Assume(sc, quiet("off_most", "most that a dial may read wrong over 100 mm", "", unit.MM), 0.05, "common practice, no source: half a line of 0.1 mm")
		sc.Check(sheet.Check{Key: "off_check", Label: "Whole number of lines suits the rack", Figure: "off", Limit: "off_most", AtMost: true, Level: sheet.Rule,
			Sentence: "With a whole number of lines the dial reads {figure} wrong over 100 mm, and {limit} is the most: another value a line, or a gear between wheel and dial.", Source: "geometry"})
		sc.Method(shown("spacing", "lines apart", "s", unit.MM), dial.Spacing, sheet.With{"divisions": "lines"})
		l.Assume(sc, quiet("spacing_least", "least spacing of the lines", "", unit.MM), dial.SpacingLeast, dial.SpacingSource)
		sc.Check(sheet.Check{Key: "spacing_check", Label: "Lines can be read", Figure: "spacing", Limit: "spacing_least", Level: sheet.Rule,
			Sentence: "The lines stand {figure} apart, and {limit} is the least.", Source: dial.SpacingSource})
		sc.Formula(shown("gear", "gear from wheel to dial that would make a turn of it round", "i", unit.One), "turn / (mm(10) * max(1, floor(turn / mm(10) + 0.5)))", "definition: what a turn moves over the nearest round 10 mm", sheet.With{"turn": turn})
	},
	says: []says{{"The dial gets ", "lines", " lines."}, {"They stand ", "spacing", " apart."}, {"It reads ", "off", " wrong over 100 mm."}, {"Geared by ", "gear", ", a turn of the dial would be a round number of 10 mm."}},
	make: func(m *making) {
		lines, dia := int(math.Round(m.or(m.mine("lines"), 100))), m.general(want{part: "dial", name: "outside", label: "outside", key: m.mine("dial_dia"), nominal: 60})
		wide := drawn("", 14)
		bore := drawn("bore", max(4, 0.5*dia.Nominal))
		bore.Suits, bore.Limits = "the hub of the wheel, by micrometer", toSuit
		m.add(part.Part{Key: "dial", Label: "dial for the carriage's wheel", Material: "6082", Round: &part.Round{Length: wide, Outside: []part.Step{{Label: "dial", Length: wide, Dia: dia, Chamfer: 0.5}}, Left: []part.Step{{Label: "bore", Length: wide, Dia: bore, Through: true}}},
			Notes: []string{"Lines: " + bare(float64(lines)) + " all round; every fifth longer, every tenth numbered.", "The figures rise with the way in which the carriage is wound to its work."}})
		m.step(measured, "", part.Operation{Key: "ten_turns", Do: "Wind ten turns against a scale, twice from either end, coming from one side; measure the hub and the room round it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "travel in ten turns, four times",
			Asks: []string{"Does the wheel turn by itself when the power feed is in? Then the dial must stand that."}})
		m.step(made, "dial", part.Operation{Key: "divide_dial", Do: "Turn the dial and divide it before the apron is touched: this lathe's own spindle can be the dividing head.", Needs: []part.Capability{part.Turning, part.Dividing}, After: []string{"ten_turns"}, Envelope: [2]float64{20, dia.Nominal}, Minutes: [2]float64{120, 300}, Record: "the last space against the others", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "fit_dial", Do: "Fit the dial with its friction ring and an index line on the apron.", Needs: []part.Capability{part.Milling}, Minutes: [2]float64{60, 180}, Record: "ten turns against the scale", Cautions: []string{isolate}})
	},
}
