package drawing

import (
	"math"

	"fettle/plan/axis"
)

// heights of the parts, y downwards from the screw's axis; radii where it says so.
type heights struct {
	thread, shank         float64 // radii
	nutTop, nutFoot       float64
	waysFoot, under       float64 // under: the slide's underside and the ways' top
	slideTop, wallFoot    float64
	quill, hollow, casing float64 // radii: of a quill, of the bore in it, of what guides it
}

// paper finds how large a mm of paper is: the whole, over all of the travel, is
// some 300 of them wide, or what is widest around the axis is 100 high. room is
// what is written on beside the parts, from where to where; or [nowhere].
func (s *scene) paper(room span) {
	e := span{math.Inf(1), math.Inf(-1)}
	if room.known() {
		e = room
	}
	tallest := 0.0
	for i := range s.parts {
		b := &s.parts[i]
		for _, at := range [...]span{b.now, b.plan} {
			if b.Side == axis.Moving {
				at = span{at.from + s.sweep.from, at.to + s.sweep.to}
			}
			if at.known() {
				e = span{min(e.from, at.from), max(e.to, at.to)}
			}
		}
		for _, name := range [...]string{".dia", ".underside", ".height"} {
			v, _ := s.value(b.Key+name, s.to)
			tallest = max(tallest, v)
		}
	}
	s.u = 1
	if e.known() {
		s.u = max(e.long()/290, tallest/100, 0.02)
	}
	s.u = s.asScaled(s.u)
	s.rooms[up].apart, s.rooms[down].apart = 1.2*s.u, 1.2*s.u
}

// asScaled is a mm of paper: as is usual, unless a scale is asked for.
func (s *scene) asScaled(usual float64) float64 {
	if s.scale > 0 {
		return 1 / s.scale
	}
	return usual
}

// measure finds the heights: from the parts' own figures where they are known,
// as is usual where they are not.
func (s *scene) measure() {
	u := s.u
	label := 5.4 * u // what a name needs
	quill := 0.0
	if b := s.of("quill"); b != nil {
		quill = s.size(b.Key+".dia", 0) / 2
	}
	d := 12 * u
	if quill > 0 {
		d = 0.6 * quill
	}
	if b := s.of("shank"); b != nil {
		d = s.size(b.Key+".dia", d/1.2) * 1.2
	}
	if b := s.of("thread"); b != nil {
		d = s.size(b.Key+".dia", d)
	}
	s.thread, s.shank = d/2, 0.84*d/2
	if b := s.of("shank"); b != nil {
		s.shank = s.size(b.Key+".dia", 0.84*d) / 2
	}
	s.quill = quill
	if quill == 0 {
		s.quill = max(d, 9*u)
	}
	s.hollow = min(max(0.85*d, d/2+2*u), 0.8*s.quill)
	s.casing = s.quill + max(7*u, 0.35*s.quill)

	bracket, dial := 0.0, 0.0
	for i := range s.parts {
		b := &s.parts[i]
		b.outer = s.radius(b, d, label)
		switch {
		case b.Role == "bracket":
			bracket = max(bracket, b.outer)
		case b.Role == "dial":
			dial = max(dial, b.outer)
		}
	}
	s.nutTop, s.nutFoot = -(d/2 + max(0.15*d, 2*u)), max(d, d/2+label)
	s.pile(bracket, dial, label)
}

// pile puts ways and slide above the screw. The bracket passes below the slide
// and the dial does not, if their diameters allow it.
func (s *scene) pile(bracket, dial, label float64) {
	u := s.u
	foot := 0.6*u - s.nutTop
	high := max(foot+label, bracket+0.8*u)
	if dial > bracket {
		high = min(high, max((bracket+dial)/2, foot+3*u))
	}
	ways, slide := s.of("ways"), s.slider()
	if ways != nil {
		high = s.size(ways.Key+".height", high)
	}
	if slide != nil {
		high = s.size(slide.Key+".underside", high)
	}
	s.under = -high
	s.waysFoot = -min(foot, max(high-2*u, high/2))
	s.nutTop = max(s.nutTop, s.waysFoot+0.3*u)
	s.slideTop = s.under - max(8*u, 1.6*s.thread)
	s.wallFoot = max(s.nutFoot+label+0.8*u, bracket+1.6*u)
	if ways == nil {
		s.waysFoot = -s.wallFoot
	}
}

// radius of a body around the axis; 0 where it is none.
func (s *scene) radius(b *body, d, label float64) float64 {
	switch {
	case b.Role == "thread":
		return s.thread
	case b.Role == "shank":
		return s.shank
	case b.Role == "spline":
		return 0.35 * s.quill
	case b.Role == "lock_nut":
		return 0.85 * s.size(b.Key+".thread_dia", 1.6*s.shank) // over its flats, 1.7 diameters
	case b.shape == lump:
		return s.size(b.Key+".dia", 0) / 2
	case b.shape == sleeve:
		return s.size(b.Key+".dia", max(b.dia*d, d+2*label)) / 2
	}
	return 0
}

// stands is from where to where a body reaches, up and down.
func (s *scene) stands(b *body) (top, foot float64) {
	u := s.u
	switch b.shape {
	case along:
		return s.under, s.waysFoot
	case above:
		return s.slideTop, s.under
	case hanging:
		return s.waysFoot, s.wallFoot
	case tall:
		return s.slideTop - 6*u, s.wallFoot
	case rod, sleeve:
		return -b.outer, b.outer
	case block:
		if q := s.of("quill"); q != nil && q.Side == b.Side {
			return -s.hollow, s.hollow
		}
		return s.nutTop, s.nutFoot
	case barrel:
		return -s.quill, s.quill
	case housing:
		return -s.casing, s.casing
	case ring:
		return -s.quill - 4.5*u, s.quill + 4.5*u
	case strip:
		if s.of("quill") != nil {
			return -s.quill, 3*u - s.quill
		}
		return 4 * u, 9 * u
	case wheel:
		r := s.pitchRadius(b)
		if s.of("quill") != nil {
			return 1.2*u - s.quill - 2*r, 1.2*u - s.quill
		}
		return 7.5 * u, 7.5*u + 2*r
	case slot:
		return s.quill - 2.5*u, s.quill
	case peg:
		return s.quill - 2.5*u, s.quill + 4*u
	case lump:
		if b.outer > 0 {
			return -b.outer, b.outer
		}
		return s.slideTop, s.under
	}
	return 0, 0
}

// pitchRadius of a pinion: twelve teeth, where only its module is known.
func (s *scene) pitchRadius(b *body) float64 {
	return min(s.size(b.Key+".module", b.plan.long()/12)*6, 40*s.u)
}
