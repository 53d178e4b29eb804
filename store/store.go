// Package store keeps machines in one SQLite file in a data folder. It turns rows into the types of
// plan and back, and computes nothing.
//
//	s, err := store.Open(ctx, folder, time.Now)
//	id, err := s.AddMachine(ctx, machine.Machine{Name: "Lathe", Kind: "lathe", Units: "mm"})
//	got, err := s.Machine(ctx, id)
//	revision, err := s.SaveAxis(ctx, id, got.AxisRevisions["cross"], cross)
//
// # What is acknowledged is on disk
//
// An exported method is one transaction. When it returns without an error, what it changed has been
// written and synced; when it returns an error, nothing has changed.
//
// # Two at one machine
//
// A machine's own words, each axis and each upgrade count their changes: their revision. A save says
// which revision it was made from, 0 for something new; when somebody else saved meanwhile, it is
// refused with a [StaleError] that brings what is stored now. The caller still holds what was typed.
// [Stored.Changes] counts the changes of the whole machine, drafts that are being typed left out.
//
// Several processes can use one folder at a time: the commands beside the pages, for one. They wait for
// each other's writes, up to five seconds.
//
// What is noted of a machine's buy list, and the bar in the rack, is a [Shopping] with a revision of its own.
//
// # Nothing is thrown away
//
// Deleting a machine, an axis or an upgrade marks it, and Restore brings it back as it was.
package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/mattn/go-sqlite3"

	"fettle/migrations"
	"fettle/plan/buildlog"
	"fettle/store/disk"
	"fettle/store/photo"
)

// FileName is the name of the data file in its folder.
const FileName = "fettle.sqlite"

// Errors of a caller that must branch; each comes wrapped, with what it was about.
var (
	ErrNotFound = errors.New("not found")                                              // or deleted
	ErrTaken    = errors.New("the key is taken")                                       // twice in one machine or axis
	ErrRefused  = errors.New("not allowed in the data file")                           // a value that is never right
	ErrInUse    = errors.New("upgrades are planned on it; delete those first")         // an axis
	ErrBusy     = errors.New("another program is writing to the data file; try again") // for five seconds

	ErrNoRoom      = errors.New("the disk is full")
	ErrFolderInUse = errors.New("it is in use by a Fettle that is running; stop that first")
)

// Store is an open data folder. It can be used from several goroutines.
type Store struct {
	folder string
	lock   io.Closer
	writer *sql.DB // one connection, so that writes inside this program queue and are never refused
	reader *sql.DB
	clock  func() time.Time
	axes   memory[measured]                   // by machine, at its count of changes
	typed  memory[typed]                      // by upgrade, at its revision
	totals memory[map[string]buildlog.Totals] // by machine, at its log's count of changes
	photos *photo.Folder
}

// Open opens the data folder, made if it is not there, and brings its file to the shape that this
// program knows; a copy of the file is kept before each step of that. The clock gives the times of
// changes.
//
// It returns a [*NewerError] for a file that a newer program has written.
func Open(ctx context.Context, folder string, clock func() time.Time) (s *Store, err error) {
	folder, err = filepath.Abs(folder)
	if err != nil {
		return nil, fmt.Errorf("data folder: %w", err)
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return nil, fmt.Errorf("data folder: %w", err)
	}
	lock, err := lockFolder(folder, shared) // against a restore
	if err != nil {
		return nil, fmt.Errorf("data folder: %w", err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, lock.Close())
		}
	}()
	file := filepath.Join(folder, FileName)
	if err := prepare(ctx, file, filepath.Join(folder, "backups")); err != nil {
		return nil, fmt.Errorf("open %s: %w", file, err)
	}
	s = &Store{folder: folder, lock: lock, clock: clock, photos: photo.New(folder)}
	if s.writer, err = connect(file, "_foreign_keys=on", "_txlock=immediate"); err != nil {
		return nil, err
	}
	if s.reader, err = connect(file, "_foreign_keys=on", "_query_only=on"); err != nil {
		return nil, errors.Join(err, s.writer.Close())
	}
	s.writer.SetMaxOpenConns(1)
	s.reader.SetMaxOpenConns(readers)
	s.reader.SetMaxIdleConns(readers)
	if err := disk.SyncFolder(folder); err != nil {
		return nil, errors.Join(err, s.reader.Close(), s.writer.Close())
	}
	return s, nil
}

const readers = 4

// prepare brings the file to its shape. SQLite does not wait by itself while another process makes the
// file one with a WAL.
func prepare(ctx context.Context, file, backups string) error {
	err := known(migrate(ctx, file, backups, migrations.Files))
	for tries := 0; errors.Is(err, ErrBusy) && tries < 50; tries++ {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(100 * time.Millisecond):
			err = known(migrate(ctx, file, backups, migrations.Files))
		}
	}
	return err
}

// Close ends the use of the folder; a second time it does nothing. The writer goes last: the last to leave
// tidies the file.
func (s *Store) Close() error {
	err := errors.Join(s.reader.Close(), s.writer.Close())
	if unlock := s.lock.Close(); !errors.Is(unlock, fs.ErrClosed) {
		err = errors.Join(err, unlock)
	}
	return err
}

// connect gives a pool of connections to the file. The settings are part of the name, so that every
// connection has them. FULL: with NORMAL, WAL may lose the last acknowledged change when power fails.
func connect(file string, settings ...string) (*sql.DB, error) {
	name := filepath.ToSlash(file)
	if !strings.HasPrefix(name, "/") { // a drive letter
		name = "/" + name
	}
	settings = append(settings, "_journal_mode=WAL", "_busy_timeout=5000", "_synchronous=FULL", "_stmt_cache_size=64")
	address := url.URL{Scheme: "file", OmitHost: true, Path: name, RawQuery: strings.Join(settings, "&")}
	pool, err := sql.Open("sqlite3", address.String())
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", file, err)
	}
	return pool, nil
}

// write runs do in one transaction that others see whole or not at all.
func (s *Store) write(ctx context.Context, do func(tx *sql.Tx) error) error {
	return known(transact(ctx, s.writer, do))
}

// read runs do on one state of the file, whatever is written meanwhile.
func (s *Store) read(ctx context.Context, do func(tx *sql.Tx) error) error {
	return known(transact(ctx, s.reader, do))
}

func transact(ctx context.Context, pool *sql.DB, do func(tx *sql.Tx) error) error {
	tx, err := pool.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() // does nothing after the commit
	if err := do(tx); err != nil {
		return err
	}
	return tx.Commit()
}

// known adds to an error of SQLite or the system the one of ours that says the same.
func known(err error) error {
	var e sqlite3.Error
	is := errors.As(err, &e)
	switch {
	case is && (e.Code == sqlite3.ErrFull || isNoRoom(e.SystemErrno)), isNoRoom(err):
		return fmt.Errorf("%w: %w", ErrNoRoom, err)
	case !is:
		return err
	case e.ExtendedCode == sqlite3.ErrConstraintUnique:
		return fmt.Errorf("%w: %w", ErrTaken, err)
	case e.Code == sqlite3.ErrConstraint:
		return fmt.Errorf("%w: %w", ErrRefused, err)
	case e.Code == sqlite3.ErrBusy:
		return fmt.Errorf("%w: %w", ErrBusy, err)
	}
	return err
}

// isNoRoom tells whether the system had no room for what was written: on the disk, in the user's share of
// it, or in one file.
func isNoRoom(err error) bool {
	return slices.ContainsFunc(noRoom, func(is syscall.Errno) bool { return errors.Is(err, is) })
}

// each runs the query and calls scan for each row.
func each(ctx context.Context, tx *sql.Tx, query string, arg any, scan func(rows *sql.Rows) error) error {
	rows, err := tx.QueryContext(ctx, query, arg)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := scan(rows); err != nil {
			return err
		}
	}
	return rows.Err()
}

// texts gives the one column of a query.
func texts(ctx context.Context, tx *sql.Tx, query string, args ...any) (all []string, err error) {
	rows, err := tx.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var text string
		if err := rows.Scan(&text); err != nil {
			return nil, err
		}
		all = append(all, text)
	}
	return all, rows.Err()
}

// instant is how times are kept: UTC, of one length, so that as text they sort as they follow.
const instant = "2006-01-02T15:04:05.000Z"

func (s *Store) now() string { return s.clock().UTC().Format(instant) }
