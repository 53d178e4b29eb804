package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"

	"github.com/mattn/go-sqlite3"

	"fettle/migrations"
)

// takeOver checks a data file that came from elsewhere, with the photos beside it, and takes out of it who
// is let in. Its tables are compared before they are used: nothing that came along in them is run.
func takeOver(ctx context.Context, file string, photos []archived) (err error) {
	db, err := connect(file, "_foreign_keys=on", "_txlock=immediate")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	db.SetMaxOpenConns(1) // so that the settings are those of every statement
	const wary = `PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA secure_delete = ON`
	if _, err := db.ExecContext(ctx, wary); err != nil {
		return noData(err)
	}
	return noData(transact(ctx, db, func(tx *sql.Tx) error {
		if err := checkShape(ctx, tx); err != nil {
			return err
		}
		if err := checkRows(ctx, tx); err != nil {
			return err
		}
		if err := checkNamed(ctx, tx, photos); err != nil {
			return err
		}
		return forgetAccess(ctx, tx)
	}))
}

// noData tells what a data file that is damaged or not ours came to; what the disk says stays as it is.
func noData(err error) error {
	var e sqlite3.Error
	if !errors.As(err, &e) || slices.Contains([]sqlite3.ErrNo{sqlite3.ErrFull, sqlite3.ErrIoErr, sqlite3.ErrNomem,
		sqlite3.ErrInterrupt, sqlite3.ErrCantOpen}, e.Code) {
		return err
	}
	return noBackup("its data file is damaged, or not of Fettle (%w)", err)
}

// checkShape holds the tables, indexes and all else to what the steps up to its own make.
func checkShape(ctx context.Context, tx *sql.Tx) error {
	names, err := stepNames(migrations.Files)
	if err != nil {
		return err
	}
	var taken int
	if err := tx.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&taken); err != nil {
		return err
	}
	switch {
	case taken < 1:
		return noBackup("its data file is not of Fettle")
	case taken > len(names):
		return noBackup("a newer Fettle has written it (step %d; this program knows %d); restore it with that one", taken, len(names))
	}
	ours, err := sql.Open("sqlite3", ":memory:")
	if err != nil {
		return err
	}
	defer ours.Close()
	ours.SetMaxOpenConns(1) // each is a memory of its own
	for i, name := range names[:taken] {
		if err := takeStep(ctx, ours, migrations.Files, name, i); err != nil {
			return err
		}
	}
	var want []string
	if err := transact(ctx, ours, func(tx *sql.Tx) error { want, err = shape(ctx, tx); return err }); err != nil {
		return err
	}
	is, err := shape(ctx, tx)
	if err == nil && !slices.Equal(is, want) {
		err = noBackup("its data file has other tables than those of Fettle")
	}
	return err
}

// shape lists what a data file is made of. The tables that the search keeps for itself may be worded
// otherwise by another SQLite.
func shape(ctx context.Context, tx *sql.Tx) ([]string, error) {
	return texts(ctx, tx, `
		SELECT type || ' ' || name || ' ' || tbl_name || ' ' || CASE WHEN name GLOB 'log_search_*' THEN '' ELSE ifnull(sql, '') END
		FROM sqlite_schema
		ORDER BY name`)
}

func checkRows(ctx context.Context, tx *sql.Tx) error {
	var found string
	if err := tx.QueryRowContext(ctx, `PRAGMA integrity_check(1)`).Scan(&found); err != nil {
		return err
	}
	if found != "ok" {
		return noBackup("its data file is damaged (%s)", found)
	}
	var orphans int
	if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM pragma_foreign_key_check`).Scan(&orphans); err != nil {
		return err
	}
	if orphans > 0 {
		return noBackup("%d rows of its data file belong to nothing", orphans)
	}
	return nil
}

func checkNamed(ctx context.Context, tx *sql.Tx, photos []archived) error {
	named, err := namedPhotos(ctx, tx)
	if err != nil {
		return err
	}
	for _, p := range photos {
		if _, is := slices.BinarySearch(named, p.SHA256); !is {
			return noBackup("it holds %s, which its data file does not name", p.Name)
		}
	}
	return nil
}

// namedPhotos lists the photos that a data file names, sorted.
func namedPhotos(ctx context.Context, tx *sql.Tx) ([]string, error) {
	if has, err := hasTable(ctx, tx, "photo"); err != nil || !has {
		return nil, err
	}
	return texts(ctx, tx, `SELECT sha256 FROM photo ORDER BY sha256`)
}

// forgetAccess shuts out every device, and takes away the passphrase.
func forgetAccess(ctx context.Context, tx *sql.Tx) error {
	for _, table := range []string{"device", "passphrase"} {
		if has, err := hasTable(ctx, tx, table); err != nil || !has {
			return err
		}
		if _, err := tx.ExecContext(ctx, fmt.Sprintf(`DELETE FROM %s`, table)); err != nil {
			return err
		}
	}
	return nil
}

// hasTable tells whether a data file, which may be of an earlier step, has a table.
func hasTable(ctx context.Context, tx *sql.Tx, name string) (has bool, err error) {
	err = tx.QueryRowContext(ctx, `SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = ?`, name).Scan(&has)
	return has, err
}
