package fit

import (
	"errors"
	"fmt"
)

// ErrRing is returned for a bearing ring beyond the tables.
var ErrRing = errors.New("no such bearing ring in the tables")

type ringStep struct{ to, lower float64 }

var (
	bores    = []ringStep{{18, -8}, {30, -10}, {50, -12}, {80, -15}, {120, -20}, {180, -25}}
	outsides = []ringStep{{18, -8}, {30, -9}, {50, -11}, {80, -13}, {120, -15}, {150, -18}, {180, -25}}
	washers  = []ringStep{{18, -11}, {30, -13}, {50, -16}, {80, -19}, {120, -22}, {180, -25}}
)

// Sources of the tolerances of bearing rings.
const (
	RadialRingSource = "ISO 492, normal class: mean diameter of the ring"
	ThrustRingSource = "ISO 199, normal class: mean diameter of the washer"
)

// RingBore is the tolerance of the bore of a rolling bearing of the normal
// class, of a bore in mm, in µm: 0 and −8 at 12. A bearing's bore is always
// nominal or less, so that a seat is tighter than the same class in an H7 hole.
// Washers of thrust ball bearings have the same. It returns [ErrRing].
//
// Source: ISO 492 and ISO 199, normal class.
func RingBore(bore float64) (Limits, error) { return ringOf(bores, bore) }

// RingOutside is the tolerance of a rolling bearing's outside diameter, in µm.
//
// Source: ISO 492, normal class.
func RingOutside(outside float64) (Limits, error) { return ringOf(outsides, outside) }

// WasherOutside is the tolerance of the outside diameter of a thrust ball
// bearing's washers, in µm.
//
// Source: ISO 199, normal class.
func WasherOutside(outside float64) (Limits, error) { return ringOf(washers, outside) }

func ringOf(table []ringStep, size float64) (Limits, error) {
	if size >= 2.5 {
		for _, s := range table {
			if size <= s.to {
				return Limits{Lower: s.lower}, nil
			}
		}
	}
	return Limits{}, fmt.Errorf("%w: they go from 2.5 to 180 mm", ErrRing)
}
