package fastener

import "slices"

// RingNut is a slotted ring nut that holds a bearing on its shaft, with the washer
// whose tab locks it; lengths in mm.
type RingNut struct {
	Dia, Pitch float64 // of its thread
	Outside    float64
	Width      float64
	Washer     float64 // thickness of its lock washer
}

// RingNuts are those of ISO 2982-2. Threads agree with a published list; widths
// from memory, unchecked.
var RingNuts = []RingNut{
	{10, 0.75, 18, 4, 1}, {12, 1, 22, 4, 1}, {15, 1, 25, 5, 1}, {17, 1, 28, 5, 1}, {20, 1, 32, 6, 1}, {25, 1.5, 38, 7, 1.25}, {30, 1.5, 45, 7, 1.25},
}

// RingNutFor is the largest ring nut that goes onto a shaft of the diameter.
func RingNutFor(dia float64) (RingNut, bool) {
	for _, n := range slices.Backward(RingNuts) {
		if n.Dia <= dia+0.01 {
			return n, true
		}
	}
	return RingNut{}, false
}
