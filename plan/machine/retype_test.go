package machine_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// all is everything that a plan says of one of its upgrades, a line a thing: as text, figures that
// are not known are equal to each other.
func all(t *testing.T, p *machine.Plan, id string) []string {
	t.Helper()
	s := p.Site(id)
	require.NotNil(t, s)
	var b strings.Builder
	for _, at := range []sheet.Stage{sheet.Found, sheet.Now, sheet.Planned} {
		for _, f := range p.Result.Figures(at) {
			fmt.Fprintf(&b, "%v %+v %+v\n", at, f, p.Result.FirstOrder(f.Key, at))
		}
	}
	for _, c := range p.Result.Checks() {
		fmt.Fprintf(&b, "%+v\n", c)
	}
	var tree func(indent string, all []*sheet.KnockOn)
	tree = func(indent string, all []*sheet.KnockOn) {
		for _, k := range all {
			fmt.Fprintf(&b, "%s%+v %+v %v %v %+v %+v %+v\n", indent, k.Figure, k.Now, k.New, k.Delta, k.Also, k.LimitedWas, k.LimitedBy)
			tree(indent+"  ", k.Children)
		}
	}
	tree("", p.Result.KnockOns(s.GoalKeys()...))
	fmt.Fprintf(&b, "%+v\n", p.Result.HowFar(s.Amount, s.Goals[0], s.Most))
	fmt.Fprintf(&b, "%+v\n%+v\n%+v\n%+v\n", s.Kind.Answer(s, p.Result), s.Fields, s.Problems, s.Inputs)
	fmt.Fprintf(&b, "%v\n%v\n", p.Findings, p.Result.Faults())
	return strings.Split(b.String(), "\n")
}

func same(t *testing.T, want, got []string) {
	t.Helper()
	require.Len(t, got, len(want))
	for i := range want {
		require.Equal(t, want[i], got[i])
	}
}

// What is typed anew comes to the same as building it anew, whatever was typed before: of every kind,
// on every axis that it suits, with amounts that the kind takes.
func TestRetypedIsBuilt(t *testing.T) {
	retyped := map[string]bool{}
	for _, m := range demo.Machines()[:2] { // without the whole projects, which add axes and no other way of typing
		for _, kind := range upgrade.Kinds {
			for _, a := range m.Axes {
				build := func(inputs map[string]string) (*machine.Plan, upgrade.Upgrade) {
					u := upgrade.Upgrade{ID: "9", Kind: kind.About().Key, Axis: a.Key, State: upgrade.Draft, Inputs: inputs}
					with := m.Machine
					with.Upgrades = append(with.Upgrades[:len(with.Upgrades):len(with.Upgrades)], u)
					p, err := with.Build("9")
					require.NoError(t, err)
					return p, u
				}
				p, _ := build(nil)
				if p.Site("9") == nil || p.Site("9").Amount == "" {
					continue
				}
				amount := strings.TrimPrefix(p.Site("9").Amount, p.Site("9").Scope.Key(""))
				var kept *machine.Plan
				for _, typed := range []string{"0.01", "0.02 mm", "12", `1"`, "0", "200"} {
					want, u := build(map[string]string{amount: typed})
					switch {
					case len(want.Site("9").Problems) > 0:
					case kept == nil:
						kept = want
					default:
						require.True(t, kept.Retype(u), "%s: %s", u.Kind, typed)
						same(t, all(t, want, "9"), all(t, kept, "9"))
						retyped[u.Kind] = true
					}
				}
			}
		}
	}
	require.Contains(t, retyped, "extend_travel")
}

func TestWhatCannotBeRetyped(t *testing.T) {
	build := func(inputs map[string]string, made map[string]plan.Entry) *machine.Plan {
		m := demo.Lathe()
		m.Upgrades[0].Inputs, m.Upgrades[0].Made = inputs, made
		p, err := m.Build("1")
		require.NoError(t, err)
		return p
	}
	u := demo.Lathe().Upgrades[0]
	amount := func(typed string) map[string]string { return map[string]string{"amount": typed} }
	for name, tc := range map[string]struct {
		before map[string]string
		made   map[string]plan.Entry
		now    func(u *upgrade.Upgrade)
	}{
		"blank":                 {before: amount("12"), now: func(u *upgrade.Upgrade) { u.Inputs = amount("") }},
		"cannot be read":        {before: amount("12"), now: func(u *upgrade.Upgrade) { u.Inputs = amount("twelve") }},
		"less than nothing":     {before: amount("12"), now: func(u *upgrade.Upgrade) { u.Inputs = amount("-1") }},
		"more than is taken":    {before: amount("12"), now: func(u *upgrade.Upgrade) { u.Inputs = amount("1001") }},
		"was blank":             {before: amount(""), now: func(u *upgrade.Upgrade) { u.Inputs = amount("12") }},
		"could not be read":     {before: amount("x"), now: func(u *upgrade.Upgrade) { u.Inputs = amount("12") }},
		"another end":           {before: amount("12"), now: func(u *upgrade.Upgrade) { u.Inputs = map[string]string{"amount": "12", "end": "minus"} }},
		"an input less":         {before: map[string]string{"amount": "12", "end": "minus"}, now: func(u *upgrade.Upgrade) { u.Inputs = amount("12") }},
		"another upgrade":       {before: amount("12"), now: func(u *upgrade.Upgrade) { u.Inputs, u.ID = amount("12"), "2" }},
		"added to the plan":     {before: amount("12"), now: func(u *upgrade.Upgrade) { u.Inputs, u.State = amount("12"), upgrade.Planned }},
		"a part of it was made": {before: amount("12"), made: map[string]plan.Entry{"bracket.length": {Typed: "36.5"}}, now: func(u *upgrade.Upgrade) { u.Inputs = amount("13") }},
		"a part of it is made now": {before: amount("12"), now: func(u *upgrade.Upgrade) {
			u.Inputs, u.Made = amount("12"), map[string]plan.Entry{"bracket.length": {Typed: "36.5"}}
		}},
	} {
		t.Run(name, func(t *testing.T) {
			p := build(tc.before, tc.made)
			was := all(t, p, "1")
			as := u
			tc.now(&as)
			require.False(t, p.Retype(as))
			same(t, was, all(t, p, "1")) // nothing is changed
		})
	}
}
