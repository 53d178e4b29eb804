package machine_test

import (
	"fmt"
	"maps"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

// says is what is told of each offer.
func says(all []machine.Offer) (lines []string) {
	for _, o := range all {
		lines = append(lines, fmt.Sprint(o.About.Key, o.Axis.Key, o.Trial.Says, o.Told, o.Goal.Key, o.Was, o.Is, o.Knocks, o.Inputs, stops(o), lacks(o)))
	}
	return lines
}

// What stands as it stood is taken over, and all comes to what it comes to anew: with another figure measured on one
// axis, with a draft, with an upgrade taken up, and with the first axis gone, whose kinds of the whole machine are
// then kept with the next.
func TestOffersAreRenewed(t *testing.T) {
	was := demo.LatheProject()
	kept, err := machine.Offering{}.Renew(&was)
	require.NoError(t, err)
	first := was.Axes[0].Key
	require.Equal(t, "cross", first)
	for _, tc := range []struct {
		name   string
		change func(m *machine.Machine)
		over   func(axis string) bool // whether what was offered there is taken over; nil where that is not the point
	}{
		{"measured", func(m *machine.Machine) {
			m.Axes[0].Entries = maps.Clone(m.Axes[0].Entries)
			m.Axes[0].Entries["travel_found"] = plan.Entry{Typed: "87"}
		}, func(axis string) bool { return axis != first }},
		{"draft", func(m *machine.Machine) {
			m.Upgrades = append(m.Upgrades, upgrade.Upgrade{ID: "98", Kind: "new_dial", Axis: first, State: upgrade.Draft})
		}, func(string) bool { return true }},
		{"planned", func(m *machine.Machine) {
			m.Upgrades = append(m.Upgrades, upgrade.Upgrade{ID: "98", Kind: "oil_ways", Axis: first, State: upgrade.Planned})
		}, func(axis string) bool { return axis != first }},
		{"gone", func(m *machine.Machine) { m.Axes = m.Axes[1:] }, nil},
	} {
		t.Run(tc.name, func(t *testing.T) {
			now := demo.LatheProject()
			tc.change(&now)
			renewed, err := kept.Renew(&now)
			require.NoError(t, err)
			anew, err := now.Offers()
			require.NoError(t, err)
			require.Equal(t, says(anew), says(renewed.Offers))
			for _, o := range renewed.Offers {
				if tc.over == nil {
					break
				}
				over := false
				for _, k := range kept.Offers {
					over = over || k.Axis == o.Axis
				}
				require.Equal(t, tc.over(o.Axis.Key), over, "%s on %s", o.About.Key, o.Axis.Key)
			}
		})
	}
}

// BenchmarkRenew is the whole project's list after one figure of its cross slide was measured anew.
func BenchmarkRenew(b *testing.B) {
	m := demo.LatheProject()
	kept, err := machine.Offering{}.Renew(&m)
	require.NoError(b, err)
	now := demo.LatheProject()
	now.Axes[0].Entries["travel_found"] = plan.Entry{Typed: "87"}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := kept.Renew(&now); err != nil {
			b.Fatal(err)
		}
	}
}
