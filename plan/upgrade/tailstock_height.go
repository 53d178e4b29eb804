package upgrade

import (
	"fettle/plan/drive"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// tailstockHeight: a tailstock brought to the spindle's height and line. What is
// computed is the shim, and what a fine adjuster moves a turn.
var tailstockHeight = &guided{
	about: About{
		Key: "tailstock_height", Label: "Tailstock to height and in line",
		Words:   []string{"tailstock alignment", "set-over", "setover", "centre height", "shimming", "differential screw", "turns a taper", "off centre"},
		Purpose: "Drills start on the axis and long work comes out parallel: the barrel stands a little high and in line, and a fine screw sets it across.",
		Measure: []string{"Spindle warm: a test bar between centres, a gauge on the carriage, from above and from the side.", "The barrel itself, in and out, from above and from the side: is it parallel?"},
		Cautions: []string{"Isolate the machine while gauges stand at chuck and spindle.", "A tailstock weighs 5 to 40 kg: lift it off with help, and from in front.", "Bearings of the headstock first: a tailstock set to a worn spindle is set wrong.",
			"Shim under the whole foot, not at a corner: the clamp bends what is hollow."},
		Proof: "Test bar between centres: 0.02 mm in 300 mm from above and from the side; the barrel stands 0.01 to 0.03 mm high, and stays so clamped.",
		Hours: [2]float64{2, 6}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Bench, part.Scraping},
		Cures: []string{"untrue.tailstock"},
	},
	suits: tailstock,
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"low", "Height of the spindle's axis above the barrel's", "h", unit.MM, "warm; less than nothing where it is higher", "", -5, 20},
			given{"coarse", "Fine adjuster: one pitch", "P_1", unit.MM, "of the same hand as the other", "1 mm", 0.2, 5}, given{"fine", "Fine adjuster: other pitch", "P_2", unit.MM, "a little finer", "0.75 mm", 0.2, 5})
		l.Assume(sc, quiet("high", "height of the barrel over the axis that is wanted, warm", "", unit.MM), 0.02, "common practice, no source: 0.02 to 0.04 mm, for wear and the work's weight")
		sc.Formula(shown("pack", "shim under the tailstock", "t", unit.MM), "low + high", "geometry")
		sc.Method(shown("per_turn", "fine adjuster moves, a turn", "", unit.MM), drive.Differential)
		sc.Formula(quiet("thin", "metal to come off under the tailstock", "", unit.MM), "max(0, 0 - pack)", "geometry")
		l.Assume(sc, quiet("thin_most", "most to come off by scraping", "", unit.MM), 0.1, "common practice, no source: more is milled or ground")
		sc.Check(sheet.Check{Key: "thin_check", Label: "Can be brought down by scraping", Figure: "thin", Limit: "thin_most", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "{figure} has to come off under the tailstock; above {limit} it is milled or ground.", Source: "common practice, no source"})
	},
	says: []says{{"The shim is ", "pack", " thick (metal comes off where that is less than nothing)."}, {"A turn of the fine adjuster moves it ", "per_turn", " across."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "shim_stock", Label: "shim stock, a set of thicknesses, to cut to the whole foot", Quantity: 1, For: "shim_foot", Confirm: "gauge_barrel", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "gauge_barrel", Do: "Run the spindle for 20 minutes and stop it; take the test bar's readings from above and the side, then the barrel's own, in and out.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "readings from above and from the side", Cautions: []string{isolate},
			Asks: []string{"Does the reading change when barrel or foot is clamped? Cure that first.", "Is the barrel low in front only? Then the foot is worn: scrape it parallel before it is shimmed."}})
		m.step(stripped, "", part.Operation{Key: "tailstock_off", Do: "Slide the tailstock off its bed and part body and base.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 60}, Record: "shims that are in it already", Cautions: []string{"5 to 40 kg: lift with help."}})
		m.step(fitted, "", part.Operation{Key: "shim_foot", Do: "Cut the shim to the whole joint, or scrape the joint down; clean, and no burr at its holes.", Needs: []part.Capability{part.Scraping}, Minutes: [2]float64{45, 180}, Record: "shim as it went in"})
		m.step(assembled, "", part.Operation{Key: "set_across", Do: "Put it back, set it across with the two screws or the fine one, clamp, and turn a test piece between centres.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "both ends of the test piece"})
	},
}
