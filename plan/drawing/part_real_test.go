package drawing_test

import (
	"io"
	"maps"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/drawing"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

// wishes are what kinds of upgrade are asked for, so that they have parts to make;
// the others are asked for what they are tried with.
var wishes = map[string][2]string{"extend_travel": {"amount", "12"}, "riser": {"amount", "30"}, "new_dial": {"dia", "40"}, "thrust_set": {"end_float", "0.01"}, "gib_strip": {"oil", "0.01"}}

// asked gives every kind of upgrade on every axis of the demo machines, with the parts that it asks for.
func asked(t testing.TB, do func(kind string, p *machine.Plan, set drawing.Set)) {
	t.Helper()
	for _, k := range upgrade.Kinds {
		kind := k.About().Key
		for _, d := range demo.Machines() {
			for i := range d.Axes {
				ma := d.Machine
				bare, err := ma.Build("")
				require.NoError(t, err)
				if i >= len(bare.Layouts) || !k.Suits(bare.Layouts[i]) {
					continue
				}
				inputs := maps.Clone(k.Trials(bare.Layouts[i])[0].Inputs)
				if wish, ok := wishes[kind]; ok {
					inputs = map[string]string{wish[0]: wish[1]}
				}
				id := ""
				for j, u := range ma.Upgrades {
					if u.Kind == kind && u.Axis == ma.Axes[i].Key {
						id = u.ID
						maps.Copy(ma.Upgrades[j].Inputs, inputs)
					}
				}
				if id == "" {
					id = "asked"
					ma.Upgrades = append(ma.Upgrades[:len(ma.Upgrades):len(ma.Upgrades)], upgrade.Upgrade{ID: id, Kind: kind, Axis: ma.Axes[i].Key, State: upgrade.Draft, Inputs: inputs})
				}
				p, err := ma.Build(id)
				require.NoError(t, err)
				s := p.Site(id)
				do(kind, p, drawing.Set{Layout: p.Layout(ma.Axes[i].Key), Result: p.Result, Parts: s.Make(p.Result).Parts})
			}
		}
	}
}

// Every drawing of the demo machines, whatever is asked of them: on the paper,
// to scale, each dimension at what it measures, no text on another.
func TestEveryKindIsDrawn(t *testing.T) {
	drawn := map[string]int{}
	asked(t, func(kind string, _ *machine.Plan, set drawing.Set) {
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
	for kind := range wishes {
		require.Greater(t, drawn[kind], 1, kind)
	}
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
