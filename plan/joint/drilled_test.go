package joint_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/joint"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// M6: ISO 898-1 gives 20.1 mm². A hole of 2 takes 3.14 and leaves 16.96, 84.4 %: of 10 N·m 8.44
// stay. Its root of 4.773 (ISO 724) has (4.773 − 2) / 2 = 1.39 beside the hole.
func TestDrilledScrew(t *testing.T) {
	s := sheet.New()
	sc := s.Root()
	leaf := func(key string, u unit.Unit, v float64) {
		sc.Measure(sheet.Q{Key: key, Label: key, Unit: u}, sheet.Leaf{Value: u.Inside(v), Origin: sheet.Measured})
	}
	leaf("stress_area", unit.MM2, 20.1)
	leaf("hole", unit.MM, 2)
	leaf("root", unit.MM, 4.773)
	leaf("full_torque", unit.NewtonMetre, 10)
	sc.Method(sheet.Q{Key: "drilled_area", Label: "area", Unit: unit.MM2}, joint.DrilledArea)
	sc.Method(sheet.Q{Key: "torque", Label: "torque", Unit: unit.NewtonMetre}, joint.DrilledTorque)
	sc.Method(sheet.Q{Key: "wall", Label: "wall", Unit: unit.MM}, joint.DrilledWall)
	r, err := s.Bind()
	require.NoError(t, err)
	require.InDelta(t, 16.96, r.Value("drilled_area", sheet.Found), 0.005)
	require.InDelta(t, 8.44, unit.NewtonMetre.In(r.Value("torque", sheet.Found)), 0.005)
	require.InDelta(t, 1.387, r.Value("wall", sheet.Found), 0.001)
}
