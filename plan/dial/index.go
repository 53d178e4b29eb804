package dial

import (
	"math"
	"slices"
)

// Move is how far to turn a dividing head's crank from one line to the next.
type Move struct {
	Circle int // holes in the circle; 0 where whole turns are enough
	Turns  int // whole turns
	Holes  int // and holes: spaces, so the sector arms hold one hole more
}

// Turns lists the moves that divide exactly, one for each circle that can do
// it, for a worm of the ratio (40: forty turns of the crank to one of the
// work). None means that plain indexing cannot do it with these circles.
// It is turns = ratio / divisions, by whole numbers.
func Turns(divisions, ratio int, circles []int) []Move {
	if divisions < 1 || ratio < 1 {
		return nil
	}
	whole, rest := ratio/divisions, ratio%divisions
	if rest == 0 {
		return []Move{{Turns: whole}}
	}
	var moves []Move
	for _, c := range distinct(circles) {
		if c > 0 && rest*c%divisions == 0 {
			moves = append(moves, Move{c, whole, rest * c / divisions})
		}
	}
	return moves
}

// Direct tells by how many holes of a plate on the work's own spindle to move,
// and whether that divides exactly.
func Direct(divisions, holes int) (every int, ok bool) {
	if divisions < 1 || holes < divisions || holes%divisions != 0 {
		return 0, false
	}
	return holes / divisions, true
}

// Around is a way to divide that plain indexing cannot: the plate turns too,
// geared to the spindle, while the moves of another number are used.
type Around struct {
	Approx       int // the number whose moves are used
	Moves        []Move
	Above, Below int   // gear ratio from spindle to plate, in lowest terms
	Same         bool  // the plate turns the same way as the crank
	Wheels       []int // driver, driven, or two such pairs; nil where the box has none
}

// Differential lists ways around, those with the smallest ratio first: up to
// count of them, for numbers up to a tenth away. wheels are those in the box,
// twice where there are two.
func Differential(divisions, ratio int, circles, wheels []int, count int) []Around {
	var ways []Around
	if divisions < 2 || ratio < 1 {
		return nil
	}
	for off := 1; off <= max(2, divisions/10) && off < divisions; off++ {
		for _, approx := range []int{divisions + off, divisions - off} {
			moves := Turns(approx, ratio, circles)
			if len(moves) == 0 {
				continue
			}
			above, below := lowest(off*ratio, approx)
			w := Around{Approx: approx, Moves: moves, Above: above, Below: below, Same: approx > divisions}
			w.Wheels = train(above, below, wheels)
			ways = append(ways, w)
		}
	}
	slices.SortStableFunc(ways, func(a, b Around) int {
		if (a.Wheels == nil) != (b.Wheels == nil) {
			if a.Wheels != nil {
				return -1
			}
			return 1
		}
		return len(a.Wheels) - len(b.Wheels)
	})
	return ways[:min(count, len(ways))]
}

// train finds wheels for a ratio: one pair, else two.
func train(above, below int, wheels []int) []int {
	for i, driver := range wheels {
		for j, driven := range wheels {
			if i != j && driver*below == driven*above {
				return []int{driver, driven}
			}
		}
	}
	for i, a := range wheels {
		for j, b := range wheels {
			if i == j {
				continue
			}
			for k, c := range wheels {
				if k <= i || k == j {
					continue
				}
				for l, d := range wheels {
					if l != i && l != j && l != k && a*c*below == b*d*above {
						return []int{a, b, c, d}
					}
				}
			}
		}
	}
	return nil
}

// Angle is a move through an angle.
type Angle struct {
	Move
	Off float64 // what it turns too far, in degrees
}

// ByAngle lists the nearest move on each circle through an angle in degrees,
// the best first.
func ByAngle(degrees float64, ratio int, circles []int) []Angle {
	var all []Angle
	if degrees <= 0 || ratio < 1 {
		return nil
	}
	turns := degrees * float64(ratio) / 360
	for _, c := range distinct(circles) {
		if c < 1 {
			continue
		}
		holes := int(math.Round(turns * float64(c)))
		all = append(all, Angle{Move{c, holes / c, holes % c}, (float64(holes)/float64(c) - turns) * 360 / float64(ratio)})
	}
	slices.SortStableFunc(all, func(a, b Angle) int {
		switch {
		case math.Abs(a.Off) < math.Abs(b.Off)-1e-9:
			return -1
		case math.Abs(a.Off) > math.Abs(b.Off)+1e-9:
			return 1
		}
		return a.Circle - b.Circle
	})
	return all
}

func distinct(circles []int) []int {
	c := slices.Clone(circles)
	slices.Sort(c)
	return slices.Compact(c)
}

func lowest(a, b int) (int, int) {
	x, y := a, b
	for y != 0 {
		x, y = y, x%y
	}
	return a / x, b / x
}
