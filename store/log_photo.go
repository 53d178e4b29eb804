package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"github.com/mattn/go-sqlite3"

	"fettle/plan/buildlog"
)

// putLogPhotos makes the entry's photos those that e tells, brings its words into the search, and takes
// those photos off the list of what has come before its entry.
func putLogPhotos(ctx context.Context, tx *sql.Tx, machineID, id int64, e buildlog.Entry) error {
	const query = `
		INSERT INTO log_photo (entry_id, photo_id, position, caption, role)
		SELECT ?, id, ?, ?, ? FROM photo WHERE sha256 = ?`
	if _, err := tx.ExecContext(ctx, `DELETE FROM log_photo WHERE entry_id = ?`, id); err != nil {
		return err
	}
	for i, p := range e.Photos {
		if err := changeOne(ctx, tx, notFound("photo", p.SHA256), query, id, i, p.Caption, p.Role, p.SHA256); err != nil {
			return fmt.Errorf("log entry %s: %w", e.Key, err)
		}
	}
	if err := dropStaged(ctx, tx, machineID, e.Key, id); err != nil {
		return err
	}
	return putLogWords(ctx, tx, id, e)
}

// dropStaged takes the photos of an entry off the list of what has come before it.
func dropStaged(ctx context.Context, tx *sql.Tx, machineID int64, key string, id int64) error {
	const query = `
		DELETE FROM staged_photo
		WHERE machine_id = ? AND entry_key = ? AND photo_id IN (SELECT photo_id FROM log_photo WHERE entry_id = ?)`
	_, err := tx.ExecContext(ctx, query, machineID, key, id)
	return err
}

const photoColumns = `photo.sha256, photo.type, photo.width, photo.height, photo.taken, photo.place`

func photoFields(p *buildlog.Photo) []any {
	return []any{&p.SHA256, &p.Type, &p.Width, &p.Height, &p.Taken, &p.Place}
}

// logPhotos reads the photos of entries, by the rows of these.
func logPhotos(ctx context.Context, tx *sql.Tx, entries []int64) (map[int64][]buildlog.Photo, error) {
	const query = `
		SELECT log_photo.entry_id, log_photo.caption, log_photo.role, ` + photoColumns + `
		FROM json_each(?) AS wanted
		JOIN log_photo ON log_photo.entry_id = wanted.value
		JOIN photo ON photo.id = log_photo.photo_id
		ORDER BY log_photo.entry_id, log_photo.position`
	photos := map[int64][]buildlog.Photo{}
	list, err := json.Marshal(entries)
	if err != nil || len(entries) == 0 {
		return photos, err
	}
	err = each(ctx, tx, query, string(list), func(rows *sql.Rows) error {
		var entry int64
		var p buildlog.Photo
		err := rows.Scan(append([]any{&entry, &p.Caption, &p.Role}, photoFields(&p)...)...)
		photos[entry] = append(photos[entry], p)
		return err
	})
	return photos, err
}

// Comparison is two photos to lay side by side; nil where there is none.
type Comparison struct{ Before, After *buildlog.Photo }

// Comparison finds the photos of an upgrade as it was before and after: of all its entries that are not
// deleted, the first photo marked [buildlog.Before] and the last marked [buildlog.After]. Those of one
// entry are its own Photos with these roles.
func (s *Store) Comparison(ctx context.Context, machineID int64, upgradeID string) (c Comparison, err error) {
	err = s.read(ctx, func(tx *sql.Tx) (err error) {
		if c.Before, err = photoInRole(ctx, tx, machineID, upgradeID, buildlog.Before, `ASC`); err != nil {
			return err
		}
		c.After, err = photoInRole(ctx, tx, machineID, upgradeID, buildlog.After, `DESC`)
		return err
	})
	return c, err
}

func photoInRole(ctx context.Context, tx *sql.Tx, machineID int64, upgradeID string, role buildlog.Role, order string) (*buildlog.Photo, error) {
	p, err := photoOfUpgrade(ctx, tx, machineID, upgradeID, `log_photo.role = ?`, string(role), order)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	return &p, err
}

// UpgradePhoto reads a photo of an upgrade: of its entries that are not deleted, as the newest of those that
// have it shows it. It returns [ErrNotFound] where none has it.
func (s *Store) UpgradePhoto(ctx context.Context, machineID int64, upgradeID, sha256 string) (p buildlog.Photo, err error) {
	err = s.read(ctx, func(tx *sql.Tx) (err error) {
		p, err = photoOfUpgrade(ctx, tx, machineID, upgradeID, `photo.sha256 = ?`, sha256, `DESC`)
		return err
	})
	if errors.Is(err, sql.ErrNoRows) {
		err = notFound("photo", sha256)
	}
	return p, err
}

func photoOfUpgrade(ctx context.Context, tx *sql.Tx, machineID int64, upgradeID, condition, is, order string) (p buildlog.Photo, err error) {
	query := strings.NewReplacer(`$order`, order, `$condition`, condition).Replace(`
		SELECT log_photo.caption, log_photo.role, ` + photoColumns + `
		FROM log_entry
		JOIN log_photo ON log_photo.entry_id = log_entry.id
		JOIN photo ON photo.id = log_photo.photo_id
		WHERE log_entry.machine_id = ? AND log_entry.upgrade_id = ? AND log_entry.deleted_at IS NULL AND $condition
		ORDER BY log_entry.at $order, log_entry.id $order
		LIMIT 1`)
	err = tx.QueryRowContext(ctx, query, machineID, upgradeID, is).Scan(append([]any{&p.Caption, &p.Role}, photoFields(&p)...)...)
	return p, err
}

// isForeign tells whether a row was refused for naming one that is not there.
func isForeign(err error) bool {
	var e sqlite3.Error
	return errors.As(err, &e) && e.ExtendedCode == sqlite3.ErrConstraintForeignKey
}
