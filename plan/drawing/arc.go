package drawing

import "math"

// Arc is a part of a circle, from one angle to another, in degrees counted
// against the clock from the right, as seen on the paper; From is below To.
type Arc struct {
	Class    string
	X, Y     float64
	R        float64
	From, To float64
}

// At is the point of the arc's circle at an angle in degrees.
func (a Arc) At(degrees float64) Point {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return Point{a.X + a.R*cos, a.Y - a.R*sin}
}

func (a Arc) bounds(e *extent) {
	for _, d := range [...]float64{a.From, a.To} {
		p := a.At(d)
		e.take(p.X, p.X, p.Y, p.Y)
	}
	if !(math.Abs(a.From) < 1e6 && a.To-a.From <= 360) {
		return
	}
	for d := math.Ceil(a.From/90) * 90; d < a.To; d += 90 {
		p := a.At(d)
		e.take(p.X, p.X, p.Y, p.Y)
	}
}

func (p *pen) arc(a Arc) {
	p.str("<path")
	p.class(a.Class)
	p.str(` d="M`)
	from, to := a.At(a.From), a.At(a.To)
	p.nums(from.X, from.Y)
	p.str("A")
	p.nums(a.R, a.R)
	p.str(" 0 ")
	if a.To-a.From > 180 {
		p.str("1 0 ")
	} else {
		p.str("0 0 ")
	}
	p.nums(to.X, to.Y)
	p.str(`"/>`)
}

// shifted is the list moved on the paper.
func (g Shapes) shifted(dx, dy float64) Shapes {
	all := make(Shapes, len(g))
	for i, s := range g {
		switch s := s.(type) {
		case Lines:
			segments := make([]Segment, len(s.Segments))
			for j, l := range s.Segments {
				segments[j] = Segment{l.A.shifted(dx, dy), l.B.shifted(dx, dy)}
			}
			s.Segments = segments
			all[i] = s
		case Path:
			loops := make([][]Point, len(s.Loops))
			for j, l := range s.Loops {
				loops[j] = make([]Point, len(l))
				for k, q := range l {
					loops[j][k] = q.shifted(dx, dy)
				}
			}
			s.Loops = loops
			all[i] = s
		case Circle:
			s.X, s.Y = s.X+dx, s.Y+dy
			all[i] = s
		case Arc:
			s.X, s.Y = s.X+dx, s.Y+dy
			all[i] = s
		case Text:
			s.X, s.Y = s.X+dx, s.Y+dy
			all[i] = s
		case Group:
			s.Shapes = s.Shapes.shifted(dx, dy)
			all[i] = s
		}
	}
	return all
}

func (p Point) shifted(dx, dy float64) Point { return Point{p.X + dx, p.Y + dy} }
