package joint

import (
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// A sleeve over a shaft of the diameter dia with a pin through both; wall is the
// sleeve's, shear and bearing what the materials are allowed.
var (
	// PinLeast is the smallest pin that carries the torque.
	PinLeast = sheet.Method{Text: "sqrt(4 * torque / (pi * shear * dia))", Source: PinnedSleeve.Source + ", for d"}

	// PinProposed is the next pin that is sold, no thinner than a fifth of the
	// shaft; where that takes too much of the shaft, the thickest that does not.
	PinProposed = sheet.Method{
		Text:   "when(pin_least <= pin_most, stock_pin(max(pin_least, 0.2 * dia)), pin_most)",
		Source: "ISO 2338 and ISO 2339: diameters of pins; common practice, no source: 0.2 to 0.3 of the shaft",
	}

	// PinMost is the thickest pin that leaves enough of the shaft.
	PinMost = sheet.Method{Text: "0.3 * dia", Source: "common practice, no source: 0.2 to 0.3 of the shaft"}

	// PinThrust is the push along the axis that the pin carries.
	PinThrust = sheet.Method{Text: "2 * shear * pi / 4 * pow(pin, 2)", Source: "elementary mechanics: two sections in shear"}

	// PinBearsShaft and PinBearsSleeve are what the torque presses the pin on
	// their holes with.
	PinBearsShaft  = sheet.Method{Text: "6 * torque / (pin * pow(dia, 2))", Source: "elementary mechanics: a pressure that rises from the axis, 6 T / d D²"}
	PinBearsSleeve = sheet.Method{Text: "torque / (pin * wall * (dia + wall))", Source: "elementary mechanics: T / d t (D + t)"}

	// PinnedShaft is the shear in the shaft beside the hole.
	PinnedShaft = sheet.Method{
		Text:   "torque / (pi * pow(dia, 3) / 16 - pin * pow(dia, 2) / 6)",
		Source: "machine design handbooks: T / (π D³/16 − d D²/6)", Valid: "without the peak at the hole's edge, about three times that, which counts where the load changes often",
	}

	// PinnedOutside is how large outside a pinned sleeve is to be.
	PinnedOutside = sheet.Method{Text: "1.5 * dia + mm(2)", Source: "common practice, no source: 1.5 diameters and 2 mm"}

	// TaperPinLarge and TaperPinMean are the diameters of a taper pin at its large
	// end and half-way; its nominal diameter is that of its small end.
	TaperPinLarge = sheet.Method{Text: "small + length / 50", Source: "ISO 2339: taper 1 : 50, nominal diameter at the small end"}
	TaperPinMean  = sheet.Method{Text: "small + length / 100", Source: "ISO 2339: taper 1 : 50, nominal diameter at the small end"}
)

// pinDiameters are those in which cylindrical and taper pins are sold, mm.
// Source: ISO 2339:1986, as read; ISO 2338 has the same.
var pinDiameters = []float64{0.6, 0.8, 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 40, 50}

// StockPin gives formulas stock_pin(dia): the thinnest pin that is sold and is as
// thick as that. Above the thickest it gives the diameter itself.
func StockPin() *sheet.Func {
	return &sheet.Func{
		Name: "stock_pin", Args: []unit.Dim{unit.LengthD}, Result: unit.LengthD, Monotone: true,
		Source: "ISO 2338 and ISO 2339: diameters of pins",
		F: func(args []float64) float64 {
			for _, d := range pinDiameters {
				// A rounding error asks for no thicker pin.
				if d >= args[0]-1e-9 {
					return d
				}
			}
			return args[0]
		},
	}
}

// Figures that pinned joints assume.
const (
	PinBearing       = 100.0
	PinBearingSource = "common practice, no source: 100 MPa on the hole of a pin in mild steel, a third of its yield"
)
