package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"fettle/store"
)

// dataFolder is the data folder that a command was told to use.
type dataFolder struct {
	path    string
	unknown error // why there is none by default
}

// dataFlag adds -data to a command's flags.
func (p program) dataFlag(set *flag.FlagSet) *dataFolder {
	f := &dataFolder{}
	f.path, f.unknown = p.defaultData()
	set.StringVar(&f.path, "data", f.path, "`FOLDER` that holds the machines; FETTLE_DATA sets the default")
	return f
}

// openOrMake opens the folder, a new one where there is none.
func (f *dataFolder) openOrMake(ctx context.Context) (*store.Store, error) {
	if f.path == "" {
		return nil, f.unknown
	}
	return store.Open(ctx, f.path, time.Now)
}

// open opens a folder that has machines: a name that was mistyped shall not make a new one.
func (f *dataFolder) open(ctx context.Context) (*store.Store, error) {
	if f.path == "" {
		return nil, f.unknown
	}
	if _, err := os.Stat(filepath.Join(f.path, store.FileName)); err != nil {
		return nil, usageError{fmt.Sprintf("%s holds no machines; name another folder with -data", f.path)}
	}
	return f.openOrMake(ctx)
}
