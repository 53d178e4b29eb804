package store

import (
	"context"
	"database/sql"
	"time"
)

// KeptDeleted is how long a deleted entry of a log can be had back.
const KeptDeleted = 30 * 24 * time.Hour

// DeleteLogEntry takes an entry off its log, for [Store.RestoreLogEntry] to bring back.
func (s *Store) DeleteLogEntry(ctx context.Context, machineID int64, key string) error {
	const query = `UPDATE log_entry SET deleted_at = ? WHERE machine_id = ? AND key = ? AND deleted_at IS NULL`
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := s.countLog(ctx, tx, machineID); err != nil {
			return err
		}
		return changeOne(ctx, tx, notFound("log entry", key), query, s.now(), machineID, key)
	})
}

// RestoreLogEntry brings back a deleted entry as it was.
func (s *Store) RestoreLogEntry(ctx context.Context, machineID int64, key string) error {
	const query = `
		UPDATE log_entry SET deleted_at = NULL, revision = revision + 1
		WHERE machine_id = ? AND key = ? AND deleted_at IS NOT NULL`
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := s.countLog(ctx, tx, machineID); err != nil {
			return err
		}
		return changeOne(ctx, tx, notFound("deleted log entry", key), query, machineID, key)
	})
}

// DeletedLog lists the entries of a machine's log that [Store.RestoreLogEntry] brings back, the one that
// was deleted last first. Each is final [KeptDeleted] after it was deleted.
func (s *Store) DeletedLog(ctx context.Context, machineID int64) (entries []LogEntry, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		if _, err := headOf(ctx, tx, machineID); err != nil {
			return err
		}
		entries, err = logEntries(ctx, tx, `machine_id = ? AND deleted_at IS NOT NULL ORDER BY deleted_at DESC, id DESC`, machineID)
		return err
	})
	return entries, err
}

// PurgeLog makes final what was deleted longer than [KeptDeleted] ago, and tells how many entries that
// were. Their photos stay: see [Store.CheckPhotos].
func (s *Store) PurgeLog(ctx context.Context) (purged int64, err error) {
	before := s.clock().UTC().Add(-KeptDeleted).Format(instant)
	err = s.write(ctx, func(tx *sql.Tx) error {
		const words = `DELETE FROM log_search WHERE rowid IN (SELECT id FROM log_entry WHERE deleted_at < ?)`
		if _, err := tx.ExecContext(ctx, words, before); err != nil {
			return err
		}
		done, err := tx.ExecContext(ctx, `DELETE FROM log_entry WHERE deleted_at < ?`, before)
		if err != nil {
			return err
		}
		purged, err = done.RowsAffected()
		return err
	})
	return purged, err
}
