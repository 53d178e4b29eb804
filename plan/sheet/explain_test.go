package sheet_test

import (
	"strings"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

func TestExplain(t *testing.T) {
	for _, tc := range []struct{ formula, symbols, numbers string }{
		{"a - (b - c)", "A − (b − c)", "1.5 − (4 − (−2))"},
		{"(a - b) - c", "A − b − c", "1.5 − 4 − (−2)"},
		{"a + (b + c)", "A + (b + c)", "1.5 + (4 + (−2))"},
		{"a / (b * c)", "A / (b × c)", "1.5 / (4 × (−2))"},
		{"(a / b) * c", "A / b × c", "1.5 / 4 × (−2)"},
		{"a / (b / c)", "A / (b / c)", "1.5 / (4 / (−2))"},
		{"a * (b + c)", "A × (b + c)", "1.5 × (4 + (−2))"},
		{"-(a + b)", "−(A + b)", "−(1.5 + 4)"},
		{"-(a * b)", "−A × b", "−1.5 × 4"},
		{"-a * b", "(−A) × b", "(−1.5) × 4"},
		{"a - -b", "A − (−b)", "1.5 − (−4)"},
		{"a + -b", "A + (−b)", "1.5 + (−4)"},
		{"-c", "−c", "−(−2)"},
		{"-(-a)", "−(−A)", "−(−1.5)"},
		{"max(0, c)", "max(0, c)", "max(0, −2)"},
		{"min(all)", "min(A, b, c)", "min(1.5, 4, −2)"},
		{"sum(none, a)", "sum(none, A)", "sum(none, 1.5)"},
		{"when(a <= b, a, b - c)", "when(A ≤ b, A, b − c)", "when(1.5 ≤ 4, 1.5, 4 − (−2))"},
		{"when(a > b, a, b)", "when(A > b, A, b)", "when(1.5 > 4, 1.5, 4)"},
		{"pow(a, 2) / 3", "pow(A, 2) / 3", "pow(1.5, 2) / 3"},
		{"2 * pi * a", "2 × π × A", "2 × π × 1.5"},
		{"min(inf, a)", "min(∞, A)", "min(∞, 1.5)"},
		{"1.5e-3 * a", "0.0015 × A", "0.0015 × 1.5"},
	} {
		t.Run(tc.formula, func(t *testing.T) {
			r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
				m.Measure(sheet.Q{Key: "a", Symbol: "A", Label: "width", Unit: unit.One}, exactly(1.5))
				m.Measure(one("b"), exactly(4))
				m.Measure(one("c"), exactly(-2))
				m.Family("all", "all", unit.One, "a", "b", "c")
				m.Family("none", "none", unit.One)
				m.Formula(one("y"), tc.formula, "JCGM 100:2008")
			})
			e, ok := r.Explain("y", sheet.Planned)
			require.True(t, ok)
			require.Equal(t, tc.symbols, e.Formula)
			require.Equal(t, tc.numbers, e.Numbers)
			require.Equal(t, "JCGM 100:2008", e.Source)
		})
	}
}

// typed turns what is shown back into what can be typed.
var typed = strings.NewReplacer("−", "-", "×", "*", "≤", "<=", "≥", ">=")

func TestWhatIsShownGivesTheFigure(t *testing.T) {
	for _, formula := range []string{
		"a - (b - c) - (a - b - (c - a))", "a / (b / (c / a)) / b", "(a + b) * (a - c) / (b - a * c)",
		"-(a - -(b * -c))", "-pow(a - c, 2) / (a * b)", "max(a - (b + c), min(-a, -b - -c))",
		"when(a - b < c, a - (c - b), 1)", "1 - (2 - (3 - a)) / (b / c)", "sqrt(a * a + (b - c) * (b - c))",
	} {
		t.Run(formula, func(t *testing.T) {
			build := func(f string) *sheet.Result {
				return bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
					m.Measure(one("a"), exactly(1.5))
					m.Measure(one("b"), exactly(4))
					m.Measure(one("c"), exactly(-2.25))
					m.Formula(one("y"), f, "invented")
				})
			}
			r := build(formula)
			e, _ := r.Explain("y", sheet.Planned)
			want := r.Value("y", sheet.Planned)
			require.InDelta(t, want, build(typed.Replace(e.Formula)).Value("y", sheet.Planned), 1e-12, e.Formula)
			require.InDelta(t, want, build(typed.Replace(e.Numbers)).Value("y", sheet.Planned), 1e-12, e.Numbers)
		})
	}
}

func TestNumbersInAFormula(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("length"), exactly(36.512345))
		m.Measure(mm("short"), exactly(36))
		m.Measure(sheet.Q{Key: "fit", Label: "fit", Unit: unit.Micrometre}, exactly(0.0123))
		m.Measure(sheet.Q{Key: "inches", Label: "inches", Unit: unit.Inch}, exactly(25.4))
		m.Measure(sheet.Q{Key: "warm", Label: "warm", Unit: unit.Celsius}, exactly(3))
		m.Measure(sheet.Q{Key: "angle", Label: "angle", Unit: unit.Degree}, exactly(unit.Degree.Inside(30)))
		m.Measure(sheet.Q{Key: "torque", Label: "torque", Unit: unit.NewtonMetre}, exactly(3000))
		m.Measure(mm("guess"), sheet.Leaf{Origin: sheet.Unknown})
		m.Measure(mm("endless"), exactly(inf))
		m.Formula(mm("lengths"), "length + short - fit + inches + mm(0.5)", "geometry")
		m.Formula(one("rest"), "warm / warm + torque / nm(1) * sin(angle + deg(15))", "geometry")
		m.Formula(mm("open"), "min(guess, endless)", "geometry")
	})
	for key, want := range map[string]string{
		"lengths": "36.51 + 36.0 − 0.0123 + 25.4 + 0.5 mm", // lengths are bare millimetres
		"rest":    "3 K / 3 K + 3 N·m / 1 N·m × sin(30° + 15°)",
		"open":    "min(?, ∞ mm)",
	} {
		e, ok := r.Explain(key, sheet.Planned)
		require.True(t, ok)
		require.Equal(t, want, e.Numbers)
	}
}

func TestExplainAChange(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		slideway(m)
		s.Reached(sheet.Found)
		s.Reached(sheet.Now)
		moreTravel(s, m, "first", 12)
	})
	e, ok := r.Explain("bracket", sheet.Planned)
	require.True(t, ok)
	require.Equal(t, "was + longer", e.Formula)
	require.Equal(t, "26.0 + 10.5", e.Numbers)
	require.Equal(t, 26.0, e.Was.Value)
	require.Equal(t, []string{"first.longer"}, labels(e.Inputs))
	require.Equal(t, "first", e.Author)

	e, ok = r.Explain("bracket", sheet.Now)
	require.True(t, ok)
	require.Empty(t, e.Formula, "measured, not computed")
	require.Nil(t, e.Was)

	e, ok = r.Explain("reach", sheet.Planned)
	require.True(t, ok)
	require.Equal(t, "min(stop_wall, stop_bracket)", e.Formula)
	require.Equal(t, []string{"stop_wall", "stop_bracket"}, labels(e.Inputs))

	_, ok = r.Explain("first.cut", sheet.Now)
	require.False(t, ok, "it is not there yet")
	_, ok = r.Explain("none", sheet.Now)
	require.False(t, ok)
}
