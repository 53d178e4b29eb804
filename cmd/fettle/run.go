package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"
)

// command is one word that can follow the program's name. Each has a file of its own.
type command struct {
	name string
	does string
	run  func(p program, ctx context.Context, args []string) error
}

// commands lists them all, in the order in which help tells them.
func commands() []command {
	return []command{
		{"serve", "serve the pages; what fettle does when no command is given", program.serve},
		{"passphrase", "set the passphrase by which other computers are let in", program.passphrase},
		{"export", "write one machine as a file", program.export},
		{"import", "add machines from such files", program.importFiles},
		{"backup", "copy all machines and photos into one file, also while the pages are served", program.backup},
		{"restore", "bring a backup back, into a new data folder", program.restore},
		{"tidy", "tell which photos no log needs and which are missing; -remove removes what is not needed", program.tidy},
		{"plan", "work a machine's file out: what follows, what holds, how far it could go", program.plan},
		{"bench", "work out one of the bench figures, such as a fit or a screw's torque", program.bench},
		{"help", "list the commands", program.help},
	}
}

// usageError is a call that cannot be meant; its text says how to call instead.
type usageError struct{ say string }

func (e usageError) Error() string { return e.say }

// run carries out one call and gives its exit code.
func (p program) run(ctx context.Context, args []string) int {
	err := p.dispatch(ctx, args)
	var usage usageError
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return 0
	case errors.As(err, &usage):
		fmt.Fprintln(p.stderr, "fettle: "+usage.say)
		return 2
	default:
		fmt.Fprintln(p.stderr, "fettle: "+err.Error())
		return 1
	}
}

func (p program) dispatch(ctx context.Context, args []string) error {
	name := "serve"
	if len(args) > 0 && !strings.HasPrefix(args[0], "-") {
		name, args = args[0], args[1:]
	}
	for _, c := range commands() {
		if c.name == name {
			return c.run(p, ctx, args)
		}
	}
	return usageError{fmt.Sprintf("there is no command %q; fettle help lists the commands", name)}
}

// flags gives an empty set of flags for the command called name.
func flags(name string) *flag.FlagSet {
	set := flag.NewFlagSet("fettle "+name, flag.ContinueOnError)
	set.SetOutput(io.Discard) // run tells what is wrong, once
	return set
}

// parse reads args into set and gives what is left of them. It prints the flags when they are asked for
// with -h, and returns [flag.ErrHelp]; a flag that is not known is a [usageError].
func (p program) parse(set *flag.FlagSet, args []string) ([]string, error) {
	err := set.Parse(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprintf(p.stdout, "Flags of %s:\n", set.Name())
		set.SetOutput(p.stdout)
		set.PrintDefaults()
		return nil, err
	case err != nil:
		return nil, usageError{fmt.Sprintf("%v; %s -h lists the flags", err, set.Name())}
	}
	return set.Args(), nil
}

func (p program) help(_ context.Context, _ []string) error {
	fmt.Fprintln(p.stdout, "Fettle tells what else has to change when you change a small machine tool.")
	fmt.Fprintln(p.stdout, "\nUsage: fettle [COMMAND] [FLAGS]")
	fmt.Fprintln(p.stdout)
	for _, c := range commands() {
		fmt.Fprintf(p.stdout, "  %-10s %s\n", c.name, c.does)
	}
	fmt.Fprintln(p.stdout, "\nfettle COMMAND -h lists the flags of a command.")
	return nil
}
