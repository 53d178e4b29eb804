package sheet

import "math"

// place is a margin at a value of the leaf, and how steep it is on either side.
type place struct{ x, margin, before, after float64 }

// sides is by what part of a step one looks aside of a place, to see how steep a margin is there.
const sides = 1024

// lean notes what the margin is aside of the place.
func (p *place) lean(side, margin float64) {
	if side < 0 {
		p.before = (margin - p.margin) / side
	} else {
		p.after = (margin - p.margin) / side
	}
}

// seeker looks at a margin between two places, and no more often than it may: rounded sizes have no end of teeth.
type seeker struct {
	margin func(x float64) float64
	touch  float64 // what is nearly nothing
	may    int     // of the places in one step
	left   int     // of the places in all steps
}

const (
	deepest    = 12  // how often a step is divided to find what is hidden in it
	mostInStep = 40  // places looked at in one step
	mostLooks  = 300 // places looked at for one check
)

// within looks at a step.
func (s *seeker) within(a, b place) []place {
	s.may = min(mostInStep, s.left)
	s.left -= s.may
	found := s.hidden(a, b, deepest)
	s.left += s.may
	return found
}

// hidden finds places between a and b at which a margin holds though it does at neither, or fails though it does at
// neither. Where it goes on as it leans at a and at b, and comes to nothing so, it turns or leaps somewhere between
// them; it is looked at where the two lines meet, and half way. A dip that it leans to at neither of them is not seen.
func (s *seeker) hidden(a, b place, deep int) []place {
	wide := b.x - a.x
	fromA, fromB := a.margin+a.after*wide, b.margin-b.before*wide
	holds := func(p place) bool { return p.margin >= -s.touch }
	held := holds(a)
	switch slack := 1000 * s.touch; {
	case held != holds(b), deep == 0, s.may == 0:
		return nil
	case held && !(min(fromA, fromB) < -slack), !held && !(max(fromA, fromB) >= -s.touch):
		return nil
	}
	c := place{x: a.x + wide/2}
	if meet := (fromB - a.margin) / (a.after - b.before); deep%2 == 0 && meet > wide/sides && meet < wide-wide/sides {
		c.x = a.x + meet
	}
	s.may--
	c.margin = s.margin(c.x)
	if held != holds(c) {
		return []place{c}
	}
	aside := wide / 2 / sides
	c.lean(-aside, s.margin(c.x-aside))
	c.lean(aside, s.margin(c.x+aside))
	return append(s.hidden(a, c, deep-1), s.hidden(c, b, deep-1)...)
}

// top is where f is largest between a and b, in which it rises and then falls: a golden section search (Kiefer 1953).
func top(a, b float64, f func(x float64) float64) (x, y float64) {
	const golden = 0.6180339887498949
	c, d := b-golden*(b-a), a+golden*(b-a)
	fc, fd := f(c), f(d)
	for i := 0; i < 90 && math.Abs(b-a) > 1e-8; i++ {
		if fc > fd {
			b, d, fd = d, c, fc
			c = b - golden*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + golden*(b-a)
			fd = f(d)
		}
	}
	if fc > fd {
		return c, fc
	}
	return d, fd
}

// turn is where f turns between a and b: the end of the stretch in which it is
// nearly nothing or more. It follows the straight line between the two, halving
// every third time and where that cannot be done: where an end is infinite, or
// f stays at nothing for a while. Last, it follows the line on the side where f
// is less, which is exact where f is straight there.
func turn(a, b, nearly float64, f func(x float64) float64) float64 {
	holds, fails := a, b
	if f(a) < -nearly {
		holds, fails = b, a
	}
	step := (fails - holds) / 1000
	fh, ff := f(holds), f(fails)
	for i := 1; i <= 90 && math.Abs(fails-holds) > 1e-8; i++ {
		x := (holds + fails) / 2
		if i%3 != 0 && fh > nearly && !math.IsInf(fh-ff, 0) {
			x = holds + (fails-holds)*fh/(fh-ff)
		}
		fx := f(x)
		if fx < -nearly {
			fails, ff = x, fx
			continue
		}
		holds, fh = x, fx
		if y := x + (fails-x)/1e6; fx < nearly && f(y) < -nearly {
			fails = y // met here, and broken right after
			break
		}
	}
	y, z := holds+step, holds+2*step
	fy, fz := f(y), f(z)
	line := (z - y) / (fz - fy)
	if x := y - fy*line; fy < 0 && fy != fz && math.Abs(x-holds) <= 2*(math.Abs(fails-holds)+math.Abs(nearly*line)) {
		return x
	}
	return holds
}
