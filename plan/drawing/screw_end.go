package drawing

// sleeve is the extension of the screw's end, as laid out on the sheet.
type screwEnd struct {
	joint, old, end float64 // begins; the screw's own end; ends
	outer           float64 // radius
	thread, nut     float64 // length and radius of the thread at its end; 0 where there is none
	fresh           bool    // it is new
	visible         float64
}

func (s *scene) sleeve() (e screwEnd, ok bool) {
	shank := s.of("shank")
	visible, okV := s.value("extension.visible", s.to)
	if shank == nil || !okV || visible < moved {
		return e, false
	}
	now, _ := s.value("extension.visible", s.from)
	e = screwEnd{old: shank.plan.to, end: shank.plan.to + visible, visible: visible, fresh: visible-now >= moved}
	lap, _ := s.value("extension.lap", s.to)
	e.joint = e.old - min(max(lap, 0), shank.plan.long())
	e.outer = max(s.size("extension.outside", 2.8*s.shank)/2, s.shank)
	if nut := s.of("lock_nut"); nut != nil {
		e.nut = min(s.size(nut.Key+".thread_dia", 2*s.shank)/2, e.outer)
		t, _ := s.value("extension.thread", s.to)
		e.thread = min(max(t, 0), visible)
	}
	return e, true
}

// extension draws the new end: a sleeve over the old one, and solid beyond it.
func (s *scene) extension() {
	e, ok := s.sleeve()
	if !ok {
		return
	}
	shank := s.of("shank")
	by := s.shift(shank)
	class := "fill-part ln-visible"
	if e.fresh {
		class = "fill-new"
	}
	var g Shapes
	var body region
	body.add(box{e.joint + by, e.end - e.thread + by, -e.outer, e.outer})
	body.add(box{e.end - e.thread + by, e.end + by, -e.nut, e.nut})
	body.cut(box{e.joint + by, e.old + by, -s.shank, s.shank})
	g.add(Path{Class: class, Loops: body.grid().loops()})
	if e.thread > 0 {
		s.root(&g, span{e.end - e.thread + by, e.end + by}, 0.85*e.nut)
	}
	s.layer(shank).group(Group{Class: "part", Part: "extension", Shapes: g})
}

// bearing draws the support bearing in the bracket's outer end, simplified (ISO 8826-1).
func (s *scene) bearing() {
	b := s.of("bracket")
	seat, ok := s.value("support.seat", s.to)
	if b == nil || !ok || seat < moved {
		return
	}
	was, _ := s.value("support.seat", s.from)
	class := "fill-part ln-visible"
	if was < moved {
		class = "fill-part ln-new"
	}
	bore, okB := s.value("support.bore", s.to)
	wide, okW := s.value("support.width", s.to)
	if !okB || !okW || !(bore < seat) || !(wide > 0) {
		return
	}
	x := b.plan.to + s.shift(b)
	var g Shapes
	var body region
	body.add(box{x - wide, x, -seat / 2, seat / 2})
	body.cut(box{x - wide, x, -bore / 2, bore / 2})
	g.add(Path{Class: class, Loops: body.grid().loops()})
	arm := min(wide, (seat-bore)/2) * 0.3
	cross := Lines{Class: "ln-new"}
	for _, y := range [...]float64{-(seat + bore) / 4, (seat + bore) / 4} {
		m := x - wide/2
		cross.Segments = append(cross.Segments, Segment{Point{m - arm, y}, Point{m + arm, y}}, Segment{Point{m, y - arm}, Point{m, y + arm}})
	}
	if class == "fill-part ln-visible" {
		cross.Class = "ln-thin"
	}
	g.add(cross)
	s.layer(b).group(Group{Class: "part", Part: "support", Shapes: g})
}
