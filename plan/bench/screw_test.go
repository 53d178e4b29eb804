package bench_test

import (
	"math"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/screw"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

func TestScrewTorque(t *testing.T) {
	const lbf, lbfIn = 4.4482216152605, 0.1129848290276 // N, N·m: the pound-force is 0.45359237 kg × 9.80665 m/s²
	for _, tc := range []struct {
		id     string
		in     typed
		want   map[string]float64
		within float64 // relative
		source string
	}{
		{"torque 1", typed{"force": "6000", "pitch_dia": "22.5", "lead": "5", "friction": "0.08", "flank": "0", "collar_friction": "0.05", "collar_dia": "40"},
			map[string]float64{"torque_against": 16.23, "torque_with": 6.622, "efficiency": 29.4}, 0.003, "machine design text, solution of a problem on a square thread"},
		{"torque 2", typed{"force": "6400", "pitch_dia": "30", "lead": "8", "friction": "0.08", "flank": "0", "collar_friction": "0.08", "collar_dia": "40"},
			map[string]float64{"torque_against": 26.18, "torque_with": 9.77, "efficiency": 31.1, "thread_with": -0.47}, 0.003, "machine design text, example of a double thread, from memory, recomputed"},
		{"torque 3", typed{"force": say(10000 * lbf), "pitch_dia": "2 in", "lead": "0.5 in", "friction": "0.2", "flank": "0", "collar_friction": "0"},
			map[string]float64{"torque_against": 2840 * lbfIn}, 0.003, "statics text, problem on screw threads"},
		{"torque 4", typed{"thread": "Tr12x3", "force": "400", "friction": "0.15", "collar_friction": "0.12", "collar_dia": "14"},
			map[string]float64{"torque_against": 0.861, "torque_with": 0.469}, 0.005, "computed apart from this program"},
		{"torque 5", typed{"force": say(12500 * lbf), "pitch_dia": "1.3429 in", "lead": "0.25 in", "friction": "0.15", "flank": "14.5", "collar_friction": "0"},
			map[string]float64{"torque_against": 1809 * lbfIn, "efficiency": 27.5, "lead_angle": 3.39}, 0.005, "machine elements text, example of an Acme screw"},
		{"self-locking 1", typed{"pitch_dia": "7", "lead": "8", "friction": "0.15", "flank": "15"},
			map[string]float64{"lead_angle": 19.991, "friction_angle": 8.827}, 0.005, "computed apart from this program"},
		{"self-locking 2", typed{"thread": "Tr10x2", "friction": "0.15"},
			map[string]float64{"lead_angle": 4.046, "friction_angle": 8.827}, 0.005, "computed apart from this program"},
	} {
		c := ran(t, "screw_torque", tc.in)
		for key, want := range tc.want {
			within := math.Abs(tc.within * want)
			if key == "thread_with" {
				within = 0.005 // given to two places
			}
			require.InDelta(t, want, valueOf(t, c, key), within, "%s %s: %s", tc.id, key, tc.source)
		}
	}
	// Self-locking is of the thread alone: the second lowers with 9.8 N·m at the
	// handle, and yet its thread runs back; those for it by their angles.
	runs := ran(t, "screw_torque", typed{"pitch_dia": "30", "lead": "8", "friction": "0.08", "flank": "0", "collar_friction": "0.08", "collar_dia": "40", "radius": "300"})
	require.Equal(t, sheet.Fails, verdictOf(t, runs, "stays_put"))
	require.Equal(t, sheet.Fails, verdictOf(t, ran(t, "screw_torque", typed{"pitch_dia": "7", "lead": "8", "flank": "15"}), "stays_put"))
	require.Equal(t, sheet.Holds, verdictOf(t, ran(t, "screw_torque", typed{"thread": "Tr10x2"}), "stays_put"))
	require.Equal(t, sheet.Holds, verdictOf(t, ran(t, "screw_torque", typed{"thread": "Tr12x3", "friction": "0.15"}), "stays_put"))
	require.Equal(t, sheet.Tight, verdictOf(t, ran(t, "screw_torque", typed{"thread": "Tr12x3", "friction": "0.1"}), "stays_put"), "within a fifth of running back")
}

// What physics asks of a power screw, over threads, friction and force.
func TestScrewTorqueLaws(t *testing.T) {
	for _, thread := range []string{"Tr12x3", "M10", "Sq 12x2", "1/2-10 Acme", "Tr8x8(P2)"} {
		last := 0.0
		for _, friction := range []string{"0.05", "0.1", "0.15", "0.25", "0.4"} {
			c := ran(t, "screw_torque", typed{"thread": thread, "friction": friction})
			against, with := valueOf(t, c, "torque_against"), valueOf(t, c, "torque_with")
			require.Greater(t, against, last, "more friction, more torque")
			require.Greater(t, against, with)
			last = against
			e := valueOf(t, c, "efficiency")
			require.True(t, e > 0 && e < 100, e)
			require.Equal(t, valueOf(t, c, "holding") > 1, valueOf(t, c, "thread_with") > 0, "it holds where letting down takes a torque")
			require.Equal(t, valueOf(t, c, "friction_angle") > valueOf(t, c, "lead_angle"), valueOf(t, c, "holding") > 1, "the same by angles")
			// There and back: the force on the rim, put on the rim, gives the thrust.
			back := ran(t, "screw_torque", typed{"thread": thread, "friction": friction, "hand": say(valueOf(t, c, "rim_force"))})
			require.InEpsilon(t, 300, valueOf(t, back, "thrust_from_hand"), 1e-9)
			double := ran(t, "screw_torque", typed{"thread": thread, "friction": friction, "force": "600"})
			require.InEpsilon(t, 2*against, valueOf(t, double, "torque_against"), 1e-9)
		}
	}
	// Without friction the work of the handle is that of the slide.
	c := ran(t, "screw_torque", typed{"friction": "1e-12", "collar_friction": "0"})
	require.InDelta(t, 100, valueOf(t, c, "efficiency"), 1e-6)
	_, err := bench.Run("screw_torque", typed{"thread": "Tr12x3", "friction": "20"})
	require.ErrorContains(t, err, "cannot be worked out", "a thread that jams has no torque")
}

func TestScrewBuckling(t *testing.T) {
	for _, tc := range []struct {
		id     string
		in     typed
		key    string
		want   float64
		within float64
		euler  bool
		source string
	}{
		{"column 1", typed{"root": "20", "hole": "14", "length": "1500", "modulus": "207", "yield": "300", "ends": "supported-supported"}, "critical", 5419, 0.005, true, "textbook problem, answer computed apart from this program"},
		{"column 2", typed{"root": "20", "hole": "14", "length": "1500", "modulus": "207", "yield": "300", "ends": "fixed-free"}, "critical", 1355, 0.005, true, "textbook problem, answer computed apart from this program"},
		{"column 7", typed{"root": "20", "hole": "14", "length": "1500", "modulus": "207", "yield": "300", "ends": "fixed-fixed"}, "critical", 21677, 0.005, true, "textbook problem, answer computed apart from this program"},
		// A bar with the published I of 15.3e6 mm⁴: d = (64 I/π)^¼.
		{"column 3", typed{"root": say(math.Pow(64*15.3e6/math.Pi, 0.25)), "length": "4000", "modulus": "200", "yield": "1e6"}, "euler_load", 1887.6e3, 0.003, false, "mechanics of materials text, an example"},
		{"column 4", typed{"root": "500", "length": "20000", "modulus": "200", "yield": "250"}, "euler_load", 15.14e6, 0.003, true, "university course problem, answer computed apart from this program"},
		{"column 5", typed{"thread": "Tr12x3", "length": "250", "ends": "fixed-supported"}, "critical", 14489, 0.005, false, "computed apart from this program"},
		{"column 6", typed{"root": "11.5", "length": "400"}, "critical", 10910, 0.005, true, "computed apart from this program"},
		{"column by chart 1", typed{"root": "10", "length": "300", "ends": "fixed-supported"}, "chart_load", 11089, 0.02, false, "charts of ball screws, factor 0.5 in them"},
		{"column by chart 2", typed{"root": "12", "length": "500", "ends": "fixed-fixed"}, "chart_load", 16556, 0.02, false, "charts of ball screws, factor 0.5 in them"},
	} {
		c := ran(t, "screw_buckling", tc.in)
		require.InEpsilon(t, tc.want, valueOf(t, c, tc.key), tc.within, "%s: %s", tc.id, tc.source)
		if tc.key == "critical" {
			require.Equal(t, tc.euler, valueOf(t, c, "slenderness") > valueOf(t, c, "transition"), "%s: Euler's or Johnson's", tc.id)
		}
	}
	last := math.Inf(1)
	for _, length := range []float64{20, 50, 100, 200, 218, 219, 220, 300, 500, 1000} {
		c := ran(t, "screw_buckling", typed{"length": say(length)})
		require.Less(t, valueOf(t, c, "critical"), last, "longer is never stronger, across the change from Johnson to Euler too")
		last = valueOf(t, c, "critical")
		require.LessOrEqual(t, last, 375*valueOf(t, c, "area"), "never more than the yield load")
	}
	// At the transition the two formulas give the same, half of the yield load.
	c := ran(t, "screw_buckling", nil)
	at := ran(t, "screw_buckling", typed{"length": say(valueOf(t, c, "transition") * 8.5 / 4)})
	require.InEpsilon(t, valueOf(t, at, "euler_load"), valueOf(t, at, "johnson_load"), 1e-6)
	require.InEpsilon(t, 375*valueOf(t, at, "area")/2, valueOf(t, at, "euler_load"), 1e-6)
	_, err := bench.Run("screw_buckling", typed{"hole": "9"})
	require.ErrorContains(t, err, "hole: give 0, or a hole smaller")
}

// λ are roots of the characteristic equations of a bending bar (beam theory).
func TestEndsOfABar(t *testing.T) {
	for _, e := range screw.Held {
		l := e.Lambda
		got := map[string]float64{
			"fixed-free": math.Cos(l)*math.Cosh(l) + 1, "supported-supported": math.Sin(l),
			"fixed-supported": math.Tan(l) - math.Tanh(l), "fixed-fixed": math.Cos(l)*math.Cosh(l) - 1,
		}[e.Key]
		require.InDelta(t, 0, got, 1e-5, e.Key)
	}
}

func TestScrewWhirl(t *testing.T) {
	for _, tc := range []struct {
		id     string
		in     typed
		rpm    float64
		within float64
		source string
	}{
		{"whirl 1", typed{"thread": "Tr12x3", "length": "300", "ends": "fixed-supported"}, 17808, 0.005, "characteristic equations solved apart from this program"},
		{"whirl 2", typed{"root": "12", "length": "600", "ends": "supported-supported"}, 4023, 0.005, "characteristic equations solved apart from this program"},
		{"whirl 3", typed{"root": "0.5 in", "length": "40 in", "ends": "supported-supported"}, 1488, 0.01, "ball screw catalogue: 4.76e6 d/L² in inches"},
		{"whirl 4", typed{"root": "8.5", "length": "500", "ends": "fixed-fixed"}, 9303, 0.005, "characteristic equations solved apart from this program"},
	} {
		c := ran(t, "screw_whirl", tc.in)
		require.InEpsilon(t, tc.rpm, valueOf(t, c, "whirl"), tc.within, "%s: %s", tc.id, tc.source)
	}
	// Catalogues' factors 3.4, 9.7, 15.1 and 21.9 (10⁷ d/L²) have the 80 % in them.
	for ends, f := range map[string]float64{"fixed-free": 3.4, "supported-supported": 9.7, "fixed-supported": 15.1, "fixed-fixed": 21.9} {
		c := ran(t, "screw_whirl", typed{"root": "10", "length": "500", "ends": ends})
		require.InEpsilon(t, f*1e7*10/(500*500), valueOf(t, c, "whirl_safe"), 0.02, ends)
	}
	require.Equal(t, sheet.Fails, verdictOf(t, ran(t, "screw_whirl", typed{"length": "1500", "root": "8", "ends": "supported-supported", "speed": "400 rpm"}), "whirl_check"))
}

func TestScrewSag(t *testing.T) {
	c := ran(t, "screw_sag", typed{"root": "8.5", "length": "300"})
	require.InEpsilon(t, 0.00873, valueOf(t, c, "sag"), 0.005, "computed apart from this program")
	c = ran(t, "screw_sag", typed{"root": "8.5", "length": "150", "side_load": "50"})
	require.InEpsilon(t, 0.0666, valueOf(t, c, "bend"), 0.005, "computed apart from this program")
	for length, want := range map[string]float64{"200": 0.012, "300": 0.06, "400": 0.19} { // trade figures: free overhang of 10 mm
		c := ran(t, "screw_sag", typed{"root": "10", "length": length, "ends": "fixed-free"})
		require.InDelta(t, want, valueOf(t, c, "sag"), 0.005)
	}
	// A second way: the bar's curve, integrated twice from its moments by the
	// trapezoid rule, for each way of holding it.
	for _, ends := range []string{"fixed-free", "supported-supported", "fixed-supported", "fixed-fixed"} {
		c := ran(t, "screw_sag", typed{"root": "8.5", "length": "300", "ends": ends, "side_load": "5"})
		sag, bend := bentBar(ends, 300, valueOf(t, c, "weight"), 5, 206000*valueOf(t, c, "second_moment"))
		require.InEpsilon(t, sag, valueOf(t, c, "sag"), 0.002, ends)
		require.InEpsilon(t, bend, valueOf(t, c, "bend"), 0.002, ends)
	}
}

// bentBar is the largest sag under w and the deflection under F of a bar of
// length l and stiffness ei, F in the middle or at the free end, by numbers
// alone: the redundant forces are those that make the ends stay.
func bentBar(ends string, l, w, f, ei float64) (sag, bend float64) {
	const n = 4000
	h := l / n
	// curve integrates −M/EI from the left end with slope s and deflection 0.
	curve := func(moment func(x float64) float64, s float64) []float64 {
		y := make([]float64, n+1)
		for i := 0; i < n; i++ {
			x := float64(i) * h
			next := s + h*(moment(x)+moment(x+h))/2/ei
			y[i+1] = y[i] + h*(s+next)/2
			s = next
		}
		return y
	}
	at := l / 2
	if ends == "fixed-free" {
		at = l
	}
	uniform := func(r, m float64) func(float64) float64 { return func(x float64) float64 { return m + r*x - w*x*x/2 } }
	point := func(r, m float64) func(float64) float64 {
		return func(x float64) float64 { return m + r*x - f*math.Max(0, x-at) }
	}
	slope := func(y []float64) float64 { return (y[n] - y[n-1]) / h }
	solve := func(load func(r, m float64) func(float64) float64, total, arm float64) []float64 {
		switch ends {
		case "fixed-free":
			return curve(load(total, -total*arm), 0)
		case "supported-supported": // the slope at the left end is what brings the right end to 0
			r := total * (l - arm) / l
			y0, y1 := curve(load(r, 0), 0), curve(load(r, 0), 1)
			return curve(load(r, 0), -y0[n]/(y1[n]-y0[n]))
		case "fixed-supported": // the right end stays, without a moment there: m = total·arm − r·l
			of := func(r float64) []float64 { return curve(load(r, total*(l-arm)-r*l), 0) }
			a, b := of(0)[n], of(1)[n]
			return of(-a / (b - a))
		}
		// Both ends stay with their slopes: two linear equations.
		of := func(r, m float64) []float64 { return curve(load(r, m), 0) }
		z, zr, zm := of(0, 0), of(1, 0), of(0, 1)
		a, b, c, d := zr[n]-z[n], zm[n]-z[n], slope(zr)-slope(z), slope(zm)-slope(z)
		det := a*d - b*c
		return of((-z[n]*d+slope(z)*b)/det, (-a*slope(z)+c*z[n])/det)
	}
	for _, y := range solve(uniform, w*l, l/2) {
		sag = math.Max(sag, math.Abs(y))
	}
	return sag, math.Abs(solve(point, f, at)[int(math.Round(at/h))])
}

func TestScrewWindupAndStiffness(t *testing.T) {
	c := ran(t, "screw_windup", typed{"root": "8.5", "length": "200", "torque": "1.5", "lead": "3"})
	require.InEpsilon(t, 0.00741*180/math.Pi, valueOf(t, c, "wind_up"), 0.005, "computed apart from this program")
	require.InEpsilon(t, 3.54, valueOf(t, c, "wind_up_lost"), 0.005)
	c = ran(t, "screw_stiffness", typed{"root": "8.5", "length": "200", "force": "500"})
	require.InEpsilon(t, 58.45, valueOf(t, c, "screw_stiffness"), 0.005, "computed apart from this program")
	require.InEpsilon(t, 14.9, valueOf(t, c, "stiffness"), 0.005)
	require.InEpsilon(t, 33.55, valueOf(t, c, "gives"), 0.005)
	require.Equal(t, sheet.Holds, verdictOf(t, c, "stiff_enough"))
	soft := ran(t, "screw_stiffness", typed{"bracket_stiffness": "4"})
	require.Less(t, valueOf(t, soft, "stiffness"), 4.0, "softer than its softest spring")
	require.Equal(t, sheet.Tight, verdictOf(t, soft, "stiff_enough"))
	// Held at both ends and with the nut in the middle it is four times as stiff as its half.
	half := ran(t, "screw_stiffness", typed{"length": "200"})
	both := ran(t, "screw_stiffness", typed{"length": "200", "between": "400"})
	require.InEpsilon(t, 2*valueOf(t, half, "screw_stiffness"), valueOf(t, both, "screw_stiffness"), 1e-9)
	// Stretch and stiffness are one figure.
	stretch := ran(t, "screw_windup", typed{"length": "200", "force": "300"})
	require.InEpsilon(t, 300/valueOf(t, half, "screw_stiffness"), valueOf(t, stretch, "stretch"), 1e-9)
	_, err := bench.Run("screw_stiffness", typed{"length": "200", "between": "150"})
	require.ErrorContains(t, err, "between: the nut lies between")
}

func TestSideForce(t *testing.T) {
	// I of a root of 9 mm is 322 mm⁴: common practice tables; F = 3 E I e/a³ by hand.
	c := ran(t, "side_force", typed{"root": "9", "distance": "40", "misalignment": "0.1"})
	require.InEpsilon(t, 322, valueOf(t, c, "second_moment"), 0.001)
	require.InEpsilon(t, 3*206000*322.06*0.1/64000, valueOf(t, c, "side_force"), 0.001)
	far := ran(t, "side_force", typed{"root": "9", "distance": "80", "misalignment": "0.1"})
	require.InEpsilon(t, 8, valueOf(t, c, "side_force")/valueOf(t, far, "side_force"), 1e-9, "twice as far, an eighth of the force")
}

func TestLostMotion(t *testing.T) {
	shares := []string{"thread_share", "wear_share", "float_share", "bearing_share", "handle_share", "twist_share", "stretch_share", "bracket_share"}
	c := ran(t, "lost_motion", typed{"wear": "0.05", "bearing_play": "0.01", "measured": "0.2"})
	sum, squares := 0.0, 0.0
	for _, s := range shares {
		v := valueOf(t, c, s)
		sum, squares = sum+v, squares+v*v
	}
	require.InDelta(t, sum, valueOf(t, c, "lost"), 1e-9)
	require.InDelta(t, math.Sqrt(squares), valueOf(t, c, "likely"), 1e-9)
	require.InDelta(t, 0.2-sum, valueOf(t, c, "unexplained"), 1e-9)
	for thread, factor := range map[string]float64{"Tr12x3": 0.268, "1/2-10 Acme": 0.259, "M10": 0.577, "Sq 12x3": 1} { // tan of half of the flank angle
		c := ran(t, "lost_motion", typed{"thread": thread, "clearance": "0.1"})
		require.InDelta(t, 0.1*factor, valueOf(t, c, "thread_share"), 0.0001, thread)
	}
	wound := ran(t, "screw_windup", typed{"torque": "0.5", "length": "200"})
	require.InDelta(t, valueOf(t, wound, "wind_up_lost")/1000, valueOf(t, c, "twist_share"), 1e-9, "the wind-up is the same figure")
	table, ok := c.Table()
	require.True(t, ok)
	require.Len(t, table.Rows, len(shares))
	none := ran(t, "lost_motion", typed{"clearance": "0", "end_float": "0", "handle_slack": "0", "torque": "0", "force": "0"})
	require.Zero(t, valueOf(t, none, "lost"))
}
