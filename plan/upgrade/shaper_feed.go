package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/drive"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// shaperFeed: what a shaper's ram, ratchet and clapper ask for. What is computed is
// the feed of a tooth.
var shaperFeed = &guided{
	about: About{
		Key: "shaper_feed", Label: "Shaper: ratchet, ram and clapper",
		Words:   []string{"shaper", "shaping machine", "cross feed", "ratchet", "pawl", "clapper box", "clapper pin", "stroke", "ram gib"},
		Purpose: "Every stroke feeds what it should, the clapper lifts without shaking, and the stroke stays as it was set.",
		Measure: []string{"Lead of the cross-feed screw, teeth of its ratchet.", "Side shake of the clapper, by gauge at the tool.", "Stroke, before and after 20 minutes of work."},
		Cautions: []string{"Isolate the machine before stroke, clapper or pawl are touched, and turn it over by hand before it is started.", "A ram strikes: stand beside it, never before or behind it, and rail off where it comes out at the rear.", "Chips fly along the stroke: a screen at its end.",
			"The handle on the stroke's screw comes off before the start."},
		Proof: "Ten strokes against a gauge; side shake of the clapper at most 0.02 mm; the same stroke after 20 minutes.",
		Hours: [2]float64{4, 15}, Risk: MediumRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Milling, part.Dividing},
		Cures: []string{"stiff.turns", "rocks.gib"},
	},
	suits: func(l *axis.Layout) bool { return l.Arr.Key == "crank" },
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"lead", "Lead of the cross-feed screw", "l", unit.MM, "travel in ten turns, divided by ten", "", 0.2, 25}, given{"teeth", "Teeth of the ratchet wheel", "z", unit.Count, "count", "", 4, 400}, given{"taken", "Teeth that the pawl takes in a stroke", "k", unit.Count, "", "1", 1, 100},
			given{"pin", "Diameter of the clapper's pin", "", unit.MM, "micrometer", "", 2, 40}, given{"hole", "Diameter of the pin's hole", "", unit.MM, "inside micrometer", "", 2, 40})
		sc.Method(shown("feed", "feed of a stroke", "f", unit.MM), drive.RatchetFeed)
		sc.Formula(shown("pin_play", "play of the clapper's pin", "c", unit.MM), "hole - pin", "geometry")
		l.Assume(sc, quiet("pin_most", "most play of a clapper's pin", "", unit.MM), 0.02, "common practice, no source: 0.02 mm")
		sc.Check(sheet.Check{Key: "pin_check", Label: "Clapper's pin fits", Figure: "pin_play", Limit: "pin_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The clapper's pin has {figure} of play, and {limit} is the most: ream the hole and make a new pin.", Source: "common practice, no source"})
	},
	says: []says{{"A stroke feeds ", "feed", "."}, {"The clapper's pin has ", "pin_play", " of play."}},
	make: func(m *making) {
		hole := m.or(m.mine("hole"), 10)
		dia := m.limits(want{part: "pin", name: "dia", label: "diameter", nominal: hole}, -0.005, -0.015, "common practice, no source: 0.005 to 0.015 mm under the reamed hole")
		long := drawn("as the old one", 60)
		m.add(part.Part{Key: "pin", Label: "clapper pin", Material: "silver_steel", Round: &part.Round{Length: long, Outside: []part.Step{{Label: "pin", Length: long, Dia: dia, Chamfer: 0.5}}}, Notes: []string{"To the hole as reamed, not to this drawing: the nominal is the hole as measured.", "An oil groove half way."}})
		m.step(measured, "", part.Operation{Key: "measure_clapper", Do: "Ten strokes by hand against a gauge; clapper and pin by gauge; the stroke with a pencil line on the ways.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "feed of ten strokes, shake, stroke", Cautions: []string{isolate, "Turn it over by hand."}})
		m.step(stripped, "", part.Operation{Key: "clapper_off", Do: "Take the clapper box off and drive the pin out.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "which way round it was", Cautions: []string{isolate}})
		m.step(fitted, "pin", part.Operation{Key: "ream_pin", Do: "Ream box and clapper together, turn and polish the pin to it; the clapper falls by its own weight and does not shake.", Needs: []part.Capability{part.Turning, part.Reaming}, Envelope: [2]float64{long.Nominal, hole}, Minutes: [2]float64{60, 150}, Record: "hole, pin", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "set_ram", Do: "Set the ram's gib, oil all, set and lock the stroke, then 20 minutes of light work.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "stroke after 20 minutes", Cautions: []string{"Handle off the stroke's screw before the start; nobody before or behind the ram."}, Asks: []string{"Has the stroke crept? Then its friction nut is slack."}})
	},
}
