package upgrade_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/fastener"
	"fettle/plan/machine"
	"fettle/plan/preset"
	"fettle/plan/upgrade"
)

// Which axes of the machines that can be started from a guided kind is for: no
// chuck's plate on a shaper, no shaper's ratchet on a lathe.
func TestGuidedSuit(t *testing.T) {
	suits := map[string][]string{}
	for _, key := range preset.Axes() {
		a, _ := preset.Axis(key, preset.Medium)
		p := built(t, machine.Machine{Name: "m", Units: "mm", Axes: []axis.Axis{a}})
		for _, k := range upgrade.Kinds {
			if about := k.About(); about.Guided && !about.Whole && k.Suits(p.Layouts[0]) {
				suits[about.Key] = append(suits[about.Key], key)
			}
		}
	}
	for kind, want := range map[string][]string{
		"back_plates": {"cross_slide"}, "levelling": {"cross_slide"}, "larger_toolpost": {"cross_slide", "top_slide"},
		"shaper_feed": {"shaper_ram"}, "small_grinder": {"grinder_table"},
		"hold_downs": {"carriage"}, "carriage_dial": {"carriage"},
		"cam_lock": {"tailstock", "tailstock_lever"}, "tailstock_height": {"tailstock", "tailstock_lever"},
		"quill_key":  {"tailstock", "tailstock_lever", "mill_quill", "drill_quill", "drill_lever"},
		"column_key": {"column", "column_head", "drill_table"}, "long_column": {"column", "column_head"}, "column_brace": {"column", "column_head"},
		"knee_clearance": {"knee", "shaper_table", "grinder_head"}, "table_repair": {"mill_x", "mill_y"}, "auxiliary_table": {"mill_x", "mill_y"},
		"feed_trip": {"carriage", "cross_slide", "mill_x", "mill_y"},
	} {
		require.ElementsMatch(t, want, suits[kind], kind)
	}
}

// Wanted and laid out with nothing typed, a guided kind tells what to do: readings
// before and after, cautions where hands go in, no size out of nothing, and no
// verdict.
func TestGuidedWithNothingTyped(t *testing.T) {
	for _, m := range append([]machine.Machine{demo.Lathe(), demo.Mill()}, presets()...) {
		for i := range m.Axes {
			one := m
			one.Axes, one.Upgrades = m.Axes[i:i+1], nil
			before := built(t, one)
			for _, k := range upgrade.Kinds {
				about := k.About()
				if !about.Guided || !k.Suits(before.Layouts[0]) {
					continue
				}
				p := built(t, and(one, about.Key, "wanted", "yes"))
				require.NotEmpty(t, about.Measure, about.Key)
				require.NotEmpty(t, about.Words, about.Key)
				require.Contains(t, answer(p, "1"), about.Purpose)
				mk := p.Site("1").Make(p.Result)
				keys := []string{}
				asks, cautions := 0, 0
				for _, o := range mk.Steps {
					keys = append(keys, o.Key)
					asks += len(o.Asks)
					cautions += len(o.Cautions)
				}
				require.True(t, slices.Contains(keys, "readings_before") && slices.Contains(keys, "readings_after"), about.Key)
				require.Positive(t, cautions, about.Key)
				for _, b := range mk.Buy {
					require.NotErrorIs(t, fastener.Check(b.Designation), fastener.ErrDesignation, b.Designation)
				}
				require.Equal(t, failing(before), failing(p), "%s on %s", about.Key, one.Axes[0].Label)
				require.Empty(t, built(t, and(one, about.Key)).Site("1").Make(p.Result).Steps, "not decided: nothing to make")
			}
		}
	}
}

func presets() []machine.Machine {
	var all []machine.Machine
	for _, k := range preset.Kinds {
		m, _ := preset.Machine(k.Key, preset.Medium)
		all = append(all, m)
	}
	return all
}
