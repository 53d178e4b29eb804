package bench

import (
	"fmt"
	"slices"

	"fettle/plan"
	"fettle/plan/material"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// materialMethods are the calculations of plan/material.
var materialMethods = []Method{materialProperties, materialWeight, stockSize, cuttingSpeed, anodise}

var materialProperties = Method{
	Key: "material", Label: "What a material is like", Field: "Materials and stock",
	Purpose: "Density, stiffness, strength, expansion and what it may be loaded to, each with its source.",
	Inputs: []Input{
		materialIn("material", "material", "c45"),
		{Key: "thickness", Label: "thickness of a cast iron's wall, where that is asked", Symbol: "t", Unit: unit.MM, Optional: true, Positive: true},
	},
	Outputs: []string{"density", "modulus", "shear_modulus", "poisson", "yield", "strength", "in_wall", "expansion", "bending", "shear"},
	Define: func(sc *sheet.Scope, words Words) error {
		m, _ := material.Named(words["material"])
		leaf := func(key, label, symbol string, u unit.Unit, v float64) {
			sc.Measure(sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: u}, sheet.Leaf{Value: v, Origin: sheet.Assumed, Note: m.Name + ": " + m.Source})
		}
		leaf("density", "density", "ρ", unit.Density, m.Density)
		leaf("modulus", "modulus of elasticity", "E", unit.GPa, m.Modulus)
		leaf("poisson", "Poisson's ratio", "ν", unit.One, m.Poisson)
		sc.Method(sheet.Q{Key: "shear_modulus", Label: "modulus of shear", Symbol: "G", Unit: unit.GPa, Decimals: 1}, material.ShearModulus)
		leaf("yield", "yield or proof stress", "R_e", unit.MPa, m.Yield)
		leaf("strength", "strength in tension", "R_m", unit.MPa, m.Strength)
		leaf("expansion", "expansion", "α", material.Expansion, m.Expansion)
		allowed := func(key, label, symbol string, v float64) {
			sc.Measure(sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.MPa}, sheet.Leaf{Value: v, Origin: sheet.Assumed, Note: "common practice, no source: parts loaded by hand"})
		}
		allowed("bending", "allowed in bending", "σ_b", m.Bending)
		allowed("shear", "allowed in shear", "τ", m.Shear)
		wall, ok := sc.Leaf("thickness")
		if !ok {
			return nil
		}
		strength, ok := m.StrengthInWall(wall.Value)
		if !ok {
			return plan.Problem{Field: "thickness", Say: "there are figures for walls of 5 to 80 mm of EN-GJL-200 and EN-GJL-250: leave it empty for anything else"}
		}
		sc.Measure(sheet.Q{Key: "in_wall", Label: "strength of a casting in that wall", Symbol: "R_m", Unit: unit.MPa}, sheet.Leaf{Value: strength, Origin: sheet.Assumed, Note: "EN 1561, by the wall, as quoted by a foundry"})
		return nil
	},
	Table: func(words Words, _ *sheet.Result) Table {
		t := Table{Caption: "Materials beside one another", Header: []string{"material", "also", "E, GPa", "yields at, MPa", "strength, MPa", "expands, µm/(m·K)", "cuts", "source"}, Source: "each in its row"}
		for _, m := range material.All {
			t.Rows = append(t.Rows, []string{m.Name, m.Also, unit.GPa.Text(m.Modulus, 1), unit.MPa.Text(m.Yield, 0), unit.MPa.Text(m.Strength, 0), material.Expansion.Text(m.Expansion, 1), m.Cutting, m.Source})
		}
		return t
	},
}

func formOptions() (list []Option) {
	for _, f := range material.Forms {
		list = append(list, Option{f.Key, f.Label})
	}
	return list
}

var materialWeight = Method{
	Key: "material_weight", Label: "Weight of a piece", Field: "Materials and stock",
	Purpose: "What a bar weighs by its section and material.",
	Inputs: []Input{
		materialIn("material", "material", "c45"),
		{Key: "form", Label: "form", Word: true, Default: "round", Options: formOptions()},
		{Key: "across", Label: "diameter, side, width, or across flats", Symbol: "d", Unit: unit.MM, Default: "25", Source: example, Positive: true},
		{Key: "thickness", Label: "thickness of a flat bar", Symbol: "t", Unit: unit.MM, Default: "10", Source: example, Positive: true},
		{Key: "wall", Label: "wall of a tube", Symbol: "t", Unit: unit.MM, Default: "3", Source: example, Positive: true},
		{Key: "length", Label: "length", Symbol: "L", Unit: unit.MM, Default: "100", Source: example, Positive: true},
	},
	Outputs:  []string{"weight", "area", "volume", "density"},
	Cautions: []string{"Lift more than 20 kg with two people or a hoist."},
	Define: func(sc *sheet.Scope, words Words) error {
		m, _ := material.Named(words["material"])
		i := slices.IndexFunc(material.Forms, func(f material.Form) bool { return f.Key == words["form"] })
		form := material.Forms[i]
		if form.Key == "tube" {
			across, _ := sc.Leaf("across")
			wall, _ := sc.Leaf("wall")
			if 2*wall.Value > across.Value {
				return plan.Problem{Field: "wall", Say: "give no more than half of the diameter"}
			}
		}
		sc.Measure(sheet.Q{Key: "density", Label: "density", Symbol: "ρ", Unit: unit.Density}, sheet.Leaf{Value: m.Density, Origin: sheet.Assumed, Note: m.Name + ": " + m.Source})
		sc.Method(sheet.Q{Key: "area", Label: "section", Symbol: "A", Unit: unit.MM2}, form.Area)
		sc.Method(sheet.Q{Key: "volume", Label: "volume", Symbol: "V", Unit: unit.Unit{Symbol: "cm³", Dim: unit.MM2.Dim.Times(unit.LengthD), Scale: 1000, Decimals: 2}}, material.Volume)
		sc.Method(sheet.Q{Key: "weight", Label: "weight", Symbol: "m", Unit: unit.Kilogram, Decimals: 3}, material.Weight)
		return nil
	},
}

func skinOptions() (list []Option) {
	for _, s := range material.Skins {
		list = append(list, Option{s.Key, s.Label})
	}
	return list
}

var stockSize = Method{
	Key: "stock_size", Label: "Stock for a turned part", Field: "Materials and stock",
	Purpose: "The next round bar above a finished diameter, and the length to cut with facing, parting and holding.",
	Inputs: []Input{
		{Key: "finished", Label: "largest finished diameter", Symbol: "d", Unit: unit.MM, Default: "24", Source: example, Positive: true},
		{Key: "length", Label: "finished length", Symbol: "L", Unit: unit.MM, Default: "40", Source: example, Positive: true},
		{Key: "pieces", Label: "pieces from one bar", Symbol: "n", Unit: unit.Count, Default: "1", Source: example, Whole: true, Positive: true},
		{Key: "ends", Label: "ends that are faced", Symbol: "e", Unit: unit.Count, Default: "2", Source: "both ends", Whole: true},
		{Key: "bar", Label: "bar comes", Word: true, Default: "bright", Options: skinOptions()},
		{Key: "system", Label: "bar is sold in", Word: true, Default: "metric", Options: []Option{{"metric", "millimetres"}, {"inch", "inches"}}},
		{Key: "facing", Label: "for facing an end", Symbol: "f", Unit: unit.MM, Default: "1", Source: material.FacingSource},
		{Key: "parting", Label: "for a cut", Symbol: "p", Unit: unit.MM, Default: "3", Source: material.PartingSource},
		{Key: "holding", Label: "for the chuck", Symbol: "h", Unit: unit.MM, Default: "20", Source: material.HoldingSource},
	},
	Outputs: []string{"stock", "wanted", "cut_length", "used_length"},
	Define: func(sc *sheet.Scope, words Words) error {
		for _, key := range []string{"facing", "parting", "holding"} {
			if err := held(sc, key, unit.MM, 0, 1000); err != nil {
				return err
			}
		}
		if err := held(sc, "ends", unit.Count, 0, 2); err != nil {
			return err
		}
		i := slices.IndexFunc(material.Skins, func(s material.Skin) bool { return s.Key == words["bar"] })
		skin := material.Skins[i]
		finished, _ := sc.Leaf("finished")
		sizes := roundsOf(words)
		if _, err := material.Next(sizes, finished.Value+skin.Over); err != nil {
			return plan.Problem{Field: "finished", Say: err.Error()}
		}
		sc.Sheet().Register(&sheet.Func{Name: "next_round", Args: []unit.Dim{unit.LengthD}, Result: unit.LengthD, Monotone: true, Source: material.StockSource,
			F: func(args []float64) float64 { next, _ := material.Next(sizes, args[0]); return next }})
		sc.Measure(sheet.Q{Key: "skin", Label: "turned off the diameter", Symbol: "s", Unit: unit.MM}, sheet.Leaf{Value: skin.Over, Origin: sheet.Assumed, Note: skin.Source})
		sc.Method(sheet.Q{Key: "wanted", Label: "least diameter of the bar", Symbol: "d_min", Unit: unit.MM}, material.RoundWanted)
		u := unit.MM
		if words["system"] == "inch" {
			u = unit.Unit{Symbol: unit.Inch.Symbol, Dim: unit.LengthD, Scale: unit.Inch.Scale, Decimals: 4}
		}
		sc.Formula(sheet.Q{Key: "stock", Label: "round bar to take", Symbol: "D", Unit: u}, "next_round(wanted)", material.StockSource)
		sc.Method(sheet.Q{Key: "cut_length", Label: "bar to cut, with what the chuck holds", Symbol: "L_1", Unit: unit.MM}, material.LengthWanted)
		sc.Method(sheet.Q{Key: "used_length", Label: "bar that is used up", Symbol: "L_2", Unit: unit.MM}, material.LengthUsed)
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		t := Table{Caption: "Round bars that are large enough", Header: []string{"bar", "mm", "turned off, mm"}, Source: material.StockSource}
		for _, s := range roundsOf(words) {
			if s < r.Value("stock", sheet.Planned)-1e-9 || len(t.Rows) == 4 {
				continue
			}
			name := unit.MM.With(s)
			if words["system"] == "inch" {
				name = inchName(s)
			}
			t.Rows = append(t.Rows, []string{name, unit.MM.Text(s, 3), unit.MM.Text(s-r.Value("finished", sheet.Planned), 2)})
		}
		return t
	},
}

func roundsOf(words Words) []float64 {
	if words["system"] == "inch" {
		return material.InchRounds
	}
	return material.MetricRounds
}

// inchName writes a whole number of sixteenths as it is said: 11/16 in, 1 1/8 in.
func inchName(mm float64) string {
	n, d := int(unit.Inch.In(mm)*16+0.5), 16
	for n%2 == 0 && d > 1 {
		n, d = n/2, d/2
	}
	switch whole := n / d; {
	case d == 1:
		return fmt.Sprintf("%d in", n)
	case whole > 0:
		return fmt.Sprintf("%d %d/%d in", whole, n%d, d)
	}
	return fmt.Sprintf("%d/%d in", n, d)
}
