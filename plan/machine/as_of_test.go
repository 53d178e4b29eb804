package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// Twelve outward were made, then one more; a third is planned. Each is told by itself: 88 became 100, and 100
// became 101; the bracket of 26 grew by 10.5, of which 1.5 were to spare, and then by 1.
func TestBuildAsOf(t *testing.T) {
	m := lathe()
	m.Axes[0].Obstacles[0].Clear = true
	first := m.Upgrades[0]
	first.Inputs["amount"], first.State = "12", upgrade.Finished
	more := func(id, amount string, state upgrade.State) upgrade.Upgrade {
		inputs := map[string]string{"end": "plus", "amount": amount, "do.front_wall_nut": "cut_front_wall", "do.dial_slide": "longer_bracket"}
		return upgrade.Upgrade{ID: id, Kind: first.Kind, Axis: first.Axis, State: state, Inputs: inputs}
	}
	m.Upgrades = []upgrade.Upgrade{first, more("2", "1", upgrade.Finished), more("3", "2", upgrade.Planned)}
	for _, tc := range []struct {
		id              string
		travel, bracket [2]float64
		sites           int
	}{
		{"1", [2]float64{88, 100}, [2]float64{26, 36.5}, 1},
		{"2", [2]float64{100, 101}, [2]float64{36.5, 37.5}, 2},
		{"3", [2]float64{101, 103}, [2]float64{37.5, 39.5}, 3}, // as any plan
	} {
		p, err := m.BuildAsOf(tc.id)
		require.NoError(t, err)
		require.Len(t, p.Sites, tc.sites)
		for key, want := range map[string][2]float64{"cross.travel": tc.travel, "cross.bracket.length": tc.bracket} {
			require.InDelta(t, want[0], p.Result.Value(key, sheet.Now), exact, "%s before %s", key, tc.id)
			require.InDelta(t, want[1], p.Result.Value(key, sheet.Planned), exact, "%s after %s", key, tc.id)
		}
	}
	require.Equal(t, []upgrade.State{upgrade.Finished, upgrade.Finished, upgrade.Planned}, states(m), "the machine is as it was")
}

func states(m machine.Machine) (all []upgrade.State) {
	for _, u := range m.Upgrades {
		all = append(all, u.State)
	}
	return all
}
