package store

import (
	"archive/tar"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"fettle/store/photo"
)

// Backed tells what is in a backup, and which photos that the data file names are not.
type Backed struct {
	Photos  int
	Bytes   int64    // of the archive
	Missing []string // SHA-256: the file is not there, as after the import of a log without its photos
	Damaged []string // SHA-256: the file is no longer what was kept, or cannot be read
}

// Backup writes the data file and the photos that it names into one archive at path while the store is in
// use: everything that was acknowledged before the call. At no time is there half an archive at path; a
// file that is there already is left alone, with an error that is [fs.ErrExist].
func (s *Store) Backup(ctx context.Context, path string) (Backed, error) {
	if _, err := os.Lstat(path); err == nil { // said before the work; placeNew holds to it
		return Backed{}, fmt.Errorf("backup to %s: %w", path, fs.ErrExist)
	}
	return s.backupTo(ctx, path, placeNew)
}

// ReplaceBackup is [Store.Backup] in the place of an older backup, if there is one; of anything else the
// error is [ErrNoBackup].
func (s *Store) ReplaceBackup(ctx context.Context, path string) (Backed, error) {
	older, err := os.Open(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return s.Backup(ctx, path)
	case err != nil:
		return Backed{}, fmt.Errorf("backup: %w", err)
	}
	_, _, err = openArchive(older)
	if err = errors.Join(err, older.Close()); err != nil {
		return Backed{}, fmt.Errorf("replace %s: %w", path, err)
	}
	return s.backupTo(ctx, path, place)
}

func (s *Store) backupTo(ctx context.Context, path string, place func(from, to string) error) (b Backed, err error) {
	work, err := os.MkdirTemp(filepath.Dir(path), filepath.Base(path)+".unfinished-")
	if err != nil {
		return b, fmt.Errorf("backup: %w", err)
	}
	defer func() {
		if err = known(errors.Join(err, os.RemoveAll(work))); err != nil {
			err = fmt.Errorf("backup to %s: %w", path, err)
		}
	}()
	// Not one of the pools: the readers may not write, and the writer is not to wait for a copy.
	db, err := connect(filepath.Join(s.folder, FileName))
	if err != nil {
		return b, err
	}
	defer db.Close()
	data, archive := filepath.Join(work, FileName), filepath.Join(work, "backup.tar")
	if err := snapshot(ctx, db, data); err != nil {
		return b, err
	}
	damaged := &damagedError{}
	for {
		b, err = s.archive(ctx, data, archive, damaged.sums)
		if !errors.As(err, &damaged) {
			break
		}
	}
	if err != nil {
		return b, err
	}
	return b, place(archive, path)
}

// damagedError lists photos that are to be left out.
type damagedError struct{ sums []string }

func (e *damagedError) Error() string { return fmt.Sprintf("photos are damaged: %s", e.sums) }

// archive writes the archive to a file, with a snapshot of the data file and the photos that it names,
// without the damaged ones; when it finds another one, it returns a [*damagedError] with that too. A
// photo is immutable, and is there before the data file names it: no state of the store can be missed.
func (s *Store) archive(ctx context.Context, data, to string, damaged []string) (b Backed, err error) {
	files, missing, err := s.contents(ctx, data, damaged)
	if err != nil {
		return b, err
	}
	out, err := os.OpenFile(to, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return b, err
	}
	defer out.Close()
	made := s.clock().UTC().Truncate(time.Second)
	w := archiver{ctx, tar.NewWriter(out), made}
	if err := w.manifest(manifest{archiveFormat, archiveVersion, made, files}); err != nil {
		return b, err
	}
	for i, f := range files {
		path := data
		if i > 0 {
			path = filepath.Join(s.folder, filepath.FromSlash(f.Name))
		}
		err := w.file(f, path)
		if errors.Is(err, errOther) && i > 0 {
			err = &damagedError{append(damaged, f.SHA256)}
		}
		if err != nil {
			return b, err
		}
	}
	if err := errors.Join(w.tar.Close(), out.Sync()); err != nil {
		return b, err
	}
	is, err := out.Stat()
	if err != nil {
		return b, err
	}
	return Backed{len(files) - 1, is.Size(), missing, damaged}, out.Close()
}

// contents lists what goes into the archive, and the photos that are not there.
func (s *Store) contents(ctx context.Context, data string, without []string) (files []archived, missing []string, err error) {
	named, err := photosIn(ctx, data)
	if err != nil {
		return nil, nil, err
	}
	is, err := archivedAs(FileName, data) // after it was read: that alone can change a byte of it
	if err != nil {
		return nil, nil, err
	}
	files = append(files, is)
	for _, sum := range named {
		if slices.Contains(without, sum) {
			continue
		}
		name, err := photo.Name(sum)
		if err != nil {
			return nil, nil, err
		}
		is, err := os.Stat(filepath.Join(s.folder, filepath.FromSlash(name)))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			missing = append(missing, sum)
		case err != nil:
			return nil, nil, err
		default:
			files = append(files, archived{name, is.Size(), sum})
		}
	}
	return files, missing, nil
}

func photosIn(ctx context.Context, data string) (named []string, err error) {
	db, err := connect(data)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	err = transact(ctx, db, func(tx *sql.Tx) (err error) {
		named, err = namedPhotos(ctx, tx)
		return err
	})
	return named, err
}
