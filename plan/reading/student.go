package reading

import (
	"math"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// normalFrom is where Student's t is the normal distribution to seven figures.
const normalFrom = 1e7

// Chance is the chance that a quantity of Student's t distribution with so many
// degrees of freedom is farther from 0 than t, either way.
//
// Source: I_x(ν/2, 1/2) at x = ν/(ν + t²), NIST Digital Library of Mathematical
// Functions 8.17, by its continued fraction 8.17.22.
func Chance(t, degrees float64) float64 {
	t = math.Abs(t)
	if degrees >= normalFrom {
		return math.Erfc(t / math.Sqrt2)
	}
	return incompleteBeta(degrees/2, 0.5, degrees/(degrees+t*t), t*t/(degrees+t*t))
}

// Coverage is the t that a quantity of Student's t distribution stays within with
// the probability p, such as 0.95: the coverage factor of JCGM 100, annex G.
func Coverage(p, degrees float64) float64 {
	low, high := 0.0, 1.0
	for Chance(high, degrees) > 1-p && high < 1e12 {
		low, high = high, 2*high
	}
	for range 200 {
		mid := (low + high) / 2
		if mid == low || mid == high {
			break
		}
		if Chance(mid, degrees) > 1-p {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// incompleteBeta is I_x(a, b); y is 1 − x, given apart since it may be tiny.
func incompleteBeta(a, b, x, y float64) float64 {
	if x <= 0 {
		return 0
	}
	if y <= 0 {
		return 1
	}
	if x > (a+1)/(a+b+2) { // where the fraction converges slowly
		return 1 - incompleteBeta(b, a, y, x)
	}
	ab, _ := math.Lgamma(a + b)
	ga, _ := math.Lgamma(a)
	gb, _ := math.Lgamma(b)
	front := math.Exp(ab-ga-gb+a*math.Log(x)+b*math.Log(y)) / a
	// The fraction by the rule of Lentz, with the two kinds of its terms.
	const tiny = 1e-300
	c, d := 1.0, 1/notZero(1-(a+b)*x/(a+1), tiny)
	f := d
	for m := 1.0; m < 10000; m++ {
		for _, term := range []float64{
			m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m)),
			-(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1)),
		} {
			d = 1 / notZero(1+term*d, tiny)
			c = notZero(1+term/c, tiny)
			f *= c * d
		}
		if math.Abs(c*d-1) < 1e-15 {
			break
		}
	}
	return front * f
}

func notZero(x, tiny float64) float64 {
	if math.Abs(x) < tiny {
		return tiny
	}
	return x
}

const annexG = "JCGM 100:2008, annex G: Student's t"

// CoverageFunc gives formulas coverage(p, degrees); see [Coverage].
func CoverageFunc() *sheet.Func {
	return &sheet.Func{Name: "coverage", Args: []unit.Dim{unit.Number, unit.Number}, Result: unit.Number, Source: annexG,
		F: func(args []float64) float64 { return Coverage(args[0], args[1]) }}
}

// ChanceFunc gives formulas chance(t, degrees); see [Chance].
func ChanceFunc() *sheet.Func {
	return &sheet.Func{Name: "chance", Args: []unit.Dim{unit.Number, unit.Number}, Result: unit.Number, Source: annexG,
		F: func(args []float64) float64 { return Chance(args[0], args[1]) }}
}
