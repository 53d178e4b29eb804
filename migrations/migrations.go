// Package migrations holds the steps by which a data file comes to the shape that this program knows:
// NNNN_subject.sql, numbered from 0001 without a gap, applied in that order by package store.
//
// A step goes forward only, and is never edited once it has been released.
package migrations

import "embed"

// Files are the steps, in the root of the file system.
//
//go:embed *.sql
var Files embed.FS
