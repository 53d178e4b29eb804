package axis

import (
	"fmt"

	"fettle/plan/unit"
)

// Asked is one figure that the measuring sheet of an axis asks for.
type Asked struct {
	Key   string // of its figure, within the axis: "bracket.length", "splash_tray.gap_left"
	Field string // of its entry: "bracket.length", "splash_tray.gap"
	Label string // "bracket length"
	Size  Size
}

// Asked lists the figures that the sheet asks for and that are on the sheet: those of the
// axis itself, of its parts in order, and the gaps to what may be met.
func (l *Layout) Asked() []Asked {
	var all []Asked
	add := func(owner, key, field string, s Size) {
		if !l.Scope.Has(key) {
			return
		}
		if _, is := l.Scope.Leaf(key); is {
			all = append(all, Asked{Key: key, Field: field, Label: owner + s.Label, Size: s})
		}
	}
	for _, s := range append(l.Arr.Sizes[:len(l.Arr.Sizes):len(l.Arr.Sizes)], l.Capacity.Sizes...) {
		add("", s.Key, s.Key, s)
	}
	for _, p := range l.Parts {
		for _, s := range l.Asks(p) {
			field := p.Key + "." + s.Key
			if !s.List {
				add(p.Label+" ", field, field, s)
				continue
			}
			for i := 1; l.Scope.Has(fmt.Sprintf("%s.gib_screw_%d", p.Key, i)); i++ {
				add(p.Label+" ", fmt.Sprintf("%s.gib_screw_%d", p.Key, i), field, s)
			}
		}
	}
	for _, o := range l.Obstacles {
		s := l.AsksGap()
		s.Label = "gap to the " + o.Label
		add("", o.Key+".gap_left", o.Key+".gap", s)
	}
	return all
}

// AsksGap is what is asked of anything that may be met at an end.
func (a *Axis) AsksGap() Size {
	return Size{Key: "gap", Label: "gap that is left at the end of the travel", Unit: unit.MM, Least: NothingOrMore, With: "rule",
		How: "bring the " + a.Moves() + " right to that end, and measure what is still free"}
}
