package store

import (
	"archive/tar"
	"context"
	"database/sql"
	"io"
	"io/fs"
	"time"
)

// ArchiveHeader writes the header of a file in a backup.
func ArchiveHeader(to io.Writer, name string, size int64, made time.Time) error {
	return archiver{made: made, tar: tar.NewWriter(to)}.header(name, size)
}

// IsPlain tells whether a restore takes a file with such a header.
func IsPlain(h *tar.Header) bool { return isPlain(h) }

// Pools are the store's pools of connections: the writer's and the readers'.
func (s *Store) Pools() (writer, reader *sql.DB) { return s.writer, s.reader }

// Migrate takes a file through any steps.
func Migrate(ctx context.Context, file, backups string, steps fs.FS) error {
	return migrate(ctx, file, backups, steps)
}

// LogPlan tells how SQLite goes about the query of a page.
func (s *Store) LogPlan(ctx context.Context, q LogQuery) (plan string, err error) {
	condition, args, err := q.condition()
	if err != nil {
		return "", err
	}
	rows, err := s.reader.QueryContext(ctx, `EXPLAIN QUERY PLAN SELECT id FROM log_entry WHERE `+condition, args...)
	if err != nil {
		return "", err
	}
	defer rows.Close()
	for rows.Next() {
		var id, parent, unused int
		var step string
		if err := rows.Scan(&id, &parent, &unused, &step); err != nil {
			return "", err
		}
		plan += step + "\n"
	}
	return plan, rows.Err()
}
