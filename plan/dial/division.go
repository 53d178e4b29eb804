package dial

import "fettle/plan/sheet"

// The worth of a line. lead is what one turn moves, divisions the lines all round.
var (
	// PerDivision is what the slide moves from line to line.
	PerDivision = sheet.Method{Text: "lead / divisions", Source: "definition: lead / lines"}

	// OnDiameter is what the work's diameter changes by: the tool cuts on both sides.
	OnDiameter = sheet.Method{Text: "2 * per_division", Source: "geometry: the diameter changes twice as much as the radius"}

	// Radial is what a line of a slide that is set over moves towards the axis.
	Radial = sheet.Method{Text: "per_division * sin(set_over)", Source: "geometry: l sin θ"}

	// Spacing of the lines around the dial.
	Spacing = sheet.Method{Text: "pi * dial_dia / divisions", Source: "geometry: π D / N"}

	// LinesFor is how many lines a value of a line asks for; a whole number, or impossible.
	LinesFor = sheet.Method{Text: "lead / value", Source: "definition"}

	// DiaFor is the diameter of a dial for a spacing of the lines.
	DiaFor = sheet.Method{Text: "divisions * spacing_wanted / pi", Source: "geometry: N s / π"}
)

// A dial whose figures do not suit its screw: label is what a line says it is.
var (
	// Indicated is what a turn shows.
	Indicated = sheet.Method{Text: "label * divisions", Source: "definition"}

	// Ratio of what is shown to what the slide has moved.
	Ratio = sheet.Method{Text: "indicated / lead", Source: "definition: label N / l"}

	// ErrorPerTurn is what is shown beyond what was moved, a turn.
	ErrorPerTurn = sheet.Method{Text: "indicated - lead", Source: "definition"}

	// ErrorOver is what is shown beyond what was moved, over a true travel.
	ErrorOver = sheet.Method{Text: "travel * (ratio - 1)", Source: "geometry: s (label N / l − 1)"}

	// Moved is what the slide has moved when the dial shows a travel.
	Moved = sheet.Method{Text: "travel / ratio", Source: "geometry"}
)

// OffMost is as much as a dial may show wrong, as a share of what was moved;
// above OffTight it is tight.
const (
	OffMost   = 0.01
	OffTight  = 0.002
	OffSource = practice + ": tight above 0.2 %, fails above 1 %"
)

// A vernier of n divisions that span n − 1 of the main scale.
var (
	// LeastCount is what the vernier tells apart.
	LeastCount = sheet.Method{Text: "per_division / vernier_lines", Source: "definition: main division / n"}

	// VernierSpan is the length of the vernier around the dial.
	VernierSpan = sheet.Method{Text: "(vernier_lines - 1) * spacing", Source: "definition: n divisions of the vernier over n − 1 of the main scale"}

	// VernierSpacing of its lines.
	VernierSpacing = sheet.Method{Text: "vernier_span / vernier_lines", Source: "geometry"}
)

// A printed strip around a dial.
var (
	// StripLength to print and cut: its middle layer keeps its length.
	StripLength = sheet.Method{Text: "pi * (dial_dia + thickness)", Source: "geometry: π (D + t), the neutral line in the middle of the strip"}

	// StripOutside is how far it opens to at its outer face.
	StripOutside = sheet.Method{Text: "pi * (dial_dia + 2 * thickness)", Source: "geometry: π (D + 2 t)"}

	// StripSpacing is the spacing to print.
	StripSpacing = sheet.Method{Text: "strip_length / divisions", Source: "geometry"}

	// StripScale makes up for the printer: what to print a length as.
	StripScale = sheet.Method{Text: "check_wanted / check_printed", Source: "definition: a check bar of 100 mm, measured on the paper"}

	// StripDrawn is the length to draw the strip with, for that printer.
	StripDrawn = sheet.Method{Text: "strip_length * scale", Source: "definition"}
)

// Angles of lines.
var (
	// LineAngle of the k-th line.
	LineAngle = sheet.Method{Text: "line * 2 * pi / divisions", Source: "geometry: k 360° / N"}

	// LineChord from the first line to the k-th, across the dial.
	LineChord = sheet.Method{Text: "dial_dia * sin(line_angle / 2)", Source: "geometry: 2 R sin(φ/2)"}
)
