package machine_test

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/machine"
	"fettle/plan/preset"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// everyMachine are the demo machines, those of this package's tests, and one of
// each kind of preset; none has an upgrade.
func everyMachine(class string) []machine.Machine {
	all := machines()
	for _, k := range preset.Kinds {
		if m, ok := preset.Machine(k.Key, class); ok {
			all = append(all, m)
		}
	}
	for i := range all {
		all[i].Upgrades = nil
	}
	return all
}

// fitting are the kinds that suit each axis of a machine as found.
func fitting(t *testing.T, m machine.Machine) (kinds []upgrade.Kind, axes []string) {
	t.Helper()
	m.Upgrades = nil
	p, err := m.Build("")
	require.NoError(t, err)
	for _, l := range p.Layouts {
		for _, k := range upgrade.Kinds {
			if k.Suits(l) {
				kinds, axes = append(kinds, k), append(axes, l.Key)
			}
		}
	}
	return kinds, axes
}

// sometimes is a plan of up to so many upgrades, each as one of its trials has it,
// with a wish within what its field takes, some fields chosen otherwise, some of
// the upgrades made already.
func sometimes(t *testing.T, rng *rand.Rand, m machine.Machine, most int) machine.Machine {
	t.Helper()
	kinds, axes := fitting(t, m)
	m.Upgrades = nil
	for n := range 1 + rng.IntN(most) {
		i := rng.IntN(len(kinds))
		u := upgrade.Upgrade{ID: fmt.Sprint(n + 1), Kind: kinds[i].About().Key, Axis: axes[i], State: upgrade.Planned, Inputs: map[string]string{}}
		if rng.IntN(5) == 0 {
			u.State = upgrade.Finished
		}
		m.Upgrades = append(m.Upgrades, u)
		p, err := m.Build("")
		require.NoError(t, err)
		if p.Site(u.ID) == nil {
			continue // an earlier one has left nothing for it
		}
		trials := kinds[i].Trials(p.Layout(axes[i]))
		maps.Copy(u.Inputs, trials[rng.IntN(len(trials))].Inputs)
		p, err = m.Build("")
		require.NoError(t, err)
		for _, f := range p.Site(u.ID).Fields {
			switch {
			case len(f.Options) > 0 && rng.IntN(6) == 0:
				u.Inputs[f.Name] = f.Options[rng.IntN(len(f.Options))].Value
			case f.Leaf != "" && u.Inputs[f.Name] == "" && (f.Leaf == p.Site(u.ID).Amount || rng.IntN(4) == 0):
				u.Inputs[f.Name] = f.Unit.With(f.Least + rng.Float64()*(wishMost(p.Site(u.ID), f)-f.Least))
			}
		}
	}
	return m
}

// wishMost is as far as a figure of a form is looked at.
func wishMost(s *upgrade.Site, f upgrade.Field) float64 {
	if f.Leaf == s.Amount && s.Most > f.Least {
		return min(f.Most, s.Most)
	}
	return min(f.Most, f.Least+60)
}

// worked is a machine worked out: every figure at every stage, and every verdict.
func worked(t *testing.T, m machine.Machine) (*machine.Plan, map[string]float64, map[string]string) {
	t.Helper()
	p, err := m.Build("")
	require.NoError(t, err)
	figures, verdicts := comes(p)
	return p, figures, verdicts
}

// comes is what a plan comes to: every figure at every stage, and what is said of each check.
func comes(p *machine.Plan) (map[string]float64, map[string]string) {
	figures, verdicts := map[string]float64{}, map[string]string{}
	for _, at := range []sheet.Stage{sheet.Found, sheet.Now, sheet.Planned} {
		for _, f := range p.Result.Figures(at) {
			v := f.Value
			if math.IsNaN(v) {
				v = math.MaxFloat64 // not known, and equal to itself
			}
			figures[f.Key+" "+at.String()] = v
		}
	}
	for _, c := range p.Result.Checks() {
		verdicts[c.Key] = string(c.Verdict) + " " + c.Phrase
	}
	return figures, verdicts
}
