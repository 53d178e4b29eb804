package joint_test

import (
	"testing"

	"fettle/plan/joint"

	"github.com/stretchr/testify/require"
)

func TestStockPins(t *testing.T) {
	f := joint.StockPin().F
	for _, tc := range []struct{ least, want float64 }{
		{0.1, 0.6}, {0.6, 0.6}, {0.61, 0.8}, {2, 2}, {2.0000000001, 2}, {2.6, 3}, {4.2, 5}, {50, 50}, {51, 51},
	} {
		require.Equal(t, tc.want, f([]float64{tc.least}), "ISO 2339:1986, diameters as read")
	}
}

// More torque to tighten a larger screw, and more holding.
func TestGrubScrewsGrow(t *testing.T) {
	for i, g := range joint.GrubScrews[1:] {
		was := joint.GrubScrews[i]
		if g.Dia < was.Dia {
			continue // the inch sizes begin anew
		}
		require.GreaterOrEqual(t, g.Seating, was.Seating, g.Key)
		require.Greater(t, g.Holding, was.Holding, g.Key)
	}
	_, ok := joint.GrubNamed("M7")
	require.False(t, ok)
}
