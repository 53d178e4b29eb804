package fit

// Ring is what of a bearing sits on a seat.
type Ring string

// The rings.
const (
	Inner         Ring = "inner"          // inner ring on its shaft
	Outer         Ring = "outer"          // outer ring in its housing
	ShaftWasher   Ring = "shaft_washer"   // of a thrust ball bearing
	HousingWasher Ring = "housing_washer" // of a thrust ball bearing
	NeedleInner   Ring = "needle_inner"   // cage of a needle thrust bearing, guided by the shaft
	NeedleOuter   Ring = "needle_outer"   // the same, in its housing
)

// Load is how a ring stands to its load. The ring that turns under the load
// creeps unless it is tight; the other may slide.
type Load string

// The loads.
const (
	TurningLight  Load = "turning_light" // up to 0.06 of the dynamic rating
	TurningNormal Load = "turning"
	Still         Load = "still" // the load always meets the same place of the ring
	FeedScrew     Load = "screw" // thrust by hand, little else
)

// Seat is a class for a bearing's seat.
type Seat struct {
	Class  string
	Why    string
	Source string
}

const (
	seatTables = "published fit tables for rolling bearings, which agree on it"
	seatTrade  = "common practice, no source"
)

// Seats lists the classes for the seat of a ring of the size in mm under a load,
// the one to take first. Soft is a housing of aluminium, where interference
// fades as it warms: one class tighter.
func Seats(ring Ring, load Load, size float64, soft bool) []Seat {
	switch ring {
	case Inner:
		return innerSeats(load, size)
	case Outer:
		return outerSeats(load, soft)
	case ShaftWasher:
		return []Seat{{"js6", "washer of a thrust bearing on its shaft", seatTables}, {"j6", "the same, a little lower", seatTables}}
	case HousingWasher:
		return []Seat{{"H8", "or bored 0.5 to 1 mm larger: the housing's washer finds its own place and must not be held by the bore", "from memory, unchecked"}}
	case NeedleInner:
		return []Seat{{"h8", "cage guided by the shaft", seatTables}}
	case NeedleOuter:
		return []Seat{{"H11", "clear of the cage, which the shaft guides", seatTables}}
	}
	return nil
}

func innerSeats(load Load, size float64) []Seat {
	switch {
	case load == Still:
		return []Seat{{"h6", "load stands still on the ring, which need not slide", seatTables}, {"g6", "the same, where it must slide on the shaft", seatTables}}
	case load == FeedScrew:
		return []Seat{{"h6", "pushed on by hand; thrust goes through the shoulders", seatTrade}, {"js6", "a light tap, where it must not move on the shaft", seatTables}}
	case load == TurningLight && size < 18:
		return []Seat{{"js5", "ring turns under a light load, bore under 18 mm", seatTables}, {"js6", "the same, easier to make", seatTables}}
	case load == TurningLight && size <= 100:
		return []Seat{{"js6", "ring turns under a light load", seatTables}, {"j6", "the same, a little tighter", seatTables}}
	case size < 18:
		return []Seat{{"j5", "ring turns under its load, bore under 18 mm", seatTables}, {"j6", "the same, easier to make", seatTables}}
	case size <= 100:
		return []Seat{{"k5", "ring turns under its load", seatTables}, {"k6", "the same, easier to make", seatTables}}
	}
	return []Seat{{"m5", "ring turns under its load, bore above 100 mm", seatTables}, {"m6", "the same, easier to make", seatTables}}
}

func outerSeats(load Load, soft bool) []Seat {
	const tighter = seatTables + "; one class tighter in aluminium: common practice, no source"
	switch {
	case load == Still && soft, load == FeedScrew && soft:
		return []Seat{{"J7", "load stands still on the ring; in aluminium it must not grow loose as it warms", tighter}, {"H7", "where the ring must slide", seatTables}}
	case load == FeedScrew:
		return []Seat{{"H7", "pushed in by hand", seatTrade}, {"J7", "a light tap", seatTables}}
	case load == Still:
		return []Seat{{"H7", "load stands still on the ring, which can slide", seatTables}, {"H6", "the same, for true running", seatTables}, {"K6", "held, for true running", seatTables}}
	case load == TurningLight && soft:
		return []Seat{{"N7", "ring turns under a light load, in aluminium", tighter}}
	case load == TurningLight:
		return []Seat{{"M7", "ring turns under a light load", seatTables}}
	case soft:
		return []Seat{{"P7", "ring turns under its load, in aluminium", tighter}}
	}
	return []Seat{{"N7", "ring turns under its load", seatTables}, {"P7", "the same in a thin wall", seatTables}}
}

// RingLimits is the tolerance of the ring that sits on the seat, in µm, and its
// source. It returns [ErrRing] or [ErrRange].
//
// Source: ISO 492 and ISO 199, normal class; cages of needle thrust bearings
// E11 and c12, by published lists.
func RingLimits(ring Ring, size float64) (l Limits, source string, err error) {
	switch ring {
	case Inner:
		l, err = RingBore(size)
		return l, RadialRingSource, err
	case ShaftWasher:
		l, err = RingBore(size)
		return l, ThrustRingSource, err
	case HousingWasher:
		l, err = WasherOutside(size)
		return l, ThrustRingSource, err
	case NeedleInner:
		l, err = Deviations("E11", size)
		return l, "cages of needle thrust bearings: E11 in the bore, by published lists", err
	case NeedleOuter:
		l, err = Deviations("c12", size)
		return l, "cages of needle thrust bearings: c12 outside, by published lists", err
	}
	l, err = RingOutside(size)
	return l, RadialRingSource, err
}

// OnShaft tells whether the ring's seat is a shaft.
func (r Ring) OnShaft() bool { return r == Inner || r == ShaftWasher || r == NeedleInner }
