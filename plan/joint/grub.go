package joint

import (
	"slices"

	"fettle/plan/sheet"
)

// Formulas of a grub screw on a shaft of the diameter dia.
var (
	// GrubHolding is the push along the axis that a cup point holds, as counted on.
	GrubHolding = sheet.Method{Text: "holding_power * held * point * number", Source: "handbook holding power, by the point, the number of screws and what is counted on"}

	// GrubTorque is the torque that it holds.
	GrubTorque = sheet.Method{Text: "holding * dia / 2", Source: "holding power at the shaft's surface: T = F d / 2"}

	// Allowed is a figure with its factor of safety.
	Allowed = sheet.Method{Text: "carries / safety", Source: "common practice, no source"}

	// GrubMost is the largest screw for a shaft.
	GrubMost = sheet.Method{Text: "dia / 2", Source: "a screw maker's guide: about half the shaft's diameter"}
)

// GrubScrew is a socket grub screw with a cup point on a steel shaft that is
// softer than it.
type GrubScrew struct {
	Key     string  // "M6", "1/4"
	Dia     float64 // mm
	Seating float64 // N·mm, to tighten it with
	Holding float64 // N along the shaft
	Source  string
}

const (
	inchGrub   = "machine design handbook, table of typical holding power; seating torques agree with two tables read, holding powers from memory, unchecked"
	metricGrub = "between the inch sizes by diameter, less where its seating torque, as read, is less"
	lbf        = 4.4482216152605 // N
	lbfIn      = lbf * 25.4      // N·mm
)

// GrubScrews lists the sizes for bench machines.
var GrubScrews = []GrubScrew{
	{"M3", 3, 920, 800, metricGrub},
	{"M4", 4, 2200, 1560, metricGrub},
	{"M5", 5, 4000, 2230, metricGrub},
	{"M6", 6, 7200, 3360, metricGrub},
	{"M8", 8, 17000, 5980, metricGrub},
	{"M10", 10, 33000, 8400, metricGrub},
	{"#4", 2.845, 5 * lbfIn, 160 * lbf, inchGrub},
	{"#5", 3.175, 10 * lbfIn, 200 * lbf, inchGrub},
	{"#6", 3.505, 10 * lbfIn, 250 * lbf, inchGrub},
	{"#8", 4.166, 20 * lbfIn, 385 * lbf, inchGrub},
	{"#10", 4.826, 36 * lbfIn, 540 * lbf, inchGrub},
	{"1/4", 6.35, 87 * lbfIn, 1000 * lbf, inchGrub},
	{"5/16", 7.9375, 165 * lbfIn, 1500 * lbf, inchGrub},
	{"3/8", 9.525, 290 * lbfIn, 2000 * lbf, inchGrub},
	{"1/2", 12.7, 620 * lbfIn, 3000 * lbf, inchGrub},
}

// GrubNamed is the grub screw with the key.
func GrubNamed(key string) (GrubScrew, bool) {
	i := slices.IndexFunc(GrubScrews, func(g GrubScrew) bool { return g.Key == key })
	if i < 0 {
		return GrubScrew{}, false
	}
	return GrubScrews[i], true
}

// GrubPoints are the holding powers of points, as shares of a cup point's.
// Source: a screw maker's engineering guide, as read.
var GrubPoints = []struct {
	Key, Label string
	Share      float64
}{
	{"cup", "cup", 1},
	{"cone", "cone, in a drilled dimple", 1.07},
	{"flat", "flat", 0.92},
	{"dog", "dog", 0.92},
	{"oval", "oval", 0.90},
}

// Figures that grub screws assume.
const (
	GrubHeld         = 0.4
	GrubHeldSource   = "a second table, read, gives 0.3 to 0.5 of the handbook's holding power"
	GrubSecond       = 1.3
	GrubSecondSource = "common practice, no source: a second screw at 90° to 120° adds about 30 %"
	GrubSafety       = 4.0
	GrubSafetySource = "common practice, no source: 4 where the load reverses"
)
