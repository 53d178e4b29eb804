package upgrade

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// extendTravel: more travel at one end of an axis, or at both.
type extendTravel struct{}

func (extendTravel) About() About {
	return About{
		Key: "extend_travel", Label: "More travel",
		Purpose: "The slide goes further at one end, and all that stands in its way is cut back, moved or made longer.",
		Cautions: []string{
			"Isolate the machine before anything is taken off it.",
			"Cast-iron dust is harmful and gritty: mask, no air line, wipe the ways before the slide goes back.",
			"Silver brazing: cadmium-free alloy, fresh air, nothing that burns nearby; keep heat away from bearings. Local rules come first.",
			"Guards go back on before the machine runs.",
		},
		Proof: "Travel by gauge at both ends; the push on the handle at three places; lost motion at three places.",
	}
}

func (extendTravel) Suits(l *axis.Layout) bool { return l.Arr.Key != "" && l.Arr.Key != "spaced" }

// mostTravel is the largest wish that is taken, in mm.
const mostTravel = 1000

func (k extendTravel) Apply(s *Site) {
	l := s.Layout
	end := axis.End(s.choose(Field{Name: "end", Label: "End of the axis", Options: []Option{
		{string(axis.Plus), capital(l.Plus)}, {string(axis.Minus), capital(l.Minus)}, {"both", "Both ends, the same at each"},
	}}, string(axis.Plus)))
	s.length(s.Scope, quiet("amount", "amount asked for", "amount", unit.MM),
		Field{Name: "amount", Label: "Amount", Hint: `12, 0.5 in, 15 thou, 1/2"`}, "", 0, mostTravel, 0)
	s.Amount = s.Scope.Key("amount")
	s.Goals = []string{}
	for _, g := range l.Capacity.Goals {
		s.Goals = append(s.Goals, l.Find(g))
	}
	if len(s.Goals) == 0 {
		s.Goals = []string{l.Find("travel")}
	}
	s.Most = 60
	ends := []axis.End{end}
	if end == "both" {
		ends = []axis.End{axis.Plus, axis.Minus}
	}
	for _, e := range ends {
		k.extend(s, e)
	}
	lengthenScrew(s)
}

// extend asks for the amount at one end, then meets the stops there in order.
// What each must give is decided from what stands before it, so that a remedy
// for one that also helps the next is counted.
func (k extendTravel) extend(s *Site, e axis.End) {
	l := s.Layout
	l.Scope.Change("extra_"+string(e), "was + amount", "as asked", sheet.With{"amount": s.Amount})
	var stops []axis.Stop
	for _, st := range l.Stops {
		if st.End == e && st.Fixed != "" {
			stops = append(stops, st)
		}
	}
	slices.SortStableFunc(stops, func(a, b axis.Stop) int {
		if e == axis.Plus {
			return cmp.Compare(a.Found, b.Found)
		}
		return cmp.Compare(b.Found, a.Found)
	})
	for _, st := range stops {
		k.meet(s, st)
	}
	k.thread(s, e)
}

// meet puts one stop out of the way, by one remedy or by two.
func (k extendTravel) meet(s *Site, st axis.Stop) {
	options := remediesFor(s.Layout, st)
	sc := s.Scope.In(st.Key)
	text := "max(0, asked_plus - bound)"
	if st.End == axis.Minus {
		text = "max(0, bound - asked_minus)"
	}
	sc.Fix(quiet("need", "what must give where "+st.Label, "need", unit.MM), text, "decided: as far as is asked, less the slack that there is", sheet.With{"bound": st.Key + ".bound"})
	need := sc.Key("need")
	choices := []Option{{"none", "nothing: stop there"}}
	for _, r := range options {
		choices = append(choices, Option{r.key, r.label})
	}
	proposal := "none"
	if len(options) > 0 {
		proposal = options[0].key
	}
	group := capital(st.Label)
	first := s.choose(Field{Name: "do." + st.Key, Label: capital(st.Label), Options: choices, Need: need, Group: group}, proposal)
	if first == "none" {
		return
	}
	share := s.input("part."+st.Key, "")
	second := s.input("rest."+st.Key, "none")
	if share == "" && second == "none" || len(options) < 2 {
		s.Fields = append(s.Fields, k.shareFields(st, need, group, "", choices, "none")...)
		remedyNamed(options, first).apply(s, st, need)
		return
	}
	// Two remedies share the stop: the first gives what is typed, the second the rest.
	fields := k.shareFields(st, need, group, share, choices, second)
	s.length(sc, quiet("share", "what the first remedy gives", "share", unit.MM), fields[0], share, 0, mostTravel, 0)
	second = s.choose(fields[1], second)
	sc.Fix(quiet("first", "first remedy, where "+st.Label, "first", unit.MM), "min(need, share)", "decided")
	sc.Fix(quiet("second", "second remedy, where "+st.Label, "second", unit.MM), "need - first", "decided: the rest")
	remedyNamed(options, first).apply(s, st, sc.Key("first"))
	if second != "none" {
		remedyNamed(options, second).apply(s, st, sc.Key("second"))
	}
}

func (extendTravel) shareFields(st axis.Stop, need, group, share string, choices []Option, second string) []Field {
	return []Field{
		{Name: "part." + st.Key, Label: "by no more than", Value: share, Hint: "blank: all of it", Need: need, Group: group},
		{Name: "rest." + st.Key, Label: "and the rest by", Value: second, Options: choices, Need: need, Group: group},
	}
}

// thread offers more thread where the nut would run off it.
func (extendTravel) thread(s *Site, e axis.End) {
	l := s.Layout
	nut, okN := l.WithRole("nut")
	thread, okT := l.WithRole("thread")
	if !okN || !okT {
		return
	}
	name := "thread_" + string(e)
	sc := s.Scope.In(name)
	spare := nut.Key + "_on_" + thread.Key + ".spare_" + string(e)
	sc.Fix(quiet("need", "full thread that is missing at the end", "need", unit.MM), "max(0, 0 - spare)", "decided", sheet.With{"spare": spare})
	do := s.choose(Field{Name: "do." + name, Label: "Nut runs off the full thread", Need: sc.Key("need"), Group: "Nut runs off the full thread", Options: []Option{
		{"none", "let it: part of the nut engages"}, {"extend_thread", "cut the thread further"}, {"new_screw", "a new screw with more thread"},
	}}, "none")
	if do == "none" {
		return
	}
	// The moving nut runs off at the end that it goes to, the fixed one is left at it.
	face, sign := "to", "+"
	if (e == axis.Plus) != (nut.Side == axis.Moving) {
		face, sign = "from", "-"
	}
	l.Scope.Change(thread.Key+"."+face, "was "+sign+" need", "decided: as much thread as is missing", sheet.With{"need": sc.Key("need")})
	if shank, ok := l.WithRole("shank"); ok && do == "extend_thread" && face == "to" {
		sc.Formula(quiet("stock", "shank to cut the thread on", "d", unit.MM), "when(need > 0, shank_dia, inf)", "geometry", sheet.With{"shank_dia": shank.Key + ".dia"})
		sc.Check(sheet.Check{Key: "check", Label: "Shank large enough for more thread", Figure: "stock", Limit: thread.Key + ".dia", Level: sheet.Stop,
			Sentence: "The shank is {figure}, and the thread needs {limit}: only a new screw has more thread.", Source: "geometry", Remedies: []string{"new_screw"}})
	}
}

// Answer tells the whole in a few sentences: what is got, what it asks for,
// what it is good for.
func (extendTravel) Answer(s *Site, r *sheet.Result) []Run {
	l := s.Layout
	amount, _ := r.Figure(s.Amount, sheet.Planned)
	var say teller
	subject := "The " + lower(l.Label)
	if !(amount.Value > 0) {
		say.text("Say how much further the " + lower(l.Label) + " should go, and everything that follows from it is shown here.")
		return say.runs
	}
	end := s.input("end", string(axis.Plus))
	got := gained(r, l, end)
	further := " further " + l.EndName(axis.End(end))
	if end == "both" {
		further = " further, both ends together"
	}
	switch {
	case got.Hi <= 0.005:
		say.text(subject + " goes ").strong("no further").text(" " + l.EndName(axis.End(end)) + limitedBy(r, l, end) + ".")
	default:
		say.text(subject + " goes ").strong(show(s, got.Hi)).text(further)
		if !got.Known() {
			say.text(", at most, until " + missing(r, l.Find("travel")) + " is measured")
		}
		if want := wanted(amount.Value, end); got.Hi < want-0.005 {
			say.text(", not the ").strong(show(s, want)).text(" asked for" + limitedBy(r, l, end))
		}
		say.text(".")
	}
	asks := consequences(s, r)
	if len(asks) > 0 {
		say.text(" ")
		say.list(asks)
		say.text(".")
	}
	for _, g := range s.Goals {
		say.goal(s, r, g)
	}
	return say.runs
}

func wanted(amount float64, end string) float64 {
	if end == "both" {
		return 2 * amount
	}
	return amount
}

// gained is how much more travel there is than now, with its bounds.
func gained(r *sheet.Result, l *axis.Layout, end string) sheet.Figure {
	now, _ := r.Figure(l.Find("travel"), sheet.Now)
	plan, _ := r.Figure(l.Find("travel"), sheet.Planned)
	if end != "both" {
		key := l.Find("reach_" + end)
		now, _ = r.Figure(key, sheet.Now)
		plan, _ = r.Figure(key, sheet.Planned)
		if axis.End(end) == axis.Minus {
			now.Lo, now.Hi, plan.Lo, plan.Hi = -now.Hi, -now.Lo, -plan.Hi, -plan.Lo
		}
	}
	plan.Lo, plan.Hi = plan.Lo-now.Hi, plan.Hi-now.Lo
	plan.Value = (plan.Lo + plan.Hi) / 2
	return plan
}

// limitedBy names what the travel ends at as planned.
func limitedBy(r *sheet.Result, l *axis.Layout, end string) string {
	for _, st := range l.Stops {
		if string(st.End) != end && end != "both" {
			continue
		}
		bound, ok := r.Figure(l.Find(st.Key+".bound"), sheet.Planned)
		reach, _ := r.Figure(l.Find("reach_"+string(st.End)), sheet.Planned)
		if ok && bound.Known() && math.Abs(bound.Value-reach.Best(0)) < 1e-6 {
			return ": there the " + st.Label
		}
	}
	return ""
}

func missing(r *sheet.Result, key string) string {
	m := r.Missing(key, sheet.Planned)
	if len(m) == 0 {
		return "what is in the way"
	}
	s := "the " + m[0].Label
	for _, f := range m[1:] {
		s += fmt.Sprintf(" and the %s", f.Label)
	}
	return s
}
