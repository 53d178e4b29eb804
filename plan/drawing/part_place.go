package drawing

import (
	"math"
	"slices"

	"fettle/plan/part"
)

// side is one of the four sides of a view.
type side int8

const (
	above_ side = iota
	below
	leftward
	rightward
)

// view is one view of a part, in mm of paper about an origin of its own.
type view struct {
	k     float64 // mm of paper to a mm of the part
	words *words
	lines Shapes // under what is written
	notes Shapes
	body  box // what the part covers; nothing is written within
	taken field
	rows  [4][]rowLine
	dims  []Dimension
	holes []box  // seen from above: no leader goes over one to another
	name  string // "A–A"
}

type rowLine struct {
	row int
	span
}

// along is a place on the paper, so far along a side and so far out from it.
func (v *view) along(s side, at, out float64) Point {
	switch s {
	case above_:
		return Point{at, v.body.y0 - out}
	case below:
		return Point{at, v.body.y1 + out}
	case leftward:
		return Point{v.body.x0 - out, at}
	default:
		return Point{v.body.x1 + out, at}
	}
}

// out is how far out from a side a row's dimension line is.
func (s side) out(row int) float64 {
	if s == above_ || s == leftward {
		return 4 + rowHigh*float64(row) // what is written stands beyond the line
	}
	return 7 + rowHigh*float64(row)
}

// mark is one dimension that is to be placed: from a to b along its side, its
// lines drawn from fa and fb across it.
type mark struct {
	size   part.Size
	text   string
	side   side
	a, b   float64
	fa, fb float64
	half   bool // only a is on the part; the line ends past the axis, at b's side
	stop   float64
	dia    bool
	least  int // the first row that it may stand in
}

// put places a dimension and draws it (ISO 129-1): the text above its line,
// arrows from outside where there is no room between.
//
// later are the places along the side at which lines will yet go further out:
// what is written beside a dimension stands between them.
func (v *view) put(m mark, later []float64) {
	if m.b < m.a {
		m.a, m.b, m.fa, m.fb = m.b, m.a, m.fb, m.fa
	}
	t := Text{Class: "dim-text", Size: dimSize, Text: m.text, Upright: m.side >= leftward}
	wide := t.width()
	line := span{m.a, m.b}
	inside := m.b-m.a >= 2*arrowLong+1
	if m.half {
		line, inside = span{m.a, m.stop}, true
	} else if !inside {
		line = span{m.a - 1.6*arrowLong, m.b + 1.6*arrowLong}
	}
	right, left := max(line.to-arrowLong, m.b)+1, min(line.from+arrowLong, m.a)-1
	if m.half {
		right = line.to + 0.6
	}
	inner, outer := between(m.a, m.b, wide, later), beside(right, left, wide, later)
	for _, try := range [...]struct {
		options []span
		rows    int
	}{{inner, 6}, {outer, 6}, {inner, mostRows}, {outer, mostRows}} {
		for row := m.least; row < try.rows; row++ {
			for _, at := range try.options {
				if v.room(m, line, at, row, t) {
					v.draw(m, line, at, row, inside, t)
					return
				}
			}
		}
	}
	v.draw(m, line, around((m.a+m.b)/2, wide), mostRows, inside, t)
}

// between are the places for a text between the ends of its dimension: the
// middle, or else as near to it as no line will go through it.
func between(a, b, wide float64, later []float64) []span {
	const clear = 0.8
	free := func(at span) bool {
		return at.from > a+clear && at.to < b-clear && !slices.ContainsFunc(later, func(x float64) bool { return x > at.from-clear && x < at.to+clear })
	}
	var all []span
	try := func(at span) {
		if free(at) {
			all = append(all, at)
		}
	}
	try(around((a+b)/2, wide))
	for _, x := range append([]float64{a, (a + b) / 2, b}, later...) {
		try(span{x + clear + same, x + clear + same + wide})
		try(span{x - clear - same - wide, x - clear - same})
	}
	if len(all) > 0 {
		slices.SortStableFunc(all, func(p, q span) int {
			if math.Abs(p.mid()-(a+b)/2) < math.Abs(q.mid()-(a+b)/2)-same {
				return -1
			}
			return 1
		})
	}
	return all
}

// beside are the places for a text beside its dimension: the nearest on either
// hand through which no line will go.
func beside(right, left, wide float64, later []float64) []span {
	const clear = 0.8
	r, l := span{right, right + wide}, span{left - wide, left}
	slices.Sort(later)
	for _, x := range later {
		if x > r.from-clear && x < r.to+clear {
			r = span{x + clear, x + clear + wide}
		}
	}
	for i := len(later) - 1; i >= 0; i-- {
		if x := later[i]; x > l.from-clear && x < l.to+clear {
			l = span{x - clear - wide, x - clear}
		}
	}
	if left-l.to < r.from-right-same {
		return []span{l, r}
	}
	return []span{r, l}
}

// mostRows is how many rows of dimensions a side takes before one stands on another.
const mostRows = 40

func (v *view) vertical(s side) bool { return s >= leftward }

// pieces are the lines of a dimension in a row, and its text.
func (v *view) pieces(m mark, line, at span, row int, t Text) ([]Segment, Text) {
	out := m.side.out(row)
	line = span{min(line.from, at.from), max(line.to, at.to)}
	ext := func(at, from float64) Segment {
		end := v.along(m.side, at, out+1.2)
		start := Point{at, from}
		if v.vertical(m.side) {
			start = Point{from, at}
		}
		gap := 0.8
		switch m.side {
		case above_:
			start.Y -= gap
		case below:
			start.Y += gap
		case leftward:
			start.X -= gap
		default:
			start.X += gap
		}
		return Segment{start, end}
	}
	lines := []Segment{ext(m.a, m.fa)}
	if !m.half {
		lines = append(lines, ext(m.b, m.fb))
	}
	lines = append(lines, Segment{v.along(m.side, line.from, out), v.along(m.side, line.to, out)})
	p := v.along(m.side, at.mid(), out)
	if v.vertical(m.side) {
		t.X, t.Y = p.X-0.9, p.Y
	} else {
		t.X, t.Y = p.X, p.Y-0.9
	}
	return lines, t
}

func (v *view) room(m mark, line, at span, row int, t Text) bool {
	lines, t := v.pieces(m, line, at, row, t)
	x0, x1, y0, y1 := t.Box()
	b := box{x0, x1, y0, y1}
	if b.overlaps(v.body) || !v.taken.clear(b) {
		return false
	}
	for _, l := range lines {
		if !v.taken.passes(l) {
			return false
		}
	}
	whole := span{min(line.from, at.from), max(line.to, at.to)}
	for _, r := range v.rows[m.side] {
		if r.row == row && r.span.overlaps(whole, -1e-3) {
			return false
		}
	}
	// Its line must not run on along an extension line of another.
	for _, l := range v.taken.lines {
		if dl := lines[len(lines)-1]; collinear(dl, l) {
			return false
		}
	}
	return true
}

func (v *view) draw(m mark, line, at span, row int, inside bool, t Text) {
	lines, t := v.pieces(m, line, at, row, t)
	v.notes.add(Lines{"dim", lines})
	in := arrowLong
	if !inside {
		in = -in
	}
	out := m.side.out(row)
	loops := [][]Point{{v.along(m.side, m.a, out), v.along(m.side, m.a+in, out-arrowHalf), v.along(m.side, m.a+in, out+arrowHalf)}}
	if !m.half {
		loops = append(loops, []Point{v.along(m.side, m.b, out), v.along(m.side, m.b-in, out-arrowHalf), v.along(m.side, m.b-in, out+arrowHalf)})
	}
	v.notes.add(Path{Class: "dim-arrow", Loops: loops}, t)
	v.take(t, lines)
	v.rows[m.side] = append(v.rows[m.side], rowLine{row, span{min(line.from, at.from), max(line.to, at.to)}})
	d := Dimension{Size: m.size, A: Point{m.a, m.fa}, B: Point{m.b, m.fb}, Half: m.half, Dia: m.dia}
	if v.vertical(m.side) {
		d.A, d.B, d.Upright = Point{m.fa, m.a}, Point{m.fb, m.b}, true
	}
	v.dims = append(v.dims, d)
}

// all places dimensions: the short ones nearest, those of one length as they come.
func (v *view) all(marks []mark) {
	slices.SortStableFunc(marks, func(a, b mark) int {
		la, lb := math.Abs(a.b-a.a), math.Abs(b.b-b.a)
		switch {
		case la < lb-1e-6:
			return -1
		case la > lb+1e-6:
			return 1
		}
		return 0
	})
	for i, m := range marks {
		var later []float64
		for _, o := range marks[i+1:] {
			if o.side != m.side {
				continue
			}
			later = append(later, o.a)
			if !o.half {
				later = append(later, o.b)
			}
		}
		v.put(m, later)
	}
}

// covers grows what the part covers on the view.
func (v *view) covers(x0, x1, y0, y1 float64) {
	if v.body == (box{}) {
		v.body = box{x0, x1, y0, y1}
		return
	}
	v.body = box{min(v.body.x0, x0), max(v.body.x1, x1), min(v.body.y0, y0), max(v.body.y1, y1)}
}

// extent is all that the view takes on the paper.
func (v *view) extent() box {
	var e extent
	for _, g := range [...]Shapes{v.lines, v.notes} {
		for _, s := range g {
			s.bounds(&e)
		}
	}
	return e.box
}
