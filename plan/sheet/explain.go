package sheet

import (
	"math"
	"slices"
	"strings"

	"fettle/plan/unit"
)

// Explanation shows how a figure came about.
type Explanation struct {
	Figure
	Formula string // with symbols, and with labels where two of its inputs have the same; "" for a leaf
	Numbers string // the same with the numbers in
	Inputs  []Figure
	Was     *Figure // of a change: the version before it
}

// Explain opens a figure: its formula with symbols, then with numbers.
func (r *Result) Explain(key string, at Stage) (e Explanation, ok bool) {
	f, ok := r.Figure(key, at)
	e.Figure = f
	if !ok || r.nodes[f.node].f == nil || r.nodes[f.node].leaf != nil {
		return e, ok
	}
	n := &r.nodes[f.node]
	alike := func(in *node) bool { // another input has the same symbol: (L / L)³ tells nothing
		for i := range n.inputs {
			if q := r.nodes[i].q; q != in.q && q != n.q && q.Symbol == in.q.Symbol {
				return true
			}
		}
		return false
	}
	e.Formula = r.write(n, func(in *node, _ Figure) string {
		switch {
		case in.q == n.q:
			return "was"
		case alike(in) && strings.Contains(in.q.Label, ","):
			return "“" + in.q.Label + "”"
		case alike(in):
			return in.q.Label
		}
		return in.q.Symbol
	})
	e.Numbers = r.write(n, func(_ *node, f Figure) string { return f.number() })
	for i := range n.inputs {
		in := r.figure(i)
		if r.nodes[i].q == n.q {
			e.Was = &in
		} else if !slices.ContainsFunc(e.Inputs, func(o Figure) bool { return o.node == i }) {
			e.Inputs = append(e.Inputs, in)
		}
	}
	return e, true
}

// write prints the formula of n with each input as show gives it. The names are
// met in the order in which they were bound.
func (r *Result) write(n *node, show func(in *node, f Figure) string) string {
	uses := n.uses
	return n.f.expr.write(func(string) string {
		u := uses[0]
		uses = uses[1:]
		if u.quantity == nil && u.family == nil {
			return names[u.name.name].symbol
		}
		parts := make([]string, len(u.nodes))
		for i, in := range u.nodes {
			parts[i] = show(&r.nodes[in], r.figure(in))
		}
		if len(parts) == 0 {
			return "none"
		}
		return strings.Join(parts, ", ")
	})
}

// number is a figure as it stands in a formula: a length in bare millimetres, a
// temperature as the difference that it is inside, all else with its unit.
func (f Figure) number() string {
	u := f.shown()
	switch {
	case !f.Known():
		return "?"
	case u.Zero != 0:
		u.Symbol, u.Zero = "K", 0
	case u.Dim == unit.LengthD && !math.IsInf(f.Value, 0):
		d := u.Decimals
		for s := u.Scale; s < 1; s *= 10 {
			d++ // as fine in millimetres as in its own unit
		}
		return unit.MM.Fixed(f.Value, max(1, min(d, digits(f.Value))))
	}
	return u.With(f.Value)
}

// digits is how many decimals x has, up to 6.
func digits(x float64) int {
	for d := range 6 {
		if p := math.Pow10(d); math.Abs(x*p-math.Round(x*p)) < 1e-6 {
			return d
		}
	}
	return 6
}
