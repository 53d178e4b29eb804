package upgrade_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
)

// fed is the demo mill's Y axis with a motor on it, as the only upgrade.
func fed(inputs ...string) machine.Machine {
	m := demo.Mill()
	m.Upgrades = nil
	return and(m, "power_feed", append([]string{"fastest", "150", "speed", "150", "torque", "8", "slips", "4"}, inputs...)...)
}

// By hand, Tr 12 × 3: 150 mm/min are 50 turns a minute; 10 are 3.33, 2.2 % of 150. Against 500 + 40 N, on
// 10.5 with 15° flanks (sec 1.0353) and 0.15: 540 × 5.25 × (3 + π 0.15 × 10.5 × 1.0353) / (π 10.5 − 0.15 × 3 ×
// 1.0353) = 2835 × 8.1226 / 32.521 = 708 N·mm, and on a face of 18 mean 540 × 0.15 × 9 = 729: 1.437 N·m.
// The motor gives 8 × 0.8 = 6.4, where 1.5 × 1.437 = 2.156 are wanted. It runs on by 2.5 × 0.5 = 1.25;
// between switches 5 before either end are 130 − 10 = 120.
func TestPowerFeed(t *testing.T) {
	p := built(t, fed())
	nm := func(key string, want float64) {
		f, ok := p.Result.Figure("y.upgrade_1."+key, sheet.Planned)
		require.True(t, ok)
		require.InDelta(t, want, unit.NewtonMetre.In(f.Value), 0.001, key)
	}
	rpm, _ := p.Result.Figure("y.upgrade_1.screw_speed", sheet.Planned)
	require.InDelta(t, 50, unit.RPM.In(rpm.Value), 1e-9)
	nm("thread_against", 0.708)
	nm("collar_torque", 0.729)
	nm("at_screw", 6.4)
	nm("at_screw_least", 2.156)
	is(t, p, map[string]float64{"y.upgrade_1.runs_on": 1.25, "y.upgrade_1.powered": 120, "y.upgrade_1.steady": 0.022222, "y.travel": 130})
	require.Empty(t, failing(p))
	require.Equal(t, sheet.Tight, verdict(t, p, "y.upgrade_1.steady_check").Verdict)
	require.Equal(t, "The screw turns at 50 rpm for it and needs 1.44 N·m. Under power it goes 120 mm, from switch to switch. No travel is lost. Nothing else follows.", answer(p, "1"))
}

func TestPowerFeedFails(t *testing.T) {
	for _, tc := range []struct {
		why    string
		inputs []string
		fails  []string
	}{
		// 600 mm/min: 200 rpm of 150, and 5 of run-on wants 10 of room.
		{"too fast", []string{"fastest", "600"}, []string{"speed_check", "trip_check"}},
		{"a weak motor: 1.6 of 2.16", []string{"torque", "2"}, []string{"torque_check"}},
		{"a clutch that slips in the cut", []string{"slips", "1.5"}, []string{"carries_check"}},
		{"one that breaks the nut first: 6 is twice a hand's 3", []string{"slips", "9"}, []string{"spares_check"}},
		{"switches on the hard stop", []string{"trip", "2"}, []string{"trip_check"}},
		// The unit between bracket and dial takes 40 of the screw's end, which an extension gives.
		{"at the handle's end", []string{"at", "handle", "joint", "new_screw"}, []string{}},
	} {
		want := []string{}
		for _, f := range tc.fails {
			want = append(want, "y.upgrade_1."+f)
		}
		require.ElementsMatch(t, want, failing(built(t, fed(tc.inputs...))), tc.why)
	}
}

// Knock-ons: at the handle's end dial, handle and nut go 40 out, and the screw with them:
// it was long enough, 35.5 beyond the bracket, by none: 40 more. Switches in between take 8 at either end
// where the saddle meets something: inward the column, at 0; outward a stop screw, at 0.
func TestPowerFeedKnockOns(t *testing.T) {
	p := built(t, fed("at", "handle", "unit", "40"))
	is(t, p, map[string]float64{"y.dial.gap": 40.5, "y.extension.visible": 40})
	require.Contains(t, answer(p, "1"), "The screw's end then needs an extension of 40 mm.")
	p = built(t, fed("switches", "between", "pressed", "8"))
	is(t, p, map[string]float64{"y.upgrade_1.lost_minus": 8, "y.upgrade_1.lost_plus": 8, "y.travel": 114, "y.upgrade_1.powered": 104})

	// A table that goes along has its unit at the left end, where a cover stands 20 off: 40 − 20 are lost.
	m := on("mill_x", "power_feed", "fastest", "150", "speed", "150", "torque", "8", "slips", "4")
	is(t, built(t, m), map[string]float64{"mill_x.upgrade_1.lost_minus": 20, "mill_x.travel": 400})
}

// Unmeasured, and what a motor can do to a person: asked and said at the step.
func TestPowerFeedUnmeasuredAndSafe(t *testing.T) {
	m := demo.Mill()
	m.Upgrades = nil
	p := built(t, and(m, "power_feed", "fastest", "150"))
	for key, missing := range map[string]string{"speed_check": "y.upgrade_1.speed", "torque_check": "y.upgrade_1.torque", "carries_check": "y.upgrade_1.slips"} {
		c := verdict(t, p, "y.upgrade_1."+key)
		require.Equal(t, sheet.Unmeasured, c.Verdict)
		require.Equal(t, missing, c.Missing[0].Key)
	}
	k, _ := upgrade.KindNamed("power_feed")
	said := strings.Join(k.About().Cautions, " ")
	for _, word := range []string{"competent electrician", "emergency stop", "After a power failure", "free-wheel"} {
		require.Contains(t, strings.ToLower(said), strings.ToLower(word))
	}
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "wire_feed").Do, "competent electrician")
	require.Contains(t, stepNamed(t, mk, "wire_feed").Asks[0], "when the power comes back")
	require.Contains(t, stepNamed(t, mk, "fit_feed").Asks[0], "free-wheel")
}

// A thread of two starts: a lead of 3 is a profile of 1.5, and the flanks bear on
// 12 − 0.649519 × 1.5 = 11.026 (ISO 724), not on the 10.051 of a profile of 3.
func TestPowerFeedOfTwoStarts(t *testing.T) {
	m := played("0.2", "0.3", "0.21", "new_lead", "for", "fewer", "lead", "3 mm", "starts", "2", "dial", "new", "clockwise", "minus")
	is(t, built(t, and(m, "power_feed", "fastest", "150")), map[string]float64{"cross.upgrade_2.pitch_dia": 11.0257})
}
