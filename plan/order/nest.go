package order

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/plan/unit"
)

// Piece is a length to saw from bar.
type Piece struct {
	Key    string // of what it is for
	Label  string
	Length float64 // mm, as it comes off the saw
}

// Bar is a length in which bar is sold.
type Bar struct {
	Length float64 // mm
	Cost   int64   // in the smallest coin; 0 where it is not known
}

// Offcut is bar that the owner has: it costs nothing, and is used first.
type Offcut struct {
	Key    string
	Label  string
	Length float64 // mm
}

// Cutting is what there is to cut from.
type Cutting struct {
	Kerf    float64 // mm that each cut of the saw takes
	Bars    []Bar   // as many of each as are needed
	Offcuts []Offcut
	Effort  int // steps after which the search stops; 0 for [Effort]
}

// Effort is how far the search goes unless told otherwise. It is counted in
// steps and not in seconds, so that the same pieces always give the same answer.
const Effort = 2_000_000

// Kerf of a hacksaw or bandsaw.
const (
	Kerf       = 2.0
	KerfSource = "common practice, no source: a saw takes 1.5 to 2 mm"
)

// Cut is one bar and what is sawn from it.
type Cut struct {
	Length float64 // mm of the bar
	Offcut string  // key of the owner's offcut; "" for a bar to buy
	Pieces []Piece // the longest first
	Left   float64 // mm that remains after the last cut
}

// Nest is which piece comes out of which bar.
type Nest struct {
	Cuts     []Cut   // the owner's offcuts first, then bars to buy, the longest first
	Unplaced []Piece // longer than any bar that is sold, with no offcut left for them
	Bought   float64 // mm of bar to buy
	Cost     int64   // of it, where every bar has a cost; then that is what was made least
	Bound    float64 // no arrangement buys less than this: mm, or cost where ByCost
	ByCost   bool
	Proved   bool // nothing less will do
	KerfUsed float64
}

// ErrCutting is returned for a kerf or a bar that cannot be.
var ErrCutting = errors.New("give a kerf of 0 to 10 mm, and bars longer than 0")

// Over is how much more is bought than the bound, at the most: 0 where it is
// proved, 0.25 for a quarter.
func (n Nest) Over() float64 {
	got := n.Bought
	if n.ByCost {
		got = float64(n.Cost)
	}
	if n.Proved || got <= n.Bound {
		return 0
	}
	return got/n.Bound - 1
}

// Say tells what to buy and how sure it is that less will not do.
func (n Nest) Say() string {
	var s strings.Builder
	count := map[float64]int{}
	var lengths []float64
	owned := 0
	for _, c := range n.Cuts {
		if c.Offcut != "" {
			owned++
			continue
		}
		if count[c.Length] == 0 {
			lengths = append(lengths, c.Length)
		}
		count[c.Length]++
	}
	for i, l := range lengths {
		if i > 0 {
			s.WriteString(" and ")
		}
		fmt.Fprintf(&s, "%d of %s", count[l], unit.MM.With(l))
	}
	switch {
	case len(lengths) == 0 && owned == 0:
		return "nothing to cut"
	case len(lengths) == 0:
		return "nothing to buy: it comes out of what you have"
	case n.Proved:
		s.WriteString(": nothing less will do")
	case n.ByCost:
		fmt.Fprintf(&s, ": not proved to be the least, but at most %.0f %% dearer than that", math.Ceil(100*n.Over()))
	default:
		fmt.Fprintf(&s, ": not proved to be the least, but at most %.0f %% above it", math.Ceil(100*n.Over()))
	}
	return s.String()
}

// MakeNest finds bars for pieces so that the least is bought: the least length,
// or the least cost where every bar has one. It returns [ErrCutting].
//
// Bars are tried by what they cost, the cheapest set first, and each set is
// either packed or shown to be impossible before the next; so the first that is
// packed is the best there is, unless the effort ran out on one before it.
func MakeNest(pieces []Piece, c Cutting) (Nest, error) {
	if !(c.Kerf >= 0 && c.Kerf <= 10) ||
		slices.ContainsFunc(c.Bars, func(b Bar) bool { return !(b.Length > 0 && b.Length <= unit.MaxLength) || b.Cost < 0 }) ||
		slices.ContainsFunc(c.Offcuts, func(o Offcut) bool { return !(o.Length > 0 && o.Length <= unit.MaxLength) }) ||
		slices.ContainsFunc(pieces, func(p Piece) bool { return !(p.Length > 0) || math.IsInf(p.Length, 1) }) {
		return Nest{}, ErrCutting
	}
	n := Nest{KerfUsed: c.Kerf}
	var some []Piece
	some, n.Unplaced = placeable(pieces, c)
	p := newProblem(some, c)
	n.ByCost = p.byCost
	found := p.solve()
	n.Cuts = p.cuts(found.bins)
	for _, cut := range n.Cuts {
		if cut.Offcut == "" {
			n.Bought += cut.Length
		}
	}
	if p.byCost {
		n.Cost, n.Bound = found.cost, float64(found.bound)
	} else {
		n.Bound = float64(found.bound) / grain
	}
	n.Proved = found.bound >= found.cost
	return n, nil
}

// placeable sets aside the pieces that are longer than any bar that is sold and
// do not go into the offcuts, the longest first into the shortest that will do.
func placeable(pieces []Piece, c Cutting) (some, unplaced []Piece) {
	longest := 0.0
	for _, b := range c.Bars {
		longest = max(longest, b.Length)
	}
	var long []Piece
	for _, p := range pieces {
		if p.Length <= longest {
			some = append(some, p)
		} else {
			long = append(long, p)
		}
	}
	if len(long) == 0 {
		return some, nil
	}
	p := newProblem(long, Cutting{Kerf: c.Kerf, Offcuts: c.Offcuts})
	placed := map[int]bool{}
	for _, b := range p.greedy(-1) {
		for _, i := range b.items {
			placed[i] = true
			some = append(some, p.pieces[i])
		}
	}
	for i, piece := range p.pieces {
		if !placed[i] {
			unplaced = append(unplaced, piece)
		}
	}
	return some, unplaced
}

func byLength(a, b Piece) int {
	return cmp.Or(cmp.Compare(a.Length, b.Length), strings.Compare(a.Key, b.Key), strings.Compare(a.Label, b.Label))
}
