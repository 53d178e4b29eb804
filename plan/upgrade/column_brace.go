package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// columnBrace: a plate or strut behind a column. What is computed is how much of its
// nod is left.
var columnBrace = &guided{
	about: About{
		Key: "column_brace", Label: "Brace behind the column",
		Words:   []string{"column stiffener", "backing plate", "nod", "tilting column", "filled column", "gusset", "rigidity"},
		Purpose: "The column nods less under a cut: a plate or strut behind it shares the load.",
		Measure: []string{"Nod: push up at the spindle's nose with 200 N by a spring balance, a dial gauge between nose and table.", "The same with the gauge on the column's foot: what gives, the column or its joint?"},
		Cautions: []string{"Isolate the machine before you work at it.", "Prop the head: a column whose bolts are slackened can fall.", "Every bolt that is tightened pulls the column: tram after each of them.",
			"Find out what is behind a wall before it is drilled: wires, oil, hollow webs."},
		Proof: "The same push at the same height of the head, before and after; tram in two directions.",
		Hours: [2]float64{6, 14}, Risk: MediumRisk, Undo: UndonePart, Needs: []part.Capability{part.Milling}, Own: true,
		Cures: []string{"untrue.column", "rocks.stack"},
	},
	suits: upright,
	lay: func(s *Site) {
		s.given(given{"nod", "Nod under a push of 200 N", "f", unit.MM, "dial gauge between nose and table", "", 0.001, 5},
			given{"section", "Area of the brace's section", "A", unit.MM2, "width times thickness", "", 1, 50000}, given{"long", "Length of the brace between its bolts", "L", unit.MM, "", "", 20, 3000},
			given{"arm", "Distance of the brace behind the line that the column tips about", "r", unit.MM, "as a rule from the front edge of its foot", "", 5, 1500}, given{"throat", "Distance of the spindle in front of that line", "R", unit.MM, "", "", 5, 1500})
		l, sc := s.Layout, s.Scope
		l.Assume(sc, quiet("push", "push at the spindle's nose", "F", unit.Newton), 200, "the push that the nod is measured with")
		l.Assume(sc, quiet("modulus", "modulus of steel", "E", unit.MPa), 206000, "carbon steel, handbook value 206 GPa")
		l.Assume(sc, quiet("joints", "part of a brace's stiffness that its bolted ends leave", "", unit.Percent), 2, "assumed: bolted joints give far more than the plate; with it a usual brace about halves the nod, as is reported")
		sc.Formula(quiet("column_stiffness", "stiffness of the column as found", "k_1", unit.NewtonPerMM), "push / nod", "definition")
		sc.Formula(quiet("brace_stiffness", "stiffness of the brace, at the spindle", "k_2", unit.NewtonPerMM), "joints * modulus * section / long * pow(arm / throat, 2)", "elementary mechanics: E A / L by the square of the lever, r / R, less what the joints give")
		sc.Formula(shown("nod_left", "nod that is left", "f", unit.MM), "push / (column_stiffness + brace_stiffness)", "elementary mechanics: two springs side by side")
		l.Assume(sc, quiet("halved", "part of the nod that may be left", "", unit.Percent), 67, "common practice, no source: what takes less than a third away is not worth its holes")
		sc.Formula(quiet("nod_most", "nod that may be left", "", unit.MM), "halved * nod", "definition")
		sc.Check(sheet.Check{Key: "worth_check", Label: "Brace worth its holes", Figure: "nod_left", Limit: "nod_most", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "{figure} of nod would be left; more than {limit} is not worth the holes.", Source: "common practice, no source"})
	},
	says: []says{{"As an estimate, ", "nod_left", " of the nod is left: the joints decide, so bolt it on and measure before you trust it."}},
	make: func(m *making) {
		long := drawn("as the machine asks", m.or(m.mine("long"), 400))
		m.add(part.Part{Key: "brace", Label: "brace", Material: "s275", Flat: &part.Flat{Length: long, Width: drawn("", 80), Thickness: drawn("", 12), Angle: 90},
			Notes: []string{"Width and thickness: the section that you chose.", "Ends machined flat; packing to fill what is left between them and the casting, so that bolts bend nothing.", "Holes: spot through from the casting, two bolts and a dowel at each end."}})
		m.buy(part.Bought{Key: "bolts", Label: "bolts for both ends", Designation: "ISO 4762 M10 × 30", Quantity: 4, For: "brace", Confirm: "find_give", Source: "ISO 4762"})
		m.buy(part.Bought{Key: "dowels", Label: "dowels", Designation: "ISO 8734 8 × 30", Quantity: 2, For: "brace", Confirm: "find_give", Source: "ISO 8734"})
		m.step(measured, "", part.Operation{Key: "find_give", Do: "Push with 200 N and put the gauge on one joint after another: foot, column, head slide, spindle. Brace what gives most.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "what each joint gives",
			Asks: []string{"Is it the column that nods, or a loose gib on it? Set the gib first.", "What is behind the wall where you mean to drill?"}})
		m.step(made, "brace", part.Operation{Key: "mill_brace", Do: "Mill the brace's ends flat while the machine still stands.", Needs: []part.Capability{part.Milling}, After: []string{"find_give"}, Envelope: [2]float64{long.Nominal, 80}, Minutes: [2]float64{90, 240}, Record: "length between its faces", Cautions: []string{eyes}})
		m.step(cut, "brace", part.Operation{Key: "drill_column", Do: "Drill and tap the castings from the brace, swarf kept out of the ways.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 150}, Record: "depth of thread", Cautions: []string{isolate, eyes, ironDust}})
		m.step(assembled, "", part.Operation{Key: "brace_on", Do: "Pack, bolt up one bolt after another with a gauge on the spindle; tram after each; dowel last.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{90, 240}, Record: "tram after each bolt"})
	},
}
