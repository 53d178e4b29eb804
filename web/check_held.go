package web

import (
	"math"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/web/ui"
)

// held explains what a figure is held against, and leads to where that can be changed.
func (o opened) held(c sheet.CheckResult) *ui.Held {
	e, ok := o.Result.Explain(c.Limit.Key, sheet.Planned)
	if !ok {
		return nil
	}
	least := "at least "
	if c.AtMost {
		least = "at most "
	}
	limit := in(o.Units, c.Limit).Text(math.NaN())
	h := &ui.Held{Say: []string{"Limit: " + least + limit + ", " + lowered(c.Limit.Label) + "."}}
	if e.Formula != "" {
		h.Formula, h.Numbers = e.Symbol+" = "+e.Formula, e.Symbol+" = "+e.Numbers+" = "+limit
		h.Source = e.Source
	} else {
		h.Say = append(h.Say, origin(e.Figure)...)
	}
	h.Near = "Tight only where it just touches."
	if c.Near.Key != "" {
		say := "Tight within " + in(o.Units, c.Near).Text(math.NaN()) + " of it."
		for _, why := range append(origin(c.Near), c.Near.Source) {
			if why != "" {
				say += " " + sentence(why)
			}
		}
		h.Near = say
	}
	h.Change = o.changes(c.Limit.Key, c.Near.Key)
	return h
}

// changes leads to the fields in which what some figures rest on can be changed: thresholds, and what was chosen or
// assumed. What was measured is as it is.
func (o opened) changes(keys ...string) []ui.Link {
	var links []ui.Link
	seen := map[string]bool{"": true}
	for len(keys) > 0 {
		key := keys[0]
		keys = keys[1:]
		if seen[key] {
			continue
		}
		seen[key] = true
		e, ok := o.Result.Explain(key, sheet.Planned)
		if !ok {
			continue
		}
		decided := e.Origin == sheet.Chosen || e.Origin == sheet.Assumed
		if a, local := o.axisOf(key); a != nil && (o.isThreshold(a, local) || decided && o.fieldNamed(a, local) != "") {
			links = append(links, ui.Link{Text: "Change: " + lowered(e.Label) + ", " + in(o.Units, e.Figure).Text(math.NaN()), Href: o.fieldURL(key)})
		}
		for _, input := range e.Inputs {
			keys = append(keys, input.Key)
		}
	}
	return links
}

func (o opened) isThreshold(a *axis.Axis, local string) bool {
	l := o.Layout(a.Key)
	return l != nil && slices.ContainsFunc(l.Thresholds(), func(t axis.Threshold) bool { return t.Key == local })
}
