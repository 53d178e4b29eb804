package machine_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// overPlans runs a property over plans made at random, the same at each run.
func overPlans(t *testing.T, seed uint64, each int, property func(t *testing.T, rng *rand.Rand, m machine.Machine)) {
	for i, m := range everyMachine("medium") {
		t.Run(fmt.Sprintf("%d %s", i, m.Name), func(t *testing.T) {
			rng := rand.New(rand.NewPCG(seed, uint64(i)))
			for range each {
				property(t, rng, sometimes(t, rng, m, 8))
			}
		})
	}
}

func told(m machine.Machine) (s string) {
	for _, u := range m.Upgrades {
		s += fmt.Sprintf("%s %s on %s, state %v: %v\n", u.ID, u.Kind, u.Axis, u.State, u.Inputs)
	}
	return s
}

// Every plan can be worked out. No figure is without its source, no conflict
// without both its upgrades, no answer without a word; and what is asked of the
// workshop can be made.
func TestRandomPlans(t *testing.T) {
	overPlans(t, 1, 6, func(t *testing.T, _ *rand.Rand, m machine.Machine) {
		p, _, _ := worked(t, m)
		sources(t, p)
		authors := map[string]bool{}
		for _, s := range p.Sites {
			label := s.Kind.About().Label + ", " + s.Layout.Label
			authors[label] = true
			for n := range len(p.Sites) {
				authors[fmt.Sprintf("%s (%d)", label, n+1)] = true
			}
			require.NotEmpty(t, strings.TrimSpace(upgrade.Text(s.Kind.Answer(s, p.Result))), told(m))
			made(t, p, s, told(m))
		}
		for _, c := range p.Result.Conflicts() {
			require.True(t, authors[c.First] && authors[c.Second] && c.First != c.Second, "%s: %s and %s", c.Label, c.First, c.Second)
		}
	})
}

// An upgrade that is dropped leaves no trace: every figure and verdict is what it
// is in a plan that never had it, and what is left on the machine is not touched.
func TestDroppingLeavesNoTrace(t *testing.T) {
	overPlans(t, 2, 4, func(t *testing.T, rng *rand.Rand, m machine.Machine) {
		i := rng.IntN(len(m.Upgrades))
		without := m
		without.Upgrades = slices.Delete(slices.Clone(m.Upgrades), i, i+1)
		_, want, verdicts := worked(t, without)
		before := told(m)
		_, whole, _ := worked(t, m)
		require.Equal(t, before, told(m), "a plan changes no input")

		dropped := m
		dropped.Upgrades = slices.Clone(m.Upgrades)
		dropped.Upgrades[i].State = upgrade.Draft
		_, got, gotVerdicts := worked(t, dropped)
		require.Equal(t, want, got, told(m))
		require.Equal(t, verdicts, gotVerdicts, told(m))

		_, again, _ := worked(t, m) // and taken up again
		require.Equal(t, whole, again, told(m))
	})
}

// An upgrade that is only tried, beside what is planned, comes to what a plan with it comes to: every figure,
// verdict, conflict and knock-on, and as much of it as can be had.
func TestTriedAsPlanned(t *testing.T) {
	overPlans(t, 6, 2, func(t *testing.T, rng *rand.Rand, m machine.Machine) {
		kinds, axes := fitting(t, m)
		for range 12 {
			i := rng.IntN(len(kinds))
			at := slices.IndexFunc(m.Axes, func(a axis.Axis) bool { return a.Key == axes[i] })
			trials := kinds[i].Trials(laidOut(t, m, axes[i]))
			u := upgrade.Upgrade{ID: "99", Kind: kinds[i].About().Key, Axis: axes[i], State: upgrade.Planned, Inputs: trials[rng.IntN(len(trials))].Inputs}
			tried, anew, err := m.Tried(at, u)
			require.NoError(t, err)
			want, wanted := comes(anew)
			got, verdicts := comes(tried)
			require.Equal(t, want, got, "%v\n%s", u, told(m))
			require.Equal(t, wanted, verdicts, "%v\n%s", u, told(m))
			require.Equal(t, anew.Result.Conflicts(), tried.Result.Conflicts())
			require.Len(t, flat(tried.Result.KnockOns()), len(flat(anew.Result.KnockOns())))
			s := anew.Site("99")
			require.Equal(t, s == nil, tried.Site("99") == nil)
			if s == nil {
				continue
			}
			require.Equal(t, s.Fields, tried.Site("99").Fields)
			if s.Wish() != "" && len(s.Goals) > 0 {
				require.Equal(t, anew.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, tried.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, "%v\n%s", u, told(m))
			}
		}
	})
}

// The order of upgrades on different axes is nothing to the figures of either.
func TestOrderAcrossAxes(t *testing.T) {
	overPlans(t, 3, 3, func(t *testing.T, rng *rand.Rand, m machine.Machine) {
		_, want, _ := worked(t, m)
		other := m
		other.Upgrades = slices.Clone(m.Upgrades)
		slices.SortStableFunc(other.Upgrades, func(a, b upgrade.Upgrade) int { return strings.Compare(b.Axis, a.Axis) })
		_, got, _ := worked(t, other)
		require.Equal(t, slices.Sorted(maps.Keys(want)), slices.Sorted(maps.Keys(got)), told(m))
		for key, v := range want {
			require.InDelta(t, v, got[key], exact, "%s\n%s", key, told(m))
		}
	})
}

// Turned round on one axis and back again, a plan comes to what it came to.
func TestReorderedAndBack(t *testing.T) {
	overPlans(t, 4, 2, func(t *testing.T, _ *rand.Rand, m machine.Machine) {
		_, want, _ := worked(t, m)
		turned := m
		turned.Upgrades = slices.Clone(m.Upgrades)
		slices.Reverse(turned.Upgrades)
		worked(t, turned)
		slices.Reverse(turned.Upgrades)
		_, got, _ := worked(t, turned)
		require.Equal(t, want, got)
	})
}

// What is not measured gives no verdict: one that holds or fails without a
// measurement is the same with it.
func TestNoVerdictWithoutMeasurement(t *testing.T) {
	overPlans(t, 5, 3, func(t *testing.T, rng *rand.Rand, m machine.Machine) {
		p, _, _ := worked(t, m)
		form := asks(p)
		truth := map[string]sheet.Verdict{}
		for _, c := range p.Result.Checks() {
			truth[c.Key] = c.Verdict
		}
		var places []place
		for i := range m.Axes {
			places = append(places, mandatory(&m.Axes[i])...)
		}
		if len(places) == 0 {
			return
		}
		for range 4 {
			gone := places[rng.IntN(len(places))]
			was := gone.entries[gone.key]
			delete(gone.entries, gone.key)
			p, err := m.Build("")
			require.NoError(t, err)
			same := asks(p) == form // else it is another plan: what can be chosen follows from what was measured
			for _, c := range p.Result.Checks() {
				if c.Verdict == sheet.Unmeasured {
					require.NotEmpty(t, c.Missing, "%s says what is missing\n%s", c.Key, told(m))
				}
				with, ok := truth[c.Key]
				if !same || !ok || with == sheet.Unmeasured || c.Verdict == sheet.Unmeasured {
					continue
				}
				require.Equal(t, with == sheet.Fails, c.Verdict == sheet.Fails, "%s without %s\n%s", c.Key, gone.key, told(m))
			}
			gone.entries[gone.key] = was
		}
	})
}

// asks is what the forms of a plan ask, and what stands in them.
func asks(p *machine.Plan) (s string) {
	for _, site := range p.Sites {
		s += site.ID
		for _, f := range site.Fields {
			s += fmt.Sprintf(" %s=%s", f.Name, f.Value)
		}
	}
	return s
}

// mandatory are the entries of an axis in whose place, where they are not given,
// nothing is put: no default, no other formula.
func mandatory(a *axis.Axis) []place {
	var all []place
	add := func(entries map[string]plan.Entry, sizes []axis.Size) {
		for _, s := range sizes {
			if e, ok := entries[s.Key]; ok && e.Given() && !s.Optional && s.Default == "" && !s.List && s.Choices == nil {
				all = append(all, place{entries, s.Key})
			}
		}
	}
	arr, _ := axis.ArrangementNamed(a.Arrangement)
	capacity, _ := axis.CapacityNamed(a.Capacity)
	add(a.Entries, slices.Concat(arr.Sizes, capacity.Sizes))
	for i := range a.Parts {
		add(a.Parts[i].Entries, a.Parts[i].Sizes())
	}
	return all
}

// Nothing at all is measured: of every kind, as each trial has it, no check that
// rests on a measurement has a verdict, and what is missing is named.
func TestNothingMeasuredOfAnyKind(t *testing.T) {
	for _, m := range everyMachine("small") {
		for i := range m.Axes {
			a := &m.Axes[i]
			clear(a.Entries)
			for j := range a.Parts {
				clear(a.Parts[j].Entries)
			}
		}
		kinds, axes := fitting(t, m)
		for i, k := range kinds {
			for _, trial := range k.Trials(laidOut(t, m, axes[i])) {
				m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: k.About().Key, Axis: axes[i], State: upgrade.Planned, Inputs: trial.Inputs}}
				p, err := m.Build("")
				require.NoError(t, err)
				for _, c := range p.Result.Checks() {
					if c.Verdict == sheet.Unmeasured {
						require.NotEmpty(t, c.Missing, "%s: %s", k.About().Key, c.Key)
						continue
					}
					require.True(t, c.Margin.Known() || c.Margin.Lo >= 0 || c.Margin.Hi < 0, "%s: %s %s", k.About().Key, c.Key, c.Verdict)
				}
				if s := p.Site("1"); s != nil {
					require.NotEmpty(t, upgrade.Text(k.Answer(s, p.Result)))
				}
			}
		}
	}
}

func laidOut(t *testing.T, m machine.Machine, key string) *axis.Layout {
	t.Helper()
	m.Upgrades = nil
	p, err := m.Build("")
	require.NoError(t, err)
	return p.Layout(key)
}

// Larger is never free: where an upgrade makes the figure that it is for better,
// another figure changes as well, or its answer says that nothing else follows.
func TestGainsHaveAPrice(t *testing.T) {
	for _, m := range everyMachine("medium") {
		offers, err := m.Offers()
		require.NoError(t, err)
		for _, o := range offers {
			if o.Told != machine.Gains {
				continue
			}
			m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: o.About.Key, Axis: o.Axis.Key, State: upgrade.Planned, Inputs: o.Inputs}}
			p, err := m.Build("")
			require.NoError(t, err)
			s := p.Site("1")
			follows := slices.ContainsFunc(flat(p.Result.KnockOns(s.GoalKeys()...)), func(k *sheet.KnockOn) bool {
				return k.Key != s.Amount && !slices.Contains(s.GoalKeys(), k.Key)
			})
			says := strings.Contains(strings.ToLower(upgrade.Text(s.Kind.Answer(s, p.Result))), "nothing else follows")
			require.True(t, follows || says, "%s on %s of %s: %s", o.About.Key, o.Axis.Key, m.Name, upgrade.Text(s.Kind.Answer(s, p.Result)))
		}
	}
}

// Every kind says what a page of upgrades shows of it.
func TestEveryKindIsDescribed(t *testing.T) {
	words := map[string]bool{}
	for _, k := range upgrade.Kinds {
		a := k.About()
		require.NotEmpty(t, a.Label, a.Key)
		require.False(t, words[a.Label], "two kinds are called %q", a.Label)
		words[a.Label] = true
		require.GreaterOrEqual(t, len(a.Words), 2, "%s: other words for it", a.Key)
		require.NotEmpty(t, a.Cautions, a.Key)
		require.NotEmpty(t, a.Proof, a.Key)
		require.True(t, a.Hours[0] > 0 && a.Hours[1] > a.Hours[0], "%s: hours %v", a.Key, a.Hours)
		require.True(t, a.Risk >= upgrade.LowRisk && a.Risk <= upgrade.HighRisk, "%s: risk", a.Key)
		require.True(t, a.Undo >= upgrade.Undone && a.Undo <= upgrade.NotUndone, "%s: undo", a.Key)
		require.NotEmpty(t, a.Needs, a.Key)
		for _, cause := range a.Cures {
			_, _, ok := upgrade.CauseNamed(cause)
			require.True(t, ok, "%s cures %q", a.Key, cause)
		}
		if a.Guided {
			require.NotEmpty(t, a.Measure, "%s: what to measure first", a.Key)
		}
	}
}

// Whatever is behind a complaint, there is a kind that cures it.
func TestEveryCauseHasACure(t *testing.T) {
	cured := map[string]bool{}
	for _, k := range upgrade.Kinds {
		for _, cause := range k.About().Cures {
			cured[cause] = true
		}
	}
	var without []string
	for _, c := range upgrade.Complaints {
		require.NotEmpty(t, c.Say)
		require.NotEmpty(t, c.Causes, c.Key)
		for _, cause := range c.Causes {
			require.NotEmpty(t, cause.Tells, c.Key)
			if key := c.Key + "." + cause.Key; !cured[key] {
				without = append(without, key)
			}
		}
	}
	require.Empty(t, without)
}
