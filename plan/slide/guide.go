package slide

import "fettle/plan/sheet"

// A slide on its ways: length and width of what is guided.
var (
	// SupportShare is the part of a slide that lies on its ways.
	SupportShare = sheet.Method{Text: "supported / length", Source: "geometry"}

	// JamOffset is the farthest off the line of friction that a slide can be
	// driven before it jams.
	JamOffset = sheet.Method{Text: "length / (2 * friction)", Source: JamGuide.Source}

	// JamFree is the length of guide with which it runs freely: twice as long as
	// that at which it jams.
	JamFree = sheet.Method{Text: "4 * friction * offset", Source: "common practice, no source: it runs freely at twice the length at which it jams"}

	// GuideRatio is how long a guide is for its width.
	GuideRatio = sheet.Method{Text: "length / width", Source: "geometry"}

	// WayPressure is the mean pressure on the ways; width is that of all of them.
	WayPressure = sheet.Method{Text: "load / (width * length)", Source: "geometry: F / b L"}

	// EdgePressure is the pressure at the edge that a load off the middle leans
	// on. From a sixth of the length on the other edge lifts, and less carries.
	EdgePressure = sheet.Method{
		Text:   "when(offset <= length / 6, pressure * (1 + 6 * offset / length), 2 * load / (3 * width * (length / 2 - offset)))",
		Source: "statics of a stiff slide on ways that only push: F / b L + 6 M / b L², and 2 F / 3 b (L/2 − e) once an edge lifts",
		Valid:  "for a load within the slide's length",
	}

	// TipLoad is the load, beyond the ways by out, under which a slide tips over
	// their end, with its own middle of mass so far inside.
	TipLoad = sheet.Method{
		Text:   "when(out > 0, max(0, mass * inside / out), inf)",
		Source: "statics: moments about the end of the ways, m_s a = m b",
	}

	// LiftPressure is the pressure that is left at the other edge; below nothing
	// it lifts, or the gib has to hold it down.
	LiftPressure = sheet.Method{Text: "pressure * (1 - 6 * offset / length)", Source: "statics: F / b L − 6 M / b L²"}
)

// Limits of slides on their ways, for machines moved by hand.
const (
	PressureMost       = 0.5
	PressureMostSource = "common practice, no source: iron on iron by hand, 0.1 to 0.5 MPa in the mean"
	EdgeMost           = 1.5
	EdgeMostSource     = "common practice, no source: iron on iron by hand, 1.5 MPa at an edge"
	RatioLeast         = 1.0
	RatioLeastSource   = "common practice, no source: never shorter than wide"
	RatioGood          = 1.6
	RatioGoodSource    = "from memory, unchecked: a guide 1.6 times as long as wide runs steadily; 1.5 is also found"
	SupportLeast       = 0.5
	SupportLeastSource = "common practice, no source: half of it at the least, for light positioning"
	SupportGood        = 2.0 / 3
	SupportGoodSource  = "common practice, no source: two thirds when cutting"
)
