package drawing_test

import (
	"io"
	"maps"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/drawing"
	"fettle/plan/machine"
	"fettle/plan/preset"
	"fettle/plan/upgrade"
)

// asked calls do for every kind on every axis that it suits, of the demo
// machines and of some that are typical, as the kind's trials have it.
func asked(t testing.TB, do func(kind string, p *machine.Plan, set drawing.Set)) {
	t.Helper()
	machines := []machine.Machine{demo.Lathe(), demo.Mill()}
	for _, kind := range []string{"lathe", "knee_mill", "drill", "shaper"} {
		m, ok := preset.Machine(kind, preset.Medium)
		require.True(t, ok)
		machines = append(machines, m)
	}
	for _, m := range machines {
		m.Upgrades = nil
		p, err := m.Build("")
		require.NoError(t, err)
		for _, l := range p.Layouts {
			for _, k := range upgrade.Kinds {
				if k.Suits(l) {
					tried(t, m, l, k, do)
				}
			}
		}
	}
}

// tried makes one upgrade in each of the ways that its kind is tried in, with
// everything chosen that the demo lathe's drafts have chosen.
func tried(t testing.TB, m machine.Machine, l *axis.Layout, k upgrade.Kind, do func(kind string, p *machine.Plan, set drawing.Set)) {
	t.Helper()
	for _, trial := range k.Trials(l) {
		inputs := map[string]string{"wanted": "yes"}
		for _, u := range demo.Lathe().Upgrades {
			if u.Kind == k.About().Key && l.Key == u.Axis {
				maps.Copy(inputs, u.Inputs)
			}
		}
		maps.Copy(inputs, trial.Inputs)
		m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: k.About().Key, Axis: l.Key, State: upgrade.Planned, Inputs: inputs}}
		p, err := m.Build("")
		require.NoError(t, err)
		if wish := p.Site("1").Wish(); wish != "" && inputs[wish] == "" {
			inputs[wish] = map[string]string{"new_dial": "48"}[k.About().Key]
			if inputs[wish] == "" {
				inputs[wish] = "12"
			}
			p, err = m.Build("")
			require.NoError(t, err)
		}
		do(k.About().Key, p, drawing.Set{Layout: p.Layout(l.Key), Result: p.Result, Parts: p.Site("1").Make(p.Result).Parts})
	}
}

// Every drawing of those machines, whatever is asked of them: on the paper,
// to scale, each dimension at what it measures, no text on another.
func TestEveryKindIsDrawn(t *testing.T) {
	drawn, parts := map[string]int{}, map[string]int{}
	asked(t, func(kind string, _ *machine.Plan, set drawing.Set) {
		parts[kind] += len(set.Parts)
		for _, d := range drawing.Sheets(set, sheetOptions()) {
			wellFormed(t, d)
			within(t, d)
			var all []drawing.Text
			for _, x := range everyText(d) {
				require.NotContains(t, x.Text, "cannot be made so", kind)
				if x.Class != "part-label" { // these stand within parts, and over them
					all = append(all, x)
				}
			}
			apart(t, all)
			attached(t, d)
			dxf(t, d)
			drawn[kind]++
		}
		for i := range set.Parts {
			require.NotEmpty(t, drawing.Rows(&set.Parts[i], sheetOptions()), kind)
		}
	})
	for kind, n := range parts {
		require.True(t, n == 0 || drawn[kind] > 0, kind)
	}
	require.Greater(t, len(drawn), 20)
}

// All drawings of more travel on the demo lathe: the side view, the parts in
// order, and six parts.
func BenchmarkDemoLathe(b *testing.B) {
	var set drawing.Set
	asked(b, func(kind string, p *machine.Plan, s drawing.Set) {
		if kind == "extend_travel" && p.Machine.Kind == "lathe" {
			set = s
		}
	})
	require.Len(b, set.Parts, 6)
	b.ReportAllocs()
	for b.Loop() {
		for _, d := range drawing.Sheets(set, sheetOptions()) {
			if err := d.SVG(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	}
}
