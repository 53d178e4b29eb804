package drawing

import (
	"math"
	"slices"
)

const arrowPx = 7.0 // px, long

// measured draws a dimension line between two points, level or upright, with
// its arrows, from outside where there is no room between.
func measured(g *Shapes, a, b Point) {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	if long < 0.5 {
		return
	}
	dx, dy := (b.X-a.X)/long, (b.Y-a.Y)/long
	in, over := arrowPx, 0.0
	if long < 2.6*arrowPx {
		in, over = -arrowPx, 2*arrowPx
	}
	g.line("dim", a.X-over*dx, a.Y-over*dy, b.X+over*dx, b.Y+over*dy)
	for _, end := range []struct {
		at  Point
		way float64
	}{{a, 1}, {b, -1}} {
		x, y := end.at.X+end.way*in*dx, end.at.Y+end.way*in*dy
		half := 0.18 * arrowPx
		g.add(Path{Class: "dim-arrow", Loops: [][]Point{{end.at, {x - half*dy, y + half*dx}, {x + half*dy, y - half*dx}}}})
	}
}

// hatched fills an outline with lines at 45°, so far apart.
func hatched(loop []Point, way int, spaced float64) Lines {
	h := Lines{Class: "hatch"}
	// Along u a line runs; across v lines follow each other.
	turn := func(p Point) (u, v float64) {
		if way == falling {
			return p.X + p.Y, p.X - p.Y
		}
		return p.X - p.Y, p.X + p.Y
	}
	back := func(u, v float64) Point {
		if way == falling {
			return Point{(u + v) / 2, (u - v) / 2}
		}
		return Point{(u + v) / 2, (v - u) / 2}
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range loop {
		_, v := turn(p)
		lo, hi = min(lo, v), max(hi, v)
	}
	step := spaced * math.Sqrt2
	for v := (math.Floor(lo/step) + 0.5) * step; v < hi; v += step {
		var cuts []float64
		for i, p := range loop {
			u0, v0 := turn(p)
			u1, v1 := turn(loop[(i+1)%len(loop)])
			if (v0 <= v) != (v1 <= v) {
				cuts = append(cuts, u0+(u1-u0)*(v-v0)/(v1-v0))
			}
		}
		slices.Sort(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			if cuts[i+1]-cuts[i] > 0.5 {
				h.Segments = append(h.Segments, Segment{back(cuts[i], v), back(cuts[i+1], v)})
			}
		}
	}
	return h
}

// cutPart draws a piece of metal that is cut: filled and hatched.
func cutPart(g *Shapes, loop []Point, way int, spaced float64) {
	g.add(Path{Class: "fill-part", Loops: [][]Point{loop}}, hatched(loop, way, spaced))
}

// spread moves wished places apart until each has room, as little as that
// takes, and keeps them in order. wish is sorted.
func spread(wish []float64, room, least, most float64) []float64 {
	at := slices.Clone(wish)
	for range 50 {
		moved := false
		for i := 1; i < len(at); i++ {
			if gap := room - (at[i] - at[i-1]); gap > 1e-6 {
				at[i-1] -= gap / 2
				at[i] += gap / 2
				moved = true
			}
		}
		if !moved {
			break
		}
	}
	if n := len(at); n > 0 {
		shift := max(0, least-at[0]) - max(0, at[n-1]-most)
		for i := range at {
			at[i] += shift
		}
	}
	return at
}
