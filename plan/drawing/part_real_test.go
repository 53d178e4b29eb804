package drawing_test

import (
	"io"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/drawing"
	"fettle/plan/machine"
	parts "fettle/plan/part"
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
			for i := range set.Parts {
				if q := &set.Parts[i]; q.Key == d.Paper.Part && q.Round != nil && !q.Altered && !strings.HasSuffix(d.Paper.Label, ", strip") {
					require.True(t, shouldersPlaced(d, q), "%s: %s: a shoulder has no dimension", kind, d.Title)
				}
			}
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

// shouldersPlaced tells whether the dimensions across a sheet lead from the left
// face of a turned part to every shoulder, one to the next.
func shouldersPlaced(d *drawing.Drawing, p *parts.Part) bool {
	const near = 0.01 // mm of paper
	var shoulders []float64
	at := 0.0
	for _, s := range p.Round.Outside {
		at += s.Length.Nominal * d.Paper.Scale
		shoulders = append(shoulders, at)
	}
	for _, from := range d.Paper.Dimensions {
		known := []float64{min(from.A.X, from.B.X)} // the left face, if it is one
		is := func(x float64) bool {
			return slices.ContainsFunc(known, func(k float64) bool { return math.Abs(k-x) < near })
		}
		for range d.Paper.Dimensions {
			for _, m := range d.Paper.Dimensions {
				if a, b := m.A.X, m.B.X; !m.Upright && is(a) != is(b) {
					known = append(known, a, b)
				}
			}
		}
		left := known[0]
		if !slices.ContainsFunc(shoulders, func(x float64) bool { return !is(left + x) }) {
			return true
		}
	}
	return false
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
