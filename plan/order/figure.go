package order

import (
	"math"
	"slices"

	"fettle/plan/material"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// sawnLength is a blank that is machined in a vice.
var sawnLength = sheet.Method{Text: "length + ends * facing", Source: "the piece with its faced ends"}

var cubicMM = unit.Unit{Symbol: "mm³", Dim: unit.MM2.Dim.Times(unit.LengthD), Scale: 1}

// leaf is a figure that a method is worked out from.
type leaf struct {
	key   string
	unit  unit.Unit
	value float64 // inside
}

// figure works a method out. A method that does not bind is a fault in the
// program, which a test of all of them finds.
func figure(m sheet.Method, result unit.Unit, leaves ...leaf) float64 {
	s := sheet.New()
	sc := s.Root()
	for _, l := range leaves {
		sc.Measure(sheet.Q{Key: l.key, Label: l.key, Unit: l.unit}, sheet.Leaf{Value: l.value, Origin: sheet.Chosen})
	}
	sc.Method(sheet.Q{Key: "result", Label: "result", Unit: result}, m)
	r, err := s.Bind()
	if err != nil {
		panic(err)
	}
	return r.Value("result", sheet.Planned)
}

func lengthFigure(m sheet.Method, counts, lengths map[string]float64) float64 {
	var leaves []leaf
	for key, v := range counts {
		leaves = append(leaves, leaf{key, unit.Count, v})
	}
	for key, v := range lengths {
		leaves = append(leaves, leaf{key, unit.MM, v})
	}
	return figure(m, unit.MM, leaves...)
}

// mass of a length of bar, inside.
func mass(m material.Material, s Section, length float64) float64 {
	i := slices.IndexFunc(material.Forms, func(f material.Form) bool { return f.Key == s.Form })
	if i < 0 {
		return math.NaN()
	}
	leaves := []leaf{{"across", unit.MM, s.Across}}
	if second := material.Forms[i].Second; second != "" {
		leaves = append(leaves, leaf{second, unit.MM, s.Second})
	}
	area := figure(material.Forms[i].Area, unit.MM2, leaves...)
	volume := figure(material.Volume, cubicMM, leaf{"area", unit.MM2, area}, leaf{"length", unit.MM, length})
	return figure(material.Weight, unit.Kilogram, leaf{"volume", cubicMM, volume}, leaf{"density", unit.Density, m.Density})
}
