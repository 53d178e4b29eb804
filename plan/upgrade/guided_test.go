package upgrade_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/fastener"
	"fettle/plan/machine"
	"fettle/plan/preset"
	"fettle/plan/sheet"
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
			if about := k.About(); about.Guided && k.Suits(p.Layouts[0]) {
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
		"column_key": {"column", "column_head", "drill_table"}, "long_column": {"column", "column_head"}, "column_brace": {"mill_z", "column", "column_head"},
		"knee_clearance": {"knee", "shaper_table", "grinder_head"}, "table_repair": {"mill_x", "mill_y"}, "auxiliary_table": {"mill_x", "mill_y"},
		"feed_trip": {"carriage", "cross_slide", "mill_x", "mill_y"},
	} {
		require.ElementsMatch(t, want, suits[kind], kind)
	}
}

// A carriage is one by what it runs on and how it lies, whether half nuts were entered or
// not; what goes up and down beside its rack is a head or a table on a round column.
func TestGuidedSuitARackThatStays(t *testing.T) {
	a, _ := preset.Axis("carriage", preset.Medium)
	a.Arrangement = "rack_fixed"
	lifted, _ := preset.Axis("drill_table", preset.Medium)
	lifted.Plus, lifted.Minus = "Upwards", "to the base"
	for _, c := range []struct {
		axis      axis.Axis
		suits, no []string
	}{
		{a, []string{"hold_downs", "carriage_dial", "feed_trip"}, []string{"column_key", "counterbalance"}},
		{lifted, []string{"column_key", "counterbalance"}, []string{"hold_downs", "carriage_dial", "feed_trip"}},
	} {
		l := built(t, machine.Machine{Name: "m", Units: "mm", Axes: []axis.Axis{c.axis}}).Layouts[0]
		for _, key := range append(c.suits, c.no...) {
			k, ok := upgrade.KindNamed(key)
			require.True(t, ok, key)
			require.Equal(t, slices.Contains(c.suits, key), k.Suits(l), "%s on %s", key, c.axis.Label)
		}
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

// on is one preset axis of the middle class with one planned upgrade on it.
func on(key, kind string, inputs ...string) machine.Machine {
	a, _ := preset.Axis(key, preset.Medium)
	return and(machine.Machine{Name: "m", Units: "mm", Axes: []axis.Axis{a}}, kind, inputs...)
}

// comes checks figures of the first upgrade's own, shown in their units, within a
// thousandth; a name with a dot in it is the axis's.
func comes(t *testing.T, p *machine.Plan, want map[string]float64) {
	t.Helper()
	for key, v := range want {
		whole := p.Site("1").Scope.Key(key)
		if _, ok := p.Result.Figure(whole, sheet.Planned); !ok {
			whole = p.Layouts[0].Find(key)
		}
		f, ok := p.Result.Figure(whole, sheet.Planned)
		require.True(t, ok, key)
		require.InDelta(t, v, f.Unit.In(f.Value), max(1e-9, 1e-3*math.Abs(v)), key)
	}
}

// broken are the first upgrade's own checks that fail.
func broken(p *machine.Plan) []string {
	own := []string{}
	for _, key := range failing(p) {
		if name, ok := strings.CutPrefix(key, p.Site("1").Scope.Key("")); ok {
			own = append(own, name)
		}
	}
	return own
}

// asked are all questions and cautions of an upgrade's steps, in one text.
func asked(p *machine.Plan) string {
	text := strings.Join(p.Site("1").Kind.About().Cautions, " ")
	for _, o := range p.Site("1").Make(p.Result).Steps {
		text += " " + o.Do + " " + strings.Join(o.Asks, " ") + " " + strings.Join(o.Cautions, " ")
	}
	return text
}

// Nothing typed yet: what is to be given is named in the form's order, and nothing is
// told of nothing.
func TestGuidedAsksFirst(t *testing.T) {
	require.Equal(t, "The slide runs straight and as lightly at one end as at the other. What is scraped off the flat lets the slide down. "+
		"Give the most metal to come off the flats and the shim at the nut or metal taken off it, and what follows from it is shown here.", answer(built(t, with("scraping")), "1"))
	require.Contains(t, answer(built(t, with("stops")), "1"), "A line is 0.02 mm. Give the diameter of the thimble and the travel that the stop takes at that end, and the rest is shown here.")
}
