package sheet_test

import (
	"math"
	"slices"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

const trials = 100_000

// meanWithin and stdWithin are five standard errors of the mean and of the
// standard deviation of normal trials: one test in a million fails by chance,
// and the seed is fixed. Rectangular spreads have smaller ones.
func meanWithin(std float64) float64 { return 5 * std / math.Sqrt(trials) }

func stdWithin(std float64) float64 { return 5 * std / math.Sqrt(2*trials) }

func TestTrialsOfALinearModel(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(one("a"), within(10, 0.3))
		m.Measure(one("b"), within(20, 0.6))
		m.Measure(one("c"), normal(5, 0.2))
		m.Formula(one("y"), "a - 2 * b + 3 * c", "invented")
	})
	// JCGM 100:2008, 4.3.7 and 5.1.2: half²/3 each, u² for the normal one.
	std := math.Sqrt(0.3*0.3/3 + 4*0.6*0.6/3 + 9*0.2*0.2)
	u := r.Uncertainty("y", sheet.Planned)
	require.InDelta(t, std, u.Std, 1e-12)
	require.InDelta(t, std, u.Linear, 1e-12)
	require.InDelta(t, 0.3+2*0.6+3*2*0.2, u.Worst, 1e-12, "halves; two standard uncertainties of a normal one")
	require.False(t, u.Bent)
	require.InDelta(t, 2*std, u.PlusMinus(), 1e-12)
	require.False(t, u.Capped())
	require.Equal(t, []string{"b", "c", "a"}, keys(u.Shares), "what to measure better first")
	require.InDelta(t, 4*0.6*0.6/3/(std*std), u.Shares[0].Part, 1e-12)
	require.InDelta(t, -2, u.Shares[0].Slope, 1e-12)

	d, ok := r.Trials("y", sheet.Planned, trials, 7)
	require.True(t, ok)
	require.Equal(t, trials, d.Trials)
	require.InDelta(t, -15, d.Mean, meanWithin(std))
	require.InDelta(t, std, d.Std, stdWithin(std))

	again, _ := r.Trials("y", sheet.Planned, trials, 7)
	require.Equal(t, d, again, "the same seed, the same answer")
	other, _ := r.Trials("y", sheet.Planned, trials, 8)
	require.NotEqual(t, d.Mean, other.Mean)
	drawn, ok := r.Drawn("y", sheet.Planned, trials, 7)
	require.True(t, ok)
	require.Len(t, drawn, trials)
	require.True(t, slices.IsSorted(drawn))
	require.Equal(t, d, sheet.Distributed(drawn), "the same trials")
	_, ok = r.Drawn("none", sheet.Planned, trials, 7)
	require.False(t, ok)
}

func keys(shares []sheet.Share) (keys []string) {
	for _, s := range shares {
		keys = append(keys, s.Key)
	}
	return keys
}

func TestTrialsOfANormalSum(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(one("a"), normal(1, 3))
		m.Measure(one("b"), normal(2, 4))
		m.Formula(one("y"), "a + b", "invented")
	})
	d, _ := r.Trials("y", sheet.Planned, trials, 5)
	// 3² + 4² = 5²; 95 % of a normal lie within 1.960 standard uncertainties. The
	// standard error of a quantile is √(p(1−p)/n) / density, here φ(1.960)/5.
	within := 5 * math.Sqrt(0.025*0.975/trials) / (0.05845 / 5)
	require.InDelta(t, 3-1.960*5, d.Low, within)
	require.InDelta(t, 3+1.960*5, d.High, within)
	require.InDelta(t, 5, d.Std, stdWithin(5))
}

func TestTrialsOfARectangularSum(t *testing.T) {
	// The sum of two equal rectangulars is a triangle: its middle 95 % end where
	// a corner of 2.5 % is left, at 2h(1 − √0.05).
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(one("a"), within(0, 1))
		m.Measure(one("b"), within(0, 1))
		m.Formula(one("y"), "a + b", "invented")
	})
	d, _ := r.Trials("y", sheet.Planned, trials, 3)
	edge := 2 * (1 - math.Sqrt(0.05))
	// Standard error of a quantile: √(p(1−p)/n) / density, which is (2−edge)/4 here.
	within := 5 * math.Sqrt(0.025*0.975/trials) / ((2 - edge) / 4)
	require.InDelta(t, edge, d.High, within)
	require.InDelta(t, -edge, d.Low, within)
	require.InDelta(t, math.Sqrt(2.0/3), d.Std, stdWithin(math.Sqrt(2.0/3)))
}

func TestTrialsOfAProduct(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(one("x"), normal(2, 0.5))
		m.Measure(one("y"), normal(3, 0.8))
		m.Formula(one("p"), "x * y", "invented")
	})
	// Of independent factors: var(xy) = x̄²u_y² + ȳ²u_x² + u_x²u_y², exactly.
	linear := 4*0.64 + 9*0.25
	std := math.Sqrt(linear + 0.25*0.64)
	u := r.Uncertainty("p", sheet.Planned)
	require.True(t, u.Bent, "both are known to worse than a tenth")
	require.InDelta(t, math.Sqrt(linear), u.Linear, 1e-12)
	d, _ := r.Trials("p", sheet.Planned, trials, 1)
	// The product's kurtosis is 3.6, which widens the error of its standard
	// deviation by √((κ−1)/2) = 1.14.
	require.InDelta(t, std, d.Std, 1.14*stdWithin(std))
	require.InDelta(t, 6, d.Mean, meanWithin(std))
	require.InDelta(t, std, u.Std, 5*1.14*std/math.Sqrt(2*2000), "of 2000 trials")
}

func TestMinOfEquals(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(one("a"), normal(10, 0.1))
		m.Measure(one("b"), normal(10, 0.1))
		m.Measure(one("far"), normal(12, 0.1))
		m.Formula(one("least"), "min(a, b, far)", "invented")
		m.Formula(one("clear"), "min(a, far)", "invented")
	})
	// The smaller of two equal normals: mean μ − σ/√π, standard deviation σ√(1 − 1/π).
	mean, std := 10-0.1/math.Sqrt(math.Pi), 0.1*math.Sqrt(1-1/math.Pi)
	u := r.Uncertainty("least", sheet.Planned)
	require.True(t, u.Bent)
	require.InDelta(t, 0.1, u.Linear, 1e-12, "first order sees only one of them")
	require.InDelta(t, std, u.Std, 5*std/math.Sqrt(2*2000))
	quick := r.FirstOrder("least", sheet.Planned)
	require.True(t, quick.Bent)
	require.InDelta(t, 0.1, quick.Std, 1e-12, "no trials are made")
	d, _ := r.Trials("least", sheet.Planned, trials, 1)
	require.InDelta(t, mean, d.Mean, meanWithin(std))
	require.InDelta(t, std, d.Std, stdWithin(std))

	require.False(t, r.Uncertainty("clear", sheet.Planned).Bent, "the other is twenty standard uncertainties off")
}

func TestBent(t *testing.T) {
	steps := &sheet.Func{Name: "stock", Args: []unit.Dim{unit.Number}, Result: unit.Number,
		F: func(x []float64) float64 { return math.Ceil(x[0]) }, Monotone: true}
	for _, tc := range []struct {
		formula string
		bent    bool
	}{
		{"min(a, 1.2)", true}, {"min(a, 1.4)", false}, // u is 0.1: three of them is 0.3
		{"max(a, 0.8)", true}, {"max(a, 0.6)", false},
		{"when(a < 1.2, 1, 2)", true}, {"when(a < 1.4, 1, 2)", false},
		{"when(a < 1.2, 1, 2) * 2 + 1", true},
		{"abs(a - 1.2)", true}, {"abs(a - 1.4)", false},
		{"ceil(a + 0.2)", true}, {"ceil(a - 0.5)", false},
		{"floor(a + 0.8)", true}, {"floor(a + 0.5)", false},
		{"stock(a + 0.2)", true}, {"stock(a - 0.5)", false},
		{"1 / (a - 0.5)", true}, {"1 / (a + 1)", false},
		{"pow(a - 0.5, 2)", true}, {"pow(a + 1, 2)", false},
		{"sqrt(a - 0.5)", true}, {"log(a + 1)", false},
		{"sin(2 * a)", true}, {"exp(a / 2)", false},
		{"smooth(a - 0.5, 0)", true}, {"smooth(a + 1, 0)", false},
		{"a - 2 * exact", false}, {"min(exact, 1)", false},
		{"min(min(a, 1.2), -5)", false}, // the kink is far above what limits
	} {
		t.Run(tc.formula, func(t *testing.T) {
			r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
				s.Register(steps)
				s.Register(smooth)
				m.Measure(one("a"), normal(1, 0.1))
				m.Measure(one("exact"), exactly(1))
				m.Formula(one("y"), tc.formula, "invented")
				m.Formula(one("later"), "y + 1", "invented")
			})
			require.Equal(t, tc.bent, r.Uncertainty("y", sheet.Planned).Bent)
			require.Equal(t, tc.bent, r.Uncertainty("later", sheet.Planned).Bent, "and what follows from it")
		})
	}
}

func TestUncertaintyOfWhatIsNotKnown(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("wall"), within(88, 0.1))
		m.Measure(mm("tray"), between(88.5, math.Inf(1)))
		m.Formula(mm("reach"), "min(wall, tray)", "geometry")
		m.Formula(mm("twice"), "2 * tray", "geometry")
	})
	require.Zero(t, r.Uncertainty("twice", sheet.Planned))
	_, ok := r.Trials("twice", sheet.Planned, 100, 1)
	require.False(t, ok)
	_, ok = r.Trials("reach", sheet.Planned, 1, 1)
	require.False(t, ok, "one trial has no spread")

	// The unknown does not limit, so the figure is known, and how well.
	u := r.Uncertainty("reach", sheet.Planned)
	require.InDelta(t, 0.1/math.Sqrt(3), u.Std, 1e-12)
	d, ok := r.Trials("reach", sheet.Planned, trials, 1)
	require.True(t, ok)
	require.InDelta(t, 0.1/math.Sqrt(3), d.Std, stdWithin(0.1/math.Sqrt(3)))
}

func TestTextPlusMinus(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("a"), normal(10, 0.0577))
		m.Measure(mm("b"), normal(10, 7))
		m.Measure(sheet.Q{Key: "c", Unit: unit.Micrometre}, normal(0.001, 0.00035))
		m.Measure(mm("exact"), exactly(10))
	})
	for key, want := range map[string]string{"a": "± 0.12", "b": "± 14", "c": "± 0.7", "exact": ""} {
		require.Equal(t, want, figure(t, r, key, sheet.Planned).TextPlusMinus(r.Uncertainty(key, sheet.Planned)), key)
	}
}

// A reading that lies anywhere within ± 0.05 has u = 0.05/√3 (JCGM 100:2008, 4.3.7), and 2 u is 0.058: more than it
// can be off. Of two such, 2 u is 2 × 0.05 × √(2/3) = 0.082, and the worst 0.1. A normal spread ends nowhere.
func TestPlusMinusIsNoMoreThanTheWorst(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(one("a"), within(10, 0.05))
		m.Measure(one("b"), within(20, 0.05))
		m.Measure(one("c"), normal(5, 0.05))
		m.Formula(one("y"), "a + b", "invented")
	})
	for _, tc := range []struct {
		key    string
		within float64
		capped bool
	}{
		{"a", 0.05, true}, {"y", 2 * 0.05 * math.Sqrt(2.0/3), false}, {"c", 0.1, false},
	} {
		u := r.Uncertainty(tc.key, sheet.Planned)
		require.InDelta(t, tc.within, u.PlusMinus(), 1e-12, tc.key)
		require.Equal(t, tc.capped, u.Capped(), tc.key)
	}
}
