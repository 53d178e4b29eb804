package drawing

import (
	"math"
	"slices"

	"fettle/plan/part"
)

// roundViews are a half section from the front, or the whole of what is solid,
// and a view of an end where there is something on it that they do not show
// (ISO 128-3).
func roundViews(p *part.Part, k float64, w *words, third bool) []placedView {
	r := p.Round
	t := turned(r)
	front := frontView(p, t, k, w)
	views := []placedView{{view: front}}
	if left, needed := endNeeded(r, t); needed {
		end := endView(p, t, k, w, left)
		column := 1
		if left == third { // ISO 5456-2: in first angle the view from the left stands to the right
			column = -1
		}
		views = append(views, placedView{view: end, column: column})
	}
	return views
}

// frontView is the half section: cut above the axis, whole below it. What is
// solid is not cut.
func frontView(p *part.Part, t *turning, k float64, w *words) *view {
	v := &view{k: k, words: w}
	v.halfSection(p, t, rising)
	v.roundSizes(p, t)
	return v
}

// halfSection draws the part alone.
func (v *view) halfSection(p *part.Part, t *turning, way int) {
	r, k := p.Round, v.k
	v.covers(0, k*t.long, -k*t.most, k*t.most)
	v.old(p, t)

	edges, thin := Lines{Class: "ln-visible"}, Lines{Class: "ln-thin"}
	edge := func(s Segment) {
		if t.isOld((s.A.X+s.B.X)/2/k, -(s.A.Y+s.B.Y)/2/k) {
			thin.Segments = append(thin.Segments, s)
		} else {
			edges.Segments = append(edges.Segments, s)
		}
	}
	if !solid(r) {
		v.cutAbove(r, t, way, edge)
	} else {
		v.fresh(t, t.section(nil), true)
	}
	for _, s := range append(v.whole(t), v.ofFlange(r, t)...) {
		edge(s)
		if solid(r) {
			edge(Segment{Point{s.A.X, -s.A.Y}, Point{s.B.X, -s.B.Y}})
		}
	}
	v.lines.add(edges, thin)
	v.threads(r, t)
	v.crossHoles(r, t)
	v.flats(r, t)
	if p.Dial != nil {
		v.dialLines(p.Dial, t)
	}
	v.lines.line("ln-centre", -4, 0, k*t.long+4, 0)
	v.taken.lines = append(v.taken.lines, Segment{Point{-4, 0}, Point{k*t.long + 4, 0}})
}

// solid tells whether there is nothing in a part that a section would show.
func solid(r *part.Round) bool {
	return len(r.Left)+len(r.Right)+len(r.Cross) == 0 && !slices.ContainsFunc(r.Grooves, func(g part.Groove) bool { return g.Inside })
}

// cutAbove draws the section above the axis.
func (v *view) cutAbove(r *part.Round, t *turning, way int, edge func(Segment)) {
	k := v.k
	cut := crossCuts(r)
	loops := t.section(cut)
	face := make([][]Point, len(loops))
	for i, l := range loops {
		for j, q := range l {
			n := l[(j+1)%len(l)]
			face[i] = append(face[i], Point{k * q.X, -k * q.Y})
			if q.Y > same || n.Y > same { // the axis is no edge
				edge(Segment{Point{k * q.X, -k * q.Y}, Point{k * n.X, -k * n.Y}})
			}
		}
	}
	v.lines.add(Path{Class: "section", Loops: face})
	v.fresh(t, loops, false)
	v.lines.add(hatchWithin(face, way, 2.2))
	// Edges behind the cut: where a bore turns, from the axis up to it.
	for _, at := range t.breaks() {
		a, b := radii(t.inside, at, false), radii(t.inside, at, true)
		r := min(a, b)
		holed := slices.ContainsFunc(cut, func(c span) bool { return at > c.from-same && at < c.to+same })
		if at <= same || at >= t.long-same || holed {
			r = max(a, b)
		} else if math.Abs(a-b) < same && r > 0 && !kink(t.inside, at) {
			continue
		}
		if r > same {
			edge(Segment{Point{k * at, 0}, Point{k * at, -k * r}})
		}
	}
}

// ofFlange are the edges of a flange below the axis: it ends where it does,
// though the next step may be as high.
func (v *view) ofFlange(r *part.Round, t *turning) []Segment {
	f := r.Flange
	if f == nil || f.Step < 0 || f.Step >= len(t.steps) {
		return nil
	}
	k, high := v.k, v.k*t.radius(r, f.Step)
	at := t.steps[f.Step].span
	return []Segment{{Point{k * at.from, 0}, Point{k * at.from, high}}, {Point{k * at.to, 0}, Point{k * at.to, high}}}
}

// isOld tells whether what is at a place was there before: the wall of an old
// bore, what is within an old step, or its outer face.
func (t *turning) isOld(x, y float64) bool {
	if r := radii(t.inside, x, true); y > 0 && r > 0 && math.Abs(y-r) < 0.01 {
		for _, s := range t.bores {
			if x > s.from && x < s.to {
				return s.Old
			}
		}
	}
	for i, s := range t.steps {
		if x > s.from+same && x < s.to-same || i == 0 && x <= same || i == len(t.steps)-1 && x >= t.long-same {
			return s.Old
		}
	}
	return false
}

// whole are the edges below the axis, seen from outside.
func (v *view) whole(t *turning) []Segment {
	k := v.k
	var all []Segment
	for _, s := range t.outside {
		if s.long() > same {
			all = append(all, Segment{Point{k * s.from, k * s.r0}, Point{k * s.to, k * s.r1}})
		}
	}
	for _, at := range t.breaks() {
		a, b := radii(t.outside, at, false), radii(t.outside, at, true)
		if math.Abs(a-b) < same && !kink(t.outside, at) {
			continue
		}
		all = append(all, Segment{Point{k * at, 0}, Point{k * at, k * max(a, b)}})
	}
	return all
}

// kink tells whether an outline changes its slope.
func kink(all []stretch, at float64) bool {
	slope := func(after bool) float64 {
		for _, s := range all {
			if s.long() <= same {
				continue
			}
			if after && math.Abs(s.from-at) < same || !after && math.Abs(s.to-at) < same {
				return (s.r1 - s.r0) / s.long()
			}
		}
		return math.NaN()
	}
	a, b := slope(false), slope(true)
	return math.Abs(a-b) > same
}

// fresh tints metal that was not there, above the axis or on both its sides.
func (v *view) fresh(t *turning, loops [][]Point, whole bool) {
	for _, s := range t.steps {
		if !s.New {
			continue
		}
		var new [][]Point
		for _, l := range loops {
			if c := clipped(l, s.span); len(c) > 2 {
				under := make([]Point, len(c))
				for i, q := range c {
					c[i], under[i] = Point{v.k * q.X, -v.k * q.Y}, Point{v.k * q.X, v.k * q.Y}
				}
				new = append(new, c)
				if whole {
					slices.Reverse(under)
					new = append(new, under)
				}
			}
		}
		if len(new) > 0 {
			v.lines.add(Path{Class: "section-new", Loops: new})
		}
	}
}

// clipped is the part of an outline between two upright lines.
func clipped(loop []Point, at span) []Point {
	clip := func(loop []Point, x float64, sign float64) []Point {
		var out []Point
		for i, p := range loop {
			q := loop[(i+1)%len(loop)]
			in, next := sign*(p.X-x) >= 0, sign*(q.X-x) >= 0
			if in {
				out = append(out, p)
			}
			if in != next {
				f := (x - p.X) / (q.X - p.X)
				out = append(out, Point{x, p.Y + f*(q.Y-p.Y)})
			}
		}
		return out
	}
	return clip(clip(loop, at.from, 1), at.to, -1)
}

// old draws what an altered part was before, dashed where metal goes.
func (v *view) old(p *part.Part, t *turning) {
	if p.Round.Was == nil {
		return
	}
	was := turned(p.Round.Was)
	k := v.k
	v.covers(0, k*max(t.long, was.long), -k*max(t.most, was.most), k*max(t.most, was.most))
	// Only where it differs: its outline, between the places where either turns.
	lines := Lines{Class: "ln-cut"}
	add := func(a, b Point) {
		lines.Segments = append(lines.Segments, Segment{Point{k * a.X, k * a.Y}, Point{k * b.X, k * b.Y}})
	}
	x := distinct(append(was.breaks(), t.breaks()...))
	for _, in := range [...]bool{false, true} {
		then, now := was.outside, t.outside
		if in {
			then, now = was.inside, t.inside
		}
		for i, at := range x {
			if i+1 < len(x) {
				r0, r1 := radii(then, at, true), radii(then, x[i+1], false)
				n0, n1 := radii(now, at, true), radii(now, x[i+1], false)
				if r0+r1 > 0 && math.Abs(r0-n0)+math.Abs(r1-n1) > same {
					add(Point{at, -r0}, Point{x[i+1], -r1})
					if !in {
						add(Point{at, r0}, Point{x[i+1], r1})
					}
				}
			}
			a, b := radii(then, at, false), radii(then, at, true)
			na, nb := radii(now, at, false), radii(now, at, true)
			if math.Abs(a-b) > same && (math.Abs(a-na) > same || math.Abs(b-nb) > same) {
				lo, hi := min(a, b), max(a, b)
				if !in {
					lo = max(lo, min(na, nb)) // what is left covers the rest
					if lo < hi {
						add(Point{at, lo}, Point{at, hi})
					}
				}
				if lo < hi {
					add(Point{at, -lo}, Point{at, -hi})
				}
			}
		}
	}
	v.lines.add(lines)
}

// threads draws what stands for a thread (ISO 6410-1): a thin line at the root
// of a screw and at the major diameter of a nut, and the thread's end as an edge.
func (v *view) threads(r *part.Round, t *turning) {
	k := v.k
	var thin, end Lines
	thin.Class, end.Class = "ln-thin", "ln-visible"
	for _, s := range t.steps {
		if s.root == 0 {
			continue
		}
		a, b := k*s.from, k*s.to
		c := [2]float64{}
		for i, ch := range s.chamfered {
			if ch {
				c[i] = k * min(s.chamfer(), (size(s.Dia)-s.root)/2)
			}
		}
		y := k * s.root / 2
		for _, q := range t.outside { // not where an undercut goes deeper
			if from, to := max(k*q.from, a+c[0]), min(k*q.to, b-c[1]); to > from+same && k*min(q.r0, q.r1) > y-same {
				thin.Segments = append(thin.Segments, Segment{Point{from, -y}, Point{to, -y}}, Segment{Point{from, y}, Point{to, y}})
			}
		}
	}
	end.Segments = v.threadEnds(r, t)
	for _, s := range t.bores {
		if s.root == 0 {
			continue
		}
		y := -k * s.root / 2
		thin.Segments = append(thin.Segments, Segment{Point{k * s.from, y}, Point{k * s.to, y}})
		if inner := s.inner(); inner > same && inner < t.long-same {
			end.Segments = append(end.Segments, Segment{Point{k * inner, -k * size(s.Dia) / 2}, Point{k * inner, y}})
		}
	}
	v.lines.add(thin, end)
}

// threadEnds are the ends of outside threads at which no shoulder stands.
func (v *view) threadEnds(r *part.Round, t *turning) []Segment {
	var all []Segment
	for _, s := range t.steps {
		if s.root == 0 {
			continue
		}
		for _, x := range [...]float64{s.from, s.to} {
			a, b := radii(t.outside, x, false), radii(t.outside, x, true)
			if x < same || x > t.long-same || math.Abs(a-b) > same || kink(t.outside, x) {
				continue
			}
			top := -v.k * a
			all = append(all, Segment{Point{v.k * x, 0}, Point{v.k * x, -top}})
			if foot := -v.k * s.root / 2; solid(r) {
				all = append(all, Segment{Point{v.k * x, 0}, Point{v.k * x, top}})
			} else { // in a section it reaches to the root
				all = append(all, Segment{Point{v.k * x, foot}, Point{v.k * x, top}})
			}
		}
	}
	return all
}

// inner is the end of a bore that lies in the part.
func (s placedStep) inner() float64 {
	if s.right {
		return s.from
	}
	return s.to
}

// crossCuts are the stretches that holes across the axis take out of the upper half.
func crossCuts(r *part.Round) []span {
	var cut []span
	for _, c := range r.Cross {
		if up, down := crossing(c); up || down && c.Through {
			at, ra := place(c.At), size(c.Dia)/2
			cut = append(cut, span{at - ra, at + ra})
		}
	}
	return cut
}

// crossing tells whether a cross hole goes up or down in the plane of the section.
func crossing(c part.CrossHole) (up, down bool) {
	a := math.Mod(c.Angle, 360)
	if a < 0 {
		a += 360
	}
	return a < 1 || a > 359, math.Abs(a-180) < 1
}

func (v *view) crossHoles(r *part.Round, t *turning) {
	k := v.k
	for _, c := range r.Cross {
		at, ra := place(c.At), size(c.Dia)/2
		o := radii(t.outside, at, true)
		up, down := crossing(c)
		v.lines.line("ln-centre", k*at, -k*o-2, k*at, k*o+2)
		switch {
		case up || down:
			if down || c.Through { // seen from outside it is hidden
				i := radii(t.inside, at, true)
				v.lines.add(Lines{"ln-hidden", []Segment{{Point{k * (at - ra), k * i}, Point{k * (at - ra), k * o}}, {Point{k * (at + ra), k * i}, Point{k * (at + ra), k * o}}}})
			}
		default:
			v.lines.add(Arc{"ln-visible", k * at, 0, k * ra, 180, 360}, Arc{"ln-hidden", k * at, 0, k * ra, 0, 180})
		}
	}
}

// flats are drawn with thin crossed lines (ISO 128-3), below the axis where the
// part is cut above it.
func (v *view) flats(r *part.Round, t *turning) {
	k := v.k
	for _, f := range r.Flats {
		a, b := place(f.At), place(f.At)+size(f.Length)
		o := radii(t.outside, (a+b)/2, true)
		half := size(f.Across) / 2
		if half >= o {
			continue
		}
		h := k * math.Sqrt(o*o-half*half)
		a, b = k*a, k*b
		top := 0.0 // cut above the axis
		if solid(r) {
			top = -h
		}
		v.lines.add(
			Lines{"ln-visible", []Segment{{Point{a, h}, Point{b, h}}, {Point{a, top}, Point{a, h}}, {Point{b, top}, Point{b, h}}}},
			Lines{"ln-thin", []Segment{{Point{a, h}, Point{b, top}}, {Point{b, h}, Point{a, top}}}},
		)
		if solid(r) {
			v.lines.line("ln-visible", a, top, b, top)
		}
	}
}
