package web_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/plan/demo"
	"fettle/store"
	"fettle/web"
)

// BenchmarkLogPage is the first page of the log of the demo lathe, through the whole handler: read from disk
// and written out, with a photo at every fifth entry. Goal: at 10,000 entries within 1.3 times of 100.
func BenchmarkLogPage(b *testing.B) {
	for _, entries := range []int{100, 10_000} {
		b.Run(fmt.Sprintf("entries=%d", entries), func(b *testing.B) { benchLog(b, entries, logPath) })
	}
}

// BenchmarkLogPageLater is a page from the middle of the log.
func BenchmarkLogPageLater(b *testing.B) {
	benchLog(b, 10_000, logPath+"?after="+minute(5_000)+"_5000")
}

// BenchmarkLogSearch is a search that meets one entry in five.
func BenchmarkLogSearch(b *testing.B) { benchLog(b, 10_000, logPath+"?q=gib+scr") }

func minute(i int) string {
	return time.Date(2020, 1, 1, 8, 0, 0, 0, time.UTC).Add(time.Duration(i) * 90 * time.Minute).Format(buildlog.TimeLayout)
}

func benchLog(b *testing.B, entries int, target string) {
	b.Helper()
	kept, err := store.Open(b.Context(), b.TempDir(), time.Now)
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, kept.Close()) })
	var log []buildlog.Entry
	for i := range entries {
		e := buildlog.Entry{Key: fmt.Sprintf("e%d", i), At: minute(i), Text: "Took another cut off the bracket, and *measured* it: " + minute(i), Hours: "1:30"}
		if i%2 == 0 {
			e.Upgrade, e.Cost = "1", "7 EUR"
		}
		if i%5 == 0 {
			e.Text = "Scraped the gib. " + e.Text
			e.Photos = []buildlog.Photo{{SHA256: fmt.Sprintf("%064x", i), Caption: "the slide on the plate", Type: "image/jpeg", Width: 4032, Height: 3024}}
		}
		log = append(log, e)
	}
	_, err = kept.AddMachine(b.Context(), demo.Lathe(), log...)
	require.NoError(b, err)
	s, err := web.New(web.Options{Listen: listen, Log: quiet(), Store: kept, Now: time.Now})
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		w := httptest.NewRecorder()
		s.Handler().ServeHTTP(w, request(http.MethodGet, target, nil))
		if w.Code != http.StatusOK {
			b.Fatal(w.Code, w.Body.String())
		}
	}
}
