package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/machine"
	"fettle/plan/preset"
	"fettle/plan/upgrade"
)

// Every choice of every guided kind on every axis that there is a preset of:
// formulas bind, units agree, sources are there, parts can be made.
func TestEveryOptionOfGuidedKinds(t *testing.T) {
	for _, key := range preset.Axes() {
		a, ok := preset.Axis(key, preset.Medium)
		require.True(t, ok)
		m := machine.Machine{Name: "m", Kind: "lathe", Units: "mm"}
		m.Axes = append(m.Axes, a)
		p, err := m.Build("")
		require.NoError(t, err)
		for _, k := range upgrade.Kinds {
			if about := k.About(); about.Guided && k.Suits(p.Layouts[0]) {
				m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: about.Key, Axis: a.Key, State: upgrade.Draft, Inputs: map[string]string{"wanted": "yes"}}}
				options(t, m, 0)
			}
		}
	}
}
