//go:build unix

package store

import (
	"path/filepath"
	"syscall"
)

// isMountPoint tells whether a folder is on another file system than the one that it stands in. A folder of the
// same one that is mounted there is not found out so; it cannot be replaced, which is said then.
func isMountPoint(folder string) bool {
	var is, above syscall.Stat_t
	return syscall.Stat(folder, &is) == nil && syscall.Stat(filepath.Dir(folder), &above) == nil && is.Dev != above.Dev
}
