package drawing

import (
	"math"

	"fettle/plan/axis"
)

// bodies draws all parts, those that lie behind first.
func (s *scene) bodies() {
	for layer := 0; layer <= deepest; layer++ {
		for i := range s.parts {
			if b := &s.parts[i]; b.layer == layer && b.drawn() {
				s.layer(b).group(Group{Class: "part", Part: b.Key, Shapes: s.draw(b)})
			}
		}
		if layer == shafts {
			s.extension()
		}
	}
	s.bearing()
	s.stem()
}

// draw is one part, with what is added to it and what is cut away.
func (s *scene) draw(b *body) Shapes {
	var g Shapes
	ch := s.change(b)
	body := s.region(b, b.plan, ch)
	var added, gone region
	for _, a := range ch.added {
		s.cover(&added, b, a)
	}
	for _, c := range ch.cut {
		p := s.pocket(b, c)
		gone.add(p)
		s.edges = append(s.edges, p.x0, p.x1)
	}
	switch b.shape {
	case wheel:
		top, foot := s.stands(b)
		g.add(Circle{b.outline(), b.plan.mid() + s.shift(b), (top + foot) / 2, (foot - top) / 2},
			Circle{"ln-centre", b.plan.mid() + s.shift(b), (top + foot) / 2, (foot - top) / 2 * 0.86})
		return g
	case strip:
		g.add(s.teeth(b))
	default:
		grid := body.grid()
		g.add(Path{Class: b.outline(), Loops: grid.loops()})
		if len(added.patches) > 0 {
			g.add(Path{Class: "fill-new", Loops: added.grid().loops()})
		}
		if b.hatch != plain {
			g.add(hatch(grid.strips(), s.hatching(b), b.close*s.u))
		}
	}
	switch b.Role {
	case "thread":
		s.root(&g, b.plan.shifted(s.shift(b)), s.size(b.Key+".root", 1.7*s.thread)/2)
	case "shank":
		if v, ok := s.value(b.Key+".end_thread", s.to); ok && v > 0 && v < b.plan.long() {
			x := b.plan.to + s.shift(b)
			s.root(&g, span{x - v, x}, 0.85*s.shank)
			g.line("ln-visible", x-v, -s.shank, x-v, s.shank)
		}
	}
	if len(gone.patches) > 0 {
		at := &s.out.ghosts
		if b.Side == axis.Moving {
			at = &s.out.movingLabels
		}
		at.group(Group{Class: "part", Part: b.Key, Shapes: Shapes{Path{Class: "ln-cut", Loops: gone.grid().loops()}}})
	}
	return g
}

// region is what a body covers over an interval, with what stays of it where it is cut.
func (s *scene) region(b *body, at span, ch change) region {
	var g region
	s.cover(&g, b, at)
	for _, c := range ch.cut {
		if p := s.pocket(b, c); p.y1-p.y0 < s.tall(b)-same {
			top, foot := s.stands(b)
			g.add(box{p.x0, p.x1, top, foot})
			g.cut(p)
		}
	}
	return g
}

func (s *scene) tall(b *body) float64 {
	top, foot := s.stands(b)
	return foot - top
}

// outline is the class of a part's outline: thin dashes where it is only guessed where it lies.
func (b *body) outline() string {
	if b.guessed {
		return "fill-part ln-guessed"
	}
	return "fill-part ln-visible"
}

// root are the thin lines of a thread (ISO 6410-1).
func (s *scene) root(g *Shapes, at span, r float64) {
	g.add(Lines{"ln-thin", []Segment{{Point{at.from, -r}, Point{at.to, -r}}, {Point{at.from, r}, Point{at.to, r}}}})
}

// hatching is a part's way of hatching; one that stands against a part of the
// same way is hatched the other way.
func (s *scene) hatching(b *body) int {
	if b.Tie == nil {
		return b.hatch
	}
	if on, ok := s.l.Part(b.Tie.Part); ok && lookOf(on.Role).hatch == b.hatch {
		return -b.hatch
	}
	return b.hatch
}

// cover puts a body, over the interval at s = 0, onto a region.
func (s *scene) cover(g *region, b *body, at span) {
	at = at.shifted(s.shift(b))
	top, foot := s.stands(b)
	g.add(box{at.from, at.to, top, foot})
	hole := func(over span, r float64) { g.cut(box{over.from, over.to, -r, r}) }
	switch b.shape {
	case sleeve:
		if r := s.shaft(b); r < b.outer {
			hole(at, r)
		}
		if e, ok := s.sleeve(); ok && b.Role != "bracket" && e.outer < b.outer {
			r := e.outer
			if b.Role == "lock_nut" {
				r = e.nut
			}
			hole(span{max(at.from, e.joint+s.shift(b)), at.to}, r)
		}
	case block:
		hole(at, s.thread)
	case barrel:
		if s.of("thread") != nil {
			hole(span{at.from, at.to - max(0.2*at.long(), 4*s.u)}, s.hollow)
		} else {
			hole(at, 0.5*s.quill)
		}
	case housing, ring:
		hole(at, s.quill)
	}
}

// shaft is the radius of what runs in a sleeve.
func (s *scene) shaft(b *body) float64 {
	switch {
	case b.Role == "spline_sleeve":
		return 0.35 * s.quill
	case s.of("shank") != nil:
		return s.shank
	case s.of("thread") != nil:
		return s.thread
	}
	return 0
}

// change is what is made of a part between the two stages.
type change struct {
	shift      float64 // as a whole
	added, cut []span  // at s = 0, planned
	length     bool    // it has become longer or shorter
}

func (s *scene) change(b *body) (c change) {
	if !b.now.known() || !b.plan.known() {
		return c
	}
	from, to := b.plan.from-b.now.from, b.plan.to-b.now.to
	if b.Tie != nil || math.Abs(from-to) < moved {
		c.shift = from
	}
	c.length = math.Abs(from-to) >= moved
	was := b.now.shifted(c.shift)
	ends := func(grown, shrunk span) {
		if grown.long() >= moved {
			c.added = append(c.added, grown)
		}
		if shrunk.long() >= moved {
			c.cut = append(c.cut, shrunk)
		}
	}
	ends(span{b.plan.from, min(was.from, b.plan.to)}, span{was.from, min(b.plan.from, was.to)})
	ends(span{max(was.to, b.plan.from), b.plan.to}, span{max(b.plan.to, was.from), was.to})
	return c
}

// pocket is what is cut out of a part over an interval: of a wall, where the
// width of a pocket is known, as high as the nut and a little more.
func (s *scene) pocket(b *body, at span) box {
	at = at.shifted(s.shift(b))
	top, foot := s.stands(b)
	if _, ok := s.value(b.Key+".pocket", s.to); ok && b.shape == hanging {
		top, foot = max(top, s.nutTop-0.8*s.u), min(foot, s.nutFoot+0.8*s.u)
	}
	return box{at.from, at.to, top, foot}
}

// teeth is the outline of a rack.
func (s *scene) teeth(b *body) Path {
	at := b.plan.shifted(s.shift(b))
	top, foot := s.stands(b)
	tip, gullet, back := top, top+1.6*s.u, foot
	if s.of("quill") == nil {
		tip, gullet, back = foot, foot-1.6*s.u, top
	}
	pitch := 3.2 * s.u
	if p := s.of("pinion"); p != nil {
		pitch = max(s.size(p.Key+".module", 1)*math.Pi, 1.6*s.u)
	}
	pitch = min(pitch, at.long())
	loop := []Point{{at.from, back}, {at.from, gullet}}
	for x := at.from; x+pitch <= at.to+same && len(loop) < 1200; x += pitch {
		loop = append(loop, Point{x + 0.15*pitch, gullet}, Point{x + 0.35*pitch, tip}, Point{x + 0.65*pitch, tip}, Point{x + 0.85*pitch, gullet})
	}
	return Path{Class: b.outline(), Loops: [][]Point{append(loop, Point{at.to, gullet}, Point{at.to, back})}}
}

// stem is what holds a travelling nut to the slide, through the slot in the ways.
func (s *scene) stem() {
	nut, slide, ways := s.of("nut"), s.slider(), s.of("ways")
	if nut == nil || slide == nil || ways == nil || nut.Side != slide.Side || ways.Side == nut.Side {
		return
	}
	at := nut.plan.shifted(s.shift(nut))
	half := at.long() * 0.28
	s.layer(nut).add(Lines{"ln-hidden", []Segment{
		{Point{at.mid() - half, s.under}, Point{at.mid() - half, s.nutTop}}, {Point{at.mid() + half, s.under}, Point{at.mid() + half, s.nutTop}}}})
}

// old draws the outlines of what was: of what has moved, and of the moving side
// where it ends now.
func (s *scene) old() {
	var fixed, moving region
	for i := range s.parts {
		b := &s.parts[i]
		if !b.ghost || !b.now.known() || b.now.long() <= same {
			continue
		}
		top, foot := s.stands(b)
		ch := s.change(b)
		switch {
		case b.Side == axis.Moving && (math.Abs(s.was-s.reached()) >= moved || math.Abs(ch.shift) >= moved):
			at := b.now.shifted(s.was)
			moving.add(box{at.from, at.to, top, foot})
			s.edges = append(s.edges, at.from, at.to)
		case b.Side == axis.Fixed && math.Abs(ch.shift) >= moved:
			fixed.add(box{b.now.from, b.now.to, top, foot})
			s.edges = append(s.edges, b.now.from, b.now.to)
		}
	}
	for _, g := range [...]*region{&fixed, &moving} {
		if len(g.patches) > 0 {
			s.out.ghosts.add(Path{Class: "ln-old", Loops: g.grid().loops()})
		}
	}
}

// reached is as far as is asked at the end that is looked at.
func (s *scene) reached() float64 {
	name := "asked_plus"
	if s.end == axis.Minus {
		name = "asked_minus"
	}
	v, _ := s.value(name, s.to)
	return v
}

// limits are the highest and the lowest that anything is drawn.
func (s *scene) limits() (top, foot float64) {
	top, foot = -4*s.u, 4*s.u
	for i := range s.parts {
		if b := &s.parts[i]; b.drawn() || b.now.known() {
			t, f := s.stands(b)
			top, foot = min(top, t), max(foot, f)
		}
	}
	return top, foot
}
