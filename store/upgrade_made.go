package store

import (
	"context"
	"database/sql"
	"fmt"

	"fettle/plan"
	"fettle/plan/upgrade"
)

// madeOf reads the sizes as made of the upgrade in the row with the ID; nil where there are none.
func madeOf(ctx context.Context, tx *sql.Tx, id int64) (made map[string]plan.Entry, err error) {
	const query = `
		SELECT key, typed, spread, instrument, taken_on, origin, note
		FROM upgrade_made
		WHERE upgrade_id = ?`
	err = each(ctx, tx, query, id, func(rows *sql.Rows) error {
		var key string
		var e plan.Entry
		err := rows.Scan(&key, &e.Typed, &e.Spread, &e.With, &e.On, &e.Origin, &e.Note)
		if made == nil {
			made = map[string]plan.Entry{}
		}
		made[key] = e
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
