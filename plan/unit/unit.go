// Package unit holds the dimensions and units of the whole program, and reads
// and prints them as they are said in a workshop.
//
// Inside there is one unit for each kind of thing: mm, N, N·mm, MPa, s, K, rad,
// and mass as N·s²/mm, so that no sum ever needs a factor. Everything that is
// shown or typed goes through a [Unit], which knows its scale:
//
//	v, err := unit.Parse(`1-1/4"`, unit.MM)   // 31.75, in mm
//	unit.NewtonMetre.Text(3000, 1)            // "3", of 3000 N·mm inside
//
// Temperatures inside are differences from 20 °C, the reference temperature of
// ISO 1. Angles are numbers: a radian is 1.
package unit

import "fmt"

// Dim is a dimension: the powers of mm, N, s and K, each counted in sixths so
// that square and cube roots are exact.
type Dim struct{ Length, Force, Time, Temp int8 }

// Powers of one, as multiples of a whole power in a [Dim].
const whole = 6

// The dimensions that have names.
var (
	Number  = Dim{}
	LengthD = Dim{Length: whole}
	ForceD  = Dim{Force: whole}
	TimeD   = Dim{Time: whole}
	TempD   = Dim{Temp: whole}
)

// Times is the dimension of a product.
func (d Dim) Times(e Dim) Dim {
	return Dim{d.Length + e.Length, d.Force + e.Force, d.Time + e.Time, d.Temp + e.Temp}
}

// Per is the dimension of a quotient.
func (d Dim) Per(e Dim) Dim {
	return Dim{d.Length - e.Length, d.Force - e.Force, d.Time - e.Time, d.Temp - e.Temp}
}

// Power is the dimension of d raised to p; ok is false where the result is no
// whole number of sixths.
func (d Dim) Power(p float64) (_ Dim, ok bool) {
	ok = true
	raise := func(n int8) int8 {
		f := float64(n) * p
		r := int8(f)
		if float64(r) != f {
			ok = false
		}
		return r
	}
	return Dim{raise(d.Length), raise(d.Force), raise(d.Time), raise(d.Temp)}, ok
}

// String writes d in the inside units: "mm", "N/mm²", "number".
func (d Dim) String() string {
	if d == Number {
		return "number"
	}
	var s string
	for _, p := range []struct {
		symbol string
		n      int8
	}{{"N", d.Force}, {"mm", d.Length}, {"s", d.Time}, {"K", d.Temp}} {
		if p.n == 0 {
			continue
		}
		if s != "" {
			s += "·"
		}
		s += p.symbol
		if p.n != whole {
			s += fmt.Sprintf("^%g", float64(p.n)/whole)
		}
	}
	return s
}

// Unit is how a quantity of one dimension is shown and typed.
type Unit struct {
	Symbol   string
	Dim      Dim
	Scale    float64 // inside = (shown + Zero) × Scale
	Zero     float64 // only °C: −20
	Decimals int     // as many as it is usually shown with
}

var (
	// MM is the unit of lengths inside.
	MM = Unit{"mm", LengthD, 1, 0, 2}
	// Inch is 25.4 mm exactly (ISO 31-1; the international inch of 1959).
	Inch = Unit{"in", LengthD, 25.4, 0, 3}
	// Thou is a thousandth of an inch.
	Thou = Unit{"thou", LengthD, 0.0254, 0, 1}
	// Micrometre is 0.001 mm.
	Micrometre = Unit{"µm", LengthD, 0.001, 0, 1}
	// Newton is the unit of forces inside.
	Newton = Unit{"N", ForceD, 1, 0, 0}
	// NewtonMetre is 1000 N·mm.
	NewtonMetre = Unit{"N·m", Dim{Length: whole, Force: whole}, 1000, 0, 2}
	// MPa is N/mm².
	MPa = Unit{"MPa", Dim{Length: -2 * whole, Force: whole}, 1, 0, 0}
	// GPa is 1000 MPa.
	GPa = Unit{"GPa", Dim{Length: -2 * whole, Force: whole}, 1000, 0, 0}
	// NewtonPerMicrometre is a stiffness: 1000 N/mm.
	NewtonPerMicrometre = Unit{"N/µm", Dim{Length: -whole, Force: whole}, 1000, 0, 1}
	// NewtonPerMM is a load along a line, or a stiffness: 1 N/mm.
	NewtonPerMM = Unit{"N/mm", Dim{Length: -whole, Force: whole}, 1, 0, 2}
	// RPM is turns a minute: 2π/60 rad/s.
	RPM = Unit{"rpm", Dim{Time: -whole}, 0.10471975511965977, 0, 0}
	// Kilogram is 0.001 N·s²/mm.
	Kilogram = Unit{"kg", Dim{Length: -whole, Force: whole, Time: 2 * whole}, 0.001, 0, 2}
	// Celsius is typed and shown as a temperature, kept as a difference from 20 °C.
	Celsius = Unit{"°C", TempD, 1, -20, 1}
	// MM2 is an area.
	MM2 = Unit{"mm²", Dim{Length: 2 * whole}, 1, 0, 1}
	// MM4 is a second moment of area.
	MM4 = Unit{"mm⁴", Dim{Length: 4 * whole}, 1, 0, 0}
	// Density is N·s²/mm⁴, typed and shown as kg/m³.
	Density = Unit{"kg/m³", Dim{Length: -4 * whole, Force: whole, Time: 2 * whole}, 1e-12, 0, 0}
	// Degree is π/180.
	Degree = Unit{"°", Number, 0.017453292519943295, 0, 1}
	// Percent is 0.01.
	Percent = Unit{"%", Number, 0.01, 0, 0}
	// One is a plain number.
	One = Unit{"", Number, 1, 0, 2}
	// Count is a whole number of things.
	Count = Unit{"", Number, 1, 0, 0}
)

// All lists every unit that can be named by its symbol, in a file or a field.
var All = []Unit{MM, Inch, Thou, Micrometre, Newton, NewtonMetre, MPa, GPa, NewtonPerMicrometre, NewtonPerMM, RPM,
	Kilogram, Celsius, MM2, MM4, Density, Degree, Percent, One}

// In is v, an inside value, as a number of u.
func (u Unit) In(v float64) float64 { return v/u.Scale - u.Zero }

// Inside is x, a number of u, as an inside value.
func (u Unit) Inside(x float64) float64 { return (x + u.Zero) * u.Scale }

// Step is the smallest difference, as an inside value, that shows at the
// unit's usual decimals.
func (u Unit) Step() float64 {
	s := u.Scale
	for range u.Decimals {
		s /= 10
	}
	return s
}
