package drawing

import (
	"math"
	"slices"

	"fettle/plan/part"
)

// What a half section shows of metal: the cut face, metal that was not there
// before, and metal that goes.

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

// old draws what an altered part was before, dashed where metal goes: its
// outline where that differs, between the places where either turns.
func (v *view) old(p *part.Part, t *turning) {
	if p.Round.Was == nil {
		return
	}
	was := turned(p.Round.Was)
	k := v.k
	v.covers(0, k*max(t.long, was.long), -k*max(t.most, was.most), k*max(t.most, was.most))
	lines := Lines{Class: "ln-cut"}
	add := func(a, b Point) {
		lines.Segments = append(lines.Segments, Segment{Point{k * a.X, k * a.Y}, Point{k * b.X, k * b.Y}})
	}
	x := distinct(append(was.breaks(), t.breaks()...))
	for _, g := range [...]gone{{was.outside, t.outside, true, add}, {was.inside, t.inside, false, add}} {
		for i, at := range x {
			if i+1 < len(x) {
				g.along(at, x[i+1])
			}
			g.shoulder(at)
		}
	}
	v.lines.add(lines)
}

// gone is an outline of before beside that of now; add takes what is no more:
// above the axis, and of the outside below it as well.
type gone struct {
	then, now []stretch
	outside   bool
	add       func(a, b Point)
}

// along is what lay between two places.
func (g gone) along(from, to float64) {
	r0, r1 := radii(g.then, from, true), radii(g.then, to, false)
	n0, n1 := radii(g.now, from, true), radii(g.now, to, false)
	if r0+r1 <= 0 || math.Abs(r0-n0)+math.Abs(r1-n1) <= same {
		return
	}
	g.add(Point{from, -r0}, Point{to, -r1})
	if g.outside {
		g.add(Point{from, r0}, Point{to, r1})
	}
}

// shoulder is what stood at a place.
func (g gone) shoulder(at float64) {
	a, b := radii(g.then, at, false), radii(g.then, at, true)
	na, nb := radii(g.now, at, false), radii(g.now, at, true)
	if math.Abs(a-b) <= same || math.Abs(a-na) <= same && math.Abs(b-nb) <= same {
		return
	}
	lo, hi := min(a, b), max(a, b)
	if g.outside { // what is left covers the rest
		if lo = max(lo, min(na, nb)); lo < hi {
			g.add(Point{at, lo}, Point{at, hi})
		}
	}
	if lo < hi {
		g.add(Point{at, -lo}, Point{at, -hi})
	}
}
