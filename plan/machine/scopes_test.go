package machine_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// scopes are the places on an axis in which figures stand, of its parts, its
// stops and of what is planned: "bracket" of "cross.bracket.length".
func scopes(p *machine.Plan, on string) map[string]bool {
	all := map[string]bool{}
	for _, f := range p.Result.Figures(sheet.Planned) {
		names := strings.Split(f.Key, ".")
		if len(names) > 2 && names[0] == on && names[len(names)-1] != "margin" { // of a check, which is no scope
			all[names[1]] = true
		}
	}
	return all
}

// What a kind puts on an axis beside its own scope has a name that no part can
// be given, or its figures could be taken for the part's.
func TestScopesOfKindsAreReserved(t *testing.T) {
	found := map[string]bool{}
	for _, m := range machines() {
		m.Upgrades = nil
		plain, err := m.Build("")
		require.NoError(t, err)
		for _, k := range upgrade.Kinds {
			for _, l := range plain.Layouts {
				if !k.Suits(l) {
					continue
				}
				before := scopes(plain, l.Key)
				for _, trial := range k.Trials(l) {
					m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: k.About().Key, Axis: l.Key, State: upgrade.Planned, Inputs: maps.Clone(trial.Inputs)}}
					p, err := m.Build("")
					require.NoError(t, err)
					for name := range scopes(p, l.Key) {
						if !before[name] && !strings.HasPrefix(name, "upgrade_") {
							require.NotEqual(t, name, axis.NewKey(name, nil), "%s of %s", name, k.About().Key)
							found[name] = true
						}
					}
				}
			}
		}
	}
	require.Contains(t, slices.Collect(maps.Keys(found)), "thrust")
}
