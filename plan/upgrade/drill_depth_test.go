package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/sheet"
)

// The rack ends at −40 + 95 = 55, the guide at 0 + 120 − 60 = 60, the spline at
// −150 + 250 − 20 = 80. Half a turn of a pinion of module 1.25 with 14 teeth left
// in the spring: 55 + 0.5 π 1.25 × 14 = 82.489. 40 raised: 55 + 40 = 95.
func TestDrillDepth(t *testing.T) {
	p := built(t, and(drillAxis(), "drill_depth", "amount", "40", "turns", "0.5", "teeth", "14"))
	is(t, p, map[string]float64{"a.usable": 55, "a.deepest": 95, "a.upgrade_1.most": 55, "a.upgrade_1.spring": 82.4889, "a.upgrade_1.better": 40})
	require.Empty(t, failing(p))
	require.Equal(t, "The quill goes 55 mm down. Not beyond: at 55 mm the rack ends; at 60 mm too little of it is left in its guide; at 80 mm its spline leaves the sleeve; at 82.49 mm the return spring is wound up."+
		" With the table raised in between, a hole can be 95 mm deep, where it is 55 mm now. Clamp table and work with the drill in its hole; nothing else follows.", answer(p, "1"))

	// No further than was drilled: 55.
	s := p.Site("1")
	require.InDelta(t, 55, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, 1e-6)
	mk := s.Make(p.Result)
	require.Len(t, stepNamed(t, mk, "limits").Asks, 2)
	require.Empty(t, mk.Parts)
}

// The trap: a longer rack, and the spindle drops out of its spline. With a guide
// that is long enough, 30 more ends where 80 do: the sleeve lets go 5 before.
func TestStorySplineLeavesItsSleeve(t *testing.T) {
	m := drillAxis()
	m.Axes[0].Parts[3].Entries["from"] = plan.Entry{Typed: "-160"}
	p := built(t, and(m, "extend_travel", "end", "plus", "amount", "30"))
	c := verdict(t, p, "a.spline_on_sleeve.least_plus")
	require.Equal(t, sheet.Fails, c.Verdict)
	require.Equal(t, "15 mm of the spline is held, and 20 mm is the least.", c.Sentence) // 250 − 85 − 150
	require.Equal(t, []string{"a.spline_on_sleeve.least_plus"}, failing(p))
	is(t, p, map[string]float64{"a.usable": 80})
	p = built(t, and(m, "drill_depth"))
	require.Contains(t, answer(p, "1"), "Not beyond: at 55 mm the rack ends; at 80 mm its spline leaves the sleeve; at 100 mm too little of it is left in its guide.")
}

// Nothing measured of the quill's place: no verdict, and that is said.
func TestDrillDepthUnmeasured(t *testing.T) {
	m := drillAxis()
	for i := range m.Axes[0].Parts {
		m.Axes[0].Parts[i].Entries = map[string]plan.Entry{}
	}
	p := built(t, and(m, "drill_depth", "amount", "10"))
	require.Equal(t, sheet.Unmeasured, verdict(t, p, "a.upgrade_1.solid_check").Verdict)
	require.Contains(t, answer(p, "1"), "Measure rack, guide and spline")
	require.Contains(t, answer(p, "1"), "What it comes to is told when")
}
