package store_test

import (
	"archive/tar"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/store"
	"fettle/store/photo"
)

// entry is a file in an archive.
type entry struct {
	name string
	body []byte
}

// unpacked reads an archive with another reader than the program's own way through it.
func unpacked(t testing.TB, path string) (all []entry) {
	t.Helper()
	file, err := os.ReadFile(path)
	require.NoError(t, err)
	for r := tar.NewReader(bytes.NewReader(file)); ; {
		h, err := r.Next()
		if err == io.EOF {
			return all
		}
		require.NoError(t, err)
		body, err := io.ReadAll(r)
		require.NoError(t, err)
		all = append(all, entry{h.Name, body})
	}
}

func sumOf(body []byte) string {
	sum := sha256.Sum256(body)
	return hex.EncodeToString(sum[:])
}

func photoName(body []byte) string { return "photos/" + sumOf(body)[:2] + "/" + sumOf(body) }

// backedUp is a folder with a machine, a log and two photos, and a backup of it.
func backedUp(t testing.TB) (s *store.Store, id int64, path string) {
	t.Helper()
	s, err := store.Open(t.Context(), t.TempDir(), atNoon)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Close()) })
	id, err = s.AddMachine(t.Context(), small())
	require.NoError(t, err)
	one, two := upload(t, s, id, "k", jpegOf(t, 1)), upload(t, s, id, "k", jpegOf(t, 2))
	_, err = s.SaveLogEntry(t.Context(), id, 0, buildlog.Entry{Key: "k", At: "2026-03-01T12:00", Text: "Bored", Photos: []buildlog.Photo{one, two}})
	require.NoError(t, err)
	path = filepath.Join(t.TempDir(), "backup.tar")
	made, err := s.Backup(t.Context(), path)
	require.NoError(t, err)
	is, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, store.Backed{Photos: 2, Bytes: is.Size()}, made)
	return s, id, path
}

func bytesOf(t testing.TB, s *store.Store, sum string, size photo.Size) []byte {
	t.Helper()
	file, err := s.OpenPhoto(t.Context(), sum, size)
	require.NoError(t, err)
	defer file.Close()
	body, err := io.ReadAll(file)
	require.NoError(t, err)
	return body
}

func TestBackupComesBack(t *testing.T) {
	s, id, path := backedUp(t)
	later := add(t, s, small())
	folder := filepath.Join(t.TempDir(), "new", "folder")
	is, err := store.Restore(t.Context(), path, folder)
	require.NoError(t, err)
	require.Equal(t, store.Restored{Made: noon, Photos: 2}, is)
	require.Equal(t, []string{store.FileName, "photos"}, files(t, folder), "nothing beside them")
	require.Equal(t, []string{"folder"}, files(t, filepath.Dir(folder)))
	for path, want := range map[string]os.FileMode{folder: 0o700, filepath.Join(folder, store.FileName): 0o600} {
		state, err := os.Stat(path)
		require.NoError(t, err)
		require.Equal(t, want, state.Mode().Perm(), "for the owner alone")
	}

	back := open(t, folder)
	require.Equal(t, read(t, s, id), read(t, back, id))
	want, err := s.WholeLog(t.Context(), id)
	require.NoError(t, err)
	log, err := back.WholeLog(t.Context(), id)
	require.NoError(t, err)
	require.Equal(t, want, log)
	require.Len(t, log[0].Photos, 2)
	for i, p := range log[0].Photos {
		require.Equal(t, jpegOf(t, uint8(1+i)), bytesOf(t, back, p.SHA256, photo.Original))
		require.NotEmpty(t, bytesOf(t, back, p.SHA256, photo.Small), "made anew")
	}
	_, err = back.Machine(t.Context(), later)
	require.ErrorIs(t, err, store.ErrNotFound)
}

// One that was shut out since the backup does not come in by it.
func TestRestoreLetsNobodyIn(t *testing.T) {
	s := open(t, t.TempDir())
	require.NoError(t, s.SetPassphrase(t.Context(), "a hash"))
	token := store.Token{1, 2, 3}
	device, err := s.AddDevice(t.Context(), "a hash", token, store.Device{Name: "Pocket telephone", Way: store.ByCode, Expires: noon.AddDate(0, 0, 30)}, 0)
	require.NoError(t, err)
	path, folder := filepath.Join(t.TempDir(), "backup.tar"), filepath.Join(t.TempDir(), "data")
	_, err = s.Backup(t.Context(), path)
	require.NoError(t, err)
	require.NoError(t, s.ShutOut(t.Context(), device))

	_, err = store.Restore(t.Context(), path, folder)
	require.NoError(t, err)
	back := open(t, folder)
	_, err = back.DeviceOf(t.Context(), token)
	require.ErrorIs(t, err, store.ErrNotFound)
	hash, err := back.Passphrase(t.Context())
	require.NoError(t, err)
	require.Empty(t, hash)
	data, err := os.ReadFile(filepath.Join(folder, store.FileName))
	require.NoError(t, err)
	require.NotContains(t, string(data), "Pocket telephone")
}

func TestBackupIsAPlainArchive(t *testing.T) {
	_, _, path := backedUp(t)
	state, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), state.Mode().Perm())
	require.Equal(t, []string{"backup.tar"}, files(t, filepath.Dir(path)), "nothing beside it")

	all := unpacked(t, path)
	one, two := photoName(jpegOf(t, 1)), photoName(jpegOf(t, 2))
	require.Equal(t, []string{"manifest.json", "fettle.sqlite", min(one, two), max(one, two)},
		[]string{all[0].name, all[1].name, all[2].name, all[3].name})
	require.Len(t, all, 4)
	var manifest struct {
		Format  string
		Version int
		Made    time.Time
		Files   []struct {
			Name   string
			Size   int
			SHA256 string
		}
	}
	require.NoError(t, json.Unmarshal(all[0].body, &manifest))
	require.Equal(t, "fettle backup", manifest.Format)
	require.Equal(t, 1, manifest.Version)
	require.Equal(t, noon, manifest.Made)
	for i, f := range manifest.Files {
		require.Equal(t, all[1+i].name, f.Name)
		require.Equal(t, len(all[1+i].body), f.Size)
		require.Equal(t, sumOf(all[1+i].body), f.SHA256)
	}
}

// A data file of 8 GiB and more: another program and ours read its size, out of one block. The file is a hole
// behind its header, which takes no room on disk.
func TestBackupOfAHugeDataFile(t *testing.T) {
	for size, kind := range map[int64]tar.Format{1<<33 - 1: tar.FormatUSTAR, 1 << 33: tar.FormatGNU, 9_000_000_000_000: tar.FormatGNU} {
		path := filepath.Join(t.TempDir(), "huge.tar")
		f, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, store.ArchiveHeader(f, store.FileName, size, noon))
		at, err := f.Seek(0, io.SeekCurrent)
		require.NoError(t, err)
		require.Equal(t, int64(512), at)
		_, err = f.Seek(0, io.SeekStart)
		require.NoError(t, err)
		h, err := tar.NewReader(f).Next()
		require.NoError(t, err)
		require.Equal(t, size, h.Size)
		require.Equal(t, kind, h.Format)
		require.True(t, store.IsPlain(h))
		if tool, err := exec.LookPath("tar"); err == nil && size < 1<<40 {
			require.NoError(t, f.Truncate(512+(size+511)/512*512+1024))
			said, err := exec.CommandContext(t.Context(), tool, "-tvf", path).CombinedOutput()
			require.NoError(t, err, string(said))
			require.Contains(t, string(said), fmt.Sprintf(" %d ", size))
		}
		require.NoError(t, f.Close())
	}
}

func TestBackupLeavesWhatIsThere(t *testing.T) {
	s := open(t, t.TempDir())
	path := filepath.Join(t.TempDir(), "precious")
	require.NoError(t, os.WriteFile(path, []byte("precious"), 0o600))
	_, err := s.Backup(t.Context(), path)
	require.ErrorIs(t, err, fs.ErrExist)
	_, err = s.ReplaceBackup(t.Context(), path)
	require.ErrorIs(t, err, store.ErrNoBackup, "told to replace, it replaces backups alone")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "precious", string(text))
	require.Equal(t, []string{"precious"}, files(t, filepath.Dir(path)))
}

func TestBackupInThePlaceOfAnOlderOne(t *testing.T) {
	s, id, path := backedUp(t)
	older, err := os.ReadFile(path)
	require.NoError(t, err)
	upload(t, s, id, "k2", jpegOf(t, 3))
	made, err := s.ReplaceBackup(t.Context(), path)
	require.NoError(t, err)
	require.Equal(t, 3, made.Photos)
	newer, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NotEqual(t, older, newer)
	require.Equal(t, []string{"backup.tar"}, files(t, filepath.Dir(path)))
	made, err = s.ReplaceBackup(t.Context(), filepath.Join(t.TempDir(), "first"))
	require.NoError(t, err, "where there is none it is the first")
	require.Equal(t, 3, made.Photos)
}

func TestBackupThatCannotBeMade(t *testing.T) {
	s, _, _ := backedUp(t)
	folder := t.TempDir()
	_, err := s.Backup(t.Context(), filepath.Join(folder, "none", "b.tar"))
	require.ErrorIs(t, err, fs.ErrNotExist)
	cancelled, cancel := context.WithCancel(t.Context())
	cancel()
	_, err = s.Backup(cancelled, filepath.Join(folder, "b.tar"))
	require.ErrorIs(t, err, context.Canceled)
	require.Empty(t, files(t, folder))
}

// What cannot be copied is told, and takes nothing else with it.
func TestBackupWithoutPhotosThatAreNotWhole(t *testing.T) {
	data := t.TempDir()
	s := open(t, data)
	id := add(t, s, small())
	var sums []string
	for i := range uint8(5) {
		sums = append(sums, upload(t, s, id, "k", jpegOf(t, i)).SHA256)
	}
	at := func(i int) string { return filepath.Join(data, "photos", sums[i][:2], sums[i]) }
	require.NoError(t, os.Remove(at(0)))
	body, err := os.ReadFile(at(1))
	require.NoError(t, err)
	body[len(body)/2] ^= 1
	require.NoError(t, os.WriteFile(at(1), body, 0o600))
	require.NoError(t, os.Truncate(at(2), 100))
	require.NoError(t, os.Remove(at(3)))
	require.NoError(t, os.Mkdir(at(3), 0o700), "can be opened, but not read, like a file on a disk that fails")

	path, folder := filepath.Join(t.TempDir(), "backup.tar"), filepath.Join(t.TempDir(), "data")
	made, err := s.Backup(t.Context(), path)
	require.NoError(t, err)
	require.Equal(t, 1, made.Photos)
	require.Equal(t, sums[:1], made.Missing)
	require.ElementsMatch(t, sums[1:4], made.Damaged)
	_, err = store.Restore(t.Context(), path, folder)
	require.NoError(t, err)
	report, err := open(t, folder).CheckPhotos(t.Context())
	require.NoError(t, err)
	require.ElementsMatch(t, sums[:4], report.Missing)
}

// Backups that are made while entries and photos come: each is one state, with all that was acknowledged
// before it.
func TestBackupMeanwhile(t *testing.T) {
	s := open(t, t.TempDir())
	id := add(t, s, small())
	var mutex sync.Mutex
	var acknowledged []string
	ctx, cancel := context.WithCancel(t.Context())
	var writers sync.WaitGroup
	for w := range uint8(2) {
		writers.Go(func() {
			for n := uint8(0); ctx.Err() == nil; n++ {
				key := fmt.Sprintf("%d-%d", w, n)
				p, err := s.AddPhoto(ctx, id, key, bytes.NewReader(jpegOf(t, 2*n+w)))
				if err != nil {
					return
				}
				if _, err := s.SaveLogEntry(ctx, id, 0, buildlog.Entry{Key: key, At: "2026-03-01T12:00", Photos: []buildlog.Photo{p}}); err != nil {
					return
				}
				mutex.Lock()
				acknowledged = append(acknowledged, key)
				mutex.Unlock()
			}
		})
	}
	for n := range 5 {
		mutex.Lock()
		before := append([]string(nil), acknowledged...)
		mutex.Unlock()
		path, folder := filepath.Join(t.TempDir(), "backup.tar"), filepath.Join(t.TempDir(), "data")
		made, err := s.Backup(t.Context(), path)
		require.NoError(t, err, n)
		require.Empty(t, made.Missing)
		_, err = store.Restore(t.Context(), path, folder)
		require.NoError(t, err)
		back := open(t, folder)
		for _, key := range before {
			e, err := back.LogEntry(t.Context(), id, key)
			require.NoError(t, err)
			bytesOf(t, back, e.Photos[0].SHA256, photo.Original)
		}
	}
	cancel()
	writers.Wait()
	require.NotEmpty(t, acknowledged)
}
