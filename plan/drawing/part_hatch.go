package drawing

import (
	"math"
	"slices"
)

// hatchWithin are lines at 45° within outlines, spaced apart. Outlines within
// outlines are holes.
func hatchWithin(loops [][]Point, way int, spaced float64) Lines {
	h := Lines{Class: "hatch"}
	if way == plain || !(spaced > 0) {
		return h
	}
	// A line is u = c, with u across the lines and v along them.
	turned := func(p Point) (u, v float64) {
		if way == rising {
			return (p.X + p.Y) / math.Sqrt2, (p.X - p.Y) / math.Sqrt2
		}
		return (p.X - p.Y) / math.Sqrt2, (p.X + p.Y) / math.Sqrt2
	}
	back := func(u, v float64) Point {
		if way == rising {
			return Point{(u + v) / math.Sqrt2, (u - v) / math.Sqrt2}
		}
		return Point{(v + u) / math.Sqrt2, (v - u) / math.Sqrt2}
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, l := range loops {
		for _, p := range l {
			u, _ := turned(p)
			lo, hi = min(lo, u), max(hi, u)
		}
	}
	if !(hi-lo < 1e5) {
		return h
	}
	spaced = max(spaced, (hi-lo)/400)
	var at []float64
	for c := (math.Floor(lo/spaced) + 0.5) * spaced; c < hi; c += spaced {
		at = at[:0]
		for _, l := range loops {
			for i, p := range l {
				u0, v0 := turned(p)
				u1, v1 := turned(l[(i+1)%len(l)])
				if (u0 > c) != (u1 > c) {
					at = append(at, v0+(v1-v0)*(c-u0)/(u1-u0))
				}
			}
		}
		slices.Sort(at)
		for i := 0; i+1 < len(at); i += 2 {
			if at[i+1]-at[i] > 0.02 {
				h.Segments = append(h.Segments, Segment{back(c, at[i]), back(c, at[i+1])})
			}
		}
	}
	return h
}
