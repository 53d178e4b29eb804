package store

import (
	"maps"
	"slices"
	"sync"

	"fettle/plan/axis"
)

// memory keeps what was read or written last, by the row that it is of and that row's count of changes.
// The count is read from the file each time, so that what another process changed is seen; what goes
// with a count is never another thing.
type memory[T any] struct {
	mu   sync.Mutex
	kept map[int64]counted[T]
}

type counted[T any] struct {
	count int64
	what  T
}

// mostKept is how many are kept.
const mostKept = 64

func (m *memory[T]) at(id, count int64) (what T, ok bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	k := m.kept[id]
	return k.what, k.count == count
}

func (m *memory[T]) keep(id, count int64, what T) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.kept == nil || len(m.kept) >= mostKept {
		m.kept = map[int64]counted[T]{}
	}
	m.kept[id] = counted[T]{count, what}
}

// copied is for the caller to do with as he likes.
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
