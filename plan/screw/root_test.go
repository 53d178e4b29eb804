package screw_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// given is a leaf of a small sheet: its value in its own unit.
type given struct {
	key   string
	value float64
	unit  unit.Unit
}

func lengths(pairs map[string]float64) []given {
	var all []given
	for key, v := range pairs {
		all = append(all, given{key, v, unit.MM})
	}
	return all
}

// value works a method out by itself, in the unit.
func value(t *testing.T, m sheet.Method, u unit.Unit, leaves ...given) float64 {
	t.Helper()
	s := sheet.New()
	sc := s.Root()
	for _, l := range leaves {
		sc.Measure(sheet.Q{Key: l.key, Label: l.key, Unit: l.unit}, sheet.Leaf{Value: l.unit.Inside(l.value), Origin: sheet.Measured})
	}
	sc.Method(sheet.Q{Key: "result", Label: "result", Unit: u}, m)
	r, err := s.Bind()
	require.NoError(t, err)
	f, ok := r.Figure("result", sheet.Planned)
	require.True(t, ok)
	require.NotEmpty(t, f.Source)
	return u.In(f.Value)
}

// Published tables of ISO 724 and ISO 965 give D1 and d3 to three decimals.
func TestMetricRootAndBore(t *testing.T) {
	for _, tc := range []struct{ dia, pitch, bore, root float64 }{
		{6, 1, 4.917, 4.773}, {8, 1.25, 6.647, 6.466}, {10, 1, 8.917, 8.773}, {10, 1.5, 8.376, 8.160},
		{12, 1.5, 10.376, 10.160}, {12, 1.75, 10.106, 9.853}, {16, 2, 13.835, 13.546}, {20, 2.5, 17.294, 16.933},
	} {
		leaves := lengths(map[string]float64{"dia": tc.dia, "pitch": tc.pitch})
		require.InDelta(t, tc.bore, value(t, screw.NutBore, unit.MM, leaves...), 0.0005)
		require.InDelta(t, tc.root, value(t, screw.Root, unit.MM, leaves...), 0.0005)
	}
}

// ISO 2904: basic dimensions of trapezoidal threads, d3 and D1.
func TestTrapezoidalRootAndBore(t *testing.T) {
	for _, tc := range []struct{ dia, pitch, root, bore float64 }{
		{8, 1.5, 6.2, 6.5}, {10, 2, 7.5, 8}, {12, 3, 8.5, 9}, {16, 4, 11.5, 12}, {20, 4, 15.5, 16}, {28, 5, 22.5, 23}, {40, 7, 32, 33}, {80, 16, 62, 64},
	} {
		leaves := lengths(map[string]float64{"dia": tc.dia, "pitch": tc.pitch})
		crest := value(t, screw.CrestClearance, unit.MM, leaves...)
		require.InDelta(t, tc.root, value(t, screw.RootTrapezoidal, unit.MM, append(leaves, given{"crest_clearance", crest, unit.MM})...), 1e-9)
		require.InDelta(t, tc.bore, value(t, screw.NutBoreTrapezoidal, unit.MM, leaves...), 1e-9)
	}
}

// By hand: a nut 0.1 off the line of a screw of root 9, I = π 9⁴/64 = 322 mm⁴,
// presses with 3 × 206000 × 322 × 0.1 / 40³ = 311 N at 40, and an eighth at 80.
func TestSideForce(t *testing.T) {
	second := value(t, screw.SecondMoment, unit.MM4, given{"root", 9, unit.MM})
	require.InDelta(t, 322, second, 0.1)
	for distance, want := range map[float64]float64{40: 311, 80: 39} {
		got := value(t, screw.SideForce, unit.Newton, given{"modulus", screw.SteelModulus, unit.MPa}, given{"second_moment", second, unit.MM4},
			given{"misalignment", 0.1, unit.MM}, given{"distance", distance, unit.MM})
		require.InDelta(t, want, got, 0.5)
	}
}

// Handbook figures for a free end of round steel, 10 in diameter: 0.012 over
// 200, 0.06 over 300, 0.19 over 400.
func TestSag(t *testing.T) {
	second := value(t, screw.SecondMoment, unit.MM4, given{"root", 10, unit.MM})
	for free, want := range map[float64]float64{200: 0.012, 300: 0.06, 400: 0.19} {
		got := value(t, screw.Sag, unit.MM, given{"density", 7850, unit.Density}, given{"modulus", screw.SteelModulus, unit.MPa},
			given{"second_moment", second, unit.MM4}, given{"root", 10, unit.MM}, given{"free", free, unit.MM})
		require.InDelta(t, want, got, 0.005*want/0.06, "the figures have one or two places")
	}
	require.InDelta(t, screw.SteelDensity, unit.Density.Inside(7850), 1e-15)
}

// The larger of 1.5 diameters and 5 pitches, never more than the nut; two thirds
// of it preferred. Common practice, no source.
func TestEngagement(t *testing.T) {
	for _, tc := range []struct{ dia, pitch, nut, nutLeast, least, preferred float64 }{
		{12, 1.5, 24, 18, 18, 0},
		{12, 3, 36, 18, 18, 6},   // two thirds are 24
		{10, 4, 30, 20, 20, 0},   // 5 pitches
		{12, 1.5, 15, 18, 15, 0}, // a short nut is all wanted
	} {
		leaves := lengths(map[string]float64{"dia": tc.dia, "pitch": tc.pitch, "nut_length": tc.nut})
		nutLeast := value(t, screw.NutLeast, unit.MM, leaves...)
		require.InDelta(t, tc.nutLeast, nutLeast, 1e-9)
		least := value(t, screw.EngagementLeast, unit.MM, append(leaves, given{"nut_least", nutLeast, unit.MM})...)
		require.InDelta(t, tc.least, least, 1e-9)
		require.InDelta(t, tc.preferred, value(t, screw.EngagementPreferred, unit.MM, append(leaves, given{"least", least, unit.MM})...), 1e-9)
	}
}
