package drawing

import (
	"math"
	"slices"

	"fettle/plan/part"
	"fettle/plan/thread"
)

// stretch is a length of a turned part with one outline: radii at its ends, in mm.
type stretch struct {
	span
	r0, r1 float64
}

// turning is a round part as stretches from left to right: outside, and inside
// where there is a bore.
type turning struct {
	steps   []placedStep // outside
	bores   []placedStep // from either end
	outside []stretch
	inside  []stretch
	long    float64
	most    float64 // the largest radius
}

// placedStep is a step where it lies.
type placedStep struct {
	part.Step
	span
	right     bool // a bore from the right face
	outer     bool // of a bore: it begins in the face
	chamfered [2]bool
	root      float64 // diameter of the thin line of its thread; 0 where it has none
}

// largestSize is the largest part that is drawn, in mm.
const largestSize = 1e4

func size(s part.Size) float64 {
	if !(s.Nominal > 0) {
		return 0
	}
	return min(s.Nominal, largestSize)
}

// turned lays a round part out along its axis.
func turned(r *part.Round) *turning {
	t := &turning{}
	at := 0.0
	for _, s := range r.Outside {
		long := size(s.Length)
		t.steps = append(t.steps, placedStep{Step: s, span: span{at, at + long}, root: root(s, false)})
		at += long
	}
	t.long = at
	for i, s := range t.steps {
		ra := t.radius(r, i)
		t.most = max(t.most, ra)
		if s.Chamfer > 0 && ra > same {
			t.steps[i].chamfered = t.outerEnds(r, i)
		}
		c := s.chamfer()
		a, b := s.from, s.to
		if t.steps[i].chamfered[0] {
			t.outside = append(t.outside, stretch{span{a, a + c}, ra - c, ra})
			a += c
		}
		if t.steps[i].chamfered[1] {
			t.outside = append(t.outside, stretch{span{a, b - c}, ra, ra}, stretch{span{b - c, b}, ra, ra - c})
		} else {
			t.outside = append(t.outside, stretch{span{a, b}, ra, ra})
		}
	}
	t.bored(r)
	for _, g := range r.Grooves {
		at := span{place(g.At), place(g.At) + size(g.Width)}
		if g.Inside {
			t.inside = grooved(t.inside, at, size(g.Dia)/2, math.Max)
		} else {
			t.outside = grooved(t.outside, at, size(g.Dia)/2, math.Min)
		}
	}
	return t
}

// place is a position, which may lie on either side of where it is counted from.
func place(s part.Size) float64 {
	if math.IsNaN(s.Nominal) {
		return 0
	}
	return min(max(s.Nominal, -largestSize), largestSize)
}

func (s placedStep) chamfer() float64 {
	return min(finite(s.Chamfer), s.long()/2, size(s.Dia)/4)
}

// outerEnds are the ends of a step that face outwards: the free ones; of a step
// between others, those that stand above their neighbour.
func (t *turning) outerEnds(r *part.Round, i int) [2]bool {
	last := len(t.steps) - 1
	if i == 0 || i == last {
		return [2]bool{i == 0, i == last}
	}
	ra := t.radius(r, i)
	return [2]bool{t.radius(r, i-1) < ra-same, t.radius(r, i+1) < ra-same}
}

// radius is that of an outside step as it is seen from the side: half of what
// it is high.
func (t *turning) radius(r *part.Round, i int) float64 {
	if f := r.Flange; f != nil && f.Step == i && size(f.Height) > 0 {
		return size(f.Height) / 2
	}
	return size(t.steps[i].Dia) / 2
}

// bored lays the bores; a through one goes on to those from the other end.
func (t *turning) bored(r *part.Round) {
	deep := func(steps []part.Step) float64 {
		d := 0.0
		for _, s := range steps {
			if !s.Through {
				d += size(s.Length)
			}
		}
		return min(d, t.long)
	}
	left, right := deep(r.Left), deep(r.Right)
	lay := func(steps []part.Step, fromRight bool, other float64) {
		at := 0.0
		for i, s := range steps {
			long := min(size(s.Length), t.long-at)
			if s.Through {
				long = max(0, t.long-at-other)
			}
			if long <= 0 {
				continue
			}
			p := placedStep{Step: s, right: fromRight, outer: i == 0, root: root(s, true), span: span{at, at + long}}
			c := p.chamfer()
			ra := size(s.Dia) / 2
			in := ra
			if s.Taper > 0 {
				in = max(0, ra-long/s.Taper/2)
			}
			pieces := []stretch{{span{at, at + long}, ra, in}}
			if i == 0 && c > 0 {
				p.chamfered[0] = true
				pieces = []stretch{{span{at, at + c}, ra + c, ra}, {span{at + c, at + long}, ra, in}}
			}
			if fromRight {
				p.span = span{t.long - p.to, t.long - p.from}
				p.chamfered[0], p.chamfered[1] = p.chamfered[1], p.chamfered[0]
				for j, q := range pieces {
					pieces[j] = stretch{span{t.long - q.to, t.long - q.from}, q.r1, q.r0}
				}
				slices.Reverse(pieces)
			}
			t.bores = append(t.bores, p)
			for _, q := range pieces {
				t.inside = wider(t.inside, q)
			}
			at += long
		}
	}
	lay(r.Left, false, right)
	lay(r.Right, true, left)
	slices.SortFunc(t.inside, func(a, b stretch) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
}

// wider adds a stretch of bore where none is yet.
func wider(all []stretch, q stretch) []stretch {
	for _, s := range all {
		if q.from >= s.from-same && q.from < s.to-same {
			q = q.part(s.to, q.to)
		}
		if q.to > s.from+same && q.to <= s.to+same {
			q = q.part(q.from, s.from)
		}
		if q.long() <= same {
			return all
		}
	}
	return append(all, q)
}

// at is the radius within a stretch.
func (s stretch) at(x float64) float64 {
	if s.long() <= same {
		return s.r1
	}
	return s.r0 + (s.r1-s.r0)*(x-s.from)/s.long()
}

func (s stretch) part(from, to float64) stretch {
	if to <= from {
		return stretch{span: span{from, from}}
	}
	return stretch{span{from, to}, s.at(from), s.at(to)}
}

// grooved puts a groove into stretches: which of the radii stays is told by least.
func grooved(all []stretch, at span, r float64, which func(a, b float64) float64) []stretch {
	var out []stretch
	for _, s := range all {
		lap := span{max(s.from, at.from), min(s.to, at.to)}
		if lap.long() <= same {
			out = append(out, s)
			continue
		}
		if lap.from > s.from {
			out = append(out, s.part(s.from, lap.from))
		}
		mid := s.part(lap.from, lap.to)
		mid.r0, mid.r1 = which(mid.r0, r), which(mid.r1, r)
		out = append(out, mid)
		if lap.to < s.to {
			out = append(out, s.part(lap.to, s.to))
		}
	}
	return out
}

// radii of stretches at x, looking to one side of it; 0 where there is none.
func radii(all []stretch, x float64, after bool) float64 {
	for _, s := range all {
		if s.long() <= same {
			continue
		}
		if after && x >= s.from-same && x < s.to-same || !after && x > s.from+same && x <= s.to+same {
			return max(0, s.at(x))
		}
	}
	return 0
}

// breaks are the places at which an outline turns.
func (t *turning) breaks(more ...float64) []float64 {
	x := []float64{0, t.long}
	for _, all := range [...][]stretch{t.outside, t.inside} {
		for _, s := range all {
			x = append(x, s.from, s.to)
		}
	}
	for _, m := range more {
		if m > 0 && m < t.long {
			x = append(x, m)
		}
	}
	return distinct(x)
}

// section are the outlines of the metal above the axis, in mm, the axis at 0
// and y upwards. cut are the stretches that a cross hole takes away.
func (t *turning) section(cut []span) [][]Point {
	var more []float64
	for _, c := range cut {
		more = append(more, c.from, c.to)
	}
	x := t.breaks(more...)
	var loops [][]Point
	var top, foot []Point
	end := func() {
		if len(top) > 0 {
			slices.Reverse(foot)
			loops = append(loops, tidy(append(top, foot...)))
		}
		top, foot = nil, nil
	}
	for i := 0; i+1 < len(x); i++ {
		a, b := x[i], x[i+1]
		o0, o1 := radii(t.outside, a, true), radii(t.outside, b, false)
		i0, i1 := radii(t.inside, a, true), radii(t.inside, b, false)
		gone := slices.ContainsFunc(cut, func(c span) bool { return (a+b)/2 > c.from && (a+b)/2 < c.to })
		if gone || o0+o1 <= i0+i1+same {
			end()
			continue
		}
		if n := len(top); n > 0 && (top[n-1].Y <= i0 || o0 <= foot[n-1].Y) {
			end()
		}
		top = append(top, Point{a, o0}, Point{b, o1})
		foot = append(foot, Point{a, min(i0, o0)}, Point{b, min(i1, o1)})
	}
	end()
	return loops
}

// parted tells whether nothing holds two lengths of the part together: no metal
// is left between a bore and the outside somewhere.
func (t *turning) parted() bool { return len(t.section(nil)) > 1 }

// tidy drops points that say nothing.
func tidy(loop []Point) []Point {
	out := loop[:0:0]
	for i, p := range loop {
		q := loop[(i+1)%len(loop)]
		if math.Hypot(p.X-q.X, p.Y-q.Y) <= same {
			continue
		}
		if n := len(out); n > 0 {
			o := out[n-1]
			if math.Abs((p.X-o.X)*(q.Y-p.Y)-(p.Y-o.Y)*(q.X-p.X)) < same && (p.X-o.X)*(q.X-p.X)+(p.Y-o.Y)*(q.Y-p.Y) > 0 {
				continue
			}
		}
		out = append(out, p)
	}
	return out
}

// root is the diameter at which a thread's thin line is drawn: the root of a
// screw, the major diameter of a nut whose bore is drawn.
func root(s part.Step, nut bool) float64 {
	if s.Thread == "" {
		return 0
	}
	d := size(s.Dia)
	t, err := thread.Parse(s.Thread)
	if err == nil {
		b, err := t.Basic()
		switch {
		case err != nil:
		case !nut && b.Root > 0 && b.Root < d:
			return b.Root
		case nut && t.Dia > d:
			return t.Dia
		}
	}
	if nut {
		return d * 1.1
	}
	return d * 0.85
}
