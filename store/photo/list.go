package photo

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Listing is what lies in the folders of photos.
type Listing struct {
	Photos     []string // SHA-256 of each of which there is the original or a rendition, sorted
	Unfinished []string // paths of files that never came to their names
}

// List tells what lies in the folders and has not changed since. A photo that was refused late, or for want
// of room, has left renditions alone.
func (f *Folder) List(since time.Time) (l Listing, err error) {
	changed := map[string]bool{} // by SHA-256: some file of it has, since
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
			if err != nil {
				return err
			}
			late := is.ModTime().After(since)
			sum, _, _ := strings.Cut(name, "-")
			switch {
			case isSum(sum):
				changed[sum] = changed[sum] || late
			case !late && strings.HasPrefix(name, unfinished):
				l.Unfinished = append(l.Unfinished, path)
			}
			return nil
		})
		if err != nil {
			return l, err
		}
	}
	for sum, late := range changed {
		if !late {
			l.Photos = append(l.Photos, sum)
		}
	}
	slices.Sort(l.Photos)
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
