package store

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"fettle/plan/buildlog"
)

// LogEntry is an entry of a machine's log as it is kept.
type LogEntry struct {
	MachineID int64
	buildlog.Entry
	Revision         int64
	Created, Changed time.Time // UTC
	Deleted          time.Time // UTC; zero: it is not deleted
}

// NewLogKey gives a key for a new entry that nobody else has.
func NewLogKey() string { return rand.Text() }

// SaveLogEntry keeps an entry as it was typed: in place of the one with its key, which must be at the
// revision; or, with revision 0, as a new one, under a key of its own where it has none. The photos are
// those of [Store.AddPhoto], told by SHA256, Caption and Role; the rest of them is not read. It gives what
// is stored.
//
// A new entry that is sent again, because nobody knows whether it came, is not kept twice: the answer is
// the stored one, with what was changed or deleted since. A key that has come with another entry, or a
// save from an older revision, is refused with a *[StaleError] of LogEntry.
//
// It returns [ErrNotFound] for a machine, an axis, an upgrade or a photo that is not there. Those that the
// entry named already may have been deleted since; the key of a part is not looked up.
func (s *Store) SaveLogEntry(ctx context.Context, machineID, revision int64, e buildlog.Entry) (saved LogEntry, err error) {
	if e.Key == "" {
		e.Key = NewLogKey()
	}
	err = s.write(ctx, func(tx *sql.Tx) error {
		is, err := logRowAt(ctx, tx, machineID, e.Key)
		switch {
		case errors.Is(err, ErrNotFound) && revision == 0:
			if err := s.addLogEntry(ctx, tx, machineID, e); err != nil {
				return err
			}
		case err != nil:
			return err
		case revision == 0 && is.firstSent == logSum(e): // sent again, and its photos with it
			if err := dropStaged(ctx, tx, machineID, e.Key, is.id); err != nil {
				return err
			}
		case revision != is.revision || is.deleted:
			return staleEntry(ctx, tx, machineID, e.Key)
		default:
			if err := s.replaceLogEntry(ctx, tx, machineID, is, e); err != nil {
				return err
			}
		}
		saved, err = logEntryAt(ctx, tx, machineID, e.Key)
		return err
	})
	return saved, err
}

// LogEntry reads one entry. It returns [ErrNotFound] for a deleted one.
func (s *Store) LogEntry(ctx context.Context, machineID int64, key string) (e LogEntry, err error) {
	err = s.read(ctx, func(tx *sql.Tx) (err error) {
		e, err = logEntryAt(ctx, tx, machineID, key)
		return err
	})
	if err == nil && !e.Deleted.IsZero() {
		return LogEntry{}, notFound("log entry", key)
	}
	return e, err
}

// logRow is what a save has to know of an entry that is there.
type logRow struct {
	id        int64
	revision  int64
	firstSent string
	axis      string
	deleted   bool
}

func logRowAt(ctx context.Context, tx *sql.Tx, machineID int64, key string) (is logRow, err error) {
	const query = `
		SELECT id, revision, first_sent, axis_key, deleted_at IS NOT NULL
		FROM log_entry
		WHERE machine_id = ? AND key = ?`
	err = tx.QueryRowContext(ctx, query, machineID, key).Scan(&is.id, &is.revision, &is.firstSent, &is.axis, &is.deleted)
	if errors.Is(err, sql.ErrNoRows) {
		return is, notFound("log entry", key)
	}
	return is, err
}

func staleEntry(ctx context.Context, tx *sql.Tx, machineID int64, key string) error {
	e, err := logEntryAt(ctx, tx, machineID, key)
	if err != nil {
		return err
	}
	return &StaleError[LogEntry]{"the log entry", e, e.Revision}
}

// logSum tells whether two entries say the same.
func logSum(e buildlog.Entry) string {
	photos := make([]buildlog.Photo, len(e.Photos))
	for i, p := range e.Photos {
		photos[i] = buildlog.Photo{SHA256: p.SHA256, Caption: p.Caption, Role: p.Role}
	}
	e.Photos = photos
	text, err := json.Marshal(e)
	if err != nil {
		panic(err) // texts and numbers alone
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

func (s *Store) addLogEntry(ctx context.Context, tx *sql.Tx, machineID int64, e buildlog.Entry) error {
	const query = `
		INSERT INTO log_entry (machine_id, key, at, text, hours, cost, currency, axis_key, upgrade_id, part_key,
			first_sent, revision, created_at, changed_at)
		VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, nullif(?9, ''), ?10, ?11, 1, ?12, ?12)
		RETURNING id`
	if err := s.countLog(ctx, tx, machineID); err != nil {
		return err
	}
	if err := logHasAxis(ctx, tx, machineID, e.Axis); err != nil {
		return err
	}
	var id int64
	err := tx.QueryRowContext(ctx, query, machineID, e.Key, e.At, e.Text, e.Hours, e.Cost, e.Currency, e.Axis, e.Upgrade, e.Part,
		logSum(e), s.now()).Scan(&id)
	if err != nil {
		return logFault(e, err)
	}
	return putLogPhotos(ctx, tx, machineID, id, e)
}

func (s *Store) replaceLogEntry(ctx context.Context, tx *sql.Tx, machineID int64, is logRow, e buildlog.Entry) error {
	const query = `
		UPDATE log_entry
		SET at = ?, text = ?, hours = ?, cost = ?, currency = ?, axis_key = ?, upgrade_id = nullif(?, ''), part_key = ?,
			revision = revision + 1, changed_at = ?
		WHERE id = ?`
	if err := s.countLog(ctx, tx, machineID); err != nil {
		return err
	}
	if e.Axis != is.axis {
		if err := logHasAxis(ctx, tx, machineID, e.Axis); err != nil {
			return err
		}
	}
	_, err := tx.ExecContext(ctx, query, e.At, e.Text, e.Hours, e.Cost, e.Currency, e.Axis, e.Upgrade, e.Part, s.now(), is.id)
	if err != nil {
		return logFault(e, err)
	}
	return putLogPhotos(ctx, tx, machineID, is.id, e)
}

func logHasAxis(ctx context.Context, tx *sql.Tx, machineID int64, key string) error {
	if key == "" {
		return nil
	}
	_, _, err := axisAt(ctx, tx, machineID, key)
	return err
}

// countLog notes a change of the log of a machine, which must be there. The plan does not change by it.
func (s *Store) countLog(ctx context.Context, tx *sql.Tx, machineID int64) error {
	const query = `UPDATE machine SET log_changes = log_changes + 1, changed_at = ? WHERE id = ? AND deleted_at IS NULL`
	return changeOne(ctx, tx, notFound("machine", machineID), query, s.now(), machineID)
}

func logEntryAt(ctx context.Context, tx *sql.Tx, machineID int64, key string) (LogEntry, error) {
	entries, err := logEntries(ctx, tx, `machine_id = ? AND key = ?`, machineID, key)
	if err == nil && len(entries) == 0 {
		err = notFound("log entry", key)
	}
	if err != nil {
		return LogEntry{}, err
	}
	return entries[0], nil
}

// logEntries reads the entries of machines that are not deleted for which the condition is true, with
// their photos.
func logEntries(ctx context.Context, tx *sql.Tx, condition string, args ...any) (entries []LogEntry, err error) {
	query := `
		SELECT id, machine_id, key, at, text, hours, cost, currency, axis_key, ifnull(upgrade_id, ''), part_key,
			revision, created_at, changed_at, ifnull(deleted_at, '')
		FROM log_entry
		WHERE ` + condition
	var ids []int64
	rows, err := tx.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var e LogEntry
		var id int64
		var created, changed, deleted string
		err := rows.Scan(&id, &e.MachineID, &e.Key, &e.At, &e.Text, &e.Hours, &e.Cost, &e.Currency, &e.Axis, &e.Upgrade, &e.Part,
			&e.Revision, &created, &changed, &deleted)
		if err != nil {
			return nil, err
		}
		if e.Created, e.Changed, e.Deleted, err = logTimes(created, changed, deleted); err != nil {
			return nil, err
		}
		entries, ids = append(entries, e), append(ids, id)
	}
	if err := rows.Err(); err != nil {
		return nil, err
	}
	photos, err := logPhotos(ctx, tx, ids)
	for i, id := range ids {
		entries[i].Photos = photos[id]
	}
	return entries, err
}

func logTimes(created, changed, deleted string) (c, ch, d time.Time, err error) {
	var errs [3]error
	c, errs[0] = time.Parse(instant, created)
	ch, errs[1] = time.Parse(instant, changed)
	if deleted != "" {
		d, errs[2] = time.Parse(instant, deleted)
	}
	return c, ch, d, errors.Join(errs[:]...)
}

// logFault says which upgrade a foreign key missed.
func logFault(e buildlog.Entry, err error) error {
	if isForeign(err) {
		return fmt.Errorf("log entry %s: %w", e.Key, notFound("upgrade", e.Upgrade))
	}
	return fmt.Errorf("log entry %s: %w", e.Key, err)
}
