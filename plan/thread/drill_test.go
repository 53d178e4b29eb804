package thread_test

import (
	"math"
	"testing"

	"fettle/plan/thread"

	"github.com/stretchr/testify/require"
)

// Number and letter drills by ANSI B94.11M. The table itself was written from
// the definitions of GNU units 2.22 (drillgauge(1) to drillgauge(80), drillA to
// drillZ); these rows are from a trade chart.
func TestDrills(t *testing.T) {
	byName := map[string]float64{}
	last := 0.0
	for _, d := range thread.Drills() {
		require.GreaterOrEqual(t, d.Dia, last, "by diameter")
		last = d.Dia
		require.NotContains(t, byName, d.Name)
		byName[d.Name] = d.Dia
	}
	for name, inches := range map[string]float64{
		"No. 1": 0.2280, "No. 7": 0.2010, "No. 21": 0.1590, "No. 29": 0.1360, "No. 36": 0.1065, "No. 43": 0.0890, "No. 50": 0.0700, "No. 60": 0.0400, "No. 80": 0.0135,
		"letter A": 0.234, "letter E": 0.250, "letter F": 0.257, "letter U": 0.368, "letter Z": 0.413,
		"1/64 in": 0.015625, "27/64 in": 0.421875, "1-1/8 in": 1.125, "1 in": 1, "1/2 in": 0.5,
	} {
		require.InDelta(t, inches*inch, byName[name], 1e-9, name)
	}
	for _, name := range []string{"0.3 mm", "2.05 mm", "5.25 mm", "6.8 mm", "10.2 mm", "17.5 mm", "47 mm"} {
		require.Contains(t, byName, name)
	}
	require.NotContains(t, byName, "6.85 mm")
}

// The drill that many charts give for a thread is among the nearest to 77 % by
// their meaning, which is d − P on metric threads.
func TestNearestDrills(t *testing.T) {
	for _, tc := range []struct {
		dia  float64
		want string
	}{
		{0.2010 * inch, "No. 7"}, {0.2570 * inch, "letter F"}, {0.3125 * inch, "5/16 in"}, {0.1590 * inch, "No. 21"}, // UNC and UNF in tap charts
		{8.5, "8.5 mm"}, {10.2, "10.2 mm"},
	} {
		var names []string
		metric, last := 0, 0.0
		for _, d := range thread.NearestDrills(tc.dia, 4) {
			names = append(names, d.Name)
			require.GreaterOrEqual(t, d.Dia, last)
			last = d.Dia
			if !d.Inch {
				metric++
			}
		}
		require.Contains(t, names, tc.want)
		require.Equal(t, 4, metric)
		require.Len(t, names, 8)
	}
	require.Empty(t, thread.NearestDrills(500, 4), "no drill is that large")
}

func TestGears(t *testing.T) {
	// Elementary arithmetic: 25.4 is 127/5, so metric on an inch screw needs 127.
	require.Equal(t, []thread.Gear{{Driver: 60, Driven: 127}}, thread.Gears(1.5, inch/8, 127, 5))
	require.Equal(t, []thread.Gear{{Driver: 2, Driven: 5}}, thread.Gears(inch/20, inch/8, 127, 5), "20 to the inch from 8")
	near := thread.Gears(1.5, inch/8, 100, 5)
	require.Len(t, near, 5)
	for i, g := range near {
		require.InDelta(t, g.PPM, 1e6*(float64(g.Driver)/float64(g.Driven)*(inch/8)/1.5-1), 1e-6)
		require.NotZero(t, g.PPM)
		if i > 0 {
			require.GreaterOrEqual(t, math.Abs(g.PPM), math.Abs(near[i-1].PPM))
		}
	}
	require.Equal(t, 43, near[0].Driver, "43/91 is the best below 100: 43 × 127 = 5461, 91 × 60 = 5460")
	require.Equal(t, 91, near[0].Driven)
	require.Empty(t, thread.Gears(1000, 1, 127, 5), "no ratio that wheels up to 127 make")
}
