package machine

import (
	"cmp"
	"errors"
	"maps"
	"slices"
	"strconv"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// Wanted is a figure that is to come to a value, or go beyond it.
type Wanted struct {
	sheet.Goal
	To float64 // inside
}

// met tells whether a value is good enough.
func (w Wanted) met(v float64) bool {
	if w.Less {
		return v <= w.To+nearly
	}
	return v >= w.To-nearly
}

const nearly = 1e-6

// Way is a set of upgrades that brings a figure to what is wanted.
type Way struct {
	Upgrades []upgrade.Upgrade // in the order in which they are made, as drafts could begin
	Says     []string          // which way of making each it is; "" for the only one
	Is       float64           // what the figure comes to, inside
	Goal     sheet.Figure
	AtMost   bool // something that matters is not measured
	Hours    [2]float64
	Risk     upgrade.Risk
	Undo     upgrade.Undo
	Tight    []sheet.CheckResult // what only just holds
	Missing  []sheet.Figure      // what is to be measured to be sure

	gain float64 // how much nearer it comes than nothing does, inside
}

// Search is what a search for ways came to.
type Search struct {
	Ways    []Way
	Nearest *Way         // where no way is found: the set that comes nearest to it, if one does better than none
	Goal    sheet.Figure // as it is planned without them
	Tried   int          // sets of upgrades that were built
	Kinds   int          // ways of making one that can reach the goal at all
	Met     bool         // it is there already
}

// mostTogether is how many upgrades are put together to reach a goal.
const mostTogether = 3

// Ways looks for the sets of at most three upgrades that bring a figure to
// what is wanted, fewest hours first. A set that holds another one that does it
// is not listed. Kinds that change nothing on which the figure, or what stops
// another kind, depends are left out before any two are put together.
func (m *Machine) Ways(w Wanted) (Search, error) {
	at := slices.IndexFunc(m.Axes, func(a axis.Axis) bool { return strings.HasPrefix(w.Key, a.Key+".") })
	if at < 0 {
		return Search{}, nil
	}
	b, err := m.bench(at)
	if err != nil || b == nil {
		return Search{}, err
	}
	var out Search
	out.Goal, _ = b.Result.Figure(w.Key, sheet.Planned)
	if out.Goal.Known() && w.met(out.Goal.Value) {
		out.Met = true
		return out, nil
	}
	able, err := b.able(w)
	if err != nil {
		return out, err
	}
	out.Kinds = len(able)
	var most float64
	for n := 1; n <= mostTogether; n++ {
		var runs [][][]*candidate // of sets that differ in the last alone: the others are laid out once
		for set := range together(able, n) {
			if slices.ContainsFunc(out.Ways, func(way Way) bool { return within(way, set) }) {
				continue
			}
			out.Tried++
			if last := len(runs) - 1; n > 1 && last >= 0 && slices.Equal(runs[last][0][:n-1], set[:n-1]) {
				runs[last] = append(runs[last], set)
			} else {
				runs = append(runs, [][]*candidate{set})
			}
		}
		found, faults := make([][]Way, len(runs)), make([]error, len(runs))
		each(len(runs), func(i int) { found[i], faults[i] = b.run(w, runs[i], most) })
		if err := errors.Join(faults...); err != nil {
			return out, err
		}
		for _, way := range slices.Concat(found...) {
			switch {
			case w.met(way.Is):
				out.Ways, out.Nearest = append(out.Ways, way), nil
			case len(out.Ways) == 0 && way.gain > most+nearly:
				out.Nearest, most = &way, way.gain
			}
		}
	}
	slices.SortStableFunc(out.Ways, func(a, b Way) int {
		return cmp.Or(cmp.Compare(truth(a.AtMost), truth(b.AtMost)), cmp.Compare(a.Hours[0]+a.Hours[1], b.Hours[0]+b.Hours[1]), cmp.Compare(a.Risk, b.Risk), cmp.Compare(a.Undo, b.Undo))
	})
	return out, nil
}

func truth(b bool) int {
	if b {
		return 1
	}
	return 0
}

// candidate is one way of making an upgrade.
type candidate struct {
	kind  upgrade.Kind
	about upgrade.About
	trial upgrade.Trial
	moves bool     // it moves the goal by itself
	stops []string // keys of what stops it
	frees []string // keys of the checks that it bears on
}

// able are the kinds that bear on what stops one that moves the goal, and after
// them those that do.
func (b *bench) able(w Wanted) ([]candidate, error) {
	var all []candidate
	for _, k := range upgrade.Kinds {
		if a := k.About(); !a.Guided && k.Suits(b.layout) {
			for _, t := range k.Trials(b.layout) {
				all = append(all, candidate{kind: k, about: a, trial: t})
			}
		}
	}
	faults := make([]error, len(all))
	each(len(all), func(i int) { faults[i] = b.bears(&all[i], w) })
	for _, err := range faults {
		if err != nil {
			return nil, err
		}
	}
	stops := map[string]bool{}
	for _, c := range all {
		if c.moves {
			for _, key := range c.stops {
				stops[key] = true
			}
		}
	}
	all = slices.DeleteFunc(all, func(c candidate) bool {
		return !c.moves && !slices.ContainsFunc(c.frees, func(key string) bool { return stops[key] })
	})
	slices.SortStableFunc(all, func(a, c candidate) int { return cmp.Compare(truth(a.moves), truth(c.moves)) })
	return all, nil
}

// bears finds what a candidate moves, what stops it, and what checks depend on it.
func (b *bench) bears(c *candidate, w Wanted) error {
	p, err := b.try(b.Plan, c.draft(b, trialID, nil))
	if err != nil || p == nil {
		return err
	}
	s := p.Site(trialID)
	if s == nil {
		return nil
	}
	if s.Wish() != "" && c.trial.Inputs[s.Wish()] == "" { // as far as it is looked for: what it meets on the way is what stops it
		for _, l := range p.Result.HowFar(s.Amount, w.Goal, s.Most).Limits {
			if l.Level != sheet.Use && !l.Advice && !l.AsFound {
				c.stops = append(c.stops, l.Key)
			}
		}
		p.Result.Try(s.Amount, s.Most/2)
	}
	follows := p.Result.FollowsFrom(s.Author)
	c.moves = follows(w.Key)
	failing := p.Result.ChecksWhere(func(key string, v sheet.Verdict) bool {
		if follows(key + ".margin") {
			c.frees = append(c.frees, key)
		}
		return v == sheet.Fails
	})
	for _, k := range failing {
		if k.Charged() {
			c.stops = append(c.stops, k.Key)
		}
	}
	return nil
}

func (c *candidate) draft(b *bench, id string, inputs map[string]string) upgrade.Upgrade {
	all := maps.Clone(c.trial.Inputs)
	if all == nil {
		all = map[string]string{}
	}
	maps.Copy(all, inputs)
	return upgrade.Upgrade{ID: id, Kind: c.about.Key, Axis: b.layout.Key, State: upgrade.Planned, Inputs: all}
}

// together gives every set of n candidates, no kind twice in one, of which one
// at least moves the goal and every other one moves it too or bears on what
// stops one. Those of one beginning come one after the other.
func together(all []candidate, n int) func(yield func([]*candidate) bool) {
	return func(yield func([]*candidate) bool) {
		set := make([]*candidate, 0, n)
		var pick func(from int) bool
		pick = func(from int) bool {
			if len(set) == n {
				return !sensible(set) || yield(slices.Clone(set))
			}
			for i := from; i < len(all); i++ {
				if slices.ContainsFunc(set, func(c *candidate) bool { return c.about.Key == all[i].about.Key }) {
					continue
				}
				set = append(set, &all[i])
				more := pick(i + 1)
				set = set[:len(set)-1]
				if !more {
					return false
				}
			}
			return true
		}
		pick(0)
	}
}

func sensible(set []*candidate) bool {
	moves := false
	for i, c := range set {
		moves = moves || c.moves
		helps := c.moves
		for j, o := range set {
			helps = helps || i != j && o.moves && slices.ContainsFunc(c.frees, func(key string) bool { return slices.Contains(o.stops, key) })
		}
		if !helps {
			return false
		}
	}
	return moves
}

// within tells whether all of a way is in a set.
func within(way Way, set []*candidate) bool {
	for i, u := range way.Upgrades {
		if !slices.ContainsFunc(set, func(c *candidate) bool { return c.about.Key == u.Kind && c.trial.Says == way.Says[i] }) {
			return false
		}
	}
	return true
}

// run finds, among sets that differ in the last alone, the ways and what gains more than most.
func (b *bench) run(w Wanted, sets [][]*candidate, most float64) ([]Way, error) {
	var found []Way
	first, last := b.Plan, len(sets[0])-1
	var err error
	for i, c := range sets[0][:last] {
		if first, err = b.try(first, c.draft(b, idOf(i), nil)); err != nil || first == nil {
			return nil, err
		}
	}
	for _, set := range sets {
		p, err := b.try(first, set[last].draft(b, idOf(last), nil))
		if err != nil {
			return nil, err
		}
		if p == nil {
			continue
		}
		if way := b.way(w, set, p, most); way != nil {
			found = append(found, *way)
			if !w.met(way.Is) {
				most = way.gain
			}
		}
	}
	return found, nil
}

// idOf is the ID of one of several that are tried together.
func idOf(i int) string { return trialID[:len(trialID)-1] + strconv.Itoa(i) }

// way takes a set that is put together, those that only help before those that
// move the goal, as far as everything holds, and the last one no further than
// is wanted. It is nil where that is neither enough nor more than most.
func (b *bench) way(w Wanted, set []*candidate, p *Plan, most float64) *Way {
	us := make([]upgrade.Upgrade, len(set))
	out := &Way{Undo: upgrade.Undone}
	for i, c := range set {
		us[i] = c.draft(b, idOf(i), nil)
		out.Says = append(out.Says, c.trial.Says)
		out.Hours[0], out.Hours[1] = out.Hours[0]+c.about.Hours[0], out.Hours[1]+c.about.Hours[1]
		out.Risk, out.Undo = max(out.Risk, c.about.Risk), max(out.Undo, c.about.Undo)
	}
	r := p.Result
	var last *upgrade.Site
	for i := range us {
		s := p.Site(us[i].ID)
		if s == nil {
			return nil
		}
		wish := s.Wish()
		if wish == "" || us[i].Inputs[wish] != "" {
			continue
		}
		if _, _, ok := p.farthest(s, w.Goal, nil); !ok {
			continue // nothing can be had of it yet; the checks tell in the end
		}
		out.AtMost = out.AtMost || r.HowFar(s.Amount, w.Goal, s.Most).AtMost
		last = s
	}
	is, gain := b.comesTo(w, p)
	switch {
	case w.met(is) && last != nil:
		p.least(last, w.Goal, func() bool { is, gain = b.comesTo(w, p); return w.met(is) })
		is, gain = b.comesTo(w, p)
	case !w.met(is) && !(gain > most+nearly): // NaN too
		return nil
	}
	for i := range us {
		if s := p.Site(us[i].ID); s.Wish() != "" && us[i].Inputs[s.Wish()] == "" {
			amount := r.Value(s.Amount, sheet.Planned)
			if !(amount >= stepOf(s)) {
				return nil // it does nothing here: the others do it without it, or not at all
			}
			us[i].Inputs[s.Wish()] = typedAmount(s, amount)
		}
		us[i].State = upgrade.Draft
	}
	var g Gain
	b.tell(&g, p, w.Goal)
	if g.stopped() {
		return nil
	}
	out.Upgrades, out.Is, out.Goal, out.Tight, out.Missing = us, is, g.Goal, g.Tight, g.Missing
	out.AtMost, out.gain = out.AtMost || g.AtMost, gain
	return out
}

// comesTo is what is wanted as p has it, and how much nearer that is than without the upgrades that are tried.
func (b *bench) comesTo(w Wanted, p *Plan) (is, gain float64) {
	before, _ := b.Result.Figure(w.Key, sheet.Planned)
	f, _ := p.Result.Figure(w.Key, sheet.Planned)
	was, is := sheet.Compare(before, f)
	if w.Less {
		return is, was - is
	}
	return is, is - was
}
