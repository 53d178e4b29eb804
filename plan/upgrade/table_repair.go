package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// tableRepair: T-slots, holes and flatness of a table. What is computed is how
// stiff it is when it is skimmed.
var tableRepair = &guided{
	about: About{
		Key: "table_repair", Label: "Table repaired or skimmed",
		Words:   []string{"T-slot", "tee slot", "table flatness", "resurface", "regrind table", "drill marks", "insert", "plug"},
		Purpose: "Holes and broken slots are filled, and work sits flat on the table again.",
		Measure: []string{"Flatness: a gauge run over the table along and across, on a grid of 50 mm.", "Thickness over the T-slots, and how deep the damage is."},
		Cautions: []string{"Isolate the machine before the table comes off.", "A table weighs 15 to 60 kg: a hoist or a second pair of hands.", "Cast-iron dust: mask, extraction or a damp cloth, never an air line.",
			"A casting bows when its skin is cut: the least cut that cleans it, clamped without being bent, and turned over once.", "Do not weld a table: it warps, and may crack long after."},
		Proof: "The same map of flatness: at most 0.02 mm in 300 mm; T-nuts slide in every slot from end to end.",
		Hours: [2]float64{4, 20}, Risk: MediumRisk, Undo: NotUndone, Needs: []part.Capability{part.Milling, part.Scraping},
		Cures: []string{"untrue.ways"},
	},
	suits: overTable,
	lay: func(s *Site) {
		s.given(given{"thick", "Thickness of the table over its T-slots", "t", unit.MM, "the lip that a T-nut pulls up against", "", 2, 200},
			given{"skim", "Metal to come off", "h", unit.MM, "the deepest low place of the map", "", 0, 20})
		l, sc := s.Layout, s.Scope
		sc.Formula(shown("lip", "lip over the T-slots that is left", "t", unit.MM), "max(0, thick - skim)", "geometry")
		sc.Method(shown("strength_left", "strength of the lip that is left", "", unit.Percent), slide.StrengthLeft, sheet.With{"after": "lip", "before": "thick"})
		l.Assume(sc, quiet("strength_least", "least strength to leave", "", unit.Percent), 80, "common practice, no source: no more than a fifth is given away")
		sc.Check(sheet.Check{Key: "lip_check", Label: "T-slots strong enough after the cut", Figure: "strength_left", Limit: "strength_least", Level: sheet.Rule,
			Sentence: "The lips over the T-slots keep {figure} of their strength, and {limit} is the least.", Source: slide.StrengthLeft.Source})
	},
	says: []says{{"A lip of ", "lip", " is left over the T-slots."}, {"It keeps ", "strength_left", " of its strength."}},
	make: func(m *making) {
		m.step(measured, "", part.Operation{Key: "map_table", Do: "Run a gauge over the table on a grid of 50 mm, the ways wiped and the gibs set; run a stone over burrs first.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "the map, with the gauge's place",
			Asks: []string{"Is it the table that is hollow, or the ways under it that are worn? Turn it end for end, if it can be, and map it again."}})
		m.step(stripped, "", part.Operation{Key: "table_off", Do: "Take off vice, stops, screw and gib, and the table with help.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 120}, Record: "shims and where they lay, with a photo", Cautions: []string{isolate, tableWeight}})
		m.step(cut, "", part.Operation{Key: "plug_table", Do: "Bore the damage out to round holes or a straight pocket, and press in plugs of grey iron with retaining compound, 0.2 mm proud.", Needs: []part.Capability{part.Milling, part.Pressing}, Minutes: [2]float64{90, 300}, Record: "depth over the T-slot that is left", Cautions: []string{eyes, ironDust},
			Asks: []string{"How thick is the metal under the damage? Probe with a thin drill before a cutter goes in."}})
		m.step(cut, "", part.Operation{Key: "skim_table", Do: "Support the table where its ways bear, clamp it without bending it, and take the least cut that cleans it; or have it ground. Scrape what is left.", Needs: []part.Capability{part.Milling}, Minutes: [2]float64{120, 480}, Record: "thickness at the four corners", Cautions: []string{eyes, ironDust, tableWeight},
			Asks: []string{"Slacken the clamps before the last cut: does it spring?"}})
		m.step(assembled, "", part.Operation{Key: "table_on", Do: "Deburr the slots, oil the ways, put the table back and set its gib.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "the map of flatness", Cautions: []string{tableWeight}})
	},
}

const tableWeight = "A table weighs 15 to 60 kg: a hoist or a second pair of hands, and nothing of yours under it."
