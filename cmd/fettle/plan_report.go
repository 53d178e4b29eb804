package main

import (
	"fmt"
	"io"
	"strings"

	"fettle/plan/exchange"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
)

// report is what is printed as JSON. Lengths are in mm, other figures in the unit beside them.
type report struct {
	Machine    string             `json:"machine"`
	Answers    []told             `json:"answers"`
	Quantities []quantity         `json:"quantities"`
	Checks     []exchange.Verdict `json:"checks"`
	Limits     []reach            `json:"limits"`
	Conflicts  []string           `json:"conflicts"`
	Findings   []string           `json:"findings"`
	Failing    int                `json:"failing"`
}

type told struct {
	Upgrade string `json:"upgrade"`
	Text    string `json:"text"`
}

type quantity struct {
	Key         string   `json:"key"`
	Label       string   `json:"label"`
	Unit        string   `json:"unit"`
	Found       *float64 `json:"found"` // null: not known, or not there
	Now         *float64 `json:"now"`
	Planned     *float64 `json:"planned"`
	AtLeast     *float64 `json:"planned_at_least,omitempty"`
	AtMost      *float64 `json:"planned_at_most,omitempty"`
	Uncertainty *float64 `json:"uncertainty"` // standard uncertainty of planned
	Origin      string   `json:"origin"`
	Causes      []string `json:"causes"`
}

type reach struct {
	Upgrade string   `json:"upgrade"`
	From    *float64 `json:"from"`
	To      *float64 `json:"to"`
	AtMost  bool     `json:"at_most"`
	Best    *float64 `json:"best"`
	Ends    []ending `json:"ends"`
}

type ending struct {
	Label string   `json:"label"`
	Level string   `json:"level"`
	From  float64  `json:"from"`
	To    *float64 `json:"to"`
}

func reportOf(p *machine.Plan) report {
	r := p.Result
	out := report{Machine: p.Machine.Name, Findings: append([]string{}, p.Findings...), Conflicts: []string{},
		Answers: []told{}, Quantities: []quantity{}, Checks: []exchange.Verdict{}, Limits: []reach{}}
	for _, f := range r.Figures(sheet.Planned) {
		q := quantity{Key: f.Key, Label: f.Label, Unit: f.Unit.Symbol, Planned: exchange.Number(f.Unit, f.Value), Origin: string(f.Origin), Causes: []string{}}
		if found, ok := r.Figure(f.Key, sheet.Found); ok {
			q.Found = exchange.Number(f.Unit, found.Value)
		}
		if now, ok := r.Figure(f.Key, sheet.Now); ok {
			q.Now = exchange.Number(f.Unit, now.Value)
		}
		if f.Known() {
			q.Uncertainty = exchange.Number(unit.Unit{Scale: f.Unit.Scale}, r.Uncertainty(f.Key, sheet.Planned).Std)
		} else {
			q.AtLeast, q.AtMost = exchange.Number(f.Unit, f.Lo), exchange.Number(f.Unit, f.Hi)
		}
		for _, c := range r.Causes(f.Key) {
			q.Causes = append(q.Causes, c.Key)
		}
		out.Quantities = append(out.Quantities, q)
	}
	for _, c := range r.Checks() {
		if c.Charged() {
			out.Failing++
		}
		out.Checks = append(out.Checks, exchange.VerdictOf(c))
	}
	for _, c := range r.Conflicts() {
		out.Conflicts = append(out.Conflicts, c.Error())
	}
	for _, s := range p.Sites {
		out.Answers = append(out.Answers, told{s.ID, upgrade.Text(s.Kind.Answer(s, r))})
		far := r.HowFar(s.Amount, s.Goals[0], s.Most)
		l := reach{Upgrade: s.ID, From: exchange.Number(unit.MM, far.From), To: exchange.Number(unit.MM, far.To), AtMost: far.AtMost, Best: exchange.Number(unit.MM, far.Best), Ends: []ending{}}
		for _, e := range far.Limits {
			l.Ends = append(l.Ends, ending{e.Label, string(e.Level), e.From, exchange.Number(unit.MM, e.To)})
		}
		out.Limits = append(out.Limits, l)
	}
	return out
}

// write prints the report for reading.
func (out report) write(w io.Writer, p *machine.Plan) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", out.Machine)
	for _, a := range out.Answers {
		fmt.Fprintf(&b, "\n%s\n", a.Text)
	}
	if len(p.Sites) == 0 {
		b.WriteString("\nNothing is planned. Drafts do not count; fettle plan -with ID counts one.\n")
	}
	var goals []string
	for _, s := range p.Sites {
		goals = append(goals, s.GoalKeys()...)
	}
	if tree := p.Result.KnockOns(goals...); len(tree) > 0 {
		b.WriteString("\nKnock-ons\n")
		for _, k := range tree {
			writeKnockOn(&b, k, "  ")
		}
	}
	b.WriteString("\nChecks\n")
	unchanged := 0
	for _, c := range p.Result.Checks() {
		if !c.Touched() {
			unchanged++
			continue
		}
		mark := string(c.Verdict)
		if c.AsFound {
			mark = "as found"
		}
		fmt.Fprintf(&b, "  %-10s %s: %s\n             %s\n", mark, c.Label, c.Phrase, c.Sentence)
	}
	fmt.Fprintf(&b, "  %d more, no worse than now\n", unchanged)
	for _, l := range out.Limits {
		writeReach(&b, l)
	}
	for _, s := range append(out.Conflicts, out.Findings...) {
		fmt.Fprintf(&b, "\n%s\n", s)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func writeKnockOn(b *strings.Builder, k *sheet.KnockOn, in string) {
	was, diff := "", ""
	switch {
	case k.New:
		diff = "new"
	case k.Gone:
		diff = "gone"
	default:
		u := k.Unit
		u.Decimals = k.Decimals
		was = k.Now.Text(k.Now.Value) + " → "
		diff = u.Text(k.Delta, k.Decimals)
		if k.Delta > 0 {
			diff = "+" + diff
		}
	}
	fmt.Fprintf(b, "%s%s: %s%s (%s)\n", in, k.Label, was, k.Figure.Text(k.Now.Value), diff)
	for _, c := range k.Children {
		writeKnockOn(b, c, in+"  ")
	}
}

func writeReach(b *strings.Builder, l reach) {
	b.WriteString("\nHow far could I go\n")
	switch {
	case l.To == nil || l.From != nil && *l.From > *l.To:
		b.WriteString("  nowhere: no amount does all that was asked for\n")
	case l.AtMost:
		fmt.Fprintf(b, "  to %s, at most\n", unit.MM.With(*l.To))
	default:
		fmt.Fprintf(b, "  to %s\n", unit.MM.With(*l.To))
	}
	for _, e := range l.Ends {
		if e.From > 0 {
			fmt.Fprintf(b, "  from %s  %s (%s)\n", unit.MM.Text(e.From, 2), e.Label, e.Level)
		}
		if e.To != nil {
			fmt.Fprintf(b, "  %8s  %s (%s)\n", unit.MM.Text(*e.To, 2), e.Label, e.Level)
		}
	}
}
