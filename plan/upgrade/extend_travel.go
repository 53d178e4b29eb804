package upgrade

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
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
			"Silver brazing, where the screw is made longer: cadmium-free alloy, fresh air, nothing that burns nearby; keep heat away from bearings. Local rules come first.",
			"Guards go back on before the machine runs.",
		},
		Proof: "Travel by gauge at both ends; the push on the handle at three places; lost motion at three places.",
		Words: []string{"longer travel", "extend", "reach", "stroke", "cross slide", "compound", "carriage", "range", "screw extension"},
		Hours: [2]float64{8, 25}, Risk: MediumRisk, Undo: NotUndone, Own: true,
		Needs: []part.Capability{part.Boring, part.Milling, part.Reaming, part.Heat},
		Cures: []string{"reach.travel", "swing.reach"},
	}
}

// Trials: either end, or both.
func (extendTravel) Trials(l *axis.Layout) []Trial {
	return []Trial{
		{"further " + l.EndName(axis.Plus), map[string]string{"end": string(axis.Plus)}},
		{"further " + l.EndName(axis.Minus), map[string]string{"end": string(axis.Minus)}},
	}
}

func (extendTravel) Suits(l *axis.Layout) bool { return l.Arr.Key != "" && !l.Spaced() }

// mostTravel is the largest wish that is taken, in mm.
const mostTravel = 1000

const bothEnds = "both"

func (k extendTravel) Apply(s *Site) {
	l := s.Layout
	end := s.choose(Field{Name: "end", Label: "End of the axis", Options: []Option{
		{string(axis.Plus), capital(l.Plus)}, {string(axis.Minus), capital(l.Minus)}, {bothEnds, "Both ends, the same at each"},
	}}, string(axis.Plus))
	s.typed(s.Scope, quiet("amount", "amount asked for", "amount", unit.MM),
		Field{Name: "amount", Label: "Amount", Hint: `12, 0.5 in, 15 thou, 1/2"`}, "", 0, mostTravel, 0)
	s.Amount = s.Scope.Key("amount")
	for _, g := range l.Capacity.Goals {
		s.Goals = append(s.Goals, sheet.Goal{Key: l.Find(g.Key), Less: g.Small})
	}
	if len(s.Goals) == 0 {
		s.Goals = []sheet.Goal{{Key: l.Find("travel")}}
	}
	s.Most = 60
	if end == bothEnds {
		k.extend(s, axis.Plus)
		k.extend(s, axis.Minus)
	} else {
		other := opposite(axis.End(end))
		k.watch(s, other)
		k.extend(s, axis.End(end))
		k.keep(s, other)
	}
	lengthenScrew(s)
}

func opposite(e axis.End) axis.End {
	if e == axis.Plus {
		return axis.Minus
	}
	return axis.Plus
}

// stopsAt lists the stops between parts at an end, in the order in which they are met.
func stopsAt(l *axis.Layout, e axis.End) []axis.Stop {
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
	return stops
}

// extend asks for the amount at one end, then meets the stops there in order.
// What each must give is decided from what stands before it, so that a remedy
// for one that also helps the next is counted.
func (k extendTravel) extend(s *Site, e axis.End) {
	l := s.Layout
	l.Scope.Change("extra_"+string(e), "was + amount", "as asked", sheet.With{"amount": s.Amount})
	for _, st := range stopsAt(l, e) {
		sc := s.Scope.In(st.Key)
		sc.Fix(quiet("need", "what must give where "+st.Says, "need", unit.MM), "max(0, 0 - gap)", "decided: as far as is asked, less the slack that there is", sheet.With{"gap": st.Key + ".gap"})
		k.meet(s, st, remediesFor(l, st), true)
	}
	if t, ok := runOf(s, e); ok {
		t.sc.Fix(quiet("need", "full thread that is missing, "+l.EndName(e), "need", unit.MM), "max(0, 0 - spare)", "decided", sheet.With{"spare": t.spare})
		k.thread(s, t)
	}
}

// watch keeps what room there is at the end that is not asked for.
func (extendTravel) watch(s *Site, e axis.End) {
	for _, st := range stopsAt(s.Layout, e) {
		s.Scope.In(st.Key).Fix(quiet("before", "room where "+st.Says+", before", "before", unit.MM), "min(0, gap)", "decided: as it stood", sheet.With{"gap": st.Key + ".gap"})
	}
	if t, ok := runOf(s, e); ok {
		t.sc.Fix(quiet("before", "thread beyond the nut, before", "before", unit.MM), "min(0, spare)", "decided: as it stood", sheet.With{"spare": t.spare})
	}
}

// keep offers remedies for what the change took from the end that was not
// asked for. None is proposed: nobody asked for metal to be cut there.
func (k extendTravel) keep(s *Site, e axis.End) {
	l := s.Layout
	for _, st := range stopsAt(l, e) {
		sc := s.Scope.In(st.Key)
		sc.Fix(quiet("need", "what is lost where "+st.Says, "need", unit.MM), "max(0, before - gap)", "decided: as much as the change takes", sheet.With{"gap": st.Key + ".gap"})
		k.meet(s, st, append([]remedy{giveUp}, remediesFor(l, st)...), false)
	}
	if t, ok := runOf(s, e); ok {
		t.sc.Fix(quiet("need", "full thread that the change takes, "+l.EndName(e), "need", unit.MM), "max(0, before - spare)", "decided", sheet.With{"spare": t.spare})
		k.thread(s, t)
	}
}

// giveUp asks for that much less travel at an end.
var giveUp = remedy{"give_up", "give that much travel up", func(s *Site, st axis.Stop, by string) {
	s.Layout.Scope.Change("extra_"+string(st.End), "was - by", "decided", sheet.With{"by": by})
}}

// meet puts one stop out of the way, by one remedy or by two.
func (k extendTravel) meet(s *Site, st axis.Stop, options []remedy, propose bool) {
	sc := s.Scope.In(st.Key)
	need := sc.Key("need")
	choices := []Option{{"none", "nothing: stop there"}}
	for _, r := range options {
		choices = append(choices, Option{r.key, r.label})
	}
	proposal := "none"
	if len(options) > 0 && propose && !slices.Contains(s.refused, options[0].key) {
		proposal = options[0].key
	}
	field := Field{Label: capital(st.Label), Options: choices, Need: need, Group: capital(st.Label), Where: s.Layout.Find(st.Key + ".bound")}
	field.Name = "do." + st.Key
	first := s.choose(field, proposal)
	if first == "none" {
		s.refused = append(s.refused, proposal) // it is not proposed for the next one again
		return
	}
	part, rest := field, field
	part.Name, part.Label, part.Options, part.Hint = "part."+st.Key, "by no more than", nil, "blank: all of it"
	rest.Name, rest.Label = "rest."+st.Key, "and the rest by"
	share, second := s.input(part.Name, ""), s.input(rest.Name, "none")
	if share == "" && second == "none" || len(options) < 2 {
		part.Value, rest.Value = "", "none"
		s.Fields = append(s.Fields, part, rest)
		remedyNamed(options, first).apply(s, st, need)
		return
	}
	// Two remedies share the stop: the first gives what is typed, the second the rest.
	s.typed(sc, quiet("share", "what the first remedy gives", "share", unit.MM), part, share, 0, mostTravel, 0)
	second = s.choose(rest, second)
	sc.Fix(quiet("first", "first remedy, where "+st.Says, "first", unit.MM), "min(need, share)", "decided")
	sc.Fix(quiet("second", "second remedy, where "+st.Says, "second", unit.MM), "need - first", "decided: the rest")
	remedyNamed(options, first).apply(s, st, sc.Key("first"))
	if second != "none" {
		remedyNamed(options, second).apply(s, st, sc.Key("second"))
	}
}

// run is the thread at one end of the travel.
type run struct {
	end         axis.End
	nut, thread *axis.Part
	sc          *sheet.Scope
	spare       string // key of the full thread that is left beyond the nut
}

func runOf(s *Site, e axis.End) (run, bool) {
	nut, okN := s.Layout.WithRole("nut")
	thread, okT := s.Layout.WithRole("thread")
	if !okN || !okT {
		return run{}, false
	}
	spare := nut.Key + "_on_" + thread.Key + ".spare_" + string(e)
	return run{e, nut, thread, s.Scope.In("thread_" + string(e)), spare}, s.Layout.Scope.Has(spare)
}

// thread offers more thread where the nut would run off it.
func (extendTravel) thread(s *Site, t run) {
	l := s.Layout
	// The moving nut runs off at the end that it goes to, the fixed one is left at it.
	face, sign := "to", "+"
	if (t.end == axis.Plus) != (t.nut.Side == axis.Moving) {
		face, sign = "from", "-"
	}
	need := t.sc.Key("need")
	options := []Option{{"none", "let it: part of the nut engages"}}
	shank, onShank := l.WithRole("shank")
	if onShank = onShank && face == "to"; onShank {
		options = append(options, Option{"extend_thread", "cut the thread further"})
	}
	options = append(options, Option{"new_screw", newScrew.label})
	quill, inQuill := l.WithRole("quill")
	if inQuill = inQuill && face == "to" && t.nut.Side == axis.Moving; inQuill {
		options = append(options, Option{"longer_quill", "a longer quill, its nut further back"})
	}
	label := capital(t.nut.Label) + " runs off the full thread, " + l.EndName(t.end)
	switch s.choose(Field{Name: "do.thread_" + string(t.end), Label: label, Need: need, Group: label, Options: options}, "none") {
	case "extend_thread":
		moreThread(s, face, sign, need)
		s.ask(func(m *making) { moreOfThread(m, t.thread, need) })
		t.sc.Formula(quiet("stock", "shank to cut the thread on", "d", unit.MM), "when(need > 0, shank_dia, inf)", "geometry", sheet.With{"shank_dia": shank.Key + ".dia"})
		t.sc.Check(sheet.Check{Key: "check", Label: "Shank large enough for more thread", Figure: "stock", Limit: t.thread.Key + ".dia", Level: sheet.Stop,
			Sentence: "The shank is {figure}, and the thread needs {limit}: only a new screw has more thread.", Source: "geometry", Remedies: []string{"new_screw"}})
	case "new_screw":
		moreThread(s, face, sign, need)
		s.newScrew = true
		s.sleeveless(need)
		s.ask(func(m *making) {
			if m.more(need) {
				newFeedScrew(m)
			}
		})
	case "longer_quill":
		move(s, t.nut, "-", need)
		shift(s, quill, "from", "-", need)
		s.ask(func(m *making) { longer(m, quill, "turn a longer quill, its nut further back") })
	}
}

// Answer tells the whole in a few sentences: what is got, what it asks for,
// what it is good for.
func (extendTravel) Answer(s *Site, r *sheet.Result) []Run {
	l := s.Layout
	amount, _ := r.Figure(s.Amount, sheet.Planned)
	var say teller
	if !(amount.Value > 0) {
		say.text("Say how much further the " + mover(l) + " should go, and everything that follows from it is shown here.")
		return say.runs
	}
	end := s.input("end", string(axis.Plus))
	ends, further, want := []axis.End{axis.End(end)}, " further "+l.EndName(axis.End(end)), amount.Value
	if end == bothEnds {
		ends, further, want = []axis.End{axis.Plus, axis.Minus}, " further, both ends together", 2*amount.Value
	}
	got, known := gained(r, l, ends)
	if math.IsInf(got, 0) {
		got = want // nothing that was measured stops it, and no more was asked for
	}
	goes := " goes "
	if say.failures(s, r) {
		goes = " would go "
	}
	say.text("The " + mover(l) + goes)
	switch {
	case got <= shownLength:
		say.strong("no further").text(further[len(" further"):])
	default:
		say.strong(show(s, got)).text(further)
	}
	if !known && got > shownLength {
		say.text(", at most, until " + missing(r, l, ends))
	}
	if got < want-shownLength {
		if got > shownLength {
			say.text(", not the ").strong(show(s, want)).text(" asked for")
		}
		say.text(limitedBy(r, l, ends))
	}
	say.text(".")
	if asks := consequences(s, r); len(asks) > 0 {
		say.text(" ").list(asks).text(".")
	}
	if end != bothEnds {
		say.lost(s, r, opposite(axis.End(end)))
	}
	say.goals(s, r)
	return say.runs
}

// mover is what goes, in a sentence: an axis that is named with its letter, “Table along
// (X)”, by what moves on it.
func mover(l *axis.Layout) string {
	if strings.Contains(l.Label, "(") {
		return l.Moves()
	}
	return lower(l.Label)
}

// shownLength is the smallest length that shows, in mm.
const shownLength = 0.005

// gained is how much more travel there is than now at some ends, in mm: the
// most that it can be, and whether that is known.
func gained(r *sheet.Result, l *axis.Layout, ends []axis.End) (most float64, known bool) {
	known = true
	for _, e := range ends {
		key := l.Find("reach_" + string(e))
		now, _ := r.Figure(key, sheet.Now)
		plan, _ := r.Figure(key, sheet.Planned)
		was, is := sheet.Compare(now, plan)
		if e == axis.Minus {
			was, is = -was, -is
		}
		known = known && plan.Known()
		if most += is - was; math.IsNaN(most) {
			most = math.Inf(1)
		}
	}
	return most, known
}
