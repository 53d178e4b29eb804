package sheet_test

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

// stock rounds a length up to whole millimetres.
var stock = &sheet.Func{
	Name: "stock", Args: []unit.Dim{unit.LengthD}, Result: unit.LengthD, Monotone: true,
	F: func(x []float64) float64 { return math.Ceil(x[0]) },
}

// words is a sheet on which formulas are tried: length 3 mm, width 5 mm, area
// 4 mm², force 8 N, n 2, and the family stops of length and width.
func words(s *sheet.Sheet, m *sheet.Scope) {
	s.Register(stock)
	m.Measure(mm("length"), within(3, 0.1))
	m.Measure(mm("width"), within(5, 0.1))
	m.Measure(sheet.Q{Key: "area", Label: "area", Unit: unit.MM2}, exactly(4))
	m.Measure(sheet.Q{Key: "force", Label: "force", Unit: unit.Newton}, exactly(8))
	m.Measure(one("n"), exactly(2))
	m.Family("stops", "stops", unit.MM, "length", "width")
	m.Family("nothing", "nothing", unit.MM)
}

func TestBrokenFormulas(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	require.NoError(t, err)
	require.Len(t, files, 3)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, pair := range strings.Split(strings.TrimSpace(string(text)), "\n\n")[1:] {
			formula, mark, ok := strings.Cut(pair, "\n")
			require.True(t, ok, pair)
			t.Run(formula, func(t *testing.T) {
				err := refused(t, func(s *sheet.Sheet, m *sheet.Scope) {
					words(s, m)
					m.Formula(mm("y"), formula, "invented")
				})
				var fault *sheet.FormulaError
				require.ErrorAs(t, err, &fault)
				require.Equal(t, formula, fault.Text)
				column := len([]rune(formula[:min(fault.Pos-1, len(formula))]))
				require.Equal(t, mark, strings.Repeat(" ", column)+"^ "+fault.Say)
				require.Equal(t, err.Error(), fault.Error(), "said once, and nothing else")
			})
		}
	}
}

func TestTooLong(t *testing.T) {
	err := refused(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Formula(one("y"), strings.Repeat("1 + ", 400)+"1", "invented")
	})
	require.ErrorContains(t, err, "longer than 1000 characters")
}

func TestFormulas(t *testing.T) {
	one, n, mm2 := unit.One, unit.Newton, unit.MM2
	for _, tc := range []struct {
		formula string
		unit    unit.Unit
		want    float64 // inside; by hand
	}{
		{"length + 0.5 * width", unit.MM, 5.5},
		{"-length - -width", unit.MM, 2},
		{"length * width - area", mm2, 11},
		{"8 / 2 / 2", one, 2},
		{"2 - 3 - 4", one, -5},
		{"2 - (3 - 4)", one, 3},
		{"mm(0.5) + um(250)", unit.MM, 0.75},
		{"nm(2) / length", n, 2000.0 / 3},
		{"mpa(3) * area", n, 12},
		{"gpa(0.001) * area", n, 4},
		{"kg(2) * gravity(9.80665)", n, 19.6133},
		{"kg_per_m3(7850) * pow(mm(1000), 3) / kg(1)", one, 7850},
		{"newton_per_um(0.001) * length", n, 3},
		{"sin(deg(30))", one, 0.5},
		{"2 * pi", one, 2 * math.Pi},
		{"sqrt(area)", unit.MM, 2},
		{"pow(length, 2)", mm2, 9},
		{"pow(area, 0.5)", unit.MM, 2},
		{"pow(length * area, 1/3) * 1", unit.MM, math.Cbrt(12)},
		{"pow(length, -2) * pow(width, 2)", one, 25.0 / 9},
		{"abs(length - width)", unit.MM, 2},
		{"ceil(2.1) + floor(2.9)", one, 5},
		{"ceil(5.0000000001) + floor(4.9999999999)", one, 10}, // rounding errors are forgiven
		{"exp(log(7))", one, 7},
		{"4 * atan(1)", one, math.Pi},
		{"min(stops)", unit.MM, 3},
		{"max(stops, mm(7))", unit.MM, 7},
		{"sum(stops) / count(stops)", unit.MM, 4},
		{"count(length, stops, 0)", one, 4},
		{"min(nothing)", unit.MM, math.Inf(1)}, // an empty family stops nothing
		{"max(nothing)", unit.MM, math.Inf(-1)},
		{"sum(nothing)", unit.MM, 0},
		{"count(nothing)", one, 0},
		{"min(inf, length)", unit.MM, 3},
		{"max(0, length - width)", unit.MM, 0},
		{"0 * force", unit.MM, 0}, // nothing fits any dimension
		{"when(length < width, length, width)", unit.MM, 3},
		{"when(length > width, length, width)", unit.MM, 5},
		{"when(n <= 2, length, 0)", unit.MM, 3},
		{"when(n >= 2.1, length, 0)", unit.MM, 0},
		{"stock(length / 2)", unit.MM, 2},
		{"(length)", unit.MM, 3},
		{"1e3 * .5e-2", one, 5},
	} {
		t.Run(tc.formula, func(t *testing.T) {
			r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
				words(s, m)
				m.Formula(sheet.Q{Key: "y", Unit: tc.unit}, tc.formula, "invented")
			})
			if got := figure(t, r, "y", sheet.Planned).Value; math.IsInf(tc.want, 0) {
				require.Equal(t, tc.want, got)
			} else {
				require.InDelta(t, tc.want, got, 1e-12*math.Max(1, math.Abs(tc.want)))
			}
		})
	}
}

func TestNamesAreLookedUpOutwards(t *testing.T) {
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		axis := m.In("cross")
		nut := axis.In("nut")
		require.False(t, nut.Has("wall"))
		m.Measure(mm("wall"), exactly(1))
		require.True(t, nut.Has("wall"))
		m.Measure(mm("length"), exactly(10))
		nut.Formula(mm("outer"), "wall + length", "geometry")
		// What is defined nearer later is meant all the same: names are bound last.
		axis.Measure(mm("wall"), exactly(2))
		nut.Measure(mm("length"), exactly(30))
		m.Formula(mm("whole"), "cross.nut.length + cross.wall", "geometry")
		axis.Formula(mm("by_with"), "a + b", "geometry", sheet.With{"a": "nut.length", "b": "wall"})
		require.Equal(t, "cross.nut.length", nut.Key("length"))
		leaf, ok := nut.Leaf("length")
		require.True(t, ok)
		require.Equal(t, 30.0, leaf.Value)
		_, ok = nut.Leaf("outer")
		require.False(t, ok, "computed")
		_, ok = nut.Leaf("none")
		require.False(t, ok)
	})
	require.Equal(t, 32.0, r.Value("cross.nut.outer", sheet.Planned))
	require.Equal(t, 32.0, r.Value("whole", sheet.Planned))
	require.Equal(t, 32.0, r.Value("cross.by_with", sheet.Planned))
	require.Equal(t, "nut.length", sheet.Local("cross.nut.length", "cross"))
}

func TestMethod(t *testing.T) {
	root := sheet.Method{Text: "dia - 1.226869 * pitch", Source: "ISO 68-1", Valid: "for 60° threads"}
	always := sheet.Method{Text: "2 * dia", Source: "geometry"}
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("screw_dia"), exactly(12))
		m.Measure(mm("pitch"), exactly(1.5))
		m.Method(mm("root"), root, sheet.With{"dia": "screw_dia"})
		m.Method(mm("twice"), always, sheet.With{"dia": "screw_dia"})
	})
	require.InDelta(t, 10.159697, r.Value("root", sheet.Planned), 1e-6)
	require.Equal(t, "ISO 68-1; valid for 60° threads", figure(t, r, "root", sheet.Planned).Source)
	require.Equal(t, "geometry", figure(t, r, "twice", sheet.Planned).Source)
}

func TestAfterBinding(t *testing.T) {
	s := sheet.New()
	m := s.Root()
	require.Same(t, s, m.In("axis").Sheet())
	m.Measure(mm("a"), exactly(1))
	r, err := s.Bind()
	require.NoError(t, err)
	m.Measure(mm("late"), exactly(1))
	_, ok := r.Figure("late", sheet.Planned)
	require.False(t, ok, "what is defined after binding is not in the result")
	require.Equal(t, "as found, now, planned", fmt.Sprintf("%s, %s, %s", sheet.Found, sheet.Now, sheet.Planned))
}

func TestProgrammingErrors(t *testing.T) {
	for _, tc := range []struct {
		name   string
		define func(s *sheet.Sheet, m *sheet.Scope)
		want   []string // all of them, in order
	}{
		{"key of a keyword", func(_ *sheet.Sheet, m *sheet.Scope) { m.Measure(mm("part.type"), exactly(1)) },
			[]string{`part.type: "type" is no key: a word is of a-z, 0-9 and _, and no Go keyword`}},
		{"key that begins with a digit", func(_ *sheet.Sheet, m *sheet.Scope) { m.Measure(mm("2nd"), exactly(1)) },
			[]string{`2nd: "2nd" is no key: a word is of a-z, 0-9 and _, and no Go keyword`}},
		{"empty key", func(_ *sheet.Sheet, m *sheet.Scope) { m.Measure(mm(""), exactly(1)) },
			[]string{`: "" is no key: a word is of a-z, 0-9 and _, and no Go keyword`}},
		{"key with a meaning", func(_ *sheet.Sheet, m *sheet.Scope) { m.Measure(mm("wall.was"), exactly(1)) },
			[]string{`wall.was: "was" has a meaning of its own in formulas`}},
		{"family of a key", func(_ *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("a"), exactly(1))
			m.Family("a", "a", unit.MM)
		}, []string{"a is defined twice"}},
		{"key twice", func(_ *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("a"), exactly(1))
			m.Measure(mm("a"), exactly(2))
		}, []string{"a is defined twice"}},
		{"change of a derived figure", func(_ *sheet.Sheet, m *sheet.Scope) {
			m.Formula(mm("a"), "mm(1)", "invented")
			m.Change("a", "mm(2)", "decided")
		}, []string{"change of a: only a leaf can be changed; a derived figure follows by itself"}},
		{"change of a decision", func(_ *sheet.Sheet, m *sheet.Scope) {
			m.Fix(mm("a"), "mm(1)", "invented")
			m.Change("a", "mm(2)", "decided")
		}, []string{"change of a: only a leaf can be changed; a derived figure follows by itself"}},
		{"change of nothing", func(_ *sheet.Sheet, m *sheet.Scope) { m.In("axis").Change("a", "mm(2)", "decided") },
			[]string{"change of a from axis.: no such quantity"}},
		{"requirement on a derived figure", func(_ *sheet.Sheet, m *sheet.Scope) {
			m.Formula(mm("a"), "mm(1)", "invented")
			m.Require("a", "mm(2)", "decided")
		}, []string{"requirement on a from : no such leaf"}},
		{"family of two dimensions", func(_ *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("a"), exactly(1))
			m.Measure(one("b"), exactly(1))
			m.Family("f", "f", unit.MM, "a", "b", "a", "c")
		}, []string{"family f: b is number, not mm", "family f: a is in it already", "family f: no quantity c"}},
		{"drop of what is not in it", func(_ *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("a"), exactly(1))
			m.Family("f", "f", unit.MM)
			m.Drop("f", "a")
			m.Drop("g", "a")
		}, []string{"drop a from family f: no such", "drop a from family g: no such"}},
		{"removal of nothing", func(_ *sheet.Sheet, m *sheet.Scope) { m.Remove("dial") },
			[]string{"removal of dial from : no such quantity"}},
		{"check of nothing", func(_ *sheet.Sheet, m *sheet.Scope) { m.Check(sheet.Check{Key: "c", Figure: "a", Limit: "b"}) },
			[]string{"check c: no such figure or limit (a, b, )"}},
		{"circle", func(_ *sheet.Sheet, m *sheet.Scope) {
			m.Formula(mm("a"), "b + mm(1)", "invented")
			m.Formula(mm("b"), "c * 2", "invented")
			m.Formula(mm("c"), "a / 2", "invented")
		}, []string{"a is computed from itself: a ← b ← c ← a"}},
		{"circle through a requirement", func(_ *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("dia"), exactly(10))
			m.Formula(mm("load"), "dia * 2", "invented")
			m.Require("dia", "load + mm(1)", "invented")
		}, []string{"dia is computed from itself: dia ← dia_wanted_1 ← load ← dia"}},
		{"as found, of what an upgrade brings", func(s *sheet.Sheet, m *sheet.Scope) {
			m.Formula(mm("a"), "b * 2", "invented")
			s.Reached(sheet.Found)
			s.Upgrade("u")
			m.Measure(mm("b"), exactly(1))
		}, []string{`formula "b * 2", column 1: b is only defined later`}},
		{"of what is gone", func(s *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("dial.from"), exactly(1))
			m.Formula(mm("stop"), "2 * dial.from", "invented")
			s.Reached(sheet.Found)
			m.Remove("dial")
		}, []string{`formula "2 * dial.from", column 5: dial.from is gone by then`}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s := sheet.New()
			tc.define(s, s.Root())
			_, err := s.Bind()
			var got []string
			if err != nil {
				got = strings.Split(err.Error(), "\n")
			}
			require.Equal(t, tc.want, got)
		})
	}
}

func TestErrorsBeforeBinding(t *testing.T) {
	s := sheet.New()
	require.NoError(t, s.Errors())
	s.Root().Formula(mm("a"), "1 +", "invented")
	var fault *sheet.FormulaError
	require.ErrorAs(t, s.Errors(), &fault)

	s = sheet.New()
	s.Root().Measure(mm("a"), exactly(1))
	require.Equal(t, []string{"a"}, s.Keys())
	_, err := s.Bind()
	require.NoError(t, err)
	_, err = s.Bind()
	require.EqualError(t, err, "this sheet is bound already")
	require.False(t, errors.As(err, &fault))
}
