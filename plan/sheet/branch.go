package sheet

import "slices"

// Branch is a sheet that goes on where this one ends: what is defined, changed and bound on it does not reach
// this one, and what stood before is not bound again. Any number of branches can be worked on at a time, as
// long as the values of this one stay as they are. A [Scope] of this sheet is not one of the branch.
func (r *Result) Branch() *Sheet {
	was := r.sheet
	s := &Sheet{
		base: was, from: r, begins: was.step + 1, step: was.step + 1, marks: was.marks,
		quantities: more(was.quantities, 64), past: more(was.past, 64), members: more(was.members, 4),
		byKey: map[string]*quantity{}, families: map[string]*family{}, funcs: map[string]*Func{},
		checks: slices.Clip(was.checks), conflicts: slices.Clip(was.conflicts),
	}
	for i := range s.members { // what is added goes elsewhere
		s.members[i] = slices.Clip(s.members[i])
	}
	return s
}

// more is a copy with room for n others.
func more[T any](all []T, n int) []T { return append(make([]T, 0, len(all)+n), all...) }

// goOn begins with the nodes and the tape of what was bound before.
func (b *binder) goOn(r *Result) {
	// About as many nodes and steps as come of what is new, and an eighth of what there was for what follows from it.
	t, n := &r.tape, len(b.quantities)-len(r.sheet.quantities)
	b.nodes = more(r.nodes, 3*n+len(r.nodes)/8)
	room := 8*n + len(t.steps)/8
	b.tape.steps, b.tape.v, b.tape.lo, b.tape.hi = more(t.steps, room), more(t.v, room), more(t.lo, room), more(t.hi, room)
	b.tape.open = slices.Clone(t.open)
	b.tape.calls = slices.Clone(t.calls)
	for i := range b.tape.calls {
		c := &b.tape.calls[i]
		c.buf = make([]float64, len(c.in))
	}
}
