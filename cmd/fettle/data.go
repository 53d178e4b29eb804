package main

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
)

// defaultData gives the folder that holds the machines unless -data names another: FETTLE_DATA, or
// a folder of ours among the user's own data, where the platform keeps such.
func (p program) defaultData() (string, error) {
	if folder := p.env("FETTLE_DATA"); folder != "" {
		return folder, nil
	}
	switch runtime.GOOS {
	case "windows", "darwin", "ios", "plan9":
		folder, err := os.UserConfigDir() // on these, data and settings share one place
		if err != nil {
			return "", err
		}
		return filepath.Join(folder, "fettle"), nil
	}
	// XDG Base Directory Specification 0.8: a path that is not absolute is to be ignored.
	if folder := p.env("XDG_DATA_HOME"); filepath.IsAbs(folder) {
		return filepath.Join(folder, "fettle"), nil
	}
	home := p.env("HOME")
	if home == "" {
		return "", errors.New("no home folder is known; name one with -data FOLDER")
	}
	return filepath.Join(home, ".local", "share", "fettle"), nil
}
