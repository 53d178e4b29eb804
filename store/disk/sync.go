// Package disk makes what happens to folders last.
package disk

import (
	"errors"
	"os"
	"runtime"
)

// SyncFolder makes what was created, renamed or removed in the folder last.
func SyncFolder(folder string) error {
	if runtime.GOOS == "windows" { // has no such call
		return nil
	}
	f, err := os.Open(folder)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
