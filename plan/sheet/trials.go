package sheet

import (
	"math"
	"math/rand/v2"
	"slices"
)

// Distribution is what trials say of a figure (JCGM 101:2008).
type Distribution struct {
	Trials    int
	Mean, Std float64
	Low, High float64 // the middle 95 %: from the 2.5th to the 97.5th percentile
}

// quickTrials are made by themselves, where first order is wrong; they give
// the standard uncertainty to about 2 %.
const quickTrials = 2000

// Trials draws every leaf that a figure depends on from its own spread, as
// often as asked, and looks at what becomes of the figure. The same seed gives
// the same answer.
func (r *Result) Trials(key string, at Stage, trials int, seed uint64) (Distribution, bool) {
	drawn, ok := r.Drawn(key, at, trials, seed)
	if !ok {
		return Distribution{}, false
	}
	return Distributed(drawn), true
}

// Drawn is what became of the figure in each of the trials of [Result.Trials],
// in order of size.
func (r *Result) Drawn(key string, at Stage, trials int, seed uint64) ([]float64, bool) {
	f, ok := r.Figure(key, at)
	if !ok || !f.Known() || trials < 2 {
		return nil, false
	}
	drawn := r.draw(r.nodes[f.node].slot, trials, seed)
	slices.Sort(drawn)
	return drawn, true
}

// Distributed looks at two or more values that are in order of size.
func Distributed(drawn []float64) Distribution {
	n := float64(len(drawn))
	d := Distribution{Trials: len(drawn), Low: drawn[int(0.025*n)], High: drawn[int(0.975*n)]}
	d.Mean, d.Std = scatter(drawn)
	return d
}

// scatter is the mean and the sample standard deviation.
func scatter(drawn []float64) (mean, std float64) {
	for _, x := range drawn {
		mean += x
	}
	mean /= float64(len(drawn))
	for _, x := range drawn {
		std += (x - mean) * (x - mean)
	}
	return mean, math.Sqrt(std / float64(len(drawn)-1))
}

func (r *Result) draw(slot int32, trials int, seed uint64) []float64 {
	rng := rand.New(rand.NewPCG(seed, 0x5ee7))
	t, at := r.tape.extract(slot)
	type source struct {
		slot  int32
		value float64
		Spread
	}
	var leaves []source
	for _, i := range r.spread {
		if n := &r.nodes[i]; n.slot <= slot && at[n.slot] >= 0 {
			leaves = append(leaves, source{at[n.slot], r.tape.v[n.slot], n.leaf.Spread})
		}
	}
	got := make([]float64, trials)
	for trial := range got {
		for _, l := range leaves {
			t.v[l.slot] = l.value + l.draw(rng)
		}
		t.run(t.v, 0, int32(len(t.steps)))
		got[trial] = t.v[at[slot]]
	}
	return got
}

// extract is a tape of only those steps that slot depends on, and where they
// are on it; −1 for the others. A decision is as firm as a constant. Of a min,
// max or when with something unknown in it, the side that gives the value stays.
func (t *tape) extract(slot int32) (sub tape, at []int32) {
	const needed = 0
	at = slices.Repeat([]int32{none}, int(slot)+1)
	at[slot] = needed
	for i := slot; i >= 0; i-- {
		if at[i] == needed && t.steps[i].op != opFixed {
			for _, a := range t.inputs(i) {
				at[a] = needed
			}
		}
	}
	for i := range slot + 1 {
		if at[i] != needed {
			continue
		}
		s := t.steps[i]
		switch {
		case s.op <= opFixed:
			s = step{}
		case s.open && (s.op == opMin || s.op == opMax || s.op == opWhen):
			s = step{op: opCopy, in: [3]int32{at[t.taken(i)]}}
		case s.op == opFunc:
			c := t.calls[s.which]
			c.in, c.buf = slices.Clone(c.in), slices.Clone(c.buf)
			for j, a := range c.in {
				c.in[j] = at[a]
			}
			s.which = int32(len(sub.calls))
			sub.calls = append(sub.calls, c)
		default:
			for j, a := range s.in[:s.n] {
				s.in[j] = at[a]
			}
		}
		s.open = false
		at[i] = sub.push(s, t.v[i])
	}
	return sub, at
}

func (s Spread) draw(rng *rand.Rand) float64 {
	if s.normal {
		return s.Std * rng.NormFloat64()
	}
	return s.Half * (2*rng.Float64() - 1)
}
