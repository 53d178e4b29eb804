package axis

import (
	"slices"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Arrangement is how an axis is driven: which parts are usual, what is held
// and what moves, what a turn gives, and what is usually in the way. The
// differences between them are in this table, not in code.
type Arrangement struct {
	Key    string
	Label  string
	Answer string // to "when you wind it, does the handle stay where it is or go with the slide?"
	Moves  string // what moves is called, where no part of it says: "slide"
	Stand  string // how it stands when positions are read, with {moves} and {minus} in it
	Moving []string
	// Engages lists pairs of roles that must overlap, the part that is to be
	// covered whole first.
	Engages   []Engagement
	Drives    []Drive // what the drive gives
	Sizes     []Size  // the axis's own figures
	Obstacles []Usual
	Questions []Question
}

// Engagement is a pair of roles that must overlap by at least so much.
type Engagement struct {
	Inner, Outer string // roles: Inner lies within Outer
	Kind         Hold
	Least        sheet.Method // of kind [Held]: how much must overlap, of the inner part's length and dia
	Label        string       // "nut on the thread"
}

// Hold is how one part holds another.
type Hold string

// The ways of holding.
const (
	OnThread Hold = "thread" // full, or in part down to the least
	OnWays   Hold = "cover"  // what hangs over is counted
	Held     Hold = "least"  // at least so much overlaps: a rule
	Within   Hold = "within" // it never leaves: the outer one's ends are stops
)

// Usual is something that is often in the way at an end of an axis.
type Usual struct {
	Key, Label string
	End        End
}

// Question is asked of the owner where no sum can tell.
type Question struct {
	Key, Ask string
	Advice   string // what follows where the answer is yes
}

var (
	travelFound = Size{Key: "travel_found", Label: "travel as found", Symbol: "t", Unit: unit.MM, How: "wind it from end to end; dial gauge and a rule, or a caliper's depth rod", With: "caliper"}
	handTorque  = Size{Key: "hand_torque", Label: "torque at the handwheel", Symbol: "T", Unit: unit.NewtonMetre, Default: "3", Source: "assumed: 100 N at a radius of 30 mm", How: "spring balance at the rim, times the radius", With: "count"}
	sharedDial  = Question{"shared_nut", "Does one nut both set the end float and hold the dial or the handle?",
		"Tightening it locks the dial, slackening it gives end float. Plan an adjuster of its own before a longer end is made."}
	driveOffset = Size{Key: "drive_offset", Label: "screw off the middle of the ways", Symbol: "e", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "across the slide, from the screw to half way between the ways", With: "rule"}
	endFloat    = Size{Key: "end_float", Label: "end float of the screw", Symbol: "f_e", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "push and pull at the handle, a dial gauge on the screw's end", With: "dial_gauge", Visible: true}
	gearRatio   = Size{Key: "gear_ratio", Label: "turns of the handle for one of the screw or pinion", Symbol: "i", Unit: unit.One, Optional: true, How: "wind slowly and count; through bevel or spur gears, teeth driven over teeth driving", With: "count"}
	clockwise   = Size{Key: "clockwise", Label: "clockwise moves it to", Optional: true, Choices: []Choice{{string(Plus), "the end that counts up"}, {string(Minus), "the other end"}}, How: "facing the handle, turn it clockwise", With: "count"}
	// Of what is not wound, and of a ram whose place is its clamp's.
	travelBrought = travelBy("bring it from end to end; a rule, or a caliper's depth rod")
	travelClamped = travelBy("from the rearmost place, clamp and stroke fully back, to the foremost; a rule along the ram")
	travelScrewed = travelBy("push it over with one screw as far as it goes, then with the other; a dial gauge or a caliper on it")
	// Where the push is taken, from a spring balance: it tells what binds, and where.
	pushes = []Size{
		{Key: "push_minus", Label: "push, near the end where positions are read", Symbol: "F_1", Unit: unit.Newton, Least: NothingOrMore, Optional: true, How: "spring balance on the slide or at the handle's rim, the same each time", With: "count"},
		{Key: "push_middle", Label: "push, half way", Symbol: "F_2", Unit: unit.Newton, Least: NothingOrMore, Optional: true, How: "the same, half way along", With: "count"},
		{Key: "push_plus", Label: "push, near the other end", Symbol: "F_3", Unit: unit.Newton, Least: NothingOrMore, Optional: true, How: "the same, near the other end", With: "count"},
	}
	// What an axis carries that goes up and down, or tips where it stands out beyond its ways.
	weights = []Size{
		{Key: "moving_mass", Label: "mass of what moves, with what stands on it", Symbol: "m", Unit: unit.Kilogram, Optional: true, How: "on a scale when it is off, or from its sizes: cast iron is 7.2 kg a litre", With: "count"},
		{Key: "counterweight", Label: "counterweight, or what a strut carries", Symbol: "m_c", Unit: unit.Kilogram, Least: NothingOrMore, Optional: true, How: "weigh it, or read the strut: 10 N are about 1 kg", With: "count"},
	}
	screwSizes = slices.Concat([]Size{travelFound, handTorque, endFloat, driveOffset, gearRatio, clockwise}, lostMotionSizes, pushes, weights)
	rackSizes  = slices.Concat([]Size{travelBrought, gearRatio, clockwise}, pushes, weights)
	threadNut  = Engagement{Inner: "nut", Outer: "thread", Kind: OnThread, Label: "nut on the thread"}
	slideWays  = Engagement{Inner: "slide", Outer: "ways", Kind: OnWays, Label: "slide on its ways"}
	tableWays  = Engagement{Inner: "ways", Outer: "table", Kind: OnWays, Label: "table on its ways"}
	quillGuide = Engagement{Inner: "quill", Outer: "guide", Kind: Held, Label: "quill in its guide",
		Least: sheet.Method{Text: "1.5 * dia", Source: "common practice, no source: 1.5 diameters stay in the guide"}}
	keyInKeyway  = Engagement{Inner: "key", Outer: "keyway", Kind: Within, Label: "key in its keyway"}
	pinionOnRack = Engagement{Inner: "pinion", Outer: "rack", Kind: Within, Label: "pinion on the rack"}
	splineSleeve = Engagement{Inner: "spline", Outer: "spline_sleeve", Kind: Held, Label: "spline in its sleeve",
		Least: sheet.Method{Text: "mm(20)", Source: "common practice, no source: 20 mm of spline stay in the sleeve"}}
)

// travelBy is the travel as found, where it is measured in a way of its own.
func travelBy(how string) Size {
	s := travelFound
	s.How = how
	return s
}

const (
	wound   = "Wind the {moves} fully {minus} and leave it there."
	brought = "Bring the {moves} fully {minus} and leave it there."
)

// Arrangements are the ways of driving an axis that there are.
var Arrangements = []Arrangement{
	{
		Key: "held_screw", Label: "screw held by the fixed side, nut travels", Answer: "The handle stays where it is.",
		Moves: "slide", Stand: wound,
		Moving: []string{"slide", "table", "nut"}, Engages: []Engagement{threadNut, slideWays, tableWays}, Drives: []Drive{screwTurn}, Sizes: slices.Concat(screwSizes, tipSizes, gearSizes),
		Obstacles: []Usual{{"splash_tray", "splash tray or stop", Plus}, {"rear_obstacle", "splash guard, taper attachment or scale", Minus}},
		Questions: []Question{sharedDial},
	},
	{
		Key: "travelling_screw", Label: "nut fixed, screw and bracket travel", Answer: "The handle goes with the slide.",
		Moves: "slide", Stand: wound,
		Moving: []string{"slide", "table", "bracket", "tail_bearing", "dial", "handle", "lock_nut", "thread", "shank"}, Engages: []Engagement{threadNut, slideWays, tableWays}, Drives: []Drive{screwTurn}, Sizes: slices.Concat(screwSizes, tipSizes),
		Obstacles: []Usual{{"front_obstacle", "tray, stop or scale at the handle's end", Plus}, {"column_cover", "way cover, column or motor", Minus}},
		Questions: []Question{sharedDial},
	},
	{
		Key: "turning_nut", Label: "nut turns in its bracket, screw does not turn", Answer: "The handle stays, and a screw that does not turn comes and goes with the slide.",
		Moves: "slide", Stand: wound,
		Moving: []string{"slide", "table", "quill", "thread", "keyway"}, Engages: []Engagement{threadNut, slideWays, tableWays, quillGuide, keyInKeyway}, Drives: []Drive{screwTurn}, Sizes: screwSizes,
		Obstacles: []Usual{{"far_obstacle", "what the slide can meet, going away from the nut", Plus}, {"screw_room", "floor, cover or hole that the screw's end goes into", Minus}},
		Questions: []Question{sharedDial},
	},
	{
		Key: "barrel_screw", Label: "screw inside a barrel that it pushes", Answer: "The handle stays, and a barrel comes out.",
		Moves: "barrel", Stand: wound,
		Moving:  []string{"quill", "nut", "keyway"},
		Engages: []Engagement{threadNut, quillGuide, keyInKeyway}, Drives: []Drive{screwTurn},
		Sizes: append([]Size{
			{Key: "tang_depth", Label: "depth of the tool's tang behind the nose", Symbol: "D_t", Unit: unit.MM, Least: NothingOrMore, How: "with your shortest tool in the taper", With: "depth_gauge"},
			{Key: "tang_longest", Label: "the same, with your longest tool", Symbol: "D_l", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "with the tool that reaches furthest back", With: "depth_gauge"},
		}, screwSizes...),
		Obstacles: []Usual{{"work_side", "cross slide or carriage", Plus}},
	},
	{
		Key: "rack", Label: "rack and pinion, the rack travels", Answer: "A lever or wheel that stays turns a pinion; the rack goes with what moves.",
		Moves: "quill", Stand: brought,
		Moving:  []string{"slide", "table", "quill", "rack", "spline"},
		Engages: []Engagement{pinionOnRack, quillGuide, splineSleeve, slideWays, tableWays}, Drives: []Drive{rackTurn},
		Sizes:     rackSizes,
		Obstacles: []Usual{{"depth_stop", "depth stop or return spring", Plus}},
	},
	{
		Key: "rack_fixed", Label: "rack and pinion, the rack stays", Answer: "A wheel or crank goes along with the slide and turns a pinion on a rack that stays.",
		Moves: "slide", Stand: brought,
		Moving:  []string{"slide", "table", "pinion", "dial", "handle"},
		Engages: []Engagement{pinionOnRack, slideWays, tableWays}, Drives: []Drive{rackTurn},
		Sizes:     rackSizes,
		Obstacles: []Usual{{"far_stop", "stop, bracket or tailstock", Plus}, {"near_stop", "guard, chuck or table", Minus}},
	},
	{
		Key: "rack_worm", Label: "rack and pinion, with worm and wheel for a fine feed", Answer: "A lever turns a pinion, and a small wheel turns the same pinion slowly through a worm.",
		Moves: "quill", Stand: brought,
		Moving:  []string{"slide", "table", "quill", "rack", "spline"},
		Engages: []Engagement{pinionOnRack, quillGuide, splineSleeve, slideWays, tableWays}, Drives: []Drive{rackTurn, wormTurn},
		Sizes: append([]Size{
			{Key: "wheel_teeth", Label: "teeth of the worm's wheel", Symbol: "z_2", Unit: unit.Count, Whole: true, How: "count; or turns of the fine wheel for one of the lever, times the worm's starts", With: "count"},
			{Key: "worm_starts", Label: "starts of the worm", Symbol: "z_1", Unit: unit.Count, Whole: true, Default: "1", Source: "common practice, no source: a fine feed's worm has one start", How: "count the threads that begin at its end", With: "count"},
		}, rackSizes...),
		Obstacles: []Usual{{"depth_stop", "depth stop or return spring", Plus}},
	},
	{
		Key: "half_nuts", Label: "lead screw with half nuts, and a rack for the hand", Answer: "A handwheel moves it along a rack, and half nuts close on a lead screw.",
		Moves: "carriage", Stand: brought,
		Moving:  []string{"slide", "nut", "pinion", "dial", "handle"},
		Engages: []Engagement{threadNut, pinionOnRack, slideWays, tableWays}, Drives: []Drive{rackTurn, leadTurn},
		Sizes:     rackSizes,
		Obstacles: []Usual{{"far_stop", "tailstock or stop", Plus}, {"near_stop", "headstock, chuck or guard", Minus}},
	},
	{
		Key: "crank", Label: "crank and slotted link", Answer: "It is not wound: a crank swings a slotted lever, and the lever pushes a ram.",
		Moves: "ram", Stand: "Set the longest stroke, the clamp at the same end of its slot. With the power off, turn the machine by hand until the {moves} is fully {minus}, and leave it there.",
		Moving:  []string{"slide", "table"},
		Engages: []Engagement{slideWays, tableWays}, Drives: []Drive{crankStroke, crankReturn, crankRange},
		Sizes: append([]Size{
			{Key: "crank_radius", Label: "crank pin from the crank's middle, at the longest stroke", Symbol: "r", Unit: unit.MM, How: "the pin screwed right out, across to the middle", With: "caliper"},
			{Key: "lever_length", Label: "slotted lever from its pivot to the ram's pin", Symbol: "L", Unit: unit.MM, How: "between the middles, the lever upright", With: "rule"},
			{Key: "pivot_distance", Label: "crank's middle from the lever's pivot", Symbol: "d", Unit: unit.MM, How: "between the middles", With: "rule"},
			{Key: "clamp_range", Label: "how far the ram's clamp shifts the stroke", Symbol: "c", Unit: unit.MM, Least: NothingOrMore, Default: "0", Source: "assumed: the stroke cannot be shifted", How: "from one end of its slot to the other", With: "rule"},
		}, slices.Concat([]Size{travelClamped}, weights)...),
		Obstacles: []Usual{{"front_obstacle", "work, vice or tool slide", Plus}, {"rear_obstacle", "wall or belt guard", Minus}},
	},
	{
		Key: "lever", Label: "lever, pushed directly", Answer: "A lever pushes it: nothing is wound.",
		Moves: "slide", Stand: brought,
		Moving:  []string{"slide", "table", "quill", "keyway"},
		Engages: []Engagement{slideWays, tableWays, quillGuide, keyInKeyway}, Drives: []Drive{leverRange, leverGain},
		Sizes: append([]Size{
			{Key: "lever_short", Label: "lever from its pivot to the pin that pushes", Symbol: "b", Unit: unit.MM, How: "between the middles", With: "caliper"},
			{Key: "lever_long", Label: "lever from its pivot to the hand", Symbol: "a", Unit: unit.MM, How: "to the middle of the grip", With: "rule"},
			{Key: "lever_swing", Label: "angle through which the lever swings", Symbol: "θ", Unit: unit.Degree, How: "from stop to stop, as much to either side of square as the other", With: "count"},
		}, slices.Concat([]Size{travelBrought}, pushes, weights)...),
		Obstacles: []Usual{{"far_stop", "stop, or what it can meet", Plus}, {"near_stop", "stop at the other end", Minus}},
	},
	{
		Key: "opposed_screws", Label: "two screws that push against one another", Answer: "Two screws push it from either side: one is slackened, the other tightened.",
		Moves: "slide", Stand: brought,
		Moving:  []string{"slide", "keyway"},
		Engages: []Engagement{slideWays, tableWays, keyInKeyway}, Drives: []Drive{screwTurn},
		Sizes:     []Size{travelScrewed, clockwise},
		Obstacles: []Usual{{"far_stop", "what it can meet, the one way", Plus}, {"near_stop", "what it can meet, the other way", Minus}},
	},
	{
		Key: "spaced", Label: "no drive: a distance that a spacer changes", Answer: "Nothing is wound; a spacer sets how far apart things are.",
		Moves: "head", Stand: brought,
		Sizes: append([]Size{{Key: "travel_found", Label: "travel as found", Symbol: "t", Unit: unit.MM, Least: NothingOrMore, How: "from the lowest position to the highest; 0 where nothing travels", With: "rule"}},
			weights...),
		Obstacles: []Usual{{"ceiling", "ceiling, lamp or motor cover", Plus}},
	},
}

// ArrangementNamed is the arrangement with the key.
func ArrangementNamed(key string) (Arrangement, bool) {
	for _, a := range Arrangements {
		if a.Key == key {
			return a, true
		}
	}
	return Arrangement{}, false
}

// SideOf is the side on which a role usually is.
func (a Arrangement) SideOf(role string) Side {
	for _, m := range a.Moving {
		if m == role {
			return Moving
		}
	}
	return Fixed
}
