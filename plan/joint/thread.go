package joint

import "fettle/plan/sheet"

// A stub turned on one part, screwed or plugged into the other.
var (
	// CoreTorque is the torque that a round core of the diameter root carries:
	// of a thread its root, never its outside.
	CoreTorque = sheet.Method{Text: "shear * pi * pow(root, 3) / 16", Source: "elementary mechanics: T = τ π d³/16"}

	// CoreThrust is the pull that it carries.
	CoreThrust = sheet.Method{Text: "tension * pi / 4 * pow(root, 2)", Source: "elementary mechanics: F = σ π d²/4"}

	// StubEngagement is how much thread a stub is to have in the other part.
	StubEngagement = sheet.Method{Text: "1.5 * dia", Source: "common practice, no source: 1.5 diameters"}

	// SpigotMost is the largest spigot that can be turned on an old end: its
	// smallest diameter in the spigot's length, the root of a thread included.
	SpigotMost = sheet.Method{Text: "min(shank, root)", Source: "geometry: the metal that is there, under a thread only its root"}
)

// Figures that screwed joints assume.
const (
	StubTension       = 120.0
	StubTensionSource = "common practice, no source: 120 MPa in a mild steel screw, about half its yield"
	SteelShear        = 95.0
	SteelShearSource  = "common practice: about half of what makes mild steel yield in shear"
)
