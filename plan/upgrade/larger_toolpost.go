package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// largerToolpost: a larger tool post. What is computed is whether its holders come
// to centre height, and what its size takes from the reach.
var largerToolpost = &guided{
	about: About{
		Key: "larger_toolpost", Label: "Larger tool post",
		Words:   []string{"toolpost", "quick change", "tool holder", "turret toolpost", "four-way", "indexing toolpost", "compound"},
		Purpose: "Tools are changed without packing, and held more stiffly. A larger post stands the tip elsewhere, and takes from the reach.",
		Measure: []string{"Centre height above the face that the post stands on.", "How low and how high the holders go, with your tools in them.", "From the post's bolt to the tip, the old post and the new."},
		Cautions: []string{"Isolate the machine before the post comes off.", "A post that overhangs a small slide lifts its rear edge: see that the slide still bears under it.", "Wind the carriage up by hand before the motor is started: a larger post meets chuck jaws sooner.",
			"Do not mill the top of a slide thinner without knowing what is below: the T-slot's lips are thin."},
		Proof: "Every tool to centre height; deflection at the tip under 200 N, before and after, at the same overhang; the reach.",
		Hours: [2]float64{1, 4}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Milling},
		Cures: []string{"reach.tooling", "rocks.stack"},
	},
	suits: func(l *axis.Layout) bool { return latheSlide(l) || l.Capacity.Key == "toolpost" },
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		centre := s.measuredOr("centre_above_slide", quiet("centre", "spindle's axis above the face that the post stands on", "H", unit.MM), Field{Name: "centre", Label: "Spindle's axis above the face that the post stands on", Hint: "a centre in the spindle, height gauge"}, "", 2, 200)
		s.given(given{"lowest", "Least height of the tip above the post's foot", "h_1", unit.MM, "holder right down, with your thickest tool", "", 0, 200},
			given{"highest", "Greatest height of the tip above the post's foot", "h_2", unit.MM, "holder right up, with your thinnest tool", "", 0, 300})
		sc.Formula(quiet("below", "holder goes below the axis by", "", unit.MM), "centre - lowest", "geometry", sheet.With{"centre": centre})
		sc.Formula(quiet("above", "holder goes above the axis by", "", unit.MM), "highest - centre", "geometry", sheet.With{"centre": centre})
		l.Assume(sc, quiet("spare", "room that a holder should have either way", "", unit.MM), 0.5, "common practice, no source: tools are reground")
		sc.Check(sheet.Check{Key: "low_check", Label: "Holder goes low enough", Figure: "below", Limit: "spare", Level: sheet.Rule,
			Sentence: "At its lowest the tip stands {figure} below the axis, and {limit} is wanted: a smaller post, or thinner tools.", Source: "geometry"})
		sc.Check(sheet.Check{Key: "high_check", Label: "Holder goes high enough", Figure: "above", Limit: "spare", Level: sheet.Rule,
			Sentence: "At its highest the tip stands {figure} above the axis, and {limit} is wanted: a raising block under the post.", Source: "geometry"})
		s.typed(sc, quiet("closer", "tip stands closer to the axis by", "x", unit.MM), Field{Name: "closer", Label: "Tip stands closer to the spindle's axis by", Hint: "new post's bolt to tip, less the old one's"}, "", -200, 200, 0)
		if l.Scope.Has("tip_past_axis") {
			l.Scope.Change("tip_past_axis", "was + closer", "geometry: the tip stands so much further in, at every position of the slide", sheet.With{"closer": sc.Key("closer")})
		}
		if l.Scope.Has("start_disc") {
			sc.Formula(quiet("starts", "disc work can start on", "", unit.MM), "start", "as worked out of the travel", sheet.With{"start": "start_disc"})
		}
	},
	says: []says{{"The holders go ", "below", " below the axis."}, {"They go ", "above", " above it."}, {"With the tip there, disc work can start on ", "starts", "."}},
	make: func(m *making) {
		m.step(measured, "", part.Operation{Key: "measure_height", Do: "Measure from the slide's top to the spindle's axis, and on the new holders the lowest and highest tip, before they are paid for.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "height, lowest, highest",
			Asks: []string{"Is it the post that gives, or the top slide under it? A solid plinth in its place may be what is wanted.", "Does the post clear the tailstock's barrel and the chuck's jaws?"}})
		m.buy(part.Bought{Key: "post", Label: "tool post whose holders take your tools and come to the height measured", Quantity: 1, For: "fit_post", Confirm: "measure_height", Source: "common practice, no source"})
		m.step(made, "", part.Operation{Key: "turn_stud", Do: "Turn a stud and a stepped T-nut that fills its slot; the nut flush or below the top of the slot, so that the post sits on the slide.", Needs: []part.Capability{part.Turning, part.Milling}, After: []string{"measure_height"}, Envelope: [2]float64{100, 40}, Minutes: [2]float64{60, 150}, Record: "length of the stud", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "fit_post", Do: "Stone both faces, fit the post, set every holder to centre height and lock its nut; wind both slides from end to end by hand.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 90}, Record: "reach, both ends", Cautions: []string{isolate}})
	},
}
