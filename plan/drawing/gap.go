package drawing

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/sheet"
)

// nearTo is how near, in mm of paper, two faces are when their gap is marked.
const nearTo = 2.2

// gaps marks the stops that are near at the position that is drawn.
func (s *scene) gaps() {
	for _, st := range s.l.Stops {
		f, m := s.named(st.Fixed), s.named(st.Moving)
		bound, ok := s.value(st.Key+".bound", sheet.Planned)
		if f == nil || m == nil || !ok {
			continue
		}
		gap := bound - s.at
		face := m.plan.to + bound
		if st.End == axis.Minus {
			gap, face = s.at-bound, m.plan.from+bound
		}
		x := f.plan.from
		if math.Abs(f.plan.to-face) < math.Abs(x-face) {
			x = f.plan.to
		}
		if gap > nearTo*s.u || gap < -20*s.u {
			continue
		}
		s.mark(f, m, x, gap)
	}
}

func (s *scene) mark(f, m *body, x, gap float64) {
	u := s.u
	class, says := "gap", "touches"
	switch {
	case math.Abs(gap) < moved:
	case gap > 0:
		says = s.text(gap) + " left"
	default:
		class, says = "gap gap-over", s.text(-gap)+" too far"
	}
	ft, ff := s.stands(f)
	mt, mf := s.stands(m)
	room, y := down, min(ff, mf)-1.2*u
	if m.shape == above || f.shape == above || m.shape == tall {
		room, y = up, max(ft, mt)+0.4*u
	}
	t := Text{Class: "gap-text", Size: labelSize * u, Text: says}
	var g Shapes
	s.edges = append(s.edges, x)
	// Off the part that is met, whose own name's line has to pass.
	s.leader(&g, room, []Point{{x, y}}, note{Text: t, aside: math.Copysign(1, x-f.plan.mid())}, "gap-line")
	g.add(Circle{"gap-dot", x, y, 0.9 * u})
	s.out.marks.add(Group{Class: class, Shapes: g})
	s.say(capital(m.Label) + " and " + f.Label + ": " + says + ".")
}
