package material

import "fettle/plan/sheet"

// Form is the shape of a bar's section.
type Form struct {
	Key, Label string
	Area       sheet.Method // of across, and of thickness or wall
	Second     string       // the input beside across: "thickness", "wall", or ""
}

// Forms of stock. across is the diameter, the side, the width across flats, or
// the width of a flat.
var Forms = []Form{
	{"round", "round bar", sheet.Method{Text: "pi / 4 * pow(across, 2)", Source: "geometry: π d²/4"}, ""},
	{"square", "square bar", sheet.Method{Text: "pow(across, 2)", Source: "geometry: a²"}, ""},
	{"hexagon", "hexagon bar", sheet.Method{Text: "sqrt(3) / 2 * pow(across, 2)", Source: "geometry: √3/2 of the square across flats"}, ""},
	{"flat", "flat bar or plate", sheet.Method{Text: "across * thickness", Source: "geometry"}, "thickness"},
	{"tube", "tube", sheet.Method{Text: "pi * (across - wall) * wall", Source: "geometry: π (d − t) t"}, "wall"},
}

var (
	// Volume of a bar.
	Volume = sheet.Method{Text: "area * length", Source: "geometry"}

	// Weight of a piece, as a mass.
	Weight = sheet.Method{Text: "volume * density", Source: "geometry: volume times density"}
)
