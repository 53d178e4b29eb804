package drawing

import (
	"math"
	"unicode"

	"fettle/plan/part"
	"fettle/plan/unit"
)

// roundSizes places the sizes of the half section: lengths below, depths of
// bores above, diameters at the ends.
func (v *view) roundSizes(p *part.Part, t *turning) {
	r, k, w := p.Round, v.k, v.words
	var below_, top, ends []mark
	open := false
	if len(t.steps) == 0 {
		return
	}
	given := lengths(p)
	for i, s := range t.steps {
		if given[i] && !(len(t.steps) == 1 && named(r.Length)) {
			text := w.size("", s.Length)
			below_ = append(below_, mark{size: s.Length, text: text, side: below, a: k * s.from, b: k * s.to, fa: k * t.corner(s.from, true), fb: k * t.corner(s.to, false)})
		} else {
			open = true
		}
	}
	if named(r.Length) {
		all := mark{size: r.Length, text: w.size("", r.Length), side: below, a: 0, b: k * t.long, fa: k * t.corner(0, true), fb: k * t.corner(t.long, false)}
		below_ = append(below_, all)
	} else if len(t.steps) > 1 && !open {
		all := part.Size{Nominal: t.long}
		below_ = append(below_, mark{size: all, text: w.bracketed("", t.long), side: below, a: 0, b: k * t.long, fa: k * t.corner(0, true), fb: k * t.corner(t.long, false)})
	}
	for _, s := range t.bores {
		if !depth(p, s.Step) || math.Abs(s.long()-s.Length.Nominal) > same {
			continue
		}
		y := -k * size(s.Dia) / 2
		m := mark{size: s.Length, text: w.size("", s.Length), side: above_, a: k * s.from, b: k * s.to, fa: y, fb: y}
		if s.Taper > 0 && s.right {
			m.fa = -k * radii(t.inside, s.from, true)
		} else if s.Taper > 0 {
			m.fb = -k * radii(t.inside, s.to, false)
		}
		top = append(top, m)
	}
	for _, f := range r.Flats {
		if named(f.Length) {
			o := k * radii(t.outside, place(f.At), true)
			below_ = append(below_, mark{size: f.Length, text: w.size("", f.Length), side: below, a: k * place(f.At), b: k * (place(f.At) + size(f.Length)), fa: o, fb: o})
		}
		if named(f.At) {
			below_ = append(below_, mark{size: f.At, text: w.size("", f.At), side: below, a: 0, b: k * place(f.At), fa: 0, fb: k * radii(t.outside, place(f.At), true)})
		}
	}
	for _, g := range r.Grooves {
		if named(g.At) {
			o := k * radii(t.outside, place(g.At), true)
			s, to := below, &below_
			if g.Inside {
				s, to, o = above_, &top, -k*size(g.Dia)/2
			}
			*to = append(*to, mark{size: g.At, text: w.size("", g.At), side: s, a: 0, b: k * place(g.At), fa: 0, fb: o})
		}
	}
	for _, c := range r.Cross {
		o := -k * radii(t.outside, place(c.At), true)
		if named(c.At) {
			top = append(top, mark{size: c.At, text: w.size("", c.At), side: above_, a: 0, b: k * place(c.At), fa: 0, fb: o})
		}
	}
	v.all(top)
	v.all(below_)

	var pointed []int
	for i, s := range t.steps {
		if r.Flange != nil && r.Flange.Step == i && size(r.Flange.Height) > 0 {
			continue
		}
		if s.Old && !named(s.Dia) {
			continue
		}
		right, ok := t.free(r, i)
		if !ok {
			pointed = append(pointed, i)
			continue
		}
		side, x := leftward, s.from
		if right {
			side, x = rightward, s.to
		}
		y := k * size(s.Dia) / 2
		if ch := s.chamfer(); !right && s.chamfered[0] {
			x += ch
		} else if right && s.chamfered[1] {
			x -= ch
		}
		ends = append(ends, mark{size: s.Dia, text: stepDia(w, s.Step, false), side: side, a: -y, b: y, fa: k * x, fb: k * x, dia: true})
	}
	for _, s := range t.bores {
		side, x := leftward, s.from
		if s.right {
			side, x = rightward, s.to
		}
		y := k * size(s.Dia) / 2
		if named(s.Dia) || !s.Old {
			ends = append(ends, mark{size: s.Dia, text: stepDia(w, s.Step, true), side: side, a: -y, b: y, fa: k * x, fb: k * x, half: true, stop: min(y, 2.5), dia: true})
		}
	}
	v.all(ends)
	for _, i := range pointed {
		s := t.steps[i]
		v.pointer(Point{k * s.mid(), k * size(s.Dia) / 2}, stepDia(w, s.Step, false), below, above_)
	}
	v.roundNotes(p, t)
}

// corner is the radius at which a step's end begins, chamfers and all.
func (t *turning) corner(x float64, after bool) float64 { return radii(t.outside, x, after) }

// stepDia writes a step's diameter: of a threaded one its designation.
func stepDia(w *words, s part.Step, inside bool) string {
	if s.Thread == "" {
		if s.Old {
			return w.bracketed(diaSign, s.Dia.Nominal)
		}
		t := w.size(diaSign, s.Dia)
		if s.Taper > 0 {
			t += ", taper 1 : " + unit.One.Text(s.Taper, 3)
		}
		return t
	}
	t := s.Thread
	if class(s.Dia.Limits) || threadClass(s.Dia.Limits) {
		t += " - " + s.Dia.Limits
	}
	return t
}

// threadClass tells whether limits are those of a thread: "6g", "6H", "2A".
func threadClass(s string) bool {
	return len(s) == 2 && s[0] >= '1' && s[0] <= '9' && (s[1] >= 'a' && s[1] <= 'z' || s[1] >= 'A' && s[1] <= 'Z')
}

// free tells from which end a step's diameter can be shown: no larger one stands
// between; the nearer end where both are free.
func (t *turning) free(r *part.Round, i int) (right, ok bool) {
	ra := t.radius(r, i)
	clear := [2]bool{true, true}
	for j := range t.steps {
		if t.radius(r, j) > ra+same {
			if j < i {
				clear[0] = false
			}
			if j > i {
				clear[1] = false
			}
		}
	}
	near := t.steps[i].mid() > t.long/2
	switch {
	case clear[0] && clear[1]:
		return near, true
	case clear[0]:
		return false, true
	case clear[1]:
		return true, true
	}
	return false, false
}

// roundNotes writes what is said beside an arrow: chamfers, grooves, cross holes.
func (v *view) roundNotes(p *part.Part, t *turning) {
	r, k, w := p.Round, v.k, v.words
	type chamfer struct {
		size float64
		at   []Point
		side side
	}
	var all []chamfer
	add := func(c float64, at Point, s side) {
		for i := range all {
			if math.Abs(all[i].size-c) < same && all[i].side == s {
				all[i].at = append(all[i].at, at)
				return
			}
		}
		all = append(all, chamfer{c, []Point{at}, s})
	}
	for i, s := range t.steps {
		c := s.chamfer()
		ra := t.radius(r, i)
		if s.chamfered[0] && !s.Old {
			add(c, Point{k * (s.from + c/2), k * (ra - c/2)}, below)
		}
		if s.chamfered[1] && !s.Old {
			add(c, Point{k * (s.to - c/2), k * (ra - c/2)}, below)
		}
	}
	for _, s := range t.bores {
		c := s.chamfer()
		ra := size(s.Dia) / 2
		if s.chamfered[0] && !s.Old {
			add(c, Point{k * (s.from + c/2), -k * (ra + c/2)}, above_)
		}
		if s.chamfered[1] && !s.Old {
			add(c, Point{k * (s.to - c/2), -k * (ra + c/2)}, above_)
		}
	}
	for _, c := range all {
		text := w.length(c.size) + " × 45°"
		if n := len(c.at); n > 1 {
			text += ", " + itoa(n) + " places"
		}
		p := c.at[len(c.at)-1]
		end := leftward
		if p.X > k*t.long/2 {
			end = rightward
		}
		v.pointer(p, text, c.side, end)
	}
	for _, g := range r.Grooves {
		at := place(g.At) + size(g.Width)/2
		y, s := k*size(g.Dia)/2, below
		if g.Inside {
			y, s = -y, above_
		}
		text := w.size("", g.Width) + " × " + w.size(diaSign, g.Dia)
		if g.Form != "" {
			text = g.Form + " " + text
		}
		v.pointer(Point{k * at, y}, text, s, above_+below-s)
	}
	for _, c := range r.Cross {
		at := k * place(c.At)
		o := -k * radii(t.outside, place(c.At), true)
		up, down := crossing(c)
		p, s := Point{at + k*size(c.Dia)/2, o}, above_
		switch {
		case down:
			p, s = Point{at + k*size(c.Dia)/2, -o}, below
		case !up:
			p, s = Point{at + k*size(c.Dia)/2*math.Sqrt2/2, k * size(c.Dia) / 2 * math.Sqrt2 / 2}, below
		}
		v.pointer(p, crossText(w, c), s, above_+below-s)
	}
}

func count(n int) string {
	if n < 2 {
		return ""
	}
	return itoa(n) + " × "
}

func crossText(w *words, c part.CrossHole) string {
	t := c.Thread
	if t == "" {
		t = w.size(diaSign, c.Dia)
	}
	if c.Through {
		t += " through"
	}
	if a := math.Mod(c.Angle, 360); a != 0 && math.Abs(a) < 360 {
		t += " at " + w.nominal(part.Size{Nominal: a, Angle: true})
	}
	return t + label(c.Label)
}

// label is what a feature is for, after its size.
func label(s string) string {
	if s == "" {
		return ""
	}
	return ", " + inLine(cut(s))
}

// inLine is a name within a sentence: its first letter small, unless it is a
// designation such as M6.
func inLine(s string) string {
	if r := []rune(s); len(r) > 1 && !unicode.IsLower(r[1]) {
		return s
	}
	return lower(s)
}
