package web

import (
	"maps"
	"slices"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/store"
)

// sheetDiffering is what another window has saved that is not as typed here.
type sheetDiffering struct {
	Name   string `json:"name"`
	Label  string `json:"label"`
	Mine   string `json:"mine"`
	Theirs string `json:"theirs"`
}

// changedMeanwhile puts beside what was typed what is stored now.
func (v *sheetView) changedMeanwhile(mine axis.Axis, stale *store.StaleError[axis.Axis]) {
	v.over = stale.Revision
	here, there := saying(mine), saying(stale.Current)
	names := slices.Clone(here.names)
	for _, name := range there.names {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	theirs := map[string]string{}
	for _, name := range names {
		if here.values[name] == there.values[name] {
			continue
		}
		d := sheetDiffering{Name: name, Label: here.labels[name], Mine: here.values[name], Theirs: there.values[name]}
		if d.Label == "" {
			d.Label = there.labels[name]
		}
		v.Stale = append(v.Stale, d)
		theirs[name] = d.Theirs
		if d.Theirs == "" {
			theirs[name] = "nothing"
		}
	}
	mark := func(rows []sheetRow) {
		for i := range rows {
			rows[i].Theirs = theirs[rows[i].Name]
		}
	}
	mark(v.Own)
	mark(v.OwnMore)
	for i := range v.Parts {
		mark(v.Parts[i].Rows)
		mark(v.Parts[i].More)
	}
	for i := range v.Obstacles {
		v.Obstacles[i].Gap.Theirs = theirs[v.Obstacles[i].Gap.Name]
	}
}

// everything is all that an axis says, in the order of its sheet.
type everything struct {
	names          []string
	labels, values map[string]string
}

func (all *everything) add(name, label, value string) {
	all.names = append(all.names, name)
	all.labels[name], all.values[name] = label, value
}

func (all *everything) entry(name, label string, e plan.Entry) {
	for i, s := range suffixes {
		all.add(name+s.name, label+[]string{"", ", plus or minus", ", measured with", ", origin", ", on", ", note"}[i], *s.of(&e))
	}
}

func (all *everything) entries(prefix, owner string, entries map[string]plan.Entry, sizes []axis.Size) {
	for _, key := range slices.Sorted(maps.Keys(entries)) {
		label := key
		if i := slices.IndexFunc(sizes, func(s axis.Size) bool { return s.Key == key }); i >= 0 {
			label = sizes[i].Label
		}
		all.entry(prefix+key, owner+label, entries[key])
	}
}

func saying(a axis.Axis) everything {
	all := everything{labels: map[string]string{}, values: map[string]string{}}
	for _, word := range []struct{ name, label, value string }{
		{"label", "name of the axis", a.Label}, {"arrangement", "drive", a.Arrangement}, {"capacity", "what its travel decides", a.Capacity},
		{"plus", "one end", a.Plus}, {"minus", "the other end", a.Minus}, {"datum", "datum face", a.Datum},
	} {
		all.add(word.name, word.label, word.value)
	}
	all.entries("", "", a.Entries, ownSizes(a))
	for _, p := range a.Parts {
		at := p.Key + "."
		all.add(at+"label", "part", p.Label)
		all.add(at+"role", p.Label+": what it is", p.Role)
		all.add(at+"side", p.Label+": side", string(p.Side))
		all.add(at+"material", p.Label+": material", p.Material)
		all.add(at+"lanes", p.Label+": lanes", lanesOut(p.Lanes))
		tie := ""
		if p.Tie != nil {
			tie = p.Tie.Part + "." + p.Tie.Face
		}
		all.add(at+"tie", p.Label+": where it lies", tie)
		all.entries(at, p.Label+": ", p.Entries, p.Sizes())
	}
	for _, o := range a.Obstructions() {
		at := o.Key + "."
		all.add(at+"label", "obstacle", o.Label)
		all.add(at+"end", o.Label+": end", string(o.End))
		all.add(at+"clear", o.Label+": cannot be met", map[bool]string{true: "yes"}[o.Clear])
		all.entry(at+"gap", o.Label+": gap", o.Gap)
	}
	for _, key := range slices.Sorted(maps.Keys(a.Answers)) {
		all.add("answer."+key, "question", a.Answers[key])
	}
	return all
}
