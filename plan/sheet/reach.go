package sheet

import (
	"cmp"
	"math"
	"slices"
)

// Limit is how far a leaf can be taken before a check fails.
type Limit struct {
	Check
	From, To float64 // where it holds, around the reach; To is +∞ where it was not seen to fail, −∞ where it never holds
	Never    bool    // it does not hold anywhere
	AsFound  bool    // the machine breaks it as found: a warning, never the stop
	all      []Interval
}

// Interval is a stretch of a leaf's values.
type Interval struct{ From, To float64 }

// Reach is the answer to "how far could I go?".
type Reach struct {
	From, To float64    // every stop and rule holds between; To < From means nowhere
	Again    []Interval // and again there, where sizes go in steps
	AtMost   bool       // up to there something that matters is not measured
	Limits   []Limit    // those that end somewhere, nearest first; those broken as found last
	Best     float64    // the smallest value at which the goal is as good as it gets; NaN where there is no goal
}

// Goal is a figure that is wanted large, or small.
type Goal struct {
	Key  string
	Less bool // the smaller the better
}

// sweep is in how many steps a leaf is taken through its range.
const sweep = 48

// far is an answer, and what was asked.
type far struct {
	key  string
	goal Goal
	most float64
	Reach
}

// HowFar takes the leaf key from 0 to most in steps, watches every check, and
// closes in on where each turns. It leaves the sheet as it was. A check that is
// not measured, or cannot be computed, ends nothing, but makes the answer
// AtMost where the leaf moves it. Advice and use are listed and end nothing either.
func (r *Result) HowFar(key string, goal Goal, most float64) Reach {
	if f := r.far; f == nil || f.key != key || f.goal != goal || f.most != most {
		r.far = &far{key, goal, most, r.howFar(key, goal, most)}
	}
	out := r.far.Reach
	out.Limits = slices.Clone(out.Limits)
	return out
}

func (r *Result) howFar(key string, goal Goal, most float64) Reach {
	out := Reach{To: most, Best: math.NaN()}
	holds := []Interval{{To: most}}
	n := r.first(key)
	if n == nil || r.tape.steps[n.slot].open {
		out.To = -inf
		return out
	}
	whole := r.tape.from(n.slot)
	defer r.tape.rerun(whole, r.tape.v[n.slot])
	at := func(i int) float64 { return most * float64(i) / sweep }
	watches := make([]watch, 0, len(r.sheet.checks))
	ends := r.slots(goal.Key)
	for _, k := range r.sheet.checks {
		if i := r.at[Planned][k.margin.id]; i >= 0 && k.Level != Note {
			watches = append(watches, watch{check: k, slot: r.nodes[i].slot, unmeasured: inf, asFound: r.verdict(k, Found) == Fails})
			ends = append(ends, r.nodes[i].slot)
			if k.tight != nil {
				ends = append(ends, r.slots(k.tight.Key)...)
			}
		}
	}
	way := r.tape.leading(whole, ends...)
	var goals [sweep + 1]float64
	for i := range goals {
		r.tape.rerun(way, at(i))
		goals[i] = goal.worth(r.Value(goal.Key, Planned))
		for j := range watches {
			w := &watches[j]
			w.margins[i] = r.margin(w.slot)
			if r.verdict(w.check, Planned) == Unmeasured {
				w.unmeasured = min(w.unmeasured, at(i))
			}
		}
	}
	unmeasured := inf
	for j := range watches {
		w := &watches[j]
		var back []int32 // of the way what the margin depends on, found where it is needed
		l := w.limit(at, func(x float64) float64 {
			if back == nil {
				back = r.tape.leading(way, w.slot)
			}
			r.tape.rerun(back, x)
			return r.margin(w.slot)
		})
		if l.To < inf || l.From > 0 {
			out.Limits = append(out.Limits, l)
		}
		if l.Level != Use && !l.Advice && !l.AsFound {
			out.From, out.To = max(out.From, l.From), min(out.To, l.To)
			holds = both(holds, l.all)
			if w.unmeasured < inf && slices.Contains(whole, w.slot) { // what the leaf does not move, it cannot be ended by
				unmeasured = min(unmeasured, w.unmeasured)
			}
		}
	}
	if len(holds) > 0 {
		out.From, out.To, out.Again = holds[0].From, holds[0].To, holds[1:]
		for i := range out.Limits {
			out.Limits[i].around(out.From)
		}
	}
	out.AtMost = unmeasured <= out.To
	slices.SortStableFunc(out.Limits, func(a, b Limit) int {
		return cmp.Or(cmp.Compare(truth(a.AsFound), truth(b.AsFound)), cmp.Compare(a.To, b.To))
	})
	out.Best = r.best(way, goal, goals[:], at)
	return out
}

// slots are those of the versions of a figure that its planned value is told by.
func (r *Result) slots(key string) (all []int32) {
	for _, at := range []Stage{Now, Planned} {
		if i := r.node(key, at); i >= 0 {
			all = append(all, r.nodes[i].slot)
		}
	}
	return all
}

// watch is what was seen of a check on the way.
type watch struct {
	*check
	slot       int32 // of its margin
	asFound    bool
	unmeasured float64 // from where on
	margins    [sweep + 1]float64
}

// limit closes in on where the check begins to hold, and where it ceases.
func (w *watch) limit(at func(i int) float64, margin func(x float64) float64) Limit {
	touch := w.margin.nearly()
	l := Limit{Check: w.Check, AsFound: w.asFound}
	held := false
	for i, m := range w.margins {
		holds := m >= -touch
		if holds == held {
			continue
		}
		turns := 0.0
		if i > 0 {
			turns = turn(at(i-1), at(i), touch, margin)
		}
		if held = holds; holds {
			l.all = append(l.all, Interval{turns, inf})
		} else {
			l.all[len(l.all)-1].To = turns
		}
	}
	if len(l.all) == 0 {
		l.To, l.Never = -inf, true
		return l
	}
	l.From, l.To = l.all[0].From, l.all[0].To
	return l
}

// around takes of the stretches in which the check holds the one around a value.
func (l *Limit) around(x float64) {
	for _, i := range l.all {
		if i.From <= x && x <= i.To {
			l.From, l.To = i.From, i.To
		}
	}
}

// both are the stretches that two lists share, each in order.
func both(a, b []Interval) (all []Interval) {
	for _, x := range a {
		for _, y := range b {
			if i := (Interval{max(x.From, y.From), min(x.To, y.To)}); i.From <= i.To {
				all = append(all, i)
			}
		}
	}
	return all
}

// worth is a value by which more is better.
func (g Goal) worth(v float64) float64 {
	if g.Less {
		return -v
	}
	return v
}

// best is the smallest value at which the goal is as good as it gets; seen is
// the goal at each step.
func (r *Result) best(way []int32, goal Goal, seen []float64, at func(i int) float64) float64 {
	best := -inf
	for _, g := range seen {
		if g > best {
			best = g
		}
	}
	if best == -inf {
		return math.NaN()
	}
	touch := r.sheet.named(goal.Key).nearly()
	way = r.tape.leading(way, r.slots(goal.Key)...)
	i := slices.IndexFunc(seen, func(g float64) bool { return g >= best-touch })
	if i == 0 {
		return 0
	}
	return turn(at(i-1), at(i), touch, func(x float64) float64 {
		r.tape.rerun(way, x)
		if g := goal.worth(r.Value(goal.Key, Planned)); !math.IsNaN(g) {
			return g - best
		}
		return -inf
	})
}

// margin is the one in slot, where all goes as asked.
func (r *Result) margin(slot int32) float64 {
	_, m := r.tape.bounds(slot)
	if math.IsNaN(m) {
		return inf
	}
	return m
}

// turn is where f turns between a and b: the end of the stretch in which it is
// nearly nothing or more. It follows the straight line between the two, halving
// every third time and where that cannot be done: where an end is infinite, or
// f stays at nothing for a while. Last, it follows the line on the side where f
// is less, which is exact where f is straight there.
func turn(a, b, nearly float64, f func(x float64) float64) float64 {
	holds, fails := a, b
	if f(a) < -nearly {
		holds, fails = b, a
	}
	step := (fails - holds) / 1000
	fh, ff := f(holds), f(fails)
	for i := 1; i <= 90 && math.Abs(fails-holds) > 1e-8; i++ {
		x := (holds + fails) / 2
		if i%3 != 0 && fh > nearly && !math.IsInf(fh-ff, 0) {
			x = holds + (fails-holds)*fh/(fh-ff)
		}
		fx := f(x)
		if fx < -nearly {
			fails, ff = x, fx
			continue
		}
		holds, fh = x, fx
		if y := x + (fails-x)/1e6; fx < nearly && f(y) < -nearly {
			fails = y // met here, and broken right after
			break
		}
	}
	y, z := holds+step, holds+2*step
	fy, fz := f(y), f(z)
	line := (z - y) / (fz - fy)
	if x := y - fy*line; fy < 0 && fy != fz && math.Abs(x-holds) <= 2*(math.Abs(fails-holds)+math.Abs(nearly*line)) {
		return x
	}
	return holds
}
