package axis

import (
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// Capacity is what travel is for: the work that it lets the machine do.
type Capacity struct {
	Key, Label string
	Sizes      []Size
	Goals      []Goal // what a wish is for, the chief one first
	define     func(l *Layout)
}

// Goal is a figure that a wish is for, and how it is told in a sentence.
type Goal struct {
	Key    string
	Says   string   // with {} for the figure: "disc work can start on {}"
	For    string   // before "nothing is gained": "for disc work"
	More   string   // what a larger figure is said to be: "more", "higher"
	Less   string   //
	Small  bool     // the smaller the better
	Limits []string // keys of the min or max that gives it: what swallows a gain is one of their members
}

// Capacities are what can follow from an axis's travel.
var Capacities = []Capacity{
	{
		Key: "lathe_cross_slide", Label: "lathe: the diameter on which a cut can be started",
		Sizes: []Size{
			{Key: "tip_past_axis", Label: "tool tip past the spindle's axis, innermost", Symbol: "a", Unit: unit.MM, Least: AnyFigure, How: "slide right in; negative where the tip does not reach the axis", With: "rule"},
			{Key: "swing_bed", Label: "swing over the bed", Symbol: "S_b", Unit: unit.MM, How: "twice the height of the axis above the bed", With: "rule"},
			{Key: "swing_slide", Label: "swing over the cross slide", Symbol: "S_c", Unit: unit.MM, How: "twice the height of the axis above the cross slide", With: "rule"},
			{Key: "work_clearance", Label: "clearance wanted around the work", Symbol: "c", Unit: unit.MM, Least: NothingOrMore, Default: "2", Source: "common practice, no source: 2 mm a side", Decided: true, How: "decide", With: "count"},
		},
		Goals: []Goal{
			{"start_disc", "disc work can start on {}", "for disc work", "more", "less", false, []string{"start_disc"}},
			{"start_over_slide", "work over the cross slide can start on {}", "over the cross slide", "more", "less", false, []string{"start_over_slide"}},
		},
		define: defineCrossSlide,
	},
	{
		Key: "mill_reach", Label: "mill: how far the table reaches under the spindle",
		Sizes: []Size{
			{Key: "table_width", Label: "width of the table", Symbol: "w_t", Unit: unit.MM, How: "across the working surface", With: "rule"},
			{Key: "axis_from_front", Label: "spindle's axis behind the table's front edge, slide right out", Symbol: "y_0", Unit: unit.MM, Least: AnyFigure, How: "spindle down near the table, slide wound towards you", With: "rule"},
		},
		Goals:  []Goal{{"reach_table", "{} of the table's width comes under the spindle", "under the spindle", "more", "less", false, []string{"usable_plus", "usable_minus"}}},
		define: defineMillReach,
	},
	{
		Key: "daylight", Label: "height between spindle and table",
		Sizes: []Size{
			{Key: "lowest", Label: "spindle nose to table, lowest", Symbol: "h_0", Unit: unit.MM, Least: NothingOrMore, How: "at the lower end of the travel", With: "rule", Visible: true},
			{Key: "column", Label: "column above its foot, to the spindle", Symbol: "L_c", Unit: unit.MM, Optional: true, How: "from the joint to the spindle's axis, head at the top", With: "rule", Visible: true},
			{Key: "tallest_job", Label: "tallest work to go under the spindle", Symbol: "j_t", Unit: unit.MM, Optional: true, How: "vice, work, holder and drill, with room to withdraw", With: "rule"},
			{Key: "lowest_job", Label: "lowest work to be reached", Symbol: "j_l", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "from the table to where the nose must come down to", With: "rule"},
			{Key: "foot_bolt", Label: "bolts that hold the column, length", Symbol: "l_b", Unit: unit.MM, Optional: true, How: "under the head", With: "caliper"},
			{Key: "foot_bolt_dia", Label: "bolts that hold the column, diameter", Symbol: "d_b", Unit: unit.MM, Optional: true, How: "across the thread", With: "caliper"},
			{Key: "foot_bolts", Label: "bolts that hold the column", Unit: unit.Count, Optional: true, Whole: true, How: "count", With: "count"},
			{Key: "foot_length", Label: "foot of the column, front to back", Unit: unit.MM, Optional: true, How: "across the joint", With: "rule"},
			{Key: "foot_width", Label: "foot of the column, side to side", Unit: unit.MM, Optional: true, How: "across the joint", With: "rule"},
			{Key: "strut_spare", Label: "gas strut or cable: length to spare at the top", Symbol: "l_s", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "what it could still extend, head at the top", With: "rule"},
		},
		Goals: []Goal{
			{"highest", "the spindle's nose goes up to {} above the table", "in height", "higher", "lower", false, nil},
			{"lowest_planned", "it comes down no lower than {}", "lower down", "higher", "lower", true, nil},
		},
		define: defineDaylight,
	},
	{
		Key: "depth", Label: "quill: how deep it drills",
		Goals:  []Goal{{"usable", "it can be used over {} of travel", "in depth", "more", "less", false, []string{"usable_plus", "usable_minus"}}},
		define: defineDepth,
	},
	{
		Key: "toolpost", Label: "top slide: whether the tool comes to centre height",
		Sizes: []Size{
			{Key: "centre_above_slide", Label: "centre height above the top slide's top", Symbol: "h_t", Unit: unit.MM, How: "from the face that the toolpost stands on up to a centre", With: "rule", Visible: true},
			{Key: "centre_above_cross", Label: "centre height above the cross slide's top", Symbol: "h_c", Unit: unit.MM, Optional: true, How: "the top slide off, from the face that it stands on up to a centre", With: "rule"},
			{Key: "holder_lowest", Label: "tool's tip above the toolpost's foot, lowest", Symbol: "t_1", Unit: unit.MM, Optional: true, How: "your smallest tool, its holder right down", With: "rule"},
			{Key: "holder_highest", Label: "tool's tip above the toolpost's foot, highest", Symbol: "t_2", Unit: unit.MM, Optional: true, How: "your usual tool, its holder right up", With: "rule"},
			{Key: "post_side", Label: "toolpost's foot, along its longer side", Unit: unit.MM, Optional: true, How: "across the foot", With: "rule"},
			{Key: "post_bolt", Label: "bolt that holds the toolpost, diameter", Symbol: "d_p", Unit: unit.MM, Optional: true, How: "across the thread", With: "caliper"},
			{Key: "swivel_bolts", Label: "bolts that hold the swivel", Unit: unit.Count, Optional: true, Whole: true, How: "count", With: "count"},
			{Key: "swivel_bolt_dia", Label: "bolts that hold the swivel, diameter", Unit: unit.MM, Optional: true, How: "across the thread", With: "caliper"},
			{Key: "swivel_circle", Label: "bolts that hold the swivel, circle through their middles", Unit: unit.MM, Optional: true, How: "from the middle of one to the middle of the opposite one", With: "caliper"},
		},
		Goals:  []Goal{{"usable", "it can be used over {} of travel", "in travel", "more", "less", false, []string{"usable_plus", "usable_minus"}}},
		define: defineToolpost,
	},
	{
		Key: "cut_length", Label: "shaper or grinder: the longest work that is passed over",
		Sizes: []Size{
			{Key: "run_on", Label: "room before the work", Symbol: "c_1", Unit: unit.MM, Least: NothingOrMore, Default: "15", Source: "common practice, no source: 15 mm for the tool to drop back", Decided: true, How: "decide", With: "count"},
			{Key: "run_off", Label: "room beyond the work", Symbol: "c_2", Unit: unit.MM, Least: NothingOrMore, Default: "5", Source: "common practice, no source: 5 mm", Decided: true, How: "decide", With: "count"},
		},
		Goals:  []Goal{{"longest_work", "work of {} can be passed over", "in length of work", "longer", "shorter", false, nil}},
		define: defineCutLength,
	},
}

// GoalKeys are the keys of the goals, within the axis.
func (c Capacity) GoalKeys() []string {
	keys := make([]string, len(c.Goals))
	for i, g := range c.Goals {
		keys[i] = g.Key
	}
	return keys
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

func defineCrossSlide(l *Layout) {
	sc := l.Scope
	sc.Formula(quiet("tip_out", "tool tip from the spindle's axis, outermost", "r", unit.MM), "reach_plus - tip_past_axis", "geometry")
	sc.Formula(quiet("start_reach", "diameter that the tool can stand outside of", "d_r", unit.MM), "2 * tip_out", "geometry: twice the radius of the tip")
	sc.Formula(quiet("largest_disc", "swing over the bed, less clearance", "d_b", unit.MM), "swing_bed - 2 * work_clearance", "geometry")
	sc.Formula(quiet("largest_over_slide", "swing over the cross slide, less clearance", "d_c", unit.MM), "swing_slide - 2 * work_clearance", "geometry")
	sc.Formula(shown("start_disc", "largest diameter to start on, disc work", "d_1", unit.MM), "min(start_reach, largest_disc)", "geometry: no more than swings over the bed")
	sc.Formula(shown("start_over_slide", "largest diameter to start on, over the cross slide", "d_2", unit.MM), "min(start_reach, largest_over_slide)", "geometry: no more than swings over the cross slide")
	sc.Formula(quiet("use_disc", "largest disc that swings over the bed", "s_b", unit.MM), "largest_disc / 2 + tip_past_axis", "geometry")
	sc.Family("uses_plus", "no good beyond", unit.MM, "use_disc")
	sc.Formula(quiet("start_asked", "diameter that the tool stands outside of, as asked", "d_a", unit.MM), "2 * (asked_plus - tip_past_axis)", "geometry")
	sc.Check(sheet.Check{Key: "swing_check", Label: "Swing over the bed", Figure: "start_asked", Limit: "largest_disc", AtMost: true, Level: sheet.Use, Advice: true,
		Sentence: "The tool stands outside of {figure}; no disc larger than {limit} swings over the bed.", Source: "geometry"})
}

// defineMillReach: the table's front edge faces the plus end. The further the
// slide goes that way, the further the spindle stands behind that edge.
func defineMillReach(l *Layout) {
	sc := l.Scope
	sc.Formula(quiet("behind_plus", "spindle's axis behind the table's front edge, slide right out", "y_1", unit.MM), "axis_from_front + reach_plus - travel_found", "geometry")
	sc.Formula(quiet("behind_minus", "spindle's axis behind the table's front edge, slide right in", "y_2", unit.MM), "axis_from_front + reach_minus - travel_found", "geometry")
	sc.Formula(shown("reach_table", "width of the table that comes under the spindle", "w", unit.MM), "max(0, min(behind_plus, table_width) - max(behind_minus, 0))", "geometry: what is off the table's edge is not counted")
	sc.Formula(quiet("use_back", "table's back edge under the spindle", "s_k", unit.MM), "travel_found + table_width - axis_from_front", "geometry")
	sc.Formula(quiet("use_front", "table's front edge under the spindle", "s_f", unit.MM), "travel_found - axis_from_front", "geometry")
	sc.Family("uses_plus", "no good beyond", unit.MM, "use_back")
	sc.Family("uses_minus", "no good beyond", unit.MM, "use_front")
	sc.Check(sheet.Check{Key: "back_edge_check", Label: "Table's back edge under the spindle", Figure: "asked_plus", Limit: "use_back", AtMost: true, Level: sheet.Use, Advice: true,
		Sentence: "The slide is asked to go out to {figure}; at {limit} the table's back edge is under the spindle.", Source: "geometry"})
	sc.Check(sheet.Check{Key: "front_edge_check", Label: "Table's front edge under the spindle", Figure: "asked_minus", Limit: "use_front", Level: sheet.Use, Advice: true,
		Sentence: "The slide is asked to go in to {figure}; at {limit} the table's front edge is under the spindle.", Source: "geometry"})
}

// defineDaylight: the height over the table follows the head wherever its travel
// goes, and a riser, which takes the column along with all that is measured on it.
func defineDaylight(l *Layout) {
	sc := l.Scope
	up, lowered, raised := Plus, "reach_minus", "reach_plus"
	if l.downward(Plus) {
		up, lowered, raised = Minus, "travel_found - reach_plus", "travel_found - reach_minus"
	}
	sc.Measure(shown("riser", "riser block", "R", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	sc.Measure(quiet("lengthened", "column made longer by", "ΔL", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "not at all, as found"})
	sc.Formula(shown("lowest_planned", "spindle nose to table, lowest", "h_1", unit.MM), "lowest + riser + ("+lowered+")", "geometry: a spacer lifts the lowest position as well as the highest")
	sc.Formula(shown("highest", "spindle nose to table, highest", "h_2", unit.MM), "lowest + riser + lengthened + ("+raised+")", "geometry: a longer column lifts the highest position alone")
	if sc.Has("column") {
		sc.Formula(shown("column_planned", "column from its joint to the spindle", "L_c", unit.MM), "column + riser", "geometry")
		sc.Method(shown("softer", "column's bending, against before", "k", unit.One), slide.BendRatio, sheet.With{"after": "column_planned", "before": "column"})
		l.Assume(sc, quiet("softer_most", "most that the column may bend, against before", "k_max", unit.One), slide.BendRatioMost, slide.BendRatioSource)
		l.Assume(sc, quiet("softer_near", "softening of the column below that within which it is tight", "", unit.One), slide.BendRatioMost-slide.BendRatioGood, slide.BendRatioSource)
		sc.Check(sheet.Check{Key: "softer_check", Label: "Stiffness of the column", Figure: "softer", Limit: "softer_most", AtMost: true, Tight: "softer_near", Level: sheet.Rule,
			Sentence: "The column bends {figure} times as much as it does now, and {limit} times is the most that is sensible.", Source: slide.BendRatioSource})
	}
	if sc.Has("tallest_job") {
		sc.Formula(quiet("riser_least", "riser that the tallest work needs", "R_min", unit.MM), "max(0, tallest_job - (highest - riser))", "geometry")
	}
	if sc.Has("lowest_job") {
		sc.Formula(quiet("riser_most", "riser that the lowest work allows", "R_max", unit.MM), "lowest_job - (lowest_planned - riser)", "geometry")
	}
	for _, o := range l.Obstacles {
		if o.End != up || o.Clear {
			continue
		}
		in := sc.In(o.Key)
		in.Formula(quiet("left", "room left to the "+o.Label, "c", unit.MM), "gap_left - riser - extra", "geometry: the riser lifts the head, and so does more travel", sheet.With{"extra": "extra_" + string(up)})
		in.Check(sheet.Check{Key: "riser_check", Label: "Riser clear of the " + o.Label, Figure: "left", Limit: "touching", Level: sheet.Stop,
			Sentence: "Room left between the head at the top and the " + o.Label + ": {figure}.", Source: "geometry"})
	}
	if sc.Has("foot_bolt") {
		sc.Formula(shown("foot_bolt_planned", "bolts that hold the column, or a second tier of them", "l_b", unit.MM), "when(riser > 0, stock_bolt(foot_bolt + riser), foot_bolt)", "geometry: as much longer as the riser is high; ISO 888: preferred lengths of bolts")
	}
	if sc.Has("strut_spare") {
		sc.Formula(quiet("strut_left", "strut or cable left to spare", "l", unit.MM), "strut_spare - riser", "geometry")
		sc.Check(sheet.Check{Key: "strut_check", Label: "Gas strut or cable", Figure: "strut_left", Limit: "touching", Level: sheet.Stop,
			Sentence: "The strut or cable has {figure} to spare with the head at the top.", Source: "geometry"})
	}
}

// defineDepth: a quill is of use from where it no longer pushes its tool out
// to where the least of it is still held, by nut, guide, rack and spline.
func defineDepth(l *Layout) {
	sc := l.Scope
	for _, e := range l.ends() {
		sc.Family(e.uses, "no good beyond, "+e.name, unit.MM, l.held[e.at]...)
	}
	quill, okQ := l.WithRole("quill")
	thread, okT := l.WithRole("thread")
	if okQ && !okT {
		sc.Measure(quiet("raised", "table raised between two strokes", "r", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "not at all, as found"})
		sc.Formula(quiet("deepest", "deepest hole at one setting", "", unit.MM), "usable + raised", "geometry: what the quill drills, and as much again as the table is raised by between two strokes")
	}
	if !okQ || !okT || !sc.Has("tang_depth") {
		return
	}
	sc.Formula(shown("ejects_at", "point at which the tool is pushed out", "s_e", unit.MM), "tip - nose + tang_depth", "geometry: the screw's tip meets the tang",
		sheet.With{"tip": thread.Key + ".to", "nose": quill.Key + ".to"})
	sc.Family("uses_minus", "", unit.MM, "ejects_at")
}

// defineToolpost: what must stand under a toolpost for its tool to come to the
// centre, and how high a block in place of the top slide would be.
func defineToolpost(l *Layout) {
	sc := l.Scope
	if sc.Has("holder_highest") {
		sc.Formula(quiet("packing", "packing that the toolpost needs under it", "p", unit.MM), "max(0, centre_above_slide - holder_highest)", "geometry")
		sc.Check(sheet.Check{Key: "highest_check", Label: "Tool comes up to the centre", Figure: "holder_highest", Limit: "centre_above_slide", Level: sheet.Use, Advice: true,
			Sentence: "The tool's tip comes to {figure} above the toolpost's foot, and the centre is at {limit}.", Source: "geometry"})
	}
	if sc.Has("holder_lowest") {
		sc.Check(sheet.Check{Key: "lowest_check", Label: "Tool goes down to the centre", Figure: "holder_lowest", Limit: "centre_above_slide", AtMost: true, Level: sheet.Use, Advice: true,
			Sentence: "The tool's tip goes down to {figure} above the toolpost's foot, and the centre is at {limit}.", Source: "geometry"})
	}
	if sc.Has("centre_above_cross") {
		sc.Formula(quiet("top_slide_height", "top slide from the cross slide's top to its own", "H", unit.MM), "centre_above_cross - centre_above_slide", "geometry: a block of this height stands the toolpost as high as the top slide does")
	}
}

// defineCutLength: a stroke begins before the work and ends beyond it.
func defineCutLength(l *Layout) {
	stroke := "travel"
	if l.Scope.Has("stroke") {
		stroke = "stroke" // what the clamp shifts is no part of one stroke
	}
	l.Scope.Formula(shown("longest_work", "longest work that is passed over", "l_w", unit.MM), "max(0, passes - run_on - run_off)", "geometry", sheet.With{"passes": stroke})
}

func quiet(key, label, symbol string, u unit.Unit) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: u, Quiet: true}
}

func shown(key, label, symbol string, u unit.Unit) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: u}
}
