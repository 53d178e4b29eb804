package machine

import (
	"maps"
	"math"
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// Offer is an upgrade that a machine could have next, after what is planned
// already, and what it would gain there.
type Offer struct {
	Kind  upgrade.Kind
	About upgrade.About
	Axis  *axis.Axis // where it would be made; of a kind of the whole machine, where it is kept
	Trial upgrade.Trial
	Gain
}

// Told is what can be said of a gain.
type Told int

// What can be said of it.
const (
	Guided     Told = iota + 1 // the kind tells how, and has no figure that it betters
	Gains                      // the figure gets better
	Nothing                    // it does not, or gets worse
	Unmeasured                 // it cannot be told yet
	Impossible                 // it does not hold here at all
	Taken                      // an upgrade that is planned has what it takes
)

// Gain is what comes of the figure that an upgrade is for.
type Gain struct {
	Told    Told
	Goal    sheet.Figure        // as it would be; the zero Figure where there is none
	Less    bool                // the smaller the better
	Was, Is float64             // inside, compared as [sheet.Compare] does; NaN where there is no such value
	AtMost  bool                // something that matters is not measured
	New     bool                // there was no such figure before
	Inputs  map[string]string   // what it was tried with, as a draft could begin with
	Missing []sheet.Figure      // what is to be measured before it can be told, or to be sure
	Stops   []sheet.CheckResult // what does not hold where nothing can be had
	Tight   []sheet.CheckResult // what only just holds
	Taken   []Claim             // what others have that it takes, one of each
	Knocks  int                 // figures that follow and are shown
}

// Claim is what an upgrade that is planned has alone.
type Claim struct {
	Upgrade string // ID
	Author  string // what the upgrade is signed with: "New dial, Cross slide"
	Label   string // of what it has: "the dial"
}

// Better is by how much it is better, inside; NaN where that is not known.
func (g Gain) Better() float64 {
	if g.Less {
		return g.Was - g.Is
	}
	return g.Is - g.Was
}

// PerHour is the gain for an hour of a practised owner's work, inside; NaN where
// there is none. It compares upgrades that are for one figure, and no others.
func (o Offer) PerHour() float64 {
	if o.Told != Gains || o.New {
		return math.NaN()
	}
	return o.Better() / ((o.About.Hours[0] + o.About.Hours[1]) / 2)
}

// trialID is the ID of an upgrade that is only tried. No upgrade of an owner has it.
const trialID = "999999999"

// bench is one axis of a machine on a sheet of its own, on which upgrades are
// tried: what is planned on it counts, what is planned elsewhere does not reach it.
type bench struct {
	machine Machine // with that axis alone
	*Plan
	layout *axis.Layout
	before map[string]sheet.Verdict // of each check, without what is tried
}

// alone is the machine with one axis, and what is planned or finished on it.
func (m *Machine) alone(at int) Machine {
	only := Machine{Name: m.Name, Kind: m.Kind, Units: m.Units, Axes: m.Axes[at : at+1]}
	for _, u := range m.Upgrades {
		if u.Axis == m.Axes[at].Key && u.State != upgrade.Draft {
			only.Upgrades = append(only.Upgrades, u)
		}
	}
	return only
}

// bench is nil where the axis cannot be laid out.
func (m *Machine) bench(at int) (*bench, error) {
	b := &bench{machine: m.alone(at)}
	var err error
	if b.Plan, err = b.machine.Build(""); err != nil || len(b.Layouts) == 0 || b.Layouts[0].Arr.Key == "" {
		return nil, err
	}
	b.layout = b.Layouts[0]
	b.before = map[string]sheet.Verdict{}
	for _, c := range b.Result.Checks() {
		b.before[c.Key] = c.Verdict
	}
	return b, nil
}

func (b *bench) gain(k upgrade.Kind, t upgrade.Trial) (Gain, error) {
	g := Gain{Told: Guided, Inputs: maps.Clone(t.Inputs), Was: math.NaN(), Is: math.NaN()}
	if g.Inputs == nil {
		g.Inputs = map[string]string{}
	}
	u := upgrade.Upgrade{ID: trialID, Kind: k.About().Key, Axis: b.layout.Key, State: upgrade.Planned, Inputs: g.Inputs}
	if k.About().Guided { // it has no figure that it betters
		if len(b.Sites) == 0 {
			return g, nil
		}
		u.Inputs = map[string]string{upgrade.Decided: "yes"}
		if l := b.lay(u); b.fight(l) {
			g.Told, g.Taken = Taken, b.claims(l)
		}
		return g, nil
	}
	l := b.lay(u)
	p, err := b.known(u, l)
	if err != nil {
		return g, err
	}
	s := p.Site(trialID)
	if s == nil || len(s.Goals) == 0 {
		return g, nil
	}
	goal := s.Goals[0]
	g.Less = goal.Less
	if b.fight(l) {
		g.Told, g.Taken = Taken, b.claims(l)
		g.Goal, _ = p.Result.Figure(goal.Key, sheet.Planned)
		return g, nil
	}
	reached := true
	if wish := s.Wish(); wish != "" && g.Inputs[wish] == "" {
		reach := p.Result.HowFar(s.Amount, goal, s.Most)
		g.AtMost = reach.AtMost
		if _, amount, ok := p.farthest(s, goal, nil); ok {
			g.Inputs[wish] = typedAmount(s, amount)
		} else { // the smallest amount shows what stands in the way
			reached = false
			p.Result.Try(s.Amount, math.Max(reach.From, stepOf(s)))
			delete(g.Inputs, wish)
		}
	}
	b.tell(&g, p, goal)
	g.stood(p, s)
	switch {
	case reached:
	case len(g.Stops) > 0:
		g.Told = Impossible
	default: // what it asks for first is not given
		g.Told = Unmeasured
	}
	return g, nil
}

// tell compares the goal with what it is without the upgrade.
func (b *bench) tell(g *Gain, p *Plan, goal sheet.Goal) {
	r := p.Result
	is, _ := r.Figure(goal.Key, sheet.Planned)
	was, had := b.Result.Figure(goal.Key, sheet.Planned)
	before, at := b.Result, sheet.Planned
	if !had { // a figure that the kind brings along
		before, at = r, sheet.Found
		if was, had = r.Figure(goal.Key, at); !had {
			g.New = true
		}
	}
	unknown := had && is.Known() && !was.Known()
	if unknown {
		g.lacks(before.Missing(goal.Key, at))
	}
	g.Goal = is
	if had {
		g.Was, g.Is = sheet.Compare(was, is)
	} else {
		g.Is = is.Value
	}
	for _, c := range r.ChecksWhere(func(key string, v sheet.Verdict) bool { return v != sheet.Holds && v != b.before[key] }) {
		switch {
		case c.Charged():
			g.Stops = append(g.Stops, c)
		case c.Verdict == sheet.Tight:
			g.Tight = append(g.Tight, c)
		case c.Verdict == sheet.Unmeasured:
			g.AtMost = true
			g.lacks(c.Missing)
		}
	}
	if !is.Known() {
		g.lacks(r.Missing(goal.Key, sheet.Planned))
		g.AtMost = true
	}
	g.Knocks = r.Moved()
	better := g.Better()
	nearly := g.Goal.Unit.Step() / 2
	switch {
	case len(g.Stops) > 0 && g.stopped():
		g.Told = Impossible
	case unknown || math.IsNaN(g.Is) || math.IsInf(g.Is, 0) || !g.New && math.IsNaN(better):
		g.Told = Unmeasured
	case g.New, better > nearly:
		g.Told = Gains
	default:
		g.Told = Nothing
	}
}

// stood compares a figure that the kind brings along with what it was before,
// where the kind could say that.
func (g *Gain) stood(p *Plan, s *upgrade.Site) {
	was, ok := p.Result.Figure(s.Scope.Key("stood"), sheet.Planned)
	if !g.New || !ok {
		return
	}
	g.New = false
	g.Was, g.Is = sheet.Compare(was, g.Goal)
	if !was.Known() {
		g.lacks(p.Result.Missing(was.Key, sheet.Planned))
	}
	if g.Told != Gains {
		return
	}
	switch better := g.Better(); {
	case math.IsNaN(better), !was.Known():
		g.Told, g.Is = Unmeasured, g.Goal.Value
	case better <= g.Goal.Unit.Step()/2:
		g.Told = Nothing
	}
}

// stopped tells whether anything but the want of a gain stands in the way.
func (g *Gain) stopped() bool {
	return slices.ContainsFunc(g.Stops, func(c sheet.CheckResult) bool { return !strings.HasSuffix(c.Key, ".better_check") })
}

func (g *Gain) lacks(figures []sheet.Figure) {
	for _, f := range figures {
		if !slices.ContainsFunc(g.Missing, func(o sheet.Figure) bool { return o.Key == f.Key }) {
			g.Missing = append(g.Missing, f)
		}
	}
}
