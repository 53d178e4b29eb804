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
	if st.Jam {
		return []remedy{newScrew, moveNut, shortenNut}
	}
	var list []remedy
	cut := func(p *axis.Part) remedy {
		return remedy{"cut_" + p.Key, "cut the " + p.Label + " back", func(s *Site, st axis.Stop, by string) { cutBack(s, st, p, by) }}
	}
	for _, p := range []*axis.Part{fixed, moving} {
		switch p.Role {
		case "wall", "base", "web", "column":
			list = append(list, cut(p))
		case "dial", "handle":
			if hangsOn(l, p, "bracket") {
				list = append(list, longerBracket, spacer)
			}
		case "bracket":
			list = append(list, spacer)
		case "slide":
			list = append(list, cut(p))
		case "nut":
			list = append(list, moveNut, shortenNut)
		case "thread":
			list = append(list, remedy{"shorten_tip", "shorten the screw's tip", func(s *Site, st axis.Stop, by string) { shift(s, p, face(p, st), away(p, st), by) }})
		}
	}
	return list
}

// hangsOn tells whether a part is tied, step by step, to one of a role.
func hangsOn(l *axis.Layout, p *axis.Part, role string) bool {
	for p != nil && p.Tie != nil {
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
	if (p.Side == axis.Fixed) == (st.End == axis.Plus) {
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

// cutBack takes metal off the face that is met, and asks how much is left.
func cutBack(s *Site, st axis.Stop, p *axis.Part, by string) {
	shift(s, p, face(p, st), away(p, st), by)
	if p.Role == "slide" {
		return
	}
	l, sc := s.Layout, s.Layout.Scope.In(p.Key)
	if l.Scope.Has(p.Key + ".left_least") {
		return // an earlier upgrade watches it already
	}
	if !l.Scope.Has(p.Key + ".keep") {
		assumed(sc, quiet("keep", p.Label+": wall to stay", "keep", unit.MM), 8, "common practice, no source: 6, 8 or 10 by the size of the machine (centre height to 105, to 135, above)")
	}
	sc.Formula(quiet("left_least", p.Label+": least wall", "least", unit.MM), "max(keep, mm(5))", "the wall that you want to stay; common practice, no source: never under 5")
	assumed(sc, quiet("left_tight", "tight within", "", unit.MM), 0.5, "common practice, no source: a casting is cored no truer")
	sc.Check(sheet.Check{Key: "left_check", Label: "Wall left: " + p.Label, Figure: "length", Limit: "left_least", Tight: "left_tight", Level: sheet.Rule,
		Sentence: "{figure} of the " + p.Label + " is left, and {limit} is wanted.", Source: "common practice, no source",
		Remedies: []string{"move_nut", "shorten_nut"}})
	holes(s, p)
}

// holes keeps the pocket apart from the bracket's tapped holes, where it is
// deep enough to come beside them.
func holes(s *Site, wall *axis.Part) {
	l := s.Layout
	b, ok := l.WithRole("bracket")
	if !ok || !l.Scope.Has(b.Key+".bolt_offset") || !l.Scope.Has(b.Key+".bolt_dia") || !l.Scope.Has(b.Key+".tapped_depth") || wall.Role != "wall" {
		return
	}
	sc := l.Scope.In(wall.Key)
	s.length(sc, quiet("pocket", "width of the pocket in the "+wall.Label, "pocket", unit.MM),
		Field{Name: "pocket." + wall.Key, Label: "Pocket in the " + wall.Label + ", width", Hint: "the nut's width and room beside it", Need: s.Scope.Key(wall.Key + "_nut.need")},
		"", 0, mostTravel, nan)
	names := sheet.With{"offset": b.Key + ".bolt_offset", "bolt": b.Key + ".bolt_dia", "depth": b.Key + ".tapped_depth", "seat": b.Key + ".from"}
	sc.Formula(quiet("hole_distance", "pocket to the bracket's tapped holes", "c", unit.MM),
		"when(from <= seat - depth, inf, offset - pocket / 2 - bolt / 2)", "geometry: to the thread, where the pocket comes beside the holes", names)
	assumed(sc, quiet("hole_least", "metal wanted beside a tapped hole", "3", unit.MM), 3, "common practice, no source: 3 mm")
	sc.Check(sheet.Check{Key: "hole_check", Label: "Pocket clear of the bracket's tapped holes", Figure: "hole_distance", Limit: "hole_least", Level: sheet.Rule,
		Sentence: "{figure} is left between the pocket and the tapped holes, and {limit} is wanted.", Source: "common practice, no source"})
}

var (
	longerBracket = remedy{"longer_bracket", "lengthen the bracket", func(s *Site, st axis.Stop, by string) {
		if b, ok := s.Layout.WithRole("bracket"); ok {
			shift(s, b, "to", "+", by)
		}
	}}

	// spacer moves the bracket and, with it, the screw that it holds.
	spacer = remedy{"spacer", "put a spacer under the bracket", func(s *Site, st axis.Stop, by string) {
		l := s.Layout
		b, ok := l.WithRole("bracket")
		if !ok {
			return
		}
		if l.Scope.Has(b.Key + ".spacer") {
			l.Scope.Change(b.Key+".spacer", "was + by", "decided", sheet.With{"by": by})
		}
		move(s, b, "+", by)
		for _, role := range []string{"thread", "shank"} {
			if p, ok := l.WithRole(role); ok && !hangsOn(l, p, "bracket") {
				move(s, p, "+", by)
			}
		}
	}}

	moveNut = remedy{"move_nut", "move the nut on its slide", func(s *Site, st axis.Stop, by string) {
		if nut, ok := s.Layout.WithRole("nut"); ok {
			move(s, nut, nutSign(nut, st), by)
		}
	}}

	shortenNut = remedy{"shorten_nut", "shorten the nut", func(s *Site, st axis.Stop, by string) {
		if nut, ok := s.Layout.WithRole("nut"); ok {
			face := "to"
			if nutSign(nut, st) == "+" {
				face = "from"
			}
			shift(s, nut, face, nutSign(nut, st), by)
		}
	}}

	newScrew = remedy{"new_screw", "a new screw with more thread", func(s *Site, st axis.Stop, by string) {
		if t, ok := s.Layout.WithRole("thread"); ok {
			shift(s, t, "to", "+", by)
		}
	}}
)

// nutSign is the way in which the nut must go to let the slide go further.
func nutSign(nut *axis.Part, st axis.Stop) string {
	if (nut.Side == axis.Moving) == (st.End == axis.Plus) {
		return "-"
	}
	return "+"
}
