package machine

import (
	"fmt"
	"math"

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
			p.apply(s, u)
		}
	}
	s.Reached(sheet.Now)
	for _, u := range m.Upgrades {
		if u.State == upgrade.Planned && u.ID != draft {
			p.apply(s, u)
		}
	}
	for _, u := range m.Upgrades {
		if u.ID == draft && u.State != upgrade.Finished {
			p.apply(s, u)
		}
	}
	r, err := s.Bind()
	if err != nil {
		return nil, fmt.Errorf("work out %q: %w", m.Name, err)
	}
	p.Result = r
	p.Findings = append(p.Findings, p.disagreements()...)
	return p, nil
}

func (p *Plan) apply(s *sheet.Sheet, u upgrade.Upgrade) {
	k, ok := upgrade.KindNamed(u.Kind)
	l := p.Layout(u.Axis)
	if !ok || l == nil || !k.Suits(l) || !axis.IsKey("upgrade_"+u.ID) || p.Site(u.ID) != nil {
		p.Findings = append(p.Findings, fmt.Sprintf("Upgrade %s (%s) cannot be made on %q.", u.ID, u.Kind, u.Axis))
		return
	}
	s.Upgrade(k.About().Label + ", " + l.Label)
	site := &upgrade.Site{Upgrade: u, Kind: k, Layout: l, Scope: l.Scope.In("upgrade_" + u.ID), Units: p.Units}
	k.Apply(site)
	p.Sites = append(p.Sites, site)
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
// measured do not agree, beyond what the measurements are uncertain by.
func (p *Plan) disagreements() []string {
	var say []string
	for _, l := range p.Layouts {
		for _, e := range []axis.End{axis.Plus, axis.Minus} {
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
