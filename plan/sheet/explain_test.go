package sheet_test

import (
	"strings"
	"testing"
	"unicode"

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
		{"pow(a, 2) / 3", "A² / 3", "1.5² / 3"},
		{"pow(a / b, 3) - pow(c, -12)", "(A / b)³ − c⁻¹²", "(1.5 / 4)³ − (−2)⁻¹²"},
		{"-pow(a, 2)", "−A²", "−1.5²"},
		{"pow(-a, 2)", "(−A)²", "(−1.5)²"},
		{"pow(pow(a, 2), 3)", "(A²)³", "(1.5²)³"},
		{"pow(a, 1/3) + pow(b, -0.5)", "A^(1 / 3) + b^(−0.5)", "1.5^(1 / 3) + 4^(−0.5)"},
		{"pow(max(a, b), 2)", "max(A, b)²", "max(1.5, 4)²"},
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
func typed(shown string) string {
	s := strings.NewReplacer("−", "-", "×", "*", "≤", "<=", "≥", ">=", "π", "pi", "∞", "inf").Replace(shown)
	for {
		at := strings.IndexAny(s, "^⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
		if at < 0 {
			return s
		}
		from := baseOf(s, at)
		exponent, rest := "", s[at:]
		if strings.HasPrefix(rest, "^") {
			end := closing(rest, 1)
			exponent, rest = rest[2:end], rest[end+1:]
		} else {
			tail := strings.TrimLeft(rest, "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
			exponent, rest = lowered.Replace(rest[:len(rest)-len(tail)]), tail
		}
		s = s[:from] + "pow(" + s[from:at] + ", " + exponent + ")" + rest
	}
}

var lowered = strings.NewReplacer("⁻", "-", "⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9")

// closing is the place of the bracket that closes the one at open.
func closing(s string, open int) int {
	depth := 0
	for i := open; i < len(s); i++ {
		switch s[i] {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				return i
			}
		}
	}
	return len(s) - 1
}

// baseOf is where that begins which is raised to the power that stands at at.
func baseOf(s string, at int) int {
	word := func(end int) int {
		return strings.LastIndexFunc(s[:end], func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' && r != '.' }) + 1
	}
	if !strings.HasSuffix(s[:at], ")") {
		return word(at)
	}
	depth := 0
	for i := at - 1; i >= 0; i-- {
		switch s[i] {
		case ')':
			depth++
		case '(':
			if depth--; depth == 0 {
				return word(i)
			}
		}
	}
	return 0
}

func TestWhatIsShownGivesTheFigure(t *testing.T) {
	for _, formula := range []string{
		"a - (b - c) - (a - b - (c - a))", "a / (b / (c / a)) / b", "(a + b) * (a - c) / (b - a * c)",
		"-(a - -(b * -c))", "-pow(a - c, 2) / (a * b)", "max(a - (b + c), min(-a, -b - -c))",
		"when(a - b < c, a - (c - b), 1)", "1 - (2 - (3 - a)) / (b / c)", "sqrt(a * a + (b - c) * (b - c))",
		"pow(a + b, 2) / pow(-a, 3) - pow(pow(b, -2), 2)", "pow(b, 1/3) * pow(max(a, b) / a, 0.5)", "-pow(c, 4) + 2 * pi * pow(b, 12)",
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
			require.InDelta(t, want, build(typed(e.Formula)).Value("y", sheet.Planned), 1e-12, e.Formula)
			require.InDelta(t, want, build(typed(e.Numbers)).Value("y", sheet.Planned), 1e-12, e.Numbers)
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

// Two lengths with one symbol are told apart by their labels: (L / L)³ says nothing.
func TestExplainTellsInputsApart(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(sheet.Q{Key: "after", Symbol: "L", Label: "column after", Unit: unit.One}, exactly(3))
		m.Measure(sheet.Q{Key: "before", Symbol: "L", Label: "column, as found", Unit: unit.One}, exactly(2))
		m.Measure(sheet.Q{Key: "k", Symbol: "k", Label: "factor", Unit: unit.One}, exactly(5))
		m.Formula(one("y"), "k * pow(after / before, 3)", "geometry")
	})
	e, _ := r.Explain("y", sheet.Planned)
	require.Equal(t, "k × (column after / “column, as found”)³", e.Formula)
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
