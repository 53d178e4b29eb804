package joint

import "fettle/plan/sheet"

// A sleeve over a length lap of the diameter dia, silver-brazed; wall is the
// thinner part's.
var (
	// BrazedAllowable is the shear that is allowed.
	BrazedAllowable = sheet.Method{Text: "strength / safety", Source: "common practice: the joint's shear strength with a factor"}

	// BrazedForce is the push along the axis that the joint carries.
	BrazedForce = sheet.Method{Text: "shear * pi * dia * lap", Source: "geometry: F = τ π d L", Valid: BrazedLap.Valid}

	// BrazedAsStrong is the lap that is as strong as the thinner part itself:
	// tensile is its strength, strength the joint's, integrity how much of the
	// lap is sound.
	BrazedAsStrong = sheet.Method{Text: "tensile * wall / (integrity * strength)", Source: "published joint design for silver brazing: X = T W / C L"}

	// BrazedProposed is a lap in whole millimetres: three walls, or what the
	// torque asks for.
	BrazedProposed = sheet.Method{Text: "ceil(max(lap_least, least) / mm(1)) * mm(1)", Source: "common practice in brazing: a lap of three times the thinner wall, or what the torque asks for"}

	// BrazedFails and BrazedMost bound the lap: under two walls it fails, and
	// more than six gain nothing.
	BrazedFails = sheet.Method{Text: "2 * wall", Source: "common practice in brazing: a lap under twice the thinner wall fails"}
	BrazedMost  = sheet.Method{Text: "6 * wall", Source: "common practice in brazing: no gain beyond four to six times the thinner wall"}
)

// Figures that brazed joints assume.
const (
	BrazeStrength        = 130.0
	BrazeStrengthSource  = "published joint strengths in shear, 130 to 200 MPa: the lowest"
	BrazeSafety          = 4.0
	BrazeSafetySource    = "common practice, no source: 4"
	BrazeIntegrity       = 0.8
	BrazeIntegritySource = "published joint design for silver brazing: 0.8 for joints that are not tested"
	BrazeGapLeast        = 0.025
	BrazeGapMost         = 0.1
	BrazeGapSource       = "common practice in brazing: 0.025 to 0.1 mm a side at brazing heat, strongest near 0.04"
)

// BrazeCautions go with every brazed joint.
var BrazeCautions = []string{
	"Use cadmium-free alloy only: the fume of cadmium kills. Do not heat old brazing of unknown alloy.",
	"Flux fume holds fluorides: braze with extraction or in moving air, wear goggles and gloves, wash afterwards.",
	"Take off plating, paint, oil and every closed bearing first; galvanised or cadmium-plated parts are not to be heated.",
	"Vent every closed hollow: trapped air or water bursts it. Keep fire away and an extinguisher near, and look again after half an hour.",
	"Heat the parts, not the rod; quench only below 300 °C. Pickle in citric acid, with goggles; always add acid to water.",
	"The heat takes the strength of cold drawing out of the steel beside the joint, and can bend the screw by 0.1 mm: straighten it, and turn to size afterwards.",
}
