package bench_test

import (
	"fmt"
	"math"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// worked runs a method and gives its figures in their own units.
func worked(t *testing.T, method string, typed map[string]string) (*bench.Calculation, map[string]float64) {
	t.Helper()
	c, err := bench.Run(method, typed)
	require.NoError(t, err, "%s %v", method, typed)
	figures := map[string]float64{}
	for _, f := range c.Outputs() {
		figures[f.Key] = f.Unit.In(f.Value)
	}
	return c, figures
}

// verdicts are those of a calculation's checks, by key.
func verdicts(c *bench.Calculation) map[string]sheet.Verdict {
	all := map[string]sheet.Verdict{}
	for _, k := range c.Result.Checks() {
		all[k.Key] = k.Verdict
	}
	return all
}

// published is one published, or independently computed, row.
type published struct {
	method string
	typed  map[string]string
	output string
	want   float64
	within float64 // of the value
	source string
}

func (p published) check(t *testing.T) {
	_, got := worked(t, p.method, p.typed)
	require.Contains(t, got, p.output)
	require.InDelta(t, p.want, got[p.output], math.Abs(p.want)*p.within+1e-9, p.source)
}

func TestPublishedSlides(t *testing.T) {
	const (
		handbook = "machinery handbook: x = a + D (1 + cot A/2), y = b − D (1 + cot A/2); number from tangent circles by computer algebra"
		statics  = "computed apart from the program, by hand"
	)
	for i, p := range []published{
		{"dovetail_male", map[string]string{"angle": "60", "roller": "6", "narrow": "40"}, "over_rollers", 56.3923, 2e-6, handbook},
		{"dovetail_female", map[string]string{"angle": "60", "roller": "6", "wide": "60"}, "between_rollers", 43.6077, 2e-6, handbook},
		{"dovetail_male", map[string]string{"angle": "55", "roller": "8", "narrow": "50"}, "over_rollers", 73.3679, 2e-6, handbook},
		{"dovetail_female", map[string]string{"angle": "45", "roller": "5", "wide": "35"}, "between_rollers", 17.9289, 4e-6, handbook},
		{"dovetail_male", map[string]string{"angle": "60", "roller": "3", "narrow": "20", "depth": "4"}, "wide_width", 24.6188, 2e-6, "worked example in a machinists' forum: 20 + 2 · 4 cot 60°"},
		{"dovetail_male", map[string]string{"angle": "50", "roller": "6", "narrow": "45"}, "over_rollers", 63.867, 2e-6, handbook},
		{"dovetail_female", map[string]string{"angle": "55", "roller": "6", "wide": "70"}, "between_rollers", 52.4741, 2e-6, handbook},
		{"taper_gib", map[string]string{"taper": "60", "closing": "0.1"}, "travel", 6, 1e-9, "definition of a taper"},
		{"taper_gib", map[string]string{"taper": "50", "closing": "0.05"}, "travel", 2.5, 1e-9, "definition of a taper"},
		{"gib_thickness", map[string]string{"slot": "64", "slide_width": "60", "angle": "60", "width_removed": "0.2"}, "opened", 0.17321, 1e-4, statics},
		{"gib_thickness", map[string]string{"slot": "64", "slide_width": "60", "angle": "55", "flat_removed": "0.15"}, "opened", 0.08604, 1e-4, statics},
		{"gib_thickness", map[string]string{"slot": "64", "slide_width": "60", "angle": "60", "flat_removed": "0.1"}, "opened", 0.05, 1e-9, statics},
		{"gib_rollover", map[string]string{"angle": "60", "thickness": "4", "contact": "12"}, "offset_at_contact", 2.309, 2e-4, statics},
		{"gib_rollover", map[string]string{"angle": "60", "thickness": "5", "contact": "9", "offset": "2.5"}, "offset_at_contact", 5.387, 1e-4, statics},
		{"slide_jam", map[string]string{"length": "120", "offset": "60"}, "limit_offset", 400, 1e-9, "statics, by computer algebra"},
		{"slide_jam", map[string]string{"length": "120", "offset": "60"}, "free_length", 36, 1e-9, "statics, by computer algebra"},
		{"slide_jam", map[string]string{"length": "50", "offset": "80", "friction": "0.2"}, "limit_offset", 125, 1e-9, "statics, by computer algebra"},
		{"slide_jam", map[string]string{"length": "50", "offset": "80", "friction": "0.2"}, "free_length", 64, 1e-9, "statics, by computer algebra"},
		{"wall_thinned", map[string]string{"before": "12", "after": "9", "width": "60", "reach": "40", "force": "300", "allowable": "30"}, "strength_left", 56.25, 1e-9, statics},
		{"wall_thinned", map[string]string{"before": "12", "after": "9", "width": "60", "reach": "40", "force": "300", "allowable": "30"}, "stiffness_left", 42.19, 1e-4, statics},
		{"wall_thinned", map[string]string{"before": "12", "after": "9", "width": "60", "reach": "40", "force": "300", "allowable": "30"}, "stress", 14.81, 1e-3, statics},
		{"wall_thinned", map[string]string{"before": "12", "after": "9", "width": "60", "reach": "40", "force": "300", "allowable": "30"}, "bend", 17.56, 1e-3, statics},
		{"riser_compliance", map[string]string{"before": "180", "riser": "60"}, "bend_ratio", 2.37, 1e-3, "beam theory, by hand"},
		{"riser_compliance", map[string]string{"before": "180", "riser": "60"}, "slope_ratio", 1.778, 1e-3, "beam theory, by hand"},
		{"riser_compliance", map[string]string{"before": "180", "riser": "60"}, "frequency_ratio", 0.65, 1e-3, "beam theory, by hand"},
	} {
		t.Run(fmt.Sprint(i, " ", p.method), p.check)
	}
}

func TestVerdictsOfSlides(t *testing.T) {
	for _, tc := range []struct {
		method string
		typed  map[string]string
		check  string
		want   sheet.Verdict
	}{
		{"gib_rollover", map[string]string{"thickness": "4", "contact": "12"}, "rolls", sheet.Holds},
		{"gib_rollover", map[string]string{"thickness": "4", "contact": "12", "offset": "2"}, "rolls", sheet.Tight},
		{"gib_rollover", map[string]string{"thickness": "5", "contact": "9", "offset": "2.5"}, "rolls", sheet.Fails},
		{"gib_rollover", map[string]string{"thickness": "5", "contact": "9", "offset": "-2.5"}, "rolls", sheet.Holds},
		{"gib_rollover", map[string]string{"thickness": "4", "contact": "12"}, "slips", sheet.Tight}, // never more than advice
		{"slide_jam", map[string]string{"length": "120", "offset": "60"}, "jam", sheet.Holds},
		{"slide_jam", map[string]string{"length": "50", "offset": "80", "friction": "0.2"}, "jam", sheet.Tight},
		{"slide_jam", map[string]string{"length": "30", "offset": "80", "friction": "0.2"}, "jam", sheet.Fails},
		{"wall_thinned", map[string]string{"before": "12", "after": "9", "width": "60", "reach": "40", "force": "300", "allowable": "30"}, "bears", sheet.Holds},
		{"wall_thinned", map[string]string{"before": "12", "after": "5.5", "width": "60", "reach": "40", "force": "300"}, "bears", sheet.Fails},
		{"wall_thinned", map[string]string{"before": "12", "after": "5.5", "width": "60", "reach": "40", "force": "30"}, "wall", sheet.Tight},
		{"wall_thinned", map[string]string{"before": "12", "after": "4.5", "width": "60", "reach": "40", "force": "30"}, "wall", sheet.Fails},
		{"way_pressure", map[string]string{"load": "300", "width": "30", "length": "120", "offset": "15"}, "lifts", sheet.Holds},
		{"way_pressure", map[string]string{"load": "300", "width": "30", "length": "120", "offset": "30"}, "lifts", sheet.Fails},
		{"dovetail_male", map[string]string{"roller": "6", "narrow": "40", "depth": "3"}, "touches", sheet.Fails},
		{"dovetail_male", map[string]string{"roller": "6", "narrow": "40", "depth": "8"}, "touches", sheet.Holds},
		{"dovetail_male", map[string]string{"roller": "6", "over": "10"}, "narrow_width_is", sheet.Fails},
		{"slide_support", map[string]string{"length": "150", "ways": "141", "past": "37"}, "support", sheet.Holds},
		{"slide_support", map[string]string{"length": "150", "ways": "141", "past": "60"}, "support", sheet.Tight},
		{"slide_support", map[string]string{"length": "150", "ways": "141", "past": "80"}, "support", sheet.Fails},
		{"riser_compliance", map[string]string{"before": "180", "riser": "40"}, "bending", sheet.Holds},
		{"riser_compliance", map[string]string{"before": "180", "riser": "60"}, "bending", sheet.Tight},
		{"riser_compliance", map[string]string{"before": "180", "riser": "100"}, "bending", sheet.Fails},
	} {
		c, _ := worked(t, tc.method, tc.typed)
		require.Equal(t, tc.want, verdicts(c)[tc.check], "%s %v", tc.method, tc.typed)
	}
}

func TestDovetailsThereAndBack(t *testing.T) {
	for _, angle := range []string{"45", "50", "55", "60", "72.5"} {
		_, over := worked(t, "dovetail_male", map[string]string{"angle": angle, "roller": "6", "narrow": "41.375"})
		_, width := worked(t, "dovetail_male", map[string]string{"angle": angle, "roller": "6", "over": fmt.Sprint(over["over_rollers"])})
		require.InDelta(t, 41.375, width["narrow_width"], 1e-9)

		_, between := worked(t, "dovetail_female", map[string]string{"angle": angle, "roller": "6", "wide": "41.375"})
		_, width = worked(t, "dovetail_female", map[string]string{"angle": angle, "roller": "6", "between": fmt.Sprint(between["between_rollers"])})
		require.InDelta(t, 41.375, width["wide_width"], 1e-9)

		for kind, read := range map[string]func(roller string) float64{
			"male": func(roller string) float64 {
				_, f := worked(t, "dovetail_male", map[string]string{"angle": angle, "roller": roller, "narrow": "41.375"})
				return f["over_rollers"]
			},
			"female": func(roller string) float64 {
				_, f := worked(t, "dovetail_female", map[string]string{"angle": angle, "roller": roller, "wide": "41.375"})
				return f["between_rollers"]
			},
		} {
			_, found := worked(t, "dovetail_angle", map[string]string{"kind": kind, "small_roller": "4", "small_reading": fmt.Sprint(read("4")),
				"large_roller": "6", "large_reading": fmt.Sprint(read("6"))})
			require.InDelta(t, mustFloat(t, angle), found["angle"], 1e-9)
			require.InDelta(t, 41.375, found["narrow_width"]+found["wide_width"], 1e-9, "the width that it was")
		}
	}
}

func mustFloat(t *testing.T, s string) (x float64) {
	t.Helper()
	_, err := fmt.Sscan(s, &x)
	require.NoError(t, err)
	return x
}

// A male and a female dovetail that fit, of one angle and depth, read the same
// over and between rollers that fill both corners' difference.
func TestDovetailsFitTogether(t *testing.T) {
	_, male := worked(t, "dovetail_male", map[string]string{"roller": "6", "narrow": "40", "depth": "9"})
	_, female := worked(t, "dovetail_female", map[string]string{"roller": "6", "wide": fmt.Sprint(male["wide_width"]), "depth": "9"})
	require.InDelta(t, 40, female["narrow_width"], 1e-9)
}

func TestSlidesRiseAndFall(t *testing.T) {
	for _, tc := range []struct {
		method, input string
		values        []string
		typed         map[string]string
		output        string
		rises         bool
	}{
		{"play_swing", "overhang", []string{"0", "20", "50", "90"}, map[string]string{"play": "0.03", "guide": "50"}, "swing", true},
		{"play_swing", "guide", []string{"20", "40", "80"}, map[string]string{"play": "0.03", "overhang": "50"}, "swing", false},
		{"slide_overhang", "overhang", []string{"10", "30", "60"}, map[string]string{"supported": "113", "width": "60", "height": "20", "ways_width": "30"}, "moves", true},
		{"slide_overhang", "press", []string{"0.05", "0.1", "1"}, map[string]string{"overhang": "30", "supported": "113", "width": "60", "height": "20", "ways_width": "30"}, "sink", false},
		{"way_pressure", "offset", []string{"0", "19", "20", "21", "40", "59"}, map[string]string{"load": "300", "width": "30", "length": "120"}, "edge", true},
		{"wall_thinned", "after", []string{"4", "6", "9", "12"}, map[string]string{"before": "12", "width": "60", "reach": "40", "force": "300"}, "stress", false},
		{"wall_thinned", "before", []string{"12", "20", "40", "70"}, map[string]string{"after": "9", "width": "60", "reach": "40", "force": "300", "iron": "gjl250"}, "allowable_stress", false},
		{"gib_screws", "length", []string{"60", "100", "200", "400"}, map[string]string{"thickness": "4", "blank": "10"}, "screws", true},
		{"riser_compliance", "riser", []string{"20", "60", "120"}, map[string]string{"before": "180", "face_length": "80", "face_width": "60"}, "two_joints", true},
	} {
		was := math.Inf(-1)
		for _, v := range tc.values {
			typed := map[string]string{tc.input: v}
			for k, x := range tc.typed {
				typed[k] = x
			}
			_, f := worked(t, tc.method, typed)
			x := f[tc.output]
			if !tc.rises {
				x = -x
			}
			require.Greater(t, x, was, "%s with %s = %s", tc.method, tc.input, v)
			was = x
		}
	}
}

// The edge pressure is one curve: at a sixth of the length both forms agree, and
// the pressures over the whole carry the load.
func TestEdgePressure(t *testing.T) {
	run := func(offset string) map[string]float64 {
		_, f := worked(t, "way_pressure", map[string]string{"load": "300", "width": "30", "length": "120", "offset": offset})
		return f
	}
	require.InDelta(t, run("19.9999999")["edge"], run("20.0000001")["edge"], 1e-6)
	f := run("10")
	require.InDelta(t, 300, (f["edge"]+f["lift"])/2*30*120, 1e-6)
	require.InDelta(t, 300, run("40")["edge"]/2*30*60, 1e-9, "three times 20 mm to the edge carry it, as a triangle")
}

// Where the tool stands at the slide's end, on ways that do not give, a slide is
// a bar held at one end: F L³ / 3 E I and F L² / 2 E I.
func TestOverhangIsABeam(t *testing.T) {
	_, f := worked(t, "slide_overhang", map[string]string{"force": "100", "overhang": "50", "supported": "100", "width": "12", "height": "10", "ways_width": "12", "modulus": "100", "press": "1e6"})
	require.InDelta(t, 100*125000/(3*1e5*1000)*1000, f["bend"], 1e-9, "by hand: I = 1000 mm⁴")
	require.InDelta(t, 100*2500/(2*1e5*1000)*1000, f["slope"], 1e-9)
	_, arm := worked(t, "slide_overhang", map[string]string{"force": "100", "overhang": "50", "arm": "20", "supported": "100", "width": "12", "height": "10", "ways_width": "12"})
	// Bending by a force and its moment at the slide's end, and the arm's turn, each by hand.
	ei := 1e5 * 1000.0
	deflection := 100*125000/(3*ei) + 100*20*2500/(2*ei)
	turn := 100*2500/(2*ei) + 100*20*50/ei
	require.InDelta(t, (deflection+20*turn)*1000, arm["bend"], 1e-9)
	require.InDelta(t, turn*1000, arm["slope"], 1e-9)
}

// Faces that have given C √p give C/2√p more for the next MPa: against a small step.
func TestContactGive(t *testing.T) {
	c, _ := worked(t, "slide_overhang", map[string]string{"overhang": "50", "supported": "100", "width": "12", "height": "10", "ways_width": "12", "press": "0.3", "give_ref": "1.2"})
	f, ok := c.Result.Figure("give", sheet.Planned)
	require.True(t, ok)
	given := func(mpa float64) float64 { return 0.0012 * math.Sqrt(mpa/0.0980665) }
	require.InEpsilon(t, (given(0.3001)-given(0.2999))/0.0002, f.Value, 1e-6)
}

func TestSlidesRefuse(t *testing.T) {
	for _, tc := range []struct {
		method, field string
		typed         map[string]string
	}{
		{"dovetail_male", "angle", map[string]string{"roller": "6", "narrow": "40", "angle": "90"}},
		{"dovetail_male", "narrow", map[string]string{"roller": "6"}},
		{"dovetail_female", "wide", map[string]string{"roller": "6"}},
		{"dovetail_angle", "large_roller", map[string]string{"small_roller": "6", "small_reading": "50", "large_roller": "5", "large_reading": "60"}},
		{"dovetail_angle", "large_reading", map[string]string{"small_roller": "5", "small_reading": "50", "large_roller": "6", "large_reading": "52"}},
		{"gib_thickness", "slot", map[string]string{"slot": "60", "slide_width": "60"}},
		{"gib_screws", "end", map[string]string{"length": "30", "thickness": "4", "blank": "10"}},
		{"way_pressure", "offset", map[string]string{"load": "300", "width": "30", "length": "120", "offset": "60"}},
		{"wall_thinned", "before", map[string]string{"before": "4", "after": "3", "width": "28", "reach": "20", "force": "300", "iron": "gjl200"}},
		{"wall_thinned", "after", map[string]string{"before": "10", "after": "11", "width": "28", "reach": "20", "force": "300"}},
		{"slide_jam", "offset", map[string]string{"length": "120", "offset": "-1"}},
	} {
		_, err := bench.Run(tc.method, tc.typed)
		var p bench.Problems
		require.ErrorAs(t, err, &p, "%s %v", tc.method, tc.typed)
		require.Equal(t, tc.field, p[0].Field)
	}
}
