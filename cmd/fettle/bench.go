package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"text/tabwriter"

	"fettle/plan/bench"
	"fettle/plan/exchange"
	"fettle/plan/sheet"
)

// bench lists the bench figures, or works one of them out.
func (p program) bench(_ context.Context, args []string) error {
	set := flags("bench")
	asJSON := set.Bool("json", false, "print the method, its inputs, outputs and checks as JSON")
	// Flags may stand after the values: "fettle bench fit size=25 -json".
	var words []string
	for {
		rest, err := p.parse(set, args)
		if err != nil {
			return err
		}
		if len(rest) == 0 {
			break
		}
		words, args = append(words, rest[0]), rest[1:]
	}
	if len(words) == 0 {
		p.listMethods()
		return nil
	}
	m, ok := bench.Named(words[0])
	if !ok {
		return usageError{fmt.Sprintf("there is no method %q; fettle bench lists them", words[0])}
	}
	if len(words) == 1 && !*asJSON {
		p.describeMethod(m)
		return nil
	}
	typed := map[string]string{}
	for _, w := range words[1:] {
		key, value, ok := strings.Cut(w, "=")
		if !ok {
			return usageError{fmt.Sprintf("%q: write KEY=VALUE, such as %s=…", w, m.Inputs[0].Key)}
		}
		typed[key] = value
	}
	c, err := m.Run(typed)
	var problems bench.Problems
	if errors.As(err, &problems) {
		say := make([]string, len(problems))
		for i, problem := range problems {
			say[i] = problem.Error()
		}
		return usageError{strings.Join(say, "\nfettle: ")}
	}
	if err != nil {
		return err
	}
	if *asJSON {
		return p.printFigures(c)
	}
	p.tellFigures(c)
	return nil
}

func (p program) listMethods() {
	fmt.Fprintln(p.stdout, "Bench figures; fettle bench METHOD lists the inputs of one.")
	for _, field := range bench.Fields {
		heading := "\n" + field + "\n"
		for _, m := range bench.Methods() {
			if m.Field == field {
				fmt.Fprintf(p.stdout, "%s  %-26s %s\n", heading, m.Key, m.Label)
				heading = ""
			}
		}
	}
}

func (p program) describeMethod(m bench.Method) {
	fmt.Fprintf(p.stdout, "%s\n%s\n\nInputs\n", m.Label, m.Purpose)
	for _, in := range m.Inputs {
		says := in.Unit.Symbol
		if in.Word {
			says = "word"
		}
		for i, o := range in.Options {
			if i == 0 {
				says = ""
			} else {
				says += ", "
			}
			says += o.Value
		}
		switch {
		case in.Default != "":
			says += "; " + in.Default + " where nothing is given"
			if in.Source != "" {
				says += " (" + in.Source + ")"
			}
		case in.Optional:
			says += "; can be left out"
		}
		fmt.Fprintf(p.stdout, "  %-20s %s: %s\n", in.Key, in.Label, strings.TrimPrefix(says, "; "))
	}
	p.describeOutputs(m)
	p.tellCautions(m)
}

// describeOutputs lists what the method gives for its example, with units; some
// outputs exist only for other inputs.
func (p program) describeOutputs(m bench.Method) {
	given := map[string]sheet.Figure{}
	if c, err := m.Run(m.Example); err == nil {
		for _, f := range c.Outputs() {
			given[f.Key] = f
		}
	}
	fmt.Fprintln(p.stdout, "\nOutputs")
	for _, key := range m.Outputs {
		f, ok := given[key]
		switch {
		case !ok:
			fmt.Fprintf(p.stdout, "  %s\n", key)
		case f.Unit.Symbol == "":
			fmt.Fprintf(p.stdout, "  %-20s %s\n", key, f.Label)
		default:
			fmt.Fprintf(p.stdout, "  %-20s %s: %s\n", key, f.Label, f.Unit.Symbol)
		}
	}
}

func (p program) tellFigures(c *bench.Calculation) {
	fmt.Fprintf(p.stdout, "%s\n", c.Method.Label)
	for _, f := range c.Outputs() {
		e, _ := c.Result.Explain(f.Key, sheet.Planned)
		fmt.Fprintf(p.stdout, "\n  %-20s %s: %s\n", f.Key, f.Label, f.Text(0))
		if e.Formula != "" {
			fmt.Fprintf(p.stdout, "  %-20s = %s\n  %-20s = %s\n", "", e.Formula, "", e.Numbers)
		}
		if source := e.Source + e.Note; source != "" {
			fmt.Fprintf(p.stdout, "  %-20s %s\n", "", source)
		}
	}
	for i, k := range c.Result.Checks() {
		if i == 0 {
			fmt.Fprintln(p.stdout, "\nChecks")
		}
		fmt.Fprintf(p.stdout, "  %-10s %s: %s\n             %s\n", k.Verdict, k.Label, k.Phrase, k.Sentence)
	}
	if table, ok := c.Table(); ok {
		p.tellTable(table)
	}
	p.tellCautions(c.Method)
}

func (p program) tellTable(t bench.Table) {
	fmt.Fprintf(p.stdout, "\n%s\n", t.Caption)
	if len(t.Rows) == 0 {
		fmt.Fprintln(p.stdout, "  none")
		return
	}
	w := tabwriter.NewWriter(p.stdout, 0, 0, 2, ' ', 0)
	for _, row := range append([][]string{t.Header}, t.Rows...) {
		fmt.Fprintf(w, "  %s\n", strings.Join(row, "\t"))
	}
	w.Flush()
	fmt.Fprintf(p.stdout, "  %s\n", t.Source)
}

func (p program) tellCautions(m bench.Method) {
	for i, caution := range m.Cautions {
		if i == 0 {
			fmt.Fprintln(p.stdout, "\nCautions")
		}
		fmt.Fprintf(p.stdout, "  %s\n", caution)
	}
}

func (p program) printFigures(c *bench.Calculation) error {
	enc := json.NewEncoder(p.stdout)
	enc.SetIndent("", "  ")
	return enc.Encode(exchange.FiguresOf(c, nil))
}
