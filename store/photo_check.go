package store

import (
	"context"
	"database/sql"
	"slices"
	"time"
)

// PhotoReport is what does not fit together between the log and the files of its photos.
type PhotoReport struct {
	Missing    []string // SHA-256: an entry shows it, or it is staged for one, and its file is not there
	Orphans    []string // SHA-256: a file that no entry shows, a deleted one neither, and that waits for none
	Unfinished []string // paths of files that were begun and never finished
}

// settled is how long a file lies unchanged before it can be an orphan: by then whoever was keeping it has
// noted it, or never will.
const settled = 24 * time.Hour

// KeptStaged is how long a photo that came waits for its entry: of one that was given up nobody says so.
const KeptStaged = 30 * 24 * time.Hour

func (s *Store) stagedSince() string { return s.clock().UTC().Add(-KeptStaged).Format(instant) }

// CheckPhotos compares the log with the files of its photos. Nothing is changed. A file that came within a
// day is no orphan, and not unfinished: its row may be on the way. One that is staged for longer than
// [KeptStaged] waits for no entry any more, though until it is removed one can still take it.
func (s *Store) CheckPhotos(ctx context.Context) (report PhotoReport, err error) {
	lies, err := s.photos.List(s.clock().Add(-settled))
	if err != nil {
		return report, err
	}
	shown, err := s.shownPhotos(ctx)
	if err != nil {
		return report, err
	}
	report.Unfinished = lies.Unfinished
	for _, sum := range lies.Photos {
		if _, is := slices.BinarySearch(shown, sum); !is {
			report.Orphans = append(report.Orphans, sum)
		}
	}
	for _, sum := range shown {
		there, err := s.photos.Has(sum)
		if err != nil {
			return report, err
		}
		if !there {
			report.Missing = append(report.Missing, sum)
		}
	}
	return report, nil
}

// RemoveOrphans removes for good what [Store.CheckPhotos] reports as orphans and unfinished at this
// moment, and gives what was removed. It is called by nobody who was not asked to.
func (s *Store) RemoveOrphans(ctx context.Context) (PhotoReport, error) {
	report, err := s.CheckPhotos(ctx)
	if err != nil {
		return PhotoReport{}, err
	}
	removed := PhotoReport{}
	for _, sum := range report.Orphans {
		const unstage = `
			DELETE FROM staged_photo
			WHERE staged_at < ? AND photo_id = (SELECT id FROM photo WHERE sha256 = ?)`
		const query = `
			DELETE FROM photo
			WHERE sha256 = ? AND id NOT IN (SELECT photo_id FROM log_photo) AND id NOT IN (SELECT photo_id FROM staged_photo)`
		err := s.write(ctx, func(tx *sql.Tx) error {
			if _, err := tx.ExecContext(ctx, unstage, s.stagedSince(), sum); err != nil {
				return err
			}
			if _, err := tx.ExecContext(ctx, query, sum); err != nil {
				return err
			}
			var still int // an entry has come to show it meanwhile
			if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM photo WHERE sha256 = ?`, sum).Scan(&still); err != nil || still > 0 {
				return err
			}
			removed.Orphans = append(removed.Orphans, sum)
			return s.photos.Remove(sum) // while nobody else can come to show it
		})
		if err != nil {
			return removed, err
		}
	}
	for _, path := range report.Unfinished {
		if err := removeIfThere(path); err != nil { // somebody else may have been asked to as well
			return removed, err
		}
		removed.Unfinished = append(removed.Unfinished, path)
	}
	return removed, nil
}

// shownPhotos lists the photos that an entry shows, or that wait for one.
func (s *Store) shownPhotos(ctx context.Context) (shown []string, err error) {
	const query = `
		SELECT sha256 FROM photo
		WHERE id IN (SELECT photo_id FROM log_photo) OR id IN (SELECT photo_id FROM staged_photo WHERE staged_at >= ?)
		ORDER BY sha256`
	err = s.read(ctx, func(tx *sql.Tx) (err error) {
		shown, err = texts(ctx, tx, query, s.stagedSince())
		return err
	})
	return shown, err
}
