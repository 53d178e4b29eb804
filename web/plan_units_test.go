package web_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/upgrade"
)

// Behind a figure stands its own unit, a torque's and not a length's; behind a length
// that of the machine.
func TestPlanFieldsHaveTheirUnits(t *testing.T) {
	for units, length := range map[string]string{"mm": "mm", "in": "in"} {
		m := demo.Lathe().In(units)
		m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: "feed_trip", Axis: "cross", State: upgrade.Draft, Inputs: map[string]string{}}}
		page := keep(t, m).get(t, "/upgrades/1")
		require.Regexp(t, `name="pin"[^>]*>\s*<span>`+length+`</span>`, page)
		require.Regexp(t, `name="works"[^>]*>\s*<span>N·m</span>`, page)
	}
}
