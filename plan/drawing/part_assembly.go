package drawing

import (
	"cmp"
	"math"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Set is all that is drawn of a change of one axis: how it goes together, and
// its parts.
type Set struct {
	Layout *axis.Layout // nil where there is nothing to show but the parts
	Result *sheet.Result
	View   Options // of the assembly: at which position it stands
	Parts  []part.Part
}

// Sheets draws a set: the assembly from the side, now and as planned; the parts
// of the axis's end pulled apart in the order in which they go on; then each
// part. They are numbered as one set.
func Sheets(set Set, opt SheetOptions) []*Drawing {
	opt = opt.usual()
	var all []*page
	if set.Layout != nil && set.Result != nil {
		all = append(all, assembly(set, opt))
		if g := exploded(set, opt); g != nil {
			all = append(all, g)
		}
	}
	for i := range set.Parts {
		all = append(all, partPages(&set.Parts[i], i+1, opt)...)
	}
	return bound(all, opt)
}

// assembly is the side view on a sheet, at the largest scale of ISO 5455 at which it fits.
func assembly(set Set, opt SheetOptions) *page {
	l := set.Layout
	title := l.Label + ", assembly"
	view := set.View
	view.Units = opt.Units
	var g *page
	var d *Drawing
	for _, k := range scales {
		if k > 1 {
			continue
		}
		view.Scale = k
		d = SideView(l, set.Result, view)
		for _, across := range [...]bool{true, false} {
			g = ownPage(title, "assembly", k, across, opt)
			g.write(assemblyNotes)
			w, h := d.Width*k, d.Height*k
			fw, fh := g.free.x1-g.free.x0, g.free.y1-g.free.y0
			if w <= fw && h <= fh {
				g.shapes = append(g.shapes, Shapes(d.Shapes).shifted(-d.X, -d.Y).scaled(k).shifted(g.free.x0+(fw-w)/2, g.free.y0+(fh-h)/2)...)
				g.desc = []string{d.Desc}
				return g
			}
		}
	}
	g = ownPage(title, "assembly", 1, true, opt)
	g.write(assemblyNotes)
	k := min((g.free.x1-g.free.x0)/d.Width, (g.free.y1-g.free.y0)/d.Height)
	g.shapes = append(g.shapes, Shapes(d.Shapes).shifted(-d.X, -d.Y).scaled(k).shifted(g.free.x0, g.free.y0)...)
	g.scale, g.noScale, g.desc = k, true, []string{d.Desc}
	return g
}

var assemblyNotes = []string{"To scale along the axis; heights that were not measured are as usual.", "Thin: as it is. Dashed: metal to cut away. Tinted: new metal."}

// ownPage is a page that is of no one part.
func ownPage(title, kind string, k float64, across bool, opt SheetOptions) *page {
	g := newPage(nil, 0, k, across, opt)
	g.label = title
	g.fill = plate{owner: opt.Owner, machine: opt.Machine, title: title, number: opt.Number, date: opt.Date, creator: opt.Creator, kind: kind, general: "–", quantity: "1"}
	return g
}

// piece is one thing of an exploded view.
type piece struct {
	label string
	view  *view
	at    float64 // where it lies on the axis
	mark  string
	is    string // "to make", "to alter"; "" for one that stays as it is
}

// ends are the roles of what goes onto the end of a screw, in no order.
var ends = []string{"bracket", "dial", "handle", "lock_nut", "spline_sleeve", "collar"}

// exploded is what goes onto the axis's end, pulled apart along it; nil where
// there is nothing of that sort.
func exploded(set Set, opt SheetOptions) *page {
	s := newScene(set.Layout, set.Result, Options{Units: opt.Units}, sheet.Now, sheet.Planned)
	if set.Layout.Spaced() {
		return nil
	}
	s.paper(nowhere)
	s.measure()
	title := set.Layout.Label + ", in order of fitting"
	var g *page
	for _, k := range scales {
		if k > 2 {
			continue
		}
		pieces := s.pieces(set.Parts, k, opt)
		if len(pieces) < 2 || !slices.ContainsFunc(pieces, func(p piece) bool { return p.is != "" }) {
			return nil
		}
		for _, across := range [...]bool{true, false} {
			g = ownPage(title, "exploded view", k, across, opt)
			notes := []string{"In the order in which they go on, from the left."}
			for _, p := range pieces {
				n := p.mark + "  " + capital(p.label)
				if p.is != "" {
					n += " (" + p.is + ", see its own sheet)"
				}
				notes = append(notes, n)
			}
			g.write(notes)
			if g.spread(pieces) {
				return g
			}
		}
	}
	return nil
}

// pieces are the parts of the axis's end: those to make as they are to be, the
// others as plain rings of their own sizes.
func (s *scene) pieces(parts []part.Part, k float64, opt SheetOptions) []piece {
	w := &words{units: opt.Units, general: opt.General}
	var all []piece
	var lies float64
	some := false
	for i := range parts {
		p := &parts[i]
		if p.Round == nil {
			continue
		}
		v := &view{k: k, words: w}
		v.halfSection(p, turned(p.Round), rising)
		if b := s.named(p.Replaces); b != nil {
			lies = b.plan.from
		} else if b := s.of("shank"); b != nil && !some {
			lies = b.plan.from
		} else {
			lies += 1e-3 // after the one before
		}
		some = true
		is := "to make"
		if p.Altered {
			is = "to alter"
		}
		all = append(all, piece{label: p.Label, view: v, at: lies, is: is})
	}
	for i := range s.parts {
		b := &s.parts[i]
		if !b.drawn() || !slices.Contains(ends, b.Role) || b.outer <= 0 || slices.ContainsFunc(parts, func(p part.Part) bool { return p.Round != nil && p.Replaces == b.Key }) {
			continue
		}
		bore := min(s.shank, 0.8*b.outer)
		ring := part.Part{Round: &part.Round{
			Outside: []part.Step{{Length: part.Size{Nominal: b.plan.long()}, Dia: part.Size{Nominal: 2 * b.outer}, Old: true}},
			Left:    []part.Step{{Through: true, Dia: part.Size{Nominal: 2 * bore}, Old: true}},
		}}
		v := &view{k: k, words: w}
		v.halfSection(&ring, turned(ring.Round), falling)
		all = append(all, piece{label: b.Label, view: v, at: b.plan.from})
	}
	slices.SortStableFunc(all, func(a, b piece) int { return cmp.Compare(a.at, b.at) })
	for i := range all {
		all[i].mark = itoa(i + 1)
	}
	return all
}

const explodedApart = 12.0

// spread lays pieces out along their common centre line; false where they do not fit.
func (g *page) spread(pieces []piece) bool {
	long, high := -explodedApart, 0.0
	for _, p := range pieces {
		long += p.view.body.x1 - p.view.body.x0 + explodedApart
		high = max(high, -p.view.body.y0, p.view.body.y1)
	}
	fw, fh := g.free.x1-g.free.x0-12, g.free.y1-g.free.y0
	if !(long <= fw && 2*high+24 <= fh) {
		return false
	}
	y := (g.free.y0+g.free.y1)/2 + 6
	x := (g.free.x0+g.free.x1)/2 - long/2
	g.shapes.line("ln-centre", x-6, y, x+long+6, y)
	for _, p := range pieces {
		b := p.view.body
		var lines Shapes
		for _, s := range p.view.lines {
			if l, ok := s.(Lines); ok && l.Class == "ln-centre" {
				continue
			}
			lines.add(s)
		}
		dx := x - b.x0
		g.shapes = append(g.shapes, lines.shifted(dx, y)...)
		at := x + (b.x1-b.x0)/2
		top := y - high - 9
		g.shapes.add(Lines{"dim", []Segment{{Point{at, top + 3.2}, Point{at, y - math.Min(-b.y0, b.y1)*0.7}}}},
			Circle{"dim-arrow", at, y - math.Min(-b.y0, b.y1)*0.7, 0.5},
			Circle{"letter-mark", at, top, 3.2}, Text{Class: "letter", X: at, Y: top + 0.36*labelSize, Size: labelSize, Text: p.mark})
		x += b.x1 - b.x0 + explodedApart
	}
	return true
}
