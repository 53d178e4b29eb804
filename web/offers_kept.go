package web

import (
	"sync"

	"fettle/plan/machine"
	"fettle/store"
)

// mostOffered is of how many machines the offers are kept.
const mostOffered = 8

// offered keeps what machines could become, as long as nothing of them is changed: the list is asked for
// again with each letter of a search. What is kept is only read.
type offered struct {
	mu   sync.Mutex
	kept []keptOffers // the last one asked for first
}

type keptOffers struct {
	id, changes int64
	offers      []machine.Offer
}

// of gives the offers of a machine, worked out where it was changed since.
func (k *offered) of(m store.Stored) ([]machine.Offer, error) {
	k.mu.Lock()
	for i, o := range k.kept {
		if o.id != m.ID {
			continue
		}
		if o.changes == m.Changes {
			k.mu.Unlock()
			return o.offers, nil
		}
		k.kept = append(k.kept[:i:i], k.kept[i+1:]...)
		break
	}
	k.mu.Unlock()
	offers, err := m.Offers() // not under the lock: another machine does not wait for it
	if err != nil {
		return nil, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	k.kept = append([]keptOffers{{m.ID, m.Changes, offers}}, k.kept...)
	k.kept = k.kept[:min(len(k.kept), mostOffered)]
	return offers, nil
}
