package fit

import (
	"errors"
	"fmt"
	"slices"
)

// ErrGeneral is returned for a size that general tolerances do not hold. What
// wraps it says why, in a sentence for whoever typed it.
var ErrGeneral = errors.New("general tolerances do not hold this size")

// GeneralClasses are the classes of ISO 2768-1: fine, medium, coarse, very coarse.
var GeneralClasses = []string{"f", "m", "c", "v"}

// GeneralSource is where the general tolerances come from.
const GeneralSource = "ISO 2768-1:1989"

type general struct {
	to   float64   // mm, included
	plus []float64 // ± for f, m, c and v; 0 where there is none
}

var (
	lengths = []general{ // table 1, mm
		{3, []float64{0.05, 0.1, 0.2, 0}},
		{6, []float64{0.05, 0.1, 0.3, 0.5}},
		{30, []float64{0.1, 0.2, 0.5, 1}},
		{120, []float64{0.15, 0.3, 0.8, 1.5}},
		{400, []float64{0.2, 0.5, 1.2, 2.5}},
		{1000, []float64{0.3, 0.8, 2, 4}},
		{2000, []float64{0.5, 1.2, 3, 6}},
		{4000, []float64{0, 2, 4, 8}},
	}
	edges = []general{ // table 2: outside radii and chamfers, mm
		{3, []float64{0.2, 0.2, 0.4, 0.4}},
		{6, []float64{0.5, 0.5, 1, 1}},
		{4000, []float64{1, 1, 2, 2}},
	}
	angles = []general{ // table 3: by the shorter leg; minutes of arc
		{10, []float64{60, 60, 90, 180}},
		{50, []float64{30, 30, 60, 120}},
		{120, []float64{20, 20, 30, 60}},
		{400, []float64{10, 10, 15, 30}},
		{4000, []float64{5, 5, 10, 20}},
	}
)

// GeneralLength is the ± of a length or a diameter without a tolerance of its
// own, in mm, of a size in mm from 0.5 to 4000, in one of [GeneralClasses].
// It returns [ErrGeneral].
//
// Source: ISO 2768-1:1989 table 1.
func GeneralLength(class string, size float64) (float64, error) {
	return look(lengths, class, size, 0.5)
}

// GeneralEdge is the same for an outside radius or the height of a chamfer.
//
// Source: ISO 2768-1:1989 table 2.
func GeneralEdge(class string, size float64) (float64, error) { return look(edges, class, size, 0.5) }

// GeneralAngle is the ± of an angle, in degrees, by the length of its shorter
// leg in mm. It returns [ErrGeneral].
//
// Source: ISO 2768-1:1989 table 3.
func GeneralAngle(class string, leg float64) (float64, error) {
	minutes, err := look(angles, class, leg, 0)
	return minutes / 60, err
}

func look(table []general, class string, size, least float64) (float64, error) {
	c := slices.Index(GeneralClasses, class)
	if c < 0 {
		return 0, fmt.Errorf("%w: classes are f, m, c and v", ErrGeneral)
	}
	if !(size > 0 && size >= least && size <= 4000) {
		return 0, fmt.Errorf("%w: they go from %g to 4000 mm, and a smaller size has its tolerance beside it", ErrGeneral, least)
	}
	i := slices.IndexFunc(table, func(g general) bool { return size <= g.to })
	if table[i].plus[c] == 0 {
		return 0, fmt.Errorf("%w: class %s has none here", ErrGeneral, class)
	}
	return table[i].plus[c], nil
}
