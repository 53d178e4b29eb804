package joint_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/joint"
)

// Published tables of ISO 296: with a tang 62, 75, 94 and 117.5 long, tapped 53.5,
// 64, 81 and 102.5. The large ends by their inches: 0.475, 0.700, 0.938, 1.231.
func TestTapers(t *testing.T) {
	shorter := map[string]float64{"1": 8.5, "2": 11, "3": 13, "4": 15}
	inches := map[string]float64{"1": 0.475, "2": 0.7, "3": 0.938, "4": 1.231}
	seen := 0
	for i, x := range joint.Tapers {
		if i > 0 {
			require.Greater(t, x.Tang, joint.Tapers[i-1].Tang)
		}
		if want, ok := shorter[x.Size]; ok {
			seen++
			require.InDelta(t, want, x.Shorter(), 1e-9)
			require.InDelta(t, inches[x.Size]*25.4, x.Large, 0.002)
		}
	}
	require.Equal(t, 4, seen)
}
