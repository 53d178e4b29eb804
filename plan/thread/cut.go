package thread

import (
	"math"

	"fettle/plan/sheet"
)

// Cutting with a single point, the top slide set over to just short of half of
// the flank angle, so that the tool cuts on one flank and wipes the other.
var (
	// Infeed is how far the tool goes in along the slide that is set over.
	Infeed = sheet.Method{Text: "depth / cos(set_over)", Source: "geometry: depth / cos of the set-over"}

	// Passes that keep the chip's area: the first cut is depth / √n.
	Passes = sheet.Method{Text: "ceil(pow(infeed / first_cut, 2))", Source: "geometry: chips of one area, so the k-th pass ends at infeed × √(k/n)"}

	// PassDepth is where a pass ends, along the slide that is set over.
	PassDepth = sheet.Method{Text: "infeed * sqrt(pass / passes)", Source: "geometry: the cut's area grows with the square of the depth"}
)

// Gear is a pair of change wheels between spindle and lead screw.
type Gear struct {
	Driver, Driven int     // Driver on the spindle's side
	PPM            float64 // error of the pitch that is cut, parts in a million
}

// Gears lists pairs of wheels, none larger than most, that cut a lead with a
// lead screw, both in mm: the exact one with the smallest wheels first, else
// those that come nearest, the best first. Ratios are in lowest terms: take any
// multiple that is in the box, or split it over two pairs.
func Gears(lead, screwLead float64, most, count int) []Gear {
	want := lead / screwLead
	var best []Gear
	for driven := 1; driven <= most; driven++ {
		driver := int(math.Round(want * float64(driven)))
		if driver < 1 || driver > most || common(driver, driven) != 1 {
			continue
		}
		g := Gear{driver, driven, 1e6 * (float64(driver)/float64(driven)/want - 1)}
		if math.Abs(g.PPM) < 0.001 {
			return []Gear{{driver, driven, 0}}
		}
		at := 0
		for at < len(best) && math.Abs(best[at].PPM) <= math.Abs(g.PPM) {
			at++
		}
		if at < count {
			best = append(best[:at], append([]Gear{g}, best[at:]...)...)
			best = best[:min(count, len(best))]
		}
	}
	return best
}

func common(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
