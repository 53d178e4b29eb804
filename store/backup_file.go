package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fettle/store/disk"
)

// backupBeside copies the data file, without photos, to the first free name of path, path-2, path-3, … in
// a folder that is made if need be.
func backupBeside(ctx context.Context, db *sql.DB, path string) (err error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	work, err := os.MkdirTemp(filepath.Dir(path), filepath.Base(path)+".unfinished-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(work)) }()
	unfinished := filepath.Join(work, filepath.Base(path))
	if err := snapshot(ctx, db, unfinished); err != nil {
		return err
	}
	stem, ending := strings.TrimSuffix(path, filepath.Ext(path)), filepath.Ext(path)
	err = placeNew(unfinished, path)
	for n := 2; errors.Is(err, fs.ErrExist); n++ {
		err = placeNew(unfinished, fmt.Sprintf("%s-%d%s", stem, n, ending))
	}
	return err
}

// snapshot writes one state of the data file to path, whatever is written meanwhile. What it writes is
// a data file itself.
func snapshot(ctx context.Context, db *sql.DB, path string) error {
	if _, err := db.ExecContext(ctx, `VACUUM INTO ?`, path); err != nil {
		return err
	}
	return syncFile(path)
}

// placeNew gives a synced file its name, which nothing has yet: otherwise the error is [fs.ErrExist].
func placeNew(from, to string) error {
	err := os.Link(from, to) // unlike a rename it never replaces
	switch {
	case err == nil:
		return errors.Join(os.Remove(from), disk.SyncFolder(filepath.Dir(to)))
	case errors.Is(err, fs.ErrExist):
		return err
	}
	// A file system without links, such as a memory stick's: an empty file keeps the name meanwhile.
	reserved, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	if err := errors.Join(reserved.Close(), place(from, to)); err != nil {
		return errors.Join(err, os.Remove(to))
	}
	return nil
}

// place gives a synced file its name, in the place of what has it.
func place(from, to string) error {
	if err := os.Rename(from, to); err != nil {
		return err
	}
	return disk.SyncFolder(filepath.Dir(to))
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Chmod(0o600), f.Sync(), f.Close())
}

func removeIfThere(path string) error {
	if err := os.Remove(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
