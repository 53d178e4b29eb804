package drawing

import (
	"math"
	"slices"
	"unicode"

	"fettle/plan/part"
)

// roundNotes writes what is said beside an arrow: chamfers, grooves, cross holes.
func (v *view) roundNotes(p *part.Part, t *turning) {
	r, k, w := p.Round, v.k, v.words
	v.chamfers(r, t)
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

// chamfers are told once for all of a size on one side of the axis.
func (v *view) chamfers(r *part.Round, t *turning) {
	k := v.k
	type alike struct {
		size float64
		at   []Point
		side side
	}
	var all []alike
	add := func(s placedStep, ra float64, side side) {
		if s.Old {
			return
		}
		c, away := s.chamfer(), 1.0 // where the middle of its edge is, from the axis
		if side == below {
			away = -1
		}
		for i, x := range [...]float64{s.from + c/2, s.to - c/2} {
			if !s.chamfered[i] {
				continue
			}
			at := Point{k * x, -away * k * (ra + away*c/2)}
			if j := slices.IndexFunc(all, func(a alike) bool { return math.Abs(a.size-c) < same && a.side == side }); j >= 0 {
				all[j].at = append(all[j].at, at)
			} else {
				all = append(all, alike{c, []Point{at}, side})
			}
		}
	}
	for i, s := range t.steps {
		add(s, t.radius(r, i), below)
	}
	for _, s := range t.bores {
		add(s, size(s.Dia)/2, above_)
	}
	for _, c := range all {
		text := v.words.length(c.size) + " × 45°"
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
}

// crossText is the size of a hole across the axis, and what it is for.
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

// count is a number of like things before their size: "4 × "; of one nothing.
func count(n int) string {
	if n < 2 {
		return ""
	}
	return itoa(n) + " × "
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
