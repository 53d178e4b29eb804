package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Needles 10 × 24 × 2 with two washers of 1 are 4 thick. Outside, they stand
// between bracket and dial, where a gap of 0.5 was: 3.5 more. Inside there is
// 141 − 140 = 1 between shoulder and bracket, so the screw goes 3 in, and its end
// with it: 0.5 + 3.5 + 16.5 + 14 + 5 = 39.5 are wanted and 203 − 3 − 167 = 33 are
// there, 6.5 short.
func TestThrustSetOnTheFaces(t *testing.T) {
	p := built(t, with("thrust_set", "end_float", "0.01"))
	is(t, p, map[string]float64{
		"cross.thrust.thickness": 4, "cross.dial.gap": 4, "cross.dial.from": 171, "cross.shank.to": 200, "cross.thread.to": 137, "cross.thread.from": 3,
		"cross.shaft_end.short": 6.5, "cross.extension.visible": 6.5, "cross.end_float": 0.01,
	})
	require.Empty(t, failing(p))
	require.Equal(t, "End float comes to 0.01 mm, where it is 0.12 mm now. The set stands 4 mm out of the bracket. The screw goes 3 mm further in. The screw's end then needs an extension of 6.5 mm.", answer(p, "1"))
	// A hand of 3 N·m at 30 %: 2 π 3000 0.3 / 1.5 = 3770 N; 0.85 × 26000 / 3770 = 5.86.
	is(t, p, map[string]float64{"cross.upgrade_1.thrust": 3769.911, "cross.upgrade_1.safety": 5.862})
	// The shoulder is 12, and a washer of 24 wants 23 behind it.
	require.Equal(t, sheet.Tight, verdict(t, p, "cross.upgrade_1.shoulder_check").Verdict)
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, []any{"ISO 3031 10 × 24 × 2", 2, "ISO 3031 10 × 24 × 1", 4}, []any{mk.Buy[1].Designation, mk.Buy[1].Quantity, mk.Buy[2].Designation, mk.Buy[2].Quantity})
}

// 6.5 shows, and the thread of 7 (a nut of 5, two pitches of 1) with 3 of metal
// before it wants 10: 3.5 comes off the old end. 6.5 + 3.5 + 14 = 24 over all. Of
// the shank, 59 long, 55.5 stay.
func TestSleeveStaysWhole(t *testing.T) {
	p := built(t, with("thrust_set", "end_float", "0.01"))
	is(t, p, map[string]float64{"cross.extension.thread": 7, "cross.extension.cut_back": 3.5, "cross.extension.length": 24, "cross.extension.solid": 3})
	require.Empty(t, failing(p))
	e := piece(t, p, "1", "extension").Round
	require.LessOrEqual(t, e.Left[0].Length.Nominal+3, e.Grooves[0].At.Nominal)
	screw := piece(t, p, "1", "screw")
	long := func(r *part.Round) (mm float64) {
		for _, s := range r.Outside {
			mm += s.Length.Nominal
		}
		return mm
	}
	require.InDelta(t, 3.5, long(screw.Round.Was)-long(screw.Round), 1e-9)

	// Left as long as it is, the bore ends half a millimetre within the thread.
	p = built(t, with("thrust_set", "end_float", "0.01", "cut_back", "0"))
	is(t, p, map[string]float64{"cross.extension.length": 20.5, "cross.extension.solid": -0.5})
	require.Equal(t, []string{"cross.extension.solid_check"}, failing(p))
	// More travel shows more of it: nothing comes off.
	is(t, built(t, with("extend_travel", "end", "plus", "amount", "12")), map[string]float64{"cross.extension.cut_back": 0, "cross.extension.solid": 3.5})
}

// Sunk in by 4 outside and by 3 inside nothing moves; 26 − 7 = 19 stay between,
// (30 − 24 − 0.2) / 2 = 2.9 around, where aluminium wants 2.5.
func TestThrustSetRecessed(t *testing.T) {
	m := with("thrust_set", "end_float", "0.01", "recess_outer", "4", "recess_inner", "3")
	p := built(t, m)
	is(t, p, map[string]float64{"cross.dial.gap": 0.5, "cross.shank.to": 203, "cross.shaft_end.short": 0, "cross.upgrade_1.floor": 19, "cross.upgrade_1.wall": 2.9})
	require.Empty(t, failing(p))
	b := piece(t, p, "1", "bracket")
	require.True(t, b.Altered)
	require.InDelta(t, 24.2, b.Round.Left[0].Dia.Nominal, 1e-9)
	require.InDelta(t, 3, b.Round.Left[0].Length.Nominal, 1e-9)
	require.InDelta(t, 4, b.Round.Right[0].Length.Nominal, 1e-9)

	// In iron 3 mm are wanted.
	bracket, _ := m.Axes[0].Part("bracket")
	bracket.Material = "cast_iron"
	require.Equal(t, []string{"cross.upgrade_1.wall_check"}, failing(built(t, m)))
	// 20 + 5 of 26: 1 stays.
	require.Equal(t, []string{"cross.upgrade_1.floor_check"}, failing(built(t, with("thrust_set", "end_float", "0.01", "recess_outer", "20", "recess_inner", "5"))))
}

// Recessed by 2 the set stands out by 2. Made 2.3 deep it stands out by 1.7.
func TestRecessAsMade(t *testing.T) {
	m := with("thrust_set", "end_float", "0.01", "side", "outer", "recess_outer", "2")
	is(t, built(t, m), map[string]float64{"cross.dial.gap": 2})
	m.Upgrades[0].Made = map[string]plan.Entry{"bracket.recess_outer": {Typed: "2.3", With: "depth_gauge"}}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.dial.gap": 1.7, "cross.thrust.recess_outer": 2.3})
	j := p.Site("1").AsMade(p.Result)[0]
	require.False(t, j.Rework) // a recess too deep is not made shallower
}

// Other bearings of the bore: one of ISO 104 is 9 thick; a pair of angular
// contact bearings 10 × 26 × 8 is 16, and stands at the outer end alone.
func TestOtherThrustBearings(t *testing.T) {
	is(t, built(t, with("thrust_set", "end_float", "0.01", "set", "51100", "side", "outer")), map[string]float64{"cross.dial.gap": 9, "cross.shank.to": 203})
	p := built(t, with("thrust_set", "end_float", "0.01", "set", "7000", "recess_outer", "16"))
	// Its ring nut M10 × 0.75, 4 wide, and lock washer of 1 stand beyond it. Its seat fits: (30 − 26)/2.
	is(t, p, map[string]float64{"cross.thrust.thickness": 16, "cross.dial.gap": 5, "cross.upgrade_1.wall": 2, "cross.upgrade_1.preload": 108}) // 2 % of 5400
	// And a pair that small carries 0.85 × 2700 / 3770 = 0.61 times a hand's thrust, where balls want 2.
	require.Equal(t, []string{"cross.upgrade_1.load_check", "cross.upgrade_1.wall_check"}, failing(p))
	// A ring is a fifth of (26 − 10)/2 … high, two thirds of which a shoulder may be: 2.13, and 1 at the least.
	// Cover and hole 21.73 to 24, the sleeve 12 to 14.27, and 167 − 16 − 140 = 11 long.
	cover := piece(t, p, "1", "cover").Round.Left[0].Dia
	require.InDelta(t, 21.733, cover.Smallest(), 1e-3)
	require.InDelta(t, 24, cover.Largest(), 1e-9)
	require.InDelta(t, 11, piece(t, p, "1", "ring_sleeve").Round.Length.Nominal, 1e-9)
	seat := piece(t, p, "1", "bracket").Round.Right[0].Dia
	require.Equal(t, []float64{26, 0.012, -0.009}, []float64{seat.Nominal, seat.Upper, seat.Lower}) // 26 J7 in aluminium, ISO 286-2
	for _, b := range p.Site("1").Make(p.Result).Buy {
		require.True(t, b.Key != "thrust_bearing" || b.Quantity == 2 && b.Designation == "ISO 15 10 × 26 × 8", b)
	}
}

// The end float asked for is what rolling bearings give.
func TestEndFloat(t *testing.T) {
	p := built(t, with("thrust_set", "end_float", "0.05", "side", "outer", "recess_outer", "4"))
	require.Equal(t, []string{"cross.upgrade_1.float_check"}, failing(p))
	s := p.Site("1")
	require.InDelta(t, 0.02, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, 1e-6)
	require.Contains(t, answer(built(t, with("thrust_set")), "1"), "Say how little end float the screw should have")
}

// After more travel the extension that is there grows by itself: 10.5 + 3.5. The
// recess is bored into the new bracket, which is listed once.
func TestThrustSetAfterMoreTravel(t *testing.T) {
	travel := with("extend_travel", "end", "plus", "amount", "12")
	p := built(t, and(travel, "thrust_set", "end_float", "0.01", "side", "outer"))
	is(t, p, map[string]float64{"cross.extension.visible": 14, "cross.reach_plus": 100})
	require.Empty(t, failing(p))
	require.Contains(t, answer(p, "2"), "The screw's end then needs an extension of 14 mm.")

	p = built(t, and(travel, "thrust_set", "end_float", "0.01", "side", "outer", "recess_outer", "3.5"))
	// A bearing of 5 in the same end: 36.5 − 3.5 − 5 = 28 stay between.
	is(t, p, map[string]float64{"cross.extension.visible": 10.5, "cross.upgrade_2.floor": 28})
	b := piece(t, p, "1", "bracket")
	require.False(t, b.Altered)
	require.InDelta(t, 3.5, b.Round.Right[0].Length.Nominal, 1e-9)
	require.InDelta(t, 19, b.Round.Right[1].Dia.Nominal, 1e-9)
	mk := p.Site("2").Make(p.Result)
	_, there := mk.Part("bracket")
	require.False(t, there)

	// A size that only the later upgrade asks for can be entered with the earlier one.
	m := and(travel, "thrust_set", "end_float", "0.01", "side", "outer", "recess_outer", "3.5")
	m.Upgrades[0].Made = map[string]plan.Entry{"bracket.recess_outer": {Typed: "3.52"}}
	p = built(t, m)
	require.Len(t, p.Site("1").AsMade(p.Result), 1)
}

// Two sets at one bracket: both are named.
func TestTwoThrustSets(t *testing.T) {
	p := built(t, and(with("thrust_set", "end_float", "0.01"), "thrust_set", "end_float", "0.01"))
	require.NotEmpty(t, p.Result.Conflicts())
	require.Equal(t, "Thrust bearings on the screw, Cross slide (2)", p.Result.Conflicts()[0].Second)
}

// Plain washers 24 across and 2 thick on a shank of 10: a hand's 3770 N press
// 3770 / (π/4 (576 − 100)) = 10.08 MPa, where 5 wear slowly. They want 0.01 of float.
func TestPlainThrustWashers(t *testing.T) {
	p := built(t, with("thrust_set", "set", "plain", "end_float", "0.03"))
	is(t, p, map[string]float64{"cross.thrust.thickness": 2, "cross.dial.gap": 2, "cross.upgrade_1.back": 1, "cross.upgrade_1.pressure": 10.084})
	require.Empty(t, failing(p))
	require.Equal(t, sheet.Tight, verdict(t, p, "cross.upgrade_1.pressure_check").Verdict)
	require.Equal(t, []string{"cross.upgrade_1.oil_check"}, failing(built(t, with("thrust_set", "set", "plain", "end_float", "0.005"))))
	require.Equal(t, []string{"cross.upgrade_1.float_check"}, failing(built(t, with("thrust_set", "set", "plain", "end_float", "0.06"))))
}

// Soft washers, swarf, a dial squeezed by the nut, too much preload, and bearings of
// another size than was drawn: asked at the steps at which they matter.
func TestStoryThrustAsks(t *testing.T) {
	p := built(t, with("thrust_set", "end_float", "0.01"))
	mk := p.Site("1").Make(p.Result)
	asks := stepNamed(t, mk, "fit_thrust").Asks
	require.Contains(t, asks[0], "58 HRC")
	require.Contains(t, asks[1], "swarf")
	require.Contains(t, asks[2], "does the dial still turn?")
	require.Contains(t, stepNamed(t, mk, "readings_after").Asks[0], "After 20 minutes")
	require.Contains(t, stepNamed(t, mk, "check_thrust").Asks[0], "Cut nothing before it is.")
	for _, b := range mk.Buy {
		if b.Key == "thrust_bearing" {
			require.Equal(t, "check_thrust", b.Confirm)
		}
	}
}
