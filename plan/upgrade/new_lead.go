package upgrade

import (
	"fmt"
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// newLead: screw and nut of another lead, and all that reads from it.
type newLead struct{}

func (newLead) About() About {
	return About{
		Key: "new_lead", Label: "Another lead",
		Words:   []string{"pitch", "metric conversion", "imperial", "inch screw", "leadscrew", "threads per inch", "tpi", "multi-start", "coarser", "finer", "127"},
		Purpose: "A turn of the handle moves another distance: a round one, a finer one, or fewer turns from end to end. Screw, nut, dial and feeds follow.",
		Cautions: []string{
			"Isolate the machine before the screw is taken out.",
			"Until the dial is changed with it, every figure that it shows is wrong: cover it, or mark it so that nobody trusts it.",
			"A coarse thread of several starts may run back by itself under a cut, a spring or a weight.",
			"A long thin bar whips in the lathe: a steady, slow, and no sleeve near it.",
		},
		Proof: "Ten turns are ten leads within 0.02 mm; two test cuts against the dial; lost motion at three places.",
		Hours: [2]float64{10, 20}, Risk: MediumRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Turning, part.Threads, part.Dividing},
		Cures: []string{"reading.value", "stiff.turns", "untrue.lead"},
	}
}

func (newLead) Suits(l *axis.Layout) bool { return newFeed{}.Suits(l) }

// near is the metric lead next to a share of the present one; "" where that is not known.
func (newLead) near(l *axis.Layout, share float64) string {
	t, _ := l.WithRole("thread")
	now := leadOf(l, t)
	best := lead{mm: math.Inf(1)}
	for _, x := range leads() {
		if strings.HasSuffix(x.said, "mm") && math.Abs(x.mm-now*share) < math.Abs(best.mm-now*share) && (x.mm-now)*(share-1) > 0 {
			best = x
		}
	}
	return best.said
}

// Trials: finer, or fewer turns.
func (k newLead) Trials(l *axis.Layout) []Trial {
	var all []Trial
	if fine := k.near(l, 0.7); fine != "" {
		all = append(all, Trial{"finer", map[string]string{"for": "finer", "lead": fine, "dial": "new"}})
	}
	if coarse := k.near(l, 1.6); coarse != "" {
		all = append(all, Trial{"fewer turns", map[string]string{"for": "fewer", "lead": coarse, "dial": "new"}})
	}
	if all == nil {
		return asUsual
	}
	return all
}

func (k newLead) Apply(s *Site) {
	l := s.Layout
	nut, _ := l.WithRole("nut")
	t, _ := l.WithRole("thread")
	k.wish(s, t)
	s.claim("screw", "the feed screw")
	s.claim("nut", "the "+nut.Label)
	k.lead(s, t)
	l.DefineLostMotion()
	l.Scope.Change("screw_renewed", "1", "as chosen: a new screw is worn nowhere")
	nutOfNew(s, nut, t, s.proposed(0.05))
	handOfNew(s, t)
	k.root(s, t)
	k.feed(s, t)
	turnScrew(s)
}

// wish asks what another lead is for, before anything is changed.
func (k newLead) wish(s *Site, t *axis.Part) {
	d, okD := s.Layout.WithRole("dial")
	aims := []Option{{"fewer", "fewer turns from end to end"}, {"finer", "less to a turn"}}
	if okD {
		aims = append(aims, Option{"agree", "the slide to move what the dial shows"})
	}
	wish := s.choose(Field{Name: "for", Label: "For", Options: aims}, "fewer")
	k.turns(s.Layout, t)
	s.Scope.Fix(quiet("lead_stood", "lead as it stood", "l_0", unit.MM), "lead", "decided: as it stood", sheet.With{"lead": t.Key + ".pitch"})
	if okD {
		k.shows(s, d, t, wish)
	}
	switch wish {
	case "agree":
		s.aim(d.Key+".off", unit.Percent, true)
	case "finer":
		s.aim(t.Key+".pitch", unit.MM, true)
	default:
		s.aim(t.Key+".turns", unit.One, true)
	}
}

// lead asks for the new one, and of how many starts its thread is.
func (k newLead) lead(s *Site, t *axis.Part) {
	l, sc := s.Layout, s.Scope
	var options []Option
	for _, x := range leads() {
		options = append(options, Option{x.said, x.label()})
	}
	proposal := k.near(l, 1.6)
	if proposal == "" {
		proposal = "2 mm"
	}
	chosen := leadNamed(s.choose(Field{Name: "lead", Label: "Lead of the new screw", Options: options}, proposal))
	starts := s.choose(Field{Name: "starts", Label: "Starts of its thread", Options: []Option{{"1", "one"}, {"2", "two"}, {"3", "three"}}}, "1")
	flanks(s, t)
	k.push(s, t)
	s.own(quiet("lead", "lead of the new screw", "l", unit.MM), chosen.mm, chosen.label())
	if !l.Scope.Has(t.Key + ".lead_chosen") {
		l.Scope.In(t.Key).Measure(quiet("lead_chosen", "lead that was chosen", "l", unit.MM), sheet.Leaf{Value: chosen.mm, Origin: sheet.Chosen, Note: chosen.label()})
	}
	s.own(quiet("starts", "starts of the new thread", "n", unit.Count), map[string]float64{"1": 1, "2": 2, "3": 3}[starts], "as chosen")
	l.Scope.Change(t.Key+".pitch", "asked", "as asked", sheet.With{"asked": sc.Key("lead")})
	l.Scope.Change(t.Key+".starts", "asked", "as asked", sheet.With{"asked": sc.Key("starts")})
}

// turns counts the handle's turns from end to end.
func (newLead) turns(l *axis.Layout, t *axis.Part) {
	if !l.Scope.Has(t.Key + ".turns") {
		l.Scope.In(t.Key).Formula(shown("turns", "turns of the handle from end to end", "", unit.One), "travel / pitch", "definition of the lead")
	}
}

// shows keeps what a turn of the dial says against what it moves, until another
// dial takes its place.
func (newLead) shows(s *Site, d, t *axis.Part, wish string) {
	l, in := s.Layout, s.Layout.Scope.In(d.Key)
	dialsMade(l, d)
	if wish != "agree" && s.choose(Field{Name: "dial", Label: "Its dial", Options: []Option{{"old", "stays as it is, or as it is planned"}, {"new", "is made anew for this lead: to be planned as well"}}}, "old") == "new" {
		s.dialMadeAnew(d)
	}
	if !l.Scope.Has(d.Key + ".off") {
		q := quiet("shows", "what a turn of the "+d.Label+" shows", "m N", unit.MM)
		if wish == "agree" {
			s.typed(in, q, Field{Name: "shows", Label: "A turn of the dial shows", Hint: "its lines, times what a line is marked as: 2.5 mm, 0.1 in"}, "", 0.01, 100, nan)
		} else {
			in.Fix(q, "lead", "taken: it shows what the screw moved, as it stood", sheet.With{"lead": s.Scope.Key("lead_stood")})
		}
		off := quiet("off", "what the "+d.Label+" shows wrong, as a share", "e", unit.Percent)
		off.Decimals = 2
		in.Formula(off, "when(replaced > 0, 0, abs(shows / lead - 1))", "definition: what it shows over the lead", sheet.With{"lead": t.Key + ".pitch"})
	}
	s.Scope.Formula(shown("off_over", "dial wrong over the whole travel", "", unit.MM), "travel * off", "geometry: in proportion", sheet.With{"off": d.Key + ".off"})
	s.dialSuits(d.Key+".off", ": plan a new dial for this lead")
}

// push compares what a push of the slide asks of the handle, as it stood and
// with the new lead, and whether the thread holds by itself.
func (newLead) push(s *Site, t *axis.Part) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("push", "push that the slide must give", "F", unit.Newton), 300, "common practice, no source: a cut on a small machine, and the ways' drag")
	turned(s, sc.Key("push"), t.Key+".pitch")
	sc.Fix(quiet("torque_stood", "torque for that push, as it stood", "T_0", unit.NewtonMetre), "thread_against", "decided: as it stood")
	sc.Method(quiet("efficiency_new", "efficiency of the thread", "η", unit.One), screw.Efficiency, sheet.With{"force": "push", "lead": t.Key + ".pitch", "torque_against": "thread_against"})
	sc.Method(quiet("holding", "friction over lead", "", unit.One), screw.Holding, sheet.With{"lead": t.Key + ".pitch"})
	s.own(quiet("holding_least", "friction over lead, above which a thread holds", "", unit.One), 1, screw.Holding.Source)
	sc.Check(sheet.Check{Key: "holding_check", Label: "Thread holds by itself", Figure: "holding", Limit: "holding_least", Level: sheet.Rule,
		Sentence: "The thread's friction is {figure} times what holds it, and below {limit} a cut winds it back: fewer starts, or a lock.", Source: screw.Holding.Source})
	if l.Scope.Has("hand_torque") {
		sc.Check(sheet.Check{Key: "torque_check", Label: "Push within a hand's torque", Figure: "thread_against", Limit: "hand_torque", AtMost: true, Level: sheet.Rule,
			Sentence: "The push asks for {figure} at the handle, and a hand gives {limit}.", Source: screw.ThreadAgainst.Source})
	}
	l.Assume(sc, quiet("turns_most", "turns from end to end beyond which it is tiring", "", unit.One), 100, "common practice, no source")
	sc.Check(sheet.Check{Key: "turns_check", Label: "Turns from end to end", Figure: t.Key + ".turns", Limit: "turns_most", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "It takes {figure} turns from end to end, and more than {limit} are tiring.", Source: "common practice, no source"})
}

// root keeps metal under a deeper thread.
func (newLead) root(s *Site, t *axis.Part) {
	l, sc := s.Layout, s.Scope
	if !l.Scope.Has("hand_torque") {
		return
	}
	l.Assume(sc, quiet("shear", "allowable shear of the screw", "τ", unit.MPa), joint.SteelShear, joint.SteelShearSource)
	sc.Method(quiet("core", "torque that the screw's root carries", "T_r", unit.NewtonMetre), joint.CoreTorque, sheet.With{"root": t.Key + ".root"})
	sc.Check(sheet.Check{Key: "core_check", Label: "Root of the new thread strong enough", Figure: "core", Limit: "hand_torque", Level: sheet.Rule,
		Sentence: "The root carries {figure}, and a hand gives {limit}.", Source: joint.CoreTorque.Source})
}

// feed tells what becomes of the power feed, which turns the screw as before.
func (newLead) feed(s *Site, t *axis.Part) {
	sc := s.Scope
	const group = "Power feed"
	if s.choose(Field{Name: "feed", Label: "Driven by power as well", Group: group, Options: []Option{{"no", "no"}, {"yes", "yes"}}}, "no") == "no" {
		return
	}
	s.typed(sc, quiet("feed_now", "feed to a turn of the spindle, finest", "f_0", unit.MM), Field{Name: "feed_now", Label: "Finest feed to a turn of the spindle, as it is", Hint: "off the feed table: 0.05", Group: group}, "", 0.001, 10, nan)
	f := shown("feed_new", "finest feed to a turn of the spindle", "f", unit.MM)
	f.Decimals = 3
	sc.Formula(f, "feed_now * lead / lead_stood", "geometry: the gears turn the screw as before", sheet.With{"lead": t.Key + ".pitch"})
}

func (k newLead) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	l := s.Layout
	t, _ := l.WithRole("thread")
	lead, ok := r.Figure(s.Scope.Key("lead"), sheet.Planned)
	stood, okS := r.Figure(s.Scope.Key("lead_stood"), sheet.Planned)
	if !ok || !okS || !stood.Known() {
		say.text("Measure the lead of the " + t.Label + " first: wind ten turns, and divide the travel by ten.")
		return say.runs
	}
	say.failures(s, r)
	both := func(mm float64) string { return unit.MM.Text(mm, 4) + " mm (" + unit.MM.Text(mm/25.4, 4) + " in)" }
	say.text("A turn moves ").strong(both(lead.Value)).text(", where it moves " + both(stood.Value) + " now.")
	if turns, ok := r.Figure(l.Find(t.Key+".turns"), sheet.Planned); ok && turns.Known() {
		say.text(" From end to end it takes ").strong(unit.One.Text(turns.Value, 0)).text(" turns.")
	}
	if d, ok := l.WithRole("dial"); ok {
		k.dialTold(&say, s, r, d, lead.Value)
	}
	torque, okT := s.figured(r, s.Scope.Key("thread_against"))
	before, okB := s.figured(r, s.Scope.Key("torque_stood"))
	if okT && okB {
		say.text(" The same push asks for ").strong(torque).text(" at the handle, where it asks for " + before + " now.")
	}
	if feed, ok := s.figured(r, s.Scope.Key("feed_new")); ok {
		say.text(" The finest power feed becomes ").strong(feed).text(" to a turn of the spindle.")
	}
	return say.runs
}

// dialTold says what becomes of the dial, on the radius and on the diameter, and
// which lines would suit.
func (newLead) dialTold(say *teller, s *Site, r *sheet.Result, d *axis.Part, lead float64) {
	if line, ok := r.Figure(s.Layout.Find(d.Key+".per_line"), sheet.Planned); ok && line.Known() {
		say.text(" A line of the dial is then ").strong(finely(s, line.Value)).text(" of the slide")
		if latheSlide(s.Layout) {
			say.text(", and ").strong(finely(s, 2*line.Value)).text(" of the work's diameter")
		}
		say.text(".")
	}
	if off, ok := r.Figure(s.Layout.Find(d.Key+".off"), sheet.Planned); !ok || !off.Known() || off.Value < 0.002 {
		return
	}
	for _, w := range worths(lead, false) {
		if w.Whole() && w.lines <= usualLines {
			say.text(" A dial of ").strong(fmt.Sprintf("%d lines", w.lines)).text(" would read " + w.Said + " to a line.")
			return
		}
	}
}

// finely writes what a line is worth: it is seldom a round figure.
func finely(s *Site, mm float64) string {
	if s.Units == unit.MM {
		return unit.MM.Text(mm, 4) + " mm"
	}
	return s.Units.Text(mm, 5) + " " + s.Units.Symbol
}

// Parts of another lead: screw, nut, and the steps around them.
func (k newLead) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	nut, _ := s.Layout.WithRole("nut")
	t, _ := s.Layout.WithRole("thread")
	if s.Inputs["lead"] == "" {
		return Make{} // nobody has chosen one yet
	}
	around(m, lower(strings.TrimSuffix(k.About().Proof, ".")))
	measureScrew(m)
	feedScrew(m)
	feedNut(m, nut, t, s.input("material", nutMaterials[0].key))
	for _, ask := range s.asks {
		ask(m)
	}
	gears := part.Operation{Key: "gears_for_lead", Do: "Before a bar is bought, see that the lathe cuts the lead that was chosen: set its gears up and scratch ten turns on scrap.", Needs: []part.Capability{part.Threads}, Minutes: [2]float64{30, 60}, Record: "the gears, and ten turns measured",
		Cautions: []string{isolate}, Asks: []string{"Is the lead that was chosen in the unit that you mean: " + leadNamed(s.input("lead", "")).label() + "?"}}
	m.step(measured, "", gears)
	m.step(assembled, "", part.Operation{Key: "mark_dial", Do: "Fit the dial that goes with the new lead, or cover the old one until it is there. Write the new lead on the machine.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{10, 20}, Record: "a photo of the dial and of what is written",
		Asks: []string{"Does every dial of this machine say the same, radius or diameter?"}})
	m.step(proved, "", part.Operation{Key: "ten_turns", Do: "Wind ten turns against a gauge: they are ten leads within 0.02 mm. Then two test cuts by the dial.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "travel in ten turns"})
	return m.finish()
}
