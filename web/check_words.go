package web

import (
	"math"
	"net/url"
	"strings"

	"fettle/plan/sheet"
	"fettle/web/ui"
)

// checkLine is a check as any page lists it.
func (o opened) checkLine(c sheet.CheckResult) ui.Check {
	return ui.Check{
		ID:      "c-" + strings.ReplaceAll(c.Key, ".", "-"),
		Name:    o.checkName(c),
		Key:     c.Figure.Key,
		Figure:  o.figureHeld(c),
		Limit:   o.limitHeld(c),
		Verdict: ui.Verdict{Word: string(c.Verdict), Margin: o.marginOf(c)},
		Href:    with(o.link(c.Figure.Key), "check", c.Key),
	}
}

// with adds a word to an address.
func with(address, name, value string) string {
	joint := "?"
	if strings.Contains(address, "?") {
		joint = "&"
	}
	return address + joint + url.Values{name: {value}}.Encode()
}

// checkName is what a check is called: of an axis that is not the only one of the page, with its name before.
func (o opened) checkName(c sheet.CheckResult) string {
	if a, _ := o.axisOf(c.Key); a != nil && a.Key != o.axis && len(o.Layouts) > 1 {
		return a.Label + ": " + lowered(c.Label)
	}
	return c.Label
}

// figureHeld is what is judged.
func (o opened) figureHeld(c sheet.CheckResult) string {
	if !c.Figure.Known() || endless(c.Figure) {
		return "–"
	}
	return in(o.Units, c.Figure).Text(0)
}

// limitHeld is what the figure is held against, in the unit of the figure. The bound of one
// that is not known is no limit: a wheel without a marked speed is not to stand still.
func (o opened) limitHeld(c sheet.CheckResult) string {
	best := c.Limit.Best(0)
	if math.IsNaN(best) || c.Verdict == sheet.Unmeasured && !c.Limit.Known() {
		return "–"
	}
	sign := "≥ "
	if c.AtMost {
		sign = "≤ "
	}
	return sign + bare(o.Units, c.Limit, best)
}

// marginOf is what goes with the verdict, without the unit that stands in the line already.
func (o opened) marginOf(c sheet.CheckResult) string {
	margin := inUnit(o.Units, c.Phrase, c.Margin)
	if symbol := in(o.Units, c.Margin).Unit.Symbol; symbol != "" && c.Verdict != sheet.Unmeasured && !strings.HasPrefix(margin, "beyond ") {
		margin = strings.Replace(margin, " "+symbol, "", 1)
	}
	if c.AsFound {
		margin += ", as found"
	}
	return margin
}

// sentenceOf is the sentence of a check, in the machine's units.
func (o opened) sentenceOf(c sheet.CheckResult) string {
	if c.Verdict == sheet.Unmeasured {
		return c.Sentence // it has no figure in it
	}
	now := math.NaN()
	if f, ok := o.Result.Figure(c.Figure.Key, sheet.Now); ok {
		now = f.Value
	}
	say := strings.ReplaceAll(c.Check.Sentence, "{figure}", in(o.Units, c.Figure).Text(now))
	return strings.ReplaceAll(say, "{limit}", in(o.Units, c.Limit).Text(math.NaN()))
}
