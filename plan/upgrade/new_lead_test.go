package upgrade_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/machine"
	"fettle/plan/sheet"
)

func threadOf(m machine.Machine, key, typed string) machine.Machine {
	t, _ := m.Axes[0].Part("thread")
	t.Entries[key] = plan.Entry{Typed: typed, With: "dial_gauge"}
	return m
}

// A lead of 2.5 where it is 1.5: 89.5 / 2.5 = 35.8 turns where it takes 59.7, and a
// line of 60 is 2.5 / 60 = 0.0417. On M12 the pitch diameter is 12 − 0.649519 × 2.5 =
// 10.376: 300 N ask for 300 × 5.188 × (2.5 + 5.646) / (32.598 − 0.433) = 394.2 N·mm, where
// 1.5 asks for 300 × 5.513 × (1.5 + 6.0) / (34.638 − 0.260) = 360.8, by the statics of the
// power screw; 300 × 2.5 / 2π 394.2 = 0.303 arrives, and 5.646 / 2.5 = 2.26 times the
// friction that holds it. The root, 12 − 1.226869 × 2.5 = 8.933, carries 95 π 8.933³ / 16 =
// 13300 N·mm.
func TestNewLead(t *testing.T) {
	p := built(t, played("0.2", "0.48", "0.21", "new_lead", "for", "fewer", "lead", "2.5 mm", "dial", "new", "clockwise", "minus"))
	is(t, p, map[string]float64{"cross.thread.pitch": 2.5, "cross.thread.turns": 35.8, "cross.upgrade_1.stood": 59.6667, "cross.dial.per_line": 0.0417, "cross.thread.root": 8.9328,
		"cross.upgrade_1.efficiency_new": 0.3028, "cross.upgrade_1.holding": 2.2584, "cross.lost_motion_all": 0.17})
	for key, want := range map[string]float64{"thread_against": 394.2, "torque_stood": 360.8} {
		f, _ := p.Result.Figure("cross.upgrade_1."+key, sheet.Planned)
		require.InDelta(t, want, f.Value, 0.1, key)
	}
	core, _ := p.Result.Figure("cross.upgrade_1.core", sheet.Planned)
	require.InDelta(t, 13296, core.Value, 5)
	require.Empty(t, failing(p))
	require.Equal(t, "M12×2.5-LH-6g", piece(t, p, "1", "screw").Round.Outside[0].Thread)
	require.Equal(t, "M12×2.5-LH-6H", piece(t, p, "1", "nut").Round.Left[0].Thread)
	require.NotEmpty(t, stepNamed(t, p.Site("1").Make(p.Result), "gears_for_lead").Asks)
}

// The trap, and a story: the dial of the old lead stays. It shows 1.5 a turn, and the
// slide moves 2.5: 40 % off, 35.8 over the travel. The program says what dial suits,
// and when that is planned, before or after, holds.
func TestStoryDialOfAnotherLead(t *testing.T) {
	lead := []string{"for", "fewer", "lead", "2.5 mm", "clockwise", "minus"}
	p := built(t, played("0.2", "0.3", "0.21", "new_lead", lead...))
	is(t, p, map[string]float64{"cross.dial.off": 0.4, "cross.upgrade_1.off_over": 35.8})
	require.Equal(t, []string{"cross.upgrade_1.off_check"}, failing(p))
	require.Contains(t, answer(p, "1"), "A dial of 100 lines would read 0.025 mm to a line.")

	p = built(t, and(played("0.2", "0.3", "0.21", "new_lead", lead...), "new_dial", "value", "0.025 mm", "dia", "50"))
	is(t, p, map[string]float64{"cross.dial.divisions": 100, "cross.dial.per_line": 0.025, "cross.upgrade_2.off": 0})
	require.Empty(t, failing(p))
	// A dial that was planned for the lead of 1.5 no longer suits: 75 lines of 0.02.
	p = built(t, and(played("0.2", "0.3", "0.21", "new_dial", "value", "0.02 mm", "dia", "50"), "new_lead", lead...))
	require.Equal(t, []string{"cross.upgrade_1.off_check"}, failing(p))

	// An inch lead under a dial of 2.5: 2.5 / 2.54 is 1.57 % off.
	p = built(t, threadOf(played("0.2", "0.3", "0.21", "new_lead", "for", "fewer", "lead", "0.1 in", "clockwise", "minus"), "pitch", "2.5"))
	is(t, p, map[string]float64{"cross.dial.off": 0.0157})
	require.Equal(t, []string{"cross.upgrade_1.off_check"}, failing(p))
}

// The other way: a metric dial on an inch screw. It shows 2.5 where 2.54 is moved,
// 1.57 % off; a screw of 2.5 makes it true.
func TestLeadMadeToAgree(t *testing.T) {
	m := func(lead string) machine.Machine {
		return threadOf(played("0.2", "0.3", "0.21", "new_lead", "for", "agree", "shows", "2.5 mm", "lead", lead, "clockwise", "minus"), "pitch", "2.54")
	}
	p := built(t, m("2.5 mm"))
	is(t, p, map[string]float64{"cross.upgrade_1.stood": 0.01575, "cross.dial.off": 0, "cross.upgrade_1.better": 0.01575})
	require.Empty(t, failing(p))
	require.Equal(t, []string{"cross.upgrade_1.off_check"}, failing(built(t, m("0.1 in")))) // nothing is changed by that
	// 127 lines of 0.02 suit an inch screw: 2.54 / 0.02.
	p = built(t, threadOf(with("new_dial", "value", "0.02 mm", "dia", "50"), "pitch", "2.54"))
	is(t, p, map[string]float64{"cross.dial.divisions": 127, "cross.dial.per_line": 0.02})
	p = built(t, m("2.5 mm"))
	delete(p.Machine.Upgrades[0].Inputs, "shows")
	c := verdict(t, built(t, *p.Machine), "cross.upgrade_1.off_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "cross.dial.shows", c.Missing[0].Key)
}

// Stories of units and of notation: a lead is said in both units, where it is chosen,
// before it is cut and in the answer; a line on the slide and on the diameter.
func TestStoryUnitsAndDiameters(t *testing.T) {
	p := built(t, played("0.2", "0.3", "0.21", "new_lead", "for", "fewer", "lead", "0.1 in", "clockwise", "minus"))
	s := p.Site("1")
	said := false
	for _, f := range s.Fields {
		for _, o := range f.Options {
			said = said || f.Name == "lead" && o.Label == "0.1 in, which is 2.54 mm"
		}
	}
	require.True(t, said)
	require.Contains(t, stepNamed(t, s.Make(p.Result), "gears_for_lead").Asks[0], "0.1 in, which is 2.54 mm")
	require.Contains(t, stepNamed(t, s.Make(p.Result), "mark_dial").Asks[0], "radius or diameter")
	require.Contains(t, answer(p, "1"), "A turn moves 2.54 mm (0.1 in), where it moves 1.5 mm (0.0591 in) now.")
	require.Contains(t, answer(p, "1"), "A line of the dial is then 0.0423 mm of the slide, and 0.0847 mm of the work's diameter.") // 2.54 / 60
}

// Two starts of 1.5: the lead is 3, the root stays 12 − 1.226869 × 1.5 = 10.160, and the
// feed of 0.05 doubles. Three of 2 wind back: d2 = 10.701, π d2 µ sec 30° = 5.823, and
// 5.823 / 6 = 0.97. One of 6 leaves a root of 4.639: 95 π 4.639³ / 16 = 1862 N·mm, where a
// hand gives 3000.
func TestStarts(t *testing.T) {
	p := built(t, played("0.2", "0.3", "0.21", "new_lead", "for", "fewer", "lead", "3 mm", "starts", "2", "dial", "new", "clockwise", "minus", "feed", "yes", "feed_now", "0.05"))
	is(t, p, map[string]float64{"cross.thread.profile": 1.5, "cross.thread.root": 10.1597, "cross.nut.bore": 10.3762, "cross.upgrade_1.feed_new": 0.1, "cross.upgrade_1.holding": 1.9999})
	require.Empty(t, failing(p))
	require.Equal(t, "M12×Ph3P1.5-LH-6g", piece(t, p, "1", "screw").Round.Outside[0].Thread)
	require.Contains(t, answer(p, "1"), "The finest power feed becomes 0.1 mm to a turn of the spindle.")

	p = built(t, played("0.2", "0.3", "0.21", "new_lead", "for", "fewer", "lead", "6 mm", "starts", "3", "dial", "new", "clockwise", "minus"))
	is(t, p, map[string]float64{"cross.upgrade_1.holding": 0.9704})
	require.Contains(t, failing(p), "cross.upgrade_1.holding_check")
	p = built(t, played("0.2", "0.3", "0.21", "new_lead", "for", "fewer", "lead", "6 mm", "dial", "new", "clockwise", "minus"))
	core, _ := p.Result.Figure("cross.upgrade_1.core", sheet.Planned)
	require.InDelta(t, 1862, core.Value, 3)
	require.Contains(t, failing(p), "cross.upgrade_1.core_check")
}

// The lead that there is was not measured: no verdict, and the answer says how to.
func TestNewLeadUnmeasured(t *testing.T) {
	m := with("new_lead", "for", "fewer", "lead", "2.5 mm")
	thread, _ := m.Axes[0].Part("thread")
	delete(thread.Entries, "pitch")
	p := built(t, m)
	c := verdict(t, p, "cross.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Contains(t, answer(p, "1"), "wind ten turns")
	require.Empty(t, built(t, with("new_lead")).Site("1").Make(p.Result).Steps)

	// A new screw and a new lead fight for the screw: both are named.
	p = built(t, and(with("new_screw", "play", "0.05"), "new_lead", "lead", "2.5 mm"))
	require.NotEmpty(t, p.Result.Conflicts())
	require.Equal(t, []string{"New feed screw, with its nut, Cross slide", "Another lead, Cross slide"}, []string{p.Result.Conflicts()[0].First, p.Result.Conflicts()[0].Second})
}

// A dial planned for the lead of 1.5 and another lead after it: where that one says that
// a dial is made anew, nothing watches the planned one any longer, and the one that comes
// after, 100 lines of 0.025 for 2.5, is watched by its own.
func TestDialAfterDial(t *testing.T) {
	lead := []string{"for", "fewer", "lead", "2.5 mm", "dial", "new", "clockwise", "minus"}
	m := and(played("0.2", "0.3", "0.21", "new_dial", "value", "0.02 mm", "dia", "50"), "new_lead", lead...)
	p := built(t, m)
	require.Empty(t, failing(p))
	is(t, p, map[string]float64{"cross.upgrade_1.off": 0, "cross.dial.off": 0})
	m = and(m, "new_dial", "value", "0.025 mm", "dia", "50")
	is(t, built(t, m), map[string]float64{"cross.upgrade_1.off": 0, "cross.upgrade_3.indicated": 2.5, "cross.upgrade_3.off": 0})

	// 0.02 no longer suits the lead after it, 2 shown for 2.5: its own check says so.
	p = built(t, and(played("0.2", "0.3", "0.21", "new_dial", "value", "0.02 mm", "dia", "50"), "new_lead", "for", "fewer", "lead", "2.5 mm", "clockwise", "minus"))
	require.Equal(t, []string{"cross.upgrade_1.off_check"}, failing(p))
}

// Two upgrades for one figure: each is named where it is said whether it is better.
func TestBetterNamesTheUpgrade(t *testing.T) {
	p := built(t, and(and(with("thrust_set", "end_float", "0.02"), "float_adjuster", "end_float", "0.01"), "float_adjuster", "end_float", "0.01"))
	for key, want := range map[string]string{"upgrade_1": "Thrust ", "upgrade_2": "End-float adjuster of its own: ", "upgrade_3": "End-float adjuster of its own (2): "} {
		c := verdict(t, p, "cross."+key+".better_check")
		require.Contains(t, c.Label, want)
		require.Contains(t, c.Label, ": better than it was")
	}
}

// The old nut and the old screw show nothing of another lead: a screw that is cut to them
// keeps the lead that was to go. A screw of the same lead is cut to them.
func TestScrewOfAnotherLeadIsNotCutToTheOldOne(t *testing.T) {
	p := built(t, played("0.2", "0.3", "0.21", "new_lead", "for", "fewer", "lead", "2.5 mm", "dial", "new", "clockwise", "minus"))
	turned := stepNamed(t, p.Site("1").Make(p.Result), "turn_screw")
	require.Contains(t, turned.Do, "Its lead is another than the old one's")
	require.NotContains(t, turned.Do, "are those of the old one")
	require.Contains(t, strings.Join(piece(t, p, "1", "screw").Notes, " "), "The old nut does not fit its thread")

	p = built(t, played("0.2", "0.3", "0.21", "new_screw", "more", "none", "play", "0.05", "clockwise", "minus"))
	require.Contains(t, stepNamed(t, p.Site("1").Make(p.Result), "turn_screw").Do, "are those of the old one")
	require.Contains(t, strings.Join(piece(t, p, "1", "screw").Notes, " "), "Try the thread in the old nut")
}
