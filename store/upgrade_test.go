package store_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
	"fettle/store"
)

// inOrder reads the IDs of a machine's upgrades, joined, finished ones marked.
func inOrder(t *testing.T, s *store.Store, id int64) string {
	t.Helper()
	var ids []string
	for _, u := range read(t, s, id).Upgrades {
		mark := ""
		if u.State == upgrade.Finished {
			mark = "!"
		}
		ids = append(ids, u.ID+mark)
	}
	return strings.Join(ids, " ")
}

// of gives a machine with upgrades 1, 2, 3 … in the states.
func of(states ...upgrade.State) machine.Machine {
	m := machine.Machine{Name: "Mill", Units: "mm"}
	for _, s := range states {
		m.Upgrades = append(m.Upgrades, upgrade.Upgrade{State: s})
	}
	return m
}

func TestDraftIsKeptAsTyped(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	draft := upgrade.Upgrade{Kind: "extend_travel", Axis: "cross", State: upgrade.Draft, Inputs: map[string]string{"amount": "1"}}
	draft, revision, err := s.SaveUpgrade(t.Context(), id, 0, draft)
	require.NoError(t, err)
	require.Equal(t, "2", draft.ID)
	require.Equal(t, int64(1), revision)
	for i, typed := range []string{"12", "12,", "12,5 mn", "12,5 mm"} {
		draft.Inputs = map[string]string{"amount": typed}
		_, revision, err = s.SaveUpgrade(t.Context(), id, revision, draft)
		require.NoError(t, err)
		got := read(t, s, id)
		require.Equal(t, draft, got.Upgrades[1])
		require.Equal(t, map[string]int64{"1": 1, "2": int64(i + 2)}, got.UpgradeRevisions)
		require.Equal(t, int64(1), got.Changes, "a draft does not count")
	}
	draft.State = upgrade.Planned
	_, revision, err = s.SaveUpgrade(t.Context(), id, revision, draft)
	require.NoError(t, err)
	require.Equal(t, int64(2), read(t, s, id).Changes)
	draft.State = upgrade.Draft
	_, _, err = s.SaveUpgrade(t.Context(), id, revision, draft)
	require.NoError(t, err)
	require.Equal(t, int64(3), read(t, s, id).Changes, "taken off the plan again")
}

func TestStaleUpgrade(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	theirs := small().Upgrades[0]
	theirs.Inputs = map[string]string{"amount": "10", "remedy": "cut_back"}
	_, _, err := s.SaveUpgrade(t.Context(), id, 1, theirs)
	require.NoError(t, err)
	mine := small().Upgrades[0]
	_, err2 := s.SetUpgradeState(t.Context(), id, "1", 1, upgrade.Finished, "2026-03-01")
	_, _, err = s.SaveUpgrade(t.Context(), id, 1, mine)
	for _, err := range []error{err, err2} {
		var stale *store.StaleError[upgrade.Upgrade]
		require.ErrorAs(t, err, &stale)
		require.Equal(t, theirs, stale.Current)
		require.Equal(t, int64(2), stale.Revision)
		require.EqualError(t, err, "upgrade 1 was changed meanwhile, by another window or person; nothing was saved")
	}
	require.Equal(t, []upgrade.Upgrade{theirs}, read(t, s, id).Upgrades)
	require.Equal(t, "12", mine.Inputs["amount"])
}

func TestUpgradeIDsAreNeverUsedAgain(t *testing.T) {
	s := open(t, t.TempDir())
	m := of(upgrade.Draft, upgrade.Draft)
	m.Upgrades[1].ID = "9"
	id := add(t, s, m)
	require.Equal(t, "10 9", inOrder(t, s, id))
	require.NoError(t, s.DeleteUpgrade(t.Context(), id, "10"))
	u, _, err := s.SaveUpgrade(t.Context(), id, 0, upgrade.Upgrade{State: upgrade.Planned})
	require.NoError(t, err)
	require.Equal(t, "11", u.ID)
	_, _, err = s.SaveUpgrade(t.Context(), id, 1, upgrade.Upgrade{ID: "10", State: upgrade.Planned})
	require.ErrorIs(t, err, store.ErrNotFound)
}

func TestFinishedUpgradesComeFirst(t *testing.T) {
	const P, D, F = upgrade.Planned, upgrade.Draft, upgrade.Finished
	s := open(t, t.TempDir())
	id := add(t, s, of(P, D, F, P))
	require.Equal(t, "3! 1 2 4", inOrder(t, s, id))
	revision, err := s.SetUpgradeState(t.Context(), id, "4", 1, F, "2026-03-01")
	require.NoError(t, err)
	require.Equal(t, int64(2), revision)
	require.Equal(t, "3! 4! 1 2", inOrder(t, s, id))
	require.Equal(t, "2026-03-01", read(t, s, id).Upgrades[1].On)
	_, err = s.SetUpgradeState(t.Context(), id, "3", 1, P, "")
	require.NoError(t, err)
	require.Equal(t, "4! 3 1 2", inOrder(t, s, id))
	_, _, err = s.SaveUpgrade(t.Context(), id, 1, upgrade.Upgrade{ID: "2", State: F})
	require.NoError(t, err)
	require.Equal(t, "4! 2! 3 1", inOrder(t, s, id))
	_, _, err = s.SaveUpgrade(t.Context(), id, 0, upgrade.Upgrade{State: D})
	require.NoError(t, err)
	require.Equal(t, "4! 2! 3 1 5", inOrder(t, s, id))
}

func TestMoveUpgrade(t *testing.T) {
	const P, F = upgrade.Planned, upgrade.Finished
	for _, tc := range []struct {
		moved string
		place int
		want  string
	}{
		{"3", 2, "1! 2! 3 4 5"},
		{"3", 3, "1! 2! 4 3 5"},
		{"3", 99, "1! 2! 4 5 3"},
		{"5", 2, "1! 2! 5 3 4"},
		{"5", 0, "1! 2! 5 3 4"},
		{"5", -1, "1! 2! 5 3 4"},
		{"2", 0, "2! 1! 3 4 5"},
		{"1", 4, "2! 1! 3 4 5"},
	} {
		s := open(t, t.TempDir())
		id := add(t, s, of(F, F, P, P, P))
		require.NoError(t, s.MoveUpgrade(t.Context(), id, tc.moved, tc.place))
		require.Equal(t, tc.want, inOrder(t, s, id), "%s to %d", tc.moved, tc.place)
	}
}

func TestDeletedUpgradeComesBackToItsPlace(t *testing.T) {
	const P = upgrade.Planned
	s := open(t, t.TempDir())
	id := add(t, s, of(P, P, P, P))
	require.NoError(t, s.DeleteUpgrade(t.Context(), id, "2"))
	require.Equal(t, "1 3 4", inOrder(t, s, id))
	require.NoError(t, s.MoveUpgrade(t.Context(), id, "4", 1))
	require.Equal(t, "1 4 3", inOrder(t, s, id))
	require.ErrorIs(t, s.MoveUpgrade(t.Context(), id, "2", 0), store.ErrNotFound)
	require.ErrorIs(t, s.DeleteUpgrade(t.Context(), id, "2"), store.ErrNotFound)
	require.NoError(t, s.RestoreUpgrade(t.Context(), id, "2"))
	require.Equal(t, "1 2 4 3", inOrder(t, s, id))
	require.ErrorIs(t, s.RestoreUpgrade(t.Context(), id, "2"), store.ErrNotFound)
	require.Equal(t, int64(2), read(t, s, id).UpgradeRevisions["2"], "an old page may not save over it")
}

// Sizes as made are kept as they were typed, replaced with the rest, and come back with a deleted upgrade.
func TestSizesAsMadeAreKept(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	u := small().Upgrades[0]
	u.Made = map[string]plan.Entry{
		"bracket.length": {Typed: "36,58 mm", Spread: "0.02", With: "caliper", On: "2026-04-01", Note: "at three places"},
		"bracket.seat":   {Typed: "19.01"},
	}
	_, revision, err := s.SaveUpgrade(t.Context(), id, 1, u)
	require.NoError(t, err)
	require.Equal(t, []upgrade.Upgrade{u}, read(t, s, id).Upgrades)
	delete(u.Made, "bracket.seat")
	u.Made["bracket.length"] = plan.Entry{Typed: "36.6"}
	_, _, err = s.SaveUpgrade(t.Context(), id, revision, u)
	require.NoError(t, err)
	require.NoError(t, s.DeleteUpgrade(t.Context(), id, "1"))
	require.Empty(t, read(t, s, id).Upgrades)
	require.NoError(t, s.RestoreUpgrade(t.Context(), id, "1"))
	require.Equal(t, []upgrade.Upgrade{u}, read(t, s, id).Upgrades)
	u.Made = nil
	_, _, err = s.SaveUpgrade(t.Context(), id, revision+2, u)
	require.NoError(t, err)
	require.Equal(t, []upgrade.Upgrade{u}, read(t, s, id).Upgrades)
}
