package drawing_test

import (
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/drawing"
	"fettle/plan/machine"
	"fettle/plan/unit"
)

// apart fails where two texts stand on one another.
func apart(t testing.TB, all []drawing.Text) {
	t.Helper()
	for i, a := range all {
		ax0, ax1, ay0, ay1 := a.Box()
		for _, b := range all[:i] {
			bx0, bx1, by0, by1 := b.Box()
			if ax0 < bx1 && bx0 < ax1 && ay0 < by1 && by0 < ay1 {
				require.Failf(t, "texts overlap", "%q and %q", a.Text, b.Text)
			}
		}
	}
}

// shaken is a machine with its figures and names at random: near what they were, or far off.
func shaken(r *rand.Rand, ma machine.Machine) machine.Machine {
	for i := range ma.Axes[0].Parts {
		p := &ma.Axes[0].Parts[i]
		p.Label = strings.TrimSpace(strings.Repeat(p.Label+" ", 1+r.IntN(3)))
		for key, e := range p.Entries {
			v, err := unit.Parse(e.Typed, unit.MM)
			if err != nil {
				continue
			}
			switch r.IntN(4) {
			case 0:
				v *= 0.7 + 0.6*r.Float64()
			case 1:
				v += 20*r.Float64() - 10
			case 2:
				if r.IntN(8) == 0 {
					v *= 20 * r.Float64()
				}
			}
			p.Entries[key] = plan.Entry{Typed: fmt.Sprintf("%.2f", v)}
		}
	}
	ma.Upgrades[0].Inputs["amount"] = fmt.Sprintf("%.1f", 30*r.Float64())
	return ma
}

// Over many machines no dimension, mark, letter or name outside a part stands on another.
func TestTextsKeepApart(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := range 400 {
		for name, ma := range machines() {
			p := build(t, shaken(r, ma), "1")
			opt := drawing.Options{}
			if n%3 == 0 {
				opt.Units = unit.Inch
			}
			side := drawing.SideView(p.Layouts[0], p.Result, opt)
			sheet, _ := drawing.MeasureView(p.Layouts[0], p.Result, opt)
			for _, d := range []*drawing.Drawing{side, sheet} {
				require.NoError(t, d.SVG(io.Discard))
				t.Run(fmt.Sprintf("%s %d", name, n), func(t *testing.T) {
					apart(t, texts(d, "dim-text", "gap-text", "part-name", "letter"))
				})
			}
		}
	}
}

func BenchmarkSideView(b *testing.B) {
	p := build(b, lathe(), "1")
	b.ReportAllocs()
	for b.Loop() {
		d := drawing.SideView(p.Layouts[0], p.Result, drawing.Options{})
		if err := d.SVG(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMeasureView(b *testing.B) {
	p := build(b, lathe(), "1")
	b.ReportAllocs()
	for b.Loop() {
		d, _ := drawing.MeasureView(p.Layouts[0], p.Result, drawing.Options{})
		if err := d.SVG(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
