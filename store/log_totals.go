package store

import (
	"context"
	"database/sql"
	"maps"

	"fettle/plan/buildlog"
)

// LogTotals sums the hours and costs of a machine's log by the ID of the upgrade; under "" are the entries
// of none.
func (s *Store) LogTotals(ctx context.Context, machineID int64) (totals map[string]buildlog.Totals, err error) {
	const query = `SELECT log_changes FROM machine WHERE id = ?`
	err = s.read(ctx, func(tx *sql.Tx) error {
		if _, err := headOf(ctx, tx, machineID); err != nil {
			return err
		}
		var changes int64
		if err := tx.QueryRowContext(ctx, query, machineID).Scan(&changes); err != nil || changes == 0 {
			return err
		}
		var ok bool
		if totals, ok = s.totals.at(machineID, changes); ok {
			return nil
		}
		if totals, err = totalsOf(ctx, tx, machineID); err != nil {
			return err
		}
		s.totals.keep(machineID, changes, totals)
		return nil
	})
	return orEmpty(maps.Clone(totals)), err
}

// totalsOf reads each figure once, however many entries say it.
func totalsOf(ctx context.Context, tx *sql.Tx, machineID int64) (map[string]buildlog.Totals, error) {
	const query = `
		SELECT ifnull(upgrade_id, ''), hours, cost, currency, count(*)
		FROM log_entry
		WHERE machine_id = ? AND deleted_at IS NULL
		GROUP BY upgrade_id, hours, cost, currency`
	totals := map[string]buildlog.Totals{}
	err := each(ctx, tx, query, machineID, func(rows *sql.Rows) error {
		var e buildlog.Entry
		var times int
		err := rows.Scan(&e.Upgrade, &e.Hours, &e.Cost, &e.Currency, &times)
		sum := totals[e.Upgrade]
		sum.Add(e, times)
		totals[e.Upgrade] = sum
		return err
	})
	return totals, err
}
