package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"fettle/store/disk"
)

// restorable gives the absolute path of a folder into which a backup can be restored now.
func restorable(folder string) (string, error) {
	folder, err := filepath.Abs(folder)
	if err != nil {
		return "", fmt.Errorf("data folder: %w", err)
	}
	if real, err := filepath.EvalSymlinks(folder); err == nil { // a link stays one
		folder = real
	}
	claim, err := claimFolder(folder, "")
	if err != nil {
		return "", fmt.Errorf("%s: %w", folder, err)
	}
	return folder, claim.Close()
}

// claimFolder sees to it that a folder with nothing in it, but what is named, is opened by nobody until the claim is
// closed; where there is no folder, there is nothing to claim.
func claimFolder(folder, but string) (io.Closer, error) {
	lock, err := lockFolder(folder, alone)
	if errors.Is(err, fs.ErrNotExist) {
		return io.NopCloser(nil), nil
	}
	if err != nil {
		return nil, err
	}
	within, err := os.ReadDir(folder)
	if err == nil && slices.ContainsFunc(within, func(e fs.DirEntry) bool { return e.Name() != but && !isOfFileSystem(folder, e) }) {
		err = ErrNotEmpty
	}
	if err != nil {
		return nil, errors.Join(err, lock.Close())
	}
	return lock, nil
}

// putFolder gives a folder its name. Removing the empty one and renaming both fail where something has come
// into it meanwhile.
func putFolder(from, to string) error {
	claim, err := claimFolder(to, "")
	if err != nil {
		return fmt.Errorf("%s: %w", to, err)
	}
	defer claim.Close()
	if err := removeIfThere(to); err != nil {
		return fmt.Errorf("%s cannot be replaced by what is restored; name a folder in it: %w", to, err)
	}
	if err := os.Rename(from, to); err != nil {
		return fmt.Errorf("data folder: %w", err)
	}
	return disk.SyncFolder(filepath.Dir(to))
}

// putContents moves what is in a folder within a mount point up into it, the data file last: without that it is
// no data folder. Nothing is replaced; what was moved goes back where the rest cannot follow.
func putContents(from, to string) (err error) {
	claim, err := claimFolder(to, filepath.Base(from))
	if err != nil {
		return fmt.Errorf("%s: %w", to, err)
	}
	defer claim.Close()
	restored, err := os.ReadDir(from)
	if err != nil {
		return fmt.Errorf("data folder: %w", err)
	}
	var moved []string
	for _, e := range restored {
		if e.Name() == FileName {
			continue
		}
		if err = os.Rename(filepath.Join(from, e.Name()), filepath.Join(to, e.Name())); err != nil {
			break
		}
		moved = append(moved, e.Name())
	}
	if err == nil {
		err = placeNew(filepath.Join(from, FileName), filepath.Join(to, FileName))
	}
	if err == nil {
		return nil
	}
	for _, name := range moved {
		err = errors.Join(err, os.Rename(filepath.Join(to, name), filepath.Join(from, name)))
	}
	return fmt.Errorf("data folder: %w", err)
}

// isOfFileSystem tells whether an entry of a folder is what a new file system begins with at its mount point:
// the folder of some in which they put what a check finds.
func isOfFileSystem(folder string, e fs.DirEntry) bool {
	return e.IsDir() && e.Name() == "lost+found" && isMountPoint(folder)
}
