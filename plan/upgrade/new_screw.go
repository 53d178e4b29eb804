package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// newFeed: a feed screw made anew, with its nut, and with more thread where
// that is wanted.
type newFeed struct{}

// Where a new screw has more thread.
const (
	asLong   = "none"
	atTip    = "tip"
	atHandle = "handle"
)

func (newFeed) About() About {
	return About{
		Key: "new_screw", Label: "New feed screw, with its nut",
		Words:   []string{"leadscrew", "lead screw", "feed screw", "worn screw", "bent screw", "longer screw", "trapezoidal bar", "acme", "rolled", "ground", "graft", "thread"},
		Purpose: "A screw that is worn nowhere, with more thread where the nut ran off it; its lead and its hand are the old one's, so that dial and feeds stay as they are.",
		Cautions: []string{
			"Isolate the machine before the screw is taken out.",
			"Lay old and new screw side by side before anything is cut: a thread of the wrong hand fits nothing.",
			"A long thin bar whips in the lathe: a steady, slow, and no sleeve near it.",
			"Silver brazing: cadmium-free alloy, fresh air, nothing that burns nearby; local rules come first.",
		},
		Proof: "Run-out along the screw at most 0.03 mm; pitch error over the travel against blocks or a scale; lost motion at three places, the same at all; travel at both ends.",
		Hours: [2]float64{6, 15}, Risk: MediumRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Turning, part.Threads, part.Heat},
		Cures: []string{"lost_motion.nut", "jams.bent", "reach.travel"},
	}
}

// Suits a screw with a shank that a bracket holds, and a nut on it.
func (newFeed) Suits(l *axis.Layout) bool {
	shank, okS := l.WithRole("shank")
	t, okT := l.WithRole("thread")
	return okS && okT && shank.Tie == nil && t.Tie == nil && bracketSpacer{}.Suits(l) && l.Scope.Has("screw_line.middle")
}

// Trials: renewed as it is, or with more thread at either end.
func (newFeed) Trials(*axis.Layout) []Trial {
	return []Trial{
		{"as long as the old one", map[string]string{"more": asLong, "play": "0.05 mm"}},
		{"more thread at its free end", map[string]string{"more": atTip, "tip": "hole"}},
		{"more thread towards the handle", map[string]string{"more": atHandle}},
	}
}

func (k newFeed) Apply(s *Site) {
	l := s.Layout
	nut, _ := l.WithRole("nut")
	t, _ := l.WithRole("thread")
	more := s.choose(Field{Name: "more", Label: "More thread", Options: []Option{{asLong, "none: as long as the old one"}, {atTip, "at its free end"},
		{atHandle, "towards the handle"}, {bothEnds, "as much at either end"}}}, asLong)
	l.DefineLostMotion()
	switch more {
	case asLong:
		s.aim("lost_motion_all", unit.MM, true)
	case bothEnds:
		s.aim("travel", unit.MM, false)
	default:
		s.aimAt(k.gains(l, more))
	}
	s.claim("screw", "the feed screw")
	if more != asLong {
		s.typed(s.Scope, quiet("amount", "more thread", "X", unit.MM), Field{Name: "amount", Label: "More thread by", Hint: `12, 1/2"`}, "", 0, mostTravel, 0)
		s.Amount, s.Most = s.Scope.Key("amount"), 60
		for _, end := range []string{atTip, atHandle} {
			if more == end || more == bothEnds {
				k.thread(s, t, end)
			}
		}
	}
	k.nut(s, nut, t, more)
	l.Scope.Change("screw_renewed", "1", "as chosen: a new screw is worn nowhere")
	handOfNew(s, t)
	k.made(s, t)
	k.stands(s)
	k.exact(s)
}

// gains is the end of the travel that more thread at an end of the screw gives:
// the nut that moves runs off it there, the one that is held is left at it.
func (newFeed) gains(l *axis.Layout, at string) axis.End {
	nut, _ := l.WithRole("nut")
	end := handleAt(l)
	if (nut.Side == axis.Moving) != (at == atHandle) {
		return opposite(end)
	}
	return end
}

// thread lengthens the thread at an end, and asks for as much more travel.
func (k newFeed) thread(s *Site, t *axis.Part, at string) {
	l, sc := s.Layout, s.Scope
	sign, face := handleSign(l), map[string]string{"+": "to", "-": "from"}
	back := map[string]string{"+": "-", "-": "+"}[sign]
	e := k.gains(l, at)
	l.Scope.Change("extra_"+string(e), "was + by", "as asked: as far as the thread goes on", sheet.With{"by": s.Amount})
	if at == atTip {
		shift(s, t, face[back], back, s.Amount)
		k.tip(s, t, face[back])
		return
	}
	shift(s, t, face[sign], sign, s.Amount)
	shank, _ := l.WithRole("shank")
	shift(s, shank, face[back], sign, s.Amount)
	b, _ := l.WithRole("bracket")
	text := "when(amount > 0, bracket_face - end, inf)"
	if sign == "-" {
		text = "when(amount > 0, end - bracket_face, inf)"
	}
	sc.Formula(quiet("before_bracket", "plain screw between thread and bracket", "c", unit.MM), text, "geometry", sheet.With{"bracket_face": b.Key + "." + face[back], "end": t.Key + "." + face[sign]})
	sc.Check(sheet.Check{Key: "bracket_check", Label: "Thread ends before the bracket", Figure: "before_bracket", Limit: l.Find("touching"), Level: sheet.Stop,
		Sentence: "{figure} lies between the end of the thread and the " + b.Label + ", in whose bore it does not run.", Source: "geometry"})
}

// tip keeps the longer screw's free end out of what stands before it. Where the
// two move against each other the axis's own stops do.
func (k newFeed) tip(s *Site, t *axis.Part, face string) {
	l, sc := s.Layout, s.Scope
	for _, st := range l.Stops {
		if st.Fixed == t.Key || st.Moving == t.Key {
			if st.Kind == axis.Meets {
				return
			}
		}
	}
	l.Assume(sc, quiet("tip_least", "room wanted before the screw's tip", "", unit.MM), 3, "common practice, no source: 3 mm")
	check := sheet.Check{Key: "tip_check", Label: "Screw's tip clear", Figure: "tip_room", Limit: "tip_least", Level: sheet.Stop, Source: "common practice, no source"}
	wall, ok := beyondTip(l, t, face)
	if !ok {
		s.typed(sc, quiet("tip_found", "room before the screw's tip, as it is", "", unit.MM), Field{Name: "tip_found", Label: "Room before the screw's tip, as it is"}, "", 0, 1000, nan)
		sc.Formula(quiet("tip_room", "room before the longer screw's tip", "c", unit.MM), "tip_found - amount", "geometry")
		check.Sentence = "{figure} is left before the screw's tip, and {limit} is wanted."
		sc.Check(check)
		return
	}
	if s.choose(Field{Name: "tip", Label: capital(wall.Label) + " before the screw's tip", Options: []Option{{"wall", "stays as it is"}, {"hole", "gets a hole for it"}}}, "wall") == "hole" {
		s.ask(func(m *making) { k.holeFor(m, wall, t) })
		return
	}
	text := map[string]string{"from": "when(amount > 0, tip - wall, inf)", "to": "when(amount > 0, wall - tip, inf)"}[face]
	sc.Formula(quiet("tip_room", "screw's tip to the "+wall.Label, "c", unit.MM), text, "geometry", sheet.With{"tip": t.Key + "." + face, "wall": wall.Key + "." + map[string]string{"from": "to", "to": "from"}[face]})
	check.Sentence = "{figure} is left between the screw's tip and the " + wall.Label + ", and {limit} is wanted: less, and it bores into it."
	sc.Check(check)
}

// beyondTip is the wall, on the screw's own side, before its free end.
func beyondTip(l *axis.Layout, t *axis.Part, face string) (*axis.Part, bool) {
	at, ok := l.Scope.Leaf(t.Key + "." + face)
	if !ok || at.Origin == sheet.Unknown {
		return nil, false
	}
	for i := range l.Parts {
		p := &l.Parts[i]
		role, _ := axis.RoleNamed(p.Role)
		near, okN := l.Scope.Leaf(p.Key + "." + map[string]string{"from": "to", "to": "from"}[face])
		if !role.Cut || (p.Side == axis.Moving) != (t.Side == axis.Moving) || !okN || near.Origin == sheet.Unknown {
			continue
		}
		const within = 0.5 // mm that two readings may differ by
		if face == "from" && near.Value <= at.Value+within || face == "to" && near.Value >= at.Value-within {
			return p, true
		}
	}
	return nil, false
}

// nut asks whether the old nut goes on: it is worn to the old screw.
func (k newFeed) nut(s *Site, nut, t *axis.Part, more string) {
	l, sc := s.Layout, s.Scope
	if more != asLong && s.choose(Field{Name: "nut", Label: "Nut", Options: []Option{{"new", "made anew with it"}, {"old", "the old one goes on"}}}, "new") == "old" {
		if l.Scope.Has("lost_motion_spread") {
			sc.Fix(quiet("worn", "wear of the old screw", "", unit.MM), "spread", "decided: as it stood", sheet.With{"spread": "lost_motion_spread"})
			l.Scope.Change("nut_play_less", "was + worn", "as chosen: the nut keeps its own play, and the screw's is gone", sheet.With{"worn": sc.Key("worn")})
		}
		return
	}
	s.claim("nut", "the "+nut.Label)
	proposal := ""
	if more != asLong {
		proposal = s.proposed(0.05)
	}
	s.typed(sc, quiet("play", "play of the new nut on the new screw", "b_n", unit.MM), Field{Name: "play", Label: "Play wanted of the nut", Hint: "0.05; 0.03 to 0.1 is usual"}, proposal, 0, 1, nan)
	if more == asLong {
		s.Amount, s.Most = sc.Key("play"), 0.3
	} else {
		s.Goals = append(s.Goals, sheet.Goal{Key: l.Find("lost_motion_all"), Less: true})
	}
	l.Scope.Change("nut_play_less", "nut_play_found - play", "as asked: the same all along, for a new screw is worn nowhere", sheet.With{"play": sc.Key("play")})
	runsFree(s, "play")
	diaOfNew(s, t)
	newBore(s, nut, t)
	newNut{}.length(s, nut, t)
	newNut{}.pressure(s, nut, t)
}

// diaOfNew asks how thick the new screw is.
func diaOfNew(s *Site, t *axis.Part) {
	l := s.Layout
	wide := ""
	old, ok := l.Scope.Leaf(t.Key + ".dia")
	if ok && old.Origin != sheet.Unknown {
		wide = s.proposed(old.Value)
	} else {
		old.Value = nan
	}
	s.typed(s.Scope, quiet("dia", "diameter of the new screw", "d", unit.MM), Field{Name: "dia", Label: "Diameter of its thread", Hint: "the old one's; larger is stiffer"}, wide, 2, 100, old.Value)
	l.Scope.Change(t.Key+".dia", "asked", "as asked", sheet.With{"asked": s.Scope.Key("dia")})
}

// newBore makes a nut's bore follow its thread where that of the old nut was measured.
func newBore(s *Site, nut, t *axis.Part) {
	if _, measured := s.Layout.Scope.Leaf(nut.Key + ".bore"); !measured {
		return
	}
	m := screw.NutBore
	if t.Entries["form"].Typed == "trapezoidal" {
		m = screw.NutBoreTrapezoidal
	}
	s.Layout.Scope.Change(nut.Key+".bore", m.Text, m.Source, threadOf(s.Layout, t))
}

// handOfNew asks how it winds, and whether that is what a thread of its hand does.
func handOfNew(s *Site, t *axis.Part) {
	l, sc := s.Layout, s.Scope
	const group = "Hand of the thread"
	hand := t.Entries["hand"].Typed
	if hand == "" {
		hand = s.choose(Field{Name: "hand", Label: "Hand of the old thread", Hint: "held upright, a right-hand thread climbs to the right", Group: group, Options: []Option{{"", "not looked at yet"}, {"right", "right hand"}, {"left", "left hand"}}}, "")
	}
	tried := s.choose(Field{Name: "clockwise", Label: "Turned clockwise, the slide goes", Group: group,
		Options: []Option{{"", "not tried yet"}, {string(axis.Plus), capital(l.EndName(axis.Plus))}, {string(axis.Minus), capital(l.EndName(axis.Minus))}}}, "")
	by, known := goesBy(l, hand)
	leaf := sheet.Leaf{Value: 1, Origin: sheet.Chosen, Note: "as it winds and as the thread looks: 1 where the two agree, −1 where one is wrong"}
	switch {
	case !known || tried == "":
		leaf = sheet.Leaf{Origin: sheet.Unknown, Min: -1, Max: 1}
	case string(by) != tried:
		leaf.Value = -1
	}
	sc.Measure(quiet("hand_agrees", "hand of the thread, and which way the slide goes when the handle is turned clockwise", "", unit.One), leaf)
	s.own(quiet("hand_wrong", "hand and winding are at odds below", "", unit.One), 0, "1 where the two agree, −1 where one is wrong")
	say := "A thread of the hand that is named does not wind so: look again before a screw is ordered."
	if known {
		say = "A " + hand + "-hand thread takes the slide " + l.EndName(by) + " when the handle is turned clockwise: look again which of the two is wrong, before a screw is ordered."
	}
	sc.Check(sheet.Check{Key: "hand_check", Label: "Hand of the new thread", Figure: "hand_agrees", Limit: "hand_wrong", Level: sheet.Stop, Sentence: say,
		Source: "geometry: a nut on a right-hand screw that is held comes towards the handle, a right-hand screw in a nut that is held goes away from it"})
}

// stands keeps the screw from buckling under a hand, and from whipping.
func (newFeed) stands(s *Site) {
	l, sc := s.Layout, s.Scope
	t, _ := l.WithRole("thread")
	if !screwSpan(s) {
		return
	}
	names := sheet.With{"root": t.Key + ".root", "modulus": "screw_line.modulus", "density": "screw_line.density", "second_moment": "screw_line.second_moment", "length": "span"}
	if l.Scope.Has("hand_torque") {
		if !sc.Has("thrust") {
			handThrust(s, t)
		}
		names["force"] = "thrust"
		l.Assume(sc, quiet("yield", "yield strength of the screw", "S_y", unit.MPa), 375, screw.YieldSource)
		l.Assume(sc, quiet("fixity", "factor of the screw's ends", "C", unit.One), 1, screw.FixitySource)
		l.Assume(sc, quiet("safety_least", "margin wanted against buckling", "", unit.One), 3, "common practice, no source: 3")
		sc.Method(quiet("area", "section of the screw's root", "A", unit.MM2), screw.BarArea, names)
		sc.Method(quiet("slenderness", "slenderness of the screw", "L/k", unit.One), screw.Slenderness, names)
		sc.Method(quiet("transition", "slenderness from which Euler holds", "", unit.One), screw.Transition, names)
		sc.Method(quiet("euler_load", "Euler's load", "F_E", unit.Newton), screw.EulerLoad, names)
		sc.Method(quiet("johnson_load", "Johnson's load", "F_J", unit.Newton), screw.JohnsonLoad, names)
		sc.Method(quiet("critical", "thrust at which the screw buckles", "F_k", unit.Newton), screw.CriticalLoad, names)
		sc.Method(quiet("safety", "margin against buckling", "", unit.One), screw.SafetyOf, names)
		sc.Check(sheet.Check{Key: "safety_check", Label: "Screw does not buckle", Figure: "safety", Limit: "safety_least", Level: sheet.Rule,
			Sentence: "It buckles at {figure} times a hand's thrust, and {limit} times is wanted.", Source: screw.CriticalLoad.Source})
	}
	ends, whirl := "fixed-free", sheet.With{"length": "screw_line.free"}
	if _, tail := l.WithRole("tail_bearing"); tail { // nothing of it is free: it whips between its bearings
		ends, whirl["length"] = "supported-supported", t.Key+".length"
	}
	if !l.Scope.Has(whirl["length"]) {
		return // no bracket holds it by one end
	}
	held, _ := screw.HeldNamed(ends)
	s.own(quiet("lambda", "eigenvalue of the screw, "+held.Label, "λ", unit.One), held.Lambda, screw.LambdaSource)
	for name, key := range names {
		if name != "length" {
			whirl[name] = key
		}
	}
	sc.Method(quiet("whirl", "speed at which the screw whips", "n", unit.RPM), screw.Whirl, whirl)
	sc.Method(quiet("whirl_safe", "speed up to which it does not", "n", unit.RPM), screw.WhirlSafe)
	l.Assume(sc, quiet("wound", "fastest that it is wound", "n", unit.RPM), 150, "common practice, no source: a hand stays under 150 turns a minute")
	sc.Check(sheet.Check{Key: "whirl_check", Label: "Screw does not whip", Figure: "whirl_safe", Limit: "wound", Level: sheet.Rule,
		Sentence: "It runs quietly up to {figure}, and it is wound at {limit} at the most.", Source: screw.Whirl.Source})
}

// exact tells how far off the new lead puts the far end of the travel.
func (newFeed) exact(s *Site) {
	l, sc := s.Layout, s.Scope
	bars := []struct {
		key, label string
		off        float64
		source     string
	}{
		{"rolled", "rolled bar", 0.1, "common practice, no source: 0.1 mm in 300"}, {"ground", "ground bar", 0.02, "common practice, no source: 0.02 mm in 300"},
		{"cut", "cut in the lathe", 0.05, "common practice, no source: as good as the lathe's own lead screw, 0.05 mm in 300"},
	}
	var options []Option
	for _, b := range bars {
		options = append(options, Option{b.key, b.label})
	}
	chosen := s.choose(Field{Name: "bar", Label: "Thread of the new screw", Options: options}, "rolled")
	for _, b := range bars {
		if b.key == chosen {
			l.Assume(sc, quiet("off_300", "error of the new lead over 300 mm", "", unit.MM), b.off, b.source)
		}
	}
	sc.Formula(quiet("off", "error of the new lead over the travel", "", unit.MM), "travel * off_300 / mm(300)", "geometry: in proportion")
}

func (k newFeed) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	l := s.Layout
	more := s.input("more", asLong)
	f, ok := r.Figure(s.Amount, sheet.Planned)
	if !ok || !f.Known() || more != asLong && !(f.Value > 0) {
		say.text("Say how much more thread the new screw should have, and everything that follows from it is shown here.")
		if more == asLong {
			say = teller{}
			say.text("Say how much play the nut should have on the new screw, and what becomes of the lost motion is shown here.")
		}
		return say.runs
	}
	goes := " goes "
	if say.failures(s, r) {
		goes = " would go "
	}
	if more != asLong {
		ends := []axis.End{axis.Plus, axis.Minus}
		further := "further, both ends together"
		if more != bothEnds {
			ends = []axis.End{k.gains(l, more)}
			further = "further " + l.EndName(ends[0])
		}
		got, known := gained(r, l, ends)
		say.text("The " + l.Moves() + goes)
		switch {
		case got <= shownLength:
			say.strong("no " + further).text(limitedBy(r, l, ends))
		case math.IsInf(got, 0):
			say.text("further, as far as is known, until " + missing(r, l, ends))
		default:
			say.strong(show(s, got)).text(" " + further)
			if !known {
				say.text(", at most, until " + missing(r, l, ends))
			}
		}
		say.text(". ")
	}
	say.became("Lost motion comes to ", "", s, r, l.Find("lost_motion_all"))
	if spread, ok := r.Figure(l.Find("lost_motion_spread"), sheet.Now); ok && spread.Known() && spread.Value > shownLength {
		say.text(" Of what the old screw was worn by, ").strong(show(s, spread.Value)).text(" along the travel, nothing is left.")
	}
	if off, ok := s.figured(r, s.Scope.Key("off")); ok {
		say.text(" Its lead puts the end of the travel off by up to ").strong(off).text(".")
	}
	return say.runs
}

// Parts of a new screw: the screw, or a threaded bar on the old shank; its nut.
func (k newFeed) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if f, ok := r.Figure(s.Amount, m.stage()); !ok || !f.Known() || s.input("more", asLong) != asLong && f.Value <= shownLength {
		return Make{}
	}
	nut, _ := s.Layout.WithRole("nut")
	t, _ := s.Layout.WithRole("thread")
	around(m, strings.ToLower(k.About().Proof[:1])+strings.TrimSuffix(k.About().Proof[1:], "."))
	measureScrew(m)
	if _, tail := s.Layout.WithRole("tail_bearing"); tail && s.input("more", asLong) != asLong {
		m.step(assembled, "", part.Operation{Key: "move_tail", Do: "Set the bearing at the screw's far end to the longer screw: slide wound right up to it, its bolts just nipped, then tighten.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "push on the handle next to that bearing", Cautions: []string{isolate},
			Asks: []string{"Can the bearing at the far end stand as much further out as the screw is longer?"}})
	}
	if s.input("how", "whole") == "graft" {
		graftParts(m, t)
	} else {
		feedScrew(m)
	}
	if s.input("nut", "new") == "new" {
		feedNut(m, nut, t, s.input("material", nutMaterials[0].key))
	}
	for _, ask := range s.asks {
		ask(m)
	}
	m.step(proved, "", part.Operation{Key: "prove_lead", Do: "Against blocks or a scale, wind over the whole travel and write down what the dial says at each tenth of it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "travel by the dial and by the blocks"})
	return m.finish()
}

// measureScrew is the old screw measured whole, before a new one is begun.
func measureScrew(m *making) {
	m.step(measured, "", part.Operation{Key: "measure_screw", Do: "With the slide off, measure the old screw whole: thread, collar, journal, flats or key, end thread, each with its length from the collar's face; its lead over ten turns; and its run-out between centres. Put it back.",
		Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, After: []string{"readings_before"}, Minutes: [2]float64{45, 90}, Record: "a drawing of the old screw, and a photo beside a rule", Cautions: []string{isolate},
		Asks: []string{"Which way does the slide go when the handle is turned clockwise? Write it beside the drawing before a bar is ordered.", "Is ten turns ten times the lead, or is the thread an inch one?"}})
}

// holeFor is the hole that the longer screw's tip goes through.
func (newFeed) holeFor(m *making, wall, t *axis.Part) {
	if !m.more(m.Amount) {
		return
	}
	m.step(cut, "", part.Operation{Key: "bore_" + wall.Key, Do: "Drill the " + wall.Label + " for the screw's tip, in line with the bracket's bore, to " + m.Units.With(m.or(t.Key+".dia", 12)+2) + ": a thin drill first.",
		Needs: []part.Capability{part.Milling}, Minutes: [2]float64{45, 120}, Record: "how far the hole is from the screw all round, with a photo", Cautions: []string{eyes, ironDust},
		Asks: []string{"What is behind the wall there: an oil way, a tapped hole, a cable?"}})
}
