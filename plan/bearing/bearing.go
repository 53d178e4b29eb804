// Package bearing holds rolling bearings of 2.5 to 40 mm bore by their boundary
// dimensions: what they carry, how long, how stiffly, and which of them suits a
// place and a load.
//
//	b, err := bearing.Lookup("6001")
//	b.Bore, b.OD, b.Width   // 12, 28, 8 mm
//
// Deep groove and angular contact ball bearings by ISO 15, single-direction
// thrust ball bearings by ISO 104, needle thrust cages with their washers by
// ISO 3031 (DIN 5405), and small thrust ball bearings of the trade, which no
// standard holds.
//
// Boundary dimensions are standard; ratings are not. They are typical of
// published lists, rounded to two figures, and lists differ by about 15 per cent
// ([Spread]): where it matters take your maker's own.
//
// A feed screw turns slowly, so life hardly ever limits: its static safety, the
// thrust that a radial bearing may take, and stiffness do.
package bearing

import (
	_ "embed"
	"errors"
	"fmt"
	"slices"
	"strings"

	"fettle/plan/table"
)

// Kind is a kind of bearing.
type Kind string

// The kinds.
const (
	DeepGroove     Kind = "deep groove"
	AngularContact Kind = "angular contact" // one row, 30°
	ThrustBall     Kind = "thrust ball"     // one direction, ISO 104
	SmallThrust    Kind = "small thrust ball"
	NeedleThrust   Kind = "needle thrust"
)

// Bearing is a rolling bearing; lengths in mm, ratings in N.
type Bearing struct {
	Designation string // "6001"
	Kind        Kind
	Series      string // dimension series: "17", "18", "19", "10", "02"; "" where no standard has one
	Bore        float64
	OD          float64
	Width       float64 // open; shielded ones of small sizes are wider. Of a needle thrust bearing, its cage
	Shield      float64 // width when shielded; 0 where there is none
	Corner      float64 // least corner radius, ISO 15 r s min; 0 where there is none
	Washer      float64 // thickness of each of two washers beside it; 0 where it needs none
	Dynamic     float64 // C
	Static      float64 // C0
	read        bool    // ratings read in a published list, not remembered
}

// Spread is the share of a rating that lists can be expected to agree on.
const (
	Spread       = 0.85
	SpreadSource = "lists of different makers differ by about 15 %: the lower end is taken"
)

// Height is the length that it takes of the shaft, washers included, in mm.
func (b Bearing) Height() float64 { return b.Width + 2*b.Washer }

// Thrust tells whether the bearing carries thrust and nothing else.
func (b Bearing) Thrust() bool {
	return b.Kind == ThrustBall || b.Kind == SmallThrust || b.Kind == NeedleThrust
}

// BothWays tells whether one bearing carries thrust in both directions.
func (b Bearing) BothWays() bool { return b.Kind == DeepGroove }

// DimensionSource is where its dimensions come from.
func (b Bearing) DimensionSource() string {
	switch b.Kind {
	case ThrustBall:
		return "ISO 104 boundary dimensions"
	case SmallThrust:
		return "trade sizes, no standard: heights differ by up to 0.5 mm"
	case NeedleThrust:
		return "ISO 3031 (DIN 5405) boundary dimensions, with washers 1 mm thick"
	}
	return "ISO 15 boundary dimensions"
}

// RatingSource is where its ratings come from.
func (b Bearing) RatingSource() string {
	if b.read {
		return "typical of published lists, rounded to two figures; lists differ by about ±15 %"
	}
	return "typical, rounded to two figures, from memory, unchecked but for ISO 76 by size; lists differ by about ±15 %"
}

//go:embed catalogue.csv
var catalogue string

// Catalogue lists every bearing, kind by kind, thinnest series first.
var Catalogue = read()

func read() (all []Bearing) {
	for _, r := range table.Rows(catalogue) {
		b := Bearing{
			Designation: r["designation"], Kind: Kind(r["kind"]), Series: r["series"],
			Bore: r.Number("bore"), OD: r.Number("outside"), Width: r.Number("width"), Shield: r.Number("shielded"), Corner: r.Number("corner"),
			Dynamic: 1000 * r.Number("dynamic"), Static: 1000 * r.Number("static"), read: r["ratings"] == "read",
		}
		if b.Kind == NeedleThrust {
			b.Washer = 1
		}
		all = append(all, b)
	}
	return all
}

// ErrUnknown is returned for a bearing that the catalogue does not hold. What
// wraps it is a sentence for whoever typed it.
var ErrUnknown = errors.New("that bearing is not in the catalogue")

// Lookup finds a bearing by its designation, in any case, with or without
// spaces. With ZZ or 2RS after it, it has its shielded width. It returns
// [ErrUnknown].
func Lookup(designation string) (Bearing, error) {
	name := strings.ToUpper(strings.Join(strings.Fields(designation), ""))
	plain := name
	for _, suffix := range []string{"-2RS", "-2Z", "2RS", "ZZ"} {
		if s, ok := strings.CutSuffix(name, suffix); ok {
			plain = s
			break
		}
	}
	i := slices.IndexFunc(Catalogue, func(b Bearing) bool { return b.Designation == plain })
	if i < 0 || plain != name && Catalogue[i].Shield == 0 {
		return Bearing{}, fmt.Errorf("%w, which holds the deep groove series 67, 68, 69, 60 and 62 with 6300, angular contact 70 and 72, thrust ball 511 and small ones such as F8-16M, and needle thrust such as AXK1226, up to 40 mm of bore", ErrUnknown)
	}
	b := Catalogue[i]
	if plain != name {
		b.Designation, b.Width = name, b.Shield
	}
	return b, nil
}
