package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/sheet"
)

// The handle's middle is 0.5 + 16.5 + 7 = 24 beyond a bracket of 26. A play of 0.10 in
// the old bore shakes it by 0.1 (1 + 48/26) = 0.2846; with 0.02 at the outer end by
// 0.02 + 0.12 × 24/26 = 0.1308. A hand of 100 N presses 100 (1 + 24/26) = 192.3 N on a
// bush of 10 × 15: 1.282 MPa. Of 14 outside it leaves (30 − 14)/2 = 8 of the bracket;
// 14 p6 in H7 (ISO 286-2: +29 against 0 µm) closes in by 29 µm at the most.
func TestOuterSupport(t *testing.T) {
	p := built(t, with("outer_support", "play", "0.02", "journal_play", "0.1"))
	is(t, p, map[string]float64{"cross.shaft_end.overhang": 24, "cross.shaft_end.shake_plain": 0.2846, "cross.shaft_end.shake": 0.1308, "cross.upgrade_1.better": 0.1538, "cross.upgrade_1.reaction": 192.308, "cross.upgrade_1.pressure": 1.282,
		"cross.upgrade_1.wall": 8, "cross.upgrade_1.closes": 0.029, "cross.upgrade_1.room": 11})
	require.Empty(t, failing(p))
	require.Equal(t, "The handle shakes across by 0.13 mm, where it is 0.28 mm now. 8 mm of the bracket is left around it.", answer(p, "1"))
	bush := piece(t, p, "1", "bush").Round
	require.Equal(t, []float64{0.029, 0.018}, []float64{bush.Outside[0].Dia.Upper, bush.Outside[0].Dia.Lower}) // 14 p6
	require.InDelta(t, 9.8, bush.Left[0].Dia.Nominal, 1e-9)
	require.Equal(t, []float64{14, 0.018}, []float64{piece(t, p, "1", "bracket").Round.Right[0].Dia.Nominal, piece(t, p, "1", "bracket").Round.Right[0].Dia.Upper}) // 14 H7

	// Reamed when it is in, and not before.
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "press_bush").After, "bore_support")
	require.Contains(t, stepNamed(t, mk, "press_bush").Do, "then ream it")
}

// The traps: a bush of 26 leaves 2 of aluminium, where 0.2 × 26 = 5.2 are wanted, and
// one of 12 has a wall of 1, where 1.5 are; one of 10 is shorter than 1.5 × 10; one of
// 30 is longer than the bracket.
func TestStoryThinWall(t *testing.T) {
	fails := func(more ...string) []string {
		return failing(built(t, with("outer_support", append([]string{"play", "0.02", "journal_play", "0.1"}, more...)...)))
	}
	require.Equal(t, []string{"cross.upgrade_1.wall_check"}, fails("od", "26"))
	require.Equal(t, []string{"cross.upgrade_1.bush_check"}, fails("od", "12"))
	require.Equal(t, []string{"cross.upgrade_1.long_check"}, fails("long", "10"))
	require.Equal(t, []string{"cross.upgrade_1.room_check"}, fails("long", "30"))
	// Beside a thrust set's recess of 4 there is room for 22.
	p := built(t, and(with("outer_support", "play", "0.02", "journal_play", "0.1", "long", "23"), "thrust_set", "end_float", "0.01", "side", "outer", "recess_outer", "4"))
	require.Equal(t, []string{"cross.upgrade_1.room_check"}, failing(p))
}

// A ball bearing 10 × 19 × 5 in its place: 0.85 × 930 / 192.3 = 4.11 of static safety.
func TestOuterBallBearing(t *testing.T) {
	p := built(t, with("outer_support", "what", "6800", "play", "0.01", "journal_play", "0.1"))
	is(t, p, map[string]float64{"cross.upgrade_1.safety": 4.1106, "cross.upgrade_1.wall": 5.5})
	require.Empty(t, failing(p))
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, "ISO 15 10 × 19 × 5", mk.Buy[0].Designation)
	require.Contains(t, stepNamed(t, mk, "check_support").Asks[0], "before it is in hand")
}

// Worse than it was: the old bore has 0.01, the bush is asked to have 0.05.
func TestOuterSupportMadeWorse(t *testing.T) {
	p := built(t, with("outer_support", "play", "0.05", "journal_play", "0.01"))
	require.Equal(t, []string{"cross.upgrade_1.better_check"}, failing(p))
	// Not measured: no verdict. Two in one end are both named, and so are one and a pair of bearings.
	c := verdict(t, built(t, with("outer_support", "play", "0.02")), "cross.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	p = built(t, and(with("outer_support", "play", "0.02"), "bearing_pair", "end_float", "0.01"))
	require.Equal(t, "Bush or bearing at the bracket's outer end, Cross slide", p.Result.Conflicts()[0].First)
	require.Equal(t, "Pair of ball bearings in the bracket, Cross slide", p.Result.Conflicts()[0].Second)
	require.NotEmpty(t, built(t, and(with("outer_support", "play", "0.02"), "outer_support", "play", "0.03")).Result.Conflicts())
}

// A longer bracket after it steadies the handle: 24 beyond 36.5: 0.02 + 0.12 × 24/36.5 = 0.0989.
func TestOuterSupportAndMoreTravel(t *testing.T) {
	p := built(t, and(with("outer_support", "play", "0.02", "journal_play", "0.1"), "extend_travel", "end", "plus", "amount", "12"))
	is(t, p, map[string]float64{"cross.shaft_end.shake": 0.0989})
	_, there := p.Result.Figure("cross.support.seat", sheet.Planned)
	require.False(t, there) // no second bearing in the same end
}
