package sheet

import "slices"

// Branch is a sheet that goes on where this one ends: what is defined, changed and bound on it does not reach
// this one, and what stood before is not bound again. Any number of branches can be worked on at a time, as
// long as the values of this one stay as they are. A [Scope] of this sheet is not one of the branch.
func (r *Result) Branch() *Sheet {
	was := r.sheet
	s := &Sheet{
		base: was, from: r, begins: was.step + 1, step: was.step + 1, marks: was.marks,
		quantities: slices.Grow(slices.Clone(was.quantities), 32),
		past:       slices.Grow(slices.Clone(was.past), 32),
		members:    slices.Clone(was.members),
		byKey:      map[string]*quantity{}, families: map[string]*family{}, funcs: map[string]*Func{},
		checks: slices.Clip(was.checks), conflicts: slices.Clip(was.conflicts),
	}
	for i := range s.past { // what is added goes elsewhere
		s.past[i].changes, s.past[i].demands = slices.Clip(s.past[i].changes), slices.Clip(s.past[i].demands)
	}
	for i := range s.members {
		s.members[i] = slices.Clip(s.members[i])
	}
	return s
}

// goOn begins with the nodes and the tape of what was bound before.
func (b *binder) goOn(r *Result) {
	n := len(b.quantities)
	b.nodes = append(make([]node, 0, len(r.nodes)+n/2), r.nodes...)
	t := &r.tape
	b.tape.grow(len(t.steps) + n)
	b.tape.steps = append(b.tape.steps, t.steps...)
	b.tape.v, b.tape.lo, b.tape.hi = append(b.tape.v, t.v...), append(b.tape.lo, t.lo...), append(b.tape.hi, t.hi...)
	b.tape.open = slices.Clone(t.open)
	b.tape.calls = slices.Clone(t.calls)
	for i := range b.tape.calls {
		c := &b.tape.calls[i]
		c.buf = make([]float64, len(c.in))
	}
}
