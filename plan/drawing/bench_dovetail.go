package drawing

import (
	"math"

	"fettle/plan/unit"
)

// Dovetail is a dovetail with a roller in each corner. Lengths are in mm, Angle
// is from the flat to the flank in rad.
type Dovetail struct {
	Female  bool
	Angle   float64
	Corner  float64   // width at the flat where the rollers lie, to the sharp corners
	Depth   float64   // 0 where it is not known: the picture then shows enough
	Rollers []float64 // diameters; the last is the one that is measured over or between
	Reading float64   // over or between the last
}

// dovetailOf draws a dovetail over its rollers.
func dovetailOf(b benchFigures) (*Drawing, string) {
	d := Dovetail{Angle: b.value("angle"), Depth: b.value("depth")}
	var width, reading []string
	switch b.Method.Key {
	case "dovetail_male":
		width, reading = []string{"narrow", "narrow_width"}, []string{"over_rollers", "over"}
		d.Rollers = []float64{b.value("roller")}
	case "dovetail_female":
		width, reading = []string{"wide", "wide_width"}, []string{"between_rollers", "between"}
		d.Rollers, d.Female = []float64{b.value("roller")}, true
	case "dovetail_angle":
		width, reading = []string{"narrow_width", "wide_width"}, []string{"large_reading"}
		d.Rollers, d.Female = []float64{b.value("small_roller"), b.value("large_roller")}, b.Typed["kind"] == "female"
	default:
		return nil, ""
	}
	var known, read bool
	d.Corner, known = b.first(width...)
	d.Reading, read = b.first(reading...)
	if !known || !read || !d.drawable() {
		return nil, ""
	}
	caption := "To scale. Corners are drawn sharp; on a real dovetail they are relieved, and the widths are to where the lines meet."
	if d.Depth == 0 {
		caption += " The height is not given, and is drawn as it may be."
	}
	return d.Draw(), caption
}

// drawable refuses what is no dovetail, or would not be seen.
func (d Dovetail) drawable() bool {
	r := d.roller()
	return d.Angle > 0.3 && d.Angle < 1.45 && d.Corner > 0 && r > 0 && d.Reading > 0 &&
		d.Corner < 60*r && r < 20*d.Corner && d.Depth < 4*d.Corner+40*r
}

func (d Dovetail) roller() float64 { return d.Rollers[len(d.Rollers)-1] }

// fromCorner is how far from the corner a roller's middle lies, along the flat.
func (d Dovetail) fromCorner(roller float64) float64 { return roller / 2 / math.Tan(d.Angle/2) }

// Draw draws it in section, with the reading, the widths and the rollers.
func (d Dovetail) Draw() *Drawing {
	kind, word := "Male dovetail over rollers", "over"
	if d.Female {
		kind, word = "Female dovetail between rollers", "between"
	}
	out := benchDrawing(kind)
	depth := d.Depth
	if depth == 0 {
		depth = 1.15 * d.roller() / 2 * (1 + math.Cos(d.Angle))
	}
	lean := depth / math.Tan(d.Angle)
	edge := d.Corner + 2*lean // the width across the edges
	widest := max(edge, d.Corner+2*d.fromCorner(d.roller())+d.roller())
	if d.Female {
		edge = d.Corner - 2*lean
		widest = d.Corner
	}
	margin := 0.5 * d.roller()
	scale := 280 / (widest + 4*margin)
	base := max(0.45*depth, 28/scale)
	const middle = 170.0
	rows := 2.0
	top := 6 + rows*24
	flat := top + max(depth, d.roller())*scale
	at := func(x, up float64) Point { return Point{middle + x*scale, flat - up*scale} }
	end := (widest/2 + 1.6*margin)
	var g Shapes
	if d.Female {
		body := []Point{at(-end, depth), at(-edge/2, depth), at(-d.Corner/2, 0), at(d.Corner/2, 0), at(edge/2, depth), at(end, depth), at(end, -base), at(-end, -base)}
		d.body(&g, body, len(body)-2)
	} else {
		body := []Point{at(-end, 0), at(-d.Corner/2, 0), at(-edge/2, depth), at(edge/2, depth), at(d.Corner/2, 0), at(end, 0), at(end, -base), at(-end, -base)}
		d.body(&g, body, len(body)-2)
	}
	out.Height = flat + base*scale + 14
	side := 1.0
	if d.Female {
		side = -1
	}
	for i, roller := range d.Rollers {
		class := "fill-new"
		if i < len(d.Rollers)-1 {
			class = "ln-hidden"
		}
		x := d.Corner/2 + side*d.fromCorner(roller)
		for _, way := range []float64{-1, 1} {
			c := at(way*x, roller/2)
			g.add(Circle{class, c.X, c.Y, roller / 2 * scale})
			if class == "fill-new" {
				cross := roller/2*scale + 3
				g.line("ln-centre", c.X-cross, c.Y, c.X+cross, c.Y)
				g.line("ln-centre", c.X, c.Y-cross, c.X, c.Y+cross)
			}
		}
	}
	d.dimensions(&g, at, edge, depth, top)
	out.Shapes = g
	out.Desc = d.describe(word)
	return out
}

// body draws the metal; its last points, from open on, are where it goes on.
func (d Dovetail) body(g *Shapes, loop []Point, open int) {
	cutPart(g, loop, rising, 8)
	g.add(Path{Class: "ln-visible", Loops: [][]Point{loop[:open]}, Open: true})
	g.add(Path{Class: "ln-thin", Loops: [][]Point{loop[open-1 : open+1], loop[open:], {loop[len(loop)-1], loop[0]}}, Open: true})
}

func (d Dovetail) dimensions(g *Shapes, at func(x, up float64) Point, edge, depth, top float64) {
	mm := func(v float64) string { return unit.MM.Text(v, 3) }
	half, name := d.Reading/2, "M "
	touch := at(half, d.roller()/2)
	left := at(-half, d.roller()/2)
	row := top - 30
	g.line("dim", left.X, left.Y, left.X, row-4)
	g.line("dim", touch.X, touch.Y, touch.X, row-4)
	measured(g, Point{left.X, row}, Point{touch.X, row})
	middle := at(0, 0).X
	g.add(dimText(middle, row-4, name+mm(d.Reading)))
	if d.Depth > 0 && edge > 0 {
		row = top - 8
		a, b := at(-edge/2, depth), at(edge/2, depth)
		g.line("dim", a.X, a.Y-2, a.X, row-4)
		g.line("dim", b.X, b.Y-2, b.X, row-4)
		measured(g, Point{a.X, row}, Point{b.X, row})
		edgeName := "b "
		if d.Female {
			edgeName = "a "
		}
		g.add(dimText(middle, row-4, edgeName+mm(edge)))
	}
	// The width at the flat is written within the metal, just above it or below.
	up := 0.3 * depth
	cornerName := "a "
	if d.Female {
		up, cornerName = 0.18*depth, "b "
	}
	a, b := at(-d.Corner/2, 0), at(d.Corner/2, 0)
	y := at(0, up).Y
	if d.Female {
		y = at(0, 0).Y + 20
	}
	g.line("dim", a.X, a.Y, a.X, y+4)
	g.line("dim", b.X, b.Y, b.X, y+4)
	measured(g, Point{a.X, y}, Point{b.X, y})
	g.add(dimText(middle, y-4, cornerName+mm(d.Corner)))
	// The angle at the edge, where it lies within the metal; the roller's diameter on its free side.
	corner := at(-edge/2, depth)
	roller := benchText(touch.X+5, touch.Y+0.35*benchType, Start, "D "+mm(d.roller()))
	if d.Female {
		g.add(benchText(corner.X-14, corner.Y+benchRow, End, unit.Degree.With(d.Angle)))
		roller.X, roller.Anchor = touch.X-5, End
	} else {
		g.add(benchText(corner.X+16, corner.Y+benchRow, Start, unit.Degree.With(d.Angle)))
	}
	g.add(roller)
}

func (d Dovetail) describe(word string) string {
	mm := unit.Unit{Symbol: "mm", Scale: 1, Decimals: 3}.With
	s := "Rollers of " + mm(d.roller()) + " lie in the corners between the flat and the flanks, which stand at " +
		unit.Degree.With(d.Angle) + ". The reading " + word + " them is " + mm(d.Reading) + "; the width at the flat is " + mm(d.Corner) + "."
	if len(d.Rollers) > 1 {
		s += " Dashed: the small rollers, of " + mm(d.Rollers[0]) + "."
	}
	return s
}
