package sheet

import (
	"fmt"
	"math"
	"slices"

	"fettle/plan/unit"
)

// Result is a bound sheet with its figures. It re-computes in place, so it is
// for one goroutine at a time.
type Result struct {
	sheet  *Sheet
	tape   tape
	nodes  []node
	at     [3][]int32 // node of each quantity at each stage, −1 where it has none
	v      []float64
	lo, hi []float64
	adj    []float64
	bound  bool // something is unknown
}

func (r *Result) start() {
	n := len(r.tape.steps)
	r.v, r.lo, r.hi, r.adj = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	copy(r.v, r.tape.start)
	copy(r.lo, r.tape.lo)
	copy(r.hi, r.tape.hi)
	r.bound = slices.ContainsFunc(r.tape.steps, func(s step) bool { return s.bounded })
	r.Recompute()
}

// Recompute evaluates the whole sheet from its leaves. It allocates nothing.
func (r *Result) Recompute() {
	if r.bound {
		r.tape.bound(r.v, r.lo, r.hi)
		return
	}
	r.tape.run(r.v, 0, int32(len(r.tape.steps)))
}

// Try sets a leaf, as it was first given, to an inside value and re-computes:
// the way to ask "and if it were 15?". It reports whether there is such a leaf.
func (r *Result) Try(key string, value float64) bool {
	q := r.sheet.byKey[key]
	if q == nil || q.kind != leaf {
		return false
	}
	for i := range r.nodes {
		if n := &r.nodes[i]; n.q == q && n.leaf == &q.leaf && !r.tape.steps[n.slot].bounded {
			r.v[n.slot] = value
			r.Recompute()
			return true
		}
	}
	return false
}

// Figure is a quantity at one stage.
type Figure struct {
	Q
	Value  float64 // NaN where it is not known
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
	switch {
	case f.Known():
		return f.Value
	case math.IsInf(f.Lo, -1) && math.IsInf(f.Hi, 1):
		return math.NaN()
	case math.IsInf(f.Lo, -1) || !math.IsInf(f.Hi, 1) && math.Abs(f.Hi-was) >= math.Abs(f.Lo-was):
		return f.Hi
	}
	return f.Lo
}

// Text writes the figure with its unit: "36.5 mm", "at most 100 mm", "unknown".
// Of two bounds it gives the one that is farther from was.
func (f Figure) Text(was float64) string {
	show := func(x float64) string {
		u := f.Unit
		u.Decimals = f.Decimals
		return u.With(x)
	}
	best := f.Best(was)
	switch {
	case math.IsNaN(best):
		return "unknown"
	case f.Known():
		return show(best)
	case best == f.Hi:
		return "at most " + show(best)
	}
	return "at least " + show(best)
}

// Figure is the quantity key at a stage; ok is false where it does not exist then.
func (r *Result) Figure(key string, at Stage) (f Figure, ok bool) {
	q := r.sheet.byKey[key]
	if q == nil || r.at[at][q.id] < 0 {
		return Figure{}, false
	}
	return r.figure(r.at[at][q.id]), true
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
	return f.Best(now.Value)
}

func (r *Result) figure(i int32) Figure {
	n := &r.nodes[i]
	f := Figure{Q: n.q.Q, Value: r.v[n.slot], node: i, Origin: Computed}
	f.Lo, f.Hi = f.Value, f.Value
	if r.tape.steps[n.slot].bounded {
		f.Lo, f.Hi = r.lo[n.slot], r.hi[n.slot]
	}
	f.Author = n.q.author
	if n.leaf != nil {
		f.Origin, f.Note = n.leaf.Origin, n.leaf.Note
	}
	if n.f != nil {
		f.Author, f.Source = n.f.author, n.f.source
		if n.q.kind == fixed || n.q.kind == leaf && n.leaf == nil {
			f.Origin = Chosen
		}
	}
	return f
}

// Figures lists every quantity of a stage in the order of definition.
func (r *Result) Figures(at Stage) []Figure {
	var all []Figure
	for _, n := range r.at[at] {
		if n >= 0 {
			all = append(all, r.figure(n))
		}
	}
	return all
}

// Missing lists the unknown leaves that a figure would need to have one value.
func (r *Result) Missing(key string, at Stage) []Figure {
	f, ok := r.Figure(key, at)
	if !ok || f.Known() {
		return nil
	}
	var missing []Figure
	r.walk(f.node, func(n *node, i int32) bool {
		if n.leaf != nil && n.leaf.Origin == Unknown {
			missing = append(missing, r.figure(i))
		}
		return r.tape.steps[n.slot].bounded
	})
	return missing
}

// walk visits a node and what it is computed from, each once, while visit says so.
func (r *Result) walk(from int32, visit func(n *node, i int32) bool) {
	seen := map[int32]bool{}
	var down func(i int32)
	down = func(i int32) {
		if seen[i] {
			return
		}
		seen[i] = true
		if n := &r.nodes[i]; visit(n, i) {
			n.inputs(func(in int32) bool { down(in); return true })
		}
	}
	down(from)
}

// Conflicts are pairs of upgrades that claim the same leaf.
func (r *Result) Conflicts() []Conflict { return r.sheet.conflicts }

// Faults are figures that make no sense: a count that is no whole number, a
// formula outside its range.
func (r *Result) Faults() []string {
	var faults []string
	for _, f := range r.Figures(Planned) {
		switch {
		case f.Known() && math.IsNaN(f.Value):
			faults = append(faults, fmt.Sprintf("%s cannot be computed from these figures", f.Label))
		case f.Whole && f.Known() && math.Abs(f.Value-math.Round(f.Value)) > nearly:
			faults = append(faults, fmt.Sprintf("%s is a count, and %s is no whole number", f.Label, f.Unit.Text(f.Value, 3)))
		}
	}
	return faults
}

// Explanation shows how a figure came about.
type Explanation struct {
	Figure
	Formula string // with symbols; "" for a leaf
	Numbers string // the same with the numbers in
	Inputs  []Figure
	Was     *Figure // of a change: the version before it
}

// Explain opens a figure: its formula with symbols, then with numbers.
func (r *Result) Explain(key string, at Stage) (e Explanation, ok bool) {
	f, ok := r.Figure(key, at)
	if !ok {
		return e, false
	}
	return r.explain(f), true
}

func (r *Result) explain(f Figure) Explanation {
	e := Explanation{Figure: f}
	n := &r.nodes[f.node]
	if n.f == nil || n.f.expr == nil {
		return e
	}
	// The names of a formula are met twice, in the same order as they were bound.
	print := func(show func(i int32) string) string {
		at := 0
		return n.f.expr.write(func(string) string {
			u := n.uses[at]
			at++
			if u.name == "inf" {
				return "∞"
			}
			parts := make([]string, len(u.nodes))
			for j, in := range u.nodes {
				parts[j] = show(in)
			}
			if len(parts) == 0 {
				return "none"
			}
			return join(parts)
		})
	}
	e.Formula = print(func(i int32) string {
		if in := &r.nodes[i]; in.q != n.q {
			return in.q.Symbol
		}
		return "was"
	})
	e.Numbers = print(func(i int32) string { return r.figure(i).number() })
	n.inputs(func(i int32) bool {
		in := r.figure(i)
		if r.nodes[i].q == n.q {
			e.Was = &in
		} else if !slices.ContainsFunc(e.Inputs, func(o Figure) bool { return o.node == i }) {
			e.Inputs = append(e.Inputs, in)
		}
		return true
	})
	return e
}

// number is a figure as it stands in a formula: millimetres bare, all else with its unit.
func (f Figure) number() string {
	switch {
	case !f.Known():
		return "?"
	case f.Value < 0:
		return "(" + f.plain() + ")"
	}
	return f.plain()
}

func (f Figure) plain() string {
	u := f.Unit
	if u.Dim == unit.LengthD && !math.IsInf(f.Value, 0) {
		return unit.MM.Fixed(f.Value, max(1, min(f.Decimals, digits(f.Value))))
	}
	u.Decimals = f.Decimals
	return u.With(f.Value)
}

// digits is how many decimals x has, up to 3.
func digits(x float64) int {
	for d := range 3 {
		p := math.Pow10(d)
		if math.Abs(x*p-math.Round(x*p)) < 1e-6*p {
			return d
		}
	}
	return 3
}

func join(parts []string) string {
	s := parts[0]
	for _, p := range parts[1:] {
		s += ", " + p
	}
	return s
}
