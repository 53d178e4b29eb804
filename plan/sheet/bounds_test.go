package sheet_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

var (
	inf = math.Inf(1)
	nan = math.NaN()
)

// Bounds are compared with what the same formula gives for many values within
// them: none may lie outside, and, where each unknown is met once, the bounds
// may be no wider than the values.
func TestBoundsHoldWhatCanBe(t *testing.T) {
	falls := &sheet.Func{Name: "falls", Args: []unit.Dim{unit.Number, unit.Number}, Result: unit.Number, Monotone: true,
		F: func(x []float64) float64 { return x[0] - math.Exp(x[1]) }}
	hump := &sheet.Func{Name: "hump", Args: []unit.Dim{unit.Number}, Result: unit.Number,
		F: func(x []float64) float64 { return 1 / (1 + x[0]*x[0]) }}
	for _, tc := range []struct {
		formula      string
		aLo, aHi     float64
		bLo, bHi     float64
		loose        bool // an unknown met twice, or a curve that swings
		endless, low bool // the bounds are −∞ to ∞; or −∞ alone
	}{
		{formula: "a + b", aLo: -1, aHi: 2, bLo: 3, bHi: 5},
		{formula: "a - b", aLo: -1, aHi: 2, bLo: 3, bHi: 5},
		{formula: "-a", aLo: -1, aHi: 2},
		{formula: "a * b", aLo: -1, aHi: 2, bLo: -3, bHi: 5},
		{formula: "a * b", aLo: -4, aHi: -2, bLo: -3, bHi: -1},
		{formula: "a * c", aLo: -1, aHi: 2},
		{formula: "c / a", aLo: 1, aHi: 2},
		{formula: "a / b", aLo: -1, aHi: 2, bLo: -3, bHi: -1},
		{formula: "a / b", aLo: 1, aHi: 2, bLo: -1, bHi: 1, endless: true},
		{formula: "a / b", aLo: 1, aHi: 2, bLo: 0, bHi: 1, endless: true},
		{formula: "a * a", aLo: -1, aHi: 2, loose: true},
		{formula: "a - a", aLo: -1, aHi: 2, loose: true},
		{formula: "min(a, b, c)", aLo: 0, aHi: 4, bLo: 1, bHi: 5},
		{formula: "max(a, b, c)", aLo: 0, aHi: 4, bLo: 1, bHi: 5},
		{formula: "abs(a)", aLo: -1, aHi: 2},
		{formula: "abs(a)", aLo: 1, aHi: 2},
		{formula: "abs(a)", aLo: -2, aHi: -1},
		{formula: "pow(a, 2)", aLo: -1, aHi: 2},
		{formula: "pow(a, 2)", aLo: -3, aHi: -2},
		{formula: "pow(a, 3)", aLo: -2, aHi: 1},
		{formula: "pow(a, 4)", aLo: -2, aHi: 1},
		{formula: "pow(a, -2)", aLo: 1, aHi: 2},
		{formula: "pow(a, -3)", aLo: -2, aHi: -1},
		{formula: "pow(a, -1)", aLo: -2, aHi: 1, endless: true},
		{formula: "pow(a, 0.5)", aLo: 1, aHi: 4},
		{formula: "pow(a, 0.5)", aLo: -1, aHi: 4}, // where it can be had at all
		{formula: "sqrt(a)", aLo: 1, aHi: 4},
		{formula: "sqrt(a)", aLo: -1, aHi: 4},
		{formula: "sqrt(a)", aLo: -4, aHi: -1, endless: true},
		{formula: "exp(a)", aLo: -1, aHi: 1},
		{formula: "log(a)", aLo: 1, aHi: 3},
		{formula: "log(a)", aLo: -1, aHi: 3, low: true, loose: true},
		{formula: "atan(a)", aLo: -1, aHi: 3},
		{formula: "ceil(a)", aLo: -1.5, aHi: 3.5},
		{formula: "floor(a)", aLo: -1.5, aHi: 3.5},
		{formula: "sin(a)", aLo: 0, aHi: 3, loose: true},
		{formula: "cos(a)", aLo: 0, aHi: 7},
		{formula: "tan(a)", aLo: 0, aHi: 1, endless: true},
		{formula: "when(a < b, 1, 2)", aLo: 0, aHi: 1, bLo: 2, bHi: 3},
		{formula: "when(a < b, 1, 2)", aLo: 0, aHi: 2, bLo: 1, bHi: 3},
		{formula: "when(a < b, 1, 2)", aLo: 4, aHi: 5, bLo: 1, bHi: 3},
		{formula: "when(a >= b, a, b)", aLo: 4, aHi: 5, bLo: 1, bHi: 3},
		{formula: "when(c > 2, a, b)", aLo: 4, aHi: 5, bLo: 1, bHi: 3},
		{formula: "falls(a, b)", aLo: 0, aHi: 2, bLo: -1, bHi: 1},
		{formula: "falls(a, a)", aLo: 0, aHi: 2, loose: true},
		{formula: "hump(a)", aLo: -1, aHi: 2, endless: true},
		{formula: "sum(a, b, c) / count(a, b, c)", aLo: 0, aHi: 2, bLo: -1, bHi: 1},
	} {
		t.Run(tc.formula, func(t *testing.T) {
			build := func(a, b sheet.Leaf) *sheet.Result {
				return bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
					s.Register(falls)
					s.Register(hump)
					m.Measure(one("a"), a)
					m.Measure(one("b"), b)
					m.Measure(one("c"), exactly(2.5))
					m.Formula(one("y"), tc.formula, "invented")
				})
			}
			f := figure(t, build(between(tc.aLo, tc.aHi), between(tc.bLo, tc.bHi)), "y", sheet.Planned)
			twin := build(exactly(0), exactly(0))
			least, most := inf, -inf
			rng := rand.New(rand.NewPCG(1, 1))
			try := func(a, b float64) {
				twin.Try("a", a)
				twin.Try("b", b)
				if y := twin.Value("y", sheet.Planned); !math.IsNaN(y) {
					least, most = min(least, y), max(most, y)
				}
			}
			for range 3000 {
				try(tc.aLo+(tc.aHi-tc.aLo)*rng.Float64(), tc.bLo+(tc.bHi-tc.bLo)*rng.Float64())
			}
			for _, a := range []float64{tc.aLo, 0, tc.aHi} {
				for _, b := range []float64{tc.bLo, tc.bHi} {
					if tc.aLo <= a && a <= tc.aHi {
						try(a, b)
					}
				}
			}
			if least <= most {
				require.LessOrEqual(t, f.Lo, least)
				require.GreaterOrEqual(t, f.Hi, most)
			}
			switch {
			case tc.endless:
				require.Equal(t, []float64{-inf, inf}, []float64{f.Lo, f.Hi})
			case !tc.loose:
				// 3000 draws come within a hundredth of the ends that are not at a corner.
				require.InDelta(t, least, f.Lo, 0.01*(most-least))
				require.InDelta(t, most, f.Hi, 0.01*(most-least))
			case tc.low:
				require.True(t, math.IsInf(f.Lo, -1))
			}
		})
	}
}

func TestUnknownsThatClose(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("wall"), exactly(88))
		m.Measure(mm("tray"), between(88, inf))
		m.Measure(mm("anything"), sheet.Leaf{Origin: sheet.Unknown})
		m.Measure(mm("no_more"), between(7, 7))
		m.Formula(mm("reach"), "min(wall, tray)", "geometry")
		m.Formula(mm("double"), "2 * reach", "geometry")
		m.Formula(mm("rounded"), "mm(1) * ceil(reach / mm(3))", "geometry")
		m.Formula(mm("wave"), "mm(1) * sin(reach / mm(88))", "geometry")
		m.Formula(mm("nothing"), "0 * anything", "geometry")
		m.Formula(mm("branch"), "when(tray > mm(80), wall, anything)", "geometry")
	})
	for key, want := range map[string]float64{"reach": 88, "double": 176, "rounded": 30, "wave": math.Sin(1), "nothing": 0, "branch": 88, "no_more": 7} {
		f := figure(t, r, key, sheet.Planned)
		require.True(t, f.Known(), key)
		require.Equal(t, want, f.Value, key)
		require.Empty(t, r.Missing(key, sheet.Planned), key)
	}
	require.InDelta(t, 2, r.Derivative("double", "wall", sheet.Planned), 1e-12, "it depends on the wall, not on the tray")
	require.Zero(t, r.Derivative("double", "tray", sheet.Planned))
}

func TestTextOfBounds(t *testing.T) {
	for _, tc := range []struct {
		lo, hi, was float64
		text        string
		best        float64
	}{
		{36.5, 36.5, 26, "36.5 mm", 36.5},
		{88, 100, 88, "at most 100 mm", 100}, // it may stay as it is, and may become 100
		{80, 88, 88, "at least 80 mm", 80},
		{80, 100, 88, "between 80 and 100 mm", 100},
		{80, 90, 88, "between 80 and 90 mm", 80},
		{-inf, 100, 88, "at most 100 mm", 100},
		{4, inf, 88, "at least 4 mm", 4},
		{88, inf, 88, "at least 88 mm", 88},
		{-inf, inf, 88, "unknown", nan},
		{inf, inf, 88, "∞ mm", inf},
		{80, 100, nan, "between 80 and 100 mm", 80},
	} {
		t.Run(tc.text, func(t *testing.T) {
			r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) { m.Measure(mm("a"), between(tc.lo, tc.hi)) })
			f := figure(t, r, "a", sheet.Planned)
			require.Equal(t, tc.text, f.Text(tc.was))
			if math.IsNaN(tc.best) {
				require.True(t, math.IsNaN(f.Best(tc.was)))
			} else {
				require.Equal(t, tc.best, f.Best(tc.was))
			}
		})
	}
}

func TestMissing(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("wall"), exactly(88))
		m.Measure(mm("tray"), between(88, inf))
		m.Measure(mm("guard"), between(0, inf))
		m.Measure(mm("dial"), sheet.Leaf{Origin: sheet.Unknown})
		m.Formula(mm("limit"), "min(wall, tray)", "geometry")
		m.Formula(mm("reach"), "min(limit, guard) + guard", "geometry")
		m.Formula(mm("all"), "reach + dial", "geometry")
	})
	require.Equal(t, []string{"guard"}, labels(r.Missing("reach", sheet.Planned)), "once; and the tray does not matter")
	require.Equal(t, []string{"guard", "dial"}, labels(r.Missing("all", sheet.Planned)))
	require.Equal(t, []string{"tray"}, labels(r.Missing("tray", sheet.Planned)))
	require.Empty(t, r.Missing("wall", sheet.Planned))
	require.Empty(t, r.Missing("none", sheet.Planned))
}

func TestCannotMeetIsNotUnknown(t *testing.T) {
	stop := func(gap sheet.Leaf) sheet.Figure {
		r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("travel"), exactly(88))
			m.Measure(mm("gap"), gap)
			m.Formula(mm("stop_tray"), "travel + gap", "geometry")
			m.Measure(mm("wall"), exactly(88))
			m.Formula(mm("reach"), "min(wall, stop_tray)", "geometry")
			s.Reached(sheet.Now)
			m.Change("wall", "was + mm(12)", "decided")
		})
		require.True(t, figure(t, r, "reach", sheet.Now).Known(), "the travel as found stays exact")
		return figure(t, r, "reach", sheet.Planned)
	}
	require.Equal(t, "at most 100 mm", stop(between(0, inf)).Text(88))
	ruledOut := stop(sheet.Leaf{Value: inf, Origin: sheet.Chosen, Note: "cannot meet"})
	require.True(t, ruledOut.Known())
	require.Equal(t, "100 mm", ruledOut.Text(88))
}
