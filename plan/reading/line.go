package reading

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Formulas of readings along a line: position and height of each.
var (
	fromEnds    = sheet.Method{Text: "height - first_height - (last_height - first_height) * (position - first) / (last - first)", Source: "ISO 230-1: from the line through the two ends"}
	fromSquares = sheet.Method{Text: "height - heights_mean - slope * (position - positions_mean)", Source: "ISO 230-1: from the line of least squares"}
	lineSlope   = sheet.Method{Text: "sum(moments) / sum(position_squares)", Source: "line of least squares: Σ (x − x̄) h / Σ (x − x̄)²"}
	lineMoment  = sheet.Method{Text: "(position - positions_mean) * height", Source: "line of least squares"}
)

// Line is readings of an indicator along a straight-edge, or a square's blade, all
// in mm. Positions rise.
type Line struct {
	Positions, Heights []float64
	Resolution         float64 // the step of the reading
	Name               string  // put to the slope's symbol, where there are several
}

// Even is the positions of n readings, a step apart.
func Even(n int, step float64) []float64 {
	all := make([]float64, n)
	for i := range all {
		all[i] = float64(i) * step
	}
	return all
}

// Lay puts the readings onto sc, with the slope of their line of least squares.
func (l Line) Lay(sc *sheet.Scope) {
	n := len(l.Heights)
	name := func(what string, i int) string { return fmt.Sprintf("%s_%d", what, i+1) }
	for i := range n {
		sc.Measure(sheet.Q{Key: name("position", i), Label: fmt.Sprintf("position %d", i+1), Symbol: name("x", i), Unit: unit.MM, Quiet: true},
			sheet.Leaf{Value: l.Positions[i], Origin: sheet.Measured, Note: "as read"})
		sc.Measure(sheet.Q{Key: name("height", i), Label: fmt.Sprintf("reading %d", i+1), Symbol: name("h", i), Unit: fine, Quiet: true},
			sheet.Leaf{Value: l.Heights[i], Origin: sheet.Measured, Spread: sheet.Within(l.Resolution / 2), Note: "as read"})
		sc.Family("positions", "positions", unit.MM, name("position", i))
		sc.Family("heights", "readings", fine, name("height", i))
	}
	sc.Method(sheet.Q{Key: "positions_mean", Label: "middle of the positions", Symbol: "x̄", Unit: unit.MM, Quiet: true}, Mean, sheet.With{"readings": "positions"})
	sc.Method(sheet.Q{Key: "heights_mean", Label: "mean of the readings", Symbol: "h̄", Unit: fine, Quiet: true}, Mean, sheet.With{"readings": "heights"})
	for i := range n {
		with := sheet.With{"position": name("position", i), "height": name("height", i), "reading": name("position", i), "mean": "positions_mean"}
		sc.Method(sheet.Q{Key: name("moment", i), Label: fmt.Sprintf("moment %d", i+1), Symbol: fmt.Sprintf("(x_%d − x̄) h_%d", i+1, i+1), Unit: moment, Quiet: true}, lineMoment, with)
		sc.Method(sheet.Q{Key: name("position_square", i), Label: fmt.Sprintf("square of position %d", i+1), Symbol: fmt.Sprintf("(x_%d − x̄)²", i+1), Unit: unit.MM2, Quiet: true}, Square, with)
		sc.Family("moments", "moments", moment, name("moment", i))
		sc.Family("position_squares", "squares of the positions", unit.MM2, name("position_square", i))
	}
	sc.Method(sheet.Q{Key: "slope", Label: "slope of the line of least squares", Symbol: "m" + l.Name, Unit: perMetre, Quiet: true}, lineSlope)
}

// moment is what a position times a reading is shown in.
var moment = unit.Unit{Symbol: "mm·µm", Dim: unit.MM2.Dim, Scale: 0.001, Decimals: 2}

// perMetre is a slope: 1 mm in a metre.
var perMetre = unit.Unit{Symbol: "mm/m", Dim: unit.Number, Scale: 0.001, Decimals: 3}

// LayStraightness puts the readings onto sc with three figures of how far they are
// from a straight line, from the highest point to the lowest: end_point, from the
// line through both ends; least_squares; and minimum_zone, between the two
// parallels that lie closest together.
func (l Line) LayStraightness(sc *sheet.Scope) {
	l.Lay(sc)
	n := len(l.Heights)
	last := fmt.Sprint("_", n)
	args := make([]string, 0, 2*n)
	for i := range n {
		k := fmt.Sprint("_", i+1)
		with := sheet.With{"position": "position" + k, "height": "height" + k, "first": "position_1", "last": "position" + last, "first_height": "height_1", "last_height": "height" + last}
		sc.Method(sheet.Q{Key: "from_ends" + k, Label: fmt.Sprintf("point %d, from the line through the ends", i+1), Symbol: "e" + k, Unit: fine, Quiet: true}, fromEnds, with)
		sc.Method(sheet.Q{Key: "from_squares" + k, Label: fmt.Sprintf("point %d, from the line of least squares", i+1), Symbol: "e" + k, Unit: fine, Quiet: true}, fromSquares, with)
		sc.Family("all_from_ends", "from the line through the ends", fine, "from_ends"+k)
		sc.Family("all_from_squares", "from the line of least squares", fine, "from_squares"+k)
		args = append(args, "position"+k, "height"+k)
	}
	sc.Formula(sheet.Q{Key: "end_point", Label: "straightness, from the line through both ends", Unit: fine}, "max(all_from_ends) - min(all_from_ends)", "ISO 230-1: reference line through the two ends")
	sc.Formula(sheet.Q{Key: "least_squares", Label: "straightness, from the line of least squares", Unit: fine}, "max(all_from_squares) - min(all_from_squares)", "ISO 230-1: reference line of least squares")
	sc.Sheet().Register(zoneFunc(n))
	sc.Formula(sheet.Q{Key: "minimum_zone", Label: "straightness, minimum zone", Unit: fine}, "minimum_zone("+strings.Join(args, ", ")+")", "ISO 230-1 and ISO 1101: the two parallels that lie closest together")
}

// zoneFunc is minimum_zone for n points, of position and height by turns.
func zoneFunc(n int) *sheet.Func {
	f := &sheet.Func{Name: "minimum_zone", Args: slices.Repeat([]unit.Dim{unit.LengthD}, 2*n), Result: unit.LengthD, Source: "ISO 1101"}
	f.F = func(args []float64) float64 {
		w, _, _, _ := zone(args)
		return w
	}
	f.Slope = zoneSlope
	return f
}

// zone is the width, along the heights, of the narrowest strip that holds all
// points, and the three points that bound it: i and j on one side, k on the other.
// Of all lines through two points the best is an edge of the hull, so all are tried.
func zone(points []float64) (width float64, i, j, k int) {
	n := len(points) / 2
	x := func(i int) float64 { return points[2*i] }
	h := func(i int) float64 { return points[2*i+1] }
	width = math.Inf(1)
	for a := range n {
		for b := a + 1; b < n; b++ {
			slope := (h(b) - h(a)) / (x(b) - x(a))
			lo, hi, far := 0.0, 0.0, a
			for c := range n {
				off := h(c) - h(a) - slope*(x(c)-x(a))
				if c == a || c == b {
					off = 0
				}
				if off > hi && off >= -lo || off < lo && -off >= hi {
					far = c
				}
				lo, hi = min(lo, off), max(hi, off)
			}
			if hi-lo < width {
				width, i, j, k = hi-lo, a, b, far
			}
		}
	}
	return width, i, j, k
}

// zoneSlope is the derivative of the width by one coordinate of a point.
func zoneSlope(points []float64, arg int) float64 {
	_, i, j, k := zone(points)
	if k == i || k == j {
		return 0
	}
	x := func(i int) float64 { return points[2*i] }
	h := func(i int) float64 { return points[2*i+1] }
	slope := (h(j) - h(i)) / (x(j) - x(i))
	t := (x(k) - x(i)) / (x(j) - x(i))
	sign := math.Copysign(1, h(k)-h(i)-slope*(x(k)-x(i)))
	share := map[int]float64{k: 1, i: t - 1, j: -t}[arg/2]
	if arg%2 == 0 {
		share *= -slope
	}
	return sign * share
}
