package main

import (
	"context"
	"errors"
	"io/fs"
)

// backup copies the whole data file, also while pages are being served from it.
func (p program) backup(ctx context.Context, args []string) error {
	set := flags("backup")
	data := p.dataFlag(set)
	files, err := p.parse(set, args)
	switch {
	case err != nil:
		return err
	case len(files) != 1:
		return usageError{"call fettle backup [-data FOLDER] FILE"}
	}
	s, err := data.open(ctx)
	if err != nil {
		return err
	}
	defer s.Close()
	err = s.Backup(ctx, files[0])
	if errors.Is(err, fs.ErrExist) {
		return usageError{files[0] + " is there already; a backup never replaces a file"}
	}
	return err
}
