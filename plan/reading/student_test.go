package reading_test

import (
	"math"
	"testing"

	"fettle/plan/reading"

	"github.com/stretchr/testify/require"
)

func TestStudent(t *testing.T) {
	// Quantiles and tails by gonum's stat/distuv 0.17.0, run once; ν 1, 2, 4, 16,
	// 30 and 120 agree with table G.2 of JCGM 100:2008 as far as it is known.
	for _, tc := range []struct{ degrees, k95, k99, beyond float64 }{
		{1, 12.70620474, 63.65674116, 0.2422378832},
		{1.5, 6.016663104, 17.82031051, 0.1698065026},
		{2, 4.30265273, 9.924843201, 0.1296117202},
		{4, 2.776445105, 4.604094871, 0.06676654481},
		{6.71, 2.385499988, 3.551614257, 0.04241385411},
		{16, 2.119905299, 2.920781622, 0.02367422545},
		{16.7, 2.112706421, 2.904680938, 0.02315588325},
		{30, 2.042272456, 2.749995654, 0.01811564907},
		{120, 1.979930405, 2.617421145, 0.01376953493},
		{1000, 1.962339081, 2.580754698, 0.0125785678},
		{1e8, 1.959963985, 2.575829304, 0.01241933065}, // the normal distribution
	} {
		require.InEpsilon(t, tc.k95, reading.Coverage(0.95, tc.degrees), 1e-8)
		require.InEpsilon(t, tc.k99, reading.Coverage(0.99, tc.degrees), 1e-8)
		require.InEpsilon(t, tc.beyond, reading.Chance(2.5, tc.degrees), 1e-8)
		require.InEpsilon(t, tc.beyond, reading.Chance(-2.5, tc.degrees), 1e-8)
	}
}

// One and two degrees of freedom have closed forms: t = tan(π p/2), and
// t = p √(2/(1 − p²)).
func TestStudentClosedForms(t *testing.T) {
	for _, p := range []float64{0.5, 0.68, 0.9, 0.95, 0.99, 0.999} {
		require.InEpsilon(t, math.Tan(math.Pi*p/2), reading.Coverage(p, 1), 1e-9)
		require.InEpsilon(t, p*math.Sqrt(2/(1-p*p)), reading.Coverage(p, 2), 1e-9)
	}
	require.InDelta(t, 1, reading.Chance(0, 5), 1e-12)
}

func TestCoverageFallsWithDegrees(t *testing.T) {
	was := math.Inf(1)
	for n := 1.0; n < 1e8; n *= 1.5 {
		k := reading.Coverage(0.95, n)
		require.LessOrEqual(t, k, was+1e-9, n)
		was = k
	}
}
