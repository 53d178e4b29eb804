package web

import (
	"slices"
	"strings"

	"fettle/plan/buildlog"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/ui"
)

// aboutKept says that an entry stays about what it was about, where no line of the list says that.
const aboutKept = "kept"

// aboutGroup is a part of the list of what an entry can be about.
type aboutGroup struct {
	Label   string
	Options []ui.Option
}

// aboutList is what an entry can be about, with what it is about chosen.
func aboutList(m store.Stored, e buildlog.Entry) []aboutGroup {
	chosen := aboutValue(e)
	groups := []aboutGroup{{Options: []ui.Option{{Value: "", Text: "the machine as a whole"}}}}
	upgrades := aboutGroup{Label: "Upgrades"}
	for _, u := range m.Upgrades {
		upgrades.Options = append(upgrades.Options, ui.Option{Value: "upgrade=" + u.ID, Text: upgradeLabel(m, u)})
	}
	groups = append(groups, upgrades)
	axes := aboutGroup{Label: "Axes"}
	for _, a := range m.Axes {
		axes.Options = append(axes.Options, ui.Option{Value: "axis=" + a.Key, Text: a.Label})
	}
	groups = append(groups, axes)
	for _, a := range m.Axes {
		parts := aboutGroup{Label: "Parts, " + lowered(a.Label)}
		for _, p := range a.Parts {
			parts.Options = append(parts.Options, ui.Option{Value: "part=" + a.Key + "=" + p.Key, Text: p.Label})
		}
		groups = append(groups, parts)
	}
	found := false
	for i := range groups {
		for j := range groups[i].Options {
			o := &groups[i].Options[j]
			o.Chosen = o.Value == chosen
			found = found || o.Chosen
		}
	}
	if !found {
		groups[0].Options = append(groups[0].Options, ui.Option{Value: chosen, Text: aboutText(aboutLinks(m, e)), Chosen: true})
	}
	return slices.DeleteFunc(groups, func(g aboutGroup) bool { return len(g.Options) == 0 })
}

// aboutValue is the line of the list that an entry is about.
func aboutValue(e buildlog.Entry) string {
	switch {
	case e.Upgrade != "" && e.Part != "" && e.Axis == "":
		return "made=" + e.Upgrade + "=" + e.Part
	case e.Upgrade != "" && e.Part == "" && e.Axis == "":
		return "upgrade=" + e.Upgrade
	case e.Axis != "" && e.Part != "" && e.Upgrade == "":
		return "part=" + e.Axis + "=" + e.Part
	case e.Axis != "" && e.Part == "" && e.Upgrade == "":
		return "axis=" + e.Axis
	case e.Axis == "" && e.Part == "" && e.Upgrade == "":
		return ""
	}
	return aboutKept
}

// setAbout makes an entry be about a line of the list; ok is false for what is no line of it.
func setAbout(e *buildlog.Entry, value string) (ok bool) {
	if value == aboutKept {
		return true
	}
	e.Axis, e.Upgrade, e.Part = "", "", ""
	kind, rest, _ := strings.Cut(value, "=")
	of, part, parts := strings.Cut(rest, "=")
	switch kind {
	case "":
		return value == ""
	case "axis":
		e.Axis = of
	case "upgrade":
		e.Upgrade = of
	case "part":
		e.Axis, e.Part = of, part
	case "made":
		e.Upgrade, e.Part = of, part
	default:
		return false
	}
	return of != "" && parts == (kind == "part" || kind == "made") && parts == (part != "") && len(value) < 200
}

// aboutLinks say what an entry is about, each with the page of it; none is the machine as a whole. What is
// no longer there has no page.
func aboutLinks(m store.Stored, e buildlog.Entry) (links []ui.Link) {
	if e.Upgrade != "" {
		link := ui.Link{Text: "an upgrade that was dropped"}
		if i := slices.IndexFunc(m.Upgrades, func(u upgrade.Upgrade) bool { return u.ID == e.Upgrade }); i >= 0 {
			link = ui.Link{Text: upgradeLabel(m, m.Upgrades[i]), Href: planPath(m.ID, e.Upgrade)}
		}
		links = append(links, link)
		if e.Part != "" && e.Axis == "" {
			part := ui.Link{Text: strings.ReplaceAll(e.Part, "_", " ")}
			if link.Href != "" {
				part.Href = link.Href + "/parts#part-" + e.Part
			}
			return append(links, part)
		}
	}
	if e.Axis == "" {
		return links
	}
	axis, part := ui.Link{Text: "an axis that was deleted"}, ui.Link{Text: strings.ReplaceAll(e.Part, "_", " ")}
	for _, a := range m.Axes {
		if a.Key != e.Axis {
			continue
		}
		axis = ui.Link{Text: a.Label, Href: axisURL(m.ID, a.Key)}
		for _, p := range a.Parts {
			if p.Key == e.Part {
				part = ui.Link{Text: p.Label, Href: axis.Href + "#" + p.Key}
			}
		}
	}
	links = append(links, axis)
	if e.Part != "" {
		links = append(links, part)
	}
	return links
}

func aboutText(links []ui.Link) string {
	texts := make([]string, len(links))
	for i, l := range links {
		texts[i] = l.Text
	}
	return strings.Join(texts, ", ")
}

// upgradeLabel names an upgrade with its axis.
func upgradeLabel(m store.Stored, u upgrade.Upgrade) string {
	label, on := u.Kind, u.Axis
	if kind, ok := upgrade.KindNamed(u.Kind); ok {
		label = kind.About().Label
	}
	for _, a := range m.Axes {
		if a.Key == u.Axis {
			on = a.Label
		}
	}
	return label + ", " + lowered(on)
}
