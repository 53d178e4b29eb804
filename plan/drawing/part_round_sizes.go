package drawing

import (
	"math"

	"fettle/plan/part"
	"fettle/plan/unit"
)

// roundSizes places the sizes of the half section: lengths below, depths of
// bores above, diameters at the ends.
func (v *view) roundSizes(p *part.Part, t *turning) {
	if len(t.steps) == 0 {
		return
	}
	long, deep := v.lengths(p, t), v.depths(p, t)
	over, under := v.positions(p.Round, t)
	v.all(append(deep, over...))
	v.all(append(long, under...))
	ends, pointed := v.outsides(p.Round, t)
	v.all(append(ends, v.insides(t)...))
	for _, i := range pointed {
		s := t.steps[i]
		v.pointer(Point{v.k * s.mid(), v.k * size(s.Dia) / 2}, stepDia(v.words, s.Step, false), below, above_)
	}
	v.roundNotes(p, t)
}

// lengths are those of the steps, and of the whole.
func (v *view) lengths(p *part.Part, t *turning) (all []mark) {
	r, k, w := p.Round, v.k, v.words
	open := false
	given := lengths(p)
	for i, s := range t.steps {
		if given[i] && !(len(t.steps) == 1 && named(r.Length)) {
			all = append(all, mark{size: s.Length, text: w.size("", s.Length), side: below, a: k * s.from, b: k * s.to, fa: k * t.corner(s.from, true), fb: k * t.corner(s.to, false)})
		} else {
			open = true
		}
	}
	whole := mark{side: below, a: 0, b: k * t.long, fa: k * t.corner(0, true), fb: k * t.corner(t.long, false)}
	switch {
	case named(r.Length):
		whole.size, whole.text = r.Length, w.size("", r.Length)
	case len(t.steps) > 1 && !open:
		whole.size, whole.text = part.Size{Nominal: t.long}, w.bracketed("", t.long)
	default:
		return all
	}
	return append(all, whole)
}

// depths are those of the bores.
func (v *view) depths(p *part.Part, t *turning) (all []mark) {
	k := v.k
	for _, s := range t.bores {
		if !depth(p, s.Step) || math.Abs(s.long()-s.Length.Nominal) > same {
			continue
		}
		y := -k * size(s.Dia) / 2
		m := mark{size: s.Length, text: v.words.size("", s.Length), side: above_, a: k * s.from, b: k * s.to, fa: y, fb: y}
		if s.Taper > 0 && s.right {
			m.fa = -k * radii(t.inside, s.from, true)
		} else if s.Taper > 0 {
			m.fb = -k * radii(t.inside, s.to, false)
		}
		all = append(all, m)
	}
	return all
}

// positions are how far from the left end what stands on the part is: flats,
// which have a length too, grooves, and holes across it.
func (v *view) positions(r *part.Round, t *turning) (over, under []mark) {
	k, w := v.k, v.words
	from := func(s part.Size, side side, y float64) mark {
		return mark{size: s, text: w.size("", s), side: side, a: 0, b: k * place(s), fa: 0, fb: y}
	}
	for _, f := range r.Flats {
		o := k * radii(t.outside, place(f.At), true)
		if named(f.Length) {
			under = append(under, mark{size: f.Length, text: w.size("", f.Length), side: below, a: k * place(f.At), b: k * (place(f.At) + size(f.Length)), fa: o, fb: o})
		}
		if named(f.At) {
			under = append(under, from(f.At, below, o))
		}
	}
	for _, g := range r.Grooves {
		switch {
		case !named(g.At):
		case g.Inside:
			over = append(over, from(g.At, above_, -k*size(g.Dia)/2))
		default:
			under = append(under, from(g.At, below, k*radii(t.outside, place(g.At), true)))
		}
	}
	for _, c := range r.Cross {
		if named(c.At) {
			over = append(over, from(c.At, above_, -k*radii(t.outside, place(c.At), true)))
		}
	}
	return over, under
}

// outsides are the diameters of the steps that can be shown at an end; pointed
// are those that a larger one stands before on either side.
func (v *view) outsides(r *part.Round, t *turning) (ends []mark, pointed []int) {
	k := v.k
	for i, s := range t.steps {
		flanged := r.Flange != nil && r.Flange.Step == i && size(r.Flange.Height) > 0
		if flanged || s.Old && !named(s.Dia) {
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
		ends = append(ends, mark{size: s.Dia, text: stepDia(v.words, s.Step, false), side: side, a: -y, b: y, fa: k * x, fb: k * x, dia: true})
	}
	return ends, pointed
}

// insides are the diameters of the bores, of which a half section shows one side.
func (v *view) insides(t *turning) (ends []mark) {
	k := v.k
	for _, s := range t.bores {
		if s.Old && !named(s.Dia) {
			continue
		}
		side, x := leftward, s.from
		if s.right {
			side, x = rightward, s.to
		}
		y := k * size(s.Dia) / 2
		ends = append(ends, mark{size: s.Dia, text: stepDia(v.words, s.Step, true), side: side, a: -y, b: y, fa: k * x, fb: k * x, half: true, stop: min(y, 2.5), dia: true})
	}
	return ends
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
