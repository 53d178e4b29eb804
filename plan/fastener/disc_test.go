package fastener_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/fastener"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Loads at three quarters of the cone: series A as a published list of DIN 2093 has
// them, series B from memory, unchecked. The list rounds the path to 0.01 mm.
func TestDiscLoads(t *testing.T) {
	loads := map[string]float64{
		"DIN 2093 A 16": 1000, "DIN 2093 A 18": 1250, "DIN 2093 A 20": 1530, "DIN 2093 A 22.5": 1950, "DIN 2093 A 25": 2910, "DIN 2093 A 28": 2850, "DIN 2093 A 31.5": 3900,
		"DIN 2093 B 16": 412, "DIN 2093 B 18": 572, "DIN 2093 B 20": 745, "DIN 2093 B 22.5": 710, "DIN 2093 B 25": 868, "DIN 2093 B 28": 1110, "DIN 2093 B 31.5": 1920,
	}
	for _, d := range fastener.Discs {
		want, ok := loads[d.Designation()]
		if !ok {
			continue
		}
		s := sheet.New()
		sc := s.Root()
		leaf := func(key string, u unit.Unit, v float64) {
			sc.Measure(sheet.Q{Key: key, Label: key, Unit: u}, sheet.Leaf{Value: v, Origin: sheet.Chosen})
		}
		leaf("outside", unit.MM, d.Outside)
		leaf("inside", unit.MM, d.Inside)
		leaf("thick", unit.MM, d.Thickness)
		leaf("cone", unit.MM, d.Cone)
		leaf("press", unit.MM, 0.75*d.Cone)
		leaf("modulus", unit.MPa, 206000)
		leaf("poisson", unit.One, 0.3)
		sc.Method(sheet.Q{Key: "shape", Label: "shape", Unit: unit.One}, fastener.DiscShape)
		sc.Method(sheet.Q{Key: "load", Label: "load", Unit: unit.Newton}, fastener.DiscLoad)
		s.Reached(sheet.Found)
		s.Reached(sheet.Now)
		r, err := s.Bind()
		require.NoError(t, err)
		f, _ := r.Figure("load", sheet.Planned)
		require.InEpsilon(t, want, f.Value, 0.02, d.Designation())
		delete(loads, d.Designation())
	}
	require.Empty(t, loads)
}

// The largest thread of ISO 2982-2 that a shaft has metal for.
func TestRingNutFor(t *testing.T) {
	n, ok := fastener.RingNutFor(14)
	require.True(t, ok)
	require.Equal(t, []float64{12, 1}, []float64{n.Dia, n.Pitch})
	_, ok = fastener.RingNutFor(9.5)
	require.False(t, ok)
}
