package main

import (
	"context"
	"fmt"
	"time"

	"fettle/store"
)

// restore brings a backup back, into a data folder that is new or empty.
func (p program) restore(ctx context.Context, args []string) error {
	set := flags("restore")
	data := p.dataFlag(set)
	files, err := p.parse(set, args)
	switch {
	case err != nil:
		return err
	case len(files) != 1:
		return usageError{"call fettle restore [-data FOLDER] FILE"}
	case data.path == "":
		return data.unknown
	}
	is, err := store.Restore(ctx, files[0], data.path)
	if err != nil {
		return err
	}
	fmt.Fprintf(p.stdout, "%s is as it was at %s, with %d photos. Other computers are not let in: set a passphrase anew for that, with fettle passphrase\n",
		data.path, is.Made.Local().Format(time.DateTime), is.Photos)
	return nil
}
