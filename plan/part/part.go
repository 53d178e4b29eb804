// Package part holds the parts that an upgrade asks for, as geometry: what has
// to be turned, milled or cut back, each size with its limits and with the
// figure of the sheet that it comes from.
//
// A [Part] is data; a kind of upgrade makes it from the sheet's figures, and the
// drawings, the cut list and the record of sizes as made read it. A round part
// is a row of steps outside and a row inside, from its left face to its right;
// a flat one is a block with features. All lengths are in mm.
package part

// Part is one thing to make, or an old one to alter.
type Part struct {
	Key      string // unique within the upgrade: "bracket", "extension"
	Label    string
	Altered  bool   // an old part that is changed, and not made anew
	Replaces string // key of the axis's part that it takes the place of; "" where it is an addition
	Material string // key in room material
	Quantity int
	Round    *Round // one of Round and Flat
	Flat     *Flat
	Dial     *Dial // what is marked on a Round
	Notes    []string
	Finish   string // hardness or surface treatment, if any
	Steps    []Operation
}

// Size is one dimension of a part.
type Size struct {
	Name         string  // within the part: "length"; "" where it is only drawn, and is not to be measured
	Key          string  // of the sheet's figure, so that it can be opened; "" where it is only drawn
	Label        string  // "length", "seat for the bearing"
	Nominal      float64 // mm, or degrees for an angle
	Upper, Lower float64 // mm from the nominal
	Limits       string  // where the limits come from: "H7", "ISO 2768-m", "to suit"
	Source       string  // the standard that gives them
	Angle        bool
	Suits        string // what it must suit: it stays open until that is measured; "" where it need not
	Awaits       string // key of the measurement that settles it
	Made         *Made  // how its size as made goes back into the sheet; nil where nothing depends on it
	Grows        bool   // cutting makes it larger: a bore, a depth; else smaller
	AsMade       *Taken // what was measured on the finished part; nil until then
}

// Open tells whether the size still waits for what it must suit.
func (s Size) Open() bool { return s.Awaits != "" }

// Largest and smallest size that is good.
func (s Size) Largest() float64  { return s.Nominal + s.Upper }
func (s Size) Smallest() float64 { return s.Nominal + s.Lower }

// Made says which leaf a size as made settles, and how: a formula of made, of
// planned (the size as it was to be), of the leaf's own was, and of the figures
// beside it. "made" alone for a leaf that is the size itself, "from + made" for
// a face, "was + made - planned" for what is shifted by it.
type Made struct {
	Leaf, Formula string
	Also          []Made // further leaves that follow from the same size
}

// Taken is a size as measured on the finished part, in mm.
type Taken struct {
	Value     float64
	PlusMinus float64 // how far off the measurement can be
	Typed     string
}

// Round is a turned part: solid steps outside and holes from either end,
// along its axis from the left face at 0.
type Round struct {
	Length  Size   // over all; the zero Size where the steps say it
	Outside []Step // left to right, each beginning where the last ended
	Left    []Step // bores from the left face inwards, the widest first
	Right   []Step // bores from the right face inwards
	Cross   []CrossHole
	Flats   []FlatOn
	Grooves []Groove
	Flange  *Flange // an outside step that is not round
	Was     *Round  // of an altered part: as it was; nil where only steps were added
}

// Step is a length of one diameter. Each begins where the last one ended; a
// bore that goes through ends at those from the other side, whatever its length.
type Step struct {
	Label   string
	Length  Size
	Dia     Size
	Thread  string  // designation, "M10×1"; "" where it is plain
	Chamfer float64 // mm at 45°, at its outer end
	Through bool    // of a bore: it goes right through
	Taper   float64 // of a bore: it narrows inwards by 1 in so many on its diameter; 0 where it is parallel
	Old     bool    // as it was: drawn thin, no limits
	New     bool    // metal that was not there
}

// Groove is an undercut or a ring groove.
type Groove struct {
	At, Width, Dia Size // At from the left face to its near side
	Inside         bool
	Form           string // "undercut", "O-ring groove"
}

// CrossHole goes across the axis.
type CrossHole struct {
	At, Dia Size
	Angle   float64 // degrees round the axis, from the top
	Thread  string
	Through bool
	Label   string
}

// FlatOn is a flat milled on a round step.
type FlatOn struct{ At, Length, Across Size }

// Flange is a plate across the axis, with its holes.
type Flange struct {
	Step          int  // which outside step it is
	Width, Height Size // across, and up
	Corner        Size // radius of its corners; half the height for round ends, 0 for square ones
	Holes         []FlangeHole
}

// FlangeHole is one hole of a flange, from the axis.
type FlangeHole struct {
	X, Y  Size
	Dia   Size
	Label string
}

// Flat is a block, plate or strip: length along, width across, thickness down.
type Flat struct {
	Length, Width, Thickness Size
	Angle                    float64 // degrees of the long edges, for a gib strip; 90 where it is square
	Taper                    float64 // 1 in so many along its length; 0 where it is parallel
	Features                 []Feature
	Outline                  bool // the block is only the neighbourhood of what is cut, in an old casting
}

// FeatureKind is what a feature of a block is.
type FeatureKind string

// The features of a block.
const (
	Hole   FeatureKind = "hole"
	Slot   FeatureKind = "slot"
	Pocket FeatureKind = "pocket"
	Dimple FeatureKind = "dimple"
	Oil    FeatureKind = "oil groove"
)

// Feature is cut into a block, from its left front top corner.
type Feature struct {
	Kind   FeatureKind
	Label  string
	X, Y   Size // to its middle; a pocket's or slot's to its corner
	Length Size // of a pocket or slot
	Width  Size
	Dia    Size
	Depth  Size // 0 for a hole that goes through
	Thread string
	Left   Size // what is left behind it, where that matters
	Edge   bool // open to the edge
	Behind bool // cut from the other face, its depth counted from there
}

// Dial is what is marked on a round part.
type Dial struct {
	Divisions int
	Every     []Mark // the longest lines first
	Value     string // of one division, as it is marked: "0.02 mm"
	Clockwise bool   // whether the numerals grow clockwise, seen from the handle
	Upright   bool   // numerals read upright with the handle towards the reader; else with it away
	Dia       Size
	Width     Size
}

// Mark is a class of lines: every so many divisions, so long, with numerals or not.
type Mark struct {
	Divisions int
	Length    float64 // mm
	Width     float64 // mm
	Numeral   float64 // height in mm; 0 for none
	Step      float64 // what a numeral counts, in the unit of the value
}

// Operation is one step of making: what is done, and what it needs.
type Operation struct {
	Key      string // unique within the upgrade
	Do       string
	Needs    []Capability
	Envelope [2]float64 // mm: length and diameter (or width) that the machine must take; 0 where it does not matter
	Out      string     // key of the axis that is out of use while it is done; "" for none
	After    []string   // keys of the operations that come before
	Minutes  [2]float64 // least and most
	Record   string     // what to photograph or measure, if anything
	Asks     []string   // questions to answer before it is begun, where no sum can tell
	Cautions []string
}

// Capability is what a workshop must be able to do.
type Capability string

// The capabilities.
const (
	Bench    Capability = "bench work"
	Turning  Capability = "turning"
	Boring   Capability = "boring in a four-jaw chuck or on a faceplate"
	Threads  Capability = "screwcutting"
	Milling  Capability = "milling or shaping"
	Grinding Capability = "grinding"
	Dividing Capability = "dividing"
	Reaming  Capability = "reaming"
	Heat     Capability = "brazing heat"
	Scraping Capability = "scraping"
	Pressing Capability = "pressing"
)

// Capabilities lists them, the commonest first.
var Capabilities = []Capability{Bench, Turning, Boring, Threads, Milling, Reaming, Pressing, Dividing, Scraping, Heat, Grinding}

// Bought is one line of what to buy.
type Bought struct {
	Key         string
	Label       string
	Designation string // by a standard: "ISO 4762 M6 × 30", "ISO 15 10 × 19 × 5"
	Quantity    int
	For         string // key of the part or operation that it is for
	Confirm     string // key of the operation after which its size is sure; "" where it is sure now
	Source      string // the standard
}
