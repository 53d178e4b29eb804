package slide

import "fettle/plan/sheet"

// A screw that presses a pad on a way, and so clamps the slide.
var (
	// LockHold is the push along the ways that it holds: friction at the pad, and
	// as much at the face on which the slide is pulled.
	LockHold = sheet.Method{Text: "2 * friction * lock_force", Source: "statics: µ F at the pad and µ F at the face opposite"}

	// PadPressure under a round pad.
	PadPressure = sheet.Method{Text: "lock_force / (pi / 4 * pow(pad, 2))", Source: "geometry: F / (π d²/4)"}

	// LockLift is how far a pad that stands on the flat lifts a dovetail slide:
	// until both flanks, which share the play sideways, hold it.
	LockLift = sheet.Method{Text: "play * tan(angle) / 2", Source: "geometry: a rise v closes v cos A at either flank, of which the play p leaves p sin A / 2"}
)
