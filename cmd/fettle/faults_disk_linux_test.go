package main

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"fettle/store"
)

const noRoom = "The disk that holds Fettle's data is full. Nothing of this was saved; what was saved before is safe."

// onFullDisk sees to it that the program says when there is no room, keeps what was there, and goes on when there
// is room again. A small change may find room in the data file still: what is acknowledged is kept then too.
func onFullDisk(t *testing.T, c *child, data string, fill, empty func()) {
	t.Helper()
	random := rand.New(rand.NewPCG(7, 7))
	w := &writer{random: random, photos: map[string][]byte{}}
	photographed := func(key string) {
		file := noise(random)
		status, answer, err := c.sendPhoto(key, file)
		require.NoError(t, err)
		require.Equal(t, http.StatusOK, status, "%s", answer)
		w.photos[sha256Of(file)] = file
		require.True(t, w.save(c, written{key: key, text: "Before", photos: []string{sha256Of(file)}}), w.faults)
	}
	photographed("before")
	fill()
	large := append(noise(random), make([]byte, 20<<20)...) // a browser has to be able to send it all, to read why it was not kept
	status, answer, err := c.sendPhoto("k", large)
	require.NoError(t, err)
	require.Equal(t, http.StatusInsufficientStorage, status, "%s", answer)
	require.Contains(t, saysOf(t, answer), noRoom)
	full := false
	long := strings.Repeat("Scraped, blued, scraped. ", 3000)
	for n := 0; n < 1000 && !full; n++ {
		e := written{key: fmt.Sprintf("full-%d", n), text: fmt.Sprint(n, long)}
		status, answer, err := c.sendEntry(e)
		require.NoError(t, err)
		if full = status == http.StatusInsufficientStorage; full {
			require.Contains(t, string(answer), "is full. Nothing of this was saved", "a page for who has no scripts")
			continue
		}
		require.Equal(t, http.StatusSeeOther, status, "%s", answer)
		e.revision = 1
		w.kept = append(w.kept, e)
	}
	require.True(t, full)
	for _, page := range []string{"/", "/machines/1", "/machines/1/log"} {
		status, _, err := c.send(http.MethodGet, page, formType, nil)
		require.NoError(t, err)
		require.Equal(t, http.StatusOK, status, "what is there is shown")
	}
	empty()
	photographed("after")
	s, err := store.Open(t.Context(), data, time.Now)
	require.NoError(t, err)
	w.check(t, s)
	left, err := filepath.Glob(filepath.Join(data, "*", ".unfinished-*"))
	require.NoError(t, err)
	require.Empty(t, left, "no half photo takes room")
	require.NoError(t, s.Close())
	checkShown(t, c, []*writer{w})
}

// A limit on the size of a file is a disk that is full for one file, and needs no rights.
func TestFileLimitReached(t *testing.T) {
	data := t.TempDir()
	_, stderr, code := call(t, nil, "import", "-data", data, write(t, mill))
	require.Zero(t, code, stderr)
	c := serveApart(t, theProgram(t, "-listen", "127.0.0.1:0", "-data", data))
	limit := func(bytes uint64) func() {
		return func() {
			require.NoError(t, unix.Prlimit(c.Process.Pid, unix.RLIMIT_FSIZE, &unix.Rlimit{Cur: bytes, Max: unix.RLIM_INFINITY}, nil))
		}
	}
	onFullDisk(t, c, data, limit(32<<10), limit(unix.RLIM_INFINITY))
}

// mounted gives a folder on which a file system of 16 MB is mounted. To mount it without rights, the test runs
// itself where it has a table of mounts of its own: outside, false says that this has been done.
func mounted(t *testing.T) (disk string, inside bool) {
	t.Helper()
	const name = "FETTLE_TEST_DISK"
	if os.Getenv(name) == "" {
		self, err := os.Executable()
		require.NoError(t, err)
		apart := exec.CommandContext(t.Context(), self, "-test.run", "^"+t.Name()+"$")
		apart.Env = append(os.Environ(), name+"=1")
		apart.SysProcAttr = &syscall.SysProcAttr{
			Cloneflags:  syscall.CLONE_NEWUSER | syscall.CLONE_NEWNS,
			UidMappings: []syscall.SysProcIDMap{{HostID: os.Getuid(), Size: 1}},
			GidMappings: []syscall.SysProcIDMap{{HostID: os.Getgid(), Size: 1}},
		}
		said, err := apart.CombinedOutput()
		if errors.Is(err, fs.ErrPermission) || strings.Contains(string(said), cannotMount) {
			t.Skipf("no file system can be mounted here: %v %s", err, said)
		}
		require.NoError(t, err, "%s", said)
		return "", false
	}
	disk = t.TempDir()
	if err := unix.Mount("none", disk, "tmpfs", 0, "size=16m"); err != nil {
		t.Fatal(cannotMount, err)
	}
	t.Cleanup(func() { require.NoError(t, unix.Unmount(disk, 0)) })
	return disk, true
}

// A mount point cannot be replaced: a backup is restored into it, and replaces nothing there.
func TestRestoreIntoAMountPoint(t *testing.T) {
	disk, inside := mounted(t)
	if !inside {
		return
	}
	data, backup := t.TempDir(), filepath.Join(t.TempDir(), "backup.tar")
	_, stderr, code := call(t, nil, "import", "-data", data, write(t, mill))
	require.Zero(t, code, stderr)
	s, err := store.Open(t.Context(), data, time.Now)
	require.NoError(t, err)
	p, err := s.AddPhoto(t.Context(), 1, "k", bytes.NewReader(noise(rand.New(rand.NewPCG(1, 1)))))
	require.NoError(t, err)
	require.NoError(t, s.Close())
	_, stderr, code = call(t, nil, "backup", "-data", data, backup)
	require.Zero(t, code, stderr)
	within := func() (names []string) {
		entries, err := os.ReadDir(disk)
		require.NoError(t, err)
		for _, e := range entries {
			names = append(names, e.Name())
		}
		return names
	}

	precious := filepath.Join(disk, "photos")
	require.NoError(t, os.WriteFile(precious, []byte("precious"), 0o600))
	_, stderr, code = call(t, nil, "restore", "-data", disk, backup)
	require.Equal(t, 1, code)
	require.Contains(t, stderr, "is not empty")
	require.Equal(t, []string{"photos"}, within())
	require.NoError(t, os.Remove(precious))

	require.NoError(t, os.Mkdir(filepath.Join(disk, "lost+found"), 0o700)) // as on a new disk
	_, stderr, code = call(t, nil, "restore", "-data", disk, backup)
	require.Zero(t, code, stderr)
	require.Equal(t, []string{store.FileName, "lost+found", "photos"}, within())
	s, err = store.Open(t.Context(), disk, time.Now)
	require.NoError(t, err)
	defer s.Close()
	all, err := s.Machines(t.Context())
	require.NoError(t, err)
	require.Len(t, all, 1)
	photo, err := s.OpenPhoto(t.Context(), p.SHA256, "")
	require.NoError(t, err)
	require.NoError(t, photo.Close())
	_, stderr, code = call(t, nil, "restore", "-data", disk, backup)
	require.Equal(t, 1, code, "it is not empty any more")
	require.NotEmpty(t, stderr)
}

func TestDiskFull(t *testing.T) {
	disk, inside := mounted(t)
	if !inside {
		return
	}
	data, filler := filepath.Join(disk, "data"), filepath.Join(disk, "filler")
	_, stderr, code := call(t, nil, "import", "-data", data, write(t, mill))
	require.Zero(t, code, stderr)
	c := serveApart(t, theProgram(t, "-listen", "127.0.0.1:0", "-data", data))
	onFullDisk(t, c, data, func() {
		f, err := os.Create(filler)
		require.NoError(t, err)
		for block := make([]byte, 4096); err == nil; {
			_, err = f.Write(block)
		}
		require.ErrorIs(t, err, syscall.ENOSPC)
		require.NoError(t, f.Close())

		_, stderr, code := call(t, nil, "backup", "-data", data, filepath.Join(disk, "backup.tar"))
		require.Equal(t, 1, code)
		require.Contains(t, stderr, "the disk is full")
		left, err := filepath.Glob(filepath.Join(disk, "*"))
		require.NoError(t, err)
		require.ElementsMatch(t, []string{data, filler}, left, "half a backup takes no room")
	}, func() { require.NoError(t, os.Remove(filler)) })
}

const cannotMount = "mounting a file system: "

// Another process that writes for a moment is waited for; one that does not end is told.
func TestDataFileLocked(t *testing.T) {
	data := t.TempDir()
	_, stderr, code := call(t, nil, "import", "-data", data, write(t, mill))
	require.Zero(t, code, stderr)
	c := serveApart(t, theProgram(t, "-listen", "127.0.0.1:0", "-data", data))
	other, err := sql.Open("sqlite3", "file:"+filepath.Join(data, store.FileName)+"?_txlock=immediate")
	require.NoError(t, err)
	defer other.Close()
	w := &writer{}
	tx, err := other.BeginTx(t.Context(), nil)
	require.NoError(t, err)
	status, answer, err := c.sendEntry(written{key: "k", text: "Locked out"})
	require.NoError(t, err)
	require.Equal(t, http.StatusServiceUnavailable, status)
	require.Contains(t, string(answer), "Another program is writing to the data file. Nothing was saved; try again in a moment.")
	status, _, err = c.send(http.MethodGet, "/machines/1/log", formType, nil)
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, status, "reading goes on")

	waits := make(chan bool)
	go func() { waits <- w.save(c, written{key: "k", text: "Let in"}) }()
	require.NoError(t, tx.Rollback())
	require.True(t, <-waits, w.faults)
	s, err := store.Open(t.Context(), data, time.Now)
	require.NoError(t, err)
	defer s.Close()
	w.check(t, s)
	require.NoError(t, c.Process.Signal(os.Interrupt))
	require.NoError(t, c.Wait(), "%s", c.said)
}
