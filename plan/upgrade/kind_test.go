package upgrade_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// at builds a demo machine with inputs of one of its drafts changed.
func at(t *testing.T, m machine.Machine, id string, inputs ...string) (*machine.Plan, *upgrade.Site) {
	t.Helper()
	for i := range m.Upgrades {
		for j := 0; m.Upgrades[i].ID == id && j < len(inputs); j += 2 {
			m.Upgrades[i].Inputs[inputs[j]] = inputs[j+1]
		}
	}
	p, err := m.Build(id)
	require.NoError(t, err)
	require.NotNil(t, p.Site(id))
	return p, p.Site(id)
}

// Every kind says what it is for, what to be careful of and how to see that it
// is better, and suits an axis of one of the machines.
func TestKinds(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range upgrade.Kinds {
		a := k.About()
		require.True(t, axis.IsKey(a.Key), a.Key)
		require.False(t, seen[a.Key], a.Key)
		seen[a.Key] = true
		for _, say := range append([]string{a.Label, a.Purpose, a.Proof}, a.Cautions...) {
			require.NotEmpty(t, say)
		}
		require.Contains(t, strings.Join(a.Cautions, " "), "Isolate the machine")
		got, ok := upgrade.KindNamed(a.Key)
		require.True(t, ok)
		require.Equal(t, k, got)
		suits := 0
		for _, m := range everyMachine() {
			p, err := m.Build("")
			require.NoError(t, err)
			for _, l := range p.Layouts {
				if k.Suits(l) {
					suits++
				}
			}
		}
		require.Positive(t, suits, a.Key)
	}
	_, ok := upgrade.KindNamed("polish")
	require.False(t, ok)
}

// What was typed stands in its field, with a problem where it cannot be taken,
// and then changes nothing.
func TestTypedAmounts(t *testing.T) {
	for typed, problem := range map[string]string{
		"12": "", "": "", "  ": "nothing was typed", "1/2\"": "", "-1": "give a length from 0 mm to 1000 mm", "1001": "give a length from 0 mm to 1000 mm",
		"far": `cannot be read; give a length such as 12, 12.5 mm, 0.5 in, 1-1/4" or 15 thou`, "12 kg": `cannot be read; give a length such as 12, 12.5 mm, 0.5 in, 1-1/4" or 15 thou`,
		"1e9": "that is too large to be meant",
	} {
		p, s := at(t, demo.Lathe(), "1", "amount", typed)
		var want []plan.Problem
		if problem != "" {
			want = []plan.Problem{{Field: "amount", Say: problem}}
			require.Empty(t, p.Result.KnockOns(), typed)
		}
		require.Equal(t, want, s.Problems, typed)
		for _, f := range s.Fields {
			if f.Name == "amount" {
				require.Equal(t, typed, f.Value)
			}
		}
	}
}

// A machine that is shown in inches takes a bare number for inches, and answers in them.
func TestInInches(t *testing.T) {
	p, s := at(t, demo.Lathe().In("in"), "1", "amount", "0.5")
	f, _ := p.Result.Figure(s.Amount, sheet.Planned)
	require.InDelta(t, 12.7, f.Value, 1e-9)
	require.Contains(t, upgrade.Text(s.Kind.Answer(s, p.Result)), "The cross slide goes 0.5 in further outward")
}

// The form asks about stops in the order in which they are met, each once, and
// says where each is.
func TestFieldsOfMoreTravel(t *testing.T) {
	p, s := at(t, demo.Lathe(), "1", "amount", "12")
	var stops []string
	names := map[string]bool{}
	for _, f := range s.Fields {
		require.False(t, names[f.Name], f.Name)
		names[f.Name] = true
		if name, ok := strings.CutPrefix(f.Name, "do."); ok && f.Where != "" {
			at, ok := p.Result.Figure(f.Where, sheet.Now)
			require.True(t, ok)
			stops = append(stops, name+" at "+at.Text(0))
		}
	}
	// The nut never jams, on a shank that enters it; the rear wall is at the other end.
	require.Equal(t, []string{"front_wall_nut at 88 mm", "dial_slide at 89.5 mm", "handle_slide at 106 mm", "thread_end at ∞ mm", "rear_wall_nut at 0 mm"}, stops)
}

// More travel is for what is driven, a riser for a column.
func TestSuits(t *testing.T) {
	p, err := new(machine.Machine{Axes: []axis.Axis{
		{Key: "driven", Arrangement: "rack"}, {Key: "column", Arrangement: "spaced", Capacity: "daylight"}, {Key: "head", Arrangement: "spaced"}, {Key: "z", Arrangement: "held_screw", Capacity: "daylight"}, {Key: "odd", Arrangement: "steam"},
	}}).Build("")
	require.NoError(t, err)
	for kind, want := range map[string][]string{"extend_travel": {"driven", "z"}, "riser": {"column", "z"}} {
		k, _ := upgrade.KindNamed(kind)
		var suits []string
		for _, l := range p.Layouts {
			if k.Suits(l) {
				suits = append(suits, l.Key)
			}
		}
		require.Equal(t, want, suits)
	}
}

// An upgrade that cannot be made where it is meant to be is said so, and left out.
func TestCannotBeMade(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades = append(m.Upgrades, upgrade.Upgrade{ID: "2", Kind: "riser", Axis: "cross", State: upgrade.Planned},
		upgrade.Upgrade{ID: "3", Kind: "polish", Axis: "cross", State: upgrade.Planned}, upgrade.Upgrade{ID: "4", Kind: "riser", Axis: "z", State: upgrade.Finished})
	p, err := m.Build("")
	require.NoError(t, err)
	require.Empty(t, p.Sites)
	require.Len(t, p.Findings, 3)
}

// A field's unit stands behind it on the form, and not in its label as well.
func TestLabelsLeaveTheUnitOut(t *testing.T) {
	seen := 0
	for _, m := range everyMachine() {
		for i := range m.Axes {
			one := m
			one.Axes, one.Upgrades = m.Axes[i:i+1], nil
			before := built(t, one)
			for _, k := range upgrade.Kinds {
				if !k.Suits(before.Layouts[0]) {
					continue
				}
				for _, trial := range k.Trials(before.Layouts[0]) {
					inputs := []string{}
					for name, value := range trial.Inputs {
						inputs = append(inputs, name, value)
					}
					for _, f := range built(t, and(one, k.About().Key, inputs...)).Site("1").Fields {
						if f.Leaf == "" {
							continue
						}
						seen++
						for _, u := range []string{f.Unit.Symbol, "degrees", "rpm"} {
							require.False(t, u != "" && (strings.HasSuffix(f.Label, ", "+u) || strings.HasSuffix(f.Label, "("+u+")")), "%s: %s", k.About().Key, f.Label)
						}
					}
				}
			}
		}
	}
	require.Greater(t, seen, 500)
}
