package web

import (
	"math"
	"strings"

	"fettle/plan/sheet"
	"fettle/web/ui"
)

// knockOns is the tree of what follows. Beside what the upgrade is for it lists where the slide ends
// up, with the stops that hold it there: of two that are met together both are named.
func (w *planWriter) knockOns() (own, rest []ui.KnockOn) {
	goals := w.site.GoalKeys()
	for _, reach := range []string{"reach_plus", "reach_minus"} {
		if key := w.site.Layout.Find(reach); len(w.Result.Causes(key)) > 0 {
			goals = append(goals, key)
		}
	}
	all, others := w.parted(w.Result.KnockOns(goals...))
	return w.knockOnsOf(all), w.knockOnsOf(others)
}

// parted takes out what nothing of this upgrade is in: the rest of the plan changes that, whether this is done or not.
// What this one's figures stand under stays, as it says where they come from.
func (w *planWriter) parted(all []*sheet.KnockOn) (own, rest []*sheet.KnockOn) {
	if w.follows == nil {
		return all, nil
	}
	for _, k := range all {
		var others []*sheet.KnockOn
		children := k.Children
		k.Children, others = w.parted(children)
		if len(k.Children) == 0 && !w.follows(k.Key) {
			k.Children = children
			rest = append(rest, k)
			continue
		}
		own, rest = append(own, k), append(rest, others...)
	}
	return own, rest
}

func (w *planWriter) knockOnsOf(all []*sheet.KnockOn) []ui.KnockOn {
	var lines []ui.KnockOn
	for _, k := range all {
		lines = append(lines, w.knockOn(k))
	}
	return lines
}

func (w *planWriter) knockOn(k *sheet.KnockOn) ui.KnockOn {
	line := ui.KnockOn{
		ID:      "k-" + strings.ReplaceAll(k.Key, ".", "-"),
		Key:     k.Key,
		Label:   capital(k.Label),
		Because: because(k),
		Explain: w.explain(k.Key),
		Href:    w.link(k.Key),
		Then:    w.knockOnsOf(k.Children),
	}
	switch {
	case k.New:
		line.Now, line.Moved = w.short(k.Figure, 0), "new"
	case k.Gone:
		line.Was, line.Moved = w.text(k.Now, 0), "gone"
		line.Href = figureURL(w.stored.ID, k.Key, sheet.Now, w.draft)
	case k.Delta == 0:
		line.Now, line.Moved = w.short(k.Figure, k.Now.Value), "0"
	default:
		line.Was, line.Now = bare(w.Units, k.Now, k.Now.Value), w.short(k.Figure, k.Now.Value)
		line.Moved = moved(w.Units, k.Figure, k.Delta)
	}
	return line
}

// short writes a figure for a narrow column: "≤ 100 mm" for "at most 100 mm", "81.5 to 97 mm" for two bounds.
func (w *planWriter) short(f sheet.Figure, was float64) string {
	if math.IsInf(f.Hi, 1) && f.Lo <= 0 && !f.Known() { // at least nothing says nothing
		return "unknown"
	}
	text := w.text(f, was)
	if both, ok := strings.CutPrefix(text, "between "); ok {
		return strings.Replace(both, " and ", " to ", 1)
	}
	return narrow.Replace(text)
}

var narrow = strings.NewReplacer("at most ", "≤ ", "at least ", "≥ ")

// because says what beside its place in the tree made a figure what it is.
func because(k *sheet.KnockOn) string {
	var say []string
	was, by := limits(k.LimitedWas), limits(k.LimitedBy)
	switch {
	case was == "" || by == "": // one side of it is not known, or there was nothing to choose from
	case was == by && k.Delta == 0 && k.Goal:
		say = append(say, "nothing gained: limited by "+by+", before and after")
	case was == by:
		say = append(say, "limited by "+by)
	default:
		say = append(say, "was limited by "+was+", now by "+by)
	}
	if len(k.Also) > 0 {
		say = append(say, "also because of "+joined(labels(k.Also)))
	}
	return strings.Join(say, "; ")
}

// met is the label of a place where something is met without its end, such as ", slide at".
func met(label string) string {
	if i := strings.LastIndexAny(label, ",:"); i >= 0 && strings.HasPrefix(label[i+1:], " ") && strings.HasSuffix(label[i+1:], " at") && len(label)-i > len(",  at") {
		return label[:i]
	}
	return label
}

// limits names what holds a figure, in a tie each of it.
func limits(figures []sheet.Figure) string {
	words := labels(figures)
	for i, word := range words {
		words[i] = "“" + met(word) + "”"
	}
	return joined(words)
}
