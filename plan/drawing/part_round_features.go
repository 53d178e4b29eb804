package drawing

import (
	"math"

	"fettle/plan/part"
)

// What stands on a turned part: threads, holes across it, flats.

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

// crossHoles draws the holes across the axis: in the plane of the section, hidden
// where the part is seen from outside; the others from their ends.
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
