package axis

import (
	"fmt"
	"math"

	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// threadWindow: full engagement, and part engagement down to the least.
func (l *Layout) threadWindow(nut, thread *Part) {
	l.defineThread(nut, thread)
	sc := l.Scope.In(nut.Key + "_on_" + thread.Key)
	p := pairOf(nut, thread)
	names := sheet.With{"dia": thread.Key + ".dia", "pitch": thread.Key + ".profile", "nut_length": nut.Key + ".length", "thread_length": thread.Key + ".length"}
	sc.Formula(quiet("window", "most travel with the nut fully on the thread", "window", unit.MM), "thread_length - nut_length",
		"geometry: a spacer moves this window and does not widen it", names)
	l.Limit(sc, quiet("nut_least", nut.Label+": least length", "e", unit.MM), screw.NutLeast, names)
	l.Limit(sc, quiet("least", "least engagement of the "+nut.Label, "e", unit.MM), screw.EngagementLeast, names)
	l.Limit(sc, quiet("least_tight", "engagement above the least that is preferred", "", unit.MM), screw.EngagementPreferred, names)
	for _, e := range l.ends() {
		k := string(e.End)
		sc.Formula(quiet("spare_"+k, fmt.Sprintf("%s beyond the %s, %s", thread.Label, nut.Label, e.name), "spare", unit.MM), p.spare(e), "geometry", p.faces)
		sc.Formula(quiet("engaged_"+k, nut.Label+" engaged, "+e.name, "engaged", unit.MM), p.overlap(), "geometry", p.at(e))
		sc.Check(sheet.Check{Key: "full_" + k, Label: capital(nut.Label) + " on full thread, " + e.name, Figure: "spare_" + k, Limit: "touching", Level: sheet.Rule, Advice: true,
			Sentence: "Full thread left beyond the " + nut.Label + ": {figure}; past it the engagement falls.", Source: "geometry"})
		sc.Check(sheet.Check{Key: "least_" + k, Label: capital(nut.Label) + " engaged, " + e.name, Figure: "engaged_" + k, Limit: "least", Tight: "least_tight", Level: sheet.Rule,
			Sentence: "{figure} of the " + nut.Label + " is on full thread, and {limit} is the least.", Source: screw.EngagementLeast.Source, Remedies: []string{"new_screw"}})
		l.holds(sc, p, e, nut.Label+" on the thread")
	}
	l.shankJam(nut, thread)
}

// defineThread gives the diameters that follow from a thread's form.
func (l *Layout) defineThread(nut, thread *Part) {
	form := thread.Entries["form"].Typed
	root, bore := screw.Root, screw.NutBore
	in := l.Scope.In(thread.Key)
	in.Measure(sheet.Q{Key: "starts", Label: thread.Label + " starts", Symbol: "n", Unit: unit.Count, Quiet: true, Whole: true}, sheet.Leaf{Value: 1, Origin: sheet.Chosen, Note: "one, as found"})
	in.Formula(quiet("profile", "pitch of the profile", "P", unit.MM), "pitch / starts", "definition: lead = pitch × starts")
	profile := sheet.With{"pitch": thread.Key + ".profile"}
	switch form {
	case "", "metric":
	case "trapezoidal":
		root, bore = screw.RootTrapezoidal, screw.NutBoreTrapezoidal
		in.Method(quiet("crest_clearance", "crest clearance", "a_c", unit.MM), screw.CrestClearance, profile)
	default:
		l.problem(thread.Key+".form", "choose one of the list")
	}
	if !l.Scope.Has(thread.Key + ".root") {
		in.Method(quiet("root", "root diameter of the screw", "d_3", unit.MM), root, profile)
	}
	if !l.Scope.Has(nut.Key + ".bore") {
		l.Scope.In(nut.Key).Method(quiet("bore", nut.Label+" minor diameter", "D_1", unit.MM), bore,
			sheet.With{"dia": thread.Key + ".dia", "pitch": thread.Key + ".profile"})
	}
}

// shankJam: a shank larger than the nut's bore is a stop at the thread's end;
// a smaller one lets the nut run out over it, and engagement falls.
func (l *Layout) shankJam(nut, thread *Part) {
	shank, ok := l.WithRole("shank")
	if !ok || shank.Side != thread.Side {
		return
	}
	face := "to"
	if l.before(shank, thread) {
		face = "from"
	}
	e, fixed, moving := l.ends()[0], thread, nut
	if nut.Side != Moving {
		fixed, moving = nut, thread
	}
	// A moving nut jams at the end to which it moves, a moving screw at the other.
	if (face == "to") != (nut.Side == Moving) {
		e = l.ends()[1]
	}
	i := map[string]int{"from": 0, "to": 1}[face]
	s := Stop{Key: "thread_end", Label: nut.Label + " jams at the thread's end", Says: "the " + nut.Label + " jams at the thread's end", End: e.End,
		Fixed: fixed.Key, Moving: moving.Key, Kind: Jams, Found: l.place[fixed.Key][i] - l.place[moving.Key][i]}
	faces := sheet.With{"shank_dia": shank.Key + ".dia", "nut_bore": nut.Key + ".bore", "fixed_face": fixed.Key + "." + face, "moving_face": moving.Key + "." + face}
	s.Unmeasured = math.IsNaN(s.Found) || !l.known(shank.Key+".dia") || !l.known(thread.Key+".dia") || !l.known(thread.Key+".pitch")
	text := "fixed_face - moving_face"
	switch sc := l.Scope.In(s.Key); {
	case math.IsNaN(s.Found):
		text = e.most + "(" + e.found + ", " + text + ")"
	case s.Unmeasured: // it went as far as that as found, so a shank whose end comes sooner passes
		sc.Fix(quiet("as_found", s.Label+", as found, if it does not pass, "+l.Moves()+" at", "", unit.MM), text, "geometry, as found", faces)
		text = "when(as_found " + map[End]string{Plus: "<", Minus: ">"}[e.End] + " " + e.found + ", " + e.never + ", " + text + ")"
	}
	l.Scope.In(s.Key).Formula(quiet("bound", "thread's end in the "+nut.Label+", "+l.Moves()+" at", "thread's end", unit.MM),
		"when(shank_dia > nut_bore, "+text+", "+e.never+")", "geometry: a shank larger than the nut's bore does not enter it",
		faces)
	l.stop(s, e, "between the "+nut.Label+" and the thread's end")
}

// before tells whether a part is known to lie before another.
func (l *Layout) before(p, q *Part) bool { return l.place[p.Key][1] <= l.place[q.Key][0]+overlap }

// known tells whether a leaf has a value.
func (l *Layout) known(name string) bool {
	leaf, ok := l.Scope.Leaf(name)
	return ok && leaf.Origin != sheet.Unknown
}
