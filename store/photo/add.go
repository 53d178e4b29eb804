package photo

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"

	"fettle/plan/buildlog"
)

// Add keeps a photo, and makes its renditions. When it returns without an error, all are on disk and
// synced; otherwise the original is not under its name. The same photo again is the same file.
//
// It returns a [*RefusedError] for what is no photo or is too large, the reader's own error, or what the
// disk says.
func (f *Folder) Add(ctx context.Context, from io.Reader) (buildlog.Photo, error) {
	file, err := begin(f.originals)
	if err != nil {
		return buildlog.Photo{}, fmt.Errorf("keep photo: %w", err)
	}
	defer discard(file)
	sum, err := receive(file, from)
	if err != nil {
		return buildlog.Photo{}, err
	}
	found, err := look(file)
	if err != nil {
		return buildlog.Photo{}, err
	}
	synced := make(chan error, 1)
	go func() { synced <- file.Sync() }() // while it is decoded
	size, err := f.render(ctx, file, found, sum)
	if err = errors.Join(err, <-synced); err != nil {
		return buildlog.Photo{}, err
	}
	path, err := f.path(sum, Original)
	if err != nil {
		return buildlog.Photo{}, err
	}
	if err := finish(file, path); err != nil {
		return buildlog.Photo{}, fmt.Errorf("keep photo %s: %w", sum, err)
	}
	return buildlog.Photo{SHA256: sum, Type: found.kind.media, Width: size.X, Height: size.Y, Taken: found.taken, Place: found.place}, nil
}

// receive writes what comes to the file, and gives its SHA-256.
func receive(file *os.File, from io.Reader) (string, error) {
	sum := sha256.New()
	n, err := io.Copy(io.MultiWriter(file, sum), io.LimitReader(from, MostBytes+1))
	switch {
	case err != nil:
		return "", fmt.Errorf("receive photo: %w", err)
	case n > MostBytes:
		return "", tooManyBytes()
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}
