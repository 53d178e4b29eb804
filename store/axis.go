package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"

	"fettle/plan"
	"fettle/plan/axis"
)

// SaveAxis keeps the measuring sheet of an axis whole, in place of the one with its key, which must be
// at the revision; 0 is for a key that is not there yet, and puts the axis last. It gives the new
// revision, or a *[StaleError] of axis.Axis.
func (s *Store) SaveAxis(ctx context.Context, machineID, revision int64, a axis.Axis) (int64, error) {
	err := s.write(ctx, func(tx *sql.Tx) error {
		if err := s.count(ctx, tx, machineID, counts); err != nil {
			return err
		}
		id, is, err := axisAt(ctx, tx, machineID, a.Key)
		switch {
		case errors.Is(err, ErrNotFound) && revision == 0:
			return addAxis(ctx, tx, machineID, a)
		case err != nil:
			return err
		case is != revision:
			return staleAxis(ctx, tx, machineID, a.Key, is)
		}
		return replaceAxis(ctx, tx, id, a)
	})
	return revision + 1, err
}

// DeleteAxis takes an axis off a machine, for [Store.RestoreAxis] to bring back. It returns [ErrInUse]
// while an upgrade is for that axis.
func (s *Store) DeleteAxis(ctx context.Context, machineID int64, key string) error {
	const query = `UPDATE axis SET deleted_at = ? WHERE machine_id = ? AND key = ? AND deleted_at IS NULL`
	const use = `SELECT count(*) FROM upgrade WHERE machine_id = ? AND axis_key = ? AND deleted_at IS NULL`
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := s.count(ctx, tx, machineID, counts); err != nil {
			return err
		}
		var upgrades int
		if err := tx.QueryRowContext(ctx, use, machineID, key).Scan(&upgrades); err != nil {
			return err
		}
		if upgrades > 0 {
			return fmt.Errorf("axis %s: %w", key, ErrInUse)
		}
		return changeOne(ctx, tx, notFound("axis", key), query, s.now(), machineID, key)
	})
}

// RestoreAxis brings back the axis that was last deleted of those with the key. It returns [ErrTaken]
// when there is a new one with that key.
func (s *Store) RestoreAxis(ctx context.Context, machineID int64, key string) error {
	const query = `
		UPDATE axis SET deleted_at = NULL, revision = revision + 1
		WHERE id = (
			SELECT id FROM axis
			WHERE machine_id = ? AND key = ? AND deleted_at IS NOT NULL
			ORDER BY deleted_at DESC, id DESC
			LIMIT 1)`
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := s.count(ctx, tx, machineID, counts); err != nil {
			return err
		}
		return changeOne(ctx, tx, notFound("deleted axis", key), query, machineID, key)
	})
}

func axisAt(ctx context.Context, tx *sql.Tx, machineID int64, key string) (id, revision int64, err error) {
	const query = `SELECT id, revision FROM axis WHERE machine_id = ? AND key = ? AND deleted_at IS NULL`
	err = tx.QueryRowContext(ctx, query, machineID, key).Scan(&id, &revision)
	if errors.Is(err, sql.ErrNoRows) {
		err = notFound("axis", key)
	}
	return id, revision, err
}

func staleAxis(ctx context.Context, tx *sql.Tx, machineID int64, key string, revision int64) error {
	axes, _, err := axesOf(ctx, tx, machineID)
	if err != nil {
		return err
	}
	for _, a := range axes {
		if a.Key == key {
			return &StaleError[axis.Axis]{"axis " + key, a, revision}
		}
	}
	return notFound("axis", key)
}

func addAxis(ctx context.Context, tx *sql.Tx, machineID int64, a axis.Axis) error {
	const query = `
		INSERT INTO axis (machine_id, position, key, label, arrangement, capacity, datum, plus_label, minus_label, revision)
		VALUES (?1, (SELECT ifnull(max(position), 0) + 1 FROM axis WHERE machine_id = ?1), ?, ?, ?, ?, ?, ?, ?, 1)`
	done, err := tx.ExecContext(ctx, query, machineID, a.Key, a.Label, a.Arrangement, a.Capacity, a.Datum, a.Plus, a.Minus)
	if err != nil {
		return fmt.Errorf("axis %s: %w", a.Key, err)
	}
	id, err := done.LastInsertId()
	if err != nil {
		return err
	}
	return addAxisChildren(ctx, tx, id, a)
}

func replaceAxis(ctx context.Context, tx *sql.Tx, id int64, a axis.Axis) error {
	const query = `
		UPDATE axis
		SET label = ?, arrangement = ?, capacity = ?, datum = ?, plus_label = ?, minus_label = ?, revision = revision + 1
		WHERE id = ?`
	if _, err := tx.ExecContext(ctx, query, a.Label, a.Arrangement, a.Capacity, a.Datum, a.Plus, a.Minus, id); err != nil {
		return fmt.Errorf("axis %s: %w", a.Key, err)
	}
	for _, query := range []string{
		`DELETE FROM entry WHERE axis_id = ?`,
		`DELETE FROM answer WHERE axis_id = ?`,
		`DELETE FROM part WHERE axis_id = ?`,
		`DELETE FROM obstacle WHERE axis_id = ?`,
	} {
		if _, err := tx.ExecContext(ctx, query, id); err != nil {
			return err
		}
	}
	return addAxisChildren(ctx, tx, id, a)
}

func addAxisChildren(ctx context.Context, tx *sql.Tx, id int64, a axis.Axis) error {
	err := addEntries(ctx, tx, owner{axis: id}, a.Entries)
	if err != nil {
		return fmt.Errorf("axis %s: %w", a.Key, err)
	}
	for key, value := range a.Answers {
		const query = `INSERT INTO answer (axis_id, key, value) VALUES (?, ?, ?)`
		if _, err := tx.ExecContext(ctx, query, id, key, value); err != nil {
			return fmt.Errorf("axis %s: answer %s: %w", a.Key, key, err)
		}
	}
	for i, p := range a.Parts {
		if err := addPart(ctx, tx, id, i, p); err != nil {
			return fmt.Errorf("axis %s: part %s: %w", a.Key, p.Key, err)
		}
	}
	for i, o := range a.Obstacles {
		if err := addObstacle(ctx, tx, id, i, o); err != nil {
			return fmt.Errorf("axis %s: obstacle %s: %w", a.Key, o.Key, err)
		}
	}
	return nil
}

func addPart(ctx context.Context, tx *sql.Tx, axisID int64, position int, p axis.Part) error {
	const query = `
		INSERT INTO part (axis_id, position, key, label, role, side, tie_part, tie_face, lanes, material)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`
	var tiePart, tieFace, lanes sql.NullString
	if p.Tie != nil {
		tiePart, tieFace = sql.NullString{String: p.Tie.Part, Valid: true}, sql.NullString{String: p.Tie.Face, Valid: true}
	}
	if p.Lanes != nil {
		text, err := json.Marshal(p.Lanes)
		if err != nil {
			return err
		}
		lanes = sql.NullString{String: string(text), Valid: true}
	}
	done, err := tx.ExecContext(ctx, query, axisID, position, p.Key, p.Label, p.Role, p.Side, tiePart, tieFace, lanes, p.Material)
	if err != nil {
		return err
	}
	id, err := done.LastInsertId()
	if err != nil {
		return err
	}
	return addEntries(ctx, tx, owner{axis: axisID, part: id}, p.Entries)
}

func addObstacle(ctx context.Context, tx *sql.Tx, axisID int64, position int, o axis.Obstacle) error {
	const query = `
		INSERT INTO obstacle (axis_id, position, key, label, at_end, clear)
		VALUES (?, ?, ?, ?, ?, ?)`
	done, err := tx.ExecContext(ctx, query, axisID, position, o.Key, o.Label, o.End, o.Clear)
	if err != nil {
		return err
	}
	id, err := done.LastInsertId()
	if err != nil || o.Gap == (plan.Entry{}) {
		return err
	}
	return addEntries(ctx, tx, owner{axis: axisID, obstacle: id}, map[string]plan.Entry{gapKey: o.Gap})
}

// gapKey is the key of an obstacle's one entry.
const gapKey = "gap"

// owner is what an entry is of: an axis itself, or one of its parts or obstacles; 0 is none.
type owner struct{ axis, part, obstacle int64 }

func addEntries(ctx context.Context, tx *sql.Tx, of owner, entries map[string]plan.Entry) error {
	const query = `
		INSERT INTO entry (axis_id, part_id, obstacle_id, key, typed, spread, instrument, taken_on, origin, note)
		VALUES (?, nullif(?, 0), nullif(?, 0), ?, ?, ?, ?, ?, ?, ?)`
	for key, e := range entries {
		_, err := tx.ExecContext(ctx, query, of.axis, of.part, of.obstacle,
			key, e.Typed, e.Spread, e.With, e.On, e.Origin, e.Note)
		if err != nil {
			return fmt.Errorf("entry %s: %w", key, err)
		}
	}
	return nil
}
