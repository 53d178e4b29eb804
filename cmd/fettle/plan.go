package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strings"

	"fettle/plan"
	"fettle/plan/exchange"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

// settings are inputs of upgrades given on the command line, as ID.NAME=VALUE.
type settings []string

func (s *settings) String() string     { return strings.Join(*s, " ") }
func (s *settings) Set(v string) error { *s = append(*s, v); return nil }

// plan works a machine's file out and prints what follows from its upgrades.
func (p program) plan(_ context.Context, args []string) error {
	set := flags("plan")
	asJSON := set.Bool("json", false, "print every quantity, check and limit as JSON")
	draft := set.String("with", "", "count the draft `ID` as if it were planned")
	var inputs settings
	set.Var(&inputs, "set", "set an input of an upgrade, as `ID.NAME=VALUE`, and count it if it is a draft; can be repeated")
	rest, err := p.parse(set, args)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError{"give one file: fettle plan [-json] [-with ID] [-set ID.NAME=VALUE] FILE.json"}
	}
	m, err := p.readMachine(rest[0])
	if err != nil {
		return err
	}
	for _, s := range inputs {
		if *draft, err = setInput(&m, s, *draft); err != nil {
			return err
		}
	}
	worked, err := m.Build(*draft)
	if err != nil {
		return err
	}
	if err := badInput(worked); err != nil {
		return err
	}
	report := reportOf(worked)
	if *asJSON {
		enc := json.NewEncoder(p.stdout)
		enc.SetIndent("", "  ")
		err = enc.Encode(report)
	} else {
		err = report.write(p.stdout, worked)
	}
	if err != nil {
		return err
	}
	if report.Failing > 0 {
		return failing(report.Failing)
	}
	return nil
}

func failing(n int) error {
	if n == 1 {
		return errors.New("1 check fails")
	}
	return fmt.Errorf("%d checks fail", n)
}

// readMachine reads an exchange file; "-" is standard input.
func (p program) readMachine(name string) (machine.Machine, error) {
	in := p.stdin
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return machine.Machine{}, usageError{err.Error()}
		}
		defer f.Close()
		in = f
	}
	m, err := exchange.Read(in)
	if err != nil {
		return machine.Machine{}, usageError{name + ": " + err.Error()}
	}
	return m.Machine, nil
}

func setInput(m *machine.Machine, setting, draft string) (string, error) {
	name, value, ok := strings.Cut(setting, "=")
	id, input, ok2 := strings.Cut(name, ".")
	if !ok || !ok2 {
		return "", usageError{fmt.Sprintf("-set %s: write ID.NAME=VALUE, such as 1.amount=12", setting)}
	}
	for i := range m.Upgrades {
		u := &m.Upgrades[i]
		if u.ID != id {
			continue
		}
		if u.Inputs == nil {
			u.Inputs = map[string]string{}
		}
		u.Inputs[input] = value
		if u.State == upgrade.Draft {
			draft = id
		}
		return draft, nil
	}
	return "", usageError{fmt.Sprintf("-set %s: there is no upgrade %q in the file", setting, id)}
}

// badInput is everything typed in the file that cannot be read, each with its place.
func badInput(p *machine.Plan) error {
	var say []string
	add := func(where string, ps []plan.Problem) {
		for _, problem := range ps {
			say = append(say, where+problem.Error())
		}
	}
	add("", p.Problems)
	for _, s := range p.Sites {
		add("upgrade "+s.ID+", ", s.Problems)
	}
	if len(say) == 0 {
		return nil
	}
	return usageError{strings.Join(say, "\nfettle: ")}
}
