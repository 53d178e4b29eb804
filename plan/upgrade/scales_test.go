package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/sheet"
)

var room = []string{"room_long", "300", "room_deep", "30", "room_high", "40"}

// A travel of 88 and a scale of 100: (100 − 88)/2 = 6 beyond each stop, where 5 are
// wanted (common practice, no source). Its body is 210 long. It shows 0.01, where a
// line of the dial is 1.5/60 = 0.025.
func TestScales(t *testing.T) {
	p := built(t, with("scales", append([]string{"length", "100"}, room...)...))
	is(t, p, map[string]float64{"cross.upgrade_1.beyond": 6, "cross.upgrade_1.body": 210, "cross.reads_to": 0.01, "cross.upgrade_1.better": 0.015, "cross.travel": 88})
	require.Empty(t, failing(p))
	require.Equal(t, "The position is read to 0.01 mm, where it is 0.025 mm now. 6 mm of scale is left beyond each stop. Nothing else follows: it stands in nobody's way.", answer(p, "1"))
	// Of 95, 3.5 are left; of 80 the reader is off its scale.
	require.Equal(t, []string{"cross.upgrade_1.beyond_check"}, failing(built(t, with("scales", append([]string{"length", "95"}, room...)...))))
	require.Equal(t, []string{"cross.upgrade_1.on_check", "cross.upgrade_1.beyond_check"}, failing(built(t, with("scales", append([]string{"length", "80"}, room...)...))))
	// No room: 210 on 200.
	require.Equal(t, []string{"cross.upgrade_1.long_check"}, failing(built(t, with("scales", "length", "100", "room_long", "200", "room_deep", "30", "room_high", "40"))))
	require.Contains(t, answer(built(t, with("scales")), "1"), "The travel of 88 mm wants 98 mm at the least.")
}

// The scale was right when it was fitted; 12 mm more travel, planned later, leave
// (100 − 100)/2 = 0 beyond each stop. A scale of 150 holds: 25.
func TestStoryReaderKnocked(t *testing.T) {
	m := and(with("scales", append([]string{"length", "100"}, room...)...), "extend_travel", "end", "plus", "amount", "12", "pocket.front_wall", "28")
	p := built(t, m)
	is(t, p, map[string]float64{"cross.travel": 100, "cross.upgrade_1.beyond": 0})
	require.Contains(t, failing(p), "cross.upgrade_1.beyond_check")
	m.Upgrades[0].State = "finished"
	require.Contains(t, failing(built(t, m)), "cross.upgrade_1.beyond_check")
	m.Upgrades[0].Inputs["length"] = "150"
	p = built(t, m)
	is(t, p, map[string]float64{"cross.upgrade_1.beyond": 25})
	require.NotContains(t, failing(p), "cross.upgrade_1.beyond_check")
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "scale_room").Asks[0], "Is more travel planned on this axis?")
}

// A scale across the slide's rear takes 8 off the travel there, and that is said.
func TestScaleInTheWay(t *testing.T) {
	p := built(t, with("scales", append([]string{"length", "100", "stands", "minus", "costs", "8"}, room...)...))
	is(t, p, map[string]float64{"cross.reach_minus": 8, "cross.travel": 80, "cross.upgrade_1.beyond": 10})
	require.Contains(t, answer(p, "1"), "Inward, 8 mm is lost: there the scale is met.")
	p = built(t, and(with("scales", append([]string{"length", "100", "stands", "plus", "costs", "3"}, room...)...), "extend_travel", "end", "plus", "amount", "12"))
	is(t, p, map[string]float64{"cross.reach_plus": 85}) // more travel does not get past it
}

// What was not measured gives no verdict; two scales are both named.
func TestScalesUnmeasured(t *testing.T) {
	p := built(t, with("scales", "length", "100"))
	require.Equal(t, sheet.Unmeasured, verdict(t, p, "cross.upgrade_1.deep_check").Verdict)
	m := with("scales", "length", "100")
	m.Axes[0].Entries["travel_found"] = plan.Entry{}
	q, err := m.Build("")
	require.NoError(t, err)
	require.Empty(t, q.Sites) // nothing to lay a scale along yet
	require.NotEmpty(t, built(t, and(with("scales", "length", "100"), "scales", "length", "150", "step", "0.005")).Result.Conflicts())
}
