package drive_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/drive"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// value works a method out on a sheet of its own; figures are in inside units.
func value(t *testing.T, m sheet.Method, u unit.Unit, figures map[string]float64, units map[string]unit.Unit) float64 {
	t.Helper()
	s := sheet.New()
	for key, v := range figures {
		of, ok := units[key]
		if !ok {
			of = unit.MM
		}
		s.Root().Measure(sheet.Q{Key: key, Label: key, Unit: of}, sheet.Leaf{Value: of.Inside(v), Origin: sheet.Measured})
	}
	s.Root().Method(sheet.Q{Key: "out", Label: "out", Unit: u}, m)
	r, err := s.Bind()
	require.NoError(t, err)
	return u.In(r.Value("out", sheet.Found))
}

// Pulleys of 200 and 100, 400 apart: 800 + π 150 + 10 000/1600 = 800 + 471.239 + 6.25
// = 1277.489. Exactly, with sin a = 100/800: 800 cos a + π 150 + 100 a = 793.725 +
// 471.239 + 12.533 = 1277.497. The belt lies on the small one over 180° − 2 × 7.181°
// = 165.64°.
func TestBelt(t *testing.T) {
	pulleys := map[string]float64{"driver": 100, "driven": 200, "centres": 400}
	long := value(t, drive.BeltLength, unit.MM, pulleys, nil)
	require.InDelta(t, 1277.489, long, 0.001)
	require.InDelta(t, 1277.497, long, 0.01, "the exact length, worked out beside it")
	require.InDelta(t, 165.638, value(t, drive.BeltWrap, unit.Degree, pulleys, nil), 0.001)
	require.InDelta(t, 400, value(t, drive.BeltCentres, unit.MM, map[string]float64{"driver": 100, "driven": 200, "belt": long}, nil), 1e-9, "the inverse")

	// 1400 rpm over 60 and 150: 1400 × 60/150 = 560 rpm.
	turns := map[string]unit.Unit{"speed": unit.RPM}
	require.InDelta(t, 560, value(t, drive.Driven, unit.RPM, map[string]float64{"speed": 1400, "driver": 60, "driven": 150}, turns), 1e-9)
}

// A plate of 200 mm at 25 m/s: 25 / (π × 0.2) = 39.789 turns a second, 2387.3 rpm.
func TestRim(t *testing.T) {
	metres := unit.Unit{Symbol: "m/s", Dim: unit.LengthD.Per(unit.TimeD), Scale: 1000}
	turns := value(t, drive.RimTurns, unit.RPM, map[string]float64{"rim": 25, "dia": 200}, map[string]unit.Unit{"rim": metres})
	require.InDelta(t, 2387.3, turns, 0.1)
	require.InDelta(t, 25, value(t, drive.Rim, metres, map[string]float64{"turns": turns, "dia": 200}, map[string]unit.Unit{"turns": unit.RPM}), 1e-9)
}

// A ratchet of 30 teeth on a lead of 4 feeds 0.1333 a tooth, 0.4 for three. Pitches
// of 1.0 and 0.75 move 0.25 a turn.
func TestScrews(t *testing.T) {
	counts := map[string]unit.Unit{"teeth": unit.Count, "taken": unit.Count}
	require.InDelta(t, 0.13333, value(t, drive.RatchetFeed, unit.MM, map[string]float64{"lead": 4, "teeth": 30, "taken": 1}, counts), 1e-5)
	require.InDelta(t, 0.4, value(t, drive.RatchetFeed, unit.MM, map[string]float64{"lead": 4, "teeth": 30, "taken": 3}, counts), 1e-9)
	for _, pitches := range [][2]float64{{1, 0.75}, {0.75, 1}} {
		require.InDelta(t, 0.25, value(t, drive.Differential, unit.MM, map[string]float64{"coarse": pitches[0], "fine": pitches[1]}, nil), 1e-12)
	}
}

// A throw of 2 lifts 2 (1 − cos 90°) = 2 over a quarter turn, 0.268 over 30°. On a
// radius of 10 with a friction of 0.15, 80 N at a lever of 150 draw with
// 12 000 / (2 sin 30° + 1.5) = 4800 N, and it holds by itself up to a throw of 1.5.
func TestEccentric(t *testing.T) {
	units := map[string]unit.Unit{"swing": unit.Degree, "short": unit.Degree, "friction": unit.One, "hand": unit.Newton}
	require.InDelta(t, 2, value(t, drive.EccentricLift, unit.MM, map[string]float64{"throw": 2, "swing": 90}, units), 1e-9)
	require.InDelta(t, 0.26795, value(t, drive.EccentricLift, unit.MM, map[string]float64{"throw": 2, "swing": 30}, units), 1e-5)
	require.InDelta(t, 4800, value(t, drive.EccentricPull, unit.Newton,
		map[string]float64{"hand": 80, "lever": 150, "throw": 2, "short": 30, "friction": 0.15, "radius": 10}, units), 1e-6)
	require.InDelta(t, 1.5, value(t, drive.EccentricHolds, unit.MM, map[string]float64{"friction": 0.15, "radius": 10}, units), 1e-12)
}
