package material

import (
	"errors"
	"slices"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// StockSource is where the stock sizes come from.
const StockSource = "common practice, no source: sizes usually kept by stockholders"

// MetricRounds and MetricThicknesses are stock sizes in mm.
var (
	MetricRounds = []float64{3, 4, 5, 6, 8, 10, 12, 14, 15, 16, 18, 20, 22, 25, 28, 30, 32, 35, 38, 40, 45, 50, 55, 60, 65, 70, 75, 80}
	MetricFlats  = []float64{3, 5, 6, 8, 10, 12, 16, 20, 25}
)

// InchRounds are stock sizes in mm: 1/8 to 1 in by sixteenths, to 3 in by eighths.
var InchRounds = inchRounds()

func inchRounds() (sizes []float64) {
	for sixteenths := 2; sixteenths <= 48; sixteenths++ {
		if sixteenths <= 16 || sixteenths%2 == 0 {
			sizes = append(sizes, unit.Inch.Inside(float64(sixteenths)/16))
		}
	}
	return sizes
}

// ErrStock is returned for what is larger than any stock size in the tables. It
// is a sentence for whoever typed it.
var ErrStock = errors.New("that is larger than the stock sizes in the table, which end at 80 mm and 3 in")

// Next is the smallest of the sizes that is not below least. It returns [ErrStock].
func Next(sizes []float64, least float64) (float64, error) {
	const forgiven = 1e-9 // mm: a sum that should be just a stock size
	i := slices.IndexFunc(sizes, func(s float64) bool { return s >= least-forgiven })
	if i < 0 {
		return 0, ErrStock
	}
	return sizes[i], nil
}

// Skin is how much larger in diameter than the finished part stock has to be.
type Skin struct {
	Key, Label string
	Over       float64 // mm on the diameter
	Source     string
}

// Skins by how the bar comes.
var Skins = []Skin{
	{"bright", "bright bar, turned all over", 0.5, "common practice, no source: 0.5 mm on bright bar"},
	{"as_is", "bright bar, its outside left as it is", 0, "the bar's own size, h9 to h11"},
	{"black", "black or hot-rolled bar", 2, "common practice, no source: 2 mm on black bar"},
	{"cast", "continuous-cast iron bar", 3, "common practice, no source: 3 mm on cast bar"},
}

// Allowances in mm.
const (
	Facing        = 1.0
	FacingSource  = "common practice, no source: 1 mm for each end that is faced"
	Parting       = 3.0
	PartingSource = "common practice, no source: a parting tool or a saw takes 2 to 3 mm"
	Holding       = 20.0
	HoldingSource = "common practice, no source: 15 to 25 mm in the chuck, which comes back"
)

var (
	// RoundWanted is the least stock diameter.
	RoundWanted = sheet.Method{Text: "finished + skin", Source: "finished diameter and what is turned off"}

	// LengthWanted is the bar for some pieces out of one chucking.
	LengthWanted = sheet.Method{
		Text:   "pieces * (length + ends * facing + parting) + holding",
		Source: "each piece with its faced ends and its cut, and once what the chuck holds",
	}

	// LengthUsed is the same without what the chuck held, which comes back.
	LengthUsed = sheet.Method{Text: "pieces * (length + ends * facing + parting)", Source: LengthWanted.Source}
)
