package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"fettle/plan/buildlog"
	"fettle/plan/machine"
)

// Stored is a machine as it is kept.
type Stored struct {
	ID int64
	machine.Machine
	Revision         int64            // of its own words, see [Head]
	AxisRevisions    map[string]int64 // by key
	UpgradeRevisions map[string]int64 // by ID
	Changes          int64            // of all that counts: the same number, the same plan
	Created, Changed time.Time        // UTC; a draft being typed is a change here
}

// Head is what a machine says of itself.
type Head struct{ Name, Kind, Units, Note string }

// Listed is a line of the list of machines.
type Listed struct {
	ID         int64
	Name, Kind string
	Axes       int
	Upgrades   int // planned or finished
	Drafts     int
	Changed    time.Time // UTC
}

// Machines lists the machines, the one that was changed last first.
func (s *Store) Machines(ctx context.Context) ([]Listed, error) {
	return s.list(ctx, 0)
}

// DeletedMachines lists those that [Store.RestoreMachine] brings back, in the same order.
func (s *Store) DeletedMachines(ctx context.Context) ([]Listed, error) {
	return s.list(ctx, 1)
}

func (s *Store) list(ctx context.Context, deleted int64) (list []Listed, err error) {
	const query = `
		SELECT id, name, kind, changed_at,
			(SELECT count(*) FROM axis WHERE machine_id = machine.id AND deleted_at IS NULL),
			(SELECT count(*) FROM upgrade WHERE machine_id = machine.id AND deleted_at IS NULL AND state <> 'draft'),
			(SELECT count(*) FROM upgrade WHERE machine_id = machine.id AND deleted_at IS NULL AND state = 'draft')
		FROM machine
		WHERE (deleted_at IS NOT NULL) = ?
		ORDER BY changed_at DESC, id DESC`
	err = s.read(ctx, func(tx *sql.Tx) error {
		return each(ctx, tx, query, deleted, func(rows *sql.Rows) error {
			var l Listed
			var changed string
			if err := rows.Scan(&l.ID, &l.Name, &l.Kind, &changed, &l.Axes, &l.Upgrades, &l.Drafts); err != nil {
				return err
			}
			l.Changed, err = time.Parse(instant, changed)
			list = append(list, l)
			return err
		})
	})
	return list, err
}

// Machine reads one machine whole. Maps without entries are empty, not nil; so every one can be
// written to.
func (s *Store) Machine(ctx context.Context, id int64) (m Stored, err error) {
	err = s.read(ctx, func(tx *sql.Tx) (err error) {
		if m, err = headOf(ctx, tx, id); err != nil {
			return err
		}
		if m.Axes, m.AxisRevisions, err = s.axesAt(ctx, tx, id, m.Changes); err != nil {
			return err
		}
		m.Upgrades, m.UpgradeRevisions, err = s.upgradesOf(ctx, tx, id)
		return err
	})
	return m, err
}

func headOf(ctx context.Context, tx *sql.Tx, id int64) (m Stored, err error) {
	const query = `
		SELECT id, name, kind, units, note, revision, changes, created_at, changed_at
		FROM machine
		WHERE id = ? AND deleted_at IS NULL`
	var created, changed string
	err = tx.QueryRowContext(ctx, query, id).
		Scan(&m.ID, &m.Name, &m.Kind, &m.Units, &m.Note, &m.Revision, &m.Changes, &created, &changed)
	if errors.Is(err, sql.ErrNoRows) {
		return m, notFound("machine", id)
	}
	if err != nil {
		return m, err
	}
	var errCreated, errChanged error
	m.Created, errCreated = time.Parse(instant, created)
	m.Changed, errChanged = time.Parse(instant, changed)
	return m, errors.Join(errCreated, errChanged)
}

// AddMachine keeps a new machine, with a log where it has one, and gives its ID. Its upgrades keep their
// IDs, or get one where that is ""; the finished ones come first. Of the log's photos nothing but what the
// entries tell has to be there: a file may come later, by [Store.AddPhoto], or be missing.
func (s *Store) AddMachine(ctx context.Context, m machine.Machine, log ...buildlog.Entry) (id int64, err error) {
	const query = `
		INSERT INTO machine (name, kind, units, note, revision, changes, created_at, changed_at)
		VALUES (?, ?, ?, ?, 1, 1, ?, ?)`
	err = s.write(ctx, func(tx *sql.Tx) error {
		now := s.now()
		done, err := tx.ExecContext(ctx, query, m.Name, m.Kind, m.Units, m.Note, now, now)
		if err != nil {
			return fmt.Errorf("machine %s: %w", m.Name, err)
		}
		if id, err = done.LastInsertId(); err != nil {
			return err
		}
		for _, a := range m.Axes {
			if err := addAxis(ctx, tx, id, a); err != nil {
				return err
			}
		}
		for _, given := range []bool{true, false} { // first, so that no new ID is one of the others
			for i, u := range m.Upgrades {
				if (u.ID != "") != given {
					continue
				}
				if _, err := addUpgrade(ctx, tx, id, i, u); err != nil {
					return err
				}
			}
		}
		if err := arrange(ctx, tx, id, asTheyAre); err != nil {
			return err
		}
		return s.addLog(ctx, tx, id, log)
	})
	return id, err
}

// UpdateMachine changes the words of a machine that is at the revision, and gives the new one. It
// returns a *[StaleError] of [Head] when it is not.
func (s *Store) UpdateMachine(ctx context.Context, id, revision int64, h Head) (int64, error) {
	const query = `
		UPDATE machine
		SET name = ?, kind = ?, units = ?, note = ?, revision = revision + 1
		WHERE id = ?`
	err := s.write(ctx, func(tx *sql.Tx) error {
		is, err := headOf(ctx, tx, id)
		if err != nil {
			return err
		}
		if is.Revision != revision {
			return &StaleError[Head]{"the machine", Head{is.Name, is.Kind, is.Units, is.Note}, is.Revision}
		}
		if err := s.count(ctx, tx, id, counts); err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, query, h.Name, h.Kind, h.Units, h.Note, id)
		return err
	})
	return revision + 1, err
}

// DeleteMachine takes a machine off the list, for [Store.RestoreMachine] to bring back.
func (s *Store) DeleteMachine(ctx context.Context, id int64) error {
	const query = `UPDATE machine SET deleted_at = ? WHERE id = ? AND deleted_at IS NULL`
	return s.write(ctx, func(tx *sql.Tx) error {
		return changeOne(ctx, tx, notFound("machine", id), query, s.now(), id)
	})
}

// RestoreMachine brings back a deleted machine as it was.
func (s *Store) RestoreMachine(ctx context.Context, id int64) error {
	const query = `UPDATE machine SET deleted_at = NULL WHERE id = ? AND deleted_at IS NOT NULL`
	return s.write(ctx, func(tx *sql.Tx) error {
		return changeOne(ctx, tx, notFound("deleted machine", id), query, id)
	})
}

// weight is how much a change adds to a machine's count of changes.
type weight int

const (
	drafted weight = 0 // a draft is being typed
	counts  weight = 1
)

// count notes a change of a machine, which must be there.
func (s *Store) count(ctx context.Context, tx *sql.Tx, id int64, w weight) error {
	const query = `UPDATE machine SET changes = changes + ?, changed_at = ? WHERE id = ? AND deleted_at IS NULL`
	return changeOne(ctx, tx, notFound("machine", id), query, w, s.now(), id)
}

// changeOne runs a statement that has to change a row, and gives the error otherwise when it has not.
func changeOne(ctx context.Context, tx *sql.Tx, otherwise error, query string, args ...any) error {
	done, err := tx.ExecContext(ctx, query, args...)
	if err != nil {
		return err
	}
	n, err := done.RowsAffected()
	if err == nil && n == 0 {
		return otherwise
	}
	return err
}
