package order_test

import (
	"errors"
	"maps"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/fastener"
	"fettle/plan/machine"
	"fettle/plan/order"
	"fettle/plan/part"
	"fettle/plan/preset"
	"fettle/plan/upgrade"
)

// offered calls do for every upgrade that a machine could have next, made as it
// is offered.
func offered(t *testing.T, m machine.Machine, do func(kind string, n order.Need)) {
	t.Helper()
	m.Upgrades = nil
	offers, err := m.Offers()
	require.NoError(t, err)
	for _, o := range offers {
		do(o.About.Key, needs(t, m, planned("1", o))[0])
	}
}

// planned is an offer as it is planned.
func planned(id string, o machine.Offer) upgrade.Upgrade {
	inputs := map[string]string{"wanted": "yes"} // what a guided kind asks, which has nothing to try
	maps.Copy(inputs, o.Inputs)
	return upgrade.Upgrade{ID: id, Kind: o.About.Key, Axis: o.Axis.Key, State: upgrade.Planned, Inputs: inputs}
}

// needs are what upgrades of a machine ask for, one after the other.
func needs(t *testing.T, m machine.Machine, upgrades ...upgrade.Upgrade) (all []order.Need) {
	t.Helper()
	m.Upgrades = upgrades
	p, err := m.Build("")
	require.NoError(t, err)
	for _, u := range upgrades {
		mk := p.Site(u.ID).Make(p.Result)
		all = append(all, order.Need{Upgrade: u.ID, Label: u.Kind, Parts: mk.Parts, Bought: mk.Buy, Steps: mk.Steps})
	}
	return all
}

// replacing are the old parts in whose place an upgrade makes new ones.
func replacing(n order.Need) (old []string) {
	for _, p := range n.Parts {
		if p.Replaces != "" && !p.Altered {
			old = append(old, p.Replaces)
		}
	}
	return old
}

// Two upgrades of an axis never both make the part that takes the place of an old one.
func TestNothingIsMadeTwice(t *testing.T) {
	m, pairs := demo.Lathe(), 0
	m.Upgrades = nil
	offers, err := m.Offers()
	require.NoError(t, err)
	making := slices.DeleteFunc(offers, func(o machine.Offer) bool { return len(replacing(needs(t, m, planned("1", o))[0])) == 0 })
	for _, a := range making {
		for _, b := range making {
			if a.About.Key == b.About.Key || a.Axis.Key != b.Axis.Key {
				continue
			}
			both := needs(t, m, planned("1", a), planned("2", b))
			for _, old := range replacing(both[0]) {
				require.NotContains(t, replacing(both[1]), old, "%s, then %s", a.About.Key, b.About.Key)
			}
			pairs++
		}
	}
	require.Greater(t, pairs, 10)
}

// Every part to make of every kind comes out of a bar that there is, and all that
// is bought has a designation as its standard writes it, on small and large machines.
func TestEveryKindIsGot(t *testing.T) {
	machines := []machine.Machine{demo.Lathe(), demo.Mill()}
	for _, of := range [][2]string{{"lathe", preset.Small}, {"lathe", preset.Large}, {"mill", preset.Large}, {"knee_mill", preset.Large}, {"drill", preset.Small}, {"shaper", preset.Small}} {
		m, ok := preset.Machine(of[0], of[1])
		require.True(t, ok, of)
		machines = append(machines, m)
	}
	cut, got := map[string]int{}, map[string]int{}
	for _, m := range machines {
		offered(t, m, func(kind string, n order.Need) {
			about := m.Name + ": " + kind
			sawn(t, about, n)
			named(t, about, n)
			cut[kind] += len(n.Parts)
			got[kind] += len(n.Bought)
		})
	}
	require.Greater(t, len(kindsWith(cut)), 30)
	require.Greater(t, len(kindsWith(got)), 30)
}

func kindsWith(n map[string]int) (kinds []string) {
	for k, many := range n {
		if many > 0 {
			kinds = append(kinds, k)
		}
	}
	return kinds
}

// sawn fails where a part has no stock, or comes out of none.
func sawn(t *testing.T, about string, n order.Need) {
	t.Helper()
	blanks := order.CutList([]order.Need{n}, order.Workshop{})
	for _, b := range blanks {
		require.Empty(t, b.Problem, "%s: %s", about, b.Part)
		require.False(t, b.Section.Beyond, "%s: %s from %s", about, b.Part, b.Section)
		require.Greater(t, b.Length, 0.0, "%s: %s", about, b.Part)
	}
	groups, err := order.Bars(blanks, order.Workshop{})
	require.NoError(t, err, about)
	for _, l := range order.BuyList([]order.Need{n}, groups, nil).Lines {
		require.Empty(t, l.Problem, "%s: %s", about, l.Designation)
		require.NotEmpty(t, l.Source, "%s: %s", about, l.Label)
	}
	old := replacing(n)
	require.Len(t, slices.Compact(slices.Sorted(slices.Values(old))), len(old), "%s: two parts take the place of one of %v", about, old)
}

// standard is how a designation begins: the body, the number, and what it is of.
var standard = regexp.MustCompile(`^(ISO|DIN|EN) [0-9]+(-[0-9]+)? [^ ].*[^ ]$`)

// refused is what a table says of a size that is not made, where it stands in a label.
var refused = regexp.MustCompile(`has no size|is no length|is made (up to|from)|needs a length|has no length`)

// named fails where something bought is written otherwise than its standard has
// it, is of a size that is not made, or is for nothing that is there.
func named(t *testing.T, about string, n order.Need) {
	t.Helper()
	steps := slices.Clone(n.Steps)
	for _, p := range n.Parts {
		steps = append(steps, p.Steps...)
	}
	isStep := func(key string) bool {
		return slices.ContainsFunc(steps, func(s part.Operation) bool { return s.Key == key })
	}
	for _, b := range n.Bought {
		require.NotRegexp(t, refused, b.Label, about)
		isPart := slices.ContainsFunc(n.Parts, func(p part.Part) bool { return p.Key == b.For })
		require.True(t, b.For == "" || isPart || isStep(b.For), "%s: %s is for %s", about, b.Key, b.For)
		require.True(t, b.Confirm == "" || isStep(b.Confirm), "%s: %s is confirmed by %s", about, b.Key, b.Confirm)
		if b.Designation == "" {
			continue
		}
		require.Regexp(t, standard, b.Designation, about)
		if err := fastener.Check(b.Designation); !errors.Is(err, fastener.ErrOther) {
			require.NoError(t, err, about)
		}
	}
}
