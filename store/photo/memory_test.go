package photo_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/store/photo"
)

// TestMain lets the test's own program be the child that is looked at, or killed.
func TestMain(m *testing.M) {
	for name, child := range map[string]func(folder string) error{
		"FETTLE_TEST_EIGHT": eight,
		"FETTLE_TEST_KEEP":  keepAgainAndAgain,
	} {
		if folder := os.Getenv(name); folder != "" {
			if err := child(folder); err != nil {
				fmt.Fprintln(os.Stderr, err)
				os.Exit(1)
			}
			os.Exit(0)
		}
	}
	os.Exit(m.Run())
}

// eight keeps the photos of a folder at once, and prints how much memory was resident at most, in kB.
func eight(folder string) error {
	names, err := filepath.Glob(filepath.Join(folder, "*.photo"))
	if err != nil {
		return err
	}
	f := photo.New(folder)
	errs := make([]error, len(names))
	var all sync.WaitGroup
	for i, name := range names {
		all.Go(func() {
			file, err := os.Open(name)
			if err == nil {
				_, err = f.Add(context.Background(), file)
				err = errors.Join(err, file.Close())
			}
			errs[i] = err
		})
	}
	all.Wait()
	status, err := os.ReadFile("/proc/self/status")
	fmt.Println(string(status))
	return errors.Join(append(errs, err)...)
}

// most gives what was resident in the child at most, in bytes.
func most(t testing.TB, folder string) int64 {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	child := exec.CommandContext(t.Context(), self)
	child.Env = append(os.Environ(), "FETTLE_TEST_EIGHT="+folder)
	var faults bytes.Buffer
	child.Stderr = &faults
	out, err := child.Output()
	require.NoError(t, err, faults.String())
	_, after, found := strings.Cut(string(out), "VmHWM:")
	require.True(t, found)
	kB, err := strconv.ParseInt(strings.Fields(after)[0], 10, 64)
	require.NoError(t, err)
	return kB << 10
}

// Eight photos of 12 megapixels at once, of each sort, in a program of its own: less than 250 MB are ever
// resident, the program included.
func TestEightAtOnceStaySmall(t *testing.T) {
	if _, err := os.Stat("/proc/self/status"); err != nil {
		t.Skip("no /proc here")
	}
	if is, ok := debug.ReadBuildInfo(); ok && slices.Contains(is.Settings, debug.BuildSetting{Key: "-race", Value: "true"}) {
		t.Skip("the race detector takes several times the memory, and minutes")
	}
	const limit = 250 << 20
	full := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio444)
	sorts := map[string][]byte{"jpeg": oriented(jpegOf(t, scene(4000, 3000)), 6), "png": pngOf(t, full)}
	if _, err := exec.LookPath("jpegtran"); err == nil || os.Getenv("FETTLE_REQUIRE_READERS") != "" {
		path := filepath.Join(t.TempDir(), "photo.jpg")
		require.NoError(t, os.WriteFile(path, sorts["jpeg"], 0o600))
		run(t, "jpegtran", "-progressive", "-outfile", path, path)
		file, err := os.ReadFile(path)
		require.NoError(t, err)
		sorts["progressive jpeg"] = file
	}
	for name, file := range sorts {
		folder := t.TempDir()
		for i := range 8 {
			other := append(bytes.Clone(file), byte(i)) // so that each is a file of its own
			require.NoError(t, os.WriteFile(filepath.Join(folder, strconv.Itoa(i)+".photo"), other, 0o600))
		}
		resident := most(t, folder)
		t.Logf("%s: %d MB resident", name, resident>>20)
		require.Less(t, resident, int64(limit), name)
		kept, err := filepath.Glob(filepath.Join(folder, "photos", "*", "*"))
		require.NoError(t, err)
		require.Len(t, kept, 8)
	}
}
