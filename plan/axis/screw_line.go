package axis

import (
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// line is how the screw stands to its nut, by the side on which the bracket
// holds it and by what moves: where the nut is nearest to the bracket, how far
// off it is there, and what of the screw is free on its other side.
type line struct {
	at             string // the position
	distance, free string // formulas
	face, tip, far string // faces: the bracket's near one, the thread's far one, the nut's far one
}

// lines are the four cases; the keys are the bracket's side and the nut's.
var lines = map[string]map[bool]line{
	"to": {
		true:  {"asked_plus", "face - middle - s", "far + s - tip", "from", "from", "from"},
		false: {"asked_minus", "face + s - middle", "far - tip - s", "from", "from", "from"},
	},
	"from": {
		true:  {"asked_minus", "middle + s - face", "tip - far - s", "to", "to", "to"},
		false: {"asked_plus", "middle - face - s", "tip + s - far", "to", "to", "to"},
	},
}

// defineScrewLine: what a nut that is not in line does to the screw, and how
// far its free end hangs down.
func (l *Layout) defineScrewLine() {
	nut, okN := l.WithRole("nut")
	thread, okT := l.WithRole("thread")
	bracket, okB := l.WithRole("bracket")
	if !okN || !okT || !okB || bracket.Side != thread.Side || !l.Scope.Has(thread.Key+".root") {
		return // a bracket that does not hold the screw tells nothing of it
	}
	side := "to"
	if l.before(bracket, thread) {
		side = "from"
	}
	c := lines[side][nut.Side == Moving]
	sc := l.Scope.In("screw_line")
	l.Assume(sc, quiet("modulus", "modulus of steel", "E", unit.MPa), screw.SteelModulus, screw.SteelModulusSource)
	l.Assume(sc, quiet("density", "density of steel", "ρ", unit.Density), screw.SteelDensity/unit.Density.Scale, screw.SteelDensitySource)
	l.Assume(sc, quiet("misalignment", "nut off the screw's line", "e", unit.MM), 0.02, "assumed: pinched up at the near end and checked with a gauge")
	l.Assume(sc, quiet("side_force_most", "side force of the nut above which it is felt", "F_max", unit.Newton), 200, "common practice, no source")
	l.Assume(sc, quiet("sag_most", "most sag of the screw's free end", "f_max", unit.Micrometre), 50, "common practice, no source: 0.05 mm")
	root := sheet.With{"root": thread.Key + ".root"}
	sc.Method(quiet("second_moment", "second moment of the screw's root", "I", unit.MM4), screw.SecondMoment, root)
	sc.Formula(quiet("middle", "middle of the "+nut.Label, "m", unit.MM), "(nut_from + nut_to) / 2", "geometry",
		sheet.With{"nut_from": nut.Key + ".from", "nut_to": nut.Key + ".to"})
	faces := sheet.With{"face": bracket.Key + "." + c.face, "tip": thread.Key + "." + c.tip, "far": nut.Key + "." + c.far, "s": c.at}
	sc.Formula(quiet("distance", "middle of the "+nut.Label+" to the "+bracket.Label+", nearest", "a", unit.MM), "max(mm(1), "+c.distance+")", "geometry", faces)
	sc.Method(quiet("side_force", "side force of a nut off the line", "F", unit.Newton), screw.SideForce)
	sc.Check(sheet.Check{Key: "side_check", Label: "Side force of the nut, nearest the bracket", Figure: "side_force", Limit: "side_force_most", AtMost: true, Level: sheet.Note, Advice: true,
		Sentence: "A nut as far off the line as is assumed presses with {figure} where it comes nearest the bracket; above {limit} it is felt. Pinch the nut up at that end, then wind out and tighten.",
		Source:   screw.SideForce.Source})
	if _, ok := l.WithRole("tail_bearing"); ok {
		return // held at both ends: nothing of it is free
	}
	sc.Formula(quiet("free", "free end of the screw beyond the "+nut.Label, "L", unit.MM), "max(0, "+c.free+")", "geometry", faces)
	sc.Method(quiet("sag", "sag of the free end", "f", unit.Micrometre), screw.Sag, root)
	sc.Check(sheet.Check{Key: "sag_check", Label: "Sag of the screw's free end", Figure: "sag", Limit: "sag_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The free end of the screw hangs {figure} low, and {limit} is the most.", Source: screw.Sag.Source})
}
