package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/thread"
	"fettle/plan/unit"
)

// threadFriction is that of a nut on its screw, between oiled and dry.
const (
	threadFriction       = 0.15
	threadFrictionSource = "steel on bronze 0.10 to 0.15 oiled, 0.15 to 0.20 dry; on iron 0.15 to 0.20: handbook values, from memory"
)

// flanks lays out what the torque of a thread follows from, in the upgrade's own
// scope: pitch_dia, flank and friction.
func flanks(s *Site, t *axis.Part) {
	form := thread.Metric
	if t.Entries["form"].Typed == "trapezoidal" {
		form = thread.Trapezoidal
	}
	s.Scope.Method(quiet("pitch_dia", "diameter on which the flanks bear", "d_2", unit.MM), form.PitchDia, threadOf(s.Layout, t))
	s.own(quiet("flank", "half of the flanks' angle", "α", unit.Degree), form.Angle/2, "the thread's form")
	s.Layout.Assume(s.Scope, quiet("friction", "friction of the thread", "µ", unit.One), threadFriction, threadFrictionSource)
}

// threadOf are the words of a thread's diameter and of its profile's pitch, which
// is not its lead where it has several starts.
func threadOf(l *axis.Layout, t *axis.Part) sheet.With {
	return sheet.With{"dia": t.Key + ".dia", "pitch": profileOf(l, t)}
}

// profileOf is the key of the profile's pitch.
func profileOf(l *axis.Layout, t *axis.Part) string {
	if l.Scope.Has(t.Key + ".profile") {
		return t.Key + ".profile"
	}
	return t.Key + ".pitch"
}

// wornMost is by how much lost motion may differ along the travel before the
// screw counts as worn, in mm.
const wornMost = 0.1

// evenScrew checks that the screw is worn evenly enough for a nut alone. Lost
// motion taken at one place says nothing about that, unless the screw is new.
func evenScrew(s *Site) (worn string) {
	l, sc := s.Layout, s.Scope
	worn = "lost_motion_spread"
	if !l.Scope.Has(worn) {
		sc.Measure(quiet("elsewhere", "lost motion at both ends of the travel as well", "u", unit.MM), sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
		sc.Formula(quiet("spread", "lost motion differs along the travel by", "u_d", unit.MM), "when(screw_renewed > 0, 0, elsewhere)", "definition; a new screw is worn nowhere")
		worn = sc.Key("spread")
	}
	l.Assume(sc, quiet("worn_most", "most that a screw may be worn for a nut alone", "", unit.MM), wornMost, "common practice, no source: above 0.1 mm along the travel the screw is worn too")
	sc.Check(sheet.Check{Key: "worn_check", Label: "Screw worn evenly enough", Figure: worn, Limit: "worn_most", AtMost: true, Level: sheet.Rule,
		Sentence: "Lost motion differs by {figure} along the travel, and beyond {limit} the screw is worn as well: a nut that fits where it is worn goes hard where it is not.", Source: "common practice, no source", Remedies: []string{"new_screw"}})
	return worn
}

// runsFree keeps a little play in a nut that nothing presses.
func runsFree(s *Site, play string) {
	s.Layout.Assume(s.Scope, quiet("play_least", "least play of a feed nut", "", unit.MM), 0.02, "common practice, no source: less goes hard when the screw warms or is not quite straight")
	s.Scope.Check(sheet.Check{Key: "play_check", Label: "Nut runs free", Figure: play, Limit: "play_least", Level: sheet.Rule,
		Sentence: "A play of {figure} is asked for, and {limit} is the least.", Source: "common practice, no source"})
}

// turned keeps what a thrust asks of the handle: the torque against it and the
// share of the work that arrives, of a thread whose flanks are laid out.
func turned(s *Site, force string, lead string) {
	sc := s.Scope
	names := sheet.With{"force": force, "lead": lead}
	sc.Method(quiet("thread_against", "torque of the thread against the thrust", "T_s", unit.NewtonMetre), screw.ThreadAgainst, names)
	sc.Method(quiet("thread_with", "torque of the thread with the thrust", "T_w", unit.NewtonMetre), screw.ThreadWith, names)
}
