package store_test

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
	"fettle/store"
)

// noon is when everything happens, unless a test turns the clock on.
var noon = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

func atNoon() time.Time { return noon }

func open(t *testing.T, folder string) *store.Store {
	t.Helper()
	s, err := store.Open(t.Context(), folder, atNoon)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Close()) })
	return s
}

// small is a machine with one of each.
func small() machine.Machine {
	return machine.Machine{Name: "Lathe", Kind: "lathe", Units: "mm",
		Axes: []axis.Axis{{Key: "cross", Label: "Cross slide", Parts: []axis.Part{{Key: "nut", Side: axis.Moving}}}},
		Upgrades: []upgrade.Upgrade{{ID: "1", Kind: "extend_travel", Axis: "cross", State: upgrade.Planned,
			Inputs: map[string]string{"amount": "12"}}}}
}

func add(t *testing.T, s *store.Store, m machine.Machine) int64 {
	t.Helper()
	id, err := s.AddMachine(t.Context(), m)
	require.NoError(t, err)
	return id
}

func read(t *testing.T, s *store.Store, id int64) store.Stored {
	t.Helper()
	m, err := s.Machine(t.Context(), id)
	require.NoError(t, err)
	return m
}

// Every connection, however many are open at once: a setting made on a pool would reach one of them.
func TestEveryConnectionIsDurable(t *testing.T) {
	writer, reader := open(t, t.TempDir()).Pools()
	for _, tc := range []struct {
		pool     *sql.DB
		open     int
		settings map[string]string
	}{
		{writer, 1, map[string]string{"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "5000", "query_only": "0"}},
		{reader, 4, map[string]string{"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "5000", "query_only": "1"}},
	} {
		require.Equal(t, tc.open, tc.pool.Stats().MaxOpenConnections)
		for range tc.open {
			c, err := tc.pool.Conn(t.Context())
			require.NoError(t, err)
			defer c.Close()
			for name, want := range tc.settings {
				var is string
				require.NoError(t, c.QueryRowContext(t.Context(), "PRAGMA "+name).Scan(&is))
				require.Equal(t, want, is, name)
			}
		}
	}
}

func TestFolderWithAnyName(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "my workshop", "50% done? #1 & Öl", "x=y;z")
	s := open(t, folder)
	add(t, s, small())
	require.FileExists(t, filepath.Join(folder, store.FileName))
	state, err := os.Stat(folder)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o700), state.Mode().Perm(), "for the owner alone")
}

func TestFolderThatCannotBeUsed(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err := store.Open(t.Context(), filepath.Join(file, "below"), atNoon)
	require.ErrorContains(t, err, "data folder: ")

	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, store.FileName), []byte("Dear diary, today the dial slipped again."), 0o600))
	_, err = store.Open(t.Context(), folder, atNoon)
	require.ErrorContains(t, err, "file is not a database")
}

// A second process, such as a command beside the pages, works on the same folder at the same time.
func TestTwoStoresOnOneFolder(t *testing.T) {
	folder := t.TempDir()
	var opened sync.WaitGroup
	stores := make([]*store.Store, 4)
	errs := make([]error, len(stores))
	for i := range stores {
		opened.Go(func() { stores[i], errs[i] = store.Open(context.Background(), folder, atNoon) })
	}
	opened.Wait()
	for i, s := range stores {
		require.NoError(t, errs[i])
		defer s.Close()
	}
	var wrote sync.WaitGroup
	for i, s := range stores {
		wrote.Go(func() {
			for range 20 {
				if _, err := s.AddMachine(context.Background(), small()); err != nil {
					errs[i] = err
				}
			}
		})
	}
	wrote.Wait()
	for i, s := range stores {
		require.NoError(t, errs[i])
		list, err := s.Machines(t.Context())
		require.NoError(t, err)
		require.Len(t, list, 80)
	}
}

// Of all that save from one revision, one is taken; and what it saved is what is there.
func TestConcurrentSaves(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	const writers, rounds = 8, 10
	for round := range int64(rounds) {
		saved := make([]bool, writers)
		errs := make([]error, writers)
		var all sync.WaitGroup
		for w := range writers {
			all.Go(func() {
				u := small().Upgrades[0]
				u.Inputs = map[string]string{"amount": fmt.Sprintf("%d by %d", round, w)}
				_, _, err := s.SaveUpgrade(context.Background(), id, 1+round, u)
				saved[w], errs[w] = err == nil, err
			})
			all.Go(func() {
				if _, err := s.Machine(context.Background(), id); err != nil {
					panic(err)
				}
			})
		}
		all.Wait()
		is := read(t, s, id)
		taken := 0
		for w := range writers {
			if saved[w] {
				taken++
				require.Equal(t, fmt.Sprintf("%d by %d", round, w), is.Upgrades[0].Inputs["amount"])
				continue
			}
			var stale *store.StaleError[upgrade.Upgrade]
			require.ErrorAs(t, errs[w], &stale)
			require.Equal(t, is.Upgrades[0], stale.Current)
			require.Equal(t, 2+round, stale.Revision)
		}
		require.Equal(t, 1, taken)
	}
}

func TestCancelledSaveChangesNothing(t *testing.T) {
	s := open(t, t.TempDir())
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := s.AddMachine(ctx, small())
	require.ErrorIs(t, err, context.Canceled)
	list, err := s.Machines(t.Context())
	require.NoError(t, err)
	require.Empty(t, list)
}
