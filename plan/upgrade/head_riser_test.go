package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/sheet"
)

// Blocks of 20 under the demo lathe's headstock: 210 + 40 = 250 over the bed, less
// 2 × 2 of clearance 246; 118 + 40 = 158 over the slide, 154. Its axis stands 105,
// then 125 over the bed: a cut turns 125 / 105 = 1.190 times as much on its foot.
// The tool can go up 6: a block of 14. Pulleys of 120 and 60, 300 apart, the
// spindle 240 above the motor: √(300² + 2 × 240 × 20 + 20²) = √100000 = 316.228.
// The belt, by 2 C + π (D + d)/2 + (D − d)²/4 C: 600 + 282.743 + 3 = 885.743 and
// 632.456 + 282.743 + 2.846 = 918.045, 32.302 longer. Bolts 50 + 20 = 70, sold so.
func TestHeadRiser(t *testing.T) {
	raised := []string{"amount", "20", "tool_up", "6", "quadrant", "30", "driven", "120", "driver", "60", "apart", "300", "above", "240", "bolt", "50", "foot_length", "200", "foot_width", "120"}
	p := built(t, with("head_riser", raised...))
	is(t, p, map[string]float64{"cross.swing_bed": 250, "cross.largest_disc": 246, "cross.swing_slide": 158, "cross.largest_over_slide": 154,
		"cross.upgrade_1.better": 40, "cross.upgrade_1.leverage": 1.190476, "cross.upgrade_1.tool_block": 14, "cross.upgrade_1.apart_after": 316.2278,
		"cross.upgrade_1.belt_before": 885.7433, "cross.upgrade_1.belt": 918.0450, "cross.upgrade_1.belt_more": 32.3017, "cross.upgrade_1.bolts": 70,
		"cross.upgrade_1.reach_left": 10})
	require.Empty(t, failing(p))
	require.Contains(t, answer(p, "1"), "What swings over the bed, less clearance, comes to 246 mm, where it is 206 mm now.")
	// The trap: as far as the slide goes, 2 × (88 − 4) = 168 can be started on, blocks or none.
	require.Contains(t, answer(p, "1"), "For disc work nothing is gained")
	require.Equal(t, "head_block.height", piece(t, p, "1", "tail_block").Flat.Thickness.Awaits)
	require.InDelta(t, 14, piece(t, p, "1", "tool_block").Flat.Thickness.Nominal, 1e-9)
	require.Len(t, stepNamed(t, p.Site("1").Make(p.Result), "follow_up").Asks, 2)

	// With 30 more travel the tool stands outside of 2 × (118 − 4) = 228, which swung 206 before.
	both := and(with("extend_travel", "end", "plus", "amount", "30"), "head_riser", raised...)
	is(t, built(t, both), map[string]float64{"cross.start_disc": 228})
}

// 60 is half as much again and more: (105 + 60)/105 = 1.571. The quadrant has 30.
func TestHeadRiserTooHigh(t *testing.T) {
	p := built(t, with("head_riser", "amount", "60", "quadrant", "30"))
	require.ElementsMatch(t, []string{"cross.upgrade_1.leverage_check", "cross.upgrade_1.gears_check"}, failing(p))
	s := p.Site("1")
	require.InDelta(t, 30, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, 1e-6)
	p = built(t, with("head_riser", "amount", "60", "gears", "no"))
	s = p.Site("1")
	require.InDelta(t, 52.5, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, 1e-6) // half of 105
}

// Not measured, not judged; two of them claim one place.
func TestHeadRiserUnmeasured(t *testing.T) {
	m := with("head_riser", "amount", "20")
	m.Axes[0].Entries["swing_bed"] = plan.Entry{}
	p := built(t, m)
	require.Equal(t, sheet.Unmeasured, verdict(t, p, "cross.upgrade_1.better_check").Verdict)
	require.Equal(t, sheet.Unmeasured, verdict(t, p, "cross.upgrade_1.gears_check").Verdict)
	require.Contains(t, answer(p, "1"), "What it comes to is told when the swing over the bed is measured.")
	p = built(t, and(with("head_riser", "amount", "20"), "head_riser", "amount", "10"))
	require.NotEmpty(t, p.Result.Conflicts())
}
