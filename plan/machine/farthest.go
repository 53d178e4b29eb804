package machine

import (
	"math"
	"sort"

	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
)

// farthest takes the wish of an upgrade to where a goal is best among all places at which everything holds, and
// leaves it there: of each stretch, the place that the goal is best at, or as far as it goes. Of equal ones it is
// the first. With enough, it is in the first stretch in which that is so. ok is false where nothing can be had.
func (p *Plan) farthest(s *upgrade.Site, goal sheet.Goal, enough func() bool) (stretch sheet.Interval, amount float64, ok bool) {
	reach := p.Result.HowFar(s.Amount, goal, s.Most)
	best := math.Inf(-1)
	for _, in := range append([]sheet.Interval{{From: reach.From, To: reach.To}}, reach.Again...) {
		for _, x := range places(in, reach.Best, stepOf(s)) {
			p.Result.Try(s.Amount, x)
			worth := p.Result.Value(goal.Key, sheet.Planned)
			if goal.Less {
				worth = -worth
			}
			if !ok || worth > best+nearly {
				stretch, amount, ok = in, x, true
			}
			if !math.IsNaN(worth) {
				best = max(best, worth)
			}
		}
		if ok && enough != nil {
			if p.Result.Try(s.Amount, amount); enough() {
				return stretch, amount, true
			}
		}
	}
	if ok {
		p.Result.Try(s.Amount, amount)
	}
	return stretch, amount, ok
}

// places are the whole steps of a stretch at which a goal may be best that is best at one value: those beside it, or
// the last, and the first where the goal was best before.
func places(in sheet.Interval, best, step float64) (all []float64) {
	down := func(x float64) float64 { return math.Floor(x/step+nearly) * step }
	up := func(x float64) float64 { return math.Ceil(x/step-nearly) * step }
	at := []float64{down(in.To)}
	switch {
	case best > in.From && best < in.To:
		at = []float64{down(best), up(best)}
	case best <= in.From:
		at = append(at, up(in.From))
	}
	for _, x := range at {
		if x >= step && x >= in.From-1e-9 && x <= in.To+nearly*step {
			all = append(all, x)
		}
	}
	return all
}

// least closes in on the smallest amount that is enough, in whole steps.
func (p *Plan) least(s *upgrade.Site, goal sheet.Goal, enough func() bool) {
	in, amount, ok := p.farthest(s, goal, enough)
	if !ok {
		return
	}
	step := stepOf(s)
	at := func(n int) bool {
		p.Result.Try(s.Amount, float64(n)*step)
		return enough()
	}
	most := int(math.Floor(amount/step + nearly))
	least := int(math.Ceil(in.From/step - nearly))
	n := least + sort.Search(max(0, most-least), func(i int) bool { return at(least + i) })
	at(n)
}

// wishUnit is what an amount is written in: a length in mm, whatever lengths are shown in.
func wishUnit(s *upgrade.Site) unit.Unit {
	for _, f := range s.Fields {
		if f.Leaf == s.Amount && f.Unit.Dim != unit.LengthD {
			return f.Unit
		}
	}
	return unit.MM
}

// stepOf is what the amounts of an upgrade are rounded to: what is written of
// them, so that the amount that is typed is the one that was tried.
func stepOf(s *upgrade.Site) float64 { return wishUnit(s).Step() }

// typedAmount writes an amount as it would be typed.
func typedAmount(s *upgrade.Site, amount float64) string { return wishUnit(s).With(amount) }
