package web

import (
	"fmt"
	"math"
	"strings"

	"fettle/plan/sheet"
	"fettle/plan/upgrade"
	"fettle/web/ui"
)

// planChecks is every check: those that the change touches, worst first, and the rest.
type planChecks struct {
	Touched   []ui.Check `json:"touched"`
	Unchanged []ui.Check `json:"unchanged"`
	Tally     string     `json:"tally"` // of those that the change touches
}

// worst is the order in which checks are read.
var worst = []sheet.Verdict{sheet.Fails, sheet.Unmeasured, sheet.Tight, sheet.Holds}

func (w *planWriter) checks(results []sheet.CheckResult) planChecks {
	var all planChecks
	touched := map[sheet.Verdict][]ui.Check{}
	for _, c := range results {
		switch {
		case c.Was == "" && endless(c.Margin): // of a part that is not needed
		case c.Touched():
			v := c.Verdict
			if c.AsFound {
				v = sheet.Tight // it is no fault of the change
			}
			touched[v] = append(touched[v], w.check(c))
		case strings.HasPrefix(c.Key, w.site.Layout.Key+"."): // what another axis is like does not matter here
			all.Unchanged = append(all.Unchanged, w.check(c))
		}
	}
	var tally []string
	for _, v := range worst {
		all.Touched = append(all.Touched, touched[v]...)
		count := map[string]int{}
		for _, c := range touched[v] {
			count[c.Verdict.Word]++
		}
		for _, word := range []string{"fails", "unmeasured", "tight", "holds"} {
			if n := count[word]; n > 0 && word == "fails" && v != sheet.Fails {
				tally = append(tally, fmt.Sprintf("%d broken as found", n))
			} else if n > 0 {
				tally = append(tally, fmt.Sprintf("%d %s", n, plural(word, n)))
			}
		}
	}
	all.Tally = joined(tally)
	return all
}

// plural is a verdict of several checks.
func plural(word string, n int) string {
	if n == 1 {
		return word
	}
	switch word {
	case "fails":
		return "fail"
	case "holds":
		return "hold"
	}
	return word
}

func (w *planWriter) check(c sheet.CheckResult) ui.Check {
	line := ui.Check{
		ID:      "c-" + strings.ReplaceAll(c.Key, ".", "-"),
		Name:    c.Label,
		Key:     c.Figure.Key,
		Figure:  w.figureOf(c),
		Limit:   w.limitOf(c),
		Verdict: ui.Verdict{Word: string(c.Verdict), Margin: w.marginOf(c)},
		Explain: w.explain(c.Figure.Key),
		Href:    w.link(c.Figure.Key),
		Say:     w.remarks(c),
	}
	if c.Flips && len(line.Say) > 0 {
		line.Formula = w.formula(c.Figure)
	}
	if c.Verdict == sheet.Fails || c.Verdict == sheet.Tight && c.Touched() {
		line.Actions = w.remedies(c)
	}
	return line
}

// figureOf is what is judged, with how far off it can be where that decides.
func (w *planWriter) figureOf(c sheet.CheckResult) string {
	switch {
	case !c.Figure.Known() || endless(c.Figure):
		return "–"
	case c.Flips && c.Touched():
		return bare(w.Units, c.Figure, c.Figure.Value) + " " + w.plusMinus(c.Margin, c.PlusMinus)
	}
	return w.text(c.Figure, 0)
}

// marginOf is what goes with the verdict, without the unit that stands in the line already.
func (w *planWriter) marginOf(c sheet.CheckResult) string {
	margin := inUnit(w.Units, c.Phrase, c.Margin)
	if symbol := in(w.Units, c.Margin).Unit.Symbol; symbol != "" && c.Verdict != sheet.Unmeasured {
		margin = strings.Replace(margin, " "+symbol, "", 1)
	}
	if c.AsFound {
		margin += ", as found"
	}
	return margin
}

// limitOf is what the figure is held against, in the unit of the figure.
func (w *planWriter) limitOf(c sheet.CheckResult) string {
	sign := "≥ "
	if c.AtMost {
		sign = "≤ "
	}
	return sign + bare(w.Units, c.Limit, c.Limit.Best(0))
}

// plusMinus writes an uncertainty in the unit of f.
func (w *planWriter) plusMinus(f sheet.Figure, pm float64) string {
	f = in(w.Units, f)
	if text := f.TextPlusMinus(sheet.Uncertainty{Std: pm / 2}); f.Unit.Symbol != "" {
		return text + " " + f.Unit.Symbol
	} else {
		return text
	}
}

// remarks are the sentences under a check that needs them.
func (w *planWriter) remarks(c sheet.CheckResult) []string {
	if c.Verdict == sheet.Holds || c.Verdict == sheet.Unmeasured || !c.Touched() {
		return nil
	}
	say := []string{w.sentenceOf(c)}
	switch {
	case c.AsFound:
		say = append(say, "Broken as found, and not charged to this change.")
	case c.Verdict == sheet.Fails && c.Was == sheet.Fails:
		say = append(say, "Broken before, and worse with this change.")
	}
	if c.Flips {
		turns := "It turns over within " + w.plusMinus(c.Margin, c.PlusMinus) + "."
		if u := w.Result.Uncertainty(c.Margin.Key, sheet.Planned); len(u.Shares) > 0 {
			turns += " Measure “" + lowered(u.Shares[0].Label) + "” better first: it makes " + percent(u.Shares[0].Part) + " of that."
		}
		say = append(say, turns)
	}
	return []string{strings.Join(say, " ")}
}

// formula writes how a figure is computed, in symbols and with the numbers in.
func (w *planWriter) formula(f sheet.Figure) string {
	e, ok := w.Result.Explain(f.Key, sheet.Planned)
	if !ok || e.Formula == "" {
		return ""
	}
	return e.Symbol + " = " + e.Formula + " = " + e.Numbers + " = " + w.text(f, math.NaN())
}

// sentenceOf is the sentence of a check, in the machine's units.
func (w *planWriter) sentenceOf(c sheet.CheckResult) string {
	now := math.NaN()
	if f, ok := w.Result.Figure(c.Figure.Key, sheet.Now); ok {
		now = f.Value
	}
	return strings.NewReplacer("{figure}", w.text(c.Figure, now), "{limit}", w.text(c.Limit, math.NaN())).Replace(c.Check.Sentence)
}

// remedies are the buttons that choose something else where the check asks for it: in each list that
// matters now and offers it.
func (w *planWriter) remedies(c sheet.CheckResult) []ui.Action {
	var actions []ui.Action
	for _, remedy := range c.Remedies {
		for _, f := range w.site.Fields {
			if f.Value == remedy || shared(f) || f.Need != "" && !w.needed(f.Need) {
				continue
			}
			if o, ok := optionOf(f, remedy); ok {
				text := "Instead: " + o.Label
				if f.Where != "" {
					text += ", where " + the(f.Group)
				}
				actions = append(actions, ui.Action{Name: "apply", Value: f.Name + "=" + remedy, Text: text})
			}
		}
	}
	return actions
}

func optionOf(f upgrade.Field, value string) (upgrade.Option, bool) {
	for _, o := range f.Options {
		if o.Value == value {
			return o, true
		}
	}
	return upgrade.Option{}, false
}
