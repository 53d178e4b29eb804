package drawing

import (
	"math"
	"slices"

	"fettle/plan/part"
	"fettle/plan/thread"
)

// flatViews are the face of a block, a section where something is cut into it,
// else its edge, and its end where that is not square.
func flatViews(p *part.Part, k float64, w *words, third bool) []placedView {
	f := p.Flat
	cuts, at := cutLine(f)
	if bevelled(f) {
		cuts = nil
	}
	face := faceView(p, k, w, cuts, at)
	views := []placedView{{view: face}}
	row := 1 // ISO 5456-2: in first angle the view from above stands below
	if third {
		row = -1
	}
	if bevelled(f) {
		column := 1
		if third {
			column = -1
		}
		views = append(views, placedView{view: gibEnd(p, k, w), column: column})
		if f.Taper > 0 {
			views = append(views, placedView{view: edgeView(p, k, w), row: row})
		}
		return views
	}
	if len(cuts) > 0 {
		section := sectionView(p, k, w, cuts)
		section.name = "A–A"
		return append(views, placedView{view: section, row: row})
	}
	return append(views, placedView{view: edgeView(p, k, w), row: row})
}

// cutLine is how far from the front edge the block is cut to show what is in
// it: the middle of a pocket or slot, else of a hole that does not go through.
func cutLine(f *part.Flat) ([]part.Feature, float64) {
	for _, want := range [...]func(part.Feature) bool{
		func(x part.Feature) bool { return x.Kind == part.Pocket || x.Kind == part.Slot },
		func(x part.Feature) bool { return x.Kind == part.Oil },
		func(x part.Feature) bool { return x.Kind == part.Hole && size(x.Depth) > 0 },
	} {
		if i := slices.IndexFunc(f.Features, want); i >= 0 {
			y := middle(f.Features[i])
			var cut []part.Feature
			for _, x := range f.Features {
				if m, half := middle(x), across(x)/2; math.Abs(m-y) < half-same {
					cut = append(cut, x)
				}
			}
			return cut, y
		}
	}
	return nil, 0
}

// middle is how far the middle of a feature lies from the front edge.
func middle(x part.Feature) float64 {
	if round(x) {
		return place(x.Y)
	}
	return place(x.Y) + size(x.Width)/2
}

func across(x part.Feature) float64 {
	if round(x) {
		return max(size(x.Dia), major(x))
	}
	return size(x.Width)
}

// round tells whether a feature is a hole of any sort.
func round(x part.Feature) bool { return x.Kind == part.Hole || x.Kind == part.Dimple }

// major is the larger diameter of a tapped hole; 0 where it is plain.
func major(x part.Feature) float64 {
	if x.Thread == "" {
		return 0
	}
	if t, err := thread.Parse(x.Thread); err == nil && t.Dia > 0 {
		return min(t.Dia, largestSize)
	}
	return size(x.Dia) * 1.18
}

// minor is the diameter of a tapped hole's bore; that of a plain hole itself.
func minor(x part.Feature) float64 {
	if x.Thread == "" {
		return size(x.Dia)
	}
	m := major(x)
	if d := size(x.Dia); d > 0 && d < m {
		return d
	}
	if t, err := thread.Parse(x.Thread); err == nil {
		if b, err := t.Basic(); err == nil && b.Bore > 0 {
			return min(b.Bore, m)
		}
	}
	return m / 1.18
}

// edges is the class of a block's own edges.
func (v *view) edgeClass(p *part.Part) string {
	if p.Altered || p.Flat.Outline {
		return "ln-thin"
	}
	return "ln-visible"
}

// faceView looks onto the face; the front edge is at the bottom, at y = 0.
func faceView(p *part.Part, k float64, w *words, cuts []part.Feature, at float64) *view {
	f := p.Flat
	v := &view{k: k, words: w}
	l, wide := k*size(f.Length), k*size(f.Width)
	v.covers(0, l, -wide, 0)
	class := v.edgeClass(p)
	shear := 0.0
	if bevelled(f) {
		shear = k * size(f.Thickness) / math.Tan(f.Angle*math.Pi/180)
		v.covers(0, l, -wide, shear)
	}
	if f.Outline {
		v.broken(0, l, -wide, 0, class, frontOpen(f))
		v.end(f, Point{l, -wide}, Point{l, 0})
	} else {
		var g region
		g.add(box{0, l, -wide, 0})
		for _, x := range f.Features {
			if x.Edge && !round(x) && through(f, x) {
				g.cut(v.cutout(x))
			}
		}
		v.lines.add(edgesOf(class, g.grid().loops()))
		if shear > 0 {
			v.lines.add(Lines{class, []Segment{{Point{0, 0}, Point{0, shear}}, {Point{l, 0}, Point{l, shear}}, {Point{0, shear}, Point{l, shear}}}},
				Lines{"ln-hidden", []Segment{{Point{0, shear - wide}, Point{l, shear - wide}}}})
		}
	}
	for _, x := range f.Features {
		v.onFace(p, x)
	}
	v.faceSizes(p)
	if len(cuts) > 0 {
		v.cutMarks(f, at)
	}
	return v
}

// through tells whether a feature goes through the block.
func through(f *part.Flat, x part.Feature) bool {
	return size(x.Depth) == 0 || size(x.Depth) >= size(f.Thickness)-same
}

// frontOpen are the lengths of the front edge that are cut away.
func frontOpen(f *part.Flat) []span {
	var open []span
	for _, x := range f.Features {
		if x.Edge && !round(x) && place(x.Y) < 0.01 {
			open = append(open, span{place(x.X), place(x.X) + size(x.Length)})
		}
	}
	return open
}

// cutout is a feature with corners, on the face.
func (v *view) cutout(x part.Feature) box {
	k := v.k
	return box{k * place(x.X), k * (place(x.X) + size(x.Length)), -k * (place(x.Y) + size(x.Width)), -k * place(x.Y)}
}

// edgesOf are outlines as lines.
func edgesOf(class string, loops [][]Point) Lines {
	g := Lines{Class: class}
	for _, l := range loops {
		for i, q := range l {
			g.Segments = append(g.Segments, Segment{q, l[(i+1)%len(l)]})
		}
	}
	return g
}

// broken is the neighbourhood of what is cut in a casting: its front and left
// edges, and a line with a break where the casting goes on behind (ISO 128-2).
func (v *view) broken(x0, x1, y0, y1 float64, class string, open []span) {
	from := x0
	var front Lines
	front.Class = class
	slices.SortFunc(open, func(a, b span) int {
		if a.from < b.from {
			return -1
		}
		return 1
	})
	for _, o := range open {
		o = span{max(v.k*o.from, from), min(v.k*o.to, x1)}
		if o.to <= o.from {
			continue
		}
		if o.from > from {
			front.Segments = append(front.Segments, Segment{Point{from, y1}, Point{o.from, y1}})
		}
		from = o.to
	}
	if from < x1 {
		front.Segments = append(front.Segments, Segment{Point{from, y1}, Point{x1, y1}})
	}
	front.Segments = append(front.Segments, Segment{Point{x0, y1}, Point{x0, y0}}) // sizes are from the front and the left edge
	v.lines.add(front, zigzag(Point{x0, y0}, Point{x1, y0}))
}

// end draws the right end of a neighbourhood: a new face where it is cut to a
// length, else a break.
func (v *view) end(f *part.Flat, a, b Point) {
	if f.Length.Name != "" {
		v.lines.line("ln-visible", a.X, a.Y, b.X, b.Y)
		return
	}
	v.lines.add(zigzag(a, b))
}

// zigzag is a thin line with a break in its middle.
func zigzag(a, b Point) Path {
	l := math.Hypot(b.X-a.X, b.Y-a.Y)
	if l < 8 {
		return Path{Class: "ln-thin", Open: true, Loops: [][]Point{{a, b}}}
	}
	ux, uy := (b.X-a.X)/l, (b.Y-a.Y)/l
	at := func(along, off float64) Point {
		return Point{a.X + along*ux - off*uy, a.Y + along*uy + off*ux}
	}
	m := l / 2
	return Path{Class: "ln-thin", Open: true, Loops: [][]Point{{a, at(m-1.5, 0), at(m-0.6, 1.6), at(m+0.6, -1.6), at(m+1.5, 0), b}}}
}

// onFace draws a feature on the face.
func (v *view) onFace(p *part.Part, x part.Feature) {
	k := v.k
	cx, cy := k*place(x.X), -k*place(x.Y)
	switch x.Kind {
	case part.Hole, part.Dimple:
		ra := k * across(x) / 2
		v.lines.add(Circle{seen(x), cx, cy, k * minor(x) / 2})
		if x.Thread != "" {
			v.lines.add(threadArc(cx, cy, ra))
		}
		v.lines.add(Lines{"ln-centre", []Segment{{Point{cx - ra - 1.5, cy}, Point{cx + ra + 1.5, cy}}, {Point{cx, cy - ra - 1.5}, Point{cx, cy + ra + 1.5}}}})
		v.holes = append(v.holes, box{cx - ra, cx + ra, cy - ra, cy + ra})
	case part.Slot:
		b := v.cutout(x)
		v.lines.add(obround(b, seen(x))...)
		v.lines.add(Lines{"ln-centre", []Segment{{Point{b.x0 - 1.5, (b.y0 + b.y1) / 2}, Point{b.x1 + 1.5, (b.y0 + b.y1) / 2}}}})
	case part.Oil:
		v.lines.add(edgesOf("ln-thin", [][]Point{corners(v.cutout(x))}))
	default:
		b := v.cutout(x)
		if p.Altered && x.Edge { // the edge as it was
			v.lines.add(Lines{"ln-cut", []Segment{{Point{b.x0, b.y1}, Point{b.x1, b.y1}}}})
		}
		loop := corners(b)
		edges := Lines{Class: seen(x)}
		f := p.Flat
		outer := box{0, k * size(f.Length), -k * size(f.Width), 0}
		for i, q := range loop {
			n := loop[(i+1)%4]
			m := Point{(q.X + n.X) / 2, (q.Y + n.Y) / 2}
			if x.Edge && (m.X < outer.x0+0.01 || m.X > outer.x1-0.01 || m.Y < outer.y0+0.01 || m.Y > outer.y1-0.01) {
				continue
			}
			edges.Segments = append(edges.Segments, Segment{q, n})
		}
		v.lines.add(edges)
	}
}

// seen is the class of a feature's edges on the face: hidden where it is cut from behind.
func seen(x part.Feature) string {
	if x.Behind && size(x.Depth) > 0 {
		return "ln-hidden"
	}
	return "ln-visible"
}

func corners(b box) []Point { return []Point{{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}} }

// obround is a slot with round ends.
func obround(b box, class string) []Shape {
	r := min(b.x1-b.x0, b.y1-b.y0) / 2
	if b.x1-b.x0 >= b.y1-b.y0 {
		y := (b.y0 + b.y1) / 2
		return []Shape{Lines{class, []Segment{{Point{b.x0 + r, b.y0}, Point{b.x1 - r, b.y0}}, {Point{b.x0 + r, b.y1}, Point{b.x1 - r, b.y1}}}},
			Arc{class, b.x0 + r, y, r, 90, 270}, Arc{class, b.x1 - r, y, r, -90, 90}}
	}
	x := (b.x0 + b.x1) / 2
	return []Shape{Lines{class, []Segment{{Point{b.x0, b.y0 + r}, Point{b.x0, b.y1 - r}}, {Point{b.x1, b.y0 + r}, Point{b.x1, b.y1 - r}}}},
		Arc{class, x, b.y0 + r, r, 0, 180}, Arc{class, x, b.y1 - r, r, 180, 360}}
}
