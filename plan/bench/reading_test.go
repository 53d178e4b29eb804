package bench_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// series is five readings with the mean and the sample standard deviation.
func series(mean, s float64) string {
	a := s * math.Sqrt2 // two readings at ± a: s² = 2 a² / 4
	return fmt.Sprint(mean-a, " ", mean, " ", mean, " ", mean, " ", mean+a)
}

func TestPublishedReadings(t *testing.T) {
	first := map[string]string{"unit": "um", "up": "1 0 2 1 0; -1 0 -1 -1 -1; -5 -6 -5 -5 -3; 3 3 2 2 3; 8 7 9 7 9",
		"down": "-8 -8 -9 -9 -8; -11 -10 -11 -9 -9; -16 -15 -12 -14 -14; -7 -6 -6 -6 -7; -3 0 -2 -3 -2"}
	welch := map[string]string{"unit": "um", "before": series(12.1, 0.8), "after": series(4.2, 0.5), "resolution": "0.0001"}
	gauge := map[string]string{"unit": "um", "parts": "0.025:18 0.0097:25.6 0.0029:50 0.0166:2", "level": "99"}
	for i, p := range []published{
		{"positioning", first, "accuracy", 27.166, 1e-4, "ISO 230-2 by numpy, run once"},
		{"positioning", first, "repeatability", 14.557, 1e-4, "ISO 230-2 by numpy, run once"},
		{"straightness", map[string]string{"unit": "um", "readings": "0 4 9 9 6 2"}, "end_point", 8.2, 1e-4, "ISO 230-1, by hand"},
		{"straightness", map[string]string{"unit": "um", "readings": "0 4 9 9 6 2"}, "least_squares", 8.371, 1e-4, "ISO 230-1; numpy polyfit, run once"},
		{"straightness", map[string]string{"unit": "um", "readings": "0 -3 -1 2 8"}, "end_point", 5, 1e-4, "ISO 230-1, by hand"},
		{"straightness", map[string]string{"unit": "um", "readings": "0 -3 -1 2 8"}, "least_squares", 5.2, 1e-4, "ISO 230-1; numpy polyfit, run once"},
		{"before_after", welch, "times", 18.725, 1e-4, "Welch's test by scipy's ttest_ind_from_stats, run once"},
		{"before_after", welch, "degrees", 6.71, 1e-3, "Welch's test by scipy, run once"},
		{"before_after", welch, "factor", 2.3855, 1e-3, "Student's t at 6.71 by gonum, run once"},
		{"uncertainty", map[string]string{"readings": "1", "resolution": "0.001"}, "type_b_resolution", 0.29, 0.01, "a step over √12: 0.001 mm gives 0.00029"},
		{"combine", gauge, "combined", 0.03167, 1e-3, "JCGM 100:2008, H.1: 32 nm"},
		{"combine", gauge, "degrees", 16.7, 0.01, "JCGM 100:2008, H.1.6: 16.7"},
		{"combine", gauge, "expanded", 0.093, 0.02, "JCGM 100:2008, H.1.6: 93 nm, with the degrees of freedom cut to 16"},
	} {
		t.Run(fmt.Sprint(i, " ", p.method, " ", p.output), p.check)
	}
}

// A difference that is real is told from one that is not.
func TestIsTheDifferenceReal(t *testing.T) {
	real, f := worked(t, "before_after", map[string]string{"before": "0.12 0.13 0.11 0.12", "after": "0.04 0.05 0.04"})
	require.Equal(t, sheet.Holds, verdicts(real)["real"])
	require.Less(t, f["chance"], 5.0)
	require.Less(t, f["difference"], 0.0)
	not, f := worked(t, "before_after", map[string]string{"before": "0.12 0.13 0.09 0.12", "after": "0.11 0.12 0.10"})
	require.Equal(t, sheet.Tight, verdicts(not)["real"])
	require.Greater(t, f["chance"], 5.0)
	// Readings that agree to the step are known no better than the step.
	_, f = worked(t, "before_after", map[string]string{"before": "0.12 0.12 0.12", "after": "0.12 0.12 0.12", "resolution": "0.01"})
	require.InDelta(t, 10/math.Sqrt(12), f["before_scatter"], 1e-9)
}

// One reading more never makes a mean less certain, and few readings want a
// larger factor.
func TestMoreReadingsAreBetter(t *testing.T) {
	was, factor := math.Inf(1), math.Inf(1)
	for n := 1; n <= 6; n++ {
		_, f := worked(t, "uncertainty", map[string]string{"resolution": "0.0001", "readings": strings.Repeat("25.003 25.005 ", n)})
		require.Less(t, f["expanded"], was)
		require.LessOrEqual(t, f["factor"], factor)
		was, factor = f["expanded"], f["factor"]
	}
}

func TestSquareness(t *testing.T) {
	// By hand: 0.012 over 100 mm against the square, −0.004 with it turned over:
	// the machine 0.008, the square 0.004 over 100 mm.
	_, f := worked(t, "squareness", map[string]string{"readings": "0 0.006 0.012", "turned": "0 -0.002 -0.004", "along": "100", "over": "300"})
	require.InDelta(t, 24, f["out_of_square"], 1e-9)
	require.InDelta(t, 0.08, f["slope"], 1e-12)
	require.InDelta(t, 0.04, f["square_itself"], 1e-12)
	c, f := worked(t, "squareness", map[string]string{"readings": "0 0.01", "along": "0 100", "over": "100", "limit": "0.008"})
	require.InDelta(t, 10, f["out_of_square"], 1e-9)
	require.Equal(t, sheet.Fails, verdicts(c)["within"])
	require.NotContains(t, f, "square_itself")
}

func TestReadingTables(t *testing.T) {
	c, _ := worked(t, "positioning", map[string]string{"unit": "um", "up": "1 3; 5 7", "down": "0 0; 1 1"})
	table, ok := c.Table()
	require.True(t, ok)
	require.Equal(t, [][]string{{"1", "2", "1.41", "0", "0", "2", "5.66"}, {"2", "6", "1.41", "1", "0", "5", "7.83"}}, table.Rows, "by hand: R_i is the larger of 4 · 1.414 and 2 · 1.414 + |B_i|")
	c, _ = worked(t, "positioning", map[string]string{"unit": "um", "up": "1 3; 5 7"})
	table, _ = c.Table()
	require.Equal(t, []string{"1", "2", "1.41", "–", "–", "–", "–"}, table.Rows[0])
	c, _ = worked(t, "straightness", map[string]string{"unit": "um", "readings": "0 4 0", "along": "10"})
	table, _ = c.Table()
	require.Equal(t, []string{"5", "4", "4", "2.67"}, table.Rows[1], "by hand: 4 less the mean 4/3")
}

func TestReadingsRefuse(t *testing.T) {
	for _, tc := range []struct {
		method, field string
		typed         map[string]string
	}{
		{"positioning", "up", nil},
		{"positioning", "up", map[string]string{"up": "1 x"}},
		{"positioning", "up", map[string]string{"up": "1"}},
		{"positioning", "down", map[string]string{"up": "1 2", "down": "1"}},
		{"positioning", "unit", map[string]string{"up": "1 2", "unit": "furlong"}},
		{"straightness", "readings", map[string]string{"readings": "1 2"}},
		{"straightness", "along", map[string]string{"readings": "1 2 3", "along": "0 10"}},
		{"straightness", "along", map[string]string{"readings": "1 2 3", "along": "0 10 10"}},
		{"straightness", "along", map[string]string{"readings": "1 2 3", "along": "-5"}},
		{"squareness", "along", map[string]string{"readings": "1 2 3"}},
		{"squareness", "turned", map[string]string{"readings": "1 2", "turned": "1", "along": "100"}},
		{"before_after", "after", map[string]string{"before": "1 2", "after": "1"}},
		{"uncertainty", "level", map[string]string{"readings": "1 2", "level": "100"}},
		{"combine", "parts", map[string]string{"parts": "0.1:0"}},
		{"combine", "parts", map[string]string{"parts": "0"}},
		{"combine", "parts", nil},
	} {
		_, err := bench.Run(tc.method, tc.typed)
		var p bench.Problems
		require.ErrorAs(t, err, &p, "%s %v", tc.method, tc.typed)
		require.Equal(t, tc.field, p[0].Field, "%s %v", tc.method, tc.typed)
	}
}
