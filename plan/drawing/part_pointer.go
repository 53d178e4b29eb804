package drawing

import "math"

// pointer writes a text beside a view with a line from it to a point of the
// part, a landing under the text (ISO 129-1). Of all the places on the sides
// given it takes the nearest, and one where the line crosses no other before one
// where it does.
func (v *view) pointer(p Point, text string, sides ...side) { v.pointerTo(p, 0, text, sides...) }

// pointerTo is [view.pointer] to a circle about p: the line ends on it, and
// would meet its middle.
func (v *view) pointerTo(p Point, r float64, text string, sides ...side) {
	t := Text{Class: "dim-text", Size: dimSize, Text: text, Anchor: Start}
	wide := t.width()
	best, cost := landing{}, math.Inf(1)
	for n, s := range sides {
		for row := range 10 {
			for _, dx := range [...]float64{2, 5, 9, 14, 20, 28, 38, 50, 64} {
				for _, sign := range [...]float64{1, -1} {
					for _, back := range [...]bool{false, true} {
						l := v.lands(s, p, sign*dx, row, back, wide, t).from(r)
						far := math.Hypot(l.leader.A.X-l.leader.B.X, l.leader.A.Y-l.leader.B.Y) + 4*float64(n)
						if back {
							far += 6
						}
						if far >= cost || !v.allows(l) {
							continue
						}
						for _, o := range v.taken.lines {
							if cross(l.leader, o) || cross(l.under, o) {
								far += 12
							}
						}
						for _, h := range v.holes {
							if l.leader.meets(h) && !h.holds(p) {
								far += 30
							}
						}
						if far < cost {
							best, cost = l, far
						}
					}
				}
			}
		}
	}
	if math.IsInf(cost, 1) {
		best = v.lands(sides[0], p, 3, mostRows, false, wide, t).from(r)
	}
	v.notes.add(Lines{"dim", []Segment{best.leader, best.under}}, arrow(best.leader.A, best.leader.B), best.text)
	v.take(best.text, []Segment{best.leader, best.under})
}

// landing is where a pointer's text could stand.
type landing struct {
	leader, under Segment
	text          Text
}

// from is the landing with its leader ending at a distance from its point.
func (l landing) from(r float64) landing {
	a, b := l.leader.A, l.leader.B
	if d := math.Hypot(b.X-a.X, b.Y-a.Y); r > 0 && d > r {
		l.leader.A = Point{a.X + r*(b.X-a.X)/d, a.Y + r*(b.Y-a.Y)/d}
	}
	return l
}

func (v *view) lands(s side, p Point, dx float64, row int, back bool, wide float64, t Text) landing {
	out := s.out(row)
	elbow := v.along(s, p.X+dx, out)
	left := dx < 0 != back
	if v.vertical(s) {
		elbow = v.along(s, p.Y+dx, out)
		left = s == leftward
	}
	end := elbow.X + wide
	t.X, t.Y = elbow.X, elbow.Y-0.9
	if left {
		end, t.X = elbow.X-wide, elbow.X-wide
	}
	return landing{Segment{p, elbow}, Segment{elbow, Point{end, elbow.Y}}, t}
}

func (v *view) allows(l landing) bool {
	x0, x1, y0, y1 := l.text.Box()
	b := box{x0, x1, y0, y1}
	if b.overlaps(v.body) || !v.taken.clear(b) || !v.taken.passes(l.leader) || !v.taken.passes(l.under) || l.leader.meets(b.grown(-0.1)) {
		return false
	}
	for _, o := range v.taken.lines {
		if collinear(l.under, o) {
			return false
		}
	}
	return true
}

// arrow is an arrow head at p, of a line that comes from another point.
func arrow(p, from Point) Path {
	l := math.Hypot(from.X-p.X, from.Y-p.Y)
	if l < same {
		return Path{Class: "dim-arrow"}
	}
	ux, uy := (from.X-p.X)/l, (from.Y-p.Y)/l
	return Path{Class: "dim-arrow", Loops: [][]Point{{
		p,
		{p.X + arrowLong*ux - arrowHalf*uy, p.Y + arrowLong*uy + arrowHalf*ux},
		{p.X + arrowLong*ux + arrowHalf*uy, p.Y + arrowLong*uy - arrowHalf*ux},
	}}}
}
