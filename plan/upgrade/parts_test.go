package upgrade_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/part"
	"fettle/plan/upgrade"
)

func entry(typed string) plan.Entry { return plan.Entry{Typed: typed, With: "rule"} }

func stepNamed(t *testing.T, mk upgrade.Make, key string) part.Operation {
	t.Helper()
	i := slices.IndexFunc(mk.Steps, func(o part.Operation) bool { return o.Key == key })
	require.GreaterOrEqual(t, i, 0, key)
	return mk.Steps[i]
}

// 12 mm more on the lathe: a bracket 36.5 long, its seat 19 H7 (ISO 286-2: +21
// and 0 µm) 5 deep, a sleeve of 14 h6 (0 and −11 µm) 10.5 + 14 = 24.5 long with a
// thread of 5 + 2 × 1 = 7; 23 − 12 = 11 of the wall left; dial and handle to 14 H7.
func TestPartsOfMoreTravel(t *testing.T) {
	p := built(t, with("extend_travel", "end", "plus", "amount", "12", "do.front_wall_nut", "cut_front_wall", "pocket.front_wall", "28"))
	mk := p.Site("1").Make(p.Result)
	var keys []string
	for _, x := range mk.Parts {
		keys = append(keys, x.Key)
	}
	require.Equal(t, []string{"front_wall", "bracket", "extension", "screw", "dial", "handle"}, keys)

	b := piece(t, p, "1", "bracket")
	require.Equal(t, "6082", b.Material)
	require.InDelta(t, 36.5, b.Round.Length.Nominal, 1e-9)
	require.Equal(t, []float64{0.3, -0.3}, []float64{b.Round.Length.Upper, b.Round.Length.Lower}) // ISO 2768-1 m, 30 to 120
	require.InDelta(t, 8, b.Round.Outside[0].Length.Nominal, 1e-9)
	require.InDelta(t, 28.5, b.Round.Outside[1].Length.Nominal, 1e-9)
	seat := b.Round.Right[0]
	require.Equal(t, []float64{19, 0.021, 0, 5}, []float64{seat.Dia.Nominal, seat.Dia.Upper, seat.Dia.Lower, seat.Length.Nominal})
	require.Equal(t, "cross.shank.dia", b.Round.Right[1].Dia.Awaits) // measured by caliper so far
	require.Len(t, b.Round.Flange.Holes, 2)
	require.Equal(t, 6.6, b.Round.Flange.Holes[0].Dia.Nominal) // ISO 273, medium, M6
	require.Equal(t, []float64{-24, 24}, []float64{b.Round.Flange.Holes[0].X.Nominal, b.Round.Flange.Holes[1].X.Nominal})

	e := piece(t, p, "1", "extension")
	require.InDelta(t, 24.5, e.Round.Length.Nominal, 1e-9)
	require.Equal(t, "bracket.length", e.Round.Length.Awaits)
	require.Equal(t, "M10×1-6g", e.Round.Outside[1].Thread)
	require.InDelta(t, 7, e.Round.Outside[1].Length.Nominal, 1e-9)
	require.Equal(t, []float64{14, 0, -0.011}, []float64{e.Round.Outside[0].Dia.Nominal, e.Round.Outside[0].Dia.Upper, e.Round.Outside[0].Dia.Lower})
	require.Equal(t, []float64{10, 0.2, 0.05, 14}, []float64{e.Round.Left[0].Dia.Nominal, e.Round.Left[0].Dia.Upper, e.Round.Left[0].Dia.Lower, e.Round.Left[0].Length.Nominal}) // 0.025 to 0.1 a side
	require.Len(t, e.Round.Grooves, 1)
	require.InDelta(t, 17.5, e.Round.Grooves[0].At.Nominal, 1e-9)

	old := piece(t, p, "1", "screw")
	require.True(t, old.Altered)
	require.Equal(t, "M12×1.5-LH-6g", old.Round.Outside[0].Thread)
	require.Contains(t, old.Notes[0], "The old thread is left")

	wall := piece(t, p, "1", "front_wall")
	require.True(t, wall.Altered && wall.Flat.Outline)
	pocket := wall.Flat.Features[0]
	require.InDelta(t, 12, pocket.Depth.Nominal, 1e-9)
	require.InDelta(t, 11, pocket.Left.Nominal, 1e-9)
	require.InDelta(t, 28, pocket.Length.Nominal, 1e-9)
	require.True(t, wall.Flat.Features[1].Behind)
	require.Equal(t, 48.0, wall.Flat.Features[2].X.Nominal-wall.Flat.Features[1].X.Nominal)

	for _, key := range []string{"dial", "handle"} {
		bored := piece(t, p, "1", key).Round.Left[0].Dia
		require.Equal(t, []float64{14, 0.018, 0}, []float64{bored.Nominal, bored.Upper, bored.Lower}) // 14 H7
		require.Equal(t, "extension.outside", bored.Awaits)
	}

	require.Equal(t, "ISO 15 10 × 19 × 5", mk.Buy[0].Designation)
	// Made before anything comes apart; the machine apart from there on.
	apart := false
	for _, o := range mk.Steps {
		apart = apart || o.Key == "strip"
		if o.Key != "look_inside" {
			require.Equal(t, apart && o.Key != "readings_after", o.Out == "cross", o.Key)
		}
	}
	require.Contains(t, stepNamed(t, mk, "bore_seat").After, "check_bearing")
	require.Contains(t, stepNamed(t, mk, "turn_extension").After, "turn_bracket")
	require.Contains(t, stepNamed(t, mk, "true_extension").After, "braze")
}

// Only what is needed: 1 mm meets no dial, and asks for no bracket and no joint.
func TestOnlyWhatIsNeeded(t *testing.T) {
	p := built(t, with("extend_travel", "end", "plus", "amount", "1"))
	mk := p.Site("1").Make(p.Result)
	require.Len(t, mk.Parts, 1)
	require.Equal(t, "front_wall", mk.Parts[0].Key)
	require.Empty(t, mk.Buy)
	p = built(t, with("extend_travel", "end", "plus"))
	require.Empty(t, p.Site("1").Make(p.Result).Steps)
}

// A spacer of 10.5: bolts of 8 + 10.5 and 9 in the iron, 27.5, and no longer than
// 18.5 + 14 − 1 = 31.5: M6 × 30. A pinned sleeve of 14 takes a dowel 3 × 14.
func TestOtherWaysOfMoreTravel(t *testing.T) {
	p := built(t, with("extend_travel", "end", "plus", "amount", "12", "do.dial_slide", "spacer"))
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, "ISO 4762 M6 × 30", mk.Buy[0].Designation)
	require.Equal(t, 2, mk.Buy[0].Quantity)
	require.Equal(t, "turn_spacer", mk.Buy[0].Confirm)
	require.InDelta(t, 10.5, piece(t, p, "1", "spacer").Flat.Thickness.Nominal, 1e-9)

	p = built(t, with("extend_travel", "end", "plus", "amount", "12", "joint", "pinned"))
	mk = p.Site("1").Make(p.Result)
	require.Equal(t, "ISO 8734 3 × 14", mk.Buy[1].Designation)
	require.Len(t, piece(t, p, "1", "extension").Round.Cross, 1)
	stepNamed(t, mk, "pin")

	// A new screw with its end 10.5 longer: 134 of thread, 63 + 10.5 of shank.
	p = built(t, with("extend_travel", "end", "plus", "amount", "12", "joint", "new_screw"))
	s := piece(t, p, "1", "screw")
	require.False(t, s.Altered)
	require.InDelta(t, 207.5, s.Round.Length.Nominal, 1e-9)
	require.InDelta(t, 66.5, s.Round.Outside[1].Length.Nominal, 1e-9) // 7 of it is thread for the nut
}

// The mill: 15 off the saddle, of which 119 stay; a spacer of 13 with four bolts of 35.
func TestPartsOnTheMill(t *testing.T) {
	m := demo.Mill()
	p, s := at(t, m, "1", "amount", "15")
	mk := s.Make(p.Result)
	saddle, _ := mk.Part("saddle")
	require.InDelta(t, 119, saddle.Flat.Length.Nominal, 1e-9)
	require.Equal(t, "y.saddle.from", saddle.Flat.Length.Made.Leaf)
	require.Equal(t, "ISO 4762 M6 × 35", mk.Buy[0].Designation)
	require.Equal(t, 4, mk.Buy[0].Quantity)
}

// A riser: its height is as asked; its foot is open until the column's is
// measured. Bolts of 45 become 45 + 60 = 105, sold 110 long: M10 is not made so.
func TestPartsOfARiser(t *testing.T) {
	m := demo.Mill()
	p, s := at(t, m, "2", "amount", "60")
	mk := s.Make(p.Result)
	block, _ := mk.Part("riser")
	require.InDelta(t, 60, block.Flat.Thickness.Nominal, 1e-9)
	require.Equal(t, "head.foot_length", block.Flat.Length.Awaits)
	require.Equal(t, "", stepNamed(t, mk, "mill_riser").Out)
	require.Equal(t, "head", stepNamed(t, mk, "drill_riser").Out)

	m.Axes[1].Entries["foot_length"] = entry("180")
	m.Axes[1].Entries["foot_width"] = entry("140")
	m.Axes[1].Entries["foot_bolt"] = entry("45")
	m.Axes[1].Entries["foot_bolt_dia"] = entry("10")
	m.Axes[1].Entries["foot_bolts"] = entry("4")
	p, s = at(t, m, "2", "amount", "60")
	mk = s.Make(p.Result)
	block, _ = mk.Part("riser")
	require.InDelta(t, 180, block.Flat.Length.Nominal, 1e-9)
	require.False(t, block.Flat.Length.Open())
	require.Len(t, block.Flat.Features, 4)
	require.Equal(t, 11.0, block.Flat.Features[0].Dia.Nominal) // ISO 273, medium, M10
	require.Contains(t, mk.Buy[0].Label, "not made so long")
	p, s = at(t, m, "2", "amount", "50")
	require.Equal(t, "ISO 4762 M10 × 100", s.Make(p.Result).Buy[0].Designation)
}

// A second wish on the same bracket: it is listed once, as long as it is to be.
func TestPartIsMadeOnce(t *testing.T) {
	p := built(t, and(with("extend_travel", "end", "plus", "amount", "12"), "extend_travel", "end", "plus", "amount", "2"))
	require.InDelta(t, 38.5, piece(t, p, "1", "bracket").Round.Length.Nominal, 1e-9)
	mk := p.Site("2").Make(p.Result)
	require.Empty(t, mk.Parts)
	for _, o := range mk.Steps {
		require.NotEqual(t, "turn_bracket", o.Key)
	}
}

// What is made anew is not altered as well, whichever was wished for first: a screw
// of 134 + 63 + 10.5 = 207.5 with a shank of 10 up to its end, and so no sleeve, no
// solder, and a dial of the bore that it has; a nut of 24 − 10 = 14.
func TestWhatIsMadeAnewIsNotAltered(t *testing.T) {
	further := []string{"end", "plus", "amount", "12", "do.front_wall_nut", "shorten_nut"}
	anew := []string{"more", "none", "play", "0.05", "clockwise", "minus"}
	for name, p := range map[string]*machine.Plan{
		"further first": built(t, and(with("extend_travel", further...), "new_screw", anew...)),
		"screw first":   built(t, and(with("new_screw", anew...), "extend_travel", further...)),
	} {
		first, second := p.Site("1"), p.Site("2")
		if second.Upgrade.Kind == "new_screw" {
			first, second = second, first
		}
		mk, other := first.Make(p.Result), second.Make(p.Result)
		screw, ok := mk.Part("screw")
		require.True(t, ok, name)
		require.False(t, screw.Altered, name)
		require.InDelta(t, 207.5, screw.Round.Length.Nominal, 1e-9, name)
		stepNamed(t, mk, "turn_screw")
		require.True(t, bought(mk, "screw_bar"), name)
		nut, ok := mk.Part("nut")
		require.True(t, ok && !nut.Altered, name)
		for _, key := range []string{"screw", "extension", "nut", "dial", "handle"} {
			_, there := other.Part(key)
			require.False(t, there, "%s: %s", name, key)
		}
		_, there := other.Part("bracket")
		require.True(t, there, name)
		require.False(t, bought(other, "silver_solder"), name)
		for _, o := range other.Steps {
			require.NotContains(t, []string{"braze", "turn_extension", "bore_dial", "shorten_nut", "turn_screw"}, o.Key, name)
		}
		is(t, p, map[string]float64{"cross.dial.bore": 10, "cross.extension.visible": 10.5})
		require.Contains(t, answer(p, second.ID), "the new screw is 10.5 mm longer", name)
	}
	// Threaded bar on the old shank leaves the shank's other end, and its sleeve, as they are.
	p := built(t, and(with("extend_travel", further...), "new_screw", append(anew, "how", "graft")...))
	require.True(t, piece(t, p, "1", "screw").Altered)
	require.False(t, piece(t, p, "2", "threaded_bar").Altered)
	require.InDelta(t, 24.5, piece(t, p, "1", "extension").Round.Length.Nominal, 1e-9)

	// A bracket that is made anew has the recess of what was planned before it.
	p = built(t, and(with("thrust_set", "end_float", "0.01"), "extend_travel", further...))
	_, there := func() (*part.Part, bool) { mk := p.Site("1").Make(p.Result); return mk.Part("bracket") }()
	require.False(t, there)
	require.False(t, piece(t, p, "2", "bracket").Altered)
}

func bought(mk upgrade.Make, key string) bool {
	return slices.ContainsFunc(mk.Buy, func(b part.Bought) bool { return b.Key == key })
}
