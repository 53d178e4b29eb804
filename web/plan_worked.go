package web

import (
	"slices"

	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
	"fettle/store"
)

// worked works a machine out as the page of one of its upgrades shows it: a draft counts as if it were planned, and
// one that is fitted is told as it was made, from just before it to just after. Of any other, and of "", it is the
// machine with all that is planned.
func worked(m store.Stored, id string) (*machine.Plan, error) {
	switch stateOf(m, id) {
	case upgrade.Draft:
		return m.Build(id)
	case upgrade.Finished:
		return m.BuildAsOf(id)
	}
	return m.Build("")
}

// stateOf is how far an upgrade has got; "" where there is none.
func stateOf(m store.Stored, id string) upgrade.State {
	if i := slices.IndexFunc(m.Upgrades, func(u upgrade.Upgrade) bool { return u.ID == id }); i >= 0 {
		return m.Upgrades[i].State
	}
	return ""
}

// own is what addresses of an upgrade's figures name, so that they are worked out as its page is: its ID, or "" where
// it is planned and so counts everywhere.
func own(u upgrade.Upgrade) string {
	if u.State == upgrade.Planned {
		return ""
	}
	return u.ID
}

// stageWord is what a stage is called: of an upgrade that is fitted, before it and as it was made.
func (o opened) stageWord(at sheet.Stage) string {
	if stateOf(o.stored, o.draft) != upgrade.Finished || at == sheet.Found {
		return at.String()
	}
	if at == sheet.Now {
		return "before"
	}
	return "as made"
}
