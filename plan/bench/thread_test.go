package bench_test

import (
	"math"
	"strconv"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

type typed = map[string]string

// ran is a calculation that must go through.
func ran(t *testing.T, method string, in typed) *bench.Calculation {
	t.Helper()
	c, err := bench.Run(method, in)
	require.NoError(t, err, "%s %v", method, in)
	return c
}

// valueOf is an output in the unit that it is shown in.
func valueOf(t *testing.T, c *bench.Calculation, key string) float64 {
	t.Helper()
	f, ok := c.Result.Figure(key, sheet.Planned)
	require.True(t, ok, "%s has no %s", c.Method.Key, key)
	return f.Unit.In(f.Value)
}

// verdictOf is the verdict of a check.
func verdictOf(t *testing.T, c *bench.Calculation, key string) sheet.Verdict {
	t.Helper()
	for _, k := range c.Result.Checks() {
		if k.Key == key {
			return k.Verdict
		}
	}
	t.Fatalf("%s has no check %s", c.Method.Key, key)
	return ""
}

func say(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

func TestTappingDrill(t *testing.T) {
	for _, tc := range []struct {
		id, thread, percent, full string
		drill                     float64
	}{ // computed apart from this program: d − base × P × share, base 1.0825 or 1.299
		{"tapping 1", "M6", "75", "standard", 5.188}, {"tapping 2", "M6", "75", "chart", 5.026}, {"tapping 3", "M10", "65", "standard", 8.945},
	} {
		c := ran(t, "tapping_drill", typed{"thread": tc.thread, "percent": tc.percent, "full": tc.full})
		require.InDelta(t, tc.drill, valueOf(t, c, "tapping_drill"), 0.0005, tc.id)
	}
	// M6 with a 5.0 drill is 92 % by the standards and 77 % by many charts: arithmetic.
	c := ran(t, "tapping_drill", typed{"thread": "M6", "percent": "75", "drill": "5"})
	require.InDelta(t, 92.4, valueOf(t, c, "drill_standard"), 0.05)
	require.InDelta(t, 77.0, valueOf(t, c, "drill_chart"), 0.05)
	require.Equal(t, 5.0, valueOf(t, c, "pilot_drill"), "ISO 2306")
	table, ok := c.Table()
	require.True(t, ok)
	require.Contains(t, table.Rows, []string{"5.2 mm", "5.200", "0.2047", "74 %", "62 %"})
	// The share comes back: a drill for a share leaves that share.
	for _, p := range []string{"50", "65", "80", "100"} {
		c := ran(t, "tapping_drill", typed{"thread": "1/4 BSW", "percent": p})
		again := ran(t, "tapping_drill", typed{"thread": "1/4 BSW", "drill": say(valueOf(t, c, "tapping_drill"))})
		require.InDelta(t, valueOf(t, c, "share_standard"), valueOf(t, again, "drill_standard"), 1e-9)
	}
	require.Equal(t, sheet.Tight, verdictOf(t, c, "bore_limit"), "75 % of M6 is larger than 6H allows")
	_, err := bench.Run("tapping_drill", typed{"thread": "1/4 BSW", "full": "chart"})
	require.ErrorContains(t, err, "full: 3/4 H is of 60° threads")
}

func TestThreadEngagement(t *testing.T) {
	// FED-STD-H28 with D1max 5.153 and d2min 5.212 of M6 6H/6g; the
	// length for equal materials was computed apart from this program.
	c := ran(t, "thread_engagement", typed{"thread": "M6"})
	require.InEpsilon(t, 4.66, valueOf(t, c, "equal_engagement"), 0.01)
	require.InDelta(t, 5.153, valueOf(t, c, "nut_bore_max"), 0.0006)
	require.InDelta(t, 5.212, valueOf(t, c, "screw_pitch_min"), 0.0006)
	// At that length in a nut as strong, the screw's thread strips at 2 τ/R_m of
	// what breaks the screw: the factor of two in the formula.
	equal := ran(t, "thread_engagement", typed{"thread": "M6", "nut_strength": "800", "nut_shear_ratio": "0.6", "engaged": say(valueOf(t, c, "equal_engagement"))})
	require.InEpsilon(t, 2*0.6*valueOf(t, equal, "breaking_load"), valueOf(t, equal, "stripping_load"), 1e-9)
	require.Less(t, valueOf(t, equal, "strength_ratio"), 1.0, "the nut shears on a larger diameter")
	require.Equal(t, valueOf(t, equal, "equal_engagement"), valueOf(t, equal, "least_engagement"))
	last := 0.0
	for _, nut := range []float64{900, 600, 400, 250, 150, 80} {
		c := ran(t, "thread_engagement", typed{"thread": "M6", "nut_strength": say(nut)})
		require.GreaterOrEqual(t, valueOf(t, c, "least_engagement"), last, "a weaker nut never needs less thread")
		last = valueOf(t, c, "least_engagement")
	}
	for _, text := range []string{"1/4-20 UNC", "1/4 BSW", "2BA", "Tr12x3", "Sq 12x3", "1/2-10 Acme", "G 1/8"} {
		c := ran(t, "thread_engagement", typed{"thread": text})
		require.Greater(t, valueOf(t, c, "least_engagement"), 0.3*valueOf(t, c, "useful_engagement")/1.5, text)
	}
	_, err := bench.Run("thread_engagement", typed{"thread": "M6", "screw_class": "6H"})
	require.ErrorContains(t, err, "screw_class: 6H is no class of a screw")
}

func TestThreeWires(t *testing.T) {
	for _, tc := range []struct {
		id, thread, wire string
		m                float64
	}{ // computed apart from this program, without the correction for the lead angle
		{"wires 1", "M10", "0.895", 10.412}, {"wires 2", "Tr12x3", "1.553", 12.4553}, {"wires 3", "M6", "0.62", 6.344}, {"wires 4", "M8", "0.725", 8.2805},
	} {
		c := ran(t, "three_wires", typed{"thread": tc.thread, "wire": tc.wire, "lead_corrected": "no"})
		require.InDelta(t, tc.m, valueOf(t, c, "over_wires"), 0.001, tc.id)
	}
	// The constants of handbooks: M = d2 + a w − b P.
	for _, tc := range []struct {
		thread string
		a, b   float64
	}{{"M10", 3, 0.866025}, {"1/4 BSW", 3.1657, 0.9605}, {"2BA", 3.4829, 1.1363}, {"Tr12x3", 4.8637, 1.8660}, {"1/2-10 Acme", 4.9939, 1.9334}} {
		c := ran(t, "three_wires", typed{"thread": tc.thread, "lead_corrected": "no"})
		w := valueOf(t, c, "wire_dia")
		require.InDelta(t, valueOf(t, c, "pitch_dia")+tc.a*w-tc.b*valueOf(t, c, "pitch"), valueOf(t, c, "over_wires"), 0.0006, tc.thread)
		require.InDelta(t, valueOf(t, c, "pitch_dia"), valueOf(t, c, "contact"), 1e-9, "the best wire touches at the pitch line")
	}
	// A second way to the same figure: a circle that touches both flanks of a
	// groove, found by its distance from the flank's line.
	for _, thread := range []string{"M10", "M3", "1/4 BSW", "2BA", "Tr12x3", "1/2-10 Acme", "3/8-24 UNF"} {
		for _, f := range []float64{0.95, 1, 1.1} {
			first := ran(t, "three_wires", typed{"thread": thread, "lead_corrected": "no"})
			w := f * valueOf(t, first, "best_wire")
			c := ran(t, "three_wires", typed{"thread": thread, "wire": say(w), "lead_corrected": "no"})
			centre := (valueOf(t, c, "over_wires") - w) / 2
			half := unit.Degree.Inside(valueOf(t, c, "flank"))
			// The flank runs through (pitch line, a quarter of the pitch from the groove's middle).
			r, x := valueOf(t, c, "pitch_dia")/2, valueOf(t, c, "pitch")/4
			distance := math.Abs((centre-r)*math.Sin(half) + x*math.Cos(half))
			require.InDelta(t, w/2, distance, 1e-9, "%s with %g", thread, w)
		}
	}
	for _, thread := range []string{"M10", "Tr12x3 LH", "Tr40x14(P7)", "1/4 BSF"} { // there and back
		for _, wire := range []string{"", "1.2"} {
			c := ran(t, "three_wires", typed{"thread": thread, "wire": wire})
			again := ran(t, "three_wires", typed{"thread": thread, "wire": wire, "reading": say(valueOf(t, c, "over_wires"))})
			require.InDelta(t, valueOf(t, c, "pitch_dia"), valueOf(t, again, "measured_pitch_dia"), 1e-9, thread)
		}
	}
	c := ran(t, "three_wires", typed{"thread": "M10", "wire": "0.3"})
	require.Equal(t, sheet.Fails, verdictOf(t, c, "above_crest"), "wires lost between the crests")
	c = ran(t, "three_wires", typed{"thread": "M10", "wire": "3"})
	require.Equal(t, sheet.Fails, verdictOf(t, c, "below_crest"), "wires that ride on the crests")
	require.Less(t, valueOf(t, ran(t, "three_wires", nil), "over_wires_min"), valueOf(t, ran(t, "three_wires", nil), "over_wires_max"))
}

func TestThreadInfeed(t *testing.T) {
	for _, tc := range []struct {
		thread string
		depth  float64 // of the pitch, and of 0.25 mm of clearance on trapezoidal ones
	}{{"M10", 0.6134 * 1.5}, {"1/4 BSW", 0.6403 * 1.27}, {"Tr12x3", 0.5*3 + 0.25}, {"1/2-10 Acme", 0.5*2.54 + 0.254}} { // handbook depths
		c := ran(t, "thread_infeed", typed{"thread": tc.thread})
		require.InDelta(t, tc.depth, valueOf(t, c, "depth_cut"), 0.0002, tc.thread)
		straight := ran(t, "thread_infeed", typed{"thread": tc.thread, "set_over": "0"})
		require.InDelta(t, tc.depth, valueOf(t, straight, "infeed"), 0.0002, "straight in")
		in, side := valueOf(t, c, "infeed"), valueOf(t, c, "side_step")
		require.InDelta(t, in*in, tc.depth*tc.depth+side*side, 0.001, "the slide goes along the long side of a right triangle")
	}
	c := ran(t, "thread_infeed", typed{"thread": "M10", "first_cut": "0.25"})
	table, ok := c.Table()
	require.True(t, ok)
	require.Len(t, table.Rows, int(valueOf(t, c, "passes")))
	require.Equal(t, strconv.FormatFloat(valueOf(t, c, "infeed"), 'f', 3, 64), table.Rows[len(table.Rows)-1][1], "the last pass ends at full depth")
	require.InDelta(t, 0.25, cellNumber(t, table.Rows[0][1]), 0.01)
	_, err := bench.Run("thread_infeed", typed{"thread": "M10", "set_over": "31"})
	require.ErrorContains(t, err, "set_over: give 0 to 30°")
}

func cellNumber(t *testing.T, cell string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(cell, 64)
	require.NoError(t, err)
	return x
}

func TestThreadLimitsMethod(t *testing.T) {
	// ASME B1.13M and ISO 965-1; the tables are tested whole in plan/thread.
	c := ran(t, "thread_limits", typed{"thread": "M5"})
	require.InDelta(t, 4.456, valueOf(t, c, "pitch_max"), 0.0006, "the usual class is 6g")
	c = ran(t, "thread_limits", typed{"thread": "M5-6H"})
	require.InDelta(t, 4.134, valueOf(t, c, "minor_min"), 0.0006, "a class in the designation is taken")
	for _, f := range c.Outputs() {
		require.NotEqual(t, "major_max", f.Key, "a nut has none")
	}
	_, err := bench.Run("thread_limits", typed{"thread": "1/4 BSF"})
	require.ErrorContains(t, err, "class: there are no limits here for British Standard Fine threads")
	_, err = bench.Run("thread_limits", typed{"thread": "M13"})
	require.ErrorContains(t, err, "thread: there is no coarse pitch for M13")
}

func TestWhichThread(t *testing.T) {
	c := ran(t, "which_thread", typed{"dia": "0.49 in", "tpi": "13"})
	require.InDelta(t, 25.4/13, valueOf(t, c, "pitch_mm"), 1e-9)
	table, ok := c.Table()
	require.True(t, ok)
	var verdicts []string
	for _, row := range table.Rows {
		verdicts = append(verdicts, row[0]+": "+row[8])
	}
	require.Contains(t, verdicts, "1/2-13 UNC: fits")
	require.Contains(t, verdicts, "1/2-12 BSW: near twin: pitch 7.7 % off")
	_, err := bench.Run("which_thread", typed{"dia": "10", "tpi": "13", "pitch": "2"})
	require.ErrorContains(t, err, "not both")
}
