// Package material holds the materials of small machines with their properties,
// what a piece weighs, the stock that it is made from, how fast it is cut, and
// what anodising adds to it.
//
//	m, ok := material.Named("6082")
//	m.Expansion   // 23.4e-6 per K
//
// Properties are typical or least values, each row with its source and, where it
// was not verified, with the words "from memory, unchecked". Allowable stresses
// are common practice for parts loaded by hand: about half of what makes a tough
// metal yield; a fifth of the strength of grey iron, which breaks without
// yielding and is weaker in a thick wall ([Material.StrengthInWall]).
package material

import (
	_ "embed"
	"slices"

	"fettle/plan/sheet"
	"fettle/plan/table"
	"fettle/plan/unit"
)

// Material is a material with its properties, in the inside units of
// [fettle/plan/unit].
type Material struct {
	Key   string // "6082"
	Name  string // "Aluminium 6082-T6"
	Also  string // other designations
	Class string // "steel", "stainless", "hardened", "aluminium", "brass", "bronze", "grey iron", "ductile iron", "plastic", "laminate"

	Density   float64 // N·s²/mm⁴
	Modulus   float64 // MPa, Young's
	Poisson   float64
	Yield     float64 // MPa, or the proof stress
	Strength  float64 // MPa, in tension
	Expansion float64 // per K
	Bending   float64 // MPa, allowable
	Shear     float64 // MPa, allowable

	Cutting string // how it cuts
	Source  string
}

// Expansion is the unit of a linear expansion.
var Expansion = unit.Unit{Symbol: "µm/(m·K)", Dim: unit.Number.Per(unit.TempD), Scale: 1e-6, Decimals: 1}

//go:embed materials.csv
var materials string

// All lists every material, steels first.
var All = read()

func read() (all []Material) {
	for _, r := range table.Rows(materials) {
		all = append(all, Material{
			Key: r["key"], Name: r["name"], Also: r["also"], Class: r["class"],
			Density: unit.Density.Inside(r.Number("density")), Modulus: r.Number("modulus"), Poisson: r.Number("poisson"),
			Yield: r.Number("yield"), Strength: r.Number("strength"), Expansion: Expansion.Inside(r.Number("expansion")),
			Bending: r.Number("bending"), Shear: r.Number("shear"), Cutting: r["cutting"], Source: r["source"],
		})
	}
	return all
}

// Named is the material with the key.
func Named(key string) (Material, bool) {
	i := slices.IndexFunc(All, func(m Material) bool { return m.Key == key })
	if i < 0 {
		return Material{}, false
	}
	return All[i], true
}

// Brittle tells whether the material breaks without yielding, so that what it
// can bear is a share of its strength.
func (m Material) Brittle() bool { return m.Class == "grey iron" || m.Class == "hardened" }

// inWall is the strength of cast grey iron, MPa, by the wall it is taken from.
// Source: EN 1561 as quoted by a foundry.
var inWall = map[string][]struct{ wall, strength float64 }{
	"gjl200": {{5, 205}, {10, 180}, {20, 155}, {40, 130}, {80, 115}},
	"gjl250": {{5, 250}, {10, 225}, {20, 195}, {40, 170}, {80, 155}},
}

// StrengthInWall is the tensile strength of a casting in a wall of the thickness
// in mm, MPa, between 5 and 80 mm; ok is false for other materials and walls.
// A thick wall cools slowly and is weaker.
//
// Source: EN 1561, relative to the wall, as quoted by a foundry.
func (m Material) StrengthInWall(wall float64) (strength float64, ok bool) {
	steps := inWall[m.Key]
	for i := 1; i < len(steps); i++ {
		a, b := steps[i-1], steps[i]
		if wall >= a.wall && wall <= b.wall {
			return a.strength + (b.strength-a.strength)*(wall-a.wall)/(b.wall-a.wall), true
		}
	}
	return 0, false
}

// ShearModulus of a material alike in all directions.
var ShearModulus = sheet.Method{Text: "modulus / (2 * (1 + poisson))", Source: "elasticity of a material alike in all directions: G = E / 2(1 + ν)"}
