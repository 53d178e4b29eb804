//go:build unix && !aix && !solaris

package store

import (
	"errors"
	"io"
	"os"
	"syscall"
)

// How a folder is locked.
const (
	shared = syscall.LOCK_SH
	alone  = syscall.LOCK_EX | syscall.LOCK_NB
)

// lockFolder locks the folder itself, so that the lock needs no file, and no file in it takes the lock along
// when it is removed. It ends with the process at the latest. Shared, it waits; alone, it returns
// [ErrFolderInUse] where others have it. A file system that has no locks is used without.
func lockFolder(folder string, how int) (io.Closer, error) {
	f, err := os.Open(folder)
	if err != nil {
		return nil, err
	}
	for {
		switch err := syscall.Flock(int(f.Fd()), how); {
		case errors.Is(err, syscall.EINTR):
			continue
		case errors.Is(err, syscall.EWOULDBLOCK):
			return nil, errors.Join(ErrFolderInUse, f.Close())
		default:
			return f, nil
		}
	}
}
