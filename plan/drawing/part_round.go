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
