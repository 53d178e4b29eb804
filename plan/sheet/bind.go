package sheet

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"fettle/plan/unit"
)

// node is one version of one quantity: a key and the step at which it stands.
type node struct {
	q        *quantity
	f        *formula // nil for a leaf as it was given
	leaf     *Leaf    // nil for what is computed
	slot     int32
	from, to int32 // the steps that compute it from its inputs
	uses     []use
}

// use is one name in a formula, and the versions that it stands for there.
type use struct {
	name   string
	family *family // nil for a single quantity
	nodes  []int32
}

func (n *node) inputs(yield func(int32) bool) {
	for _, u := range n.uses {
		for _, i := range u.nodes {
			if !yield(i) {
				return
			}
		}
	}
}

type version struct {
	step int
	node int32
}

// inProgress marks a version that is being bound: meeting it again is a circle.
const inProgress = -2

type binder struct {
	*Sheet
	tape  tape
	nodes []node
	errs  []error
}

// Bind resolves every name, checks every unit and lays the whole out as one
// tape. It returns all programming errors joined: unknown names, dimensions
// that do not agree, circles. Conflicts between upgrades are no errors; see
// [Result.Conflicts].
func (s *Sheet) Bind() (*Result, error) {
	if s.done {
		return nil, errors.New("this sheet is bound already")
	}
	s.done = true
	b := &binder{Sheet: s, errs: s.errs}
	n := len(s.quantities)
	b.nodes = make([]node, 0, 2*n)
	b.tape.steps = make([]step, 0, 8*n)
	r := &Result{sheet: s}
	for stage := range s.marks {
		at := min(s.marks[stage], s.step)
		r.at[stage] = make([]int32, n)
		for i, q := range s.quantities {
			r.at[stage][i] = -1
			if q.born <= at {
				r.at[stage][i] = b.resolve(q, at)
			}
		}
	}
	if err := errors.Join(b.errs...); err != nil {
		return nil, err
	}
	r.tape, r.nodes = b.tape, b.nodes
	r.start()
	return r, nil
}

func (b *binder) fail(f *formula, pos int, format string, args ...any) {
	b.errs = append(b.errs, &FormulaError{f.text, pos, fmt.Sprintf(format, args...)})
}

// resolve is the node of q as it stands at step; −1 where it cannot be had.
func (b *binder) resolve(q *quantity, step int) int32 {
	key := step
	f := q.formula
	switch q.kind {
	case leaf:
		// A leaf stays as it is between its changes.
		key, f = q.born, nil
		for _, c := range q.changes {
			if c.step <= step {
				key, f = c.step, c
			}
		}
		if len(q.demands) > 0 && q.demands[0].born <= step {
			return b.required(q, step, key, f)
		}
	case fixed:
		key = q.formula.step
	}
	for _, v := range q.bound {
		if v.step == key {
			if v.node == inProgress {
				b.errs = append(b.errs, fmt.Errorf("%s is computed from itself", q.Key))
				return -1
			}
			return v.node
		}
	}
	return b.leafOr(q, f, key)
}

func (b *binder) leafOr(q *quantity, f *formula, key int) int32 {
	q.bound = append(q.bound, version{key, inProgress})
	at := len(q.bound) - 1
	var n int32
	switch {
	case f == nil:
		n = b.leafNode(q, nil, &q.leaf)
	case f.expr == nil:
		n = b.leafNode(q, f, &f.leaf)
	default:
		before := key
		if q.kind == leaf {
			before = key - 1 // a change sees what stood before it
		}
		n = b.computed(q, f, b.bindNames(q, f, before))
	}
	q.bound[at].node = n
	return n
}

func (b *binder) leafNode(q *quantity, f *formula, l *Leaf) int32 {
	slot := b.tape.push(step{op: opLeaf, bounded: l.Origin == Unknown}, l.Value)
	if l.Origin == Unknown {
		b.tape.lo[slot], b.tape.hi[slot] = l.Min, l.Max
	}
	b.nodes = append(b.nodes, node{q: q, f: f, leaf: l, slot: slot, from: slot, to: slot + 1})
	return int32(len(b.nodes) - 1)
}

// largest is the formula of a required leaf.
var largest = &expr{op: opCall, name: "max", args: []*expr{{op: opName, name: "was"}, {op: opName, name: "wanted"}}}

// required is the node of a leaf on which upgrades make demands.
func (b *binder) required(q *quantity, step, key int, f *formula) int32 {
	for _, v := range q.bound {
		if v.step == -step-1 {
			return v.node
		}
	}
	q.bound = append(q.bound, version{-step - 1, inProgress})
	at := len(q.bound) - 1
	own := int32(-1)
	for _, v := range q.bound {
		if v.step == key {
			own = v.node
		}
	}
	if own < 0 {
		own = b.leafOr(q, f, key)
	}
	wanted := use{name: "wanted", family: &family{label: "wanted"}}
	for _, d := range q.demands {
		if d.born <= step {
			wanted.nodes = append(wanted.nodes, b.resolve(d, step))
		}
	}
	g := &formula{expr: largest, text: "max(was, wanted)", scope: b.Root(), source: "the largest demand wins", step: step}
	n := b.computed(q, g, []use{{name: "was", nodes: []int32{own}}, wanted})
	q.bound[at].node = n
	return n
}

// bindNames finds the version of each name in f as it stands at step.
func (b *binder) bindNames(q *quantity, f *formula, step int) (uses []use) {
	f.expr.names(func(name string) {
		if name == "was" && q.kind == leaf {
			uses = append(uses, use{name: name, nodes: []int32{b.resolve(q, step)}})
			return
		}
		key := name
		if k, ok := f.with[name]; ok {
			key = k
		}
		if key == "inf" {
			uses = append(uses, use{name: key})
			return
		}
		if in := f.scope.find(key); in != nil {
			if in.born > step {
				b.errs = append(b.errs, fmt.Errorf("%s: %s is only defined later", q.Key, in.Key))
				uses = append(uses, use{name: name, nodes: []int32{-1}})
				return
			}
			uses = append(uses, use{name: name, nodes: []int32{b.resolve(in, step)}})
			return
		}
		if fam := f.scope.family(key); fam != nil {
			u := use{name: name, family: fam}
			for _, k := range fam.at(step) {
				u.nodes = append(u.nodes, b.resolve(b.byKey[k], step))
			}
			uses = append(uses, u)
			return
		}
		b.errs = append(b.errs, fmt.Errorf("%s = %s: no quantity %q from %q", q.Key, f.text, key, f.scope.prefix))
		uses = append(uses, use{name: name, nodes: []int32{-1}})
	})
	return uses
}

// computed is a node of q for f with the inputs bound: an earlier one where
// every input is the same, else a new one.
func (b *binder) computed(q *quantity, f *formula, uses []use) int32 {
	for i := len(q.bound) - 1; i >= 0; i-- {
		if n := q.bound[i].node; n >= 0 && b.nodes[n].f != nil && b.nodes[n].f.expr == f.expr && sameInputs(b.nodes[n].uses, uses) {
			return n
		}
	}
	for _, u := range uses {
		if slices.ContainsFunc(u.nodes, func(n int32) bool { return n < 0 }) {
			return -1 // already reported
		}
	}
	c := compiler{b, f, uses}
	from := int32(len(b.tape.steps))
	slot, dim, free := c.compile(f.expr)
	if !free && dim != q.Unit.Dim {
		b.fail(f, f.expr.pos, "%s is shown in %s (%s), but this is %s", q.Key, q.Unit.Symbol, q.Unit.Dim, dim)
	}
	if q.kind == fixed {
		slot = c.push(opFixed, slot)
	} else if slot < from {
		slot = c.push(opCopy, slot)
	}
	b.nodes = append(b.nodes, node{q: q, f: f, slot: slot, from: from, to: int32(len(b.tape.steps)), uses: uses})
	return int32(len(b.nodes) - 1)
}

func sameInputs(a, b []use) bool {
	return slices.EqualFunc(a, b, func(x, y use) bool { return slices.Equal(x.nodes, y.nodes) })
}

// compiler lays one formula onto the tape.
type compiler struct {
	*binder
	f    *formula
	uses []use // not yet met, in the order of the text
}

func (c *compiler) push(o op, args ...int32) int32 {
	s := step{op: o, a: args[0], b: args[0], c: args[0]}
	if len(args) > 1 {
		s.b = args[1]
	}
	if len(args) > 2 {
		s.c = args[2]
	}
	for _, a := range args {
		s.bounded = s.bounded || c.tape.steps[a].bounded
	}
	return c.tape.push(s, 0)
}

func (c *compiler) next() use {
	u := c.uses[0]
	c.uses = c.uses[1:]
	return u
}

func (c *compiler) constant(x float64) int32 { return c.tape.push(step{op: opConst}, x) }

// compile gives the slot of e's value and its dimension; free means that the
// value fits any dimension, as 0 and inf do.
func (c *compiler) compile(e *expr) (slot int32, d unit.Dim, free bool) {
	switch e.op {
	case opConst:
		return c.constant(e.num), unit.Number, e.num == 0
	case opName:
		u := c.next()
		if u.name == "inf" {
			return c.constant(math.Inf(1)), unit.Number, true
		}
		if u.family != nil {
			c.fail(c.f, e.pos, "%s is a family: take its min, max, sum or count", e.name)
			return 0, unit.Number, true
		}
		n := &c.nodes[u.nodes[0]]
		return n.slot, n.q.Unit.Dim, false
	case opCall:
		return c.compileCall(e)
	}
	a, da, freeA := c.compile(e.args[0])
	if e.op == opNeg {
		return c.push(opNeg, a), da, freeA
	}
	b, db, freeB := c.compile(e.args[1])
	o := e.op
	switch o {
	case opMul:
		return c.push(o, a, b), da.Times(db), freeA || freeB
	case opDiv:
		return c.push(o, a, b), da.Per(db), freeA
	case opMore:
		o, a, b = opLess, b, a
	case opMoreEq:
		o, a, b = opLessEq, b, a
	}
	d, free = c.same(e, da, freeA, db, freeB)
	slot = c.push(o, a, b)
	if o == opLess || o == opLessEq {
		return slot, unit.Number, false
	}
	return slot, d, free
}

// same is the dimension of two values that must agree.
func (c *compiler) same(e *expr, a unit.Dim, freeA bool, b unit.Dim, freeB bool) (unit.Dim, bool) {
	switch {
	case freeA:
		return b, freeB
	case freeB || a == b:
		return a, false
	}
	c.fail(c.f, e.pos, "%s and %s do not go together", a, b)
	return a, false
}

func (c *compiler) compileCall(e *expr) (slot int32, d unit.Dim, free bool) {
	if u, ok := unitTags[e.name]; ok {
		if len(e.args) != 1 || e.args[0].op != opConst {
			c.fail(c.f, e.pos, "%s takes one number", e.name)
			return 0, u.Dim, true
		}
		return c.constant(u.Inside(e.args[0].num)), u.Dim, false
	}
	if o, ok := folds[e.name]; ok {
		return c.compileFold(e, o)
	}
	var slots []int32
	var dims []unit.Dim
	var frees []bool
	for _, a := range e.args {
		s, d, f := c.compile(a)
		slots, dims, frees = append(slots, s), append(dims, d), append(frees, f)
	}
	arity := func(n int) bool {
		if len(e.args) != n {
			c.fail(c.f, e.pos, "%s takes %d arguments, not %d", e.name, n, len(e.args))
		}
		return len(e.args) == n
	}
	switch e.name {
	case "when":
		if !arity(3) {
			return 0, unit.Number, true
		}
		if o := e.args[0].op; o != opLess && o != opLessEq && o != opMore && o != opMoreEq {
			c.fail(c.f, e.args[0].pos, "when asks for a comparison first")
		}
		d, free = c.same(e, dims[1], frees[1], dims[2], frees[2])
		return c.push(opWhen, slots...), d, free
	case "pow":
		if !arity(2) {
			return 0, unit.Number, true
		}
		if e.args[1].op != opConst && (e.args[1].op != opNeg || e.args[1].args[0].op != opConst) {
			c.fail(c.f, e.args[1].pos, "an exponent is a number")
			return 0, unit.Number, true
		}
		p := c.exponent(e.args[1])
		d, ok := dims[0].Power(p)
		if !ok {
			c.fail(c.f, e.pos, "%s to the power %g is no dimension: divide by the unit first", dims[0], p)
		}
		return c.push(opPow, slots[0], c.constant(p)), d, false
	case "sqrt":
		if !arity(1) {
			return 0, unit.Number, true
		}
		d, ok := dims[0].Power(0.5)
		if !ok {
			c.fail(c.f, e.pos, "%s has no square root", dims[0])
		}
		return c.push(opSqrt, slots[0]), d, frees[0]
	case "abs":
		if !arity(1) {
			return 0, unit.Number, true
		}
		return c.push(opAbs, slots[0]), dims[0], frees[0]
	}
	if o, ok := pure[e.name]; ok {
		if !arity(1) {
			return 0, unit.Number, true
		}
		if !frees[0] && dims[0] != unit.Number {
			c.fail(c.f, e.pos, "%s takes a plain number, not %s", e.name, dims[0])
		}
		return c.push(o, slots[0]), unit.Number, false
	}
	fn := c.funcs[e.name]
	if fn == nil {
		c.fail(c.f, e.pos, "no function %s", e.name)
		return 0, unit.Number, true
	}
	if !arity(len(fn.Args)) {
		return 0, fn.Result, true
	}
	s := step{op: opFunc, a: int32(len(c.tape.calls))}
	for i, want := range fn.Args {
		if !frees[i] && dims[i] != want {
			c.fail(c.f, e.args[i].pos, "%s takes %s here, not %s", e.name, want, dims[i])
		}
		s.bounded = s.bounded || c.tape.steps[slots[i]].bounded
	}
	c.tape.calls = append(c.tape.calls, call{fn, slots, make([]float64, len(slots))})
	return c.tape.push(s, 0), fn.Result, false
}

func (c *compiler) exponent(e *expr) float64 {
	if e.op == opNeg {
		return -e.args[0].num
	}
	return e.num
}

// compileFold lays out min, max and sum over arguments and families.
func (c *compiler) compileFold(e *expr, o op) (slot int32, d unit.Dim, free bool) {
	slot, free = -1, true
	n := 0
	take := func(s int32, ds unit.Dim, fs bool) {
		n++
		if slot < 0 {
			slot, d, free = s, ds, fs
			return
		}
		d, free = c.same(e, d, free, ds, fs)
		slot = c.push(o, slot, s)
	}
	for _, a := range e.args {
		if a.op != opName || c.uses[0].family == nil {
			take(c.compile(a))
			continue
		}
		for _, m := range c.next().nodes {
			in := &c.nodes[m]
			take(in.slot, in.q.Unit.Dim, false)
		}
	}
	switch {
	case e.name == "count":
		return c.constant(float64(n)), unit.Number, false
	case slot < 0: // an empty family stops nothing
		return c.constant(map[op]float64{opMin: math.Inf(1), opMax: math.Inf(-1), opAdd: 0}[o]), unit.Number, true
	}
	return slot, d, free
}
