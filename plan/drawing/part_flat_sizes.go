package drawing

import (
	"math"
	"slices"
	"strings"

	"fettle/plan/part"
)

// faceSizes places the sizes on the face: lengths from the left end below it,
// widths from the front edge to its right, pockets above and to the left.
func (v *view) faceSizes(p *part.Part) {
	f, k, w := p.Flat, v.k, v.words
	var across_, up_ []mark
	whole := func(s part.Size, to float64, side side) {
		if !(size(s) > 0) || f.Outline && !named(s) {
			return
		}
		m := mark{size: s, text: w.size("", s), side: side, a: 0, b: to}
		if side == rightward {
			m.fa, m.fb = k*size(f.Length), k*size(f.Length)
		}
		if f.Outline && s.Name == "" { // the casting as it is
			m.text = w.bracketed("", s.Nominal)
		}
		if side == below {
			across_ = append(across_, m)
		} else {
			up_ = append(up_, m)
		}
	}
	whole(f.Length, k*size(f.Length), below)
	whole(f.Width, -k*size(f.Width), rightward)
	type place_ struct{ at, size float64 }
	var xs, ys []place_
	for _, x := range f.Features {
		px, py := k*place(x.X), -k*place(x.Y)
		ra := k*across(x)/2 + 1.5
		if !round(x) {
			ra = 0
		}
		if x.X.Nominal != 0 && !slices.Contains(xs, place_{px, x.X.Upper - x.X.Lower}) {
			xs = append(xs, place_{px, x.X.Upper - x.X.Lower})
			from := py + ra
			if !round(x) {
				from = v.ends(x).y
			}
			across_ = append(across_, mark{size: x.X, text: w.size("", x.X), side: below, a: 0, b: px, fb: from})
		}
		if x.Y.Nominal != 0 && !slices.Contains(ys, place_{py, x.Y.Upper - x.Y.Lower}) {
			ys = append(ys, place_{py, x.Y.Upper - x.Y.Lower})
			far := px + ra
			if !round(x) {
				far = v.ends(x).right
			}
			up_ = append(up_, mark{size: x.Y, text: w.size("", x.Y), side: rightward, a: 0, b: py, fa: k * size(f.Length), fb: far})
		}
		if round(x) {
			continue
		}
		b, e := v.cutout(x), v.ends(x)
		if size(x.Length) > 0 && !(x.Edge && b.x1-b.x0 > k*size(f.Length)-same) {
			across_ = once(across_, mark{size: x.Length, text: w.size("", x.Length), side: above_, a: b.x0, b: b.x1, fa: e.top, fb: e.top})
		}
		if size(x.Width) > 0 && !(x.Edge && b.y1-b.y0 > k*size(f.Width)-same) { // from edge to edge
			up_ = once(up_, mark{size: x.Width, text: w.size("", x.Width), side: leftward, a: b.y0, b: b.y1, fa: e.left, fb: e.left})
		}
	}
	v.all(across_)
	v.all(up_)
	v.holeNotes(f)
}

// once adds a mark unless one says the same in the same place.
func once(all []mark, m mark) []mark {
	if slices.ContainsFunc(all, func(o mark) bool {
		return o.side == m.side && o.text == m.text && math.Abs(o.a-m.a) < same && math.Abs(o.b-m.b) < same
	}) {
		return all
	}
	return append(all, m)
}

// tips are where the outline of a cutout can be taken hold of: the corners of a
// square one; of a slot the ends of its straight sides and of its rounds.
type tips struct{ left, right, top, y float64 }

func (v *view) ends(x part.Feature) tips {
	b := v.cutout(x)
	e := tips{b.x0, b.x1, b.y0, b.y1}
	if x.Kind != part.Slot {
		return e
	}
	if r := (b.y1 - b.y0) / 2; b.x1-b.x0 >= b.y1-b.y0 {
		return tips{b.x0 + r, b.x1 - r, (b.y0 + b.y1) / 2, (b.y0 + b.y1) / 2}
	}
	r := (b.x1 - b.x0) / 2
	return tips{b.x0 + r, b.x0 + r, b.y0 + r, b.y1 - r}
}

// holeNotes writes what each sort of hole is, beside an arrow to one of them.
func (v *view) holeNotes(f *part.Flat) {
	type sort struct {
		text string
		at   []part.Feature
	}
	var sorts []sort
	for _, x := range f.Features {
		t := v.feature(f, x)
		if t == "" {
			continue
		}
		i := slices.IndexFunc(sorts, func(s sort) bool { return s.text == t })
		if i < 0 {
			sorts = append(sorts, sort{text: t})
			i = len(sorts) - 1
		}
		sorts[i].at = append(sorts[i].at, x)
	}
	for _, s := range sorts {
		x := s.at[0]
		if round(x) {
			v.pointerTo(Point{v.k * place(x.X), -v.k * place(x.Y)}, v.k*minor(x)/2, count(len(s.at))+s.text, above_, below)
			continue
		}
		b := v.cutout(x)
		p := Point{b.x1 - min(2, (b.x1-b.x0)/4), b.y0}
		v.pointer(p, count(len(s.at))+s.text, above_, below)
	}
}

// feature is what stands beside the arrow to a feature; "" where its sizes say it.
func (v *view) feature(f *part.Flat, x part.Feature) string {
	w := v.words
	if strings.EqualFold(x.Label, string(x.Kind)) {
		x.Label = ""
	}
	depth := " through"
	if size(x.Depth) > 0 {
		depth = " × " + w.size("", x.Depth) + " deep"
		if x.Behind {
			depth += " from behind"
		}
	}
	switch x.Kind {
	case part.Hole:
		if x.Thread != "" {
			return x.Thread + depth + label(x.Label)
		}
		return w.size(diaSign, x.Dia) + depth + label(x.Label)
	case part.Dimple:
		return "dimple " + w.size(diaSign, x.Dia) + depth + label(x.Label)
	case part.Oil:
		return "oil groove" + depth + label(x.Label)
	}
	deep := ""
	if bevelled(f) && !through(f, x) { // no section shows it
		deep = w.size("", x.Depth) + " deep"
	}
	name := string(x.Kind)
	if x.Kind == part.Slot && x.Label != "" && !strings.Contains(strings.ToLower(x.Label), name) {
		x.Label = name + label(x.Label)
	}
	switch {
	case x.Label == "":
		return deep
	case deep == "":
		return inLine(cut(x.Label))
	}
	return inLine(cut(x.Label)) + ", " + deep
}

// bevelled tells whether the long edges of a block lean, as those of a gib strip.
func bevelled(f *part.Flat) bool { return f.Angle > 0 && f.Angle < 90 }

// cutMarks show on the face where the block is cut, and that it is seen from
// its back edge (ISO 128-3).
func (v *view) cutMarks(f *part.Flat, at float64) {
	y := -v.k * at
	l := v.k * size(f.Length)
	for _, e := range [...]struct{ x, sign float64 }{{0, -1}, {l, 1}} {
		for out := 2.0; ; out += 1.5 { // clear of what is written there
			from := Point{e.x + out*e.sign, y}
			end := Point{from.X + 4*e.sign, y}
			tail := Point{end.X, y - 5}
			mark := Text{Class: "view-name", X: end.X + 1.9*e.sign, Y: y - 1.6, Size: dimSize, Text: "A"}
			x0, x1, y0, y1 := mark.Box()
			if out < 100 && !(v.taken.clear(box{x0, x1, y0, y1}) && v.taken.passes(Segment{from, end}) && v.taken.passes(Segment{end, tail})) {
				continue
			}
			v.lines.add(Lines{"ln-visible", []Segment{{from, end}}}, Lines{"ln-thin", []Segment{{end, tail}}}, arrow(end, tail), mark)
			v.take(mark, []Segment{{from, end}, {end, tail}})
			break
		}
	}
	v.lines.line("ln-centre", -2, y, l+2, y)
}
