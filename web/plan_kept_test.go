package web_test

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
)

// A server that has worked the plan out before says what one says that has not: whatever was typed in
// between, and when somebody else changed the machine.
func TestPlanThatIsKeptIsTheOneWorkedOutAnew(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	same := func() string {
		t.Helper()
		fresh, _ := serverOf(t, b.kept)
		kept := said(b.get(b.path))
		require.Equal(t, said(send(fresh.Handler(), request(http.MethodGet, b.path, nil))), kept)
		return kept
	}
	var pages []string
	for _, typed := range [][]string{
		{"end", "plus", "amount", "12"}, {"amount", "3"}, {"amount", `1/2"`}, {"amount", "x"}, {"amount", "3"},
		{"end", "minus", "amount", "3"}, {"amount", ""}, {"amount", "12"},
	} {
		b.post(b.path, b.form(typed...))
		pages = append(pages, same())
	}
	require.NotEqual(t, pages[0], pages[1])

	m, err := b.kept.Machine(t.Context(), b.id)
	require.NoError(t, err)
	m.Axes[0].Entries["travel_found"] = plan.Entry{Typed: "80"}
	_, err = b.kept.SaveAxis(t.Context(), b.id, m.AxisRevisions[m.Axes[0].Key], m.Axes[0])
	require.NoError(t, err)
	require.NotEqual(t, pages[len(pages)-1], same())
}
