package sheet_test

import (
	"testing"

	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// extended is the slideway with 12 of travel planned, and a bracket that is to be 40 long at the least.
func extended(s *sheet.Sheet, m *sheet.Scope) {
	slideway(m)
	s.Reached(sheet.Found)
	s.Reached(sheet.Now)
	moreTravel(s, m, "first", 12)
	m.Require("bracket", "mm(40)", "stiffness")
}

func second(s *sheet.Sheet, m *sheet.Scope) { moreTravel(s, m, "second", 5) }

func withoutWall(s *sheet.Sheet, m *sheet.Scope) {
	s.Upgrade("third")
	m.Drop("stops", "stop_wall")
	m.Change("bracket", "was + mm(1)", "decided")
	m.Require("bracket", "mm(50)", "stiffness")
	m.Remove("first")
	m.Formula(mm("half"), "reach / 2", "geometry")
}

func branch(t *testing.T, r *sheet.Result, more func(s *sheet.Sheet, m *sheet.Scope)) *sheet.Result {
	t.Helper()
	s := r.Branch()
	more(s, s.Root())
	got, err := s.Bind()
	require.NoError(t, err)
	return got
}

// The wall of 118 and the bracket of 26 let it go 88 and 89.5. 12 more ask for 100: a wall of 130, and a bracket of
// 36.5, of which 40 are wanted, so that it lets it go 103.5.
// 5 more on a branch ask for 105: a wall of 135, and 1.5 more of bracket.
// On another one the wall stops nothing any more, and the bracket is 41, of which 50 are wanted: it lets it go 113.5.
func TestBranches(t *testing.T) {
	r := bind(t, extended)
	was := values(r, sheet.Planned)
	a, b := branch(t, r, second), branch(t, r, withoutWall)
	for _, tc := range []struct {
		key     string
		r, a, b float64
	}{
		{"asked", 100, 105, 100},
		{"wall", 130, 135, 130},
		{"bracket", 40, 41.5, 50},
		{"stop_bracket", 103.5, 105, 113.5},
		{"reach", 100, 105, 113.5},
		{"gap", 0, 0, 13.5},
	} {
		require.Equal(t, tc.r, r.Value(tc.key, sheet.Planned), tc.key)
		require.Equal(t, tc.a, a.Value(tc.key, sheet.Planned), tc.key)
		require.Equal(t, tc.b, b.Value(tc.key, sheet.Planned), tc.key)
		require.Equal(t, r.Value(tc.key, sheet.Now), a.Value(tc.key, sheet.Now), tc.key)
	}
	require.Equal(t, 56.75, b.Value("half", sheet.Planned))
	_, gone := b.Figure("first.amount", sheet.Planned)
	require.False(t, gone)

	// A leaf varied on a branch moves nothing elsewhere.
	require.True(t, a.Try("first.amount", 20))
	require.Equal(t, 113.0, a.Value("asked", sheet.Planned))
	require.Equal(t, was, values(r, sheet.Planned))
	require.Equal(t, 100.0, b.Value("asked", sheet.Planned))
}

// A branch is what a sheet would be on which all was laid in one go, and so is a branch of a branch.
func TestBranchesAreTheWhole(t *testing.T) {
	want := bind(t, func(s *sheet.Sheet, m *sheet.Scope) { extended(s, m); second(s, m); withoutWall(s, m) })
	got := branch(t, branch(t, bind(t, extended), second), withoutWall)
	for _, at := range []sheet.Stage{sheet.Found, sheet.Now, sheet.Planned} {
		require.Equal(t, values(want, at), values(got, at))
	}
	for _, key := range []string{"reach", "bracket", "gap"} {
		require.Equal(t, want.Uncertainty(key, sheet.Planned).Std, got.Uncertainty(key, sheet.Planned).Std, key)
		a, _ := want.Explain(key, sheet.Planned)
		b, _ := got.Explain(key, sheet.Planned)
		require.Equal(t, a.Numbers, b.Numbers)
	}
}
