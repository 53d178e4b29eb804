// Package slide holds what keeps a slide steady on its ways, as formulas on a
// sheet: dovetails over rollers, both ways, and the gib between them; how much of
// a slide is supported, whether it jams, and what it presses its ways with; what
// gives when it stands out beyond them, when a wall is cut thinner, or when a
// block raises a column; and the swing that play allows.
//
//	sc.Method(q, slide.OverRollers)   // of narrow, roller and angle on the sheet
//
// A formula's names are the keys that its sheet must have; the comment over each
// group says which. Angles of dovetails are from the flat to the flank.
//
// No standard holds these: they are geometry, statics and elementary beam theory,
// the give of flat joints as published in handbooks of machine tools, the strength
// of grey iron by EN 1561. Limits are common practice, and say so.
package slide

import "fettle/plan/sheet"

var (
	// Supported is how much of a slide lies on its ways, with the slide moved by s.
	Supported = sheet.Method{Text: "max(0, min(to + s, ways_to) - max(from + s, ways_from))", Source: "geometry"}

	// Overhang is the part of the slide that hangs over.
	Overhang = sheet.Method{Text: "length - supported", Source: "geometry"}

	// OverhangMost is the most that may hang over, a share of the slide's length.
	OverhangMost = sheet.Method{Text: "overhang_most * length", Source: "common practice, no source: two thirds of a slide stay supported when cutting"}

	// OverhangNear is how near to that it is tight, a share of the slide's length.
	OverhangNear = sheet.Method{Text: "overhang_near * length", Source: "common practice, no source"}

	// GibScrewBears is 1 for a gib screw that lies in the slide and over the
	// ways, with the slide moved by s, and else 0.
	GibScrewBears = sheet.Method{
		Text:   "when(at < from, 0, when(at > to, 0, when(at + s < ways_from, 0, when(at + s > ways_to, 0, 1))))",
		Source: "geometry",
	}

	// JamGuide is the length of guide at which a slide that is driven off its
	// line of friction jams: 2 µ e.
	JamGuide = sheet.Method{
		Text:   "2 * friction * offset",
		Source: "statics of a narrow guide: two reactions F e / L, friction µ at each, jams at L = 2 µ e",
	}

	// JamNear is how much more than that it takes to run freely: as much again.
	JamNear = sheet.Method{Text: "jam_length", Source: "common practice, no source: it runs freely at twice the length at which it jams"}
)

// The friction of ways, as usual.
const (
	Friction       = 0.15
	FrictionSource = "oiled iron on iron, 0.12 to 0.2: common practice, no source"
)
