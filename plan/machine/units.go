package machine

import (
	"maps"
	"slices"
	"strings"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/unit"
)

// In is the machine with its lengths shown in the other units, "mm" or "in". Every figure stays what it
// is: a number that was typed without a unit gets the one that it was taken for.
func (m Machine) In(units string) Machine {
	if units == m.Units {
		return m
	}
	suffix := " " + m.LengthUnit().Symbol
	plans := m.everyPlan()
	fields, thresholds := typedFields(plans), thresholdLengths(plans)
	m.Units = units
	m.Axes = slices.Clone(m.Axes)
	for i := range m.Axes {
		m.Axes[i] = explicit(m.Axes[i], suffix, thresholds[m.Axes[i].Key])
	}
	m.Upgrades = slices.Clone(m.Upgrades)
	for i := range m.Upgrades {
		u := &m.Upgrades[i]
		u.Inputs = maps.Clone(u.Inputs)
		for name, typed := range u.Inputs {
			if fields[u.ID][name] {
				u.Inputs[name] = said(typed, suffix)
			}
		}
	}
	return m
}

// everyPlan works the machine out as planned, and with each upgrade.
func (m Machine) everyPlan() []*Plan {
	var plans []*Plan
	for _, draft := range append([]string{""}, upgradeIDs(m)...) {
		if p, err := m.Build(draft); err == nil { // else its figures cannot be worked out in any unit
			plans = append(plans, p)
		}
	}
	return plans
}

func upgradeIDs(m Machine) []string {
	ids := make([]string, len(m.Upgrades))
	for i, u := range m.Upgrades {
		ids[i] = u.ID
	}
	return ids
}

// typedFields are the inputs of each upgrade that are typed, not chosen from a list.
func typedFields(plans []*Plan) map[string]map[string]bool {
	fields := map[string]map[string]bool{}
	for _, p := range plans {
		for _, site := range p.Sites {
			of := map[string]bool{}
			for _, f := range site.Fields {
				of[f.Name] = f.Options == nil && f.Unit.Dim == unit.LengthD
			}
			fields[site.ID] = of
		}
	}
	return fields
}

// thresholdLengths are the thresholds of each axis, and whether they are lengths.
func thresholdLengths(plans []*Plan) map[string]map[string]bool {
	lengths := map[string]map[string]bool{}
	for _, p := range plans {
		for _, l := range p.Layouts {
			if lengths[l.Key] == nil {
				lengths[l.Key] = map[string]bool{}
			}
			for _, h := range l.Thresholds() {
				lengths[l.Key][h.Key] = h.Unit == unit.MM // a sag in µm is typed in µm, whatever lengths are shown in
			}
		}
	}
	return lengths
}

// bare tells whether a text is a length without a unit: one that says something else in the other unit.
func bare(typed string) bool {
	metric, errM := unit.Parse(typed, unit.MM)
	inch, errI := unit.Parse(typed, unit.Inch)
	return errM == nil && (errI != nil || metric != inch)
}

func explicit(a axis.Axis, suffix string, thresholds map[string]bool) axis.Axis {
	lengths := maps.Clone(thresholds)
	if lengths == nil {
		lengths = map[string]bool{}
	}
	arr, _ := axis.ArrangementNamed(a.Arrangement)
	capacity, _ := axis.CapacityNamed(a.Capacity)
	for _, s := range slices.Concat(arr.Sizes, capacity.Sizes) {
		lengths[s.Key] = s.Unit.Dim == unit.LengthD
	}
	a.Entries = withUnits(a.Entries, suffix, func(key string) bool {
		is, known := lengths[key]
		return is || !known // all others are lengths
	})
	a.Parts = slices.Clone(a.Parts)
	for i := range a.Parts {
		p := &a.Parts[i]
		not := map[string]bool{}
		for _, s := range p.Sizes() {
			not[s.Key] = s.Unit.Dim != unit.LengthD
		}
		p.Entries = withUnits(p.Entries, suffix, func(key string) bool { return !not[key] })
	}
	a.Obstacles = slices.Clone(a.Obstacles)
	for i := range a.Obstacles {
		a.Obstacles[i].Gap = withUnit(a.Obstacles[i].Gap, suffix)
	}
	return a
}

func withUnits(entries map[string]plan.Entry, suffix string, length func(key string) bool) map[string]plan.Entry {
	entries = maps.Clone(entries)
	for key, e := range entries {
		if length(key) {
			entries[key] = withUnit(e, suffix)
		}
	}
	return entries
}

func withUnit(e plan.Entry, suffix string) plan.Entry {
	e.Typed, e.Spread = said(e.Typed, suffix), said(e.Spread, suffix)
	return e
}

// said gives a length that was typed without a unit the one of the suffix, or each of several such apart
// by semicolons or spaces. What has a unit, or cannot be read, stays as it was typed.
func said(typed, suffix string) string {
	if bare(typed) {
		return typed + suffix
	}
	several := strings.FieldsFunc(typed, func(r rune) bool { return r == ';' || r == ' ' })
	unreadable := func(one string) bool { _, err := unit.Parse(one, unit.MM); return err != nil }
	if !unreadable(typed) || slices.ContainsFunc(several, unreadable) {
		return typed
	}
	for i, one := range several {
		if bare(one) {
			several[i] = one + strings.TrimSpace(suffix) // a space would part them
		}
	}
	return strings.Join(several, "; ")
}
