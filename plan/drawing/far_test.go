package drawing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/drawing"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

func limit(label string, level sheet.Level, to float64) sheet.Limit {
	return sheet.Limit{Check: sheet.Check{Label: label, Level: level}, To: to}
}

// The lathe's answer, from the issue.
func lathesReach() sheet.Reach {
	return sheet.Reach{To: 15, AtMost: true, Best: 19, Limits: []sheet.Limit{
		limit("Front wall", sheet.Rule, 15), limit("Swing over bed", sheet.Use, 19), limit("Nut on full thread", sheet.Rule, 22),
		limit("Slide overhang", sheet.Rule, 25), limit("Nut engaged", sheet.Rule, 28),
	}}
}

func TestFarBar(t *testing.T) {
	d := drawing.FarBar("far", lathesReach(), 12, unit.MM)
	_, track := along(d, "", "far-track")
	_, can := along(d, "", "far-can")
	require.InDelta(t, 15.0/30, can/track, 1e-9, "filled to 15 of 30")
	require.Equal(t, "12", texts(d, "far-asked")[0].Text)
	var names []string
	for _, x := range texts(d, "") {
		names = append(names, x.Figure+" "+x.Text)
	}
	require.Equal(t, []string{"15 front wall", "19 swing over bed (use)", "22 nut on full thread", "25 slide overhang", "28 nut engaged"}, names)
	require.Contains(t, d.Desc, "12 mm asked. Every check holds up to 15 mm. That is at most: something in the way is not measured. At 15 mm: front wall (rule).")
}

func TestFarBarNowhere(t *testing.T) {
	d := drawing.FarBar("far", sheet.Reach{From: 60, To: 40, Limits: []sheet.Limit{limit("Stiffness", sheet.Rule, 40)}}, 50, unit.MM)
	require.Zero(t, count(d, "far-can"))
	require.Contains(t, d.Desc, "There is no amount at which every check holds.")
	d = drawing.FarBar("far", sheet.Reach{From: 30, To: 40, Limits: []sheet.Limit{limit("Stiffness", sheet.Rule, 40)}}, math.NaN(), unit.MM)
	from, _ := along(d, "", "far-can")
	require.Greater(t, from, 0.0, "it begins where the tallest work goes under")
	require.Empty(t, texts(d, "far-asked"))
}

// Marks close together, at the ends, and with long names: every text within the bar's width, none on another.
func TestFarBarKeepsApart(t *testing.T) {
	long := "A very long name of a check that nobody would ever think of giving"
	for name, limits := range map[string][]sheet.Limit{
		"close":     {limit("One", sheet.Stop, 10), limit("Two", sheet.Stop, 10.1), limit("Three", sheet.Stop, 10.2)},
		"at none":   {limit("One", sheet.Stop, 0), limit(long, sheet.Stop, 0.5), limit("Three", sheet.Rule, 60)},
		"long":      {limit(long, sheet.Use, 1), limit(long, sheet.Stop, 30), limit(long, sheet.Rule, 59)},
		"endless":   {limit("One", sheet.Stop, math.Inf(1)), limit("Two", sheet.Stop, math.NaN())},
		"many":      {limit("A", "", 1), limit("B", "", 2), limit("C", "", 3), limit("D", "", 4), limit("E", "", 5), limit("F", "", 6), limit("G", "", 7), limit("H", "", 8), limit("J", "", 9)},
		"enormous":  {limit("One", sheet.Stop, 1e12), limit("Two", sheet.Stop, 9e4)},
		"mixed":     {limit("What is not named", sheet.Stop, 0), limit("Nut on full thread", sheet.Rule, 6), limit("Table's back edge", sheet.Use, 10), limit("Nut engaged", sheet.Rule, 16), limit("Saddle overhang", sheet.Rule, 40.67)},
		"far apart": {limit("Lowest work can be reached", sheet.Rule, 50), limit("Gas strut or cable", sheet.Stop, 90), limit("Stiffness of the column", sheet.Rule, 217.68)},
		"identical": {limit("One", sheet.Stop, 5), limit("Two", sheet.Stop, 5)},
	} {
		t.Run(name, func(t *testing.T) {
			d := drawing.FarBar("far", sheet.Reach{To: limits[0].To, Limits: limits}, 12, unit.MM)
			all := texts(d, "", "far-asked")
			apart(t, all)
			for _, x := range all {
				from, to, _, foot := x.Box()
				require.GreaterOrEqual(t, from, 0.0, x.Text)
				require.LessOrEqual(t, to, d.Width, x.Text)
				require.LessOrEqual(t, foot, d.Height, x.Text)
			}
			// No line goes through a text.
			each(d.Shapes, func(s drawing.Shape, _ []drawing.Group) {
				l, ok := s.(drawing.Lines)
				if !ok || l.Class == "far-mark" {
					return
				}
				for _, x := range texts(d, "") {
					from, to, top, _ := x.Box()
					at := l.Segments[0]
					require.False(t, from < at.A.X && at.A.X < to && top < at.B.Y, "%v through %q", at, x.Text)
				}
			})
			wellFormed(t, d)
		})
	}
}
