package drawing

import (
	"cmp"
	"math"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/sheet"
)

// SideView draws an axis from the side, cut along its screw, as planned, with
// what is now where that differs. The moving side stands at the position of the
// options; it is a group of its own, so that a page can shift it along x.
func SideView(l *axis.Layout, r *sheet.Result, opt Options) *Drawing {
	s := newScene(l, r, opt, sheet.Now, sheet.Planned)
	if l.Spaced() || s.raised() {
		return s.standing()
	}
	s.paper(nowhere)
	s.measure()
	s.bodies()
	s.old()
	s.sizes()
	s.gaps()
	s.names()
	return s.sheet(l.Label + ", from the side")
}

// sheet puts what was collected onto one sheet of paper.
func (s *scene) sheet(title string) *Drawing {
	d := &Drawing{ID: s.id, Class: "drawing", Title: title, PxPerUnit: pxPerPaper / s.u}
	d.Slide = Slide{At: s.at, From: s.sweep.from, To: s.sweep.to}
	var all Shapes
	all.group(Group{Class: "fixed", Shapes: s.out.fixed})
	if moving := append(s.out.moving, s.out.movingLabels...); len(moving) > 0 {
		d.Slide.Group = s.id + "-moving"
		all.add(Group{ID: d.Slide.Group, Class: "moving", Shapes: moving})
	}
	all.group(Group{Class: "was", Shapes: s.out.ghosts})
	s.centre(&all)
	all.group(Group{Class: "dims", Shapes: s.out.dims})
	if len(s.out.marks) > 0 {
		d.Slide.Gaps = s.id + "-gaps"
		all.add(Group{ID: d.Slide.Gaps, Class: "gaps", Shapes: s.out.marks})
	}
	all.group(Group{Class: "names", Shapes: s.out.fixedLabels})
	if s.isLying() {
		all.group(Group{Class: "dims", Shapes: s.upMark(all)})
	}
	d.Shapes = all
	d.frame(s.u, s.at, s.sweep)
	d.Desc = s.describe()
	return d
}

// isLying tells whether an axis that goes up and down is drawn lying.
func (s *scene) isLying() bool {
	return s.l.Upright() && !s.l.Spaced() && !s.raised()
}

// upMark is an arrow under what is drawn that points to the end that is up.
func (s *scene) upMark(drawn Shapes) (g Shapes) {
	end, _ := s.l.Up()
	var e extent
	for _, x := range drawn {
		x.bounds(&e)
	}
	if !e.some {
		return nil
	}
	t := Text{Class: "part-name", Size: labelSize * s.u, Text: "up"}
	wide, y := t.width(), e.y1+5*s.u
	from, to := Point{e.x1 - 14*s.u, y}, Point{e.x1, y}
	t.X = from.X - wide/2 - s.u
	if end == axis.Minus {
		from, to = Point{e.x0 + 14*s.u, y}, Point{e.x0, y}
		t.X = from.X + wide/2 + s.u
	}
	t.Y = y + 0.35*t.Size
	in := math.Copysign(arrowLong*s.u, from.X-to.X)
	g.line("dim", from.X, from.Y, to.X, to.Y)
	g.add(Path{Class: "dim-arrow", Loops: [][]Point{{to, {to.X + in, y - arrowHalf*s.u}, {to.X + in, y + arrowHalf*s.u}}}}, t)
	return g
}

// pxPerPaper is how many CSS pixels a mm of paper is, for type of 12.
const pxPerPaper = 3.4

// frame finds the size of the paper: all of the shapes, the moving ones all
// along their travel, and a margin.
func (d *Drawing) frame(u, at float64, sweep span) {
	var e extent
	for _, s := range d.Shapes {
		if g, ok := s.(Group); ok && g.ID != "" && g.ID == d.Slide.Group {
			var m extent
			g.bounds(&m)
			if m.some {
				e.take(m.x0+sweep.from-at, m.x1+sweep.to-at, m.y0, m.y1)
			}
			continue
		}
		s.bounds(&e)
	}
	if !e.some {
		e.box = box{0, 100 * u, 0, 20 * u}
	}
	margin := 3 * u
	d.X, d.Y = e.x0-margin, e.y0-margin
	d.Width, d.Height = e.x1-e.x0+2*margin, e.y1-e.y0+2*margin
}

// centre is the screw's axis, as far as anything lies around it.
func (s *scene) centre(g *Shapes) {
	e := span{math.Inf(1), math.Inf(-1)}
	for i := range s.parts {
		b := &s.parts[i]
		switch b.shape {
		case rod, sleeve, block, barrel, housing, ring, hanging:
			if b.drawn() {
				at := b.plan.shifted(s.shift(b))
				e = span{min(e.from, at.from), max(e.to, at.to)}
			}
		}
	}
	if end, ok := s.sleeve(); ok && e.known() {
		e.to = max(e.to, end.end+s.shift(s.of("shank")))
	}
	if e.known() {
		g.line("ln-centre", e.from-4*s.u, 0, e.to+4*s.u, 0)
	}
}

// sizes draws the dimensions: of what has changed, of what is gained, and of
// the travel. The short ones lie nearest.
func (s *scene) sizes() {
	type owned struct {
		dim
		g *Shapes
	}
	var all []owned
	for i := range s.parts {
		b := &s.parts[i]
		role, _ := axis.RoleNamed(b.Role)
		if ch := s.change(b); !b.drawn() || !ch.length || role.Length == "" {
			continue
		}
		_, foot := s.stands(b)
		at := b.plan.shifted(s.shift(b))
		d := dim{room: down, a: at.from, b: at.to, ya: foot, yb: foot, note: s.figure(s.text(at.long()), s.text(b.now.long()))}
		g := &s.out.dims
		if b.Side == axis.Moving {
			g = &s.out.movingLabels
		}
		all = append(all, owned{d, g})
	}
	if e, ok := s.sleeve(); ok && e.fresh {
		by := s.shift(s.of("shank"))
		old := ""
		if now, ok := s.value("extension.visible", s.from); ok && now >= moved {
			old = s.text(now)
		}
		all = append(all, owned{dim{room: down, a: e.old + by, b: e.end + by, ya: s.shank, yb: e.outer, note: s.figure(s.text(e.visible), old)}, s.dimsOf("shank")})
		if lap := e.old - e.joint; lap >= moved {
			all = append(all, owned{dim{room: down, a: e.joint + by, b: e.old + by, ya: e.outer, yb: s.shank, note: s.figure(s.text(lap)+" lap", "")}, s.dimsOf("shank")})
		}
	}
	if b := s.of("bracket"); b != nil {
		if v, ok := s.value(b.Key+".spacer", s.to); ok && v >= moved {
			at := b.plan.from + s.shift(b)
			all = append(all, owned{dim{room: down, a: at - v, b: at, ya: b.outer, yb: b.outer, note: s.figure(s.text(v)+" spacer", "")}, s.dimsOf("bracket")})
		}
	}
	slices.SortStableFunc(all, func(a, b owned) int { return cmp.Compare(a.b-a.a, b.b-b.a) })
	for _, d := range all {
		s.dimension(d.g, d.dim)
	}
	s.gain()
}

// dimsOf is where the dimensions of a role's body go: with it where it moves.
func (s *scene) dimsOf(role string) *Shapes {
	if b := s.of(role); b != nil && b.Side == axis.Moving {
		return &s.out.movingLabels
	}
	return &s.out.dims
}

// gain dimensions how much further the moving side goes, and its travel.
func (s *scene) gain() {
	b := s.mover()
	if b == nil {
		return
	}
	top, _ := s.stands(b)
	for _, e := range [...]struct {
		name string
		face float64
		sign float64
	}{{"asked_plus", b.plan.to, 1}, {"asked_minus", b.plan.from, -1}} {
		now, okN := s.value(e.name, s.from)
		plan, okP := s.value(e.name, s.to)
		if d := (plan - now) * e.sign; okN && okP && math.Abs(d) >= moved {
			sign := ""
			if d > 0 {
				sign = "+"
			}
			s.dimension(&s.out.dims, dim{room: up, a: e.face + now, b: e.face + plan, ya: top, yb: top, note: s.figure(sign+s.text(d), "")})
		}
	}
	if long := s.asked(s.to); long >= moved {
		d := dim{room: up, a: b.plan.to + s.askedAt("asked_minus"), b: b.plan.to + s.askedAt("asked_plus"), ya: top, yb: top, note: s.figure(s.text(long)+" travel", "")}
		if was := s.asked(s.from); math.Abs(was-long) >= moved {
			d.Old = s.text(was)
		}
		s.dimension(&s.out.dims, d)
	}
}

func (s *scene) askedAt(name string) float64 { v, _ := s.value(name, s.to); return v }

// asked is the travel that is wanted.
func (s *scene) asked(at sheet.Stage) float64 {
	plus, _ := s.value("asked_plus", at)
	minus, _ := s.value("asked_minus", at)
	return plus - minus
}

// mover is the part by which the travel is seen: the slide, the quill, or any that moves.
func (s *scene) mover() *body {
	for _, role := range [...]string{"slide", "table", "quill"} {
		if b := s.of(role); b != nil && b.Side == axis.Moving {
			return b
		}
	}
	for i := range s.parts {
		if b := &s.parts[i]; b.Side == axis.Moving && b.drawn() {
			return b
		}
	}
	return nil
}
