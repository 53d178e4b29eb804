package joint

import "fettle/plan/sheet"

// ParallelKey is the section of a key for a range of shafts, mm.
type ParallelKey struct {
	Over, To   float64 // shafts above Over, up to To
	Wide, High float64
	InShaft    float64 // depth of the keyway in the shaft
	InHub      float64
}

// ParallelKeys are those of ISO/R 773 (DIN 6885-1) for shafts of 6 to 30 mm.
// Source: as remembered; they agree with the usual handbooks.
var ParallelKeys = []ParallelKey{
	{6, 8, 2, 2, 1.2, 1}, {8, 10, 3, 3, 1.8, 1.4}, {10, 12, 4, 4, 2.5, 1.8}, {12, 17, 5, 5, 3, 2.3}, {17, 22, 6, 6, 3.5, 2.8}, {22, 30, 8, 7, 4, 3.3},
}

// KeySource is where [ParallelKeys] come from.
const KeySource = "ISO/R 773 (DIN 6885-1), from memory, unchecked"

// KeyFor is the key for a shaft; false where the table has none.
func KeyFor(shaft float64) (ParallelKey, bool) {
	for _, k := range ParallelKeys {
		if shaft > k.Over && shaft <= k.To {
			return k, true
		}
	}
	return ParallelKey{}, false
}

// KeyTorque is what a parallel key carries on its flanks: half of its height
// bears in the hub. bearing is the pressure allowed.
var KeyTorque = sheet.Method{Text: "bearing * key_high / 2 * key_long * dia / 2", Source: "machine design handbooks: T = p h/2 L d/2"}
