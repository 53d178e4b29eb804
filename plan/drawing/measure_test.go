package drawing_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/drawing"
	"fettle/plan/machine"
	"fettle/plan/preset"
)

func measured(t testing.TB, ma machine.Machine) (*drawing.Drawing, map[string]string) {
	t.Helper()
	p := build(t, ma, "")
	return drawing.MeasureView(p.Layouts[0], p.Result, drawing.Options{})
}

// The letters are given in the order in which the sizes are asked, and each stands at its face.
func TestMeasureViewLetters(t *testing.T) {
	d, letters := measured(t, lathe())
	for key, letter := range map[string]string{
		"travel_found": "A", "saddle_ways.from": "B", "saddle_ways.to": "C", "saddle_ways.height": "D", "rear_wall.from": "E",
		"front_wall.from": "G", "front_wall.to": "H", "bracket.from": "J", "bracket.to": "K", "bracket.dia": "L", "bracket.bore": "M", "dial.gap": "N",
	} {
		require.Equal(t, letter, letters[key], key)
	}
	require.NotContains(t, letters, "bracket.bolts", "a count is not seen from the side")
	require.Equal(t, 0.0, d.Slide.At, "positions are measured at the inner end")

	// The line of bracket.from goes down from 141, that of bracket.to from 167.
	at := map[float64]bool{}
	each(d.Shapes, func(s drawing.Shape, _ []drawing.Group) {
		if l, ok := s.(drawing.Lines); ok && l.Class == "dim" && len(l.Segments) == 1 && l.Segments[0].A.X == l.Segments[0].B.X {
			at[l.Segments[0].A.X] = true
		}
	})
	for _, x := range []float64{0, 6, 118, 141, 167, -72, 78, 30, 140, 203} {
		require.True(t, at[x], x)
	}
}

// Every letter that is given is drawn once, measured or not, on every arrangement.
func TestMeasureViewEveryLetterDrawn(t *testing.T) {
	check := func(t *testing.T, ma machine.Machine) {
		d, letters := measured(t, ma)
		require.NotEmpty(t, letters)
		seen := map[string]int{}
		for _, x := range texts(d, "letter") {
			if x.Text != "⌀" {
				seen[x.Text]++
			}
		}
		for key, l := range letters {
			require.Equal(t, 1, seen[l], key)
			require.NotContains(t, l, "I")
			require.NotContains(t, l, "O")
		}
		require.Len(t, seen, len(letters))
	}
	for name, ma := range machines() {
		t.Run(name, func(t *testing.T) { check(t, ma) })
	}
	for _, arr := range axis.Arrangements {
		t.Run("new "+arr.Key, func(t *testing.T) {
			check(t, machine.Machine{Units: "mm", Axes: []axis.Axis{{Key: "x", Label: "X", Arrangement: arr.Key, Plus: "out", Minus: "in",
				Parts: arr.UsualParts(), Obstacles: arr.UsualObstacles()}}})
		})
	}
}

// A part that is not measured is drawn in dashes, the others as they are.
func TestMeasureViewGuess(t *testing.T) {
	ma := lathe()
	ma.Axes[0].Parts[2].Entries = entries("from", "118") // the front wall's outer face is not measured
	d, _ := measured(t, ma)
	from, to := along(d, "front_wall", "fill-part ln-guessed")
	require.Equal(t, 118.0, from)
	require.Greater(t, to, from)
	from, to = along(d, "rear_wall", outline)
	require.Equal(t, [2]float64{0, 6}, [2]float64{from, to})
	require.Contains(t, d.Desc, "dashes")
}

// No line of a letter goes through what says where 0 is, on any usual axis.
func TestMeasureViewDatumIsClear(t *testing.T) {
	datums := 0
	for _, k := range preset.Kinds {
		m, ok := preset.Machine(k.Key, preset.Medium)
		require.True(t, ok, k.Key)
		p, err := m.Build("")
		require.NoError(t, err)
		for _, l := range p.Layouts {
			d, _ := drawing.MeasureView(l, p.Result, drawing.Options{})
			for _, x := range texts(d, "part-name") {
				if !strings.HasPrefix(x.Text, "0: ") {
					continue
				}
				datums++
				x0, x1, y0, y1 := x.Box()
				each(d.Shapes, func(s drawing.Shape, _ []drawing.Group) {
					lines, ok := s.(drawing.Lines)
					if !ok || lines.Class != "dim" {
						return
					}
					for _, g := range lines.Segments {
						through := g.A.X == g.B.X && g.A.X > x0 && g.A.X < x1 && min(g.A.Y, g.B.Y) < y0 && max(g.A.Y, g.B.Y) > y1
						require.False(t, through, "%s, %s: a line through %q", k.Key, l.Key, x.Text)
					}
				})
			}
		}
	}
	require.Greater(t, datums, 15)
}

// An axis that goes up and down is drawn lying, and an arrow says which end is up.
func TestUpMark(t *testing.T) {
	up := func(key string) (mark *drawing.Text, middle float64) {
		a, ok := preset.Axis(key, preset.Medium)
		require.True(t, ok, key)
		p := build(t, machine.Machine{Axes: []axis.Axis{a}}, "")
		d := drawing.SideView(p.Layouts[0], p.Result, drawing.Options{})
		for _, x := range texts(d, "part-name") {
			if x.Text == "up" {
				mark = &x
			}
		}
		return mark, d.X + d.Width/2
	}
	knee, middle := up("knee")
	require.NotNil(t, knee)
	require.Greater(t, knee.X, middle, "a knee counts up, and up is to the right")
	quill, middle := up("drill_quill")
	require.NotNil(t, quill)
	require.Less(t, quill.X, middle, "a drill's quill counts down, so up is to the left")
	cross, _ := up("cross_slide")
	require.Nil(t, cross)
}
