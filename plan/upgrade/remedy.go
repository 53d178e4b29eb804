package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// remedy is one way of putting a stop further out. by is the key of how far.
type remedy struct {
	key, label string
	apply      func(s *Site, st axis.Stop, by string)
}

func remedyNamed(list []remedy, key string) remedy {
	for _, r := range list {
		if r.key == key {
			return r
		}
	}
	return remedy{apply: func(*Site, axis.Stop, string) {}}
}

// remediesFor lists what can be done about a stop, the usual one first. It
// depends on what the two parts are, never on how far they are to go.
func remediesFor(l *axis.Layout, st axis.Stop) []remedy {
	fixed, okF := l.Part(st.Fixed)
	moving, okM := l.Part(st.Moving)
	if !okF || !okM {
		return nil
	}
	if st.Kind == axis.Jams {
		return []remedy{newScrew, moveNut, shortenNut}
	}
	var list []remedy
	for _, p := range []*axis.Part{fixed, moving} {
		role, _ := axis.RoleNamed(p.Role)
		switch {
		case st.Kind == axis.RunsOut && role.Longer != "":
			list = append(list, remedy{"longer_" + p.Key, role.Longer, func(s *Site, st axis.Stop, by string) { lengthen(s, p, st, by) }})
		case st.Kind == axis.RunsOut:
		case role.Cut, p.Slides():
			list = append(list, remedy{"cut_" + p.Key, "cut the " + p.Label + " back", func(s *Site, st axis.Stop, by string) { cutBack(s, st, p, by) }})
		case p.Role == "dial", p.Role == "handle":
			if hangsOn(l, p, "bracket") {
				list = append(list, longerBracket, spacer)
			}
		case p.Role == "bracket": // it is moved out before a casting is cut for it
			list = append([]remedy{spacer}, list...)
		case p.Role == "nut":
			list = append(list, moveNut, shortenNut)
		case p.Role == "thread":
			list = append(list, remedy{"shorten_tip", "shorten the screw's tip", func(s *Site, st axis.Stop, by string) {
				shift(s, p, face(p, st), away(p, st), by)
				s.ask(func(m *making) { shorterTip(m, p, by) })
			}})
		}
	}
	return list
}

// hangsOn tells whether a part is tied, step by step, to one of a role.
func hangsOn(l *axis.Layout, p *axis.Part, role string) bool {
	for range l.Parts { // a tie that goes round ends there
		if p.Tie == nil {
			return false
		}
		next, ok := l.Part(p.Tie.Part)
		if !ok {
			return false
		}
		if next.Role == role {
			return true
		}
		p = next
	}
	return false
}

// face is the face of a part with which it meets the other one.
func face(p *axis.Part, st axis.Stop) string {
	if (p.Side != axis.Moving) == (st.End == axis.Plus) {
		return "from"
	}
	return "to"
}

// away is the sign in which that face must go to give room.
func away(p *axis.Part, st axis.Stop) string {
	if face(p, st) == "from" {
		return "+"
	}
	return "-"
}

// shift moves one face of a part, so that the part grows or shrinks.
func shift(s *Site, p *axis.Part, face, sign, by string) {
	sc := s.Layout.Scope
	with := sheet.With{"by": by}
	switch {
	case p.Tie == nil:
		sc.Change(p.Key+"."+face, "was "+sign+" by", "decided", with)
	case face == "to":
		sc.Change(p.Key+".length", "was "+sign+" by", "decided", with)
	default: // a tied part begins later and ends where it did
		sc.Change(p.Key+".gap", "was "+sign+" by", "decided", with)
		back := map[string]string{"+": "-", "-": "+"}[sign]
		sc.Change(p.Key+".length", "was "+back+" by", "decided", with)
	}
}

// move shifts a whole part. A tied one moves with its gap.
func move(s *Site, p *axis.Part, sign, by string) {
	if p.Tie != nil {
		s.Layout.Scope.Change(p.Key+".gap", "was "+sign+" by", "decided", sheet.With{"by": by})
		return
	}
	shift(s, p, "from", sign, by)
	shift(s, p, "to", sign, by)
}

// lengthen makes what something runs along longer, at the end that it comes to.
func lengthen(s *Site, p *axis.Part, st axis.Stop, by string) {
	role, _ := axis.RoleNamed(p.Role)
	s.ask(func(m *making) { longer(m, p, role.Longer) })
	if (p.Side == axis.Moving) == (st.End == axis.Plus) {
		shift(s, p, "from", "-", by)
		return
	}
	shift(s, p, "to", "+", by)
}

// cutBack takes metal off the face that is met, and asks how much is left.
func cutBack(s *Site, st axis.Stop, p *axis.Part, by string) {
	if p.Slides() {
		keepsLength(s.Layout, p)
	}
	shift(s, p, face(p, st), away(p, st), by)
	if p.Slides() {
		s.ask(func(m *making) { cutSlide(m, p, st) })
	} else {
		s.ask(func(m *making) { cutWall(m, p, st) })
	}
	l, sc := s.Layout, s.Layout.Scope.In(p.Key)
	if role, _ := axis.RoleNamed(p.Role); !role.Cut || l.Scope.Has(p.Key+".left_least") {
		return // an earlier upgrade watches it already
	}
	if !l.Scope.Has(p.Key + ".keep") {
		l.Assume(sc, quiet("keep", p.Label+": wall to stay", "keep", unit.MM), 8, "common practice, no source: 6, 8 or 10 by the size of the machine (centre height to 105, to 135, above)")
	}
	l.Limit(sc, quiet("left_least", p.Label+": least wall", "least", unit.MM), sheet.Method{Text: "max(keep, mm(5))", Source: "the wall that you want to stay; common practice, no source: never under 5"})
	l.Assume(sc, quiet("left_near", p.Label+": wall above that within which it is tight", "", unit.MM), 0.5, "common practice, no source: a casting is cored no truer")
	sc.Check(sheet.Check{Key: "left_check", Label: "Wall left: " + p.Label, Figure: "length", Limit: "left_least", Tight: "left_near", Level: sheet.Rule,
		Sentence: "{figure} of the " + p.Label + " is left, and {limit} is wanted.", Source: "common practice, no source",
		Remedies: []string{"move_nut", "shorten_nut"}})
	holes(s, p, st)
}

// keepsLength asks that a slide which is cut shorter stays long enough to run straight:
// what play it has rocks it the more, the shorter it is.
func keepsLength(l *axis.Layout, p *axis.Part) {
	sc := l.Scope.In(p.Key)
	if l.Scope.Has(p.Key + ".whole") {
		return // an earlier upgrade watches it already
	}
	const source = "common practice, no source: no more than a quarter of a slide is cut off; with as much play it rocks by as much more as it is shorter"
	sc.Fix(quiet("whole", p.Label+"'s length before it is cut", "L", unit.MM), "length", "decided: as it stood")
	l.Limit(sc, quiet("whole_least", p.Label+": least length", "L_min", unit.MM), sheet.Method{Text: "3 / 4 * whole", Source: source})
	l.Limit(sc, quiet("whole_near", p.Label+": length above that within which it is tight", "", unit.MM), sheet.Method{Text: "whole / 10", Source: source})
	sc.Check(sheet.Check{Key: "whole_check", Label: capital(p.Label) + " long enough to run straight", Figure: "length", Limit: "whole_least", Tight: "whole_near", Level: sheet.Rule,
		Sentence: "{figure} of the " + p.Label + " is left, and {limit} is three quarters of what it was.", Source: source})
}

// holes keeps the pocket apart from the bracket's tapped holes, where it is
// deep enough to come beside them.
func holes(s *Site, wall *axis.Part, st axis.Stop) {
	l := s.Layout
	b, ok := l.WithRole("bracket")
	if !ok || !l.Scope.Has(b.Key+".bolt_offset") || !l.Scope.Has(b.Key+".bolt_dia") || !l.Scope.Has(b.Key+".tapped_depth") || wall.Role != "wall" || face(wall, st) != "from" {
		return
	}
	sc := l.Scope.In(wall.Key)
	s.typed(sc, quiet("pocket", "width of the pocket in the "+wall.Label, "pocket", unit.MM),
		Field{Name: "pocket." + wall.Key, Label: "Pocket in the " + wall.Label + ", width", Hint: "the nut's width and room beside it", Need: s.Scope.Key(st.Key + ".need"), Group: capital(st.Label)},
		"", 0, mostTravel, nan)
	names := sheet.With{"offset": b.Key + ".bolt_offset", "bolt": b.Key + ".bolt_dia", "depth": b.Key + ".tapped_depth", "seat": b.Key + ".from"}
	sc.Formula(quiet("hole_distance", "pocket to the "+b.Label+"'s tapped holes", "c", unit.MM),
		"when(from <= seat - depth, inf, offset - pocket / 2 - bolt / 2)", "geometry: to the thread, where the pocket comes beside the holes", names)
	l.Assume(sc, quiet("hole_least", wall.Label+": metal wanted beside a tapped hole", "c_min", unit.MM), besideHole, besideHoleSource)
	sc.Check(sheet.Check{Key: "hole_check", Label: "Pocket clear of the " + b.Label + "'s tapped holes", Figure: "hole_distance", Limit: "hole_least", Level: sheet.Rule,
		Sentence: "{figure} is left between the pocket and the tapped holes, and {limit} is wanted.", Source: besideHoleSource})
}

var (
	longerBracket = remedy{"longer_bracket", "lengthen the bracket", func(s *Site, _ axis.Stop, by string) {
		if b, ok := s.Layout.WithRole("bracket"); ok {
			shift(s, b, "to", "+", by)
			s.ask(func(m *making) {
				if m.more(by) {
					newBracket(m, b)
				}
			})
		}
	}}

	// spacer moves the bracket and, with it, the screw that it holds. The bolts
	// grow by themselves.
	spacer = remedy{"spacer", "put a spacer under the bracket", func(s *Site, _ axis.Stop, by string) {
		l := s.Layout
		b, ok := l.WithRole("bracket")
		if !ok {
			return
		}
		l.Scope.Change(b.Key+".spacer", "was + by", "decided", sheet.With{"by": by})
		s.ask(func(m *making) { spacerPlate(m, b) })
		for _, p := range carried(l, b) {
			move(s, p, handleSign(l), by)
		}
		if l.Scope.Has(b.Key + ".bolt_least") {
			l.Scope.In(b.Key).Require("bolt_length", "when(spacer > 0, stock_bolt(grip + bolt_least), 0)", "geometry: grip and engagement; ISO 888: preferred lengths of bolts")
		}
	}}

	moveNut = remedy{"move_nut", "move the nut on its slide", func(s *Site, st axis.Stop, by string) {
		if nut, ok := s.Layout.WithRole("nut"); ok {
			move(s, nut, nutSign(nut, st.End), by)
			s.ask(func(m *making) { movedNut(m, nut, by) })
		}
	}}

	shortenNut = remedy{"shorten_nut", "shorten the nut", func(s *Site, st axis.Stop, by string) {
		nut, ok := s.Layout.WithRole("nut")
		if !ok {
			return
		}
		s.ask(func(m *making) { shorterNut(m, nut) })
		sign := nutSign(nut, st.End)
		shift(s, nut, map[string]string{"+": "from", "-": "to"}[sign], sign, by)
		thread, ok := s.Layout.WithRole("thread")
		if !ok || s.Layout.Scope.Has(nut.Key+".short_check.margin") {
			return
		}
		least := nut.Key + "_on_" + thread.Key + ".nut_least"
		if s.Layout.Scope.Has(least) {
			s.Layout.Scope.In(nut.Key).Check(sheet.Check{Key: "short_check", Label: capital(nut.Label) + " long enough", Figure: "length", Limit: least, Level: sheet.Rule,
				Sentence: "The shortened nut is {figure} long, and {limit} is the least.", Source: "common practice, no source: the larger of 1.5 diameters and 5 pitches"})
		}
	}}

	newScrew = remedy{"new_screw", "a new screw with more thread", func(s *Site, st axis.Stop, by string) {
		moreThread(s, "to", "+", by)
		// A stop that is never met proposes one as well: only a choice counts.
		if s.Inputs["do."+st.Key] == "new_screw" || s.Inputs["rest."+st.Key] == "new_screw" {
			s.newScrew = true
			s.sleeveless(by)
		}
		s.ask(func(m *making) {
			if m.more(by) {
				newFeedScrew(m)
			}
		})
	}}
)

// moreThread lengthens the thread; the plain shank begins where it ends.
func moreThread(s *Site, face, sign, by string) {
	t, ok := s.Layout.WithRole("thread")
	if !ok {
		return
	}
	shift(s, t, face, sign, by)
	if shank, ok := s.Layout.WithRole("shank"); ok && shank.Tie == nil && face == "to" {
		s.Layout.Scope.Change(shank.Key+".from", "was "+sign+" by", "decided", sheet.With{"by": by})
	}
}

// nutSign is the way in which the nut must go to let the slide go further at an end.
func nutSign(nut *axis.Part, e axis.End) string {
	if (nut.Side == axis.Moving) == (e == axis.Plus) {
		return "-"
	}
	return "+"
}
