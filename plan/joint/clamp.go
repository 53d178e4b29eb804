package joint

import "fettle/plan/sheet"

// A split clamp on a shaft of the diameter dia.
var (
	// BoltForce is what a bolt pulls with when it is tightened.
	BoltForce = sheet.Method{Text: "bolt_torque / (0.2 * bolt_dia)", Source: "common practice: F = T / 0.2 d, threads as delivered"}

	// ClampTorque is the torque that the clamp holds: share is how much of the
	// bolts' pull gets to the shaft.
	ClampTorque = sheet.Method{Text: "friction * pi * bolt_force * dia * bolts / 2 * share", Source: "friction of two half shells: T = µ π F d n / 2, by the share that bends the clamp"}

	// ClampThrust is the push along the axis that it holds.
	ClampThrust = sheet.Method{Text: "friction * pi * bolt_force * bolts * share", Source: "friction of two half shells: F = µ π F n"}
)

// Figures that clamps assume.
const (
	ClampFriction       = 0.15
	ClampFrictionSource = "common practice: dry steel on steel 0.15"
	ClampShare          = 0.5
	ClampShareSource    = "common practice, no source: 0.5 to 0.8 of the bolts' pull gets to the shaft"
)

// BoltTorques are what bolts of class 8.8 are tightened with, N·mm, by their
// diameter in mm: 70 % of it into iron, 60 % into aluminium.
// Source: common practice, for a friction of 0.14.
var BoltTorques = map[float64]float64{4: 3000, 5: 6000, 6: 10000, 8: 25000}
