package drawing

import (
	"math"

	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Sizes of a plot, in CSS pixels.
const (
	plotWide  = 560.0
	plotLeft  = 64.0 // room for the numbers up the side
	plotRight = 96.0 // and for what the limit is
	plotHigh  = 132.0
	plotTop   = 26.0 // room for the name of what is drawn up the side
	plotFoot  = 40.0
	plotType  = 13.0
	plotDot   = 4.5
)

// Curve plots what a goal costs: the goal along, each price up a panel of its
// own with its limit, and the chosen point on every line.
func Curve(id string, c machine.Curve, u unit.Unit) *Drawing {
	d := &Drawing{ID: id, Class: "plot", Title: "What " + lower(c.Goal.Label) + " costs", PxPerUnit: 1, Width: plotWide}
	x := plotScale(plotLeft, plotWide-plotRight, goals(c)...)
	goalUnit := shownIn(u, c.Goal)
	chosen, ok := at(c, c.Amount.Value)
	y := 0.0
	var g Shapes
	for i, p := range c.Prices {
		panel(&g, c, i, x, y+plotTop, shownIn(u, p.Figure), chosen, ok)
		y += plotTop + plotHigh + 14
	}
	y -= 14
	for _, v := range x.ticks() {
		g.line("ln-thin", x.at(v), y, x.at(v), y+4)
		g.add(Text{Class: "far-number", X: x.at(v), Y: y + 18, Size: plotType, Text: goalUnit.Text(v, goalUnit.Decimals)})
	}
	g.add(Text{X: plotWide - plotRight, Y: y + 35, Size: plotType, Anchor: End, Text: c.Goal.Label + ", " + goalUnit.Symbol})
	d.Shapes, d.Height = g, y+plotFoot
	d.Desc = c.Goal.Label + " along"
	for _, p := range c.Prices {
		pu := shownIn(u, p.Figure)
		d.Desc += "; " + p.Label + " up, now planned at " + pu.With(p.Value) + ", its limit " + pu.With(p.Limit)
	}
	d.Desc += "."
	return d
}

// panel is one price against the goal.
func panel(g *Shapes, c machine.Curve, i int, x scale, top float64, u unit.Unit, chosen machine.Point, some bool) {
	p := c.Prices[i]
	values := []float64{p.Limit}
	for _, pt := range c.Points {
		values = append(values, pt.Prices[i])
	}
	y := plotScale(top+plotHigh, top, values...)
	g.add(Text{X: plotLeft, Y: top - 10, Size: plotType, Anchor: Start, Text: p.Label + ", " + u.Symbol})
	g.add(Path{Class: "ln-thin", Open: true, Loops: [][]Point{{{plotLeft, top}, {plotLeft, top + plotHigh}, {plotWide - plotRight, top + plotHigh}}}})
	for _, v := range y.ticks() {
		g.line("ln-thin", plotLeft-4, y.at(v), plotLeft, y.at(v))
		g.add(Text{Class: "far-number", X: plotLeft - 8, Y: y.at(v) + 4, Size: plotType, Anchor: End, Text: u.Text(v, u.Decimals)})
	}
	if !math.IsNaN(p.Limit) {
		g.line("ln-cut", plotLeft, y.at(p.Limit), plotWide-plotRight, y.at(p.Limit))
		word := "least "
		if p.Most {
			word = "most "
		}
		g.add(Text{X: plotWide - plotRight + 6, Y: y.at(p.Limit) + 4, Size: plotType, Anchor: Start, Text: word + u.Text(p.Limit, u.Decimals)})
	}
	var run []Point
	flush := func() {
		if len(run) > 1 {
			g.add(Path{Class: "ln-new", Open: true, Loops: [][]Point{run}})
		}
		run = nil
	}
	for _, pt := range c.Points {
		if math.IsNaN(pt.Goal) || math.IsNaN(pt.Prices[i]) {
			flush()
			continue
		}
		run = append(run, Point{x.at(pt.Goal), y.at(pt.Prices[i])})
	}
	flush()
	if some && !math.IsNaN(chosen.Goal) && !math.IsNaN(chosen.Prices[i]) {
		cx, cy := x.at(chosen.Goal), y.at(chosen.Prices[i])
		g.line("ln-hidden", cx, top+plotHigh, cx, cy)
		g.add(Circle{Class: "far-can", X: cx, Y: cy, R: plotDot})
		g.add(chosenText(c, i, x, y, cx, cy, u.Text(chosen.Prices[i], u.Decimals)))
	}
}

// chosenText puts the figure of the chosen point where its line does not run: above
// it, left of a line that rises and right of one that falls, or below it on the
// other side where there is no room.
func chosenText(c machine.Curve, i int, x, y scale, cx, cy float64, text string) Text {
	right := true
	for j := 1; j < len(c.Points); j++ {
		a, b := c.Points[j-1], c.Points[j]
		from, to := x.at(a.Goal), x.at(b.Goal)
		if from != to && min(from, to) <= cx && cx <= max(from, to) {
			right = (y.at(b.Prices[i])-y.at(a.Prices[i]))/(to-from) >= 0
			break
		}
	}
	t := Text{Class: "far-asked", X: cx + 8, Y: cy - 8, Size: plotType, Anchor: Start, Text: text}
	const room = 60
	if noRoom := right && cx > plotWide-plotRight-room || !right && cx < plotLeft+room; noRoom {
		right, t.Y = !right, cy+8+plotType
	}
	if !right {
		t.X, t.Anchor = cx-8, End
	}
	return t
}

func goals(c machine.Curve) []float64 {
	all := make([]float64, 0, len(c.Points))
	for _, p := range c.Points {
		all = append(all, p.Goal)
	}
	return all
}

// at is the point of a curve where the wish is what was chosen, between two
// that were worked out.
func at(c machine.Curve, amount float64) (machine.Point, bool) {
	for i := 1; i < len(c.Points); i++ {
		a, b := c.Points[i-1], c.Points[i]
		if amount < a.Amount || amount > b.Amount {
			continue
		}
		share := (amount - a.Amount) / (b.Amount - a.Amount)
		between := func(x, y float64) float64 { return x + share*(y-x) }
		out := machine.Point{Amount: amount, Goal: between(a.Goal, b.Goal)}
		for j := range a.Prices {
			out.Prices = append(out.Prices, between(a.Prices[j], b.Prices[j]))
		}
		return out, true
	}
	return machine.Point{}, false
}

// shownIn is the unit that a figure is shown in.
func shownIn(u unit.Unit, f sheet.Figure) unit.Unit {
	if f.Unit == unit.MM {
		return u
	}
	return f.Unit
}

// scale maps values to places.
type scale struct{ from, to, low, high float64 }

func plotScale(from, to float64, values ...float64) scale {
	s := scale{from, to, math.Inf(1), math.Inf(-1)}
	for _, v := range values {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			s.low, s.high = min(s.low, v), max(s.high, v)
		}
	}
	if !(s.high > s.low) {
		s.low, s.high = s.low-1, s.high+1
	}
	if math.IsInf(s.low, 0) {
		s.low, s.high = 0, 1
	}
	step := s.step()
	s.low, s.high = math.Floor(s.low/step+1e-9)*step, math.Ceil(s.high/step-1e-9)*step
	return s
}

func (s scale) at(v float64) float64 { return s.from + (v-s.low)/(s.high-s.low)*(s.to-s.from) }

// step is a round distance, of which four to eight fill the scale.
func (s scale) step() float64 {
	rough := (s.high - s.low) / 4
	base := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, k := range []float64{1, 2, 2.5, 5, 10} {
		if k*base >= rough {
			return k * base
		}
	}
	return 10 * base
}

func (s scale) ticks() []float64 {
	step := s.step()
	var all []float64
	for i := 0; ; i++ {
		v := s.low + float64(i)*step
		if v > s.high+step/100 {
			return all
		}
		all = append(all, v)
	}
}
