package axis

import (
	"math"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// lostMotionSizes are what the handle turns before the slide moves, at three places.
var lostMotionSizes = []Size{
	lostMotion("lost_motion", "lost motion, middle of the travel", "in the middle"),
	lostMotion("lost_motion_minus", "lost motion, at the minus end", "at the end to which positions fall"),
	lostMotion("lost_motion_plus", "lost motion, at the plus end", "at the end to which positions rise"),
}

func lostMotion(key, label, where string) Size {
	return Size{Key: key, Label: label, Symbol: "u", Unit: unit.MM, Least: NothingOrMore, Optional: true, With: "dial_gauge",
		How: "a dial gauge on the slide, " + where + ": wind one way until it moves, then back until it moves again; what the dial shows in between"}
}

func (l *Layout) asksLostMotion() bool {
	for _, s := range lostMotionSizes {
		if l.Scope.Has(s.Key) {
			return true
		}
	}
	return false
}

// DefineLostMotion splits the lost motion of a screw axis into what the screw's
// bearing lets go, and what the nut does, unless that is done. What was not
// measured is not known.
func (l *Layout) DefineLostMotion() {
	sc := l.Scope
	if sc.Has("backlash") {
		return
	}
	if !l.asksLostMotion() {
		sc.Measure(sizeQ(lostMotionSizes[0]), sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
	}
	l.DefineEndFloat()
	var keys []string
	for _, s := range lostMotionSizes {
		if sc.Has(s.Key) {
			keys = append(keys, s.Key)
		}
	}
	sc.Family("lost_motions", "lost motion as measured", unit.MM, keys...)
	sc.Fix(quiet("nut_play_found", "nut's play on the screw, as found", "b_0", unit.MM), "max(0, max(lost_motions) - end_float)", "definition: lost motion is end float and the nut's play together; the worst of the places counts")
	sc.Measure(quiet("nut_play_less", "nut's play taken away", "b_-", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	sc.Formula(shown("backlash", "backlash between screw and nut", "b", unit.MM), "max(0, nut_play_found - nut_play_less)", "definition")
	sc.Formula(shown("lost_motion_all", "lost motion, all together", "u", unit.MM), "end_float + backlash", "definition: end float and backlash together")
	sc.Measure(quiet("screw_renewed", "screws made anew", "", unit.One), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	if len(keys) > 1 {
		sc.Formula(quiet("lost_motion_spread", "lost motion differs along the travel by", "u_d", unit.MM), "when(screw_renewed > 0, 0, max(lost_motions) - min(lost_motions))", "geometry; a new screw is worn nowhere")
	}
}

// DefineEndFloat defines the end float as not known, where it was not measured.
func (l *Layout) DefineEndFloat() {
	if !l.Scope.Has(endFloat.Key) {
		l.Scope.Measure(sizeQ(endFloat), sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
	}
}

func sizeQ(s Size) sheet.Q {
	return sheet.Q{Key: s.Key, Label: s.Label, Symbol: s.Symbol, Unit: s.Unit, Quiet: !s.Visible, Whole: s.Whole}
}
