package machine_test

import (
	"testing"

	"fettle/plan/demo"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"

	"github.com/stretchr/testify/require"
)

// The tray is measured neither before nor after: 88 + g ends both the 100 that
// is got now and the 103 that is planned, with the same g. So the gain is 3, at
// most, and not from the 88 that is certain now to the 103 that may be got.
func TestSecondWishCountsFromNow(t *testing.T) {
	m := demo.Lathe()
	first := m.Upgrades[0]
	first.State, first.Inputs = upgrade.Finished, map[string]string{"end": "plus", "amount": "12", "pocket.front_wall": "28"}
	m.Upgrades = []upgrade.Upgrade{first, {ID: "2", Kind: "extend_travel", Axis: "cross", State: upgrade.Planned,
		Inputs: map[string]string{"end": "plus", "amount": "3", "pocket.front_wall": "28"}}}
	p, err := m.Build("")
	require.NoError(t, err)
	require.Contains(t, upgrade.Text(p.Site("2").Kind.Answer(p.Site("2"), p.Result)), "The cross slide goes 3 mm further outward, at most")
	var find func(ks []*sheet.KnockOn, key string) *sheet.KnockOn
	find = func(ks []*sheet.KnockOn, key string) *sheet.KnockOn {
		for _, k := range ks {
			if k.Key == key {
				return k
			}
			if c := find(k.Children, key); c != nil {
				return c
			}
		}
		return nil
	}
	tree := p.Result.KnockOns(p.Site("2").GoalKeys()...)
	require.InDelta(t, 3, find(tree, "cross.travel").Delta, 1e-9)
	require.InDelta(t, 6, find(tree, "cross.start_disc").Delta, 1e-9)
}
