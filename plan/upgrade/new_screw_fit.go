package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

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
	at := asFound(l, t.Key+"."+face)
	for i := range l.Parts {
		p := &l.Parts[i]
		role, _ := axis.RoleNamed(p.Role)
		near := asFound(l, p.Key+"."+map[string]string{"from": "to", "to": "from"}[face])
		const within = 0.5 // mm that two readings may differ by
		before := face == "from" && near <= at+within || face == "to" && near >= at-within
		if role.Cut && (p.Side == axis.Moving) == (t.Side == axis.Moving) && before {
			return p, true
		}
	}
	return nil, false
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
	l.Assume(sc, quiet("wound", "fastest that it is wound", "n_max", unit.RPM), 150, "common practice, no source: a hand stays under 150 turns a minute")
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
