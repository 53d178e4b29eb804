package store_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/plan/order"
	"fettle/store"
	"fettle/store/photo"
)

// logged saves an entry that is new.
func logged(t *testing.T, s *store.Store, id int64, e buildlog.Entry) store.LogEntry {
	t.Helper()
	if e.At == "" {
		e.At = "2026-03-01T12:00"
	}
	saved, err := s.SaveLogEntry(t.Context(), id, 0, e)
	require.NoError(t, err)
	return saved
}

// jpegOf is a small photo; another number, another photo.
func jpegOf(t testing.TB, number uint8) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 32, 24))
	for i := range img.Pix {
		img.Pix[i] = number
	}
	img.Set(0, 0, color.White)
	var out bytes.Buffer
	require.NoError(t, jpeg.Encode(&out, img, nil))
	return out.Bytes()
}

func upload(t testing.TB, s *store.Store, id int64, key string, file []byte) buildlog.Photo {
	t.Helper()
	p, err := s.AddPhoto(t.Context(), id, key, bytes.NewReader(file))
	require.NoError(t, err)
	return p
}

// keys are those of a page, in its order.
func keys(entries []store.LogEntry) (all []string) {
	for _, e := range entries {
		all = append(all, e.Key)
	}
	return all
}

func page(t *testing.T, s *store.Store, q store.LogQuery) store.LogPage {
	t.Helper()
	p, err := s.Log(t.Context(), q)
	require.NoError(t, err)
	return p
}

func TestLogEntryIsKeptAsTyped(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	changes := read(t, s, id).Changes
	one, two := upload(t, s, id, "k", jpegOf(t, 1)), upload(t, s, id, "k", jpegOf(t, 2))
	one.Caption, one.Role = "as it <was>", buildlog.Before
	two.Caption, two.Role = "", buildlog.After
	want := buildlog.Entry{Key: "k", At: "2026-02-28T23:59", Text: "# Bored\n\n  the *bracket* <b>\r\n", Hours: "1 ½", Cost: "12,50", Currency: "eur",
		Axis: "cross", Upgrade: "1", Part: "bracket", Photos: []buildlog.Photo{two, one}}
	saved := logged(t, s, id, want)
	require.Equal(t, want, saved.Entry)
	require.EqualValues(t, 1, saved.Revision)
	require.Equal(t, noon, saved.Created)
	require.Zero(t, saved.Deleted)
	got, err := s.LogEntry(t.Context(), id, "k")
	require.NoError(t, err)
	require.Equal(t, saved, got)
	require.Equal(t, []store.LogEntry{saved}, page(t, s, store.LogQuery{MachineID: id}).Entries)
	require.Equal(t, changes, read(t, s, id).Changes, "the plan is the same")
}

func TestPhotoIsKeptByteForByte(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	file := jpegOf(t, 7)
	p := upload(t, s, id, "k", file)
	original, err := s.OpenPhoto(t.Context(), p.SHA256, photo.Original)
	require.NoError(t, err)
	defer original.Close()
	got, err := io.ReadAll(original)
	require.NoError(t, err)
	require.Equal(t, file, got)
	require.Equal(t, "image/jpeg", p.Type)
	require.Equal(t, []int{32, 24}, []int{p.Width, p.Height})
}

func TestEntrySentTwiceIsOne(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	sent := buildlog.Entry{Key: "phone-1", At: "2026-03-01T12:00", Text: "Gib scraped."}
	const senders = 16
	errs := make([]error, senders)
	var all sync.WaitGroup
	for i := range senders {
		all.Go(func() { _, errs[i] = s.SaveLogEntry(context.Background(), id, 0, sent) })
	}
	all.Wait()
	for _, err := range errs {
		require.NoError(t, err)
	}
	require.Equal(t, []string{"phone-1"}, keys(page(t, s, store.LogQuery{MachineID: id}).Entries))

	// Changed at the desk since, and deleted: the phone that sends again changes nothing.
	edited := sent
	edited.Text = "Gib scraped and fitted."
	saved, err := s.SaveLogEntry(t.Context(), id, 1, edited)
	require.NoError(t, err)
	again, err := s.SaveLogEntry(t.Context(), id, 0, sent)
	require.NoError(t, err)
	require.Equal(t, saved, again)
	require.NoError(t, s.DeleteLogEntry(t.Context(), id, "phone-1"))
	again, err = s.SaveLogEntry(t.Context(), id, 0, sent)
	require.NoError(t, err)
	require.Equal(t, noon, again.Deleted)
	require.Empty(t, page(t, s, store.LogQuery{MachineID: id}).Entries)

	// Another entry under the key is not lost silently.
	var stale *store.StaleError[store.LogEntry]
	_, err = s.SaveLogEntry(t.Context(), id, 0, buildlog.Entry{Key: "phone-1", At: sent.At, Text: "Something else."})
	require.ErrorAs(t, err, &stale)
	require.Equal(t, "Gib scraped and fitted.", stale.Current.Text)

	// A key is of its machine.
	other := add(t, s, small())
	require.EqualValues(t, 1, logged(t, s, other, sent).Revision)
}

func TestSaveFromAnOlderRevisionIsRefused(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	e := logged(t, s, id, buildlog.Entry{Key: "k", Text: "one"}).Entry
	e.Text = "two"
	saved, err := s.SaveLogEntry(t.Context(), id, 1, e)
	require.NoError(t, err)
	require.EqualValues(t, 2, saved.Revision)
	e.Text = "three"
	var stale *store.StaleError[store.LogEntry]
	_, err = s.SaveLogEntry(t.Context(), id, 1, e)
	require.ErrorAs(t, err, &stale)
	require.Equal(t, saved, stale.Current)
	require.EqualValues(t, 2, stale.Revision)
}

func TestWhatAnEntryNamesHasToBeThere(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	good := buildlog.Entry{Key: "k", At: "2026-03-01T12:00"}
	for name, spoil := range map[string]func(e *buildlog.Entry){
		"upgrade": func(e *buildlog.Entry) { e.Upgrade = "9" },
		"axis":    func(e *buildlog.Entry) { e.Axis = "none" },
		"photo":   func(e *buildlog.Entry) { e.Photos = []buildlog.Photo{{SHA256: strings.Repeat("0", 64)}} },
	} {
		e := good
		spoil(&e)
		_, err := s.SaveLogEntry(t.Context(), id, 0, e)
		require.ErrorIs(t, err, store.ErrNotFound, name)
		require.ErrorContains(t, err, name)
	}
	p := upload(t, s, id, "k", jpegOf(t, 1))
	for name, spoil := range map[string]func(e *buildlog.Entry){
		"day that is none": func(e *buildlog.Entry) { e.At = "2026-02-30T12:00" },
		"zone":             func(e *buildlog.Entry) { e.At = "2026-02-28T12:00Z" },
		"key":              func(e *buildlog.Entry) { e.Key = "../x" },
		"role":             func(e *buildlog.Entry) { e.Photos = []buildlog.Photo{{SHA256: p.SHA256, Role: "during"}} },
	} {
		e := good
		spoil(&e)
		_, err := s.SaveLogEntry(t.Context(), id, 0, e)
		require.ErrorIs(t, err, store.ErrRefused, name)
	}
	e := good
	e.Photos = []buildlog.Photo{p, p}
	_, err := s.SaveLogEntry(t.Context(), id, 0, e)
	require.ErrorIs(t, err, store.ErrTaken)
	_, err = s.SaveLogEntry(t.Context(), id+1, 0, good)
	require.ErrorIs(t, err, store.ErrNotFound)
	require.Empty(t, page(t, s, store.LogQuery{MachineID: id}).Entries, "what was refused left nothing")

	// What it named stays named when it goes.
	e = good
	e.Upgrade, e.Axis = "1", "cross"
	logged(t, s, id, e)
	require.NoError(t, s.DeleteUpgrade(t.Context(), id, "1"))
	require.NoError(t, s.DeleteAxis(t.Context(), id, "cross"))
	e.Text = "later"
	saved, err := s.SaveLogEntry(t.Context(), id, 1, e)
	require.NoError(t, err)
	require.Equal(t, e, saved.Entry)
}

// Pages that follow each other give each entry once, also while the log grows and shrinks.
func TestPagesOfALog(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	other := add(t, s, small())
	var want []string
	for i := range 23 {
		e := buildlog.Entry{Key: fmt.Sprintf("e%02d", i), At: fmt.Sprintf("2026-03-%02dT12:00", 1+i/3)} // three a day
		if i%2 == 0 {
			e.Upgrade = "1"
		}
		logged(t, s, id, e)
		logged(t, s, other, buildlog.Entry{Key: e.Key})
		want = append([]string{e.Key}, want...) // of one minute the last first
	}
	var got []string
	q := store.LogQuery{MachineID: id, Limit: 5}
	for n := 0; ; n++ {
		p := page(t, s, q)
		got = append(got, keys(p.Entries)...)
		if n == 1 { // behind the reader's back
			logged(t, s, id, buildlog.Entry{Key: "new", At: "2026-03-31T12:00"})
			require.NoError(t, s.DeleteLogEntry(t.Context(), id, "e13"))
		}
		if q.After = p.Next; q.After == "" {
			break
		}
	}
	require.Equal(t, want, got)

	q = store.LogQuery{MachineID: id, Upgrade: "1"}
	require.Equal(t, []string{"e22", "e20", "e18", "e16", "e14", "e12", "e10", "e08", "e06", "e04", "e02", "e00"}, keys(page(t, s, q).Entries))
	require.Empty(t, page(t, s, q).Next)
	_, err := s.Log(t.Context(), store.LogQuery{MachineID: id, After: "yesterday"})
	require.ErrorIs(t, err, store.ErrNotFound)
	_, err = s.Log(t.Context(), store.LogQuery{MachineID: 99})
	require.ErrorIs(t, err, store.ErrNotFound)
}

// written puts marks where a search was met.
func written(runs []store.Run) (text string) {
	for _, r := range runs {
		if r.Met {
			r.Text = "[" + r.Text + "]"
		}
		text += r.Text
	}
	return text
}

func TestSearchInTheLog(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	p := upload(t, s, id, "a", jpegOf(t, 1))
	p2 := upload(t, s, id, "a", jpegOf(t, 2))
	p.Caption, p2.Caption = "the new gib", "screws & <nuts>"
	logged(t, s, id, buildlog.Entry{Key: "a", Text: "Scraped the **gib**; Ölnut \x01cut\x02.", Photos: []buildlog.Photo{p, p2}})
	logged(t, s, id, buildlog.Entry{Key: "b", Text: "Gib screws M5, 7/8\" long", At: "2026-03-02T08:00", Upgrade: "1"})
	logged(t, s, id, buildlog.Entry{Key: "c", Text: strings.Repeat("sawing ", 100) + "the screw " + strings.Repeat("filing ", 100)})
	for search, want := range map[string][]string{
		"gib":                 {"b", "a"},
		"GIB scr":             {"b", "a"},
		`"gib screws"`:        {"b"},
		"olnut":               {"a"},
		"nuts":                {"a"},
		"7/8":                 {"b"},
		"screw":               {"b", "c", "a"},
		"gib NOT screws":      nil, // no word is a command
		"nothing":             nil,
		"...":                 nil,
		"* ^ : ( -":           nil,
		`gib"`:                {"b", "a"},
		"gib OR":              nil,
		"text:gib":            nil,
		"NEAR(gib screws)":    nil,
		"  ":                  {"b", "c", "a"},
		"\x00gib":             {"b", "a"},
		"gib 'x'; DROP TABLE": nil,
	} {
		require.Equal(t, want, keys(page(t, s, store.LogQuery{MachineID: id, Search: search}).Entries), search)
	}
	require.Equal(t, []string{"b"}, keys(page(t, s, store.LogQuery{MachineID: id, Search: "gib", Upgrade: "1"}).Entries))

	hits := page(t, s, store.LogQuery{MachineID: id, Search: "gib scr"}).Hits
	require.Equal(t, `[Gib] [screws] M5, 7/8" long`, written(hits[0].Text))
	require.Nil(t, hits[0].Captions)
	require.Equal(t, "[Scraped] the **[gib]**; Ölnut cut.", written(hits[1].Text))
	require.Equal(t, "the new [gib]", written(hits[1].Captions[0]))
	require.Equal(t, "[screws] & <nuts>", written(hits[1].Captions[1]))
	long := page(t, s, store.LogQuery{MachineID: id, Search: "screw", Limit: 2}).Hits[1]
	require.Contains(t, written(long.Text), "the [screw] filing")
	require.Less(t, len(written(long.Text)), 300, "some words about it")

	// A change, a deletion and a restoration reach the search.
	_, err := s.SaveLogEntry(t.Context(), id, 1, buildlog.Entry{Key: "b", At: "2026-03-02T08:00", Text: "Wedge"})
	require.NoError(t, err)
	require.Equal(t, []string{"a"}, keys(page(t, s, store.LogQuery{MachineID: id, Search: "gib"}).Entries))
	require.NoError(t, s.DeleteLogEntry(t.Context(), id, "a"))
	require.Empty(t, page(t, s, store.LogQuery{MachineID: id, Search: "gib"}).Entries)
	require.NoError(t, s.RestoreLogEntry(t.Context(), id, "a"))
	require.Equal(t, []string{"a"}, keys(page(t, s, store.LogQuery{MachineID: id, Search: "gib"}).Entries))
}

func TestDeletedEntryIsFinalAfter30Days(t *testing.T) {
	now := noon
	folder := t.TempDir()
	s, err := store.Open(t.Context(), folder, func() time.Time { return now })
	require.NoError(t, err)
	defer s.Close()
	id := add(t, s, small())
	p := upload(t, s, id, "a", jpegOf(t, 1))
	a := logged(t, s, id, buildlog.Entry{Key: "a", Text: "gib", Photos: []buildlog.Photo{p}})
	logged(t, s, id, buildlog.Entry{Key: "b"})
	require.NoError(t, s.DeleteLogEntry(t.Context(), id, "a"))
	require.ErrorIs(t, s.DeleteLogEntry(t.Context(), id, "a"), store.ErrNotFound)
	_, err = s.LogEntry(t.Context(), id, "a")
	require.ErrorIs(t, err, store.ErrNotFound)
	_, err = s.SaveLogEntry(t.Context(), id, 1, a.Entry)
	var stale *store.StaleError[store.LogEntry]
	require.ErrorAs(t, err, &stale, "a save does not bring it back by the way")

	now = noon.Add(30 * 24 * time.Hour)
	purged, err := s.PurgeLog(t.Context())
	require.NoError(t, err)
	require.Zero(t, purged)
	deleted, err := s.DeletedLog(t.Context(), id)
	require.NoError(t, err)
	require.Equal(t, []string{"a"}, keys(deleted))
	require.NoError(t, s.RestoreLogEntry(t.Context(), id, "a"))
	got, err := s.LogEntry(t.Context(), id, "a")
	require.NoError(t, err)
	require.Equal(t, a.Entry, got.Entry)
	require.EqualValues(t, 2, got.Revision)

	require.NoError(t, s.DeleteLogEntry(t.Context(), id, "a"))
	now = now.Add(30*24*time.Hour + time.Second)
	purged, err = s.PurgeLog(t.Context())
	require.NoError(t, err)
	require.EqualValues(t, 1, purged)
	require.ErrorIs(t, s.RestoreLogEntry(t.Context(), id, "a"), store.ErrNotFound)
	require.Equal(t, []string{"b"}, keys(page(t, s, store.LogQuery{MachineID: id}).Entries))
	_, err = s.OpenPhoto(t.Context(), p.SHA256, photo.Original)
	require.ErrorIs(t, err, store.ErrNotFound, "it is shown no more")
	require.FileExists(t, filepath.Join(folder, "photos", p.SHA256[:2], p.SHA256), "a photo is never removed unasked")
}

func TestTotalsByUpgrade(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	totals := func() map[string]buildlog.Totals {
		got, err := s.LogTotals(t.Context(), id)
		require.NoError(t, err)
		return got
	}
	require.Empty(t, totals())
	logged(t, s, id, buildlog.Entry{Key: "a", Hours: "1:30", Cost: "0.10", Currency: "eur", Upgrade: "1"})
	logged(t, s, id, buildlog.Entry{Key: "b", Hours: "45 min", Cost: "0,20", Currency: "EUR", Upgrade: "1"})
	logged(t, s, id, buildlog.Entry{Key: "c", Hours: "2", Cost: "£7", Currency: "EUR", Upgrade: "1"})
	logged(t, s, id, buildlog.Entry{Key: "d", Hours: "all day", Cost: "3 EUR"})
	// 1:30 + 0:45 + 2:00 = 4:15. 10 + 20 cents; in binary fractions 0.1 + 0.2 is not 0.3.
	want := map[string]buildlog.Totals{
		"1": {Entries: 3, Spent: 255 * time.Minute, Costs: []order.Price{{Minor: 30, Currency: "EUR"}, {Minor: 700, Currency: "GBP"}}},
		"":  {Entries: 1, Costs: []order.Price{{Minor: 300, Currency: "EUR"}}, Unread: 1},
	}
	require.Equal(t, want, totals())
	require.NoError(t, s.DeleteLogEntry(t.Context(), id, "c"))
	want["1"] = buildlog.Totals{Entries: 2, Spent: 135 * time.Minute, Costs: []order.Price{{Minor: 30, Currency: "EUR"}}}
	require.Equal(t, want, totals())
}

func TestComparisonOfAnUpgrade(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	shot := func(key string, n uint8, role buildlog.Role) buildlog.Photo {
		p := upload(t, s, id, key, jpegOf(t, n))
		p.Role = role
		return p
	}
	none, err := s.Comparison(t.Context(), id, "1")
	require.NoError(t, err)
	require.Equal(t, store.Comparison{}, none)
	first, last := shot("a", 1, buildlog.Before), shot("c", 4, buildlog.After)
	logged(t, s, id, buildlog.Entry{Key: "b", At: "2026-03-02T12:00", Upgrade: "1",
		Photos: []buildlog.Photo{shot("b", 2, buildlog.Before), shot("b", 3, buildlog.After)}})
	logged(t, s, id, buildlog.Entry{Key: "a", At: "2026-03-01T12:00", Upgrade: "1", Photos: []buildlog.Photo{shot("a", 9, ""), first}})
	logged(t, s, id, buildlog.Entry{Key: "c", At: "2026-03-03T12:00", Upgrade: "1", Photos: []buildlog.Photo{last}})
	logged(t, s, id, buildlog.Entry{Key: "d", At: "2026-03-04T12:00", Photos: []buildlog.Photo{shot("d", 5, buildlog.After)}})
	got, err := s.Comparison(t.Context(), id, "1")
	require.NoError(t, err)
	require.Equal(t, store.Comparison{Before: &first, After: &last}, got)
	p, err := s.UpgradePhoto(t.Context(), id, "1", first.SHA256)
	require.NoError(t, err)
	require.Equal(t, first, p)
	_, err = s.UpgradePhoto(t.Context(), id, "2", first.SHA256)
	require.ErrorIs(t, err, store.ErrNotFound, "of another upgrade")

	_, err = s.SaveLogEntry(t.Context(), id, 0, buildlog.Entry{Key: "e", At: "2026-03-04T12:00",
		Photos: []buildlog.Photo{shot("e", 6, buildlog.After), shot("e", 7, buildlog.After)}})
	require.ErrorIs(t, err, store.ErrTaken, "two photos after")
}
