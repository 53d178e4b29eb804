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
// closes in on where each turns, between the steps as well where it leans to.
// It leaves the sheet as it was. A check that is
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
	watches, ends := r.watched(whole, r.slots(goal.Key))
	way := r.tape.leading(whole, ends...)
	goals := r.sweep(way, watches, goal, most)
	unmeasured := inf
	for j := range watches {
		w := &watches[j]
		var back []int32 // of the way what the margin depends on, found where it is needed
		l := w.limit(func(x float64) float64 {
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
			unmeasured = min(unmeasured, w.unmeasured)
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
	out.Best = r.best(way, goal, goals, most)
	return out
}

// watched are the checks to be watched, and the slots that they and a goal need. One that the leaf does not move is
// as it is here everywhere.
func (r *Result) watched(whole, goal []int32) (watches []watch, ends []int32) {
	ends = goal
	for _, k := range r.sheet.checks {
		i := r.at[Planned][k.margin.id]
		if i < 0 || k.Level == Note {
			continue
		}
		w := watch{check: k, slot: r.nodes[i].slot, unmeasured: inf, asFound: r.verdict(k, Found) == Fails}
		if _, w.moved = slices.BinarySearch(whole, w.slot); w.moved {
			w.places = make([]place, 0, sweep+1)
			ends = append(ends, w.slot)
			if k.tight != nil {
				ends = append(ends, r.slots(k.tight.Key)...)
			}
		} else {
			w.places = []place{{margin: r.margin(w.slot)}}
		}
		watches = append(watches, w)
	}
	return watches, ends
}

// sweep takes a leaf through its range, and notes what the goal is worth and what each margin is at each step.
func (r *Result) sweep(way []int32, watches []watch, goal Goal, most float64) (goals []float64) {
	aside := most / sweep / sides
	for i := range sweep + 1 {
		x := stepTo(i, most)
		r.tape.rerun(way, x)
		goals = append(goals, goal.worth(r.Value(goal.Key, Planned)))
		for j := range watches {
			w := &watches[j]
			if !w.moved {
				continue
			}
			w.places = append(w.places, place{x: x, margin: r.margin(w.slot)})
			if r.verdict(w.check, Planned) == Unmeasured {
				w.unmeasured = min(w.unmeasured, x)
			}
		}
		for _, side := range [...]float64{-aside, aside} {
			if x+side < 0 || x+side > most {
				continue
			}
			r.tape.rerun(way, x+side)
			for j := range watches {
				if w := &watches[j]; w.moved {
					w.places[i].lean(side, r.margin(w.slot))
				}
			}
		}
	}
	return goals
}

func stepTo(i int, most float64) float64 { return most * float64(i) / sweep }

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
	moved      bool    // by the leaf
	unmeasured float64 // from where on
	places     []place // in order
}

// limit closes in on where the check begins to hold, and where it ceases.
func (w *watch) limit(margin func(x float64) float64) Limit {
	touch := w.margin.nearly()
	l := Limit{Check: w.Check, AsFound: w.asFound}
	seek := seeker{margin: margin, touch: touch, left: mostLooks}
	held, last := false, place{}
	see := func(p place) {
		if holds := p.margin >= -touch; holds != held {
			turns := 0.0
			if p.x > 0 {
				turns = turn(last.x, p.x, touch, margin)
			}
			if held = holds; holds {
				l.all = append(l.all, Interval{turns, inf})
			} else {
				l.all[len(l.all)-1].To = turns
			}
		}
		last = p
	}
	for i, p := range w.places {
		if i > 0 {
			for _, between := range seek.within(w.places[i-1], p) {
				see(between)
			}
		}
		see(p)
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
// what it is worth at each step.
func (r *Result) best(way []int32, goal Goal, seen []float64, most float64) float64 {
	way = r.tape.leading(way, r.slots(goal.Key)...)
	worth := func(x float64) float64 {
		r.tape.rerun(way, x)
		if g := goal.worth(r.Value(goal.Key, Planned)); !math.IsNaN(g) {
			return g
		}
		return -inf
	}
	at, best := 0.0, -inf
	for i, g := range seen {
		if g > best {
			at, best = stepTo(i, most), g
		}
	}
	if best == -inf {
		return math.NaN()
	}
	for _, side := range [...]float64{-most / sweep, most / sweep} { // it may be better still within a step
		if at+side >= 0 && at+side <= most && worth(at+side/sides) > best {
			at, best = top(at, at+side, worth)
			break
		}
	}
	touch := r.sheet.named(goal.Key).nearly()
	i := slices.IndexFunc(seen, func(g float64) bool { return g >= best-touch })
	switch {
	case i == 0:
		return 0
	case i < 0:
		i = int(math.Ceil(at / most * sweep))
	default:
		at = stepTo(i, most)
	}
	return turn(stepTo(i-1, most), at, touch, func(x float64) float64 { return worth(x) - best })
}

// margin is the one in slot, where all goes as asked.
func (r *Result) margin(slot int32) float64 {
	_, m := r.tape.bounds(slot)
	if math.IsNaN(m) {
		return inf
	}
	return m
}
