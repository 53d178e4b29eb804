package bench

import (
	"fmt"

	"fettle/plan/bearing"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

var bearingSizes = Method{
	Key: "bearing", Label: "A bearing's sizes", Field: "Rolling bearings",
	Purpose: "The boundary dimensions of a bearing, its ratings with their spread, and the diameters that its shoulders may have.",
	Inputs:  []Input{bearingIn},
	Outputs: []string{"bore", "od", "width", "corner", "static", "static_sure", "dynamic", "shaft_shoulder.least", "shaft_shoulder.most", "housing_shoulder.least", "housing_shoulder.most"},
	Define: func(sc *sheet.Scope, words Words) error {
		b, err := layBearing(sc, words)
		if err != nil {
			return err
		}
		leaf := func(in *sheet.Scope, key, label, symbol string, v float64, source string) {
			in.Measure(sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.MM}, sheet.Leaf{Value: v, Origin: sheet.Chosen, Note: source})
		}
		if b.Corner > 0 {
			leaf(sc, "corner", "least corner radius: the shaft's fillet is smaller", "r_s", b.Corner, b.DimensionSource())
		}
		s, source := b.Shoulders(), b.ShoulderSource()
		shaft, housing := sc.In("shaft_shoulder"), sc.In("housing_shoulder")
		leaf(shaft, "least", "shaft's shoulder, from", "d_a", s.ShaftLeast, source)
		leaf(shaft, "most", "shaft's shoulder, to", "d_a", s.ShaftMost, source)
		leaf(housing, "least", "housing's shoulder, from", "D_a", s.HousingLeast, source)
		leaf(housing, "most", "housing's shoulder, to", "D_a", s.HousingMost, source)
		return nil
	},
	Table: func(words Words, _ *sheet.Result) Table {
		t := Table{Caption: "Bearings of this bore", Header: []string{"bearing", "kind", "d × D × B, mm", "shielded B, mm", "C, kN", "C0, kN"},
			Source: "ISO 15, ISO 104, ISO 3031 and trade sizes; of a needle thrust bearing B is with its two washers; ratings typical of published lists, which differ by about ±15 %"}
		b, err := bearing.Lookup(words["bearing"])
		if err != nil {
			return t // refused already, where it is typed
		}
		for _, c := range bearing.Catalogue {
			if c.Bore != b.Bore {
				continue
			}
			shielded := "–"
			if c.Shield > 0 {
				shielded = unit.MM.Text(c.Shield, 1)
			}
			t.Rows = append(t.Rows, []string{c.Designation, string(c.Kind), fmt.Sprintf("%g × %g × %g", c.Bore, c.OD, c.Height()), shielded, unit.One.Text(c.Dynamic/1000, 2), unit.One.Text(c.Static/1000, 2)})
		}
		return t
	},
}
