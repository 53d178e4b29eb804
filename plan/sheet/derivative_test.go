package sheet_test

import (
	"math"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
)

// smooth is a registered function with a slope.
var smooth = &sheet.Func{
	Name: "smooth", Args: []unit.Dim{unit.Number, unit.Number}, Result: unit.Number,
	F: func(x []float64) float64 { return x[0] * x[0] * math.Exp(x[1]) },
	Slope: func(x []float64, i int) float64 {
		if i == 0 {
			return 2 * x[0] * math.Exp(x[1])
		}
		return x[0] * x[0] * math.Exp(x[1])
	},
}

func TestDerivativeAgreesWithCentralDifference(t *testing.T) {
	start := map[string]float64{"a": 1.3, "b": 0.7, "c": 2.9}
	for _, formula := range []string{
		"a + b - c", "a * b * c", "a / b / c", "-a * -b", "a * a", "(a + b) / (a - c)",
		"sqrt(a)", "abs(b - c)", "abs(c - b)", "exp(b)", "log(c)", "sin(a)", "cos(a)", "tan(b)", "atan(c)",
		"pow(a, 2)", "pow(a, 3)", "pow(a, 4)", "pow(c, -1.5)", "pow(a, 1/3)", "pow(b, 0.5)",
		"min(a, b, c)", "max(a, b, c)", "sum(a, b, c)", "max(a * b, c * b)", "min(a * a, b * b) - max(c, 0)",
		"when(a < b, a * c, b * c)", "when(a >= b, a * c, b * c)", "when(c > 2, pow(c, 2), 0) * a",
		"smooth(a, b)", "smooth(a * a, b)", "smooth(b, b)",
		"ceil(c) * a", "floor(c) * a", "count(a, b) * a",
		"pi * pow(a, 4) / 64 * exp(-b) + sin(a * b) / sqrt(c)",
		"log(sqrt(a * a + b * b + c * c))",
	} {
		t.Run(formula, func(t *testing.T) {
			r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
				s.Register(smooth)
				for _, k := range []string{"a", "b", "c"} {
					m.Measure(one(k), exactly(start[k]))
				}
				m.Formula(one("y"), formula, "invented")
			})
			for k, x := range start {
				numeric := fd.Derivative(func(x float64) float64 {
					require.True(t, r.Try(k, x))
					return r.Value("y", sheet.Planned)
				}, x, &fd.Settings{Formula: fd.Central})
				require.True(t, r.Try(k, x))
				// A central difference of step 6e-6 is good to about 1e-9 here.
				require.InDelta(t, numeric, r.Derivative("y", k, sheet.Planned), 1e-7*(1+math.Abs(numeric)), "by %s", k)
			}
		})
	}
}

func TestDerivativeThroughAChain(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("x"), within(3, 0.1))
		m.Measure(mm("y"), within(4, 0.1))
		m.Formula(mm("h"), "sqrt(x * x + y * y)", "Pythagoras")
		m.Formula(one("cosine"), "x / h", "geometry")
		s.Reached(sheet.Now)
		s.Upgrade("longer")
		m.Fix(mm("more"), "2 * h", "decided")
		m.Change("x", "was + more", "decided")
	})
	// By hand: h = 5, cosine = x/h, d/dx = y²/h³ = 16/125, d/dy = −xy/h³ = −12/125.
	require.InDelta(t, 16.0/125, r.Derivative("cosine", "x", sheet.Now), 1e-12)
	require.InDelta(t, -12.0/125, r.Derivative("cosine", "y", sheet.Now), 1e-12)
	// Planned, x is 3 + 2·5 = 13, and through the decision dx'/dx = 1 + 2·3/5.
	require.InDelta(t, 2.2, r.Derivative("x", "x", sheet.Planned), 1e-12)
	require.InDelta(t, 1.6, r.Derivative("x", "y", sheet.Planned), 1e-12)
	// What is decided is made so: the uncertainty is the present one.
	require.InDelta(t, 0.1/math.Sqrt(3), r.Uncertainty("x", sheet.Planned).Std, 1e-12)

	require.Zero(t, r.Derivative("x", "cosine", sheet.Planned), "not a leaf")
	require.Zero(t, r.Derivative("x", "nothing", sheet.Planned))
	require.Zero(t, r.Derivative("nothing", "x", sheet.Planned))
	require.Zero(t, r.Derivative("x", "y", sheet.Now), "a leaf does not depend on another")
}

// Slopes are the derivatives by all leaves at once, of a leaf that changed too.
func TestSlopes(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		for _, k := range []string{"a", "b", "c", "other"} {
			m.Measure(one(k), exactly(2))
		}
		m.Measure(one("gone"), sheet.Leaf{Origin: sheet.Unknown})
		m.Formula(one("y"), "a * b + c - c", "invented")
		m.Formula(one("z"), "y + gone", "invented")
		s.Reached(sheet.Now)
		m.Change("a", "was + 1", "invented")
	})
	got := map[string]float64{}
	r.Slopes("y", sheet.Planned, func(leaf string, slope float64) { got[leaf] = slope })
	require.Equal(t, map[string]float64{"a": 2, "b": 3}, got) // dy/da = b, dy/db = a + 1; that of c is 0
	for leaf, slope := range got {
		require.InDelta(t, r.Derivative("y", leaf, sheet.Planned), slope, 1e-12)
	}
	for _, key := range []string{"z", "none"} {
		r.Slopes(key, sheet.Planned, func(string, float64) { require.Fail(t, "not known") })
	}
}
