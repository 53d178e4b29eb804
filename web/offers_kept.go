package web

import (
	"slices"
	"sync"

	"fettle/plan/machine"
	"fettle/store"
)

// mostOffered is of how many machines the offers are kept.
const mostOffered = 8

// offered keeps what machines could become, as long as nothing of them is changed: the list is asked for
// again with each letter of a search. What is kept is only read. Of a machine that was changed, only what the
// change bears on is worked out anew.
type offered struct {
	mu   sync.Mutex
	kept []keptOffers // the last one asked for first
}

type keptOffers struct {
	id, changes int64
	machine.Offering
}

// of gives the offers of a machine.
func (k *offered) of(m store.Stored) ([]machine.Offer, error) {
	was := k.last(m.ID)
	if was.changes == m.Changes && was.id == m.ID {
		return was.Offers, nil
	}
	now, err := was.Renew(&m.Machine) // not under the lock: another machine does not wait for it
	if err != nil {
		return nil, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	k.kept = slices.DeleteFunc(k.kept, func(o keptOffers) bool { return o.id == m.ID })
	k.kept = slices.Insert(k.kept, 0, keptOffers{m.ID, m.Changes, now})
	k.kept = k.kept[:min(len(k.kept), mostOffered)]
	return now.Offers, nil
}

// last is what was kept of a machine last; the zero value for nothing.
func (k *offered) last(id int64) keptOffers {
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, o := range k.kept {
		if o.id == id {
			return o
		}
	}
	return keptOffers{}
}
