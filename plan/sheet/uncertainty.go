package sheet

import (
	"cmp"
	"math"
	"slices"

	"fettle/plan/unit"
)

// Spread is how well a leaf is known. The zero Spread is exact.
type Spread struct {
	Std    float64 // standard uncertainty
	Half   float64 // the most that it can be off; for a normal spread 2 Std
	normal bool
}

// Within is a value that can be anywhere within ± half of what was read:
// rectangular, u = half/√3 (JCGM 100:2008, 4.3.7).
func Within(half float64) Spread { return Spread{Std: half / math.Sqrt(3), Half: half} }

// Std is a value with a known standard uncertainty, normally distributed.
func Std(u float64) Spread { return Spread{Std: u, Half: 2 * u, normal: true} }

// Share is what one leaf contributes to an uncertainty.
type Share struct {
	Figure
	Slope float64 // derivative of the figure by the leaf, in inside units
	Part  float64 // of the variance to first order, 0 to 1
}

// Uncertainty of a figure, in its inside unit.
type Uncertainty struct {
	Std    float64 // u: the combined standard uncertainty; of trials (JCGM 101:2008) where Bent
	Linear float64 // the same to first order (JCGM 100:2008, 5.1.2)
	Worst  float64 // the sum of all halves, each at its slope
	Bent   bool    // first order is not to be relied on here
	Shares []Share // largest first: what to measure better
}

// PlusMinus is the expanded uncertainty for a coverage of about 95 %: 2 u, or
// the worst case where that is less: it can be off by no more.
func (u Uncertainty) PlusMinus() float64 {
	if u.Capped() {
		return u.Worst
	}
	return 2 * u.Std
}

// Capped tells whether the worst case is less than 2 u, as it is of a single
// reading that lies anywhere within its limits: 2/√3 of them is more than they are.
func (u Uncertainty) Capped() bool { return !u.Bent && u.Worst > 0 && u.Worst < 2*u.Std*(1-nearly) }

// Uncertainty of a figure from its leaves. Where a min, max, comparison or a
// strong curve lies within the uncertainty, first order is wrong, and trials
// are made instead.
func (r *Result) Uncertainty(key string, at Stage) Uncertainty {
	u := r.FirstOrder(key, at)
	if u.Bent {
		_, u.Std = scatter(r.draw(r.nodes[r.node(key, at)].slot, quickTrials, 1))
	}
	return u
}

// FirstOrder is [Result.Uncertainty] without trials, for many figures at once:
// Std is Linear, also where Bent says that it is not to be relied on.
func (r *Result) FirstOrder(key string, at Stage) Uncertainty {
	u, slot := r.shares(key, at)
	if slot >= 0 {
		r.widen()
		u.Bent = r.bent[slot]
	}
	return u
}

// Shares are what makes a figure uncertain, the largest first; see [Uncertainty].
func (r *Result) Shares(key string, at Stage) []Share {
	u, _ := r.shares(key, at)
	return u.Shares
}

// shares is an uncertainty to first order, but for whether it is to be relied on,
// and the slot of the figure; none where the figure is not known.
func (r *Result) shares(key string, at Stage) (u Uncertainty, slot int32) {
	f, ok := r.Figure(key, at)
	if !ok || !f.Known() {
		return u, none
	}
	slot = r.nodes[f.node].slot
	u.Linear = r.linear(slot, func(i int32, slope float64) {
		s := r.nodes[i].leaf.Spread
		u.Shares = append(u.Shares, Share{Figure: r.figure(i), Slope: slope, Part: slope * slope * s.Std * s.Std})
		u.Worst += math.Abs(slope) * s.Half
	})
	for i := range u.Shares {
		u.Shares[i].Part /= u.Linear * u.Linear
	}
	slices.SortStableFunc(u.Shares, func(a, b Share) int { return cmp.Compare(b.Part, a.Part) })
	u.Std = u.Linear
	return u, slot
}

// line is what a slot is computed from.
type line struct {
	steps  []int32 // in order, the slot itself the last
	leaves []int32 // nodes of those of them that have an uncertainty
}

func (r *Result) line(slot int32) line {
	l, ok := r.lines[slot]
	if !ok {
		l.steps = r.tape.behind(slot, r.adj)
		for _, i := range r.spread {
			if n := &r.nodes[i]; n.slot <= slot && r.adj[n.slot] != 0 {
				l.leaves = append(l.leaves, i)
			}
		}
		r.lines[slot] = l
	}
	return l
}

// linear is the standard uncertainty of a slot to first order; each, where
// given, gets the leaves that contribute and their slopes.
func (r *Result) linear(slot int32, each func(i int32, slope float64)) float64 {
	l := r.line(slot)
	r.tape.gradient(r.adj, l.steps, true)
	var sum float64
	for _, i := range l.leaves {
		n := &r.nodes[i]
		if d := r.adj[n.slot]; d != 0 {
			sum += d * d * n.leaf.Spread.Std * n.leaf.Spread.Std
			if each != nil {
				each(i, d)
			}
		}
	}
	return math.Sqrt(sum)
}

// Derivative is the exact derivative of a figure by a leaf as first given, in
// inside units, decisions included; 0 where it does not depend on it.
func (r *Result) Derivative(key, by string, at Stage) float64 {
	i, leaf := r.node(key, at), r.first(by)
	if i < 0 || leaf == nil {
		return 0
	}
	l := r.line(r.nodes[i].slot)
	if _, ok := slices.BinarySearch(l.steps, leaf.slot); !ok {
		return 0
	}
	r.tape.gradient(r.adj, l.steps, false)
	return r.adj[leaf.slot]
}

// widen gives every slot an upper bound of its standard uncertainty, and marks
// those that bend within it: a kink that is nearer than three standard
// uncertainties, or a product, quotient or curve of values known to worse than
// a tenth.
func (r *Result) widen() {
	if r.fresh {
		return
	}
	r.fresh = true
	if r.width == nil {
		r.width, r.bent = make([]float64, len(r.tape.steps)), make([]bool, len(r.tape.steps))
	}
	clear(r.width)
	for _, i := range r.spread {
		r.width[r.nodes[i].slot] = r.nodes[i].leaf.Spread.Std
	}
	for i := range int32(len(r.tape.steps)) {
		s := &r.tape.steps[i]
		if s.op <= opFixed {
			continue // a decision is made so; nothing is behind it
		}
		in := r.tape.inputs(i)
		for _, a := range in {
			r.adj[a] = 0
		}
		r.tape.back(r.adj, i, 1)
		bent := false
		var sum, w float64
		for _, a := range in {
			sum += r.width[a]
			if d := r.adj[a]; d != 0 {
				w += math.Abs(d) * r.width[a]
				bent = bent || r.bent[a]
			}
		}
		r.width[i] = w
		r.bent[i] = bent || s.op == opWhen && r.bent[in[0]] || sum > 0 && r.bends(i, s, in)
	}
}

// bends tells whether step i itself bends within the widths of its inputs.
func (r *Result) bends(i int32, s *step, in []int32) bool {
	v, width := r.tape.v, r.width
	vague := func(a int32) bool { return width[a] > math.Abs(v[a])/10 }
	switch s.op {
	case opMin, opMax, opLess, opLessEq:
		return math.Abs(v[in[0]]-v[in[1]]) < 3*(width[in[0]]+width[in[1]])
	case opMul:
		return vague(in[0]) && vague(in[1])
	case opDiv:
		return vague(in[1])
	case opPow:
		return vague(in[0])
	case opCurve:
		c := &curves[s.which]
		switch a := in[0]; {
		case s.which == curveAbs:
			return math.Abs(v[a]) < 3*width[a]
		case s.which == curveCeil || s.which == curveFloor:
			return c.f(v[a]-3*width[a]) != c.f(v[a]+3*width[a])
		case c.from == 0:
			return vague(a)
		default:
			return width[a] > 0.1 // of sin, exp and the like, which bend over a unit
		}
	case opFunc:
		c := &r.tape.calls[s.which]
		if c.fn.Slope != nil {
			return slices.ContainsFunc(in, vague)
		}
		for j, a := range in {
			for _, side := range []float64{-3, 3} {
				args := c.read(v)
				if args[j] += side * width[a]; c.fn.F(args) != v[i] {
					return true
				}
			}
		}
	}
	return false
}

// TextPlusMinus writes an uncertainty for people: two significant figures at
// most, in the figure's own unit.
func (f Figure) TextPlusMinus(u Uncertainty) string {
	pm := u.PlusMinus()
	if pm == 0 {
		return ""
	}
	shown := pm / f.Unit.Scale
	d := max(0, 1-int(math.Floor(math.Log10(shown))))
	return "± " + unit.Unit{Scale: 1}.Text(shown, min(d, 4))
}
