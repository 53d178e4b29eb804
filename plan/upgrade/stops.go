package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// stops: a micrometer screw or a turret that a slide comes up against. What is
// computed is what a line is worth, and how stiff the screw is.
var stops = &guided{
	about: About{
		Key: "stops", Label: "Micrometer stop",
		Words:    []string{"carriage stop", "bed stop", "turret stop", "dead stop", "depth stop", "indexing stop", "cross slide stop", "saddle stop"},
		Purpose:  "A slide comes back to the same place again and again, and is set to a hundredth by a screw.",
		Measure:  []string{"Where it can be clamped, and what it then takes from the travel.", "How hard you come up to a stop by hand: a gauge on the slide, five times."},
		Cautions: []string{"Isolate the machine while the stop is fitted.", "A screw stop is for the hand. It is never what ends a power feed: that needs a trip, with room behind it.", "See what it meets at the other end: tailstock, lead screw, chuck guard."},
		Proof:    "Ten times up to it by hand, a gauge on the slide: within 0.02 mm.",
		Hours:    [2]float64{3, 8}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Threads, part.Milling}, Own: true,
		Cures: []string{"setting.knocked", "reading.none"},
	},
	suits: func(l *axis.Layout) bool { return sliding(l) || has(l, "quill") },
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"lead", "Pitch of the stop's screw", "P", unit.MM, "1 mm reads easily", "1 mm", 0.2, 5}, given{"divisions", "Lines round its thimble", "N", unit.Count, "50 or 100", "50", 1, 400}, given{"dial_dia", "Diameter of the thimble", "D", unit.MM, "", "", 5, 150},
			given{"takes", "Travel that the stop takes at that end", "", unit.MM, "its body and its screw, wound right back", "", 0, 500})
		sc.Method(shown("per_division", "a line of the stop is", "", unit.MM), dial.PerDivision)
		sc.Method(shown("spacing", "lines apart", "s", unit.MM), dial.Spacing)
		l.Assume(sc, quiet("spacing_least", "least spacing of the lines", "", unit.MM), dial.SpacingLeast, dial.SpacingSource)
		sc.Check(sheet.Check{Key: "spacing_check", Label: "Lines can be read", Figure: "spacing", Limit: "spacing_least", Level: sheet.Rule,
			Sentence: "The lines stand {figure} apart, and {limit} is the least.", Source: dial.SpacingSource})
		sc.Formula(shown("left", "travel with the stop in place", "", unit.MM), "travel - takes", "geometry")
		sc.Check(sheet.Check{Key: "left_check", Label: "Travel left with the stop", Figure: "left", Limit: l.Find("touching"), Level: sheet.Stop,
			Sentence: "With the stop in place {figure} of travel is left.", Source: "geometry"})
	},
	says: []says{{"A line is ", "per_division", "."}, {"The lines stand ", "spacing", " apart."}, {"With the stop in place ", "left", " of travel is left."}},
	make: func(m *making) {
		lead := m.or(m.mine("lead"), 1)
		screw := &part.Round{Outside: []part.Step{{Label: "screw", Length: drawn("", 60), Dia: drawn("", 10), Chamfer: lead}, {Label: "ground face, hard", Length: drawn("", 6), Dia: drawn("", 7), Chamfer: 0.3}}}
		if t := metric(10) + "×" + bare(lead) + "-6g"; parses(t) {
			screw.Outside[0].Thread = t
		}
		m.add(part.Part{Key: "screw", Label: "stop screw", Material: "silver_steel", Round: screw, Notes: []string{"Its end hardened and faced square; what it meets hard as well.", "Thimble fixed so that it can be set to nought."}})
		m.buy(part.Bought{Key: "clamp_screws", Label: "screws for its clamp", Designation: "ISO 4762 M8 × 30", Quantity: 2, For: "screw", Confirm: "find_place", Source: "ISO 4762"})
		m.step(measured, "", part.Operation{Key: "find_place", Do: "Find where the body can be clamped square to the travel, and wind from end to end with a block in its place.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "travel with the block in place", Asks: []string{"Does anything else meet the body: tailstock, gear cover, apron?"}})
		m.step(made, "screw", part.Operation{Key: "turn_stop", Do: "Turn and screwcut the screw, bore the body and split it, so that the thread can be nipped.", Needs: []part.Capability{part.Turning, part.Threads, part.Milling}, After: []string{"find_place"}, Envelope: [2]float64{70, 30}, Minutes: [2]float64{150, 360}, Record: "play of the screw", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "set_stop", Do: "Clamp it, nip the thread, and come up to it ten times by hand with a gauge on the slide.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "ten readings", Cautions: []string{isolate}})
	},
}
