package bench_test

import (
	"math"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

func TestDialDivisions(t *testing.T) {
	for _, tc := range []struct {
		id, lead, divisions string
		per, diameter       float64
	}{ // computed apart from this program; the last two are what the trade counts on
		{"dial 1", "2.54", "100", 0.0254, 0.0508}, {"dial 2", "3", "60", 0.05, 0.1}, {"dial 6", "1.25", "125", 0.01, 0.02},
		{"", "1", "100", 0.01, 0.02}, {"", "1", "40", 0.025, 0.05},
	} {
		c := ran(t, "dial_divisions", typed{"lead": tc.lead, "divisions": tc.divisions})
		require.InEpsilon(t, tc.per, valueOf(t, c, "per_division"), 1e-4, tc.id)
		require.InEpsilon(t, tc.diameter, valueOf(t, c, "on_diameter"), 1e-4, tc.id)
	}
	for _, tc := range []struct {
		id, dia, divisions string
		spacing            float64
	}{{"dial 4", "32", "100", 1.0053}, {"dial 5", "25", "125", 0.6283}} { // computed apart from this program
		c := ran(t, "dial_divisions", typed{"dial_dia": tc.dia, "divisions": tc.divisions})
		require.InEpsilon(t, tc.spacing, valueOf(t, c, "spacing"), 5e-4, tc.id)
	}
	c := ran(t, "dial_divisions", typed{"lead": "1/12 in", "divisions": "84"})
	table, ok := c.Table()
	require.True(t, ok)
	require.Contains(t, table.Rows, []string{"0.001 in", "0.002 in", "83.333", "1.5",
		"impossible: 84 lines would read 0.8 % too much, 83 lines 0.4 % too little"}, "12 to the inch cannot have thousandths")
	require.Equal(t, 84.0, valueOf(t, c, "divisions"), "the table leaves the figures as they were")
	half := ran(t, "dial_divisions", typed{"lead": "1.5", "set_over": "30"})
	require.InDelta(t, valueOf(t, half, "per_division")/2, valueOf(t, half, "radial"), 1e-12, "sin 30° is a half")
}

func TestDialError(t *testing.T) {
	c := ran(t, "dial_error", typed{"lead": "2.54", "divisions": "125", "label": "0.02", "travel": "10"})
	require.InEpsilon(t, 0.984252, valueOf(t, c, "ratio"), 0.005, "computed apart from this program")
	require.InEpsilon(t, -0.1575, valueOf(t, c, "error_over"), 0.005)
	// An inch dial on a screw of 2.5 mm: common practice gives 1.6 %, 0.16 mm in 10 mm.
	c = ran(t, "dial_error", typed{"lead": "2.5", "divisions": "100", "label": "0.001 in", "travel": "10"})
	require.InDelta(t, 0.16, valueOf(t, c, "error_over"), 0.001)
	require.InDelta(t, 0.04, valueOf(t, c, "error_per_turn"), 1e-9)
	require.Equal(t, sheet.Fails, verdictOf(t, c, "off_check"))
	// There and back: moved as far as the dial is believed, the dial shows the travel.
	moved := valueOf(t, c, "moved")
	again := ran(t, "dial_error", typed{"lead": "2.5", "divisions": "100", "label": "0.001 in", "travel": say(moved)})
	require.InDelta(t, 10, moved+valueOf(t, again, "error_over"), 1e-9)
	right := ran(t, "dial_error", typed{"lead": "2.5", "divisions": "100", "label": "0.025"})
	require.InDelta(t, 0, valueOf(t, right, "error_over"), 1e-12)
	require.Equal(t, sheet.Holds, verdictOf(t, right, "off_check"))
}

func TestDialLegibility(t *testing.T) {
	c := ran(t, "dial_legibility", typed{"dial_dia": "25", "divisions": "125"})
	require.Equal(t, sheet.Fails, verdictOf(t, c, "spacing_check"), "0.63 mm apart")
	require.InDelta(t, 125/math.Pi, valueOf(t, c, "dia_good"), 1e-9)
	tight := ran(t, "dial_legibility", typed{"dial_dia": "30", "divisions": "100"})
	require.Equal(t, sheet.Tight, verdictOf(t, tight, "spacing_check"))
	good := ran(t, "dial_legibility", typed{"dial_dia": say(valueOf(t, c, "dia_good") * 1.001), "divisions": "125"})
	require.Equal(t, sheet.Holds, verdictOf(t, good, "spacing_check"))
	require.Equal(t, sheet.Holds, verdictOf(t, good, "numbered_check"))
	require.Equal(t, sheet.Tight, verdictOf(t, ran(t, "dial_legibility", typed{"numbered_every": "25"}), "numbered_check"), "24 lines between figures")
	require.GreaterOrEqual(t, valueOf(t, good, "line_most"), valueOf(t, good, "line_least"))
	require.Less(t, valueOf(t, good, "line_most"), valueOf(t, good, "spacing")/2)
	require.InDelta(t, 1.6, valueOf(t, good, "middle")/valueOf(t, good, "minor"), 1e-9)
}

func TestVernier(t *testing.T) {
	c := ran(t, "vernier", typed{"lead": "2", "divisions": "100", "vernier_lines": "10"})
	require.InEpsilon(t, 0.002, valueOf(t, c, "least_count"), 0.001, "a main division of 0.02 mm, ten lines")
	require.InDelta(t, 9*valueOf(t, c, "spacing"), valueOf(t, c, "vernier_span"), 1e-9)
	require.InDelta(t, valueOf(t, c, "least_count"), valueOf(t, c, "per_division")*(1-valueOf(t, c, "vernier_spacing")/valueOf(t, c, "spacing")), 1e-12, "what the two spacings differ by")
}

func TestIndexingMethods(t *testing.T) {
	c := ran(t, "indexing", typed{"divisions": "125"})
	table, ok := c.Table()
	require.True(t, ok)
	require.NotEmpty(t, table.Rows)
	require.Contains(t, table.Rows[0][0], "differential", "plain indexing cannot do 125")
	c = ran(t, "indexing", typed{"divisions": "12"})
	table, _ = c.Table()
	require.Equal(t, []string{"direct", "24", "0", "2", "worm out of mesh"}, table.Rows[0])
	c = ran(t, "indexing", typed{"divisions": "6", "circles": "18, 39"})
	table, _ = c.Table()
	require.Contains(t, table.Rows, []string{"simple", "18", "6", "12", ""})
	c = ran(t, "indexing_angle", typed{"angle": "35", "circles": "18"})
	table, _ = c.Table()
	require.Equal(t, []string{"18", "3", "16", "0", "0"}, table.Rows[0], "a machinery handbook of 1916, two holes a degree")
	require.Equal(t, 9.0, math.Round(1e9*valueOf(t, c, "per_turn"))/1e9)
	for in, says := range map[string]string{"circles": "circles: give whole numbers", "direct": "direct: give whole numbers", "wheels": "wheels: give whole numbers"} {
		_, err := bench.Run("indexing", typed{in: "18 0"})
		require.ErrorContains(t, err, says)
	}
	_, err := bench.Run("indexing", typed{"circles": "none"})
	require.ErrorContains(t, err, "circles: list the circles")
}

func TestDialAngles(t *testing.T) {
	c := ran(t, "dial_angles", typed{"divisions": "8", "dial_dia": "100"})
	table, ok := c.Table()
	require.True(t, ok)
	require.Len(t, table.Rows, 8)
	require.Equal(t, []string{"1", "45.000", "38.268"}, table.Rows[1]) // 100 sin 22.5°
	require.Equal(t, []string{"4", "180.000", "100.000"}, table.Rows[4])
	require.Equal(t, table.Rows[1][2], table.Rows[7][2], "the last line is as far from the first as the second")
}

func TestDialStrip(t *testing.T) {
	c := ran(t, "dial_strip", typed{"dial_dia": "32", "divisions": "100", "thickness": "1e-9"})
	require.InEpsilon(t, 100.531, valueOf(t, c, "strip_length"), 5e-4, "computed apart from this program")
	c = ran(t, "dial_strip", typed{"dial_dia": "25", "divisions": "125", "thickness": "1e-9"})
	require.InEpsilon(t, 78.54, valueOf(t, c, "strip_length"), 5e-4, "computed apart from this program")
	c = ran(t, "dial_strip", typed{"thickness": "0.2", "check_printed": "99"})
	require.Greater(t, valueOf(t, c, "strip_outside"), valueOf(t, c, "strip_length"))
	require.InDelta(t, valueOf(t, c, "strip_length"), valueOf(t, c, "strip_drawn")*0.99, 1e-9, "drawn larger, it prints true")
}

func TestFrictionRing(t *testing.T) {
	c := ran(t, "friction_ring", typed{"bore": "20", "section": "2.62", "squeeze": "10"})
	require.InDelta(t, 20-2*2.62*0.9, valueOf(t, c, "groove_dia"), 1e-9)
	require.InDelta(t, 0.15*1.3*math.Pi*20*10/1000, valueOf(t, c, "drag_torque"), 1e-6, "µ q π D · D/2 by hand, q the middle of 1.0 to 1.6")
	u := c.Result.Uncertainty("drag_torque", sheet.Planned)
	require.Greater(t, u.Worst, 0.45*1000*valueOf(t, c, "drag_torque"), "the load is only known to within half")
	require.Less(t, valueOf(t, c, "ring_most"), valueOf(t, c, "groove_dia"), "the ring is stretched on")
	last := 0.0
	for _, squeeze := range []string{"5", "10", "15", "20"} {
		c := ran(t, "friction_ring", typed{"squeeze": squeeze})
		require.Greater(t, valueOf(t, c, "groove_dia"), last, "more squeeze, a shallower groove")
		last = valueOf(t, c, "groove_dia")
	}
	_, err := bench.Run("friction_ring", typed{"section": "2"})
	require.ErrorContains(t, err, "line_load: give the load")
	require.Equal(t, sheet.Fails, verdictOf(t, ran(t, "friction_ring", typed{"line_load": "3"}), "turns_alone"))
	require.Equal(t, sheet.Fails, verdictOf(t, ran(t, "friction_ring", typed{"line_load": "0.1"}), "holds_zero"))
}
