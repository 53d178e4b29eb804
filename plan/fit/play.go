package fit

import "fettle/plan/sheet"

// Formulas for what interference takes from a bearing's internal clearance.
var (
	// PlayTaken is what one ring's interference takes.
	PlayTaken = sheet.Method{
		Text:   "share * max(0, interference - smoothed)",
		Source: "common practice: 0.7 to 0.9 of the effective interference, near bore by raceway diameter on a solid shaft (Lamé)",
	}

	// PlayLeft is the clearance that the fitted bearing has.
	PlayLeft = sheet.Method{Text: "play - inner_taken - outer_taken", Source: "clearance as made less what both rings take"}
)

// Figures that the clearance left assumes.
const (
	PlayShare       = 0.8
	PlayShareSource = "common practice: 0.7 to 0.9, about 0.8 in small bearings"
	PlaySmoothed    = 0.002
	PlaySmoothedWhy = "common practice: 2 to 3 µm of a ground or finely turned seat are pressed flat"
)
