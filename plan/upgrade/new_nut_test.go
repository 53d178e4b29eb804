package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/sheet"
)

// Lost motion of 0.18, 0.25 and 0.20 with an end float of 0.12: the worst leaves
// 0.25 − 0.12 = 0.13 to the nut, and differs by 0.07 along the travel. A nut with
// 0.05 where the screw is least worn has 0.05 + 0.07 = 0.12 at the worst, 0.24 in
// all. The hand's 3770 N press 3770 / (π 11.25 × 0.75 × 10) = 14.2 MPa on ten turns
// of M12 × 1.5. From memory: 7 MPa wears bronze slowly.
func TestNewNut(t *testing.T) {
	m := with("new_nut", "play", "0.05")
	for key, typed := range map[string]string{"lost_motion_minus": "0.18", "lost_motion": "0.25", "lost_motion_plus": "0.2"} {
		m.Axes[0].Entries[key] = plan.Entry{Typed: typed, With: "dial_gauge"}
	}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.nut_play_found": 0.13, "cross.lost_motion_spread": 0.07, "cross.backlash": 0.12, "cross.lost_motion_all": 0.24,
		"cross.upgrade_1.better": 0.01, "cross.upgrade_1.thrust": 3769.911, "cross.upgrade_1.pressure": 14.2221})
	require.Empty(t, failing(p))
	require.Equal(t, sheet.Tight, verdict(t, p, "cross.upgrade_1.pressure_check").Verdict)
	require.Equal(t, "Lost motion comes to 0.24 mm, where it is 0.25 mm now. Of that 0.07 mm is the screw's own wear, which a nut cannot take away.", answer(p, "1"))
	require.Equal(t, "M12×1.5-LH-6H", piece(t, p, "1", "nut").Round.Left[0].Thread)

	// The trap: a screw worn by 0.3 in the middle. A new nut alone is no cure.
	m.Axes[0].Entries["lost_motion"] = plan.Entry{Typed: "0.48", With: "dial_gauge"}
	p = built(t, m)
	is(t, p, map[string]float64{"cross.lost_motion_spread": 0.3, "cross.backlash": 0.35})
	require.Equal(t, []string{"cross.upgrade_1.worn_check"}, failing(p))

	// Thrust bearings before it take the end float away, and the nut its own part.
	both := and(with("thrust_set", "end_float", "0.01"), "new_nut", "play", "0.05")
	both.Axes[0].Entries["lost_motion"] = plan.Entry{Typed: "0.25", With: "dial_gauge"}
	is(t, built(t, both), map[string]float64{"cross.backlash": 0.05, "cross.lost_motion_all": 0.06})
}

// Nothing was measured: there is no verdict, and what is missing is named.
func TestNewNutUnmeasured(t *testing.T) {
	p := built(t, with("new_nut", "play", "0.05"))
	c := verdict(t, p, "cross.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "cross.lost_motion", c.Missing[0].Key)
	require.Contains(t, answer(p, "1"), "lost motion, middle of the travel")
}

// Story: lost motion was looked for in the middle alone. 0.25 − 0.12 = 0.13 of the nut's
// becomes 0.05 there; whether the screw is worn as well, that says nothing about.
func TestStoryLostMotionInTheMiddleAlone(t *testing.T) {
	m := with("new_nut", "play", "0.05")
	m.Axes[0].Entries["lost_motion"] = plan.Entry{Typed: "0.25", With: "dial_gauge"}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.nut_play_found": 0.13, "cross.backlash": 0.05})
	c := verdict(t, p, "cross.upgrade_1.worn_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "lost motion at both ends of the travel as well", c.Missing[0].Label)
	// At one of the ends as well: 0.25 − 0.18 = 0.07, below 0.1.
	m.Axes[0].Entries["lost_motion_plus"] = plan.Entry{Typed: "0.18", With: "dial_gauge"}
	require.Equal(t, sheet.Holds, verdict(t, built(t, m), "cross.upgrade_1.worn_check").Verdict)
}

// Two nuts for one screw: both are named.
func TestTwoNuts(t *testing.T) {
	p := built(t, and(with("new_nut", "play", "0.05"), "new_nut", "play", "0.03"))
	require.NotEmpty(t, p.Result.Conflicts())
	require.Equal(t, []string{"New feed nut, Cross slide", "New feed nut, Cross slide (2)"}, []string{p.Result.Conflicts()[0].First, p.Result.Conflicts()[0].Second})
}

// 6 longer at the outer end: 28 in all where it was 22, and six less of thread beyond it.
func TestLongerNut(t *testing.T) {
	before := built(t, with("new_nut", "play", "0.05"))
	old, _ := before.Result.Figure("cross.nut.length", sheet.Planned)
	spare, _ := before.Result.Figure("cross.nut_on_thread.spare_plus", sheet.Planned)
	p := built(t, with("new_nut", "play", "0.05", "length", "28"))
	is(t, p, map[string]float64{"cross.nut.length": 28, "cross.nut_on_thread.spare_plus": spare.Value - (28 - old.Value)})
}
