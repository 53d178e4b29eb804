package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// In the other units and back, every figure stays exactly what it is; what was typed with a unit stays as
// it was typed.
func TestInOtherUnits(t *testing.T) {
	for _, d := range demo.Machines() {
		for i := range d.Upgrades {
			if d.Upgrades[i].State == upgrade.Draft {
				d.Upgrades[i].Inputs["amount"] = "12"
			}
			if d.Upgrades[i].Kind == "extend_travel" {
				d.Upgrades[i].Inputs["sleeve"], d.Upgrades[i].Inputs["lap"] = "14", "14 mm"
			}
		}
		inch := d.Machine.In("in")
		require.Equal(t, "in", inch.Units)
		back := inch.In("mm")
		require.Equal(t, inch.Axes, back.Axes, "nothing is bare any more")
		for _, u := range d.Upgrades {
			p, err := d.Build(u.ID)
			require.NoError(t, err)
			other, err := inch.Build(u.ID)
			require.NoError(t, err)
			require.Equal(t, p.Problems, other.Problems)
			for _, f := range p.Result.Figures(sheet.Planned) {
				g, ok := other.Result.Figure(f.Key, sheet.Planned)
				require.True(t, ok, f.Key)
				require.Equal(t, [2]float64{f.Lo, f.Hi}, [2]float64{g.Lo, g.Hi}, "%s %s", d.Key, f.Key)
			}
		}
	}
	m := demo.Lathe()
	require.Equal(t, m, m.In("mm"), "the same units change nothing")
	a := m.In("in").Axes[0]
	require.Equal(t, "88 mm", a.Entries["travel_found"].Typed)
	require.Equal(t, "3", a.Entries["hand_torque"].Typed, "a torque is no length")
	require.Equal(t, "88", m.Axes[0].Entries["travel_found"].Typed, "the machine itself is left as it is")
}
