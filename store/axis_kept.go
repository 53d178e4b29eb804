package store

import (
	"context"
	"database/sql"
	"maps"
	"slices"
	"sync"

	"fettle/plan/axis"
)

// axes keeps the axes of the machines that were read last. While a draft is typed, the machine is read
// at every key, and its axes are what they were: they change only together with the machine's count of
// changes, which is read from the file each time, so that what another process changed is seen.
type axes struct {
	mu   sync.Mutex
	kept map[int64]keptAxes // by the ID of the machine
}

type keptAxes struct {
	changes   int64
	axes      []axis.Axis
	revisions map[string]int64
}

// mostKept is how many machines' axes are kept.
const mostKept = 8

// of gives the axes of a machine that is at the count of changes, for the caller to do with as he likes.
func (a *axes) of(ctx context.Context, tx *sql.Tx, machineID, changes int64) ([]axis.Axis, map[string]int64, error) {
	a.mu.Lock()
	k, ok := a.kept[machineID]
	a.mu.Unlock()
	if !ok || k.changes != changes {
		k.changes = changes
		var err error
		if k.axes, k.revisions, err = axesOf(ctx, tx, machineID); err != nil {
			return nil, nil, err
		}
		a.keep(machineID, k)
	}
	return copied(k.axes), maps.Clone(k.revisions), nil
}

func (a *axes) keep(machineID int64, k keptAxes) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.kept == nil || len(a.kept) >= mostKept {
		a.kept = map[int64]keptAxes{}
	}
	a.kept[machineID] = k
}

func copied(all []axis.Axis) []axis.Axis {
	all = slices.Clone(all)
	for i := range all {
		a := &all[i]
		a.Entries, a.Answers = maps.Clone(a.Entries), maps.Clone(a.Answers)
		a.Parts, a.Obstacles = slices.Clone(a.Parts), slices.Clone(a.Obstacles)
		for j := range a.Parts {
			p := &a.Parts[j]
			p.Entries, p.Lanes = maps.Clone(p.Entries), slices.Clone(p.Lanes)
			if p.Tie != nil {
				tie := *p.Tie
				p.Tie = &tie
			}
		}
	}
	return all
}
