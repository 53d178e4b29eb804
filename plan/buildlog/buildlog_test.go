package buildlog_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/plan/order"
)

// Hours as people write them; common practice, no source.
func TestParseHours(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"": 0, "  ": 0, "0": 0, "1": time.Hour, "1.5": 90 * time.Minute, "1,5": 90 * time.Minute, ".75": 45 * time.Minute,
		"1:30": 90 * time.Minute, "0:05": 5 * time.Minute, "1 h": time.Hour, "1h30": 90 * time.Minute, "1 h 30 min": 90 * time.Minute,
		"1h30m": 90 * time.Minute, "45 min": 45 * time.Minute, "90m": 90 * time.Minute, "2 Hours": 2 * time.Hour, "1½": 90 * time.Minute,
		"½ h": 30 * time.Minute, "2,25 hrs": 135 * time.Minute, "0.1": 6 * time.Minute, "0.3333": 1199*time.Second + 880*time.Millisecond,
	} {
		got, err := buildlog.ParseHours(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"x", "-1", "1:60", "1:5", "1 30", "h", "min", ".", "2.", "1e3", "1.5.2", "45 s", "١", "1 h 30 h"} {
		_, err := buildlog.ParseHours(text)
		require.ErrorIs(t, err, buildlog.ErrHours, text)
	}
	_, err := buildlog.ParseHours("99999")
	require.ErrorIs(t, err, buildlog.ErrLong)
}

// 3 × 0.10 is 0.30, which binary fractions would miss; ten hours of six minutes are one hour.
func TestSumIsExact(t *testing.T) {
	var sum buildlog.Totals
	sum.Add(buildlog.Entry{Hours: "0.1", Cost: "0.10", Currency: " gbp "}, 7)
	for range 3 {
		sum.Add(buildlog.Entry{Hours: "0.1", Cost: "0.10", Currency: "GBP"}, 1)
	}
	for _, e := range []buildlog.Entry{{}, {Cost: "100 JPY"}, {Hours: "2", Cost: "a few"}, {Hours: "soon", Cost: "£1"}} {
		sum.Add(e, 1)
	}
	require.Equal(t, buildlog.Totals{Entries: 14, Spent: 3 * time.Hour, Unread: 2,
		Costs: []order.Price{{Minor: 200, Currency: "GBP"}, {Minor: 100, Currency: "JPY"}}}, sum)
}

func FuzzParseHours(f *testing.F) {
	f.Add("1 h 30")
	f.Fuzz(func(t *testing.T, text string) {
		if spent, err := buildlog.ParseHours(text); err == nil && (spent < 0 || spent > 10_000*time.Hour) {
			t.Fatalf("%q is %v", text, spent)
		}
	})
}

// 1 h and 2 h are 3 h; 1.00 GBP and 2.50 GBP are 3.50 GBP, beside 7 SEK.
func TestSumsAreAdded(t *testing.T) {
	a := buildlog.Totals{Entries: 2, Spent: time.Hour, Unread: 1, Costs: []order.Price{{Minor: 100, Currency: "GBP"}}}
	b := buildlog.Totals{Entries: 3, Spent: 2 * time.Hour, Costs: []order.Price{{Minor: 250, Currency: "GBP"}, {Minor: 700, Currency: "SEK"}}}
	want := buildlog.Totals{Entries: 5, Spent: 3 * time.Hour, Unread: 1, Costs: []order.Price{{Minor: 350, Currency: "GBP"}, {Minor: 700, Currency: "SEK"}}}
	require.Equal(t, want, a.Plus(b))
	require.Equal(t, int64(100), a.Costs[0].Minor, "neither is changed")
	require.Equal(t, a, buildlog.Totals{}.Plus(a))
}
