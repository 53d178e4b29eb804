package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// node is one version of one quantity: a key and the step at which it stands.
// The inputs of a node come before it.
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
	target
	nodes []int32
}

// target is what a name in a formula means; a name of a number is neither.
type target struct {
	name     *expr
	quantity *quantity
	family   *family
	absent   float64 // in place of what does not exist: what does nothing in a min or a sum
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

// version remembers the node of a quantity at a step.
type version struct {
	step     int
	required bool // with the demands on it
	node     int32
}

// What stands in place of a node.
const (
	none       = -1 // it does not exist, or is wrong and reported
	inProgress = -2 // it is being bound: meeting it again is a circle
)

type binder struct {
	*Sheet
	tape  tape
	nodes []node
	path  []string // keys of what is being bound
	errs  []error

	circled bool // a circle is reported
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
	stages := []Stage{Found, Now, Planned}
	slices.SortStableFunc(stages, func(a, b Stage) int { return cmp.Compare(s.marks[a], s.marks[b]) })
	for _, stage := range stages { // so that what was before comes before on the tape
		at := min(s.marks[stage], s.step)
		r.at[stage] = make([]int32, n)
		for i, q := range s.quantities {
			r.at[stage][i] = none
			if q.exists(at) {
				r.at[stage][i] = b.resolve(q, at)
			}
		}
	}
	if err := errors.Join(b.errs...); err != nil {
		return nil, err
	}
	r.tape, r.nodes = b.tape, b.nodes
	r.adj, r.width = make([]float64, len(r.tape.steps)), make([]float64, len(r.tape.steps))
	r.bent = make([]bool, len(r.tape.steps))
	for i, n := range r.nodes {
		if n.leaf != nil && n.leaf.Spread.Std > 0 && !r.tape.steps[n.slot].open {
			r.spread = append(r.spread, int32(i))
		}
	}
	r.Recompute()
	return r, nil
}

// fail reports the first thing that is wrong with a formula; what follows may
// come from it.
func (b *binder) fail(f *formula, pos int, format string, args ...any) {
	if !f.failed {
		b.errs = append(b.errs, &FormulaError{f.text, pos, fmt.Sprintf(format, args...)})
	}
	f.failed = true
}

// resolve is the node of q as it stands at step.
func (b *binder) resolve(q *quantity, step int) int32 {
	if q.kind != leaf {
		// What was computed gives way to what was measured on the finished part.
		if made, since := q.changeAt(step); made != nil {
			return b.version(q, version{step: since}, func() int32 { return b.leaf(q, made, since) })
		}
	}
	switch q.kind {
	case fixed:
		step = q.formula.step
	case leaf:
		f, since := q.changeAt(step)
		own := func() int32 {
			return b.version(q, version{step: since}, func() int32 { return b.leaf(q, f, since) })
		}
		demands := q.demandsAt(step)
		if len(demands) == 0 {
			return own()
		}
		return b.version(q, version{step: step, required: true}, func() int32 { return b.required(q, own(), demands, step) })
	}
	return b.version(q, version{step: step}, func() int32 { return b.computed(q, q.formula, b.bindNames(q, q.formula, step)) })
}

// version is the node of q at v, from before or else made.
func (b *binder) version(q *quantity, v version, bind func() int32) int32 {
	for _, have := range q.bound {
		if have.step != v.step || have.required != v.required {
			continue
		}
		if have.node == inProgress {
			circle := slices.Compact(append(slices.Clone(b.path[slices.Index(b.path, q.Key):]), q.Key))
			if !b.circled {
				b.errs = append(b.errs, fmt.Errorf("%s is computed from itself: %s", q.Key, strings.Join(circle, " ← ")))
			}
			b.circled = true // the same would be met at every version
			return none
		}
		return have.node
	}
	at := len(q.bound)
	v.node = inProgress
	q.bound = append(q.bound, v)
	b.path = append(b.path, q.Key)
	n := bind()
	b.path = b.path[:len(b.path)-1]
	q.bound[at].node = n
	return n
}

// leaf is the node of a leaf since its change f, of step since; f is nil for
// the leaf as it was given.
func (b *binder) leaf(q *quantity, f *formula, since int) int32 {
	l := &q.leaf
	switch {
	case f == nil:
	case f.expr == nil:
		l = &f.leaf
	default:
		return b.computed(q, f, b.bindNames(q, f, since-1)) // a change sees what stood before it
	}
	slot := b.tape.push(step{op: opLeaf, open: l.Origin == Unknown}, l.Value)
	if l.Origin == Unknown {
		b.tape.lo[slot], b.tape.hi[slot] = l.Min, l.Max
	}
	return b.add(node{q: q, f: f, leaf: l, slot: slot, from: slot, to: slot + 1})
}

// required is the node of a leaf on which there are demands.
func (b *binder) required(q *quantity, own int32, demands []*quantity, step int) int32 {
	wanted := use{target: target{name: largest.args[1], family: &family{}, absent: -inf}}
	for _, d := range demands {
		wanted.nodes = append(wanted.nodes, b.resolve(d, step))
	}
	f := &formula{expr: largest, text: "max(was, wanted)", source: "the largest demand wins"}
	return b.computed(q, f, []use{{target: target{name: largest.args[0], quantity: q}, nodes: []int32{own}}, wanted})
}

func (b *binder) add(n node) int32 {
	b.nodes = append(b.nodes, n)
	return int32(len(b.nodes) - 1)
}

// bindNames finds the version of each name in f as it stands at step.
func (b *binder) bindNames(q *quantity, f *formula, step int) []use {
	if f.targets == nil {
		f.expr.names(func(e *expr, of string) {
			t := b.target(q, f, e)
			t.absent = folds[of].from
			f.targets = append(f.targets, t)
		})
	}
	uses := make([]use, len(f.targets))
	for i, t := range f.targets {
		uses[i].target = t
		take := func(in *quantity) {
			n := int32(none)
			switch {
			case in.born > step:
				b.fail(f, t.name.pos, "%s is only defined later", in.Key)
			case !in.exists(step):
				b.fail(f, t.name.pos, "%s is gone by then", in.Key)
			default:
				n = b.resolve(in, step)
			}
			uses[i].nodes = append(uses[i].nodes, n)
		}
		switch {
		case t.quantity != nil:
			take(t.quantity)
		case t.family != nil:
			t.family.at(step, take)
		case names[t.name.name].symbol == "":
			uses[i].nodes = []int32{none} // reported
		}
	}
	return uses
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
	if in := f.scope.find(key); in != nil {
		return target{name: e, quantity: in}
	}
	if fam := f.scope.family(key); fam != nil {
		return target{name: e, family: fam}
	}
	b.fail(f, e.pos, "no quantity %q from %q", key, f.scope.prefix)
	return target{name: e}
}

// computed is a node of q for f with the inputs bound: an earlier one where
// every input is the same, else a new one.
func (b *binder) computed(q *quantity, f *formula, uses []use) int32 {
	for _, u := range uses {
		if slices.Contains(u.nodes, none) {
			return none
		}
	}
	for i := len(q.bound) - 1; i >= 0; i-- {
		if n := q.bound[i].node; n >= 0 && b.nodes[n].f != nil && b.nodes[n].f.expr == f.expr && sameInputs(b.nodes[n].uses, uses) {
			return n
		}
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

func sameInputs(a, b []use) bool {
	return slices.EqualFunc(a, b, func(x, y use) bool { return slices.Equal(x.nodes, y.nodes) })
}
