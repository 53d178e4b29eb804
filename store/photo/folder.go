package photo

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"golang.org/x/sync/semaphore"
)

// Size is one of the ways in which a photo is kept.
type Size string

// The original, and its renditions: so many pixels wide and twice as many high at most, and never larger
// than the original.
const (
	Original Size = ""
	Large    Size = "2048"
	Small    Size = "400"
)

// bounds are the renditions, the largest first: each is made from the one before.
var bounds = []struct {
	size  Size
	width int
}{{Large, 2048}, {Small, 400}}

// Folder keeps photos in a data folder. It can be used from several goroutines, and by several processes.
type Folder struct {
	originals, renditions string
	memory                *semaphore.Weighted // what pictures being decoded may take, in bytes
	heic                  sync.Mutex          // its decoder takes a memory of its own
}

// New gives the photos of a data folder. Nothing is made on disk before the first photo.
func New(folder string) *Folder {
	return &Folder{
		originals: filepath.Join(folder, originals), renditions: filepath.Join(folder, "renditions"),
		memory: semaphore.NewWeighted(mostMemory),
	}
}

// path is where a photo is kept.
func (f *Folder) path(sha256 string, size Size) (string, error) {
	if !isSum(sha256) {
		return "", fmt.Errorf("photo %q: %w", sha256, fs.ErrNotExist)
	}
	switch size {
	case Original:
		return filepath.Join(f.originals, sha256[:2], sha256), nil
	case Large, Small:
		return filepath.Join(f.renditions, sha256[:2], sha256+"-"+string(size)+".jpg"), nil
	}
	return "", fmt.Errorf("photo %s in size %q: %w", sha256, size, fs.ErrNotExist)
}

// originals is the folder of the originals in the data folder.
const originals = "photos"

// Name is where the original of a photo is in the data folder, with slashes. It returns an error that is
// [fs.ErrNotExist] for what is no SHA-256.
func Name(sha256 string) (string, error) {
	if !isSum(sha256) {
		return "", fmt.Errorf("photo %q: %w", sha256, fs.ErrNotExist)
	}
	return originals + "/" + sha256[:2] + "/" + sha256, nil
}

// isSum tells whether a name is a SHA-256 in lower case: nothing else becomes part of a path.
func isSum(s string) bool {
	if len(s) != 64 {
		return false
	}
	for _, c := range []byte(s) {
		if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}

// Open opens a photo. A rendition that is not there is made first. It returns an error that is
// [fs.ErrNotExist] where the original is not there.
func (f *Folder) Open(ctx context.Context, sha256 string, size Size) (*os.File, error) {
	path, err := f.path(sha256, size)
	if err != nil {
		return nil, err
	}
	file, err := os.Open(path)
	if err == nil || size == Original || !errors.Is(err, fs.ErrNotExist) {
		return file, err
	}
	if err := f.renderAnew(ctx, sha256); err != nil {
		return nil, err
	}
	return os.Open(path)
}

func (f *Folder) renderAnew(ctx context.Context, sha256 string) error {
	path, err := f.path(sha256, Original)
	if err != nil {
		return err
	}
	original, err := os.Open(path)
	if err != nil {
		return err
	}
	defer original.Close()
	found, err := look(original)
	if err != nil {
		return fmt.Errorf("photo %s: %w", sha256, err)
	}
	_, err = f.render(ctx, original, found, sha256)
	return err
}
