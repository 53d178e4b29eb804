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
	text := "figure - limit"
	if c.AtMost {
		text = "limit - figure"
	}
	k := &check{Check: c, figure: sc.find(c.Figure), limit: sc.find(c.Limit)}
	if k.figure == nil || k.limit == nil || c.Tight != "" && sc.find(c.Tight) == nil {
		sc.sheet.fail("check %s: no such figure or limit (%s, %s, %s)", c.Key, c.Figure, c.Limit, c.Tight)
		return
	}
	if c.Tight != "" {
		k.tight = sc.find(c.Tight)
	}
	in := sc.In(c.Key)
	k.margin = in.add(Q{Key: "margin", Label: "margin of: " + c.Label, Unit: k.figure.Unit, Decimals: k.figure.Decimals, Quiet: true}, derived)
	k.margin.formula = in.formula(text, c.Source, []With{{"figure": k.figure.Key, "limit": k.limit.Key}})
	k.Key = sc.Key(c.Key)
	sc.sheet.checks = append(sc.sheet.checks, k)
}

// CheckResult is a check at the planned stage, beside what it was before.
type CheckResult struct {
	Check
	Figure, Limit, Margin Figure
	Verdict               Verdict
	Was                   Verdict // now; "" where it did not exist
	MarginNow             float64 // NaN where it did not exist
	PlusMinus             float64 // of the margin, about 95 %
	Flips                 bool    // the verdict turns over within that
	AsFound               bool    // the machine broke it before any change, and no change makes it worse
	Worse                 bool    // the margin is smaller than it is now
	Sentence              string
	Phrase                string   // "3.0 to spare", "just touches", "short by 2"
	Missing               []Figure // what to measure where the verdict is Unmeasured
}

// Charged tells whether a failing check is this plan's doing.
func (c CheckResult) Charged() bool { return c.Verdict == Fails && !c.AsFound }

// Touched tells whether a check has something to say about the change: it is
// new, worse than now, of another verdict, failing, or waiting for a measurement.
func (c CheckResult) Touched() bool {
	return c.Was == "" || c.Worse && c.Margin.Known() && c.nearby() || c.Verdict != c.Was || c.Verdict == Fails || c.Verdict == Unmeasured
}

// nearby tells a margin that matters from one that is endless.
func (c CheckResult) nearby() bool { return !math.IsInf(c.Margin.Value, 0) }

// Checks gives every check that exists at the planned stage, in order of definition.
func (r *Result) Checks() []CheckResult {
	var all []CheckResult
	for _, k := range r.sheet.checks {
		if r.at[Planned][k.margin.id] >= 0 {
			all = append(all, r.check(k))
		}
	}
	return all
}

func (r *Result) check(k *check) CheckResult {
	at := func(q *quantity, s Stage) Figure { return r.figure(r.at[s][q.id]) }
	c := CheckResult{Check: k.Check, Figure: at(k.figure, Planned), Limit: at(k.limit, Planned), Margin: at(k.margin, Planned), MarginNow: math.NaN()}
	c.Verdict = r.verdict(k, Planned)
	c.Was = r.verdict(k, Now)
	if c.Was != "" {
		c.MarginNow = at(k.margin, Now).Value
		c.Worse = c.Margin.Best(c.MarginNow) < c.MarginNow-nearly
	}
	if r.verdict(k, Found) == Fails {
		c.AsFound = c.Verdict == Fails && c.Margin.Lo >= at(k.margin, Found).Lo-nearly
	}
	if c.Verdict == Unmeasured {
		c.Missing = r.Missing(k.margin.Key, Planned)
	} else if c.Margin.Known() {
		u := r.firstOrder(c.Margin)
		c.PlusMinus = u.PlusMinus()
		c.Flips = math.Abs(c.Margin.Value) < c.PlusMinus
	}
	now := c.Figure.Best(0)
	if f, ok := r.Figure(k.figure.Key, Now); ok {
		now = f.Value
	}
	c.Sentence = strings.NewReplacer("{figure}", c.Figure.Text(now), "{limit}", c.Limit.Text(now)).Replace(k.Check.Sentence)
	c.Phrase = c.phrase()
	if c.Verdict == Unmeasured {
		c.Sentence = "Not known until this is measured: " + c.Phrase + "."
	}
	return c
}

// verdict at a stage; "" where the check does not exist then.
func (r *Result) verdict(k *check, s Stage) Verdict {
	if r.at[s][k.margin.id] < 0 {
		return ""
	}
	m := r.figure(r.at[s][k.margin.id])
	tight := 0.0
	if k.tight != nil && r.at[s][k.tight.id] >= 0 {
		tight = r.figure(r.at[s][k.tight.id]).Value
	}
	switch {
	case math.IsNaN(m.Lo) || m.Lo < -nearly && m.Hi >= -nearly:
		return Unmeasured
	case m.Lo < -nearly && !k.Advice:
		return Fails
	case m.Lo <= tight+nearly:
		return Tight
	}
	return Holds
}

func (c CheckResult) phrase() string {
	u := c.Margin.Unit
	show := func(x float64) string { u.Decimals = c.Margin.Decimals; return u.With(x) }
	m := c.Margin.Best(math.Inf(1))
	switch {
	case c.Verdict == Unmeasured && len(c.Missing) == 0:
		return "cannot be computed"
	case c.Verdict == Unmeasured:
		parts := make([]string, len(c.Missing))
		for i, f := range c.Missing {
			parts[i] = f.Label
		}
		return join(parts)
	case math.Abs(m) < u.Step()/2:
		return "just touches"
	case m < 0 && c.AtMost:
		return "over by " + show(-m)
	case m < 0:
		return "short by " + show(-m)
	case math.IsInf(m, 1):
		return "out of the way"
	}
	return show(m) + " to spare"
}
