package drawing

import (
	"math"
	"slices"

	"fettle/plan/axis"
)

// names writes what every part is called: inside it where that fits, else with
// a line from it. Shafts that lie inside other parts have no name of their own.
func (s *scene) names() {
	places := make([][]box, len(s.parts))
	for i := range s.parts {
		b := &s.parts[i]
		if !b.drawn() || b.Role == "shank" || b.shape == slot || b.shape == peg {
			continue
		}
		places[i] = s.blanks(b)
		if _, _, ok := s.within(b, places[i]); !ok {
			places[i] = nil
			s.nameOutside(b)
		}
	}
	slices.Sort(s.edges) // the lines that have just been drawn among them
	for i := range s.parts {
		if places[i] == nil {
			continue
		}
		b := &s.parts[i]
		at, t, _ := s.within(b, places[i])
		t.X, t.Y = (at.x0+at.x1)/2+0.35*t.Size, (at.y0+at.y1)/2
		if !t.Upright {
			t.X, t.Y = s.aside(span{at.x0, at.x1}, t.width()+0.8*s.u), (at.y0+at.y1)/2+0.35*t.Size
		}
		s.labels(b).add(t)
	}
}

func (s *scene) labels(b *body) *Shapes {
	if b.Side == axis.Moving {
		return &s.out.movingLabels
	}
	return &s.out.fixedLabels
}

// within is the place in which a part's name stands inside it, level or
// upright; ok is false where it does not fit.
func (s *scene) within(b *body, places []box) (at box, t Text, ok bool) {
	t = Text{Class: "part-label", Size: labelSize * s.u, Text: cut(b.Label)}
	long, high := t.width()+1.6*s.u, 1.3*t.Size
	if at, ok = largest(places, long, high); ok {
		return at, t, true
	}
	if b.shape == block { // it moves under other things' names
		return at, t, false
	}
	t.Upright = true
	at, ok = largest(places, high, long)
	return at, t, ok
}

// nameOutside writes a part's name beside the parts, with a line from it.
func (s *scene) nameOutside(b *body) {
	u, g := s.u, s.labels(b)
	top, foot := s.stands(b)
	at := b.plan.shifted(s.shift(b))
	room, y := down, foot-min(1.2*u, (foot-top)/4)
	if s.upward(b) {
		room, y = up, top+min(1.2*u, (foot-top)/4)
	}
	x, step := at.mid(), at.long()/8
	if b.shape == rod {
		x, step = s.clear(b), 2*u
	}
	from := make([]Point, 0, 7)
	for _, n := range [...]float64{0, 1, -1, 2, -2, 3, -3} {
		from = append(from, Point{x + n*step, y})
	}
	t := Text{Class: "part-name", Size: labelSize * u, Text: cut(b.Label)}
	p := s.leader(g, room, from, note{Text: t}, "dim")
	g.add(Circle{"dim-arrow", p.X, p.Y, 0.5 * u})
	s.edges = append(s.edges, p.X)
}

// blanks are the places within a body where a name could stand.
func (s *scene) blanks(b *body) []box {
	if b.shape == rod || b.shape == strip || b.shape == wheel {
		return nil
	}
	at := b.plan
	if seat, has := s.value("support.seat", s.to); has && seat > moved && b.Role == "bracket" {
		w, _ := s.value("support.width", s.to)
		at.to -= w
	}
	g := s.region(b, at, s.change(b))
	x := at.shifted(s.shift(b))
	clear := 0.4 * s.u // of the centre line
	if b.shape == hanging {
		clear = s.thread
	}
	g.cut(box{x.from, x.to, -clear, clear})
	t := g.grid()
	return t.columns(t.strips())
}

// largest is the largest of the places that a thing of a size goes into, if there is one.
func largest(places []box, wide, high float64) (best box, ok bool) {
	size := func(f box) float64 { return (f.x1 - f.x0) * (f.y1 - f.y0) }
	for _, f := range places {
		if f.x1-f.x0 >= wide && f.y1-f.y0 >= high && (!ok || size(f) > size(best)+same) {
			best, ok = f, true
		}
	}
	return best, ok
}

// aside is the middle of the widest stretch within which no line of what was,
// or of what is cut away, would go through a text.
func (s *scene) aside(within span, wide float64) float64 {
	best := span{}
	from := within.from
	for _, x := range s.edges {
		x = min(max(x, from), within.to)
		if gap := (span{from, x}); gap.long() > best.long()+same {
			best = gap
		}
		from = x
	}
	if last := (span{from, within.to}); last.long() > best.long()+same {
		best = last
	}
	if best.long() < wide {
		return within.mid()
	}
	return best.mid()
}

// upward tells whether the name of a part goes above: of what lies there, and
// of what never comes under the slide.
func (s *scene) upward(b *body) bool {
	switch b.shape {
	case above, along, tall:
		return true
	case wheel, strip:
		return s.of("quill") != nil
	}
	slide := s.slider()
	if slide == nil || b.Side == axis.Moving && s.sweep.long() > 0 {
		return false
	}
	over := slide.plan
	if slide.Side == axis.Moving {
		over = span{over.from + s.sweep.from, over.to + s.sweep.to}
	}
	at := b.plan.shifted(s.shift(b))
	return at.from >= over.to-moved || at.to <= over.from+moved
}

// clear is a place along a rod where little lies below it: the middle of the
// longest stretch between what stands around it.
func (s *scene) clear(b *body) float64 {
	at := b.plan.shifted(s.shift(b))
	best := span{at.mid(), at.mid()}
	free := func(gap span) {
		if gap.long() > best.long() {
			best = gap
		}
	}
	from := at.from
	for from < at.to {
		to, next := at.to, at.to
		for i := range s.parts {
			o := &s.parts[i]
			if !o.drawn() || o.Key == b.Key || o.shape == along || o.shape == above || o.shape == rod {
				continue
			}
			w := o.plan.shifted(s.shift(o))
			switch {
			case w.from <= from && w.to > from:
				to, next = from, math.Max(from, w.to)
			case w.from > from && w.from < to:
				to, next = w.from, w.to
			}
			if to == from {
				break
			}
		}
		free(span{from, to})
		if next <= from {
			break
		}
		from = next
	}
	return best.mid()
}
