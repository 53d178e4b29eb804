package machine

import (
	"math"
	"slices"
	"strings"

	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
)

// Follows is what came of the sizes as made of an upgrade, beside the same plan
// in which nothing of it had been measured yet.
type Follows struct {
	Came    []Came   // sizes that are not what was planned, in the order in which the parts are made
	Sizes   []Resize // sizes still to be made that are another now
	Figures []Shift  // figures of the sheet that are another now
}

// Came is a size as made, and by how much it missed what was planned.
type Came struct {
	upgrade.AsMade
	Off float64 // mm, or degrees of an angle: above nothing where it came out larger
}

// Resize is a size of a part still to be made that follows from one as made.
type Resize struct {
	Part, Label string // of the part: its key, and what it is called
	Size        part.Size
	Was         float64 // mm, or degrees of an angle
}

// Shift is a figure that follows from a size as made.
type Shift struct{ Was, Now sheet.Figure }

// Follows tells what the sizes as made of an upgrade of the plan have changed.
// draft is as it was for [Machine.Build].
func (m *Machine) Follows(p *Plan, id, draft string) (f Follows, err error) {
	site := p.Site(id)
	if site == nil {
		return f, nil
	}
	for _, a := range site.AsMade(p.Result) {
		if off := a.Size.AsMade.Value - a.Nominal; math.Abs(off) > seen {
			f.Came = append(f.Came, Came{a, off})
		}
	}
	if len(site.Made) == 0 {
		return f, nil
	}
	before := *m
	before.Upgrades = slices.Clone(m.Upgrades)
	for i := range before.Upgrades {
		if before.Upgrades[i].ID == id {
			before.Upgrades[i].Made = nil
		}
	}
	was, err := before.Build(draft)
	if err != nil {
		return f, err
	}
	f.sizes(was.Site(id).Make(was.Result), site.Make(p.Result))
	f.figures(was.Result, p.Result)
	return f, nil
}

// seen is a difference in mm that is one.
const seen = 0.0005

func (f *Follows) sizes(was, now upgrade.Make) {
	for i := range now.Parts {
		p := &now.Parts[i]
		old, ok := was.Part(p.Key)
		if !ok {
			continue
		}
		before := old.Measured()
		for _, s := range p.Measured() {
			j := slices.IndexFunc(before, func(o *part.Size) bool { return o.Name == s.Name })
			if j >= 0 && s.AsMade == nil && math.Abs(s.Nominal-before[j].Nominal) > seen {
				f.Sizes = append(f.Sizes, Resize{p.Key, p.Label, *s, before[j].Nominal})
			}
		}
	}
}

// figures are those that would be shown as knock-ons; a position that only goes
// along with another is quiet.
func (f *Follows) figures(was, now *sheet.Result) {
	for _, n := range now.Figures(sheet.Planned) {
		o, ok := was.Figure(n.Key, sheet.Planned)
		if !ok || n.Quiet || n.Unit.Dim != unit.LengthD || strings.Contains(n.Key, ".made.") || !n.Known() || !o.Known() {
			continue
		}
		if d := math.Abs(n.Value - o.Value); d > seen && !math.IsInf(d, 0) {
			f.Figures = append(f.Figures, Shift{o, n})
		}
	}
}
