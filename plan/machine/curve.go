package machine

import (
	"math"
	"slices"
	"strings"

	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// Curve is what a goal costs: how it and what pulls against it go as the wish
// of an upgrade is taken further.
type Curve struct {
	Amount sheet.Figure // what is varied, as chosen
	Goal   sheet.Figure
	Prices []Price
	Points []Point
}

// Price is a figure that gets worse as the goal gets better, and its limit.
type Price struct {
	sheet.Figure
	Check string  // key of the check that watches it
	Limit float64 // inside, as it is at the chosen point
	Most  bool    // the figure is to stay under its limit, not over it
}

// Point is one step of the way; NaN where a figure has no value there.
type Point struct {
	Amount, Goal float64
	Prices       []float64
}

const (
	curveSteps = 32 // of a curve
	mostPrices = 3  // shown beside one goal
)

// Curve takes the wish of an upgrade from nothing to a quarter beyond where it
// stops. ok is false where nothing is varied, where its goal does not follow
// from it, or where nothing pulls against it.
func (p *Plan) Curve(s *upgrade.Site) (c Curve, ok bool) {
	r := p.Result
	if s.Amount == "" || len(s.Goals) == 0 {
		return c, false
	}
	reach := r.HowFar(s.Amount, s.Goals[0], s.Most)
	amount, okA := r.Figure(s.Amount, sheet.Planned)
	goal, okG := r.Figure(s.Goals[0].Key, sheet.Planned)
	if !okA || !okG || !amount.Known() || math.IsInf(reach.To, 0) {
		return c, false
	}
	c.Amount, c.Goal = amount, goal
	far := min(s.Most, 1.25*max(reach.To, amount.Value))
	if far < stepOf(s) {
		far = s.Most
	}
	var watched []sheet.CheckResult
	for _, l := range reach.Limits {
		i := slices.IndexFunc(r.Checks(), func(k sheet.CheckResult) bool { return k.Key == l.Key })
		if i < 0 || l.Level == sheet.Use || l.AsFound || strings.HasSuffix(l.Key, ".better_check") {
			continue
		}
		watched = append(watched, r.Checks()[i])
	}
	defer r.Try(s.Amount, amount.Value)
	now, _ := r.Figure(s.Goals[0].Key, sheet.Now)
	seen := make([][]float64, curveSteps+1)
	for i := range seen {
		at := far * float64(i) / curveSteps
		r.Try(s.Amount, at)
		g, _ := r.Figure(s.Goals[0].Key, sheet.Planned)
		c.Points = append(c.Points, Point{Amount: at, Goal: best(now, g)})
		for _, k := range watched {
			f, _ := r.Figure(k.Figure.Key, sheet.Planned)
			seen[i] = append(seen[i], value(f))
		}
	}
	for j, k := range watched {
		if len(c.Prices) == mostPrices || !falls(seen, j, k.AtMost) || slices.ContainsFunc(c.Prices, func(o Price) bool { return o.Key == k.Figure.Key }) {
			continue
		}
		c.Prices = append(c.Prices, Price{Figure: k.Figure, Check: k.Key, Limit: value(k.Limit), Most: k.AtMost})
		for i := range c.Points {
			c.Points[i].Prices = append(c.Points[i].Prices, seen[i][j])
		}
	}
	return c, len(c.Prices) > 0 && moves(c.Points)
}

// value is the one that a figure has, NaN where it has none to be drawn.
func value(f sheet.Figure) float64 {
	if !f.Known() || math.IsInf(f.Value, 0) {
		return math.NaN()
	}
	return f.Value
}

// best is the value of a figure, or the bound by which it is compared with now.
func best(now, f sheet.Figure) float64 {
	if _, is := sheet.Compare(now, f); !math.IsInf(is, 0) {
		return is
	}
	return math.NaN()
}

// falls tells whether a price gets worse from the first of its values to the last.
func falls(seen [][]float64, j int, atMost bool) bool {
	first, last := math.NaN(), math.NaN()
	for _, row := range seen {
		if v := row[j]; !math.IsNaN(v) {
			if math.IsNaN(first) {
				first = v
			}
			last = v
		}
	}
	if atMost {
		return last > first+nearly
	}
	return last < first-nearly
}

func moves(points []Point) bool {
	return slices.ContainsFunc(points, func(p Point) bool { return math.Abs(p.Goal-points[0].Goal) > nearly })
}

// InputReach is how far one input of an upgrade can go.
type InputReach struct {
	Field upgrade.Field
	Value float64 // inside, as it is
	sheet.Reach
}

// Reaches tells of every figure that was typed for an upgrade between which
// values everything holds, and what stops it there. One that is not known yet, that
// nothing needs, or that says what is there before, is left out.
func (p *Plan) Reaches(s *upgrade.Site) []InputReach {
	if len(s.Goals) == 0 {
		return nil
	}
	var all []InputReach
	for _, f := range s.Fields {
		if f.Leaf == "" || slices.Contains(s.GoalKeys(), f.Leaf) || p.idle(f) {
			continue
		}
		leaf, ok := p.Result.Figure(f.Leaf, sheet.Planned)
		if !ok || !leaf.Known() {
			continue
		}
		all = append(all, InputReach{Field: f, Value: leaf.Value, Reach: p.Result.HowFar(f.Leaf, s.Goals[0], p.farOf(s, f, leaf.Value))})
	}
	return all
}

// idle tells whether a field is not needed as things stand: an extension's sleeve, where
// the screw's end is long enough.
func (p *Plan) idle(f upgrade.Field) bool {
	need, ok := p.Result.Figure(f.Need, sheet.Planned)
	return ok && need.Known() && need.Value <= 0
}

// farOf is how far an input is looked at: four times what it is, and no
// further than it can be.
func (p *Plan) farOf(s *upgrade.Site, f upgrade.Field, value float64) float64 {
	switch {
	case f.Leaf == s.Amount:
		return s.Most
	case value > 0:
		return min(f.Most, 4*value)
	}
	return f.Most
}
