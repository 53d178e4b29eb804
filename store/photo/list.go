package photo

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// Listing is what lies in the folders of photos.
type Listing struct {
	Originals  []string // SHA-256 of each, by name
	Unfinished []string // paths of files that never came to their names
}

// List tells what lies in the folders and has not changed since.
func (f *Folder) List(since time.Time) (l Listing, err error) {
	for _, root := range []string{f.originals, f.renditions} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			name := filepath.Base(path)
			switch {
			case errors.Is(err, fs.ErrNotExist): // nothing was ever kept
				return nil
			case err != nil || d.IsDir():
				return err
			}
			is, err := d.Info()
			switch {
			case err != nil || is.ModTime().After(since):
				return err
			case strings.HasPrefix(name, unfinished):
				l.Unfinished = append(l.Unfinished, path)
			case root == f.originals && isSum(name):
				l.Originals = append(l.Originals, name)
			}
			return nil
		})
		if err != nil {
			return l, err
		}
	}
	return l, nil
}

// Remove takes a photo away with its renditions.
func (f *Folder) Remove(sha256 string) error {
	for _, size := range []Size{Small, Large, Original} {
		path, err := f.path(sha256, size)
		if err != nil {
			return err
		}
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// Has tells whether the original is there.
func (f *Folder) Has(sha256 string) (bool, error) {
	path, err := f.path(sha256, Original)
	if err != nil {
		return false, err
	}
	_, err = os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	return err == nil, err
}
