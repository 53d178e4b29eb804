package upgrade

import (
	"math"

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
	if more == asLong {
		nutOfNew(s, nut, t, "")
		s.Amount, s.Most = sc.Key("play"), 0.3
		return
	}
	nutOfNew(s, nut, t, s.proposed(0.05))
	s.Goals = append(s.Goals, sheet.Goal{Key: l.Find("lost_motion_all"), Less: true})
}

// nutOfNew is the nut that is made with a new screw: with how much play, for which
// thread, and how long. proposal is the play, as it would be typed.
func nutOfNew(s *Site, nut, t *axis.Part, proposal string) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("play", "play of the new nut on the new screw", "b_n", unit.MM), Field{Name: "play", Label: "Play wanted of the nut", Hint: "0.05; 0.03 to 0.1 is usual"}, proposal, 0, 1, nan)
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
	old := asFound(l, t.Key+".dia")
	s.typed(s.Scope, quiet("dia", "diameter of the new screw", "d", unit.MM), Field{Name: "dia", Label: "Diameter of its thread", Hint: "the old one's; larger is stiffer"}, s.proposed(old), 2, 100, old)
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
