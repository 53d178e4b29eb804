package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
)

// millWith is the demo mill with one upgrade of its Y axis.
func millWith(kind string, inputs ...string) machine.Machine {
	m := demo.Mill()
	m.Upgrades = nil
	return and(m, kind, inputs...)
}

// The mill's bracket is 40 across, 26 long and of iron. Of the bearings on its
// journal of 10, 10 × 30 × 9 is the strongest that leaves the larger of 2.5 and
// 0.15 × 30 = 4.5 around it: (40 − 30)/2 = 5; 10 × 35 × 11 leaves 2.5 where 5.25
// are wanted. Flush in both ends, 26 − 18 = 8 stay between, and the sleeve is 8.01.
// It is rated 2400 N (published lists), of which 0.85 is counted on: 2040 N. One of
// that bore may take a quarter as thrust (published rule): 510 N. A hand of 3 N·m at
// 30 % on a lead of 3: 2 π 3000 × 0.3 / 3 = 1885 N, by ISO 76 as much as
// 0.6 × 100 + 0.5 × 1885 = 1002.5 N: 2040 / 1002.5 = 2.035.
func TestBearingPair(t *testing.T) {
	p := built(t, millWith("bearing_pair", "end_float", "0.01"))
	is(t, p, map[string]float64{
		"y.bearing_pair.od": 30, "y.upgrade_1.wall": 5, "y.upgrade_1.wall_least": 4.5, "y.bearing_pair.floor": 8, "y.bearing_pair.sleeve": 8.01,
		"y.upgrade_1.axial_most": 510, "y.upgrade_1.thrust": 1884.956, "y.upgrade_1.equivalent": 1002.478, "y.upgrade_1.safety": 2.035,
		"y.upgrade_1.bolts_apart": 8, // 26 − 3 − 15
		"y.end_float":             0.01, "y.dial.gap": 0.5, "y.shaft_end.short": 0,
	})
	require.Empty(t, failing(p))
	// The shoulder of 12 is lower than the 14 that a corner of 0.6 wants (10 + 2 × 2).
	require.Equal(t, sheet.Tight, verdict(t, p, "y.upgrade_1.shoulder_check").Verdict)
	say := answer(p, "1")
	require.Contains(t, say, "The bearing in the inner end takes what pulls the screw outwards, the one in the outer end what pushes it in, each 510 N at the most.")

	b := piece(t, p, "1", "bracket").Round
	// ISO 286-2: 30 H7 is +21 and 0 µm.
	require.Equal(t, []float64{30, 0.021, 0}, []float64{b.Left[0].Dia.Nominal, b.Left[0].Dia.Upper, b.Left[0].Dia.Lower})
	require.InDelta(t, 9, b.Right[0].Length.Nominal, 1e-9)
	require.Equal(t, "hole between the seats", b.Right[len(b.Right)-1].Label)
	sleeve := piece(t, p, "1", "pair_sleeve").Round
	require.InDelta(t, 8.01, sleeve.Length.Nominal, 1e-9)
	require.Equal(t, "bracket.deep_outer", sleeve.Length.Awaits)
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, []any{"ISO 15 10 × 30 × 9", 2}, []any{mk.Buy[0].Designation, mk.Buy[0].Quantity})
}

// The trap: a thin pair in the lathe's bracket of 30. A lead of 1.5 turns a hand's
// 3 N·m into 3770 N: 0.6 × 100 + 0.5 × 3770 = 1945 N on 0.85 × 930 = 790.5 N, and
// the balls dent their tracks: 0.406. For work they have 0.25 × 790.5 = 197.6 N.
func TestStoryThinPairUnderAHand(t *testing.T) {
	p := built(t, with("bearing_pair", "end_float", "0.01"))
	is(t, p, map[string]float64{"cross.bearing_pair.od": 19, "cross.upgrade_1.wall": 5.5, "cross.bearing_pair.floor": 16, "cross.upgrade_1.safety": 0.4064, "cross.upgrade_1.axial_most": 197.625})
	require.Equal(t, []string{"cross.upgrade_1.axial_check", "cross.upgrade_1.hand_check"}, failing(p))
	require.Contains(t, answer(p, "1"), "This does not hold")
	// Read off a spring balance, a hand gives 0.8 N·m here: 1005 N, 562.7 N, 1.405.
	m := with("bearing_pair", "end_float", "0.01", "work", "150")
	m.Axes[0].Entries["hand_torque"] = plan.Entry{Typed: "0.8", With: "count"}
	p = built(t, m)
	is(t, p, map[string]float64{"cross.upgrade_1.safety": 1.405})
	require.Empty(t, failing(p))
}

// A bearing that is too large for the bracket: (30 − 26)/2 = 2 of aluminium, where
// 0.2 × 26 = 5.2 are wanted.
func TestStoryRecessBreaksThrough(t *testing.T) {
	p := built(t, with("bearing_pair", "end_float", "0.01", "pair", "6000", "work", "150"))
	is(t, p, map[string]float64{"cross.upgrade_1.wall": 2, "cross.upgrade_1.wall_least": 5.2})
	require.Contains(t, failing(p), "cross.upgrade_1.wall_check")
}

// Sunk in by 4 of its 5 the outer one stands out by 1, and moves the dial by 0.5;
// sunk by 3 inside, with 1 before the shoulder, the screw goes in by 1: 1.5 of its
// end are missing, which it is lengthened by.
func TestBearingPairStandsOut(t *testing.T) {
	m := with("bearing_pair", "end_float", "0.01", "deep_outer", "4", "deep_inner", "3", "work", "150")
	p := built(t, m)
	is(t, p, map[string]float64{"cross.dial.gap": 1, "cross.shank.to": 202, "cross.shaft_end.short": 1.5, "cross.extension.visible": 1.5, "cross.bearing_pair.floor": 19})
	require.Contains(t, answer(p, "1"), "The outer bearing stands 1 mm out of the bracket. The screw goes 1 mm further in. The screw's end then needs an extension of 1.5 mm.")
	// Bored 4.2 deep it stands out by 0.8, and 18.8 stay between.
	m.Upgrades[0].Made = map[string]plan.Entry{"bracket.deep_outer": {Typed: "4.2", With: "depth_gauge"}}
	is(t, built(t, m), map[string]float64{"cross.dial.gap": 0.8, "cross.bearing_pair.floor": 18.8, "cross.bearing_pair.sleeve": 18.81})
	// A sleeve rubbed 0.02 too short leaves no float.
	m.Upgrades[0].Made["pair_sleeve.length"] = plan.Entry{Typed: "18.79", With: "micrometer"}
	is(t, built(t, m), map[string]float64{"cross.end_float": 0})
}

// Thrust bearings and a pair in one bracket: both set the end float, and are named.
func TestPairAndThrustSet(t *testing.T) {
	p := built(t, and(with("thrust_set", "end_float", "0.01"), "bearing_pair", "end_float", "0.01"))
	require.NotEmpty(t, p.Result.Conflicts())
	c := p.Result.Conflicts()[0]
	require.Equal(t, []string{"Thrust bearings on the screw, Cross slide", "Pair of ball bearings in the bracket, Cross slide"}, []string{c.First, c.Second})
	// An extension after it asks for no third bearing in the outer end.
	p = built(t, and(with("bearing_pair", "end_float", "0.01", "work", "150"), "extend_travel", "end", "plus", "amount", "12"))
	_, there := p.Result.Figure("cross.support.seat", sheet.Planned)
	require.False(t, there)
}

// What was not measured gives no verdict, and is named.
func TestBearingPairUnmeasured(t *testing.T) {
	m := with("bearing_pair", "end_float", "0.01")
	delete(m.Axes[0].Entries, "end_float")
	p := built(t, m)
	c := verdict(t, p, "cross.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "cross.end_float", c.Missing[0].Key)
	require.Contains(t, answer(built(t, with("bearing_pair")), "1"), "Say how little end float the screw should have")
	require.Empty(t, built(t, with("bearing_pair")).Site("1").Make(p.Result).Parts)
}

// After more travel the seats are bored in the new bracket, which is listed once.
func TestBearingPairInANewBracket(t *testing.T) {
	p := built(t, and(with("extend_travel", "end", "plus", "amount", "12", "bearing", "none"), "bearing_pair", "end_float", "0.01", "work", "150"))
	is(t, p, map[string]float64{"cross.bearing_pair.floor": 26.5}) // 36.5 − 10
	require.InDelta(t, 5, piece(t, p, "1", "bracket").Round.Left[0].Length.Nominal, 1e-9)
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "bore_pair").After, "turn_bracket")
	second := p.Site("2").Make(p.Result)
	_, there := second.Part("bracket")
	require.False(t, there)
}
