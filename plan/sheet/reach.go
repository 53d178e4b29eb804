package sheet

import (
	"math"
	"slices"
)

// Limit is how far a leaf can be taken before a check fails.
type Limit struct {
	Check
	From, To float64 // the check holds from From to To; To is infinite where it was never seen to fail
	Never    bool    // it does not hold anywhere
	AsFound  bool    // the machine breaks it as found: a warning, never the stop
}

// Reach is the answer to "how far could I go?".
type Reach struct {
	From, To float64 // every stop and rule holds between; To < From means nowhere
	AtMost   bool    // something that matters here is not measured
	Limits   []Limit // those that end somewhere, nearest first
	Best     float64 // the smallest value at which the goal is as good as it gets; NaN where there is no goal
}

// HowFar takes the leaf key from 0 to most in steps, watches every check, and
// closes in on where each turns. It leaves the sheet as it was.
func (r *Result) HowFar(key, goal string, most float64) Reach {
	q := r.sheet.byKey[key]
	out := Reach{To: most, Best: math.NaN()}
	if q == nil || q.kind != leaf {
		return out
	}
	const steps = 48
	var checks []*check
	for _, k := range r.sheet.checks {
		if r.at[Planned][k.margin.id] >= 0 && k.Level != Note {
			checks = append(checks, k)
		}
	}
	margin := func(k *check) float64 {
		n := &r.nodes[r.at[Planned][k.margin.id]]
		if r.tape.steps[n.slot].bounded {
			return r.hi[n.slot]
		}
		return r.v[n.slot]
	}
	at := func(x float64, k *check) float64 { r.Try(key, x); return margin(k) }
	was := r.figure(r.leafAt(q)).Value
	seen := make([][]float64, steps+1)
	goals := make([]float64, steps+1)
	for i := range seen {
		r.Try(key, most*float64(i)/steps)
		seen[i] = make([]float64, len(checks))
		for j, k := range checks {
			seen[i][j] = margin(k)
			out.AtMost = out.AtMost || r.verdict(k, Planned) == Unmeasured
		}
		goals[i] = r.Value(goal, Planned)
	}
	for j, k := range checks {
		l := Limit{Check: k.Check, To: math.Inf(1), Never: true, AsFound: r.verdict(k, Found) == Fails}
		for i := range seen {
			holds := seen[i][j] >= -nearly
			lo, hi := most*float64(i-1)/steps, most*float64(i)/steps
			switch {
			case holds && l.Never:
				l.Never, l.From = false, hi
				if i > 0 {
					l.From = root(lo, hi, func(x float64) float64 { return at(x, k) })
				}
			case !holds && !l.Never && math.IsInf(l.To, 1):
				l.To = root(lo, hi, func(x float64) float64 { return at(x, k) })
			}
		}
		if l.Never || !math.IsInf(l.To, 1) || l.From > 0 {
			out.Limits = append(out.Limits, l)
		}
		if k.Level == Use || k.Advice || l.AsFound {
			continue
		}
		out.From = max(out.From, l.From)
		out.To = min(out.To, l.To)
		if l.Never {
			out.To = math.Inf(-1)
		}
	}
	slices.SortStableFunc(out.Limits, func(a, b Limit) int {
		switch {
		case a.To < b.To:
			return -1
		case a.To > b.To:
			return 1
		}
		return 0
	})
	out.Best = r.saturation(key, goal, goals, most)
	r.Try(key, was)
	return out
}

func (r *Result) leafAt(q *quantity) int32 {
	return int32(slices.IndexFunc(r.nodes, func(n node) bool { return n.q == q && n.leaf == &q.leaf }))
}

// saturation is the smallest value at which the goal reaches its best.
func (r *Result) saturation(key, goal string, seen []float64, most float64) float64 {
	if math.IsNaN(seen[0]) {
		return math.NaN()
	}
	best := slices.Max(seen)
	i := slices.IndexFunc(seen, func(x float64) bool { return x >= best-nearly })
	n := float64(len(seen) - 1)
	if i <= 0 || i == len(seen)-1 {
		return most * float64(i) / n
	}
	lo, hi := most*float64(i-1)/n, most*float64(i)/n
	for hi-lo > 1e-7 {
		mid := (lo + hi) / 2
		r.Try(key, mid)
		if r.Value(goal, Planned) >= best-nearly {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// root is where f, of different signs at a and b, is nothing: the Illinois
// method (Dowell and Jarratt, BIT 11, 1971), which is exact at once where f is
// straight. Where f only touches, it is the end at which it does.
func root(a, b float64, f func(float64) float64) float64 {
	fa, fb := f(a), f(b)
	for range 60 {
		if math.Abs(fa) <= nearly || math.IsInf(fa, 0) {
			return a
		}
		if math.Abs(fb) <= nearly || math.IsInf(fb, 0) || math.Abs(b-a) < 1e-9 {
			return b
		}
		x := b - fb*(b-a)/(fb-fa)
		fx := f(x)
		if (fx < 0) != (fb < 0) {
			a, fa = b, fb
		} else {
			fa /= 2
		}
		b, fb = x, fx
	}
	return b
}
