package drawing

import (
	"math"
	"slices"
	"strings"

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

// faceSizes places the sizes on the face: lengths from the left end below it,
// widths from the front edge to its right, pockets above and to the left.
func (v *view) faceSizes(p *part.Part) {
	f, k, w := p.Flat, v.k, v.words
	var across_, up_ []mark
	whole := func(s part.Size, to float64, side side) {
		if !(size(s) > 0) || f.Outline && !named(s) {
			return
		}
		m := mark{size: s, text: w.size("", s), side: side, a: 0, b: to}
		if side == rightward {
			m.fa, m.fb = k*size(f.Length), k*size(f.Length)
		}
		if f.Outline && s.Name == "" { // the casting as it is
			m.text = w.bracketed("", s.Nominal)
		}
		if side == below {
			across_ = append(across_, m)
		} else {
			up_ = append(up_, m)
		}
	}
	whole(f.Length, k*size(f.Length), below)
	whole(f.Width, -k*size(f.Width), rightward)
	type place_ struct{ at, size float64 }
	var xs, ys []place_
	for _, x := range f.Features {
		px, py := k*place(x.X), -k*place(x.Y)
		ra := k*across(x)/2 + 1.5
		if !round(x) {
			ra = 0
		}
		if x.X.Nominal != 0 && !slices.Contains(xs, place_{px, x.X.Upper - x.X.Lower}) {
			xs = append(xs, place_{px, x.X.Upper - x.X.Lower})
			from := py + ra
			if !round(x) {
				from = v.ends(x).y
			}
			across_ = append(across_, mark{size: x.X, text: w.size("", x.X), side: below, a: 0, b: px, fb: from})
		}
		if x.Y.Nominal != 0 && !slices.Contains(ys, place_{py, x.Y.Upper - x.Y.Lower}) {
			ys = append(ys, place_{py, x.Y.Upper - x.Y.Lower})
			far := px + ra
			if !round(x) {
				far = v.ends(x).right
			}
			up_ = append(up_, mark{size: x.Y, text: w.size("", x.Y), side: rightward, a: 0, b: py, fa: k * size(f.Length), fb: far})
		}
		if round(x) {
			continue
		}
		b, e := v.cutout(x), v.ends(x)
		if size(x.Length) > 0 && !(x.Edge && b.x1-b.x0 > k*size(f.Length)-same) {
			across_ = once(across_, mark{size: x.Length, text: w.size("", x.Length), side: above_, a: b.x0, b: b.x1, fa: e.top, fb: e.top})
		}
		if size(x.Width) > 0 && !(x.Edge && b.y1-b.y0 > k*size(f.Width)-same) { // from edge to edge
			up_ = once(up_, mark{size: x.Width, text: w.size("", x.Width), side: leftward, a: b.y0, b: b.y1, fa: e.left, fb: e.left})
		}
	}
	v.all(across_)
	v.all(up_)
	v.holeNotes(f)
}

// once adds a mark unless one says the same in the same place.
func once(all []mark, m mark) []mark {
	if slices.ContainsFunc(all, func(o mark) bool {
		return o.side == m.side && o.text == m.text && math.Abs(o.a-m.a) < same && math.Abs(o.b-m.b) < same
	}) {
		return all
	}
	return append(all, m)
}

// tips are where the outline of a cutout can be taken hold of: the corners of a
// square one; of a slot the ends of its straight sides and of its rounds.
type tips struct{ left, right, top, y float64 }

func (v *view) ends(x part.Feature) tips {
	b := v.cutout(x)
	e := tips{b.x0, b.x1, b.y0, b.y1}
	if x.Kind != part.Slot {
		return e
	}
	if r := (b.y1 - b.y0) / 2; b.x1-b.x0 >= b.y1-b.y0 {
		return tips{b.x0 + r, b.x1 - r, (b.y0 + b.y1) / 2, (b.y0 + b.y1) / 2}
	}
	r := (b.x1 - b.x0) / 2
	return tips{b.x0 + r, b.x0 + r, b.y0 + r, b.y1 - r}
}

// holeNotes writes what each sort of hole is, beside an arrow to one of them.
func (v *view) holeNotes(f *part.Flat) {
	type sort struct {
		text string
		at   []part.Feature
	}
	var sorts []sort
	for _, x := range f.Features {
		t := v.feature(f, x)
		if t == "" {
			continue
		}
		i := slices.IndexFunc(sorts, func(s sort) bool { return s.text == t })
		if i < 0 {
			sorts = append(sorts, sort{text: t})
			i = len(sorts) - 1
		}
		sorts[i].at = append(sorts[i].at, x)
	}
	for _, s := range sorts {
		x := s.at[0]
		if round(x) {
			v.pointerTo(Point{v.k * place(x.X), -v.k * place(x.Y)}, v.k*minor(x)/2, count(len(s.at))+s.text, above_, below)
			continue
		}
		b := v.cutout(x)
		p := Point{b.x1 - min(2, (b.x1-b.x0)/4), b.y0}
		v.pointer(p, count(len(s.at))+s.text, above_, below)
	}
}

// feature is what stands beside the arrow to a feature; "" where its sizes say it.
func (v *view) feature(f *part.Flat, x part.Feature) string {
	w := v.words
	if strings.EqualFold(x.Label, string(x.Kind)) {
		x.Label = ""
	}
	depth := " through"
	if size(x.Depth) > 0 {
		depth = " × " + w.size("", x.Depth) + " deep"
		if x.Behind {
			depth += " from behind"
		}
	}
	switch x.Kind {
	case part.Hole:
		if x.Thread != "" {
			return x.Thread + depth + label(x.Label)
		}
		return w.size(diaSign, x.Dia) + depth + label(x.Label)
	case part.Dimple:
		return "dimple " + w.size(diaSign, x.Dia) + depth + label(x.Label)
	case part.Oil:
		return "oil groove" + depth + label(x.Label)
	}
	deep := ""
	if bevelled(f) && !through(f, x) { // no section shows it
		deep = w.size("", x.Depth) + " deep"
	}
	name := string(x.Kind)
	if x.Kind == part.Slot && x.Label != "" && !strings.Contains(strings.ToLower(x.Label), name) {
		x.Label = name + label(x.Label)
	}
	switch {
	case x.Label == "":
		return deep
	case deep == "":
		return inLine(cut(x.Label))
	}
	return inLine(cut(x.Label)) + ", " + deep
}

// bevelled tells whether the long edges of a block lean, as those of a gib strip.
func bevelled(f *part.Flat) bool { return f.Angle > 0 && f.Angle < 90 }

// cutMarks show on the face where the block is cut, and that it is seen from
// its back edge (ISO 128-3).
func (v *view) cutMarks(f *part.Flat, at float64) {
	y := -v.k * at
	l := v.k * size(f.Length)
	for _, e := range [...]struct{ x, sign float64 }{{0, -1}, {l, 1}} {
		for out := 2.0; ; out += 1.5 { // clear of what is written there
			from := Point{e.x + out*e.sign, y}
			end := Point{from.X + 4*e.sign, y}
			tail := Point{end.X, y - 5}
			mark := Text{Class: "view-name", X: end.X + 1.9*e.sign, Y: y - 1.6, Size: dimSize, Text: "A"}
			x0, x1, y0, y1 := mark.Box()
			if out < 100 && !(v.taken.clear(box{x0, x1, y0, y1}) && v.taken.passes(Segment{from, end}) && v.taken.passes(Segment{end, tail})) {
				continue
			}
			v.lines.add(Lines{"ln-visible", []Segment{{from, end}}}, Lines{"ln-thin", []Segment{{end, tail}}}, arrow(end, tail), mark)
			v.take(mark, []Segment{{from, end}, {end, tail}})
			break
		}
	}
	v.lines.line("ln-centre", -2, y, l+2, y)
}

// sectionView is the block cut along its length, seen from the back edge, so
// that its face lies at the bottom.
func sectionView(p *part.Part, k float64, w *words, cuts []part.Feature) *view {
	f := p.Flat
	v := &view{k: k, words: w}
	l, t := k*size(f.Length), k*size(f.Thickness)
	v.covers(0, l, -t, 0)
	var g region
	g.add(box{0, l, -t, 0})
	depth := func(x part.Feature) float64 {
		if d := k * size(x.Depth); d > 0 {
			return min(d, t)
		}
		return t
	}
	area := func(x part.Feature) box {
		b := v.cutout(x)
		if round(x) {
			ra := k * minor(x) / 2
			b.x0, b.x1 = k*place(x.X)-ra, k*place(x.X)+ra
		}
		b.y0, b.y1 = -depth(x), 0
		if x.Behind {
			b.y0, b.y1 = -t, depth(x)-t
		}
		return b
	}
	for _, x := range cuts {
		g.cut(area(x))
	}
	grid := g.grid()
	loops := grid.loops()
	v.lines.add(Path{Class: "section", Loops: loops}, hatchWithin(loops, rising, 2.2))
	thick, old := Lines{Class: "ln-visible"}, Lines{Class: v.edgeClass(p)}
	for _, s := range edgesOf("", loops).Segments {
		m := Point{(s.A.X + s.B.X) / 2, (s.A.Y + s.B.Y) / 2}
		switch {
		case f.Outline && m.X > l-same && math.Abs(s.A.X-s.B.X) < same:
			v.end(f, s.A, s.B)
		case m.X < same || m.X > l-same || m.Y > -same || m.Y < same-t:
			old.Segments = append(old.Segments, s)
		default:
			thick.Segments = append(thick.Segments, s)
		}
	}
	v.lines.add(thick, old)
	var marks []mark
	for _, x := range cuts {
		b := area(x)
		mouth, floor, out := 0.0, b.y0, 2.0
		if x.Behind {
			mouth, floor, out = -t, b.y1, -2
		}
		edge := Lines{"ln-visible", []Segment{{Point{b.x0, mouth}, Point{b.x1, mouth}}}} // behind the cut
		if p.Altered && !round(x) {
			edge.Class = "ln-cut"
		}
		if !p.Altered || !round(x) {
			v.lines.add(edge)
		}
		if far := -t - mouth; through(f, x) && !p.Altered {
			v.lines.line("ln-visible", b.x0, far, b.x1, far)
		}
		if round(x) {
			c := k * place(x.X)
			v.lines.add(Lines{"ln-centre", []Segment{{Point{c, floor - out}, Point{c, mouth + out}}}})
			if m := k * major(x) / 2; m > 0 {
				v.lines.add(Lines{"ln-thin", []Segment{{Point{c - m, floor}, Point{c - m, mouth}}, {Point{c + m, floor}, Point{c + m, mouth}}}})
			}
			if x.Kind == part.Hole && depth(x) < t-same { // the drill's point
				tip := floor - math.Copysign((b.x1-b.x0)*0.29, out)
				v.lines.add(Path{Class: "ln-visible", Open: true, Loops: [][]Point{{{b.x0, floor}, {c, min(max(tip, -t), 0)}, {b.x1, floor}}}})
			}
			continue
		}
		if size(x.Depth) > 0 && x.Kind != part.Oil {
			marks = append(marks, mark{size: x.Depth, text: w.size("", x.Depth), side: leftward, a: floor, b: mouth, fa: b.x0, fb: 0})
		}
		if size(x.Left) > 0 {
			marks = append(marks, mark{size: x.Left, text: w.size("", x.Left) + " left", side: rightward, a: -t - mouth, b: floor, fa: l, fb: b.x1})
		}
	}
	if size(f.Thickness) > 0 && !(f.Outline && !named(f.Thickness)) {
		text := w.size("", f.Thickness)
		if f.Outline && f.Thickness.Name == "" {
			text = w.bracketed("", f.Thickness.Nominal)
		}
		marks = append(marks, mark{size: f.Thickness, text: text, side: rightward, a: -t, b: 0, fa: l, fb: l})
	}
	v.all(marks)
	return v
}

// edgeView is the block from its back edge, its face at the bottom.
func edgeView(p *part.Part, k float64, w *words) *view {
	f := p.Flat
	v := &view{k: k, words: w}
	l, t := k*size(f.Length), k*size(f.Thickness)
	v.covers(0, l, -t, 0)
	thin := t
	if f.Taper > 0 {
		thin = max(0, t-l/f.Taper)
	}
	edges := edgesOf(v.edgeClass(p), [][]Point{{{0, -t}, {l, -thin}, {l, 0}, {0, 0}}})
	if f.Outline {
		const right = 1
		end := edges.Segments[right]
		edges.Segments = slices.Delete(edges.Segments, right, right+1)
		v.end(f, end.A, end.B)
	}
	v.lines.add(edges)
	if f.Taper > 0 {
		v.pointer(Point{l / 2, -(t + thin) / 2}, "taper 1 : "+w.units.Text(f.Taper*w.units.Scale, 1), above_)
	}
	v.all([]mark{{size: f.Thickness, text: w.size("", f.Thickness), side: leftward, a: -t, b: 0, fa: 0, fb: 0}})
	return v
}

// gibEnd is a strip from its left end: its edges at their angle.
func gibEnd(p *part.Part, k float64, w *words) *view {
	f := p.Flat
	v := &view{k: k, words: w}
	wide, t := k*size(f.Width), k*size(f.Thickness)
	shear := t / math.Tan(f.Angle*math.Pi/180)
	v.covers(0, t, -wide, shear)
	v.lines.add(edgesOf(v.edgeClass(p), [][]Point{{{t, -wide}, {t, 0}, {0, shear}, {0, shear - wide}}}))
	v.all([]mark{{size: f.Thickness, text: w.size("", f.Thickness), side: above_, a: 0, b: t, fa: shear - wide, fb: -wide}})
	// The angle is between the back and the lower edge, which is drawn on for it.
	r := t + 6
	arc := Arc{"dim", 0, shear, r, 90 - f.Angle, 90}
	from, mid := arc.At(90-f.Angle), arc.At(90-f.Angle*0.7)
	v.notes.add(arc, Lines{"dim", []Segment{{Point{t, 0}, from}}})
	v.taken.lines = append(v.taken.lines, Segment{Point{t, 0}, from})
	v.pointer(mid, w.size("", part.Size{Nominal: f.Angle, Angle: true}), rightward, below)
	return v
}
