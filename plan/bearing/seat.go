package bearing

import "fettle/plan/sheet"

// Small bearings that a feed screw's end can carry: deep groove bearings of the
// thinner series for bores of 6 to 20 mm, a bore's smallest outside first.
var Small = small()

func small() (list []Bearing) {
	for _, b := range Catalogue {
		if b.Kind == DeepGroove && b.Series != "02" && b.Series != "03" && b.Bore >= 6 && b.Bore <= 20 {
			list = append(list, b)
		}
	}
	return list
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

func wallLeast(od float64, material string) float64 { return max(2.5, WallShare(material)*od) }

// Fitting lists the bearings of a bore that leave wall enough around their seat
// in a body of the diameter, smallest outside first.
func Fitting(bore, body float64, material string) []Bearing {
	var fit []Bearing
	for _, b := range Small {
		if b.Bore == bore && (body-b.OD)/2 >= wallLeast(b.OD, material) {
			fit = append(fit, b)
		}
	}
	return fit
}

// Shoulders are the diameters that a bearing's shoulders may have, in mm.
type Shoulders struct {
	ShaftLeast, ShaftMost     float64
	HousingLeast, HousingMost float64
}

// ShoulderSource is where the diameters of its shoulders come from.
func (b Bearing) ShoulderSource() string {
	switch {
	case b.Kind == NeedleThrust:
		return "common practice, no source: thin washers are backed all over"
	case b.Thrust():
		return "common practice, no source: washers are backed to the middle of the balls"
	}
	return "published heights of shoulders by corner radius; not above two thirds of the ring's height: common practice"
}

// heights of a shoulder by the bearing's corner radius, in mm.
// Source: published lists, least height without heavy thrust.
var heights = []struct{ corner, least float64 }{{0.1, 0.4}, {0.15, 0.6}, {0.2, 0.8}, {0.3, 1}, {0.6, 2}, {1, 2.5}, {1.1, 3.25}}

// Shoulders of the bearing. A shoulder that is too low does not hold the ring; one
// that is too high presses on the cage, or cannot be taken off. The washers of a
// thrust bearing are backed to the middle of their balls, or all over under needles.
func (b Bearing) Shoulders() Shoulders {
	middle := (b.Bore + b.OD) / 2
	switch b.Kind {
	case ThrustBall, SmallThrust:
		return Shoulders{ShaftLeast: middle, ShaftMost: b.OD, HousingLeast: b.Bore, HousingMost: middle}
	case NeedleThrust:
		return Shoulders{ShaftLeast: b.OD - 1, ShaftMost: b.OD, HousingLeast: b.Bore, HousingMost: b.Bore + 1}
	}
	least := heights[len(heights)-1].least
	for _, h := range heights {
		if b.Corner <= h.corner {
			least = h.least
			break
		}
	}
	most := max(least, 2.0/3*0.2*(b.OD-b.Bore)) // a ring is about a fifth of D − d high
	return Shoulders{b.Bore + 2*least, b.Bore + 2*most, b.OD - 2*most, b.OD - 2*least}
}
