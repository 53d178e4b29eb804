package axis

import (
	"slices"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Arrangement is how an axis is driven: which parts are usual, what is held
// and what moves, and what is usually in the way. The differences between the
// five are in this table, not in code.
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
	Sizes     []Size // the axis's own figures
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
	screwSizes  = append([]Size{travelFound, handTorque, endFloat, driveOffset}, lostMotionSizes...)
	threadNut   = Engagement{Inner: "nut", Outer: "thread", Kind: OnThread, Label: "nut on the thread"}
	slideWays   = Engagement{Inner: "slide", Outer: "ways", Kind: OnWays, Label: "slide on its ways"}
	quillGuide  = Engagement{Inner: "quill", Outer: "guide", Kind: Held, Label: "quill in its guide",
		Least: sheet.Method{Text: "1.5 * dia", Source: "common practice, no source: 1.5 diameters stay in the guide"}}
	keyInKeyway  = Engagement{Inner: "key", Outer: "keyway", Kind: Within, Label: "key in its keyway"}
	pinionOnRack = Engagement{Inner: "pinion", Outer: "rack", Kind: Within, Label: "pinion on the rack"}
	splineSleeve = Engagement{Inner: "spline", Outer: "spline_sleeve", Kind: Held, Label: "spline in its sleeve",
		Least: sheet.Method{Text: "mm(20)", Source: "common practice, no source: 20 mm of spline stay in the sleeve"}}
)

const wound = "Wind the {moves} fully {minus} and leave it there."

// Arrangements are the five ways of driving an axis that there are.
var Arrangements = []Arrangement{
	{
		Key: "held_screw", Label: "screw held by the fixed side, nut travels", Answer: "The handle stays where it is.",
		Moves: "slide", Stand: wound,
		Moving: []string{"slide", "nut"}, Engages: []Engagement{threadNut, slideWays}, Sizes: slices.Concat(screwSizes, tipSizes, gearSizes),
		Obstacles: []Usual{{"splash_tray", "splash tray or stop", Plus}, {"rear_obstacle", "splash guard, taper attachment or scale", Minus}},
		Questions: []Question{sharedDial},
	},
	{
		Key: "travelling_screw", Label: "nut fixed, screw and bracket travel", Answer: "The handle goes with the slide.",
		Moves: "slide", Stand: wound,
		Moving: []string{"slide", "bracket", "dial", "handle", "lock_nut", "thread", "shank"}, Engages: []Engagement{threadNut, slideWays}, Sizes: slices.Concat(screwSizes, tipSizes),
		Obstacles: []Usual{{"front_obstacle", "tray, stop or scale at the handle's end", Plus}, {"column_cover", "way cover, column or motor", Minus}},
		Questions: []Question{sharedDial},
	},
	{
		Key: "barrel_screw", Label: "screw inside a barrel that it pushes", Answer: "The handle stays, and a barrel comes out.",
		Moves: "barrel", Stand: wound,
		Moving:  []string{"quill", "nut", "keyway"},
		Engages: []Engagement{threadNut, quillGuide, keyInKeyway},
		Sizes: append([]Size{
			{Key: "tang_depth", Label: "depth of the tool's tang behind the nose", Symbol: "D_t", Unit: unit.MM, Least: NothingOrMore, How: "with your shortest tool in the taper", With: "depth_gauge"},
		}, screwSizes...),
		Obstacles: []Usual{{"work_side", "cross slide or carriage", Plus}},
	},
	{
		Key: "rack", Label: "rack and pinion", Answer: "A lever or wheel turns a pinion on a rack.",
		Moves: "quill", Stand: "Bring the {moves} fully {minus} and leave it there.",
		Moving:    []string{"slide", "quill", "rack", "spline"},
		Engages:   []Engagement{pinionOnRack, quillGuide, splineSleeve, slideWays},
		Sizes:     []Size{travelFound},
		Obstacles: []Usual{{"depth_stop", "depth stop or return spring", Plus}},
	},
	{
		Key: "spaced", Label: "no drive: a distance that a spacer changes", Answer: "Nothing is wound; a spacer sets how far apart things are.",
		Moves: "head", Stand: "Bring the {moves} fully {minus} and leave it there.",
		Sizes:     []Size{{Key: "travel_found", Label: "travel as found", Symbol: "t", Unit: unit.MM, Least: NothingOrMore, How: "from the lowest position to the highest; 0 where nothing travels", With: "rule"}},
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
