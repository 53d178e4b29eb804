package store_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/store"
)

// longLog keeps a machine with entries, every fifth of them with a photo, over two upgrades.
func longLog(b *testing.B, entries int) (*store.Store, int64) {
	b.Helper()
	s, err := store.Open(b.Context(), b.TempDir(), atNoon)
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, s.Close()) })
	m := small()
	log := make([]buildlog.Entry, entries)
	for i := range log {
		log[i] = buildlog.Entry{Key: fmt.Sprint(i), At: fmt.Sprintf("%04d-%02d-%02dT%02d:00", 2000+i/1000, 1+i%12, 1+i%28, i%24), Upgrade: "1",
			Text: strings.Repeat("Scraped the gib and tried it with blue. ", 6), Hours: "1:30", Cost: "12.50", Currency: "EUR"}
		if i%2 == 0 {
			log[i].Upgrade = ""
		}
		if i%100 == 0 {
			log[i].Text += "The dovetail is in."
		}
		if i%5 == 0 {
			log[i].Photos = []buildlog.Photo{{SHA256: fmt.Sprintf("%064x", i), Type: "image/jpeg", Width: 4000, Height: 3000, Caption: "blued"}}
		}
	}
	id, err := s.AddMachine(b.Context(), m, log...)
	require.NoError(b, err)
	return s, id
}

// BenchmarkLogPage reads what a page of the log shows, of 100 entries with 20 photos and of 10,000 with
// 2,000, in one run.
func BenchmarkLogPage(b *testing.B) {
	for _, entries := range []int{100, 10_000} {
		s, id := longLog(b, entries)
		for name, q := range map[string]store.LogQuery{
			"first": {MachineID: id}, "upgrade": {MachineID: id, Upgrade: "1"},
			"rare": {MachineID: id, Search: "dovetail"}, "common": {MachineID: id, Search: "scraped gib"},
		} {
			b.Run(fmt.Sprintf("%s/%d", name, entries), func(b *testing.B) {
				for b.Loop() {
					_, err := s.Log(b.Context(), q)
					require.NoError(b, err)
				}
			})
		}
		b.Run(fmt.Sprintf("save/%d", entries), func(b *testing.B) {
			for b.Loop() {
				e, err := s.SaveLogEntry(b.Context(), id, 0, buildlog.Entry{At: "2026-03-01T12:00", Text: "Scraped the gib."})
				require.NoError(b, err)
				require.NoError(b, s.DeleteLogEntry(b.Context(), id, e.Key))
			}
		})
		b.Run(fmt.Sprintf("totals after a change/%d", entries), func(b *testing.B) {
			e, err := s.SaveLogEntry(b.Context(), id, 0, buildlog.Entry{At: "2026-03-01T12:00", Hours: "1"})
			require.NoError(b, err)
			for b.Loop() {
				b.StopTimer()
				e, err = s.SaveLogEntry(b.Context(), id, e.Revision, e.Entry)
				require.NoError(b, err)
				b.StartTimer()
				_, err := s.LogTotals(b.Context(), id)
				require.NoError(b, err)
			}
		})
	}
}

// A page is one reach into an index that is in its order: nothing is sorted, whatever the length of the log.
func TestPageOfALogIsOneReach(t *testing.T) {
	s := open(t, t.TempDir())
	for index, q := range map[string]store.LogQuery{
		"log_entry_machine": {MachineID: 1, Limit: 25, After: "2026-03-01T12:00_7"},
		"log_entry_upgrade": {MachineID: 1, Upgrade: "1", Limit: 25, After: "2026-03-01T12:00_7"},
	} {
		plan, err := s.LogPlan(t.Context(), q)
		require.NoError(t, err)
		require.Contains(t, plan, "SEARCH log_entry USING ")
		require.Contains(t, plan, index)
		require.NotContains(t, plan, "TEMP B-TREE")
	}
}
