// Package slide holds what keeps a slide steady on its ways, as formulas on a
// sheet: how much of it is supported, and whether it jams.
package slide

import "fettle/plan/sheet"

var (
	// Supported is how much of a slide lies on its ways, with the slide moved by s.
	Supported = sheet.Method{Text: "max(0, min(to + s, ways_to) - max(from + s, ways_from))", Source: "geometry"}

	// OverhangShare is the part of the slide that hangs over.
	OverhangShare = sheet.Method{Text: "1 - supported / length", Source: "geometry"}

	// JamGuide is the length of guide below which a slide that is driven off
	// its line of friction jams: 2 µ e.
	JamGuide = sheet.Method{
		Text:   "2 * friction * offset",
		Source: "statics of a narrow guide: two reactions F e / L, friction µ at each, jams at L = 2 µ e",
	}
)
