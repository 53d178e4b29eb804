package main

import (
	"context"
	"errors"
	"fmt"
	"os"

	"fettle/plan/exchange"
)

// importFiles adds the machines in exchange files to the data folder: all of them, or none when one of
// the files cannot be read. It prints the number of each, and the path of its page.
func (p program) importFiles(ctx context.Context, args []string) error {
	set := flags("import")
	data := p.dataFlag(set)
	files, err := p.parse(set, args)
	switch {
	case err != nil:
		return err
	case len(files) == 0:
		return usageError{"call fettle import [-data FOLDER] FILE..."}
	}
	machines := make([]exchange.File, len(files))
	for i, name := range files {
		if machines[i], err = readMachine(name); err != nil {
			return err
		}
	}
	s, err := data.openOrMake(ctx)
	if err != nil {
		return err
	}
	defer s.Close()
	for _, m := range machines {
		id, err := s.AddMachine(ctx, m.Machine, m.Log...)
		if err != nil {
			return err
		}
		fmt.Fprintf(p.stdout, "%d  /machines/%[1]d  %s\n", id, m.Name)
	}
	return nil
}

// readMachine reads an exchange file. One that is not right is a [usageError] that begins with the
// place: "lathe.json:12:9: …".
func readMachine(name string) (exchange.File, error) {
	file, err := os.Open(name)
	if err != nil {
		return exchange.File{}, err
	}
	defer file.Close()
	m, err := exchange.Read(file)
	var fault *exchange.Fault
	var newer *exchange.NewerError
	switch {
	case errors.As(err, &fault):
		return m, usageError{name + ":" + fault.Error()}
	case errors.As(err, &newer), errors.Is(err, exchange.ErrTooLarge):
		return m, usageError{name + ": " + err.Error()}
	}
	return m, err
}
