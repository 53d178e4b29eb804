package sheet

import (
	"fmt"
	"math"

	"fettle/plan/unit"
)

// Result is a bound sheet with its figures. It re-computes in place, so it is
// for one goroutine at a time.
type Result struct {
	sheet  *Sheet
	tape   tape
	nodes  []node
	at     [3][]int32 // node of each quantity at each stage, or none
	spread []int32    // nodes of leaves with an uncertainty, in order

	// Of each slot, made when asked for.
	adj   []float64
	width []float64
	bent  []bool
	fresh bool // width and bent are of the present values
	lines map[int32]line

	leaves []int32 // of each slot, the node of the leaf that stands there and one; made when asked for

	// Of the present values; nil before they are asked for.
	moved  *difference
	checks []CheckResult
	far    *far
}

// Recompute evaluates the whole sheet from its leaves. It allocates nothing.
func (r *Result) Recompute() {
	r.tape.compute()
	r.fresh, r.moved, r.checks = false, nil, nil
}

// Try sets a leaf, as it was first given, to an inside value and re-computes:
// the way to ask "and if it were 15?". It reports whether there is such a leaf,
// and it is known.
func (r *Result) Try(key string, value float64) bool {
	n := r.first(key)
	if n == nil || r.tape.steps[n.slot].open {
		return false
	}
	if r.far != nil && r.far.key != key {
		r.far = nil // it is the same at any value of its own leaf, but not of another
	}
	r.tape.v[n.slot] = value
	r.Recompute()
	return true
}

// first is the node of a leaf as it was first given.
func (r *Result) first(key string) *node {
	q := r.sheet.named(key)
	for i := range r.nodes {
		if n := &r.nodes[i]; n.q == q && n.leaf == &q.leaf {
			return n
		}
	}
	return nil
}

// Figure is a quantity at one stage.
type Figure struct {
	Q
	Value  float64 // NaN where it is not known, or cannot be computed
	Lo, Hi float64 // equal where it is known
	Origin Origin
	Note   string // of a leaf: with what it was measured, or the source of an assumption
	Source string // of a formula
	Author string // the upgrade that made this version; "" for the machine as found
	node   int32
}

// Known tells whether the figure has one value.
func (f Figure) Known() bool { return f.Lo == f.Hi }

// Best is the value, or the bound that is farther from was where there is no
// value: what a change comes to if all goes as asked.
func (f Figure) Best(was float64) float64 {
	switch below, above := math.IsInf(f.Lo, -1), math.IsInf(f.Hi, 1); {
	case f.Known():
		return f.Value
	case below && above:
		return math.NaN()
	case below || !above && math.Abs(f.Hi-was) >= math.Abs(f.Lo-was):
		return f.Hi
	}
	return f.Lo
}

// Compare gives the values by which a figure is compared with what it is now.
// Where either is known only within bounds, it is the same bound of both: the
// one that moves more, so that what is unknown in both does not count twice.
// NaN where there is no such bound.
func Compare(now, planned Figure) (was, is float64) {
	moves := func(a, b float64) float64 {
		if math.IsInf(a, 0) || math.IsInf(b, 0) || math.IsNaN(a) || math.IsNaN(b) {
			return -1
		}
		return math.Abs(b - a)
	}
	low, high := moves(now.Lo, planned.Lo), moves(now.Hi, planned.Hi)
	switch {
	case low < 0 && high < 0:
		return math.NaN(), math.NaN()
	case high >= low:
		return now.Hi, planned.Hi
	}
	return now.Lo, planned.Lo
}

// Text writes the figure with its unit: "36.5 mm", "at least 4 mm", "between 80
// and 100 mm", "unknown". Where one bound is what it was, the other is told: of
// a travel of 88 that may become 100, "at most 100 mm".
func (f Figure) Text(was float64) string {
	u := f.shown()
	best := f.Best(was)
	switch {
	case math.IsNaN(best):
		return "unknown"
	case f.Known():
		return u.With(best)
	case math.IsInf(f.Hi, 1) || math.Abs(f.Hi-was) <= f.nearly():
		return "at least " + u.With(f.Lo)
	case math.IsInf(f.Lo, -1) || math.Abs(f.Lo-was) <= f.nearly():
		return "at most " + u.With(f.Hi)
	}
	return "between " + u.Text(f.Lo, f.Decimals) + " and " + u.With(f.Hi)
}

// shown is the unit with the figure's own decimals.
func (f Figure) shown() unit.Unit {
	u := f.Unit
	u.Decimals = f.Decimals
	return u
}

// node is the version of key at a stage, or none.
func (r *Result) node(key string, at Stage) int32 {
	if q := r.sheet.named(key); q != nil && q.id < len(r.at[at]) {
		return r.at[at][q.id]
	}
	return none
}

// Figure is the quantity key at a stage; ok is false where it does not exist then.
func (r *Result) Figure(key string, at Stage) (f Figure, ok bool) {
	if i := r.node(key, at); i >= 0 {
		return r.figure(i), true
	}
	return f, false
}

// Number is the value at a stage of the quantity that is called name in a scope; ok is
// false where it does not exist then, or is not known. It allocates nothing.
func (r *Result) Number(in *Scope, name string, at Stage) (v float64, ok bool) {
	q := r.sheet.own(in, name)
	if q == nil || q.id >= len(r.at[at]) || r.at[at][q.id] < 0 {
		return 0, false
	}
	lo, hi := r.tape.bounds(r.nodes[r.at[at][q.id]].slot)
	return lo, lo == hi
}

// Value is the value of key at a stage, or the bound farther from what it is
// now; NaN where it does not exist or is not known at all.
func (r *Result) Value(key string, at Stage) float64 {
	f, ok := r.Figure(key, at)
	if !ok {
		return math.NaN()
	}
	now, ok := r.Figure(key, Now)
	if !ok {
		return f.Best(0)
	}
	_, is := Compare(now, f)
	return is
}

func (r *Result) figure(i int32) Figure {
	n := &r.nodes[i]
	f := Figure{Q: n.q.Q, Value: r.tape.v[n.slot], Origin: Computed, Author: n.q.author, node: i}
	f.Lo, f.Hi = r.tape.bounds(n.slot)
	if n.f != nil {
		f.Author, f.Source = n.f.author, n.f.source
	}
	switch {
	case n.leaf != nil:
		f.Origin, f.Note = n.leaf.Origin, n.leaf.Note
	case n.q.kind != derived:
		f.Origin = Chosen
	}
	if n.f != nil && n.f.expr == largest {
		f.Author = r.figure(r.largest(n)).Author
	}
	return f
}

// largest is the input that gives a leaf with demands on it its value.
func (r *Result) largest(n *node) int32 {
	for in := range n.inputs {
		if r.tape.v[r.nodes[in].slot] == r.tape.v[n.slot] {
			return in
		}
	}
	return n.uses[0].nodes[0]
}

// Figures lists every quantity of a stage in the order of definition.
func (r *Result) Figures(at Stage) []Figure {
	all := make([]Figure, 0, len(r.at[at]))
	for _, n := range r.at[at] {
		if n >= 0 {
			all = append(all, r.figure(n))
		}
	}
	return all
}

// Missing lists the leaves that would have to be measured for a figure to have
// one value.
func (r *Result) Missing(key string, at Stage) []Figure {
	f, ok := r.Figure(key, at)
	if !ok {
		return nil
	}
	var missing []Figure
	seen := map[int32]bool{}
	var down func(i int32)
	down = func(i int32) {
		n := &r.nodes[i]
		if lo, hi := r.tape.bounds(n.slot); seen[i] || !r.tape.steps[n.slot].open || lo == hi {
			return
		}
		seen[i] = true
		if n.leaf != nil {
			missing = append(missing, r.figure(i))
		}
		for in := range n.inputs {
			down(in)
		}
	}
	down(f.node)
	return missing
}

// Conflicts are the [Sheet.Conflicts].
func (r *Result) Conflicts() []Conflict { return r.sheet.Conflicts() }

// Faults are figures that make no sense: a count that is no whole number, a
// formula outside its range.
func (r *Result) Faults() []string {
	var faults []string
	for _, i := range r.at[Planned] {
		if i < 0 {
			continue
		}
		q, slot := r.nodes[i].q, r.nodes[i].slot
		lo, _ := r.tape.bounds(slot)
		switch v := r.tape.v[slot]; {
		case math.IsNaN(lo):
			faults = append(faults, q.Label+" cannot be computed from these figures")
		case q.Whole && math.Abs(v-math.Round(v)) > nearly:
			faults = append(faults, fmt.Sprintf("%s is a count, and %s is no whole number", q.Label, q.Unit.Text(v, 3)))
		}
	}
	return faults
}
