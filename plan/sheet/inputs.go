package sheet

import "slices"

// inputs are the versions that the names in a formula stand for, one after the other, and where those of each
// name end.
type inputs struct{ nodes, ends []int32 }

// same tells whether they are those of a node.
func (in inputs) same(uses []use) bool {
	from := int32(0)
	for i, to := range in.ends {
		if !slices.Equal(uses[i].nodes, in.nodes[from:to]) {
			return false
		}
		from = to
	}
	return len(in.ends) == len(uses)
}

// bind is the node of q for f with each name as it stands at step, and the steps
// between which that is so.
func (b *binder) bind(q *quantity, f *formula, step int) (node int32, stand span) {
	b.aim(q, f)
	stand = always
	nodes, ends := len(b.met.nodes), len(b.met.ends)
	input := func(t *target, q *quantity) int32 {
		switch {
		case q.born > step:
			b.fail(f, t.name.pos, "%s is only defined later", q.Key)
		case !b.exists(q, step):
			b.fail(f, t.name.pos, "%s is gone by then", q.Key)
		default:
			v := b.resolve(q, step)
			stand = stand.within(v.span)
			return v.node
		}
		return none
	}
	for i := range f.targets {
		t := &f.targets[i]
		switch {
		case t.quantity != nil:
			b.meet(input(t, t.quantity))
		case t.family != nil:
			for i := range b.members[t.family.id] {
				m := &b.members[t.family.id][i]
				stand = b.steady(m, stand, step)
				if b.has(m, step) {
					b.meet(input(t, m.quantity))
				}
			}
		case names[t.name.name].symbol == "":
			b.meet(none) // reported
		}
		b.met.ends = append(b.met.ends, int32(len(b.met.nodes)-nodes))
	}
	node = b.computed(q, f, f.targets, inputs{b.met.nodes[nodes:], b.met.ends[ends:]})
	b.met.nodes, b.met.ends = b.met.nodes[:nodes], b.met.ends[:ends]
	return node, stand
}

func (b *binder) meet(node int32) { b.met.nodes = append(b.met.nodes, node) }

// aim finds what the names in f mean.
func (b *binder) aim(q *quantity, f *formula) {
	if f.targets != nil || len(f.expr.names) == 0 {
		return
	}
	f.targets = b.targets.take(len(f.expr.names))
	for i, n := range f.expr.names {
		f.targets[i] = b.target(q, f, n.name)
		f.targets[i].absent = folds[n.of].from
	}
}

// aimAll does so for what was not asked for at any stage: branches, several at a time, only read it.
func (b *binder) aimAll() {
	for i, q := range b.quantities {
		if q.formula != nil {
			b.aim(q, q.formula)
		}
		for _, c := range b.past[i].changes {
			if c.expr != nil {
				b.aim(q, c)
			}
		}
	}
}

// target is what the name e means in f.
func (b *binder) target(q *quantity, f *formula, e *expr) target {
	key := e.name
	if k, ok := f.with[key]; ok {
		key = k
	}
	switch {
	case key == "was" && q.kind == leaf:
		return target{name: e, quantity: q}
	case names[key].symbol != "":
		return target{name: &expr{op: opName, name: key, pos: e.pos}}
	}
	if in := b.find(f.scope, key); in != nil {
		return target{name: e, quantity: in}
	}
	if fam := b.familyFrom(f.scope, key); fam != nil {
		return target{name: e, family: fam}
	}
	b.fail(f, e.pos, "no quantity %q from %q", key, f.scope.prefix)
	return target{name: e}
}

// computed is a node of q for f with the inputs bound, by what each name means: an
// earlier one where every input is the same, else a new one.
func (b *binder) computed(q *quantity, f *formula, targets []target, in inputs) int32 {
	if slices.Contains(in.nodes, none) {
		return none
	}
	for v := range b.boundOf(q) {
		if n := v.node; n >= 0 && b.nodes[n].f != nil && b.nodes[n].f.expr == f.expr && in.same(b.nodes[n].uses) {
			return n
		}
	}
	uses, nodes := b.uses.take(len(targets)), b.lists.take(len(in.nodes))
	copy(nodes, in.nodes)
	for i, from := 0, int32(0); i < len(uses); i++ {
		uses[i] = use{&targets[i], nodes[from:in.ends[i]:in.ends[i]]}
		from = in.ends[i]
	}
	c := compiler{b, f, uses}
	from := int32(len(b.tape.steps))
	x := c.compile(f.expr)
	if !x.free && x.dim != q.Unit.Dim {
		b.fail(f, 1, "%s is shown in %s (%s), but this is %s", q.Key, q.Unit.Symbol, q.Unit.Dim, x.dim)
	}
	switch {
	case q.kind == fixed:
		x.slot = c.push(opFixed, x.slot)
	case x.slot < from:
		x.slot = c.push(opCopy, x.slot)
	}
	return b.add(node{q: q, f: f, slot: x.slot, from: from, to: int32(len(b.tape.steps)), uses: uses})
}
