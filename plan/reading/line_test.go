package reading_test

import (
	"testing"

	"fettle/plan/reading"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

func TestStraightness(t *testing.T) {
	uneven := []float64{0, 30, 70, 120, 180, 200}
	for _, tc := range []struct {
		positions, heights  []float64 // mm, µm
		ends, squares, zone float64
		source              string
	}{
		// The zones by hand: the lower edge of the hull runs from end to end, and is
		// better than any of the upper ones; in the second the other way round.
		{reading.Even(6, 20), []float64{0, 4, 9, 9, 6, 2}, 8.2, 8.371, 8.2, "ISO 230-1; numpy polyfit, run once"},
		{reading.Even(5, 20), []float64{0, -3, -1, 2, 8}, 5, 5.2, 5, "ISO 230-1; numpy polyfit, run once"},
		{uneven, []float64{0, 3.5, -1.2, 6.1, 4.4, 9}, 0, 6.129447853, 5.99412, "gonum's stat.LinearRegression 0.17.0, and the narrowest strip by trying four million slopes, run once"},
		{reading.Even(4, 10), []float64{0, 1, 2, 3}, 1e-12, 1e-12, 1e-12, "a straight line is straight"},
	} {
		l := reading.Line{Positions: tc.positions, Resolution: 0.001}
		for _, h := range tc.heights {
			l.Heights = append(l.Heights, h/1000)
		}
		r := bound(t, l.LayStraightness)
		for key, want := range map[string]float64{"end_point": tc.ends, "least_squares": tc.squares, "minimum_zone": tc.zone} {
			if want != 0 {
				require.InDelta(t, want, value(t, r, key)*1000, 5e-4, "%s: %s", key, tc.source)
			}
		}
		require.LessOrEqual(t, value(t, r, "minimum_zone"), value(t, r, "least_squares")+1e-12)
		require.LessOrEqual(t, value(t, r, "minimum_zone"), value(t, r, "end_point")+1e-12)
	}
}

// Laying the straight-edge down askew changes no figure of straightness.
func TestStraightnessIgnoresASlope(t *testing.T) {
	heights := []float64{0, 0.004, -0.002, 0.007, 0.001}
	x := []float64{0, 25, 60, 80, 130}
	askew := make([]float64, len(heights))
	for i := range heights {
		askew[i] = heights[i] + 0.3 + 0.0004*x[i]
	}
	one := bound(t, reading.Line{Positions: x, Heights: heights}.LayStraightness)
	two := bound(t, reading.Line{Positions: x, Heights: askew}.LayStraightness)
	for _, key := range []string{"end_point", "least_squares", "minimum_zone"} {
		require.InDelta(t, value(t, one, key), value(t, two, key), 1e-12, key)
	}
	require.InDelta(t, 0.0004, value(t, two, "slope")-value(t, one, "slope"), 1e-12)
}

// The derivative of the narrowest strip agrees with a central difference.
func TestZoneDerivative(t *testing.T) {
	x := []float64{0, 25, 60, 80, 130}
	h := []float64{0, 0.4, -0.2, 0.7, 0.1}
	r := bound(t, reading.Line{Positions: x, Heights: h}.LayStraightness)
	for _, key := range []string{"height_1", "height_2", "height_3", "height_4", "height_5", "position_1", "position_3", "position_4", "position_5"} {
		f, ok := r.Figure(key, sheet.Planned)
		require.True(t, ok)
		const step = 1e-6
		r.Try(key, f.Value+step)
		more := value(t, r, "minimum_zone")
		r.Try(key, f.Value-step)
		less := value(t, r, "minimum_zone")
		r.Try(key, f.Value)
		require.InDelta(t, (more-less)/(2*step), r.Derivative("minimum_zone", key, sheet.Planned), 1e-6, key)
	}
}
