package pdf_test

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/drawing"
	"fettle/plan/part"
	"fettle/plan/unit"
	"fettle/web/pdf"
)

func size(label string, v, upper, lower float64, limits string) part.Size {
	return part.Size{Label: label, Nominal: v, Upper: upper, Lower: lower, Limits: limits}
}

// bush is a turned part, plate a flat one, ring a dial; all invented.
func made() []part.Part {
	general := "ISO 2768-m"
	bush := part.Part{Key: "bush", Label: "Bush", Material: "c45", Quantity: 1, Round: &part.Round{
		Outside: []part.Step{
			{Label: "collar", Length: size("collar", 6, 0.1, -0.1, general), Dia: size("collar", 40, 0.3, -0.3, general), Chamfer: 0.5},
			{Label: "body", Length: size("body", 30, 0.2, -0.2, general), Dia: size("body", 24, 0, -0.021, "h7")},
		},
		Left: []part.Step{{Label: "bore", Through: true, Dia: size("bore", 16, 0.018, 0, "H7")}},
	}, Notes: []string{"No part here is thinner than ½ of 8 mm."}}
	plate := part.Part{Key: "plate", Label: "Plate", Material: "6082", Quantity: 2, Flat: &part.Flat{
		Length: size("length", 70, 0.3, -0.3, general), Width: size("width", 50, 0.3, -0.3, general), Thickness: size("thickness", 10, 0.05, -0.05, ""),
		Features: []part.Feature{{Kind: part.Pocket, Label: "recess", X: size("recess", 20, 0.2, -0.2, general), Y: size("recess", 15, 0.2, -0.2, general), Length: size("recess", 28, 0.2, -0.2, general), Width: size("recess", 20, 0.2, -0.2, general), Depth: size("recess", 4, 0.1, 0, "")}},
	}}
	ring := part.Part{Key: "dial", Label: "Dial", Material: "6082", Quantity: 1, Round: &part.Round{
		Outside: []part.Step{{Label: "rim", Length: size("rim", 14, 0.2, -0.2, general), Dia: size("rim", 34, 0, -0.025, "h7")}},
		Left:    []part.Step{{Label: "bore", Through: true, Dia: size("bore", 16, 0.018, 0, "H7")}},
	}, Dial: &part.Dial{Divisions: 75, Value: "0.02 mm", Upright: false, Dia: size("rim", 34, 0, -0.025, "h7"), Width: size("rim", 14, 0.2, -0.2, general),
		Every: []part.Mark{{Divisions: 5, Length: 5, Width: 0.2, Numeral: 2.5, Step: 0.1}, {Divisions: 1, Length: 3, Width: 0.2}}}}
	return []part.Part{bush, plate, ring}
}

func options() drawing.SheetOptions {
	return drawing.SheetOptions{Units: unit.MM, Owner: "A workshop", Machine: "Bench lathe", Number: "L1", Date: "2026-01-05"}
}

func written(t testing.TB, sheets []*drawing.Drawing) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, pdf.Write(&b, "Bench lathe", sheets))
	return b.Bytes()
}

// poppler runs one of its programs on a file, where they are installed.
func poppler(t *testing.T, file []byte, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		require.NotEqual(t, "1", os.Getenv("FETTLE_REQUIRE_READERS"), name+" is not installed")
		t.Skip(name + " is not installed")
	}
	path := filepath.Join(t.TempDir(), "sheets.pdf")
	require.NoError(t, os.WriteFile(path, file, 0o600))
	for i, a := range args {
		args[i] = strings.ReplaceAll(a, "FILE", path)
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	require.NoError(t, err, string(out))
	return string(out)
}

// Another program finds every word of every sheet, on pages of the right size.
func TestReadElsewhere(t *testing.T) {
	for _, format := range []drawing.Format{drawing.A4, drawing.Letter} {
		o := options()
		o.Format = format
		sheets := drawing.PartSheets(made(), o)
		file := written(t, sheets)
		for i, d := range sheets {
			page := fmt.Sprint(i + 1)
			info := poppler(t, file, "pdfinfo", "-f", page, "-l", page, "FILE")
			var w, h float64
			for _, line := range strings.Split(info, "\n") {
				if _, after, ok := strings.Cut(line, "size:"); ok && strings.HasPrefix(line, "Page") {
					_, err := fmt.Sscanf(strings.TrimSpace(after), "%f x %f pts", &w, &h)
					require.NoError(t, err)
				}
			}
			require.InDelta(t, d.Width, w*25.4/72, 0.01)
			require.InDelta(t, d.Height, h*25.4/72, 0.01)
			text := strings.Join(strings.Fields(poppler(t, file, "pdftotext", "-f", page, "-l", page, "-raw", "FILE", "-")), " ")
			every(d.Shapes, func(x drawing.Text) {
				if x.Upright || x.Inverted { // their letters come in another order
					return
				}
				want := strings.NewReplacer("⌀", "Ø", "−", "–", "π", "pi").Replace(x.Text)
				require.Contains(t, text, strings.Join(strings.Fields(want), " "), d.Title)
			})
		}
	}
}

func every(all []drawing.Shape, do func(drawing.Text)) {
	for _, s := range all {
		switch s := s.(type) {
		case drawing.Group:
			every(s.Shapes, do)
		case drawing.Text:
			do(s)
		}
	}
}

// The page as another program draws it: the check bar is 100 mm long, and the
// part as long as its sheet's scale makes it.
func TestTrueScale(t *testing.T) {
	sheets := drawing.PartSheets(made()[:1], options())
	file := written(t, sheets)
	dir := t.TempDir()
	const dpi = 254 // 10 dots to a mm
	poppler(t, file, "pdftoppm", "-r", fmt.Sprint(dpi), "-png", "-gray", "FILE", filepath.Join(dir, "page"))
	names, err := filepath.Glob(filepath.Join(dir, "page*.png"))
	require.NoError(t, err)
	require.Len(t, names, 1)
	f, err := os.Open(names[0])
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	d := sheets[0]
	require.InDelta(t, d.Width*10, img.Bounds().Dx(), 1)

	bars, walls := 0, 0
	for _, s := range d.Shapes[0].(drawing.Group).Shapes {
		if l, ok := s.(drawing.Lines); ok && l.Class == "frame-thin" && len(l.Segments) == 12 {
			bars++
			a, b := l.Segments[1].A, l.Segments[11].A
			require.InDelta(t, 100, b.X-a.X, 1e-9)
			for _, p := range []drawing.Point{a, b} {
				require.InDelta(t, p.X, ink(img, p.X, p.Y-1), 0.15)
			}
		}
	}
	require.Equal(t, 1, bars)
	for _, m := range d.Paper.Dimensions {
		if m.Size.Label != "body" || m.Upright { // its ends are edges from the axis to the outside
			continue
		}
		walls++
		// Just inside the smaller of the two ends' radii, below the axis, both edges are there.
		y := min(m.A.Y, m.B.Y) - 3
		require.InDelta(t, 30*d.Paper.Scale, ink(img, m.B.X, y)-ink(img, m.A.X, y), 0.15)
	}
	require.Equal(t, 1, walls)
}

// ink is where the middle of a dark upright line lies that is nearest to a place; all in mm.
func ink(img image.Image, x, y float64) float64 {
	row := int(math.Round(y * 10))
	sum, n := 0.0, 0.0
	for i := int(x*10) - 8; i <= int(x*10)+8; i++ {
		if r, _, _, _ := img.At(i, row).RGBA(); r < 0x8000 {
			sum += float64(i) + 0.5
			n++
		}
	}
	return sum / n / 10
}

// The same sheets give the same file.
func TestSameFile(t *testing.T) {
	a := written(t, drawing.PartSheets(made(), options()))
	b := written(t, drawing.PartSheets(made(), options()))
	require.True(t, bytes.Equal(a, b))
}

func TestLatin(t *testing.T) {
	for in, want := range map[string]string{
		"⌀19 H7": "\xd819 H7", "±0.1": "\xb10.1", "−0.02": "\x960.02", "3 × 45°": "3 \xd7 45\xb0", "5 µm": "5 \xb5m", "5 μm": "5 \xb5m", "½": "\xbd", "Führung": "F\xfchrung",
		"Łódź": "?\xf3d?", "a\x00\nb": "ab", "≈ 3 ≤ 4": "~ 3 <= 4", "π": "pi", "€ … ’": "\x80 \x85 \x92",
	} {
		require.Equal(t, want, pdf.Latin(in), in)
	}
}

func TestRefuses(t *testing.T) {
	require.ErrorIs(t, pdf.Write(io.Discard, "", nil), pdf.ErrNothing)
	for _, d := range []drawing.Drawing{
		{Width: math.NaN(), Height: 10},
		{Width: 0, Height: 10},
		{Width: 1e6, Height: 10},
		{Width: 10, Height: 10, Shapes: []drawing.Shape{drawing.Circle{Class: "ln-visible", X: math.Inf(1), R: 1}}},
		{Width: 10, Height: 10, Shapes: []drawing.Shape{drawing.Text{Class: "dim-text", X: math.NaN(), Size: 3, Text: "x"}}},
	} {
		var b bytes.Buffer
		require.ErrorIs(t, pdf.Write(&b, "x", []*drawing.Drawing{&d}), drawing.ErrNumber)
		require.Zero(t, b.Len())
	}
}

func BenchmarkWrite(b *testing.B) {
	parts := append(made(), made()...)
	b.ReportAllocs()
	for b.Loop() {
		if err := pdf.Write(io.Discard, "x", drawing.PartSheets(parts, options())); err != nil {
			b.Fatal(err)
		}
	}
}
