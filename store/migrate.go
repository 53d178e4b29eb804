package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"
)

// NewerError is a data file in a shape that only a newer program knows.
type NewerError struct {
	Found, Known int // numbers of the last step taken, and of the last that this program knows
	Backups      string
}

func (e *NewerError) Error() string {
	return fmt.Sprintf("a newer Fettle has written this data (step %d; this program knows %d): use that one, or the copy "+
		"from before in %s", e.Found, e.Known, e.Backups)
}

// migrate takes the file through the steps that it has not taken yet. Before each, a copy of a file
// that holds anything is put into the folder backups.
//
// Foreign keys are off on its connection: with them on, rebuilding a table by drop and rename deletes
// the children of its rows, and the setting cannot be changed inside a transaction.
func migrate(ctx context.Context, file, backups string, steps fs.FS) error {
	names, err := stepNames(steps)
	if err != nil {
		return err
	}
	db, err := connect(file, "_foreign_keys=off", "_txlock=immediate")
	if err != nil {
		return err
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	if err := searchable(ctx, db); err != nil {
		return err
	}
	for {
		taken, err := stepsTaken(ctx, db, file)
		switch {
		case err != nil:
			return err
		case taken > len(names):
			return &NewerError{taken, len(names), backups}
		case taken == len(names):
			return nil
		case taken > 0:
			copied := filepath.Join(backups, fmt.Sprintf("fettle-before-%04d.sqlite", taken+1))
			if err := backupBeside(ctx, db, copied); err != nil {
				return fmt.Errorf("copy before step %s: %w", names[taken], err)
			}
		}
		if err := takeStep(ctx, db, steps, names[taken], taken); err != nil {
			return fmt.Errorf("step %s: %w", names[taken], err)
		}
	}
}

// errNoSearch is of a program that was built without the tag that the driver asks for.
var errNoSearch = errors.New("this Fettle was built without SQLite's full-text search: build it with -tags sqlite_fts5,nodynamic")

// searchable tells whether SQLite has its full-text index, without which the log cannot be kept.
func searchable(ctx context.Context, db *sql.DB) error {
	var has bool
	if err := db.QueryRowContext(ctx, "SELECT sqlite_compileoption_used('ENABLE_FTS5')").Scan(&has); err != nil {
		return err
	}
	if !has {
		return errNoSearch
	}
	return nil
}

// stepNames lists the steps, the first at 0, and refuses a gap in their numbers.
func stepNames(steps fs.FS) ([]string, error) {
	names, err := fs.Glob(steps, "*.sql") // sorted
	if err != nil {
		return nil, err
	}
	for i, name := range names {
		if want := fmt.Sprintf("%04d_", i+1); !strings.HasPrefix(name, want) {
			return nil, fmt.Errorf("step %s: the next number is %s", name, want)
		}
	}
	return names, nil
}

func stepsTaken(ctx context.Context, db *sql.DB, file string) (taken int, err error) {
	var tables int
	err = db.QueryRowContext(ctx, `SELECT (SELECT user_version FROM pragma_user_version), (SELECT count(*) FROM sqlite_schema)`).
		Scan(&taken, &tables)
	if err == nil && taken == 0 && tables > 0 {
		return 0, fmt.Errorf("%s holds something else than machines; name another folder", filepath.Base(file))
	}
	return taken, err
}

// takeStep takes the step after taken, unless another process has taken it meanwhile.
func takeStep(ctx context.Context, db *sql.DB, steps fs.FS, name string, taken int) error {
	text, err := fs.ReadFile(steps, name)
	if err != nil {
		return err
	}
	return transact(ctx, db, func(tx *sql.Tx) error {
		var now int
		if err := tx.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&now); err != nil || now != taken {
			return err
		}
		if _, err := tx.ExecContext(ctx, string(text)); err != nil {
			return err
		}
		var orphans int
		if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM pragma_foreign_key_check`).Scan(&orphans); err != nil {
			return err
		}
		if orphans > 0 {
			return fmt.Errorf("it would leave %d rows that belong to nothing", orphans)
		}
		_, err := tx.ExecContext(ctx, fmt.Sprintf(`PRAGMA user_version = %d`, taken+1))
		return err
	})
}
