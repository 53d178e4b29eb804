package dial

import "fettle/plan/sheet"

const (
	handbook = "human-factors handbooks"
	practice = "common practice, no source"
)

// What can be read. spacing is that of the lines, sight the distance of the eye.
var (
	// LineLeast and LineMost are the widths of a line.
	LineLeast = sheet.Method{Text: "max(mm(0.1), 0.15 * spacing)", Source: practice + ": 0.15 of the spacing, 0.1 mm at least"}
	LineMost  = sheet.Method{Text: "max(mm(0.1), min(mm(0.25), 0.25 * spacing))", Source: practice + ": a quarter of the spacing, 0.25 mm at most"}

	// Minor, Middle and Major are the lengths of the lines: 1 : 1.6 : 2.3.
	Minor  = sheet.Method{Text: "max(mm(2), 2 * spacing)", Source: practice + ": 2 to 2.5 mm, twice the spacing where that is more"}
	Middle = sheet.Method{Text: "1.6 * minor", Source: handbook + ": lengths as 1 : 1.6 : 2.3"}
	Major  = sheet.Method{Text: "2.3 * minor", Source: handbook + ": lengths as 1 : 1.6 : 2.3"}

	// Numeral is the height of the figures.
	Numeral = sheet.Method{Text: "max(mm(2.5), sight / 160)", Source: handbook + ": 1/200 to 1/160 of the distance of the eye, 2.5 mm at least"}

	// Stroke of the figures.
	Stroke = sheet.Method{Text: "numeral / 6", Source: handbook + ": a sixth of the height on a light ground, a seventh to an eighth on a dark one"}

	// NumeralRoom is the arc from one numbered line to the next.
	NumeralRoom = sheet.Method{Text: "numbered_every * spacing", Source: "geometry"}

	// NumeralWidth is what two figures and a gap take of it.
	NumeralWidth = sheet.Method{Text: "2.2 * 0.65 * numeral", Source: practice + ": a figure is 0.65 of its height wide"}
)

// Spacing limits in mm at 300 to 400 mm from the eye.
const (
	SpacingLeast  = 0.75
	SpacingGood   = 1.0
	SpacingSource = "common practice, no source: 1 mm reads well at arm's length, 0.75 mm is the least; 0.5 mm with a magnifier or a vernier"
)
