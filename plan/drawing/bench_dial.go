package drawing

import (
	"fmt"
	"math"

	"fettle/plan/unit"
)

// pxPerMM draws at true size on paper and on a screen that is shown at 100 %:
// 96 to the inch (CSS Values and Units, "absolute lengths").
const pxPerMM = 96 / 25.4

// Strip is the lines of a dial, rolled out flat. Lengths are in mm, as drawn.
type Strip struct {
	Length               float64
	Lines                int
	Minor, Middle, Major float64 // lengths of lines
	Numeral              float64 // height of the figures
	Numbered             int     // a figure at every so many lines
}

// Usual lengths of lines and height of figures where a calculation gives none,
// those of plan/dial for fine lines at arm's length.
const (
	usualMinor   = 2.0
	usualMiddle  = 1.6 * usualMinor
	usualMajor   = 2.3 * usualMinor
	usualNumeral = 2.5
)

// dialOf draws a dial's lines at true size: the strip to print, or the dial as it would read.
func dialOf(b benchFigures) (*Drawing, string) {
	s := Strip{Lines: int(b.value("divisions")), Minor: usualMinor, Middle: usualMiddle, Major: usualMajor, Numeral: usualNumeral}
	caption := ""
	switch b.Method.Key {
	case "dial_strip":
		s.Length = b.value("strip_drawn")
		caption = "At true size on paper, for this printer: print the page at 100 %, measure the bar, and put in what it measures. Join at the last line, which is the first again."
	case "dial_legibility":
		s.Length = b.value("spacing") * float64(s.Lines)
		s.Minor, s.Middle, s.Major, s.Numeral = b.value("minor"), b.value("middle"), b.value("major"), b.value("numeral")
		s.Numbered = int(b.value("numbered_every"))
		caption = "The dial rolled out, at true size where the bar measures 100 mm."
	case "dial_divisions":
		s.Length = b.value("spacing") * float64(s.Lines)
		caption = "The dial rolled out, at true size where the bar measures 100 mm."
	}
	if !(s.Length > 0) || s.Length > 2000 || s.Lines < 2 || s.Length/float64(s.Lines) < 0.2 || s.Major > 60 || s.Numeral > 60 {
		return nil, ""
	}
	if s.Numbered == 0 {
		s.Numbered = 10
	}
	return s.Draw(), caption
}

// longestRow is what goes on a sheet of A4 across, in mm.
const longestRow = 170.0

// Draw draws the strip at true size, in rows where it is longer than a sheet is
// wide, with a bar of 100 mm to check the scale by.
func (s Strip) Draw() *Drawing {
	const margin = 6.0
	spacing := s.Length / float64(s.Lines)
	perRow := max(1, int(math.Floor(longestRow/spacing)))
	if s.Length <= longestRow {
		perRow = s.Lines
	}
	size := s.Numeral / 0.7 // a figure is 0.7 of its size high
	high := s.Major + 1 + s.Numeral + 2
	d := &Drawing{ID: "picture", Class: "drawing drawing-upright drawing-true", Title: "Lines of the dial, at true size", PxPerUnit: pxPerMM}
	var g Shapes
	y := margin
	for from := 0; from < s.Lines; from += perRow {
		to := min(from+perRow, s.Lines)
		x := func(line int) float64 { return margin + float64(line-from)*spacing }
		g.line("ln-thin", x(from), y+high, x(to), y+high)
		var lines []Segment
		for n := from; n <= to; n++ {
			long := s.Minor
			switch {
			case n%s.Numbered == 0 || n == s.Lines:
				long = s.Major
				label := fmt.Sprint(n % s.Lines)
				g.add(Text{Class: "dial-figure", X: x(n), Y: y + high - s.Major - 1, Size: size, Text: label})
			case s.Numbered%2 == 0 && n%(s.Numbered/2) == 0:
				long = s.Middle
			}
			lines = append(lines, Segment{Point{x(n), y + high}, Point{x(n), y + high - long}})
		}
		g.add(Lines{"ln-thin", lines})
		d.Width = max(d.Width, x(to)+margin)
		y += high + 6
	}
	bar := y + 3
	g.add(Lines{"dim", []Segment{{Point{margin, bar}, Point{margin + 100, bar}}, {Point{margin, bar - 2}, Point{margin, bar + 2}}, {Point{margin + 100, bar - 2}, Point{margin + 100, bar + 2}}}},
		Text{Class: "part-name", X: margin + 50, Y: bar - 1, Size: 3, Text: "100 mm"})
	// A whole number of pixels: rounded, the drawing would be stretched.
	whole := func(mm float64) float64 { return math.Ceil(mm*pxPerMM) / pxPerMM }
	d.Width, d.Height = whole(max(d.Width, 100+2*margin)), whole(bar+margin)
	d.Shapes = g
	d.Desc = fmt.Sprintf("%d lines over %s mm, %s mm apart, with a figure at every %s. Below them a bar of 100 mm to check the scale by.",
		s.Lines, unit.MM.Text(s.Length, 2), unit.MM.Text(spacing, 3), ordinal(s.Numbered))
	return d
}

func ordinal(n int) string {
	if n == 1 {
		return "line"
	}
	return fmt.Sprintf("%dth line", n)
}
