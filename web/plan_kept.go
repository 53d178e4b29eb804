package web

import (
	"sync"

	"fettle/plan/machine"
	"fettle/store"
)

// plans keeps what was worked out last. While somebody types an amount, the machine and all else that
// was typed stay as they are, and then nothing has to be laid out anew.
type plans struct {
	mu   sync.Mutex
	kept map[string]keptPlan // by the path of the upgrade
}

// keptPlan is a machine worked out with one of its upgrades counting.
type keptPlan struct {
	*machine.Plan
	path    string // of the upgrade
	changes int64  // the machine's count of them: what it was worked out from
}

// mostPlans is how many are kept, a few hundred kilobytes each.
const mostPlans = 8

// take gives the machine worked out with the upgrade at counting. It is the caller's alone, until he
// gives it back.
func (p *plans) take(m store.Stored, at int) (keptPlan, error) {
	u := m.Upgrades[at]
	path := planPath(m.ID, u.ID)
	p.mu.Lock()
	k, ok := p.kept[path]
	delete(p.kept, path)
	p.mu.Unlock()
	if ok && k.changes == m.Changes && k.Retype(u) {
		return k, nil
	}
	plan, err := worked(m, u.ID)
	return keptPlan{plan, path, m.Changes}, err
}

func (p *plans) give(k keptPlan) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.kept == nil || len(p.kept) >= mostPlans {
		p.kept = map[string]keptPlan{}
	}
	p.kept[k.path] = k
}
