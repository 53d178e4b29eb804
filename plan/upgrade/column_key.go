package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// columnKey: what keeps a head or table from swinging round a round column while it
// is lifted. What is computed is how far the spindle is then off.
var columnKey = &guided{
	about: About{
		Key: "column_key", Label: "Key or rail for a round column",
		Words:   []string{"round column", "mill-drill", "alignment rail", "keyed column", "lost position", "laser line", "registration"},
		Purpose: "The head keeps its place over the work when it is lifted: a rail beside the column, or a key in it, takes the turning.",
		Measure: []string{"How far the spindle swings, head slackened, lifted by 100 mm and clamped again: a gauge on a block on the table, both ways.", "Run of the column: parallel to the spindle?"},
		Cautions: []string{"Isolate the machine before you work at it.", "A head that is slackened slides down or swings round: hold or prop it, and keep hands from under it.", "Clamp in the same order each time: the clamp itself turns the head.",
			"A line lamp shines into eyes: lowest power, and pointed down."},
		Proof: "Shift across and along over 100 mm of lift, clamped: at most 0.05 mm both ways.",
		Hours: [2]float64{3, 10}, Risk: LowRisk, Undo: UndonePart, Needs: []part.Capability{part.Milling},
		Cures: []string{"setting.knocked"},
	},
	suits: roundColumn,
	lay: func(s *Site) {
		s.given(given{"play", "Play of the key or rail", "c", unit.MM, "0.02 is a good sliding fit", "", 0, 2}, given{"arm", "Distance of the key or rail from the column's middle", "r", unit.MM, "as far out as can be", "", 5, 1000},
			given{"reach", "Distance of the spindle from the column's middle", "R", unit.MM, "the throat and half the column", "", 20, 1500}, given{"slant", "Slant of the rail over 100 mm", "", unit.MM, "gauge on the head, along the rail", "", 0, 2})
		l, sc := s.Layout, s.Scope
		sc.Formula(shown("shift", "spindle off its place over 100 mm of lift, at most", "s", unit.MM), "(play + slant) * reach / arm", "geometry: the play at the key's radius, carried out to the spindle's")
		l.Assume(sc, quiet("shift_most", "most shift of the spindle", "", unit.MM), 0.05, "common practice, no source: 0.05 mm over 100 mm of lift")
		sc.Check(sheet.Check{Key: "shift_check", Label: "Spindle keeps its place", Figure: "shift", Limit: "shift_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The spindle can be {figure} off after a lift of 100 mm, and {limit} is wanted.", Source: "geometry"})
	},
	says: []says{{"After a lift of 100 mm the spindle can be ", "shift", " off: the further out the rail stands, the less."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "rail", Label: "ground flat stock or precision rail as long as the lift, with brackets", Quantity: 1, For: "set_rail", Confirm: "map_swing", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "map_swing", Do: "Lift and clamp the head five times and read how far the spindle is off each time; measure where a rail has room.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "five readings, both ways", Cautions: []string{"Hold the head while it is slack."}})
		m.step(fitted, "", part.Operation{Key: "set_rail", Do: "Fix the rail top and bottom with slotted holes, set it parallel to the column with a gauge on the head, then dowel it.", Needs: []part.Capability{part.Milling}, Minutes: [2]float64{120, 360}, Record: "out of parallel over 100 mm", Cautions: []string{isolate},
			Asks: []string{"Does the rail take from the swing, or meet the table?", "Does the head still turn far enough for you with the rail on?"}})
		m.step(assembled, "", part.Operation{Key: "set_key", Do: "Fit the key or roller to the rail without shake, and try the whole lift by hand.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 90}, Record: "play of the key by feeler"})
	},
}
