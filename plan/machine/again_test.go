package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/machine"
	workshop "fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// extension is the extension that an upgrade asks for.
func extension(t *testing.T, m machine.Machine, id string) (p *workshop.Part, there bool, a *machine.Plan) {
	t.Helper()
	a, err := m.Build("")
	require.NoError(t, err)
	require.Empty(t, a.Problems)
	require.Empty(t, a.Result.Conflicts())
	p, there = a.Site(id).Make(a.Result).Part("extension")
	return p, there, a
}

func pair(first upgrade.State, typed string) machine.Machine {
	m := lathe()
	m.Upgrades[0].State, m.Upgrades[0].Inputs["amount"] = first, "12"
	if typed != "" {
		m = asMade(m, "extension.length", typed)
		m.Upgrades[0].State, m.Upgrades[0].Inputs["amount"] = first, "12"
	}
	again(&m, "2", upgrade.Planned, "amount", "2")
	return m
}

// 10.5 shows and 14 go over the old end: 24.5 over all. 2 mm more of travel want
// 26.5, and what is brazed on does not grow: it is made anew. Made 0.08 long
// before, it is 26.5 all the same, and 1.92 longer than the first.
func TestExtensionMadeAnew(t *testing.T) {
	for typed, more := range map[string]float64{"": 2, "24.58": 1.92} {
		p, there, a := extension(t, pair(upgrade.Finished, typed), "2")
		require.True(t, there)
		require.InDelta(t, 26.5, p.Round.Length.Nominal, exact)
		f, _ := a.Result.Figure("cross.extension.again_2.more", sheet.Planned)
		require.InDelta(t, more, f.Value, exact)
		for _, c := range a.Result.Checks() {
			if c.Key == "cross.shaft_end.check" {
				require.NotEqual(t, sheet.Fails, c.Verdict)
			}
		}
		s := a.Site("2")
		require.Contains(t, upgrade.Text(s.Kind.Answer(s, a.Result)), "the extension made before is replaced by one of 26.5 mm over all")
		require.True(t, took(s.Make(a.Result), "take_extension_off"))
		// The first upgrade is the record of what it made.
		first, there := a.Site("1").Make(a.Result).Part("extension")
		require.True(t, there)
		require.InDelta(t, 24.5, first.Round.Length.Nominal, exact)
		_, dial := s.Make(a.Result).Part("dial")
		require.False(t, dial, "it was bored out before")
	}
}

func took(mk upgrade.Make, key string) bool {
	for _, o := range mk.Steps {
		if o.Key == key {
			return true
		}
	}
	return false
}

// The second is made short by 0.3, and finished: a third takes its place, as
// long as everything wants.
func TestExtensionMadeAThirdTime(t *testing.T) {
	m := pair(upgrade.Finished, "24.58")
	m.Upgrades[1].Made = map[string]plan.Entry{"extension.length": {Typed: "26.2"}}
	_, _, a := extension(t, m, "2")
	f, _ := a.Result.Figure("cross.shaft_end.missing", sheet.Planned)
	require.InDelta(t, 0.3, f.Value, exact)

	m.Upgrades[1].State = upgrade.Finished
	again(&m, "3", upgrade.Planned, "amount", "3")
	p, there, a := extension(t, m, "3")
	require.True(t, there)
	require.InDelta(t, 29.5, p.Round.Length.Nominal, exact)
	f, _ = a.Result.Figure("cross.shaft_end.missing", sheet.Planned)
	require.InDelta(t, 0, f.Value, exact)
}

// As long as the first is only planned, it is made as long as both want.
func TestPlannedExtensionGrows(t *testing.T) {
	m := pair(upgrade.Planned, "")
	p, there, _ := extension(t, m, "1")
	require.True(t, there)
	require.InDelta(t, 26.5, p.Round.Length.Nominal, exact)
	_, there, _ = extension(t, m, "2")
	require.False(t, there)
}
