package store_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/upgrade"
	"fettle/store"
)

func labels(axes []axis.Axis) (labels []string) {
	for _, a := range axes {
		labels = append(labels, a.Label)
	}
	return labels
}

func TestSavedAxisKeepsItsPlace(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	for _, key := range []string{"top", "long"} {
		revision, err := s.SaveAxis(t.Context(), id, 0, axis.Axis{Key: key, Label: key})
		require.NoError(t, err)
		require.Equal(t, int64(1), revision)
	}
	_, err := s.SaveAxis(t.Context(), id, 1, axis.Axis{Key: "cross", Label: "new"})
	require.NoError(t, err)
	got := read(t, s, id)
	require.Equal(t, []string{"new", "top", "long"}, labels(got.Axes))
	require.Equal(t, map[string]int64{"cross": 2, "top": 1, "long": 1}, got.AxisRevisions)
	require.Equal(t, int64(4), got.Changes)
	require.Equal(t, int64(1), got.Revision, "the machine's own words are as they were")
}

func TestStaleAxis(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	theirs := axis.Axis{Key: "cross", Entries: map[string]plan.Entry{"travel_found": {Typed: "88"}}, Answers: map[string]string{}}
	_, err := s.SaveAxis(t.Context(), id, 1, theirs)
	require.NoError(t, err)
	for _, revision := range []int64{0, 1, 3} {
		_, err = s.SaveAxis(t.Context(), id, revision, axis.Axis{Key: "cross", Label: "mine"})
		var stale *store.StaleError[axis.Axis]
		require.ErrorAs(t, err, &stale)
		require.Equal(t, theirs, stale.Current)
		require.Equal(t, int64(2), stale.Revision)
	}
	got := read(t, s, id)
	require.Equal(t, []axis.Axis{theirs}, got.Axes)
	require.Equal(t, int64(2), got.Changes, "a refused save is no change")

	_, err = s.SaveAxis(t.Context(), id, 1, axis.Axis{Key: "gone"})
	require.ErrorIs(t, err, store.ErrNotFound)
}

func TestDeletedAxisCanBeHadBack(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	was := read(t, s, id)
	require.ErrorIs(t, s.DeleteAxis(t.Context(), id, "cross"), store.ErrInUse)
	require.NoError(t, s.DeleteUpgrade(t.Context(), id, "1"))
	require.NoError(t, s.DeleteAxis(t.Context(), id, "cross"))
	require.Empty(t, read(t, s, id).Axes)
	require.ErrorIs(t, s.DeleteAxis(t.Context(), id, "cross"), store.ErrNotFound)
	require.ErrorIs(t, s.RestoreUpgrade(t.Context(), id, "1"), store.ErrNotFound, "its axis is gone")

	require.NoError(t, s.RestoreAxis(t.Context(), id, "cross"))
	require.NoError(t, s.RestoreUpgrade(t.Context(), id, "1"))
	require.Equal(t, was.Machine, read(t, s, id).Machine)
	require.ErrorIs(t, s.RestoreAxis(t.Context(), id, "long"), store.ErrNotFound)
}

func TestKeyOfADeletedAxisIsFree(t *testing.T) {
	s := open(t, t.TempDir())
	m := small()
	m.Upgrades = nil
	id := add(t, s, m)
	require.NoError(t, s.DeleteAxis(t.Context(), id, "cross"))
	_, err := s.SaveAxis(t.Context(), id, 0, axis.Axis{Key: "cross", Label: "another"})
	require.NoError(t, err)
	require.ErrorIs(t, s.RestoreAxis(t.Context(), id, "cross"), store.ErrTaken)
	require.Equal(t, []string{"another"}, labels(read(t, s, id).Axes))
	require.NoError(t, s.DeleteAxis(t.Context(), id, "cross"))
	require.NoError(t, s.RestoreAxis(t.Context(), id, "cross"))
	require.Equal(t, []string{"another"}, labels(read(t, s, id).Axes), "the last deleted comes back")
}

func TestDraftHoldsItsAxis(t *testing.T) {
	s := open(t, t.TempDir())
	m := small()
	m.Upgrades[0].State = upgrade.Draft
	require.ErrorIs(t, s.DeleteAxis(t.Context(), add(t, s, m), "cross"), store.ErrInUse)
}
