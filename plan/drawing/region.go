package drawing

import (
	"math"
	"slices"
)

// box is an area with upright sides: x0 to x1, and y0 above y1.
type box struct{ x0, x1, y0, y1 float64 }

func (b box) empty() bool { return !(b.x1-b.x0 > same) || !(b.y1-b.y0 > same) }

// same is what is no difference on a drawing, in mm.
const same = 1e-6

// region is what boxes cover that are put down and cut away in turn.
type region struct{ patches []patch }

type patch struct {
	box
	cut bool
}

func (g *region) add(b box) { g.put(b, false) }
func (g *region) cut(b box) { g.put(b, true) }

func (g *region) put(b box, cut bool) {
	if b.empty() {
		return
	}
	if g.patches == nil {
		g.patches = make([]patch, 0, 6)
	}
	g.patches = append(g.patches, patch{b, cut})
}

// grid is a region on the lines of its own boxes.
type grid struct {
	xs, ys []float64
	full   []bool // by row, then column
}

func (g *region) grid() grid {
	n := 2 * len(g.patches)
	sides := make([]float64, 2*n)
	t := grid{xs: sides[:0:n], ys: sides[n : n : 2*n]}
	for _, b := range g.patches {
		t.xs = append(t.xs, b.x0, b.x1)
		t.ys = append(t.ys, b.y0, b.y1)
	}
	t.xs, t.ys = distinct(t.xs), distinct(t.ys)
	if len(t.xs) < 2 || len(t.ys) < 2 {
		return grid{}
	}
	t.full = make([]bool, (len(t.xs)-1)*(len(t.ys)-1))
	for _, b := range g.patches {
		for j := 0; j+1 < len(t.ys); j++ {
			if y := (t.ys[j] + t.ys[j+1]) / 2; y < b.y0 || y > b.y1 {
				continue
			}
			for i := 0; i+1 < len(t.xs); i++ {
				if x := (t.xs[i] + t.xs[i+1]) / 2; x > b.x0 && x < b.x1 {
					t.full[j*(len(t.xs)-1)+i] = !b.cut
				}
			}
		}
	}
	return t
}

func distinct(v []float64) []float64 {
	slices.Sort(v)
	return slices.CompactFunc(v, func(a, b float64) bool { return math.Abs(a-b) < same })
}

func (t grid) at(i, j int) bool {
	return i >= 0 && j >= 0 && i < len(t.xs)-1 && j < len(t.ys)-1 && t.full[j*(len(t.xs)-1)+i]
}

// strips are boxes side by side that cover the region, each as wide as it goes.
func (t grid) strips() []box {
	all := make([]box, 0, 4)
	for j := 0; j+1 < len(t.ys); j++ {
		for i := 0; i+1 < len(t.xs); i++ {
			if !t.at(i, j) {
				continue
			}
			from := i
			for t.at(i+1, j) {
				i++
			}
			b := box{t.xs[from], t.xs[i+1], t.ys[j], t.ys[j+1]}
			if above := slices.IndexFunc(all, func(a box) bool { return a.y1 == b.y0 && a.x0 == b.x0 && a.x1 == b.x1 }); above >= 0 {
				all[above].y1 = b.y1
				continue
			}
			all = append(all, b)
		}
	}
	return all
}

// columns adds the boxes side by side that cover the region, each as high as it goes.
func (t grid) columns(all []box) []box {
	for i := 0; i+1 < len(t.xs); i++ {
		for j := 0; j+1 < len(t.ys); j++ {
			if !t.at(i, j) {
				continue
			}
			from := j
			for t.at(i, j+1) {
				j++
			}
			all = append(all, box{t.xs[i], t.xs[i+1], t.ys[from], t.ys[j+1]})
		}
	}
	return all
}

// Directions along the grid, each the next one's turn to the right.
const (
	east = iota
	south
	west
	north
)

var steps = [4][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}

// loops are the outlines of the region, which lies to the right of each.
func (t grid) loops() [][]Point {
	nx, ny := len(t.xs), len(t.ys)
	out := make([]uint8, nx*ny) // of each corner, the directions of the edges that leave it
	for j := 0; j < ny; j++ {
		for i := 0; i < nx; i++ {
			here, left, above := t.at(i, j), t.at(i-1, j), t.at(i, j-1)
			if i+1 < nx && here != above {
				if here {
					out[j*nx+i] |= 1 << east
				} else {
					out[j*nx+i+1] |= 1 << west
				}
			}
			if j+1 < ny && here != left {
				if here {
					out[(j+1)*nx+i] |= 1 << north
				} else {
					out[j*nx+i] |= 1 << south
				}
			}
		}
	}
	var all [][]Point
	for start := range out {
		for out[start] != 0 {
			loop := make([]Point, 0, 8)
			dir := -1
			for at := start; ; {
				next := -1
				// To the right first, so that two corners that touch stay two outlines.
				for _, turn := range [4]int{1, 0, 3, 2} {
					if d := (max(dir, 0) + turn) % 4; out[at]&(1<<d) != 0 {
						next = d
						break
					}
				}
				if next < 0 {
					break
				}
				out[at] &^= 1 << next
				if next != dir {
					loop = append(loop, Point{t.xs[at%nx], t.ys[at/nx]})
				}
				dir = next
				at += steps[next][0] + steps[next][1]*nx
			}
			all = append(all, loop)
		}
	}
	return all
}

// Ways in which cut metal is hatched.
const (
	plain   = 0
	rising  = 1
	falling = -1
)

// hatch are lines at 45° over boxes, spaced apart across the x axis; where
// boxes touch, the lines run on.
func hatch(over []box, way int, spaced float64) Lines {
	h := Lines{Class: "hatch"}
	if way == plain || !(spaced > 0) {
		return h
	}
	n := 0.0
	for _, b := range over {
		n += (b.x1-b.x0+b.y1-b.y0)/spaced + 1
	}
	h.Segments = make([]Segment, 0, int(n))
	for _, b := range over {
		// A rising line is x + y = c, a falling one x − y = c.
		lo, hi := b.x0+b.y0, b.x1+b.y1
		if way == falling {
			lo, hi = b.x0-b.y1, b.x1-b.y0
		}
		first := math.Ceil(lo/spaced) * spaced
		for n := 0; ; n++ {
			c := first + float64(n)*spaced
			if c > hi {
				break
			}
			var p, q Point
			if way == rising {
				p.X, q.X = max(b.x0, c-b.y1), min(b.x1, c-b.y0)
				p.Y, q.Y = c-p.X, c-q.X
			} else {
				p.X, q.X = max(b.x0, c+b.y0), min(b.x1, c+b.y1)
				p.Y, q.Y = p.X-c, q.X-c
			}
			if q.X-p.X > 0.05*spaced {
				h.Segments = append(h.Segments, Segment{p, q})
			}
		}
	}
	return h
}
