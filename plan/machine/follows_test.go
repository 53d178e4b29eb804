package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/unit"
)

// The bracket came out 0.08 long: the extension is to be 10.58 and not 10.5, so
// 24.58 with its lap of 14.
func TestFollows(t *testing.T) {
	m := asMade(lathe(), "bracket.length", "36.58")
	a := ask(t, m, "1", "amount", "12")
	f, err := a.Machine.Follows(a.Plan, "1", "1")
	require.NoError(t, err)
	require.Len(t, f.Came, 1)
	require.InDelta(t, 0.08, f.Came[0].Off, exact)
	require.Len(t, f.Sizes, 1)
	require.Equal(t, []string{"extension", "length"}, []string{f.Sizes[0].Part, f.Sizes[0].Size.Name})
	require.InDelta(t, 24.5, f.Sizes[0].Was, exact)
	require.InDelta(t, 24.58, f.Sizes[0].Size.Nominal, exact)
	figures := map[string][2]string{}
	for _, s := range f.Figures {
		figures[s.Now.Key] = [2]string{unit.MM.With(s.Was.Value), unit.MM.With(s.Now.Value)}
	}
	require.Equal(t, [2]string{"10.5 mm", "10.58 mm"}, figures["cross.extension.visible"])

	// As planned, to the hundredth: nothing follows.
	a = ask(t, asMade(lathe(), "bracket.length", "36.5"), "1", "amount", "12")
	f, err = a.Machine.Follows(a.Plan, "1", "1")
	require.NoError(t, err)
	require.Empty(t, f.Came)
	require.Empty(t, f.Sizes)
	require.Empty(t, f.Figures)
}
