package store

import (
	"context"
	"database/sql"
	"fmt"

	"fettle/plan"
	"fettle/plan/upgrade"
)

// madeOf reads the sizes as made of every upgrade of a machine.
func madeOf(ctx context.Context, tx *sql.Tx, machineID int64) (map[int64]map[string]plan.Entry, error) {
	const query = `
		SELECT upgrade_id, key, typed, spread, instrument, taken_on, origin, note
		FROM upgrade_made JOIN upgrade ON upgrade.id = upgrade_id
		WHERE machine_id = ? AND deleted_at IS NULL`
	made := map[int64]map[string]plan.Entry{}
	err := each(ctx, tx, query, machineID, func(rows *sql.Rows) error {
		var of int64
		var key string
		var e plan.Entry
		err := rows.Scan(&of, &key, &e.Typed, &e.Spread, &e.With, &e.On, &e.Origin, &e.Note)
		put(made, of, key, e)
		return err
	})
	return made, err
}

func addMade(ctx context.Context, tx *sql.Tx, id int64, u upgrade.Upgrade) error {
	const query = `
		INSERT INTO upgrade_made (upgrade_id, key, typed, spread, instrument, taken_on, origin, note)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?)`
	for key, e := range u.Made {
		if _, err := tx.ExecContext(ctx, query, id, key, e.Typed, e.Spread, e.With, e.On, e.Origin, e.Note); err != nil {
			return fmt.Errorf("upgrade %s: size %s: %w", u.ID, key, err)
		}
	}
	return nil
}
