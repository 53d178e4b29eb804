package store

import (
	"context"
	"database/sql"
	"io/fs"
)

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
