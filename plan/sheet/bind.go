package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"math"
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
	*target
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

// version is a node of a quantity and the steps at which it stands.
type version struct {
	span
	required bool // with the demands on it
	node     int32
}

// span is the steps from one to another, the latter left out.
type span struct{ from, to int }

var always = span{0, math.MaxInt}

func (s span) within(o span) span { return span{max(s.from, o.from), min(s.to, o.to)} }

// around is the part of a span in which step lies, where something happens at event.
func (s span) around(step, event int) span {
	if event <= step {
		return span{max(s.from, event), s.to}
	}
	return span{s.from, min(s.to, event)}
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

	met     inputs // of all formulas that are being bound, the outer ones first
	circled bool   // a circle is reported

	lists    slab[int32]
	uses     slab[use]
	targets  slab[target]
	versions slab[version]
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
	s.bound = make([][]version, n)
	if s.base != nil {
		b.goOn(s.from)
	} else {
		b.nodes = make([]node, 0, 2*n)
		b.tape.grow(4 * n)
	}
	r := &Result{sheet: s, lines: map[int32]line{}}
	stages := []Stage{Found, Now, Planned}
	slices.SortStableFunc(stages, func(a, b Stage) int { return cmp.Compare(s.marks[a], s.marks[b]) })
	for _, stage := range stages { // so that what was before comes before on the tape
		at := min(s.marks[stage], s.step)
		r.at[stage] = slices.Repeat([]int32{none}, n)
		if at < s.begins {
			copy(r.at[stage], s.from.at[stage])
			continue
		}
		for i, q := range s.quantities {
			if s.exists(q, at) {
				r.at[stage][i] = b.resolve(q, at).node
			}
		}
	}
	b.aimAll()
	if err := errors.Join(b.errs...); err != nil {
		return nil, err
	}
	r.tape, r.nodes = b.tape, b.nodes
	r.adj = make([]float64, len(r.tape.steps))
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

// resolve is the version of q that stands at step. What nothing happened to since is
// bound once, however often it is asked for.
func (b *binder) resolve(q *quantity, step int) version {
	made, since := b.changeAt(q, step)
	switch {
	case made == nil && q.kind == fixed:
		return b.formula(q, since, q.formula.step)
	case made == nil && q.kind == derived:
		return b.formula(q, since, step)
	}
	// What was computed gives way to what was measured on the finished part.
	own := b.leaf(q, made, since)
	if len(b.past[q.id].demands) == 0 || q.kind != leaf {
		return own
	}
	demands, stand := b.demandsAt(q, step)
	own.span = own.within(stand)
	if len(demands) == 0 {
		return own
	}
	return b.required(q, own, demands, step)
}

// begin gives the version of q that stands at step, and no place, where it is bound
// already. Otherwise binding it begins, and [binder.end] puts it in its place.
func (b *binder) begin(q *quantity, step int, required bool) (v version, place int) {
	for v := range b.boundOf(q) {
		if step < v.from || step >= v.to || v.required != required {
			continue
		}
		if v.node == inProgress {
			v.node = none
			if circle := b.path[slices.Index(b.path, q.Key):]; !b.circled {
				circle = slices.Compact(append(slices.Clone(circle), q.Key))
				b.errs = append(b.errs, fmt.Errorf("%s is computed from itself: %s", q.Key, strings.Join(circle, " ← ")))
			}
			b.circled = true // the same would be met at every version
		}
		return v, -1
	}
	own := &b.bound[q.id]
	if *own == nil {
		*own = b.versions.take(2)[:0]
	}
	v = version{span{step, step + 1}, required, inProgress}
	*own = append(*own, v)
	b.path = append(b.path, q.Key)
	return v, len(*own) - 1
}

// boundOf gives the versions of q that are bound already. What was bound before a branch stands up to there.
func (s *Sheet) boundOf(q *quantity) func(yield func(version) bool) {
	return func(yield func(version) bool) {
		for at, end := s, math.MaxInt; at != nil; at, end = at.base, at.begins {
			if q.id >= len(at.bound) {
				continue
			}
			for _, v := range at.bound[q.id] {
				if v.to = min(v.to, end); !yield(v) {
					return
				}
			}
		}
	}
}

func (b *binder) end(q *quantity, place int, v version) version {
	b.path = b.path[:len(b.path)-1]
	b.bound[q.id][place] = v
	return v
}

// formula is the version of what is computed as it stands at step.
func (b *binder) formula(q *quantity, since span, step int) version {
	v, place := b.begin(q, step, false)
	if place < 0 {
		if q.kind == fixed {
			v.span = since // which may end sooner than it did before a branch
		}
		return v
	}
	node, stand := b.bind(q, q.formula, step)
	if v.span = since; q.kind == derived { // the others are decided once
		v.span = since.within(stand)
	}
	v.node = node
	return b.end(q, place, v)
}

// leaf is the version of a leaf since its change f; f is nil for the leaf as it was given.
func (b *binder) leaf(q *quantity, f *formula, since span) version {
	v, place := b.begin(q, since.from, false)
	v.span = since
	if place < 0 {
		return v
	}
	l := &q.leaf
	switch {
	case f == nil:
		v.node = b.given(q, f, l)
	case f.expr == nil:
		v.node = b.given(q, f, f.made)
	default:
		v.node, _ = b.bind(q, f, since.from-1) // a change sees what stood before it
	}
	return b.end(q, place, v)
}

// given is a node of q that is not computed.
func (b *binder) given(q *quantity, f *formula, l *Leaf) int32 {
	slot := b.tape.push(step{op: opLeaf, open: l.Origin == Unknown}, l.Value)
	if l.Origin == Unknown {
		b.tape.lo[slot], b.tape.hi[slot] = l.Min, l.Max
	}
	return b.add(node{q: q, f: f, leaf: l, slot: slot, from: slot, to: slot + 1})
}

// required is the version at step of a leaf on which there are demands.
func (b *binder) required(q *quantity, own version, demands []*quantity, step int) version {
	v, place := b.begin(q, step, true)
	if place < 0 {
		return v
	}
	v.span = own.span
	in := inputs{[]int32{own.node}, []int32{1, int32(1 + len(demands))}}
	for _, d := range demands {
		wanted := b.resolve(d, step)
		in.nodes = append(in.nodes, wanted.node)
		v.span = v.within(wanted.span)
	}
	targets := []target{{name: largest.args[0], quantity: q}, {name: largest.args[1], family: &family{}, absent: -inf}}
	v.node = b.computed(q, &formula{expr: largest, text: "max(was, wanted)", source: "the largest demand wins"}, targets, in)
	return b.end(q, place, v)
}

func (b *binder) add(n node) int32 {
	b.nodes = append(b.nodes, n)
	return int32(len(b.nodes) - 1)
}
