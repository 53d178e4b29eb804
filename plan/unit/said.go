package unit

import "strings"

// said are units that are typed and never shown: a text in them is taken for
// the unit of the field. Their scales are exact: the pound-force is
// 0.45359237 kg under 9.80665 m/s², the inch 25.4 mm (SI brochure, 9th edition;
// ISO 80000-3 and -4).
var said = []Unit{
	{Symbol: "kN", Dim: ForceD, Scale: 1000},
	{Symbol: "lbf", Dim: ForceD, Scale: poundForce},
	{Symbol: "lb", Dim: ForceD, Scale: poundForce},
	{Symbol: "kgf", Dim: ForceD, Scale: 9.80665},
	{Symbol: "N·mm", Dim: NewtonMetre.Dim, Scale: 1},
	{Symbol: "N·cm", Dim: NewtonMetre.Dim, Scale: 10},
	{Symbol: "lbf·in", Dim: NewtonMetre.Dim, Scale: poundForce * 25.4},
	{Symbol: "in·lbf", Dim: NewtonMetre.Dim, Scale: poundForce * 25.4},
	{Symbol: "lbf·ft", Dim: NewtonMetre.Dim, Scale: poundForce * 304.8},
	{Symbol: "ft·lbf", Dim: NewtonMetre.Dim, Scale: poundForce * 304.8},
	{Symbol: "N/mm²", Dim: MPa.Dim, Scale: 1},
	{Symbol: "kN/mm²", Dim: MPa.Dim, Scale: 1000},
	{Symbol: "bar", Dim: MPa.Dim, Scale: 0.1},
	{Symbol: "psi", Dim: MPa.Dim, Scale: poundForce / (25.4 * 25.4)},
	{Symbol: "ksi", Dim: MPa.Dim, Scale: 1000 * poundForce / (25.4 * 25.4)},
	{Symbol: "kN/mm", Dim: NewtonPerMM.Dim, Scale: 1000},
	{Symbol: "lbf/in", Dim: NewtonPerMM.Dim, Scale: poundForce / 25.4},
	{Symbol: "r/min", Dim: RPM.Dim, Scale: RPM.Scale},
	{Symbol: "h", Dim: TimeD, Scale: 3600},
	{Symbol: "min", Dim: TimeD, Scale: 60},
	{Symbol: "s", Dim: TimeD, Scale: 1},
	{Symbol: "g", Dim: Kilogram.Dim, Scale: 1e-6},
	{Symbol: "lb", Dim: Kilogram.Dim, Scale: 0.45359237e-3},
	{Symbol: "g/cm³", Dim: Density.Dim, Scale: 1e-9},
	{Symbol: "°F", Dim: TempD, Scale: 5.0 / 9, Zero: -68},
	{Symbol: "cm²", Dim: MM2.Dim, Scale: 100},
	{Symbol: "in²", Dim: MM2.Dim, Scale: 25.4 * 25.4},
	{Symbol: "cm⁴", Dim: MM4.Dim, Scale: 1e4},
	{Symbol: "µm/(m·K)", Dim: Number.Per(TempD), Scale: 1e-6},
	{Symbol: "ppm/K", Dim: Number.Per(TempD), Scale: 1e-6},
	{Symbol: "m/min", Dim: LengthD.Per(TimeD), Scale: 1000.0 / 60},
	{Symbol: "ft/min", Dim: LengthD.Per(TimeD), Scale: 304.8 / 60},
	{Symbol: "rad", Dim: Number, Scale: 1},
	{Symbol: "deg", Dim: Number, Scale: Degree.Scale},
}

const poundForce = 4.4482216152605 // N

// bare writes a unit as it is compared: people leave out dots and raised figures.
var bare = strings.NewReplacer("·", "", "*", "", "-", "", " ", "", ".", "", "(", "", ")", "", "²", "2", "³", "3", "⁴", "4", "^", "", "µ", "u", "μ", "u")

func plain(symbol string) string { return bare.Replace(strings.ToLower(symbol)) }

// unitSaid is the unit of a word that stands after a number in a field of u.
func unitSaid(word string, u Unit) (Unit, bool) {
	if l, ok := lengthWords[word]; ok && u.Dim == LengthD {
		return l, true
	}
	if u.Symbol != "" && plain(u.Symbol) == plain(word) {
		return u, true
	}
	for _, list := range [][]Unit{All, said} {
		for _, v := range list {
			if v.Dim == u.Dim && v.Symbol != "" && plain(v.Symbol) == plain(word) {
				return v, true
			}
		}
	}
	return Unit{}, false
}

// accepted are the units that a field of u takes, its own first: "N, kN, lbf".
func accepted(u Unit) string {
	names := []string{u.Symbol}
	for _, list := range [][]Unit{All, said} {
		for _, v := range list {
			if v.Dim == u.Dim && v.Symbol != u.Symbol && len(names) < 4 {
				names = append(names, v.Symbol)
			}
		}
	}
	if len(names) == 1 {
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}
