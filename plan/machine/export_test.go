package machine

import (
	"slices"

	"fettle/plan/upgrade"
)

// Tried is an axis on which an upgrade is tried, beside the same built anew; nil where it cannot be laid out.
func (m *Machine) Tried(at int, u upgrade.Upgrade) (tried, anew *Plan, err error) {
	b, err := m.bench(at)
	if err != nil || b == nil {
		return nil, nil, err
	}
	if tried, err = b.with(u); err != nil {
		return nil, nil, err
	}
	whole := b.machine
	whole.Upgrades = append(slices.Clip(whole.Upgrades), u)
	anew, err = whole.Build("")
	return tried, anew, err
}
