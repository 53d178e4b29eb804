package web

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/drawing"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// planReach says how far the wish could go, and what would stop it.
type planReach struct {
	Say    []string    `json:"say"`
	From   string      `json:"from"`
	To     string      `json:"to"`
	AtMost bool        `json:"at_most"` // something that matters is not measured
	Limits []planLimit `json:"limits"`
	bar    []byte      // the same to scale
}

// planLimit is an amount at which something ends.
type planLimit struct {
	At    string      `json:"at"`
	Label string      `json:"label"`
	Level sheet.Level `json:"level"`
	Found bool        `json:"as_found,omitempty"` // the machine breaks it as it is: a warning, never the stop
}

// reach answers "how far could I go?".
func (w *planWriter) reach(checks []sheet.CheckResult, asked bool) *planReach {
	if w.site.Amount == "" || len(w.site.Goals) == 0 {
		return nil
	}
	h := w.Result.HowFar(w.site.Amount, w.site.Goals[0], w.site.Most)
	amount := w.Result.Value(w.site.Amount, sheet.Planned)
	p := &planReach{From: w.amount(h.From), To: w.amount(h.To), AtMost: h.AtMost}
	for _, l := range h.Limits {
		p.Limits = append(p.Limits, planLimit{At: w.amount(l.To), Label: w.limitLabel(l), Level: l.Level, Found: l.AsFound})
	}
	p.Say = append(p.Say, w.reachSentence(h, checks, amount, asked))
	if say := w.again(h); say != "" {
		p.Say = append(p.Say, say)
	}
	if next := w.after(h); next != "" && h.To >= h.From {
		p.Say = append(p.Say, next)
	}
	if h.AtMost {
		p.Say = append(p.Say, "At most: "+w.unmeasured(h, checks)+".")
	}
	if asked && h.To >= h.From && h.Best > 0 && h.Best < amount-sheetStep && h.Best < w.site.Most-sheetStep {
		p.Say = append(p.Say, fmt.Sprintf("%s is enough: beyond it, “%s” gains nothing.", w.amount(h.Best), w.goalLabel()))
	}
	p.bar = w.bar(h, amount, asked)
	return p
}

// amountUnit is the unit of the wish, which need not be a length: a push, a speed.
func (w *planWriter) amountUnit() unit.Unit {
	f, ok := w.Result.Figure(w.site.Amount, sheet.Planned)
	if !ok {
		return w.Units
	}
	return w.unitOf(f)
}

// amount writes an amount of the wish.
func (w *planWriter) amount(x float64) string { return w.amountUnit().With(x) }

// sheetStep is the smallest difference of two amounts, in mm, that shows.
const sheetStep = 0.005

func (w *planWriter) goalLabel() string {
	f, _ := w.Result.Figure(w.site.Goals[0].Key, sheet.Planned)
	return lowered(f.Label)
}

func (w *planWriter) reachSentence(h sheet.Reach, checks []sheet.CheckResult, amount float64, asked bool) string {
	cause := func(l sheet.Limit) string { return w.cause(l, checks) }
	causes := func(at float64) string {
		var say []string
		for _, l := range h.Limits {
			if binds(l) && (l.To == at || math.Abs(l.To-at) < sheetStep) {
				say = append(say, cause(l))
			}
		}
		return joined(say)
	}
	// What the machine does not do as found ends nothing, but may be what the wish is for.
	from, least := h.From, []string(nil)
	for _, l := range h.Limits {
		if l.AsFound && !l.Never && l.Level != sheet.Use && !l.Check.Advice {
			from = max(from, l.From)
		}
	}
	for _, l := range h.Limits {
		if (binds(l) || l.AsFound) && !l.Never && l.From > 0 && math.Abs(l.From-from) < sheetStep {
			least = append(least, cause(l))
		}
	}
	within := func(i sheet.Interval) bool { return i.From-sheetStep <= amount && amount <= i.To+sheetStep }
	switch {
	case asked && slices.ContainsFunc(h.Again, within):
		return fmt.Sprintf("You asked for %s, and it holds. Just beyond %s it does not, for then %s.", w.amount(amount), w.amount(h.To), causes(h.To))
	case h.To < h.From && len(h.Limits) == 0:
		return "Not known yet: it depends on what is still to be given."
	case h.To < h.From:
		return "No amount does it all: " + joined(never(h, w.amount, cause)) + "."
	case h.To >= w.site.Most-sheetStep && math.IsInf(nearest(h), 1):
		return "Nothing that is measured ends it within " + w.amount(w.site.Most) + "."
	case from > sheetStep && (!asked || amount < from-sheetStep || from > h.To):
		say := fmt.Sprintf("It takes at least %s, for with less %s; and at most %s, for then %s.", w.amount(from), joined(least), w.amount(h.To), causes(h.To))
		if from > h.To+sheetStep {
			return "No amount does it all. " + say
		}
		return say
	case h.To < sheetStep && asked:
		return fmt.Sprintf("You asked for %s; nothing can be had, because %s.", w.amount(amount), causes(h.To))
	case h.To < sheetStep:
		return fmt.Sprintf("Nothing can be had as it is, because %s.", causes(h.To))
	case asked && amount > h.To+sheetStep:
		return fmt.Sprintf("You asked for %s; you can have %s, because then %s.", w.amount(amount), w.amount(h.To), causes(h.To))
	}
	return fmt.Sprintf("You could have %s; then %s.", w.amount(h.To), causes(h.To))
}

// again says where it holds once more beyond the reach, as where bolts are sold in steps.
func (w *planWriter) again(h sheet.Reach) string {
	const most = 3 // stretches that are told
	var say []string
	for _, i := range h.Again[:min(len(h.Again), most)] {
		stretch := "from " + w.amount(i.From)
		switch {
		case i.To >= w.site.Most-sheetStep:
			stretch += " on"
		case i.To > i.From+sheetStep:
			stretch += " to " + w.amount(i.To)
		default:
			stretch = "at " + w.amount(i.From)
		}
		say = append(say, stretch)
	}
	if say == nil {
		return ""
	}
	return "It holds again " + joined(say) + "."
}

// never says why no amount will do: of what can never hold, that alone; else what asks for more, and what for less.
func never(h sheet.Reach, length func(mm float64) string, cause func(sheet.Limit) string) []string {
	var whatever, either []string
	for _, l := range h.Limits {
		switch {
		case !binds(l):
		case l.Never:
			whatever = append(whatever, "whatever it is, "+cause(l))
		case l.From > 0 && l.From > h.To:
			either = append(either, "with less than "+length(l.From)+", "+cause(l))
		case l.To < h.From:
			either = append(either, "with more than "+length(l.To)+", "+cause(l))
		}
	}
	if whatever != nil {
		return whatever
	}
	return either
}

// binds tells a limit that ends the reach.
func binds(l sheet.Limit) bool { return l.Level != sheet.Use && !l.Advice && !l.AsFound }

func nearest(h sheet.Reach) float64 {
	for _, l := range h.Limits {
		if binds(l) && !math.IsInf(l.To, 0) {
			return l.To
		}
	}
	return math.Inf(1)
}

// after names what comes next, once what ends the reach is dealt with.
func (w *planWriter) after(h sheet.Reach) string {
	for _, l := range h.Limits {
		if l.To > h.To+sheetStep && !math.IsInf(l.To, 0) && !l.AsFound {
			return fmt.Sprintf("After that comes, at %s: %s.", w.amount(l.To), lowered(w.limitLabel(l)))
		}
	}
	return ""
}

// cause says in words what is wrong beyond a limit.
func (w *planWriter) cause(l sheet.Limit, checks []sheet.CheckResult) string {
	for _, st := range w.site.Layout.Stops {
		if l.Key == w.site.Layout.Find(st.Key)+".check" {
			return st.Says
		}
	}
	if l.Key == w.site.Scope.Key("better_check") {
		return "it is no better than it was"
	}
	i := slices.IndexFunc(checks, func(c sheet.CheckResult) bool { return c.Key == l.Key })
	if l.Level == sheet.Stop || i < 0 {
		return "this does not hold: " + lowered(w.limitLabel(l))
	}
	than := " is less than "
	if l.AtMost {
		than = " is more than "
	}
	return the(checks[i].Figure.Label) + than + w.text(checks[i].Limit, math.NaN())
}

// limitLabel is a check's label without the end of the axis: all that ends a wish is at one end.
func (w *planWriter) limitLabel(l sheet.Limit) string {
	for _, e := range []axis.End{axis.Plus, axis.Minus} {
		if s, ok := strings.CutSuffix(l.Label, ", "+w.site.Layout.EndName(e)); ok {
			return s
		}
	}
	return l.Label
}

// unmeasured names what would have to be measured to be sure of the reach: what the checks lack at
// the amount that is asked, or else as far as one could go.
func (w *planWriter) unmeasured(h sheet.Reach, checks []sheet.CheckResult) string {
	follows := w.Result.FollowsFrom(w.site.Author)
	names := missing(checks, follows)
	if len(names) == 0 {
		was := w.Result.Value(w.site.Amount, sheet.Planned)
		w.Result.Try(w.site.Amount, h.To)
		names = missing(w.Result.Checks(), follows)
		w.Result.Try(w.site.Amount, was)
	}
	if len(names) == 0 {
		return "something that matters is not measured"
	}
	verb := " is"
	if len(names) > 1 {
		verb = " are"
	}
	return joined(names) + verb + " not measured"
}

// missing are the measurements that checks lack which the upgrade can move.
func missing(checks []sheet.CheckResult, follows func(key string) bool) []string {
	var names []string
	for _, c := range checks {
		if len(c.Missing) == 0 || !follows(c.Margin.Key) {
			continue
		}
		for _, name := range labels(c.Missing) {
			if !slices.Contains(names, the(name)) {
				names = append(names, the(name))
			}
		}
	}
	return names
}

// bar draws the reach to scale.
func (w *planWriter) bar(h sheet.Reach, amount float64, asked bool) []byte {
	h.Limits = slices.Clone(h.Limits)
	for i, l := range h.Limits {
		h.Limits[i].Label = w.limitLabel(l)
	}
	if !asked {
		amount = math.NaN()
	}
	if h.To < h.From && len(h.Limits) == 0 {
		return nil
	}
	svg, err := drawing.FarBar("far", h, amount, w.amountUnit()).AppendSVG(make([]byte, 0, 4<<10))
	if err != nil {
		return nil // the words say it all
	}
	return svg
}
