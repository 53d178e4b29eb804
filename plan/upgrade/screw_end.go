package upgrade

import (
	"math"
	"slices"

	"fettle/plan/joint"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

var nan = math.NaN()

// joints are the ways in which the screw's end can be made longer.
var joints = []struct {
	key, label string
	method     sheet.Method
	shear      float64
	source     string
}{
	{"brazed", "sleeve, silver-brazed", joint.BrazedLap, joint.BrazedShear, joint.BrazedShearSource},
	{"bonded", "sleeve, retaining compound", joint.BondedLap, joint.BondedShear, joint.BondedShearSource},
	{"pinned", "sleeve with a cross pin", joint.PinnedSleeve, joint.PinShear, joint.PinShearSource},
}

// lengthenScrew closes the budget of the screw's end: what it is short of is
// an extension, which follows by itself whatever later upgrades ask for.
func lengthenScrew(s *Site) {
	l := s.Layout
	switch {
	case !l.Scope.Has("shaft_end.short"):
		return
	case l.Scope.Has("extension.visible"):
		s.replaceExtension()
		return
	}
	sc := l.Scope.In("extension")
	short := "shaft_end.short"
	sc.Formula(shown("visible", "extension beyond the screw's end", "ext", unit.MM), "short", "whatever the screw's end is short of, and no more", sheet.With{"short": short})
	need := sc.Key("visible")

	const group = "Extension of the screw's end"
	var options []Option
	for _, j := range joints {
		options = append(options, Option{j.key, j.label})
	}
	options = append(options, Option{"new_screw", "no joint: a new screw, as long as is needed"})
	kind := "brazed"
	if s.newScrew || slices.ContainsFunc(s.before, (*Site).turnsScrew) {
		kind = "new_screw"
	}
	kind = s.choose(Field{Name: "joint", Label: "Fixed to the screw by", Options: options, Need: need, Group: group}, kind)
	lockThread(s, sc)
	got := need
	s.joint = kind
	if kind != "new_screw" {
		joined(s, sc, kind, need, group)
		s.settling(sc)(quiet("length", "extension, length over all", "L_e", unit.MM), "visible + cut_back + lap", "geometry: what shows, what stands for the metal cut off the old end, and what goes over the rest")
		if s.extensionMade() { // it counts for what it is, and not for what is wished
			got = sc.Key("got")
			sc.Formula(quiet("got", "extension beyond the screw's end, as made", "ext", unit.MM), "length - lap - cut_back", "geometry")
		}
		boreOut(s, sc)
		s.ask(func(m *making) { sleeve(m, kind, "") })
	} else {
		s.ask(newFeedScrew)
	}
	l.Scope.In("shaft_end").Family("extensions", "extensions of the screw", unit.MM, got)
	supportBearing(s, need, group)
}

// joined is the joint between the old end and the sleeve that lengthens it.
func joined(s *Site, sc *sheet.Scope, kind, need, group string) {
	l := s.Layout
	b, _ := l.WithRole("bracket")
	shank, _ := l.WithRole("shank")
	sc.Measure(quiet("sleeved", "a sleeve goes on the old end", "", unit.One), sheet.Leaf{Value: 1, Origin: sheet.Chosen, Note: "1 where it does, 0 where a new screw is made as long as is needed"})
	sc.Formula(quiet("sleeve", "sleeve beyond the screw's end", "ext", unit.MM), "visible * sleeved", "geometry: a screw that is made anew has none")
	dia := asFound(l, shank.Key+".dia")
	s.typed(sc, quiet("outside", "sleeve outside", "D", unit.MM), Field{Name: "sleeve", Label: "Sleeve, outside diameter", Need: need, Group: group}, s.proposed(dia+4), 1, 200, nan) // a wall of 2
	s.typed(sc, quiet("lap", "lap over the old screw", "L", unit.MM), Field{Name: "lap", Label: "Lap over the old end", Need: need, Group: group}, s.proposed(math.Ceil(1.4*dia)), 1, 200, nan)

	solidBeyond(s, sc, need, group)
	end := sheet.With{"shank_to": shank.Key + ".to", "dia": shank.Key + ".dia", "bracket_to": b.Key + ".to"}
	// Where no sleeve is needed, nothing about it can fail.
	guard := func(text string) string { return "when(sleeve > 0, " + text + ", inf)" }
	sc.Formula(quiet("joint_from", "joint begins at", "joint", unit.MM), "shank_to - cut_back - lap", "geometry", end)
	sc.Formula(quiet("clear", "joint clear of the journal", "c", unit.MM), guard("joint_from - bracket_to"), "geometry", end)
	sc.Check(sheet.Check{Key: "clear_check", Label: "Joint clear of the journal", Figure: "clear", Limit: "touching", Level: sheet.Rule,
		Sentence: "The joint begins {figure} beyond the bracket: no part of it may run in the bearing.", Source: "common practice, no source"})
	sc.Method(quiet("wall", "wall of the sleeve", "t", unit.MM), joint.SleeveWall, end)
	sc.Formula(quiet("wall_left", "wall of the sleeve", "t", unit.MM), guard("wall"), "geometry")
	l.Limit(sc, quiet("wall_least", "least wall of a sleeve", "t_min", unit.MM), joint.SleeveWallLeast, end)
	sc.Check(sheet.Check{Key: "wall_check", Label: "Wall of the sleeve", Figure: "wall_left", Limit: "wall_least", Level: sheet.Rule,
		Sentence: "The sleeve's wall is {figure}, and {limit} is the least.", Source: joint.SleeveWallLeast.Source})

	// The old thread at the screw's end holds no braze: only the plain part counts.
	end["old_thread"] = "touching"
	if l.Scope.Has(shank.Key + ".end_thread") {
		end["old_thread"] = shank.Key + ".end_thread"
	}
	sc.Formula(quiet("plain", "lap on the plain shank", "L_p", unit.MM), "max(0, lap - max(0, old_thread - cut_back))", "geometry: the old thread within the lap is not counted", end)
	if kind != "pinned" {
		l.Limit(sc, quiet("lap_least", "least lap of a sleeve", "L_min", unit.MM), joint.BrazedLeast)
		sc.Formula(quiet("lap_plain", "lap on the plain shank", "L_p", unit.MM), guard("plain"), "geometry")
		sc.Check(sheet.Check{Key: "lap_check", Label: "Lap of the joint", Figure: "lap_plain", Limit: "lap_least", Level: sheet.Rule,
			Sentence: "{figure} of the lap lies on the plain shank, and {limit} is the least.", Source: joint.BrazedLeast.Source})
	}
	for _, j := range joints {
		if j.key == kind {
			l.Assume(sc, quiet("shear", "allowable shear of the joint", "τ", unit.MPa), j.shear, j.source)
			w := sheet.With{"dia": shank.Key + ".dia", "lap": "plain"}
			if kind == "pinned" {
				s.typed(sc, quiet("pin", "cross pin", "d_p", unit.MM), Field{Name: "pin", Label: "Cross pin, diameter", Need: need, Group: group}, s.proposed(3), 0.5, 20, nan)
			}
			sc.Method(quiet("carries", "torque that the joint carries", "T_j", unit.NewtonMetre), j.method, w)
			sc.Formula(quiet("torque", "torque that the joint carries", "T_j", unit.NewtonMetre), guard("carries"), j.method.Source)
		}
	}
	if !l.Scope.Has("hand_torque") {
		return
	}
	l.Assume(sc, quiet("factor", "factor on the hand's torque", "k", unit.One), joint.HandFactor, joint.HandFactorSource)
	l.Limit(sc, quiet("torque_wanted", "torque wanted of the joint", "T", unit.NewtonMetre), joint.TorqueWanted)
	sc.Check(sheet.Check{Key: "torque_check", Label: "Torque of the joint", Figure: "torque", Limit: "torque_wanted", Level: sheet.Rule,
		Sentence: "The joint carries {figure}, and {limit} is wanted.", Source: "elementary mechanics"})
}

// solidBeyond keeps metal between the bottom of the sleeve's bore and what is
// cut into its other end. Where the new end shows too little for both, the old
// end is cut back: the bore then ends further from the thread.
func solidBeyond(s *Site, sc *sheet.Scope, need, group string) {
	names := sheet.With{"turned_end": "touching"}
	if sc.Has("extension.thread") {
		names["turned_end"] = sc.Key("thread")
	}
	s.Layout.Limit(sc, quiet("solid_least", "least metal between bore and undercut", "w_min", unit.MM), joint.SolidLeast)
	field := Field{Name: "cut_back", Label: "Old end cut back by", Hint: "blank: as much as the sleeve needs to stay whole", Need: need, Group: group}
	q := quiet("cut_back", "old end cut back for the sleeve", "c_b", unit.MM)
	if s.input(field.Name, "") != "" {
		s.typed(sc, q, field, "", 0, 200, 0)
	} else {
		s.Fields = append(s.Fields, field)
		text, source := "when(sleeve > 0, max(0, turned_end + solid_least - visible), 0)", "geometry: room for the thread, its undercut and the metal before them"
		if s.extensionMade() { // what was cut off stays off, whatever is wished later
			sc.Fix(q, text, source, names)
		} else {
			sc.Formula(q, text, source, names)
		}
	}
	sc.Formula(quiet("solid", "metal between bore and undercut", "w", unit.MM), "when(sleeve > 0, length - lap - turned_end, inf)", "geometry", names)
	sc.Check(sheet.Check{Key: "solid_check", Label: "Sleeve long enough", Figure: "solid", Limit: "solid_least", Level: sheet.Rule,
		Sentence: "{figure} of metal is left between the sleeve's bore and what is turned on its end, and {limit} is the least.", Source: joint.SolidLeast.Source})
}

// boreOut makes what stands over the sleeve large enough to go over it.
func boreOut(s *Site, sc *sheet.Scope) {
	l := s.Layout
	for i := range l.Parts {
		p := &l.Parts[i]
		if p.Role != "dial" && p.Role != "handle" || !l.Scope.Has(p.Key+".bore") {
			continue
		}
		sc.Require(p.Key+".bore", "when(sleeve > 0, when(part_to > joint_from, outside, 0), 0)",
			"geometry: what stands over the joint is bored out to the sleeve", sheet.With{"part_to": p.Key + ".to"})
		key := p.Key + "_left"
		if l.Scope.Has(p.Key + ".dia") {
			sc.Formula(quiet(key, "metal left around the bore of the "+p.Label, "t", unit.MM), "(dia - bore) / 2", "geometry", sheet.With{"dia": p.Key + ".dia", "bore": p.Key + ".bore"})
			sc.Check(sheet.Check{Key: key + "_check", Label: capital(p.Label) + " bored out: metal left", Figure: key, Limit: "wall_least", Level: sheet.Rule,
				Sentence: "{figure} is left around the bore of the " + p.Label + ", and {limit} is the least.", Source: joint.SleeveWallLeast.Source})
		}
	}
}

// lockThread is the thread that the new end needs: under the whole nut, and
// begun inside what stands before it.
func lockThread(s *Site, sc *sheet.Scope) {
	l := s.Layout
	nut, ok := l.WithRole("lock_nut")
	if !ok || !l.Scope.Has(nut.Key+".pitch") {
		return
	}
	sc.Formula(shown("thread", "thread on the new end, for the lock nut", "l_t", unit.MM), "when(visible > 0, nut_length + 2 * pitch, 0)",
		"common practice, no source: the nut's height and two pitches, begun inside the handle", sheet.With{"nut_length": nut.Key + ".length", "pitch": nut.Key + ".pitch"})
}

// proposed writes a proposal in mm as it would be typed: bare, or with its unit
// where a bare number is something else; "" where it is not known (NaN).
func (s *Site) proposed(mm float64) string {
	if math.IsNaN(mm) {
		return ""
	}
	if s.Units == unit.MM {
		return unit.MM.Text(mm, 2)
	}
	return unit.MM.With(mm)
}
