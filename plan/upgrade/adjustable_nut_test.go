package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// played is the demo lathe with room before its front wall, and its lost motion
// taken at three places.
func played(minus, middle, plus string, kind string, inputs ...string) machine.Machine {
	m := roomy(kind, inputs...)
	for key, typed := range map[string]string{"lost_motion_minus": minus, "lost_motion": middle, "lost_motion_plus": plus} {
		m.Axes[0].Entries[key] = plan.Entry{Typed: typed, With: "dial_gauge"}
	}
	return m
}

// 0.25 − 0.12 = 0.13 is the nut's, and the screw is worn by 0.25 − 0.20 = 0.05: with
// 0.03 left where it is least worn 0.08 stay at the worst, 0.05 are taken up, and
// 0.12 + 0.08 = 0.20 are lost in all. A wedge of 10° drawn by M5 × 0.8 takes up
// 0.8 tan 10° = 0.1411 a turn, so 0.3545 turns, and 0.0176 by an eighth. A nut of 26
// with a slot of 2 bears over 12 each way, one diameter; a hand's 3770 N press
// 3770 / (π 11.25 × 0.75 × 12/1.5) = 17.78 MPa on it, where all 24 have 14.2. The
// window is 134 − 26 = 108 where it was 110. Common practice, no source.
func TestNutSetByAWedge(t *testing.T) {
	p := built(t, played("0.2", "0.25", "0.21", "adjustable_nut", "how", "wedge", "left", "0.03", "length", "26"))
	is(t, p, map[string]float64{
		"cross.backlash": 0.08, "cross.lost_motion_all": 0.2, "cross.upgrade_1.take": 0.05, "cross.upgrade_1.per_turn": 0.1411, "cross.upgrade_1.wedge_turns": 0.3545,
		"cross.upgrade_1.step": 0.0176, "cross.upgrade_1.bearing": 12, "cross.nut_on_thread.window": 108, "cross.upgrade_1.better": 0.05,
	})
	f, _ := p.Result.Figure("cross.upgrade_1.pressure", sheet.Planned)
	require.InDelta(t, 17.78, f.Value, 0.01)
	require.Empty(t, failing(p))
	require.Equal(t, "Lost motion comes to 0.2 mm, where it is 0.25 mm now. The wedge's screw takes it up in 0.35 turns. An eighth of a turn takes up 0.02 mm. Each direction is borne by one part, 12 mm long.", answer(p, "1"))
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, "ISO 4762 M5 × 20", mk.Buy[0].Designation)
	require.Contains(t, piece(t, p, "1", "wedge").Notes[0], "10°")
	require.Contains(t, stepNamed(t, mk, "set_nut").Asks[0], "no place where it goes hard")
	require.Empty(t, stepNamed(t, mk, "split_nut").Out) // made before anything comes apart
}

// The trap: in the room of the old nut, 24, two parts and a slot leave 11 each. Where
// the wall stands close, a nut that is 2 longer meets it 2 earlier.
func TestNoRoomForTwoParts(t *testing.T) {
	p := built(t, played("0.2", "0.25", "0.21", "adjustable_nut", "how", "wedge", "left", "0.03"))
	is(t, p, map[string]float64{"cross.upgrade_1.bearing": 11})
	require.Equal(t, []string{"cross.upgrade_1.bearing_check"}, failing(p))
	require.Contains(t, answer(p, "1"), "each part of the nut long enough, short by 1 mm")
	p = built(t, with("adjustable_nut", "how", "wedge", "left", "0.03", "length", "26"))
	is(t, p, map[string]float64{"cross.reach_plus": 86})
	require.Equal(t, []string{"cross.front_wall_nut.check"}, failing(p))
}

// The second part turned by 360° × 0.05 / 1.5 = 12°.
func TestNutInTwoParts(t *testing.T) {
	p := built(t, played("0.2", "0.25", "0.21", "adjustable_nut", "how", "two", "left", "0.03", "length", "27"))
	f, _ := p.Result.Figure("cross.upgrade_1.turned", sheet.Planned)
	require.InDelta(t, 0.2094, f.Value, 1e-4) // 12° in radians
	require.Contains(t, answer(p, "1"), "The second part is turned by 12° and clamped.")
	require.Empty(t, failing(p))
}

// 200 N of spring against a cut of 100 and a slide that drags with 40. On M12 × 1.5,
// d2 = 12 − 0.649519 × 1.5 = 11.0257, µ sec 30° = 0.1732 and π d2 = 34.638: against,
// 200 × 5.5129 × (1.5 + 6.0) / (34.638 − 0.260) = 240.5 N·mm; with, 200 × 5.5129 ×
// (6.0 − 1.5) / (34.638 + 0.260) = 142.2; together 0.383 N·m. The mechanics is that of
// any machine design text. 3770 + 200 N press on 13 mm, 8.67 turns:
// 3970 / (π 11.25 × 0.75 × 8.667) = 17.28 MPa.
func TestNutPressedBySprings(t *testing.T) {
	p := built(t, played("0.2", "0.25", "0.21", "adjustable_nut", "how", "spring", "spring", "200", "length", "30"))
	is(t, p, map[string]float64{"cross.backlash": 0, "cross.lost_motion_all": 0.12, "cross.upgrade_1.bearing": 13})
	drags, _ := p.Result.Figure("cross.upgrade_1.drags", sheet.Planned)
	require.InDelta(t, 382.7, drags.Value, 0.2)
	pressure, _ := p.Result.Figure("cross.upgrade_1.pressure", sheet.Planned)
	require.InDelta(t, 17.28, pressure.Value, 0.01)
	require.Empty(t, failing(p))

	// Weaker than cut and drag, the backlash opens in the cut; and from 3 N·m / 3 on
	// it winds hard: 1000 / 382.7 × 200 = 522.6 N.
	require.Equal(t, []string{"cross.upgrade_1.spring_check"}, failing(built(t, played("0.2", "0.25", "0.21", "adjustable_nut", "how", "spring", "spring", "120", "length", "30"))))
	s := p.Site("1")
	reach := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
	require.InDelta(t, 140, reach.From, 0.1)
	require.InDelta(t, 522.6, reach.To, 0.5)
}

// A nut of 24 on a thread of 60°: a tilt of θ takes up θ (24 tan 30° + 11.0257) =
// 24.882 θ, so 0.05 needs 0.002010 = 0.1151°, and its ends go 0.0241 aside. It bears
// over a turn at either end: 1.5 of the 12 that are good.
func TestTiltedNut(t *testing.T) {
	p := built(t, played("0.2", "0.25", "0.21", "adjustable_nut", "how", "tilt", "left", "0.03"))
	f, _ := p.Result.Figure("cross.upgrade_1.tilt", sheet.Planned)
	require.InDelta(t, 0.0020095, f.Value, 1e-6)
	is(t, p, map[string]float64{"cross.upgrade_1.aside": 0.0241, "cross.upgrade_1.bearing": 1.5, "cross.lost_motion_all": 0.2})
	require.Empty(t, failing(p))
	require.Equal(t, sheet.Tight, verdict(t, p, "cross.upgrade_1.bearing_check").Verdict)
	require.Contains(t, answer(p, "1"), "It bears over 1.5 mm at either end and nowhere between: a stop-gap.")
	mk := p.Site("1").Make(p.Result)
	require.Empty(t, mk.Parts)
	require.Contains(t, stepNamed(t, mk, "tilt_nut").Asks[0], "one screw")
}

// Backlash taken in the middle only: whether the screw is worn there is not known,
// and the program says what to measure. Taken at all three, a screw worn by 0.3 is
// found, whatever is done to its nut.
func TestStoryBacklashTakenInTheMiddleOnly(t *testing.T) {
	m := with("adjustable_nut", "how", "wedge", "left", "0.03", "length", "26")
	m.Axes[0].Entries["lost_motion"] = plan.Entry{Typed: "0.25", With: "dial_gauge"}
	p := built(t, m)
	c := verdict(t, p, "cross.upgrade_1.worn_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "lost motion at both ends of the travel as well", c.Missing[0].Label)

	p = built(t, played("0.18", "0.48", "0.2", "adjustable_nut", "how", "wedge", "left", "0.03", "length", "26"))
	require.Equal(t, []string{"cross.upgrade_1.worn_check"}, failing(p))
}

// Nothing measured, nothing typed: no verdict, and an answer all the same.
func TestAdjustableNutUnmeasured(t *testing.T) {
	p := built(t, with("adjustable_nut", "left", "0.03"))
	c := verdict(t, p, "cross.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "cross.lost_motion", c.Missing[0].Key)
	require.Contains(t, answer(built(t, with("adjustable_nut")), "1"), "Say how much play should be left")
	require.Contains(t, answer(built(t, with("adjustable_nut", "how", "spring")), "1"), "Say how hard the springs should press")
	require.Equal(t, upgrade.Make{}, built(t, with("adjustable_nut")).Site("1").Make(p.Result))
}

// An adjustable nut and a new one: both are named.
func TestAdjustableAndNewNut(t *testing.T) {
	p := built(t, and(with("adjustable_nut", "left", "0.03"), "new_nut", "play", "0.05"))
	require.NotEmpty(t, p.Result.Conflicts())
	require.Equal(t, []string{"Adjustable nut, Cross slide", "New feed nut, Cross slide"}, []string{p.Result.Conflicts()[0].First, p.Result.Conflicts()[0].Second})
}
