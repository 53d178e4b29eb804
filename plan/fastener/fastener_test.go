package fastener_test

import (
	"errors"
	"math"
	"testing"

	"fettle/plan/fastener"
	"fettle/plan/thread"

	"github.com/stretchr/testify/require"
)

// Heads and keys by ISO 4762 and ISO 4017 as published tables give them.
func TestScrews(t *testing.T) {
	for _, tc := range []struct {
		standard, size                       string
		head, height, key, shortest, longest float64
		source                               string
	}{
		{"ISO 4762", "M3", 5.5, 3, 2.5, 5, 30, "ISO 4762 as published: dk 5.5, k 3, s 2.5"},
		{"ISO 4762", "M5", 8.5, 5, 4, 8, 50, "ISO 4762 as published: dk 8.5, k 5, s 4"},
		{"ISO 4762", "M6", 10, 6, 5, 10, 60, "ISO 4762 as published: dk 10, k 6, s 5; lengths from memory"},
		{"ISO 4762", "M8", 13, 8, 6, 12, 80, "ISO 4762 as published: dk 13, k 8, s 6; lengths from memory"},
		{"ISO 4762", "M12", 18, 12, 10, 20, 120, "ISO 4762 as published: dk 18, k 12, s 10"},
		{"ISO 4017", "M6", 11.05, 4, 10, 12, 60, "ISO 4017 as published: e 11.05, k 4, s 10"},
		{"ISO 4017", "M10", 17.77, 6.4, 16, 20, 100, "ISO 4017 as published: e 17.77, k 6.4, s 16"},
		{"ISO 4026", "M6", 0, 0, 3, 6, 30, "ISO 4026 as published: s 3; lengths from memory"},
		{"ISO 4028", "M5", 0, 0, 2.5, 6, 25, "ISO 4028 as published: s 2.5; a CAD package's lengths 6 to 25"},
	} {
		s, ok := fastener.ScrewNamed(tc.standard, tc.size)
		require.True(t, ok, tc.source)
		require.Equal(t, []float64{tc.head, tc.height, tc.key, tc.shortest, tc.longest},
			[]float64{s.Head, s.Height, s.Key, s.Shortest, s.Longest}, tc.source)
		require.Equal(t, tc.head == 0, s.Grub())
	}
	_, ok := fastener.ScrewNamed("ISO 4762", "M7")
	require.False(t, ok)
}

// What holds of every row, whatever its figures are.
func TestScrewsAreScrews(t *testing.T) {
	for _, std := range []string{"ISO 4762", "ISO 4017", "ISO 4026", "ISO 4027", "ISO 4028", "ISO 4029"} {
		all := fastener.Screws(std)
		require.NotEmpty(t, all, std)
		last := fastener.Screw{}
		for _, s := range all {
			require.Greater(t, s.Dia, last.Dia, std)
			require.Greater(t, s.Key, last.Key, std)
			require.GreaterOrEqual(t, s.Longest, last.Longest, std)
			th, err := thread.Parse(s.Size)
			require.NoError(t, err)
			require.InDelta(t, th.Dia, s.Dia, 1e-12, "%s %s", std, s.Size)
			lengths := s.Lengths()
			require.Equal(t, s.Shortest, lengths[0], "%s %s begins at a preferred length", std, s.Size)
			require.Equal(t, s.Longest, lengths[len(lengths)-1], "%s %s ends at a preferred length", std, s.Size)
			if s.Grub() {
				require.Less(t, s.Key, s.Dia)
				require.Less(t, s.Point, s.Dia)
			} else {
				require.Greater(t, s.Head, s.Dia)
				require.GreaterOrEqual(t, s.HeadMost, s.Head)
			}
			if std == "ISO 4762" {
				require.Equal(t, s.Dia, s.Height, "ISO 4762: a head as high as the thread is wide")
				require.Equal(t, 2*s.Dia+12, s.Thread, "ISO 888: b = 2d + 12")
				require.Contains(t, lengths, s.Full)
			}
			if std == "ISO 4017" { // grade A: 1.13 times the least width across flats, which is up to 0.33 less than nominal
				require.Greater(t, s.Key, s.Head/1.13, s.Size)
				require.Less(t, s.Key-0.34, s.Head/1.13, s.Size)
			}
			last = s
		}
	}
}

func TestNutsWashersHoles(t *testing.T) {
	for _, tc := range []struct {
		size                               string
		dia, key, nut, thin                float64
		bore, outside, thick, fine, medium float64
	}{ // ISO 4032, ISO 4035, ISO 7089, ISO 273 as published
		{"M4", 4, 7, 3.2, 2.2, 4.3, 9, 0.8, 4.3, 4.5},
		{"M5", 5, 8, 4.7, 2.7, 5.3, 10, 1, 5.3, 5.5},
		{"M6", 6, 10, 5.2, 3.2, 6.4, 12, 1.6, 6.4, 6.6},
		{"M8", 8, 13, 6.8, 4, 8.4, 16, 1.6, 8.4, 9},
		{"M12", 12, 18, 10.8, 6, 13, 24, 2.5, 13, 13.5},
	} {
		n, ok := fastener.NutNamed("ISO 4032", tc.size)
		require.True(t, ok)
		thin, ok := fastener.NutNamed("ISO 4035", tc.size)
		require.True(t, ok)
		w, ok := fastener.WasherFor(tc.dia)
		require.True(t, ok)
		c, ok := fastener.ClearanceFor(tc.size)
		require.True(t, ok)
		require.Equal(t, []float64{tc.key, tc.nut, tc.key, tc.thin}, []float64{n.Key, n.Height, thin.Key, thin.Height})
		require.Equal(t, []float64{tc.bore, tc.outside, tc.thick, tc.fine, tc.medium}, []float64{w.Bore, w.Outside, w.Thickness, c.Fine, c.Medium})
		require.NoError(t, fastener.Check(n.Designation()))
		require.NoError(t, fastener.Check(w.Designation()))
	}
	for _, c := range fastener.Clearances {
		require.True(t, c.Dia < c.Fine && c.Fine < c.Medium && c.Medium < c.Coarse, c.Size)
		s, ok := fastener.ScrewNamed("ISO 4762", c.Size)
		require.True(t, ok)
		require.Less(t, c.Coarse, s.Head, "the head does not fall through")
	}
}

// Lengths as ISO 2338, ISO 8734 and ISO 2339 have them, and as a general-purpose
// CAD package's tables.
func TestPins(t *testing.T) {
	for _, tc := range []struct {
		standard          string
		dia               float64
		shortest, longest float64
	}{{"ISO 2338", 3, 8, 30}, {"ISO 2338", 6, 12, 60}, {"ISO 2338", 10, 18, 95}, {"ISO 8734", 3, 8, 30}, {"ISO 8734", 6, 14, 60}, {"ISO 8734", 10, 22, 100},
		{"ISO 2339", 3, 12, 45}, {"ISO 2339", 5, 18, 60}, {"ISO 2339", 8, 22, 120}} {
		p, ok := fastener.PinNamed(tc.standard, tc.dia)
		require.True(t, ok)
		l := p.Lengths()
		require.Equal(t, []float64{tc.shortest, tc.longest}, []float64{l[0], l[len(l)-1]}, "%s %g", tc.standard, tc.dia)
	}
	p, _ := fastener.PinNamed("ISO 2339", 5)
	require.InDelta(t, 5.6, p.LargeEnd(30), 1e-12, "ISO 2339: 1:50, so 0.6 in 30")
	require.Equal(t, "ISO 2339 A 5 × 30", p.Designation(30))
	p, _ = fastener.PinNamed("ISO 8734", 4)
	require.Equal(t, 4.0, p.LargeEnd(30))
	l, err := p.Length(19, 22)
	require.NoError(t, err)
	require.Equal(t, 20.0, l)
	_, err = p.Length(36, 39)
	require.EqualError(t, err, "no 4 mm hardened dowel pin (ISO 8734) is made between 36 mm and 39 mm: the next are 35 mm and 40 mm")
	_, err = p.Length(41, 60)
	require.EqualError(t, err, "no 4 mm hardened dowel pin (ISO 8734) is made between 41 mm and 60 mm: the longest is 40 mm")
	_, err = p.Length(1, 5)
	require.EqualError(t, err, "no 4 mm hardened dowel pin (ISO 8734) is made between 1 mm and 5 mm: the shortest is 10 mm")
}

// Inside diameters of a published O-ring size chart, and one of a drawing.
func TestRings(t *testing.T) {
	for _, tc := range []struct {
		code            string
		inside, section float64
	}{{"004", 1.78, 1.78}, {"008", 4.47, 1.78}, {"010", 6.07, 1.78}, {"012", 9.25, 1.78}, {"014", 12.42, 1.78}, {"016", 15.60, 1.78}, {"019", 20.35, 1.78},
		{"020", 21.95, 1.78}, {"024", 28.30, 1.78}, {"030", 41.00, 1.78}, {"040", 72.74, 1.78}, {"110", 9.19, 2.62}, {"120", 25.07, 2.62},
		{"210", 18.64, 3.53}, {"214", 24.99, 3.53}, {"218", 31.34, 3.53}, {"222", 37.69, 3.53}, {"226", 50.39, 3.53}, {"230", 63.09, 3.53}} {
		r, ok := fastener.RingNamed(tc.code)
		require.True(t, ok)
		require.InDelta(t, tc.inside, r.Inside, 0.0101, "%s: the chart cuts its inches off at 0.01 mm", tc.code)
		require.Equal(t, tc.section, r.Section)
		require.NoError(t, fastener.Check(r.Designation()))
	}
	last := fastener.Ring{}
	for _, r := range fastener.Rings {
		require.Greater(t, r.Code, last.Code)
		if r.Section == last.Section {
			require.Greater(t, r.Inside, last.Inside)
		}
		last = r
	}
}

func TestRingFor(t *testing.T) {
	for groove := 3.0; groove < 70; groove += 0.37 {
		for _, section := range fastener.Sections {
			r, err := fastener.RingFor(groove, section)
			var none *fastener.NoRing
			if errors.As(err, &none) {
				for _, near := range none.Near {
					s := near.Stretch(groove)
					require.True(t, s < fastener.StretchLeast || s > fastener.StretchMost, "%s would have done", near.Code)
				}
				continue
			}
			require.NoError(t, err)
			require.Equal(t, section, r.Section)
			require.InDelta(t, (fastener.StretchLeast+fastener.StretchMost)/2, r.Stretch(groove), (fastener.StretchMost-fastener.StretchLeast)/2+1e-9)
		}
	}
	r, err := fastener.RingFor(19.2, 3.53) // 18.64 stretched by 3.0 %
	require.NoError(t, err)
	require.Equal(t, "210", r.Code)
	_, err = fastener.RingFor(8.3, 1.78) // 7.65 would be stretched by 8.5 %, 9.25 not at all
	require.EqualError(t, err, "no O-ring of 1.78 mm section is stretched by 2 to 5 % over 8.3 mm; 011 suits a groove of 7.8 mm to 8.03 mm; 012 suits a groove of 9.44 mm to 9.71 mm")
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err = fastener.RingFor(bad, 1.78)
		require.ErrorIs(t, err, fastener.ErrAsked)
	}
	_, err = fastener.RingFor(20, 2)
	require.ErrorIs(t, err, fastener.ErrAsked)
}

func TestStandards(t *testing.T) {
	for _, std := range fastener.Standards {
		require.Contains(t, std.Source, std.Number)
		require.NotEmpty(t, std.Label)
	}
}
