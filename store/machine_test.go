package store_test

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
	"fettle/store"
)

func TestMachineComesBackAsItWas(t *testing.T) {
	s := open(t, t.TempDir())
	for seed := range uint64(200) {
		m := random{rand.New(rand.NewPCG(seed, 0))}.machine()
		got := read(t, s, add(t, s, m))
		require.Equal(t, m, got.Machine, "seed %d", seed)
		require.Equal(t, int64(1), got.Revision)
		require.Equal(t, int64(1), got.Changes)
		require.Equal(t, noon, got.Created)
		require.Equal(t, noon, got.Changed)
		require.Len(t, got.AxisRevisions, len(m.Axes))
		require.Len(t, got.UpgradeRevisions, len(m.Upgrades))
	}
}

// Every random axis saved over every other leaves nothing of the other.
func TestAxisComesBackAsItWas(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, machine.Machine{Name: "Lathe", Units: "mm"})
	for seed := range int64(200) {
		a := random{rand.New(rand.NewPCG(uint64(seed), 1))}.axis(0)
		revision, err := s.SaveAxis(t.Context(), id, seed, a)
		require.NoError(t, err)
		require.Equal(t, seed+1, revision)
		got := read(t, s, id)
		require.Equal(t, []axis.Axis{a}, got.Axes, "seed %d", seed)
		require.Equal(t, map[string]int64{a.Key: revision}, got.AxisRevisions)
	}
}

func TestMissingMachine(t *testing.T) {
	s := open(t, t.TempDir())
	ctx := t.Context()
	for name, err := range map[string]error{
		"read":    second(s.Machine(ctx, 7)),
		"update":  second(s.UpdateMachine(ctx, 7, 1, store.Head{Name: "x", Units: "mm"})),
		"delete":  s.DeleteMachine(ctx, 7),
		"restore": s.RestoreMachine(ctx, 7),
		"axis":    second(s.SaveAxis(ctx, 7, 0, axis.Axis{Key: "cross"})),
		"no axis": s.DeleteAxis(ctx, 7, "cross"),
		"upgrade": second(s.SetUpgradeState(ctx, 7, "1", 1, upgrade.Planned, "")),
		"order":   s.MoveUpgrade(ctx, 7, "1", 0),
	} {
		require.ErrorIs(t, err, store.ErrNotFound, name)
	}
}

func second[T any](_ T, err error) error { return err }

func TestMachinesAreListedLastChangedFirst(t *testing.T) {
	now := noon
	s, err := store.Open(t.Context(), t.TempDir(), func() time.Time { now = now.Add(time.Millisecond); return now })
	require.NoError(t, err)
	defer s.Close()
	first, second := add(t, s, small()), add(t, s, machine.Machine{Name: "Mill", Kind: "mill", Units: "in"})
	_, _, err = s.SaveUpgrade(t.Context(), first, 0, upgrade.Upgrade{Kind: "extend_travel", Axis: "cross", State: upgrade.Draft})
	require.NoError(t, err)
	list, err := s.Machines(t.Context())
	require.NoError(t, err)
	require.Equal(t, []store.Listed{
		{ID: first, Name: "Lathe", Kind: "lathe", Axes: 1, Upgrades: 1, Drafts: 1, Changed: noon.Add(3 * time.Millisecond)},
		{ID: second, Name: "Mill", Kind: "mill", Changed: noon.Add(2 * time.Millisecond)},
	}, list)
}

func TestUpdateMachine(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	mine, theirs := store.Head{Name: "Mine", Kind: "mill", Units: "in", Note: "n"}, store.Head{Name: "Theirs", Units: "mm"}
	revision, err := s.UpdateMachine(t.Context(), id, 1, mine)
	require.NoError(t, err)
	require.Equal(t, int64(2), revision)

	_, err = s.UpdateMachine(t.Context(), id, 1, theirs)
	var stale *store.StaleError[store.Head]
	require.ErrorAs(t, err, &stale)
	require.Equal(t, mine, stale.Current)
	require.Equal(t, int64(2), stale.Revision)
	require.ErrorContains(t, err, "changed meanwhile")

	got := read(t, s, id)
	require.Equal(t, mine, store.Head{Name: got.Name, Kind: got.Kind, Units: got.Units, Note: got.Note})
	require.Equal(t, int64(2), got.Revision)
	require.Equal(t, int64(2), got.Changes)
	require.Equal(t, small().Upgrades, got.Upgrades)
}

func TestDeletedMachineCanBeHadBack(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	was := read(t, s, id)
	require.NoError(t, s.DeleteMachine(t.Context(), id))
	_, err := s.Machine(t.Context(), id)
	require.ErrorIs(t, err, store.ErrNotFound)
	require.ErrorIs(t, s.DeleteMachine(t.Context(), id), store.ErrNotFound)
	list, err := s.Machines(t.Context())
	require.NoError(t, err)
	require.Empty(t, list)
	list, err = s.DeletedMachines(t.Context())
	require.NoError(t, err)
	require.Len(t, list, 1)

	require.NoError(t, s.RestoreMachine(t.Context(), id))
	require.Equal(t, was, read(t, s, id))
	require.ErrorIs(t, s.RestoreMachine(t.Context(), id), store.ErrNotFound)
}

func TestWhatIsNeverRightIsRefused(t *testing.T) {
	s := open(t, t.TempDir())
	for name, tc := range map[string]struct {
		break_ func(m *machine.Machine)
		want   error
	}{
		"no name":          {func(m *machine.Machine) { m.Name = "" }, store.ErrRefused},
		"units":            {func(m *machine.Machine) { m.Units = "cm" }, store.ErrRefused},
		"axis key":         {func(m *machine.Machine) { m.Axes[0].Key = "Cross" }, store.ErrRefused},
		"key with a digit": {func(m *machine.Machine) { m.Axes[0].Key = "2nd" }, store.ErrRefused},
		"side":             {func(m *machine.Machine) { m.Axes[0].Parts[0].Side = "" }, store.ErrRefused},
		"tie face":         {func(m *machine.Machine) { m.Axes[0].Parts[0].Tie = &axis.Tie{Part: "nut", Face: "top"} }, store.ErrRefused},
		"part key twice":   {func(m *machine.Machine) { m.Axes[0].Parts = append(m.Axes[0].Parts, m.Axes[0].Parts[0]) }, store.ErrTaken},
		"axis key twice":   {func(m *machine.Machine) { m.Axes = append(m.Axes, m.Axes[0]) }, store.ErrTaken},
		"upgrade twice":    {func(m *machine.Machine) { m.Upgrades = append(m.Upgrades, m.Upgrades[0]) }, store.ErrTaken},
		"upgrade id":       {func(m *machine.Machine) { m.Upgrades[0].ID = "one" }, store.ErrRefused},
		"state":            {func(m *machine.Machine) { m.Upgrades[0].State = "wished" }, store.ErrRefused},
		"day":              {func(m *machine.Machine) { m.Upgrades[0].On = "2025-02-29" }, store.ErrRefused},
		"axis of upgrade":  {func(m *machine.Machine) { m.Upgrades[0].Axis = "top" }, store.ErrNotFound},
		"obstacle's end":   {func(m *machine.Machine) { m.Axes[0].Obstacles = []axis.Obstacle{{Key: "tray"}} }, store.ErrRefused},
		"answer's key":     {func(m *machine.Machine) { m.Axes[0].Answers = map[string]string{"": "yes"} }, store.ErrRefused},
		"an input no name": {func(m *machine.Machine) { m.Upgrades[0].Inputs = map[string]string{"": "12"} }, store.ErrRefused},
	} {
		m := small()
		tc.break_(&m)
		_, err := s.AddMachine(t.Context(), m)
		require.ErrorIs(t, err, tc.want, name)
	}
	list, err := s.Machines(t.Context())
	require.NoError(t, err)
	require.Empty(t, list, "a machine is kept whole or not at all")
}

func TestLongTextIsKept(t *testing.T) {
	s := open(t, t.TempDir())
	m := small()
	m.Note = strings.Repeat("ü", 1<<20)
	require.Equal(t, m.Note, read(t, s, add(t, s, m)).Note)
}
