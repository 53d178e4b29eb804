package sheet

import (
	"math"

	"fettle/plan/unit"
)

var inf = math.Inf(1)

// names that stand for a number in every formula.
var names = map[string]struct {
	value  float64
	symbol string
}{"inf": {inf, "∞"}, "pi": {math.Pi, "π"}}

// folds take any number of arguments, families among them; from is what they
// make of none: an empty family stops nothing.
var folds = map[string]struct {
	op   op
	from float64
}{"min": {opMin, inf}, "max": {opMax, -inf}, "sum": {opAdd, 0}, "count": {opAdd, 0}}

// curve is a function of one value.
type curve struct {
	name  string
	f     func(x float64) float64
	slope func(x, y float64) float64 // y is f(x)
	power float64                    // of the dimension; 0: of a plain number, giving one
	from  float64                    // where it begins
	waves float64                    // how far it swings; 0: it only rises, abs apart
}

// curves are in radians where there are angles; ceil and floor forgive a
// rounding error.
var curves = []curve{
	curveAbs:   {"abs", math.Abs, func(x, _ float64) float64 { return math.Copysign(1, x) }, 1, -inf, 0},
	curveCeil:  {"ceil", func(x float64) float64 { return math.Ceil(x - nearly) }, flat, 0, -inf, 0},
	curveFloor: {"floor", func(x float64) float64 { return math.Floor(x + nearly) }, flat, 0, -inf, 0},
	{"sqrt", math.Sqrt, func(_, y float64) float64 { return 0.5 / y }, 0.5, 0, 0},
	{"exp", math.Exp, func(_, y float64) float64 { return y }, 0, -inf, 0},
	{"log", math.Log, func(x, _ float64) float64 { return 1 / x }, 0, 0, 0},
	{"atan", math.Atan, func(x, _ float64) float64 { return 1 / (1 + x*x) }, 0, -inf, 0},
	{"sin", math.Sin, func(x, _ float64) float64 { return math.Cos(x) }, 0, -inf, 1},
	{"cos", math.Cos, func(x, _ float64) float64 { return -math.Sin(x) }, 0, -inf, 1},
	{"tan", math.Tan, func(_, y float64) float64 { return 1 + y*y }, 0, -inf, inf},
}

// The curves that are not smooth come first.
const (
	curveAbs = iota
	curveCeil
	curveFloor
)

func flat(_, _ float64) float64 { return 0 }

// nearly keeps a rounding error from turning 5.000000001 up to 6, and a limit
// that is just met from being broken.
const nearly = 1e-9

// unitTags give a number in a formula its unit: mm(0.5), mpa(206000). Empirical
// constants need one, since a bare number has no dimension.
var unitTags = map[string]unit.Unit{
	"mm": unit.MM, "um": unit.Micrometre, "newton": unit.Newton, "nm": unit.NewtonMetre, "mpa": unit.MPa, "gpa": unit.GPa,
	"newton_per_um": unit.NewtonPerMicrometre, "kg": unit.Kilogram, "kg_per_m3": unit.Density, "deg": unit.Degree,
	"gravity": {Symbol: "m/s²", Dim: unit.LengthD.Per(unit.TimeD).Per(unit.TimeD), Scale: 1000},
}
