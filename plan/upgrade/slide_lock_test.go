package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// By hand: 4 N·m on M8 pull 4000 / (0.2 × 8) = 2500 N; friction 0.15 at pad and way holds
// 2 × 0.15 × 2500 = 750 N, where twice a cut of 300 is wanted; a pad of 8, 50.27 mm², presses
// 49.7 MPa, where brass takes 80: up to 80 × 50.27 × 0.2 × 8 = 6.43 N·m, from 600 / 0.3 × 1.6 =
// 3.2 N·m on. Of a wall of 25 the pad's hole of 8 leaves 17 of thread.
func TestSlideLock(t *testing.T) {
	p := built(t, with("slide_lock", "torque", "4 N·m", "wall", "25", "edge", "15"))
	is(t, p, map[string]float64{"cross.upgrade_1.lock_force": 2500, "cross.upgrade_1.hold": 750, "cross.upgrade_1.pressure": 49.7359, "cross.upgrade_1.thread_left": 17})
	require.Empty(t, failing(p))
	require.Equal(t, "It holds a push of 750 N. The pad presses 50 MPa on the way. Nothing else follows.", answer(p, "1"))
	s := p.Site("1")
	far := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
	require.InDelta(t, 3.2, unit.NewtonMetre.In(far.From), 0.001)
	require.InDelta(t, 6.434, unit.NewtonMetre.In(far.To), 0.001)
	pad := piece(t, p, "1", "lock_pad")
	require.Equal(t, []float64{8, -0.013, -0.028}, []float64{pad.Round.Outside[0].Dia.Nominal, pad.Round.Outside[0].Dia.Upper, pad.Round.Outside[0].Dia.Lower}) // ISO 286-2: 8 f7
	mk := s.Make(p.Result)
	require.Equal(t, "ISO 4026 M8 × 30", mk.Buy[0].Designation) // 17 of thread and 10 for the lever
	require.Contains(t, stepNamed(t, mk, "drill_lock").Asks[0], "clear of the gib")
}

// The traps: a pad from above lifts a slide that has 0.08 of play by 0.08 × tan 60° / 2 =
// 0.069; one on a gib 4.5 × 10.4, I = 78.98, between screws 32 apart bends it by 2500 × 32³ /
// (192 × 110000 × 78.98) = 49 µm.
func TestSlideLockFails(t *testing.T) {
	for _, tc := range []struct {
		why    string
		inputs []string
		fails  []string
	}{
		{"from above", []string{"on", "flat"}, []string{"lift_check"}},
		{"on the gib", []string{"on", "gib", "thickness", "4.5", "blank", "10.4"}, []string{"bent_check"}},
		{"a pad of 5, and 127 MPa under it", []string{"pad", "5"}, []string{"pad_check", "pressure_check"}},
		{"a light hand: 1 N·m holds 187", []string{"torque", "1 N·m"}, []string{"hold_check"}},
		{"a wall of 18, with 10 of thread where 12 are wanted", []string{"wall", "18"}, []string{"thread_check"}},
		{"11 from an edge", []string{"edge", "11"}, []string{"edge_check"}},
	} {
		want := []string{}
		for _, f := range tc.fails {
			want = append(want, "cross.upgrade_1."+f)
		}
		require.ElementsMatch(t, want, failing(built(t, with("slide_lock", append([]string{"torque", "4 N·m", "wall", "25", "edge", "15"}, tc.inputs...)...))), tc.why)
	}
	is(t, built(t, with("slide_lock", "torque", "4", "on", "flat")), map[string]float64{"cross.upgrade_1.lift": 0.069282})
	is(t, built(t, with("slide_lock", "torque", "4", "on", "gib", "thickness", "4.5", "blank", "10.4")), map[string]float64{"cross.upgrade_1.bent": 0.049112})
	require.Contains(t, answer(built(t, with("slide_lock", "torque", "1")), "1"), "3.2 N·m to 6.43 N·m would hold")
	// A new strip with 0.01 takes the play away first: 0.0087 of lift.
	require.NotContains(t, failing(built(t, and(with("gib_strip", "oil", "0.01"), "slide_lock", "torque", "4", "on", "flat"))), "cross.upgrade_2.lift_check")
}

func TestSlideLockUnmeasured(t *testing.T) {
	m := with("slide_lock", "torque", "4", "on", "flat")
	slide, _ := m.Axes[0].Part("slide")
	slide.Entries["gib_play"] = plan.Entry{}
	p := built(t, m)
	for key, missing := range map[string]string{"lift_check": "cross.slide.gib_play", "thread_check": "cross.upgrade_1.wall"} {
		c := verdict(t, p, "cross.upgrade_1."+key)
		require.Equal(t, sheet.Unmeasured, c.Verdict)
		require.Equal(t, missing, c.Missing[0].Key)
	}
}
