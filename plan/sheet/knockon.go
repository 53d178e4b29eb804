package sheet

import (
	"math"
	"slices"
)

// KnockOn is a figure that is not what it is now, under what changed it.
type KnockOn struct {
	Figure                // as planned; as now where it is gone
	Now        Figure     // the zero Figure where it is new
	New, Gone  bool       //
	Goal       bool       // asked for; listed even where it has not moved
	Delta      float64    // planned less now; 0 where new or gone or where either is unknown
	Also       []Figure   // causes beside the one that it stands under
	LimitedWas []Figure   // of a min or max: the members that gave it now …
	LimitedBy  []Figure   // … and that give it as planned, where these differ; of a goal always
	Children   []*KnockOn //
}

// KnockOns is the difference between now and planned as a tree. It is derived
// from the formulas, so it cannot forget a consequence. Quiet figures are
// passed through; the goals are listed whether they have moved or not.
func (r *Result) KnockOns(goals ...string) []*KnockOn {
	d := tree{r.difference(), make([]*KnockOn, len(r.sheet.quantities))}
	for i, q := range r.sheet.quantities {
		if goal := slices.Contains(goals, q.Key); goal || !q.Quiet {
			d.shown[i] = d.of(q, goal)
		}
	}
	var roots []*KnockOn
	for _, k := range d.shown {
		if k == nil {
			continue
		}
		if p := d.parent(k); p != nil {
			p.Children = append(p.Children, k)
		} else {
			roots = append(roots, k)
		}
	}
	return roots
}

// Moved is how many figures [Result.KnockOns] lists, no goals among them.
func (r *Result) Moved() (n int) {
	d := r.difference()
	for _, q := range r.sheet.quantities {
		if !q.Quiet && d.of(q, false) != nil {
			n++
		}
	}
	return n
}

// tree is a difference being arranged.
type tree struct {
	*difference
	shown []*KnockOn // of each quantity; nil where nothing is to be seen of it
}

// of is the knock-on of q, or nil where nothing is to be seen of it.
func (d *difference) of(q *quantity, goal bool) *KnockOn {
	now, plan := d.at[Now][q.id], d.at[Planned][q.id]
	switch {
	case now == plan && (now < 0 || !goal):
		return nil
	case now < 0:
		k := &KnockOn{Figure: d.figure(plan), New: true, Goal: goal}
		if !goal && !differ(k.Figure, Figure{}) {
			return nil // a part that is not needed
		}
		return k
	case plan < 0:
		return &KnockOn{Figure: d.figure(now), Now: d.figure(now), Gone: true, Goal: goal}
	}
	k := &KnockOn{Figure: d.figure(plan), Now: d.figure(now), Goal: goal}
	if differ(k.Figure, k.Now) {
		was, is := Compare(k.Now, k.Figure)
		if k.Delta = is - was; math.IsNaN(k.Delta) {
			k.Delta = 0
		}
	} else if !goal {
		return nil
	}
	was, by := d.active(now), d.active(plan)
	if goal || !slices.EqualFunc(was, by, func(a, b Figure) bool { return a.Key == b.Key }) {
		k.LimitedWas, k.LimitedBy = was, by
	}
	return k
}

// differ tells whether two versions of a figure would be shown differently.
func differ(a, b Figure) bool {
	step := a.shown().Step() / 2
	apart := func(x, y float64) bool {
		return x != y && !(math.IsNaN(x) && math.IsNaN(y)) && !(math.Abs(x-y) < step)
	}
	return apart(a.Lo, b.Lo) || apart(a.Hi, b.Hi)
}

// active lists the members that give a min or max its value: more than one in a tie.
func (d *difference) active(i int32) []Figure {
	n := &d.nodes[i]
	if n.leaf != nil || n.f.expr.op != opCall || n.f.expr.name != "min" && n.f.expr.name != "max" {
		return nil
	}
	var members []Figure
	for in := range n.inputs {
		// An unmeasured thing may limit it too; it is not what is known to.
		if f := d.figure(in); f.Known() && math.Abs(f.Value-d.v[n.slot]) <= n.q.nearly() {
			members = append(members, f)
		}
	}
	return members
}

// parent is what k stands under: the nearest shown figure up its main causes.
// The other causes are noted in k.
func (d tree) parent(k *KnockOn) (parent *KnockOn) {
	if k.Gone {
		return nil
	}
	above := map[int32]*KnockOn{}
	for _, m := range d.causes(k.node) {
		p := d.above(m.node, k, above)
		switch {
		case p == nil || p == parent:
		case parent == nil:
			parent = p
		case m.by > k.nearly() && !slices.ContainsFunc(k.Also, func(f Figure) bool { return f.node == p.node }):
			k.Also = append(k.Also, p.Figure)
		}
	}
	return parent
}

// above is the nearest shown figure from node i upwards. What comes later on
// the tape than k cannot be its cause, though an earlier version of it may be.
func (d tree) above(i int32, k *KnockOn, seen map[int32]*KnockOn) *KnockOn {
	if p := d.shown[d.nodes[i].q.id]; p != nil && p.node < k.node {
		return p
	}
	if p, ok := seen[i]; ok {
		return p
	}
	seen[i] = nil
	for _, m := range d.causes(i) {
		if p := d.above(m.node, k, seen); p != nil {
			seen[i] = p
			return p
		}
	}
	return nil
}
