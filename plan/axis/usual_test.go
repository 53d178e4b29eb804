package axis_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/machine"
)

// What a new sheet begins with can be worked out before anything is measured, has both parts of a pair
// that must engage, and names roles that there are.
func TestUsualParts(t *testing.T) {
	for _, a := range axis.Arrangements {
		t.Run(a.Key, func(t *testing.T) {
			parts := a.UsualParts()
			roles := map[string]bool{}
			for _, p := range parts {
				_, known := axis.RoleNamed(p.Role)
				require.True(t, known, p.Role)
				require.Equal(t, a.SideOf(p.Role), p.Side, p.Key)
				roles[p.Role] = true
			}
			for _, g := range a.Engages {
				require.False(t, roles[g.Outer] && g.Kind == axis.OnThread && !roles[g.Inner], g.Label)
				require.False(t, roles["slide"] && g.Inner == "slide" && !roles[g.Outer], g.Label)
				require.False(t, roles["table"] && g.Outer == "table" && !roles[g.Inner], g.Label)
			}
			m := machine.Machine{Name: "new", Units: "mm", Axes: []axis.Axis{{Key: "x", Label: "X", Arrangement: a.Key,
				Plus: "out", Minus: "in", Parts: parts, Obstacles: a.UsualObstacles()}}}
			p, err := m.Build("")
			require.NoError(t, err)
			require.Empty(t, p.Problems)
		})
	}
}
