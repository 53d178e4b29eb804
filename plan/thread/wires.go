package thread

import "fettle/plan/sheet"

// Measuring a screw over three wires. wire is the wires' diameter, flank half
// of the included angle.
var (
	// BestWire touches the flanks at the pitch line, so that an error of the
	// flank angle does the least harm.
	BestWire = sheet.Method{Text: "pitch / (2 * cos(flank))", Source: "geometry: the wire that touches at the pitch line"}

	// WireCorrection is for the lead angle.
	WireCorrection = sheet.Method{
		Text:   "wire / 2 * pow(tan(lead_angle), 2) * cos(flank) / tan(flank)",
		Source: "first term of the correction for the lead angle: w/2 tan² λ cos α cot α",
		Valid:  "for lead angles up to about 5°",
	}

	// OverWires is the reading for a pitch diameter.
	OverWires = sheet.Method{
		Text:   "pitch_dia + wire * (1 + 1 / sin(flank)) - pitch / 2 / tan(flank) + correction",
		Source: "geometry: M = d2 + w (1 + 1/sin α) − P/2 cot α, and the correction for the lead angle",
	}

	// PitchDiaOverWires is the pitch diameter from a reading.
	PitchDiaOverWires = sheet.Method{
		Text:   "reading - wire * (1 + 1 / sin(flank)) + pitch / 2 / tan(flank) - correction",
		Source: "geometry: the same, the other way round",
	}

	// WireContact is the diameter on which the wires touch the flanks.
	WireContact = sheet.Method{
		Text:   "pitch_dia + wire / sin(flank) - pitch / 2 / tan(flank) - wire * sin(flank)",
		Source: "geometry: the tangent point of a wire in the groove",
	}
)
