package sheet

import "math"

// compute is [tape.run] for the whole tape. What depends on something that is
// not known gets bounds instead, and is NaN unless these close to one value.
func (t *tape) compute() {
	from := int32(0)
	for _, i := range t.open {
		t.run(t.v, from, i)
		from = i + 1
		if t.steps[i].op != opLeaf {
			t.lo[i], t.hi[i] = t.interval(i)
		}
		t.v[i] = t.closed(i)
	}
	t.run(t.v, from, int32(len(t.steps)))
}

// closed is the one value of an open step, or NaN where it has more.
func (t *tape) closed(i int32) float64 {
	if t.lo[i] == t.hi[i] {
		return t.lo[i]
	}
	return math.NaN()
}

// bounds of any slot.
func (t *tape) bounds(i int32) (lo, hi float64) {
	if t.steps[i].open {
		return t.lo[i], t.hi[i]
	}
	return t.v[i], t.v[i]
}

// interval gives the bounds of open step i. They are never too narrow; they are
// too wide where one unknown is met twice, as in x − x.
func (t *tape) interval(i int32) (lo, hi float64) {
	var buf [8]int32
	wide := buf[:0]
	for _, a := range t.inputs(i) {
		if t.steps[a].open && t.lo[a] != t.hi[a] {
			wide = append(wide, a)
		}
	}
	if len(wide) == 0 {
		return t.corners(i, wide)
	}
	s := &t.steps[i]
	lo, hi = -inf, inf
	a, b := s.in[0], s.in[1]
	from, dips := -inf, false
	switch s.op {
	case opWhen:
		if c := t.v[a]; !math.IsNaN(c) {
			return t.bounds(t.taken(i))
		}
		la, ha := t.bounds(b)
		lb, hb := t.bounds(s.in[2])
		return known(min(la, lb), max(ha, hb))
	case opDiv:
		if l, h := t.bounds(b); l <= 0 && h >= 0 {
			return
		}
	case opPow:
		switch p := t.v[b]; {
		case p != math.Trunc(p):
			from = 0
		case p < 0 && t.lo[a] <= 0 && t.hi[a] >= 0:
			return
		default:
			dips = math.Mod(p, 2) == 0
		}
	case opCurve:
		c := &curves[s.which]
		if c.waves > 0 {
			return -c.waves, c.waves
		}
		from, dips = c.from, s.which == curveAbs
	case opFunc:
		if !t.calls[s.which].fn.Monotone {
			return
		}
	}
	if t.hi[a] < from {
		return
	}
	was := t.lo[a]
	t.lo[a] = max(was, from)
	lo, hi = t.corners(i, wide)
	t.lo[a] = was
	if dips && was < 0 && t.hi[a] > 0 {
		lo = 0
	}
	return lo, hi
}

// corners tries all ends of the open inputs: a step that only rises or only falls in
// each of its inputs has its extremes there.
func (t *tape) corners(i int32, open []int32) (lo, hi float64) {
	lo, hi = inf, -inf
	for corner := range 1 << len(open) {
		for j, a := range open {
			t.v[a] = t.lo[a]
			if corner>>j&1 == 1 {
				t.v[a] = t.hi[a]
			}
		}
		t.run(t.v, i, i+1)
		x := t.v[i]
		if in := t.steps[i].in; t.steps[i].op == opMul && (t.v[in[0]] == 0 || t.v[in[1]] == 0) {
			x = 0 // nothing, however often, is nothing
		}
		lo, hi = min(lo, x), max(hi, x)
	}
	for _, a := range open {
		t.v[a] = math.NaN()
	}
	return known(lo, hi)
}

// known turns bounds that cannot be computed into none.
func known(lo, hi float64) (float64, float64) {
	if math.IsNaN(lo) || math.IsNaN(hi) {
		return -inf, inf
	}
	return lo, hi
}
