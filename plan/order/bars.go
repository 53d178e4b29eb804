package order

import (
	"cmp"
	"fmt"
	"slices"

	"fettle/plan/material"
	"fettle/plan/unit"
)

// Group is one kind of bar, and which blank comes out of which.
type Group struct {
	Key      string // "c45 round 22"
	Material material.Material
	Section  Section
	Blanks   []Blank
	Nest     Nest
	Mass     float64 // of the bar to buy, inside
	Notes    []string
}

// Bars nests the blanks of each material and section on bars. A blank with a
// problem is left out. It returns [ErrCutting] for a kerf or a bar that cannot be.
func Bars(blanks []Blank, w Workshop) ([]Group, error) {
	var groups []Group
	for _, b := range blanks {
		if b.Problem != "" {
			continue
		}
		key := b.Material.Key + " " + b.Section.String()
		i := slices.IndexFunc(groups, func(g Group) bool { return g.Key == key })
		if i < 0 {
			i = len(groups)
			groups = append(groups, Group{Key: key, Material: b.Material, Section: b.Section})
		}
		groups[i].Blanks = append(groups[i].Blanks, b)
	}
	slices.SortFunc(groups, func(a, b Group) int {
		return cmp.Or(cmp.Compare(a.Material.Key, b.Material.Key), cmp.Compare(a.Section.Form, b.Section.Form),
			cmp.Compare(a.Section.Across, b.Section.Across), cmp.Compare(a.Section.Second, b.Section.Second))
	})
	offcuts := w.offcuts(groups)
	for i := range groups {
		g := &groups[i]
		c := Cutting{Kerf: cmp.Or(w.Kerf, Kerf), Bars: w.bars(g.Key), Effort: w.Effort, Offcuts: offcuts[i]}
		var pieces []Piece
		for _, b := range g.Blanks {
			for n := range b.Count {
				label := b.Label
				if b.Count > 1 {
					label = fmt.Sprintf("%s, %d of %d", b.Label, n+1, b.Count)
				}
				pieces = append(pieces, Piece{Key: b.Key, Label: label, Length: b.Length})
			}
		}
		var err error
		if g.Nest, err = MakeNest(pieces, c); err != nil {
			return nil, fmt.Errorf("%s: %w", g.Key, err)
		}
		if g.Nest.Bought > 0 {
			g.Mass = mass(g.Material, g.Section, g.Nest.Bought)
		}
		for _, p := range g.Nest.Unplaced {
			g.Notes = append(g.Notes, fmt.Sprintf("%s needs %s, and no bar here is as long", p.Label, unit.MM.With(p.Length)))
		}
	}
	return groups, nil
}

// least is what a bar of the group has to be for all of its blanks.
func (g Group) least() (l least) {
	for _, b := range g.Blanks {
		l.form = b.least.form
		l.across, l.second = max(l.across, b.least.across), max(l.second, b.least.second)
	}
	return l
}

// offcuts gives each piece of bar that the owner has to the group that makes
// the most of it: the one with the largest section that it is enough for.
func (w Workshop) offcuts(groups []Group) [][]Offcut {
	given := make([][]Offcut, len(groups))
	for _, o := range w.Owned {
		if !possible(o.Length) {
			continue
		}
		best := -1
		for i, g := range groups {
			if g.Material.Key == o.Material && g.least().takes(o.Form, o.Across, o.Second) &&
				(best < 0 || area(g.least()) > area(groups[best].least())) {
				best = i
			}
		}
		if best >= 0 {
			given[best] = append(given[best], Offcut{Key: o.Key, Label: o.Label, Length: o.Length})
		}
	}
	return given
}

// area orders sections; it is no figure that anybody sees.
func area(l least) float64 {
	if l.form == "round" {
		return l.across * l.across
	}
	return l.across * l.second
}
