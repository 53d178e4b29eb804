package drawing

// Drawing is a picture as a list of shapes.
type Drawing struct {
	ID            string // of the picture; its parts' ids begin with it
	Class         string
	Title, Desc   string // Desc says in words what the picture shows
	X, Y          float64
	Width, Height float64 // in drawing units: millimetres of the machine
	PxPerUnit     float64 // at which type is some 12 px high
	Shapes        []Shape
	Slide         Slide
	Paper         *Sheet // nil where the drawing is in mm of the machine
}

// Slide says how the moving parts can be moved: shift the group along x, by the
// position less At.
type Slide struct {
	Group    string  // id of the group; "" where nothing moves
	At       float64 // mm: the position that is drawn
	From, To float64 // mm: the ends of the travel, as asked
	Gaps     string  // id of the group of marks that are true at At only; "" where there is none
}

// Point is a place on the drawing, y downwards.
type Point struct{ X, Y float64 }

// Shape is one thing that is drawn: [Lines], [Path], [Circle], [Arc], [Text] or [Group].
type Shape interface{ bounds(*extent) }

// Segment is a straight line.
type Segment struct{ A, B Point }

// Lines are separate straight lines of one class.
type Lines struct {
	Class    string
	Segments []Segment
}

// Path is one or more outlines, or a line with corners where Open.
type Path struct {
	Class string
	Loops [][]Point
	Open  bool
}

// Circle is a circle.
type Circle struct {
	Class string
	X, Y  float64
	R     float64
}

// Anchor is which end of a text lies at its place.
type Anchor int8

// The anchors of a text.
const (
	Middle Anchor = iota
	Start
	End
)

// Text is one line of text on its base line at Y. Figure stands before it,
// stronger; Old follows it, struck through. One that is Upright reads from
// below, its base line at X.
type Text struct {
	Class  string
	X, Y   float64
	Size   float64
	Anchor Anchor
	Figure string
	Text   string
	Old    string

	Upright  bool
	Inverted bool // it stands on its head, about its place
}

// Group holds shapes together. One of the class part belongs to a part of the axis.
type Group struct {
	ID    string
	Class string
	Part  string // key
	Shapes
}

// Shapes is a list that is added to.
type Shapes []Shape

func (g *Shapes) add(s ...Shape) { *g = append(*g, s...) }

func (g *Shapes) line(class string, x1, y1, x2, y2 float64) {
	g.add(Lines{class, []Segment{{Point{x1, y1}, Point{x2, y2}}}})
}

// group adds a group where there is something in it.
func (g *Shapes) group(in Group) {
	if len(in.Shapes) > 0 {
		g.add(in)
	}
}

// Box is where a text stands, roughly: x0, x1, and y0 above y1.
func (t Text) Box() (x0, x1, y0, y1 float64) {
	w := t.width()
	if t.Upright {
		return t.X - 0.75*t.Size, t.X + 0.2*t.Size, t.Y - w/2, t.Y + w/2
	}
	if t.Inverted {
		t.Inverted, t.Anchor = false, [...]Anchor{Middle, End, Start}[t.Anchor]
		x0, x1, y0, y1 = t.Box()
		return x0, x1, 2*t.Y - y1, 2*t.Y - y0
	}
	switch t.Anchor {
	case Middle:
		x0 = t.X - w/2
	case End:
		x0 = t.X - w
	default:
		x0 = t.X
	}
	return x0, x0 + w, t.Y - 0.75*t.Size, t.Y + 0.2*t.Size
}

func (t Text) width() float64 {
	w := textWidth(t.Text, t.Size)
	for _, s := range [...]string{t.Figure, t.Old} {
		if s != "" {
			w += textWidth(s, t.Size) + textGap*t.Size
		}
	}
	return w
}

const textGap = 0.3 // of the size of type, between the pieces of a text

// extent grows around what is drawn.
type extent struct {
	box
	some bool
}

func (e *extent) take(x0, x1, y0, y1 float64) {
	if !e.some {
		e.box, e.some = box{x0, x1, y0, y1}, true
		return
	}
	e.x0, e.x1, e.y0, e.y1 = min(e.x0, x0), max(e.x1, x1), min(e.y0, y0), max(e.y1, y1)
}

func (l Lines) bounds(e *extent) {
	for _, s := range l.Segments {
		e.take(min(s.A.X, s.B.X), max(s.A.X, s.B.X), min(s.A.Y, s.B.Y), max(s.A.Y, s.B.Y))
	}
}

func (p Path) bounds(e *extent) {
	for _, loop := range p.Loops {
		for _, q := range loop {
			e.take(q.X, q.X, q.Y, q.Y)
		}
	}
}

func (c Circle) bounds(e *extent) { e.take(c.X-c.R, c.X+c.R, c.Y-c.R, c.Y+c.R) }

func (t Text) bounds(e *extent) { e.take(t.Box()) }

func (g Group) bounds(e *extent) {
	for _, s := range g.Shapes {
		s.bounds(e)
	}
}
