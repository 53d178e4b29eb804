package axis

import (
	"fettle/plan/dial"
	"fettle/plan/joint"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// defineBracket: what holds the bracket. A spacer under it lengthens the grip.
func (l *Layout) defineBracket() {
	b, ok := l.WithRole("bracket")
	if !ok {
		return
	}
	sc := l.Scope.In(b.Key)
	has := func(name string) bool { return l.Scope.Has(b.Key + "." + name) }
	sc.Measure(shown("spacer", "spacer under the "+b.Label, "t_s", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	if !has("flange") || !has("bolt_length") || !has("bolt_dia") {
		return
	}
	sc.Formula(quiet("grip", "bolt's grip", "t_g", unit.MM), "flange + spacer", "geometry")
	sc.Formula(quiet("bolt_engagement", "bolt in the casting", "l_e", unit.MM), "bolt_length - grip", "geometry")
	l.Limit(sc, quiet("bolt_least", b.Label+": least engagement of its bolts", "l_min", unit.MM), joint.BoltInIron)
	sc.Check(sheet.Check{Key: "bolt_check", Label: capital(b.Label) + "'s bolts in the casting", Figure: "bolt_engagement", Limit: "bolt_least", Level: sheet.Rule,
		Sentence: "{figure} of the bolts' thread is in the casting, and {limit} is the least.", Source: joint.BoltInIron.Source})
	if has("tapped_depth") {
		sc.Formula(quiet("bolt_bottom", "room below the bolts", "c_b", unit.MM), "tapped_depth - bolt_engagement", "geometry")
		l.Assume(sc, quiet("bolt_room", b.Label+": room wanted below its bolts", "1", unit.MM), 1, "common practice, no source")
		sc.Check(sheet.Check{Key: "bottom_check", Label: capital(b.Label) + "'s bolts clear of the holes' bottom", Figure: "bolt_bottom", Limit: "bolt_room", Level: sheet.Rule,
			Sentence: "{figure} is left below the bolts, and {limit} is wanted.", Source: "common practice, no source"})
	}
}

// defineShaftEnd: what must fit on the screw beyond the bracket, against what
// of the screw sticks out there.
func (l *Layout) defineShaftEnd() {
	b, okB := l.WithRole("bracket")
	shank, okS := l.WithRole("shank")
	if !okB || !okS || b.Side != shank.Side {
		return
	}
	sc := l.Scope.In("shaft_end")
	// The bracket's length, not its end: a longer bracket is then what the rest follows from.
	names := sheet.With{"bracket_from": b.Key + ".from", "bracket_length": b.Key + ".length", "shank_to": shank.Key + ".to"}
	for i := range l.Parts {
		if p := &l.Parts[i]; p.Role == "dial" || p.Role == "handle" || p.Role == "lock_nut" {
			sc.Family("stack", "parts on the screw's end", unit.MM, p.Key+".to")
		}
	}
	if !l.hasStack() {
		return
	}
	sc.Family("extensions", "extensions of the screw", unit.MM)
	sc.Formula(quiet("needed", "needed beyond the "+b.Label, "needed", unit.MM), "max(stack) - bracket_from - bracket_length", "geometry: all that stands on the screw's end", names)
	sc.Formula(shown("out", "screw beyond the "+b.Label, "out", unit.MM), "shank_to - bracket_from - bracket_length", "geometry", names)
	sc.Formula(quiet("short", "screw's end too short by", "short", unit.MM), "max(0, needed - out)", "geometry")
	sc.Formula(quiet("missing", "screw's end still too short by", "missing", unit.MM), "short - sum(extensions)", "geometry")
	sc.Check(sheet.Check{Key: "check", Label: "Screw's end carries dial, handle and nut", Figure: "missing", Limit: "touching", AtMost: true, Level: sheet.Stop,
		Sentence: "What the screw's end is too short by, for all that stands on it: {figure}.", Source: "geometry"})
}

func (l *Layout) hasStack() bool {
	for _, r := range []string{"dial", "handle", "lock_nut"} {
		if _, ok := l.WithRole(r); ok {
			return true
		}
	}
	return false
}

// defineDial: what a line of the dial is worth, and how far apart its lines are.
func (l *Layout) defineDial() {
	d, ok := l.WithRole("dial")
	if !ok || !l.Scope.Has(d.Key+".divisions") || !l.Scope.Has(d.Key+".dia") {
		return
	}
	if t, okT := l.WithRole("thread"); okT || l.Scope.Has("per_turn") {
		l.DialMarks(d, t)
		l.DefineReading(d.Key + ".per_line")
	}
}

// DefineReading defines the smallest step to which the axis's position is read:
// that of a scale or dial that is added, and before it what figure tells.
func (l *Layout) DefineReading(figure string) {
	if l.Scope.Has("reads_to") {
		return
	}
	l.Scope.In("reading").Measure(quiet("added", "smallest step of what is added to read by", "q", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	to := quiet("reads_to", "position is read to", "q", unit.MM)
	to.Decimals = 4
	l.Scope.Formula(to, "when(added > 0, added, found)", "definition: by what is added, else as found", sheet.With{"added": "reading.added", "found": figure})
}

// DialMarks defines what a line of a dial is worth and how far apart its lines
// are, for a dial of which both can be computed. t is the screw that it reads,
// nil where the handle turns something else.
func (l *Layout) DialMarks(d, t *Part) {
	sc := l.Scope.In(d.Key)
	line := shown("per_line", "slide moved, line to line of the "+d.Label, "l/N", unit.MM)
	line.Decimals = 4
	sc.Formula(line, dial.PerDivision.Text, dial.PerDivision.Source, sheet.With{"lead": l.lead(t)})
	sc.Method(shown("spacing", "lines of the "+d.Label+" apart", "s", unit.MM), dial.Spacing, sheet.With{"dial_dia": "dia"})
}

// lead is the key of what a turn of the dial moves: the screw's own lead, or what
// comes out of gears or a pinion.
func (l *Layout) lead(t *Part) string {
	if l.Scope.Has("per_turn") && (t == nil || l.Scope.Has("gear_ratio") || l.Arr.Drives[0].Of["lead"] == "") {
		return "per_turn"
	}
	return t.Key + ".pitch"
}

// defineHandle: what a hand gives at the rim of the handle.
func (l *Layout) defineHandle() {
	if h, ok := l.WithRole("handle"); ok && l.Scope.Has(h.Key+".dia") && l.Scope.Has("hand_torque") {
		l.RimForce(h)
	}
}

// RimForce defines the force at the rim of a handle whose diameter and torque are
// on the sheet.
func (l *Layout) RimForce(h *Part) {
	sc := l.Scope.In(h.Key)
	sc.Formula(quiet("radius", h.Label+"'s radius", "R", unit.MM), "dia / 2", "geometry")
	sc.Method(shown("rim_force", "force at the "+h.Label+"'s rim", "F", unit.Newton), screw.RimForce, sheet.With{"torque_against": "hand_torque"})
}
