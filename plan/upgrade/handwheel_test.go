package upgrade_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/machine"
	"fettle/plan/sheet"
)

// withHandle is the demo lathe, whose handle is 60 across, with one upgrade.
func withHandle(kind string, inputs ...string) machine.Machine {
	m := with(kind, inputs...)
	h, _ := m.Axes[0].Part("handle")
	h.Entries["dia"] = plan.Entry{Typed: "60"}
	return m
}

// 3 N·m at 30 mm are 100 N, at 60 mm 50 N. A hard pull of 100 N gives 6 N·m, three
// times the hand's torque 9 N·m. A key of 3 × 3 (DIN 6885-1) over a boss of 14 carries
// 100 × 1.5 × 14 × 5 = 10.5 N·m.
func TestHandwheel(t *testing.T) {
	p := built(t, withHandle("handwheel", "dia", "120", "room", "95"))
	is(t, p, map[string]float64{"cross.handle.rim_force": 50, "cross.upgrade_1.better": 50, "cross.upgrade_1.could": 6000, "cross.upgrade_1.torque_wanted": 9000, "cross.upgrade_1.carries": 10500, "cross.upgrade_1.clear": 35, "cross.upgrade_1.nut_on": 5})
	require.Empty(t, failing(p))
	require.Equal(t, "At the rim a hand gives 50 N, where it is 100 N now. Pulled hard it gives the screw 6 N·m. The fixing carries 10.5 N·m.", answer(p, "1"))

	// One of 90 wants 66.7 N; one of 190 leaves nothing around it, and its 9.5 N·m still hold.
	require.Equal(t, []string{"cross.upgrade_1.force_check"}, failing(built(t, withHandle("handwheel", "dia", "90", "room", "95"))))
	require.Equal(t, []string{"cross.upgrade_1.room_check"}, failing(built(t, withHandle("handwheel", "dia", "190", "room", "95"))))
	// 62 − 60 = 2 clear, and no room for knuckles: said, and no more.
	require.Equal(t, sheet.Tight, verdict(t, built(t, withHandle("handwheel", "dia", "120", "room", "62")), "cross.upgrade_1.knuckles_check").Verdict)
}

// A pin of 3 in a shaft of 10: 70 × π/4 × 9 × 10 = 4948 N·mm of 9000. Two grub screws
// M5 hold 2230 × 0.4 × 1.3 = 1159.6 N, at 5 mm 5798 N·mm.
func TestHandleFixings(t *testing.T) {
	p := built(t, withHandle("handwheel", "dia", "120", "room", "95", "fixed", "pin"))
	is(t, p, map[string]float64{"cross.upgrade_1.carries": 4948.008})
	require.Equal(t, []string{"cross.upgrade_1.torque_check"}, failing(p))
	require.Contains(t, failing(built(t, withHandle("handwheel", "dia", "120", "room", "95", "fixed", "pin", "pin", "4"))), "cross.upgrade_1.pin_check")
	p = built(t, withHandle("handwheel", "dia", "120", "room", "95", "fixed", "grub"))
	is(t, p, map[string]float64{"cross.upgrade_1.carries": 5798})
}

// The trap: a boss 4 shorter. The nut then stands at 194 to 199, and the thread begins
// at 203 − 5 = 198: one of its five is on it, and it stops on the shank.
func TestStoryNutOnByTwoTurns(t *testing.T) {
	p := built(t, withHandle("handwheel", "dia", "120", "room", "95", "boss", "10"))
	is(t, p, map[string]float64{"cross.upgrade_1.nut_on": 1, "cross.upgrade_1.begins": -4})
	require.Equal(t, []string{"cross.upgrade_1.torque_check", "cross.upgrade_1.nut_check", "cross.upgrade_1.begins_check"}, failing(p))
	// A boss of 20, and needles 4 thick outside: 4 + 16.5 + 20 + 5 = 45.5, 9.5 short;
	// the extension carries the whole nut.
	m := and(withHandle("thrust_set", "end_float", "0.01", "side", "outer"), "handwheel", "dia", "120", "room", "95", "boss", "20")
	p = built(t, m)
	is(t, p, map[string]float64{"cross.shaft_end.short": 9.5, "cross.extension.visible": 9.5, "cross.upgrade_2.nut_on": 5})
}

// Story of a keyway cut into the sleeve of the joint: 14 over a shaft of 10 has a wall
// of 2, a keyway of 1.8 leaves 0.2. A pin cuts no keyway.
func TestStoryKeywayOverTheJoint(t *testing.T) {
	longer := with("extend_travel", "end", "plus", "amount", "12")
	p := built(t, and(longer, "handwheel", "dia", "120", "room", "95"))
	is(t, p, map[string]float64{"cross.upgrade_2.left": 0.2})
	require.Contains(t, failing(p), "cross.upgrade_2.keyway_check")
	p = built(t, and(with("extend_travel", "end", "plus", "amount", "12"), "handwheel", "dia", "120", "room", "95", "fixed", "pin"))
	require.NotContains(t, failing(p), "cross.upgrade_2.keyway_check")
}

// A fixed knob on a driven screw is stopped; a knob of 0.05 kg at 60 mm turns with
// 0.05 × 9.80665 × 60 = 29.4 N·mm, where 300 hold it.
func TestKnob(t *testing.T) {
	p := built(t, withHandle("handwheel", "dia", "120", "room", "95", "spinner", "fixed", "powered", "yes"))
	is(t, p, map[string]float64{"cross.upgrade_1.creeps": 29.41995})
	require.Equal(t, []string{"cross.upgrade_1.strikes_check"}, failing(p))
	require.Empty(t, failing(built(t, withHandle("handwheel", "dia", "120", "room", "95", "spinner", "folding", "powered", "yes"))))
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "handle_before").Asks[0], "Can power turn this screw?")
}

// A wheel that does not pass under the slide: underside 40 above the axis, 30 of
// radius passes, 60 meets it where the handle begins: 184 − 78 = 106.
func TestWheelMeetsTheSlide(t *testing.T) {
	m := withHandle("handwheel", "dia", "120", "room", "95")
	slide, _ := m.Axes[0].Part("slide")
	slide.Entries["underside"] = plan.Entry{Typed: "40"}
	p := built(t, m)
	now, _ := p.Result.Figure("cross.handle_slide.bound", sheet.Now)
	require.True(t, math.IsInf(now.Value, 1))
	is(t, p, map[string]float64{"cross.handle_slide.bound": 106})
}

// What was not measured: no gain, no verdict on the room.
func TestHandwheelUnmeasured(t *testing.T) {
	p := built(t, with("handwheel", "dia", "120"))
	c := verdict(t, p, "cross.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "cross.handle.dia", c.Missing[0].Key)
	require.Equal(t, sheet.Unmeasured, verdict(t, p, "cross.upgrade_1.room_check").Verdict)
	require.Contains(t, answer(built(t, with("handwheel")), "1"), "Say how large the handle should be")
	both := built(t, and(with("handwheel", "dia", "120"), "handwheel", "dia", "100"))
	require.NotEmpty(t, both.Result.Conflicts())
}

// What the sheet asks for is used: held at a radius of 45 the handle is 90 across, 3 N·m
// at 45 mm are 66.7 N; and 95 measured around it leave 95 − 60 = 35.
func TestHandwheelByWhatTheSheetHas(t *testing.T) {
	m := with("handwheel", "dia", "120")
	h, _ := m.Axes[0].Part("handle")
	h.Entries["rim"], h.Entries["room"] = plan.Entry{Typed: "45"}, plan.Entry{Typed: "95"}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.upgrade_1.stood": 66.6667, "cross.upgrade_1.clear": 35})
	require.Empty(t, failing(p))
	// The trial of a wheel fits what is there: 2 (50 − 2) = 96.
	require.Equal(t, "120 mm", p.Site("1").Kind.Trials(p.Site("1").Layout)[0].Inputs["dia"])
	h.Entries["room"] = plan.Entry{Typed: "50"}
	s := built(t, m).Site("1")
	require.Equal(t, "96 mm", s.Kind.Trials(s.Layout)[0].Inputs["dia"])
	for _, f := range p.Site("1").Fields {
		require.NotEqual(t, "room", f.Name, "it is not asked for twice")
	}
}
