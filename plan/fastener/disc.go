package fastener

import (
	"strconv"

	"fettle/plan/sheet"
)

// Disc is a size of conical disc spring, in mm.
type Disc struct {
	Series    string // "A" stiff, "B" soft
	Outside   float64
	Inside    float64
	Thickness float64
	Cone      float64 // height of the cone: what it gives when pressed flat
}

// Discs are the disc springs of DIN 2093, series A and B, for shafts of 8 to 20 mm.
// Source: DIN 2093; series A agrees with a published list, series B from memory,
// unchecked but for its loads.
var Discs = []Disc{
	{"B", 16, 8.2, 0.6, 0.45}, {"A", 16, 8.2, 0.9, 0.35},
	{"B", 18, 9.2, 0.7, 0.5}, {"A", 18, 9.2, 1, 0.4},
	{"B", 20, 10.2, 0.8, 0.55}, {"A", 20, 10.2, 1.1, 0.45},
	{"B", 22.5, 11.2, 0.8, 0.65}, {"A", 22.5, 11.2, 1.25, 0.5},
	{"B", 25, 12.2, 0.9, 0.7}, {"A", 25, 12.2, 1.5, 0.55},
	{"B", 28, 14.2, 1, 0.8}, {"A", 28, 14.2, 1.5, 0.65},
	{"B", 31.5, 16.3, 1.25, 0.9}, {"A", 31.5, 16.3, 1.75, 0.7},
	{"B", 35.5, 18.3, 1.25, 1}, {"A", 35.5, 18.3, 2, 0.8},
	{"B", 40, 20.4, 1.5, 1.15}, {"A", 40, 20.4, 2.25, 0.9},
}

// Designation names the spring: "DIN 2093 B 20".
func (d Disc) Designation() string {
	return "DIN 2093 " + d.Series + " " + strconv.FormatFloat(d.Outside, 'f', -1, 64)
}

const almen = "DIN EN 16984, after Almen and László"

// A disc spring of the sizes outside, inside, thick and cone, pressed by press.
var (
	// DiscShape is the factor K1 of its diameters.
	DiscShape = sheet.Method{
		Text:   "pow((outside / inside - 1) / (outside / inside), 2) / (pi * ((outside / inside + 1) / (outside / inside - 1) - 2 / log(outside / inside)))",
		Source: almen + ": K1 = ((δ − 1)/δ)² / π ((δ + 1)/(δ − 1) − 2/ln δ)",
	}

	// DiscLoad is what it presses with; shape from [DiscShape].
	DiscLoad = sheet.Method{
		Text: "4 * modulus / (1 - pow(poisson, 2)) * pow(thick, 4) / (shape * pow(outside, 2)) * press / thick * " +
			"((cone / thick - press / thick) * (cone / thick - press / (2 * thick)) + 1)",
		Source: almen + ": F = 4 E/(1 − µ²) t⁴/K1 D² s/t ((h0/t − s/t)(h0/t − s/2t) + 1)",
		Valid:  "within about 7.5 % (DIN 2093), up to three quarters of the cone",
	}
)
