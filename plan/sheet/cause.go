package sheet

import (
	"cmp"
	"math"
	"slices"
)

// difference is between now and planned.
type difference struct {
	*Result
	v     []float64        // every value, or the bound in place of what has none
	moves map[int32][]move // causes of a node, made when asked for
	room  slab[move]
}

// move is how far a figure moves when one cause is put back to what it is now.
type move struct {
	node int32
	by   float64
}

func (r *Result) difference() *difference {
	if r.moved == nil {
		r.moved = &difference{Result: r, v: r.bestValues(), moves: map[int32][]move{}}
	}
	return r.moved
}

// Causes are the changed figures that a planned figure was computed from, the
// one that moves it most first; none where nothing changed.
func (r *Result) Causes(key string) (causes []Figure) {
	if i := r.node(key, Planned); i >= 0 {
		for _, m := range r.difference().causes(i) {
			causes = append(causes, r.figure(m.node))
		}
	}
	return causes
}

// bestValues is every value, or the bound that is farther from now where there is none.
func (r *Result) bestValues() []float64 {
	v := slices.Clone(r.tape.v)
	for i := range r.nodes {
		if !r.tape.steps[r.nodes[i].slot].open {
			continue
		}
		if f := r.figure(int32(i)); !f.Known() {
			if now := r.at[Now][r.nodes[i].q.id]; now >= 0 {
				_, v[r.nodes[i].slot] = Compare(r.figure(now), f)
			} else {
				v[r.nodes[i].slot] = f.Best(0)
			}
		}
	}
	return v
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
	var room [8]int32
	since := append(room[:0], i)
	for at := 0; at < len(since); at++ {
		for in := range d.nodes[since[at]].inputs {
			if d.nodes[in].q == q && in > now && !slices.Contains(since, in) {
				since = append(since, in)
			}
		}
	}
	slices.Sort(since)
	var roomIn [16]input
	inputs := d.others(roomIn[:0], since)
	var roomOut [16]move
	moves := roomOut[:0]
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
		var roomGone [16]input
		for _, in := range d.others(roomGone[:0], []int32{now}) {
			if !slices.ContainsFunc(inputs, func(o input) bool { return d.nodes[o.node].q == d.nodes[in.node].q }) {
				moves = append(moves, d.move([]int32{now}, in))
			}
		}
	}
	slices.SortStableFunc(moves, func(a, b move) int { return cmp.Compare(b.by, a.by) })
	kept := d.room.take(len(moves))
	copy(kept, moves)
	d.moves[i] = kept
	return kept
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

// others adds the inputs of versions of one quantity that are not of itself.
func (d *difference) others(all []input, since []int32) []input {
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

// FollowsFrom tells of planned figures whether they are computed from anything
// that an upgrade wrote down, whatever the values are: what does not cannot be
// moved by it.
func (r *Result) FollowsFrom(author string) func(key string) bool {
	const unseen, no, yes = 0, 1, 2
	seen := make([]byte, len(r.nodes))
	var visit func(i int32) bool
	visit = func(i int32) bool {
		if seen[i] != unseen {
			return seen[i] == yes
		}
		seen[i] = no
		n := &r.nodes[i]
		follows := n.f != nil && n.f.author == author || n.f == nil && n.q.author == author
		for in := range n.inputs {
			follows = visit(in) || follows
		}
		if follows {
			seen[i] = yes
		}
		return follows
	}
	return func(key string) bool {
		i := r.node(key, Planned)
		return i >= 0 && visit(i)
	}
}
