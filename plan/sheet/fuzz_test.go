package sheet_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// FuzzFormula takes any text for a formula, and everything that can be asked of
// one that is good. There is never a panic, and what is shown of a formula can
// be typed again and gives the very same value.
func FuzzFormula(f *testing.F) {
	for _, seed := range []string{
		"length - 0.5 * (width - mm(3))", "min(stops, tray) / max(length, 1e-3 * width)", "sum(stops) - count(nothing) * width",
		"when(length < tray, stock(length), -width)", "pow(length, 3) / area", "sqrt(area) + abs(length - width) * sin(pi / n)",
		"((((length))))", "-(-(-length))", "length*length/length", "inf", "0", "length / 0", "log(-1) * length", "pow(0, -1) * tray",
		"tray - tray", "tray * 0", "0 * inf * length", "min(inf, length)", "ceil(tray / length) * mm(1)", "a.b.c", "1e309", "\"", "\x00", "ä",
	} {
		f.Add(seed)
	}
	files, err := filepath.Glob("testdata/*.txt")
	require.NoError(f, err)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(f, err)
		for _, pair := range strings.Split(string(text), "\n\n") {
			formula, _, _ := strings.Cut(pair, "\n")
			f.Add(formula)
		}
	}
	build := func(text string) (*sheet.Result, error) {
		s := sheet.New()
		m := s.Root()
		words(s, m)
		m.Measure(mm("tray"), between(2, inf))
		m.Formula(mm("y"), text, "any")
		m.Check(sheet.Check{Key: "c", Figure: "y", Limit: "length", Sentence: "{figure} {limit}"})
		s.Reached(sheet.Now)
		m.Change("length", "was + width", "decided")
		m.Change("n", "was * 2", "decided")
		return s.Bind()
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := build(text)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		y, ok := r.Figure("y", sheet.Planned)
		require.True(t, ok)
		require.False(t, y.Lo > y.Hi, "%g to %g", y.Lo, y.Hi)
		require.NotEmpty(t, y.Text(3))
		r.Uncertainty("y", sheet.Planned)
		r.Derivative("y", "length", sheet.Planned)
		r.Missing("y", sheet.Planned)
		r.KnockOns("y")
		r.Checks()
		r.Faults()
		r.HowFar("width", sheet.Goal{Key: "y"}, 10)
		again, _ := r.Figure("y", sheet.Planned)
		require.Equal(t, y.Text(3), again.Text(3), "how far leaves it as it was")

		e, ok := r.Explain("y", sheet.Planned)
		require.True(t, ok)
		require.NotEmpty(t, e.Numbers)
		for _, unlike := range []string{" mm", " µm", " N", " MPa", " GPa", " kg", "°", " m/s²", "none"} {
			if strings.Contains(e.Formula, unlike) {
				return // written with a unit, or with what is not there
			}
		}
		same, err := build(typed(e.Formula))
		require.NoError(t, err, e.Formula)
		if v := same.Value("y", sheet.Planned); !math.IsNaN(v) || !math.IsNaN(r.Value("y", sheet.Planned)) {
			require.Equal(t, r.Value("y", sheet.Planned), v, e.Formula)
		}
	})
}
