package axis

import (
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
	if !has("flange") || !has("bolt_length") || !has("bolt_dia") {
		return
	}
	sc.Measure(quiet("spacer", "spacer under the bracket", "t_s", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	sc.Formula(quiet("grip", "bolt's grip", "t_g", unit.MM), "flange + spacer", "geometry")
	sc.Formula(quiet("bolt_engagement", "bolt in the casting", "l_e", unit.MM), "bolt_length - grip", "geometry")
	sc.Formula(quiet("bolt_least", "least engagement of a bolt in iron", "l_min", unit.MM), "1.5 * bolt_dia", "common practice, no source: 1.5 diameters in cast iron")
	sc.Check(sheet.Check{Key: "bolt_check", Label: "Bracket's bolts in the casting", Figure: "bolt_engagement", Limit: "bolt_least", Level: sheet.Rule,
		Sentence: "{figure} of the bolts' thread is in the casting, and {limit} is the least.", Source: "common practice, no source"})
	if has("tapped_depth") {
		sc.Formula(quiet("bolt_bottom", "room below the bolts", "c_b", unit.MM), "tapped_depth - bolt_engagement", "geometry")
		assumed(sc, quiet("bolt_room", "room wanted below a bolt", "1", unit.MM), 1, "common practice, no source")
		sc.Check(sheet.Check{Key: "bottom_check", Label: "Bracket's bolts clear of the holes' bottom", Figure: "bolt_bottom", Limit: "bolt_room", Level: sheet.Rule,
			Sentence: "{figure} is left below the bolts, and {limit} is wanted.", Source: "common practice, no source"})
	}
}

// defineShaftEnd: what must fit on the screw beyond the bracket, against what
// of the screw sticks out there.
func (l *Layout) defineShaftEnd() {
	b, okB := l.WithRole("bracket")
	shank, okS := l.WithRole("shank")
	if !okB || !okS {
		return
	}
	sc := l.Scope.In("shaft_end")
	names := sheet.With{"bracket_to": b.Key + ".to", "shank_to": shank.Key + ".to"}
	for i := range l.Parts {
		if p := &l.Parts[i]; p.Role == "dial" || p.Role == "handle" || p.Role == "lock_nut" {
			sc.Family("stack", "parts on the screw's end", unit.MM, p.Key+".to")
		}
	}
	if len(l.Parts) == 0 || !l.hasStack() {
		return
	}
	sc.Family("extensions", "extensions of the screw", unit.MM)
	sc.Formula(quiet("needed", "needed beyond the bracket", "needed", unit.MM), "max(stack) - bracket_to", "geometry: all that stands on the screw's end", names)
	sc.Formula(shown("out", "screw's end beyond the bracket", "out", unit.MM), "shank_to - bracket_to", "geometry", names)
	sc.Formula(quiet("short", "screw's end too short by", "short", unit.MM), "max(0, needed - out)", "geometry")
	sc.Formula(quiet("missing", "screw's end still too short by", "missing", unit.MM), "short - sum(extensions)", "geometry")
	sc.Check(sheet.Check{Key: "check", Label: "Screw's end carries dial, handle and nut", Figure: "missing", Limit: "touching", AtMost: true, Level: sheet.Stop,
		Sentence: "The screw's end is {figure} too short for what stands on it.", Source: "geometry"})
}

func (l *Layout) hasStack() bool {
	for _, r := range []string{"dial", "handle", "lock_nut"} {
		if _, ok := l.WithRole(r); ok {
			return true
		}
	}
	return false
}

// defineScrew: what a nut that is not in line does to the screw, and how far
// its free end hangs down.
func (l *Layout) defineScrew() {
	nut, okN := l.WithRole("nut")
	thread, okT := l.WithRole("thread")
	bracket, okB := l.WithRole("bracket")
	if !okN || !okT || !okB || !l.Scope.Has(thread.Key+".root") {
		return
	}
	sc := l.Scope.In("screw_line")
	assumed(sc, quiet("modulus", "modulus of steel", "E", unit.MPa), screw.SteelModulus, screw.SteelModulusSource)
	assumed(sc, quiet("density", "density of steel", "ρ", unit.Density), screw.SteelDensity/unit.Density.Scale, screw.SteelDensitySource)
	assumed(sc, quiet("misalignment", "nut off the screw's line", "e", unit.MM), 0.02, "assumed: pinched up at the near end and checked with a gauge")
	assumed(sc, quiet("side_force_most", "side force above which it is felt", "F", unit.Newton), 200, "common practice, no source")
	assumed(sc, quiet("sag_most", "most sag of a free end", "f", unit.Micrometre), 50, "common practice, no source: 0.05 mm")
	root := sheet.With{"root": thread.Key + ".root"}
	sc.Method(quiet("second_moment", "second moment of the screw's root", "I", unit.MM4), screw.SecondMoment, root)
	// The nut is nearest to the bracket where the handle's side and the slide come together.
	at, text := "asked_plus", "bracket_from - (nut_from + nut_to) / 2 - s"
	if nut.Side == Fixed {
		at, text = "asked_minus", "bracket_from + s - (nut_from + nut_to) / 2"
	}
	sc.Formula(quiet("distance", "middle of the nut to the bracket, nearest", "a", unit.MM), "max(mm(1), "+text+")", "geometry",
		sheet.With{"bracket_from": bracket.Key + ".from", "nut_from": nut.Key + ".from", "nut_to": nut.Key + ".to", "s": at})
	sc.Method(quiet("side_force", "side force of a nut off the line", "F", unit.Newton), screw.SideForce)
	sc.Check(sheet.Check{Key: "side_check", Label: "Side force of the nut, nearest the bracket", Figure: "side_force", Limit: "side_force_most", AtMost: true, Level: sheet.Note, Advice: true,
		Sentence: "A nut as far off the line as is assumed presses with {figure} where it comes nearest the bracket; above {limit} it is felt. Pinch the nut up at that end, then wind out and tighten.",
		Source:   screw.SideForce.Source})
	free := "max(0, nut_from + s - thread_from)"
	if nut.Side == Fixed {
		free = "max(0, nut_from - (thread_from + s))"
	}
	sc.Formula(quiet("free", "free end of the screw beyond the nut", "L", unit.MM), free, "geometry",
		sheet.With{"nut_from": nut.Key + ".from", "thread_from": thread.Key + ".from", "s": at})
	sc.Method(quiet("sag", "sag of the free end", "f", unit.Micrometre), screw.Sag, root)
	sc.Check(sheet.Check{Key: "sag_check", Label: "Sag of the screw's free end", Figure: "sag", Limit: "sag_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The free end of the screw hangs {figure} low; {limit} is the most.", Source: screw.Sag.Source})
}
