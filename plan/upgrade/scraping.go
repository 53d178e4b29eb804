package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/unit"
)

// scraping: ways brought true by hand. What is computed is what comes down with
// the slide, and the shim that brings the nut back.
var scraping = &guided{
	about: About{
		Key: "scraping", Label: "Ways scraped true",
		Words:   []string{"scrape", "scraping in", "blueing", "spotting", "worn ways", "dovetail", "regrind", "flaking", "lapping"},
		Purpose: "The slide runs straight and as lightly at one end as at the other. What is scraped off the flat lets the slide down.",
		Measure: []string{"Both flats and both flanks by blue and a straightedge, at both ends and in the middle.", "The dovetail over rollers at three places.", "Height of the slide above the ways, before the first cut."},
		Cautions: []string{"Isolate the machine before it is stripped.", "A casting slides off a bench: clamp it, and lift it with a hoist or a second pair of hands.", "Scrapers are sharp: cut away from the hand that holds the work, and cap them.",
			"Cast-iron dust: damp cloth and a mask, never an air line.", "Metal that is off does not come back: the master surface first, and in passes of 2 to 10 µm."},
		Proof: "Spots at 10 to 15 in 25 mm square, all over; straightness by gauge along each way; the push on the free slide at three places; squareness to the other axis.",
		Hours: [2]float64{20, 100}, Risk: HighRisk, Undo: NotUndone, Needs: []part.Capability{part.Scraping},
		Cures: []string{"rocks.ways", "untrue.ways", "jams.gib"},
	},
	suits: sliding,
	lay: func(s *Site) {
		s.typed(s.Scope, quiet("removed", "metal to come off the flats, most", "h", unit.MM), Field{Name: "removed", Label: "Most metal to come off the flats", Hint: "what the straightedge shows, 0.05"}, "", 0, 3, 0)
		s.Scope.Formula(quiet("rises", "slide goes up by", "", unit.MM), "0 - removed", "geometry: it comes down by what is scraped off")
		s.risen("rises")
		if latheSlide(s.Layout) {
			s.Scope.Formula(shown("tool_lower", "tool comes down by", "h", unit.MM), "removed", "geometry: it stands on the slide")
		}
		s.Layout.Assume(s.Scope, quiet("pass", "metal that a pass takes", "", unit.Micrometre), 5, "published practice of scraping: 2 to 10 µm")
		s.Scope.Formula(quiet("passes", "passes at the deepest place", "n", unit.Count), "ceil(removed / pass)", "definition")
	},
	says: []says{{"It takes about ", "passes", " passes at the deepest place."}, {"The nut then stands ", "nut_off", " off the screw's line."}, {"The tool comes down by ", "tool_lower", ": packing under it, or a holder that goes so much higher."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "blue", Label: "engineer's blue, and the loan of a straightedge or a surface plate as long as the way", Quantity: 1, For: "scrape_flats", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "map_ways", Do: "Map both ways: readings along them at every 25 mm. Mark the stretch that is least worn: what you scrape to.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 180}, Record: "the readings, and over which rollers",
			Asks: []string{"Which surface is the master, and is it true itself?", "Is there metal enough above oil grooves and gib screws?"}})
		m.step(stripped, "", part.Operation{Key: "slide_off", Do: "Take the slide off, clean the ways, and stone off burrs only.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 120}, Record: "shims and where they lay, with a photo", Cautions: []string{isolate}})
		m.step(cut, "", part.Operation{Key: "scrape_flats", Do: "Scrape in this order: the master flats, the flats that run on them, the flank that the gib does not touch, then the gib's flank parallel to it. Blue after each pass.", Needs: []part.Capability{part.Scraping}, Minutes: [2]float64{900, 4800}, Record: "spots to 25 mm square, with photos", Cautions: []string{ironDust, "Scrapers are sharp: cut away from the hand that holds the work."},
			Asks: []string{"Before the second axis is touched: is this one square to it? Two axes corrected one by one can end out of square to one another."}})
		m.step(fitted, "", part.Operation{Key: "measure_drop", Do: "Measure how far the slide has come down, at both ends, and shim or relieve the nut by as much.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 120}, Record: "how far it came down, at both ends",
			Asks: []string{"Does the screw run through the nut without being pressed to a side, at both ends?"}})
		m.step(assembled, "", part.Operation{Key: "slide_on", Do: "Oil, slide on, gib set last; pinch the nut up at the end nearest the bracket.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "the push on the free slide at three places"})
	},
}
