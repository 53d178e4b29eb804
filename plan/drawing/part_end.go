package drawing

import (
	"math"
	"slices"

	"fettle/plan/part"
)

// endNeeded tells whether an end is to be seen, and which: the one nearer to
// what is not round.
func endNeeded(r *part.Round, t *turning) (left, needed bool) {
	if f := r.Flange; f != nil && f.Step >= 0 && f.Step < len(t.steps) {
		return t.steps[f.Step].mid() <= t.long/2, true
	}
	if len(r.Flats) > 0 {
		return place(r.Flats[0].At)+size(r.Flats[0].Length)/2 <= t.long/2, true
	}
	return true, false
}

// endView is a round part from its left or its right end.
func endView(p *part.Part, t *turning, k float64, w *words, left bool) *view {
	r := p.Round
	v := &view{k: k, words: w}
	v.covers(-k*t.most, k*t.most, -k*t.most, k*t.most)
	if f := r.Flange; f != nil {
		v.covers(-k*size(f.Width)/2, k*size(f.Width)/2, -k*size(f.Height)/2, k*size(f.Height)/2)
	}
	nearest := slices.Clone(t.steps)
	index := make([]int, len(nearest))
	for i := range index {
		index[i] = i
	}
	if !left {
		slices.Reverse(nearest)
		slices.Reverse(index)
	}
	seen := 0.0
	for n, s := range nearest {
		i := index[n]
		if f := r.Flange; f != nil && f.Step == i && size(f.Height) > 0 {
			v.flange(f, seen)
			seen = max(seen, size(f.Height)/2)
			continue
		}
		ra := size(s.Dia) / 2
		if ra <= seen+same {
			continue
		}
		seen = ra
		flat, has := flatOn(r, s)
		if has && size(flat.Across)/2 < ra {
			v.flatted(ra, size(flat.Across)/2)
		} else {
			v.lines.add(Circle{"ln-visible", 0, 0, k * ra})
		}
		if s.root > 0 {
			v.lines.add(threadArc(0, 0, k*s.root/2))
		}
	}
	// Bores from this end, and through ones from the other.
	narrow := math.Inf(1)
	for _, s := range t.bores {
		ra := size(s.Dia) / 2
		if s.right == left && !s.Through || ra >= narrow-same {
			continue
		}
		narrow = ra
		v.lines.add(Circle{"ln-visible", 0, 0, k * ra})
		if s.root > 0 {
			v.lines.add(threadArc(0, 0, k*s.root/2))
		}
	}
	out := 4.0
	v.lines.add(Lines{"ln-centre", []Segment{{Point{v.body.x0 - out, 0}, Point{v.body.x1 + out, 0}}, {Point{0, v.body.y0 - out}, Point{0, v.body.y1 + out}}}})
	v.endSizes(r, t)
	return v
}

// threadArc is the thin three quarters of a circle that stand for a thread seen from its end (ISO 6410-1).
func threadArc(x, y, r float64) Arc { return Arc{"ln-thin", x, y, r, 100, 355} }

// flange is its outline, and its holes.
func (v *view) flange(f *part.Flange, before float64) {
	k := v.k
	w, h := k*size(f.Width)/2, k*size(f.Height)/2
	c := min(k*size(f.Corner), w, h)
	v.lines.add(Lines{"ln-visible", []Segment{
		{Point{c - w, -h}, Point{w - c, -h}}, {Point{c - w, h}, Point{w - c, h}},
		{Point{-w, c - h}, Point{-w, h - c}}, {Point{w, c - h}, Point{w, h - c}},
	}})
	if c > same {
		v.lines.add(Arc{"ln-visible", c - w, c - h, c, 90, 180}, Arc{"ln-visible", c - w, h - c, c, 180, 270},
			Arc{"ln-visible", w - c, h - c, c, 270, 360}, Arc{"ln-visible", w - c, c - h, c, 0, 90})
	}
	for _, o := range f.Holes {
		x, y, ra := k*place(o.X), -k*place(o.Y), k*size(o.Dia)/2
		v.lines.add(Circle{"ln-visible", x, y, ra},
			Lines{"ln-centre", []Segment{{Point{x - ra - 1.5, y}, Point{x + ra + 1.5, y}}, {Point{x, y - ra - 1.5}, Point{x, y + ra + 1.5}}}})
	}
}

// absolute is a place as it is measured, whichever way it lies from the axis.
func absolute(s part.Size) part.Size {
	if s.Nominal < 0 {
		s.Nominal, s.Upper, s.Lower = -s.Nominal, -s.Lower, -s.Upper
	}
	return s
}

func flatOn(r *part.Round, s placedStep) (part.FlatOn, bool) {
	for _, f := range r.Flats {
		if at := place(f.At) + size(f.Length)/2; at > s.from && at < s.to {
			return f, true
		}
	}
	return part.FlatOn{}, false
}

// flatted is a round step with a flat on either side.
func (v *view) flatted(ra, half float64) {
	k := v.k
	a := math.Acos(half/ra) * 180 / math.Pi
	h := k * math.Sqrt(ra*ra-half*half)
	v.lines.add(Arc{"ln-visible", 0, 0, k * ra, a, 180 - a}, Arc{"ln-visible", 0, 0, k * ra, 180 + a, 360 - a},
		Lines{"ln-visible", []Segment{{Point{-k * half, -h}, Point{-k * half, h}}, {Point{k * half, -h}, Point{k * half, h}}}})
}

func (v *view) endSizes(r *part.Round, t *turning) {
	k, w := v.k, v.words
	var marks []mark
	if f := r.Flange; f != nil {
		x, y := k*size(f.Width)/2, k*size(f.Height)/2
		c := min(k*size(f.Corner), x, y)
		if size(f.Width) > 0 {
			marks = append(marks, mark{size: f.Width, text: w.size("", f.Width), side: below, a: -x, b: x, fa: y - c, fb: y - c})
		}
		if size(f.Height) > 0 {
			marks = append(marks, mark{size: f.Height, text: w.size("", f.Height), side: rightward, a: -y, b: y, fa: x - c, fb: x - c})
		}
		drawn := map[[2]float64]bool{}
		for _, o := range f.Holes {
			hx, hy := k*place(o.X), -k*place(o.Y)
			ra := k * size(o.Dia) / 2
			if hx != 0 && !drawn[[2]float64{hx, 0}] {
				drawn[[2]float64{hx, 0}] = true
				s, at := below, hy+ra+1.5
				marks = append(marks, mark{size: o.X, text: w.size("", absolute(o.X)), side: s, a: 0, b: hx, fa: v.body.y1, fb: at})
			}
			if hy != 0 && !drawn[[2]float64{0, hy}] {
				drawn[[2]float64{0, hy}] = true
				marks = append(marks, mark{size: o.Y, text: w.size("", absolute(o.Y)), side: rightward, a: 0, b: hy, fa: v.body.x1, fb: hx + ra + 1.5})
			}
		}
	}
	if len(r.Flats) > 0 {
		f := r.Flats[0]
		x := k * size(f.Across) / 2
		at := place(f.At) + size(f.Length)/2
		o := k * radii(t.outside, at, true)
		if x < o {
			y := -math.Sqrt(o*o - x*x)
			marks = append(marks, mark{size: f.Across, text: w.size("", f.Across), side: above_, a: -x, b: x, fa: y, fb: y})
		}
	}
	v.all(marks)
	if f := r.Flange; f != nil {
		if c := size(f.Corner); c > 0 && named(f.Corner) {
			x, y := k*size(f.Width)/2, k*size(f.Height)/2
			ca := min(k*c, x, y)
			sin, cos := math.Sincos(math.Pi / 4)
			v.pointer(Point{ca - x - ca*cos, ca - y - ca*sin}, w.size(radiusSign, f.Corner), above_)
		}
		for i, o := range f.Holes {
			n, first := 0, true
			for j, q := range f.Holes {
				if q.Dia.Nominal == o.Dia.Nominal && q.Label == o.Label && q.Dia.Limits == o.Dia.Limits {
					n++
					first = first && j >= i
				}
			}
			if !first {
				continue
			}
			v.pointerTo(Point{k * place(o.X), -k * place(o.Y)}, k*size(o.Dia)/2, count(n)+w.size(diaSign, o.Dia)+" through"+label(o.Label), above_, below)
		}
	}
}
