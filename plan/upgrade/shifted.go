package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// A shift moves the thread's window along the axis and widens nothing: what one
// end gains, the other one may lose.

// shifts asks for as much more at one end as the window moves there, lets move
// shift it, and settles what becomes of the other end.
func shifts(s *Site, gains axis.End, by string, move func()) {
	other := opposite(gains)
	extendTravel{}.watch(s, other)
	held := heldBy(s, other)
	move()
	s.Layout.Scope.Change("extra_"+string(gains), "was + by", "as asked: as far as the window moves", sheet.With{"by": by})
	loses(s, other, held)
}

// aimAt makes the travel at an end the chief goal, and what travel is for the others.
func (s *Site) aimAt(e axis.End) {
	s.aim("reach_"+string(e), unit.MM, e == axis.Minus)
	for _, g := range s.Layout.Capacity.Goals {
		s.Goals = append(s.Goals, sheet.Goal{Key: s.Layout.Find(g.Key), Less: g.Small})
	}
}

// heldBy keeps by how much the nut was short of its least engagement, and names
// the scope in which the nut on its thread is watched; "" where it is not.
func heldBy(s *Site, e axis.End) (on string) {
	t, ok := runOf(s, e)
	if !ok {
		return ""
	}
	on = t.nut.Key + "_on_" + t.thread.Key
	t.sc.Fix(quiet("held_before", "engagement above the least, before", "", unit.MM), "min(0, engaged - least)", "decided: as it stood",
		sheet.With{"engaged": on + ".engaged_" + string(e), "least": on + ".least"})
	return on
}

// loses asks how much of the other end's travel goes with the shift.
func loses(s *Site, e axis.End, on string) {
	l := s.Layout
	chosen := s.choose(Field{Name: "other", Label: capital(l.EndName(e)) + ", where the window goes away from", Options: []Option{
		{"least", "the nut may engage in part, down to the least; travel beyond that is given up"},
		{"full", "the nut stays on full thread, and the travel for that is given up"},
		{"keep", "the travel is asked for as before"}}}, "least")
	any := false
	for _, st := range stopsAt(l, e) {
		any = true
		sc := s.Scope.In(st.Key)
		sc.Fix(quiet("need", "what is lost where "+st.Says, "need", unit.MM), "max(0, before - gap)", "decided: as much as the shift takes", sheet.With{"gap": st.Key + ".gap"})
		s.Scope.Family("needs", "what the shift takes", unit.MM, sc.Key("need"))
	}
	if t, ok := runOf(s, e); ok && on != "" {
		t.sc.Fix(quiet("full", "full thread that the shift takes", "", unit.MM), "max(0, before - spare)", "decided", sheet.With{"spare": t.spare})
		t.sc.Fix(quiet("least", "engagement that the shift takes below the least", "", unit.MM), "max(0, held_before - (engaged - nut_least))", "decided",
			sheet.With{"engaged": on + ".engaged_" + string(e), "nut_least": on + ".least"})
		if chosen != "keep" {
			any = true
			s.Scope.Family("needs", "what the shift takes", unit.MM, t.sc.Key(chosen))
		}
	}
	if chosen == "keep" || !any {
		return
	}
	s.Scope.Fix(quiet("lost", "travel given up, "+l.EndName(e), "", unit.MM), "max(needs)", "decided: the most that any of them takes")
	l.Scope.Change("extra_"+string(e), "was - by", "decided: given up", sheet.With{"by": s.Scope.Key("lost")})
}

// shiftTold tells what a shift gives at one end and takes from the other.
func (t *teller) shiftTold(s *Site, r *sheet.Result, gains axis.End, by float64) {
	l := s.Layout
	goes := " goes "
	if t.failures(s, r) {
		goes = " would go "
	}
	got, known := gained(r, l, []axis.End{gains})
	t.text("The " + l.Moves() + goes)
	switch {
	case !known && got > by:
		t.strong(show(s, by)).text(" further " + l.EndName(gains) + ", at most, until " + missing(r, l, []axis.End{gains}))
	case got <= shownLength:
		t.strong("no further").text(" " + l.EndName(gains) + limitedBy(r, l, []axis.End{gains}))
	default:
		t.strong(show(s, got)).text(" further " + l.EndName(gains))
		if got < by-shownLength {
			t.text(", not the ").strong(show(s, by)).text(" that the window moves" + limitedBy(r, l, []axis.End{gains}))
		}
	}
	t.text(".")
	other := opposite(gains)
	switch lost, ok := r.Figure(s.Scope.Key("lost"), sheet.Planned); {
	case !ok || !lost.Known():
		t.lost(s, r, other)
	case lost.Value > shownLength:
		t.text(" " + capital(l.EndName(other)) + ", ").strong(show(s, lost.Value)).text(" is given up.")
	default:
		t.text(" " + capital(l.EndName(other)) + ", no travel is lost.")
	}
	if e, ok := runOf(s, other); ok {
		f, okF := r.Figure(s.Layout.Find(e.nut.Key+"_on_"+e.thread.Key+".engaged_"+string(other)), sheet.Planned)
		long, okL := r.Figure(s.Layout.Find(e.nut.Key+".length"), sheet.Planned)
		if okF && okL && f.Known() && long.Known() && f.Value < long.Value-shownLength {
			t.text(" There ").strong(show(s, f.Value)).text(" of the nut's " + show(s, long.Value) + " is on the thread.")
		}
	}
	if e, ok := runOf(s, gains); ok {
		if f, okF := r.Figure(l.Find(e.nut.Key+"_on_"+e.thread.Key+".window"), sheet.Planned); okF && f.Known() {
			t.text(" The window of full thread stays ").strong(show(s, f.Value)).text(" wide: it is moved, not widened.")
		}
	}
	t.goals(s, r)
}

// handleSign is the way in which the handle's end lies.
func handleSign(l *axis.Layout) string {
	if handleAt(l) == axis.Minus {
		return "-"
	}
	return "+"
}
