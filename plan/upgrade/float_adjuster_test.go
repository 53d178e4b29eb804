package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/sheet"
)

// Two nuts of 4 on M10 × 1, a washer of 1 and 0.5 of clearance: 9.5 between bracket
// and dial, where a gap of 0.5 was. 0.5 + 9 more: 9.5 + 16.5 + 14 + 5 = 45 wanted,
// 203 − 167 = 36 there, 9 short. The joint of the extension, 203 − 14 − what is cut
// back: 9 + c ≥ 7 + 3, so c = 1 and it begins at 188; the adjuster ends at 176.5.
func TestFloatAdjuster(t *testing.T) {
	p := built(t, with("float_adjuster", "end_float", "0.02"))
	is(t, p, map[string]float64{"cross.upgrade_1.stack": 9.5, "cross.dial.gap": 9.5, "cross.shaft_end.short": 9, "cross.extension.visible": 9, "cross.extension.cut_back": 1,
		"cross.upgrade_1.joint_clear": 11.5, "cross.end_float": 0.02, "cross.upgrade_1.better": 0.1, "cross.upgrade_1.engaged": 4})
	require.Empty(t, failing(p))
	require.Equal(t, "End float comes to 0.02 mm, where it is 0.12 mm now. Nuts and washer take 9.5 mm of the screw's end. The screw's end then needs an extension of 9 mm. Dial and handle are outside what sets the float.", answer(p, "1"))
	require.Equal(t, "M10×1-6H", piece(t, p, "1", "thin_nut").Round.Left[0].Thread)
	require.Equal(t, 2, piece(t, p, "1", "thin_nut").Quantity)
	require.InDelta(t, 9, piece(t, p, "1", "shank_thread").Round.Outside[1].Length.Nominal, 1e-9)

	// Plain faces want 0.01 for the oil: nothing asked for is too little.
	require.Equal(t, []string{"cross.upgrade_1.float_check"}, failing(built(t, with("float_adjuster", "end_float", "0.005"))))
	// Nuts of 2 have two turns of thread.
	require.Equal(t, []string{"cross.upgrade_1.turns_check"}, failing(built(t, with("float_adjuster", "end_float", "0.02", "thin", "2"))))
	// A lap that reaches back to 203 − 1 − 30 = 172 runs into the thread, by 4.5.
	p = built(t, with("float_adjuster", "end_float", "0.02", "lap", "30"))
	is(t, p, map[string]float64{"cross.upgrade_1.joint_clear": -4.5})
	require.Contains(t, failing(p), "cross.upgrade_1.joint_check")
}

// The one nut that squeezes everything is asked about, and seen after.
func TestStoryHandleTightDialLocked(t *testing.T) {
	m := with("float_adjuster", "end_float", "0.02")
	m.Axes[0].Answers = map[string]string{"shared_nut": "yes"}
	p := built(t, m)
	require.Contains(t, p.Advice[0], "Plan an adjuster of its own")
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "measure_end").Asks[0], "does the dial lock?")
	require.Contains(t, stepNamed(t, mk, "fit_adjuster").Asks[0], "does the dial still turn by itself")
}

// With needles before it or after it, it stands beyond them: 4 + 9.5 = 13.5.
func TestAdjusterAndThrustSet(t *testing.T) {
	needles := []string{"end_float", "0.01", "side", "outer"}
	for _, m := range [][2]string{{"thrust_set", "float_adjuster"}, {"float_adjuster", "thrust_set"}} {
		first, second := needles, []string{"end_float", "0.01"}
		if m[0] == "float_adjuster" {
			first, second = second, first
		}
		p := built(t, and(with(m[0], first...), m[1], second...))
		is(t, p, map[string]float64{"cross.dial.gap": 13.5, "cross.extension.visible": 13})
	}
	// After more travel, whose extension of 10.5 grows by 9.
	p := built(t, and(with("extend_travel", "end", "plus", "amount", "12"), "float_adjuster", "end_float", "0.02"))
	is(t, p, map[string]float64{"cross.extension.visible": 19.5})
	require.Empty(t, failing(p))
}

// A disc spring 20 × 10.2 × 0.8 with a cone of 0.55, pressed by three quarters,
// 0.4125, pulls with 745 N (DIN 2093, series B, from memory; within 2 %): more than
// 200 N, so there is no float. It is 0.8 + 0.55 − 0.4125 = 0.9375 high then, and the
// adjuster 1 + 8 + 0.9375 + 0.5 = 10.4375. It drags with 745 × 0.12 × 15.1/2 =
// 675 N·mm, where a tenth of 3 N·m is hardly felt.
func TestAdjusterWithSpring(t *testing.T) {
	p := built(t, with("float_adjuster", "spring", "B20", "press", "0.4125"))
	is(t, p, map[string]float64{"cross.upgrade_1.stack": 10.4375, "cross.end_float": 0})
	load, _ := p.Result.Figure("cross.upgrade_1.disc.load", sheet.Planned)
	require.InEpsilon(t, 745, load.Value, 0.02)
	drag, _ := p.Result.Figure("cross.upgrade_1.disc.drag", sheet.Planned)
	require.InEpsilon(t, 675, drag.Value, 0.02)
	require.Equal(t, sheet.Tight, verdict(t, p, "cross.upgrade_1.disc.drag_check").Verdict)
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, "DIN 2093 B 20", mk.Buy[len(mk.Buy)-1].Designation)

	// Hardly pressed it holds nothing: the float is what it was.
	p = built(t, with("float_adjuster", "spring", "B20", "press", "0.02"))
	is(t, p, map[string]float64{"cross.end_float": 0.12})
	require.Equal(t, []string{"cross.upgrade_1.disc.load_check"}, failing(p))
	p = built(t, with("float_adjuster", "spring", "B20", "press", "0.5"))
	require.Equal(t, []string{"cross.upgrade_1.disc.press_check"}, failing(p)) // flat at 0.55
}

// Two adjusters, and an adjuster on a screw whose end float was not measured.
func TestAdjusterConflictAndUnmeasured(t *testing.T) {
	p := built(t, and(with("float_adjuster", "end_float", "0.02"), "float_adjuster", "end_float", "0.01"))
	var labels []string
	for _, c := range p.Result.Conflicts() {
		labels = append(labels, c.Label)
	}
	require.Contains(t, labels, "the screw's length beyond the bracket")
	m := with("float_adjuster", "end_float", "0.02")
	delete(m.Axes[0].Entries, "end_float")
	c := verdict(t, built(t, m), "cross.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "cross.end_float", c.Missing[0].Key)
	mill := demo.Mill()
	mill.Upgrades = nil
	require.Contains(t, answer(built(t, and(mill, "float_adjuster")), "1"), "Say how much end float the screw should have")
}
