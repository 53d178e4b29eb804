package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"

	"fettle/store"
)

// backup copies the whole data folder into one file, also while pages are being served from it.
func (p program) backup(ctx context.Context, args []string) error {
	set := flags("backup")
	data := p.dataFlag(set)
	replace := set.Bool("replace", false, "put it in the place of an older backup")
	files, err := p.parse(set, args)
	switch {
	case err != nil:
		return err
	case len(files) != 1:
		return usageError{"call fettle backup [-data FOLDER] [-replace] FILE"}
	}
	s, err := data.open(ctx)
	if err != nil {
		return err
	}
	defer s.Close()
	write := s.Backup
	if *replace {
		write = s.ReplaceBackup
	}
	made, err := write(ctx, files[0])
	if errors.Is(err, fs.ErrExist) {
		return usageError{files[0] + " is there already; -replace puts a backup in the place of an older one"}
	}
	if err == nil {
		p.tellBacked(files[0], made)
	}
	return err
}

func (p program) tellBacked(path string, made store.Backed) {
	fmt.Fprintf(p.stdout, "%s holds all machines and %d photos, in %d bytes\n", path, made.Photos, made.Bytes)
	for _, sum := range made.Missing {
		fmt.Fprintf(p.stderr, "fettle: without photo %s: its file is not in the data folder\n", sum)
	}
	for _, sum := range made.Damaged {
		fmt.Fprintf(p.stderr, "fettle: without photo %s: its file is damaged; an older backup may have it\n", sum)
	}
}
