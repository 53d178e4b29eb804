package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/sheet"
)

// The lathe as found, from its measurements:
//
//	travel     the nut's front face, 30 at s = 0, meets the front wall at 118: 88
//	next       the slide's end, 78, meets the dial at 167 + 0.5: 89.5, 1.5 later
//	diameter   the tip stands 88 − 4 outside of the axis: 2 × 84 = 168
//	inner end  the slide, from −72 on, hangs 72 of its 150 over ways that begin at 0
//	outer end  the ways end at 141, the slide begins at −72 + 88 = 16: 125 on its ways
func TestLatheAsFound(t *testing.T) {
	a := ask(t, demo.Lathe(), "")
	require.Empty(t, a.Problems)
	require.Empty(t, a.Findings)
	a.at(sheet.Now, map[string]float64{
		"cross.travel": 88, "cross.reach_plus": 88, "cross.reach_minus": 0,
		"cross.front_wall_nut.bound": 88, "cross.dial_slide.bound": 89.5,
		"cross.start_disc": 168, "cross.start_over_slide": 114,
		"cross.slide_on_saddle_ways.hangs_minus": 72, "cross.slide_on_saddle_ways.supported_plus": 125,
	})
	require.Contains(t, a.limited("cross.reach_plus"), "nut meets front wall, slide at")
	overhang := a.check("cross.slide_on_saddle_ways.overhang_minus")
	require.Equal(t, sheet.Fails, overhang.Verdict) // 72 of 150 is more than a third, 50
	require.True(t, overhang.AsFound)
	require.False(t, overhang.Charged())
	require.Equal(t, "72 mm of the slide hangs over, and 50 mm is the most.", overhang.Sentence)
	require.Empty(t, a.failing())
}

// 12 more outward, worked out by hand:
//
//	wall       met at 88: cut back 12, to 130; 141 − 130 = 11 left
//	pocket     28 wide, 14 each side of the middle; holes at 24, M6: 24 − 14 − 3 = 7
//	bracket    met at 89.5: 100 − 89.5 = 10.5; 26 + 10.5 = 36.5, so to 177.5
//	screw end  203 − 177.5 = 25.5 where 0.5 + 16.5 + 14 + 5 = 36 is needed: 10.5 short
//	nut        on thread to 140; its face at 30 + 100 = 130: 10 to spare
//	slide      begins at −72 + 100 = 28; 141 − 28 = 113 on its ways, 150 − 113 = 37 over
//	disc       2 × (100 − 4) = 192, 24 more; 210 − 2 × 2 = 206 swings over the bed
//	over slide 118 − 2 × 2 = 114, before and after
//	joint      lap 14 on the old end: from 203 − 14 = 189 to 203; 189 − 177.5 = 11.5 clear
//	sleeve     14 over 10: wall 2
//	bearing    10 × 19 × 5 in 30: wall 5.5; 0.2 × 19 = 3.8 wanted
//	lock nut   5 high, pitch 1: thread 5 + 2 × 1 = 7
func TestLatheTwelveMore(t *testing.T) {
	a := ask(t, lathe(), "1", "amount", "12")
	a.is(map[string]float64{
		"cross.asked_plus": 100, "cross.travel": 100,
		"cross.front_wall.from": 130, "cross.front_wall.length": 11, "cross.front_wall.hole_distance": 7,
		"cross.bracket.length": 36.5, "cross.bracket.to": 177.5,
		"cross.shaft_end.out": 25.5, "cross.shaft_end.needed": 36, "cross.shaft_end.short": 10.5, "cross.shaft_end.missing": 0,
		"cross.extension.visible":                   10.5,
		"cross.nut_on_thread.spare_plus":            10,
		"cross.nut_on_thread.engaged_plus":          24,
		"cross.slide_on_saddle_ways.supported_plus": 113, "cross.slide_on_saddle_ways.hangs_plus": 37,
		"cross.start_disc": 192, "cross.start_over_slide": 114, "cross.usable": 100, "cross.use_disc": 107,
		"cross.extension.joint_from": 189, "cross.extension.clear": 11.5, "cross.extension.wall": 2,
		"cross.support.wall": 5.5, "cross.support.wall_least": 3.8, "cross.support.seat": 19,
		"cross.extension.thread": 7, "cross.dial.bore": 14, "cross.handle.bore": 14,
	})
	require.Equal(t, []string{"nut meets front wall, slide at", "slide meets dial, slide at"}, a.limited("cross.reach_plus"))
	require.Empty(t, a.failing())

	dial := a.check("cross.dial_slide.check")
	require.Equal(t, sheet.Tight, dial.Verdict)
	require.Equal(t, "just touches", dial.Phrase)
	require.Equal(t, sheet.Holds, dial.Was)
	wall := a.check("cross.front_wall.left_check")
	require.Equal(t, sheet.Holds, wall.Verdict)
	require.Equal(t, "11 mm of the front wall is left, and 8 mm is wanted.", wall.Sentence)
	require.Equal(t, "3 mm to spare", wall.Phrase)
	require.True(t, a.check("cross.slide_on_saddle_ways.overhang_minus").AsFound) // still said, still not charged

	require.Equal(t, "The cross slide goes 12 mm further outward. The bracket grows by 10.5 mm, the screw needs an extension of 10.5 mm and a support bearing, and 11 mm of the front wall is left."+
		" Disc work can start on 192 mm, 24 mm more; over the cross slide nothing is gained: the limit is the swing over the cross slide, less clearance.", a.answer())
}

// The knock-ons of the same, as a tree: what stands under what.
func TestLatheKnockOns(t *testing.T) {
	a := ask(t, lathe(), "1", "amount", "12")
	type line struct {
		depth int
		label string
		now   string
		plan  string
	}
	var got []line
	var walk func(tree []*sheet.KnockOn, depth int)
	walk = func(tree []*sheet.KnockOn, depth int) {
		for _, k := range tree {
			now := k.Now.Text(0)
			if k.New {
				now = "new"
			}
			got = append(got, line{depth, k.Label, now, k.Text(k.Now.Value)})
			walk(k.Children, depth+1)
		}
	}
	walk(a.Result.KnockOns(a.site.GoalKeys()...), 0)
	require.ElementsMatch(t, []line{
		{0, "travel, outward", "88 mm", "100 mm"},
		{1, "front wall metal left", "23 mm", "11 mm"},
		{1, "bracket length", "26 mm", "36.5 mm"},
		{2, "screw beyond the bracket", "36 mm", "25.5 mm"},
		{3, "extension beyond the screw's end", "new", "10.5 mm"},
		{4, "dial bore", "10 mm", "14 mm"},
		{4, "handle bore", "10 mm", "14 mm"},
		{4, "thread on the new end, for the lock nut", "new", "7 mm"},
		{4, "support bearing 10 × 19 × 5: seat H7", "new", "19 mm"},
		{1, "slide on its ways, outward", "125 mm", "113 mm"},
		{1, "travel got, from stop to stop", "88 mm", "100 mm"},
		{1, "largest diameter to start on, disc work", "168 mm", "192 mm"},
		{1, "largest diameter to start on, over the cross slide", "114 mm", "114 mm"},
		{1, "travel that is of use", "88 mm", "100 mm"},
	}, got)
}

// How far could I go, worked out by hand:
//
//	wall       23 less the amount, down to 8: 15
//	swing      2 × (88 + x − 4) = 206 at x = 19: of no use beyond
//	thread     140 − (30 + 88 + x) = 0 at x = 22; after that engagement falls
//	overhang   25 + x = 50 at x = 25
//	engagement 24 + 22 − x = 18 at x = 28
func TestLatheHowFar(t *testing.T) {
	ends, far := ask(t, lathe(), "1", "amount", "12").howFar()
	require.InDelta(t, 15, far.To, 1e-6)
	require.Zero(t, far.From)
	require.False(t, far.AtMost)
	require.InDelta(t, 19, far.Best, 1e-6)
	for key, want := range map[string]float64{
		"cross.front_wall.left_check": 15, "cross.swing_check": 19, "cross.nut_on_thread.full_plus": 22,
		"cross.slide_on_saddle_ways.overhang_plus": 25, "cross.nut_on_thread.least_plus": 28,
	} {
		require.InDelta(t, want, ends[key], 1e-6, key)
	}
	levels := map[string]sheet.Level{}
	for _, l := range far.Limits {
		levels[l.Key] = l.Level
	}
	require.Equal(t, sheet.Use, levels["cross.swing_check"])
	require.Equal(t, sheet.Rule, levels["cross.slide_on_saddle_ways.overhang_plus"])
	require.Equal(t, "cross.front_wall.left_check", far.Limits[0].Key)
}

// The splash tray: not measured, everything gained is "at most"; 5 away, the
// travel ends at 88 + 5; ruled out, it is exact.
func TestLatheSplashTray(t *testing.T) {
	m := demo.Lathe()
	a := ask(t, m, "1", "amount", "12")
	reach := a.figure("cross.reach_plus", sheet.Planned)
	require.Equal(t, [2]float64{88, 100}, [2]float64{reach.Lo, reach.Hi})
	require.Equal(t, "at most 100 mm", reach.Text(88))
	require.True(t, a.figure("cross.travel", sheet.Now).Known()) // the present travel stays exact
	require.Equal(t, sheet.Unmeasured, a.check("cross.splash_tray.check").Verdict)
	require.Contains(t, a.answer(), "The cross slide goes 12 mm further outward, at most, until the gap to the splash tray is measured.")
	_, far := a.howFar()
	require.True(t, far.AtMost)
	require.InDelta(t, 15, far.To, 1e-6)

	tray(&m).Gap.Typed = "5"
	a = ask(t, m, "1", "amount", "12")
	a.is(map[string]float64{"cross.reach_plus": 93, "cross.start_disc": 178}) // 2 × (93 − 4)
	require.Equal(t, []string{"cross.splash_tray.check"}, a.failing())
	require.Contains(t, a.answer(), "The cross slide goes 5 mm further outward, not the 12 mm asked for: there the splash tray is met.")
	ends, far := a.howFar()
	require.InDelta(t, 5, far.To, 1e-6)
	require.InDelta(t, 5, ends["cross.splash_tray.check"], 1e-6)
	require.False(t, far.AtMost)

	m = demo.Lathe()
	m.Axes[0].Obstacles = m.Axes[0].Obstacles[1:] // not asked is not known either
	require.Equal(t, "at most 100 mm", ask(t, m, "1", "amount", "12").figure("cross.reach_plus", sheet.Planned).Text(88))
}

// A screw that reaches as far as it is asked for: set back by 15 where nothing
// has slack, the bracket is 15 longer and a cut starts on a diameter 30 larger.
// Common practice, no source.
func TestSetBackWithoutSlack(t *testing.T) {
	m := lathe()
	measure(part(&m, "dial"), "gap", "0", "length", "17") // touches the bracket,
	measure(part(&m, "slide"), "to", "79")                // and the slide touches it at 88
	a := ask(t, m, "1", "amount", "15")
	a.is(map[string]float64{"cross.bracket.length": 26 + 15, "cross.start_disc": 168 + 30, "cross.front_wall.length": 8})
	require.Empty(t, a.failing())
}

// The dial just touches: what to measure better first is the slide's end, that
// a rule was held against.
func TestLatheMeasureFirst(t *testing.T) {
	a := ask(t, lathe(), "1", "amount", "12")
	u := a.Result.Uncertainty("cross.dial_slide.gap", sheet.Planned)
	require.Equal(t, "cross.slide.to", u.Shares[0].Key)
	require.Greater(t, u.Shares[0].Part, 0.8)
	require.True(t, a.check("cross.dial_slide.check").Flips)
	// Two readings by caliper, ± 0.05 each, one by rule, ± 0.2, the travel by gauge, ± 0.01, all rectangular:
	// u² = (2 × 0.05² + 0.2² + 0.01²)/3, and 2 u is 0.245.
	require.InDelta(t, 0.245, u.PlusMinus(), 0.001)
}

// Nothing typed yet changes nothing, and is no mistake.
func TestLatheBlankAmount(t *testing.T) {
	a := ask(t, demo.Lathe(), "1")
	require.Empty(t, a.Result.KnockOns())
	require.Equal(t, "Say how much further the cross slide should go, and everything that follows from it is shown here.", a.answer())
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = "twelve"
	p, err := m.Build("1")
	require.NoError(t, err)
	require.Len(t, p.Site("1").Problems, 1)
	require.Equal(t, "amount", p.Site("1").Problems[0].Field)
}

// Each of these says 12 mm.
func TestLatheAmountAsSaid(t *testing.T) {
	for _, typed := range []string{"12", "12,0", "12 mm", "1.2 cm", "0.472440944882 in"} {
		ask(t, lathe(), "1", "amount", typed).is(map[string]float64{"cross.front_wall.length": 11})
	}
}
