package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// traysGuards: trays, splash guards, light. What is computed is how large a tray is
// to be for what moves over it.
var traysGuards = &guided{
	about: About{
		Key: "trays_guards", Label: "Tray, splash guard and light", Whole: true,
		Words:   []string{"chip tray", "drip tray", "suds tray", "splash back", "splashback", "coolant", "lamp", "work light", "swarf tray"},
		Purpose: "Swarf and coolant stay on the machine, and the work is seen. A tray or guard must let everything travel.",
		Measure: []string{"What moves furthest out, at both ends of its travel: handles too.", "Where coolant runs to, and where it could be drained."},
		Cautions: []string{"Isolate the machine before you work around it.", "Sheet edges cut: gloves for handling sheet, folded or dressed edges; no gloves at a turning spindle.", "A lamp near coolant: extra-low voltage, wired by a competent electrician; it must not dazzle, nor make a turning chuck seem to stand.",
			"No swarf by hand: a hook and a brush. No air line.", "Coolant on the floor is slippery: mop it, and a mat that lets it through."},
		Proof: "All travels by hand from end to end with everything fitted, then an hour's work: nothing on the floor.",
		Hours: [2]float64{2, 8}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Bench},
		Cures: []string{"wears.swarf", "danger.guards"},
	},
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"moves", "Length of what moves over it", "", unit.MM, "along its travel, handles and dial too", "", 10, 4000}, given{"goes", "Travel of what moves over it", "", unit.MM, "as it is planned to be", "", 0, 4000}, given{"tray", "Inside length of the tray", "", unit.MM, "", "", 10, 6000})
		l.Assume(sc, quiet("splash", "beyond what moves, at each end", "", unit.MM), 50, "common practice, no source: 50 mm")
		sc.Formula(shown("tray_least", "tray, least length inside", "", unit.MM), "moves + goes + 2 * splash", "geometry: what moves, as far as it goes")
		sc.Check(sheet.Check{Key: "tray_check", Label: "Tray catches all", Figure: "tray", Limit: "tray_least", Level: sheet.Rule,
			Sentence: "The tray is {figure} long inside, and {limit} catches all.", Source: "geometry"})
	},
	says: []says{{"A tray of ", "tray_least", " inside catches what falls from it at either end."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "sheet", Label: "sheet of steel or clear polycarbonate for a guard; a lamp of extra-low voltage", Quantity: 1, For: "fit_tray", Confirm: "travels", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "travels", Do: "Wind everything to both its ends and mark on card where it comes; cut the card until all clears.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 90}, Record: "the card, with its sizes", Asks: []string{"Will another upgrade of this plan make something travel further?"}})
		m.step(assembled, "", part.Operation{Key: "fit_tray", Do: "Bend and fit tray and guards with a fall of 1 in 50 to the drain; wind from end to end by hand.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{90, 300}, Record: "clearance where things nearly touch", Cautions: []string{isolate, "Sheet edges cut: gloves, and dress them."}})
	},
}
