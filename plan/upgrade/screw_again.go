package upgrade

import (
	"slices"

	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// extensionMade tells whether the extension of this upgrade is there: the
// upgrade is finished, or its length was measured.
func (s *Site) extensionMade() bool { return s.State == Finished || s.Made["extension.length"].Given() }

// settling defines a figure that follows what is wished until the upgrade is
// finished, and no longer then.
func (s *Site) settling(sc *sheet.Scope) func(q sheet.Q, text, source string, with ...sheet.With) {
	if s.State == Finished {
		return sc.Fix
	}
	return sc.Formula
}

// replaceExtension makes the extension anew where a finished upgrade made one
// and more is wished now: what is brazed on does not grow.
func (s *Site) replaceExtension() {
	kind, length, got := "", "extension.length", "extension.got"
	for _, o := range s.before {
		if o.joint == "" && o.again == "" {
			continue
		}
		if o.State != Finished || o.joint == "new_screw" {
			return // it grows by itself until it is made
		}
		if o.joint != "" {
			kind = o.joint
		}
		if o.again != "" {
			length, got = o.again+".length", o.again+".got"
		}
	}
	if kind == "" {
		return
	}
	s.again = "extension.again_" + s.ID
	l := s.Layout
	sc := l.Scope.In("extension").In("again_" + s.ID)
	names := sheet.With{"before": l.Find(length), "got_before": l.Find(got)}
	s.settling(sc)(quiet("more", "extension made before, too short by", "", unit.MM), "max(0, visible - got_before)", "geometry", names)
	s.settling(sc)(quiet("length", "extension made anew, length over all", "L_e", unit.MM), "before + more", "geometry", names)
	more := "more"
	if s.extensionMade() {
		more = "gained"
		sc.Formula(quiet("gained", "extension made anew, longer by", "", unit.MM), "length - before", "geometry", names)
	}
	sc.Formula(quiet("got", "extension made anew, beyond the screw's end", "ext", unit.MM), "got_before + "+more, "geometry", names)
	l.Scope.In("shaft_end").Family("extensions", "extensions of the screw", unit.MM, sc.Key(more))
	s.ask(func(m *making) {
		if m.more(sc.Key("more")) {
			sleeve(m, kind, s.again)
		}
	})
}

// turnsScrew tells an upgrade that is yet to make the feed screw anew.
func (s *Site) turnsScrew() bool { return s.anew && s.State != Finished }

// turnScrew makes the screw anew, from one bar, as long as is needed.
func turnScrew(s *Site) {
	s.anew, s.newScrew = true, true
	s.sleeveless("screw_renewed")
	lengthenScrew(s)
}

// sleeveless lets a sleeve go that is not made yet, where more than nothing of by
// asks for a new screw: that is turned as long as is needed.
func (s *Site) sleeveless(by string) {
	made := slices.ContainsFunc(s.before, func(o *Site) bool { return o.joint != "" && o.State == Finished })
	if made || !s.Layout.Scope.Has("extension.sleeved") {
		return
	}
	s.Layout.Scope.In("extension").Change("sleeved", "when(by > 0, 0, was)", "decided: a new screw is turned as long as is needed, without a joint", sheet.With{"by": by})
}

// takeOffSteps take the extension off that is replaced.
func takeOffSteps(m *making, kind string) {
	do := map[string]string{
		"brazed": "Take the screw out, heat the extension made before until the solder lets go, draw it off, and clean the old end to bright metal.",
		"bonded": "Take the screw out, warm the extension made before to 250 °C, draw it off, and clean the old end of the compound.",
		"pinned": "Drive the cross pin out and draw the extension made before off.",
	}[kind]
	o := part.Operation{Key: "take_extension_off", Do: do, Needs: []part.Capability{part.Bench}, After: []string{"turn_extension"}, Minutes: [2]float64{30, 60}, Record: "diameter of the old end at three places", Cautions: []string{isolate}}
	if kind != "pinned" {
		o.Needs = []part.Capability{part.Heat}
		o.Cautions = append(o.Cautions, "Fume of hot flux and compound: fresh air, nothing that burns nearby; bearings off first.")
	}
	m.step(fitted, "extension", o)
}

// replaced tells how long the extension is that takes the place of one made before.
func (s *Site) replaced(r *sheet.Result) (long float64, ok bool) {
	if s.again == "" {
		return 0, false
	}
	more, okMore := r.Figure(s.Layout.Find(s.again+".more"), s.stage())
	f, okLong := r.Figure(s.Layout.Find(s.again+".length"), s.stage())
	return f.Value, okMore && okLong && f.Known() && more.Known() && more.Value > shownLength
}
