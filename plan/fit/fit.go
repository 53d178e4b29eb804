package fit

import (
	"fmt"

	"fettle/plan/sheet"
)

// Kind is the kind of a fit.
type Kind string

// The kinds. A fit that can just touch, such as H7/h6, is a clearance fit.
const (
	Loose      Kind = "clearance"
	Transition Kind = "transition"
	Tight      Kind = "interference"
)

// Clearance is a fit at a size: what lies between hole and shaft, in µm; below
// nothing it is interference.
type Clearance struct {
	Hole, Shaft Limits
	Max, Min    float64
	Kind        Kind
}

// Fit gives the fit of a hole and a shaft of one nominal size in mm:
// 7 to 41 µm of clearance for "H7" and "g6" at 20.
//
// It returns [ErrRange] or [ErrClass], also where hole and shaft are swapped.
//
// Source: ISO 286-1:2010 clause 3: clearance is hole less shaft.
func Fit(hole, shaft string, nominal float64) (Clearance, error) {
	h, err := HoleClass(hole)
	if err != nil {
		return Clearance{}, err
	}
	s, err := ShaftClass(shaft)
	if err != nil {
		return Clearance{}, err
	}
	var c Clearance
	if c.Hole, err = h.At(nominal); err != nil {
		return Clearance{}, err
	}
	if c.Shaft, err = s.At(nominal); err != nil {
		return Clearance{}, err
	}
	c.Max, c.Min = c.Hole.Upper-c.Shaft.Lower, c.Hole.Lower-c.Shaft.Upper
	c.Kind = KindOf(c.Max, c.Min)
	return c, nil
}

// KindOf is the kind of a fit by its greatest and its least clearance.
func KindOf(most, least float64) Kind {
	switch {
	case least >= 0:
		return Loose
	case most <= 0:
		return Tight
	}
	return Transition
}

// HoleClass reads the class of a hole; it returns [ErrClass].
func HoleClass(text string) (Class, error) {
	c, err := ParseClass(text)
	if err == nil && !c.Hole() {
		err = fmt.Errorf("%w of holes: %s is a shaft's; a hole is written in capitals, such as H7", ErrClass, c)
	}
	return c, err
}

// ShaftClass reads the class of a shaft; it returns [ErrClass].
func ShaftClass(text string) (Class, error) {
	c, err := ParseClass(text)
	if err == nil && c.Hole() {
		err = fmt.Errorf("%w of shafts: %s is a hole's; a shaft is written in small letters, such as g6", ErrClass, c)
	}
	return c, err
}

const holeLessShaft = "ISO 286-1:2010 clause 3: clearance is hole less shaft"

// Formulas of a fit. In them are hole.upper, hole.lower, shaft.upper and
// shaft.lower, deviations in mm.
var (
	// ClearanceMost is the greatest clearance.
	ClearanceMost = sheet.Method{Text: "hole.upper - shaft.lower", Source: holeLessShaft}

	// ClearanceLeast is the least; below nothing it is interference.
	ClearanceLeast = sheet.Method{Text: "hole.lower - shaft.upper", Source: holeLessShaft}

	// LikelyMost is the greatest clearance that parts made about the middle of
	// their zones are likely to have: about 99.7 of 100.
	LikelyMost = sheet.Method{
		Text:   "(most + least) / 2 + sqrt(pow(hole.upper - hole.lower, 2) + pow(shaft.upper - shaft.lower, 2)) / 2",
		Source: "root sum square of the two half zones about their means",
		Valid:  "for parts made about the middle; a shaft turned down until it goes in lies near the least clearance",
	}

	// LikelyLeast is the least clearance that is likely so.
	LikelyLeast = sheet.Method{
		Text:   "(most + least) / 2 - sqrt(pow(hole.upper - hole.lower, 2) + pow(shaft.upper - shaft.lower, 2)) / 2",
		Source: LikelyMost.Source, Valid: LikelyMost.Valid,
	}

	// LimitOfSize is a limit of size.
	LimitOfSize = sheet.Method{Text: "size + deviation", Source: "ISO 286-1:2010 clause 3: limit of size is nominal size plus deviation"}

	// HoleAim and ShaftAim are the sizes to aim for: share of the way through the
	// zone, counted from where metal is least.
	HoleAim  = sheet.Method{Text: "size + upper - share * (upper - lower)", Source: aimSource}
	ShaftAim = sheet.Method{Text: "size + lower + share * (upper - lower)", Source: aimSource}
)

const aimSource = "common practice, no source: the middle for work turned to size; two thirds towards the most metal for work lapped or filed to fit"

// Shares of the zone at which to aim, counted from where metal is least.
const (
	AimTurned = 0.5
	AimFitted = 2.0 / 3
)
