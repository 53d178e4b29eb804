package machine_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
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

func options(t *testing.T, m machine.Machine, i int) {
	t.Helper()
	inputs := m.Upgrades[i].Inputs
	build := func(why string) *machine.Plan {
		p, err := m.Build(m.Upgrades[i].ID)
		require.NoError(t, err, why)
		require.Empty(t, p.Site(m.Upgrades[i].ID).Problems, why)
		sources(t, p)
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
