package drawing_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/drawing"
	"fettle/plan/unit"
)

var update = flag.Bool("update", false, "write the golden files anew")

func svg(t testing.TB, d *drawing.Drawing) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, d.SVG(&b))
	return b.String()
}

// wellFormed reads the drawing as XML: what stands in a page under a strict policy, with every id once.
func wellFormed(t testing.TB, d *drawing.Drawing) {
	t.Helper()
	s := svg(t, d)
	ids := map[string]bool{}
	r := xml.NewDecoder(strings.NewReader(s))
	names := map[string]int{}
	for {
		token, err := r.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		names[e.Name.Local]++
		for _, a := range e.Attr {
			require.NotEqual(t, "style", a.Name.Local)
			require.NotContains(t, a.Value, "NaN")
			require.NotContains(t, a.Value, "Inf")
			if a.Name.Local == "id" {
				require.False(t, ids[a.Value], a.Value)
				ids[a.Value] = true
			}
		}
	}
	require.Equal(t, 1, names["svg"])
	require.Equal(t, 1, names["title"])
	require.Equal(t, 1, names["desc"])
	require.Zero(t, names["style"]+names["script"])
}

func TestSVGWellFormed(t *testing.T) {
	for name, ma := range machines() {
		for i := range ma.Axes[0].Parts {
			ma.Axes[0].Parts[i].Label += " <b>\"x\" & 'y'\x01\xff" + strings.Repeat("w", 20*i)
		}
		ma.Axes[0].Label = "</svg><script>"
		ma.Axes[0].Datum = "<datum>"
		t.Run(name, func(t *testing.T) {
			p := build(t, ma, "1")
			wellFormed(t, drawing.SideView(p.Layouts[0], p.Result, drawing.Options{ID: `a"b`}))
			d, _ := drawing.MeasureView(p.Layouts[0], p.Result, drawing.Options{ID: `a"b`})
			wellFormed(t, d)
		})
	}
}

// A coordinate that is no number is a fault, and nothing of it is written.
func TestSVGRefusesNoNumber(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), 1e15} {
		var b bytes.Buffer
		d := drawing.Drawing{Width: 1, Height: 1, PxPerUnit: 1, Shapes: []drawing.Shape{drawing.Circle{X: x, R: 1}}}
		require.ErrorIs(t, d.SVG(&b), drawing.ErrNumber, x)
		require.Zero(t, b.Len())
	}
}

func TestSVGNumbers(t *testing.T) {
	d := drawing.Drawing{Width: 1, Height: 1, PxPerUnit: 1, Shapes: []drawing.Shape{
		drawing.Lines{Class: "x", Segments: []drawing.Segment{{A: drawing.Point{X: -0.001, Y: 177.5}, B: drawing.Point{X: 1.005, Y: -12.349}}}},
	}}
	require.Contains(t, svg(t, &d), `d="M0 177.5L1 -12.35"`)
}

// The layout of each drawing, read in review: go test ./plan/drawing -update writes them anew.
func TestGolden(t *testing.T) {
	check := func(name string, d *drawing.Drawing) {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join("testdata", name+".golden.svg")
			got := svg(t, d) + "\n"
			if *update {
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, string(want), got)
		})
	}
	for name, ma := range machines() {
		p := build(t, ma, "1")
		check(name, drawing.SideView(p.Layouts[0], p.Result, drawing.Options{Units: unit.MM}))
		d, _ := drawing.MeasureView(p.Layouts[0], p.Result, drawing.Options{Units: unit.MM})
		check(name+"-measure", d)
	}
	check("far", drawing.FarBar("far", lathesReach(), 12, unit.MM))
}

// Whatever is typed, the drawing can be written.
func FuzzViews(f *testing.F) {
	f.Add(118.0, 141.0, 36.5, 30.0, 12.0, 88.0, 12.0, 14.0)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(-1e4, 1e5, 1e-9, 1e9, -3.0, 1e6, 1000.0, 1e-3)
	f.Add(5e4, 5e4, 1e4, 1e4, 1e4, 1e4, 1e3, 1e4)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, k float64) {
		text := func(v float64) string { return fmt.Sprintf("%.4f", v) }
		for name, ma := range machines() {
			ax := &ma.Axes[0]
			for i, v := range []float64{a, b, c, d, e, k} {
				if len(ax.Parts) == 0 {
					break
				}
				p := &ax.Parts[(i*3+1)%len(ax.Parts)]
				keys := []string{"from", "to", "length", "dia", "gap", "bore"}
				p.Entries[keys[i]] = entries("x", text(v))["x"]
			}
			ax.Entries["travel_found"] = entries("x", text(g))["x"]
			ax.Entries["lowest"] = entries("x", text(a))["x"]
			ma.Upgrades[0].Inputs["amount"] = text(math.Abs(h))
			p := build(t, ma, "1")
			require.NoError(t, drawing.SideView(p.Layouts[0], p.Result, drawing.Options{}).SVG(io.Discard), name)
			m, _ := drawing.MeasureView(p.Layouts[0], p.Result, drawing.Options{End: axis.Minus, At: &b})
			require.NoError(t, m.SVG(io.Discard), name)
			if s := p.Site("1"); s != nil && len(s.Goals) > 0 {
				require.NoError(t, drawing.FarBar("far", p.Result.HowFar(s.Amount, s.Goals[0], s.Most), h, unit.Inch).SVG(io.Discard), name)
			}
		}
	})
}
