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

// Published tables of Morse shanks give both ends and the length between them in
// inches: No. 2 is 0.700 and 0.572 over 2.5625, so 2.5625 / 0.128 = 20.02.
func TestTaperRatios(t *testing.T) {
	for i, ends := range [][3]float64{{0.3561, 0.252, 2}, {0.475, 0.369, 2.125}, {0.7, 0.572, 2.5625}, {0.938, 0.778, 3.1875}, {1.231, 1.02, 4.0625}, {1.748, 1.475, 5.1875}} {
		require.InEpsilon(t, ends[2]/(ends[0]-ends[1]), joint.Tapers[i].Ratio, 5e-4, joint.Tapers[i].Size)
	}
}
