package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/sheet"
)

// A nut 0.1 off the line of a screw of root 12 − 1.226869 × 1.5 = 10.160, I =
// π 10.160⁴/64 = 522.98 mm⁴. Nearest the bracket its middle is 141 − 18 − 88 = 35 from
// it: 3 × 206000 × 522.98 × 0.1 / 35³ = 753.8 N, by elementary beam theory; with 0.02
// it is a fifth, 150.8. Furthest it is 141 − 18 = 123: 150.8 × (35/123)³ = 3.47 N.
func TestNutIntoLine(t *testing.T) {
	p := built(t, with("nut_moved", "for", "line", "found", "0.1", "left", "0.02"))
	for key, want := range map[string]float64{"cross.upgrade_1.stood": 753.8, "cross.nut.side_force": 150.8, "cross.upgrade_1.side_far": 3.47, "cross.screw_line.side_force": 150.8} {
		f, ok := p.Result.Figure(key, sheet.Planned)
		require.True(t, ok, key)
		require.InDelta(t, want, f.Value, 0.1, key)
	}
	require.Empty(t, failing(p))
	require.Equal(t, "Nearest the bracket it presses with 151 N, where it is 754 N now. At the far end it is 3 N: that is why a nut off the line goes hard at one end only. Nothing else follows.", answer(p, "1"))
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "align_nut").Do, "pinch it up there")
	require.NotEmpty(t, stepNamed(t, mk, "find_line").Asks)
	require.Equal(t, []string{"readings_before"}, stepNamed(t, mk, "find_line").After)
}

// The trap: 12 more travel bring the nut to 141 − 18 − 100 = 23 from the bracket,
// and what was not felt at 35 is felt there.
func TestStoryScrewBindsTowardsTheBracket(t *testing.T) {
	p := built(t, with("nut_moved", "for", "line", "found", "0.1", "left", "0.05"))
	require.Equal(t, []string{"cross.upgrade_1.felt_check"}, failing(p))
	// 200 N are reached at 0.1 × 200 / 753.8 = 0.0265.
	s := p.Site("1")
	require.InDelta(t, 0.0265, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, 1e-4)

	both := and(with("extend_travel", "end", "plus", "amount", "12"), "nut_moved", "for", "line", "found", "0.1", "left", "0.02")
	p = built(t, both)
	f, _ := p.Result.Figure("cross.nut.side_force", sheet.Planned)
	require.InDelta(t, 531, f.Value, 0.5) // 150.8 × (35/23)³
	require.Equal(t, []string{"cross.upgrade_2.felt_check"}, failing(p))
}

// Not measured: no verdict, and what is missing is named.
func TestNutIntoLineUnmeasured(t *testing.T) {
	p := built(t, with("nut_moved", "for", "line", "left", "0.02"))
	c := verdict(t, p, "cross.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "cross.nut.off_line", c.Missing[0].Key)
	require.Contains(t, answer(built(t, with("nut_moved", "for", "line")), "1"), "Say how near the line")
	require.Contains(t, answer(built(t, with("nut_moved")), "1"), "Say how far the nut should be moved")
}

// 1.5 further out, the nut goes 1.5 inward on its slide, to 4.5…28.5: the slide
// reaches 89.5, where it meets the dial. Right in, the nut meets the rear wall at
// 6 − 4.5 = 1.5: as much is given up.
func TestNutMovedAlong(t *testing.T) {
	p := built(t, with("nut_moved", "for", "plus", "amount", "1.5", "room", "5"))
	is(t, p, map[string]float64{"cross.nut.from": 4.5, "cross.reach_plus": 89.5, "cross.reach_minus": 1.5, "cross.upgrade_1.lost": 1.5, "cross.travel": 88, "cross.upgrade_1.room_left": 3.5})
	require.Empty(t, failing(p))
	require.Contains(t, answer(p, "1"), "The slide goes 1.5 mm further outward. Inward, 1.5 mm is given up.")
	require.Equal(t, sheet.Unmeasured, verdict(t, built(t, with("nut_moved", "for", "plus", "amount", "1.5")), "cross.upgrade_1.room_check").Verdict)

	// Two tapped holes of 6 that are 8 apart have 2 between them, and want 6.
	p = built(t, with("nut_moved", "for", "plus", "amount", "8", "room", "20", "fixing", "holes", "bolt", "6"))
	is(t, p, map[string]float64{"cross.upgrade_1.between": 2})
	require.Contains(t, failing(p), "cross.upgrade_1.between_check")
}

// A new nut, and the old one moved: they fight for the nut, and both are named.
func TestNutMovedAndRenewed(t *testing.T) {
	p := built(t, and(with("nut_moved", "for", "line", "left", "0.02"), "new_nut", "play", "0.05"))
	require.NotEmpty(t, p.Result.Conflicts())
	require.Equal(t, []string{"Nut moved, or brought into line, Cross slide", "New feed nut, Cross slide"}, []string{p.Result.Conflicts()[0].First, p.Result.Conflicts()[0].Second})
}
