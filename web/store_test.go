package web_test

import (
	"strings"
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

// says requires that a page contains each text, and does not print the page when it does not.
func says(t *testing.T, page string, texts ...string) {
	t.Helper()
	for _, text := range texts {
		require.True(t, strings.Contains(page, text), "the page does not say: %s", text)
	}
}

// saysNot is the contrary of says.
func saysNot(t *testing.T, page string, texts ...string) {
	t.Helper()
	for _, text := range texts {
		require.False(t, strings.Contains(page, text), "the page says: %s", text)
	}
}
