package drawing_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/drawing"
	"fettle/plan/unit"
)

// The lathe with 12 mm more: 11 of the wall are left, 8 are to stay, and both
// stand in the plot; so does the chosen point, once on every panel.
func TestCurve(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = "12"
	p, err := m.Build("1")
	require.NoError(t, err)
	c, ok := p.Curve(p.Site("1"))
	require.True(t, ok)
	d := drawing.Curve("cost", c, unit.MM)
	var b strings.Builder
	require.NoError(t, d.SVG(&b))
	require.Contains(t, b.String(), "least 8")
	require.Contains(t, d.Desc, "its limit 8 mm")
	dots, least := 0, false
	for _, s := range d.Shapes {
		switch s := s.(type) {
		case drawing.Circle:
			dots++
			require.InDelta(t, d.Width/2, s.X, d.Width/2)
			require.InDelta(t, d.Height/2, s.Y, d.Height/2)
		case drawing.Text:
			least = least || s.Text == "11"
			x0, x1, y0, y1 := s.Box()
			require.True(t, x0 >= 0 && x1 <= d.Width && y0 >= 0 && y1 <= d.Height, "%s stands outside", s.Text)
		}
	}
	require.Equal(t, len(c.Prices), dots)
	require.True(t, least)
}
