package sheet

import "fettle/plan/unit"

// folds take any number of arguments, families among them.
var folds = map[string]op{"min": opMin, "max": opMax, "sum": opAdd, "count": opAdd}

// pure functions take and give plain numbers. Angles are in radians; ceil and
// floor forgive a rounding error.
var pure = map[string]op{
	"sin": opSin, "cos": opCos, "tan": opTan, "atan": opAtan, "exp": opExp, "log": opLog, "ceil": opCeil, "floor": opFloor,
}

// unitTags give a number in a formula its unit: mm(0.5), mpa(206000). Empirical
// constants need one, since a bare number has no dimension.
var unitTags = map[string]unit.Unit{
	"mm": unit.MM, "um": unit.Micrometre, "newton": unit.Newton, "nm": unit.NewtonMetre, "mpa": unit.MPa, "gpa": unit.GPa,
	"newton_per_um": unit.NewtonPerMicrometre, "kg": unit.Kilogram, "kg_per_m3": unit.Density, "deg": unit.Degree,
	"gravity": {Symbol: "m/s²", Dim: unit.LengthD.Per(unit.TimeD).Per(unit.TimeD), Scale: 1000},
}
