package sheet_test

import (
	"math"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

func TestVerdicts(t *testing.T) {
	for _, tc := range []struct {
		name     string
		wall     sheet.Leaf
		check    sheet.Check
		verdict  sheet.Verdict
		flips    bool
		phrase   string
		sentence string
	}{
		{"well above", within(11, 0.1), sheet.Check{Tight: "tight"}, sheet.Holds, false, "3 mm to spare", "11 mm is left, and 8 mm is wanted."},
		{"within what is tight", within(9, 0.1), sheet.Check{Tight: "tight"}, sheet.Tight, false, "1 mm to spare", "9 mm is left, and 8 mm is wanted."},
		{"at what is tight", within(10, 0.1), sheet.Check{Tight: "tight"}, sheet.Tight, false, "2 mm to spare", "10 mm is left, and 8 mm is wanted."},
		{"tight is only touching", within(9, 0.1), sheet.Check{}, sheet.Holds, false, "1 mm to spare", "9 mm is left, and 8 mm is wanted."},
		{"just touches", exactly(8), sheet.Check{}, sheet.Tight, false, "just touches", "8 mm is left, and 8 mm is wanted."},
		{"a rounding error below", exactly(8 - 1e-12), sheet.Check{}, sheet.Tight, false, "just touches", "8 mm is left, and 8 mm is wanted."},
		{"touches, and may not", within(8, 0.1), sheet.Check{}, sheet.Tight, true, "just touches", "8 mm is left, and 8 mm is wanted."},
		{"may turn over", within(8.09, 0.1), sheet.Check{}, sheet.Holds, true, "0.09 mm to spare", "8.09 mm is left, and 8 mm is wanted."},
		{"may yet hold", within(7.91, 0.1), sheet.Check{}, sheet.Fails, true, "short by 0.09 mm", "7.91 mm is left, and 8 mm is wanted."},
		{"below", within(6, 0.1), sheet.Check{Tight: "tight"}, sheet.Fails, false, "short by 2 mm", "6 mm is left, and 8 mm is wanted."},
		{"at the worst it still holds", within(8.11, 0.1), sheet.Check{}, sheet.Holds, false, "0.11 mm to spare", "8.11 mm is left, and 8 mm is wanted."},
		{"below, as advice", within(6, 0.1), sheet.Check{Advice: true}, sheet.Tight, false, "beyond what is usual, by 2 mm", "6 mm is left, and 8 mm is wanted."},
		{"at most: below", within(6, 0.1), sheet.Check{AtMost: true}, sheet.Holds, false, "2 mm to spare", "6 mm is left, and 8 mm is wanted."},
		{"at most: above", within(11, 0.1), sheet.Check{AtMost: true}, sheet.Fails, false, "over by 3 mm", "11 mm is left, and 8 mm is wanted."},
		{"not measured", between(0, inf), sheet.Check{}, sheet.Unmeasured, false, "wall", "Not known until this is measured: wall."},
		{"known to hold", between(9, inf), sheet.Check{}, sheet.Holds, false, "at least 1 mm to spare", "at least 9 mm is left, and 8 mm is wanted."},
		{"known to hold, between", between(9, 12), sheet.Check{}, sheet.Holds, false, "at least 1 mm to spare", "between 9 and 12 mm is left, and 8 mm is wanted."},
		{"known to fail", between(0, 5), sheet.Check{}, sheet.Fails, false, "short by at least 3 mm", "between 0 and 5 mm is left, and 8 mm is wanted."},
		{"endless", exactly(inf), sheet.Check{}, sheet.Holds, false, "out of the way", "∞ mm is left, and 8 mm is wanted."},
		{"not to be computed", exactly(nan), sheet.Check{}, sheet.Unmeasured, false, "cannot be computed", "Not known until this is measured: cannot be computed."},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
				m.Measure(mm("wall"), tc.wall)
				m.Measure(mm("least"), exactly(8))
				m.Measure(mm("tight"), exactly(2))
				c := tc.check
				c.Key, c.Label, c.Figure, c.Limit = "wall_left", "Wall left", "wall", "least"
				c.Level, c.Sentence, c.Source = sheet.Rule, "{figure} is left, and {limit} is wanted.", "common practice, no source"
				m.In("axis").Check(c)
			})
			checks := r.Checks()
			require.Len(t, checks, 1)
			c := checks[0]
			require.Equal(t, "axis.wall_left", c.Key)
			require.Equal(t, tc.verdict, c.Verdict)
			require.Equal(t, tc.verdict, c.Was)
			require.Equal(t, tc.flips, c.Flips)
			require.Equal(t, tc.phrase, c.Phrase)
			require.Equal(t, tc.sentence, c.Sentence)
			require.Equal(t, tc.verdict == sheet.Unmeasured && !math.IsNaN(tc.wall.Min+tc.wall.Value), len(c.Missing) == 1)
			require.False(t, c.Worse)
			require.Equal(t, "axis.wall_left.margin", c.Margin.Key)
			require.Equal(t, tc.check.Tight, c.Near.Key)
			require.Equal(t, c.Margin.Text(nan), figure(t, r, "axis.wall_left.margin", sheet.Planned).Text(nan), "the margin is a figure as any other")
			if tc.wall.Spread.Std > 0 {
				require.InDelta(t, 0.1, c.PlusMinus, 1e-12, "at the worst, which is less than 2 × 0.1/√3")
			}
		})
	}
}

func TestChecksBesideWhatTheyWere(t *testing.T) {
	for _, tc := range []struct {
		name                string
		found, now, planned float64 // left, where 8 is the least
		asFound, charged    bool
		worse, touched      bool
	}{
		{"holds all along", 12, 12, 12, false, false, false, false},
		{"breaks with the plan", 12, 12, 7, false, true, true, true},
		{"smaller, and holds", 12, 12, 11, false, false, true, true},
		{"larger", 12, 12, 13, false, false, false, false},
		{"broken as found, not touched", 5, 5, 5, true, false, false, true},
		{"broken as found, made better", 5, 5, 6, true, false, false, true},
		{"broken as found, made worse", 5, 5, 4, false, true, true, true},
		{"broken as found, mended, broken again", 5, 9, 4, false, true, true, true},
		{"broken by what is finished", 12, 6, 6, false, true, false, true},
		{"broken as found, and back to it", 5, 9, 5, true, false, true, true},
		{"mended", 5, 5, 9, false, false, false, true},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
				m.Measure(mm("left"), exactly(tc.found))
				m.Measure(mm("least"), exactly(8))
				m.Measure(mm("to_now"), exactly(tc.now-tc.found))
				m.Measure(mm("to_plan"), exactly(tc.planned-tc.now))
				m.Check(sheet.Check{Key: "c", Figure: "left", Limit: "least"})
				s.Reached(sheet.Found)
				m.Change("left", "was + to_now", "decided")
				s.Reached(sheet.Now)
				m.Change("left", "was + to_plan", "decided")
			})
			c := r.Checks()[0]
			require.Equal(t, tc.asFound, c.AsFound, "as found")
			require.Equal(t, tc.charged, c.Charged(), "charged")
			require.Equal(t, tc.worse, c.Worse, "worse")
			require.Equal(t, tc.touched, c.Touched(), "touched")
			require.Equal(t, tc.now-8, c.MarginNow)
		})
	}
}

func TestANewCheck(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("bracket"), exactly(30))
		s.Reached(sheet.Now)
		s.Upgrade("bearing")
		u := m.In("u")
		u.Measure(mm("od"), exactly(19))
		u.Measure(sheet.Q{Key: "share", Unit: unit.One}, exactly(0.2))
		u.Formula(mm("wall"), "(bracket - od) / 2", "geometry")
		u.Formula(mm("least"), "share * od", "common practice, no source")
		u.Check(sheet.Check{Key: "wall_check", Figure: "wall", Limit: "least", Sentence: "{figure}, {limit}"})
	})
	c := r.Checks()[0]
	require.Empty(t, c.Was)
	require.True(t, math.IsNaN(c.MarginNow))
	require.True(t, c.Touched())
	require.Equal(t, "1.7 mm to spare", c.Phrase) // 5.5 less 3.8
	require.Equal(t, "5.5 mm, 3.8 mm", c.Sentence)
}

func TestMarginsInSmallUnits(t *testing.T) {
	// A microgram inside is 1e-12: what is nearly nothing goes by the unit.
	r := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(sheet.Q{Key: "mass", Unit: unit.Kilogram, Decimals: 6}, exactly(unit.Kilogram.Inside(0.000002)))
		m.Measure(sheet.Q{Key: "most", Unit: unit.Kilogram}, exactly(unit.Kilogram.Inside(0.000001)))
		m.Check(sheet.Check{Key: "c", Figure: "mass", Limit: "most", AtMost: true})
	})
	require.Equal(t, sheet.Fails, r.Checks()[0].Verdict)
}
