package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// Way is how a device came to be let in.
type Way string

// The ways in.
const (
	ByPassphrase Way = "passphrase" // it was typed there
	ByCode       Way = "code"       // one that was shown to it
)

// Device is one browser that is let in from the network.
type Device struct {
	ID      int64
	Name    string
	Way     Way
	Paired  time.Time
	Seen    time.Time // last, give or take what [Store.SeeDevice] is called for
	Expires time.Time // it is let in until then
}

// Token is the SHA-256 of what a device's cookie holds.
type Token [32]byte

// Passphrase reads the hash of the passphrase; "" where none is set.
func (s *Store) Passphrase(ctx context.Context) (hash string, err error) {
	err = s.read(ctx, func(tx *sql.Tx) (err error) {
		hash, err = passphraseOf(ctx, tx)
		return err
	})
	return hash, err
}

func passphraseOf(ctx context.Context, tx *sql.Tx) (hash string, err error) {
	err = tx.QueryRowContext(ctx, `SELECT hash FROM passphrase`).Scan(&hash)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return hash, err
}

// SetPassphrase keeps the hash of a new passphrase, and shuts out every device: one that got in by the
// old passphrase may be why there is a new one.
func (s *Store) SetPassphrase(ctx context.Context, hash string) error {
	const query = `
		INSERT INTO passphrase (id, hash, changed) VALUES (1, ?, ?)
		ON CONFLICT (id) DO UPDATE SET hash = excluded.hash, changed = excluded.changed`
	return s.write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, query, hash, s.now()); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `DELETE FROM device`)
		return err
	})
}

// AddDevice lets a device in whose cookie has the token, in place of the one that it was before (0:
// none). under is the hash of the passphrase when it proved itself: when there is another by now, or
// none, it is not let in, and the error is [ErrNotFound]. Its id, and when it was paired and seen, are
// of the store.
func (s *Store) AddDevice(ctx context.Context, under string, token Token, d Device, before int64) (id int64, err error) {
	const query = `
		INSERT INTO device (token, name, way, paired, seen, expires) VALUES (?, ?, ?, ?, ?, ?)
		RETURNING id`
	err = s.write(ctx, func(tx *sql.Tx) error {
		hash, err := passphraseOf(ctx, tx)
		if err != nil {
			return err
		}
		if hash == "" || hash != under {
			return fmt.Errorf("the passphrase that device %q came by: %w", d.Name, ErrNotFound)
		}
		now := s.now()
		if _, err := tx.ExecContext(ctx, `DELETE FROM device WHERE id = ? OR expires <= ?`, before, now); err != nil {
			return err
		}
		return tx.QueryRowContext(ctx, query, token[:], d.Name, d.Way, now, now, d.Expires.UTC().Format(instant)).Scan(&id)
	})
	return id, err
}

const deviceColumns = `id, name, way, paired, seen, expires`

// DeviceOf reads the device whose cookie has the token. One that was shut out, or whose time is over,
// is [ErrNotFound].
func (s *Store) DeviceOf(ctx context.Context, token Token) (d Device, err error) {
	const query = `SELECT ` + deviceColumns + ` FROM device WHERE token = ? AND expires > ?`
	err = s.read(ctx, func(tx *sql.Tx) (err error) {
		d, err = scanDevice(tx.QueryRowContext(ctx, query, token[:], s.now()))
		if errors.Is(err, sql.ErrNoRows) {
			return fmt.Errorf("device: %w", ErrNotFound)
		}
		return err
	})
	return d, err
}

// Devices lists the devices that are let in, the latest first.
func (s *Store) Devices(ctx context.Context) (all []Device, err error) {
	const query = `SELECT ` + deviceColumns + ` FROM device WHERE expires > ? ORDER BY paired DESC, id DESC`
	err = s.read(ctx, func(tx *sql.Tx) error {
		return each(ctx, tx, query, s.now(), func(rows *sql.Rows) error {
			d, err := scanDevice(rows)
			all = append(all, d)
			return err
		})
	})
	return all, err
}

// SeeDevice notes that the device was there now.
func (s *Store) SeeDevice(ctx context.Context, id int64) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `UPDATE device SET seen = ? WHERE id = ?`, s.now(), id)
		return err
	})
}

// ShutOut lets a device in no longer, from now on.
func (s *Store) ShutOut(ctx context.Context, id int64) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, `DELETE FROM device WHERE id = ?`, id)
		if err != nil {
			return err
		}
		if n, err := done.RowsAffected(); err != nil || n == 0 {
			return errors.Join(err, fmt.Errorf("device %d: %w", id, ErrNotFound))
		}
		return nil
	})
}

func scanDevice(row interface{ Scan(to ...any) error }) (d Device, err error) {
	var paired, seen, expires string
	if err := row.Scan(&d.ID, &d.Name, &d.Way, &paired, &seen, &expires); err != nil {
		return d, err
	}
	var errPaired, errSeen, errExpires error
	d.Paired, errPaired = time.Parse(instant, paired)
	d.Seen, errSeen = time.Parse(instant, seen)
	d.Expires, errExpires = time.Parse(instant, expires)
	return d, errors.Join(errPaired, errSeen, errExpires)
}
