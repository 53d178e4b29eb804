package joint

import "fettle/plan/sheet"

// A sleeve over a length lap of the diameter dia, held by retaining compound.
var (
	// BondedForce is the push along the axis that the joint carries.
	BondedForce = sheet.Method{Text: "shear * pi * dia * lap", Source: "geometry: F = τ π d L (shear strength by ISO 10123)", Valid: BondedLap.Valid}

	// BondedGapShare is the part of its strength that a compound has in a gap
	// wider than it likes; gap is the difference of the diameters.
	BondedGapShare = sheet.Method{
		Text:   "when(gap <= mm(0.05), 1, 1 - (gap - mm(0.05)) / mm(0.2))",
		Source: "from memory, unchecked: all of it up to 0.05 mm, three quarters at 0.10, half at 0.15", Valid: "up to 0.15 mm",
	}

	// BondedShare is what is counted on: of what is not known, and of what is,
	// the less.
	BondedShare = sheet.Method{Text: "min(derate, gap_share * surface)", Source: "common practice, no source"}

	// BondedAllowable is the shear that is allowed.
	BondedAllowable = sheet.Method{Text: "strength * share / safety", Source: "common practice, no source"}

	// LapLeast is the lap that carries the torque.
	LapLeast = sheet.Method{Text: "2 * torque / (pi * shear * pow(dia, 2))", Source: "geometry: T = τ π d² L / 2, for L"}

	// LapProposed is a lap in whole millimetres that does, and is no shorter
	// than the shaft is thick.
	LapProposed = sheet.Method{Text: "ceil(max(lap_least, dia) / mm(1)) * mm(1)", Source: "common practice, no source: a lap of one diameter, or what the torque asks for"}
)

// Figures that bonded joints assume.
const (
	BondDerate        = 0.5
	BondDerateSource  = "common practice, no source: half, for what is not known of cleanliness, age and heat"
	BondSafety        = 2.0
	BondSafetySource  = "common practice, no source: 2"
	BondGapMost       = 0.15
	BondGapMostSource = "from memory, unchecked: 0.15 mm on the diameter"
)

// BondStrengths are the shear strengths of retaining compounds in MPa by class,
// as tested by ISO 10123 on steel pins and collars with a gap of about 0.05 mm;
// from memory, unchecked.
var BondStrengths = []struct {
	Key, Label string
	Strength   float64
}{
	{"high", "high strength, 25 to 30 MPa", 25},
	{"medium", "medium strength, 15 to 20 MPa", 15},
	{"low", "low strength, under 10 MPa", 8},
}

// BondSurfaces are the parts of that strength that surfaces leave; from memory,
// unchecked.
var BondSurfaces = []struct {
	Key, Label string
	Share      float64
}{
	{"steel", "steel or iron", 1},
	{"primed", "aluminium, zinc or stainless, with activator", 0.7},
	{"passive", "aluminium, zinc or stainless, without", 0.4},
}

// BondCautions go with every bonded joint.
var BondCautions = []string{
	"Retaining compound irritates the skin and can make it allergic: wear gloves, keep it out of the eyes, wash at once.",
	"Degrease with a solvent only where there is no flame or spark and the air moves.",
	"It lets go when hot: heat to about 250 °C takes the joint apart, and the fume of hot compound is not to be breathed.",
}
