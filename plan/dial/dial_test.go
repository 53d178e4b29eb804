package dial_test

import (
	"math"
	"testing"

	"fettle/plan/dial"

	"github.com/stretchr/testify/require"
)

func TestTurns(t *testing.T) {
	for _, tc := range []struct {
		id               string
		divisions, ratio int
		circles          []int
		want             []dial.Move
		source           string
	}{
		{"indexing 1", 6, 40, []int{18, 39}, []dial.Move{{Circle: 18, Turns: 6, Holes: 12}, {Circle: 39, Turns: 6, Holes: 26}}, "army ordnance milling course"},
		{"indexing 2", 15, 40, []int{27, 30, 32, 35, 36}, []dial.Move{{Circle: 27, Turns: 2, Holes: 18}, {Circle: 30, Turns: 2, Holes: 20}, {Circle: 36, Turns: 2, Holes: 24}}, "dividing head practice sheet"},
		{"indexing 3", 26, 40, []int{44, 45, 47, 49, 52}, []dial.Move{{Circle: 52, Turns: 1, Holes: 28}}, "case of a practice sheet, answer by fractions"},
		{"indexing 4", 14, 60, []int{21, 23, 25, 26, 28}, []dial.Move{{Circle: 21, Turns: 4, Holes: 6}, {Circle: 28, Turns: 4, Holes: 8}}, "case of a practice sheet, answer by fractions"},
		{"indexing 5", 12, 90, []int{22, 24, 26, 28, 30}, []dial.Move{{Circle: 22, Turns: 7, Holes: 11}, {Circle: 24, Turns: 7, Holes: 12}, {Circle: 26, Turns: 7, Holes: 13}, {Circle: 28, Turns: 7, Holes: 14}, {Circle: 30, Turns: 7, Holes: 15}}, "case of a practice sheet, answer by fractions"},
		{"indexing 6", 125, 40, []int{15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49}, nil, "fractions: impossible by plain indexing"},
		{"indexing 8", 100, 40, []int{18, 20, 22, 25, 27}, []dial.Move{{Circle: 20, Holes: 8}, {Circle: 25, Holes: 10}}, "case of a practice sheet, answer by fractions"},
		{"", 8, 40, []int{15}, []dial.Move{{Turns: 5}}, "whole turns"},
	} {
		require.Equal(t, tc.want, dial.Turns(tc.divisions, tc.ratio, tc.circles), "%s: %s", tc.id, tc.source)
	}
	require.Nil(t, dial.Turns(0, 40, []int{15}))
}

// Whatever the numbers: N moves are one turn of the work.
func TestMovesCloseTheCircle(t *testing.T) {
	circles := []int{24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43, 46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66}
	found := 0
	for _, ratio := range []int{40, 60, 72, 90} {
		for n := 2; n <= 400; n++ {
			for _, m := range dial.Turns(n, ratio, circles) {
				found++
				if m.Circle == 0 {
					require.Equal(t, ratio, n*m.Turns)
					continue
				}
				require.Equal(t, ratio*m.Circle, n*(m.Turns*m.Circle+m.Holes), "%d by %d", n, ratio)
				require.Less(t, m.Holes, m.Circle)
			}
		}
	}
	require.Greater(t, found, 1000)
}

func TestDirect(t *testing.T) {
	for n, want := range map[int]int{2: 12, 3: 8, 6: 4, 8: 3, 12: 2, 24: 1} { // a plate of 24, as in milling courses
		every, ok := dial.Direct(n, 24)
		require.True(t, ok)
		require.Equal(t, want, every)
	}
	for _, n := range []int{0, 5, 7, 48} {
		_, ok := dial.Direct(n, 24)
		require.False(t, ok, n)
	}
}

func TestDifferential(t *testing.T) {
	for _, tc := range []struct {
		id                string
		divisions, approx int
		circles           []int
		above, below      int
		same              bool
	}{ // ratio (N′ − N) R/N′, machinery handbook's rule, from memory; proved below
		{"differential 1", 127, 128, []int{16}, 5, 16, true},
		{"differential 2", 53, 56, []int{21}, 15, 7, true},
		{"", 127, 120, []int{15}, 7, 3, false},
	} {
		found := false
		for _, w := range dial.Differential(tc.divisions, 40, tc.circles, nil, 99) {
			if w.Approx == tc.approx {
				found = true
				require.Equal(t, []any{tc.above, tc.below, tc.same}, []any{w.Above, w.Below, w.Same}, tc.id)
			}
		}
		require.True(t, found, tc.id)
	}
}

// While the work turns once, the crank turns ratio times against a fixed plate;
// N moves of N′ make N ratio/N′ of them, and the plate's own turns the rest.
func TestDifferentialClosesTheCircle(t *testing.T) {
	circles := []int{15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49}
	wheels := []int{24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100}
	geared := 0
	for _, n := range []int{51, 53, 57, 59, 61, 63, 67, 69, 71, 73, 77, 79, 81, 83, 87, 89, 91, 93, 97, 99, 101, 119, 121, 125, 127, 133, 137, 199, 211, 250} {
		ways := dial.Differential(n, 40, circles, wheels, 8)
		require.NotEmpty(t, ways, n)
		for _, w := range ways {
			sign := 1.0
			if !w.Same {
				sign = -1
			}
			m := w.Moves[0]
			move := float64(m.Turns)
			if m.Circle > 0 {
				move += float64(m.Holes) / float64(m.Circle)
			}
			require.InDelta(t, 40, float64(n)*move+sign*float64(w.Above)/float64(w.Below), 1e-9, "%d as for %d", n, w.Approx)
			if w.Wheels == nil {
				continue
			}
			geared++
			train, left := 1.0, append([]int{}, wheels...)
			for i, z := range w.Wheels {
				at := -1
				for j, have := range left {
					if have == z {
						at = j
					}
				}
				require.GreaterOrEqual(t, at, 0, "%d is not in the box, or used twice", z)
				left = append(left[:at], left[at+1:]...)
				if i%2 == 0 {
					train *= float64(z)
				} else {
					train /= float64(z)
				}
			}
			require.InDelta(t, float64(w.Above)/float64(w.Below), train, 1e-9)
		}
	}
	require.Greater(t, geared, 50)
	require.Empty(t, dial.Differential(1, 40, circles, wheels, 8))
}

func TestByAngle(t *testing.T) {
	got := dial.ByAngle(35, 40, []int{17, 18, 49})
	require.Equal(t, dial.Move{Circle: 18, Turns: 3, Holes: 16}, got[0].Move, "a machinery handbook of 1916, two holes of 18 are a degree")
	require.InDelta(t, 0, got[0].Off, 1e-9)
	for _, degrees := range []float64{0.5, 1, 7.3, 45, 123.456, 359.9} {
		last := 0.0
		for _, a := range dial.ByAngle(degrees, 60, []int{24, 30, 49, 66}) {
			turned := (float64(a.Turns) + float64(a.Holes)/float64(a.Circle)) * 360 / 60
			require.InDelta(t, degrees+a.Off, turned, 1e-9)
			require.LessOrEqual(t, math.Abs(a.Off), 360/60/float64(a.Circle)/2+1e-9, "never more than half a hole off")
			require.GreaterOrEqual(t, math.Abs(a.Off), last-1e-9, "the best first")
			last = math.Abs(a.Off)
		}
	}
	require.Nil(t, dial.ByAngle(0, 40, []int{18}))
}

// The counts that the trade gives for usual leads, in lines for a worth of one.
func TestCounts(t *testing.T) {
	for _, tc := range []struct {
		lead  float64
		said  string
		lines float64
	}{ // common practice
		{1, "0.01 mm", 100}, {1, "0.025 mm", 40}, {1, "0.02 mm", 50}, {1.25, "0.01 mm", 125}, {1.5, "0.02 mm", 75}, {1.5, "0.025 mm", 60},
		{2, "0.02 mm", 100}, {2, "0.025 mm", 80}, {2, "0.01 mm", 200}, {2.5, "0.02 mm", 125}, {2.5, "0.025 mm", 100}, {2.5, "0.05 mm", 50},
		{3, "0.05 mm", 60}, {3, "0.02 mm", 150}, {4, "0.05 mm", 80}, {4, "0.02 mm", 200}, {5, "0.05 mm", 100}, {5, "0.04 mm", 125}, {5, "0.02 mm", 250},
		{2.54, "0.001 in", 100}, {25.4 / 8, "0.001 in", 125}, {25.4 / 20, "0.001 in", 50}, {25.4 / 4, "0.001 in", 250},
		{2.54, "0.02 mm", 127}, {25.4 / 8, "0.025 mm", 127},
	} {
		found := false
		for _, v := range dial.Counts(tc.lead) {
			if v.Said == tc.said {
				found = true
				require.True(t, v.Whole(), "%g %s", tc.lead, tc.said)
				require.InDelta(t, tc.lines, v.Lines, 1e-9)
				require.Zero(t, v.Off(int(tc.lines)))
			}
		}
		require.True(t, found, "%g %s", tc.lead, tc.said)
	}
	for _, v := range dial.Counts(25.4 / 12) { // 12 to the inch: 83⅓ lines, 84 read 0.8 % too much
		if v.Said == "0.001 in" {
			require.False(t, v.Whole())
			require.InDelta(t, 250.0/3, v.Lines, 1e-9)
			require.InDelta(t, 0.008, v.Off(84), 1e-9)
			require.InDelta(t, -0.004, v.Off(83), 1e-9)
		}
	}
	for lead := 0.3; lead < 12; lead += 0.037 {
		for _, v := range dial.Counts(lead) {
			require.InDelta(t, lead, v.Lines*v.MM, 1e-9)
			require.True(t, v.Lines >= 20 && v.Lines <= 400)
		}
	}
	require.Empty(t, dial.Counts(0.0001))
}

func TestLineLoad(t *testing.T) {
	q, within, ok := dial.LineLoad(2.62)
	require.True(t, ok)
	require.InDelta(t, 1.3, q, 1e-9)
	require.InDelta(t, q/2, within, 1e-9)
	_, _, ok = dial.LineLoad(3)
	require.False(t, ok)
}
