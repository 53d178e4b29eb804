package thread

import (
	"math"
	"slices"
)

// Measured is what is known of a thread to be named; lengths in mm.
type Measured struct {
	Dia   float64 // outside of a screw, or the bore of a nut
	Pitch float64 // 0 where it was not measured
	Angle float64 // included angle of the flanks in degrees; 0 where it was not looked at
	Nut   bool
}

// Candidate is a thread that it may be.
type Candidate struct {
	Thread Thread
	Basic  Basic
	DiaOff float64 // the diameter as measured, less the thread's
	// PitchOff is the pitch as measured over the thread's, less 1; 0 where it
	// was not measured.
	PitchOff float64
	Twin     bool // it does not fit what was measured, but is easily taken for it
	score    float64
}

// How near a measurement must come: a screw is worn, or turned under size, far
// more often than it is over size; a bore is as often drilled large. A pitch
// gauge or ten turns on a rule tell 1 %. Common practice, no source.
const (
	diaUnder     = 0.15 // of the pitch, below the screw's major diameter
	diaOver      = 0.02 // mm
	boreOver     = 0.3  // of the pitch
	pitchNear    = 0.01
	twinPitch    = 0.10
	twinDia      = 0.25 // of the pitch, and
	twinDiaLeast = 0.35 // mm
)

// Identify lists the threads of the tables that fit what was measured, the
// nearest first, then their near twins: those that a rule and a caliper do not
// tell from them, such as M6 and 0BA, or 1/2 UNC and 1/2 BSW.
func Identify(m Measured) []Candidate {
	var fits, twins []Candidate
	for i, t := range sizes() {
		b := basics()[i]
		c := Candidate{Thread: t, Basic: b, DiaOff: m.Dia - t.Dia}
		// Where a good one usually lies: a screw a little under, a bore a little over.
		least, most, usual := -diaUnder*t.Pitch, diaOver, -0.04*t.Pitch
		if m.Nut {
			c.DiaOff = m.Dia - b.Bore
			least, most, usual = -diaOver, boreOver*t.Pitch, 0.12*t.Pitch
		}
		near := max(twinDiaLeast, twinDia*t.Pitch)
		if m.Pitch > 0 {
			c.PitchOff = m.Pitch/t.Pitch - 1
		}
		angleFits := m.Angle == 0 || t.Series.Form.Angle == 0 || math.Abs(m.Angle-t.Series.Form.Angle) < 1.5
		c.score = math.Abs(c.DiaOff-usual)/(0.1*t.Pitch) + math.Abs(c.PitchOff)/pitchNear
		switch {
		case c.DiaOff >= least && c.DiaOff <= most && math.Abs(c.PitchOff) <= pitchNear && angleFits:
			fits = append(fits, c)
		case m.Pitch > 0 && math.Abs(c.DiaOff) <= near && math.Abs(c.PitchOff) <= twinPitch:
			c.Twin = true
			twins = append(twins, c)
		}
	}
	byScore := func(a, b Candidate) int {
		switch {
		case a.score < b.score-1e-9:
			return -1
		case a.score > b.score+1e-9:
			return 1
		}
		return 0
	}
	slices.SortStableFunc(fits, byScore)
	slices.SortStableFunc(twins, byScore)
	return append(fits, twins...)
}
