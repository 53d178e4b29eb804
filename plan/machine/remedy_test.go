package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// The wall and the nut share what is needed at the front wall, 12: the wall
// gives 8, so 15 of 23 stay; the nut moves 4 inward, to 2 … 26, and then meets
// the rear wall, that ends at 6, 4 earlier at the inner end.
func TestWallAndNutShare(t *testing.T) {
	share := []string{"amount", "12", "part.front_wall_nut", "8", "rest.front_wall_nut", "move_nut"}
	a := ask(t, lathe(), "1", share...)
	a.is(map[string]float64{
		"cross.front_wall.length": 15, "cross.nut.from": 2, "cross.nut.to": 26, "cross.reach_plus": 100, "cross.reach_minus": 4, "cross.travel": 96,
		"cross.nut_on_thread.engaged_minus": 20, // the thread begins at 6
	})
	require.Equal(t, []string{"cross.rear_wall_nut.check"}, a.failing())
	require.Contains(t, a.answer(), "Inward, 4 mm is lost: there the nut meets the rear wall.")

	// The rear wall is 6 thick: cut back 4, 2 stay, and never under 5 is the rule.
	a = ask(t, lathe(), "1", append(share, "do.rear_wall_nut", "cut_rear_wall")...)
	a.is(map[string]float64{"cross.rear_wall.length": 2, "cross.reach_minus": 0, "cross.travel": 100})
	require.Equal(t, []string{"cross.rear_wall.left_check"}, a.failing())

	// Given up, there is nothing left to fail.
	a = ask(t, lathe(), "1", append(share, "do.rear_wall_nut", "give_up")...)
	a.is(map[string]float64{"cross.asked_minus": 4, "cross.travel": 96})
	require.Empty(t, a.failing())
	require.Contains(t, a.answer(), "Inward, 4 mm is lost")
}

// Less than is needed, and no second remedy: the rest stays in the way.
func TestShareWithoutRest(t *testing.T) {
	a := ask(t, lathe(), "1", "amount", "12", "part.front_wall_nut", "8")
	a.is(map[string]float64{"cross.front_wall.length": 15, "cross.reach_plus": 96})
	require.Equal(t, []string{"cross.front_wall_nut.check"}, a.failing())
	require.Equal(t, "short by 4 mm", a.check("cross.front_wall_nut.check").Phrase)
}

// A nut cut short by 5 leaves 19 of 24, and 1.5 × 12 = 18 is the least: it
// takes 5 of the 12, the wall the rest. By 7 it is too short.
func TestShorterNut(t *testing.T) {
	shorter := func(by string) asked {
		return ask(t, lathe(), "1", "amount", "12", "do.front_wall_nut", "shorten_nut", "part.front_wall_nut", by, "rest.front_wall_nut", "cut_front_wall")
	}
	a := shorter("5")
	a.is(map[string]float64{"cross.nut.length": 19, "cross.front_wall.length": 16, "cross.reach_plus": 100, "cross.reach_minus": 0})
	require.Empty(t, a.failing())
	require.Equal(t, []string{"cross.nut.short_check"}, shorter("7").failing())
}

// A spacer moves the thread window and does not widen it. 10.5 under the
// bracket carry screw and dial 10.5 outward: the nut has 10 + 10.5 to spare at
// the outer end, and at the inner end 24 − 10.5 = 13.5 of it are on the thread,
// where 18 is the least. The screw's end stands out as before. The bolts grip
// 8 + 10.5, want 9 in the iron, 27.5, and are sold 30 long.
func TestSpacer(t *testing.T) {
	a := ask(t, lathe(), "1", "amount", "12", "do.dial_slide", "spacer")
	a.is(map[string]float64{
		"cross.bracket.spacer": 10.5, "cross.bracket.length": 26, "cross.reach_plus": 100, "cross.shaft_end.out": 36, "cross.extension.visible": 0,
		"cross.nut_on_thread.spare_plus": 20.5, "cross.nut_on_thread.spare_minus": -10.5, "cross.nut_on_thread.engaged_minus": 13.5,
		"cross.nut_on_thread.window": 110, "cross.bracket.bolt_length": 30, "cross.bracket.bolt_engagement": 11.5, "cross.bracket.bolt_bottom": 2.5,
	})
	require.Equal(t, []string{"cross.nut_on_thread.least_minus"}, a.failing())
	require.Equal(t, "13.5 mm of the nut is on full thread, and 18 mm is the least.", a.check("cross.nut_on_thread.least_minus").Sentence)
	require.Contains(t, a.answer(), "A spacer of 10.5 mm goes under the bracket")
	a.at(sheet.Now, map[string]float64{"cross.nut_on_thread.window": 110})

	// Only more thread widens it: 10.5 more at its inner end, that begins at 6 again.
	a = ask(t, lathe(), "1", "amount", "12", "do.dial_slide", "spacer", "do.thread_minus", "new_screw")
	a.is(map[string]float64{"cross.thread.from": 6, "cross.nut_on_thread.spare_minus": 0, "cross.nut_on_thread.window": 120.5})
	require.Empty(t, a.failing())
}

// 25 outward run the nut 3 off the full thread (22 to spare), which part of it
// bears. More thread cannot be cut on a shank of 10; a new screw has it.
func TestMoreThread(t *testing.T) {
	run := func(do string) asked {
		return ask(t, lathe(), "1", "amount", "25", "do.thread_plus", do, "joint", "")
	}
	a := run("none")
	a.is(map[string]float64{"cross.nut_on_thread.spare_plus": -3, "cross.nut_on_thread.engaged_plus": 21})
	require.Equal(t, sheet.Tight, a.check("cross.nut_on_thread.full_plus").Verdict)

	a = run("extend_thread")
	require.Contains(t, a.failing(), "cross.upgrade_1.thread_plus.check")
	require.Equal(t, "The shank is 10 mm, and the thread needs 12 mm: only a new screw has more thread.", a.check("cross.upgrade_1.thread_plus.check").Sentence)

	a = run("new_screw")
	a.is(map[string]float64{"cross.thread.to": 143, "cross.shank.from": 143, "cross.nut_on_thread.spare_plus": 0})
	require.NotContains(t, a.failing(), "cross.upgrade_1.thread_plus.check")
	// A new screw is as long as is needed: there is nothing to join.
	_, joined := a.Result.Figure("cross.extension.lap", sheet.Planned)
	require.False(t, joined)
	require.Contains(t, a.answer(), "the new screw is 23.5 mm longer")
}

// Nothing done about the wall: the travel stops there, and the answer says so.
func TestNoRemedy(t *testing.T) {
	a := ask(t, lathe(), "1", "amount", "12", "do.front_wall_nut", "none")
	a.is(map[string]float64{"cross.reach_plus": 88, "cross.front_wall.length": 23, "cross.start_disc": 168})
	require.Equal(t, []string{"cross.front_wall_nut.check"}, a.failing())
	require.Contains(t, a.answer(), "The cross slide goes no further outward: there the nut meets the front wall.")

	// The wall cut and nothing done about the dial: 1.5 of the 12 are had.
	a = ask(t, lathe(), "1", "amount", "12", "do.dial_slide", "none")
	a.is(map[string]float64{"cross.reach_plus": 89.5})
	require.Contains(t, a.answer(), "The cross slide goes 1.5 mm further outward, not the 12 mm asked for: there the slide meets the dial.")
}

// 3 more inward: the nut meets the rear wall, from which 3 of 6 would stay, and
// runs 3 off the thread. No diameter is gained there.
func TestInward(t *testing.T) {
	a := ask(t, lathe(), "1", "end", "minus", "amount", "3")
	a.is(map[string]float64{
		"cross.asked_minus": -3, "cross.reach_minus": -3, "cross.reach_plus": 88, "cross.travel": 91, "cross.rear_wall.length": 3,
		"cross.nut_on_thread.engaged_minus": 21, "cross.slide_on_saddle_ways.hangs_minus": 75,
	})
	require.Equal(t, []string{"cross.slide_on_saddle_ways.overhang_minus", "cross.rear_wall.left_check"}, a.failing())
	require.True(t, a.check("cross.slide_on_saddle_ways.overhang_minus").Worse) // broken as found, and now charged: 75 over, not 72
	require.Contains(t, a.answer(), "The cross slide would go 3 mm further inward. 3 mm of the rear wall is left. For disc work nothing is gained")
}

// Both ends by 2: the wall gives 2, the dial 0.5, the rear wall 2.
func TestBothEnds(t *testing.T) {
	a := ask(t, lathe(), "1", "end", "both", "amount", "2")
	a.is(map[string]float64{
		"cross.reach_plus": 90, "cross.reach_minus": -2, "cross.travel": 92, "cross.front_wall.length": 21, "cross.bracket.length": 26.5, "cross.rear_wall.length": 4,
	})
	require.Contains(t, a.answer(), "The cross slide would go 4 mm further, both ends together.")
}

// A second wish on top of a first: 12, then 2 more. The wall goes down to 9,
// the bracket and the extension that stands there already grow by 2.
func TestSecondWish(t *testing.T) {
	m := lathe()
	m.Upgrades[0].State = upgrade.Planned
	m.Upgrades[0].Inputs["amount"] = "12"
	again(&m, "2", upgrade.Draft, "amount", "2")
	a := ask(t, m, "2")
	a.is(map[string]float64{
		"cross.reach_plus": 102, "cross.front_wall.length": 9, "cross.bracket.length": 38.5, "cross.extension.visible": 12.5, "cross.shaft_end.missing": 0, "cross.start_disc": 196,
	})
	require.Empty(t, a.failing())
	require.Empty(t, a.Result.Conflicts()) // each builds on what was
	_, far := a.howFar()
	require.InDelta(t, 3, far.To, 1e-6) // down to the 8 that are to stay

	// The other way round it comes to the same.
	m.Upgrades[0], m.Upgrades[1] = m.Upgrades[1], m.Upgrades[0]
	m.Upgrades[0].State = upgrade.Planned
	ask(t, m, "").is(map[string]float64{"cross.reach_plus": 102, "cross.front_wall.length": 9, "cross.bracket.length": 38.5, "cross.extension.visible": 12.5})
}

// Finished, the first is part of the machine as it is now.
func TestFinishedThenPlanned(t *testing.T) {
	m := lathe()
	m.Upgrades[0].State = upgrade.Finished
	m.Upgrades[0].Inputs["amount"] = "12"
	again(&m, "2", upgrade.Draft, "amount", "2")
	a := ask(t, m, "2")
	a.at(sheet.Found, map[string]float64{"cross.reach_plus": 88, "cross.front_wall.length": 23})
	a.at(sheet.Now, map[string]float64{"cross.reach_plus": 100, "cross.front_wall.length": 11, "cross.extension.visible": 10.5})
	a.is(map[string]float64{"cross.reach_plus": 102, "cross.front_wall.length": 9, "cross.extension.visible": 12.5})
	for _, k := range flat(a.Result.KnockOns()) {
		if k.Key == "cross.extension.visible" {
			require.False(t, k.New)
			require.InDelta(t, 2, k.Delta, exact)
		}
	}
}

// Dropping the first of two restores exactly what stands without it, and
// dropping both the machine as found.
func TestDropped(t *testing.T) {
	m, never := lathe(), lathe()
	m.Upgrades[0].State = upgrade.Planned
	m.Upgrades[0].Inputs["amount"] = "12"
	never.Upgrades = nil
	for _, m := range []*machine.Machine{&m, &never} {
		again(m, "2", upgrade.Planned, "amount", "5", "pocket.front_wall", "28")
	}
	ask(t, m, "").is(map[string]float64{"cross.reach_plus": 105})
	for range 2 {
		m.Upgrades = m.Upgrades[1:]
		a, b := ask(t, m, ""), ask(t, never, "")
		require.Equal(t, len(b.Result.Figures(sheet.Planned)), len(a.Result.Figures(sheet.Planned)))
		for _, want := range b.Result.Figures(sheet.Planned) {
			got := a.figure(want.Key, sheet.Planned)
			require.Equal(t, [2]float64{want.Lo, want.Hi}, [2]float64{got.Lo, got.Hi}, want.Key)
		}
		never.Upgrades = nil
	}
}

// A joint that the shaft is too thin for, a bearing too large for its bracket.
func TestScrewEndChoices(t *testing.T) {
	for _, tc := range []struct {
		name   string
		inputs []string
		fails  []string
		is     map[string]float64
	}{
		{"thin sleeve", []string{"sleeve", "12"}, []string{"cross.extension.wall_check"}, map[string]float64{"cross.extension.wall": 1}},
		// The last 5 of the shank are threaded: of a lap of 8, 3 are plain; 3 × the wall of 2 are wanted.
		{"short lap", []string{"lap", "8"}, []string{"cross.extension.lap_check"}, map[string]float64{"cross.extension.plain": 3}},
		// The old end stands out 25.5.
		{"joint in the journal", []string{"lap", "26"}, []string{"cross.extension.clear_check"}, map[string]float64{"cross.extension.clear": -0.5}},
		// τ π d²/4 D = 70 × π/4 × 1.5² × 10 = 1237 N·mm, and 3 × 3 N·m are wanted.
		{"thin pin", []string{"joint", "pinned", "pin", "1.5"}, []string{"cross.extension.torque_check"}, nil},
		// (30 − 22)/2 = 4, and 0.2 × 22 = 4.4 are wanted in aluminium.
		{"large bearing", []string{"bearing", "10x22x6"}, []string{"cross.support.wall_check"}, map[string]float64{"cross.support.wall": 4, "cross.support.wall_least": 4.4}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			a := ask(t, lathe(), "1", append([]string{"amount", "12"}, tc.inputs...)...)
			require.Equal(t, tc.fails, a.failing())
			a.is(tc.is)
		})
	}
}

// A part that cannot be what it says it is, and an answer that is not on the list.
func TestBadChoices(t *testing.T) {
	m := lathe()
	m.Upgrades[0].Inputs["do.front_wall_nut"] = "dynamite"
	m.Upgrades[0].Inputs["sleeve"] = "fat"
	m.Axes[0].Parts[0].Role = "flywheel"
	m.Axes[0].Parts[1].Entries["to"] = plan.Entry{Typed: "six"}
	m.Axes[0].Parts = append(m.Axes[0].Parts, axis.Part{Key: "nut", Label: "another nut", Role: "nut", Side: axis.Moving})
	p, err := m.Build("1")
	require.NoError(t, err)
	fields := []string{}
	for _, problem := range p.Problems {
		fields = append(fields, problem.Field)
	}
	require.ElementsMatch(t, []string{"cross.nut.key", "cross.saddle_ways.role", "cross.rear_wall.to"}, fields)
	require.Len(t, p.Site("1").Problems, 2)
}
