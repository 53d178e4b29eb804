package upgrade

import "fettle/plan/unit"

var timeD = unit.Number.Per(unit.RPM.Dim)

// Units of figures that only upgrades have.
var (
	kelvin      = unit.Unit{Symbol: "K", Dim: unit.TempD, Scale: 1, Decimals: 1} // a difference
	perKelvin   = unit.Unit{Symbol: "µm/(m·K)", Dim: unit.Number.Per(unit.TempD), Scale: 1e-6, Decimals: 1}
	lineLoad    = unit.Unit{Symbol: "N/mm", Dim: unit.ForceD.Per(unit.LengthD), Scale: 1, Decimals: 2}
	mmPerMin    = unit.Unit{Symbol: "mm/min", Dim: unit.LengthD.Per(timeD), Scale: 1.0 / 60, Decimals: 0}
	metrePerS   = unit.Unit{Symbol: "m/s", Dim: unit.LengthD.Per(timeD), Scale: 1000, Decimals: 1}
	milliradian = unit.Unit{Symbol: "mrad", Dim: unit.Number, Scale: 0.001, Decimals: 2}
)
