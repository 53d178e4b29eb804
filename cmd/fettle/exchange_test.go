package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/machine"
	"fettle/store"
)

const mill = `{
  "format": "fettle machine",
  "version": 1,
  "machine": {
    "name": "Bench mill",
    "kind": "mill",
    "units": "mm",
    "axes": [
      {
        "key": "long",
        "label": "Table",
        "arrangement": "fixed_nut",
        "entries": {
          "travel_found": "6-1/4\""
        }
      }
    ]
  }
}
`

// write puts text into a new file and gives its path.
func write(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "mill.json")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

func text(t *testing.T, path string) string {
	t.Helper()
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(got)
}

func names(t *testing.T, folder string) (all []string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return all
}

func TestImportThenExport(t *testing.T) {
	data := filepath.Join(t.TempDir(), "new")
	file := write(t, mill)
	stdout, stderr, code := call(t, nil, "import", "-data", data, file, file)
	require.Zero(t, code, stderr)
	require.Equal(t, "1  /machines/1  Bench mill\n2  /machines/2  Bench mill\n", stdout)

	stdout, stderr, code = call(t, map[string]string{"FETTLE_DATA": data}, "export", "2")
	require.Zero(t, code, stderr)
	require.Equal(t, mill, stdout)

	stdout, stderr, code = call(t, nil, "export", "-data", data, "Bench mill")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, `several machines are called "Bench mill"; give the number of one: [2 1]`)
	require.Empty(t, stdout)

	_, stderr, code = call(t, nil, "export", "-data", data, "Lathe")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "there is no machine \"Lathe\"; these are here:\n  2  Bench mill\n  1  Bench mill\n")
}

func TestExportByName(t *testing.T) {
	data := t.TempDir()
	s, err := store.Open(t.Context(), data, time.Now)
	require.NoError(t, err)
	for _, name := range []string{"A", "1", "3"} { // a number comes before a name
		_, err := s.AddMachine(t.Context(), machine.Machine{Name: name, Units: "mm"})
		require.NoError(t, err)
	}
	require.NoError(t, s.Close())
	for called, name := range map[string]string{"A": `"A"`, "1": `"A"`, "2": `"1"`, "3": `"3"`} {
		stdout, stderr, code := call(t, nil, "export", "-data", data, called)
		require.Zero(t, code, stderr)
		require.Contains(t, stdout, `"name": `+name, called)
	}
}

func TestExportToAFile(t *testing.T) {
	data, out := t.TempDir(), t.TempDir()
	_, stderr, code := call(t, nil, "import", "-data", data, write(t, mill))
	require.Zero(t, code, stderr)
	path := filepath.Join(out, "out.json")
	stdout, stderr, code := call(t, nil, "export", "-data", data, "1", path)
	require.Zero(t, code, stderr)
	require.Empty(t, stdout)
	require.Equal(t, mill, text(t, path))

	require.NoError(t, os.WriteFile(path, []byte("precious"), 0o600))
	require.NoError(t, os.Chmod(path, 0o600))
	_, stderr, code = call(t, nil, "export", "-data", data, "1", path)
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "out.json is there already; -force replaces it")
	require.Equal(t, "precious", text(t, path))

	_, stderr, code = call(t, nil, "export", "-data", data, "-force", "1", path)
	require.Zero(t, code, stderr)
	require.Equal(t, mill, text(t, path))
	state, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), state.Mode().Perm(), "as it was")

	require.NoError(t, os.Mkdir(filepath.Join(out, "folder"), 0o700))
	_, _, code = call(t, nil, "export", "-data", data, "-force", "1", filepath.Join(out, "folder"))
	require.Equal(t, 1, code)
	require.Equal(t, []string{"folder", "out.json"}, names(t, out), "nothing is left lying about")
}

func TestImportTakesAllOrNone(t *testing.T) {
	data := filepath.Join(t.TempDir(), "new")
	good := write(t, mill)
	for name, tc := range map[string]struct {
		file, say string
		code      int
	}{
		"fault":   {write(t, strings.Replace(mill, `"label"`, `"lable"`, 1)), "mill.json:9:7: machine.axes[0]: \"label\" is missing", 2},
		"newer":   {write(t, strings.Replace(mill, `: 1`, `: 2`, 1)), "mill.json: a newer Fettle has written this file, in version 2", 2},
		"large":   {write(t, mill+strings.Repeat(" ", 16<<20)), "mill.json: the file is larger than the 16 MiB", 2},
		"missing": {filepath.Join(t.TempDir(), "none.json"), "none.json: no such file", 1},
		"folder":  {t.TempDir(), "is a directory", 1},
	} {
		t.Run(name, func(t *testing.T) {
			stdout, stderr, code := call(t, nil, "import", "-data", data, good, tc.file)
			require.Equal(t, tc.code, code)
			require.Contains(t, stderr, tc.say)
			require.Empty(t, stdout)
			require.NoDirExists(t, data)
		})
	}
}

func TestBackupWhileServing(t *testing.T) {
	data := t.TempDir()
	_, stderr, code := call(t, nil, "import", "-data", data, write(t, mill))
	require.Zero(t, code, stderr)
	run := start(t, nil, "-listen", "127.0.0.1:0", "-data", data)
	path := filepath.Join(t.TempDir(), "backup.tar")
	stdout, stderr, code := call(t, nil, "backup", "-data", data, path)
	require.Zero(t, code, stderr)
	require.Contains(t, stdout, "backup.tar holds all machines and 0 photos")
	_, stderr, code = call(t, nil, "backup", "-data", data, path)
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "is there already; -replace puts a backup in the place of an older one")
	_, stderr, code = call(t, nil, "backup", "-data", data, "-replace", path)
	require.Zero(t, code, stderr)
	_, stderr, code = call(t, nil, "restore", "-data", data, path)
	require.Equal(t, 1, code)
	require.Contains(t, stderr, "it is in use by a Fettle that is running; stop that first")
	require.Zero(t, run.stop())
	_, stderr, code = call(t, nil, "restore", "-data", data, path)
	require.Equal(t, 1, code)
	require.Contains(t, stderr, "it is not empty; a backup is restored into a new or empty folder alone")

	folder := filepath.Join(t.TempDir(), "new", "folder")
	stdout, stderr, code = call(t, nil, "restore", "-data", folder, path)
	require.Zero(t, code, stderr)
	require.Contains(t, stdout, "Other computers are not let in")

	stdout, stderr, code = call(t, nil, "export", "-data", folder, "Bench mill")
	require.Zero(t, code, stderr)
	require.Equal(t, mill, stdout)
}

func TestFolderWithoutMachines(t *testing.T) {
	data := filepath.Join(t.TempDir(), "mistyped")
	for _, args := range [][]string{{"export", "-data", data, "1"}, {"backup", "-data", data, filepath.Join(t.TempDir(), "b")}} {
		_, stderr, code := call(t, nil, args...)
		require.Equal(t, 2, code)
		require.Contains(t, stderr, "mistyped holds no machines; name another folder with -data")
		require.NoDirExists(t, data)
	}
	for _, args := range [][]string{{"export"}, {"export", "1", "2", "3"}, {"import"}, {"backup"}, {"backup", "a", "b"}, {"restore"}, {"restore", "a", "b"}} {
		_, stderr, code := call(t, map[string]string{"FETTLE_DATA": data}, args...)
		require.Equal(t, 2, code, args)
		require.Contains(t, stderr, "call fettle "+args[0])
	}
	_, stderr, code := call(t, nil, "export", "1")
	require.Equal(t, 1, code)
	require.Contains(t, stderr, "name one with -data")
}
