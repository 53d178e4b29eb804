package fit

import "fettle/plan/sheet"

const expansion = "linear expansion from 20 °C, the reference temperature of ISO 1"

// Formulas for what temperature does to a fit. Temperatures are differences from
// 20 °C; expansions are of the two materials, per K.
var (
	// HotClearance is the clearance at a temperature.
	HotClearance = sheet.Method{
		Text:   "clearance + size * (hole_expansion - shaft_expansion) * temperature",
		Source: expansion, Valid: "where hole and shaft are as warm as each other",
	}

	// LooseAt is the temperature at which neither clearance nor interference is left.
	LooseAt = sheet.Method{
		Text:   "clearance / (size * (shaft_expansion - hole_expansion))",
		Source: expansion, Valid: "for unlike materials, as warm as each other",
	}

	// ClearanceToAssemble is what a warmed hub needs to go on without sticking.
	ClearanceToAssemble = sheet.Method{Text: "max(mm(0.01), size / 1000)", Source: "common practice, no source: a thousandth of the diameter, 0.01 mm at least"}

	// Warming is by how much a hub is to be warmer than its shaft, or the shaft
	// cooler than its hub, to go together with clearance.
	Warming = sheet.Method{Text: "(interference + clearance) / (expansion * size)", Source: expansion}

	// Shrink is by how much a shaft shrinks when it is cooled.
	Shrink = sheet.Method{Text: "expansion * size * cold", Source: expansion}
)

// A part that is warmed to go on has its limit, in °C.
type HeatLimit struct {
	Key, Label string
	Celsius    float64
	Source     string
}

// HeatLimits are how warm parts may be made to assemble them.
var HeatLimits = []HeatLimit{
	{"bearing", "rolling bearing", 110, "common practice: 110 °C, for the steel's size and the grease"},
	{"hardened", "hardened steel", 150, "common practice: 150 °C, below tempering"},
	{"aluminium", "aged aluminium alloy", 140, "common practice: 140 °C, below over-ageing"},
	{"steel", "steel that is not hardened", 300, "common practice: 300 °C, below bluing hot work"},
	{"iron", "cast iron", 300, "common practice: 300 °C, evenly"},
	{"brass", "brass or bronze", 200, "common practice, no source: 200 °C"},
	{"plastic", "plastic", 80, "common practice, no source: 80 °C, in hot water"},
}
