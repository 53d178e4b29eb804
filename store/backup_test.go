package store_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/store"
)

func TestBackupIsADataFileItself(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	folder := t.TempDir()
	require.NoError(t, s.Backup(t.Context(), filepath.Join(folder, store.FileName)))
	later := add(t, s, small())

	require.Equal(t, []string{store.FileName}, files(t, folder), "nothing beside it")
	state, err := os.Stat(filepath.Join(folder, store.FileName))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), state.Mode().Perm())

	copied := open(t, folder)
	require.Equal(t, read(t, s, id), read(t, copied, id))
	_, err = copied.Machine(t.Context(), later)
	require.ErrorIs(t, err, store.ErrNotFound)
}

func TestBackupLeavesWhatIsThere(t *testing.T) {
	s := open(t, t.TempDir())
	path := filepath.Join(t.TempDir(), "precious")
	require.NoError(t, os.WriteFile(path, []byte("precious"), 0o600))
	require.ErrorIs(t, s.Backup(t.Context(), path), fs.ErrExist)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "precious", string(text))
}

func TestBackupThatCannotBeMade(t *testing.T) {
	s := open(t, t.TempDir())
	folder := t.TempDir()
	require.ErrorIs(t, s.Backup(t.Context(), filepath.Join(folder, "none", "b.sqlite")), fs.ErrNotExist)
	// A folder in the way of the copy that is being made: nothing is left behind.
	require.NoError(t, os.MkdirAll(filepath.Join(folder, "b.sqlite.unfinished", "x"), 0o700))
	require.Error(t, s.Backup(t.Context(), filepath.Join(folder, "b.sqlite")))
	require.Equal(t, []string{"b.sqlite.unfinished"}, files(t, folder))
}
