package web

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"fettle/plan/bench"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
	"fettle/web/ui"
)

// benchFigure is a figure in columns, which opens to how it comes about.
type benchFigure struct {
	ID, Label, Symbol string
	Number, Unit      string // apart, so that numbers stand in line
	PlusMinus         string
	Origin            string // as for [ui.OriginMark]
	Explain           ui.Explanation
}

// benchTable is a list beside the figures, with how each column is set.
type benchTable struct {
	bench.Table
	classes []string // by column
}

// mostBeside is how many columns a table can have that stands beside the figures.
const mostBeside = 4

func (t benchTable) narrow() bool { return len(t.Header) <= mostBeside }

// results puts a calculation into words.
func (v *benchView) results(c *bench.Calculation) {
	w := benchWriter{Calculation: c, inputs: map[string]bool{}, outputs: map[string]bool{}}
	for _, in := range c.Method.Inputs {
		w.inputs[in.Key] = !in.Word
	}
	outputs := c.Outputs()
	for _, f := range outputs {
		w.outputs[f.Key] = true
	}
	for _, f := range outputs {
		v.figures = append(v.figures, w.figure(f))
	}
	results := c.Result.Checks()
	v.between = w.between(outputs, results)
	for _, k := range results {
		v.checks = append(v.checks, w.check(k))
	}
	v.answer = w.answer(outputs, results)
	if t, ok := c.Table(); ok && len(t.Rows) > 0 {
		v.table = benchTable{t, columnClasses(t)}
	}
	v.picture = benchPictureOf(c)
}

// benchWriter puts one calculation's results into words. It computes nothing.
type benchWriter struct {
	*bench.Calculation
	inputs, outputs map[string]bool
}

// link leads from a figure to where it stands on the same page.
func (w *benchWriter) link(key string) string {
	if w.inputs[key] {
		return "#in-" + key
	}
	return "#" + figureID(key)
}

func figureID(key string) string { return "f-" + strings.ReplaceAll(key, ".", "-") }

func (w *benchWriter) figure(f sheet.Figure) benchFigure {
	e, _ := w.Result.Explain(f.Key, sheet.Planned)
	line := benchFigure{ID: figureID(f.Key), Label: capital(f.Label), Origin: originMark(f.Origin), Explain: w.explain(e)}
	if f.Symbol != f.Label {
		line.Symbol = f.Symbol
	}
	line.Number, line.Unit = columnNumber(f), f.Unit.Symbol
	if !f.Known() {
		line.Number, line.Unit = f.Text(0), ""
	}
	if u := w.Result.Uncertainty(f.Key, sheet.Planned); f.Known() {
		line.PlusMinus = f.TextPlusMinus(u)
	}
	return line
}

// columnNumber writes a figure for a column of them: with all of its decimals, and with more where it
// would seem to be nothing.
func columnNumber(f sheet.Figure) string {
	if f.Value == 0 {
		return "0"
	}
	decimals := f.Decimals
	for f.Unit.Text(f.Value, decimals) == "0" && decimals < mostDecimals {
		decimals++
	}
	return f.Unit.Fixed(f.Value, decimals)
}

const mostDecimals = 9

// explain opens a figure; what a table gave names the table as its source.
func (w *benchWriter) explain(e sheet.Explanation) ui.Explanation {
	x := explained(w.Result, e, unit.MM, w.link)
	if e.Formula == "" && e.Origin == sheet.Chosen && e.Note != "" {
		x.Source, x.Say = e.Note, nil
	}
	for i, in := range x.Inputs {
		x.Inputs[i].Label, _ = nameAndHint(in.Label)
	}
	return x
}

// between gives, in the sheet's order, what the outputs and the checks were worked out from and that is
// neither typed nor an output.
func (w *benchWriter) between(outputs []sheet.Figure, checks []sheet.CheckResult) []benchFigure {
	needed := map[string]bool{}
	var need func(f sheet.Figure)
	need = func(f sheet.Figure) {
		if needed[f.Key] {
			return
		}
		needed[f.Key] = true
		e, _ := w.Result.Explain(f.Key, sheet.Planned)
		for _, in := range e.Inputs {
			need(in)
		}
	}
	for _, f := range outputs {
		need(f)
	}
	for _, k := range checks {
		need(k.Figure)
		need(k.Limit)
	}
	var lines []benchFigure
	for _, f := range w.Result.Figures(sheet.Planned) {
		if _, typed := w.inputs[f.Key]; needed[f.Key] && !w.outputs[f.Key] && !typed {
			lines = append(lines, w.figure(f))
		}
	}
	return lines
}

// check is one line of the list of checks: all that is said of it opens, and what is not in order
// says so at once.
func (w *benchWriter) check(k sheet.CheckResult) ui.Check {
	e, _ := w.Result.Explain(k.Figure.Key, sheet.Planned)
	x := w.explain(e)
	x.Verdict = string(k.Verdict)
	line := ui.Check{
		ID: "c-" + strings.ReplaceAll(k.Key, ".", "-"), Name: capital(k.Label),
		Figure: k.Figure.Text(0), Limit: limitText(k), Verdict: ui.Verdict{Word: string(k.Verdict), Margin: k.Phrase},
	}
	limit := "Limit: " + k.Limit.Text(0)
	if source := sourceOf(k.Limit, w.Result); source != "" {
		limit += " (" + source + ")"
	}
	x.Say = append(x.Say, sentence(limit))
	if k.Source != "" && !strings.Contains(limit, k.Source) && k.Source != x.Source {
		x.Say = append(x.Say, "Rule: "+sentence(k.Source))
	}
	if k.Verdict == sheet.Holds {
		x.Say = append([]string{k.Sentence}, x.Say...)
	} else {
		line.Say = []string{k.Sentence}
	}
	line.Explain = &x
	return line
}

// limitText is what a check's figure is held against, in the figure's own unit where it can be.
func limitText(k sheet.CheckResult) string {
	sign := "≥ "
	if k.AtMost {
		sign = "≤ "
	}
	if k.Limit.Known() && k.Limit.Unit == k.Figure.Unit {
		return sign + k.Limit.Unit.Text(k.Limit.Value, k.Limit.Decimals)
	}
	return sign + k.Limit.Text(0)
}

// sourceOf names where a figure comes from; nothing for one that was typed.
func sourceOf(f sheet.Figure, r *sheet.Result) string {
	e, _ := r.Explain(f.Key, sheet.Planned)
	if e.Formula != "" {
		return e.Source
	}
	return e.Note
}

// mostSaid is how many figures a sentence can hold.
const mostSaid = 2

// answer is the sum of it all in a sentence, with the figures set apart.
func (w *benchWriter) answer(outputs []sheet.Figure, checks []sheet.CheckResult) []upgrade.Run {
	var runs []upgrade.Run
	for i, f := range outputs[:min(mostSaid, len(outputs))] {
		label, _ := nameAndHint(f.Label)
		if i > 0 {
			label = "; " + label
		} else {
			label = capital(label)
		}
		runs = append(runs, upgrade.Run{Text: label + " "}, upgrade.Run{Text: f.Text(0), Strong: true})
	}
	return append(runs, upgrade.Run{Text: ". " + checksSaid(checks)})
}

// checksSaid says what is not in order, the worst first, or that all is.
func checksSaid(checks []sheet.CheckResult) string {
	var say []string
	for _, v := range worst[:len(worst)-1] {
		for _, k := range checks {
			if k.Verdict != v {
				continue
			}
			word := string(v)
			if v != sheet.Fails {
				word = "is " + word
			}
			say = append(say, fmt.Sprintf("“%s” %s: %s.", capital(k.Label), word, k.Phrase))
		}
	}
	switch n := len(checks); {
	case len(say) > 0:
		return strings.Join(say, " ")
	case n == 1:
		return "The check holds."
	case n > 1:
		return fmt.Sprintf("All %d checks hold.", n)
	}
	return ""
}

// mostWhole is how many letters stand in a cell that is not broken into lines.
const mostWhole = 18

// columnClasses sets numbers in line at their right, and keeps what is short in one line.
func columnClasses(t bench.Table) []string {
	classes := make([]string, len(t.Header))
	for i := range t.Header {
		switch has := func(test func(cell string) bool) bool {
			return slices.ContainsFunc(t.Rows, func(row []string) bool { return test(row[i]) })
		}; {
		case !has(func(cell string) bool { return !isNumber(cell) }):
			classes[i] = "num"
		case !has(func(cell string) bool { return utf8.RuneCountInString(cell) > mostWhole }):
			classes[i] = "whole"
		}
	}
	return classes
}

// isNumber reports whether a finished cell is a number, with or without a sign, a per cent or nothing.
func isNumber(cell string) bool {
	cell = strings.TrimLeft(strings.TrimSuffix(cell, " %"), "+−-–")
	return strings.Trim(cell, "0123456789.") == ""
}
