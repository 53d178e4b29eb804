package drawing

import (
	"math"
	"strings"

	"fettle/plan/part"
)

// page is a sheet of paper that is being drawn.
type page struct {
	part    *part.Part
	number  int // of the part in its set
	scale   float64
	w, h    float64
	frame   box
	free    box // what is left for views
	label   string
	fill    plate
	desc    []string
	shapes  Shapes
	dims    []Dimension
	format  Format
	noScale bool
}

// Margins of ISO 5457: 20 mm for filing, 10 elsewhere.
const (
	filing = 20.0
	margin = 10.0
	within = 4.0 // from the frame to what is drawn
)

func newPage(p *part.Part, n int, k float64, across bool, opt SheetOptions) *page {
	g := &page{part: p, number: n, scale: k, format: opt.Format, w: opt.Format.Short, h: opt.Format.Long}
	if across {
		g.w, g.h = g.h, g.w
	}
	g.frame = box{filing, g.w - margin, margin, g.h - margin}
	g.free = box{g.frame.x0 + within, g.frame.x1 - within, g.frame.y0 + within, g.frame.y1 - plateHigh - barHigh}
	if p != nil {
		g.label = capital(p.Label)
		g.fill = plateOf(p, n, opt)
	}
	return g
}

const (
	barHigh  = 12.0 // room of the bar that checks the printout
	noteSize = 3.0
	noteHigh = 4.4
)

// write puts notes above the title block; on a sheet that lies across, beside it.
func (g *page) write(notes []string) {
	wide, foot := g.frame.x1-g.frame.x0-2*within, g.frame.y1-plateHigh-barHigh
	if beside := g.frame.x1 - g.frame.x0 - plateWide - 2*within; beside > 60 {
		wide, foot = beside, g.frame.y1-2
	}
	var lines []string
	for _, n := range notes {
		lines = append(lines, wrap(n, noteSize, wide)...)
	}
	if most := int((foot - g.free.y0) / 2 / noteHigh); len(lines) > most {
		lines = lines[:max(most, 0)]
	}
	if len(lines) == 0 {
		return
	}
	top := foot - float64(len(lines))*noteHigh
	for i, l := range lines {
		g.shapes.add(Text{Class: "sheet-text", X: g.frame.x0 + within, Y: top + float64(i)*noteHigh + noteSize, Size: noteSize, Anchor: Start, Text: l})
	}
	g.free.y1 = min(g.free.y1, top-3)
}

// wrap breaks a text into lines that are no wider.
func wrap(text string, size, wide float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		for textWidth(word, size) > wide {
			r := []rune(word)
			n := len(r)
			for n > 1 && textWidth(string(r[:n]), size) > wide {
				n--
			}
			if n == len(r) {
				break
			}
			if line != "" {
				lines, line = append(lines, line), ""
			}
			lines, word = append(lines, string(r[:n])), string(r[n:])
		}
		next := word
		if line != "" {
			next = line + " " + word
		}
		if textWidth(next, size) > wide && line != "" {
			lines = append(lines, line)
			next = "  " + word
		}
		line = next
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

const viewsApart = 8.0

// arrange puts views onto the page, their middle lines in line with the main
// one's; false where they do not fit.
func (g *page) arrange(vs []placedView) bool {
	at, whole := laid(vs)
	fw, fh := g.free.x1-g.free.x0, g.free.y1-g.free.y0
	if !(whole.x1-whole.x0 <= fw && whole.y1-whole.y0 <= fh) {
		return false
	}
	dx := g.free.x0 + (fw-(whole.x1-whole.x0))/2 - whole.x0
	dy := g.free.y0 + (fh-(whole.y1-whole.y0))/2 - whole.y0
	for i, v := range vs {
		g.place(v.view, at[i].X+dx, at[i].Y+dy)
	}
	return true
}

// laid are the places of views' origins, the main one's at 0, and what they take.
func laid(vs []placedView) ([]Point, box) {
	at := make([]Point, len(vs))
	main := vs[0].named()
	whole := main
	for i, v := range vs[1:] {
		e := v.named()
		p := Point{}
		switch {
		case v.column > 0:
			p.X = whole.x1 + viewsApart - e.x0
		case v.column < 0:
			p.X = whole.x0 - viewsApart - e.x1
		case v.row > 0:
			p.Y = whole.y1 + viewsApart - e.y0
		default:
			p.Y = whole.y0 - viewsApart - e.y1
		}
		at[i+1] = p
		whole = box{min(whole.x0, p.X+e.x0), max(whole.x1, p.X+e.x1), min(whole.y0, p.Y+e.y0), max(whole.y1, p.Y+e.y1)}
	}
	return at, whole
}

// named is the extent of a view with its name above it.
func (v *view) named() box {
	e := v.extent()
	if v.name != "" {
		e.y0 -= 6
	}
	return e
}

func (g *page) place(v *view, dx, dy float64) {
	g.shapes = append(g.shapes, v.lines.shifted(dx, dy)...)
	g.shapes = append(g.shapes, v.notes.shifted(dx, dy)...)
	if v.name != "" {
		e := v.extent()
		g.shapes.add(Text{Class: "view-name", X: dx + (v.body.x0+v.body.x1)/2, Y: dy + e.y0 - 1.5, Size: 4, Text: v.name})
	}
	for _, d := range v.dims {
		d.A, d.B = d.A.shifted(dx, dy), d.B.shifted(dx, dy)
		g.dims = append(g.dims, d)
	}
}

// crowded is a part with more sizes than a sheet takes: the views are shrunk
// as a whole, with what is written on them.
func (g *page) crowded(vs []placedView) {
	at, whole := laid(vs)
	f := min(1, (g.free.x1-g.free.x0)/(whole.x1-whole.x0), (g.free.y1-g.free.y0)/(whole.y1-whole.y0))
	g.noScale = true
	for i, v := range vs {
		for _, list := range [...]Shapes{v.lines, v.notes} {
			g.shapes = append(g.shapes, list.shifted(at[i].X-whole.x0, at[i].Y-whole.y0).scaled(f).shifted(g.free.x0, g.free.y0)...)
		}
	}
	g.scale *= f
}

// scaled is the list made smaller or larger, types and all.
func (g Shapes) scaled(f float64) Shapes {
	all := g.shifted(0, 0)
	for i, s := range all {
		switch s := s.(type) {
		case Lines:
			for j, l := range s.Segments {
				s.Segments[j] = Segment{Point{f * l.A.X, f * l.A.Y}, Point{f * l.B.X, f * l.B.Y}}
			}
		case Path:
			for _, l := range s.Loops {
				for k, q := range l {
					l[k] = Point{f * q.X, f * q.Y}
				}
			}
		case Circle:
			s.X, s.Y, s.R = f*s.X, f*s.Y, f*s.R
			all[i] = s
		case Arc:
			s.X, s.Y, s.R = f*s.X, f*s.Y, f*s.R
			all[i] = s
		case Text:
			s.X, s.Y, s.Size = f*s.X, f*s.Y, f*s.Size
			all[i] = s
		case Group:
			s.Shapes = s.Shapes.scaled(f)
			all[i] = s
		}
	}
	return all
}

// finish frames the page, fills in its title block and makes a drawing of it.
func (g *page) finish(n, of int, opt SheetOptions) *Drawing {
	d := &Drawing{ID: opt.ID, Class: "drawing part-sheet " + paperClass(g.format, g.w > g.h), Width: g.w, Height: g.h, PxPerUnit: 96 / 25.4}
	if n > 1 {
		d.ID += "-" + itoa(n)
	}
	var edge Shapes
	edge.add(edgesOf("frame", [][]Point{corners(g.frame)}))
	g.fill.sheet = itoa(n) + " / " + itoa(of)
	g.fill.scale = scaleText(g.scale)
	if g.noScale {
		g.fill.scale = "not to scale"
	}
	g.fill.format = g.format.Name
	edge = append(edge, g.fill.draw(g.frame, opt)...)
	if !g.noScale {
		edge = append(edge, checkBar(g.frame, opt)...)
	}
	d.Shapes = append(Shapes{Group{Class: "plate", Shapes: edge}}, g.shapes...)
	d.Title = g.label + ", sheet " + itoa(n) + " of " + itoa(of)
	d.Desc = strings.Join(append([]string{"Scale " + g.fill.scale + ", " + unitWords(opt.Units) + "."}, g.desc...), " ")
	key := ""
	if g.part != nil {
		key = g.part.Key
	}
	d.Paper = &Sheet{Format: g.format, Scale: g.scale, Part: key, Label: g.label, Frame: [4]float64{g.frame.x0, g.frame.y0, g.frame.x1, g.frame.y1},
		Dimensions: g.dims, Number: n, Of: of}
	return d
}

// paperClass tells the stylesheet on what a sheet is to be printed.
func paperClass(f Format, across bool) string {
	c := "paper-" + strings.ToLower(f.Name)
	if across {
		c += "-across"
	}
	return c
}

// scaleText writes a scale as ISO 5455 has it: "2 : 1".
func scaleText(k float64) string {
	if k >= 1 {
		return whole(k) + " : 1"
	}
	return "1 : " + whole(1/k)
}

func whole(v float64) string { return itoa(int(math.Round(v))) }
