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
