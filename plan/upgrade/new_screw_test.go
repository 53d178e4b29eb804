package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// A screw worn by 0.48 − 0.20 = 0.28: a new one with a nut of 0.05 loses 0.12 + 0.05 =
// 0.17 all along. A hand's 3770 N on 141 − 18 = 123 from the bracket to the nut: root
// 10.160, A = 81.07, I = 522.98, so k = 2.540 and L/k = 48.4, below √(2 π² 206000/375) =
// 104.1: Johnson, 81.07 (375 − (375 × 48.43 / 2π)² / 206000) = 27113 N, 7.19 times as
// much. The free end of 6 + 89.5 − 6 = 89.5 whips at 1.8751² (10.160/4)
// √(206000/7.85e-9) / 89.5² = 5711 rad/s; 80 % of it are 43630 a minute. Column and beam
// theory, as in any machine design text. Rolled bar, 0.1 in 300: 89.5 × 0.1/300 =
// 0.0298 over the travel. Common practice, no source.
func TestNewScrew(t *testing.T) {
	p := built(t, played("0.2", "0.48", "0.21", "new_screw", "more", "none", "play", "0.05", "clockwise", "minus"))
	is(t, p, map[string]float64{"cross.backlash": 0.05, "cross.lost_motion_all": 0.17, "cross.lost_motion_spread": 0, "cross.upgrade_1.better": 0.31, "cross.upgrade_1.span": 123, "cross.upgrade_1.off": 0.0298})
	for key, want := range map[string]float64{"safety": 7.19, "slenderness": 48.43, "transition": 104.13} {
		f, _ := p.Result.Figure("cross.upgrade_1."+key, sheet.Planned)
		require.InDelta(t, want, f.Value, 0.01, key)
	}
	whirl, _ := p.Result.Figure("cross.upgrade_1.whirl_safe", sheet.Planned)
	require.InDelta(t, 43630, unit.RPM.In(whirl.Value), 20)
	require.Empty(t, failing(p))
	require.Equal(t, "Lost motion comes to 0.17 mm, where it is 0.48 mm now. Of what the old screw was worn by, 0.28 mm along the travel, nothing is left. Its lead puts the end of the travel off by up to 0.03 mm.", answer(p, "1"))
	s := piece(t, p, "1", "screw")
	require.InDelta(t, 197, s.Round.Length.Nominal, 1e-9) // 134 of thread and 63 of shank
	require.Equal(t, "M12×1.5-LH-6g", s.Round.Outside[0].Thread)
	require.Contains(t, s.Notes[0], "0.03 mm")
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "measure_screw").Asks[0], "clockwise")
	require.Contains(t, stepNamed(t, mk, "turn_screw").After, "measure_screw")
	require.Empty(t, stepNamed(t, mk, "turn_screw").Out) // while the lathe is still whole

	// A new nut alone on the old screw does not hold; together with a new screw it does.
	require.Contains(t, failing(built(t, played("0.2", "0.48", "0.21", "new_nut", "play", "0.05"))), "cross.upgrade_1.worn_check")
	p = built(t, and(played("0.2", "0.48", "0.21", "new_screw", "more", "tip", "nut", "old"), "new_nut", "play", "0.05"))
	require.NotContains(t, failing(p), "cross.upgrade_2.worn_check")
}

// The trap: a left-hand screw that is held takes its slide inward when the handle is
// turned clockwise. Who sees it go outward has looked wrong at one of the two; who has
// not tried it gets no verdict.
func TestStoryScrewOfTheWrongHand(t *testing.T) {
	p := built(t, played("0.2", "0.48", "0.21", "new_screw", "more", "none", "play", "0.05", "clockwise", "plus"))
	require.Equal(t, []string{"cross.upgrade_1.hand_check"}, failing(p))
	require.Equal(t, "A left-hand thread takes the slide inward when the handle is turned clockwise: look again which of the two is wrong, before a screw is ordered.", verdict(t, p, "cross.upgrade_1.hand_check").Sentence)
	p = built(t, played("0.2", "0.48", "0.21", "new_screw", "more", "none", "play", "0.05"))
	c := verdict(t, p, "cross.upgrade_1.hand_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Contains(t, c.Missing[0].Label, "hand of the thread")

	// A sheet that does not say the hand asks for it.
	m := played("0.2", "0.48", "0.21", "new_screw", "more", "none", "play", "0.05", "clockwise", "plus", "hand", "right")
	thread, _ := m.Axes[0].Part("thread")
	delete(thread.Entries, "hand")
	require.Empty(t, failing(built(t, m)))
}

// Story: the longer screw's tip. 10 more at the free end begins at 6 − 10 = −4, and
// the rear wall's face is at 6: 10 within it. A hole through the wall lets it by.
func TestStoryScrewTipBoresIntoTheWall(t *testing.T) {
	p := built(t, played("0.2", "0.3", "0.21", "new_screw", "more", "tip", "amount", "10", "clockwise", "minus"))
	is(t, p, map[string]float64{"cross.thread.from": -4, "cross.upgrade_1.tip_room": -10, "cross.asked_minus": -10})
	require.Contains(t, failing(p), "cross.upgrade_1.tip_check")
	p = built(t, played("0.2", "0.3", "0.21", "new_screw", "more", "tip", "amount", "10", "clockwise", "minus", "tip", "hole"))
	require.NotContains(t, failing(p), "cross.upgrade_1.tip_check")
	require.Contains(t, stepNamed(t, p.Site("1").Make(p.Result), "bore_rear_wall").Asks[0], "behind the wall")
}

// 200 more at the free end: 6 + 89.5 + 194 = 289.5 hang free, right out: 0.006241 ×
// 289.5⁴ / (8 × 206000 × 522.98) = 0.0509 mm, and 0.05 is the most.
func TestStoryLongScrewHangsDown(t *testing.T) {
	c := verdict(t, built(t, played("0.2", "0.3", "0.21", "new_screw", "more", "tip", "amount", "200", "tip", "hole")), "cross.screw_line.sag_check")
	require.Equal(t, sheet.Fails, c.Verdict)
	require.Contains(t, c.Sentence, "50.9 µm")
}

// jammed is the lathe with a shank of 12, which does not enter the nut's bore of
// 10.376: the nut jams on it at 119.5 − 30 = 89.5. Its dial stands 20 further out.
func jammed(kind string, inputs ...string) machine.Machine {
	m := roomy(kind, inputs...)
	for _, size := range [][3]string{{"thread", "to", "119.5"}, {"shank", "from", "119.5"}, {"shank", "dia", "12"}, {"dial", "gap", "20.5"}} {
		p, _ := m.Axes[0].Part(size[0])
		p.Entries[size[1]] = plan.Entry{Typed: size[2], With: "caliper"}
	}
	return m
}

// 10 more thread towards the handle let the slide 10 further out, to 99.5, with
// 141 − 129.5 = 11.5 of plain screw left before the bracket. The screw is as long as its
// end asks for: 123.5 of thread, 73.5 of shank, and the 20 that it was short of.
func TestMoreThreadTowardsTheHandle(t *testing.T) {
	p := built(t, jammed("new_screw", "more", "handle", "amount", "10", "clockwise", "minus"))
	is(t, p, map[string]float64{"cross.thread.to": 129.5, "cross.shank.from": 129.5, "cross.reach_plus": 99.5, "cross.upgrade_1.before_bracket": 11.5, "cross.upgrade_1.better": 10, "cross.extension.visible": 20})
	require.Empty(t, failing(p))
	require.Contains(t, answer(p, "1"), "The slide goes 10 mm further outward.")
	require.InDelta(t, 217, piece(t, p, "1", "screw").Round.Length.Nominal, 1e-9)
	// From 21.5 on the thread would run into the bracket.
	s := p.Site("1")
	require.LessOrEqual(t, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, 21.5+1e-6)
	require.Contains(t, failing(built(t, jammed("new_screw", "more", "handle", "amount", "22"))), "cross.upgrade_1.bracket_check")
}

// What is put on the screw's end later makes the new screw longer: a thrust set of 4
// where a gap of 0.5 was, 134 + 63 + 3.5.
func TestThrustSetOnANewScrew(t *testing.T) {
	p := built(t, and(played("0.2", "0.3", "0.21", "new_screw", "more", "none", "play", "0.05"), "thrust_set", "end_float", "0.01", "side", "outer"))
	is(t, p, map[string]float64{"cross.extension.visible": 3.5, "cross.lost_motion_all": 0.06})
	require.InDelta(t, 200.5, piece(t, p, "1", "screw").Round.Length.Nominal, 1e-9)
}

// The old nut on a new screw keeps its own play: 0.48 − 0.12 − 0.28 = 0.08.
func TestOldNutOnANewScrew(t *testing.T) {
	p := built(t, played("0.2", "0.48", "0.21", "new_screw", "more", "tip", "amount", "2", "nut", "old"))
	is(t, p, map[string]float64{"cross.backlash": 0.08, "cross.lost_motion_all": 0.2})
	_, there := p.Site("1").Make(p.Result).Part("nut")
	require.False(t, there)
}

// Threaded bar on the old shank of 12: a spigot of 7, 11 deep, leaves walls of 2.5 and
// ends 141 − 119.5 − 11 = 10.5 before the bracket. The braze carries 32.5 π 7² 11 / 2 =
// 27.5 N·m, the spigot 95 π 7³ / 16 = 6.40. On the lathe as it is the shank begins 1
// before the bracket: a spigot of 6, 9 deep, would lie 8 within its journal.
func TestGraftedScrew(t *testing.T) {
	m := jammed("new_screw", "more", "none", "play", "0.05", "how", "graft", "clockwise", "minus")
	shank, _ := m.Axes[0].Part("shank")
	shank.Entries["to"] = entry("223")
	m.Axes[0].Entries["lost_motion"] = plan.Entry{Typed: "0.3", With: "dial_gauge"}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.upgrade_1.graft.wall": 2.5, "cross.upgrade_1.graft.clear": 10.5})
	for key, want := range map[string]float64{"braze": 27517, "core": 6398} {
		f, _ := p.Result.Figure("cross.upgrade_1.graft."+key, sheet.Planned)
		require.InDelta(t, want, f.Value, 1, key)
	}
	require.Empty(t, failing(p))
	bar := piece(t, p, "1", "threaded_bar").Round
	require.Equal(t, []float64{7, 0, -0.009}, []float64{bar.Outside[1].Dia.Nominal, bar.Outside[1].Dia.Upper, bar.Outside[1].Dia.Lower}) // ISO 286-2, 7 h6
	require.Equal(t, "threaded_bar.spigot", piece(t, p, "1", "old_shank").Round.Left[0].Dia.Awaits)
	require.Contains(t, stepNamed(t, p.Site("1").Make(p.Result), "true_screw").Do, "0.03 mm")
}

// Story: the joint of a graft lies in the journal.
func TestStoryGraftInTheJournal(t *testing.T) {
	p := built(t, played("0.2", "0.3", "0.21", "new_screw", "more", "none", "play", "0.05", "how", "graft", "clockwise", "minus"))
	is(t, p, map[string]float64{"cross.upgrade_1.graft.clear": -8})
	require.Equal(t, []string{"cross.upgrade_1.graft.clear_check"}, failing(p))
}

// Nothing typed, nothing measured; and two that want the same screw.
func TestNewScrewUnmeasured(t *testing.T) {
	p := built(t, with("new_screw", "more", "none", "play", "0.05"))
	c := verdict(t, p, "cross.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "cross.lost_motion", c.Missing[0].Key)
	require.Contains(t, answer(built(t, with("new_screw")), "1"), "Say how much play")
	require.Contains(t, answer(built(t, with("new_screw", "more", "tip")), "1"), "Say how much more thread")
	p = built(t, and(with("new_screw", "play", "0.05"), "new_screw", "play", "0.03"))
	require.NotEmpty(t, p.Result.Conflicts())
	require.Equal(t, "New feed screw, with its nut, Cross slide (2)", p.Result.Conflicts()[0].Second)
}
