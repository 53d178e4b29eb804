package machine

import (
	"slices"

	"fettle/plan/upgrade"
)

// BuildAsOf works the machine out as it was when the finished upgrade with the
// ID was made: now is just before it, planned is what it made of that, and what
// came later does not count. Of an upgrade that is not finished it is [Machine.Build]
// without a draft.
func (m *Machine) BuildAsOf(id string) (*Plan, error) {
	at := slices.IndexFunc(m.Upgrades, func(u upgrade.Upgrade) bool { return u.ID == id && u.State == upgrade.Finished })
	if at < 0 {
		return m.Build("")
	}
	as := *m
	as.Upgrades = nil
	for _, u := range m.Upgrades[:at] {
		if u.State == upgrade.Finished {
			as.Upgrades = append(as.Upgrades, u)
		}
	}
	this := m.Upgrades[at]
	this.State = upgrade.Planned
	as.Upgrades = append(as.Upgrades, this)
	return as.Build("")
}
