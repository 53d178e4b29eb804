package joint_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/joint"
)

// Handbook tables of DIN 6885-1 (from memory, unchecked): a shaft of 10 has a key of
// 3 × 3, one of 12 of 4 × 4, one of 20 of 6 × 6; the two keyways together are deeper
// than the key is high, by 0.2 to 0.3.
func TestKeys(t *testing.T) {
	for shaft, wide := range map[float64]float64{8: 2, 10: 3, 12: 4, 14: 5, 20: 6, 25: 8} {
		k, ok := joint.KeyFor(shaft)
		require.True(t, ok)
		require.Equal(t, wide, k.Wide, "%g", shaft)
	}
	for _, k := range joint.ParallelKeys {
		require.InDelta(t, 0.25, k.InShaft+k.InHub-k.High, 0.051, "%g", k.High)
	}
	_, ok := joint.KeyFor(40)
	require.False(t, ok)
}
