package screw

import "fettle/plan/sheet"

// Lost motion: what the handle turns before the slide moves, at the slide.
var (
	// ThreadPlay is the axial play that clearance at the pitch diameter gives;
	// on a square thread it is the gap between the flanks itself.
	ThreadPlay = sheet.Method{Text: "clearance * tan(flank)", Source: "geometry: Δd2 tan α, from one flank to the other"}

	// HandleLost is the slack of key, pin or dial, at the slide.
	HandleLost = sheet.Method{Text: "handle_slack * lead / (2 * pi)", Source: "definition of the lead: angle × l/2π"}

	// TwistLost is the wind-up, at the slide.
	TwistLost = sheet.Method{
		Text:   "torque * length / (shear_modulus * polar_moment) * lead / (2 * pi)",
		Source: "elementary mechanics: T L/G J × l/2π",
	}

	// BracketLost is what the bracket and its joint give.
	BracketLost = sheet.Method{Text: "force / bracket_stiffness", Source: "definition"}

	// LostWorst adds all shares up.
	LostWorst = sheet.Method{Text: "sum(shares)", Source: "arithmetic sum: the worst case"}

	// LostLikely is the root of the sum of their squares.
	LostLikely = sheet.Method{
		Text:   "sqrt(pow(thread_share, 2) + pow(wear_share, 2) + pow(float_share, 2) + pow(bearing_share, 2) + pow(handle_share, 2) + pow(twist_share, 2) + pow(stretch_share, 2) + pow(bracket_share, 2))",
		Source: "root of the sum of squares: the likely case, for shares that do not depend on one another",
	}

	// Unexplained is what was measured beyond the sum.
	Unexplained = sheet.Method{Text: "measured - lost", Source: "definition: measured less the sum; wear, dirt or a loose joint"}
)
