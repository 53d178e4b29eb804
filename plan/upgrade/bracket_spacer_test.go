package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// roomy is the demo lathe with its front wall out of the way, so that the dial is
// what stops the slide: at 141 + 26 + 0.5 − 78 = 89.5.
func roomy(kind string, inputs ...string) machine.Machine {
	m := with(kind, inputs...)
	wall, _ := m.Axes[0].Part("front_wall")
	wall.Entries["from"] = entry("132")
	m.Axes[0].Entries["travel_found"] = plan.Entry{Typed: "89.5", With: "dial_gauge"}
	return m
}

// 10 under the bracket: bracket, screw and dial go out to 151, 150 and 177.5, and
// the slide 10 further, to 99.5. Right in, 30 − 16 = 14 of the nut is left on the
// thread, and 1.5 × 12 = 18 is the least: the last 4 are given up. The window of
// full thread is 134 − 24 = 110 before and after. The bolts: 8 + 10 through flange
// and plate and 1.5 × 6 in the iron are 27, sold 30 long; 30 − 18 = 12 in a hole of
// 14. The thread's end, at 150, lies within the plate: its bore is 12 + 1, and
// 24 − 3 − 6.5 = 14.5 stay beside it.
func TestBracketSpacer(t *testing.T) {
	p := built(t, roomy("bracket_spacer", "amount", "10"))
	is(t, p, map[string]float64{
		"cross.bracket.spacer": 10, "cross.bracket.from": 151, "cross.thread.from": 16, "cross.thread.to": 150, "cross.shank.to": 213, "cross.dial.from": 177.5,
		"cross.reach_plus": 99.5, "cross.upgrade_1.better": 10, "cross.upgrade_1.lost": 4, "cross.asked_minus": 4, "cross.nut_on_thread.engaged_minus": 18,
		"cross.nut_on_thread.window": 110, "cross.bracket.bolt_length": 30, "cross.bracket.bolt_bottom": 2, "cross.upgrade_1.web": 14.5,
	})
	require.Empty(t, failing(p))
	require.Contains(t, answer(p, "1"), "The slide goes 10 mm further outward. Inward, 4 mm is given up. There 18 mm of the nut's 24 mm is on the thread. The window of full thread stays 110 mm wide: it is moved, not widened.")
	plate := piece(t, p, "1", "spacer")
	require.InDelta(t, 10, plate.Flat.Thickness.Nominal, 1e-9)
	require.InDelta(t, 13, plate.Flat.Features[0].Dia.Nominal, 1e-9)
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, "ISO 4762 M6 × 30", mk.Buy[0].Designation)
	require.Contains(t, stepNamed(t, mk, "fit_spacer").Asks[0], "power feed")

	// On full thread: 16 − 6 = 10 are given up.
	is(t, built(t, roomy("bracket_spacer", "amount", "10", "other", "full")), map[string]float64{"cross.upgrade_1.lost": 10, "cross.nut_on_thread.spare_minus": 0})
	p = built(t, roomy("bracket_spacer"))
	require.Empty(t, p.Site("1").Make(p.Result).Steps)
	require.Contains(t, answer(built(t, roomy("bracket_spacer")), "1"), "Say how thick")
}

// The travel is asked for as before: 14 of the nut is on the thread right in, 4
// less than the least. The program finds it, whichever way it is asked.
func TestStorySpacerTakesFromTheOtherEnd(t *testing.T) {
	p := built(t, roomy("bracket_spacer", "amount", "10", "other", "keep"))
	require.Equal(t, []string{"cross.nut_on_thread.least_minus"}, failing(p))
	require.Contains(t, answer(p, "1"), "This does not hold: nut engaged, inward, short by 4 mm.")
	// Six of the nut's 24 can go: no more than 6 of spacer, in holes deep enough for
	// the bolts that are sold. In holes of 14 it is 3: from there on 20 are too short,
	// and 25 come to 25 − 11 = 14.
	s := p.Site("1")
	far := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
	require.InDelta(t, 3, far.To, 1e-3)
	// From 4 of spacer on 25 is 25 − 12 = 13 deep, and 6 is as far as the nut goes: 4 to 6.
	require.Len(t, far.Again, 1)
	require.InDeltaSlice(t, []float64{4, 6}, []float64{far.Again[0].From, far.Again[0].To}, 1e-3)
	m := roomy("bracket_spacer", "amount", "10", "other", "keep")
	b, _ := m.Axes[0].Part("bracket")
	b.Entries["tapped_depth"] = entry("20")
	p = built(t, m)
	s = p.Site("1")
	require.InDelta(t, 6, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, 1e-3)
}

// The wall stops the slide: a spacer gains nothing there, and says so.
func TestSpacerBehindAWall(t *testing.T) {
	p := built(t, with("bracket_spacer", "amount", "10"))
	require.Equal(t, []string{"cross.front_wall_nut.check"}, failing(p))
	require.Contains(t, answer(p, "1"), "The slide goes no further outward: there the nut meets the front wall.")
}

// A gear 12 wide, 1 beyond the outer face of the one of 10 that drives it: all 10
// are in mesh. 10 further out it lies from −1 to 11, and 1 is: 2/3 of 10 are wanted.
// 3 of spacer leaves 10 − 2 = 8: from −8 to 4.
func TestStoryPowerFeedLosesItsMesh(t *testing.T) {
	geared := func(amount string) machine.Machine {
		m := roomy("bracket_spacer", "amount", amount)
		for key, typed := range map[string]string{"gear_width": "12", "driver_width": "10", "gear_out": "1"} {
			m.Axes[0].Entries[key] = entry(typed)
		}
		return m
	}
	p := built(t, geared("10"))
	is(t, p, map[string]float64{"cross.gear_mesh.overlap": 1})
	require.Equal(t, []string{"cross.gear_mesh.check"}, failing(p))
	require.Contains(t, answer(p, "1"), "Of the power feed's gears 1 mm stays in mesh.")
	require.Len(t, stepNamed(t, p.Site("1").Make(p.Result), "fit_spacer").Asks, 1)
	is(t, built(t, geared("3")), map[string]float64{"cross.gear_mesh.overlap": 8})
	// Whatever else moves the screw counts: a thrust set inside takes it 3 back in.
	is(t, built(t, and(geared("10"), "thrust_set", "end_float", "0.01", "side", "inner")), map[string]float64{"cross.gear_mesh.moved": 7, "cross.gear_mesh.overlap": 4})
}

// Bolts whose size is not on the sheet are asked for: 8 + 10 + 9 = 27, sold 30; in
// holes 12 deep they bottom: 12 − (30 − 18) = 0.
func TestStorySpacerBoltsBottom(t *testing.T) {
	m := roomy("bracket_spacer", "amount", "10", "flange", "8", "tapped_depth", "12", "bolt_dia", "6")
	b, _ := m.Axes[0].Part("bracket")
	for _, key := range []string{"flange", "bolt_length", "bolt_dia", "tapped_depth"} {
		delete(b.Entries, key)
	}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.upgrade_1.bolt": 30, "cross.upgrade_1.below": 0})
	require.Equal(t, []string{"cross.upgrade_1.below_check"}, failing(p))
	require.Equal(t, "ISO 4762 M6 × 30", p.Site("1").Make(p.Result).Buy[0].Designation)
	m.Upgrades[0].Inputs["tapped_depth"] = ""
	require.Equal(t, sheet.Unmeasured, verdict(t, built(t, m), "cross.upgrade_1.below_check").Verdict)
}

// Two spacers are one plate, listed once, as thick as both.
func TestTwoSpacers(t *testing.T) {
	p := built(t, and(roomy("bracket_spacer", "amount", "4"), "bracket_spacer", "amount", "2"))
	is(t, p, map[string]float64{"cross.bracket.spacer": 6, "cross.reach_plus": 95.5})
	require.Empty(t, p.Result.Conflicts())
	require.InDelta(t, 6, piece(t, p, "1", "spacer").Flat.Thickness.Nominal, 1e-9)
	require.Empty(t, p.Site("2").Make(p.Result).Parts)
}

// A screw that travels: 8 under the mill's bracket let the saddle 8 further in,
// once the column is out of the way; right out 172 − (8 + 8 + 130) = 26 of the nut's
// 28 are on the thread.
func TestSpacerOnATravellingScrew(t *testing.T) {
	m := demo.Mill()
	m.Upgrades = nil
	m.Axes = m.Axes[:1]
	for key, to := range map[string]string{"column": "20", "web": "-20"} {
		p, _ := m.Axes[0].Part(key)
		p.Entries["to"] = entry(to)
		p.Entries["from"] = entry("-60")
	}
	m = and(m, "bracket_spacer", "amount", "8")
	// The bracket meets the nut at 172 − 174 = −2; it is what stops it now.
	m.Axes[0].Entries["travel_found"] = entry("130")
	p := built(t, m)
	is(t, p, map[string]float64{"y.bracket.from": 182, "y.thread.from": 16, "y.asked_minus": -8, "y.nut_on_thread.engaged_plus": 26, "y.upgrade_1.lost": 0})
	require.NotContains(t, failing(p), "y.nut_bracket.check")
}

// A handle at the end to which positions fall: the spacer takes bracket and screw
// the other way.
func TestSpacerTheOtherWayRound(t *testing.T) {
	m := machine.Machine{Axes: []axis.Axis{{Key: "top", Label: "Top slide", Arrangement: "travelling_screw", Plus: "forward", Minus: "back",
		Entries: map[string]plan.Entry{"travel_found": entry("60")},
		Parts: []axis.Part{
			{Key: "bracket", Label: "end bracket", Role: "bracket", Side: axis.Moving, Entries: map[string]plan.Entry{"from": entry("-30"), "to": entry("-10")}},
			{Key: "thread", Label: "screw thread", Role: "thread", Side: axis.Moving, Entries: map[string]plan.Entry{"from": entry("0"), "to": entry("90"), "dia": entry("10"), "pitch": entry("1.5")}},
			{Key: "nut", Label: "nut", Role: "nut", Side: axis.Fixed, Entries: map[string]plan.Entry{"from": entry("65"), "to": entry("85")}},
		}}}}
	m = and(m, "bracket_spacer", "amount", "5")
	p := built(t, m)
	is(t, p, map[string]float64{"top.bracket.from": -35, "top.thread.from": -5, "top.thread.to": 85, "top.asked_plus": 65})
	require.Equal(t, upgrade.Planned, p.Site("1").State)
}
