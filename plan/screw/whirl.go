package screw

import "fettle/plan/sheet"

var (
	// Whirl is the speed at which the screw whirls, as an angular speed.
	Whirl = sheet.Method{
		Text:   "pow(lambda, 2) * root / 4 * sqrt(modulus / density) / pow(length, 2)",
		Source: "beam theory: ω = λ² (d/4) √(E/ρ)/L²",
		Valid:  "for a solid bar; by hand no screw comes near it",
	}

	// WhirlSafe keeps a fifth clear of it.
	WhirlSafe = sheet.Method{Text: "0.8 * whirl", Source: "common practice: 80 % of the whirling speed; charts of ball screws have this in them"}

	// Weight of the screw by length.
	Weight = sheet.Method{Text: "density * gravity(9.80665) * pi / 4 * pow(root, 2)", Source: "geometry: w = ρ g A"}

	// Sags under its own weight, [Sag] with a free end; and bends under a load in
	// the middle or at the free end.
	SagSupported  = sheet.Method{Text: "5 * weight * pow(length, 4) / (384 * modulus * second_moment)", Source: beam + ": 5 w L⁴/384 E I"}
	SagFixed      = sheet.Method{Text: "weight * pow(length, 4) / (384 * modulus * second_moment)", Source: beam + ": w L⁴/384 E I"}
	SagPropped    = sheet.Method{Text: "weight * pow(length, 4) / (184.6 * modulus * second_moment)", Source: beam + ": w L⁴/185 E I, at its worst place"}
	BendSupported = sheet.Method{Text: "side_load * pow(length, 3) / (48 * modulus * second_moment)", Source: beam + ": F L³/48 E I"}
	BendFree      = sheet.Method{Text: "side_load * pow(length, 3) / (3 * modulus * second_moment)", Source: beam + ": F L³/3 E I"}
	BendFixed     = sheet.Method{Text: "side_load * pow(length, 3) / (192 * modulus * second_moment)", Source: beam + ": F L³/192 E I"}
	BendPropped   = sheet.Method{Text: "7 * side_load * pow(length, 3) / (768 * modulus * second_moment)", Source: beam + ": 7 F L³/768 E I, under the load"}
)
