package upgrade

import (
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// risen lets the slide stand higher on its ways, by a figure of the upgrade's own
// that is less than nothing where it comes down, and whatever goes up and down
// with it: the room under it, the swing over it, its gib's gap, and the nut that
// hangs on it, which a shim brings back to the screw.
func (s *Site) risen(by string) {
	l, sc := s.Layout, s.Scope
	sl, _ := l.OnWays()
	with := sheet.With{"by": sc.Key(by)}
	if l.Scope.Has(sl.Key + ".underside") {
		l.Scope.Change(sl.Key+".underside", "was + by", "geometry: it goes up and down with the slide", with)
	}
	if l.Scope.Has("swing_slide") {
		l.Scope.Change("swing_slide", "was - 2 * by", "geometry: twice what the slide goes up by", with)
	}
	for _, gap := range []string{".gib_gap", ".gib_gap_other"} {
		if l.Scope.Has(sl.Key+gap) && l.Scope.Has(sl.Key+".gib_angle") {
			l.Scope.Change(sl.Key+gap, "was - by * cos(angle)", "geometry: projected on the square to the flank", sheet.With{"by": sc.Key(by), "angle": sl.Key + ".gib_angle"})
		}
	}
	if !screwed(l) {
		return
	}
	s.typed(sc, quiet("shim", "shim at the nut", "t", unit.MM), Field{Name: "shim", Label: "Shim at the nut or metal taken off it", Hint: "as much as the slide goes up or down"}, "", 0, 10, 0)
	sc.Formula(shown("nut_off", "nut off the screw's line", "e", unit.MM), "abs(abs(by) - shim)", "geometry: nut and screw part by as much as the slide goes up or down, less the shim", with)
	l.Assume(sc, quiet("nut_off_most", "most that a nut may stand off the screw's line", "", unit.MM), 0.02, "common practice, no source: pinched up at the near end and checked with a gauge")
	sc.Check(sheet.Check{Key: "nut_check", Label: "Nut in line with its screw", Figure: "nut_off", Limit: "nut_off_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The nut would stand {figure} off the screw's line, and {limit} is the most: a shim of what the slide goes up or down brings it back.", Source: "geometry"})
	if l.Scope.Has("screw_line.distance") {
		sc.Method(quiet("side_force", "side force of the nut as it then stands", "F", unit.Newton), screw.SideForce, sheet.With{
			"modulus": "screw_line.modulus", "second_moment": "screw_line.second_moment", "distance": "screw_line.distance", "misalignment": "nut_off"})
	}
}
