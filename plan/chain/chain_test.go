package chain_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/plan"
	"fettle/plan/chain"
	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

func laid(t *testing.T, text string, shape chain.Shape, limits ...float64) *sheet.Result {
	t.Helper()
	links, err := chain.Parse(text, unit.MM, shape)
	require.NoError(t, err)
	s := sheet.New()
	sc := s.Root()
	if len(limits) == 2 {
		for i, key := range []string{"limit_least", "limit_most"} {
			sc.Measure(sheet.Q{Key: key, Label: key, Unit: unit.MM}, sheet.Leaf{Value: limits[i], Origin: sheet.Chosen})
		}
	}
	chain.Lay(sc, links)
	chain.LayTrials(sc, links)
	r, err := s.Bind()
	require.NoError(t, err)
	return r
}

func value(t *testing.T, r *sheet.Result, key string) float64 {
	t.Helper()
	f, ok := r.Figure(key, sheet.Planned)
	require.True(t, ok, key)
	return f.Value
}

func TestPublishedChain(t *testing.T) {
	// A public worked example, read, in inches: a housing less three parts. It prints
	// 0.015 and 0.00794 (the sum of the squares of .005, .005, .003 and .002).
	r := laid(t, "4.02in ±0.005in; -2in ±0.005in; -1.5in ±0.003in; -0.5in ±0.002in", chain.Uniform)
	require.InDelta(t, 0.02, value(t, r, "nominal")/25.4, 1e-9)
	require.InDelta(t, 0.015, value(t, r, "worst")/25.4, 1e-9)
	require.InEpsilon(t, 0.00794, value(t, r, "rss")/25.4, 0.001)
}

// Trials against what numpy found in two million draws, run once: a standard
// deviation of 0.03606 (exactly √(Σ t²/3)), and 99.73 % within ± 0.09.
func TestTrialsOfUniformLinks(t *testing.T) {
	const text = "52 ±0.03; -14 ±0.02; -30 ±0.05; -8 ±0.01"
	r := laid(t, text, chain.Uniform)
	require.InDelta(t, 0.03606, value(t, r, "std"), 5e-6)
	require.InEpsilon(t, 0.03606, value(t, r, "trial_std"), 0.01)
	out := func(half float64) float64 { return value(t, laid(t, text, chain.Uniform, -half, half), "trial_out") }
	require.Greater(t, out(0.09*0.98), 0.0027)
	require.Less(t, out(0.09*1.02), 0.0027)
	require.Zero(t, out(0.1101), "beyond the worst case there is nothing")
	require.InDelta(t, 1, out(0), 1e-3)
}

// Each shape has the mean and the deviation that its density gives by hand, and the
// trials find the same.
func TestShapes(t *testing.T) {
	for _, tc := range []struct {
		shape     chain.Shape
		mean, std float64 // of ± 0.03
	}{
		{chain.Normal, 0, 0.03 / 3},
		{chain.Uniform, 0, 0.03 / math.Sqrt(3)},
		{chain.Triangular, 0, 0.03 / math.Sqrt(6)},
		{chain.Large, 0.01, 0.03 * 2 / math.Sqrt(18)}, // a triangle on its side: a third off the middle, base/√18
		{chain.Small, -0.01, 0.03 * 2 / math.Sqrt(18)},
	} {
		// The second link hardly varies, and is there since a chain has two.
		r := laid(t, "52 ±0.03; -50 ±0.000001", tc.shape)
		require.InDelta(t, tc.std, value(t, r, "std"), 1e-8, tc.shape)
		require.InEpsilon(t, tc.std, value(t, r, "trial_std"), 0.01, "%s: 40 000 trials give it to 0.4 %%", tc.shape)
		require.InDelta(t, 2+tc.mean, value(t, r, "mean"), 1e-6, tc.shape)
		require.InDelta(t, 2+tc.mean, value(t, r, "trial_mean"), 4*tc.std/math.Sqrt(chain.Trials), tc.shape)
	}
}

// The middle 95 % of one uniform link is 95 % of its tolerance.
func TestTrialsMiddle(t *testing.T) {
	r := laid(t, "52 ±0.03; -50 ±0.000001", chain.Uniform)
	require.InDelta(t, 2-0.95*0.03, value(t, r, "trial_low"), 0.0003)
	require.InDelta(t, 2+0.95*0.03, value(t, r, "trial_high"), 0.0003)
}

func TestChainLaws(t *testing.T) {
	r := laid(t, "52 ±0.03; -14 ±0.02 normal; -30 +0.05 -0.01 small; -8 ±0.01 x0.5", chain.Uniform)
	require.Less(t, value(t, r, "rss"), value(t, r, "worst"))
	require.Greater(t, value(t, r, "trial_low"), value(t, r, "least"))
	require.Less(t, value(t, r, "trial_high"), value(t, r, "most"))
	require.InDelta(t, 52-14-30.02-4, value(t, r, "nominal"), 1e-12)
	require.InDelta(t, 0.03+0.02+0.03+0.005, value(t, r, "worst"), 1e-12)
	var shares float64
	for i := range 4 {
		shares += value(t, r, fmt.Sprintf("link_%d.share", i+1))
	}
	require.InDelta(t, 1, shares, 1e-12)
	// The sheet's own uncertainty of the closing size is the same chain.
	u := r.Uncertainty("closing", sheet.Planned)
	require.InEpsilon(t, value(t, r, "std"), u.Std, 0.06, "by 2 000 trials")
	// Twice the tolerance, twice everything.
	one, two := laid(t, "52 ±0.03; -14 ±0.02", chain.Triangular), laid(t, "52 ±0.06; -14 ±0.04", chain.Triangular)
	for _, key := range []string{"worst", "rss", "std", "trial_std"} {
		require.InEpsilon(t, 2*value(t, one, key), value(t, two, key), 1e-9, key)
	}
}

// The trials follow a leaf that is changed, as every figure does.
func TestTrialsFollow(t *testing.T) {
	r := laid(t, "52 ±0.03; -14 ±0.02", chain.Uniform)
	was := value(t, r, "trial_std")
	require.True(t, r.Try("link_1.upper", 0.3))
	require.Greater(t, value(t, r, "trial_std"), was)
	require.True(t, r.Try("link_1.upper", 0.03))
	require.Equal(t, was, value(t, r, "trial_std"), "the same draws each time")
}

func TestSuit(t *testing.T) {
	links, err := chain.Parse("housing: 52 ±0.03; bush: -14 ±0.02; spacer: -30 ±0.05", unit.MM, chain.Uniform)
	require.NoError(t, err)
	require.Equal(t, 2, chain.Suited(links))
	s := sheet.New()
	sc := s.Root()
	sc.Measure(sheet.Q{Key: "made_within", Label: "made within", Unit: unit.MM}, sheet.Leaf{Value: 0.004, Origin: sheet.Chosen})
	chain.Lay(sc, links)
	chain.LaySuit(sc, 2)
	r, err := s.Bind()
	require.NoError(t, err)
	require.InDelta(t, 29.95, value(t, r, "suit_least"), 1e-12, "by hand: the others vary ± 0.05")
	require.InDelta(t, 30.05, value(t, r, "suit_most"), 1e-12)
	require.InDelta(t, 0.004, value(t, r, "suit_closing"), 1e-12)
}

func TestParse(t *testing.T) {
	links, err := chain.Parse("housing: 52 ±0.03; -14 +0.02 -0.01 large\n 30 0.05 x-0.5; 8, +-0.01,; 5 -0.01 -0.03", unit.MM, chain.Normal)
	require.NoError(t, err)
	require.Equal(t, []chain.Link{
		{Name: "housing", Size: 52, Upper: 0.03, Lower: -0.03, Factor: 1, Shape: chain.Normal},
		{Size: 14, Upper: 0.02, Lower: -0.01, Factor: -1, Shape: chain.Large},
		{Size: 30, Upper: 0.05, Lower: -0.05, Factor: -0.5, Shape: chain.Normal},
		{Size: 8, Upper: 0.01, Lower: -0.01, Factor: 1, Shape: chain.Normal},
		{Size: 5, Upper: -0.01, Lower: -0.03, Factor: 1, Shape: chain.Normal},
	}, links)
	for _, text := range []string{"", "52 ±0.03", "52 ±0.03; x", "52 ±0.03; 14", "52 ±0.03; 14 -0.02", "52 ±0.03; ±0.02 14", "52 ±-0.03; 14 0.02",
		"52 ±0.03 x0; 14 0.02", "1 2 3 4; 1 2", "52 0; 14 0", strings.Repeat("1 0.1;", chain.MostLinks+1), "52 ±0.03 0.02; 14 0.1"} {
		_, err := chain.Parse(text, unit.MM, chain.Uniform)
		var p plan.Problem
		require.ErrorAs(t, err, &p, "%q", text)
		require.Contains(t, p.Say, "give", text)
	}
}

// The longest chain binds: its formulas are the longest there are.
func TestLongestChain(t *testing.T) {
	r := laid(t, strings.Repeat("10.1234 ±0.0123 large;", chain.MostLinks), chain.Uniform, 200, 205)
	require.InDelta(t, chain.MostLinks*10.1234, value(t, r, "nominal"), 1e-9)
	require.Zero(t, value(t, r, "trial_out"))
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"", "a: 52 ±0.03; -14 +0.02 -0.01 large", "1 1 x2;2 2 normal", "±;x;:"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		links, err := chain.Parse(s, unit.MM, chain.Uniform)
		if err != nil {
			var p plan.Problem
			require.ErrorAs(t, err, &p)
			return
		}
		for _, l := range links {
			require.GreaterOrEqual(t, l.Half(), 0.0)
			require.GreaterOrEqual(t, l.Size, 0.0)
			require.NotZero(t, l.Factor)
		}
	})
}
