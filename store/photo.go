package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"fettle/plan/buildlog"
	"fettle/store/photo"
)

// AddPhoto keeps a photo for an entry of a machine's log, which may come later: the entry names it by its
// SHA256 in a save under the same key. When it returns, the photo is on disk, byte for byte, and noted as
// staged for the entry, for [KeptStaged]; the same photo again for the same entry is no second one.
//
// It reads until from ends, and returns a [*photo.RefusedError], with a sentence for whoever sent it, for
// what is no photo that can be kept; the reader's own error; or [ErrNotFound] for a machine that is not
// there.
func (s *Store) AddPhoto(ctx context.Context, machineID int64, entryKey string, from io.Reader) (buildlog.Photo, error) {
	if _, err := s.StagedPhotos(ctx, machineID, entryKey); err != nil { // before it is received
		return buildlog.Photo{}, err
	}
	p, err := s.photos.Add(ctx, from)
	if err != nil {
		return p, known(err)
	}
	const staged = `
		INSERT INTO staged_photo (machine_id, entry_key, photo_id, staged_at)
		SELECT ?, ?, id, ? FROM photo WHERE sha256 = ?
		ON CONFLICT DO UPDATE SET staged_at = excluded.staged_at` // it waits anew
	err = s.write(ctx, func(tx *sql.Tx) error {
		if _, err := headOf(ctx, tx, machineID); err != nil {
			return err
		}
		// Here, where nobody removes orphans meanwhile: one of the same content may have been among them.
		if there, err := s.photos.Has(p.SHA256); err != nil || !there {
			return errors.Join(fmt.Errorf("photo %s was removed as an orphan meanwhile; send it again", p.SHA256), err)
		}
		if err := s.putPhoto(ctx, tx, p); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, staged, machineID, entryKey, s.now(), p.SHA256)
		return err
	})
	return p, err
}

// putPhoto notes what was found in a photo, in place of what an imported log told of it.
func (s *Store) putPhoto(ctx context.Context, tx *sql.Tx, p buildlog.Photo) error {
	const query = `
		INSERT INTO photo (sha256, type, width, height, taken, place, added_at) VALUES (?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (sha256) DO UPDATE
		SET type = excluded.type, width = excluded.width, height = excluded.height, taken = excluded.taken, place = excluded.place`
	_, err := tx.ExecContext(ctx, query, p.SHA256, p.Type, p.Width, p.Height, p.Taken, p.Place, s.now())
	return err
}

// StagedPhotos lists the photos that have come for an entry and are not in it, as they came.
func (s *Store) StagedPhotos(ctx context.Context, machineID int64, entryKey string) (photos []buildlog.Photo, err error) {
	const query = `
		SELECT ` + photoColumns + `
		FROM staged_photo
		JOIN photo ON photo.id = staged_photo.photo_id
		WHERE staged_photo.machine_id = ?1 AND staged_photo.entry_key = ?2
		ORDER BY staged_photo.id`
	err = s.read(ctx, func(tx *sql.Tx) error {
		if _, err := headOf(ctx, tx, machineID); err != nil {
			return err
		}
		rows, err := tx.QueryContext(ctx, query, machineID, entryKey)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var p buildlog.Photo
			if err := rows.Scan(photoFields(&p)...); err != nil {
				return err
			}
			photos = append(photos, p)
		}
		return rows.Err()
	})
	return photos, err
}

// UnstagePhoto takes a photo off the list of those that came for an entry. Its file stays, and is an
// orphan for [Store.CheckPhotos] unless an entry shows it.
func (s *Store) UnstagePhoto(ctx context.Context, machineID int64, entryKey, sha256 string) error {
	const query = `
		DELETE FROM staged_photo
		WHERE machine_id = ? AND entry_key = ? AND photo_id = (SELECT id FROM photo WHERE sha256 = ?)`
	return s.write(ctx, func(tx *sql.Tx) error {
		return changeOne(ctx, tx, notFound("staged photo", sha256), query, machineID, entryKey, sha256)
	})
}

// Photo tells of a photo that was kept, and that an entry shows, a deleted one too, or that is staged for
// one. What only an entry showed that is deleted for good is not found.
func (s *Store) Photo(ctx context.Context, sha256 string) (p buildlog.Photo, err error) {
	const query = `
		SELECT ` + photoColumns + `
		FROM photo
		WHERE sha256 = ?
			AND (EXISTS (SELECT 1 FROM log_photo WHERE photo_id = photo.id) OR EXISTS (SELECT 1 FROM staged_photo WHERE photo_id = photo.id))`
	err = s.read(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, query, sha256).Scan(photoFields(&p)...)
		if errors.Is(err, sql.ErrNoRows) {
			return notFound("photo", sha256)
		}
		return err
	})
	return p, err
}

// OpenPhoto opens a photo that was kept, for reading; the caller closes it. [photo.Original] is of the
// photo's own Type; the renditions are image/jpeg, and are made anew when they are not there. What a
// name opens never changes.
//
// It returns [ErrNotFound] for a photo that was not kept, and for one whose file is not there, as after
// the import of a log without its photos.
func (s *Store) OpenPhoto(ctx context.Context, sha256 string, size photo.Size) (*os.File, error) {
	if _, err := s.Photo(ctx, sha256); err != nil {
		return nil, err
	}
	file, err := s.photos.Open(ctx, sha256, size)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%w: %w", notFound("file of photo", sha256), err)
	}
	return file, known(err)
}
