package drawing

import (
	"slices"
	"strconv"
	"strings"

	"fettle/plan/fit"
	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/unit"
)

// plate is a title block (ISO 7200), 180 mm wide.
type plate struct {
	owner, title, machine, number string
	material, finish, quantity    string
	general, scale, date, creator string
	sheet, format                 string
	kind                          string // of document
}

const (
	plateWide = 180.0
	plateHigh = 36.0
)

func plateOf(p *part.Part, n int, opt SheetOptions) plate {
	number := itoa(n)
	if opt.Number != "" {
		number = opt.Number + "-" + number
	}
	q := plate{
		owner: opt.Owner, machine: opt.Machine, title: capital(p.Label), number: number, finish: p.Finish, date: opt.Date, creator: opt.Creator,
		material: p.Material, quantity: itoa(max(1, p.Quantity)), general: "ISO 2768-" + opt.General, kind: "part to make",
	}
	if p.Altered {
		q.kind = "part to alter"
	}
	if m, ok := material.Named(p.Material); ok {
		q.material, _, _ = strings.Cut(m.Name, ",")
	}
	return q
}

// cell is a field of the block: its label small, what it says below.
type cell struct {
	label, text string
	x, wide     float64
	row         int
	size        float64
}

const cellHigh = 9.0

// draw fills in the block, at the lower right of the frame.
func (p plate) draw(frame box, opt SheetOptions) Shapes {
	var g Shapes
	x0, y0 := frame.x1-plateWide, frame.y1-plateHigh
	g.add(Lines{"frame", []Segment{{Point{x0, y0}, Point{frame.x1, y0}}, {Point{x0, y0}, Point{x0, frame.y1}}}})
	projection := "first angle"
	if opt.ThirdAngle {
		projection = "third angle"
	}
	cells := []cell{
		{"Owner", p.owner, 0, 60, 0, 3.5},
		{"Title", p.title, 60, 84, 0, 5},
		{"Part number", p.number, 144, 36, 0, 4},
		{"For", p.machine, 0, 60, 1, 3.5},
		{"Material", p.material, 60, 56, 1, 3.5},
		{"Finish", p.finish, 116, 46, 1, 3.2},
		{"Quantity", p.quantity, 162, 18, 1, 3.5},
		{"General tolerances", p.general, 0, 36, 2, 3.5},
		{"Document", p.kind, 36, 30, 2, 3.2},
		{"Scale", p.scale, 66, 26, 2, 3.5},
		{"Projection", projection, 92, 52, 2, 3.2},
		{"Units", opt.Units.Symbol, 144, 18, 2, 3.5},
		{"Paper", p.format, 162, 18, 2, 3.5},
		{"Drawn by", p.creator, 0, 66, 3, 3.2},
		{"Approved", "", 66, 45, 3, 3.2},
		{"Date of issue", p.date, 111, 33, 3, 3.2},
		{"Sheet", p.sheet, 144, 36, 3, 4},
	}
	for _, c := range cells {
		x, y := x0+c.x, y0+float64(c.row)*cellHigh
		if c.x > 0 {
			g.line("frame-thin", x, y, x, y+cellHigh)
		}
		g.add(Text{Class: "sheet-label", X: x + 1.2, Y: y + 2.6, Size: 2, Anchor: Start, Text: c.label})
		room := c.wide - 2.4
		if c.label == "Projection" {
			g = append(g, symbol(x+c.wide-21, y+cellHigh/2, opt.ThirdAngle)...)
			room -= 22
		}
		if c.text == "" {
			continue
		}
		size, text := c.size, c.text
		for size > 2.6 && textWidth(text, size) > room {
			size -= 0.1
		}
		g.add(Text{Class: plateClass(c.label), X: x + 1.2, Y: y + 7.5, Size: size, Anchor: Start, Text: shortened(text, size, room)})
	}
	for r := 1.0; r < 4; r++ {
		g.line("frame-thin", x0, y0+r*cellHigh, frame.x1, y0+r*cellHigh)
	}
	return g
}

func plateClass(label string) string {
	if label == "Title" || label == "Part number" {
		return "sheet-title"
	}
	return "sheet-text"
}

// shortened cuts a text to a width.
func shortened(s string, size, wide float64) string {
	if textWidth(s, size) <= wide {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && textWidth(string(r)+"…", size) > wide {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// symbol of the projection (ISO 5456-2): a cone from the side and from its end.
func symbol(x, y float64, third bool) Shapes {
	var g Shapes
	const long, big, small = 7.0, 3.0, 1.5
	cone, end := x, x+long+5.5
	if third {
		cone, end = x+2*big+2.5, x+big
	}
	g.add(Path{Class: "frame", Loops: [][]Point{{{cone, y - small}, {cone + long, y - big}, {cone + long, y + big}, {cone, y + small}}}},
		Circle{"frame", end, y, big}, Circle{"frame", end, y, small},
		Lines{"ln-centre", []Segment{{Point{cone - 0.8, y}, Point{cone + long + 0.8, y}}, {Point{end - big - 0.8, y}, Point{end + big + 0.8, y}}, {Point{end, y - big - 0.6}, Point{end, y + big + 0.6}}}})
	return g
}

// checkBar is a length to check the printout by: 100 mm, or 4 inches.
func checkBar(frame box, opt SheetOptions) Shapes {
	var g Shapes
	x, y := frame.x1-plateWide+within, frame.y1-plateHigh-4
	step, n, text := 10.0, 10, "100 mm on paper: measure it to check the printout"
	if opt.Units.Symbol == unit.Inch.Symbol {
		step, n, text = 12.7, 8, "4 in on paper: measure it to check the printout"
	}
	marks := Lines{Class: "frame-thin", Segments: []Segment{{Point{x, y}, Point{x + step*float64(n), y}}}}
	for i := 0; i <= n; i++ {
		h := 1.5
		if i%(n/2) == 0 {
			h = 3
		}
		at := x + step*float64(i)
		marks.Segments = append(marks.Segments, Segment{Point{at, y}, Point{at, y - h}})
	}
	g.add(marks, Text{Class: "sheet-label", X: x + step*float64(n) + 3, Y: y, Size: 2.4, Anchor: Start, Text: text})
	return g
}

// Notes that stand on every sheet.
const (
	edgeNote    = "Break edges that are not dimensioned 0.2 to 0.5 mm; remove all burrs (ISO 13715)."
	partedNote  = "With these sizes a bore or a groove parts it: it cannot be made so."
	surfaceNote = "Surfaces Ra 3.2; Ra 1.6 where a class of fit stands (common practice, no source)."
)

// notes are what is written above the block: what the part's own are, what is
// to suit what, edges and surfaces.
func notes(p *part.Part, w *words, opt SheetOptions) []string {
	var all []string
	for i, s := range w.suits {
		t := "(" + strconv.Itoa(i+1) + ") "
		to := "To suit "
		if s.Label != "" {
			t += capital(s.Label) + ": "
			to = "to suit "
		}
		what := s.Suits
		if what == "" {
			what = "its counterpart"
		}
		t += to + inLine(what) + "."
		if s.Open() {
			t += " Open until that is measured; the size drawn is only as expected."
		}
		all = append(all, t)
	}
	if p.Round != nil && turned(p.Round).parted() {
		all = append(all, partedNote)
	}
	all = append(all, p.Notes...)
	if p.Altered {
		all = append(all, "Thin: as it is. Dashed: metal to cut away. Thick: new surfaces.")
	}
	if p.Round != nil && slices.ContainsFunc(p.Round.Outside, func(s part.Step) bool { return s.New }) {
		all = append(all, "Tinted: metal that was not there.")
	}
	if w.fits {
		all = append(all, "Deviations beside a size are in "+unitWords(opt.Units)+", from the nominal size ("+fitSource+").")
	}
	return append(all, edgeNote, surfaceNote, "Sizes without limits: "+fit.GeneralSource+", class "+opt.General+".")
}

const fitSource = "ISO 286-1"

func unitWords(u unit.Unit) string {
	if u.Symbol == unit.Inch.Symbol {
		return "inches"
	}
	return "millimetres"
}

func itoa(n int) string { return strconv.Itoa(n) }
