package slide

import "fettle/plan/sheet"

// The strip that takes up the slide's play. It lies in a gap between two flanks;
// all thicknesses are square to the flank, all heights of contact along it.
var (
	// GibGap is the gap that a slot, so wide at the level of the slide's wide
	// edges, leaves beside the slide.
	GibGap = sheet.Method{Text: "(slot - slide_width) * sin(angle)", Source: "geometry: a difference along the base, seen square to the flank"}

	// GapOpened is how much metal taken off opens the gap: off a flank, measured
	// along the base, or off the flats, which lets the slide sink away from
	// flanks that hold it down.
	GapOpened = sheet.Method{Text: "width_removed * sin(angle) + flat_removed * cos(angle)", Source: "geometry: projected on the square to the flank"}

	// GibThickness is the strip that fills the gap but for the oil.
	GibThickness = sheet.Method{Text: "gap - clearance", Source: "geometry"}

	// GibBlank is the width of the flat stock that the strip is cut from.
	GibBlank = sheet.Method{Text: "depth / sin(angle)", Source: "geometry: the flank's height along the flank"}

	// TaperTravel is how far a taper gib is driven to close the gap by so much;
	// taper is the n of 1 : n.
	TaperTravel = sheet.Method{Text: "closing * taper", Source: "definition of a taper 1 : n"}

	// TaperClosing is how much a taper gib that is driven so far closes the gap.
	TaperClosing = sheet.Method{Text: "travel / taper", Source: "definition of a taper 1 : n"}

	// GibSpacingMost is the most between two screws of a straight strip.
	GibSpacingMost = sheet.Method{Text: "min(8 * thickness, mm(40))", Source: "common practice, no source: 8 thicknesses, 40 to 50 mm at the most"}

	// GibScrews is how many screws that takes.
	GibScrews = sheet.Method{Text: "1 + max(1, ceil((length - 2 * end) / spacing_most))", Source: "geometry: equal spaces between the first screw and the last, two screws at the least"}

	// GibSpacing is what they then stand apart.
	GibSpacing = sheet.Method{Text: "(length - 2 * end) / (screws - 1)", Source: "geometry"}

	// StripSecondMoment of the strip across its thickness.
	StripSecondMoment = sheet.Method{Text: "blank * pow(thickness, 3) / 12", Source: "geometry: I = b t³/12"}

	// GibGivePoint is how far the strip gives between two screws under a load in
	// the middle; GibGiveEven under the same load spread evenly.
	GibGivePoint = sheet.Method{Text: "load * pow(spacing, 3) / (192 * modulus * second_moment)", Source: beam + ": a bar built in at both ends, F s³ / 192 E I"}
	GibGiveEven  = sheet.Method{Text: "load * pow(spacing, 3) / (384 * modulus * second_moment)", Source: beam + ": a bar built in at both ends, w s⁴ / 384 E I"}

	// RollShift is how far along the flank the push of a screw that lies
	// parallel to the base has moved when it comes out of the strip.
	RollShift = sheet.Method{Text: "thickness / tan(angle)", Source: "statics: the screw's line of action, carried on through the strip: t cot A"}

	// RollOffset is how far off the middle of the contact that is.
	RollOffset = sheet.Method{Text: "abs(offset + shift)", Source: "statics: the screw's line of action, carried on through the strip"}

	// RollMost is where the strip tips over; from RollNear less on, one edge
	// comes off: a push outside the middle third.
	RollMost = sheet.Method{Text: "contact / 2", Source: "statics: beyond the edge of the contact the strip tips"}
	RollNear = sheet.Method{Text: "contact / 6", Source: "common practice, no source: a push within the middle two thirds; the contact begins to open at one edge outside the middle third"}

	// FlankPush and FlankSlip are what a screw parallel to the base presses on
	// the flank with, and along it.
	FlankPush = sheet.Method{Text: "push * sin(angle)", Source: "statics"}
	FlankSlip = sheet.Method{Text: "push * cos(angle)", Source: "statics"}

	// SlipRatio is the second as a share of the first: above the friction, a
	// dimple, a ledge or the floor must hold the strip.
	SlipRatio = sheet.Method{Text: "1 / tan(angle)", Source: "statics: F cos A / F sin A"}
)

// Figures that gibs assume.
const (
	GibClearance       = 0.02
	GibClearanceSource = "common practice, no source: 0.02 to 0.03 mm for the oil"
	GibEnd             = 15.0
	GibEndSource       = "common practice, no source: the first screw and the last 10 to 20 mm from the ends"
	GibGiveMost        = 0.005
	GibGiveMostSource  = "common practice, no source: 5 µm between two screws"
)
