package store

import (
	"context"
	"database/sql"
	"fmt"

	"fettle/plan/buildlog"
)

// WholeLog reads all entries of a machine's log that are not deleted, the oldest first, as a file takes
// them: what names an axis or an upgrade that has been deleted names none.
func (s *Store) WholeLog(ctx context.Context, machineID int64) (log []buildlog.Entry, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		if _, err := headOf(ctx, tx, machineID); err != nil {
			return err
		}
		axes, upgrades, err := namesOf(ctx, tx, machineID)
		if err != nil {
			return err
		}
		entries, err := logEntries(ctx, tx, `machine_id = ? AND deleted_at IS NULL ORDER BY at, id`, machineID)
		for _, e := range entries {
			if !axes[e.Axis] {
				e.Axis = ""
			}
			if !upgrades[e.Upgrade] {
				e.Upgrade = ""
			}
			log = append(log, e.Entry)
		}
		return err
	})
	return log, err
}

// namesOf gives the keys of a machine's axes and the IDs of its upgrades.
func namesOf(ctx context.Context, tx *sql.Tx, machineID int64) (axes, upgrades map[string]bool, err error) {
	const query = `
		SELECT key, '' FROM axis WHERE machine_id = ?1 AND deleted_at IS NULL
		UNION ALL
		SELECT '', public_id FROM upgrade WHERE machine_id = ?1 AND deleted_at IS NULL`
	axes, upgrades = map[string]bool{}, map[string]bool{}
	err = each(ctx, tx, query, machineID, func(rows *sql.Rows) error {
		var key, id string
		err := rows.Scan(&key, &id)
		axes[key], upgrades[id] = true, true
		return err
	})
	return axes, upgrades, err
}

// addLog keeps the log of a new machine.
func (s *Store) addLog(ctx context.Context, tx *sql.Tx, machineID int64, log []buildlog.Entry) error {
	const query = `
		INSERT INTO photo (sha256, type, width, height, taken, place, added_at) VALUES (?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT DO NOTHING` // of one that is here, more is known than a file tells
	for _, e := range log {
		for _, p := range e.Photos {
			if _, err := tx.ExecContext(ctx, query, p.SHA256, p.Type, p.Width, p.Height, p.Taken, p.Place, s.now()); err != nil {
				return fmt.Errorf("photo %s: %w", p.SHA256, err)
			}
		}
		if err := s.addLogEntry(ctx, tx, machineID, e); err != nil {
			return err
		}
	}
	return nil
}
