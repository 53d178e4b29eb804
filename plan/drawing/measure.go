package drawing

import (
	"cmp"
	"math"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/sheet"
)

// MeasureView draws an axis as found, with a letter at each size that is asked
// for and can be seen from the side: where a part begins and ends, the gap
// before it, its length, its diameters. letters gives them by the entry's key in
// the axis: "bracket.from", and "travel_found" for the axis's own.
//
// A part that is not measured yet is drawn in thin dashes where such a part
// usually lies, so that there is a picture to measure by from the start.
func MeasureView(l *axis.Layout, r *sheet.Result, opt Options) (d *Drawing, letters map[string]string) {
	s := newScene(l, r, opt, sheet.Found, sheet.Found)
	given := &lettering{byKey: map[string]string{}}
	if l.Spaced() {
		return s.standingMeasures(given), given.byKey
	}
	if opt.At == nil {
		s.at = 0
	}
	guessed := s.guess()
	s.sweep = span{s.at, s.at} // nothing is moved on a sheet
	s.paper(s.travelled())
	s.measure()
	s.bodies()
	s.lettered(given)
	if guessed {
		s.say("What is drawn in dashes is not measured yet, and stands where such a part usually does.")
	}
	d = s.sheet(l.Label + ", what to measure")
	return d, given.byKey
}

// lettering gives letters in order.
type lettering struct {
	byKey map[string]string
	n     int
}

func (g *lettering) next(key string) string {
	a := letter(g.n)
	g.n++
	g.byKey[key] = a
	return a
}

// guess puts parts that are not measured where such parts usually are, as far
// along as those that are measured say. It tells whether there are any.
func (s *scene) guess() bool {
	have, usual := span{math.Inf(1), math.Inf(-1)}, span{math.Inf(1), math.Inf(-1)}
	seen := map[string]int{}
	typical := make([]span, len(s.parts))
	for i := range s.parts {
		b := &s.parts[i]
		at := s.typical(b, seen[b.Role])
		seen[b.Role]++
		typical[i] = at
		if b.drawn() {
			have = span{min(have.from, b.plan.from), max(have.to, b.plan.to)}
			usual = span{min(usual.from, at.from), max(usual.to, at.to)}
		}
	}
	scale, from, base := 1.0, 0.0, 0.0
	if have.known() && usual.long() > same {
		scale, from, base = have.long()/usual.long(), have.from, usual.from
	}
	any := false
	for i := range s.parts {
		b := &s.parts[i]
		if b.drawn() {
			continue
		}
		any = true
		at := span{from + (typical[i].from-base)*scale, from + (typical[i].to-base)*scale}
		if b.Tie != nil {
			at = s.tiedTo(b, at, scale)
		} else {
			at = s.partly(b, at)
		}
		b.plan, b.now, b.guessed = at, at, true
	}
	return any
}

func (s *scene) typical(b *body, nth int) span {
	if b.Role == "wall" {
		if nth > 0 {
			return span{118, 141}
		}
		return span{0, 6}
	}
	return span{b.at, b.at + b.long}
}

// tiedTo is where a tied part lies that is not measured whole.
func (s *scene) tiedTo(b *body, at span, scale float64) span {
	length := b.long * scale
	if v, ok := s.value(b.Key+".length", s.to); ok && v > 0 {
		length = v
	}
	if on := s.named(b.Tie.Part); on != nil {
		face := on.plan.to
		if b.Tie.Face == "from" {
			face = on.plan.from
		}
		gap, _ := s.value(b.Key+".gap", s.to)
		return span{face + gap, face + gap + length}
	}
	return span{at.from, at.from + length}
}

// partly is where a part lies of which one face may be measured.
func (s *scene) partly(b *body, at span) span {
	long := at.long()
	if v, ok := s.value(b.Key+".from", s.to); ok {
		return span{v, v + long}
	}
	if v, ok := s.value(b.Key+".to", s.to); ok {
		return span{v - long, v}
	}
	return at
}

// pointed is one line that letters stand at.
type pointed struct {
	room    int
	x, y    float64
	across  bool // a diameter
	letters []string
}

// lettered gives every size its letter, the axis's own first, and places them:
// lengths nearest, then what stands at one line, then names, which have a choice
// of lines; what is 0 last, so that no line goes through it.
func (s *scene) lettered(given *lettering) {
	var lengths []dim
	var lines []pointed
	if b, at := s.mover(), s.travelled(); b != nil {
		top, _ := s.stands(b)
		lengths = append(lengths, dim{room: up, a: at.from, b: at.to, ya: top, yb: top, note: s.letters(false, given.next("travel_found"))})
	}
	s.edges = append(s.edges, 0)
	for i := range s.parts {
		b := &s.parts[i]
		at := b.plan.shifted(s.shift(b))
		s.edges = append(s.edges, at.from, at.to)
		top, foot := s.stands(b)
		for _, size := range b.Sizes() {
			switch size.Key {
			case "length":
				lengths = append(lengths, dim{room: down, a: at.from, b: at.to, ya: foot, yb: foot, note: s.letters(false, given.next(b.Key+".length"))})
			case "underside", "height":
				s.high(at, s.letters(false, given.next(b.Key+"."+size.Key)))
			default:
				if p, ok := s.points(b, at, top, foot, size.Key); ok {
					p.letters = []string{given.next(b.Key + "." + size.Key)}
					lines = join(lines, p, 0.4*s.u)
				}
			}
		}
	}
	slices.SortStableFunc(lengths, func(a, b dim) int { return cmp.Compare(a.b-a.a, b.b-b.a) })
	for _, d := range lengths {
		s.dimension(&s.out.dims, d)
	}
	for _, p := range lines {
		s.leader(&s.out.dims, p.room, []Point{{p.x, p.y}}, s.letters(p.across, p.letters...), "dim")
	}
	s.names()
	s.datum()
}

// travelled is where the outer face of the slide goes along; usual where it is not known.
func (s *scene) travelled() span {
	b := s.mover()
	if b == nil {
		return nowhere
	}
	x := b.plan.to + s.shift(b)
	return span{x, x + s.size("travel_found", 0.3*b.plan.long())}
}

// join adds a place to a list, to one that is there where both stand at one line.
func join(lines []pointed, p pointed, within float64) []pointed {
	at := slices.IndexFunc(lines, func(o pointed) bool {
		return o.room == p.room && o.across == p.across && math.Abs(o.x-p.x) < within
	})
	if at < 0 {
		return append(lines, p)
	}
	o := &lines[at]
	o.letters = append(o.letters, p.letters...)
	if p.room == down {
		o.y = min(o.y, p.y)
	} else {
		o.y = max(o.y, p.y)
	}
	return lines
}

// high dimensions the ways' or the slide's height above the screw's axis.
func (s *scene) high(over span, n note) {
	u, g := s.u, &s.out.fixedLabels
	x := over.to - 6*u
	wide := n.width() + u
	if w := s.of("ways"); w != nil && over.from < w.plan.from-12*u {
		x = over.from + 6*u
	} else if t := s.of("thread"); t != nil {
		x = s.clear(t) - 12*u
	}
	// The slide's underside and the ways' top are asked both.
	options := make([]option, 4)
	for i := range options {
		at := x - float64(i)*wide
		options[i] = option{around(at, wide), [2]float64{at, at}}
	}
	_, which := s.inner.place(options, noLine)
	x = options[which].text.mid()
	y := s.under
	half, in := arrowHalf*u, arrowLong*u
	g.add(Lines{"dim", []Segment{{Point{x, 0}, Point{x, y}}}},
		Path{Class: "dim-arrow", Loops: [][]Point{{{x, 0}, {x - half, -in}, {x + half, -in}}, {{x, y}, {x - half, y + in}, {x + half, y + in}}}})
	n.put(g, x, (y-s.thread)/2+0.36*n.Size)
}

func (s *scene) letters(across bool, letters ...string) note {
	t := Text{Class: "letter", Size: labelSize * s.u}
	if across {
		t.Text = "⌀"
	}
	return note{Text: t, letters: letters}
}

// points is the line at which a size of a part is seen from the side; ok is
// false where it is not.
func (s *scene) points(b *body, at span, top, foot float64, key string) (p pointed, ok bool) {
	p = pointed{room: down, y: foot}
	switch b.shape {
	case above, along, tall, housing, ring, strip:
		p.room, p.y = up, top
	}
	switch key {
	case "from", "gap":
		p.x = at.from
		return p, true
	case "to":
		p.x = at.to
		return p, true
	}
	if s.upward(b) {
		p.room, p.y = up, top
	}
	switch key {
	case "dia", "thread_dia":
		p.x, p.across = at.from+0.35*at.long(), true
		return p, true
	case "bore":
		p.x, p.across, p.y = at.from+0.7*at.long(), true, s.bore(b)
		if p.room == up {
			p.y = -p.y
		}
		return p, true
	}
	return p, false
}

// bore is the radius of a body's bore, as it is drawn.
func (s *scene) bore(b *body) float64 {
	switch b.shape {
	case block:
		return s.thread
	case housing:
		return s.quill
	}
	return s.shaft(b)
}

// datum is the face that all is measured from.
func (s *scene) datum() {
	_, foot := s.limits()
	t := Text{Class: "part-name", Size: labelSize * s.u, Text: "0: " + cut(s.l.Datum)}
	if s.l.Datum == "" {
		t.Text = "0: datum face"
	}
	s.leader(&s.out.fixedLabels, up, []Point{{0, foot + 2*s.u}}, note{Text: t}, "ln-datum")
}
