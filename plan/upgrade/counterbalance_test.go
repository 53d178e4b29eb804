package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// onAxis adds a planned upgrade to the axis with the key.
func onAxis(m machine.Machine, axis, kind string, inputs ...string) machine.Machine {
	m = and(m, kind, inputs...)
	m.Upgrades[len(m.Upgrades)-1].Axis = axis
	return m
}

// head is the demo mill with its head balanced, as the only upgrade.
func head(inputs ...string) machine.Machine {
	m := demo.Mill()
	m.Upgrades = nil
	return onAxis(m, "head", "counterbalance", append([]string{"mass", "40", "stroke", "260"}, inputs...)...)
}

// By hand: 40 kg weigh 392.27 N. Two struts of 170 N carry 340 right up, 13.3 % too little, and
// with 0.3 more over 250 of 260 of stroke 340 × 1.28846 = 438.08 right down, 11.7 % too
// much: 52.27 is the worst. Within 20 % are struts of 0.8 × 392.27 / 2 = 156.9 to 1.2 × 392.27 /
// 2.57692 = 182.7 N.
func TestCounterbalance(t *testing.T) {
	p := built(t, head("force", "170"))
	is(t, p, map[string]float64{"head.upgrade_1.weight": 392.266, "head.upgrade_1.out": 340, "head.upgrade_1.in": 438.0769, "head.upgrade_1.off": 52.266, "head.upgrade_1.off_top": 0.13324,
		"head.upgrade_1.off_bottom": 0.11679, "head.upgrade_1.better": 340, "head.strut_spare": 10})
	require.Empty(t, failing(p))
	require.Equal(t, sheet.Tight, verdict(t, p, "head.upgrade_1.creep_check").Verdict)
	require.Equal(t, "Of a weight of 392 N the struts carry 340 N right up and 438 N right down. At the worst the weight not carried comes to 52 N, where it is 392 N now.", answer(p, "1"))
	s := p.Site("1")
	far := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
	require.InDelta(t, 156.91, far.From, 0.01)
	require.InDelta(t, 182.67, far.To, 0.01)
}

// The traps: a strut no longer than the travel; one that is strong enough right up, and
// then, over a short stroke, too strong; a riser of 60 fitted after it.
func TestCounterbalanceFails(t *testing.T) {
	p := built(t, head("force", "170", "stroke", "252"))
	require.Equal(t, []string{"head.upgrade_1.stroke_check"}, failing(p))
	p = built(t, head("force", "196"))
	require.Equal(t, []string{"head.upgrade_1.bottom_check"}, failing(p)) // 392 × 1.288 = 505, 29 % too much
	p = built(t, head("force", "170", "angle", "30"))
	require.Equal(t, []string{"head.upgrade_1.top_check"}, failing(p)) // cos 30°: 294, 25 % too little
	p = built(t, onAxis(head("force", "170"), "head", "riser", "amount", "60"))
	is(t, p, map[string]float64{"head.strut_left": -50})
	require.Contains(t, failing(p), "head.strut_check")
	require.NotEmpty(t, built(t, onAxis(head("force", "170"), "head", "counterbalance", "force", "100")).Result.Conflicts())
}

// Its mass is not known: nothing is told.
func TestCounterbalanceUnmeasured(t *testing.T) {
	m := head("force", "170")
	delete(m.Upgrades[0].Inputs, "mass")
	p := built(t, m)
	for _, key := range []string{"better_check", "top_check", "bottom_check"} {
		c := verdict(t, p, "head.upgrade_1."+key)
		require.Equal(t, sheet.Unmeasured, c.Verdict)
		require.Equal(t, "head.upgrade_1.mass", c.Missing[0].Key)
	}
	require.Contains(t, answer(p, "1"), "the mass of what goes up and down is measured")
}

// Story: a strut fired while the column was changed, and a finger was trapped. Before the
// head is let go its block and its lock are asked for, and each step says where the energy is.
func TestStoryStrutFires(t *testing.T) {
	p := built(t, head("force", "170"))
	mk := p.Site("1").Make(p.Result)
	lock := stepNamed(t, mk, "lock_head")
	require.Contains(t, lock.Asks[0], "locked, and does it stand on its block")
	require.Contains(t, lock.Cautions[1], "stored energy")
	require.Contains(t, stepNamed(t, mk, "fit_struts").After, "lock_head")
	require.Contains(t, upgrade.Kind(p.Site("1").Kind).About().Cautions[1], "stored energy")
}
