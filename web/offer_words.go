package web

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/web/ui"
)

// toldWords are what is told of a gain, as a page calls it.
var toldWords = map[machine.Told]string{
	machine.Guided: "guided", machine.Gains: "gains", machine.Nothing: "no gain", machine.Unmeasured: "not measured", machine.Impossible: "not here", machine.Taken: "taken",
}

func unitWords(units string) string {
	if units == "in" {
		return "inches"
	}
	return "millimetres"
}

func (o opened) offerGroup(x machine.Offer, i int) offerGroup {
	g := offerGroup{ID: "group-" + strconv.Itoa(i), Title: "Guided, step by step", Axis: x.Axis.Label}
	switch {
	case x.Goal.Key != "":
		g.Title, g.Goal = capital(x.Goal.Label), x.Goal.Key
		if f, ok := o.Result.Figure(x.Goal.Key, sheet.Planned); ok {
			g.Now = figureText(o.Result, o.Units, f)
			g.Ways = machineURL(o.stored.ID) + "/ways?figure=" + x.Goal.Key
		}
	case x.About.Whole:
		g.Title, g.Axis = "Guided, for the whole machine", ""
	}
	return g
}

func (o opened) offerLine(x machine.Offer) offerLine {
	a := x.About
	l := offerLine{ID: offerID(x), Kind: a.Key, Label: a.Label, Says: x.Trial.Says, Axis: x.Axis.Key, On: x.Axis.Label, Purpose: a.Purpose, Told: toldWords[x.Told],
		Hours: hoursText(a.Hours), Risk: a.Risk.String(), Undo: a.Undo.String(), Own: a.Own, Guided: a.Guided, Measure: a.Measure, Cautions: a.Cautions, Proof: a.Proof}
	if a.Whole {
		l.On = "the whole machine"
	}
	l.Gain, l.More = o.gainText(x)
	gives := machine.Gives(o.stored.Kind)
	for _, c := range a.Needs {
		where := "another machine, or by hand"
		if slices.Contains(gives, c) {
			where = "this machine"
		}
		l.Needs = append(l.Needs, string(c)+" ("+where+")")
	}
	l.Missing = o.toMeasure(x.Missing)
	for _, c := range x.Stops {
		l.Stops = append(l.Stops, stopText(c))
	}
	for _, c := range x.Tight {
		l.Tight = append(l.Tight, c.Label+": "+c.Phrase)
	}
	if x.Told == machine.Gains && x.Knocks > 0 {
		l.Follows = count(x.Knocks, "figure changes with it", "figures change with it")
	}
	if per := x.PerHour(); per > 0 {
		u := o.unitOf(x.Goal)
		// Two figures: the hours are not known better.
		l.PerHour = u.Text(per, max(0, 1-int(math.Floor(math.Log10(math.Abs(u.In(per))))))) + " " + u.Symbol + " for an hour of work"
	}
	for _, c := range x.Taken {
		l.Taken = append(l.Taken, ui.Link{Text: c.Author, Href: planPath(o.stored.ID, c.Upgrade)})
	}
	for _, u := range o.stored.Upgrades {
		if u.Kind == a.Key && u.Axis == x.Axis.Key {
			l.Begun = append(l.Begun, ui.Link{Text: string(u.State) + " " + u.ID, Href: planPath(o.stored.ID, u.ID)})
		}
	}
	for _, name := range slices.Sorted(maps.Keys(x.Inputs)) {
		l.Inputs = append(l.Inputs, input{name, x.Inputs[name]})
	}
	return l
}

// toMeasure names figures that are not measured, with the way to their fields; what an upgrade asks for
// itself has none before it is begun.
func (o opened) toMeasure(figures []sheet.Figure) []ui.Link {
	var links []ui.Link
	for _, f := range figures {
		link := ui.Link{Text: the(f.Label)}
		if owner, local := o.axisOf(f.Key); owner != nil && o.fieldNamed(owner, anchor(local)) != "" {
			link.Href = o.fieldURL(f.Key)
		}
		links = append(links, link)
	}
	return links
}

// unitOf is the unit that a figure is shown in.
func (o opened) unitOf(f sheet.Figure) unit.Unit {
	u := in(o.Units, f).Unit
	if f.Decimals > 0 && u == f.Unit {
		u.Decimals = f.Decimals
	}
	return u
}

// gainText tells a gain in a few words, and what is to be said beside it.
func (o opened) gainText(x machine.Offer) (gain, more string) {
	u := o.unitOf(x.Goal)
	text := func(v float64) string { return u.With(v) }
	sure := "At best: something that matters is not measured."
	if len(x.Missing) > 0 {
		sure = ""
	}
	switch x.Told {
	case machine.Gains:
		is := text(x.Is)
		if x.AtMost {
			is, more = "at best "+is, sure
		}
		switch {
		case x.New:
			gain = "Comes to " + is
		case x.Less && x.Is < 0: // a place, counted from where the travel began
			gain = text(x.Was) + " → " + is + ": " + text(x.Better()) + " further"
		case x.Less:
			gain = text(x.Was) + " → " + is + ": " + text(x.Better()) + " less"
		default:
			gain = text(x.Was) + " → " + is + ": " + text(x.Better()) + " more"
		}
	case machine.Nothing:
		gain = "Nothing is gained here"
		if !math.IsNaN(x.Is) {
			gain += ": it is " + text(x.Is)
		}
	case machine.Unmeasured:
		gain = "Not known yet"
		if x.Goal.Known() && !math.IsNaN(x.Is) && !math.IsInf(x.Is, 0) {
			gain = text(x.Is) + "; how much better that is, is not known yet"
		}
	case machine.Impossible:
		gain = "Not possible here"
		if len(x.Stops) > 0 {
			gain += ": " + lowered(stopText(x.Stops[0]))
		}
	case machine.Taken:
		gain = "Taken: " + takenText(x.Taken)
	case machine.Guided:
		gain = "Guided: it tells how, and computes what it can"
	}
	return gain, more
}

// takenText names who has what an upgrade would take.
func takenText(claims []machine.Claim) string {
	var has []string
	for _, c := range claims {
		has = append(has, "“"+c.Author+"” has "+the(c.Label))
	}
	return strings.Join(has, ", and ") + "; of the two, one can be planned"
}

func hoursText(h [2]float64) string {
	return unit.One.Text(h[0], 0) + " to " + unit.One.Text(h[1], 0) + " h"
}

// offerClass is what is told of a gain, as a class.
func offerClass(told string) string { return strings.ReplaceAll(told, " ", "-") }

// missingWord begins the list of what is not measured.
func missingWord(told string) string {
	if told == toldWords[machine.Gains] {
		return "At best, until this is measured: "
	}
	return "To be measured: "
}

// narrows tells whether any of the further conditions is set.
func (f *offerFilter) narrows() bool {
	return f.hours > 0 || f.undo != 0 || f.Only.On || len(f.without) > 0
}

// sum counts what is in a group, with its axis.
func (g offerGroup) sum() string {
	n := 0
	for _, l := range g.Offers {
		if l.Told == toldWords[machine.Gains] {
			n++
		}
	}
	words := strconv.Itoa(len(g.Offers))
	switch {
	case g.Goal == "":
	case n == 0 && !g.idle():
		words += " not measured yet"
	default:
		words = strconv.Itoa(n) + " of " + words + " gain"
	}
	if g.Axis == "" {
		return words
	}
	return lowered(g.Axis) + " · " + words
}

// parts are what is shown of a group at once, and what gains nothing here and is folded away.
func (g offerGroup) parts() (shown, folded []offerLine) {
	for _, l := range g.Offers {
		if l.idle() {
			folded = append(folded, l)
		} else {
			shown = append(shown, l)
		}
	}
	return shown, folded
}

// idle tells an upgrade that gains nothing here.
func (l offerLine) idle() bool {
	return l.Told == toldWords[machine.Nothing] || l.Told == toldWords[machine.Impossible] || l.Told == toldWords[machine.Taken]
}

// idle tells a group in which nothing is gained here.
func (g offerGroup) idle() bool {
	shown, _ := g.parts()
	return len(shown) == 0
}

// active are the groups that are shown at once: of a search, all that it found.
func (v *offersView) active() []offerGroup {
	if v.searched() {
		return v.Groups
	}
	return slices.DeleteFunc(slices.Clone(v.Groups), offerGroup.idle)
}

// idle are the others.
func (v *offersView) idle() []offerGroup {
	if v.searched() {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(v.Groups), func(g offerGroup) bool { return !g.idle() })
}

// searched tells whether words were typed: then nothing is folded away.
func (v *offersView) searched() bool { return v.Filter.found != nil }

// stopText says what does not hold, and by how much where that says anything: what stops the first hundredth
// of a millimetre just stops it.
func stopText(c sheet.CheckResult) string {
	if c.Margin.Unit == unit.MM && math.Abs(c.Margin.Value) < 0.02 {
		return c.Label
	}
	return c.Label + ", " + c.Phrase
}

func gainNothing(n int) string {
	if n == 1 {
		return "1 that gains nothing here"
	}
	return strconv.Itoa(n) + " that gain nothing here"
}
