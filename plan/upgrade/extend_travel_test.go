package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
)

// 12 further forward by a spacer of 12. The thread then begins at 28, and at the
// back end, 50 on, at 78: 88 − 78 = 10 of the nut on it, where 1.5 × 10 = 15 is the
// least. Forward, −42 to 68 of the slide: 42 hang over, and a third of 110 is 36.7.
// Its screws stand at −32, −7, 18 and 43: two over the ways.
//
// The honest gain is 36.67 − 30 = 6.67; the nut would give 22 − 15 = 7.
func TestTopSlideForward(t *testing.T) {
	p := built(t, and(topSlideAxis(), "extend_travel", "end", "minus", "amount", "12", "do.base_bracket", "spacer"))
	is(t, p, map[string]float64{"a.bracket.spacer": 12, "a.thread.from": 28, "a.nut_on_thread.engaged_plus": 10, "a.nut_on_thread.least": 15,
		"a.slide_on_ways.supported_minus": 68, "a.slide_on_ways.hangs_minus": 42, "a.slide_on_ways.gib_screws_minus": 2, "a.reach_minus": -12})
	require.ElementsMatch(t, []string{"a.nut_on_thread.least_plus", "a.slide_on_ways.overhang_minus"}, failing(p))
	s := p.Site("1")
	far := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
	require.InDelta(t, 110.0/3-30, far.To, 1e-6)
	for _, l := range far.Limits {
		if l.Key == "a.nut_on_thread.least_plus" {
			require.InDelta(t, 7, l.To, 1e-6)
		}
	}

	// Where half of it may hang over, for light work, the nut is what ends it.
	m := topSlideAxis()
	m.Axes[0].Entries["slide_on_ways.overhang_most"] = plan.Entry{Typed: "0.5"}
	p = built(t, and(m, "extend_travel", "end", "minus", "amount", "7", "do.base_bracket", "spacer"))
	require.Empty(t, failing(p))
	require.InDelta(t, 7, p.Result.HowFar(p.Site("1").Amount, s.Goals[0], s.Most).To, 1e-6)
}

// One gib screw bears, and the slide rocks: 31 forward they stand at −51, −26, −1
// and 24.
func TestStoryOneGibScrewOnTheTopSlide(t *testing.T) {
	p := built(t, and(topSlideAxis(), "extend_travel", "end", "minus", "amount", "31", "do.base_bracket", "spacer"))
	c := verdict(t, p, "a.slide_on_ways.gib_check_minus")
	require.Equal(t, sheet.Fails, c.Verdict)
	require.Equal(t, "1 of the gib screws lie over the ways, and 2 must.", c.Sentence)
}

// Moments about the saddle's end at 240, table right out: 34 kg with their middle
// at 220, 20 within; the load's middle at 470 − 60 = 410, 170 beyond: 34 × 20 / 170
// = 4 kg tip it, on either side. 5 further it is 34 × 15 / 175 = 2.914 kg.
func TestStoryLoadAtTheTablesEnd(t *testing.T) {
	loaded := func(load string, inputs ...string) *machine.Plan {
		m := tableAxis("moving_mass", "34", "load_mass", load, "load_inset", "60")
		return built(t, and(m, "extend_travel", append([]string{"end", "plus"}, inputs...)...))
	}
	p := loaded("3.5")
	is(t, p, map[string]float64{"a.table_on_saddle.tips_plus": 0.004, "a.table_on_saddle.tips_minus": 0.004})
	require.Equal(t, sheet.Tight, verdict(t, p, "a.table_on_saddle.tip_plus").Verdict)
	require.Equal(t, sheet.Holds, verdict(t, loaded("1.9"), "a.table_on_saddle.tip_plus").Verdict) // twice as safe
	c := verdict(t, loaded("3.5", "amount", "5"), "a.table_on_saddle.tip_plus")
	require.Equal(t, sheet.Fails, c.Verdict)
	require.Equal(t, "2.91 kg at the table's end tips it, and 3.5 kg is to stand there: only the gib holds it down then.", c.Sentence)
	require.Contains(t, failing(loaded("3.5", "amount", "5")), "a.table_on_saddle.tip_plus")
}

// The power feed's gear on the screw, 12 wide, stands 1 out beyond its driver's 10:
// all 10 mesh. A spacer of 10.5 takes it along, from −0.5 to 11.5: 0.5 of it meshes,
// where two thirds of 10 are wanted. A longer bracket leaves it where it is. Thrust
// bearings that send the screw 3 in leave it from −14 to −2: 8.
func TestStoryPowerFeedOutOfMesh(t *testing.T) {
	geared := func(kind string, inputs ...string) *machine.Plan {
		m := with(kind, inputs...)
		for key, typed := range map[string]string{"gear_width": "12", "driver_width": "10", "gear_out": "1"} {
			m.Axes[0].Entries[key] = plan.Entry{Typed: typed}
		}
		return built(t, m)
	}
	p := geared("extend_travel", "end", "plus", "amount", "12", "do.dial_slide", "spacer")
	is(t, p, map[string]float64{"cross.gear_mesh.moved": 10.5, "cross.gear_mesh.overlap": 0.5, "cross.gear_mesh.least": 6.6667})
	require.Contains(t, failing(p), "cross.gear_mesh.check")
	require.Equal(t, "0.5 mm of the teeth mesh, and 6.67 mm is wanted: the gear went with the screw.", verdict(t, p, "cross.gear_mesh.check").Sentence)

	p = geared("extend_travel", "end", "plus", "amount", "12", "do.dial_slide", "longer_bracket")
	is(t, p, map[string]float64{"cross.gear_mesh.moved": 0, "cross.gear_mesh.overlap": 10})
	require.Empty(t, failing(p))

	p = geared("thrust_set", "end_float", "0.01")
	is(t, p, map[string]float64{"cross.gear_mesh.moved": -3, "cross.gear_mesh.overlap": 8})
}

// The shank was not measured, and the nut gets 25 longer: it would come to the
// thread's end at 140 − 55 = 85, 3 before the travel is at its end, if the shank
// does not enter it. That is not known, and no verdict; with a shank of 12 it fails.
func TestLongerNutOnAnUnknownShank(t *testing.T) {
	m := with("new_nut", "play", "0.05", "length", "49")
	shank, _ := m.Axes[0].Part("shank")
	delete(shank.Entries, "dia")
	require.Equal(t, sheet.Unmeasured, verdict(t, built(t, m), "cross.thread_end.check").Verdict)
	shank.Entries["dia"] = plan.Entry{Typed: "12"}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.thread_end.bound": 85})
	require.Equal(t, sheet.Fails, verdict(t, p, "cross.thread_end.check").Verdict)
}

// The trap: a slide can be cut as far as there is metal, and then rocks. One from 40 to 174 is
// 134 long; three quarters of it are 100.5, so 33 may come off and 34 may not; within a tenth of
// 134 above that, from 20.1 on, it is tight.
func TestSlideIsNotCutAway(t *testing.T) {
	asked := func(amount string) *machine.Plan {
		m := demo.Mill()
		m.Upgrades = nil
		return built(t, and(m, "extend_travel", "end", "minus", "amount", amount, "do.column_saddle", "cut_saddle", "do.nut_bracket", "spacer"))
	}
	require.Equal(t, sheet.Holds, verdict(t, asked("20"), "y.saddle.whole_check").Verdict)
	require.Equal(t, sheet.Tight, verdict(t, asked("33"), "y.saddle.whole_check").Verdict)
	require.Contains(t, failing(asked("34")), "y.saddle.whole_check")
}

// An axis that is named with its letter is told by what moves: “the table along (X) goes” is no English.
func TestAxisNamedWithItsLetter(t *testing.T) {
	m := demo.Mill()
	m.Upgrades = nil
	m.Axes[0].Label = "Saddle across (Y)"
	require.Contains(t, answer(built(t, and(m, "extend_travel", "end", "minus", "amount", "5", "do.column_saddle", "cut_saddle", "do.nut_bracket", "spacer")), "1"), "The saddle goes 5 mm further")
}
