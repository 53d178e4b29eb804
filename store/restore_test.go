package store_test

import (
	"archive/tar"
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/store"
)

var (
	mutations     = flag.Int("mutations", 30, "how many spoilt archives TestRestoreOfSpoiltArchives makes, and as many of spoilt data files")
	mutationsSeed = flag.Uint64("mutations-seed", 0, "what they are drawn from; 0: another one each time, which is printed")
)

// manifestOf writes the manifest of files, as the program does it.
func manifestOf(t testing.TB, files []entry) entry {
	t.Helper()
	type file struct {
		Name   string `json:"name"`
		Size   int    `json:"size"`
		SHA256 string `json:"sha256"`
	}
	var list []file
	for _, f := range files {
		list = append(list, file{f.name, len(f.body), sumOf(f.body)})
	}
	text, err := json.Marshal(map[string]any{"format": "fettle backup", "version": 1, "made": noon, "files": list})
	require.NoError(t, err)
	return entry{"manifest.json", text}
}

// packed writes an archive; change can make a header another one.
func packed(t testing.TB, files []entry, change func(h *tar.Header)) string {
	t.Helper()
	var out bytes.Buffer
	w := tar.NewWriter(&out)
	for _, f := range files {
		h := &tar.Header{Typeflag: tar.TypeReg, Name: f.name, Size: int64(len(f.body)), Mode: 0o600, Format: tar.FormatUSTAR}
		if change != nil {
			change(h)
		}
		require.NoError(t, w.WriteHeader(h))
		if h.Typeflag == tar.TypeReg {
			_, err := w.Write(f.body)
			require.NoError(t, err)
		}
	}
	require.NoError(t, w.Close())
	return fileOf(t, out.Bytes())
}

func fileOf(t testing.TB, archive []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "backup.tar")
	require.NoError(t, os.WriteFile(path, archive, 0o600))
	return path
}

// refused restores an archive, which must be refused with a sentence and leave nothing behind.
func refused(t testing.TB, path, say string) {
	t.Helper()
	around := t.TempDir()
	_, err := store.Restore(t.Context(), path, filepath.Join(around, "data"))
	require.ErrorIs(t, err, store.ErrNoBackup)
	require.ErrorContains(t, err, say)
	left, err := os.ReadDir(around)
	require.NoError(t, err)
	require.Empty(t, left)
}

func TestRestoreRefusesHostileArchives(t *testing.T) {
	_, _, good := backedUp(t)
	whole := unpacked(t, good)
	files := whole[1:]
	one, two := files[1], files[2]
	with := func(all ...entry) []entry { return append([]entry{manifestOf(t, all)}, all...) }
	_, err := store.Restore(t.Context(), packed(t, with(files...), nil), filepath.Join(t.TempDir(), "data"))
	require.NoError(t, err, "what the cases below are made of is a backup")

	at := func(name string, change func(h *tar.Header)) func(*tar.Header) {
		return func(h *tar.Header) {
			if h.Name == name {
				change(h)
			}
		}
	}
	named := func(name string) entry { return entry{name, one.body} }
	claims := func(old, new string) []entry {
		text := bytes.Replace(whole[0].body, []byte(old), []byte(new), 1)
		require.NotEqual(t, whole[0].body, text)
		return append([]entry{{"manifest.json", text}}, files...)
	}
	size := fmt.Sprintf(`"size":%d`, len(files[0].body))
	for name, tc := range map[string]struct {
		files  []entry
		change func(h *tar.Header)
		say    string
	}{
		"a path that climbs, as its manifest says": {with(files[0], named("photos/../../../climbs")), nil, `names "photos/../../../climbs"`},
		"an absolute path, as its manifest says":   {with(files[0], named("/tmp/absolute")), nil, `names "/tmp/absolute"`},
		"another place":                            {with(files[0], named("photos/00/"+sumOf(one.body))), nil, "which no backup has at that place"},
		"another name":                             {with(files[0], named(photoName(one.body)+".jpg")), nil, "which no backup has at that place"},
		"a program beside it":                      {with(files[0], named("fettle.sqlite-wal")), nil, "which no backup has at that place"},
		"a photo twice":                            {with(files[0], one, one), nil, "which no backup has at that place"},
		"the data file twice":                      {with(files[0], files[0]), nil, "which no backup has at that place"},
		"another order":                            {with(files[0], two, one), nil, "which no backup has at that place"},
		"photos alone":                             {with(one, two), nil, "which no backup has at that place"},
		"nothing":                                  {with(), nil, "names no data file"},
		"a photo that is not named":                {with(files[0], entry{photoName([]byte("x")), []byte("x")}), nil, "which its data file does not name"},
		"a path that climbs":                       {whole, at(one.name, func(h *tar.Header) { h.Name = "../climbs" }), `it holds "../climbs" where its manifest says photos/`},
		"an absolute path":                         {whole, at(one.name, func(h *tar.Header) { h.Name = "/tmp/absolute" }), `it holds "/tmp/absolute"`},
		"a link":                                   {whole, at(two.name, func(h *tar.Header) { h.Typeflag, h.Linkname, h.Size = tar.TypeSymlink, "/etc/passwd", 0 }), "shorter than its manifest says"},
		"a link with something after it": {append(slices.Clone(whole), entry{"more", two.body[:len(two.body)-512]}),
			at(two.name, func(h *tar.Header) { h.Typeflag, h.Linkname, h.Size = tar.TypeSymlink, "/etc/passwd", 0 }), "where its manifest says"},
		"a device": {append(slices.Clone(whole), entry{"more", two.body[:len(two.body)-512]}),
			at(two.name, func(h *tar.Header) { h.Typeflag, h.Size = tar.TypeBlock, 0 }), "where its manifest says"},
		"a later kind of tar": {whole, at("manifest.json", func(h *tar.Header) {
			h.Format, h.PAXRecords = tar.FormatPAX, map[string]string{"SCHILY.xattr.user.x": "y"}
		}), "does not begin with a manifest"},
		"no manifest":            {files, nil, "does not begin with a manifest"},
		"another's manifest":     {claims("fettle backup", "another's"), nil, "does not begin with a manifest"},
		"a manifest cut short":   {append([]entry{{"manifest.json", whole[0].body[:50]}}, files...), nil, "its manifest cannot be read"},
		"a newer archive":        {claims(`"version":1`, `"version":2`), nil, "a newer Fettle has written it"},
		"a negative size":        {claims(size, `"size":-1`), nil, "says that fettle.sqlite is -1 bytes"},
		"a bomb":                 {claims(size, `"size":9223372036854775807`), nil, "says that fettle.sqlite is 9223372036854775807 bytes"},
		"a photo that is a bomb": {claims(fmt.Sprintf(`"size":%d`, len(one.body)), `"size":52428801`), nil, "is 52428801 bytes"}, // 50 MiB and 1
		"a size that is smaller": {claims(size, `"size":512`), nil, "longer than its manifest says"},
		"more than it says":      {append(slices.Clone(whole), entry{"more", []byte("x")}), nil, "longer than its manifest says"},
		"less than it says":      {whole[:3], nil, "shorter than its manifest says"},
		"another content":        {append(slices.Clone(whole[:3]), entry{two.name, append(slices.Clone(two.body[1:]), 0)}), nil, "its content is not what was kept"},
	} {
		t.Run(name, func(t *testing.T) { refused(t, packed(t, tc.files, tc.change), tc.say) })
	}
	t.Run("an old copy of the data file", func(t *testing.T) {
		refused(t, fileOf(t, files[0].body), "put it into an empty folder as fettle.sqlite")
	})
	t.Run("a folder", func(t *testing.T) { refused(t, t.TempDir(), "it is not a file") })
	t.Run("empty", func(t *testing.T) { refused(t, fileOf(t, nil), "it is damaged, or something else") })
}

// GNU tar's kind of file with holes: 512 bytes that unpack to a terabyte. Old GNU format, as its manual's
// "Storing Sparse Files" describes it.
func TestRestoreRefusesHoles(t *testing.T) {
	_, _, good := backedUp(t)
	file, err := os.ReadFile(good)
	require.NoError(t, err)
	header := file[:512]
	copy(header[257:], "ustar  \x00") // GNU's magic
	header[156] = 'S'
	copy(header[386:], "00000000000\x0000000001000\x00") // one piece: at 0, 512 bytes
	copy(header[483:], "7777777777\x00\x00"[:12])        // what it unpacks to
	copy(header[148:], strings.Repeat(" ", 8))           // the checksum counts itself as blanks
	sum := 0
	for _, b := range header {
		sum += int(b)
	}
	copy(header[148:], fmt.Sprintf("%06o\x00 ", sum))
	refused(t, fileOf(t, file), "this is no backup that can be restored")
}

func TestRestoreRefusesOtherData(t *testing.T) {
	_, _, good := backedUp(t)
	whole := unpacked(t, good)
	for name, tc := range map[string]struct{ statements, say string }{
		"a trigger":        {`CREATE TRIGGER t AFTER DELETE ON device BEGIN DELETE FROM machine; END`, "other tables than those of Fettle"},
		"a view":           {`CREATE VIEW v AS SELECT 1`, "other tables than those of Fettle"},
		"a table more":     {`CREATE TABLE more (id INTEGER PRIMARY KEY) STRICT`, "other tables than those of Fettle"},
		"a table less":     {`DROP TABLE offcut`, "other tables than those of Fettle"},
		"an index less":    {`DROP INDEX log_photo_photo`, "other tables than those of Fettle"},
		"a newer one":      {`PRAGMA user_version = 1000`, "a newer Fettle has written it (step 1000"},
		"an older one":     {`PRAGMA user_version = 4`, "other tables than those of Fettle"},
		"one of nobody":    {`PRAGMA user_version = 0`, "not of Fettle"},
		"rows of nothing":  {`DELETE FROM machine`, "belong to nothing"},
		"rows of no sense": {`PRAGMA ignore_check_constraints = ON; UPDATE photo SET width = -1`, "CHECK constraint failed in photo"},
	} {
		t.Run(name, func(t *testing.T) {
			data := filepath.Join(t.TempDir(), "data")
			require.NoError(t, os.WriteFile(data, whole[1].body, 0o600))
			do(t, data, tc.statements)
			body, err := os.ReadFile(data)
			require.NoError(t, err)
			all := append([]entry{{store.FileName, body}}, whole[2:]...)
			refused(t, packed(t, append([]entry{manifestOf(t, all)}, all...), nil), tc.say)
		})
	}
	t.Run("no data file", func(t *testing.T) {
		all := append([]entry{{store.FileName, []byte("Dear diary, today the dial slipped again.")}}, whole[2:]...)
		refused(t, packed(t, append([]entry{manifestOf(t, all)}, all...), nil), "its data file is damaged, or not of Fettle")
	})
}

// The data files that earlier versions have left come back, and are then what they were.
func TestRestoreOfEarlierVersions(t *testing.T) {
	versions, err := filepath.Glob("testdata/version-*.sql")
	require.NoError(t, err)
	require.NotEmpty(t, versions)
	for _, version := range versions {
		t.Run(filepath.Base(version), func(t *testing.T) {
			statements, err := os.ReadFile(version)
			require.NoError(t, err)
			data := filepath.Join(t.TempDir(), "data")
			do(t, data, string(statements))
			body, err := os.ReadFile(data)
			require.NoError(t, err)
			all := []entry{{store.FileName, body}}
			folder := filepath.Join(t.TempDir(), "data")
			_, err = store.Restore(t.Context(), packed(t, append([]entry{manifestOf(t, all)}, all...), nil), folder)
			require.NoError(t, err)
			list, err := open(t, folder).Machines(t.Context())
			require.NoError(t, err)
			require.Len(t, list, 1)
		})
	}
}

func TestRestoreLeavesWhatIsThere(t *testing.T) {
	_, _, good := backedUp(t)
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "precious"), []byte("precious"), 0o600))
	_, err := store.Restore(t.Context(), good, folder)
	require.ErrorIs(t, err, store.ErrNotEmpty)
	require.Equal(t, []string{"precious"}, files(t, folder))
	_, err = store.Restore(t.Context(), good, filepath.Join(folder, "precious"))
	require.Error(t, err)
	require.Equal(t, []string{"precious"}, files(t, folder))

	used := filepath.Join(t.TempDir(), "data")
	s := open(t, used)
	_, err = store.Restore(t.Context(), good, used)
	require.ErrorIs(t, err, store.ErrFolderInUse)
	// All that was in it is removed under a program that runs: it would write into files that are gone.
	within, err := filepath.Glob(filepath.Join(used, "*"))
	require.NoError(t, err)
	for _, path := range within {
		require.NoError(t, os.RemoveAll(path))
	}
	_, err = store.Restore(t.Context(), good, used)
	require.ErrorIs(t, err, store.ErrFolderInUse)
	require.Empty(t, files(t, used))
	require.NoError(t, s.Close())
	for _, path := range files(t, used) { // what it left when it closed
		require.NoError(t, os.Remove(filepath.Join(used, path)))
	}
	_, err = store.Restore(t.Context(), good, used)
	require.NoError(t, err, "nobody uses it any more")
}

// The data folder can be a link to one on another disk.
func TestRestoreByALink(t *testing.T) {
	_, id, good := backedUp(t)
	real := t.TempDir()
	link := filepath.Join(t.TempDir(), "data")
	require.NoError(t, os.Symlink(real, link))
	_, err := store.Restore(t.Context(), good, link)
	require.NoError(t, err)
	is, err := os.Lstat(link)
	require.NoError(t, err)
	require.Equal(t, os.ModeSymlink, is.Mode().Type())
	read(t, open(t, real), id)
}

// restoredOrRefused holds for any file whatever.
func restoredOrRefused(t testing.TB, archive []byte) (restored bool) {
	t.Helper()
	path, around := fileOf(t, archive), t.TempDir()
	folder := filepath.Join(around, "data")
	_, err := store.Restore(t.Context(), path, folder)
	left, errLeft := os.ReadDir(around)
	require.NoError(t, errLeft)
	if err != nil {
		require.ErrorIs(t, err, store.ErrNoBackup)
		require.Empty(t, left)
		return false
	}
	require.Len(t, left, 1)
	s, err := store.Open(t.Context(), folder, atNoon)
	require.NoError(t, err)
	_, err = s.Machines(t.Context())
	require.NoError(t, errors.Join(err, s.Close()))
	return true
}

// spoil changes some bytes, or cuts, doubles or moves some.
func spoil(r *rand.Rand, body []byte) []byte {
	body = slices.Clone(body)
	for range 1 + r.IntN(3) {
		from := r.IntN(len(body))
		to := min(len(body), from+1+r.IntN(600))
		switch r.IntN(4) {
		case 0:
			body[from] ^= 1 << r.IntN(8)
		case 1:
			for i := from; i < to; i++ {
				body[i] = byte(r.Uint32())
			}
		case 2:
			body = slices.Concat(body[:from], body[to:], body[from:to])
		case 3:
			body = slices.Concat(body[:to], body[from:])
		}
	}
	return body
}

// Spoilt in any way, also with sums that fit what was spoilt: it is refused, or what comes of it can be
// used. It never comes to a panic, to another error, or to something left behind.
func TestRestoreOfSpoiltArchives(t *testing.T) {
	seed := *mutationsSeed
	if seed == 0 {
		seed = rand.Uint64()
	}
	t.Logf("-mutations %d -mutations-seed %d", *mutations, seed)
	r := rand.New(rand.NewPCG(seed, 0))
	_, _, good := backedUp(t)
	whole := unpacked(t, good)
	file, err := os.ReadFile(good)
	require.NoError(t, err)
	restored := map[bool]int{}
	for range *mutations {
		restored[restoredOrRefused(t, spoil(r, file))]++
		files := slices.Clone(whole[1:])
		files[0].body = spoil(r, files[0].body)
		path := packed(t, append([]entry{manifestOf(t, files)}, files...), nil)
		archive, err := os.ReadFile(path)
		require.NoError(t, err)
		restored[restoredOrRefused(t, archive)]++
	}
	t.Logf("%d refused, %d restored", restored[false], restored[true])
	require.NotZero(t, restored[false])
}

func FuzzRestore(f *testing.F) {
	_, _, good := backedUp(f)
	file, err := os.ReadFile(good)
	require.NoError(f, err)
	f.Add(file)
	f.Add(file[:1024])
	f.Add(file[512:])
	f.Add([]byte("SQLite format 3\x00"))
	f.Fuzz(func(t *testing.T, archive []byte) { restoredOrRefused(t, archive) })
}
