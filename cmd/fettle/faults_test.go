package main

import (
	"bytes"
	"context"
	"database/sql"
	"flag"
	"fmt"
	"image/jpeg"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/store"
)

var (
	kills     = flag.Int("kills", 12, "how often the program is killed; 200 for the long run")
	killsSeed = flag.Uint64("kills-seed", 0, "what its moments are drawn from; 0: another one each time, which is printed")
)

// writer is somebody who writes entries with photos, one after another, and knows what was acknowledged.
type writer struct {
	name      int
	random    *rand.Rand
	count     int
	kept      []written         // acknowledged
	photos    map[string][]byte // acknowledged, by SHA-256
	unsure    written           // under way when the program was killed
	unsureNew bool
	cut       int      // requests that got no answer
	faults    []string // answers that are none of those that are right
}

// write goes on until no answer comes, and tells of each that did.
func (w *writer) write(c *child, acknowledged func()) {
	if w.unsure.key != "" && w.unsureNew { // sent again, as nobody knows whether it came
		if !w.save(c, w.unsure) {
			return
		}
	}
	for {
		w.count++
		e := written{key: fmt.Sprintf("w%d-%d", w.name, w.count), text: fmt.Sprintf("Entry %d of %d. %s", w.count, w.name, strings.Repeat("Scraped, blued, scraped. ", w.random.IntN(200)))}
		for range w.random.IntN(3) {
			file := noise(w.random)
			status, answer, err := c.sendPhoto(e.key, file)
			if err != nil {
				w.cut++
				return
			}
			if status != http.StatusOK {
				w.faults = append(w.faults, fmt.Sprintf("photo: %d %s", status, answer))
				return
			}
			sum := sha256Of(file)
			w.photos[sum] = file
			e.photos = append(e.photos, sum)
			acknowledged()
		}
		if !w.save(c, e) {
			return
		}
		acknowledged()
		if n := len(w.kept); w.random.IntN(3) == 0 { // and one of them is changed
			changed := w.kept[w.random.IntN(n)]
			changed.text = fmt.Sprintf("Changed at %d. %s", w.count, changed.text)
			if !w.save(c, changed) {
				return
			}
			acknowledged()
		}
	}
}

func (w *writer) save(c *child, e written) bool {
	w.unsure, w.unsureNew = e, e.revision == 0
	status, answer, err := c.sendEntry(e)
	if err != nil {
		w.cut++
		return false
	}
	if status != http.StatusSeeOther {
		w.faults = append(w.faults, fmt.Sprintf("entry %s at %d: %d %s", e.key, e.revision, status, answer))
		return false
	}
	w.unsure = written{}
	e.revision++
	if i := slices.IndexFunc(w.kept, func(is written) bool { return is.key == e.key }); i >= 0 {
		w.kept[i] = e
	} else {
		w.kept = append(w.kept, e)
	}
	return true
}

// check holds what was acknowledged to what is in the folder, and takes over what was done of what was
// under way: all of it or nothing.
func (w *writer) check(t *testing.T, s *store.Store) {
	require.Empty(t, w.faults)
	for i := range w.kept {
		is, err := s.LogEntry(t.Context(), 1, w.kept[i].key)
		require.NoError(t, err)
		if w.unsure.key == is.Key && is.Revision == w.kept[i].revision+1 {
			w.kept[i].text, w.kept[i].revision = w.unsure.text, is.Revision
		}
		require.Equal(t, w.kept[i], written{is.Key, is.Text, sums(is.Photos), is.Revision})
	}
	if !w.unsureNew {
		w.unsure = written{}
	}
}

// knows tells whether it wrote an entry, as it is.
func (w *writer) knows(e buildlog.Entry) bool {
	return slices.ContainsFunc(append(w.kept, w.unsure), func(is written) bool {
		return is.key == e.Key && is.text == e.Text && slices.Equal(is.photos, sums(e.Photos))
	})
}

func sums(photos []buildlog.Photo) (all []string) {
	for _, p := range photos {
		all = append(all, p.SHA256)
	}
	return all
}

// randomOf gives what the moments of kills are drawn from.
func randomOf(t *testing.T) *rand.Rand {
	t.Helper()
	seed := *killsSeed
	if seed == 0 {
		seed = rand.Uint64()
	}
	t.Logf("-kills %d -kills-seed %d", *kills, seed)
	return rand.New(rand.NewPCG(seed, 0))
}

// Killed at any moment, in the middle of writes and uploads, the program has afterwards whatever it
// acknowledged, and shows no half photo. What nobody knows of is sent again, and is there once.
func TestKilledUnderWrites(t *testing.T) {
	random := randomOf(t)
	data := t.TempDir()
	_, stderr, code := call(t, nil, "import", "-data", data, write(t, mill))
	require.Zero(t, code, stderr)
	writers := make([]*writer, 3)
	for i := range writers {
		writers[i] = &writer{name: i, random: rand.New(rand.NewPCG(random.Uint64(), 0)), photos: map[string][]byte{}}
	}
	seen := map[string]bool{}
	began := time.Now()
	for range *kills {
		c := serveApart(t, theProgram(t, "-listen", "127.0.0.1:0", "-data", data))
		killUnderWrites(t, c, writers, random)
		checkFolder(t, data, writers)
		checkFiles(t, data, seen)
	}
	checkShown(t, serveApart(t, theProgram(t, "-listen", "127.0.0.1:0", "-data", data)), writers)
	entries, photos, cut := 0, 0, 0
	for _, w := range writers {
		entries, photos, cut = entries+len(w.kept), photos+len(w.photos), cut+w.cut
	}
	require.NotZero(t, entries)
	t.Logf("%d kills, %d requests cut off: %d entries and %d photos acknowledged, none lost, in %v",
		*kills, cut, entries, photos, time.Since(began).Round(time.Second))
}

// Killed at any moment, a backup is there whole or not at all, and so is what is restored; and the next one
// works as if nothing had been.
func TestKilledBackupAndRestore(t *testing.T) {
	random := randomOf(t)
	data := t.TempDir()
	_, stderr, code := call(t, nil, "import", "-data", data, write(t, mill))
	require.Zero(t, code, stderr)
	w := &writer{random: random, photos: map[string][]byte{}}
	c := serveApart(t, theProgram(t, "-listen", "127.0.0.1:0", "-data", data))
	for n := range 20 {
		file := noise(random)
		status, answer, err := c.sendPhoto("k", file)
		require.NoError(t, err)
		require.Equal(t, http.StatusOK, status, "%d %s", n, answer)
		w.photos[sha256Of(file)] = file
	}
	checkShown(t, c, []*writer{w})
	whole := filepath.Join(t.TempDir(), "whole.tar")
	took := max(runApart(t, time.Hour, "backup", "-data", data, whole), runApart(t, time.Hour, "restore", "-data", filepath.Join(t.TempDir(), "data"), whole))
	while := func() time.Duration { return time.Duration(random.Int64N(int64(took))) }
	backups, restores := 0, 0
	for n := range *kills {
		archive, folder := filepath.Join(t.TempDir(), "backup.tar"), filepath.Join(t.TempDir(), "data")
		runApart(t, while(), "backup", "-data", data, archive)
		if _, err := os.Stat(archive); err == nil {
			backups++
			_, stderr, code := call(t, nil, "restore", "-data", filepath.Join(t.TempDir(), "data"), archive)
			require.Zero(t, code, "%d: %s", n, stderr)
		}
		runApart(t, while(), "restore", "-data", folder, whole)
		if _, err := os.Stat(folder); err == nil {
			restores++
		} else {
			_, stderr, code := call(t, nil, "restore", "-data", folder, whole)
			require.Zero(t, code, "%d: %s", n, stderr)
		}
		checkFolder(t, folder, nil)
		checkFiles(t, folder, map[string]bool{})
	}
	t.Logf("of %d, %d backups and %d restored folders were there in spite of the kill", *kills, backups, restores)
}

// runApart runs the program and kills it after a while, unless it has ended by then. It tells how long that was.
func runApart(t *testing.T, while time.Duration, args ...string) time.Duration {
	t.Helper()
	c := theProgram(t, args...)
	c.Env = append(os.Environ(), "FETTLE_TEST_PROGRAM=1")
	began := time.Now()
	require.NoError(t, c.Start())
	timer := time.AfterFunc(while, func() { _ = c.Process.Kill() })
	defer timer.Stop()
	if err := c.Wait(); err != nil {
		require.ErrorContains(t, err, "killed")
	}
	return time.Since(began)
}

// killUnderWrites lets everybody write, and kills the program a random while after a random number of
// answers. The while is what makes the moment random; nothing waits for it.
func killUnderWrites(t *testing.T, c *child, writers []*writer, random *rand.Rand) {
	t.Helper()
	answers, while := random.IntN(25), time.Duration(random.IntN(30_000))*time.Microsecond
	var mutex sync.Mutex
	acknowledged := func() {
		mutex.Lock()
		defer mutex.Unlock()
		if answers--; answers == 0 {
			time.AfterFunc(while, func() { _ = c.Process.Kill() })
		}
	}
	answers++
	acknowledged() // so that none is a number too
	var all sync.WaitGroup
	for _, w := range writers {
		all.Go(func() { w.write(c, acknowledged) })
	}
	all.Wait()
	require.Error(t, c.Wait(), "killed")
	c.client.CloseIdleConnections()
}

// checkFolder looks into the data folder once nobody uses it.
func checkFolder(t *testing.T, data string, writers []*writer) {
	t.Helper()
	s, err := store.Open(context.WithoutCancel(t.Context()), data, time.Now)
	require.NoError(t, err)
	defer s.Close()
	for _, w := range writers {
		w.check(t, s)
	}
	log, err := s.WholeLog(t.Context(), 1)
	require.NoError(t, err)
	for _, e := range log { // those under way are whole, or not there
		require.True(t, slices.ContainsFunc(writers, func(w *writer) bool { return w.knows(e) }), e.Key)
	}
	report, err := s.CheckPhotos(t.Context())
	require.NoError(t, err)
	require.Empty(t, report.Missing)
	db, err := sql.Open("sqlite3", "file:"+filepath.Join(data, store.FileName))
	require.NoError(t, err)
	defer db.Close()
	var is string
	require.NoError(t, db.QueryRowContext(t.Context(), `PRAGMA integrity_check`).Scan(&is))
	require.Equal(t, "ok", is)
}

// checkFiles holds every file that came to its name to it: an original to its sum, a rendition to being
// whole. Those that were seen before are not read again.
func checkFiles(t *testing.T, data string, seen map[string]bool) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(data, "*", "??", "[0-9a-f]*"))
	require.NoError(t, err)
	for _, path := range files {
		if seen[path] {
			continue
		}
		seen[path] = true
		file, err := os.ReadFile(path)
		require.NoError(t, err)
		if strings.HasSuffix(path, ".jpg") {
			_, err := jpeg.Decode(bytes.NewReader(file))
			require.NoError(t, err, path)
			continue
		}
		require.Equal(t, filepath.Base(path), sha256Of(file))
	}
}

// checkShown asks the program for every photo that was acknowledged, and stops it.
func checkShown(t *testing.T, c *child, writers []*writer) {
	t.Helper()
	for _, w := range writers {
		for sum, file := range w.photos {
			status, answer, err := c.send(http.MethodGet, "/photos/"+sum+"/original", formType, nil)
			require.NoError(t, err)
			require.Equal(t, http.StatusOK, status)
			require.True(t, bytes.Equal(file, answer), "byte for byte")
			status, answer, err = c.send(http.MethodGet, "/photos/"+sum+"/small", formType, nil)
			require.NoError(t, err)
			require.Equal(t, http.StatusOK, status)
			_, err = jpeg.Decode(bytes.NewReader(answer))
			require.NoError(t, err)
		}
	}
	require.NoError(t, c.Process.Signal(os.Interrupt))
	require.NoError(t, c.Wait(), "%s", c.said)
}
