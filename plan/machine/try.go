package machine

import (
	"fmt"
	"maps"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// lay goes on from a plan on a branch of its sheet: nothing of the plan is laid out again, and nothing is worked out yet.
func (p *Plan) lay(u upgrade.Upgrade) laid {
	s := p.Result.Branch()
	l := p.Layouts[0].On(s.Root())
	with := &Plan{Machine: p.Machine, Units: p.Units, Layouts: []*axis.Layout{l}}
	for _, site := range p.Sites {
		with.Sites = append(with.Sites, site.On(l))
	}
	with.apply(s, u, nil)
	upgrade.Beside(with.Sites)
	return laid{with, s}
}

// with is a plan with an upgrade more.
func (p *Plan) with(u upgrade.Upgrade) (*Plan, error) { return p.lay(u).bound() }

// laid is a plan that is laid out and not worked out yet.
type laid struct {
	*Plan
	on *sheet.Sheet
}

func (l laid) bound() (*Plan, error) {
	var err error
	if l.Result, err = l.on.Bind(); err != nil {
		return nil, fmt.Errorf("try on %q: %w", l.Machine.Name, err)
	}
	return l.Plan, nil
}

// try is the plan of one axis with an upgrade made after all others; nil where it claims what another one has. Its ID
// is its own. A wish that is left open where nothing stands for it is given something: only what is known can be varied.
func (b *bench) try(p *Plan, u upgrade.Upgrade) (*Plan, error) {
	l := p.lay(u)
	if b.fight(l) {
		return nil, nil
	}
	return p.known(u, l)
}

// known is a plan with an upgrade more that is laid out, its wish given.
func (p *Plan) known(u upgrade.Upgrade, l laid) (*Plan, error) {
	with, err := l.bound()
	if err != nil {
		return nil, err
	}
	s := with.Site(u.ID)
	if s == nil || s.Wish() == "" || u.Inputs[s.Wish()] != "" {
		return with, nil
	}
	if f, ok := with.Result.Figure(s.Amount, sheet.Planned); !ok || f.Known() {
		return with, nil
	}
	open := u.Inputs
	u.Inputs = map[string]string{s.Wish(): typedAmount(s, s.Most/2)}
	maps.Copy(u.Inputs, open)
	return p.with(u)
}

// fight tells whether upgrades that are tried claim what another one has.
func (b *bench) fight(l laid) bool { return len(l.on.Conflicts()) > len(b.Result.Conflicts()) }

// claims are what others have of what is tried, the first of each.
func (b *bench) claims(l laid) (all []Claim) {
	for _, c := range l.on.Conflicts()[len(b.Result.Conflicts()):] {
		i := slices.IndexFunc(b.Sites, func(o *upgrade.Site) bool { return o.Author == c.First })
		if i >= 0 && !slices.ContainsFunc(all, func(o Claim) bool { return o.Author == c.First }) {
			all = append(all, Claim{b.Sites[i].ID, c.First, c.Label})
		}
	}
	return all
}
