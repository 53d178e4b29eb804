package store_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/store"
)

// Two stores on one folder are as two processes: neither may show what it read before.
func TestAxesThatAnotherProcessChangedAreSeen(t *testing.T) {
	folder := t.TempDir()
	here, there := open(t, folder), open(t, folder)
	id := add(t, here, small())
	require.Equal(t, []string{"Cross slide"}, labels(read(t, here, id).Axes))

	_, err := there.SaveAxis(t.Context(), id, 1, axis.Axis{Key: "cross", Label: "Top slide"})
	require.NoError(t, err)
	got := read(t, here, id)
	require.Equal(t, []string{"Top slide"}, labels(got.Axes))
	require.Equal(t, map[string]int64{"cross": 2}, got.AxisRevisions)

	require.NoError(t, there.DeleteUpgrade(t.Context(), id, "1"))
	require.NoError(t, there.DeleteAxis(t.Context(), id, "cross"))
	require.Empty(t, read(t, here, id).Axes)
	require.NoError(t, there.RestoreAxis(t.Context(), id, "cross"))
	require.Equal(t, []string{"Top slide"}, labels(read(t, here, id).Axes))
}

func TestWhatAnotherProcessTypedIsSeen(t *testing.T) {
	folder := t.TempDir()
	here, there := open(t, folder), open(t, folder)
	id := add(t, here, small())
	u := read(t, here, id).Upgrades[0]
	save := func(s *store.Store, revision int64, amount string) {
		u.Inputs = map[string]string{"amount": amount}
		_, _, err := s.SaveUpgrade(t.Context(), id, revision, u)
		require.NoError(t, err)
	}
	save(here, 1, "13")
	save(there, 2, "14")
	require.Equal(t, "14", read(t, here, id).Upgrades[0].Inputs["amount"])
	save(here, 3, "15")
	require.Equal(t, "15", read(t, there, id).Upgrades[0].Inputs["amount"])

	u.Inputs = map[string]string{"amount": "16", "": "no input is called so"}
	_, _, err := here.SaveUpgrade(t.Context(), id, 4, u)
	require.ErrorIs(t, err, store.ErrRefused)
	require.Equal(t, map[string]string{"amount": "15"}, read(t, here, id).Upgrades[0].Inputs, "what was refused is not stored")

	u.Inputs = map[string]string{"amount": "17"}
	saved, _, err := here.SaveUpgrade(t.Context(), id, 4, u)
	require.NoError(t, err)
	saved.Inputs["amount"], u.Inputs["amount"] = "spoilt", "spoilt"
	require.Equal(t, "17", read(t, here, id).Upgrades[0].Inputs["amount"], "what was saved is the caller's own")
}

// What was read is the reader's own.
func TestChangingWhatWasReadChangesNothingElse(t *testing.T) {
	s := open(t, t.TempDir())
	m := small()
	a := &m.Axes[0]
	a.Entries = map[string]plan.Entry{"travel_found": {Typed: "88"}}
	a.Answers = map[string]string{"limit": "no"}
	a.Obstacles = []axis.Obstacle{{Key: "tray", End: axis.Plus}}
	a.Parts = append(a.Parts, axis.Part{Key: "dial", Side: axis.Fixed, Lanes: []string{"front"},
		Tie: &axis.Tie{Part: "nut", Face: "to"}, Entries: map[string]plan.Entry{"length": {Typed: "16.5"}}})
	id := add(t, s, m)
	want := read(t, s, id)

	got := read(t, s, id)
	got.Upgrades[0].Inputs["amount"] = "spoilt"
	b := &got.Axes[0]
	b.Label = "spoilt"
	b.Entries["travel_found"], b.Answers["limit"] = plan.Entry{Typed: "1"}, "yes"
	b.Obstacles[0].Clear, b.Parts[0].Label = true, "spoilt"
	b.Parts[1].Lanes[0], b.Parts[1].Tie.Face = "spoilt", "from"
	b.Parts[1].Entries["length"] = plan.Entry{}
	b.Parts = append(b.Parts[:1], axis.Part{Key: "other"})
	got.AxisRevisions["cross"] = 9
	require.Equal(t, want, read(t, s, id))
}

// One input of many is written while somebody types; the others, and those rubbed out, are as they were sent.
func TestInputsAreReplacedWhole(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	u := small().Upgrades[0]
	revision := int64(1)
	for _, inputs := range []map[string]string{
		{"amount": "12", "end": "plus", "joint": ""},
		{"amount": "12.5", "end": "plus", "joint": ""},
		{"amount": "", "joint": "brazed"},
		{},
		{"amount": "3"},
	} {
		u.Inputs = inputs
		_, next, err := s.SaveUpgrade(t.Context(), id, revision, u)
		require.NoError(t, err)
		require.Equal(t, inputs, read(t, s, id).Upgrades[0].Inputs)
		revision = next
	}
}
