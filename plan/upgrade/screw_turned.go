package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// screwTurned: a worn screw turned end for end, with a stub grafted to what was its
// free end. What is computed is how much of the worn stretch is used again, and
// what the old thread leaves of metal for the graft.
var screwTurned = &guided{
	about: About{
		Key: "screw_turned", Label: "Screw turned end for end",
		Words:   []string{"reverse the leadscrew", "reverse the feed screw", "rethread", "worn screw", "graft", "new stub", "recut"},
		Purpose: "The nut runs on thread that was little used, and the worn stretch comes where it is seldom needed.",
		Measure: []string{"Lost motion at three places: where the screw is worn, and from where to where.", "Root diameter of the thread at its free end.", "Run-out of the screw between centres."},
		Cautions: []string{"Isolate the machine before the screw comes out.", "Brazing: fire watch, moving air, no cadmium; let it cool in air.", "A screw is not straightened hot: it comes out soft.",
			"The hand of the thread is the same either way round; which face of its flanks is worn is not."},
		Proof: "Run-out at most 0.03 mm between centres; lost motion at three places, and its spread.",
		Hours: [2]float64{4, 10}, Risk: MediumRisk, Undo: NotUndone, Needs: []part.Capability{part.Turning, part.Threads, part.Heat}, Own: true,
		Cures: []string{"lost_motion.nut", "jams.bent"},
	},
	suits: func(l *axis.Layout) bool { return screwed(l) && has(l, "shank") },
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		t, _ := l.WithRole("thread")
		shank, _ := l.WithRole("shank")
		if s.input(Decided, "no") == "yes" {
			s.claim("screw", "the screw")
		}
		s.given(given{"worn_from", "Beginning of the worn stretch", "a", unit.MM, "from the handle's end of the thread to where lost motion begins to rise", "", 0, 2000},
			given{"worn_to", "End of the worn stretch", "b", unit.MM, "from the handle's end of the thread to where it has fallen again", "", 0, 2000})
		sc.Formula(shown("worn_again", "worn thread that is used as much again", "", unit.MM), "max(0, (worn_to - worn_from) - abs(long - worn_from - worn_to))", "geometry: the stretch and its mirror image about the thread's middle", sheet.With{"long": t.Key + ".length"})
		sc.Formula(quiet("worn_share_most", "most of the worn stretch that may be used again", "", unit.MM), "(worn_to - worn_from) / 3", "common practice, no source: a third")
		sc.Check(sheet.Check{Key: "worn_check", Label: "Turning it round brings fresh thread", Figure: "worn_again", Limit: "worn_share_most", AtMost: true, Level: sheet.Rule,
			Sentence: "{figure} of the worn stretch would be used as much again, and {limit} is the most: a screw worn in its middle is as worn the other way round.", Source: "geometry"})
		if !l.Scope.Has(t.Key + ".root") {
			sc.Method(quiet("root", "root of the screw's thread", "d_3", unit.MM), screw.Root, sheet.With{"dia": t.Key + ".dia", "pitch": t.Key + ".pitch"})
		} else {
			sc.Formula(quiet("root", "root of the screw's thread", "d_3", unit.MM), "root_found", "as worked out of the thread", sheet.With{"root_found": t.Key + ".root"})
		}
		sc.Method(shown("spigot", "thickest spigot that the thread's root leaves", "d", unit.MM), joint.SpigotMost, sheet.With{"shank": shank.Key + ".dia"})
		sc.Method(shown("lap", "depth of the stub over it", "L", unit.MM), joint.StubEngagement, sheet.With{"dia": "spigot"})
		sc.Formula(quiet("wall", "wall of the stub around the spigot", "t", unit.MM), "(shank - spigot) / 2", joint.SleeveWall.Source, sheet.With{"shank": shank.Key + ".dia"})
		l.Limit(sc, quiet("wall_least", "least wall around a spigot", "", unit.MM), joint.SleeveWallLeast, sheet.With{"dia": "spigot"})
		sc.Check(sheet.Check{Key: "wall_check", Label: "Wall of the stub around the spigot", Figure: "wall", Limit: "wall_least", Level: sheet.Rule, Advice: true,
			Sentence: "A stub as thick as the old shank leaves {figure} of wall around the spigot, and {limit} is the least: turn the spigot thinner.", Source: joint.SleeveWallLeast.Source})
	},
	says: []says{{"Of the worn stretch, ", "worn_again", " is used as much again."}, {"A spigot of ", "spigot", " at the most can be turned on the old free end."}, {"It goes ", "lap", " deep into its stub."}},
	make: func(m *making) {
		shank, _ := m.Layout.WithRole("shank")
		spigot, lap := m.or(m.mine("spigot"), 8), m.or(m.mine("lap"), 12)
		d := m.or(shank.Key+".dia", 12)
		outside := m.class(want{part: "stub", name: "outside", label: "journal", key: shank.Key + ".dia", nominal: d}, "h6")
		bore := m.limits(want{part: "stub", name: "bore", label: "over the spigot", nominal: max(1, min(spigot, d-3)), grows: true}, 2*joint.BrazeGapMost, 2*joint.BrazeGapLeast, joint.BrazeGapSource)
		long := drawn("as the old one: copy it", lap+40)
		m.add(part.Part{Key: "stub", Label: "new stub for the screw", Material: "c45", Round: &part.Round{Length: long, Outside: []part.Step{{Label: "journal", Length: long, Dia: m.suits(outside, "the bush that it runs in", shank.Key+".dia", micrometer), Chamfer: 0.5}},
			Left: []part.Step{{Label: "over the spigot", Length: m.general(want{part: "stub", name: "depth", label: "depth", nominal: lap, grows: true}), Dia: bore, Chamfer: 0.3}}},
			Notes: []string{"Collar, journal, seats and end thread: copy the old end; leave 0.4 mm on all of them until it is joined and straight.", "A pin through both as well as the braze; no pin or key slot under a bearing's seat."}})
		m.step(measured, "", part.Operation{Key: "measure_wear", Do: "Take lost motion at five places and mark on the screw from where to where it is worn; measure its root at the free end.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "lost motion at five places",
			Asks: []string{"Is it worn in the middle? Then the other way round is no better: a new screw.", "Is the thread complete to its free end?"}})
		m.step(made, "stub", part.Operation{Key: "turn_stub", Do: "Turn the stub with its bore and collar, 0.4 mm left on its seats, while the old screw still works.", Needs: []part.Capability{part.Turning, part.Threads}, After: []string{"measure_wear"}, Envelope: [2]float64{long.Nominal, d}, Minutes: [2]float64{90, 240}, Record: "bore of the stub", Cautions: []string{eyes}})
		m.step(stripped, "", part.Operation{Key: "screw_out", Do: "Take the screw out.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate}})
		m.step(fitted, "stub", part.Operation{Key: "join_stub", Do: "Turn the spigot on the old free end, join and pin the stub, straighten cold between centres, then finish its seats true with the thread.", Needs: []part.Capability{part.Turning, part.Heat}, Minutes: [2]float64{120, 300}, Record: "run-out at three places", Cautions: []string{"Brazing: fire watch, moving air, no cadmium; hot metal looks like cold.", eyes},
			Asks: []string{"Is there another lathe for it, while this one is without its screw?"}})
		m.step(assembled, "", part.Operation{Key: "screw_in", Do: "Fit the screw with the nut just nipped; pinch the nut up at the end nearest the bracket, wind out, tighten.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "lost motion at three places"})
	},
}
