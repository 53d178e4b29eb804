package sheet_test

import (
	"math"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

// farSheet has a leaf amount, planned, and checks that hold where the given
// formulas of it are nothing or more.
func farSheet(t *testing.T, levels map[string]sheet.Level, formulas map[string]string) *sheet.Result {
	half := &sheet.Func{Name: "table", Args: []unit.Dim{unit.LengthD}, Result: unit.LengthD,
		F: func(x []float64) float64 {
			if x[0] > 20 {
				return nan // not in the table
			}
			return 1
		}}
	return bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		s.Register(half)
		m.Measure(mm("nothing"), exactly(0))
		m.Measure(mm("broken"), exactly(-3))
		m.Measure(mm("tray"), between(0, inf))
		s.Reached(sheet.Found)
		m.Measure(mm("amount"), sheet.Leaf{Value: 12, Origin: sheet.Chosen})
		for key, text := range formulas {
			m.Formula(mm(key), text, "invented")
			m.Check(sheet.Check{Key: key + "_check", Label: key, Figure: key, Limit: "nothing", Level: levels[key]})
		}
		m.Formula(mm("goal"), "min(amount, mm(19), 2 * amount - mm(4))", "invented")
	})
}

func TestHowFar(t *testing.T) {
	for _, tc := range []struct {
		name     string
		formula  string
		from, to float64
		atMost   bool
	}{
		{"a straight margin", "mm(15) - amount", 0, 15, false},
		{"never met", "amount + mm(1)", 0, 40, false},
		{"met at the very end", "mm(40) - amount", 0, 40, false},
		{"a kink", "min(mm(5), mm(15.5) - amount, mm(25) - 2 * amount)", 0, 12.5, false},
		{"a curve", "mm(9) - amount * amount / mm(16)", 0, 12, false},
		{"a root at its steepest", "sqrt((mm(16) - amount) * mm(1)) - mm(1)", 0, 15, false},
		{"a jump", "when(amount < mm(7.3), mm(1), -mm(1))", 0, 7.3, false},
		{"a whole number of steps", "mm(6.5) - mm(1) * ceil(amount / mm(1))", 0, 6, false},
		{"it stays at nothing for a while", "min(0, mm(14.2) - amount)", 0, 14.2, false},
		{"a smallest and a largest answer", "mm(3) - abs(amount - mm(8))", 5, 11, false},
		{"only a smallest", "amount - mm(6.25)", 6.25, 40, false},
		{"none", "-amount - mm(1)", 0, -inf, false},
		{"not measured beyond", "max(mm(18) - amount, 0 * amount + tray - mm(30))", 0, 40, true},
		{"not measured, and not moved by it", "tray - mm(30)", 0, 40, false},
		{"not measured, from 18 on", "mm(18) - amount + tray", 0, 40, true},
		{"not to be computed beyond 20", "table(amount)", 0, 40, true},
		{"fails before it cannot be computed", "min(table(amount), mm(10) - amount)", 0, 10, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := farSheet(t, map[string]sheet.Level{"a": sheet.Rule}, map[string]string{"a": tc.formula})
			before := values(r, sheet.Planned)
			got := r.HowFar("amount", sheet.Goal{Key: "goal"}, 40)
			// Within the rounding error of a margin that is nearly met.
			require.InDelta(t, tc.from, got.From, 1e-7)
			if math.IsInf(tc.to, 0) {
				require.Equal(t, tc.to, got.To)
			} else {
				require.InDelta(t, tc.to, got.To, 1e-7)
			}
			require.Equal(t, tc.atMost, got.AtMost)
			require.InDelta(t, 19, got.Best, 1e-7, "more than 19 brings no more")
			if tc.to < 40 {
				require.Len(t, got.Limits, 1)
				require.Equal(t, math.IsInf(tc.to, -1), got.Limits[0].Never)
			}
			for key, v := range values(r, sheet.Planned) {
				if !math.IsNaN(v) {
					require.Equal(t, before[key], v, "the sheet is left as it was: %s", key)
				}
			}
		})
	}
}

// Sizes that are sold in steps hold, fail and hold again: a bolt for x is sold by fives,
// and may be 3 longer than x at the most: from 0, from 2 to 5, from 7 to 10 and so on. Up
// to 12 there is room for it, and with less than 4 something else is too short. What is
// left is 4 to 5, 7 to 10 and 12.
func TestHowFarHoldsAgain(t *testing.T) {
	levels := map[string]sheet.Level{"steps": sheet.Rule, "room": sheet.Stop, "short": sheet.Rule}
	formulas := map[string]string{"steps": "mm(3) - (5 * mm(1) * ceil(amount / mm(5)) - amount)", "room": "mm(12) - amount", "short": "amount - mm(4)"}
	got := farSheet(t, levels, formulas).HowFar("amount", sheet.Goal{Key: "goal"}, 40)
	require.InDelta(t, 4, got.From, 1e-6)
	require.InDelta(t, 5, got.To, 1e-6)
	require.Len(t, got.Again, 2)
	require.InDeltaSlice(t, []float64{7, 10, 12, 12}, []float64{got.Again[0].From, got.Again[0].To, got.Again[1].From, got.Again[1].To}, 1e-6)
	require.Equal(t, "steps", got.Limits[0].Label)
	require.InDelta(t, 2, got.Limits[0].From, 1e-6, "the stretch around what can be had")
	require.InDelta(t, 5, got.Limits[0].To, 1e-6)

	delete(formulas, "short")
	got = farSheet(t, levels, formulas).HowFar("amount", sheet.Goal{Key: "goal"}, 40)
	require.InDelta(t, 2, got.Again[0].From, 1e-6, "and nothing at all holds as well")
	require.Zero(t, got.From)
	require.InDelta(t, 0, got.To, 1e-6)
}

// Narrower than a step, which is 40 / 48 = 0.83: 8.1 lies between the steps at 7.5 and 8.33. A dip of 0.02 to either side
// of 8.1, with a kink and with a curve (0.02² = 0.0004); a leap at 8.1 to 0.05 too little, made up for at 8.15; and a
// place of as much to either side at which alone it holds, with a kink, and no wider than a point.
func TestHowFarBetweenSteps(t *testing.T) {
	for _, tc := range []struct {
		name, formula        string
		from, to, again, end float64
	}{
		{"a dip with a kink", "abs(amount - mm(8.1)) - mm(0.02)", 0, 8.08, 8.12, 40},
		{"a dip that leans on one side", "max(mm(8.08) - amount, 3 * amount - mm(24.36))", 0, 8.08, 8.12, 40},
		{"a curved dip", "(amount - mm(8.1)) * (amount - mm(8.1)) / mm(1) - mm(0.0004)", 0, 8.08, 8.12, 40},
		{"a leap", "when(amount < mm(8.1), mm(1), amount - mm(8.15))", 0, 8.1, 8.15, 40},
		{"a leap after a fall", "when(amount < mm(8.1), mm(8.15) - amount, mm(1))", 0, 40, nan, nan},
		{"a peak", "mm(0.02) - abs(amount - mm(8.1))", 8.08, 8.12, nan, nan},
		{"a curved peak", "mm(0.0004) - (amount - mm(8.1)) * (amount - mm(8.1)) / mm(1)", 8.08, 8.12, nan, nan},
		{"a point", "-abs(amount - mm(8.1))", 8.1, 8.1, nan, nan},
		{"no end of teeth, none of which fails", "ceil(amount / mm(0.001)) * mm(0.001) - amount + mm(0.0001)", 0, 40, nan, nan},
		{"only nearly a dip", "abs(amount - mm(8.1))", 0, 40, nan, nan},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got := farSheet(t, map[string]sheet.Level{"a": sheet.Rule}, map[string]string{"a": tc.formula}).HowFar("amount", sheet.Goal{Key: "goal"}, 40)
			require.InDelta(t, tc.from, got.From, 1e-6)
			require.InDelta(t, tc.to, got.To, 1e-6)
			if math.IsNaN(tc.again) {
				require.Empty(t, got.Again)
				return
			}
			require.Len(t, got.Again, 1)
			require.InDeltaSlice(t, []float64{tc.again, tc.end}, []float64{got.Again[0].From, got.Again[0].To}, 1e-6)
		})
	}
}

func TestHowFarByLevel(t *testing.T) {
	r := farSheet(t,
		map[string]sheet.Level{"stop": sheet.Stop, "rule": sheet.Rule, "use": sheet.Use, "note": sheet.Note, "old": sheet.Rule, "advice": sheet.Rule},
		map[string]string{"stop": "mm(22) - amount", "rule": "mm(15) - amount", "use": "mm(9) - amount", "note": "mm(1) - amount"})
	got := r.HowFar("amount", sheet.Goal{Key: "goal"}, 40)
	require.InDelta(t, 15, got.To, 1e-7, "what is no good beyond 9 does not stop it")
	var names []string
	for _, l := range got.Limits {
		names = append(names, l.Label)
	}
	require.Equal(t, []string{"use", "rule", "stop"}, names, "all that end, nearest first; a note is no limit")
}

func TestHowFarPastWhatIsBrokenAsFound(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("nothing"), exactly(0))
		m.Measure(mm("over"), exactly(0))
		m.Formula(mm("hang"), "-mm(22) - over", "invented")
		m.Check(sheet.Check{Key: "hang_check", Label: "overhang", Figure: "hang", Limit: "nothing", Level: sheet.Rule})
		m.Formula(mm("wall"), "mm(15) - over", "invented")
		m.Check(sheet.Check{Key: "wall_check", Label: "wall", Figure: "wall", Limit: "nothing", Level: sheet.Rule})
		m.Formula(mm("advice"), "mm(4) - over", "invented")
		m.Check(sheet.Check{Key: "advice_check", Label: "advice", Figure: "advice", Limit: "nothing", Level: sheet.Rule, Advice: true})
		s.Reached(sheet.Found)
		m.Measure(mm("amount"), exactly(12))
		m.Change("over", "was + amount", "as asked")
	})
	got := r.HowFar("amount", sheet.Goal{Key: ""}, 40)
	require.InDelta(t, 15, got.To, 1e-7)
	require.Len(t, got.Limits, 3)
	require.InDelta(t, 4, got.Limits[0].To, 1e-7, "advice is told")
	last := got.Limits[2]
	require.Equal(t, "overhang", last.Label)
	require.True(t, last.AsFound)
	require.True(t, last.Never)
	require.True(t, math.IsNaN(got.Best), "no goal")
}

func TestHowFarOfWhatCannotBeTaken(t *testing.T) {
	r := farSheet(t, nil, map[string]string{"a": "mm(15) - amount"})
	for _, key := range []string{"none", "goal", "tray"} {
		got := r.HowFar(key, sheet.Goal{Key: "goal"}, 40)
		require.Less(t, got.To, got.From, key)
	}
}

func TestBest(t *testing.T) {
	for _, tc := range []struct {
		goal string
		want float64
	}{
		{"min(amount, mm(19))", 19},
		{"amount", 40},
		{"-amount", 0},
		{"mm(3)", 0},
		{"table(amount) + min(amount, mm(7)) * 1", 7}, // of no value beyond 20
		{"when(amount < mm(5), 0, mm(1))", 5},
		{"-abs(amount - mm(8.1))", 8.1},
		{"-max(mm(21) - amount, amount * 3 - mm(11.4))", 8.1},                       // 4 × 8.1 = 32.4
		{"-(amount - mm(8.1)) * (amount - mm(8.1)) / mm(1)", 8.1 - math.Sqrt(1e-9)}, // as good as the top, but for a rounding error
		{"min(amount, mm(8.1) + mm(3) - abs(amount - mm(11.1)))", 11.1},             // from 11.1 on, 22.2 less the amount
	} {
		t.Run(tc.goal, func(t *testing.T) {
			r := farSheet(t, nil, map[string]string{"other": tc.goal})
			require.InDelta(t, tc.want, r.HowFar("amount", sheet.Goal{Key: "other"}, 40).Best, 1e-6)
		})
	}
	r := farSheet(t, nil, map[string]string{"other": "table(amount + mm(30))"})
	require.True(t, math.IsNaN(r.HowFar("amount", sheet.Goal{Key: "other"}, 40).Best), "never to be computed")
}
