package thread_test

import (
	"testing"

	"fettle/plan/thread"

	"github.com/stretchr/testify/require"
)

func names(all []thread.Candidate, twins bool) (n []string) {
	for _, c := range all {
		if c.Twin == twins {
			n = append(n, c.Thread.String())
		}
	}
	return n
}

// Pairs that are easily taken for one another, as every handbook warns: the
// first fits what was measured, the second is shown beside it.
func TestNearTwins(t *testing.T) {
	for _, tc := range []struct {
		what       string
		m          thread.Measured
		fits, twin string
	}{
		{"the same size and pitch, 60° against 47½°", thread.Measured{Dia: 5.95, Pitch: 1, Angle: 60}, "M6", "0BA"},
		{"the same, the other way round", thread.Measured{Dia: 5.95, Pitch: 1, Angle: 47.5}, "0BA", "M6"},
		{"the same pitch, 60° against 55°", thread.Measured{Dia: 6.3, Pitch: inch / 20, Angle: 60}, "1/4-20 UNC", "1/4-20 BSW"},
		{"13 against 12 to the inch", thread.Measured{Dia: 12.6, Pitch: inch / 13}, "1/2-13 UNC", "1/2-12 BSW"},
		{"12 against 13 to the inch", thread.Measured{Dia: 12.6, Pitch: inch / 12}, "1/2-12 BSW", "1/2-13 UNC"},
		{"1/8 pipe against M10x1", thread.Measured{Dia: 9.7, Pitch: inch / 28}, "G 1/8", "M10x1"},
		{"Acme against trapezoidal", thread.Measured{Dia: 9.5, Pitch: inch / 12}, "3/8-12 Acme", "Tr9x2"},
	} {
		t.Run(tc.what, func(t *testing.T) {
			got := thread.Identify(tc.m)
			require.Contains(t, names(got, false), tc.fits)
			if tc.twin != "Tr9x2" { // half a millimetre smaller is no twin
				require.Contains(t, names(got, true), tc.twin)
			}
		})
	}
	both := names(thread.Identify(thread.Measured{Dia: 5.95, Pitch: 1}), false)
	require.Equal(t, []string{"M6", "0BA"}, both, "without a look at the flanks both fit")
}

// Every thread of the tables is found from its own sizes, first or level with
// others of the same sizes; as a screw and as a nut.
func TestEveryThreadIsFound(t *testing.T) {
	for _, want := range thread.Sizes() {
		b, err := want.Basic()
		require.NoError(t, err)
		for _, m := range []thread.Measured{
			{Dia: want.Dia - 0.04*want.Pitch, Pitch: want.Pitch, Angle: want.Series.Form.Angle},
			{Dia: b.Bore + 0.12*want.Pitch, Pitch: want.Pitch, Angle: want.Series.Form.Angle, Nut: true},
		} {
			got := thread.Identify(m)
			require.NotEmpty(t, got, want)
			first := got[0].Thread
			require.False(t, got[0].Twin)
			require.InDelta(t, want.Dia, first.Dia, 0.11, "%s against %s", want, first)
			require.InDelta(t, want.Pitch, first.Pitch, 0.01*want.Pitch, "%s against %s", want, first)
			require.Contains(t, names(got, false), want.String())
		}
	}
}

func TestDiameterAlone(t *testing.T) {
	got := thread.Identify(thread.Measured{Dia: 7.95})
	require.Equal(t, []string{"M8", "M8x1", "M8x0.75"}, filter(names(got, false), "M8"), "every pitch of the size is offered")
	require.Empty(t, names(got, true), "without a pitch there is nothing to be near to")
	require.Empty(t, thread.Identify(thread.Measured{Dia: 500, Pitch: 1}))
}

func filter(all []string, prefix string) (some []string) {
	for _, s := range all {
		if len(s) >= len(prefix) && s[:len(prefix)] == prefix {
			some = append(some, s)
		}
	}
	return some
}
