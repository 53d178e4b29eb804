package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// longColumn: a longer round column. What is computed is the height that it gives
// and how much more it bends.
var longColumn = &guided{
	about: About{
		Key: "long_column", Label: "Longer round column",
		Words:   []string{"pillar", "drill column", "raise the head", "taller column", "column tube", "daylight"},
		Purpose: "The head goes higher above the table, and comes down as far as it did. Sideways the column bends with the cube of its length.",
		Measure: []string{"Diameter of the column at three heights and two ways, with a micrometer.", "How it is held in its foot, and how deep.", "What the head weighs, and what a rack or a belt guard leaves free."},
		Cautions: []string{"Isolate the machine before the head comes off.", "A head weighs 15 to 80 kg and slides down a column that is not clamped: a hoist or a prop under it before any clamp is slackened.",
			"The machine becomes top-heavy: bolt it down to bench or floor.", "Table and head keep their safety collars under them."},
		Proof: "A push of 100 N sideways at the head, at its highest, and at the old highest, before and after.",
		Hours: [2]float64{3, 8}, Risk: MediumRisk, Undo: Undone, Needs: []part.Capability{part.Turning},
		Cures: []string{"height.column"},
	},
	suits: func(l *axis.Layout) bool { return upright(l) && roundColumn(l) },
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.typed(sc, quiet("longer", "column longer by", "ΔL", unit.MM), Field{Name: "longer", Label: "Column longer by", Hint: "100, 4 in"}, "", 0, 2000, 0)
		tall := s.measuredOr("column", quiet("column", "column above its foot, to the spindle", "L", unit.MM), Field{Name: "column", Label: "Column above its foot, to the spindle, head at the top"}, "", 50, 3000)
		s.given(given{"dia", "Diameter of the column", "D", unit.MM, "micrometer, three heights", "", 15, 300}, given{"wall", "Wall of the new tube", "t", unit.MM, "half the diameter for a solid bar", "", 1, 150})
		sc.Formula(quiet("tall", "column as it would be", "L", unit.MM), "column + longer", "geometry", sheet.With{"column": tall})
		l.Scope.Change("lengthened", "was + longer", "as asked: the head comes down as far as it did", sheet.With{"longer": sc.Key("longer")})
		sc.Method(shown("bends", "column's bending, against before", "k", unit.One), slide.BendRatio, sheet.With{"after": "tall", "before": tall})
		l.Assume(sc, quiet("bends_most", "most that the column may bend, against before", "", unit.One), slide.BendRatioMost, slide.BendRatioSource)
		l.Assume(sc, quiet("bends_near", "bending below that within which it is tight", "", unit.One), slide.BendRatioMost-slide.BendRatioGood, slide.BendRatioSource)
		sc.Check(sheet.Check{Key: "bends_check", Label: "Stiffness of the longer column", Figure: "bends", Limit: "bends_most", AtMost: true, Tight: "bends_near", Level: sheet.Rule,
			Sentence: "At its highest the head gives {figure} times as much sideways, and {limit} times is the most that is sensible.", Source: slide.BendRatio.Source})
		sc.Formula(quiet("wall_least", "least wall of a column", "", unit.MM), "dia / 8", "common practice, no source: an eighth of the diameter")
		sc.Check(sheet.Check{Key: "wall_check", Label: "Wall of the tube", Figure: "wall", Limit: "wall_least", Level: sheet.Rule,
			Sentence: "The tube's wall is {figure}, and {limit} is the least.", Source: "common practice, no source: an eighth of the diameter"})
	},
	says: []says{{"At its highest the head then gives ", "bends", " times as much sideways."}},
	make: func(m *making) {
		dia := m.limits(want{part: "tube", name: "dia", label: "outside", key: m.mine("dia"), nominal: 60}, -0.02, -0.05, "common practice, no source: 0.02 to 0.05 mm under the old column's size")
		long := drawn("over all: the old one and what it is longer by", m.or(m.mine("tall"), 700))
		m.add(part.Part{Key: "tube", Label: "new column", Material: "s275", Round: &part.Round{Length: long, Outside: []part.Step{{Label: "column", Length: long, Dia: dia, Chamfer: 1}}},
			Notes: []string{"Drawn or ground tube of the stated wall, or solid bar; straight within 0.1 mm in 300 mm.", "Length over all: measured off the old column, foot socket and head included."}})
		m.step(measured, "", part.Operation{Key: "measure_column", Do: "Measure the column at three heights and two ways, how deep it stands in its foot, and the straightness of the new tube on two blocks.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "the column's sizes",
			Asks: []string{"Is there a rack round the column, and is it long enough? Does the belt guard clear the ceiling?", "Is the bench bolted to the wall or the floor?"}})
		m.step(made, "tube", part.Operation{Key: "finish_tube", Do: "Face both ends of the new tube and polish it until the old head slides on by hand.", Needs: []part.Capability{part.Turning}, After: []string{"measure_column"}, Minutes: [2]float64{60, 180}, Record: "diameter at three heights", Cautions: []string{eyes, "A long tube whips: a steady near the tool, and nothing of it standing out of the spindle's far end."}})
		m.step(stripped, "", part.Operation{Key: "head_off", Do: "Prop or hoist the head, slacken its clamp, lift it off; then table and column.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 120}, Record: "which way each part stood, with a photo", Cautions: []string{isolate, "The head slides down by itself when its clamp is slackened: prop it first."}})
		m.step(assembled, "", part.Operation{Key: "head_on", Do: "Set the new column in its foot, table, collar and head on it, all clamps tight; bolt the machine down.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 150}, Record: "height of the nose at the top and at the bottom", Cautions: []string{"Top-heavy until it is bolted down: nobody leans on it.", "Guards back on before it runs."}})
	},
}
