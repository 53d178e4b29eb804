package joint

import (
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// BoltInIron is the least engagement of a bolt in cast iron.
var BoltInIron = sheet.Method{Text: "1.5 * bolt_dia", Source: "common practice, no source: 1.5 diameters in cast iron"}

// boltLengths are the lengths in which bolts are sold, in mm, as preferred by
// ISO 888 for 6 mm and above.
var boltLengths = []float64{8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200}

// StockBolt gives formulas stock_bolt(length): the shortest bolt that is sold
// and is as long as that. Above the longest it gives the length itself.
func StockBolt() *sheet.Func {
	return &sheet.Func{
		Name: "stock_bolt", Args: []unit.Dim{unit.LengthD}, Result: unit.LengthD, Monotone: true,
		Source: "ISO 888: preferred lengths of bolts",
		F: func(args []float64) float64 {
			for _, l := range boltLengths {
				// A rounding error asks for no longer bolt.
				if l >= args[0]-1e-9 {
					return l
				}
			}
			return args[0]
		},
	}
}
