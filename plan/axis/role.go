package axis

import "fettle/plan/unit"

// Size is one figure of a part, or of an axis: what is asked on the measuring sheet.
type Size struct {
	Key      string
	Label    string // after the part's: "bracket" + "outside diameter"
	Symbol   string // in formulas; the label where there is none
	Unit     unit.Unit
	Default  string // what is assumed where nothing is given; "" means unknown
	Source   string // of the default
	Optional bool   // not asked for by itself: where it is not given, nothing is computed from it
	How      string // how to measure it
	With     string // the instrument that is usual for it
	Visible  bool   // shown among the knock-ons when it changes
	Least    Least
	Whole    bool
	Decided  bool     // not measured but chosen, such as what is to stay
	List     bool     // several of them, apart by semicolons or spaces
	Choices  []Choice // one of these words, not a figure
}

// Least is what makes no sense as a [Size].
type Least int

// What a size can be.
const (
	MoreThanNothing Least = iota // a diameter, a pitch, a count: not 0, and not less
	NothingOrMore                // a clearance: 0, and not less
	AnyFigure                    // a position, from a face that lies somewhere
)

// refuses tells in a sentence that an inside value cannot be of such a size; "" where it can.
func (l Least) refuses(value float64) string {
	switch {
	case l == MoreThanNothing && value <= 0:
		return "give more than 0"
	case l == NothingOrMore && value < 0:
		return "give 0 or more"
	}
	return ""
}

// Choice is one of the words that a [Size] can be.
type Choice struct{ Value, Label string }

// Role is what a part does on an axis, and so what is asked of it.
type Role struct {
	Key, Label string
	Lanes      []string // parts of opposite sides that share one can meet
	Length     string   // what its length is called among the knock-ons; "" keeps it quiet
	Cut        bool     // metal that can be taken off a casting, and that must stay
	Longer     string   // how it is made longer, where it is what something runs along: "cut the keyway further"
	Sizes      []Size
}

// The lanes in which parts usually meet.
const (
	slideLane   = "slide"
	dialLane    = "dial" // a slide meets what stays at its handle's end; what goes with it meets nothing else
	nutLane     = "nut"
	tipLane     = "screw tip"
	bracketLane = "bracket"
	quillLane   = "quill"
)

// threadForms are the threads whose root and bore are known.
var threadForms = []Choice{{"metric", "metric, 60°"}, {"trapezoidal", "trapezoidal, 30°"}}

var (
	keep = Size{Key: "keep", Label: "wall to stay", Unit: unit.MM, Least: NothingOrMore, Optional: true, Decided: true, How: "decide: 6, 8 or 10 by the size of the machine, never under 5", With: "count"}
	dia  = Size{Key: "dia", Label: "outside diameter", Symbol: "D", Unit: unit.MM, Optional: true, How: "across, with a caliper", With: "caliper"}
	bore = Size{Key: "bore", Label: "bore", Symbol: "d", Unit: unit.MM, Optional: true, How: "inside jaws of a caliper", With: "caliper", Visible: true}
)

// slideSizes are what is asked of whatever slides on ways.
var slideSizes = []Size{
	{Key: "width", Label: "width", Symbol: "b", Unit: unit.MM, Optional: true, How: "across the ways", With: "rule"},
	{Key: "guide_length", Label: "length that is guided", Symbol: "L_g", Unit: unit.MM, Optional: true, How: "along its dovetail, where that is shorter than the slide", With: "rule"},
	{Key: "underside", Label: "underside above the screw's axis", Symbol: "h", Unit: unit.MM, Least: AnyFigure, Optional: true, How: "what passes under the slide must be smaller", With: "caliper"},
	{Key: "gib_gap", Label: "gap for the gib, at its narrower end", Symbol: "g", Unit: unit.MM, Optional: true, How: "between the flanks, square to them, the old gib out: feelers or slips", With: "micrometer"},
	{Key: "gib_gap_other", Label: "gap for the gib, at its other end", Symbol: "g_2", Unit: unit.MM, Optional: true, How: "the same, at the slide's other end", With: "micrometer"},
	{Key: "gib_angle", Label: "dovetail's angle", Symbol: "A", Unit: unit.Degree, Optional: true, How: "from the flat to the flank: 55° and 60° are usual", With: "count"},
	{Key: "gib_depth", Label: "flank's height, square to the flat", Symbol: "h", Unit: unit.MM, Optional: true, How: "with a depth gauge, the gib out", With: "depth_gauge"},
	{Key: "gib_play", Label: "play sideways", Symbol: "p", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "push and pull at the slide's end, a dial gauge on it", With: "dial_gauge", Visible: true},
	{Key: "gib_screws", Label: "gib screws at", Unit: unit.MM, Least: AnyFigure, Optional: true, List: true, How: "from the datum face to the middle of each", With: "rule"},
}

// Roles is the list of what parts can be.
var Roles = []Role{
	{Key: "ways", Label: "ways", Sizes: []Size{
		{Key: "height", Label: "height above the screw", Unit: unit.MM, Least: AnyFigure, Optional: true, How: "from the screw's axis up to the ways", With: "rule"},
	}},
	{Key: "wall", Label: "wall", Lanes: []string{nutLane}, Length: "metal left", Cut: true, Sizes: []Size{keep}},
	{Key: "bracket", Label: "bracket", Length: "length", Lanes: []string{bracketLane}, Sizes: []Size{
		dia, bore,
		{Key: "flange", Label: "flange thickness", Symbol: "t_f", Unit: unit.MM, Optional: true, How: "under a bolt's head", With: "caliper"},
		{Key: "bolts", Label: "bolts", Unit: unit.Count, Optional: true, Whole: true, How: "count", With: "count"},
		{Key: "bolt_dia", Label: "bolt diameter", Symbol: "d_b", Unit: unit.MM, Optional: true, How: "across the thread", With: "caliper"},
		{Key: "bolt_length", Label: "bolt length under the head", Symbol: "l_b", Unit: unit.MM, Optional: true, How: "without the head", With: "caliper", Visible: true},
		{Key: "bolt_offset", Label: "bolts from the screw's axis", Symbol: "e_b", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "half of what lies between their middles", With: "caliper"},
		{Key: "tapped_depth", Label: "depth of the tapped holes", Symbol: "t_h", Unit: unit.MM, Optional: true, How: "with a depth gauge, to the end of the thread", With: "depth_gauge"},
	}},
	{Key: "dial", Label: "dial", Lanes: []string{dialLane}, Sizes: []Size{
		dia, bore,
		{Key: "divisions", Label: "lines all round", Symbol: "N", Unit: unit.Count, Optional: true, Whole: true, How: "count, or add up from the figures on it", With: "count", Visible: true},
		{Key: "room", Label: "room beside it, from the screw's axis", Symbol: "r_o", Unit: unit.MM, Optional: true, How: "to the nearest thing that it passes or turns beside, slide at both ends", With: "rule"},
	}},
	{Key: "handle", Label: "handle", Lanes: []string{dialLane}, Sizes: []Size{
		dia, bore,
		{Key: "rim", Label: "radius at which the hand holds it", Symbol: "r_h", Unit: unit.MM, Optional: true, How: "from the screw's axis to the rim's or the knob's middle", With: "rule"},
		{Key: "room", Label: "room all round, from the screw's axis", Symbol: "r_o", Unit: unit.MM, Optional: true, How: "to the nearest thing that it turns beside, with a hand's breadth for the knuckles", With: "rule"},
	}},
	{Key: "lock_nut", Label: "lock nut", Sizes: []Size{
		{Key: "thread_dia", Label: "thread", Symbol: "d", Unit: unit.MM, Optional: true, How: "across the screw's end", With: "caliper"},
		{Key: "pitch", Label: "pitch", Symbol: "P", Unit: unit.MM, Optional: true, How: "with a thread gauge", With: "count"},
	}},
	{Key: "thread", Label: "screw thread", Lanes: []string{tipLane}, Length: "length", Sizes: []Size{
		{Key: "dia", Label: "diameter", Symbol: "d", Unit: unit.MM, How: "across the thread, with a caliper", With: "caliper"},
		{Key: "pitch", Label: "pitch", Symbol: "P", Unit: unit.MM, How: "travel in ten turns, divided by ten", With: "dial_gauge"},
		{Key: "hand", Label: "hand", Optional: true, Choices: []Choice{{"right", "right hand"}, {"left", "left hand"}}, How: "held upright, a right-hand thread climbs to the right", With: "count"},
		{Key: "form", Label: "form", Optional: true, Choices: threadForms, How: "look at the flanks: 60° between them, or 30°", With: "count"},
		{Key: "root", Label: "root diameter", Symbol: "d_3", Unit: unit.MM, Optional: true, How: "at the bottom of the thread, with the caliper's thin jaws; else by its form", With: "caliper"},
		{Key: "run_out", Label: "run-out", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "on vee blocks or between centres, a dial gauge half way along", With: "dial_gauge"},
	}},
	{Key: "shank", Label: "screw shank", Sizes: []Size{
		{Key: "dia", Label: "diameter", Symbol: "d_s", Unit: unit.MM, How: "where it runs in the bracket", With: "caliper"},
		{Key: "end_thread", Label: "thread at its end", Symbol: "l_t", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "length of the thread for the lock nut", With: "caliper"},
	}},
	{Key: "slide", Label: "slide", Lanes: []string{slideLane, dialLane}, Length: "length", Sizes: slideSizes},
	{Key: "table", Label: "table or ram, longer than what it runs on", Lanes: []string{slideLane, dialLane}, Length: "length", Sizes: slideSizes},
	{Key: "tail_bearing", Label: "bearing at the screw's other end", Lanes: []string{bracketLane}, Length: "length", Sizes: []Size{bore}},
	{Key: "nut", Label: "nut", Lanes: []string{nutLane}, Length: "length", Sizes: []Size{
		{Key: "bore", Label: "minor diameter", Symbol: "D_1", Unit: unit.MM, Optional: true, How: "inside the thread, if the nut is out", With: "caliper"},
	}},
	{Key: "column", Label: "column", Lanes: []string{slideLane}},
	{Key: "base", Label: "base", Lanes: []string{bracketLane}, Length: "metal left", Cut: true, Sizes: []Size{keep}},
	{Key: "web", Label: "web", Lanes: []string{tipLane}, Length: "metal left", Cut: true, Sizes: []Size{keep}},
	{Key: "quill", Label: "quill", Lanes: []string{quillLane}, Length: "length", Sizes: []Size{
		{Key: "dia", Label: "diameter", Symbol: "D_q", Unit: unit.MM, How: "with a micrometer", With: "micrometer"},
		{Key: "dia_middle", Label: "diameter half way", Symbol: "D_2", Unit: unit.MM, Optional: true, How: "with a micrometer, across where it is worn", With: "micrometer"},
		{Key: "dia_rear", Label: "diameter at its other end", Symbol: "D_3", Unit: unit.MM, Optional: true, How: "with a micrometer", With: "micrometer"},
		{Key: "nose", Label: "nose beyond the quill's end", Symbol: "a_0", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "from the quill's end to where the tool is held", With: "rule"},
	}},
	{Key: "guide", Label: "guide", Sizes: []Size{
		{Key: "bore", Label: "bore at the nose's end", Symbol: "d_g", Unit: unit.MM, Optional: true, How: "a telescopic gauge and a micrometer", With: "micrometer"},
		{Key: "bore_middle", Label: "bore half way", Symbol: "d_2", Unit: unit.MM, Optional: true, How: "the same, half way in", With: "micrometer"},
		{Key: "bore_far", Label: "bore at its far end", Symbol: "d_3", Unit: unit.MM, Optional: true, How: "the same, at the other end", With: "micrometer"},
		{Key: "wall", Label: "wall around it", Symbol: "t_g", Unit: unit.MM, Optional: true, How: "where it is thinnest", With: "caliper"},
	}},
	{Key: "collar", Label: "collar", Lanes: []string{quillLane}},
	{Key: "rack", Label: "rack", Length: "length", Longer: "a longer rack"},
	{Key: "pinion", Label: "pinion", Sizes: []Size{
		{Key: "module", Label: "module", Symbol: "m", Unit: unit.MM, Optional: true, How: "outside diameter of the pinion divided by its teeth and two", With: "caliper"},
		{Key: "teeth", Label: "teeth", Symbol: "z", Unit: unit.Count, Optional: true, Whole: true, How: "count", With: "count"},
	}},
	{Key: "spline", Label: "spline"},
	{Key: "spline_sleeve", Label: "spline sleeve"},
	{Key: "keyway", Label: "keyway", Length: "length", Longer: "cut the keyway further"},
	{Key: "key", Label: "key"},
	{Key: "other", Label: "other part", Lanes: []string{slideLane, dialLane}, Sizes: []Size{dia}},
}

// RoleNamed is the role with the key.
func RoleNamed(key string) (Role, bool) {
	for _, r := range Roles {
		if r.Key == key {
			return r, true
		}
	}
	return Role{}, false
}

// The sizes that say where a part lies.
var (
	from = Size{Key: "from", Label: "start", Symbol: "from", Unit: unit.MM, Least: AnyFigure, How: "from the datum face", With: "caliper"}
	to   = Size{Key: "to", Label: "end", Symbol: "to", Unit: unit.MM, Least: AnyFigure, How: "from the datum face", With: "caliper"}
	gap  = Size{Key: "gap", Label: "gap before it", Symbol: "g", Unit: unit.MM, Least: AnyFigure, Default: "0", Source: "common practice, no source: the parts touch", How: "with a feeler", With: "caliper"}
	long = Size{Key: "length", Label: "length", Symbol: "L", Unit: unit.MM, How: "along the screw", With: "caliper"}
)

// Sizes lists what is asked of the part, where it lies first.
func (p Part) Sizes() []Size {
	place := []Size{from, to}
	if p.Tie != nil {
		place = []Size{gap, long}
	}
	r, _ := RoleNamed(p.Role)
	return append(place, r.Sizes...)
}

// lanes are the part's own, or those of its role.
func (p Part) lanes() []string {
	if p.Lanes != nil {
		return p.Lanes
	}
	r, _ := RoleNamed(p.Role)
	return r.Lanes
}
