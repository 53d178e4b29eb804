package sheet

import (
	"cmp"
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
	d := r.difference()
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

// difference is between now and planned.
type difference struct {
	*Result
	v     []float64 // every value, or the bound in place of what has none
	shown []*KnockOn
	moves map[int32][]move // causes of a node, made when asked for
}

// move is how far a figure moves when one cause is put back to what it is now.
type move struct {
	node int32
	by   float64
}

func (r *Result) difference() *difference {
	return &difference{Result: r, v: r.bestValues(), shown: make([]*KnockOn, len(r.sheet.quantities)), moves: map[int32][]move{}}
}

// Causes are the changed figures that a planned figure was computed from, the
// one that moves it most first; none where nothing changed.
func (r *Result) Causes(key string) (causes []Figure) {
	q := r.sheet.byKey[key]
	if q == nil || r.at[Planned][q.id] < 0 {
		return nil
	}
	for _, m := range r.difference().causes(r.at[Planned][q.id]) {
		causes = append(causes, r.figure(m.node))
	}
	return causes
}

// bestValues is every value, or the bound that is farther from now where there is none.
func (r *Result) bestValues() []float64 {
	v := slices.Clone(r.tape.v)
	if len(r.tape.open) == 0 {
		return v
	}
	for i := range r.nodes {
		if f := r.figure(int32(i)); !f.Known() {
			was := math.NaN()
			if now := r.at[Now][r.nodes[i].q.id]; now >= 0 {
				was = r.tape.v[r.nodes[now].slot]
			}
			v[r.nodes[i].slot] = f.Best(was)
		}
	}
	return v
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
		k.Delta = d.v[d.nodes[plan].slot] - d.v[d.nodes[now].slot]
		if math.IsNaN(k.Delta) {
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
func (d *difference) parent(k *KnockOn) (parent *KnockOn) {
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
func (d *difference) above(i int32, k *KnockOn, seen map[int32]*KnockOn) *KnockOn {
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

// causes are the changed figures that node i was computed from, the one that
// moves it most first.
func (d *difference) causes(i int32) []move {
	if moves, ok := d.moves[i]; ok {
		return moves
	}
	q := d.nodes[i].q
	now := d.at[Now][q.id]
	// The versions of q since now are one long formula.
	since := []int32{i}
	for at := 0; at < len(since); at++ {
		for in := range d.nodes[since[at]].inputs {
			if d.nodes[in].q == q && in > now && !slices.Contains(since, in) {
				since = append(since, in)
			}
		}
	}
	slices.Sort(since)
	inputs := d.others(since)
	var moves []move
	for _, in := range inputs {
		switch was := d.at[Now][d.nodes[in.node].q.id]; {
		case in.node == was:
		case was < 0:
			moves = append(moves, d.move(since, in))
		case !d.equal(in.node, was):
			moves = append(moves, d.move(since, input{in.node, d.v[d.nodes[was].slot]}))
		}
	}
	if now >= 0 && now != i && q.kind == derived {
		for _, in := range d.others([]int32{now}) {
			if !slices.ContainsFunc(inputs, func(o input) bool { return d.nodes[o.node].q == d.nodes[in.node].q }) {
				moves = append(moves, d.move([]int32{now}, in))
			}
		}
	}
	slices.SortStableFunc(moves, func(a, b move) int { return cmp.Compare(b.by, a.by) })
	d.moves[i] = moves
	return moves
}

// input is a node that others are computed from, and the value to put back in
// its place.
type input struct {
	node int32
	back float64
}

// equal tells whether two nodes of one quantity have the same value.
func (d *difference) equal(a, b int32) bool {
	x, y := d.v[d.nodes[a].slot], d.v[d.nodes[b].slot]
	return x == y || math.Abs(x-y) <= d.nodes[a].q.nearly() || math.IsNaN(x) && math.IsNaN(y)
}

// others are the inputs of versions of one quantity that are not of itself.
func (d *difference) others(since []int32) (all []input) {
	for _, i := range since {
		for _, u := range d.nodes[i].uses {
			for _, in := range u.nodes {
				if d.nodes[in].q != d.nodes[i].q && !slices.ContainsFunc(all, func(o input) bool { return o.node == in }) {
					all = append(all, input{in, u.absent})
				}
			}
		}
	}
	return all
}

// move is how far the last of some versions moves when one input is put back;
// without end where that cannot be told.
func (d *difference) move(since []int32, in input) move {
	keep := make([]float64, 0, 4)
	for _, i := range since {
		keep = append(keep, d.v[d.nodes[i].slot])
	}
	slot := d.nodes[in.node].slot
	as, before := d.v[slot], d.run(since)
	d.v[slot] = in.back
	by := math.Abs(d.run(since) - before)
	d.v[slot] = as
	for j, i := range since {
		d.v[d.nodes[i].slot] = keep[j]
	}
	if math.IsNaN(by) {
		by = inf
	}
	return move{in.node, by}
}

func (d *difference) run(since []int32) (v float64) {
	for _, i := range since {
		n := &d.nodes[i]
		d.tape.run(d.v, n.from, n.to)
		v = d.v[n.slot]
	}
	return v
}
