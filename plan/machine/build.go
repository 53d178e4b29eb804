package machine

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
)

// Plan is a machine worked out: its sheet as found, now and planned, and each
// upgrade at its place in it.
type Plan struct {
	Machine  *Machine
	Units    unit.Unit // in which lengths are shown, and what a bare number is taken for
	Layouts  []*axis.Layout
	Sites    []*upgrade.Site // those that count, in order
	Result   *sheet.Result
	Problems []plan.Problem // of the measurements: what was typed that cannot be read
	Findings []string       // what does not agree, in sentences
	Advice   []string       // what follows from the owner's answers, in sentences
}

// LengthUnit is the unit that lengths are shown in.
func (m *Machine) LengthUnit() unit.Unit {
	if m.Units == "in" {
		return unit.Inch
	}
	return unit.MM
}

// Build works the machine out. Drafts do not count, but for the one whose ID is
// given as draft ("" for none), which counts as if it were planned, last. The
// error is a programming error; what a person got wrong is in Problems, here
// and at the sites.
func (m *Machine) Build(draft string) (*Plan, error) {
	p, err := m.build(draft, nil)
	if err != nil {
		return nil, err
	}
	// What was measured on a finished part replaces what was planned. Which
	// leaf that is follows from the part, and the part from the figures: a part
	// may be needed only because an earlier one came out as it did.
	made, n := p.measured()
	for known := 0; n != known && known <= mostMade; {
		known = max(n, known+1)
		if p, err = m.build(draft, made); err != nil {
			return nil, err
		}
		made, n = p.measured()
	}
	p.unmade(made)
	return p, nil
}

// mostMade is more sizes than anybody measures.
const mostMade = 1000

// measured are the sizes as made of each upgrade by its ID, and how many.
func (p *Plan) measured() (made map[string][]upgrade.MadeSize, n int) {
	made = map[string][]upgrade.MadeSize{}
	for _, s := range p.Sites {
		made[s.ID] = s.Measured(p.Result)
		n += len(made[s.ID])
	}
	return made, n
}

// unmade says which sizes as made are of no part that is needed.
func (p *Plan) unmade(made map[string][]upgrade.MadeSize) {
	for _, s := range p.Sites {
		for _, key := range slices.Sorted(maps.Keys(s.Made)) {
			if s.Made[key].Given() && !slices.ContainsFunc(made[s.ID], func(m upgrade.MadeSize) bool { return m.Key() == key }) {
				p.Findings = append(p.Findings, fmt.Sprintf("%s, %s: a size as made is kept (%s) that no part has now.", s.Layout.Label, lower(s.Kind.About().Label), key))
			}
		}
	}
}

// lower writes a label as it stands within a sentence: "Y axis" stays as it is.
func lower(s string) string {
	if len(s) < 2 || s[1] == ' ' {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

func (m *Machine) build(draft string, made map[string][]upgrade.MadeSize) (*Plan, error) {
	p := &Plan{Machine: m, Units: m.LengthUnit()}
	s := sheet.New()
	root := s.Root()
	for i := range m.Axes {
		a := &m.Axes[i]
		if !axis.IsKey(a.Key) || p.Layout(a.Key) != nil {
			p.Problems = append(p.Problems, plan.Problem{Field: a.Key + ".key", Say: fmt.Sprintf("%q cannot be its key, or is another axis's: give a word of a-z, 0-9 and _", a.Key)})
			continue
		}
		l := axis.Define(root, a, p.Units)
		p.Layouts = append(p.Layouts, l)
		p.Problems = append(p.Problems, l.Problems...)
		p.Findings = append(p.Findings, l.Findings...)
		for _, advice := range l.Advice {
			p.Advice = append(p.Advice, l.Label+": "+advice)
		}
	}
	s.Reached(sheet.Found)
	for _, u := range m.Upgrades {
		if u.State == upgrade.Finished {
			p.apply(s, u, made[u.ID])
		}
	}
	s.Reached(sheet.Now)
	for _, u := range m.Upgrades {
		if u.State == upgrade.Planned && u.ID != draft {
			p.apply(s, u, made[u.ID])
		}
	}
	for _, u := range m.Upgrades {
		if u.ID == draft && u.State != upgrade.Finished {
			p.apply(s, u, made[u.ID])
		}
	}
	upgrade.Beside(p.Sites)
	r, err := s.Bind()
	if err != nil {
		return nil, fmt.Errorf("work out %q: %w", m.Name, err)
	}
	p.Result = r
	p.Findings = append(p.Findings, p.disagreements()...)
	return p, nil
}

func (p *Plan) apply(s *sheet.Sheet, u upgrade.Upgrade, made []upgrade.MadeSize) {
	k, ok := upgrade.KindNamed(u.Kind)
	l := p.Layout(u.Axis)
	if !ok || l == nil || !k.Suits(l) || !axis.IsKey("upgrade_"+u.ID) || p.Site(u.ID) != nil {
		p.Findings = append(p.Findings, fmt.Sprintf("Upgrade %s (%s) cannot be made on %q.", u.ID, u.Kind, u.Axis))
		return
	}
	site := &upgrade.Site{Upgrade: u, Kind: k, Layout: l, Scope: l.Scope.In("upgrade_" + u.ID), Units: p.Units, Name: k.About().Label, Author: k.About().Label + ", " + l.Label}
	if k.About().Whole {
		site.Author = k.About().Label
	}
	if n := p.alike(u); n > 0 { // two of a kind on one axis can conflict, too
		again := fmt.Sprintf(" (%d)", n+1)
		site.Name, site.Author = site.Name+again, site.Author+again
	}
	s.Upgrade(site.Author)
	upgrade.Beside(append(p.Sites[:len(p.Sites):len(p.Sites)], site)) // what is finished before it is there already
	k.Apply(site)
	site.Settle(made)
	p.Sites = append(p.Sites, site)
}

// alike counts the upgrades of the same kind on the same axis so far.
func (p *Plan) alike(u upgrade.Upgrade) (n int) {
	for _, s := range p.Sites {
		if s.Upgrade.Kind == u.Kind && s.Axis == u.Axis {
			n++
		}
	}
	return n
}

// Layout is the axis with the key; nil where there is none.
func (p *Plan) Layout(key string) *axis.Layout {
	for _, l := range p.Layouts {
		if l.Key == key {
			return l
		}
	}
	return nil
}

// Site is the upgrade with the ID; nil where it is not part of the plan.
func (p *Plan) Site(id string) *upgrade.Site {
	for _, s := range p.Sites {
		if s.ID == id {
			return s
		}
	}
	return nil
}

// disagreements are the ends at which the travel as measured and the stops as
// measured do not agree, beyond what the measurements are uncertain by, and
// those at which there is nothing to agree with.
func (p *Plan) disagreements() []string {
	var say []string
	for _, l := range p.Layouts {
		for _, e := range []axis.End{axis.Plus, axis.Minus} {
			if l.Unexplained(e) {
				say = append(say, fmt.Sprintf("%s, %s: nothing that is measured stops it there. What does?", l.Label, l.EndName(e)))
			}
			key := l.Find("disagreement_" + string(e))
			f, ok := p.Result.Figure(key, sheet.Found)
			if !ok || !f.Known() || math.IsInf(f.Value, 0) {
				continue
			}
			within := max(0.05, p.Result.Uncertainty(key, sheet.Found).PlusMinus())
			agree, _ := p.Result.Figure(l.Find("agree_within"), sheet.Found)
			switch end := l.EndName(e); {
			case f.Value < -within:
				say = append(say, fmt.Sprintf("%s, %s: by the parts it stops %s before the end of the travel that was measured. One of the figures is wrong.", l.Label, end, p.Units.With(-f.Value)))
			case f.Value > max(within, agree.Value):
				say = append(say, fmt.Sprintf("%s, %s: no part that was measured stops it where it stops; the next one is %s further. Find out what does.", l.Label, end, p.Units.With(f.Value)))
			}
		}
	}
	return say
}
