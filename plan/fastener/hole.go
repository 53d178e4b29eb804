package fastener

import (
	_ "embed"
	"errors"
	"fmt"
	"math"
	"slices"

	"fettle/plan/table"
)

// Spare is the thread that is left below the end of a screw, so that it draws
// its head down and never bottoms.
const (
	Spare       = 1.0
	SpareSource = "common practice, no source: 1 mm of thread free under the screw's end"
)

// Hole is what a screw has to go through and hold in.
type Hole struct {
	Grip       float64 // of all that is held under the head, washer included
	Engagement float64 // the least that is to be in the thread
	Depth      float64 // of full thread; infinite where it is tapped right through
}

// Choice is a screw's length and what comes of it.
type Choice struct {
	Length  float64
	Engaged float64 // in the thread
	Left    float64 // of thread below its end; infinite in a hole tapped through
}

// For is the shortest standard length that is not under the grip and the
// engagement, and not over the grip and the depth of thread less [Spare]. A
// plain shank must not reach the thread either.
//
// It returns [ErrAsked] or a [*NoLength], which says what would help.
func (s Screw) For(h Hole) (Choice, error) {
	if s.Grub() || !(h.Grip > 0) || !(h.Engagement > 0) || !(h.Depth > 0) || math.IsInf(h.Grip+h.Engagement, 1) {
		return Choice{}, ErrAsked
	}
	none := &NoLength{What: s.what()}
	l, err := between(s.Lengths(), h.Grip+h.Engagement, h.Grip+h.Depth-Spare, none)
	if errors.Is(err, ErrAsked) {
		return Choice{}, err // no thread at all below the grip
	}
	if err != nil {
		none.Help = s.help(h, none)
		return Choice{}, none
	}
	if s.Thread > 0 && l > s.Full && l-s.Thread > h.Grip+forgiven {
		none.Help = fmt.Sprintf("at %s the plain part of its shank, %s, would reach the thread", mm(l), mm(l-s.Thread))
		none.Shorter, none.Longer = 0, 0
		return Choice{}, none
	}
	return Choice{l, l - h.Grip, h.Grip + h.Depth - l}, nil
}

// help says what would let a screw be used where none fits.
func (s Screw) help(h Hole, none *NoLength) string {
	switch deeper := none.Longer - none.Most; {
	case h.Engagement > h.Depth-Spare+forgiven:
		return fmt.Sprintf("for %s of engagement the thread has to be %s deep", mm(h.Engagement), mm(h.Engagement+Spare))
	case none.Longer == 0:
		return "take a larger size, or sink the head"
	default:
		return fmt.Sprintf("tap the hole %s deeper, put as much under the head, or shorten the %s one to %s", mm(deeper), mm(none.Longer), mm(none.Most))
	}
}

// ThreadsOut is how many pitches of a screw stand out of its nut.
const (
	ThreadsOut       = 2.0
	ThreadsOutSource = "common practice, no source: two threads out of the nut"
)

// Through is the hole of a screw with a nut behind the grip. pitch is the
// thread's.
func (n Nut) Through(grip, pitch float64) Hole {
	return Hole{Grip: grip, Engagement: n.Height + ThreadsOut*pitch, Depth: math.Inf(1)}
}

// Clearance are the holes that a screw goes through.
type Clearance struct {
	Size                 string // "M6"
	Dia                  float64
	Fine, Medium, Coarse float64 // H12, H13, H14
}

// ClearanceSource is where [Clearances] come from.
const ClearanceSource = "ISO 273; agrees with a published table"

//go:embed holes.csv
var holeTable string

// Clearances are the clearance holes of every size.
var Clearances = func() (all []Clearance) {
	for _, r := range table.Rows(holeTable) {
		all = append(all, Clearance{r["size"], r.Number("dia"), r.Number("fine"), r.Number("medium"), r.Number("coarse")})
	}
	return all
}()

// ClearanceFor is the clearance hole of a screw, such as "M6".
func ClearanceFor(size string) (Clearance, bool) {
	i := slices.IndexFunc(Clearances, func(c Clearance) bool { return c.Size == size })
	if i < 0 {
		return Clearance{}, false
	}
	return Clearances[i], true
}
