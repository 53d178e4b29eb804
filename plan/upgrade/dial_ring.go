package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/fastener"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// ring lets the dial be set to nought: an O-ring between it and a sleeve.
func (s *Site) ring(d *axis.Part) {
	l, sc := s.Layout, s.Scope
	options := []Option{{"none", "none: fast on the screw"}}
	for _, section := range fastener.Sections {
		if _, _, ok := dial.LineLoad(section); ok {
			options = append(options, Option{bare(section), "O-ring of " + bare(section) + " mm section in a sleeve"})
		}
	}
	const group = "Setting to nought"
	chosen := s.choose(Field{Name: "ring", Label: "Friction by", Options: options, Group: group}, "1.78")
	if chosen == "none" || !l.Scope.Has(d.Key+".bore") {
		return
	}
	var section float64
	for _, x := range fastener.Sections {
		if bare(x) == chosen {
			section = x
		}
	}
	in := sc.In("ring")
	in.Measure(quiet("section", "O-ring's section", "d_2", unit.MM), sheet.Leaf{Value: section, Origin: sheet.Chosen, Note: "ISO 3601-1"})
	q, within, _ := dial.LineLoad(section)
	l.Assume(in, quiet("squeeze", "squeeze of the O-ring", "q", unit.One), 0.1, "common practice: 8 to 15 % for friction (from memory)")
	in.Measure(quiet("line_load", "line load of the O-ring", "q", lineLoad), sheet.Leaf{Value: q, Spread: sheet.Within(within), Origin: sheet.Assumed, Note: dial.LineLoadSource})
	l.Assume(in, quiet("friction", "friction of the O-ring", "µ", unit.One), 0.4, "common practice: dry 0.3 to 0.5, oiled 0.1 to 0.2 (from memory)")
	names := sheet.With{"on": d.Key + ".bore", "dial_dia": d.Key + ".dia", "bore": "sleeve"}
	in.Method(quiet("groove_depth", "depth of the ring's groove", "t", unit.MM), dial.GrooveDepth)
	sc.Sheet().Register(ringSleeve())
	in.Formula(quiet("sleeve", "outside of the dial's sleeve", "D_s", unit.MM), "ring_sleeve(on + 2 * (groove_depth + mm(1.5)), groove_depth, section)", "common practice, no source: 1.5 mm under the groove; then so that a ring of ISO 3601-1 suits the groove", names)
	in.Method(quiet("groove_dia", "floor of the groove", "d_g", unit.MM), dial.GrooveDia, names)
	in.Method(quiet("groove_width", "width of the groove", "b_g", unit.MM), dial.GrooveWidth)
	in.Method(quiet("drag", "drag at the dial", "F", unit.Newton), dial.Drag, names)
	in.Method(quiet("drag_torque", "torque that turns the dial on its sleeve", "T_d", unit.NewtonMetre), dial.DragTorque, names)
	in.Formula(quiet("wall", "dial's wall around its sleeve", "t_w", unit.MM), "(dial_dia - sleeve) / 2", "geometry", names)
	l.Assume(in, quiet("wall_least", "least wall of a dial", "", unit.MM), 2, "common practice, no source: 2 mm")
	in.Check(sheet.Check{Key: "wall_check", Label: "Dial's wall around its sleeve", Figure: "wall", Limit: "wall_least", Level: sheet.Rule,
		Sentence: "{figure} of the dial is left around its sleeve, and {limit} is wanted.", Source: "common practice, no source"})
	l.Assume(in, quiet("drag_least", "least torque that holds a dial where it is set", "", unit.NewtonMetre), 0.03, "common practice, no source: more than a finger gives by accident, 0.02 N·m")
	in.Check(sheet.Check{Key: "least_check", Label: "Dial stays where it is set", Figure: "drag_torque", Limit: "drag_least", Level: sheet.Rule, Advice: true,
		Sentence: "The dial turns on its sleeve at {figure}; below {limit} a finger shifts it.", Source: "common practice, no source"})
	if l.Scope.Has("hand_torque") {
		l.Limit(in, quiet("drag_most", "most torque to set a dial", "", unit.NewtonMetre), dial.DragMost, sheet.With{"handle_torque": "hand_torque"})
		in.Check(sheet.Check{Key: "most_check", Label: "Dial turns and the screw does not", Figure: "drag_torque", Limit: "drag_most", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "The dial turns on its sleeve at {figure}; above {limit} the screw turns with it.", Source: dial.DragMost.Source})
	}
}

// ringSleeve gives formulas ring_sleeve(least, groove, section): the smallest
// outside of a sleeve, by half millimetres from the least on, for whose groove,
// so deep, an O-ring of the section is made; the least itself where there is none.
func ringSleeve() *sheet.Func {
	return &sheet.Func{
		Name: "ring_sleeve", Args: []unit.Dim{unit.LengthD, unit.LengthD, unit.LengthD}, Result: unit.LengthD, Source: "ISO 3601-1",
		F: func(args []float64) float64 {
			least := math.Ceil(2*args[0]-1e-9) / 2
			for d := least; d < least+10; d += 0.5 {
				if _, err := fastener.RingFor(d-2*args[1], args[2]); err == nil {
					return d
				}
			}
			return least
		},
	}
}
