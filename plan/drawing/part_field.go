package drawing

import "math"

// field is what is already written on a view.
type field struct {
	texts []box
	lines []Segment
}

const apart = 1.2 // mm of paper between texts, and half of it from lines

// clear tells whether a text may stand in a place.
func (f *field) clear(b box) bool {
	for _, t := range f.texts {
		if t.x0 < b.x1+apart && b.x0 < t.x1+apart && t.y0 < b.y1+apart && b.y0 < t.y1+apart {
			return false
		}
	}
	for _, l := range f.lines {
		if l.meets(b.grown(apart / 2)) {
			return false
		}
	}
	return true
}

// passes tells whether a line goes through no text.
func (f *field) passes(l Segment) bool {
	for _, t := range f.texts {
		if l.meets(t.grown(apart / 2)) {
			return false
		}
	}
	return true
}

func (v *view) take(t Text, lines []Segment) {
	x0, x1, y0, y1 := t.Box()
	v.taken.texts = append(v.taken.texts, box{x0, x1, y0, y1})
	v.taken.lines = append(v.taken.lines, lines...)
}

func (b box) grown(by float64) box { return box{b.x0 - by, b.x1 + by, b.y0 - by, b.y1 + by} }

func (b box) holds(p Point) bool { return p.X > b.x0 && p.X < b.x1 && p.Y > b.y0 && p.Y < b.y1 }

func (b box) overlaps(c box) bool {
	return b.x0 < c.x1 && c.x0 < b.x1 && b.y0 < c.y1 && c.y0 < b.y1
}

// meets tells whether any of the segment lies in the box.
func (s Segment) meets(b box) bool {
	if max(s.A.X, s.B.X) <= b.x0 || min(s.A.X, s.B.X) >= b.x1 || max(s.A.Y, s.B.Y) <= b.y0 || min(s.A.Y, s.B.Y) >= b.y1 {
		return false
	}
	from, to := 0.0, 1.0
	d := Point{s.B.X - s.A.X, s.B.Y - s.A.Y}
	for _, c := range [...][2]float64{{d.X, b.x1 - s.A.X}, {-d.X, s.A.X - b.x0}, {d.Y, b.y1 - s.A.Y}, {-d.Y, s.A.Y - b.y0}} {
		switch {
		case c[0] == 0:
			if c[1] <= 0 {
				return false
			}
		case c[0] > 0:
			to = min(to, c[1]/c[0])
		default:
			from = max(from, c[1]/c[0])
		}
	}
	return from < to
}

func cross(a, b Segment) bool {
	turn := func(p, q, r Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	return turn(a.A, a.B, b.A)*turn(a.A, a.B, b.B) < 0 && turn(b.A, b.B, a.A)*turn(b.A, b.B, a.B) < 0
}

// collinear tells whether two level or upright segments lie on one another.
func collinear(a, b Segment) bool {
	const near = 0.6
	lap := func(a0, a1, b0, b1 float64) bool {
		return min(max(a0, a1), max(b0, b1))-max(min(a0, a1), min(b0, b1)) > near
	}
	switch {
	case math.Abs(a.A.Y-a.B.Y) < same && math.Abs(b.A.Y-b.B.Y) < same:
		return math.Abs(a.A.Y-b.A.Y) < near && lap(a.A.X, a.B.X, b.A.X, b.B.X)
	case math.Abs(a.A.X-a.B.X) < same && math.Abs(b.A.X-b.B.X) < same:
		return math.Abs(a.A.X-b.A.X) < near && lap(a.A.Y, a.B.Y, b.A.Y, b.B.Y)
	}
	return false
}
