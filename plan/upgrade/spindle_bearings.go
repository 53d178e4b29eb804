package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/unit"
)

// spindleBearings: new bearings in the headstock. What is computed is how much
// play is left when the spindle is warm.
var spindleBearings = &guided{
	about: About{
		Key: "spindle_bearings", Label: "New spindle bearings", Whole: true,
		Words:   []string{"headstock", "taper roller", "angular contact", "run-out", "spindle play", "preload"},
		Purpose: "The spindle runs truer and stiffer in bearings that are set against each other.",
		Measure: []string{"Run-out in the spindle's taper and on its register.", "End float, pushed and pulled with 100 N.", "How warm the headstock gets beside the nose in 20 minutes at the speed that you use most."},
		Cautions: []string{"Isolate the machine before the spindle comes out.", "Press on the ring that has the tight fit, and never through the balls.", "Bearings set too tight run hot and seize: 20 minutes, stop it, and only then feel the headstock beside the nose. Warm is good; too hot to hold is not.",
			"Guards and belts go back on before it runs."},
		Proof: "Run-out at the nose at most 0.01 mm; end float; temperature after 20 minutes, at the speed that you use most.",
		Hours: [2]float64{6, 16}, Risk: HighRisk, Undo: UndonePart, Needs: []part.Capability{part.Turning, part.Pressing}, Own: false,
		Cures: []string{"rocks.spindle"},
	},
	lay: func(s *Site) {
		s.given(given{"apart", "Distance of the bearings from one another", "L", unit.MM, "middle to middle", "", 10, 1000},
			given{"warmer", "Spindle warmer than its housing", "ΔT", kelvin, "5 to 10 K is usual after 20 minutes", "8", 0, 60})
		s.Layout.Assume(s.Scope, quiet("expansion", "expansion of steel", "α", perKelvin), 11.5, "common practice: 11.5 µm per metre and kelvin, steel")
		s.Scope.Formula(shown("grows", "spindle longer than the housing when warm", "ΔL", unit.Micrometre), "apart * warmer * expansion", "definition of the expansion: ΔL = L ΔT α")
	},
	says: []says{{"Warm, the spindle is ", "grows", " longer between its bearings than the housing: leave so much play cold where they are set face to face; set back to back they get so much looser."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "spindle_bearings", Label: "bearings of the sizes that are in it: read them off the old ones, and measure bore, outside and width", Quantity: 2, For: "fit_bearings", Confirm: "draw_spindle", Source: "ISO 15, ISO 355: boundary dimensions"})
		m.step(stripped, "", part.Operation{Key: "draw_spindle", Do: "Slacken the preload, take off pulley and gear, and draw the spindle. Mark which way each ring stood, and where the shims were.", Needs: []part.Capability{part.Pressing}, Minutes: [2]float64{60, 180}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate},
			Asks: []string{"Is there another way to turn a part, if one is needed while the spindle is out?"}})
		m.step(assembled, "", part.Operation{Key: "fit_bearings", Do: "Fit the new bearings clean and greased, warm them to 80 °C rather than hammer them; set them by end float, and lock the nut.", Needs: []part.Capability{part.Pressing}, Minutes: [2]float64{90, 240}, Record: "end float, and run-out in the taper", Cautions: []string{"Hot bearings: gloves, and no naked flame.", "Press on the ring that has the tight fit."}})
		m.step(proved, "", part.Operation{Key: "run_in", Do: "Run it for 20 minutes at a low speed, then at the usual one; every five minutes stop it, feel the headstock beside the nose, and write the temperature down.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "temperature every five minutes", Cautions: []string{"Guards on before it runs; stand beside it, not over it; nothing is felt while it turns."},
			Asks: []string{"After 20 minutes: stopped, is the headstock beside the nose no more than hand-warm?"}})
	},
}
