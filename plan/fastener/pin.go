package fastener

import (
	_ "embed"
	"slices"

	"fettle/plan/table"
)

// Pin is a diameter of parallel or taper pin.
type Pin struct {
	Standard string  // "ISO 8734"
	Dia      float64 // nominal; of a taper pin, at its small end
	Shortest float64
	Longest  float64
}

//go:embed pins.csv
var pinTable string

// Pins are those of ISO 2338, ISO 8734 and ISO 2339, in that order.
var Pins = func() (all []Pin) {
	for _, r := range table.Rows(pinTable) {
		all = append(all, Pin{r["standard"], r.Number("dia"), r.Number("shortest"), r.Number("longest")})
	}
	return all
}()

// PinNamed is the pin of a standard and a diameter.
func PinNamed(standard string, dia float64) (Pin, bool) {
	i := slices.IndexFunc(Pins, func(p Pin) bool { return p.Standard == standard && p.Dia == dia })
	if i < 0 {
		return Pin{}, false
	}
	return Pins[i], true
}

// pinLengths are common to the three standards.
var pinLengths = []float64{3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70,
	75, 80, 85, 90, 95, 100, 120, 140, 160, 180}

// Lengths are those in which the pin is made.
func (p Pin) Lengths() []float64 { return within(pinLengths, p.Shortest, p.Longest) }

// LargeEnd is the diameter at the large end of a taper pin of the length, and
// the diameter of a parallel one.
//
// Source: ISO 2339, taper 1:50 on the diameter.
func (p Pin) LargeEnd(length float64) float64 {
	if p.Standard == "ISO 2339" {
		return p.Dia + length/50
	}
	return p.Dia
}

// Designation names a pin of the length: "ISO 8734 4 × 20". A parallel pin of
// ISO 2338 is taken in the tolerance m6, a taper pin in type A, which is ground.
func (p Pin) Designation(length float64) string {
	size := bare(p.Dia)
	switch p.Standard {
	case "ISO 2338":
		size += " m6"
	case "ISO 2339":
		size = "A " + size
	}
	return p.Standard + " " + size + " × " + bare(length)
}

// Length is the shortest that the pin is made in from least to most. It returns
// [ErrAsked] or a [*NoLength].
func (p Pin) Length(least, most float64) (float64, error) {
	std, _ := StandardNamed(p.Standard)
	return between(p.Lengths(), least, most, &NoLength{What: mm(p.Dia) + " " + std.Label + " (" + p.Standard + ")"})
}
