package drawing_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/bench"
	"fettle/plan/drawing"
)

// pictureOf is the picture of a method that must have one.
func pictureOf(t testing.TB, key string, kv ...string) *drawing.Drawing {
	t.Helper()
	typed := map[string]string{}
	for i := 0; i < len(kv); i += 2 {
		typed[kv[i]] = kv[i+1]
	}
	c, err := bench.Run(key, typed)
	require.NoError(t, err)
	d, caption := drawing.Bench(c)
	require.NotNil(t, d)
	require.NotEmpty(t, caption)
	return d
}

// loopOf is the n-th path of a class.
func loopOf(t testing.TB, d *drawing.Drawing, class string, n int) []drawing.Point {
	t.Helper()
	var found [][]drawing.Point
	each(d.Shapes, func(s drawing.Shape, _ []drawing.Group) {
		if p, ok := s.(drawing.Path); ok && p.Class == class {
			found = append(found, p.Loops...)
		}
	})
	require.Greater(t, len(found), n)
	return found[n]
}

func circles(d *drawing.Drawing, class string) (all []drawing.Circle) {
	each(d.Shapes, func(s drawing.Shape, _ []drawing.Group) {
		if c, ok := s.(drawing.Circle); ok && c.Class == class {
			all = append(all, c)
		}
	})
	return all
}

// ISO 286-2:2010: 25 H7 is +21/0 µm, 25 g6 is −7/−20 µm.
func TestFitZonesToScale(t *testing.T) {
	d := drawing.FitZones(drawing.Zone{Name: "hole H7", Upper: 0.021}, drawing.Zone{Name: "shaft g6", Upper: -0.007, Lower: -0.020}, 25)
	hole, shaft := loopOf(t, d, "ln-visible", 0), loopOf(t, d, "ln-visible", 1)
	perUm := (hole[2].Y - hole[0].Y) / 21
	require.Positive(t, perUm)
	zero := hole[2].Y // EI is 0
	require.InDelta(t, 7*perUm, shaft[0].Y-zero, 1e-9)
	require.InDelta(t, 20*perUm, shaft[2].Y-zero, 1e-9)
	require.Contains(t, d.Desc, "clearance of 7 µm to 41 µm")
	require.Subset(t, said(d, "part-label"), []string{"+21", "0", "−7", "−20", "hole H7", "shaft g6", "zero line: ⌀ 25 mm"})
	require.Equal(t, []string{"41", "7"}, said(d, "part-label dim-text"))
}

func TestFitZonesSayInterference(t *testing.T) {
	hole := drawing.Zone{Name: "hole", Upper: 0.021}
	// ISO 286-2:2010: 25 s6 is +48/+35 µm, 25 n6 is +28/+15 µm.
	require.Contains(t, drawing.FitZones(hole, drawing.Zone{Name: "shaft", Upper: 0.048, Lower: 0.035}, 25).Desc, "an interference of 14 µm to 48 µm")
	require.Contains(t, drawing.FitZones(hole, drawing.Zone{Name: "shaft", Upper: 0.028, Lower: 0.015}, 25).Desc, "from an interference of 28 µm to a clearance of 6 µm")
}

// A ring on its shaft is the hole; a ring in its housing is the shaft.
func TestFitZonesOfSeats(t *testing.T) {
	require.Contains(t, pictureOf(t, "fit_seat", "ring", "inner").Title, "Zones of ring and seat")
	require.Contains(t, pictureOf(t, "fit_seat", "ring", "outer", "size", "28").Title, "Zones of seat and ring")
}

// ISO 68-1: flanks at 60°, a flat of P/8 at the screw's crest, half of the pitch on the pitch line.
func TestThreadProfileToScale(t *testing.T) {
	d := pictureOf(t, "thread", "thread", "M12")
	screw := loopOf(t, d, "ln-visible", 1)
	foot, crest, next := screw[1], screw[2], screw[3]
	pitch := screw[6].X - screw[2].X
	require.InDelta(t, pitch/8, next.X-crest.X, 1e-6*pitch)
	require.InDelta(t, math.Tan(30*math.Pi/180), (crest.X-foot.X)/(foot.Y-crest.Y), 1e-9)
	// d3 of M12 is 9.853, so the thread is 1.0735 deep in a pitch of 1.75 (ISO 724: d3 = d − 1.22687 P).
	require.InDelta(t, 1.0735/1.75, (foot.Y-crest.Y)/pitch, 1e-4)
	require.Contains(t, said(d, "part-label"), "d₂ 10.863")
	require.Contains(t, said(d, "part-label"), "d, D₄ 12")
	require.Contains(t, said(d, "part-label"), "60°")
	require.NotContains(t, said(pictureOf(t, "thread", "thread", "Sq 20x4"), "part-label"), "0°")
}

// A wire touches both flanks.
func TestWiresLieInTheThread(t *testing.T) {
	d := pictureOf(t, "three_wires", "thread", "M12")
	screw := loopOf(t, d, "ln-visible", 0)
	wire := circles(d, "fill-new")[0]
	for _, flank := range [][2]drawing.Point{{screw[3], screw[4]}, {screw[5], screw[6]}} {
		require.InDelta(t, wire.R, distance(wire, flank[0], flank[1]), 1e-3*wire.R)
	}
}

// distance of a circle's middle from a line through two points.
func distance(c drawing.Circle, a, b drawing.Point) float64 {
	return math.Abs((b.X-a.X)*(c.Y-a.Y)-(b.Y-a.Y)*(c.X-a.X)) / math.Hypot(b.X-a.X, b.Y-a.Y)
}

// Rollers lie on the flat and touch the flanks, and the reading is from outside to outside, or between.
func TestDovetailRollersTouch(t *testing.T) {
	for _, tc := range []struct {
		key, word      string
		typed          []string
		corner, reads  float64 // mm; geometry: cot 30° is √3
		roller, inside float64
	}{
		{"dovetail_male", "over", []string{"roller", "6", "narrow", "40", "depth", "9"}, 40, 40 + 6*(1+math.Sqrt(3)), 6, 1},
		{"dovetail_female", "between", []string{"roller", "6", "wide", "60", "depth", "9"}, 60, 60 - 6*(1+math.Sqrt(3)), 6, -1},
	} {
		t.Run(tc.key, func(t *testing.T) {
			d := pictureOf(t, tc.key, tc.typed...)
			body := loopOf(t, d, "ln-visible", 0)
			corner, edge, flat := body[1], body[2], body[0]
			if tc.inside < 0 {
				edge, corner, flat = body[1], body[2], body[3]
			}
			scale := 2 * (170 - corner.X) / tc.corner
			rollers := circles(d, "fill-new")
			require.Len(t, rollers, 2)
			for _, c := range rollers {
				require.InDelta(t, tc.roller/2*scale, c.R, 1e-9)
				require.InDelta(t, flat.Y, c.Y+c.R, 1e-9, "it lies on the flat")
			}
			require.InDelta(t, rollers[0].R, distance(rollers[0], corner, edge), 1e-9, "it touches the flank")
			require.InDelta(t, tc.reads*scale, rollers[1].X-rollers[0].X+2*tc.inside*rollers[0].R, 1e-9)
			require.Contains(t, d.Desc, tc.word+" them is "+fmt.Sprintf("%.3f mm", tc.reads))
		})
	}
}

// At 96 px to the inch the lines are where they are on the dial, and the bar is 100 mm long.
func TestDialStripAtTrueSize(t *testing.T) {
	d := pictureOf(t, "dial_strip", "dial_dia", "40", "divisions", "100", "thickness", "0.2")
	require.InDelta(t, math.Round(d.Width*d.PxPerUnit), d.Width*d.PxPerUnit, 1e-9, "a whole number of pixels")
	require.InDelta(t, 96/25.4, d.PxPerUnit, 1e-12)
	var lines []drawing.Segment
	var bar drawing.Segment
	each(d.Shapes, func(s drawing.Shape, _ []drawing.Group) {
		if l, ok := s.(drawing.Lines); ok && l.Class == "ln-thin" && len(l.Segments) > 1 {
			lines = append(lines, l.Segments...)
		} else if ok && l.Class == "dim" {
			bar = l.Segments[0]
		}
	})
	require.Len(t, lines, 101, "the first again at the end")
	require.InDelta(t, math.Pi*40.2, lines[100].A.X-lines[0].A.X, 1e-9, "π (D + t)")
	require.InDelta(t, 100, bar.B.X-bar.A.X, 1e-9)
	require.Equal(t, []string{"0", "10", "20", "30", "40", "50", "60", "70", "80", "90", "0"}, said(d, "dial-figure"))
}

// A strip longer than a sheet is wide goes on in the next row where the last one ended.
func TestLongDialStripInRows(t *testing.T) {
	d := pictureOf(t, "dial_strip", "dial_dia", "100", "divisions", "200")
	count := map[float64]int{} // lines by row
	longest := 0.0
	each(d.Shapes, func(s drawing.Shape, _ []drawing.Group) {
		if l, ok := s.(drawing.Lines); ok && l.Class == "ln-thin" && len(l.Segments) > 1 {
			count[l.Segments[0].A.Y] = len(l.Segments)
			longest = max(longest, l.Segments[len(l.Segments)-1].A.X-l.Segments[0].A.X)
		}
	})
	require.Len(t, count, 2)
	lines := 0
	for _, n := range count {
		lines += n - 1 // one of each row stands in the next again
	}
	require.Equal(t, 200, lines)
	require.LessOrEqual(t, longest, 170.0)
}

// Every picture can stand in a page, tells itself in words, and keeps its texts apart and within.
func TestBenchPictures(t *testing.T) {
	drawn := 0
	for _, m := range bench.Methods() {
		t.Run(m.Key, func(t *testing.T) {
			c, err := m.Run(m.Example)
			require.NoError(t, err)
			d, _ := drawing.Bench(c)
			if d == nil {
				return
			}
			drawn++
			tidy(t, d)
		})
	}
	require.Greater(t, drawn, 8)
	for _, tc := range [][]string{
		{"fit", "hole", "H7", "shaft", "h6"}, {"fit", "hole", "JS6", "shaft", "js6"}, {"fit", "hole", "H7", "shaft", "zc8"},
		{"fit", "hole", "A11", "shaft", "h5"}, {"fit", "hole", "H7", "shaft", "p6", "size", "450"},
		{"thread", "thread", "Tr40x14(P7)"}, {"thread", "thread", "1/4-20 UNC"}, {"thread", "thread", "2BA"}, {"thread", "thread", "Sq 20x4"}, {"thread", "thread", "M1.6"},
		{"dovetail_male", "roller", "12", "narrow", "20", "angle", "45"}, {"dovetail_male", "roller", "5", "over", "150", "angle", "55", "depth", "6"},
		{"dovetail_female", "roller", "10", "wide", "80"}, {"dial_legibility", "dial_dia", "120", "divisions", "250"}, {"dial_divisions", "divisions", "40"},
	} {
		t.Run(strings.Join(tc, " "), func(t *testing.T) { tidy(t, pictureOf(t, tc[0], tc[1:]...)) })
	}
}

func tidy(t *testing.T, d *drawing.Drawing) {
	t.Helper()
	wellFormed(t, d)
	require.NotEmpty(t, d.Desc)
	all := texts(d, "part-label", "part-label dim-text", "part-name", "dial-figure")
	require.NotEmpty(t, all)
	apart(t, all)
	for _, text := range all {
		x0, x1, y0, y1 := text.Box()
		if text.Class == "dial-figure" || text.Class == "part-name" {
			x0, x1 = text.X, text.X // the type's own anchor
		}
		require.GreaterOrEqual(t, x0, 0.0, text.Text)
		require.LessOrEqual(t, x1, d.Width, text.Text)
		require.GreaterOrEqual(t, y0, 0.0, text.Text)
		require.LessOrEqual(t, y1, d.Height, text.Text)
	}
}

// The layout of one of each, read in review.
func TestBenchGolden(t *testing.T) {
	for name, d := range map[string]*drawing.Drawing{
		"bench-fit":      drawing.FitZones(drawing.Zone{Name: "hole H7", Upper: 0.021}, drawing.Zone{Name: "shaft g6", Upper: -0.007, Lower: -0.020}, 25),
		"bench-thread":   pictureOf(t, "thread", "thread", "Tr12x3"),
		"bench-dovetail": pictureOf(t, "dovetail_male", "roller", "6", "narrow", "40", "depth", "9"),
		"bench-dial":     pictureOf(t, "dial_strip", "divisions", "40", "dial_dia", "25"),
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join("testdata", name+".golden.svg")
			got := svg(t, d) + "\n"
			if *update {
				require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, string(want), got)
		})
	}
}

// Whatever is typed, what can be worked out can be drawn, or is not.
func FuzzBenchPicture(f *testing.F) {
	f.Add("6", "40", "9", "60", "M12")
	f.Add("1e9", "1e-9", "0.001", "30", "Tr200x1")
	f.Add("0.0001", "5000", "1e5", "80", "Sq 1000x3")
	f.Fuzz(func(t *testing.T, a, b, c, d, word string) {
		for _, run := range []struct {
			key   string
			typed map[string]string
		}{
			{"dovetail_male", map[string]string{"roller": a, "narrow": b, "depth": c, "angle": d}},
			{"dovetail_female", map[string]string{"roller": a, "between": b, "depth": c, "angle": d}},
			{"dovetail_angle", map[string]string{"small_roller": a, "small_reading": b, "large_roller": c, "large_reading": d}},
			{"dial_strip", map[string]string{"dial_dia": a, "divisions": b, "thickness": c}},
			{"dial_legibility", map[string]string{"dial_dia": a, "divisions": b, "sight": c, "numbered_every": d}},
			{"thread", map[string]string{"thread": word}},
			{"three_wires", map[string]string{"thread": word, "wire": a}},
			{"fit", map[string]string{"size": a, "hole": word, "shaft": word}},
		} {
			c, err := bench.Run(run.key, run.typed)
			if err != nil {
				continue
			}
			if d, _ := drawing.Bench(c); d != nil {
				wellFormed(t, d)
			}
		}
	})
}
