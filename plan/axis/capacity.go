package axis

import (
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Capacity is what travel is for: the work that it lets the machine do.
type Capacity struct {
	Key, Label string
	Sizes      []Size
	Goals      []string // keys of the figures that a wish is for, the chief one first
	define     func(sc *sheet.Scope)
}

// Capacities are what can follow from an axis's travel.
var Capacities = []Capacity{
	{
		Key: "lathe_cross_slide", Label: "lathe: the diameter on which a cut can be started",
		Sizes: []Size{
			{Key: "tip_past_axis", Label: "tool tip past the spindle's axis, innermost", Symbol: "a", Unit: unit.MM, How: "slide right in; negative where the tip does not reach the axis", With: "rule"},
			{Key: "swing_bed", Label: "swing over the bed", Symbol: "S_b", Unit: unit.MM, How: "twice the height of the axis above the bed", With: "rule"},
			{Key: "swing_slide", Label: "swing over the cross slide", Symbol: "S_c", Unit: unit.MM, How: "twice the height of the axis above the cross slide", With: "rule"},
			{Key: "work_clearance", Label: "clearance wanted around the work", Symbol: "c", Unit: unit.MM, Default: "2", Source: "common practice, no source: 2 mm a side", How: "decide", With: "count"},
		},
		Goals:  []string{"start_disc", "start_over_slide"},
		define: defineCrossSlide,
	},
	{
		Key: "mill_reach", Label: "mill: how far the table reaches under the spindle",
		Sizes: []Size{
			{Key: "table_width", Label: "width of the table", Symbol: "w_t", Unit: unit.MM, How: "across the working surface", With: "rule"},
			{Key: "axis_from_front", Label: "spindle's axis behind the table's front edge, slide right out", Symbol: "y_0", Unit: unit.MM, How: "spindle down near the table, slide wound towards you", With: "rule"},
		},
		Goals:  []string{"reach_table"},
		define: defineMillReach,
	},
	{
		Key: "daylight", Label: "height between spindle and table",
		Goals:  []string{"highest", "lowest_planned"},
		define: defineDaylight,
	},
	{
		Key: "depth", Label: "quill: how deep it drills",
		Goals:  []string{"usable"},
		define: defineDepth,
	},
}

// CapacityNamed is the capacity with the key.
func CapacityNamed(key string) (Capacity, bool) {
	for _, c := range Capacities {
		if c.Key == key {
			return c, true
		}
	}
	return Capacity{}, false
}

func defineCrossSlide(sc *sheet.Scope) {
	sc.Formula(quiet("tip_out", "tool tip from the spindle's axis, outermost", "r", unit.MM), "reach_plus - tip_past_axis", "geometry")
	sc.Formula(quiet("start_reach", "diameter that the tool can stand outside of", "d_r", unit.MM), "2 * tip_out", "geometry: twice the radius of the tip")
	sc.Formula(quiet("largest_disc", "largest disc that swings over the bed", "d_b", unit.MM), "swing_bed - 2 * work_clearance", "geometry")
	sc.Formula(quiet("largest_over_slide", "largest work that swings over the cross slide", "d_c", unit.MM), "swing_slide - 2 * work_clearance", "geometry")
	sc.Formula(shown("start_disc", "starts on a diameter of, disc work", "d_1", unit.MM), "min(start_reach, largest_disc)", "geometry: no more than swings over the bed")
	sc.Formula(shown("start_over_slide", "starts on a diameter of, over the cross slide", "d_2", unit.MM), "min(start_reach, largest_over_slide)", "geometry: no more than swings over the cross slide")
	sc.Formula(quiet("use_disc", "where the largest disc is reached", "s_b", unit.MM), "largest_disc / 2 + tip_past_axis", "geometry")
	sc.Family("uses_plus", "no good beyond", unit.MM, "use_disc")
	sc.Formula(quiet("start_asked", "diameter that the tool stands outside of, as asked", "d_a", unit.MM), "2 * (asked_plus - tip_past_axis)", "geometry")
	sc.Check(sheet.Check{Key: "swing_check", Label: "Swing over the bed", Figure: "start_asked", Limit: "largest_disc", AtMost: true, Level: sheet.Use, Advice: true,
		Sentence: "The tool stands outside of {figure}; no disc larger than {limit} swings over the bed.", Source: "geometry"})
}

func defineMillReach(sc *sheet.Scope) {
	sc.Formula(quiet("reach_back", "table's front edge to the spindle's axis, slide right out", "y_1", unit.MM), "axis_from_front - (reach_plus - travel_found)", "geometry")
	sc.Formula(quiet("reach_front", "table's front edge to the spindle's axis, slide right in", "y_2", unit.MM), "axis_from_front + travel_found - reach_minus", "geometry")
	sc.Formula(shown("reach_table", "width of the table that comes under the spindle", "w", unit.MM), "max(0, min(reach_front, table_width) - max(reach_back, 0))", "geometry: what is off the table's edge is not counted")
	sc.Formula(quiet("use_front", "where the table's front edge is under the spindle", "s_f", unit.MM), "travel_found + axis_from_front", "geometry")
	sc.Formula(quiet("use_back", "where the table's back edge is under the spindle", "s_k", unit.MM), "axis_from_front + travel_found - table_width", "geometry")
	sc.Family("uses_plus", "no good beyond", unit.MM, "use_front")
	sc.Family("uses_minus", "no good beyond", unit.MM, "use_back")
	sc.Check(sheet.Check{Key: "front_edge_check", Label: "Table's front edge under the spindle", Figure: "asked_plus", Limit: "use_front", AtMost: true, Level: sheet.Use, Advice: true,
		Sentence: "The slide is asked to go out to {figure}; at {limit} the table's front edge is under the spindle.", Source: "geometry"})
	sc.Check(sheet.Check{Key: "back_edge_check", Label: "Table's back edge under the spindle", Figure: "asked_minus", Limit: "use_back", Level: sheet.Use, Advice: true,
		Sentence: "The slide is asked to go in to {figure}; at {limit} the table's back edge is under the spindle.", Source: "geometry"})
}

func defineDaylight(sc *sheet.Scope) {
	sc.Measure(sheet.Q{Key: "riser", Label: "riser block", Symbol: "R", Unit: unit.MM}, sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	sc.Formula(shown("lowest_planned", "spindle nose to table, lowest", "h_1", unit.MM), "lowest + riser", "geometry: a spacer lifts the lowest position as well as the highest")
	sc.Formula(shown("highest", "spindle nose to table, highest", "h_2", unit.MM), "lowest_planned + travel_found", "geometry")
	if sc.Has("column") {
		sc.Formula(shown("column_planned", "column from its joint to the spindle", "L_c", unit.MM), "column + riser", "geometry")
		sc.Formula(shown("softer", "column bends more, times", "k", unit.One), "pow(column_planned / column, 3)", "elementary beam theory: deflection grows with the cube of the length")
		assumed(sc, quiet("softer_most", "most that the column may soften, times", "k", unit.One), 3.5, "common practice, no source: tight above 2, fails above 3.5")
		assumed(sc, quiet("softer_tight", "tight within", "", unit.One), 1.5, "common practice, no source: tight above 2, fails above 3.5")
		sc.Check(sheet.Check{Key: "softer_check", Label: "Stiffness of the column", Figure: "softer", Limit: "softer_most", AtMost: true, Tight: "softer_tight", Level: sheet.Rule,
			Sentence: "The column bends {figure} times as much as it does now; {limit} is the most that is sensible.", Source: "elementary beam theory"})
	}
	if sc.Has("tallest_job") {
		sc.Check(sheet.Check{Key: "tallest_check", Label: "Tallest work goes under the spindle", Figure: "highest", Limit: "tallest_job", Level: sheet.Rule,
			Sentence: "The spindle's nose goes up to {figure} above the table; your tallest work needs {limit}.", Source: "the work that you named"})
	}
	if sc.Has("lowest_job") {
		sc.Check(sheet.Check{Key: "lowest_check", Label: "Lowest work can be reached", Figure: "lowest_planned", Limit: "lowest_job", AtMost: true, Level: sheet.Rule,
			Sentence: "The spindle's nose comes down to {figure} above the table; your lowest work needs {limit}.", Source: "the work that you named"})
	}
	if sc.Has("strut_spare") {
		sc.Formula(quiet("strut_left", "strut or cable left to spare", "l", unit.MM), "strut_spare - riser", "geometry")
		sc.Check(sheet.Check{Key: "strut_check", Label: "Gas strut or cable", Figure: "strut_left", Limit: "touching", Level: sheet.Stop,
			Sentence: "The strut or cable has {figure} to spare with the head at the top.", Source: "geometry"})
	}
}

func defineDepth(sc *sheet.Scope) {
	if !sc.Has("tang_depth") || !sc.Has("thread.to") {
		return
	}
	sc.Formula(shown("ejects_at", "pushes the tool out at", "s_e", unit.MM), "thread.to - quill_nose + tang_depth", "geometry: the screw's tip meets the tang",
		sheet.With{"quill_nose": "quill.to"})
	sc.Family("uses_minus", "no good beyond", unit.MM, "ejects_at")
}

func quiet(key, label, symbol string, u unit.Unit) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: u, Quiet: true}
}

func shown(key, label, symbol string, u unit.Unit) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: u}
}

// assumed defines a leaf that rests on a default; v is in the unit's own scale.
func assumed(sc *sheet.Scope, q sheet.Q, v float64, source string) {
	sc.Measure(q, sheet.Leaf{Value: q.Unit.Inside(v), Origin: sheet.Assumed, Note: source})
}
