package store

import (
	"archive/tar"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"time"

	"fettle/store/disk"
)

// ErrNotEmpty is a folder that holds something already.
var ErrNotEmpty = errors.New("it is not empty; a backup is restored into a new or empty folder alone")

// Restored tells what was restored.
type Restored struct {
	Made   time.Time // when the backup was made, UTC
	Photos int
}

// Restore brings a backup back as a data folder, which must be new, or empty and in use by nobody. The
// whole backup is checked first, beside the folder; then the folder is there at once, or not at all. In a mount
// point it is checked in it, and the data file comes to its name last.
//
// Nobody from another computer is let in afterwards: devices and passphrase stay behind. A device may have
// been shut out since the backup, and a passphrase changed because somebody knew it.
//
// It returns [ErrNoBackup], with a sentence, for a backup that is not whole or not ours, [ErrNotEmpty] or
// [ErrFolderInUse].
func Restore(ctx context.Context, from, folder string) (r Restored, err error) {
	if folder, err = restorable(folder); err != nil {
		return r, err
	}
	archive, err := os.Open(from)
	if err != nil {
		return r, fmt.Errorf("restore: %w", err)
	}
	defer archive.Close()
	m, files, err := openArchive(archive)
	if err != nil {
		return r, fmt.Errorf("restore %s: %w", from, err)
	}
	in, name, put := filepath.Dir(folder), filepath.Base(folder), putFolder
	if isMountPoint(folder) { // which cannot be replaced, and may be the only place with room
		in, name, put = folder, "", putContents
	}
	if err := os.MkdirAll(in, 0o700); err != nil {
		return r, fmt.Errorf("data folder: %w", err)
	}
	work, err := os.MkdirTemp(in, name+".restoring-")
	if err != nil {
		return r, fmt.Errorf("data folder: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(work)) }() // it is not there any more when all went well
	if err := unpack(ctx, files, m.Files, work); err != nil {
		return r, known(fmt.Errorf("restore %s: %w", from, err))
	}
	if err := takeOver(ctx, filepath.Join(work, FileName), m.Files[1:]); err != nil {
		return r, known(fmt.Errorf("restore %s: %w", from, err))
	}
	if err := syncFolders(work); err != nil {
		return r, fmt.Errorf("data folder: %w", err)
	}
	return Restored{m.Made, len(m.Files) - 1}, put(work, folder)
}

// unpack writes the files of a backup into a folder. They must be those of its manifest, one after another:
// so none comes twice, and none has another name or size.
func unpack(ctx context.Context, from *tar.Reader, files []archived, folder string) error {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return err
	}
	defer root.Close()
	for _, f := range files {
		h, err := from.Next()
		switch {
		case err != nil:
			return damagedArchive(err)
		case !isPlain(h) || h.Name != f.Name || h.Size != f.Size:
			return noBackup("it holds %q where its manifest says %s", h.Name, f.Name)
		}
		if err := unpackFile(ctx, from, f, root); err != nil {
			return err
		}
	}
	if _, err := from.Next(); err != io.EOF {
		return noBackup("it holds more than its manifest says")
	}
	return nil
}

func unpackFile(ctx context.Context, from io.Reader, f archived, root *os.Root) error {
	if err := root.MkdirAll(path.Dir(f.Name), 0o700); err != nil {
		return err
	}
	to, err := root.OpenFile(f.Name, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	defer to.Close()
	err = copyChecked(ctx, to, from, f)
	if errors.Is(err, errOther) {
		return noBackup("%w", err)
	}
	return errors.Join(err, to.Sync(), to.Close())
}

// syncFolders makes a folder last, and those in it.
func syncFolders(folder string) error {
	return filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		return disk.SyncFolder(path)
	})
}
