//go:build !sqlite_fts5

package store

// The search of the build log needs SQLite's full-text index, which the driver leaves out unless asked:
// without the tag this file fails to compile, rather than a search at some later day.
var _ = build_with__tags_sqlite_fts5
