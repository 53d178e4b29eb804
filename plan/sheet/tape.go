package sheet

import (
	"math"
	"slices"
)

// op is what one step of the tape does.
type op uint8

const (
	opConst op = iota // its value is in place before the tape runs
	opLeaf            // so is this
	opFixed           // a decision's value; no uncertainty passes through it
	opCopy
	opAdd
	opSub
	opMul
	opDiv
	opNeg
	opLess
	opLessEq
	opMin
	opMax
	opWhen  // a condition and the two values
	opPow   // the exponent is a constant
	opCurve // of one value
	opFunc  // a registered function

	// Only in parsed formulas, never on a tape.
	opName
	opCall
	opMore
	opMoreEq
)

// step is one instruction; its result goes to the slot of its own number.
type step struct {
	op    op
	open  bool     // depends on something that is not known
	n     uint8    // how many of in are used
	which int32    // the curve, or the call of a registered function
	in    [3]int32 // the slots that it reads; those of a call are the call's
}

// call is one use of a registered function; buf spares an allocation a run.
type call struct {
	fn  *Func
	in  []int32
	buf []float64
}

func (c *call) read(v []float64) []float64 {
	for j, a := range c.in {
		c.buf[j] = v[a]
	}
	return c.buf
}

// tape is a whole sheet as a straight line of steps. Values, bounds, derivatives
// and trials all run along the same line, so there is one copy of each formula.
type tape struct {
	steps  []step
	calls  []call
	v      []float64 // constants and leaves in place; NaN for what is not known
	lo, hi []float64 // bounds of what is open
	open   []int32   // the open steps
}

// grow makes room for n steps.
func (t *tape) grow(n int) {
	t.steps = make([]step, 0, n)
	t.v, t.lo, t.hi = make([]float64, 0, n), make([]float64, 0, n), make([]float64, 0, n)
}

func (t *tape) push(s step, value float64) int32 {
	i := int32(len(t.steps))
	if s.open {
		t.open = append(t.open, i)
	}
	t.steps = append(t.steps, s)
	t.v, t.lo, t.hi = append(t.v, value), append(t.lo, value), append(t.hi, value)
	return i
}

// inputs are the slots that step i reads.
func (t *tape) inputs(i int32) []int32 {
	s := &t.steps[i]
	if s.op == opFunc {
		return t.calls[s.which].in
	}
	return s.in[:s.n]
}

// run computes steps from up to (not including) to.
func (t *tape) run(v []float64, from, to int32) {
	for i := from; i < to; i++ {
		s := &t.steps[i]
		a, b := s.in[0], s.in[1]
		switch s.op {
		case opFixed, opCopy:
			v[i] = v[a]
		case opAdd:
			v[i] = v[a] + v[b]
		case opSub:
			v[i] = v[a] - v[b]
		case opMul:
			v[i] = v[a] * v[b]
		case opDiv:
			v[i] = v[a] / v[b]
		case opNeg:
			v[i] = -v[a]
		case opLess:
			v[i] = truth(v[a] < v[b])
		case opLessEq:
			v[i] = truth(v[a] <= v[b])
		case opMin:
			v[i] = min(v[a], v[b])
		case opMax:
			v[i] = max(v[a], v[b])
		case opWhen:
			v[i] = v[s.in[2]]
			if v[a] != 0 {
				v[i] = v[b]
			}
		case opPow:
			v[i] = power(v[a], v[b])
		case opCurve:
			v[i] = curves[s.which].f(v[a])
		case opFunc:
			c := &t.calls[s.which]
			v[i] = c.fn.F(c.read(v))
		}
	}
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// power is math.Pow, faster for the powers that engineering uses.
func power(x, p float64) float64 {
	switch p {
	case 2:
		return x * x
	case 3:
		return x * x * x
	case 4:
		return x * x * x * x
	}
	return math.Pow(x, p)
}

// behind lists the steps that slot is computed from, in order, itself the last.
// marks is as long as the tape, and is written over.
func (t *tape) behind(slot int32, marks []float64) (line []int32) {
	clear(marks[:slot])
	marks[slot] = 1
	for i := slot; i >= 0; i-- {
		if marks[i] == 0 {
			continue
		}
		line = append(line, i)
		for _, a := range t.inputs(i) {
			marks[a] = 1
		}
	}
	slices.Reverse(line)
	return line
}

// gradient fills adj, along a line of steps, with the derivative of the value at
// its end by that of each: reverse accumulation, exact to rounding (Griewank and
// Walther, Evaluating Derivatives, 2nd ed., ch. 3). At a decision it ends when
// decided is true: what was decided is made so, however well the sizes were known
// that it was computed from.
func (t *tape) gradient(adj []float64, line []int32, decided bool) {
	for _, i := range line {
		adj[i] = 0
	}
	adj[line[len(line)-1]] = 1
	for _, i := range slices.Backward(line) {
		if d := adj[i]; d != 0 && (!decided || t.steps[i].op != opFixed) {
			t.back(adj, i, d)
		}
	}
}

// back adds d times the derivatives of step i to those of what it reads.
func (t *tape) back(adj []float64, i int32, d float64) {
	s, v := &t.steps[i], t.v
	a, b := s.in[0], s.in[1]
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
	case opMin, opMax, opWhen:
		adj[t.taken(i)] += d
	case opPow:
		adj[a] += d * v[b] * power(v[a], v[b]-1)
	case opCurve:
		adj[a] += d * curves[s.which].slope(v[a], v[i])
	case opFunc:
		c := &t.calls[s.which]
		if c.fn.Slope == nil {
			return // a table, or a rounding: flat between its steps
		}
		for j, x := range c.in {
			adj[x] += d * c.fn.Slope(c.read(v), j)
		}
	}
}

// taken is the input that gives a min, max or when its value.
func (t *tape) taken(i int32) int32 {
	s, v := &t.steps[i], t.v
	switch {
	case s.op != opWhen && v[s.in[0]] == v[i]:
		return s.in[0]
	case s.op != opWhen || v[s.in[0]] != 0:
		return s.in[1]
	}
	return s.in[2]
}

// from lists the steps that depend on slot, in order, itself the first.
func (t *tape) from(slot int32) (way []int32) {
	reached := make([]bool, len(t.steps))
	reached[slot] = true
	way = append(way, slot)
	for i := slot + 1; i < int32(len(t.steps)); i++ {
		for _, a := range t.inputs(i) {
			if reached[a] {
				reached[i] = true
				way = append(way, i)
				break
			}
		}
	}
	return way
}

// leading lists those steps of a way that any of the slots depends on, the first always.
func (t *tape) leading(way []int32, slots ...int32) (back []int32) {
	needed := make([]bool, len(t.steps))
	for _, i := range slots {
		needed[i] = true
	}
	needed[way[0]] = true
	for _, i := range slices.Backward(way) {
		if needed[i] {
			back = append(back, i)
			for _, a := range t.inputs(i) {
				needed[a] = true
			}
		}
	}
	slices.Reverse(back)
	return back
}

// rerun sets the leaf at the beginning of a way and runs the rest of it.
func (t *tape) rerun(way []int32, value float64) {
	t.v[way[0]] = value
	for _, i := range way[1:] {
		if t.steps[i].open {
			t.lo[i], t.hi[i] = t.interval(i)
			t.v[i] = t.closed(i)
		} else {
			t.run(t.v, i, i+1)
		}
	}
}
