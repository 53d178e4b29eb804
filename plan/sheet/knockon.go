package sheet

import (
	"math"
	"slices"
)

// KnockOn is a figure that is not what it is now, under what changed it.
type KnockOn struct {
	Figure                   // as planned; as now where it is gone
	Now        Figure        // the zero Figure where it is new
	New, Gone  bool          //
	Goal       bool          // asked for; listed even where it has not moved
	Delta      float64       // planned less now; 0 where new or gone
	Also       []Figure      // causes beside the one that it stands under
	LimitedWas []Figure      // of a min or max: the members that gave it now …
	LimitedBy  []Figure      // … and that give it as planned, where these differ
	Children   []*KnockOn    //
	moves      []causeOfMove // by how far each input moved it, largest first
}

type causeOfMove struct {
	node int32
	by   float64
}

// KnockOns is the difference between now and planned as a tree. It is derived
// from the formulas, so it cannot forget a consequence. Quiet figures are
// passed through; the goals are listed whether they have moved or not.
func (r *Result) KnockOns(goals ...string) []*KnockOn {
	w := r.bestValues()
	shown := make([]*KnockOn, len(r.sheet.quantities))
	for i, q := range r.sheet.quantities {
		goal := slices.Contains(goals, q.Key)
		if k := r.difference(q, w, goal); k != nil && (!q.Quiet || goal) {
			shown[i] = k
		}
	}
	var roots []*KnockOn
	for _, k := range shown {
		if k == nil {
			continue
		}
		if p := r.parent(k, shown, w); p != nil {
			p.Children = append(p.Children, k)
		} else {
			roots = append(roots, k)
		}
	}
	return roots
}

// bestValues is every value, with the bound in place of what has no value.
func (r *Result) bestValues() []float64 {
	w := slices.Clone(r.v)
	if !r.bound {
		return w
	}
	was := map[*quantity]float64{}
	for i := range r.nodes {
		n := &r.nodes[i]
		f := r.figure(int32(i))
		if now := r.at[Now][n.q.id]; now >= 0 {
			was[n.q] = r.v[r.nodes[now].slot]
		}
		if !f.Known() {
			w[n.slot] = f.Best(was[n.q])
		}
	}
	return w
}

func (r *Result) difference(q *quantity, w []float64, goal bool) *KnockOn {
	now, plan := r.at[Now][q.id], r.at[Planned][q.id]
	switch {
	case now < 0 && plan < 0:
		return nil
	case now == plan && !goal:
		return nil
	case now < 0:
		k := &KnockOn{Figure: r.figure(plan), New: true, Goal: goal}
		if !(math.Abs(w[r.nodes[plan].slot]) >= q.Unit.Step()/2) && !goal {
			return nil // a part that is not needed
		}
		return k
	case plan < 0:
		return &KnockOn{Figure: r.figure(now), Now: r.figure(now), Gone: true, Goal: goal}
	}
	k := &KnockOn{Figure: r.figure(plan), Now: r.figure(now), Goal: goal}
	k.Delta = w[r.nodes[plan].slot] - w[r.nodes[now].slot]
	if !(math.Abs(k.Delta) >= shownStep(k.Figure)/2) {
		k.Delta = 0
		if !goal {
			return nil
		}
	}
	was, by := r.active(now, w), r.active(plan, w)
	if goal || !slices.EqualFunc(was, by, func(a, b Figure) bool { return a.Key == b.Key }) {
		k.LimitedWas, k.LimitedBy = was, by
	}
	return k
}

// shownStep is the smallest difference of f that shows.
func shownStep(f Figure) float64 {
	u := f.Unit
	u.Decimals = f.Decimals
	return u.Step()
}

// active lists the members that give a min or max its value: more than one in a tie.
func (r *Result) active(i int32, w []float64) []Figure {
	n := &r.nodes[i]
	if n.f == nil || n.f.expr == nil || n.f.expr.op != opCall || n.f.expr.name != "min" && n.f.expr.name != "max" {
		return nil
	}
	var members []Figure
	n.inputs(func(in int32) bool {
		// An unmeasured thing may limit it too; it is not what is known to.
		if f := r.figure(in); f.Known() && math.Abs(f.Value-w[n.slot]) <= nearly {
			members = append(members, f)
		}
		return true
	})
	return members
}

// causes are the changed figures that a node was computed from, each with how
// far the node moves when that one is put back to what it is now.
func (r *Result) causes(i int32, w []float64) []causeOfMove {
	n := &r.nodes[i]
	var moves []causeOfMove
	n.inputs(func(in int32) bool {
		m := &r.nodes[in]
		now := r.at[Now][m.q.id]
		if in == now || slices.ContainsFunc(moves, func(c causeOfMove) bool { return c.node == in }) {
			return true
		}
		if m.q == n.q {
			moves = append(moves, r.causes(in, w)...)
			return true
		}
		back := 0.0
		if now >= 0 {
			back = w[r.nodes[now].slot]
		}
		if as := w[m.slot]; math.Abs(as-back) > nearly {
			before := w[n.slot]
			w[m.slot] = back
			r.tape.run(w, n.from, n.to)
			by := math.Abs(w[n.slot] - before)
			w[m.slot] = as
			r.tape.run(w, n.from, n.to)
			w[n.slot] = before
			if math.IsNaN(by) {
				by = math.Inf(1)
			}
			moves = append(moves, causeOfMove{in, by})
		}
		return true
	})
	slices.SortStableFunc(moves, func(a, b causeOfMove) int {
		switch {
		case a.by > b.by:
			return -1
		case a.by < b.by:
			return 1
		}
		return 0
	})
	return moves
}

// parent is the nearest shown figure up the main causes of k; it notes the
// other causes in k.
func (r *Result) parent(k *KnockOn, shown []*KnockOn, w []float64) *KnockOn {
	if k.Gone {
		return nil
	}
	at := k.node
	for first := true; ; first = false {
		moves := r.causes(at, w)
		if len(moves) == 0 {
			return nil
		}
		if first {
			for _, m := range moves[1:] {
				if p := shown[r.nodes[m.node].q.id]; p != nil && m.by > nearly {
					k.Also = append(k.Also, p.Figure)
				}
			}
		}
		at = moves[0].node
		// What comes later on the tape cannot be the cause, though an earlier
		// version of it may have been.
		if p := shown[r.nodes[at].q.id]; p != nil && p.node < k.node && !p.Gone {
			return p
		}
	}
}

// Causes are the changed figures that a planned figure was computed from, the
// one that moves it most first; none where nothing changed.
func (r *Result) Causes(key string) []Figure {
	q := r.sheet.byKey[key]
	if q == nil || r.at[Planned][q.id] < 0 || r.at[Planned][q.id] == r.at[Now][q.id] {
		return nil
	}
	var causes []Figure
	for _, m := range r.causes(r.at[Planned][q.id], r.bestValues()) {
		causes = append(causes, r.figure(m.node))
	}
	return causes
}
