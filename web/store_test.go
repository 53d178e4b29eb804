package web_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/store"
)

// noon is the hour in every test.
func noon() time.Time { return time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC) }

// newStore opens an empty data folder.
func newStore(t *testing.T) *store.Store {
	t.Helper()
	s, err := store.Open(t.Context(), t.TempDir(), noon)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Close()) })
	return s
}
