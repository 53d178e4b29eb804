package reading_test

import (
	"testing"

	"fettle/plan/reading"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// bound lays something onto a sheet and binds it.
func bound(t *testing.T, lay func(*sheet.Scope)) *sheet.Result {
	t.Helper()
	s := sheet.New()
	lay(s.Root())
	r, err := s.Bind()
	require.NoError(t, err)
	return r
}

func scaled(rows [][]float64, k float64) [][]float64 {
	out := make([][]float64, len(rows))
	for i, row := range rows {
		for _, x := range row {
			out[i] = append(out[i], x*k)
		}
	}
	return out
}

var (
	sevenUp = [][]float64{{1.2, -0.4, 2.1, 0.3, 1.1, 0.2}, {-3.2, -2.5, -4.1, -3.3, -2.2, -3.9}, {0.4, 0.1, -0.9, 1.2, 0.8, -0.2},
		{5.5, 6.1, 4.4, 5.2, 5.9, 6.6}, {2.2, 1.1, 3.9, 2.5, 1.8, 2.0}, {-1, -2, -1.5, -0.5, -3, -1.2}, {7, 9, 8, 7.7, 8.1, 8.8}}
	sevenDown = [][]float64{{-4.1, -5.2, -3.9, -6.1, -4.4, -5}, {-9, -8.1, -10.2, -9.9, -8.8, -9.3}, {-5.2, -4.4, -6.6, -5.9, -5, -5.5},
		{-0.2, 0.9, -1.4, 0.3, -0.8, 0.1}, {-3, -2.2, -4.1, -3.5, -2.9, -3.3}, {-8.2, -7.1, -6.5, -9, -7.7, -8.1}, {1.2, 2.4, 0.8, 1.9, 2.2, 1.1}}
)

func TestPositioning(t *testing.T) {
	for _, tc := range []struct {
		source   string
		up, down [][]float64
		within   float64
		want     map[string]float64 // µm
	}{
		{
			"the formulas of ISO 230-2 by gonum's stat 0.17.0 (MeanStdDev), run once",
			sevenUp, sevenDown, 1e-7,
			map[string]float64{
				"accuracy": 20.306249, "accuracy_up": 14.260903, "accuracy_down": 13.650442,
				"repeatability": 9.7448264, "repeatability_up": 3.7416574, "repeatability_down": 3.520606,
				"systematic": 17.316667, "systematic_up": 11.3, "systematic_down": 10.816667,
				"mean_systematic": 11.058333, "reversal": 6.5, "reversal_mean": 5.8809524,
			},
		},
		{
			"the formulas of ISO 230-2 by numpy, run once; invented readings",
			[][]float64{{1, 0, 2, 1, 0}, {-1, 0, -1, -1, -1}, {-5, -6, -5, -5, -3}, {3, 3, 2, 2, 3}, {8, 7, 9, 7, 9}},
			[][]float64{{-8, -8, -9, -9, -8}, {-11, -10, -11, -9, -9}, {-16, -15, -12, -14, -14}, {-7, -6, -6, -6, -7}, {-3, 0, -2, -3, -2}}, 1e-4,
			map[string]float64{"reversal": 10.0, "reversal_mean": 9.36, "repeatability_up": 4.382, "repeatability_down": 5.933, "repeatability": 14.557,
				"systematic": 22.2, "mean_systematic": 12.5, "accuracy_up": 16.991, "accuracy_down": 17.616, "accuracy": 27.166},
		},
		{
			"the formulas of ISO 230-2 by numpy, run once; invented readings",
			[][]float64{{0, -2, 2, 2, 0}, {1, 0, 1, 0, 1}, {2, -2, -2, -2, 1}, {3, 4, 4, 6, 3}, {1, -1, 1, 2, 0}, {9, 9, 10, 8, 8}},
			[][]float64{{-7, -8, -9, -7, -8}, {-10, -8, -9, -8, -8}, {-10, -9, -9, -10, -10}, {-6, -6, -4, -5, -4}, {-6, -5, -7, -8, -9}, {-2, 3, 1, 3, 1}}, 1e-4,
			map[string]float64{"reversal": 9.2, "reversal_mean": 8.433, "repeatability_up": 7.797, "repeatability_down": 8.198, "repeatability": 13.994,
				"systematic": 18.4, "mean_systematic": 10.1, "accuracy_up": 14.972, "accuracy_down": 15.994, "accuracy": 21.169},
		},
	} {
		r := bound(t, reading.Positioning{Up: scaled(tc.up, 0.001), Down: scaled(tc.down, 0.001), Resolution: 0.001}.Lay)
		for key, want := range tc.want {
			f, ok := r.Figure(key, sheet.Planned)
			require.True(t, ok, key)
			require.InEpsilon(t, want, f.Value*1000, tc.within, "%s: %s", key, tc.source)
		}
	}
}

func value(t *testing.T, r *sheet.Result, key string) float64 {
	t.Helper()
	f, ok := r.Figure(key, sheet.Planned)
	require.True(t, ok, key)
	return f.Value
}

// Laws of the standard's figures: a shift of all readings changes none; upwards
// and downwards changed over change the sign of the mean reversal alone; A is at
// least E, and R at least the reversal.
func TestPositioningLaws(t *testing.T) {
	shift := func(rows [][]float64) [][]float64 {
		out := scaled(rows, 1)
		for _, row := range out {
			for i := range row {
				row[i] += 0.5
			}
		}
		return out
	}
	one := bound(t, reading.Positioning{Up: sevenUp, Down: sevenDown}.Lay)
	shifted := bound(t, reading.Positioning{Up: shift(sevenUp), Down: shift(sevenDown)}.Lay)
	swapped := bound(t, reading.Positioning{Up: sevenDown, Down: sevenUp}.Lay)
	for _, key := range []string{"accuracy", "repeatability", "systematic", "mean_systematic", "reversal"} {
		require.InDelta(t, value(t, one, key), value(t, shifted, key), 1e-12, key)
		require.InDelta(t, value(t, one, key), value(t, swapped, key), 1e-12, key)
	}
	require.InDelta(t, value(t, one, "reversal_mean"), -value(t, swapped, "reversal_mean"), 1e-12)
	require.InDelta(t, value(t, one, "accuracy_up"), value(t, swapped, "accuracy_down"), 1e-12)
	require.Greater(t, value(t, one, "accuracy"), value(t, one, "systematic"))
	require.Greater(t, value(t, one, "repeatability"), value(t, one, "reversal"))
	require.GreaterOrEqual(t, value(t, one, "systematic"), value(t, one, "mean_systematic"))

	alone := bound(t, reading.Positioning{Up: sevenUp}.Lay)
	require.InDelta(t, value(t, one, "accuracy_up"), value(t, alone, "accuracy_up"), 1e-12)
	_, ok := alone.Figure("accuracy", sheet.Planned)
	require.False(t, ok, "one direction has no figures of both")
}

// Readings that agree exactly scatter by nothing, and that is a figure too.
func TestPositioningWithoutScatter(t *testing.T) {
	r := bound(t, reading.Positioning{Up: [][]float64{{1, 1}, {2, 2}}, Down: [][]float64{{0, 0}, {1, 1}}, Resolution: 0.001}.Lay)
	require.Zero(t, value(t, r, "repeatability_up"))
	require.InDelta(t, 1, value(t, r, "repeatability"), 1e-12, "only the reversal is left")
	u := r.Uncertainty("accuracy", sheet.Planned)
	require.False(t, u.Std != u.Std, "an uncertainty is a number")
}

func TestPositioningProblems(t *testing.T) {
	for _, tc := range []struct {
		p     reading.Positioning
		field string
	}{
		{reading.Positioning{Up: [][]float64{{1}}}, "up: "},
		{reading.Positioning{Up: [][]float64{{1, 2}, {1}}}, "up: target 2"},
		{reading.Positioning{Up: [][]float64{{1, 2}}, Down: [][]float64{{1, 2}, {1, 2}}}, "down: "},
		{reading.Positioning{Up: [][]float64{{1, 2}}, Down: [][]float64{{1}}}, "down: target 1"},
	} {
		require.ErrorContains(t, tc.p.Problem(), tc.field)
	}
	require.NoError(t, reading.Positioning{Up: sevenUp, Down: sevenDown}.Problem())
}
