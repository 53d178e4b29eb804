package machine_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// exact is how near figures that were worked out by hand are met: all of them
// are short decimals, so nothing but rounding lies between.
const exact = 1e-9

// asked is a machine worked out with one upgrade looked at.
type asked struct {
	t *testing.T
	*machine.Plan
	site *upgrade.Site
}

// ask builds a machine with the upgrade of the id in it and inputs changed: name, value, name, value.
func ask(t *testing.T, m machine.Machine, id string, inputs ...string) asked {
	t.Helper()
	for i := range m.Upgrades {
		for j := 0; m.Upgrades[i].ID == id && j < len(inputs); j += 2 {
			m.Upgrades[i].Inputs[inputs[j]] = inputs[j+1]
		}
	}
	p, err := m.Build(id)
	require.NoError(t, err)
	a := asked{t, p, p.Site(id)}
	if a.site != nil {
		require.Empty(t, a.site.Problems)
	}
	return a
}

func (a asked) figure(key string, at sheet.Stage) sheet.Figure {
	a.t.Helper()
	f, ok := a.Result.Figure(key, at)
	require.True(a.t, ok, key)
	return f
}

// is requires figures as planned, each known to have the value.
func (a asked) is(values map[string]float64) {
	a.t.Helper()
	a.at(sheet.Planned, values)
}

func (a asked) at(stage sheet.Stage, values map[string]float64) {
	a.t.Helper()
	for key, want := range values {
		f := a.figure(key, stage)
		require.True(a.t, f.Known(), "%s is %s", key, f.Text(math.NaN()))
		require.InDelta(a.t, want, f.Value, exact, key)
	}
}

func (a asked) check(key string) sheet.CheckResult {
	a.t.Helper()
	for _, c := range a.Result.Checks() {
		if c.Key == key {
			return c
		}
	}
	require.Fail(a.t, "no such check", key)
	return sheet.CheckResult{}
}

// failing lists the checks that fail by this plan's doing.
func (a asked) failing() []string {
	keys := []string{}
	for _, c := range a.Result.Checks() {
		if c.Charged() {
			keys = append(keys, c.Key)
		}
	}
	return keys
}

func (a asked) answer() string { return upgrade.Text(a.site.Kind.Answer(a.site, a.Result)) }

// howFar gives where each limit ends by its check's key, and the whole.
func (a asked) howFar() (map[string]float64, sheet.Reach) {
	r := a.Result.HowFar(a.site.Amount, a.site.Goals[0], a.site.Most)
	ends := map[string]float64{}
	for _, l := range r.Limits {
		ends[l.Key] = l.To
	}
	return ends, r
}

// limited lists the labels of what gives a min or max its value as planned.
func (a asked) limited(key string) []string {
	labels := []string{}
	for _, k := range flat(a.Result.KnockOns(key)) {
		if k.Key == key {
			for _, f := range k.LimitedBy {
				labels = append(labels, f.Label)
			}
		}
	}
	return labels
}

// flat lists a tree of knock-ons from the top.
func flat(tree []*sheet.KnockOn) []*sheet.KnockOn {
	var all []*sheet.KnockOn
	for _, k := range tree {
		all = append(all, k)
		all = append(all, flat(k.Children)...)
	}
	return all
}

// lathe is the demo lathe, with its splash tray ruled out: every figure of it is
// known. Of its drafts it has the first alone.
func lathe() machine.Machine {
	m := demo.Lathe()
	m.Upgrades = m.Upgrades[:1]
	tray(&m).Clear = true
	return m
}

// tray is the lathe's splash tray.
func tray(m *machine.Machine) *axis.Obstacle { return &m.Axes[0].Obstacles[0] }

// part is a part of a machine's first axis.
func part(m *machine.Machine, key string) *axis.Part {
	p, _ := m.Axes[0].Part(key)
	return p
}

// measure sets entries of a part, keeping nothing of how they were measured before.
func measure(p *axis.Part, entries ...string) {
	for i := 0; i < len(entries); i += 2 {
		p.Entries[entries[i]] = plan.Entry{Typed: entries[i+1]}
	}
}

// clone adds an upgrade like the first one, with an id of its own.
func again(m *machine.Machine, id string, state upgrade.State, inputs ...string) {
	u := upgrade.Upgrade{ID: id, Kind: "extend_travel", Axis: m.Axes[0].Key, State: state, Inputs: map[string]string{"end": "plus"}}
	for i := 0; i < len(inputs); i += 2 {
		u.Inputs[inputs[i]] = inputs[i+1]
	}
	m.Upgrades = append(m.Upgrades, u)
}
