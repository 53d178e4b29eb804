package sheet

import (
	"math"
	"math/rand/v2"
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

func (s Spread) draw(rng *rand.Rand) float64 {
	if s.normal {
		return s.Std * rng.NormFloat64()
	}
	return s.Half * (2*rng.Float64() - 1)
}

// Share is what one leaf contributes to an uncertainty.
type Share struct {
	Figure
	Slope float64 // derivative of the figure by the leaf, in inside units
	Part  float64 // of the variance, 0 to 1
}

// Uncertainty of a figure, in its inside unit.
type Uncertainty struct {
	Std    float64 // u: combined standard uncertainty, to first order (JCGM 100:2008, 5.1.2)
	Worst  float64 // the sum of all halves, each at its slope
	Bent   bool    // first order is not to be relied on here; Std is then from trials (JCGM 101:2008)
	Shares []Share // largest first
}

// PlusMinus is the expanded uncertainty for a coverage of about 95 %: 2 u.
func (u Uncertainty) PlusMinus() float64 { return 2 * u.Std }

// Uncertainty of a figure from its leaves. Where a min, max, comparison or a
// strong curve lies within the uncertainty, first order is wrong, and trials
// are made instead.
func (r *Result) Uncertainty(key string, at Stage) Uncertainty {
	f, ok := r.Figure(key, at)
	if !ok || !f.Known() {
		return Uncertainty{}
	}
	u := r.firstOrder(f)
	if u.Bent {
		u.Std = r.trials(f, quickTrials, 1).Std
	}
	return u
}

func (r *Result) firstOrder(f Figure) (u Uncertainty) {
	slot := r.nodes[f.node].slot
	r.tape.gradient(r.v, r.adj, slot, true)
	for i := range r.nodes {
		n := &r.nodes[i]
		if n.leaf == nil || n.slot > slot || n.leaf.Spread.Std == 0 || r.adj[n.slot] == 0 {
			continue
		}
		d := r.adj[n.slot]
		part := d * d * n.leaf.Spread.Std * n.leaf.Spread.Std
		u.Shares = append(u.Shares, Share{Figure: r.figure(int32(i)), Slope: d, Part: part})
		u.Std += part
		u.Worst += math.Abs(d) * n.leaf.Spread.Half
	}
	for i := range u.Shares {
		u.Shares[i].Part /= u.Std
	}
	u.Std = math.Sqrt(u.Std)
	slices.SortStableFunc(u.Shares, func(a, b Share) int {
		switch {
		case a.Part > b.Part:
			return -1
		case a.Part < b.Part:
			return 1
		}
		return 0
	})
	u.Bent = len(u.Shares) > 0 && r.bent(f)
	return u
}

// Derivative is the exact derivative of a figure by a leaf as first given, in
// inside units, decisions included; 0 where it does not depend on it.
func (r *Result) Derivative(key, by string, at Stage) float64 {
	f, ok := r.Figure(key, at)
	q := r.sheet.byKey[by]
	if !ok || q == nil {
		return 0
	}
	slot := r.nodes[f.node].slot
	r.tape.gradient(r.v, r.adj, slot, false)
	for i := range r.nodes {
		if n := &r.nodes[i]; n.q == q && n.leaf == &q.leaf && n.slot <= slot {
			return r.adj[n.slot]
		}
	}
	return 0
}

// bent tells whether a figure bends within the uncertainty of its leaves: a
// kink that is nearer than three standard uncertainties, or a product,
// quotient or curve of values known to worse than a tenth.
func (r *Result) bent(f Figure) bool {
	steps := r.cone(f)
	spread := map[int32]float64{} // an upper bound of the standard uncertainty of each value
	for _, i := range steps {
		s := &r.tape.steps[i]
		a, b := spread[s.a], spread[s.b]
		wide := func(i int32, u float64) bool { return u > 0.1*math.Abs(r.v[i]) }
		switch s.op {
		case opConst, opFixed:
			continue
		case opLeaf:
			spread[i] = r.leafSpread(i).Std
			continue
		case opMin, opMax, opLess, opLessEq:
			if gap := math.Abs(r.v[s.a] - r.v[s.b]); a+b > 0 && gap < 3*(a+b) {
				return true
			}
		case opAbs:
			if a > 0 && math.Abs(r.v[s.a]) < 3*a {
				return true
			}
		case opMul:
			if a > 0 && b > 0 && wide(s.a, a) && wide(s.b, b) {
				return true
			}
		case opDiv:
			if b > 0 && wide(s.b, b) {
				return true
			}
		case opPow, opSqrt, opExp, opLog, opTan, opSin, opCos, opAtan:
			if a > 0 && wide(s.a, a) {
				return true
			}
		}
		r.tape.each(i, func(in int32) { r.adj[in] = 0 })
		r.tape.back(r.v, r.adj, i, 1)
		r.tape.each(i, func(in int32) { spread[i] += math.Abs(r.adj[in]) * spread[in] })
	}
	return false
}

func (r *Result) leafSpread(slot int32) Spread {
	i, _ := slices.BinarySearchFunc(r.nodes, slot, func(n node, s int32) int { return int(n.slot - s) })
	if i < len(r.nodes) && r.nodes[i].slot == slot && r.nodes[i].leaf != nil {
		return r.nodes[i].leaf.Spread
	}
	return Spread{}
}

// cone lists the steps that a figure depends on, in order. Behind a decision
// there is nothing more to see.
func (r *Result) cone(f Figure) []int32 {
	slot := r.nodes[f.node].slot
	in := make([]bool, slot+1)
	in[slot] = true
	var steps []int32
	for i := slot; i >= 0; i-- {
		if !in[i] {
			continue
		}
		steps = append(steps, i)
		if r.tape.steps[i].op != opFixed {
			r.tape.each(i, func(a int32) { in[a] = true })
		}
	}
	slices.Reverse(steps)
	return steps
}

// Distribution is what trials say of a figure (JCGM 101:2008).
type Distribution struct {
	Trials    int
	Mean, Std float64
	Low, High float64 // the shortest-tailed 95 %: from the 2.5th to the 97.5th percentile
}

// quickTrials are made by themselves, where first order is wrong; they give
// the standard uncertainty to about 2 %.
const quickTrials = 2000

// Trials draws every leaf that a figure depends on from its own spread, as
// often as asked, and looks at what becomes of the figure. The same seed gives
// the same answer.
func (r *Result) Trials(key string, at Stage, trials int, seed uint64) (Distribution, bool) {
	f, ok := r.Figure(key, at)
	if !ok || !f.Known() || trials < 2 {
		return Distribution{}, false
	}
	return r.trials(f, trials, seed), true
}

func (r *Result) trials(f Figure, trials int, seed uint64) Distribution {
	rng := rand.New(rand.NewPCG(seed, 0x5ee7))
	steps := r.cone(f)
	v := slices.Clone(r.v)
	slot := r.nodes[f.node].slot
	type source struct {
		slot   int32
		spread Spread
	}
	var leaves []source
	run := steps[:0:0]
	for _, i := range steps {
		switch r.tape.steps[i].op {
		case opConst, opFixed:
		case opLeaf:
			if sp := r.leafSpread(i); sp.Std > 0 {
				leaves = append(leaves, source{i, sp})
			}
		default:
			run = append(run, i)
		}
	}
	got := make([]float64, trials)
	var sum float64
	for t := range got {
		for _, l := range leaves {
			v[l.slot] = r.v[l.slot] + l.spread.draw(rng)
		}
		for _, i := range run {
			if o := r.tape.steps[i].op; r.tape.steps[i].bounded && (o == opMin || o == opMax) {
				v[i] = v[r.tape.taken(r.v, i)]
				continue
			}
			r.tape.run(v, i, i+1)
		}
		got[t] = v[slot]
		sum += v[slot]
	}
	d := Distribution{Trials: trials, Mean: sum / float64(trials)}
	for _, x := range got {
		d.Std += (x - d.Mean) * (x - d.Mean)
	}
	d.Std = math.Sqrt(d.Std / float64(trials-1))
	slices.Sort(got)
	at := func(p float64) float64 { return got[min(trials-1, int(p*float64(trials)))] }
	d.Low, d.High = at(0.025), at(0.975)
	return d
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
