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
	f, ok := r.Figure(key, at)
	if !ok || !f.Known() || trials < 2 {
		return Distribution{}, false
	}
	return r.trials(r.nodes[f.node].slot, trials, seed), true
}

func (r *Result) trials(slot int32, trials int, seed uint64) Distribution {
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
	var sum float64
	for trial := range got {
		for _, l := range leaves {
			t.v[l.slot] = l.value + l.draw(rng)
		}
		t.run(t.v, 0, int32(len(t.steps)))
		got[trial] = t.v[at[slot]]
		sum += got[trial]
	}
	d := Distribution{Trials: trials, Mean: sum / float64(trials)}
	for _, x := range got {
		d.Std += (x - d.Mean) * (x - d.Mean)
	}
	d.Std = math.Sqrt(d.Std / float64(trials-1))
	slices.Sort(got)
	d.Low, d.High = got[int(0.025*float64(trials))], got[int(0.975*float64(trials))]
	return d
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
