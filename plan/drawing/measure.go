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
	if l.Arr.Key == "spaced" {
		return s.standingMeasures(given), given.byKey
	}
	if opt.At == nil {
		s.at = 0
	}
	s.sweep = span{s.at, s.at}
	guessed := s.guess()
	s.paper()
	s.measure()
	s.bodies()
	s.datum()
	s.names()
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
	if b.Role == "wall" && nth > 0 {
		return span{118, 141}
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

// pointed is one place that letters point to.
type pointed struct {
	room    int
	x, y    float64
	across  bool // a diameter
	letters []string
	dim     *dim // of a length: between which lines
}

func (p pointed) long() float64 {
	if p.dim == nil {
		return 0
	}
	return p.dim.b - p.dim.a
}

// lettered gives every size its letter, the axis's own first, and places them.
func (s *scene) lettered(given *lettering) {
	var all []pointed
	if b := s.mover(); b != nil {
		long, ok := s.value("travel_found", s.to)
		if !ok || long <= 0 {
			long = 0.3 * b.plan.long()
		}
		top, _ := s.stands(b)
		x := b.plan.to + s.shift(b)
		all = append(all, pointed{room: up, dim: &dim{a: x, b: x + long, ya: top, yb: top}, letters: []string{given.next("travel_found")}})
	}
	for i := range s.parts {
		b := &s.parts[i]
		for _, size := range b.Sizes() {
			if p, ok := s.points(b, size.Key); ok {
				p.letters = []string{given.next(b.Key + "." + size.Key)}
				all = append(all, p)
			}
		}
	}
	s.put(all)
}

func (s *scene) letters(across bool, letters ...string) note {
	t := Text{Class: "letter", Size: labelSize * s.u}
	if across {
		t.Text = "⌀"
	}
	return note{Text: t, letters: letters}
}

// points is where a size of a part is seen from the side; ok is false where it is not.
func (s *scene) points(b *body, key string) (p pointed, ok bool) {
	top, foot := s.stands(b)
	at := b.plan.shifted(s.shift(b))
	p = pointed{room: down, y: foot}
	lies := b.shape == above || b.shape == along || b.shape == tall
	if lies || b.shape == housing || b.shape == ring || b.shape == strip {
		p.room, p.y = up, top
	}
	switch key {
	case "from", "gap":
		p.x = at.from
	case "to":
		p.x = at.to
	case "length":
		p.dim = &dim{a: at.from, b: at.to, ya: p.y, yb: p.y}
	case "dia", "thread_dia":
		p.x, p.across = at.from+0.35*at.long(), true
		if s.upward(b) {
			p.room, p.y = up, top
		}
	case "bore":
		p.x, p.across = at.from+0.7*at.long(), true
		p.y = s.inner(b)
		if s.upward(b) {
			p.room, p.y = up, -s.inner(b)
		}
	case "underside", "height":
		p.room, p.x, p.y = down, at.from+0.9*at.long(), s.under
	default:
		return p, false
	}
	return p, true
}

// inner is the radius of a body's bore, as it is drawn.
func (s *scene) inner(b *body) float64 {
	if b.shape == block {
		return s.thread
	}
	return s.shaft(b)
}

// put places the letters: those at one line together, the short lengths first.
func (s *scene) put(all []pointed) {
	var lines []pointed
	for _, p := range all {
		if p.dim != nil {
			lines = append(lines, p)
			continue
		}
		same := slices.IndexFunc(lines, func(o pointed) bool {
			return o.dim == nil && o.room == p.room && o.across == p.across && math.Abs(o.x-p.x) < 0.4*s.u
		})
		if same < 0 {
			lines = append(lines, p)
			continue
		}
		o := &lines[same]
		o.letters = append(o.letters, p.letters...)
		if p.room == down {
			o.y = min(o.y, p.y)
		} else {
			o.y = max(o.y, p.y)
		}
	}
	slices.SortStableFunc(lines, func(a, b pointed) int { return cmp.Compare(a.long(), b.long()) })
	for _, p := range lines {
		if p.dim != nil {
			p.dim.note = s.letters(false, p.letters...)
			s.dimension(&s.out.dims, p.room, *p.dim)
			continue
		}
		s.leader(&s.out.dims, p.room, []Point{{p.x, p.y}}, s.letters(p.across, p.letters...), "dim")
	}
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
