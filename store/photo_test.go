package store_test

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
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

// What was sent for an entry that never came is left over after 30 days, and goes where that is asked for
// alone. What was sent again meanwhile still waits.
func TestPhotosOfADraftThatWasGivenUp(t *testing.T) {
	now := noon
	folder := t.TempDir()
	s, err := store.Open(t.Context(), folder, func() time.Time { return now })
	require.NoError(t, err)
	defer s.Close()
	id := add(t, s, small())
	givenUp, again, taken := upload(t, s, id, "a", jpegOf(t, 1)), upload(t, s, id, "b", jpegOf(t, 2)), upload(t, s, id, "c", jpegOf(t, 3))
	require.Equal(t, taken, upload(t, s, id, "d", jpegOf(t, 3)), "for two drafts, of which one becomes an entry")
	logged(t, s, id, buildlog.Entry{Key: "c", Photos: []buildlog.Photo{taken}})
	now = noon.Add(29 * 24 * time.Hour)
	upload(t, s, id, "b", jpegOf(t, 2))
	path := func(p buildlog.Photo) string { return filepath.Join(folder, "photos", p.SHA256[:2], p.SHA256) }
	aged(t, folder)
	report := func() store.PhotoReport {
		r, err := s.CheckPhotos(t.Context())
		require.NoError(t, err)
		return r
	}
	now = noon.Add(30 * 24 * time.Hour)
	require.Empty(t, report())
	now = now.Add(time.Minute)
	want := store.PhotoReport{Orphans: []string{givenUp.SHA256}}
	require.Equal(t, want, report())
	for key, p := range map[string]buildlog.Photo{"a": givenUp, "b": again, "d": taken} {
		staged, err := s.StagedPhotos(t.Context(), id, key)
		require.NoError(t, err)
		require.Equal(t, []buildlog.Photo{p}, staged, "a report changes nothing, and a late draft still has its photo")
	}

	removed, err := s.RemoveOrphans(t.Context())
	require.NoError(t, err)
	require.Equal(t, want, removed)
	require.NoFileExists(t, path(givenUp))
	require.FileExists(t, path(again))
	require.FileExists(t, path(taken))
	staged, err := s.StagedPhotos(t.Context(), id, "a")
	require.NoError(t, err)
	require.Empty(t, staged)
	require.Empty(t, report())
	upload(t, s, id, "a", jpegOf(t, 1))
	require.FileExists(t, path(givenUp), "it can come again")
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

// aged makes all files as old as the clock has them.
func aged(t *testing.T, folder string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(folder, func(path string, _ fs.DirEntry, err error) error {
		return errors.Join(err, os.Chtimes(path, noon, noon))
	}))
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
	aged(t, folder)
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
