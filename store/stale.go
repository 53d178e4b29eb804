package store

import "fmt"

// StaleError refuses a save that was made from an older revision than the stored one. Nothing was
// changed; what is stored now comes with it. T is [Head], [Shopping], axis.Axis or upgrade.Upgrade.
type StaleError[T any] struct {
	What     string // "axis cross"
	Current  T
	Revision int64 // of Current
}

func (e *StaleError[T]) Error() string {
	return e.What + " was changed meanwhile, by another window or person; nothing was saved"
}

func notFound(what string, name any) error {
	return fmt.Errorf("%s %v: %w", what, name, ErrNotFound)
}
