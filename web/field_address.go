package web

import (
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/sheet"
)

// fieldURL is the place on a measuring sheet where a figure is typed, by its key in the sheet or by the
// field of a problem.
func (o opened) fieldURL(key string) string {
	if a, local := o.axisOf(key); a != nil {
		return axisURL(o.stored.ID, a.Key) + "#" + anchor(local)
	}
	return machineURL(o.stored.ID)
}

// axisOf is the axis that a key belongs to, and the key within it.
func (o opened) axisOf(key string) (a *axis.Axis, local string) {
	for i := range o.Plan.Machine.Axes {
		a := &o.Plan.Machine.Axes[i]
		if local := sheet.Local(key, a.Key); local != key {
			return a, local
		}
	}
	return nil, key
}

// anchor is the id of the field in which a figure of an axis is typed.
func anchor(local string) string {
	if obstacle, ok := strings.CutSuffix(local, ".gap_left"); ok {
		return obstacle + ".gap"
	}
	if slide, _, ok := strings.Cut(local, ".gib_screw_"); ok {
		return slide + ".gib_screws"
	}
	return local
}

// parent is a key without its last word.
func parent(key string) string { return key[:max(0, strings.LastIndex(key, "."))] }

// fieldNamed is what the field of an axis is called; "" where its sheet has no such field.
func (o opened) fieldNamed(a *axis.Axis, field string) string {
	named := func(s axis.Size) bool { return s.Key == field[strings.LastIndex(field, ".")+1:] }
	if own := ownSizes(*a); !strings.Contains(field, ".") && slices.ContainsFunc(own, named) {
		return own[slices.IndexFunc(own, named)].Label
	}
	for _, p := range a.Parts {
		word := sheet.Local(field, p.Key)
		sizes := p.Sizes()
		switch i := slices.IndexFunc(sizes, named); {
		case parent(field) != p.Key:
		case i >= 0:
			return p.Label + " " + sizes[i].Label
		case partWordNames[word] != "":
			return p.Label + ", " + partWordNames[word]
		}
	}
	for _, b := range a.Obstructions() {
		if field == b.Key+".gap" {
			return "gap to the " + b.Label
		}
	}
	if l := o.Layout(a.Key); l != nil {
		for _, t := range l.Thresholds() {
			if t.Key == field {
				return t.Label
			}
		}
	}
	return axisWordNames[field]
}

// partWordNames and axisWordNames are what the fields are called that hold no figure.
var (
	partWordNames = map[string]string{"role": "what it is", "tie": "where it lies", "key": "its name"}
	axisWordNames = map[string]string{"arrangement": "how it is driven", "capacity": "what its travel decides", "key": "its name"}
)

// fieldLabel names the figure that a problem is about. With several axes it says of which.
func (o opened) fieldLabel(field string) string {
	a, local := o.axisOf(field)
	if a == nil {
		return field
	}
	before, after := "", ""
	if len(o.Plan.Machine.Axes) > 1 {
		before = a.Label + ": "
	}
	if of, ok := strings.CutSuffix(local, ".spread"); ok {
		local, after = of, ", plus or minus"
	}
	if label := o.fieldNamed(a, anchor(local)); label != "" {
		return before + label + after
	}
	if f, ok := o.Result.Figure(a.Key+"."+local, sheet.Found); ok {
		return before + f.Label + after
	}
	return a.Label
}
