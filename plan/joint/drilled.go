package joint

import "fettle/plan/sheet"

// A screw with a hole along its axis, for oil.
var (
	// DrilledArea is what the hole leaves of the stress area.
	DrilledArea = sheet.Method{Text: "stress_area - pi / 4 * pow(hole, 2)", Source: "geometry: A_s − π d_h²/4, A_s as in ISO 898-1"}

	// DrilledTorque is what it may be tightened with, for the same stress.
	DrilledTorque = sheet.Method{Text: "full_torque * drilled_area / stress_area", Source: "elementary mechanics: the same stress on a smaller section"}

	// DrilledWall is what is left between the hole and the root of the thread.
	DrilledWall = sheet.Method{Text: "(root - hole) / 2", Source: "geometry"}
)
