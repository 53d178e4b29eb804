package slide_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// A slide from −72 to 78 on ways from 0 to 141.
func TestSupported(t *testing.T) {
	for _, tc := range []struct{ s, supported, overhang, screws float64 }{
		{0, 78, 72, 1},    // the ways begin at 0: of gib screws at −60 and 66, one
		{72, 141, 9, 2},   // from 0 on, 9 over the front
		{88, 125, 25, 1},  // from 16 to 141; 66 + 88 = 154 is off
		{100, 113, 37, 1}, // from 28 to 141
		{230, 0, 150, 0},  // off altogether
		{-100, 0, 150, 0}, //
	} {
		s := sheet.New()
		sc := s.Root()
		for key, v := range map[string]float64{"from": -72, "to": 78, "length": 150, "ways_from": 0, "ways_to": 141, "s": tc.s, "rear": -60, "front": 66} {
			sc.Measure(sheet.Q{Key: key, Label: key, Unit: unit.MM}, sheet.Leaf{Value: v, Origin: sheet.Measured})
		}
		sc.Method(sheet.Q{Key: "supported", Label: "supported", Unit: unit.MM}, slide.Supported)
		sc.Method(sheet.Q{Key: "overhang", Label: "overhang", Unit: unit.MM}, slide.Overhang)
		sc.Method(sheet.Q{Key: "rear_bears", Label: "rear", Unit: unit.Count}, slide.GibScrewBears, sheet.With{"at": "rear"})
		sc.Method(sheet.Q{Key: "front_bears", Label: "front", Unit: unit.Count}, slide.GibScrewBears, sheet.With{"at": "front"})
		r, err := s.Bind()
		require.NoError(t, err)
		require.InDelta(t, tc.supported, r.Value("supported", sheet.Found), 1e-9)
		require.InDelta(t, tc.overhang, r.Value("overhang", sheet.Found), 1e-9)
		require.InDelta(t, tc.screws, r.Value("rear_bears", sheet.Found)+r.Value("front_bears", sheet.Found), 1e-9, "at %g", tc.s)
	}
}

// By statics: driven 60 off its line with a friction of 0.15 a slide jams on a
// guide of 2 × 0.15 × 60 = 18, and runs freely on twice that.
func TestJam(t *testing.T) {
	s := sheet.New()
	sc := s.Root()
	sc.Measure(sheet.Q{Key: "friction", Label: "friction", Unit: unit.One}, sheet.Leaf{Value: slide.Friction, Origin: sheet.Assumed})
	sc.Measure(sheet.Q{Key: "offset", Label: "offset", Unit: unit.MM}, sheet.Leaf{Value: 60, Origin: sheet.Measured})
	sc.Method(sheet.Q{Key: "jam_length", Label: "jams at", Unit: unit.MM}, slide.JamGuide)
	sc.Method(sheet.Q{Key: "near", Label: "tight within", Unit: unit.MM}, slide.JamNear)
	r, err := s.Bind()
	require.NoError(t, err)
	require.InDelta(t, 18, r.Value("jam_length", sheet.Found), 1e-9)
	require.InDelta(t, 36, r.Value("jam_length", sheet.Found)+r.Value("near", sheet.Found), 1e-9)
}
