package sheet

import (
	"math"
	"strings"
)

// Level says what passing a limit means.
type Level string

// The levels of a limit.
const (
	Stop Level = "stop" // cannot be passed
	Rule Level = "rule" // common practice; can be changed
	Use  Level = "use"  // no good beyond
	Note Level = "note" // a figure to know, never a limit
)

// Verdict is what a check comes to.
type Verdict string

// The verdicts.
const (
	Holds      Verdict = "holds"
	Tight      Verdict = "tight"
	Fails      Verdict = "fails"
	Unmeasured Verdict = "unmeasured"
)

// Check compares a figure with a limit. Both are keys, so that the limit has
// its own source and can be changed.
type Check struct {
	Key      string
	Label    string
	Figure   string // key
	Limit    string // key
	AtMost   bool   // the figure is to be at most the limit, not at least
	Tight    string // key of the margin up to which it is tight; "" means only where it just touches
	Level    Level
	Advice   bool     // never worse than tight
	Sentence string   // with {figure} and {limit} in it
	Source   string   // of the limit, or of the method
	Remedies []string // what the program can apply
}

type check struct {
	Check
	margin, figure, limit, tight *quantity
}

// Check adds a check; its margin becomes a quantity of its own, key + ".margin".
func (sc *Scope) Check(c Check) {
	k := &check{Check: c, figure: sc.find(c.Figure), limit: sc.find(c.Limit)}
	if c.Tight != "" {
		k.tight = sc.find(c.Tight)
	}
	if k.figure == nil || k.limit == nil || c.Tight != "" && k.tight == nil {
		sc.sheet.fail("check %s: no such figure or limit (%s, %s, %s)", c.Key, c.Figure, c.Limit, c.Tight)
		return
	}
	text := "figure - limit"
	if c.AtMost {
		text = "limit - figure"
	}
	in := sc.In(c.Key)
	in.Formula(Q{Key: "margin", Label: "margin of: " + c.Label, Unit: k.figure.Unit, Decimals: k.figure.Decimals, Quiet: true},
		text, c.Source)
	k.Key = sc.Key(c.Key)
	k.margin = sc.sheet.named(in.Key("margin"))
	for _, n := range k.margin.formula.expr.names {
		t := target{name: n.name, quantity: k.figure}
		if n.name.name == "limit" {
			t.quantity = k.limit
		}
		k.margin.formula.targets = append(k.margin.formula.targets, t)
	}
	sc.sheet.checks = append(sc.sheet.checks, k)
}

// CheckResult is a check at the planned stage, beside what it was before.
type CheckResult struct {
	Check
	Figure, Limit, Margin Figure
	Near                  Figure // the margin up to which it is tight; the zero Figure where only touching is
	Verdict               Verdict
	Was                   Verdict  // now; "" where it did not exist
	MarginNow             float64  // NaN where it did not exist, or was not known
	PlusMinus             float64  // of the margin, to first order: see [Uncertainty.PlusMinus]
	Flips                 bool     // the verdict turns over within that
	AsFound               bool     // the machine broke it before any change, and no change makes it worse
	Worse                 bool     // the margin is smaller than it is now
	Sentence              string   // with the figures in it
	Phrase                string   // "3 mm to spare", "just touches", "over by 2 mm", "beyond what is usual, by 2 mm", or what to measure
	Missing               []Figure // what to measure where the verdict is Unmeasured
}

// Charged tells whether a failing check is this plan's doing.
func (c CheckResult) Charged() bool { return c.Verdict == Fails && !c.AsFound }

// Touched tells whether a check has something to say about the change: it is
// new, worse than now, of another verdict, failing, or waiting for a measurement.
func (c CheckResult) Touched() bool {
	// What is endlessly far from its limit is there for another amount.
	near := c.Margin.Known() && !math.IsInf(c.Margin.Value, 0)
	return near && (c.Was == "" || c.Worse) || c.Was != "" && c.Verdict != c.Was || c.Verdict == Fails || c.Verdict == Unmeasured
}

// Checks gives every check that exists at the planned stage, in order of
// definition. The list is kept until a value changes, so it is not to be written to.
func (r *Result) Checks() []CheckResult {
	if r.checks != nil {
		return r.checks
	}
	r.checks = make([]CheckResult, 0, len(r.sheet.checks))
	for _, k := range r.sheet.checks {
		if r.at[Planned][k.margin.id] >= 0 {
			r.checks = append(r.checks, r.check(k))
		}
	}
	return r.checks
}

// ChecksWhere gives those of [Result.Checks] that are wanted by key and verdict, and works out no others.
func (r *Result) ChecksWhere(wanted func(key string, v Verdict) bool) (all []CheckResult) {
	for _, k := range r.sheet.checks {
		if v := r.verdict(k, Planned); v != "" && wanted(k.Key, v) {
			all = append(all, r.check(k))
		}
	}
	return all
}

func (r *Result) check(k *check) CheckResult {
	at := func(q *quantity, s Stage) Figure { return r.figure(r.at[s][q.id]) }
	c := CheckResult{Check: k.Check, Figure: at(k.figure, Planned), Limit: at(k.limit, Planned), Margin: at(k.margin, Planned), MarginNow: math.NaN()}
	if k.tight != nil && r.at[Planned][k.tight.id] >= 0 {
		c.Near = at(k.tight, Planned)
	}
	c.Verdict, c.Was = r.verdict(k, Planned), r.verdict(k, Now)
	now := math.NaN()
	if c.Was != "" {
		margin := at(k.margin, Now)
		c.MarginNow = margin.Value
		now = at(k.figure, Now).Value
		c.Worse = c.Margin.Lo < margin.Lo-margin.nearly() || c.Margin.Hi < margin.Hi-margin.nearly()
	}
	if c.Verdict == Fails && r.verdict(k, Found) == Fails {
		c.AsFound = c.Margin.Lo >= at(k.margin, Found).Lo-c.Margin.nearly()
	}
	if c.Verdict == Unmeasured {
		c.Missing = r.Missing(k.margin.Key, Planned)
	}
	if c.Margin.Known() {
		var u Uncertainty
		u.Std = r.linear(r.nodes[c.Margin.node].slot, func(i int32, slope float64) { u.Worst += math.Abs(slope) * r.nodes[i].leaf.Spread.Half })
		c.PlusMinus = u.PlusMinus()
		c.Flips = math.Abs(c.Margin.Value) < c.PlusMinus
	}
	c.Sentence = strings.ReplaceAll(k.Check.Sentence, "{figure}", c.Figure.Text(now))
	c.Sentence = strings.ReplaceAll(c.Sentence, "{limit}", c.Limit.Text(math.NaN()))
	c.Phrase = c.phrase()
	if c.Verdict == Unmeasured {
		c.Sentence = "Not known until this is measured: " + c.Phrase + "."
	}
	return c
}

// verdict at a stage; "" where the check does not exist then.
func (r *Result) verdict(k *check, s Stage) Verdict {
	i := r.at[s][k.margin.id]
	if i < 0 {
		return ""
	}
	lo, hi := r.tape.bounds(r.nodes[i].slot)
	touch, tight := k.margin.nearly(), 0.0
	if k.tight != nil && r.at[s][k.tight.id] >= 0 {
		tight = r.tape.v[r.nodes[r.at[s][k.tight.id]].slot]
	}
	switch {
	case math.IsNaN(lo) || lo < -touch && hi >= -touch:
		return Unmeasured
	case lo < -touch && !k.Advice:
		return Fails
	case lo <= tight+touch:
		return Tight
	}
	return Holds
}

func (c CheckResult) phrase() string {
	u := c.Margin.shown()
	m, least := c.Margin.Lo, ""
	if m < 0 {
		m = c.Margin.Hi
	}
	if !c.Margin.Known() {
		least = "at least "
	}
	switch {
	case c.Verdict == Unmeasured && len(c.Missing) == 0:
		return "cannot be computed"
	case c.Verdict == Unmeasured:
		parts := make([]string, len(c.Missing))
		for i, f := range c.Missing {
			parts[i] = f.Label
		}
		return strings.Join(parts, ", ")
	case math.Abs(m) < u.Step()/2:
		return "just touches"
	case m < 0 && c.Advice && c.Level == Use:
		return "beyond what is of use, by " + least + u.With(-m)
	case m < 0 && c.Advice:
		return "beyond what is usual, by " + least + u.With(-m)
	case m < 0 && c.AtMost:
		return "over by " + least + u.With(-m)
	case m < 0:
		return "short by " + least + u.With(-m)
	case math.IsInf(m, 1):
		return "out of the way"
	}
	return least + u.With(m) + " to spare"
}
