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
	Rest      []ui.Check `json:"rest_of_the_plan,omitempty"` // touched by what else is planned alone
	Tally     []ui.Link  `json:"tally"`                      // of those that the change touches, each with the way to its first
}

// told is the tally as text.
func (c planChecks) told() string {
	words := make([]string, len(c.Tally))
	for i, t := range c.Tally {
		words[i] = t.Text
	}
	return joined(words)
}

// worst is the order in which checks are read.
var worst = []sheet.Verdict{sheet.Fails, sheet.Unmeasured, sheet.Tight, sheet.Holds}

func (w *planWriter) checks(results []sheet.CheckResult) planChecks {
	var all planChecks
	touched := map[sheet.Verdict][]ui.Check{}
	of := w.site.Layout.Key + "."
	if w.site.Kind.About().Whole { // no axis is meant
		of = w.site.Scope.Key("")
	}
	for _, c := range results {
		own := strings.HasPrefix(c.Key, of)
		switch {
		case c.Was == "" && endless(c.Margin): // of a part that is not needed
		case !own && (c.AsFound || !c.Worse && c.Verdict == c.Was): // what another axis is like does not matter here
		case c.Touched() && w.follows != nil && !w.follows(c.Margin.Key):
			all.Rest = append(all.Rest, w.check(c))
		case c.Touched():
			v := c.Verdict
			if c.AsFound {
				v = sheet.Tight // it is no fault of the change
			}
			touched[v] = append(touched[v], w.check(c))
		case own:
			all.Unchanged = append(all.Unchanged, w.check(c))
		}
	}
	for _, v := range worst {
		if len(touched[v]) == 0 {
			continue
		}
		all.Touched = append(all.Touched, touched[v]...)
		first, n := map[string]string{}, map[string]int{}
		for _, c := range touched[v] {
			word := c.Verdict.Word
			if n[word]++; n[word] == 1 {
				first[word] = "#" + c.ID
			}
		}
		for _, word := range []string{"fails", "unmeasured", "tight", "holds"} {
			if n[word] == 0 {
				continue
			}
			text := fmt.Sprintf("%d %s", n[word], plural(word, n[word]))
			if word == "fails" && v != sheet.Fails {
				text = fmt.Sprintf("%d broken as found", n[word])
			}
			all.Tally = append(all.Tally, ui.Link{Text: text, Href: first[word]})
		}
	}
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
	line := w.checkLine(c)
	line.Figure, line.Say = w.figureOf(c), w.remarks(c)
	if line.Explain = w.explain(c.Figure.Key); line.Explain != nil {
		line.Explain.Held = w.held(c)
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
	if c.Flips && c.Touched() && c.Figure.Known() && !endless(c.Figure) {
		return bare(w.Units, c.Figure, c.Figure.Value) + " " + w.plusMinus(c.Margin, c.PlusMinus)
	}
	return w.figureHeld(c)
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
		if shares := w.Result.Shares(c.Margin.Key, sheet.Planned); len(shares) > 0 {
			turns += " Measure “" + lowered(shares[0].Label) + "” better first: it makes " + percent(shares[0].Part) + " of that."
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
