package bearing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/bearing"
)

// ISO 15 boundary dimensions of 10 mm bore: outside, width, and width where it
// is closed (series 37 is 17 made wider).
func TestTenMillimetreBore(t *testing.T) {
	want := map[string][3]float64{"17": {15, 3, 4}, "18": {19, 5, 5}, "19": {22, 6, 6}, "10": {26, 8, 8}}
	for _, b := range bearing.Small {
		if b.Bore != 10 {
			continue
		}
		size, ok := want[b.Series]
		require.True(t, ok, b.Series)
		require.Equal(t, size, [3]float64{b.OD, b.Width, max(b.Width, b.Shield)}, b.Series)
		delete(want, b.Series)
	}
	require.Empty(t, want)
}
