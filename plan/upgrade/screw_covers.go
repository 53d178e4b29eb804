package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// screwCovers: bellows or strips over a screw. What is computed is the travel that
// they take when they are closed.
var screwCovers = &guided{
	about: About{
		Key: "screw_covers", Label: "Covers and wipers for the screw",
		Words:   []string{"bellows", "gaiter", "way cover", "swarf guard", "chip guard", "felt wiper", "telescopic cover"},
		Purpose: "Swarf stays off the screw and out of the nut. A folded cover takes room, and so travel.",
		Measure: []string{"Room between the moving part and what stands at each end, at the ends of the travel.", "Travel from end to end."},
		Cautions: []string{"Isolate the machine before you work around the screw.", "A cover that hangs down is caught by handles and chucks: fix both ends, and keep it clear of everything that turns.",
			"Oil still has to get to the screw: see that it does.", "Swarf that is shut in under a cover grinds: open and clean it."},
		Proof: "Travel at both ends before and after; a white cloth along the screw after a day's work.",
		Hours: [2]float64{1, 3}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Bench},
		Cures: []string{"wears.swarf"},
	},
	suits: screwed,
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"fold", "Length of the cover folded up", "c", unit.MM, "by its maker; 2 to 6 for a wiper's holder", "", 0, 500}, given{"room", "Room for the folded cover", "r", unit.MM, "between what it is fixed to, at the end of the travel", "", 0, 1000},
			given{"open", "Length of the cover drawn out", "l", unit.MM, "by its maker", "", 0, 5000})
		sc.Formula(shown("lost", "travel that the folded cover takes, at its end", "", unit.MM), "max(0, fold - room)", "geometry")
		sc.Formula(quiet("span", "span that it must cover, at the other end of the travel", "", unit.MM), "travel + room", "geometry")
		sc.Check(sheet.Check{Key: "span_check", Label: "Cover long enough", Figure: "open", Limit: "span", Level: sheet.Stop,
			Sentence: "The cover draws out to {figure}, and {limit} must be spanned at the other end of the travel, or it tears or stops the slide.", Source: "geometry"})
		l.Assume(sc, quiet("lost_most", "most travel to give to a cover", "", unit.MM), 6, "common practice, no source: 2 to 6 mm at an end")
		sc.Check(sheet.Check{Key: "lost_check", Label: "Travel that the cover takes", Figure: "lost", Limit: "lost_most", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "The folded cover takes {figure} of the travel at its end, and {limit} is what is usually given.", Source: "common practice, no source"})
	},
	says: []says{{"At its end the folded cover takes ", "lost", " of the travel."}, {"At the other end it has to span ", "span", "."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "cover", Label: "bellows, or felt and a holder, by the folded and the drawn-out length", Quantity: 2, For: "fix_covers", Confirm: "measure_room", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "measure_room", Do: "Wind to both ends and measure the room that is left beside the screw.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "room at both ends"})
		m.step(assembled, "", part.Operation{Key: "fix_covers", Do: "Clean and oil the screw, fix the covers at both their ends, and wind from end to end by hand.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 90}, Record: "travel at both ends", Cautions: []string{isolate},
			Asks: []string{"Where does the oil for the screw now go in?"}})
	},
}
