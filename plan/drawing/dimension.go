package drawing

import "math"

// Sizes on paper, in mm.
const (
	dimSize   = 3.5
	labelSize = 3.3
	rowHigh   = 6.4
	arrowLong = 2.2
	arrowHalf = 0.4
)

// The two rooms of what is written.
const (
	up   = 0
	down = 1
)

// dim is one dimension along the axis.
type dim struct {
	room   int
	a, b   float64 // where its lines stand, on the drawing
	ya, yb float64 // from where they are drawn
	note
}

// note is what is written at a line: a text, or letters in circles.
type note struct {
	Text
	letters []string
	aside   float64 // the side of its line on which it rather stands, −1 or 1; 0 is centred on it
}

const letterWide = 5.2 // mm of paper, a circle with what is beside it

func (n note) width() float64 {
	w := n.Text.width()
	if k := len(n.letters); k > 0 {
		w += float64(k) * letterWide / labelSize * n.Size
	}
	return w
}

// put writes the note with its middle at x, on the base line y.
func (n note) put(g *Shapes, x, y float64) {
	t := n.Text
	at := x - n.width()/2
	if t.Text != "" {
		t.X, t.Y = at+t.width()/2, y
		g.add(t)
	}
	at += t.width()
	one := letterWide / labelSize * n.Size
	for _, l := range n.letters {
		g.add(Circle{"letter-mark", at + one/2, y - 0.36*n.Size, 0.46 * one},
			Text{Class: "letter", X: at + one/2, Y: y, Size: n.Size, Text: l})
		at += one
	}
}

// row is where the dimension line of a row lies.
func (s *scene) row(room, n int) float64 {
	top, foot := s.limits()
	if room == up {
		return top - s.u*(2.6+rowHigh*float64(n))
	}
	return foot + s.u*(1.8+rowHigh*float64(n+1))
}

// dimension places a dimension and draws it (ISO 129-1): text above its line,
// arrows from outside where there is no room between.
func (s *scene) dimension(g *Shapes, d dim) {
	u := s.u
	if d.b < d.a {
		d.a, d.b, d.ya, d.yb = d.b, d.a, d.yb, d.ya
	}
	wide := d.width()
	long := d.b - d.a
	line := span{d.a, d.b}
	inside := long >= (2*arrowLong+1)*u
	if !inside {
		line = span{d.a - 1.6*arrowLong*u, d.b + 1.6*arrowLong*u}
	}
	ends := [2]float64{d.a, d.b}
	options := []option{{around((d.a+d.b)/2, wide), ends}}
	if wide > long-0.6*u {
		right, left := max(line.to-arrowLong*u, d.b)+0.8*u, min(line.from+arrowLong*u, d.a)-0.8*u
		options = []option{{span{right, right + wide}, ends}, {span{left - wide, left}, ends}}
	}
	row, which := s.rooms[d.room].place(options, line)
	at := options[which].text
	y := s.row(d.room, row)
	line = span{min(line.from, at.from), max(line.to, at.to)}
	start, over := 0.8*u, 1.2*u
	if d.room == up {
		start, over = -start, -over
	}
	g.add(Lines{"dim", []Segment{
		{Point{d.a, d.ya + start}, Point{d.a, y + over}},
		{Point{d.b, d.yb + start}, Point{d.b, y + over}},
		{Point{line.from, y}, Point{line.to, y}},
	}})
	in := arrowLong * u
	if !inside {
		in = -in
	}
	half := arrowHalf * u
	g.add(Path{Class: "dim-arrow", Loops: [][]Point{
		{{d.a, y}, {d.a + in, y - half}, {d.a + in, y + half}},
		{{d.b, y}, {d.b - in, y - half}, {d.b - in, y + half}},
	}})
	d.put(g, at.mid(), y-0.9*u)
}

// figure is the text of a dimension.
func (s *scene) figure(text, old string) note {
	return note{Text: Text{Class: "dim-text", Size: dimSize * s.u, Text: text, Old: old}}
}

// leader places a text outside and draws a line to it from one of the points,
// the first that goes: for a name, or for a mark. It gives the point.
func (s *scene) leader(g *Shapes, room int, from []Point, n note, line string) Point {
	u := s.u
	wide := n.width()
	if len(n.letters) == 0 {
		wide += u // for what passes beside it
	}
	// Centred on the line at any of the points, before beside it.
	type way struct {
		Point
		centred bool
	}
	var ways []way
	var options []option
	beside := func(p Point, side float64) {
		at := p.X + side*(0.5*u+wide/2)
		ways = append(ways, way{p, false})
		options = append(options, option{around(at, wide), [2]float64{p.X, p.X}})
	}
	if n.aside != 0 {
		beside(from[0], n.aside)
	}
	for _, p := range from {
		if onDatum := len(n.letters) > 0 && room == up && math.Abs(p.X) < 0.4*u; !onDatum { // whose line goes on up
			ways = append(ways, way{p, true})
			options = append(options, option{around(p.X, wide), [2]float64{p.X, p.X}})
		}
	}
	for _, p := range from {
		beside(p, 1)
		beside(p, -1)
	}
	row, which := s.rooms[room].place(options, noLine)
	at, p, centred := options[which].text, ways[which].Point, ways[which].centred
	y := s.row(room, row) - 0.9*u
	end := y - 0.1*u
	switch {
	case !centred && room == up:
		end = y - 0.7*n.Size
	case centred && room == up:
		end = y + 0.8*u
	case centred:
		end = y - 0.95*n.Size
	}
	if len(n.letters) > 0 && centred {
		end = y - 0.36*n.Size // behind the circle
	}
	g.line(line, p.X, p.Y, p.X, end)
	n.put(g, at.mid(), y)
	return p
}
