package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/joint"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// handleFixings are the ways of holding a wheel on its shaft, the usual first.
var handleFixings = []Option{{"key", "a parallel key"}, {"pin", "a cross pin"}, {"grub", "two grub screws"}}

// grubs are the grub screws that a handle's boss has room for.
var grubs = []Option{{"M4", "M4"}, {"M5", "M5"}, {"M6", "M6"}, {"M8", "M8"}}

// fixing compares what holds the wheel with the torque of a hand that pulls hard.
func (handwheel) fixing(s *Site, h *axis.Part) {
	l, sc := s.Layout, s.Scope
	shank, _ := l.WithRole("shank")
	names := sheet.With{"dia": shank.Key + ".dia", "radius": h.Key + ".radius", "key_long": h.Key + ".length"}
	l.Assume(sc, quiet("pull", "hard pull at the rim", "F", unit.Newton), 100, "common practice, no source: 100 N of one hand")
	sc.Formula(shown("could", "torque of a hard pull at the rim", "T", unit.NewtonMetre), "pull * radius", "definition", names)
	l.Assume(sc, quiet("factor", "factor on the hand's torque", "k", unit.One), joint.HandFactor, joint.HandFactorSource)
	sc.Method(quiet("jerk", "torque at the handle with its factor", "T", unit.NewtonMetre), joint.TorqueWanted)
	l.Limit(sc, quiet("torque_wanted", "torque wanted of the handle's fixing", "T", unit.NewtonMetre), sheet.Method{Text: "max(jerk, could)", Source: joint.TorqueWanted.Source + ", and no less than a hard pull at the rim"})
	switch s.choose(Field{Name: "fixed", Label: "Fast on the screw by", Options: handleFixings}, handleFixings[0].Value) {
	case "pin":
		s.typed(sc, quiet("pin", "cross pin", "d_p", unit.MM), Field{Name: "pin", Label: "Cross pin, diameter", Hint: "0.2 to 0.3 of the shaft"}, s.proposed(3), 0.5, 20, nan)
		l.Assume(sc, quiet("shear", "allowable shear of the pin", "τ", unit.MPa), joint.PinShear, joint.PinShearSource)
		sc.Method(quiet("carries", "torque that the pin carries", "T_p", unit.NewtonMetre), joint.PinnedSleeve, names)
		l.Limit(sc, quiet("pin_most", "thickest pin for the shaft", "", unit.MM), joint.PinMost, names)
		sc.Check(sheet.Check{Key: "pin_check", Label: "Shaft left beside the pin", Figure: "pin", Limit: "pin_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The pin is {figure}, and {limit} is the most that the shaft takes.", Source: joint.PinMost.Source})
	case "grub":
		g, _ := joint.GrubNamed(s.choose(Field{Name: "grub", Label: "Grub screws", Options: grubs}, "M5"))
		l.Assume(sc, quiet("holding_power", "holding power of "+g.Key+", cup point", "", unit.Newton), g.Holding, g.Source)
		l.Assume(sc, quiet("held", "share of it to be counted on", "", unit.One), joint.GrubHeld, joint.GrubHeldSource)
		l.Assume(sc, quiet("number", "factor of two screws", "", unit.One), joint.GrubSecond, joint.GrubSecondSource)
		sc.Measure(quiet("point", "factor of the point", "", unit.One), sheet.Leaf{Value: 1, Origin: sheet.Chosen, Note: "cup point"})
		sc.Method(quiet("holding", "push that the grub screws hold", "F", unit.Newton), joint.GrubHolding)
		sc.Method(quiet("carries", "torque that the grub screws carry", "T_g", unit.NewtonMetre), joint.GrubTorque, names)
	default:
		key, ok := joint.KeyFor(asFound(l, shank.Key+".dia"))
		if !ok {
			return
		}
		sc.Measure(quiet("key_high", "height of the key", "h", unit.MM), sheet.Leaf{Value: key.High, Origin: sheet.Chosen, Note: joint.KeySource})
		l.Assume(sc, quiet("bearing", "pressure that the key's flanks take", "p", unit.MPa), joint.PinBearing, joint.PinBearingSource)
		sc.Method(quiet("carries", "torque that the key carries", "T_k", unit.NewtonMetre), joint.KeyTorque, names)
	}
	sc.Check(sheet.Check{Key: "torque_check", Label: "Handle fast on the screw", Figure: "carries", Limit: "torque_wanted", Level: sheet.Rule,
		Sentence: "It carries {figure}, and {limit} is wanted.", Source: "elementary mechanics"})
}

// nutThread: the nut is on its thread with all its turns, and can be tightened.
// An extension is cut its thread to suit.
func (handwheel) nutThread(s *Site) {
	l, sc := s.Layout, s.Scope
	nut, okN := l.WithRole("lock_nut")
	shank, _ := l.WithRole("shank")
	if !okN || !l.Scope.Has(shank.Key+".end_thread") {
		return
	}
	names := sheet.With{"nut_from": nut.Key + ".from", "nut_to": nut.Key + ".to", "shank_to": shank.Key + ".to", "end_thread": shank.Key + ".end_thread", "visible": "touching"}
	if l.Scope.Has("extension.visible") {
		names["visible"] = "extension.visible"
	}
	sc.Formula(quiet("nut_on", "nut on its thread", "l_n", unit.MM), "when(visible > 0, nut_to - nut_from, min(shank_to, nut_to) - max(nut_from, shank_to - end_thread))", "geometry", names)
	sc.Check(sheet.Check{Key: "nut_check", Label: "Lock nut on its thread", Figure: "nut_on", Limit: nut.Key + ".length", Level: sheet.Rule,
		Sentence: "{figure} of the nut is on the thread, and it is {limit} long.", Source: "geometry"})
	sc.Formula(quiet("begins", "thread begun inside the handle", "", unit.MM), "when(visible > 0, inf, nut_from - shank_to + end_thread)", "geometry", names)
	sc.Check(sheet.Check{Key: "begins_check", Label: "Nut tightens before its thread ends", Figure: "begins", Limit: "touching", Level: sheet.Rule,
		Sentence: "The thread begins {figure} inside the handle; it must not begin beyond it, or the nut stops on the shank: put a washer under it, or cut the thread further.", Source: "geometry"})
}

// keyway keeps wall in a sleeve on the screw's end, where the handle's keyway is
// cut over the joint.
func (handwheel) keyway(s *Site, h *axis.Part) {
	l, sc := s.Layout, s.Scope
	shank, _ := l.WithRole("shank")
	key, ok := joint.KeyFor(asFound(l, shank.Key+".dia"))
	if !ok || !l.Scope.Has("extension.outside") || s.input("fixed", handleFixings[0].Value) != handleFixings[0].Value {
		return
	}
	sc.Measure(quiet("keyway", "keyway's depth in the shaft", "t_1", unit.MM), sheet.Leaf{Value: key.InShaft, Origin: sheet.Chosen, Note: joint.KeySource})
	sc.Formula(quiet("left", "sleeve's wall under the keyway", "t", unit.MM), "when(sleeve > 0, when(handle_from < shank_to - cut_back, (outside - shaft) / 2 - keyway, inf), inf)", "geometry: where the handle stands over the joint",
		sheet.With{"sleeve": "extension.sleeve", "handle_from": h.Key + ".from", "shank_to": shank.Key + ".to", "cut_back": "extension.cut_back", "outside": "extension.outside", "shaft": shank.Key + ".dia"})
	l.Limit(sc, quiet("left_least", "least wall under a keyway", "t_min", unit.MM), joint.SleeveWallLeast, sheet.With{"dia": shank.Key + ".dia"})
	sc.Check(sheet.Check{Key: "keyway_check", Label: "Wall under the handle's keyway", Figure: "left", Limit: "left_least", Level: sheet.Rule,
		Sentence: "{figure} of the sleeve is left under the keyway, where it lies over the joint, and {limit} is the least: stop the keyway short of it, or take a pin.", Source: joint.SleeveWallLeast.Source})
}
