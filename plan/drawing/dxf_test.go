package drawing_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/drawing"
)

// A DXF file is pairs of lines: a whole number, and a value. All of it is ASCII.
func TestDXFPairs(t *testing.T) {
	for _, d := range drawing.PartSheets(madeParts(), sheetOptions()) {
		b := dxf(t, d)
		for _, c := range b {
			require.True(t, c == '\r' || c == '\n' || c >= ' ' && c < 0x7f, "%q", c)
		}
		lines := strings.Split(strings.TrimSuffix(string(b), "\r\n"), "\r\n")
		require.Zero(t, len(lines)%2)
		open := ""
		for i := 0; i < len(lines); i += 2 {
			code, err := strconv.Atoi(lines[i])
			require.NoError(t, err)
			if code >= 10 && code < 60 {
				_, err := strconv.ParseFloat(lines[i+1], 64)
				require.NoError(t, err)
			}
			if code == 0 && (lines[i+1] == "SECTION" || lines[i+1] == "ENDSEC") {
				require.NotEqual(t, open, lines[i+1])
				open = lines[i+1]
			}
		}
		require.Equal(t, "EOF", lines[len(lines)-1])
	}
}

func TestDXFTexts(t *testing.T) {
	for text, want := range map[string]string{
		"⌀19 H7 (+0.021/0)": "%%c19 H7 (+0.021/0)", "22 ±0.1": "22 %%p0.1", "60°": "60%%d", "−0.02 × 3": "-0.02 x 3",
		"100 % %% done": "100 % % % done", `a\P b^c`: "a/P b^ c", "Führung": `F\U+00FChrung`, "a\nb\x00": "ab", "π": "pi", "𝛑": "?",
	} {
		d := drawing.Drawing{Width: 1, Height: 1, Shapes: []drawing.Shape{drawing.Text{Class: "dim-text", Size: 3, Text: text}}}
		require.Contains(t, string(dxf(t, &d)), "\r\n1\r\n"+want+"\r\n")
	}
	d := drawing.Drawing{Width: 1, Height: 1, Shapes: []drawing.Shape{drawing.Circle{Class: "ln-visible", X: math.NaN(), R: 1}}}
	require.ErrorIs(t, d.DXF(io.Discard), drawing.ErrNumber)
}

// entity is one thing of a file as another program read it; lengths in mm.
type entity struct {
	Type, Layer, Text string
	X, Y, X2, Y2, R   float64
	From, To          float64
}

// readElsewhere reads DXF files, all in one go, with a library that nobody here wrote: the
// Debian package python3-ezdxf, where it is installed. The files were opened
// once in LibreCAD 2.2 too, and looked at there: bracket, screw, riser, strip
// and assembly came out whole, with their signs and their layers.
func readElsewhere(t *testing.T, files [][]byte) [][]entity {
	t.Helper()
	const python = "/usr/bin/python3"
	if exec.Command(python, "-c", "import ezdxf").Run() != nil {
		require.NotEqual(t, "1", os.Getenv("FETTLE_REQUIRE_READERS"), "python3-ezdxf is not installed")
		t.Skip("python3-ezdxf is not installed")
	}
	args := []string{"-c", ""}
	for i, file := range files {
		path := filepath.Join(t.TempDir(), fmt.Sprintf("sheet-%d.dxf", i))
		require.NoError(t, os.WriteFile(path, file, 0o600))
		args = append(args, path)
	}
	const script = `
import ezdxf, json, sys
def read(path):
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    assert doc.dxfversion == "AC1009" and not audit.errors and not audit.fixes, (audit.errors, audit.fixes)
    out = []
    for e in doc.modelspace():
        r = {"Type": e.dxftype(), "Layer": e.dxf.layer}
        assert e.dxf.layer in doc.layers
        if r["Type"] == "LINE":
            r.update(X=e.dxf.start.x, Y=e.dxf.start.y, X2=e.dxf.end.x, Y2=e.dxf.end.y)
        elif r["Type"] in ("CIRCLE", "ARC"):
            r.update(X=e.dxf.center.x, Y=e.dxf.center.y, R=e.dxf.radius)
            if r["Type"] == "ARC":
                r.update(From=e.dxf.start_angle, To=e.dxf.end_angle)
        elif r["Type"] == "TEXT":
            r.update(Text=e.plain_text(), X=e.dxf.insert.x, Y=e.dxf.insert.y)
        out.append(r)
    return out

json.dump([read(path) for path in sys.argv[1:]], sys.stdout)
`
	args[1] = script
	cmd := exec.Command(python, args...)
	var wrong bytes.Buffer
	cmd.Stderr = &wrong
	out, err := cmd.Output()
	require.NoError(t, err, wrong.String())
	var all [][]entity
	require.NoError(t, json.Unmarshal(out, &all))
	require.Len(t, all, len(files))
	return all
}

// What another program reads is what was drawn: each line, circle and arc of the
// part at 1 : 1, each text.
func TestDXFReadElsewhere(t *testing.T) {
	sheets := append(drawing.PartSheets(madeParts(), sheetOptions()), drawing.DialStrip(dial75(), "strip"))
	var files [][]byte
	for _, d := range sheets {
		files = append(files, dxf(t, d))
	}
	for i, read := range readElsewhere(t, files) {
		d := sheets[i]
		k := 1 / d.Paper.Scale
		place := func(p drawing.Point) (x, y float64) { return p.X * k, (d.Height - p.Y) * k }
		var lines, rounds, texts []entity
		walk(d.Shapes, func(s drawing.Shape) {
			switch s := s.(type) {
			case drawing.Lines:
				if layer := drawing.InkOf(s.Class).Layer; layer != "" {
					for _, l := range s.Segments {
						e := entity{Type: "LINE", Layer: layer}
						e.X, e.Y = place(l.A)
						e.X2, e.Y2 = place(l.B)
						lines = append(lines, e)
					}
				}
			case drawing.Circle:
				e := entity{Type: "CIRCLE", Layer: drawing.InkOf(s.Class).Layer, R: s.R * k}
				e.X, e.Y = place(drawing.Point{X: s.X, Y: s.Y})
				rounds = append(rounds, e)
			case drawing.Arc:
				e := entity{Type: "ARC", Layer: drawing.InkOf(s.Class).Layer, R: s.R * k, From: s.From, To: s.To}
				e.X, e.Y = place(drawing.Point{X: s.X, Y: s.Y})
				rounds = append(rounds, e)
			case drawing.Text:
				e := entity{Type: "TEXT", Layer: drawing.InkOf(s.Class).Layer, Text: s.Text}
				e.X, e.Y = place(drawing.Point{X: s.X, Y: s.Y})
				texts = append(texts, e)
			}
		})
		var gotLines, gotRounds, gotTexts []entity
		for _, e := range read {
			switch e.Type {
			case "LINE":
				gotLines = append(gotLines, e)
			case "CIRCLE", "ARC":
				gotRounds = append(gotRounds, e)
			case "TEXT":
				gotTexts = append(gotTexts, e)
			default:
				require.Contains(t, []string{"POLYLINE", "SOLID"}, e.Type)
			}
		}
		same := func(want, got []entity) {
			require.Len(t, got, len(want), d.Title)
			for i, w := range want {
				g := got[i]
				require.Equal(t, w.Layer, g.Layer)
				for _, v := range [][2]float64{{w.X, g.X}, {w.Y, g.Y}, {w.X2, g.X2}, {w.Y2, g.Y2}, {w.R, g.R}, {turned(w.From), turned(g.From)}, {turned(w.To), turned(g.To)}} {
					require.InDelta(t, v[0], v[1], 1e-4, "%s: %+v, read as %+v", d.Title, w, g)
				}
			}
		}
		same(lines, gotLines)
		same(rounds, gotRounds)
		same(texts, gotTexts)
		for i, w := range texts {
			require.Equal(t, asRead.Replace(w.Text), gotTexts[i].Text)
		}
	}
}

// asRead is a text as the file has it in signs that release 12 knows: that
// program gives them back as its own.
var asRead = strings.NewReplacer("⌀", "Ø", "−", "-", "–", "-", "×", "x", "π", "pi", "…", "...", "’", "'")

func turned(degrees float64) float64 { return math.Mod(degrees+720, 360) }
