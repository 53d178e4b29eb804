package drawing_test

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/drawing"
	parts "fettle/plan/part"
	"fettle/plan/unit"
)

func sheetOptions() drawing.SheetOptions {
	return drawing.SheetOptions{Units: unit.MM, Owner: "A workshop", Machine: "Bench lathe, cross slide", Number: "L1", Date: "2026-01-05", Creator: "A. Turner"}
}

// The layout of a sheet of each kind of part, read in review as a machinist would.
func TestPartGolden(t *testing.T) {
	check := func(name string, got []byte) {
		path := filepath.Join("testdata", name)
		if *update {
			require.NoError(t, os.WriteFile(path, got, 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(want), string(got), name)
	}
	sheets := drawing.PartSheets(madeParts(), sheetOptions())
	sheets = append(sheets, drawing.DialStrip(dial75(), "strip"))
	for _, d := range sheets {
		name := fmt.Sprintf("part-%s-%d.golden", d.Paper.Part, d.Paper.Number)
		if d.ID == "strip" {
			name = "part-strip.golden"
		}
		check(name+".svg", []byte(svg(t, d)+"\n"))
		check(name+".dxf", dxf(t, d))
	}
}

func dial75() *parts.Part {
	p := dialPart()
	return &p
}

func dxf(t testing.TB, d *drawing.Drawing) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, d.DXF(&b))
	return b.Bytes()
}

// walk gives every shape that is in no group.
func walk(all []drawing.Shape, do func(drawing.Shape)) {
	for _, s := range all {
		if g, ok := s.(drawing.Group); ok {
			walk(g.Shapes, do)
			continue
		}
		do(s)
	}
}

// within fails where anything of a sheet lies outside its frame, or is no number.
func within(t testing.TB, d *drawing.Drawing) {
	t.Helper()
	f := d.Paper.Frame
	in := func(what string, x0, x1, y0, y1 float64) {
		if !(x0 >= f[0]-0.01 && x1 <= f[2]+0.01 && y0 >= f[1]-0.01 && y1 <= f[3]+0.01) {
			require.Failf(t, "outside the frame", "%s: %s at %.1f to %.1f, %.1f to %.1f", d.Title, what, x0, x1, y0, y1)
		}
	}
	walk(d.Shapes, func(s drawing.Shape) {
		switch s := s.(type) {
		case drawing.Lines:
			for _, l := range s.Segments {
				in(s.Class, min(l.A.X, l.B.X), max(l.A.X, l.B.X), min(l.A.Y, l.B.Y), max(l.A.Y, l.B.Y))
			}
		case drawing.Path:
			for _, l := range s.Loops {
				for _, p := range l {
					in(s.Class, p.X, p.X, p.Y, p.Y)
				}
			}
		case drawing.Circle:
			in(s.Class, s.X-s.R, s.X+s.R, s.Y-s.R, s.Y+s.R)
		case drawing.Arc:
			for _, a := range []float64{s.From, s.To, (s.From + s.To) / 2} {
				p := s.At(a)
				in(s.Class, p.X, p.X, p.Y, p.Y)
			}
		case drawing.Text:
			x0, x1, y0, y1 := s.Box()
			in(s.Text, x0, x1, y0, y1)
		}
	})
}

func everyText(d *drawing.Drawing) []drawing.Text {
	var all []drawing.Text
	walk(d.Shapes, func(s drawing.Shape) {
		if x, ok := s.(drawing.Text); ok {
			all = append(all, x)
		}
	})
	return all
}

// touches tells whether a point lies on a line of the part itself, or on the centre of a hole.
func touches(d *drawing.Drawing, p drawing.Point) bool {
	const near = 0.02 // mm of paper
	found := false
	walk(d.Shapes, func(s drawing.Shape) {
		switch s := s.(type) {
		case drawing.Lines:
			if s.Class == "dim" || s.Class == "hatch" {
				return
			}
			for _, l := range s.Segments {
				dx, dy := l.B.X-l.A.X, l.B.Y-l.A.Y
				u := 0.0
				if n := dx*dx + dy*dy; n > 0 {
					u = min(max(((p.X-l.A.X)*dx+(p.Y-l.A.Y)*dy)/n, 0), 1)
				}
				found = found || math.Hypot(l.A.X+u*dx-p.X, l.A.Y+u*dy-p.Y) < near
			}
		case drawing.Path:
			if s.Class != "ln-thin" && s.Class != "ln-visible" {
				return
			}
			for _, l := range s.Loops {
				for _, q := range l {
					found = found || math.Hypot(q.X-p.X, q.Y-p.Y) < near
				}
			}
		case drawing.Circle:
			found = found || math.Abs(math.Hypot(s.X-p.X, s.Y-p.Y)-s.R) < near
		case drawing.Arc:
			found = found || s.Class != "dim" && math.Abs(math.Hypot(s.X-p.X, s.Y-p.Y)-s.R) < near
		}
	})
	return found
}

// attached fails where a dimension does not measure what it says, or begins in the air.
func attached(t testing.TB, d *drawing.Drawing) {
	t.Helper()
	for _, m := range d.Paper.Dimensions {
		is := math.Abs(m.B.X - m.A.X)
		if m.Upright {
			is = math.Abs(m.B.Y - m.A.Y)
		}
		if math.Abs(is-math.Abs(m.Size.Nominal)*d.Paper.Scale) > 1e-6*(1+is) {
			require.Failf(t, "a dimension is not what it says", "%s: %s %g, drawn %g at %g", d.Title, m.Size.Label, m.Size.Nominal, is, d.Paper.Scale)
		}
		if !touches(d, m.A) || !m.Half && !touches(d, m.B) {
			require.Failf(t, "a dimension is in the air", "%s: %s %g from %v to %v", d.Title, m.Size.Label, m.Size.Nominal, m.A, m.B)
		}
	}
}

// eachWay gives the sheets of parts in both projections, both units and on both papers.
func eachWay(all []parts.Part, do func(d *drawing.Drawing)) {
	for _, third := range []bool{false, true} {
		o := sheetOptions()
		o.ThirdAngle = third
		if third {
			o.Units, o.Format = unit.Inch, drawing.Letter
		}
		for _, d := range drawing.PartSheets(all, o) {
			do(d)
		}
	}
}

func TestPartSheets(t *testing.T) {
	n, dims := 0, 0
	eachWay(madeParts(), func(d *drawing.Drawing) {
		n++
		dims += len(d.Paper.Dimensions)
		wellFormed(t, d)
		within(t, d)
		apart(t, everyText(d))
		attached(t, d)
	})
	require.Equal(t, 2*9, n) // the dial has two sheets
	require.Greater(t, dims, 2*50)
}

// Over many parts of every form: on the paper, to scale, and legible.
func TestRandomParts(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	toScale := 0
	for n := range 400 {
		p := randomPart(r)
		eachWay([]parts.Part{p}, func(d *drawing.Drawing) {
			t.Run(fmt.Sprintf("%d %s", n, d.Paper.Part), func(t *testing.T) {
				require.NoError(t, d.SVG(io.Discard))
				require.NoError(t, d.DXF(io.Discard))
				within(t, d)
				if len(d.Paper.Dimensions) > 0 {
					toScale++
					attached(t, d)
					apart(t, everyText(d))
				}
			})
		})
	}
	require.Greater(t, toScale, 750, "all but a few go on a sheet to scale")
}

func randomPart(r *rand.Rand) parts.Part {
	p := parts.Part{Key: "p", Label: "Part", Material: "c45", Quantity: 1 + r.IntN(3)}
	size := func(label string, v float64) parts.Size {
		v = math.Round(v*100) / 100
		switch r.IntN(4) {
		case 0:
			return plus(label, v, 0.021, 0, "H7")
		case 1:
			return plus(label, v, 0.05, -0.05, "")
		case 2:
			return parts.Size{Label: label, Nominal: v, Suits: "what it goes on", Awaits: "x." + label}
		}
		return general(label, v)
	}
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	if r.IntN(2) == 0 {
		round := &parts.Round{}
		widest, long := 0.0, 0.0
		steps := 1 + r.IntN(5)
		for i := range steps {
			s := parts.Step{Label: fmt.Sprint("step ", i), Length: size(fmt.Sprint("length ", i), between(14, 40)), Dia: size(fmt.Sprint("dia ", i), between(14, 70)), Chamfer: float64(r.IntN(3)) / 2}
			if r.IntN(4) == 0 {
				s.Thread = "M10×1"
			}
			widest, long = max(widest, s.Dia.Nominal), long+s.Length.Nominal
			round.Outside = append(round.Outside, s)
		}
		if r.IntN(2) == 0 {
			round.Left = append(round.Left, parts.Step{Label: "bore", Through: r.IntN(2) == 0, Length: size("bore, depth", long*between(0.1, 0.5)), Dia: size("bore", between(2, 7)), Chamfer: float64(r.IntN(2)) / 2})
		}
		if r.IntN(2) == 0 {
			round.Right = append(round.Right, parts.Step{Label: "seat", Length: size("seat, depth", long*between(0.05, 0.3)), Dia: size("seat", between(3, 7.5))})
		}
		if r.IntN(3) == 0 {
			// Within the first step, clear of its ends.
			round.Cross = append(round.Cross, parts.CrossHole{At: size("cross hole", round.Outside[0].Length.Nominal*between(0.4, 0.6)), Dia: size("cross hole", 2), Angle: float64(90 * r.IntN(4)), Through: r.IntN(2) == 0})
		}
		if r.IntN(3) == 0 {
			i := r.IntN(steps)
			w, h := widest+between(0, 40), widest+between(0, 10)
			round.Flange = &parts.Flange{Step: i, Width: size("flange, across", w), Height: size("flange, up", h), Corner: size("flange, corner", h/4), Holes: []parts.FlangeHole{
				{X: size("hole, across", -w/3), Y: size("hole, up", h/4), Dia: size("hole", 4)}, {X: size("hole, across", w/3), Dia: size("hole", 4)},
			}}
		}
		p.Round = round
		return p
	}
	l, w := between(15, 250), between(8, 90)
	f := &parts.Flat{Length: size("length", l), Width: size("width", w), Thickness: size("thickness", between(2, 40)), Outline: r.IntN(4) == 0}
	p.Altered = f.Outline
	if r.IntN(4) == 0 && !f.Outline {
		f.Angle = between(45, 75)
	}
	for i := range r.IntN(6) {
		x := parts.Feature{Kind: []parts.FeatureKind{parts.Hole, parts.Slot, parts.Pocket, parts.Dimple, parts.Oil}[r.IntN(5)], Label: fmt.Sprint("feature ", i), X: size("x", l*(0.1+0.15*float64(i))), Y: size("y", w*between(0.1, 0.6))}
		switch x.Kind {
		case parts.Hole, parts.Dimple:
			x.Dia = size("dia", min(w, l)*between(0.05, 0.1))
			if r.IntN(3) == 0 {
				x.Thread = "M5"
			}
		default:
			x.Length, x.Width = size("long", l*between(0.03, 0.12)), size("wide", w*between(0.05, 0.3))
		}
		if r.IntN(2) == 0 {
			x.Depth = size("deep", f.Thickness.Nominal*between(0.2, 0.8))
			x.Behind = r.IntN(4) == 0
		}
		f.Features = append(f.Features, x)
	}
	p.Flat = f
	return p
}

// area of outlines by the surveyor's rule; outlines within outlines turn the other way.
func area(p drawing.Path) float64 {
	sum := 0.0
	for _, l := range p.Loops {
		for i, q := range l {
			n := l[(i+1)%len(l)]
			sum += q.X*n.Y - n.X*q.Y
		}
	}
	return math.Abs(sum) / 2
}

// The metal of a half section, in mm² of the part, by its closed form: rings of
// (R − r) l, less chamfers of c²/2.
func TestSectionArea(t *testing.T) {
	for _, tc := range []struct {
		part parts.Part
		want float64
	}{
		// Flange 8 × 15, body 28.5 × 14, less bore 31.5 × 5 and seat 5 × 9.5; chamfers 1, 0.5 and 0.3.
		{bracketPart(), 8*15 + 28.5*14 - 31.5*5 - 5*9.5 - 0.5 - 0.125 - 0.045},
		// 24 × 7 and 9 × 5, less undercut 2 × 0.8, bore 14 × 5, and the pin hole 3 × 2; chamfers 0.5, 0.8 and 0.5.
		{extensionPart(), 24*7 + 9*5 - 2*0.8 - 14*5 - 3*2 - 0.125 - 0.32 - 0.125},
		{dialPart(), 14*17 + 6*15 - 20*8 - 0.125 - 0.5 - 0.125},
		{spacerPart(), 3.2*12 - 3.2*6 - 3*0.045},
		// Wall 80 × 23 less the pocket 28 × 12 and two drilled holes 5 × 14.
		{castingPart(), 80*23 - 28*12 - 2*5*14},
	} {
		d := drawing.PartSheets([]parts.Part{tc.part}, sheetOptions())[0]
		k := d.Paper.Scale
		metal, lines := 0.0, 0.0
		walk(d.Shapes, func(s drawing.Shape) {
			switch s := s.(type) {
			case drawing.Path:
				if s.Class == "section" {
					metal += area(s)
				}
			case drawing.Lines:
				if s.Class == "hatch" {
					for _, l := range s.Segments {
						lines += math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y)
					}
				}
			}
		})
		require.InDelta(t, tc.want, metal/k/k, 1e-6*tc.want, tc.part.Label)
		// Hatching covers it: lines 2.2 mm of paper apart, so their length times that is the area, near enough.
		require.InEpsilon(t, tc.want, lines*2.2/k/k, 0.06, tc.part.Label)
	}
}

// What a machinist must find on each sheet, in words as they are drawn.
func TestSheetSays(t *testing.T) {
	says := map[string][]string{
		"bracket":   {"⌀19 H7 (+0.021/0)", "⌀10 H8 (+0.022/0)", "28.5 to suit (1)", "5 +0.05/0", "22 ±0.1", "2 × ⌀6.6 through, for M6 screws", "R15", "(36.5)", "Grey cast iron EN-GJL-250", "1 : 1", "ISO 2768-m"},
		"extension": {"M10×1 - 6g", "undercut 2 × ⌀8.4", "⌀3 H7 (+0.01/0) through, for a pin", "⌀10 to suit (1)", "0.8 × 45°", "⌀14 h7 (0/−0.018)", "2 : 1"},
		"wall":      {"12 +0.2/0", "11 0/−0.5 left", "28", "30", "2 × M6 × 14 deep, as they are", "A–A", "part to alter", "(80)"},
		"gib":       {"60°", "4.2 to suit (1)", "3 × dimple ⌀4 × 1 deep, for the gib screws", "140", "25", "70", "115", "scraped to the way"},
		"screw":     {"⌀10 js5 (+0.004/−0.005)", "M8 - 6g", "5 0/−0.05", "Tinted: metal that was not there."},
		"spacer":    {"3.2 +0.01/0", "⌀12 H7 (+0.018/0)", "hardened and ground", "Faces parallel within 0.005."},
	}
	for _, d := range drawing.PartSheets(madeParts(), sheetOptions()) {
		var have []string
		for _, x := range everyText(d) {
			have = append(have, x.Text)
		}
		for _, want := range says[d.Paper.Part] {
			require.Contains(t, have, want, d.Title)
		}
		for _, want := range []string{"A workshop", "2026-01-05", "A. Turner", "first angle", "mm", "A4", fmt.Sprintf("%d / 9", d.Paper.Number), "100 mm on paper: measure it to check the printout"} {
			require.Contains(t, have, want, d.Title)
		}
	}
}

// The bar that checks the printout is what it says, on the paper.
func TestCheckBar(t *testing.T) {
	for _, tc := range []struct {
		units unit.Unit
		long  float64
	}{{unit.MM, 100}, {unit.Inch, 101.6}} {
		o := sheetOptions()
		o.Units = tc.units
		for _, d := range drawing.PartSheets(madeParts(), o) {
			found := false
			walk(d.Shapes, func(s drawing.Shape) {
				if l, ok := s.(drawing.Lines); ok && l.Class == "frame-thin" && len(l.Segments) > 2 {
					found = true
					require.InDelta(t, tc.long, l.Segments[0].B.X-l.Segments[0].A.X, 1e-9)
				}
			})
			require.True(t, found, d.Title)
		}
	}
}

// A bore that meets a groove parts the sleeve, and the sheet says so.
func TestPartedPart(t *testing.T) {
	says := func(p parts.Part) bool {
		for _, x := range everyText(drawing.PartSheets([]parts.Part{p}, sheetOptions())[0]) {
			if x.Text == "With these sizes a bore or a groove parts it: it cannot be made so." {
				return true
			}
		}
		return false
	}
	p := extensionPart()
	require.False(t, says(p))
	p.Round.Left[0].Length.Nominal = 24.5 // 0.5 into the undercut, and wider than that
	require.True(t, says(p))
}

// A part with more on it than a sheet takes is still drawn, and says that it is not to scale.
func TestCrowdedPart(t *testing.T) {
	p := riserPart()
	p.Flat.Features = nil
	for i := range 60 {
		p.Flat.Features = append(p.Flat.Features, parts.Feature{Kind: parts.Hole, X: general("x", 1+float64(i)*1.97), Y: general("y", 1+float64(i*7%60)*0.97), Dia: general("hole", 1+0.01*float64(i))})
	}
	d := drawing.PartSheets([]parts.Part{p}, sheetOptions())[0]
	within(t, d)
	var have []string
	for _, x := range everyText(d) {
		have = append(have, x.Text)
	}
	require.Contains(t, have, "not to scale")
	require.NotContains(t, have, "100 mm on paper: measure it to check the printout")
}

// Whatever the sizes, the sheets can be written.
func FuzzPartSheets(f *testing.F) {
	f.Add(36.5, 28.0, 10.0, 5.0, 0.5, "M10×1", "to suit")
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, "", "")
	f.Add(-1.0, 1e9, 1e-9, math.Inf(1), math.NaN(), "M", "<&\x00>")
	f.Add(1e5, 1e-3, 1e5, -1e5, 1e4, "Tr12x3 LH", "π⌀%%^\\U+")
	f.Fuzz(func(t *testing.T, a, b, c, d, e float64, thread, words string) {
		all := madeParts()
		for i := range all {
			p := &all[i]
			p.Label, p.Notes = words, []string{words}
			sizes := p.Sizes()
			for j, v := range []float64{a, b, c, d, e} {
				if n := len(sizes); n > 0 {
					s := sizes[(j*3+i)%n]
					s.Nominal, s.Upper, s.Label, s.Suits = v, e, words, words
				}
			}
			if p.Round != nil {
				for j := range p.Round.Outside {
					p.Round.Outside[j].Thread, p.Round.Outside[j].Chamfer = thread, e
				}
			}
			if p.Dial != nil {
				p.Dial.Every[0].Length, p.Dial.Divisions = e, int(min(max(a, -10), 5000))
			}
		}
		o := sheetOptions()
		o.Format = drawing.Format{Short: a, Long: b}
		for _, s := range drawing.PartSheets(all, o) {
			require.NoError(t, s.SVG(io.Discard))
			require.NoError(t, s.DXF(io.Discard))
		}
		for i := range all {
			drawing.Rows(&all[i], o)
		}
	})
}

func BenchmarkPartSheetsSVG(b *testing.B) {
	six := madeParts()[:6]
	b.ReportAllocs()
	for b.Loop() {
		for _, d := range drawing.PartSheets(six, sheetOptions()) {
			if err := d.SVG(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkPartSheetsDXF(b *testing.B) {
	six := madeParts()[:6]
	b.ReportAllocs()
	for b.Loop() {
		for _, d := range drawing.PartSheets(six, sheetOptions()) {
			if err := d.DXF(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	}
}
