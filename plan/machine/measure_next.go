package machine

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Next is a measurement that is missing, assumed or rough, and what it could change.
type Next struct {
	Axis    string       // key
	Field   string       // of the entry, within the axis: "bracket.length"
	Key     string       // of the figure, in the sheet
	Label   string       // "bracket length"
	Origin  sheet.Origin // as it is known now
	Half    float64      // by how much it can be off, inside; NaN where nothing is known
	Check   string       // key of the check that it could turn most easily, or that waits for it; "" where none does
	Why     string       // in a sentence
	How     string       // how to measure it
	With    string       // the usual instrument, in words
	Verdict int          // how many verdicts it could change
}

// AssumedShare is by how much a figure that is only assumed can be off, as a share of it.
// A face's place, which may lie near the datum, can be off by [AssumedLeast] at the least.
//
// Our choice, no source: a size class spans about a fifth either way.
const (
	AssumedShare = 0.2
	AssumedLeast = 2 // mm
)

// A verdict on what is planned counts this many times one on the machine as found.
const planned = 10

// nearShare is the share of a verdict's doubt from which a measurement counts for it.
const nearShare = 0.1

// next is a measurement while it is being judged.
type next struct {
	Next
	asked  axis.Asked
	layout *axis.Layout
	score  float64 // what it could change
	best   float64 // of that, by the check that is named
	waits  bool    // a verdict cannot be given before it is measured
}

// MeasureNext ranks what is not measured, only assumed, or measured roughly, by how much
// it could change a verdict: what a verdict waits for comes first, by how many do; then
// what could turn one, each counted by the measurement's share of its doubt and by how far
// to its turning that alone could carry it; last what a shown figure waits for. What is known exactly, and
// what is decided, is not listed.
func (p *Plan) MeasureNext() []Next {
	all, byKey := p.askedFor()
	for _, c := range p.Result.Checks() {
		switch {
		case c.Level == sheet.Note, c.Margin.Known() && math.IsInf(c.Margin.Value, 0):
		case c.Verdict == sheet.Unmeasured:
			p.waits(byKey, c)
		case c.Level == sheet.Stop && !c.Touched(): // it went as far as it goes
		default:
			p.turns(byKey, c)
		}
	}
	p.figuresWait(byKey)
	all = slices.DeleteFunc(all, func(n *next) bool { return n.score == 0 })
	slices.SortStableFunc(all, func(a, b *next) int {
		if a.waits != b.waits {
			return map[bool]int{true: -1, false: 1}[a.waits]
		}
		return cmp.Compare(b.score, a.score)
	})
	list := make([]Next, len(all))
	for i, n := range all {
		list[i] = n.Next
	}
	return list
}

// askedFor lists all that the sheets of the machine ask for, with what it is known to.
func (p *Plan) askedFor() (all []*next, byKey map[string]*next) {
	byKey = map[string]*next{}
	for _, l := range p.Layouts {
		for _, a := range l.Asked() {
			if a.Size.Decided {
				continue
			}
			leaf, _ := l.Scope.Leaf(a.Key)
			n := &next{asked: a, layout: l, Next: Next{Axis: l.Key, Field: a.Field, Key: l.Find(a.Key), Label: a.Label, Origin: leaf.Origin, Half: offBy(a.Size, leaf), How: a.Size.How}}
			if in, ok := plan.InstrumentNamed(a.Size.With); ok {
				n.With = in.Label
			}
			all = append(all, n)
			byKey[n.Key] = n
		}
	}
	return all, byKey
}

// offBy is by how much a leaf can be off: NaN where it is not known at all.
func offBy(s axis.Size, leaf sheet.Leaf) float64 {
	switch leaf.Origin {
	case sheet.Unknown:
		return math.NaN()
	case sheet.Assumed:
		if leaf.Spread.Half > 0 {
			return leaf.Spread.Half
		}
		off := AssumedShare * math.Abs(leaf.Value)
		if s.Unit.Dim == unit.LengthD && s.Least != axis.MoreThanNothing && s.Default == "" {
			off = max(off, AssumedLeast)
		}
		return off
	case sheet.Measured:
		return leaf.Spread.Half
	}
	return 0
}

// waits counts a verdict that cannot be given yet for what it waits for.
func (p *Plan) waits(byKey map[string]*next, c sheet.CheckResult) {
	for _, f := range c.Missing {
		n := byKey[f.Key]
		if n == nil {
			continue
		}
		n.waits = true
		n.Verdict++
		if p.count(n, c, 1); n.Check == c.Key {
			n.Why = fmt.Sprintf("“%s” cannot be judged without it.", p.checkName(c))
		}
		if n.Verdict > 1 {
			n.Why = fmt.Sprintf("%d verdicts wait for it, “%s” among them.", n.Verdict, p.nameOf(n.Check))
		}
	}
}

// Doubt is by how much the margin of a check can be off at the worst, inside, by all that
// is measured or assumed for it: the sum of each slope times what the figure can be off by.
func (p *Plan) Doubt(c sheet.CheckResult) float64 {
	_, byKey := p.askedFor()
	_, doubt := p.terms(byKey, c)
	return doubt
}

// term is how far one measurement can carry a margin.
type term struct {
	*next
	by float64
}

func (p *Plan) terms(byKey map[string]*next, c sheet.CheckResult) (all []term, doubt float64) {
	p.Result.Slopes(c.Margin.Key, sheet.Planned, func(leaf string, slope float64) {
		n := byKey[leaf]
		if n == nil || !(n.Half > 0) {
			return
		}
		by := math.Abs(slope) * n.Half
		all = append(all, term{n, by})
		doubt += by
	})
	return all, doubt
}

// turns counts a verdict that could be another for what could make it so.
func (p *Plan) turns(byKey map[string]*next, c sheet.CheckResult) {
	terms, doubt := p.terms(byKey, c)
	margin := math.Abs(c.Margin.Value)
	if doubt == 0 || doubt < margin {
		return
	}
	for _, t := range terms {
		share := t.by / doubt
		if share < nearShare {
			continue
		}
		alone, way := t.by >= margin, share
		if !alone {
			way *= t.by / margin
		}
		t.Verdict++
		if p.count(t.next, c, way); t.Check == c.Key && !t.waits {
			t.Why = p.why(t, c, alone, share)
		}
	}
}

// count adds a verdict to what a measurement could change, and names it where none
// counts more.
func (p *Plan) count(n *next, c sheet.CheckResult, way float64) {
	if c.Touched() && c.Was != c.Verdict || c.Worse {
		way *= planned
	}
	n.score += way
	if way > n.best {
		n.best, n.Check = way, c.Key
	}
}

// why says in a sentence what a measurement could turn.
func (p *Plan) why(t term, c sheet.CheckResult, alone bool, share float64) string {
	is := "Only assumed. "
	if t.Origin == sheet.Measured {
		is = fmt.Sprintf("Known to ± %s. ", t.within(p.Units))
	}
	other := sheet.Fails
	switch {
	case c.Margin.Value < 0:
		other = sheet.Holds
	case c.Advice && c.Verdict == sheet.Tight:
		other = sheet.Holds
	case c.Advice:
		other = sheet.Tight
	}
	turn := fmt.Sprintf("turn “%s” from %s to %s", p.checkName(c), c.Verdict, other)
	if alone {
		return is + "It could " + turn + "."
	}
	return is + fmt.Sprintf("With others it could %s: it makes %.0f %% of the doubt.", turn, 100*share)
}

// within is what a measurement can be off by, in its unit.
func (n *next) within(lengths unit.Unit) string {
	u := n.asked.Size.Unit
	if u.Dim == unit.LengthD {
		u = lengths
	}
	d := max(u.Decimals, int(math.Ceil(-math.Log10(n.Half/u.Scale)-1e-9))) // a spread is not rounded to nothing
	u.Decimals = min(d, 4)
	return u.With(n.Half)
}

// figuresWait lists what a shown figure, or where a stop lies, waits for, if nothing else named it.
func (p *Plan) figuresWait(byKey map[string]*next) {
	wait := func(figures []sheet.Figure, why string) {
		for _, f := range figures {
			if n := byKey[f.Key]; n != nil && n.score == 0 {
				n.score, n.Why = 1e-3, why
			}
		}
	}
	for _, l := range p.Layouts {
		for _, s := range l.Stops {
			if s.Unmeasured {
				wait(p.Result.Missing(l.Find(s.Key+".bound"), sheet.Found), "With more travel, "+s.Says+" sooner or later: where is not known.")
			}
		}
	}
	for _, f := range p.Result.Figures(sheet.Planned) {
		if !f.Quiet && !f.Known() {
			wait(p.Result.Missing(f.Key, sheet.Planned), fmt.Sprintf("The %s is not known without it.", f.Label))
		}
	}
}

// checkName is what a check is called, with its axis where there are several.
func (p *Plan) checkName(c sheet.CheckResult) string {
	if len(p.Layouts) < 2 {
		return c.Label
	}
	for _, l := range p.Layouts {
		if sheet.Local(c.Key, l.Key) != c.Key {
			return l.Label + ": " + lower(c.Label)
		}
	}
	return c.Label
}

func (p *Plan) nameOf(key string) string {
	for _, c := range p.Result.Checks() {
		if c.Key == key {
			return p.checkName(c)
		}
	}
	return key
}
