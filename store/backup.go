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
)

// Backup writes a copy of the data file to path while the store is in use: everything that was
// acknowledged before the call. The copy is a data file itself. At no time is there half a copy at
// path; a file that is there already is left alone, with an error that is [fs.ErrExist].
func (s *Store) Backup(ctx context.Context, path string) error {
	// Not one of the pools: the readers may not write, and the writer is not to wait for a copy.
	db, err := connect(filepath.Join(s.folder, FileName))
	if err != nil {
		return err
	}
	defer db.Close()
	return known(backup(ctx, db, path))
}

// backupBeside is [Store.Backup] to the first free name of path, path-2, path-3, … in a folder that is
// made if need be.
func backupBeside(ctx context.Context, db *sql.DB, path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	stem, ending := strings.TrimSuffix(path, filepath.Ext(path)), filepath.Ext(path)
	err := backup(ctx, db, path)
	for n := 2; errors.Is(err, fs.ErrExist); n++ {
		err = backup(ctx, db, fmt.Sprintf("%s-%d%s", stem, n, ending))
	}
	return err
}

func backup(ctx context.Context, db *sql.DB, path string) (err error) {
	// Reserves the name; a rename alone would replace what is there.
	reserved, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return fmt.Errorf("backup: %w", err)
	}
	unfinished := path + ".unfinished"
	defer func() {
		if err != nil {
			err = fmt.Errorf("backup to %s: %w", path, errors.Join(err, os.Remove(path), removeIfThere(unfinished)))
		}
	}()
	if err := errors.Join(reserved.Close(), removeIfThere(unfinished)); err != nil {
		return err
	}
	if _, err := db.ExecContext(ctx, `VACUUM INTO ?`, unfinished); err != nil {
		return err
	}
	if err := syncFile(unfinished); err != nil {
		return err
	}
	if err := os.Rename(unfinished, path); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(path))
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
