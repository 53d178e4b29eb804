package pdf_test

import (
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/drawing"
	"fettle/plan/upgrade"
	"fettle/web/pdf"
)

// sets are all that the demo lathe asks the workshop for, when each kind of
// upgrade is planned wherever it suits: a set for each upgrade.
func sets(tb testing.TB) (all []drawing.Set) {
	tb.Helper()
	m := demo.Lathe()
	bare, err := m.Build("")
	require.NoError(tb, err)
	m.Upgrades = nil
	wishes := map[string][2]string{"extend_travel": {"amount", "12"}, "riser": {"amount", "30"}, "new_dial": {"dia", "40"}, "thrust_set": {"end_float", "0.01"}, "gib_strip": {"oil", "0.01"}}
	for _, l := range bare.Layouts {
		for _, k := range upgrade.Kinds {
			if kind := k.About().Key; k.Suits(l) {
				m.Upgrades = append(m.Upgrades, upgrade.Upgrade{ID: kind + "_" + l.Key, Kind: kind, Axis: l.Key, State: upgrade.Planned,
					Inputs: map[string]string{wishes[kind][0]: wishes[kind][1]}})
			}
		}
	}
	p, err := m.Build("")
	require.NoError(tb, err)
	for _, s := range p.Sites {
		all = append(all, drawing.Set{Layout: s.Layout, Result: p.Result, Parts: s.Make(p.Result).Parts})
	}
	return all
}

// All drawings of the demo lathe, as files.
func BenchmarkDrawings(b *testing.B) {
	all := sets(b)
	draw := func(b *testing.B, write func([]*drawing.Drawing) error) {
		b.ReportAllocs()
		n := 0
		for b.Loop() {
			n = 0
			for _, set := range all {
				sheets := drawing.Sheets(set, options())
				n += len(sheets)
				if err := write(sheets); err != nil {
					b.Fatal(err)
				}
			}
		}
		b.ReportMetric(float64(n), "sheets/op")
	}
	b.Run("svg", func(b *testing.B) {
		draw(b, func(sheets []*drawing.Drawing) error {
			for _, d := range sheets {
				if err := d.SVG(io.Discard); err != nil {
					return err
				}
			}
			return nil
		})
	})
	b.Run("pdf", func(b *testing.B) {
		draw(b, func(sheets []*drawing.Drawing) error { return pdf.Write(io.Discard, "Bench lathe", sheets) })
	})
}
