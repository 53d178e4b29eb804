package sheet

import "math"

// op is one step of the tape.
type op uint8

const (
	opConst op = iota // its value is in place before the tape runs
	opLeaf
	opFixed // a: a decision's value; no uncertainty passes through it
	opCopy  // a
	opAdd
	opSub
	opMul
	opDiv
	opNeg
	opLess
	opLessEq
	opMin
	opMax
	opWhen // a: the condition; b, c: the two values
	opPow  // b is a constant
	opSqrt
	opAbs
	opSin
	opCos
	opTan
	opAtan
	opExp
	opLog
	opCeil
	opFloor
	opFunc // a: index of the call

	// Only in parsed formulas, never on a tape.
	opName
	opCall
	opMore
	opMoreEq
)

// step is one instruction; its result goes to the slot of its own number.
type step struct {
	op      op
	bounded bool // depends on an unknown: computed as an interval
	a, b, c int32
}

// call is one use of a registered function; buf spares an allocation a run.
type call struct {
	fn   *Func
	args []int32
	buf  []float64
}

// tape is a whole sheet as a straight line of steps. Values, bounds, derivatives
// and trials all run along the same line, so there is one copy of each formula.
type tape struct {
	steps []step
	calls []call
	start []float64 // constants and leaves; NaN for what is not known
	lo    []float64 // bounds of leaves that are not known
	hi    []float64
}

func (t *tape) push(s step, start float64) int32 {
	t.steps = append(t.steps, s)
	t.start = append(t.start, start)
	t.lo = append(t.lo, start)
	t.hi = append(t.hi, start)
	return int32(len(t.steps) - 1)
}

// run computes steps from up to (not including) to.
func (t *tape) run(v []float64, from, to int32) {
	for i := from; i < to; i++ {
		s := &t.steps[i]
		switch s.op {
		case opFixed, opCopy:
			v[i] = v[s.a]
		case opAdd:
			v[i] = v[s.a] + v[s.b]
		case opSub:
			v[i] = v[s.a] - v[s.b]
		case opMul:
			v[i] = v[s.a] * v[s.b]
		case opDiv:
			v[i] = v[s.a] / v[s.b]
		case opNeg:
			v[i] = -v[s.a]
		case opLess:
			v[i] = truth(v[s.a] < v[s.b])
		case opLessEq:
			v[i] = truth(v[s.a] <= v[s.b])
		case opMin:
			v[i] = min(v[s.a], v[s.b])
		case opMax:
			v[i] = max(v[s.a], v[s.b])
		case opWhen:
			if v[s.a] != 0 {
				v[i] = v[s.b]
			} else {
				v[i] = v[s.c]
			}
		case opPow:
			v[i] = math.Pow(v[s.a], v[s.b])
		case opSqrt:
			v[i] = math.Sqrt(v[s.a])
		case opAbs:
			v[i] = math.Abs(v[s.a])
		case opSin:
			v[i] = math.Sin(v[s.a])
		case opCos:
			v[i] = math.Cos(v[s.a])
		case opTan:
			v[i] = math.Tan(v[s.a])
		case opAtan:
			v[i] = math.Atan(v[s.a])
		case opExp:
			v[i] = math.Exp(v[s.a])
		case opLog:
			v[i] = math.Log(v[s.a])
		case opCeil:
			v[i] = math.Ceil(v[s.a] - nearly)
		case opFloor:
			v[i] = math.Floor(v[s.a] + nearly)
		case opFunc:
			c := &t.calls[s.a]
			for j, a := range c.args {
				c.buf[j] = v[a]
			}
			v[i] = c.fn.F(c.buf)
		}
	}
}

// nearly keeps rounding errors from turning 5.000000001 up to 6.
const nearly = 1e-9

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// bound is [tape.run] for the steps that depend on an unknown: each as an
// interval, its value NaN unless the interval has closed to one.
func (t *tape) bound(v, lo, hi []float64) {
	for i := range t.steps {
		s := &t.steps[i]
		if !s.bounded {
			t.run(v, int32(i), int32(i+1))
			lo[i], hi[i] = v[i], v[i]
			continue
		}
		if s.op != opLeaf {
			lo[i], hi[i] = t.interval(s, lo, hi)
		}
		v[i] = math.NaN()
		if lo[i] == hi[i] {
			v[i] = lo[i]
		}
	}
}

func (t *tape) interval(s *step, lo, hi []float64) (float64, float64) {
	a, b := s.a, s.b
	switch s.op {
	case opFixed, opCopy:
		return lo[a], hi[a]
	case opAdd:
		return lo[a] + lo[b], hi[a] + hi[b]
	case opSub:
		return lo[a] - hi[b], hi[a] - lo[b]
	case opNeg:
		return -hi[a], -lo[a]
	case opMul:
		return hull(times(lo[a], lo[b]), times(lo[a], hi[b]), times(hi[a], lo[b]), times(hi[a], hi[b]))
	case opDiv:
		if lo[b] <= 0 && hi[b] >= 0 {
			break
		}
		return hull(lo[a]/lo[b], lo[a]/hi[b], hi[a]/lo[b], hi[a]/hi[b])
	case opLess:
		return truth(hi[a] < lo[b]), truth(lo[a] < hi[b])
	case opLessEq:
		return truth(hi[a] <= lo[b]), truth(lo[a] <= hi[b])
	case opMin:
		return min(lo[a], lo[b]), min(hi[a], hi[b])
	case opMax:
		return max(lo[a], lo[b]), max(hi[a], hi[b])
	case opWhen:
		switch {
		case lo[a] != 0:
			return lo[b], hi[b]
		case hi[a] == 0:
			return lo[s.c], hi[s.c]
		}
		return min(lo[b], lo[s.c]), max(hi[b], hi[s.c])
	case opAbs:
		if lo[a] <= 0 && hi[a] >= 0 {
			return 0, max(-lo[a], hi[a])
		}
		return hull(math.Abs(lo[a]), math.Abs(hi[a]))
	case opSqrt, opAtan, opExp, opLog, opCeil, opFloor:
		return t.ends(s, max(lo[a], domain[s.op]), hi[a])
	case opPow:
		if lo[a] >= 0 {
			return t.ends(s, lo[a], hi[a])
		}
	case opSin, opCos:
		return -1, 1
	case opFunc:
		return t.funcEnds(&t.calls[a], lo, hi)
	}
	return math.Inf(-1), math.Inf(1)
}

// domain is where a rising function begins.
var domain = map[op]float64{opAtan: math.Inf(-1), opExp: math.Inf(-1), opCeil: math.Inf(-1), opFloor: math.Inf(-1)}

// ends is the interval of a function that only rises or only falls.
func (t *tape) ends(s *step, lo, hi float64) (float64, float64) {
	at := func(x float64) float64 {
		small := tape{steps: []step{{}, {}, {op: s.op, a: 0, b: 1}}}
		v := []float64{x, 0, 0}
		if s.op == opPow {
			v[1] = t.start[s.b]
		}
		small.run(v, 2, 3)
		return v[2]
	}
	return hull(at(lo), at(hi))
}

// funcEnds holds for a function that rises or falls in each argument; any
// other gives no bound.
func (t *tape) funcEnds(c *call, lo, hi []float64) (float64, float64) {
	if !c.fn.Monotone {
		return math.Inf(-1), math.Inf(1)
	}
	all := make([]float64, 0, 1<<len(c.args))
	args := make([]float64, len(c.args))
	for corner := range 1 << len(c.args) {
		for i, a := range c.args {
			args[i] = lo[a]
			if corner>>i&1 == 1 {
				args[i] = hi[a]
			}
		}
		all = append(all, c.fn.F(args))
	}
	return hull(all...)
}

// times is a product in which nothing, however often, is nothing.
func times(a, b float64) float64 {
	if a == 0 || b == 0 {
		return 0
	}
	return a * b
}

func hull(xs ...float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, x := range xs {
		if math.IsNaN(x) {
			return math.Inf(-1), math.Inf(1)
		}
		lo, hi = min(lo, x), max(hi, x)
	}
	return lo, hi
}

// gradient fills adj with the derivative of the value in slot by that in each
// other: reverse accumulation, exact to rounding (Griewank and Walther,
// Evaluating Derivatives, 2nd ed., ch. 3). Decisions ([opFixed]) let nothing
// pass when decided is true: what was decided is made so, however well the
// sizes were known that it was computed from.
func (t *tape) gradient(v, adj []float64, slot int32, decided bool) {
	clear(adj[:slot+1])
	adj[slot] = 1
	for i := slot; i >= 0; i-- {
		if d := adj[i]; d != 0 && (!decided || t.steps[i].op != opFixed) {
			t.back(v, adj, i, d)
		}
	}
}

// back adds d times the derivatives of step i to those of what it reads.
func (t *tape) back(v, adj []float64, i int32, d float64) {
	s := &t.steps[i]
	a, b := s.a, s.b
	switch s.op {
	case opFixed, opCopy:
		adj[a] += d
	case opAdd:
		adj[a] += d
		adj[b] += d
	case opSub:
		adj[a] += d
		adj[b] -= d
	case opMul:
		adj[a] += d * v[b]
		adj[b] += d * v[a]
	case opDiv:
		adj[a] += d / v[b]
		adj[b] -= d * v[i] / v[b]
	case opNeg:
		adj[a] -= d
	case opMin, opMax:
		adj[t.taken(v, i)] += d
	case opWhen:
		if v[a] != 0 {
			adj[b] += d
		} else {
			adj[s.c] += d
		}
	case opPow:
		adj[a] += d * v[b] * math.Pow(v[a], v[b]-1)
	case opSqrt:
		adj[a] += d / (2 * v[i])
	case opAbs:
		adj[a] += math.Copysign(d, d*v[a])
	case opSin:
		adj[a] += d * math.Cos(v[a])
	case opCos:
		adj[a] -= d * math.Sin(v[a])
	case opTan:
		adj[a] += d * (1 + v[i]*v[i])
	case opAtan:
		adj[a] += d / (1 + v[a]*v[a])
	case opExp:
		adj[a] += d * v[i]
	case opLog:
		adj[a] += d / v[a]
	case opFunc:
		c := &t.calls[a]
		if c.fn.Slope == nil {
			return // a table, or a rounding: flat between its steps
		}
		for j, x := range c.args {
			c.buf[j] = v[x]
		}
		for j, x := range c.args {
			adj[x] += d * c.fn.Slope(c.buf, j)
		}
	}
}

// taken is the side of a min or max that gave its value: the other may be an
// unknown that does not matter here.
func (t *tape) taken(v []float64, i int32) int32 {
	if s := &t.steps[i]; v[s.a] != v[i] {
		return s.b
	}
	return t.steps[i].a
}

// each calls f for the slots that step i reads.
func (t *tape) each(i int32, f func(slot int32)) {
	s := &t.steps[i]
	switch s.op {
	case opConst, opLeaf:
		return
	case opFunc:
		for _, a := range t.calls[s.a].args {
			f(a)
		}
		return
	}
	f(s.a)
	if s.b != s.a {
		f(s.b)
	}
	if s.c != s.a && s.c != s.b {
		f(s.c)
	}
}
