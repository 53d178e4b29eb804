package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/unit"
)

// wayLiner: a lining of low friction under the slide. What is computed is how high
// the slide then stands, and what goes up with it.
var wayLiner = &guided{
	about: About{
		Key: "way_liner", Label: "Lining under the slide",
		Words:   []string{"liner", "way lining", "slideway liner", "bonded strip", "moulded resin", "stick-slip", "bearing strip", "rebuild"},
		Purpose: "A bonded strip or moulded resin makes up for wear, and the slide neither sticks nor jumps. It lifts the slide by what it is thicker than the metal taken off.",
		Measure: []string{"How far the slide has worn down, at both ends: what the lining may put back.", "Height of the nut's axis under the slide.", "The gap for the gib at both ends."},
		Cautions: []string{"Isolate the machine before it is stripped.", "Adhesives, resins and degreasers: gloves, goggles, moving air, no flame; follow their data sheets.", "Lift the casting with a hoist or a second pair of hands.",
			"Dust of linings is not for lungs: cut it wet, never grind it dry, and never burn it.", "Swarf beds itself in a soft lining: wipers belong with it."},
		Proof: "Height at the four corners within 0.02 mm; no jump at the slowest winding, by gauge; the push on the free slide at three places.",
		Hours: [2]float64{12, 30}, Risk: MediumRisk, Undo: UndonePart, Needs: []part.Capability{part.Milling, part.Scraping}, Own: true,
		Cures: []string{"rocks.ways", "jams.gib"},
	},
	suits: sliding,
	lay: func(s *Site) {
		s.typed(s.Scope, quiet("lining", "lining with its adhesive", "t", unit.MM), Field{Name: "lining", Label: "Lining with its adhesive", Hint: "0.8 to 1.6 mm"}, "", 0, 6, 0)
		s.typed(s.Scope, quiet("milled", "metal taken off or worn away where it goes", "", unit.MM), Field{Name: "milled", Label: "Metal taken off or worn away where it goes", Hint: "0 where none"}, "", 0, 6, 0)
		s.Scope.Formula(shown("rises", "slide goes up by", "h", unit.MM), "lining - milled", "geometry: the lining less the metal that made room for it")
		s.risen("rises")
		if latheSlide(s.Layout) {
			s.Scope.Formula(shown("tool_higher", "tool goes up by", "h", unit.MM), "rises", "geometry: it stands on the slide")
		}
	},
	says: []says{{"The slide goes up by ", "rises", ": whatever stands on it, and the gib's gap, change with it."}, {"The nut then stands ", "nut_off", " off the screw's line."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "lining", Label: "lining strip as wide as each way, or moulding resin, with the adhesive and the cleaner that its maker names", Quantity: 1, For: "bond", Confirm: "measure_worn", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "measure_worn", Do: "Slide off: measure how far it is worn down at the four corners, the nut's height and the gib's gap. Put all back until everything is at hand.", Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, Minutes: [2]float64{90, 180}, Record: "the four corners, the nut's height, the gap", Cautions: []string{isolate}})
		m.step(stripped, "", part.Operation{Key: "slide_off", Do: "Take the slide off and degrease it to bare metal.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "shims and where they lay, with a photo", Cautions: []string{isolate, "Degreasers: gloves, moving air, no flame."}})
		m.step(cut, "", part.Operation{Key: "mill_seats", Do: "Mill or scrape the seats flat and as deep as planned, left rough so that the adhesive keys.", Needs: []part.Capability{part.Milling}, Minutes: [2]float64{90, 240}, Record: "depth at the four corners", Cautions: []string{eyes, ironDust},
			Asks: []string{"Is this machine the only one that can mill it? Then do it before it is apart, or scrape by hand."}})
		m.step(fitted, "", part.Operation{Key: "bond", Do: "Bond or mould the lining under an even clamp, and leave it for the whole time of curing, 24 hours as a rule.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 180}, Record: "when it was clamped, and how warm it was", Cautions: []string{"Adhesives and resins: gloves, goggles, moving air; follow their data sheets."}})
		m.step(fitted, "", part.Operation{Key: "scrape_lining", Do: "Scrape the lining to the ways; cut oil grooves in it, 5 mm from every edge and not through it.", Needs: []part.Capability{part.Scraping}, Minutes: [2]float64{180, 480}, Record: "height at the four corners, and spots",
			Asks: []string{"By how much does the slide stand higher than it did? The nut's shim, the gib and the tool's height follow that, not the plan."}})
		m.step(assembled, "", part.Operation{Key: "slide_on", Do: "Shim or relieve the nut, fit the gib anew, oil, and wind from end to end by hand.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{90, 180}, Record: "the push at three places"})
	},
}
