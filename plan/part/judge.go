package part

import "math"

// Verdict is what a size as made comes to against its limits.
type Verdict string

// The verdicts. A size that is still open, or has no limits, has none.
const (
	Within Verdict = "within limits"
	Over   Verdict = "over"
	Under  Verdict = "under"
)

// Judged is a size as made against its limits.
type Judged struct {
	Verdict Verdict // "" where there is nothing to judge it by
	By      float64 // mm beyond the limit; 0 within
	Rework  bool    // metal can still come off, and bring it within
	Sure    bool    // it would be no other verdict within what the measurement is off
}

// rounding is a difference in mm that is none.
const rounding = 1e-9

// Judge compares what was measured, in mm, with the limits of the size.
// plusMinus is how far off the measurement can be.
func (s Size) Judge(made, plusMinus float64) Judged {
	least, most := s.Smallest(), s.Largest()
	if s.Open() || !(most > least) || math.IsNaN(made) {
		return Judged{}
	}
	j := Judged{Verdict: Within}
	switch {
	case made > most+rounding:
		j.Verdict, j.By, j.Rework = Over, made-most, !s.Grows
	case made < least-rounding:
		j.Verdict, j.By, j.Rework = Under, least-made, s.Grows
	}
	j.Sure = math.Abs(made-most) >= plusMinus-rounding && math.Abs(made-least) >= plusMinus-rounding
	return j
}
