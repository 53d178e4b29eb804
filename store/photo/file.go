package photo

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"fettle/store/disk"
)

// unfinished is how the name of a file begins that has not come to its own.
const unfinished = ".unfinished-"

// begin makes a file in the folder, which is made if need be, that has not come to its name.
func begin(folder string) (*os.File, error) {
	if err := makeFolder(folder); err != nil {
		return nil, err
	}
	return os.CreateTemp(folder, unfinished+"*")
}

// makeFolder makes a folder and those above it, and makes them last.
func makeFolder(folder string) error {
	if _, err := os.Stat(folder); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	above := filepath.Dir(folder)
	if err := makeFolder(above); err != nil {
		return err
	}
	if err := os.Mkdir(folder, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return disk.SyncFolder(above)
}

// finish closes a synced file and gives it its name. One of that name has the same content, and is replaced.
func finish(file *os.File, path string) error {
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return err
	}
	if err := file.Close(); err != nil { // Windows renames no file that is open
		return err
	}
	if err := os.Rename(file.Name(), path); err != nil {
		return err
	}
	return disk.SyncFolder(filepath.Dir(path))
}

// discard takes away a file that did not come to its name, if it is still there.
func discard(file *os.File) {
	_ = file.Close()           // perhaps it is closed already
	_ = os.Remove(file.Name()) // perhaps it has its name; what stays is found by List
}
