package bearing

import "fettle/plan/sheet"

const inside = "common practice, no source: an estimate, as makers do not publish it"

// Formulas of axial stiffness, as an estimate from the outside dimensions.
var (
	// Ball is the diameter of the balls.
	Ball = sheet.Method{Text: "0.3 * (od - bore)", Source: inside}

	// BallsFew is their number in a deep groove bearing, BallsMany in one that is
	// filled: angular contact and thrust bearings.
	BallsFew  = sheet.Method{Text: "floor(0.6 * pi * (bore + od) / 2 / ball + 0.5)", Source: inside}
	BallsMany = sheet.Method{Text: "floor(0.8 * pi * (bore + od) / 2 / ball + 0.5)", Source: inside}

	// BallLoad is the share of the thrust that presses on one ball.
	BallLoad = sheet.Method{Text: "thrust / (balls * sin(angle))", Source: "statics: all balls share"}

	// Approach is how far the rings come together.
	Approach = sheet.Method{
		Text:   "um(0.44) / sin(angle) * pow(pow(ball_load / newton(1), 2) / (ball / mm(1)), 0.3333333333333333)",
		Source: "Hertz, both contacts of a ball in grooves of 0.515 to 0.52 of its diameter: δ = 0.44 µm / sin α × (Q²/Dw)^(1/3), Q in N, Dw in mm; within 4 % of an independent computation",
	}

	// Ideal is the stiffness of the contacts alone, at that thrust.
	Ideal = sheet.Method{Text: "1.5 * thrust / approach", Source: "Hertz: the slope of a load that grows with δ^1.5"}

	// InService is what is left of it with real faces and washers.
	InService = sheet.Method{Text: "in_service * ideal", Source: "common practice, no source: faces, washers and bracket take about half"}

	// PairStiffness is that of two preloaded against each other.
	PairStiffness = sheet.Method{Text: "2 * stiffness", Source: "both share while both are loaded"}

	// PreloadLost is the outside load at which one of a preloaded pair runs loose.
	PreloadLost = sheet.Method{Text: "2.8284271247461903 * thrust", Source: "Hertz: the other carries all at twice the approach, 2^1.5 times the preload"}

	// PreloadMost is the preload not to exceed.
	PreloadMost = sheet.Method{Text: "0.1 * static", Source: "common practice, no source: a tenth of C0; 0.3 to 0.5 of the usual thrust is enough"}
)

// ContactAngle is the angle at which the balls carry thrust, in degrees, and its source.
func (k Kind) ContactAngle() (degrees float64, source string) {
	switch k {
	case DeepGroove:
		return 12, "common practice, no source: 8 to 15° under thrust, by the clearance"
	case AngularContact:
		return 30, "ISO 15 with 30°, as the catalogue's"
	}
	return 90, "thrust bearing"
}

// InServiceShare is the share of the contacts' stiffness that is left in service.
const (
	InServiceShare  = 0.5
	InServiceSource = "common practice, no source: about half"
)
