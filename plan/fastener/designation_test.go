package fastener_test

import (
	"strings"
	"testing"

	"fettle/plan/fastener"

	"github.com/stretchr/testify/require"
)

func TestParse(t *testing.T) {
	for _, tc := range []struct{ text, want string }{
		{"ISO 4762 M6 × 30", "ISO 4762 M6 × 30"},
		{"iso4762-m6x30", "ISO 4762 M6 × 30"},
		{"ISO 4762 - M6 x 30 - 8.8", "ISO 4762 M6 × 30 8.8"},
		{"ISO 4762:2004 M2,5*10 A2-70", "ISO 4762 M2.5 × 10 A2-70"},
		{"ISO 4032 M8", "ISO 4032 M8"},
		{"ISO 7089 - 6 - 200 HV", "ISO 7089 6 200 HV"},
		{"ISO 8734 4x20", "ISO 8734 4 × 20"},
		{"ISO 2338 6 m6 x 30", "ISO 2338 6 m6 × 30"},
		{"ISO 2338 6×30", "ISO 2338 6 m6 × 30"},
		{"ISO 2339 A 5 × 30", "ISO 2339 A 5 × 30"},
		{"ISO 3601-1 110", "ISO 3601-1 110 9.19 × 2.62"},
		{"ISO 3601-1 110 9.19 × 2.62", "ISO 3601-1 110 9.19 × 2.62"},
	} {
		d, err := fastener.Parse(tc.text)
		require.NoError(t, err, tc.text)
		require.Equal(t, tc.want, d.String(), tc.text)
	}
	for _, text := range []string{"", "M6 × 30", "ISO 15 10 × 19 × 5", "ISO", "ISO 47625 M6", "oil VG 68", "ISO 40 M6"} {
		_, err := fastener.Parse(text)
		require.ErrorIs(t, err, fastener.ErrOther, text)
	}
	for _, text := range []string{"ISO 4762", "ISO 4762 six", "ISO 4762 M6 x", "ISO 4762 M6 x 0", "ISO 4762 M6 × 9999", "ISO 2338 6 h8 × 30",
		"ISO 2339 B 6 × 30", strings.Repeat("ISO 4762 ", 20)} {
		_, err := fastener.Parse(text)
		require.ErrorIs(t, err, fastener.ErrDesignation, text)
	}
}

func TestCheck(t *testing.T) {
	for _, text := range []string{"ISO 4762 M6 × 30", "ISO 4762 M6 × 30 8.8", "ISO 4026 M4 × 6", "ISO 7089 6", "ISO 4035 M10", "ISO 2339 A 5 × 30", "ISO 3601-1 210"} {
		require.NoError(t, fastener.Check(text), text)
	}
	for _, tc := range []struct{ text, say string }{
		{"ISO 4762 M6 × 33", "33 mm is no length of ISO 4762 M6: take 30 mm or 35 mm"},
		{"ISO 4762 M6 × 70", "ISO 4762 M6 is made up to 60 mm"},
		{"ISO 4762 M6 × 5", "ISO 4762 M6 is made from 10 mm"},
		{"ISO 4762 M6", "ISO 4762 M6 needs a length, from 10 mm to 60 mm"},
		{"ISO 4762 M7 × 30", "ISO 4762 has no size M7 here"},
		{"ISO 7089 M6 × 3", "ISO 7089 has no size M6 here"},
		{"ISO 4032 M6 × 3", "ISO 4032 has no length"},
		{"ISO 3601-1 999", "ISO 3601-1 has no size 999 here"},
	} {
		require.EqualError(t, fastener.Check(tc.text), tc.say, tc.text)
	}
	require.ErrorIs(t, fastener.Check("ISO 15 10 × 19 × 5"), fastener.ErrOther)
}

// Every designation that the tables give is read back as itself, and is sold.
func TestDesignationsReadBack(t *testing.T) {
	var all []string
	for _, std := range fastener.Standards {
		for _, s := range fastener.Screws(std.Number) {
			for _, l := range s.Lengths() {
				all = append(all, s.Designation(l))
			}
		}
	}
	for _, p := range fastener.Pins {
		for _, l := range p.Lengths() {
			all = append(all, p.Designation(l))
		}
	}
	for _, n := range fastener.Nuts {
		all = append(all, n.Designation())
	}
	for _, w := range fastener.Washers {
		all = append(all, w.Designation())
	}
	for _, r := range fastener.Rings {
		all = append(all, r.Designation())
	}
	for _, text := range all {
		d, err := fastener.Parse(text)
		require.NoError(t, err)
		require.Equal(t, text, d.String())
		require.NoError(t, fastener.Check(text))
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"ISO 4762 M6 × 30", "iso4762-m6x30-8.8", "ISO 7089 - 6 - 200 HV", "ISO 2339 A 5 × 30", "ISO 3601-1 110 9.19 × 2.62", "ISO 3601-1", "ISO 2338 6 m6 x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := fastener.Parse(text)
		if err != nil {
			return
		}
		again, err := fastener.Parse(d.String())
		if len(d.String()) <= 80 {
			require.NoError(t, err, "%q from %q", d.String(), text)
			require.Equal(t, d.String(), again.String())
		}
		_ = fastener.Check(text) // whatever it says, it says it
	})
}
