package axis

import (
	"slices"

	"fettle/plan"
)

// Axis is one direction in which a machine moves, as measured: parts along a
// line, all positions in millimetres from one datum face, at s = 0.
type Axis struct {
	Key         string // in the sheet: "cross"
	Label       string // "Cross slide"
	Arrangement string // key of an [Arrangement]
	Capacity    string // key of a [Capacity]; "" where nothing follows from the travel
	Datum       string // the face that positions are measured from, in words
	Plus, Minus string // the two ends, in words: "outward, towards the operator"
	Parts       []Part
	Obstacles   []Obstacle
	Entries     map[string]plan.Entry // the axis's own figures: "travel_found", "lead", "swing_bed", …
	Answers     map[string]string     // to the arrangement's questions: "yes", "no", or "" where not answered
}

// Side is which half of the axis a part belongs to.
type Side string

// The two sides.
const (
	Fixed  Side = "fixed"
	Moving Side = "moving"
)

// Part is an interval along the axis.
type Part struct {
	Key      string // within the axis: "front_wall"
	Label    string
	Role     string // key of a [Role]
	Side     Side
	Tie      *Tie     // nil where both faces are measured
	Lanes    []string // parts that share one can meet; nil means the role's own
	Material string   // key of a material: "cast_iron", "aluminium", "steel", …; "" means not said
	Entries  map[string]plan.Entry
}

// Tie makes a part follow another: it begins its gap beyond a face of it.
type Tie struct {
	Part string // key, in the same axis
	Face string // "from" or "to"
}

// Obstacle is something that may be met at an end of the travel, and is
// measured by the gap that is left there at the end of the travel as found.
type Obstacle struct {
	Key   string
	Label string
	End   End
	Gap   plan.Entry // not given means not measured: it lies at or beyond the travel as found
	Clear bool       // ruled out by the user: it cannot be met
}

// Obstructions are the axis's own obstacles, and those that are usual for its
// arrangement and not among them: what was not asked is not known, and is not clear.
func (a *Axis) Obstructions() []Obstacle {
	all := slices.Clone(a.Obstacles)
	arr, _ := ArrangementNamed(a.Arrangement)
	for _, u := range arr.Obstacles {
		if !slices.ContainsFunc(all, func(o Obstacle) bool { return o.Key == u.Key }) {
			all = append(all, Obstacle{Key: u.Key, Label: u.Label, End: u.End})
		}
	}
	return all
}

// End is one of the two ends of an axis.
type End string

// The two ends: plus is the positive direction.
const (
	Plus  End = "plus"
	Minus End = "minus"
)
