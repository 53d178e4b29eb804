// Package bearing holds rolling bearings by their boundary dimensions, and
// what a seat for one needs around it.
package bearing

import "fettle/plan/sheet"

// Bearing is a deep groove ball bearing by ISO 15; all in mm.
type Bearing struct {
	Series string // dimension series: "17", "18", "19", "10", "02"
	Bore   float64
	OD     float64
	Width  float64 // open; shielded ones of series 17 and 18 are wider
	Shield float64 // width when shielded
}

// Small bearings that a feed screw's end can carry: the common series for
// bores of 6 to 20 mm, by ISO 15. Shielded widths of the thin sections are
// those of series 37 and, where sold so, as wide as stated.
var Small = []Bearing{
	{"17", 10, 15, 3, 4}, {"17", 12, 18, 4, 4}, {"17", 15, 21, 4, 4}, {"17", 17, 23, 4, 4}, {"17", 20, 27, 4, 4},
	{"18", 6, 13, 3.5, 5}, {"18", 8, 16, 4, 5}, {"18", 10, 19, 5, 5}, {"18", 12, 21, 5, 5}, {"18", 15, 24, 5, 5}, {"18", 17, 26, 5, 5}, {"18", 20, 32, 7, 7},
	{"19", 6, 15, 5, 5}, {"19", 8, 19, 6, 6}, {"19", 10, 22, 6, 6}, {"19", 12, 24, 6, 6}, {"19", 15, 28, 7, 7}, {"19", 17, 30, 7, 7}, {"19", 20, 37, 9, 9},
	{"10", 6, 17, 6, 6}, {"10", 8, 22, 7, 7}, {"10", 10, 26, 8, 8}, {"10", 12, 28, 8, 8}, {"10", 15, 32, 9, 9}, {"10", 17, 35, 10, 10}, {"10", 20, 42, 12, 12},
}

var (
	// SeatWall is what is left outside a seat of the bearing's diameter.
	SeatWall = sheet.Method{Text: "(body - od) / 2", Source: "geometry"}

	// SeatWallLeast: the larger of 2.5 mm and a share of the outside diameter.
	SeatWallLeast = sheet.Method{
		Text:   "max(mm(2.5), share * od)",
		Source: "common practice, no source: 0.15 of the outside diameter in iron and steel, 0.2 in aluminium",
	}
)

// WallShare is the share of the outside diameter that the wall around a seat
// should have in a material.
func WallShare(material string) float64 {
	if material == "aluminium" {
		return 0.2
	}
	return 0.15
}

// Fitting lists the bearings of a bore that leave wall enough around their seat
// in a body of the diameter, smallest outside first.
func Fitting(bore, body float64, material string) []Bearing {
	var fit []Bearing
	for _, b := range Small {
		if b.Bore == bore && (body-b.OD)/2 >= max(2.5, WallShare(material)*b.OD) {
			fit = append(fit, b)
		}
	}
	return fit
}
