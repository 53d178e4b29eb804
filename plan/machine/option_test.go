package machine_test

import (
	"errors"
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/fastener"
	"fettle/plan/machine"
	"fettle/plan/material"
	"fettle/plan/sheet"
	"fettle/plan/thread"
	"fettle/plan/upgrade"
)

// machines are all that the tests of this package work out.
func machines() []machine.Machine {
	return []machine.Machine{demo.Lathe(), demo.Mill(), tailstock(), drill()}
}

// Every option of every field can be chosen, at every end: formulas bind, units
// agree, sources are there, and the answer is a sentence.
func TestEveryOption(t *testing.T) {
	for _, m := range machines() {
		for i := range m.Upgrades {
			u := &m.Upgrades[i]
			u.Inputs["amount"] = "9"
			for _, end := range []string{"plus", "minus", "both"} {
				if u.Kind != "riser" {
					u.Inputs["end"] = end
				}
				options(t, m, i)
			}
		}
	}
}

// The same of every kind on every axis that it suits, as its trials have it, and
// with nothing typed yet.
func TestEveryOptionOfEveryKind(t *testing.T) {
	for _, m := range machines() {
		p, err := m.Build("")
		require.NoError(t, err)
		m.Upgrades = nil
		for _, k := range upgrade.Kinds {
			for _, l := range p.Layouts {
				if !k.Suits(l) {
					continue
				}
				require.NotEmpty(t, k.Trials(l), k.About().Key)
				for _, trial := range append(k.Trials(l), upgrade.Trial{}) {
					m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: k.About().Key, Axis: l.Key, State: upgrade.Draft, Inputs: map[string]string{}}}
					maps.Copy(m.Upgrades[0].Inputs, trial.Inputs)
					built, err := m.Build("1")
					require.NoError(t, err)
					if name := built.Site("1").Wish(); name != "" && trial.Inputs != nil && trial.Inputs[name] == "" {
						m.Upgrades[0].Inputs[name] = "30"
					}
					options(t, m, 0)
				}
			}
		}
	}
}

// made checks that what is to be made can be made: sizes are lengths, keys are
// each one's own, an operation comes after what it waits for.
func made(t *testing.T, p *machine.Plan, s *upgrade.Site, why string) {
	t.Helper()
	mk := s.Make(p.Result)
	parts, steps := map[string]bool{}, map[string]bool{}
	for i := range mk.Parts {
		part := &mk.Parts[i]
		require.False(t, parts[part.Key], "%s: %s twice", why, part.Key)
		parts[part.Key] = true
		require.NotEmpty(t, part.Label, why)
		_, ok := material.Named(part.Material)
		require.True(t, ok, "%s: %s of %s", why, part.Key, part.Material)
		require.True(t, (part.Round == nil) != (part.Flat == nil), why)
		names := map[string]bool{}
		for _, size := range part.Sizes() {
			require.False(t, math.IsNaN(size.Nominal) || math.IsInf(size.Nominal, 0), "%s: %s %s", why, part.Key, size.Label)
			require.GreaterOrEqual(t, size.Upper, size.Lower, "%s: %s %s", why, part.Key, size.Label)
			if size.Name != "" {
				require.True(t, axis.IsKey(size.Name), size.Name)
				require.False(t, names[size.Name], "%s: %s.%s twice", why, part.Key, size.Name)
				names[size.Name] = true
				require.True(t, size.Open() || size.Source != "", "%s: %s.%s has no source", why, part.Key, size.Name)
				require.Positive(t, size.Nominal, "%s: %s.%s", why, part.Key, size.Name)
			}
		}
		if part.Round != nil {
			for _, step := range part.Round.Outside {
				require.Positive(t, step.Length.Nominal, "%s: %s %s", why, part.Key, step.Label)
				require.Positive(t, step.Dia.Nominal, "%s: %s %s", why, part.Key, step.Label)
				if step.Thread != "" {
					_, err := thread.Parse(step.Thread)
					require.NoError(t, err)
				}
			}
		}
	}
	for _, o := range mk.Steps {
		require.False(t, steps[o.Key], "%s: %s twice", why, o.Key)
		for _, k := range o.After {
			require.True(t, steps[k], "%s: %s comes after %s, which does not come before it", why, o.Key, k)
		}
		steps[o.Key] = true
		require.True(t, o.Do != "" && len(o.Needs) > 0 && o.Minutes[0] > 0 && o.Minutes[1] > o.Minutes[0], o.Key)
		if o.Out != "" {
			require.NotNil(t, p.Layout(o.Out))
		}
	}
	for _, b := range mk.Buy {
		require.Positive(t, b.Quantity, b.Key)
		require.NotEmpty(t, b.Source, b.Key)
		require.True(t, b.Confirm == "" || steps[b.Confirm], "%s: %s waits for %s", why, b.Key, b.Confirm)
		require.True(t, b.For == "" || parts[b.For] || steps[b.For], "%s: %s is for %s", why, b.Key, b.For)
		if err := fastener.Check(b.Designation); !errors.Is(err, fastener.ErrOther) {
			require.NoError(t, err, b.Designation)
		}
	}
	p.Clashes()
}

func options(t *testing.T, m machine.Machine, i int) {
	t.Helper()
	inputs := m.Upgrades[i].Inputs
	build := func(why string) *machine.Plan {
		p, err := m.Build(m.Upgrades[i].ID)
		require.NoError(t, err, why)
		require.Empty(t, p.Site(m.Upgrades[i].ID).Problems, why)
		sources(t, p)
		made(t, p, p.Site(m.Upgrades[i].ID), why)
		return p
	}
	plain := build(m.Name)
	site := plain.Site(m.Upgrades[i].ID)
	require.NotEmpty(t, site.Kind.Answer(site, plain.Result))
	for _, f := range site.Fields {
		require.NotEmpty(t, f.Label)
		for _, key := range []string{f.Need, f.Where} {
			if key != "" {
				_, ok := plain.Result.Figure(key, sheet.Planned)
				require.True(t, ok, "%s of %s", key, f.Name)
			}
		}
		was, typed := inputs[f.Name]
		for _, o := range f.Options {
			inputs[f.Name] = o.Value
			build(f.Name + "=" + o.Value)
		}
		inputs[f.Name] = was
		if !typed {
			delete(inputs, f.Name)
		}
	}
}

// Checks offer as remedies only what there is to choose.
func TestRemediesExist(t *testing.T) {
	for _, m := range machines() {
		a := ask(t, m, "1", "amount", "9")
		var offered []string
		for _, f := range a.site.Fields {
			for _, o := range f.Options {
				offered = append(offered, o.Value)
			}
		}
		for _, c := range a.Result.Checks() {
			for _, r := range c.Remedies {
				require.True(t, slices.Contains(offered, r), "%s: %s", c.Key, r)
			}
		}
	}
}
