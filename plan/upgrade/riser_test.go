package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
)

// headAxis is a head that a screw winds up and down a column: 60 over the table right
// down, 300 further right up, and 80 left to the ceiling there. The column is 420 long.
func headAxis(plus, minus string) axis.Axis {
	return axis.Axis{Label: "Head", Arrangement: "held_screw", Capacity: "daylight", Plus: plus, Minus: minus, Parts: []axis.Part{
		lying("ways", "ways", axis.Fixed, "0", "560"),
		lying("stop", "other", axis.Fixed, "540", "560"),
		lying("head", "slide", axis.Moving, "70", "240"),
		lying("nut", "nut", axis.Moving, "130", "170"),
		lying("thread", "thread", axis.Fixed, "0", "558", "dia", "20", "pitch", "4", "form", "trapezoidal"),
	}}
}

// More travel up and a riser both lift the nose: 60 + 300 = 360, with 12 more 372, on a
// block of 50 422, and 110 at the lowest. 80 − 50 − 12 = 18 are left to the ceiling, and
// the column of 420 bends (470/420)³ = 1.401 times as much.
func TestRiserUnderADrivenHead(t *testing.T) {
	m := alone(headAxis("up", "down"), "travel_found", "300", "lowest", "60", "column", "420", "tallest_job", "400")
	m.Axes[0].Obstacles = []axis.Obstacle{{Key: "splash_tray", Label: "ceiling", End: axis.Plus, Gap: plan.Entry{Typed: "80"}}, {Key: "rear_obstacle", Label: "vice", End: axis.Minus, Clear: true}}
	is(t, built(t, m), map[string]float64{"a.highest": 360, "a.lowest_planned": 60, "a.riser_least": 40})
	p := built(t, and(m, "extend_travel", "end", "plus", "amount", "12", "do.stop_head", "cut_head"))
	is(t, p, map[string]float64{"a.highest": 372, "a.lowest_planned": 60, "a.riser_least": 28})
	require.Contains(t, answer(p, "1"), "The spindle's nose goes up to 372 mm above the table")
	p = built(t, and(and(m, "extend_travel", "end", "plus", "amount", "12", "do.stop_head", "cut_head"), "riser", "amount", "50"))
	is(t, p, map[string]float64{"a.highest": 422, "a.lowest_planned": 110, "a.splash_tray.left": 18, "a.softer": 1.40136, "a.reach_plus": 312, "a.travel": 312})
	require.Empty(t, failing(p))
	p = built(t, and(m, "riser", "amount", "90"))
	require.Contains(t, failing(p), "a.splash_tray.riser_check")
	s := p.Site("1")
	require.InDelta(t, 80, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, 1e-6)
}

// Where positions count downwards, the lowest place is at the end to which they rise:
// 12 more downwards is 60 − 12 = 48, and the highest stays.
func TestRiserWherePositionsCountDownwards(t *testing.T) {
	m := alone(headAxis("down", "up"), "travel_found", "300", "lowest", "60")
	is(t, built(t, and(m, "riser", "amount", "50")), map[string]float64{"a.highest": 410, "a.lowest_planned": 110})
	is(t, built(t, and(m, "extend_travel", "end", "plus", "amount", "12", "do.stop_head", "cut_head")), map[string]float64{"a.highest": 360, "a.lowest_planned": 48})
}
