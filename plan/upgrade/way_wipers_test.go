package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/sheet"
)

// By hand: felt of 3 on a plate of 1.5 stands 4.5 out. Outward the slide meets the dial at
// 89.5, with 4.5 between at 85: of 88 asked for 3 are given up. Inward the slide meets
// nothing. The nut meets the front wall at 88 and the rear one at 0: rings of 2 take 2 at
// either end, outward no more than the wiper does.
func TestWayWipers(t *testing.T) {
	p := built(t, with("way_wipers", "felt", "3", "plate", "1.5"))
	is(t, p, map[string]float64{"cross.upgrade_1.stands": 4.5, "cross.dial_slide.bound": 85, "cross.reach_plus": 85, "cross.travel": 85, "cross.upgrade_1.lost_plus": 3, "cross.upgrade_1.lost_minus": 0})
	require.Empty(t, failing(p))
	require.Equal(t, "The wipers stand out 4.5 mm. Outward, it costs 3 mm of the travel.", answer(p, "1"))
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, 2, mk.Parts[0].Quantity)

	p = built(t, with("way_wipers", "felt", "3", "plate", "1.5", "ring", "2"))
	is(t, p, map[string]float64{"cross.front_wall_nut.bound": 86, "cross.rear_wall_nut.bound": 2, "cross.upgrade_1.lost": 5, "cross.travel": 83})

	// 1.5 in all is what there is between slide and dial at 88.
	p = built(t, with("way_wipers", "felt", "1.5", "plate", "0", "ends", "plus"))
	require.Equal(t, "This does not hold: wiper thick enough, short by 1.5 mm. 3 mm to 15 mm would hold. The wipers stand out 1.5 mm. No travel is lost. Nothing else follows.", answer(p, "1"))
	require.Equal(t, []string{"cross.upgrade_1.felt_check"}, failing(p)) // and wipes nothing
	require.Equal(t, sheet.Tight, verdict(t, built(t, with("way_wipers", "felt", "8")), "cross.upgrade_1.drag_check").Verdict)
}

// What wipers are for: a slide has two ends, and one that is wiped lets nothing in. Felt
// of 1.5, where 3 is the least, wipes none; a second set gains nothing.
func TestWipersKeepSwarfOut(t *testing.T) {
	for want, inputs := range map[float64][]string{0: {"felt", "3"}, 1: {"felt", "3", "ends", "plus"}, 2: {"felt", "1.5"}} {
		p := built(t, with("way_wipers", inputs...))
		is(t, p, map[string]float64{"cross.slide.unwiped": want, "cross.upgrade_1.better": 2 - want})
		require.Equal(t, []sheet.Goal{{Key: "cross.slide.unwiped", Less: true}}, p.Site("1").Goals)
	}
	p := built(t, and(with("way_wipers", "felt", "3"), "way_wipers", "felt", "3"))
	is(t, p, map[string]float64{"cross.slide.unwiped": 0, "cross.upgrade_2.better": 0})
}

// Story: the next stop was not listed. A tray 2 beyond the slide's end takes 2.5 of the
// travel; one that was never measured may take anything up to 4.5, and is named.
func TestStoryWipersMeetTheTray(t *testing.T) {
	m := with("way_wipers", "felt", "3", "plate", "1.5")
	m.Axes[0].Obstacles[0].Clear = false
	p := built(t, m)
	f, _ := p.Result.Figure("cross.upgrade_1.lost_plus", sheet.Planned)
	require.False(t, f.Known())
	require.Contains(t, answer(p, "1"), "told when the gap to the splash tray is measured")
	m.Axes[0].Obstacles[0].Gap = plan.Entry{Typed: "0"}
	is(t, built(t, m), map[string]float64{"cross.upgrade_1.lost_plus": 4.5, "cross.travel": 83.5})
	m.Upgrades[0].Inputs["at.splash_tray"] = "clear"
	is(t, built(t, m), map[string]float64{"cross.upgrade_1.lost_plus": 3})
}

// More travel asked for after it begins from what the wipers left: 88 − 3 + 3 is the old
// end again, and the dial, met at 85, must give 3: a bracket of 29.
func TestTravelAfterWipers(t *testing.T) {
	p := built(t, and(with("way_wipers", "felt", "3", "plate", "1.5"), "extend_travel", "end", "plus", "amount", "3"))
	is(t, p, map[string]float64{"cross.reach_plus": 88, "cross.bracket.length": 29})
	p = built(t, and(with("way_wipers", "felt", "3"), "way_wipers", "felt", "5"))
	require.NotEmpty(t, p.Result.Conflicts())
}
