package store_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/order"
	"fettle/store"
)

func TestShoppingIsKeptAsTyped(t *testing.T) {
	folder := t.TempDir()
	s := open(t, folder)
	id := add(t, s, saved1())
	changes := read(t, s, id).Changes

	got, revision, err := s.Shopping(t.Context(), id)
	require.NoError(t, err)
	require.Zero(t, revision)
	require.Empty(t, got)

	want := store.Shopping{Currency: "eur", Marks: []store.Mark{
		{Key: "iso-15-10-x-19-x-5", Called: "support bearing", State: order.Ordered, Quantity: "2", Price: "£6 each", Note: "two, in case"},
		{Key: "oil", State: order.ToGet},
	}, Offcuts: []store.Offcut{
		{Label: "end of the last job", Material: "c45", Form: "round", Across: `7/8"`, Length: "260"},
		{Form: "flat", Across: "40", Second: "8", Length: "long"},
	}}
	revision, err = s.SaveShopping(t.Context(), id, 0, want)
	require.NoError(t, err)
	require.EqualValues(t, 1, revision)
	got, revision, err = s.Shopping(t.Context(), id)
	require.NoError(t, err)
	require.EqualValues(t, 1, revision)
	require.Equal(t, want, got)
	require.Equal(t, changes, read(t, s, id).Changes, "the plan is the same")

	var stale *store.StaleError[store.Shopping]
	_, err = s.SaveShopping(t.Context(), id, 0, store.Shopping{})
	require.ErrorAs(t, err, &stale)
	require.EqualValues(t, 1, stale.Revision)
	require.Equal(t, want, stale.Current)

	_, err = s.SaveShopping(t.Context(), id, 1, store.Shopping{Marks: []store.Mark{{Key: "x", State: "lost"}}})
	require.ErrorIs(t, err, store.ErrRefused)
	got, _, err = s.Shopping(t.Context(), id)
	require.NoError(t, err)
	require.Equal(t, want, got, "a save that is refused changes nothing")

	_, _, err = s.Shopping(t.Context(), id+1)
	require.ErrorIs(t, err, store.ErrNotFound)
	_, err = s.SaveShopping(t.Context(), id+1, 0, want)
	require.ErrorIs(t, err, store.ErrNotFound)
}
