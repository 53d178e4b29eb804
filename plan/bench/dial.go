package bench

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"fettle/plan"
	"fettle/plan/dial"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// dialMethods are the calculations of plan/dial.
var dialMethods = []Method{
	dialDivisions, dialLegibility, dialError, vernier, indexing, indexingAngle, dialAngles, dialStrip, frictionRing,
}

var (
	leadIn = Input{Key: "lead", Label: "lead of the screw", Symbol: "l", Unit: unit.MM, Default: "2", Source: "assumed: put your own in", Positive: true}
	diaIn  = Input{Key: "dial_dia", Label: "diameter of the dial where the lines are", Symbol: "D", Unit: unit.MM, Default: "40", Source: "assumed: put your own in", Positive: true}
)

// mostLines bounds what is divided: no dial and no dividing head goes further.
const mostLines = 2000

func divisionsIn(usual string) Input {
	return Input{Key: "divisions", Label: "lines all round", Symbol: "N", Unit: unit.Count, Default: usual, Source: "assumed: put your own in", Whole: true, Positive: true}
}

// dividable refuses counts that no dial has.
func dividable(sc *sheet.Scope) error {
	if l, _ := sc.Leaf("divisions"); l.Value < 2 || l.Value > mostLines {
		return plan.Problem{Field: "divisions", Say: fmt.Sprintf("give 2 to %d", mostLines)}
	}
	return nil
}

// wholes reads a list of whole numbers, in whatever way they are parted.
func wholes(field, typed string) ([]int, error) {
	var all []int
	for _, word := range strings.FieldsFunc(typed, func(r rune) bool { return !strings.ContainsRune("0123456789.-+", r) }) {
		n, err := strconv.Atoi(word)
		if err != nil || n < 1 || n > 1000 {
			return nil, plan.Problem{Field: field, Say: "give whole numbers from 1 to 1000, as in 15 16 17"}
		}
		all = append(all, n)
	}
	if len(all) > 80 {
		return nil, plan.Problem{Field: field, Say: "give at most 80 numbers"}
	}
	return all, nil
}

var dialDivisions = Method{
	Key: "dial_divisions", Label: "What a line is worth, and how many there can be", Field: "Dials",
	Purpose: "The worth of a line on radius and diameter, and which counts of lines give round figures with this screw, in mm and inch.",
	Inputs: []Input{
		leadIn, divisionsIn("100"), diaIn,
		{Key: "set_over", Label: "top slide set over, from the work's axis; nothing means a cross slide", Symbol: "θ", Unit: unit.Degree, Optional: true},
	},
	Outputs: []string{"per_division", "on_diameter", "per_division_inch", "on_diameter_inch", "spacing", "radial", "radial_diameter"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := dividable(sc); err != nil {
			return err
		}
		fine := func(key, label string, u unit.Unit, decimals int) sheet.Q {
			return sheet.Q{Key: key, Label: label, Unit: u, Decimals: decimals}
		}
		sc.Method(fine("per_division", "a line, on the radius", unit.MM, 5), dial.PerDivision)
		sc.Method(fine("on_diameter", "a line, on the diameter of turned work", unit.MM, 5), dial.OnDiameter)
		sc.Formula(fine("per_division_inch", "a line, on the radius, in inches", unit.Inch, 6), "per_division", "definition: 25.4 mm to the inch")
		sc.Formula(fine("on_diameter_inch", "a line, on the diameter, in inches", unit.Inch, 6), "on_diameter", "definition: 25.4 mm to the inch")
		sc.Method(sheet.Q{Key: "spacing", Label: "spacing of the lines", Symbol: "s", Unit: unit.MM}, dial.Spacing)
		if l, ok := sc.Leaf("set_over"); ok {
			if l.Value < 0 || l.Value > math.Pi/2 {
				return plan.Problem{Field: "set_over", Say: "give 0 to 90°"}
			}
			sc.Method(fine("radial", "a line, towards the work's axis", unit.MM, 5), dial.Radial)
			sc.Method(fine("radial_diameter", "that is, on the diameter", unit.MM, 5), dial.OnDiameter, sheet.With{"per_division": "radial"})
		}
		return nil
	},
	Table: func(_ Words, r *sheet.Result) Table {
		t := Table{Caption: "round figures that this screw can have", Header: []string{"a line is worth", "on the diameter", "lines", "spacing mm", ""}, Source: dial.LinesFor.Source + ": lead / worth of a line; " + dial.SpacingSource}
		counts := dial.Counts(r.Value("lead", sheet.Planned))
		lines := make([]float64, len(counts))
		for i, v := range counts {
			lines[i] = math.Round(v.Lines)
			if !v.Whole() {
				lines[i] = math.Ceil(v.Lines)
			}
		}
		tried(r, "divisions", lines, func(i int) {
			t.Rows = append(t.Rows, countRow(counts[i], int(lines[i]), r.Value("spacing", sheet.Planned)))
		})
		return t
	},
}

// countRow tells of one round value: the lines that it asks for, or those that come nearest.
func countRow(v dial.Value, lines int, spacing float64) []string {
	double := unit.MM.Text(2*v.MM, 4) + " mm"
	if v.Inch {
		double = unit.Inch.Text(2*v.MM, 4) + " in"
	}
	row := []string{v.Said, double, unit.One.Text(v.Lines, 3), unit.MM.Text(spacing, 2)}
	switch {
	case !v.Whole():
		return append(row, fmt.Sprintf("impossible: %d lines would read %s %% too much, %d lines %s %% too little",
			lines, unit.Percent.Text(v.Off(lines), 2), lines-1, unit.Percent.Text(-v.Off(lines-1), 2)))
	case spacing < dial.SpacingLeast:
		return append(row, "too fine for this dial")
	case spacing < dial.SpacingGood:
		return append(row, "fine, but can be read")
	}
	return append(row, "reads well")
}

var dialLegibility = Method{
	Key: "dial_legibility", Label: "A dial that can be read", Field: "Dials",
	Purpose: "Spacing, widths and lengths of the lines and the height of the figures, and the diameter that it takes.",
	Inputs: []Input{
		diaIn, divisionsIn("100"),
		{Key: "sight", Label: "distance of the eye", Unit: unit.MM, Default: "350", Source: "assumed: standing at the machine, 300 to 400 mm", Positive: true},
		{Key: "numbered_every", Label: "lines from one figure to the next", Unit: unit.Count, Default: "10", Source: "human-factors handbooks: no more than nine lines between numbered ones, steps of 1, 2 or 5", Whole: true, Positive: true},
	},
	Outputs: []string{"spacing", "dia_good", "dia_least", "line_least", "line_most", "minor", "middle", "major", "numeral", "stroke", "numeral_room", "numeral_width"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := dividable(sc); err != nil {
			return err
		}
		q := func(key, label string) sheet.Q { return sheet.Q{Key: key, Label: label, Unit: unit.MM} }
		sc.Method(q("spacing", "spacing of the lines"), dial.Spacing)
		sc.Measure(q("spacing_good", "spacing that reads well"), sheet.Leaf{Value: dial.SpacingGood, Origin: sheet.Assumed, Note: dial.SpacingSource})
		sc.Measure(q("spacing_check_limit", "least spacing"), sheet.Leaf{Value: dial.SpacingLeast, Origin: sheet.Assumed, Note: dial.SpacingSource})
		sc.Method(q("dia_good", "diameter at which it reads well"), dial.DiaFor, sheet.With{"spacing_wanted": "spacing_good"})
		sc.Method(q("dia_least", "least diameter"), dial.DiaFor, sheet.With{"spacing_wanted": "spacing_check_limit"})
		sc.Method(q("line_least", "width of a line, from"), dial.LineLeast)
		sc.Method(q("line_most", "width of a line, to"), dial.LineMost)
		sc.Method(q("minor", "length of the short lines"), dial.Minor)
		sc.Method(q("middle", "length of the middle lines"), dial.Middle)
		sc.Method(q("major", "length of the long lines"), dial.Major)
		sc.Method(q("numeral", "height of the figures, at least"), dial.Numeral)
		sc.Method(q("stroke", "stroke of the figures"), dial.Stroke)
		sc.Method(q("numeral_room", "arc from figure to figure"), dial.NumeralRoom)
		sc.Method(q("numeral_width", "width of two figures with their gap"), dial.NumeralWidth)
		bound(sc, sheet.Check{Key: "spacing_check", Label: "lines can be told apart", Figure: "spacing", Level: sheet.Rule,
			Sentence: "The lines are {figure} apart; {limit} is the least without a magnifier, 1 mm reads well.", Source: dial.SpacingSource}, sheet.Q{Unit: unit.MM}, dial.SpacingGood, dial.SpacingLeast)
		enough(sc, sheet.Check{Key: "numbered_check", Label: "lines can be counted", Figure: "numbered_every", AtMost: true, Level: sheet.Rule,
			Sentence: "Every {figure} lines there is a figure; past {limit} the eye has to count.", Source: "human-factors handbooks: no more than nine lines between numbered ones"}, 10)
		sc.Check(sheet.Check{Key: "figures_check", Label: "figures have room", Figure: "numeral_room", Limit: "numeral_width", Level: sheet.Rule, Advice: true,
			Sentence: "There are {figure} from figure to figure, and two digits take {limit}.", Source: practice})
		return nil
	},
}

var dialError = Method{
	Key: "dial_error", Label: "A dial that does not suit its screw", Field: "Dials",
	Purpose: "What a dial shows too much or too little when its figures are not the screw's, a turn and over a travel.",
	Inputs: []Input{
		leadIn, divisionsIn("100"),
		{Key: "label", Label: "what a line says it is", Unit: unit.MM, Default: "0.02", Source: "assumed: put in what is engraved", Positive: true},
		{Key: "travel", Label: "travel", Symbol: "s", Unit: unit.MM, Default: "10", Source: "assumed", Positive: true},
	},
	Outputs: []string{"ratio", "error_per_turn", "error_over", "moved", "indicated", "per_division"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := dividable(sc); err != nil {
			return err
		}
		fine := func(key, label string) sheet.Q { return sheet.Q{Key: key, Label: label, Unit: unit.MM, Decimals: 4} }
		sc.Method(fine("per_division", "a line in truth"), dial.PerDivision)
		sc.Method(fine("indicated", "what a turn shows"), dial.Indicated)
		sc.Method(sheet.Q{Key: "ratio", Label: "shown over true", Unit: unit.One, Decimals: 5}, dial.Ratio)
		sc.Method(fine("error_per_turn", "shown too much, a turn"), dial.ErrorPerTurn)
		sc.Method(fine("error_over", "shown too much, over the travel"), dial.ErrorOver)
		sc.Method(fine("moved", "moved in truth when the dial shows the travel"), dial.Moved)
		sc.Formula(sheet.Q{Key: "off", Label: "off by", Unit: unit.Percent, Decimals: 2}, "abs(ratio - 1)", "definition")
		bound(sc, sheet.Check{Key: "off_check", Label: "dial suits the screw", Figure: "off", AtMost: true, Level: sheet.Rule,
			Sentence: "The dial is off by {figure}, against {limit} at most.", Source: dial.OffSource}, sheet.Q{Unit: unit.Percent, Decimals: 2}, dial.OffTight, dial.OffMost)
		return nil
	},
}

var vernier = Method{
	Key: "vernier", Label: "A vernier on a dial", Field: "Dials",
	Purpose: "What a vernier tells apart, and how long it is on this dial.",
	Inputs: []Input{
		leadIn, divisionsIn("100"), diaIn,
		{Key: "vernier_lines", Label: "divisions of the vernier", Symbol: "n", Unit: unit.Count, Default: "10", Source: "assumed: tenths", Whole: true, Positive: true},
	},
	Outputs: []string{"least_count", "per_division", "vernier_span", "vernier_spacing", "spacing"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := dividable(sc); err != nil {
			return err
		}
		n, _ := sc.Leaf("vernier_lines")
		if d, _ := sc.Leaf("divisions"); n.Value < 2 || n.Value > d.Value {
			return plan.Problem{Field: "vernier_lines", Say: "give 2 or more, and no more than the dial has lines"}
		}
		q := func(key, label string) sheet.Q { return sheet.Q{Key: key, Label: label, Unit: unit.MM, Decimals: 4} }
		sc.Method(q("per_division", "a line of the dial"), dial.PerDivision)
		sc.Method(q("least_count", "what the vernier tells apart"), dial.LeastCount)
		sc.Method(sheet.Q{Key: "spacing", Label: "spacing of the dial's lines", Unit: unit.MM, Decimals: 3}, dial.Spacing)
		sc.Method(sheet.Q{Key: "vernier_span", Label: "length of the vernier, along the rim", Unit: unit.MM, Decimals: 3}, dial.VernierSpan)
		sc.Method(sheet.Q{Key: "vernier_spacing", Label: "spacing of the vernier's lines", Unit: unit.MM, Decimals: 4}, dial.VernierSpacing)
		return nil
	},
}

var (
	ratioIn   = Input{Key: "worm", Label: "turns of the crank to one of the work", Unit: unit.Count, Default: "40", Source: "common practice: 40, 60 or 90; see your own head", Whole: true, Positive: true}
	circlesIn = Input{Key: "circles", Label: "circles of holes on your plates", Word: true, Default: "15 16 17 18 19 20 21 23 27 29 31 33 37 39 41 43 47 49"}
)

// wormed reads the worm's ratio and the circles.
func wormed(sc *sheet.Scope, words Words) (ratio int, circles []int, err error) {
	l, _ := sc.Leaf("worm")
	if l.Value > 1000 {
		return 0, nil, plan.Problem{Field: "worm", Say: "give at most 1000 turns"}
	}
	circles, err = wholes("circles", words["circles"])
	if err == nil && len(circles) == 0 {
		err = plan.Problem{Field: "circles", Say: "list the circles of holes, as in 15 16 17"}
	}
	return int(l.Value), circles, err
}

var indexing = Method{
	Key: "indexing", Label: "Dividing with a worm and plates", Field: "Dials",
	Purpose: "Turns and holes for a number of divisions on the plates at hand: direct, simple, or differential where nothing else does it.",
	Inputs: []Input{
		divisionsIn("100"), ratioIn, circlesIn,
		{Key: "direct", Label: "holes of a plate on the spindle itself", Word: true, Default: "24", Optional: true},
		{Key: "wheels", Label: "wheels in the box, for differential dividing", Word: true, Default: "24 24 28 32 40 44 48 56 64 72 86 100", Optional: true},
	},
	Outputs: []string{"turns", "step"},
	Define: func(sc *sheet.Scope, words Words) error {
		if err := dividable(sc); err != nil {
			return err
		}
		if _, _, err := wormed(sc, words); err != nil {
			return err
		}
		if _, err := wholes("direct", words["direct"]); err != nil {
			return err
		}
		wheels, err := wholes("wheels", words["wheels"])
		if err != nil {
			return err
		}
		if len(wheels) > 24 {
			return plan.Problem{Field: "wheels", Say: "give at most 24 wheels"}
		}
		sc.Formula(sheet.Q{Key: "turns", Label: "turns of the crank for each", Unit: unit.One, Decimals: 5}, "worm / divisions", "definition: ratio / divisions")
		sc.Formula(sheet.Q{Key: "step", Label: "angle from line to line", Unit: unit.Degree, Decimals: 4}, "2 * pi / divisions", geometry)
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		t := Table{Caption: "ways to do it; holes are spaces, the sector arms hold one hole more", Header: []string{"way", "circle", "turns", "holes", ""},
			Source: "arithmetic: turns = ratio / divisions; differential: gear ratio = (N′ − N) × ratio / N′"}
		n, ratio := int(r.Value("divisions", sheet.Planned)), int(r.Value("worm", sheet.Planned))
		circles, _ := wholes("circles", words["circles"]) // read without fault by Define
		direct, _ := wholes("direct", words["direct"])
		wheels, _ := wholes("wheels", words["wheels"])
		for _, holes := range direct {
			if every, ok := dial.Direct(n, holes); ok {
				t.Rows = append(t.Rows, []string{"direct", fmt.Sprint(holes), "0", fmt.Sprint(every), "worm out of mesh"})
			}
		}
		moves := dial.Turns(n, ratio, circles)
		for _, m := range moves {
			t.Rows = append(t.Rows, []string{"simple", circleOf(m), fmt.Sprint(m.Turns), fmt.Sprint(m.Holes), ""})
		}
		if len(t.Rows) > 0 {
			return t
		}
		for _, w := range dial.Differential(n, ratio, circles, wheels, 6) {
			way := "against the crank"
			if w.Same {
				way = "with the crank"
			}
			train := fmt.Sprintf("gear %d : %d, plate turns %s; no wheels in the box do it", w.Above, w.Below, way)
			switch len(w.Wheels) {
			case 2:
				train = fmt.Sprintf("gear %d : %d, plate turns %s: driver %d, driven %d", w.Above, w.Below, way, w.Wheels[0], w.Wheels[1])
			case 4:
				train = fmt.Sprintf("gear %d : %d, plate turns %s: drivers %d and %d, driven %d and %d", w.Above, w.Below, way, w.Wheels[0], w.Wheels[2], w.Wheels[1], w.Wheels[3])
			}
			m := w.Moves[0]
			t.Rows = append(t.Rows, []string{fmt.Sprintf("differential, as for %d", w.Approx), circleOf(m), fmt.Sprint(m.Turns), fmt.Sprint(m.Holes), train})
		}
		return t
	},
}

func circleOf(m dial.Move) string {
	if m.Circle == 0 {
		return "any"
	}
	return fmt.Sprint(m.Circle)
}

var indexingAngle = Method{
	Key: "indexing_angle", Label: "Dividing by an angle", Field: "Dials",
	Purpose: "Turns and holes for an angle on each circle at hand, and what each is off by.",
	Inputs: []Input{
		{Key: "angle", Label: "angle", Symbol: "φ", Unit: unit.Degree, Default: "35", Source: "assumed", Positive: true},
		ratioIn, circlesIn,
	},
	Outputs: []string{"turns", "per_turn"},
	Define: func(sc *sheet.Scope, words Words) error {
		if l, _ := sc.Leaf("angle"); l.Value > 2*math.Pi {
			return plan.Problem{Field: "angle", Say: "give at most 360°"}
		}
		if _, _, err := wormed(sc, words); err != nil {
			return err
		}
		sc.Formula(sheet.Q{Key: "per_turn", Label: "angle of one turn of the crank", Unit: unit.Degree, Decimals: 4}, "2 * pi / worm", "definition: 360° / ratio")
		sc.Formula(sheet.Q{Key: "turns", Label: "turns of the crank", Unit: unit.One, Decimals: 5}, "angle / per_turn", "definition")
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		t := Table{Caption: "nearest on each circle, the best first", Header: []string{"circle", "turns", "holes", "too far by °", "too far by ″"}, Source: "arithmetic: angle × ratio / 360°, to the nearest hole"}
		circles, _ := wholes("circles", words["circles"]) // read without fault by Define
		for _, a := range dial.ByAngle(unit.Degree.In(r.Value("angle", sheet.Planned)), int(r.Value("worm", sheet.Planned)), circles) {
			t.Rows = append(t.Rows, []string{fmt.Sprint(a.Circle), fmt.Sprint(a.Turns), fmt.Sprint(a.Holes), unit.One.Text(a.Off, 4), unit.One.Text(3600*a.Off, 1)})
		}
		return t
	},
}

var dialAngles = Method{
	Key: "dial_angles", Label: "Table of angles", Field: "Dials",
	Purpose: "The angle of every line from the first, to a thousandth of a degree, and the chord to step off.",
	Inputs:  []Input{divisionsIn("50"), diaIn},
	Outputs: []string{"step", "step_chord"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := dividable(sc); err != nil {
			return err
		}
		sc.Measure(sheet.Q{Key: "line", Label: "line", Symbol: "k", Unit: unit.Count, Quiet: true}, sheet.Leaf{Value: 1, Origin: sheet.Assumed, Note: "each in turn"})
		sc.Method(sheet.Q{Key: "line_angle", Label: "angle of the line", Symbol: "φ_k", Unit: unit.Degree, Decimals: 3, Quiet: true}, dial.LineAngle)
		sc.Method(sheet.Q{Key: "line_chord", Label: "chord from the first line", Unit: unit.MM, Decimals: 3, Quiet: true}, dial.LineChord)
		sc.Formula(sheet.Q{Key: "step", Label: "angle from line to line", Unit: unit.Degree, Decimals: 4}, "2 * pi / divisions", geometry)
		sc.Method(sheet.Q{Key: "step_chord", Label: "chord from line to line", Unit: unit.MM, Decimals: 4}, dial.LineChord, sheet.With{"line_angle": "step"})
		return nil
	},
	Table: func(_ Words, r *sheet.Result) Table {
		t := Table{Caption: "lines from the first", Header: []string{"line", "angle °", "chord mm"}, Source: dial.LineAngle.Source + "; " + dial.LineChord.Source}
		values := make([]float64, int(r.Value("divisions", sheet.Planned)))
		for i := range values {
			values[i] = float64(i)
		}
		tried(r, "line", values, func(i int) {
			t.Rows = append(t.Rows, []string{fmt.Sprint(i), unit.Degree.Fixed(r.Value("line_angle", sheet.Planned), 3), unit.MM.Fixed(r.Value("line_chord", sheet.Planned), 3)})
		})
		return t
	},
}

var dialStrip = Method{
	Key: "dial_strip", Label: "A printed strip around a dial", Field: "Dials",
	Purpose: "How long to print and cut a strip with the lines on it, so that its ends meet.",
	Inputs: []Input{
		diaIn, divisionsIn("100"),
		{Key: "thickness", Label: "thickness of the strip with its glue", Symbol: "t", Unit: unit.MM, Default: "0.15", Source: "assumed: paper 0.1, with glue or film 0.15; measure yours", Positive: true},
		{Key: "check_printed", Label: "a bar of 100 mm measures, as printed", Unit: unit.MM, Default: "100", Source: "assumed: the printer is true; it can be off by 1 %", Positive: true},
	},
	Outputs: []string{"strip_length", "strip_spacing", "strip_outside", "scale", "strip_drawn"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := dividable(sc); err != nil {
			return err
		}
		if l, _ := sc.Leaf("check_printed"); l.Value < 90 || l.Value > 110 {
			return plan.Problem{Field: "check_printed", Say: "give what the bar of 100 mm measures: 90 to 110 mm; more is another paper size or setting"}
		}
		sc.Measure(lengthQ("check_wanted", "the bar should measure", ""), sheet.Leaf{Value: 100, Origin: sheet.Chosen, Note: "the check bar that is printed beside the strip"})
		sc.Method(lengthQ("strip_length", "length to cut, before bending", ""), dial.StripLength)
		sc.Method(sheet.Q{Key: "strip_spacing", Label: "spacing on the flat strip", Unit: unit.MM, Decimals: 4}, dial.StripSpacing)
		sc.Method(lengthQ("strip_outside", "its outer face opens to", ""), dial.StripOutside)
		sc.Method(sheet.Q{Key: "scale", Label: "draw it larger by the factor", Unit: unit.One, Decimals: 4}, dial.StripScale)
		sc.Method(lengthQ("strip_drawn", "length to draw it, for this printer", ""), dial.StripDrawn)
		return nil
	},
}

var frictionRing = Method{
	Key: "friction_ring", Label: "O-ring that holds a dial", Field: "Dials",
	Purpose: "Groove, ring and drag of an O-ring between a dial and the sleeve that it turns on.",
	Inputs: []Input{
		{Key: "bore", Label: "bore of the dial", Symbol: "D", Unit: unit.MM, Default: "20", Source: "assumed: put your own in", Positive: true},
		{Key: "section", Label: "thickness of the ring", Symbol: "w", Unit: unit.MM, Default: "1.78", Source: "ISO 3601-1", Positive: true},
		{Key: "squeeze", Label: "squeeze", Unit: unit.Percent, Default: "10", Source: "common practice: 8 to 15 % for friction, 12 to 20 % for sealing (from memory)", Positive: true},
		{Key: "friction", Label: "friction of the ring", Symbol: "µ", Unit: unit.One, Default: "0.15", Source: "rubber on steel 0.1 to 0.2 oiled, 0.3 to 0.5 dry (from memory)", Positive: true},
		{Key: "line_load", Label: "pressing load by length; nothing takes what is known of the ring", Symbol: "q", Unit: unit.NewtonPerMM, Optional: true, Positive: true},
		{Key: "handle_torque", Label: "torque that turns the screw", Unit: unit.NewtonMetre, Default: "0.3", Source: "assumed: a light feed", Positive: true},
	},
	Outputs: []string{"groove_dia", "groove_width", "groove_depth", "ring_least", "ring_most", "fill", "drag", "drag_torque"},
	Define: func(sc *sheet.Scope, _ Words) error {
		squeeze, _ := sc.Leaf("squeeze")
		section, _ := sc.Leaf("section")
		bore, _ := sc.Leaf("bore")
		if squeeze.Value > 0.3 {
			return plan.Problem{Field: "squeeze", Say: "give up to 30 %: more shears the ring when the dial goes on"}
		}
		if bore.Value <= 3*section.Value {
			return plan.Problem{Field: "section", Say: "the ring is too thick for this bore: it would not go around"}
		}
		if !sc.Has("line_load") {
			q, within, ok := dial.LineLoad(section.Value)
			if !ok {
				return plan.Problem{Field: "line_load", Say: "give the load: it is only known here for rings of 1.78 and 2.62 mm"}
			}
			sc.Measure(sheet.Q{Key: "line_load", Label: "pressing load by length", Symbol: "q", Unit: unit.NewtonPerMM},
				sheet.Leaf{Value: q, Spread: sheet.Within(within), Origin: sheet.Assumed, Note: dial.LineLoadSource})
		}
		sc.Method(sheet.Q{Key: "groove_depth", Label: "depth of the groove under the dial's bore", Unit: unit.MM}, dial.GrooveDepth)
		sc.Method(sheet.Q{Key: "groove_dia", Label: "diameter of the groove's floor", Unit: unit.MM}, dial.GrooveDia)
		sc.Method(sheet.Q{Key: "groove_width", Label: "width of the groove", Unit: unit.MM}, dial.GrooveWidth)
		sc.Method(shareQ("fill", "share of the groove that the ring fills"), dial.Fill)
		sc.Method(sheet.Q{Key: "ring_least", Label: "inside diameter of the ring, from", Unit: unit.MM}, dial.RingLeast)
		sc.Method(sheet.Q{Key: "ring_most", Label: "inside diameter of the ring, to", Unit: unit.MM}, dial.RingMost)
		sc.Method(sheet.Q{Key: "drag", Label: "drag at the bore", Unit: unit.Newton, Decimals: 1}, dial.Drag)
		sc.Method(screwTorqueQ("drag_torque", "torque that turns the dial on its sleeve", ""), dial.DragTorque)
		sc.Method(screwTorqueQ("drag_most", "most that it may take", ""), dial.DragMost)
		bound(sc, sheet.Check{Key: "fill_check", Label: "ring has room", Figure: "fill", AtMost: true, Level: sheet.Rule,
			Sentence: "The ring fills {figure} of its groove, against {limit} at most.", Source: "common practice: 85 % (from memory)"}, sheet.Q{Unit: unit.Percent}, 0.85, 0.85)
		bound(sc, sheet.Check{Key: "holds_zero", Label: "dial stays where it is set", Figure: "drag_torque", Level: sheet.Rule,
			Sentence: "It takes {figure} to turn the dial; under {limit} a finger shifts it.", Source: practice}, screwTorqueQ("", "", ""), 30, 20)
		sc.Check(sheet.Check{Key: "turns_alone", Label: "dial turns without the screw", Figure: "drag_torque", Limit: "drag_most", AtMost: true, Level: sheet.Rule,
			Sentence: "It takes {figure} to turn the dial; past {limit}, a third of what turns the screw, setting it to zero moves the slide.", Source: practice})
		return nil
	},
	Table: func(_ Words, _ *sheet.Result) Table {
		t := Table{Caption: "what a line of ring presses with, at 10 % squeeze and 70 Shore A", Header: []string{"section mm", "N/mm from", "N/mm to"}, Source: dial.LineLoadSource}
		for _, s := range slices.DeleteFunc(slices.Clone(dial.Sections), func(s dial.Section) bool { return s.Most == 0 }) {
			t.Rows = append(t.Rows, []string{unit.MM.Text(s.MM, 2), unit.One.Text(s.Least, 1), unit.One.Text(s.Most, 1)})
		}
		return t
	},
}
