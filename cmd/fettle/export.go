package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"

	"fettle/plan/exchange"
	"fettle/store"
)

// export writes one machine of the data folder as an exchange file.
func (p program) export(ctx context.Context, args []string) error {
	set := flags("export")
	data := p.dataFlag(set)
	force := set.Bool("force", false, "replace FILE if it is there")
	places := set.Bool("places", false, "tell in FILE where the log's photos were taken")
	rest, err := p.parse(set, args)
	switch {
	case err != nil:
		return err
	case len(rest) < 1 || len(rest) > 2:
		return usageError{"call fettle export [-data FOLDER] [-force] [-places] MACHINE [FILE], MACHINE being a number or a name"}
	}
	s, err := data.open(ctx)
	if err != nil {
		return err
	}
	defer s.Close()
	id, err := machineCalled(ctx, s, rest[0])
	if err != nil {
		return err
	}
	m, err := s.Machine(ctx, id)
	if err != nil {
		return err
	}
	var text bytes.Buffer
	write := exchange.Write
	if *places {
		write = exchange.WriteWithPlaces
	}
	log, err := s.WholeLog(ctx, id)
	if err != nil {
		return err
	}
	if err := write(&text, exchange.File{Machine: m.Machine, Log: log}); err != nil {
		return err
	}
	if len(rest) == 1 {
		_, err := p.stdout.Write(text.Bytes())
		return err
	}
	if err := writeFile(rest[1], text.Bytes(), *force); err != nil {
		if !*force && errors.Is(err, fs.ErrExist) {
			return usageError{rest[1] + " is there already; -force replaces it"}
		}
		return fmt.Errorf("export: %w", err)
	}
	return nil
}

// machineCalled finds a machine by its number, or else by its name.
func machineCalled(ctx context.Context, s *store.Store, called string) (int64, error) {
	machines, err := s.Machines(ctx)
	if err != nil {
		return 0, err
	}
	var named []int64
	for _, m := range machines {
		if strconv.FormatInt(m.ID, 10) == called {
			return m.ID, nil
		}
		if m.Name == called {
			named = append(named, m.ID)
		}
	}
	switch len(named) {
	case 1:
		return named[0], nil
	case 0:
		say := fmt.Sprintf("there is no machine %q; these are here:", called)
		for _, m := range machines {
			say += fmt.Sprintf("\n  %d  %s", m.ID, m.Name)
		}
		if len(machines) == 0 {
			say = "there are no machines yet"
		}
		return 0, usageError{say}
	}
	return 0, usageError{fmt.Sprintf("several machines are called %q; give the number of one: %v", called, named)}
}

// writeFile puts a file at path whole: at no time is there half of it. One that is there already is
// replaced only by force, else it is left with an error that is [fs.ErrExist].
func writeFile(path string, text []byte, force bool) (err error) {
	// Reserves the name; a rename alone would replace what is there.
	reserved, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o666)
	switch {
	case err == nil:
		defer func() {
			if err != nil {
				err = errors.Join(err, os.Remove(path))
			}
		}()
		if err := reserved.Close(); err != nil {
			return err
		}
	case !force || !errors.Is(err, fs.ErrExist):
		return err
	}
	state, err := os.Stat(path)
	if err != nil {
		return err
	}
	return replaceFile(path, text, state.Mode())
}

func replaceFile(path string, text []byte, mode fs.FileMode) error {
	beside, err := os.CreateTemp(filepath.Dir(path), ".fettle-*")
	if err != nil {
		return err
	}
	_, err = beside.Write(text)
	if err = errors.Join(err, beside.Chmod(mode), beside.Sync(), beside.Close()); err == nil {
		err = os.Rename(beside.Name(), path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(beside.Name()))
	}
	return nil
}
