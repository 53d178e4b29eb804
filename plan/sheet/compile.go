package sheet

import (
	"slices"

	"fettle/plan/unit"
)

// compiler lays one formula onto the tape.
type compiler struct {
	*binder
	f    *formula
	uses []use // not yet met, in the order of the text
}

// value is one piece of a formula on the tape.
type value struct {
	slot int32
	dim  unit.Dim
	free bool // 0 and inf fit any dimension
	pos  int
}

func (c *compiler) push(o op, in ...int32) int32 {
	s := step{op: o, n: uint8(len(in))}
	for i, a := range in {
		s.in[i] = c.apart(a, in[:i])
		s.open = s.open || c.tape.steps[a].open
	}
	return c.tape.push(s, 0)
}

// apart is the slot a, or a copy where it is an input already: bounds are found
// by moving one input at a time.
func (c *compiler) apart(a int32, in []int32) int32 {
	if slices.Contains(in, a) {
		return c.push(opCopy, a)
	}
	return a
}

func (c *compiler) constant(x float64) int32 { return c.tape.push(step{}, x) }

func (c *compiler) next() use {
	u := c.uses[0]
	c.uses = c.uses[1:]
	return u
}

func (c *compiler) compile(e *expr) value {
	switch e.op {
	case opConst:
		return value{c.constant(e.num), unit.Number, e.num == 0, e.pos}
	case opName:
		return c.name(e)
	case opCall:
		return c.call(e)
	case opNeg:
		x := c.compile(e.args[0])
		x.slot = c.push(opNeg, x.slot)
		return x
	}
	x, y := c.compile(e.args[0]), c.compile(e.args[1])
	switch e.op {
	case opMul:
		return value{c.push(opMul, x.slot, y.slot), x.dim.Times(y.dim), x.free || y.free, e.pos}
	case opDiv:
		return value{c.push(opDiv, x.slot, y.slot), x.dim.Per(y.dim), x.free, e.pos}
	}
	z := c.same(x, y, e.pos)
	switch e.op {
	case opAdd, opSub:
		z.slot = c.push(e.op, x.slot, y.slot)
		return z
	case opMore:
		return value{slot: c.push(opLess, y.slot, x.slot), pos: e.pos}
	case opMoreEq:
		return value{slot: c.push(opLessEq, y.slot, x.slot), pos: e.pos}
	}
	return value{slot: c.push(e.op, x.slot, y.slot), pos: e.pos}
}

// same is a value with the dimension of two that must agree.
func (c *compiler) same(x, y value, pos int) value {
	if !x.free && !y.free && x.dim != y.dim {
		c.fail(c.f, pos, "%s and %s do not go together", x.dim, y.dim)
	}
	if x.free {
		x.dim, x.free = y.dim, y.free
	}
	x.pos = pos
	return x
}

func (c *compiler) name(e *expr) value {
	u := c.next()
	switch {
	case u.family != nil:
		c.fail(c.f, e.pos, "%s is a family: take its min, max, sum or count", e.name)
		return value{pos: e.pos}
	case u.quantity == nil:
		x := names[u.name.name].value
		return value{c.constant(x), unit.Number, x == inf, e.pos}
	}
	return c.node(u.nodes[0], e.pos)
}

func (c *compiler) node(i int32, pos int) value {
	return value{c.nodes[i].slot, c.nodes[i].q.Unit.Dim, false, pos}
}

// call lays out a unit, a fold, a when, a power, a curve or a registered function.
func (c *compiler) call(e *expr) value {
	bad := value{free: true, pos: e.pos}
	if u, ok := unitTags[e.name]; ok {
		if len(e.args) != 1 || e.args[0].op != opConst {
			c.fail(c.f, e.pos, "%s takes one number", e.name)
			for range e.naming(nil, "") {
				c.next()
			}
			return bad
		}
		return value{c.constant(u.Inside(e.args[0].num)), u.Dim, false, e.pos}
	}
	_, folds := folds[e.name]
	args := make([]value, 0, 4)
	for _, a := range e.args {
		if !folds || a.op != opName || c.uses[0].family == nil {
			args = append(args, c.compile(a))
			continue
		}
		for _, n := range c.next().nodes {
			args = append(args, c.node(n, a.pos))
		}
	}
	curve := slices.IndexFunc(curves, func(k curve) bool { return k.name == e.name })
	fn := c.fn(e.name)
	takes := len(e.args)
	switch {
	case folds && takes == 0:
		c.fail(c.f, e.pos, "%s takes at least one", e.name)
		return bad
	case folds:
	case e.name == "when":
		takes = 3
	case e.name == "pow":
		takes = 2
	case curve >= 0:
		takes = 1
	case fn != nil:
		takes = len(fn.Args)
	default:
		c.fail(c.f, e.pos, "no function %s", e.name)
		return bad
	}
	if len(e.args) != takes {
		c.fail(c.f, e.pos, "%s takes %d, not %d", e.name, takes, len(e.args))
		return bad
	}
	switch {
	case folds:
		return c.fold(e, args)
	case e.name == "when":
		return c.when(e, args)
	case e.name == "pow":
		return c.power(e, args)
	case curve >= 0:
		return c.curve(e, args[0], curve)
	}
	return c.registered(e, fn, args)
}

func (c *compiler) fold(e *expr, args []value) value {
	out := value{free: true}
	for i, x := range args {
		switch z := c.same(out, x, x.pos); {
		case i == 0:
			out = x
		case e.name == "count":
			out = z
		default:
			z.slot = c.push(folds[e.name].op, out.slot, x.slot)
			out = z
		}
	}
	switch {
	case e.name == "count":
		return value{slot: c.constant(float64(len(args))), pos: e.pos}
	case len(args) == 0:
		out.slot = c.constant(folds[e.name].from)
	}
	out.pos = e.pos
	return out
}

func (c *compiler) when(e *expr, args []value) value {
	if o := e.args[0].op; o != opLess && o != opLessEq && o != opMore && o != opMoreEq {
		c.fail(c.f, args[0].pos, "when asks for a comparison first")
	}
	out := c.same(args[1], args[2], args[2].pos)
	out.slot, out.pos = c.push(opWhen, args[0].slot, args[1].slot, args[2].slot), e.pos
	return out
}

func (c *compiler) power(e *expr, args []value) value {
	p, ok := e.args[1].constant()
	if !ok {
		c.fail(c.f, args[1].pos, "an exponent is a number")
	}
	d, ok := args[0].dim.Power(p)
	if !ok {
		c.fail(c.f, e.pos, "%s to the power %g is no dimension: divide by the unit first", args[0].dim, p)
	}
	return value{c.push(opPow, args[0].slot, c.constant(p)), d, false, e.pos}
}

func (c *compiler) curve(e *expr, x value, which int) value {
	k := &curves[which]
	d, ok := x.dim.Power(k.power)
	if !ok || k.power == 0 && !x.free && x.dim != unit.Number {
		c.fail(c.f, x.pos, "%s does not take %s", e.name, x.dim)
	}
	slot := c.push(opCurve, x.slot)
	c.tape.steps[slot].which = int32(which)
	return value{slot, d, x.free && k.power != 0, e.pos}
}

func (c *compiler) registered(e *expr, fn *Func, args []value) value {
	s := step{op: opFunc, which: int32(len(c.tape.calls))}
	in := make([]int32, len(args))
	for i, x := range args {
		if !x.free && x.dim != fn.Args[i] {
			c.fail(c.f, x.pos, "%s takes %s here, not %s", e.name, fn.Args[i], x.dim)
		}
		in[i] = c.apart(x.slot, in[:i])
		s.open = s.open || c.tape.steps[in[i]].open
	}
	c.tape.calls = append(c.tape.calls, call{fn, in, make([]float64, len(in))})
	return value{c.tape.push(s, 0), fn.Result, false, e.pos}
}
