package joint_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/joint"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// sleeve works a method out on a shaft of 10, with a lap of 15, in a sleeve of 14.
func sleeve(t *testing.T, m sheet.Method, u unit.Unit, shear float64) float64 {
	t.Helper()
	s := sheet.New()
	sc := s.Root()
	mm := func(key string, v float64) {
		sc.Measure(sheet.Q{Key: key, Label: key, Unit: unit.MM}, sheet.Leaf{Value: v, Origin: sheet.Measured})
	}
	mm("dia", 10)
	mm("lap", 15)
	mm("outside", 14)
	mm("pin", 3)
	mm("bolt_dia", 6)
	sc.Method(sheet.Q{Key: "wall", Label: "wall", Unit: unit.MM}, joint.SleeveWall)
	sc.Measure(sheet.Q{Key: "shear", Label: "shear", Unit: unit.MPa}, sheet.Leaf{Value: shear, Origin: sheet.Assumed})
	sc.Measure(sheet.Q{Key: "hand_torque", Label: "torque", Unit: unit.NewtonMetre}, sheet.Leaf{Value: 3000, Origin: sheet.Assumed})
	sc.Measure(sheet.Q{Key: "factor", Label: "factor", Unit: unit.One}, sheet.Leaf{Value: joint.HandFactor, Origin: sheet.Assumed})
	sc.Method(sheet.Q{Key: "result", Label: "result", Unit: u}, m)
	r, err := s.Bind()
	require.NoError(t, err)
	f, ok := r.Figure("result", sheet.Planned)
	require.True(t, ok)
	require.NotEmpty(t, f.Source)
	return u.In(f.Value)
}

func TestSleeve(t *testing.T) {
	for _, tc := range []struct {
		name   string
		method sheet.Method
		unit   unit.Unit
		shear  float64
		want   float64
		within float64
		source string
	}{
		{"bonded", joint.BondedLap, unit.NewtonMetre, 15, 35, 0.5, "handbook: about 35 N·m for 10 × 15 at 15 MPa"},
		{"brazed", joint.BrazedLap, unit.NewtonMetre, joint.BrazedShear, 76.58, 0.005, "by hand: 32.5 × π × 100 × 15 / 2 = 76576 N·mm"},
		{"pinned", joint.PinnedSleeve, unit.NewtonMetre, 120, 8.5, 0.05, "handbook: 8.5 N·m for a pin of 3 in 10 at 120 MPa"},
		{"wall", joint.SleeveWall, unit.MM, 1, 2, 1e-9, "by hand: (14 − 10)/2"},
		{"least wall", joint.SleeveWallLeast, unit.MM, 1, 1.5, 1e-9, "common practice, no source"},
		{"least lap", joint.BrazedLeast, unit.MM, 1, 6, 1e-9, "by hand: 3 × 2"},
		{"wanted", joint.TorqueWanted, unit.NewtonMetre, 1, 9, 1e-9, "by hand: 3 × 3"},
		{"bolt in iron", joint.BoltInIron, unit.MM, 1, 9, 1e-9, "common practice, no source: 1.5 × 6"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			require.InDelta(t, tc.want, sleeve(t, tc.method, tc.unit, tc.shear), tc.within, tc.source)
		})
	}
}

// ISO 888: preferred lengths of bolts.
func TestStockBolt(t *testing.T) {
	stock := joint.StockBolt()
	for wanted, want := range map[float64]float64{0: 8, 16: 16, 16.1: 20, 27.5: 30, 32: 35, 70.2: 80, 300: 300} {
		require.Equal(t, want, stock.F([]float64{wanted}))
	}
	require.Equal(t, 35.0, stock.F([]float64{35 + 1e-12}), "a rounding error asks for no longer bolt")
}
