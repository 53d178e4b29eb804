package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	workshop "fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
)

// asMade gives the first upgrade of a machine sizes as made: key, typed, key, typed.
func asMade(m machine.Machine, sizes ...string) machine.Machine {
	m.Upgrades[0].Made = map[string]plan.Entry{}
	for i := 0; i < len(sizes); i += 2 {
		m.Upgrades[0].Made[sizes[i]] = plan.Entry{Typed: sizes[i+1], With: "micrometer", On: "2026-04-01"}
	}
	return m
}

// sizeOf is a size of a part that an upgrade makes.
func sizeOf(t *testing.T, a asked, key, name string) workshop.Size {
	t.Helper()
	mk := a.site.Make(a.Result)
	p, ok := mk.Part(key)
	require.True(t, ok, key)
	for _, s := range p.Measured() {
		if s.Name == name {
			return *s
		}
	}
	require.Fail(t, "no such size", "%s.%s", key, name)
	return workshop.Size{}
}

// judged is what a size as made comes to.
func judged(t *testing.T, a asked, key string) upgrade.AsMade {
	t.Helper()
	for _, j := range a.site.AsMade(a.Result) {
		if j.Key() == key {
			return j
		}
	}
	require.Fail(t, "not as made", key)
	return upgrade.AsMade{}
}

// The bracket came out 0.08 long, 36.58: its end lies at 141 + 36.58 = 177.58,
// 203 − 177.58 = 25.42 of the screw stand out there, and 36 are needed: make the
// extension 10.58 long, 24.58 with its lap of 14. The dial stands 0.08 further out.
func TestBracketAsMade(t *testing.T) {
	planned := ask(t, lathe(), "1", "amount", "12")
	require.InDelta(t, 24.5, sizeOf(t, planned, "extension", "length").Nominal, exact)
	require.True(t, sizeOf(t, planned, "extension", "length").Open(), "the bracket is not made yet")

	a := ask(t, asMade(lathe(), "bracket.length", "36.58"), "1", "amount", "12")
	a.is(map[string]float64{
		"cross.bracket.length": 36.58, "cross.bracket.to": 177.58, "cross.shaft_end.short": 10.58, "cross.shaft_end.missing": 0,
		"cross.extension.visible": 10.58, "cross.extension.length": 24.58, "cross.dial_slide.gap": 0.08,
	})
	require.Empty(t, a.failing())
	require.Empty(t, a.Findings)
	length := sizeOf(t, a, "extension", "length")
	require.InDelta(t, 24.58, length.Nominal, exact)
	require.False(t, length.Open())
	bracket := sizeOf(t, a, "bracket", "length")
	require.InDelta(t, 36.5, bracket.Nominal, exact, "it was to be so, and is judged by that")
	require.Equal(t, "36.58", bracket.AsMade.Typed)
	require.InDelta(t, 0.01, bracket.AsMade.PlusMinus, exact)
	// ISO 2768-1 m: 30 to 120 mm ± 0.3.
	require.Equal(t, workshop.Judged{Verdict: workshop.Within, Sure: true}, judged(t, a, "bracket.length").Judged)
	require.Equal(t, "New bracket, length over all: 36.58 mm, within its limits.", judged(t, a, "bracket.length").Says(unit.MM))

	// What it is uncertain by goes with it.
	u := a.Result.Uncertainty("cross.bracket.length", sheet.Planned)
	require.Positive(t, u.Std)
	// As found and now it is what it was.
	a.at(sheet.Now, map[string]float64{"cross.bracket.length": 26})
}

// Out of limits is one thing, whether it works another.
func TestOutOfLimits(t *testing.T) {
	// 0.7 beyond 36.8: more can come off, and left so, all fits with an extension of 11.7.
	a := ask(t, asMade(lathe(), "bracket.length", "37.7"), "1", "amount", "12")
	j := judged(t, a, "bracket.length")
	require.Equal(t, workshop.Over, j.Verdict)
	require.InDelta(t, 0.9, j.By, exact)
	require.True(t, j.Rework)
	require.Empty(t, a.failing())
	a.is(map[string]float64{"cross.extension.visible": 11.7})
	require.Equal(t, "New bracket, length over all: 37.7 mm, over by 0.9 mm: more can come off.", j.Says(unit.MM))

	// 0.3 under 36.2: the slide meets the dial 0.6 early.
	a = ask(t, asMade(lathe(), "bracket.length", "35.9"), "1", "amount", "12")
	j = judged(t, a, "bracket.length")
	require.Equal(t, workshop.Under, j.Verdict)
	require.False(t, j.Rework)
	require.Equal(t, []string{"cross.dial_slide.check"}, a.failing())
	require.Equal(t, "short by 0.6 mm", a.check("cross.dial_slide.check").Phrase)
}

// The extension made 24.5 as it was planned, on a bracket that is 0.08 longer:
// the screw's end is 0.08 too short. Made 24.58 it is right.
func TestExtensionAsMade(t *testing.T) {
	a := ask(t, asMade(lathe(), "bracket.length", "36.58", "extension.length", "24.5"), "1", "amount", "12")
	require.Equal(t, []string{"cross.shaft_end.check"}, a.failing())
	require.Equal(t, "over by 0.08 mm", a.check("cross.shaft_end.check").Phrase)
	require.InDelta(t, 24.58, sizeOf(t, a, "extension", "length").Nominal, exact)
	a = ask(t, asMade(lathe(), "bracket.length", "36.58", "extension.length", "24.58"), "1", "amount", "12")
	require.Empty(t, a.failing())
	// Its bore 0.2 deeper: it goes on so much further.
	a = ask(t, asMade(lathe(), "extension.lap", "14.2", "extension.length", "24.5"), "1", "amount", "12")
	a.is(map[string]float64{"cross.extension.got": 10.3, "cross.shaft_end.missing": 0.2})
}

// The extension's outside comes out at 13.98: dial and handle are bored to that.
// A wall left of 7.9 is under the 8 that were to stay; the slot 28.4 wide comes
// 24 − 14.2 − 3 = 6.8 near the holes.
func TestWhatFollowsFromSizesAsMade(t *testing.T) {
	m := asMade(lathe(), "extension.outside", "13.98", "front_wall.left", "7.9", "front_wall.pocket", "28.4")
	a := ask(t, m, "1", "amount", "12")
	a.is(map[string]float64{"cross.dial.bore": 13.98, "cross.handle.bore": 13.98, "cross.front_wall.length": 7.9, "cross.front_wall.from": 133.1, "cross.front_wall.hole_distance": 6.8})
	require.Equal(t, []string{"cross.front_wall.left_check"}, a.failing())
	require.InDelta(t, 13.98, sizeOf(t, a, "dial", "bore").Nominal, exact)
	require.False(t, sizeOf(t, a, "dial", "bore").Open())
	require.Equal(t, workshop.Under, judged(t, a, "extension.outside").Verdict) // 14 h6: 13.989 to 14
	require.True(t, judged(t, a, "front_wall.pocket").Verdict == workshop.Over && !judged(t, a, "front_wall.pocket").Rework)
}

// A spacer that came out 0.1 thicker carries bracket and screw 0.1 further out.
func TestSpacerAsMade(t *testing.T) {
	a := ask(t, asMade(lathe(), "spacer.thickness", "10.6"), "1", "amount", "12", "do.dial_slide", "spacer")
	a.is(map[string]float64{"cross.bracket.from": 151.6, "cross.bracket.to": 177.6, "cross.thread.from": 16.6, "cross.shank.to": 213.6, "cross.nut_on_thread.spare_minus": -10.6, "cross.bracket.grip": 18.6})
	require.InDelta(t, 10.5, sizeOf(t, a, "spacer", "thickness").Nominal, exact)
}

// A riser of 60 that came out 60.05.
func TestRiserAsMade(t *testing.T) {
	m := demo.Mill()
	m.Upgrades[1].Made = map[string]plan.Entry{"riser.height": {Typed: "60.05"}}
	ask(t, m, "2", "amount", "60").is(map[string]float64{"head.highest": 370.05, "head.lowest_planned": 120.05})
}

// What cannot be read is said at its field and counts for nothing; what no part
// has now is kept.
func TestSizesAsMadeThatDoNotCount(t *testing.T) {
	m := asMade(lathe(), "bracket.length", "long", "bracket.colour", "3", "spacer.thickness", "4", "extension.length", "-3")
	m.Upgrades[0].Inputs["amount"] = "12"
	p, err := m.Build("1")
	require.NoError(t, err)
	require.ElementsMatch(t, []plan.Problem{
		{Field: "made.bracket.length", Say: `cannot be read; give a length such as 12, 12.5 mm, 0.5 in, 1-1/4" or 15 thou`},
		{Field: "made.extension.length", Say: "give a size above nothing"},
	}, p.Site("1").Problems)
	f, _ := p.Result.Figure("cross.bracket.length", sheet.Planned)
	require.InDelta(t, 36.5, f.Value, exact)
	require.Equal(t, []string{
		"Cross slide, more travel: a size as made is kept (bracket.colour) that no part has now.",
		"Cross slide, more travel: a size as made is kept (spacer.thickness) that no part has now.",
	}, p.Findings)
	require.Equal(t, "long", p.Site("1").Made["bracket.length"].Typed)
}

// Finished, what was made is the machine as it is now; a wish on top of it
// builds on what is there.
func TestFinishedAsMade(t *testing.T) {
	m := asMade(lathe(), "bracket.length", "36.58", "extension.length", "24.58")
	m.Upgrades[0].State = upgrade.Finished
	m.Upgrades[0].Inputs["amount"] = "12"
	again(&m, "2", upgrade.Draft, "amount", "2")
	a := ask(t, m, "2")
	a.at(sheet.Now, map[string]float64{"cross.bracket.length": 36.58, "cross.extension.length": 24.58, "cross.reach_plus": 100})
	a.is(map[string]float64{"cross.bracket.length": 38.5, "cross.dial_slide.gap": 0}) // 102 − 100.08 = 1.92 more: 36.58 + 1.92
	require.Empty(t, a.Result.Conflicts())
}

// Whatever is made and measured, for every kind alone and on top of more
// travel, the machine can be worked out, and each size is judged.
func TestEverySizeAsMade(t *testing.T) {
	build := func(made map[string]map[string]plan.Entry) *machine.Plan {
		m := everything()
		for i := range m.Upgrades {
			m.Upgrades[i].Made = made[m.Upgrades[i].ID]
		}
		p, err := m.Build("")
		require.NoError(t, err)
		return p
	}
	first := build(nil)
	require.Empty(t, first.Result.Conflicts())
	sizes := 0
	for _, s := range first.Sites {
		require.Empty(t, s.Problems)
		mk := s.Make(first.Result)
		require.NotEmpty(t, mk.Steps, s.Upgrade.Kind)
		all := map[string]plan.Entry{}
		for i := range mk.Parts {
			for _, size := range mk.Parts[i].Measured() {
				key := mk.Parts[i].Key + "." + size.Name
				e := plan.Entry{Typed: unit.MM.Text(size.Nominal+0.02, 3)}
				one := build(map[string]map[string]plan.Entry{s.ID: {key: e}})
				require.Empty(t, one.Site(s.ID).Problems, key)
				require.Len(t, one.Site(s.ID).AsMade(one.Result), 1, key)
				all[key] = e
				sizes++
			}
		}
		build(map[string]map[string]plan.Entry{s.ID: all})
	}
	require.Greater(t, sizes, 25)
}

// everything is the lathe with an upgrade of each kind that suits its cross slide.
func everything() machine.Machine {
	m := lathe()
	m.Upgrades[0].State = upgrade.Planned
	m.Upgrades[0].Inputs["amount"] = "12"
	for i, u := range []upgrade.Upgrade{
		{Kind: "thrust_set", Inputs: map[string]string{"end_float": "0.01", "recess_outer": "2", "recess_inner": "3"}},
		{Kind: "new_dial", Inputs: map[string]string{"dia": "50", "reads": "diameter", "value": "0.02 mm", "ring": "1.78"}},
		{Kind: "gib_strip", Inputs: map[string]string{"oil": "0.02"}},
	} {
		u.ID, u.Axis, u.State = []string{"2", "3", "4"}[i], "cross", upgrade.Planned
		m.Upgrades = append(m.Upgrades, u)
	}
	return m
}
