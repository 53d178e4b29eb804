package drawing

import (
	"math"
	"slices"

	"fettle/plan/part"
)

// sectionView is the block cut along its length, seen from the back edge, so
// that its face lies at the bottom.
func sectionView(p *part.Part, k float64, w *words, cuts []part.Feature) *view {
	f := p.Flat
	v := &view{k: k, words: w}
	l, t := k*size(f.Length), k*size(f.Thickness)
	v.covers(0, l, -t, 0)
	v.cutFace(p, cuts)
	var marks []mark
	for _, x := range cuts {
		v.behind(p, x)
		if round(x) {
			v.cutHole(p, x)
			continue
		}
		mouth, floor, _ := v.levels(p, x)
		b := v.cutBox(p, x)
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

// cutDepth is how deep a feature goes on the paper: all through where it has no depth.
func (v *view) cutDepth(p *part.Part, x part.Feature) float64 {
	t := v.k * size(p.Flat.Thickness)
	if d := v.k * size(x.Depth); d > 0 {
		return min(d, t)
	}
	return t
}

// cutBox is what a feature takes out of the section.
func (v *view) cutBox(p *part.Part, x part.Feature) box {
	t := v.k * size(p.Flat.Thickness)
	b := v.cutout(x)
	if round(x) {
		ra := v.k * minor(x) / 2
		b.x0, b.x1 = v.k*place(x.X)-ra, v.k*place(x.X)+ra
	}
	b.y0, b.y1 = -v.cutDepth(p, x), 0
	if x.Behind {
		b.y0, b.y1 = -t, v.cutDepth(p, x)-t
	}
	return b
}

// levels are the face that a feature begins at, its floor, and which way, and how
// far, its middle line stands out of the face.
func (v *view) levels(p *part.Part, x part.Feature) (mouth, floor, out float64) {
	b := v.cutBox(p, x)
	if x.Behind {
		return -v.k * size(p.Flat.Thickness), b.y1, -2
	}
	return 0, b.y0, 2
}

// cutFace hatches what is left, and draws its edges: those of the block are old
// where it is only altered.
func (v *view) cutFace(p *part.Part, cuts []part.Feature) {
	f := p.Flat
	l, t := v.k*size(f.Length), v.k*size(f.Thickness)
	var g region
	g.add(box{0, l, -t, 0})
	for _, x := range cuts {
		g.cut(v.cutBox(p, x))
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
}

// behind draws the edges of a feature behind the cut.
func (v *view) behind(p *part.Part, x part.Feature) {
	b := v.cutBox(p, x)
	mouth, _, _ := v.levels(p, x)
	edge := Lines{"ln-visible", []Segment{{Point{b.x0, mouth}, Point{b.x1, mouth}}}}
	if p.Altered && !round(x) {
		edge.Class = "ln-cut"
	}
	if !p.Altered || !round(x) {
		v.lines.add(edge)
	}
	if far := -v.k*size(p.Flat.Thickness) - mouth; through(p.Flat, x) && !p.Altered {
		v.lines.line("ln-visible", b.x0, far, b.x1, far)
	}
}

// cutHole draws a hole's middle, its thread, and the drill's point.
func (v *view) cutHole(p *part.Part, x part.Feature) {
	k, t := v.k, v.k*size(p.Flat.Thickness)
	b, c := v.cutBox(p, x), v.k*place(x.X)
	mouth, floor, out := v.levels(p, x)
	v.lines.add(Lines{"ln-centre", []Segment{{Point{c, floor - out}, Point{c, mouth + out}}}})
	if m := k * major(x) / 2; m > 0 {
		v.lines.add(Lines{"ln-thin", []Segment{{Point{c - m, floor}, Point{c - m, mouth}}, {Point{c + m, floor}, Point{c + m, mouth}}}})
	}
	if x.Kind == part.Hole && v.cutDepth(p, x) < t-same {
		tip := floor - math.Copysign((b.x1-b.x0)*0.29, out)
		v.lines.add(Path{Class: "ln-visible", Open: true, Loops: [][]Point{{{b.x0, floor}, {c, min(max(tip, -t), 0)}, {b.x1, floor}}}})
	}
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
