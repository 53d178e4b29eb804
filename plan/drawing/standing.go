package drawing

import "math"

// standing draws an axis on which nothing is wound: a table, and a head that
// goes up and down a column beside it, at its highest, with the lowest in
// dashes, what was in grey, and the new block under the column in blue.
func (s *scene) standing() *Drawing {
	p, ok := s.post()
	if !ok {
		return s.sheet(s.l.Label + ", upright")
	}
	p.draw()
	was, okW := s.value("highest", s.from)
	if okW && math.Abs(p.high-was) >= moved {
		p.head(&s.out.ghosts, "ln-old", was)
	}
	old := func(name string, is float64) string {
		if v, ok := s.value(name, s.from); ok && v >= moved && math.Abs(v-is) >= moved {
			return s.text(v)
		}
		return ""
	}
	u := s.u
	right := headWide * u
	p.size(rise{from: 0, to: p.low, x: right + 8*u, reach: p.nose() + noseWide*u/2, note: s.figure(s.text(p.low), old("lowest_planned", p.low))})
	p.size(rise{from: 0, to: p.high, x: right + 16*u, reach: p.nose() + noseWide*u/2, note: s.figure(s.text(p.high), old("highest", p.high))})
	if p.riser >= moved {
		p.size(rise{from: -p.foot, to: p.riser - p.foot, x: -(postWide + 7) * u, reach: -postWide * u, note: s.figure(s.text(p.riser), old("riser", p.riser))})
	}
	p.job("tallest_job", "tallest work")
	d := s.sheet(s.l.Label + ", upright")
	d.Class = "drawing drawing-upright"
	d.Desc = p.describe()
	return d
}

// raised tells whether all that changes is the block under the column, which takes
// along whatever lies on the axis.
func (s *scene) raised() bool {
	changes := func(name string) bool {
		is, _ := s.value(name, s.to)
		was, _ := s.value(name, s.from)
		return math.Abs(is-was) >= moved
	}
	return changes("riser") && !changes("travel")
}

// post is a column with its head: x from its face to the right, heights above
// the table's top.
type post struct {
	*scene
	low, high    float64
	riser, fresh float64 // the block under the column, and what of it is new
	foot         float64 // how far the column's foot stands below the table's top
}

// Sizes on paper, in mm; the heights above the table and the block are to scale.
const (
	postWide  = 24.0
	headWide  = 56.0
	headHigh  = 20.0
	noseWide  = 12.0
	noseLong  = 5.0
	tableWide = 66.0
	tableHigh = 7.0
	baseHigh  = 8.0
)

func (s *scene) post() (p post, ok bool) {
	low, okL := s.value("lowest_planned", s.to)
	high, okH := s.value("highest", s.to)
	if !okL || !okH || high < low || !(high > 0) {
		return p, false
	}
	riser, _ := s.value("riser", s.to)
	now, _ := s.value("riser", s.from)
	s.u = s.asScaled(max(high/95, riser/95, 0.02))
	return post{scene: s, low: low, high: high, riser: max(riser, 0), fresh: max(riser-max(now, 0), 0), foot: (tableHigh + 7) * s.u}, true
}

// nose is the spindle's axis along x.
func (p post) nose() float64 { return 0.66 * headWide * p.u }

func (p post) put(g *Shapes, class string, b box, way int) {
	var r region
	r.add(b)
	t := r.grid()
	g.add(Path{Class: class, Loops: t.loops()}, hatch(t.strips(), way, 3*p.u))
}

func (p post) draw() {
	u, g := p.u, &p.out.fixed
	table := 10 * u
	p.put(g, "fill-part ln-visible", box{-(postWide + 3) * u, table + tableWide*u, p.foot, p.foot + baseHigh*u}, rising)
	p.put(g, "fill-part ln-visible", box{table + 14*u, table + (tableWide-14)*u, tableHigh * u, p.foot}, rising)
	p.put(g, "fill-part ln-visible", box{table, table + tableWide*u, 0, tableHigh * u}, falling)
	p.label("table", table+tableWide*u/2, tableHigh*u/2)
	post := box{-postWide * u, 0, -p.high - (noseLong+headHigh+8)*u, p.foot - p.riser}
	if was := p.riser - p.fresh; was > moved {
		p.put(g, "fill-part ln-visible", box{post.x0, post.x1, p.foot - was, p.foot}, falling)
	}
	if p.fresh > moved {
		p.put(g, "fill-new", box{post.x0, post.x1, post.y1, post.y1 + p.fresh}, falling)
		if p.fresh > 5*u {
			p.label("riser", -postWide*u/2, post.y1+p.fresh/2)
		}
	}
	p.put(g, "fill-part ln-visible", post, plain)
	p.label("column", -postWide*u/2, -p.high*0.45)
	p.head(g, "ln-hidden", p.low)
	p.head(g, "fill-part ln-visible", p.high)
	p.label("head", headWide*u*0.33, -p.high-(noseLong+headHigh/2)*u)
	g.line("ln-centre", p.nose(), -p.high-(noseLong+headHigh+5)*u, p.nose(), 3*u)
}

func (p post) label(text string, x, y float64) {
	p.out.fixedLabels.add(Text{Class: "part-label", X: x, Y: y + 0.35*labelSize*p.u, Size: labelSize * p.u, Text: text})
}

// head draws head and spindle with its nose at a height.
func (p post) head(g *Shapes, class string, nose float64) {
	u := p.u
	var r region
	r.add(box{0, headWide * u, -nose - (headHigh+noseLong)*u, -nose - noseLong*u})
	r.add(box{p.nose() - noseWide*u/2, p.nose() + noseWide*u/2, -nose - noseLong*u, -nose})
	g.add(Path{Class: class, Loops: r.grid().loops()})
}

// job draws work of a height on the table.
func (p post) job(name, label string) {
	v, ok := p.value(name, p.to)
	if !ok || !(v > 0) {
		return
	}
	u := p.u
	x := p.nose()
	var r region
	r.add(box{x - 9*u, x + 9*u, -v, 0})
	p.out.ghosts.add(Path{Class: "ln-job", Loops: r.grid().loops()})
	p.out.fixedLabels.add(Text{Class: "part-label", X: x - 3*u, Y: -v / 2, Size: labelSize * u, Text: label + " " + p.text(v), Upright: true})
}

// rise is one upright dimension.
type rise struct {
	from, to float64 // heights
	x        float64 // of the dimension line
	reach    float64 // x from where its lines are drawn
	note
}

// size draws an upright dimension: text along its line, or beside it where it
// is longer than the line.
func (p post) size(d rise) {
	u, g := p.u, &p.out.dims
	over := 1.2 * u
	if d.x < d.reach {
		over = -over
	}
	y0, y1 := -d.from, -d.to
	if y0 < y1 {
		y0, y1 = y1, y0
	}
	g.add(Lines{"dim", []Segment{{Point{d.reach + over/2, y0}, Point{d.x + over, y0}}, {Point{d.reach + over/2, y1}, Point{d.x + over, y1}}, {Point{d.x, y0}, Point{d.x, y1}}}})
	in := arrowLong * u
	if y0-y1 < (2*arrowLong+1)*u {
		in = -in
		g.line("dim", d.x, y0-1.6*in, d.x, y1+1.6*in)
	}
	half := arrowHalf * u
	g.add(Path{Class: "dim-arrow", Loops: [][]Point{
		{{d.x, y0}, {d.x - half, y0 - in}, {d.x + half, y0 - in}}, {{d.x, y1}, {d.x - half, y1 + in}, {d.x + half, y1 + in}}}})
	wide, mid := d.width(), (y0+y1)/2
	switch {
	case len(d.letters) == 0 && wide+u <= y0-y1:
		t := d.Text
		t.X, t.Y, t.Upright = d.x-0.9*u, mid, true
		g.add(t)
	case d.x < d.reach:
		d.put(g, d.x-u-wide/2, mid+0.36*d.Size)
	default:
		d.put(g, d.x+u+wide/2, mid+0.36*d.Size)
	}
}

func (p post) describe() string {
	w := p.units.With
	t := "Upright, heights above the table to scale, in " + p.unitName() + ". The spindle's nose stands from " + w(p.low) + " to " + w(p.high) + " above the table"
	if low, ok := p.value("lowest_planned", p.from); ok && math.Abs(low-p.low) >= moved {
		high, _ := p.value("highest", p.from)
		t += ", now from " + w(low) + " to " + w(high)
	}
	t += "."
	if p.riser >= moved {
		t += " Under the column stands a block of " + w(p.riser) + "."
	}
	if p.fresh >= moved {
		t += " " + w(p.fresh) + " of it is new."
	}
	for _, j := range [...]struct{ name, label string }{{"tallest_job", "The tallest work"}, {"lowest_job", "The lowest work"}} {
		if v, ok := p.value(j.name, p.to); ok {
			t += " " + j.label + " needs " + w(v) + "."
		}
	}
	return t
}

// standingMeasures is the same as found, with letters at what is to be measured.
// What is not measured is drawn as on a bench mill of common size.
func (s *scene) standingMeasures(given *lettering) *Drawing {
	usual := func(name string, otherwise float64) float64 {
		if v, ok := s.value(name, s.to); ok && v > 0 {
			return v
		}
		return otherwise
	}
	long := usual("travel_found", 180)
	low := usual("lowest", long/3)
	p := post{scene: s, low: low, high: low + long}
	s.u = s.asScaled(max(p.high/95, 0.02))
	u := s.u
	p.foot = (tableHigh + 7) * u
	p.draw()
	right, nose := headWide*u, p.nose()+noseWide*u/2
	known := map[string]rise{
		"lowest":       {from: 0, to: p.low, x: right + 8*u, reach: nose},
		"travel_found": {from: p.low, to: p.high, x: right + 8*u, reach: nose},
		"column":       {from: -p.foot, to: p.high + (noseLong+headHigh/2)*u, x: -(postWide + 7) * u, reach: -postWide * u},
		"tallest_job":  {from: 0, to: usual("tallest_job", 0.8*p.high), x: right + 16*u, reach: nose},
		"lowest_job":   {from: 0, to: usual("lowest_job", 0.6*p.low), x: right + 24*u, reach: nose},
	}
	for _, size := range s.l.Arr.Sizes {
		if d, ok := known[size.Key]; ok {
			d.note = s.letters(false, given.next(size.Key))
			p.size(d)
		}
	}
	d := s.sheet(s.l.Label + ", what to measure")
	d.Class = "drawing drawing-upright"
	d.Desc = "A table, a column beside it and a head that goes up and down, with a letter at each size to measure."
	return d
}
