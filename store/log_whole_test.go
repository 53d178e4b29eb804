package store_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/plan/exchange"
	"fettle/store"
	"fettle/store/photo"
)

// A machine goes out as a file and comes in elsewhere, without its photos; then one of them comes.
func TestLogGoesOutAndComesIn(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	file := jpegOf(t, 1)
	p := upload(t, s, id, "a", file)
	p.Caption, p.Role = "the gib", buildlog.After
	logged(t, s, id, buildlog.Entry{Key: "b", At: "2026-03-02T12:00", Text: "later", Upgrade: "1", Axis: "cross"})
	logged(t, s, id, buildlog.Entry{Key: "a", At: "2026-03-01T12:00", Text: "scraped", Hours: "2", Photos: []buildlog.Photo{p}})
	logged(t, s, id, buildlog.Entry{Key: "gone"})
	require.NoError(t, s.DeleteLogEntry(t.Context(), id, "gone"))
	whole := func(s *store.Store, id int64) exchange.File {
		log, err := s.WholeLog(t.Context(), id)
		require.NoError(t, err)
		return exchange.File{Machine: read(t, s, id).Machine, Log: log}
	}
	var text bytes.Buffer
	require.NoError(t, exchange.Write(&text, whole(s, id)))
	came, err := exchange.Read(&text)
	require.NoError(t, err)

	elsewhere := open(t, t.TempDir())
	for range 2 { // the same log twice is the log of two machines
		id, err = elsewhere.AddMachine(t.Context(), came.Machine, came.Log...)
		require.NoError(t, err)
		require.Equal(t, whole(s, 1), whole(elsewhere, id))
	}
	require.Equal(t, []string{"a"}, keys(page(t, elsewhere, store.LogQuery{MachineID: id, Search: "gib"}).Entries))
	_, err = elsewhere.OpenPhoto(t.Context(), p.SHA256, photo.Small)
	require.ErrorIs(t, err, store.ErrNotFound)
	report, err := elsewhere.CheckPhotos(t.Context())
	require.NoError(t, err)
	require.Equal(t, store.PhotoReport{Missing: []string{p.SHA256}}, report)
	upload(t, elsewhere, id, "other", file)
	small, err := elsewhere.OpenPhoto(t.Context(), p.SHA256, photo.Small)
	require.NoError(t, err)
	require.NoError(t, small.Close())

	// What has been deleted is not named.
	require.NoError(t, s.DeleteUpgrade(t.Context(), 1, "1"))
	require.NoError(t, s.DeleteAxis(t.Context(), 1, "cross"))
	require.Equal(t, []string{"", ""}, []string{whole(s, 1).Log[1].Upgrade, whole(s, 1).Log[1].Axis})
	require.NoError(t, exchange.Write(&text, whole(s, 1)))
}
