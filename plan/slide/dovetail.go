package slide

import "fettle/plan/sheet"

const rollers = "geometry of a roller that touches the flat and the flank of an acute corner; the usual form in machinery handbooks"

// Dovetails over rollers. angle is from the flat to the flank; roller is the
// diameter of either of two equal rollers. Widths are to the sharp corners, which
// are relieved on a real dovetail and cannot be measured; the reading can.
//
// A male dovetail is measured over the rollers and has its narrow width at the
// flat where they lie; a female one is measured between them, and is wide there.
var (
	// OverRollers is the reading over a male dovetail of a narrow width.
	OverRollers = sheet.Method{Text: "narrow + roller * (1 + 1 / tan(angle / 2))", Source: rollers + ": M = a + D (1 + cot A/2)"}

	// NarrowOverRollers is the narrow width of a male dovetail from its reading.
	NarrowOverRollers = sheet.Method{Text: "over - roller * (1 + 1 / tan(angle / 2))", Source: rollers + ": a = M − D (1 + cot A/2)"}

	// BetweenRollers is the reading in a female dovetail of a wide width.
	BetweenRollers = sheet.Method{Text: "wide - roller * (1 + 1 / tan(angle / 2))", Source: rollers + ": M = b − D (1 + cot A/2)"}

	// WideBetweenRollers is the wide width of a female dovetail from its reading.
	WideBetweenRollers = sheet.Method{Text: "between + roller * (1 + 1 / tan(angle / 2))", Source: rollers + ": b = M + D (1 + cot A/2)"}

	// WideOfNarrow and NarrowOfWide are the other width of a dovetail so deep.
	WideOfNarrow = sheet.Method{Text: "narrow + 2 * depth / tan(angle)", Source: "geometry: b = a + 2 h cot A"}
	NarrowOfWide = sheet.Method{Text: "wide - 2 * depth / tan(angle)", Source: "geometry: a = b − 2 h cot A"}

	// RollerTouches is how high above the flat a roller touches the flank; it
	// must lie on the flank, below its edge.
	RollerTouches = sheet.Method{Text: "roller / 2 * (1 + cos(angle))", Source: "geometry: r (1 + cos A)"}

	// RollerMost is the largest roller that still touches the flank.
	RollerMost = sheet.Method{Text: "2 * depth / (1 + cos(angle))", Source: "geometry: the roller touches at the edge of the flank"}

	// RollerLeast is the smallest roller that stands out beyond the wide edges
	// of a male dovetail, so that flat jaws reach it.
	RollerLeast = sheet.Method{Text: "2 * depth / (tan(angle) * (1 + 1 / tan(angle / 2)))", Source: "geometry: the roller's outermost point stands over the edge of the flank"}

	// DovetailAngle is the angle that two sizes of rollers find, male or female
	// alike: small_roller and large_roller with the readings over, or between, them.
	DovetailAngle = sheet.Method{
		Text:   "2 * atan((large_roller - small_roller) / (abs(large_reading - small_reading) - (large_roller - small_roller)))",
		Source: rollers + ", twice: cot A/2 = |M1 − M2| / |D1 − D2| − 1",
	}
)
