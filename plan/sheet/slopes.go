package sheet

// Slopes calls each with every leaf that a figure depends on, and its exact derivative
// by it, in inside units, decisions included: [Result.Derivative] by all leaves at once.
// It calls nothing where the figure does not exist or is not known.
func (r *Result) Slopes(key string, at Stage, each func(leaf string, slope float64)) {
	i := r.node(key, at)
	if i < 0 || !r.figure(i).Known() {
		return
	}
	l := r.line(r.nodes[i].slot)
	r.tape.gradient(r.adj, l.steps, false)
	for _, slot := range l.steps {
		if n := r.given(slot); n != nil && r.adj[slot] != 0 {
			each(n.q.Key, r.adj[slot])
		}
	}
}

// given is the leaf, as first given, that stands at a slot; nil where it is none.
func (r *Result) given(slot int32) *node {
	if r.leaves == nil {
		r.leaves = make([]int32, len(r.tape.steps))
		for i := range r.nodes {
			if n := &r.nodes[i]; n.leaf != nil && n.leaf == &n.q.leaf {
				r.leaves[n.slot] = int32(i) + 1
			}
		}
	}
	if i := r.leaves[slot]; i > 0 {
		return &r.nodes[i-1]
	}
	return nil
}
