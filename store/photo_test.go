package store_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/store"
	"fettle/store/photo"
)

func TestPhotoComesBeforeItsEntry(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	staged := func(key string) []buildlog.Photo {
		list, err := s.StagedPhotos(t.Context(), id, key)
		require.NoError(t, err)
		return list
	}
	require.Empty(t, staged("k"))
	one, two, three := upload(t, s, id, "k", jpegOf(t, 1)), upload(t, s, id, "k", jpegOf(t, 2)), upload(t, s, id, "k", jpegOf(t, 3))
	require.Equal(t, one, upload(t, s, id, "k", jpegOf(t, 1)), "sent again")
	require.Equal(t, []buildlog.Photo{one, two, three}, staged("k"))
	require.Empty(t, staged("other"))

	require.NoError(t, s.UnstagePhoto(t.Context(), id, "k", two.SHA256))
	require.ErrorIs(t, s.UnstagePhoto(t.Context(), id, "k", two.SHA256), store.ErrNotFound)
	logged(t, s, id, buildlog.Entry{Key: "k", Photos: []buildlog.Photo{one}})
	require.Equal(t, []buildlog.Photo{three}, staged("k"), "what came late is not lost")

	_, err := s.AddPhoto(t.Context(), id+1, "k", bytes.NewReader(jpegOf(t, 9)))
	require.ErrorIs(t, err, store.ErrNotFound)
	_, err = s.AddPhoto(t.Context(), id, "k", strings.NewReader("no photo"))
	var no *photo.RefusedError
	require.ErrorAs(t, err, &no)
	_, err = s.AddPhoto(t.Context(), id, "not a key", bytes.NewReader(jpegOf(t, 9)))
	require.ErrorIs(t, err, store.ErrRefused)
}

// Eight at once, and one that breaks off: it takes none of the others with it.
func TestUploadsAtOnce(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	files := make([][]byte, 8)
	for i := range files {
		files[i] = jpegOf(t, uint8(i))
	}
	cancelled, cancel := context.WithCancel(t.Context())
	cancel()
	errs := make([]error, len(files))
	var all sync.WaitGroup
	for i, file := range files {
		ctx := t.Context()
		if i == 3 {
			ctx = cancelled
		}
		all.Go(func() { _, errs[i] = s.AddPhoto(ctx, id, "k", bytes.NewReader(file)) })
	}
	all.Wait()
	require.ErrorIs(t, errs[3], context.Canceled)
	errs[3] = nil
	require.NoError(t, errors.Join(errs...))
	list, err := s.StagedPhotos(t.Context(), id, "k")
	require.NoError(t, err)
	require.Len(t, list, 7)
}

func TestOrphansAndMissingFiles(t *testing.T) {
	now := noon
	folder := t.TempDir()
	s, err := store.Open(t.Context(), folder, func() time.Time { return now })
	require.NoError(t, err)
	defer s.Close()
	id := add(t, s, small())
	shown, staged, loose, lost := upload(t, s, id, "a", jpegOf(t, 1)), upload(t, s, id, "b", jpegOf(t, 2)), upload(t, s, id, "a", jpegOf(t, 3)), upload(t, s, id, "a", jpegOf(t, 4))
	logged(t, s, id, buildlog.Entry{Key: "a", Photos: []buildlog.Photo{shown, lost}})
	require.NoError(t, s.DeleteLogEntry(t.Context(), id, "a"))
	require.NoError(t, s.UnstagePhoto(t.Context(), id, "a", loose.SHA256))
	path := func(p buildlog.Photo) string { return filepath.Join(folder, "photos", p.SHA256[:2], p.SHA256) }
	require.NoError(t, os.Remove(path(lost)))
	begun := filepath.Join(folder, "photos", ".unfinished-1")
	require.NoError(t, os.WriteFile(begun, []byte("half"), 0o600))
	report := func() store.PhotoReport {
		r, err := s.CheckPhotos(t.Context())
		require.NoError(t, err)
		return r
	}
	all := []string{path(shown), path(staged), path(loose), begun}
	for _, file := range all { // as old as the clock has it
		require.NoError(t, os.Chtimes(file, noon, noon))
	}
	now = noon.Add(23 * time.Hour)
	require.Equal(t, store.PhotoReport{Missing: []string{lost.SHA256}}, report(), "what came within a day may be on its way")
	now = noon.Add(25 * time.Hour)
	want := store.PhotoReport{Missing: []string{lost.SHA256}, Orphans: []string{loose.SHA256}, Unfinished: []string{begun}}
	require.Equal(t, want, report())
	for _, file := range all {
		require.FileExists(t, file, "a report changes nothing")
	}

	removed, err := s.RemoveOrphans(t.Context())
	require.NoError(t, err)
	want.Missing = nil
	require.Equal(t, want, removed)
	require.NoFileExists(t, path(loose))
	require.NoFileExists(t, begun)
	require.FileExists(t, path(shown), "a deleted entry can still be had back")
	require.FileExists(t, path(staged))
	require.Equal(t, store.PhotoReport{Missing: []string{lost.SHA256}}, report())
	_, err = s.Photo(t.Context(), loose.SHA256)
	require.ErrorIs(t, err, store.ErrNotFound)
	upload(t, s, id, "a", jpegOf(t, 3))
	require.FileExists(t, path(loose), "it can come again")
}
