package drawing_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/dial"
	"fettle/plan/drawing"
	parts "fettle/plan/part"
	"fettle/plan/unit"
)

// marks are the places of the upright lines of a strip, from left to right.
func marks(d *drawing.Drawing) (at []float64, long map[string]float64) {
	long = map[string]float64{}
	walk(d.Shapes, func(s drawing.Shape) {
		if l, ok := s.(drawing.Lines); ok && l.Class == "ln-mark" {
			for _, m := range l.Segments {
				at = append(at, m.A.X)
				long[fmt.Sprintf("%.4f", m.A.X)] = m.B.Y - m.A.Y
			}
		}
	})
	slices.Sort(at)
	return at, long
}

// The strip is π D long, its lines π D / N apart, each where its numeral says.
func TestDialStrip(t *testing.T) {
	for _, tc := range []struct {
		divisions, every int
		dia              float64
	}{{75, 5, 34}, {100, 10, 40}, {127, 10, 61}, {250, 10, 95}, {40, 4, 24}} {
		for _, clockwise := range []bool{true, false} {
			for _, upright := range []bool{true, false} {
				p := dialPart()
				p.Dial.Divisions, p.Dial.Dia.Nominal, p.Dial.Clockwise, p.Dial.Upright = tc.divisions, tc.dia, clockwise, upright
				p.Dial.Every[0].Divisions, p.Dial.Every[0].Step = tc.every, float64(tc.every)
				d := drawing.DialStrip(&p, "strip")
				wellFormed(t, d)
				within(t, d)
				require.InDelta(t, math.Pi*tc.dia, d.Width, 1e-9)
				require.InDelta(t, 14, d.Height, 1e-9)
				at, long := marks(d)
				require.Len(t, at, tc.divisions)
				step := math.Pi * tc.dia / float64(tc.divisions)
				require.InDelta(t, step, at[0]+d.Width-at[len(at)-1], 1e-9, "the joint is one step too")
				for i := range at[1:] {
					require.InDelta(t, step, at[i+1]-at[i], 1e-9)
				}
				zero, turned := math.NaN(), 0
				numerals := map[string]float64{}
				for _, x := range everyText(d) {
					numerals[x.Text] = x.X
					if x.Text == "0" {
						zero = x.X
					}
					if x.Inverted {
						turned++
					}
					require.InDelta(t, 5, long[fmt.Sprintf("%.4f", x.X)], 1e-9, "a numeral stands at a long line")
				}
				require.Equal(t, upright, turned == 0)
				for text, x := range numerals {
					var n float64
					_, err := fmt.Sscan(text, &n)
					require.NoError(t, err)
					if !clockwise {
						n = -n // seen from outside with the handle below, they grow to the left
					}
					off := math.Mod(x-zero-n*step+3*d.Width, d.Width)
					require.InDelta(t, 0, min(off, d.Width-off), 1e-6, text)
				}
			}
		}
	}
	require.Nil(t, drawing.DialStrip(&parts.Part{}, "none"))
}

// A strip longer than the paper is in pieces that overlap: laid line on line, they are the whole.
func TestDialStripInPieces(t *testing.T) {
	for _, dia := range []float64{34, 60, 95, 150, 400} {
		p := dialPart()
		p.Dial.Dia.Nominal = dia
		var strips []*drawing.Drawing
		for _, d := range drawing.PartSheets([]parts.Part{p}, sheetOptions()) {
			if d.Paper.Label == "Dial, 75 divisions, strip" {
				strips = append(strips, d)
				within(t, d)
				apart(t, everyText(d))
			}
		}
		lines := 0
		for _, d := range strips {
			require.Equal(t, 1.0, d.Paper.Scale)
			at, _ := marks(d)
			lines += len(at)
		}
		require.GreaterOrEqual(t, lines, 75)
		if dia >= 400 {
			require.Greater(t, len(strips), 0)
		}
		pieces := 0
		for _, d := range strips {
			for _, x := range everyText(d) {
				if x.Text == "handle's side" {
					pieces++
				}
			}
		}
		room := 267.0 - 8
		if math.Pi*dia+10 <= 180-8 {
			room = 180 - 8
		}
		want := int(math.Ceil(math.Pi * dia / (room - 10)))
		require.Equal(t, max(1, want), pieces, "%g", dia)
	}
}

func TestDialLines(t *testing.T) {
	lines := drawing.DialLines(dialPart().Dial)
	require.Len(t, lines, 75)
	require.Equal(t, "0", lines[0].Numeral)
	require.Equal(t, "1.4", lines[70].Numeral)
	require.InDelta(t, 336, lines[70].Angle, 1e-9)
	require.InDelta(t, 70*math.Pi*34/75, lines[70].Arc, 1e-9)
	require.Empty(t, lines[71].Numeral)
	require.Equal(t, 3.0, lines[71].Length)

	// 40 turns of the crank to 75 lines are 8/15 of a turn each: 8 holes of a circle of 15.
	table := drawing.Dividing(dialPart().Dial, 40, []int{15, 16, 18})
	require.Equal(t, []dial.Move{{Circle: 15, Holes: 8}}, table.Moves)
	require.Nil(t, table.Around)
	p := dialPart()
	p.Dial.Divisions = 127
	table = drawing.Dividing(p.Dial, 40, []int{15, 16, 18})
	require.Nil(t, table.Moves)
	require.NotEmpty(t, table.Around)
}

// The sizes of a part as a table: what the drawing says, in words and figures.
func TestRows(t *testing.T) {
	p := bracketPart()
	rows := drawing.Rows(&p, sheetOptions())
	by := map[string]drawing.Row{}
	for i, r := range rows {
		require.Equal(t, i+1, r.Number)
		require.NotEmpty(t, r.Label)
		require.NotEmpty(t, r.Nominal)
		by[r.Label] = r
	}
	seat := by["seat for the bearing"]
	require.Equal(t, []string{"⌀19", "+0.021", "0", "H7"}, []string{seat.Nominal, seat.Upper, seat.Lower, seat.Limits})
	body := by["body, length"]
	require.Equal(t, []string{"28.5", "cross.bracket.body", "cross.dial.from", "the gap from the wall to the dial"}, []string{body.Nominal, body.Key, body.Awaits, body.Suits})
	require.Equal(t, "ISO 2768-m", by["body, diameter"].Limits)

	e := extensionPart()
	var nominals []string
	for _, r := range drawing.Rows(&e, sheetOptions()) {
		nominals = append(nominals, r.Nominal)
	}
	require.Contains(t, nominals, "M10×1")

	o := sheetOptions()
	o.Units = unit.Inch
	inch := drawing.Rows(&p, o)
	require.Len(t, inch, len(rows))
	require.Equal(t, "⌀0.748", func() string {
		for _, r := range inch {
			if r.Label == "seat for the bearing" {
				return r.Nominal
			}
		}
		return ""
	}())
}

// Assembly, exploded view and parts of the demo machines are one set: on the paper, legible, numbered.
func TestSheetsOfDemos(t *testing.T) {
	for _, ma := range demo.Machines() {
		p, err := ma.Build("")
		require.NoError(t, err)
		for i, l := range p.Layouts {
			o := sheetOptions()
			o.ThirdAngle = i%2 == 1
			sheets := drawing.Sheets(drawing.Set{Layout: l, Result: p.Result, Parts: madeParts()}, o)
			require.GreaterOrEqual(t, len(sheets), 10)
			ids := map[string]bool{}
			for n, d := range sheets {
				require.Equal(t, n+1, d.Paper.Number)
				require.Equal(t, len(sheets), d.Paper.Of)
				require.False(t, ids[d.ID])
				ids[d.ID] = true
				wellFormed(t, d)
				within(t, d)
				var all []drawing.Text
				for _, x := range everyText(d) {
					if x.Class != "part-label" { // these stand within parts, and over them
						all = append(all, x)
					}
				}
				apart(t, all)
				dxf(t, d)
			}
		}
	}
}

// Pulled apart, the parts follow one another along the axis in the order in which they go on.
func TestExploded(t *testing.T) {
	lathe := demo.Lathe()
	p, err := lathe.Build("")
	require.NoError(t, err)
	sheets := drawing.Sheets(drawing.Set{Layout: p.Layouts[0], Result: p.Result, Parts: []parts.Part{bracketPart(), dialPart()}}, sheetOptions())
	require.Equal(t, "Cross slide, in order of fitting", sheets[1].Paper.Label)
	var numbers []drawing.Text
	var notes []string
	for _, x := range everyText(sheets[1]) {
		if x.Class == "letter" {
			numbers = append(numbers, x)
		}
		notes = append(notes, x.Text)
	}
	require.GreaterOrEqual(t, len(numbers), 3)
	for i, n := range numbers {
		require.Equal(t, fmt.Sprint(i+1), n.Text)
		if i > 0 {
			require.Greater(t, n.X, numbers[i-1].X)
		}
	}
	require.Contains(t, notes, "1 Bracket (to make, see its own sheet)")
	require.Contains(t, notes, "2 Dial, 75 divisions (to make, see its own sheet)")
}
