package fastener_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"fettle/plan/fastener"

	"github.com/stretchr/testify/require"
)

// Worked by hand: not under grip and engagement, not over grip and depth less 1.
func TestLengthForHole(t *testing.T) {
	for _, tc := range []struct {
		size                    string
		grip, engagement, depth float64
		want, left              float64
	}{
		{"M6", 20, 9, 16, 30, 6},              // 29 to 35
		{"M6", 20, 9, 15, 30, 5},              // 29 to 34
		{"M6", 21, 9, 10, 30, 1},              // 30 to 30: just
		{"M8", 38, 12, 18, 50, 6},             // 50 to 55
		{"M5", 3, 5, math.Inf(1), 8, inf},     // tapped through
		{"M6", 29, 9, 20, 40, 9},              // 38 to 48
		{"M4", 0.5, 5.5, 8, 6, 2.5},           // the shortest there is
		{"M6", 24.9, 5.1, 40, 30, 34.9},       // a sum with a rounding error
		{"M6", 20.0 / 3 * 3, 10, 11, 30, 1.0}, // and at its other end
	} {
		s, ok := fastener.ScrewNamed("ISO 4762", tc.size)
		require.True(t, ok)
		got, err := s.For(fastener.Hole{Grip: tc.grip, Engagement: tc.engagement, Depth: tc.depth})
		require.NoError(t, err)
		require.Equal(t, tc.want, got.Length, "%s through %g", tc.size, tc.grip)
		require.InDelta(t, tc.want-tc.grip, got.Engaged, 1e-9)
		if !math.IsInf(tc.left, 1) {
			require.InDelta(t, tc.left, got.Left, 1e-9)
		} else {
			require.True(t, math.IsInf(got.Left, 1))
		}
	}
}

var inf = math.Inf(1)

func TestNoLengthForHole(t *testing.T) {
	m6, _ := fastener.ScrewNamed("ISO 4762", "M6")
	for _, tc := range []struct {
		hole fastener.Hole
		say  string
	}{
		{fastener.Hole{Grip: 22, Engagement: 9, Depth: 12},
			"no M6 socket cap screw (ISO 4762) is made between 31 mm and 33 mm: the next are 30 mm and 35 mm; tap the hole 2 mm deeper, put as much under the head, or shorten the 35 mm one to 33 mm"},
		{fastener.Hole{Grip: 22, Engagement: 9, Depth: 9.5},
			"no M6 socket cap screw (ISO 4762) can be both 31 mm or longer and 30.5 mm or shorter: the next are 30 mm and 35 mm; for 9 mm of engagement the thread has to be 10 mm deep"},
		{fastener.Hole{Grip: 58, Engagement: 9, Depth: 40},
			"no M6 socket cap screw (ISO 4762) is made between 67 mm and 97 mm: the longest is 60 mm; take a larger size, or sink the head"},
		{fastener.Hole{Grip: 5, Engagement: 30, Depth: 45},
			"no M6 socket cap screw (ISO 4762) is made between 35 mm and 49 mm; at 35 mm the plain part of its shank, 11 mm, would reach the thread"},
	} {
		_, err := m6.For(tc.hole)
		require.EqualError(t, err, tc.say)
		var none *fastener.NoLength
		require.True(t, errors.As(err, &none))
	}
	for _, bad := range []fastener.Hole{{}, {Grip: 10, Engagement: 5}, {Grip: -1, Engagement: 5, Depth: 10}, {Grip: math.NaN(), Engagement: 5, Depth: 10},
		{Grip: inf, Engagement: 5, Depth: 10}, {Grip: 10, Engagement: math.NaN(), Depth: 10}, {Grip: 10, Engagement: 5, Depth: math.NaN()}} {
		_, err := m6.For(bad)
		require.ErrorIs(t, err, fastener.ErrAsked, "%+v", bad)
	}
	grub, _ := fastener.ScrewNamed("ISO 4026", "M6")
	_, err := grub.For(fastener.Hole{Grip: 10, Engagement: 5, Depth: 10})
	require.ErrorIs(t, err, fastener.ErrAsked, "a grub screw grips nothing")
	l, err := grub.Length(7, 9)
	require.NoError(t, err)
	require.Equal(t, 8.0, l)
	_, err = grub.Length(13, 15)
	require.EqualError(t, err, "no M6 grub screw with a flat point (ISO 4026) is made between 13 mm and 15 mm: the next are 12 mm and 16 mm")
}

// Whatever is asked, the choice is the shortest that obeys both bounds, and
// where there is none, no length of the list obeys them.
func TestChoiceAgainstEveryLength(t *testing.T) {
	for _, std := range []string{"ISO 4762", "ISO 4017"} {
		for _, s := range fastener.Screws(std) {
			for grip := 0.75; grip < 90; grip += 3.25 {
				for _, engaged := range []float64{s.Dia, 1.5 * s.Dia, 2 * s.Dia} {
					for _, depth := range []float64{0.5, engaged + 0.5, engaged + 1, engaged + 3.5, 30, inf} {
						best := 0.0
						for _, l := range slices.Backward(s.Lengths()) {
							if l >= grip+engaged && l <= grip+depth-1 && (l <= s.Full || s.Thread == 0 || l-s.Thread <= grip) {
								best = l
							}
						}
						got, err := s.For(fastener.Hole{Grip: grip, Engagement: engaged, Depth: depth})
						if best == 0 {
							require.Error(t, err, "%s %s through %g", std, s.Size, grip)
							continue
						}
						require.NoError(t, err)
						require.Equal(t, best, got.Length)
					}
				}
			}
		}
	}
}

func TestThroughNut(t *testing.T) {
	m6, _ := fastener.ScrewNamed("ISO 4017", "M6")
	nut, _ := fastener.NutNamed("ISO 4032", "M6")
	got, err := m6.For(nut.Through(20, 1)) // 20 + 5.2 + 2 = 27.2
	require.NoError(t, err)
	require.Equal(t, 30.0, got.Length)
	require.Equal(t, "ISO 4017 M6 × 30", m6.Designation(got.Length))
}
