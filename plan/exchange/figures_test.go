package exchange_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/bench"
	"fettle/plan/exchange"
)

// Geometry: cot 30° is √3, so the reading over rollers of 6 is 40 + 6 (1 + √3) = 56.3923; they touch at 4.5 of 9.
func TestFigures(t *testing.T) {
	c, err := bench.Run("dovetail_male", map[string]string{"roller": "6", "narrow": "40", "depth": "9"})
	require.NoError(t, err)
	out := exchange.FiguresOf(c, nil)
	require.Equal(t, "dovetail_male", out.Method)
	require.Equal(t, "60", out.Inputs["angle"], "the default is told, too")
	reading := out.Outputs["over_rollers"]
	require.InDelta(t, 56.392305, *reading.Value, 1e-6)
	require.Equal(t, "mm", reading.Unit)
	require.Zero(t, *reading.Uncertainty)
	require.Equal(t, "holds", out.Checks[0].Verdict)
	require.InDelta(t, 4.5, *out.Checks[0].Margin, 1e-9)
	require.Empty(t, out.Problems)
}

func TestFiguresWithProblems(t *testing.T) {
	c, err := bench.Run("dovetail_male", map[string]string{"roller": "six", "narrow": "40"})
	require.Error(t, err)
	out := exchange.FiguresOf(c, err)
	require.Equal(t, "six", out.Inputs["roller"], "what was typed is kept")
	require.Len(t, out.Problems, 1)
	require.Equal(t, "roller", out.Problems[0].Field)
	text, err := json.Marshal(out)
	require.NoError(t, err)
	require.Contains(t, string(text), `"outputs":{},"checks":[],"problems":[{"field":"roller","say":"`)
}

// A ring's load is known within a half: 95 of 100 within ± 50 % is a standard uncertainty, and it is told.
func TestFiguresTellUncertainty(t *testing.T) {
	c, err := bench.Run("friction_ring", nil)
	require.NoError(t, err)
	drag := exchange.FiguresOf(c, nil).Outputs["drag"]
	require.Positive(t, *drag.Uncertainty)
	require.Less(t, *drag.Uncertainty, *drag.Value/2)
	require.Equal(t, "N", drag.Unit)
}

// Nothing has no sign: 12 H7/p6 just touches at the most (+18 and +18 µm, ISO 286-2), and −0 is no figure to print.
func TestNothingHasNoSign(t *testing.T) {
	c, err := bench.Run("fit_press", map[string]string{"size": "12", "hole": "H7", "shaft": "p6"})
	require.NoError(t, err)
	text, err := json.Marshal(exchange.FiguresOf(c, nil))
	require.NoError(t, err)
	require.Contains(t, string(text), `"least.overlap":{"value":0,`)
	require.NotContains(t, string(text), ":-0,")
}
