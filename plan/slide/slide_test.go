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

// worked is a method by itself, of lengths, forces and plain numbers.
func worked(t *testing.T, m sheet.Method, u unit.Unit, names map[string]float64, units map[string]unit.Unit) float64 {
	t.Helper()
	s := sheet.New()
	sc := s.Root()
	for key, v := range names {
		in, ok := units[key]
		if !ok {
			in = unit.MM
		}
		sc.Measure(sheet.Q{Key: key, Label: key, Unit: in}, sheet.Leaf{Value: in.Inside(v), Origin: sheet.Measured})
	}
	sc.Method(sheet.Q{Key: "result", Label: "result", Unit: u}, m)
	r, err := s.Bind()
	require.NoError(t, err)
	return u.In(r.Value("result", sheet.Planned))
}

// By hand, a slide 150 long with three points: 150 / 3 = 50 apart; grooves of 35 are
// 105 / 150 = 0.7 of it, with (50 − 35) / 2 = 7.5 to its ends; 2 × 3 × 35 × 2.5 × 1.2 =
// 630 mm³. A hose for 88 of travel, bent on 25: 44 + 78.54 + 50 = 172.54.
func TestOilWays(t *testing.T) {
	one, mm3 := map[string]unit.Unit{"points": unit.One, "rows": unit.One}, unit.Unit{Symbol: "mm³", Dim: unit.MM2.Dim.Times(unit.LengthD), Scale: 1}
	names := map[string]float64{"length": 150, "points": 3, "groove": 35, "groove_width": 2.5, "groove_depth": 1.2, "rows": 2}
	require.InDelta(t, 50, worked(t, slide.OilApart, unit.MM, names, one), 1e-9)
	require.InDelta(t, 0.7, worked(t, slide.GrooveShare, unit.One, names, one), 1e-9)
	require.InDelta(t, 7.5, worked(t, slide.GrooveEnd, unit.MM, names, one), 1e-9)
	require.InDelta(t, 630, worked(t, slide.GrooveVolume, mm3, names, one), 1e-9)
	require.InDelta(t, 172.54, worked(t, slide.HoseLength, unit.MM, map[string]float64{"travel": 88, "bend": 25, "spare": 50}, nil), 0.005)
}

// By hand: 1667 N at a friction of 0.15 holds 2 × 0.15 × 1667 = 500 N, and presses
// 1667 / 50.27 = 33.2 MPa on a pad of 8. A play of 0.08 at 60°: 0.08 × 1.732 / 2 = 0.069.
func TestLock(t *testing.T) {
	units := map[string]unit.Unit{"friction": unit.One, "lock_force": unit.Newton, "angle": unit.Degree}
	require.InDelta(t, 500, worked(t, slide.LockHold, unit.Newton, map[string]float64{"friction": 0.15, "lock_force": 1666.667}, units), 0.01)
	require.InDelta(t, 33.16, worked(t, slide.PadPressure, unit.MPa, map[string]float64{"lock_force": 1666.667, "pad": 8}, units), 0.01)
	require.InDelta(t, 0.0693, worked(t, slide.LockLift, unit.MM, map[string]float64{"play": 0.08, "angle": 60}, units), 1e-4)
}

// By hand: 40 kg weigh 392.3 N. Two struts of 150 N push 300 out, and with 0.3 more
// over 250 of a stroke of 260 push 300 × 1.2885 = 386.5; 20° aslant 0.9397 of that.
func TestBalance(t *testing.T) {
	units := map[string]unit.Unit{"mass": unit.Kilogram, "struts": unit.One, "strut_force": unit.Newton, "rise": unit.One, "angle": unit.Degree}
	require.InDelta(t, 392.27, worked(t, slide.Weight, unit.Newton, map[string]float64{"mass": 40}, units), 0.01)
	names := map[string]float64{"struts": 2, "strut_force": 150, "rise": 0.3, "angle": 0, "travel": 250, "stroke": 260}
	require.InDelta(t, 300, worked(t, slide.StrutOut, unit.Newton, names, units), 1e-9)
	require.InDelta(t, 386.54, worked(t, slide.StrutIn, unit.Newton, names, units), 0.01)
	names["angle"] = 20
	require.InDelta(t, 281.91, worked(t, slide.StrutOut, unit.Newton, names, units), 0.01)
}
