package store

import (
	"archive/tar"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"fettle/store/photo"
)

// A backup is a tar archive of the plainest kind (ustar, POSIX.1-1988), so that any tar can open it. It may be of any
// size. Only a data file of 8 GiB or more, whose size that kind cannot name, has its size as GNU's tar writes it.
//
//	manifest.json     what follows, in its order, each with its size in bytes and its SHA-256
//	fettle.sqlite     the data file
//	photos/3f/3f2a…   the originals that the data file names, by name; renditions are made anew
//
// It is not compressed, as photos are already: nothing in it can be larger than it is itself.
const (
	archiveFormat  = "fettle backup"
	archiveVersion = 1
	manifestName   = "manifest.json"
	mostManifest   = 64 << 20  // bytes; half a million photos
	mostPlain      = 1<<33 - 1 // bytes; eleven octal digits, POSIX.1-1988 10.1.1
	block          = 512       // bytes; a header is one, and what follows it is filled up to whole ones
)

type manifest struct {
	Format  string     `json:"format"`
	Version int        `json:"version"`
	Made    time.Time  `json:"made"`
	Files   []archived `json:"files"`
}

// archived is a file in a backup.
type archived struct {
	Name   string `json:"name"`
	Size   int64  `json:"size"`
	SHA256 string `json:"sha256"`
}

// archivedAs tells how the file at path is archived under a name.
func archivedAs(name, path string) (a archived, err error) {
	f, err := os.Open(path)
	if err != nil {
		return a, err
	}
	defer f.Close()
	sum := sha256.New()
	n, err := io.Copy(sum, f)
	return archived{name, n, hex.EncodeToString(sum.Sum(nil))}, err
}

// archiver writes a backup.
type archiver struct {
	ctx  context.Context
	tar  *tar.Writer
	made time.Time
}

func (a archiver) header(name string, size int64) error {
	err := a.tar.WriteHeader(&tar.Header{Typeflag: tar.TypeReg, Name: name, Size: size, Mode: 0o600, ModTime: a.made, Format: formatFor(size)})
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// formatFor is the kind of header that can name a size. Either is one block.
func formatFor(size int64) tar.Format {
	if size > mostPlain {
		return tar.FormatGNU
	}
	return tar.FormatUSTAR
}

func (a archiver) manifest(m manifest) error {
	text, err := json.Marshal(m)
	if err != nil {
		return err
	}
	if err := a.header(manifestName, int64(len(text))); err != nil {
		return err
	}
	_, err = a.tar.Write(text)
	return err
}

func (a archiver) file(f archived, path string) error {
	from, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("%s: %w (%w)", f.Name, errOther, err)
	}
	defer from.Close()
	if err := a.header(f.Name, f.Size); err != nil {
		return err
	}
	return copyChecked(a.ctx, a.tar, from, f)
}

// errOther is a file that cannot be read, or has another content than was told.
var errOther = errors.New("it is damaged: its content is not what was kept")

// copyChecked copies what a file should hold, and returns [errOther] where it holds something else.
func copyChecked(ctx context.Context, to io.Writer, from io.Reader, f archived) error {
	sum := sha256.New()
	n, err := io.Copy(io.MultiWriter(to, sum), io.LimitReader(source{ctx, from}, f.Size))
	switch {
	case err != nil:
		return fmt.Errorf("%s: %w", f.Name, err)
	case n != f.Size || hex.EncodeToString(sum.Sum(nil)) != f.SHA256:
		return fmt.Errorf("%s: %w", f.Name, errOther)
	}
	return nil
}

// source reads until nobody wants it any more. What cannot be read is as good as damaged.
type source struct {
	ctx  context.Context
	from io.Reader
}

func (s source) Read(p []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := s.from.Read(p)
	if err != nil && err != io.EOF {
		err = fmt.Errorf("%w (%w)", errOther, err)
	}
	return n, err
}

// ErrNoBackup is a file that is no whole backup of ours.
var ErrNoBackup = errors.New("this is no backup that can be restored")

func noBackup(say string, args ...any) error {
	return fmt.Errorf("%w: "+say, append([]any{ErrNoBackup}, args...)...)
}

// openArchive reads the manifest of a backup, and holds it to what [Store.Backup] writes. What it gives
// comes to the first of the files.
func openArchive(from *os.File) (m manifest, files *tar.Reader, err error) {
	is, err := from.Stat()
	switch {
	case err != nil:
		return m, nil, err
	case !is.Mode().IsRegular():
		return m, nil, noBackup("it is not a file")
	case isDataFile(from):
		return m, nil, noBackup("it is a data file alone; put it into an empty folder as %s, and name that with -data", FileName)
	}
	files = tar.NewReader(from)
	first, err := files.Next()
	switch {
	case err != nil:
		return m, nil, damagedArchive(err)
	case !isPlain(first) || first.Name != manifestName || first.Size > mostManifest:
		return m, nil, noBackup("it does not begin with a manifest of Fettle")
	}
	if err := json.NewDecoder(files).Decode(&m); err != nil {
		return m, nil, noBackup("its manifest cannot be read: %v", err)
	}
	switch {
	case m.Format != archiveFormat:
		return m, nil, noBackup("it does not begin with a manifest of Fettle")
	case m.Version != archiveVersion:
		return m, nil, noBackup("a newer Fettle has written it; restore it with that one")
	}
	return m, files, m.check(first.Size, is.Size())
}

// check holds the manifest to the names and the order that a backup has, and to the size of the whole.
func (m manifest) check(own, whole int64) error {
	length := 2*block + block + filled(own) // the end, and the manifest
	last := ""
	for i, f := range m.Files {
		name, err := photo.Name(f.SHA256)
		most := int64(photo.MostBytes)
		if i == 0 {
			name, err, most = FileName, nil, whole
		}
		switch {
		case err != nil || f.Name != name || i > 1 && f.SHA256 <= last:
			return noBackup("its manifest names %q, which no backup has at that place", f.Name)
		case f.Size < 0 || f.Size > most:
			return noBackup("its manifest says that %s is %d bytes", f.Name, f.Size)
		}
		length += block + filled(f.Size)
		last = f.SHA256
		if length > whole {
			break
		}
	}
	switch {
	case len(m.Files) == 0:
		return noBackup("its manifest names no data file")
	case length > whole:
		return noBackup("it is shorter than its manifest says: it was cut off, or not copied whole")
	case length < whole:
		return noBackup("it is longer than its manifest says")
	}
	return nil
}

// isDataFile tells whether a file is one of SQLite, as backups were before they held photos.
func isDataFile(file io.ReaderAt) bool {
	const magic = "SQLite format 3\x00" // SQLite's "Database File Format", 1.3
	begins := make([]byte, len(magic))
	_, err := file.ReadAt(begins, 0)
	return err == nil && string(begins) == magic
}

// filled is a size filled up to whole blocks.
func filled(size int64) int64 { return (size + block - 1) / block * block }

// isPlain tells whether an entry is a file and nothing else: no link, device or folder, and none of the
// later kinds of tar, which have holes and attributes.
func isPlain(h *tar.Header) bool {
	return h.Typeflag == tar.TypeReg && h.Format == formatFor(h.Size) && len(h.PAXRecords) == 0
}

// damagedArchive tells what reading a tar archive came upon; what the disk says stays as it is.
func damagedArchive(err error) error {
	if errors.Is(err, tar.ErrHeader) || errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return noBackup("it is damaged, or something else (%w)", err)
	}
	return err
}
