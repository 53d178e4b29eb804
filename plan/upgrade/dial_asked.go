package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// askDial asks for a dial that reads the screw, and lays it onto the sheet as d.
func (s *Site) askDial(d, t *axis.Part) {
	w := s.worth(t)
	s.dialSize(d)
	s.lines(d, t, w)
	s.apart(d)
	s.shows(d, t, w)
	s.marksWide(d)
	s.room(d)
	s.turning(t)
	s.ring(d)
	s.film()
}

// dialSize asks how large it is to be. A diameter that cannot be read is the old one's.
func (s *Site) dialSize(d *axis.Part) {
	l, sc := s.Layout, s.Scope
	was := asFound(l, d.Key+".dia")
	s.typed(sc, quiet("dia", "dial's diameter asked for", "D", unit.MM), Field{Name: "dia", Label: "Diameter", Hint: `48, 2 in, 1-7/8"`}, "", 1, 300, was)
	s.Amount, s.Most = sc.Key("dia"), 120
	if !l.Scope.Has(d.Key+".room") && was > 0 { // nothing says how large it may be
		s.Most = min(s.Most, 2*was)
	}
	s.typed(sc, quiet("width", "dial's width asked for", "b", unit.MM), Field{Name: "width", Label: "Width, along the screw", Hint: "the old one is as wide"}, s.proposed(asFound(l, d.Key+".length")), 1, 100, nan)
	if !l.Scope.Has(d.Key + ".dia") {
		l.Scope.In(d.Key).Measure(sheet.Q{Key: "dia", Label: d.Label + " outside diameter", Symbol: "D", Unit: unit.MM, Quiet: true}, sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
	}
	s.dialMadeAnew(d)
	l.Scope.Change(d.Key+".dia", "asked", "as asked", sheet.With{"asked": s.Amount})
	if d.Tie != nil {
		l.Scope.Change(d.Key+".length", "asked", "as asked", sheet.With{"asked": sc.Key("width")})
	} else { // both its faces were measured
		l.Scope.Change(d.Key+".to", "face + asked", "as asked", sheet.With{"face": d.Key + ".from", "asked": sc.Key("width")})
	}
}

// lines gives the dial its new count of lines.
func (s *Site) lines(d, t *axis.Part, w worth) {
	l := s.Layout
	leaf := sheet.Leaf{Value: float64(w.lines), Origin: sheet.Chosen, Note: w.label()}
	if w.lines == 0 {
		leaf = sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)}
	}
	s.Scope.Measure(sheet.Q{Key: "lines", Label: "lines of the new dial", Symbol: "N", Unit: unit.Count, Quiet: true, Whole: true}, leaf)
	if !l.Scope.Has(d.Key + ".divisions") {
		l.Scope.In(d.Key).Measure(sheet.Q{Key: "divisions", Label: d.Label + " lines all round", Symbol: "N", Unit: unit.Count, Whole: true}, sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
	}
	l.Scope.Change(d.Key+".divisions", "lines", "as asked", sheet.With{"lines": s.Scope.Key("lines")})
	if !l.Scope.Has(d.Key + ".spacing") {
		l.DialMarks(d, t)
	}
}

// apart checks that the lines can be told apart, and finds the diameters for that.
func (s *Site) apart(d *axis.Part) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("spacing_least", "least spacing of a dial's lines", "s_min", unit.MM), dial.SpacingLeast, dial.SpacingSource)
	l.Assume(sc, quiet("spacing_near", "spacing above that within which a dial is hard to read", "", unit.MM), dial.SpacingGood-dial.SpacingLeast, dial.SpacingSource)
	sc.Check(sheet.Check{Key: "spacing_check", Label: "Lines of the dial apart", Figure: d.Key + ".spacing", Limit: "spacing_least", Tight: "spacing_near", Level: sheet.Rule,
		Sentence: "The lines are {figure} apart, and {limit} is the least that is read.", Source: dial.SpacingSource})
	lines := sheet.With{"divisions": d.Key + ".divisions", "spacing_wanted": "spacing_least"}
	sc.Method(quiet("dia_least", "diameter that the lines need at the least", "D_min", unit.MM), dial.DiaFor, lines)
	sc.Formula(quiet("dia_good", "diameter at which they read well", "D_g", unit.MM), "divisions * (spacing_least + spacing_near) / pi", dial.DiaFor.Source, lines)
}

// shows checks what a turn of it shows against what it moves.
func (s *Site) shows(d, t *axis.Part, w worth) {
	sc := s.Scope
	value := w.MM
	if w.dia {
		value /= 2
	}
	sc.Measure(sheet.Q{Key: "label", Label: "slide's way that a line is marked as", Symbol: "m", Unit: unit.MM, Decimals: 4, Quiet: true}, sheet.Leaf{Value: value, Origin: sheet.Chosen, Note: w.Said})
	sc.Method(quiet("indicated", "what a turn shows", "m N", unit.MM), dial.Indicated, sheet.With{"divisions": d.Key + ".divisions"})
	off := quiet("off", "what the dial shows wrong, as a share", "e", unit.Percent)
	off.Decimals = 2
	names := sheet.With{"lead": t.Key + ".pitch", "replaced": d.Key + ".replaced"}
	sc.Fix(quiet("made", "dials made anew, with this one", "", unit.One), "replaced", "decided: as it stood", names)
	sc.Formula(off, "when(replaced > made, 0, abs(indicated / lead - 1))", dial.Ratio.Source+"; nothing once another dial takes its place", names)
	s.dialSuits("off", "")
}

// marksWide checks that lines and figures go on its width.
func (s *Site) marksWide(d *axis.Part) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("sight", "distance of the eye", "a", unit.MM), 400, "common practice, no source: arm's length")
	sc.Method(quiet("minor", "short lines", "l_1", unit.MM), dial.Minor, sheet.With{"spacing": d.Key + ".spacing"})
	sc.Method(quiet("middle", "middle lines", "l_2", unit.MM), dial.Middle)
	sc.Method(quiet("major", "long lines", "l_3", unit.MM), dial.Major)
	sc.Method(quiet("numeral", "height of the figures", "h", unit.MM), dial.Numeral)
	sc.Formula(quiet("marks_wide", "width that lines and figures take", "b_m", unit.MM), "major + numeral + mm(2)", "common practice, no source: 0.5 mm between them, 1.5 mm to the edge")
	sc.Check(sheet.Check{Key: "width_check", Label: "Lines and figures on the dial's width", Figure: "width", Limit: "marks_wide", Level: sheet.Rule,
		Sentence: "The dial is {figure} wide, and its lines and figures take {limit}.", Source: "common practice, no source"})
}

// room keeps the dial clear of what it passes.
func (s *Site) room(d *axis.Part) {
	l, sc := s.Layout, s.Scope
	room := d.Key + ".room"
	if !l.Scope.Has(room) {
		s.typed(sc, quiet("room", "room beside the dial, from the screw's axis", "r_o", unit.MM),
			Field{Name: "room", Label: "Room beside it, from the screw's axis", Hint: "to the nearest thing that it passes, slide at both ends"}, "", 1, 1000, nan)
		room = sc.Key("room")
	}
	sc.Formula(quiet("radius", "dial's radius", "r", unit.MM), "dial_dia / 2", "geometry", sheet.With{"dial_dia": d.Key + ".dia"})
	sc.Formula(quiet("clear", "dial clear of what is beside it", "c", unit.MM), "room - radius", "geometry", sheet.With{"room": room})
	l.Assume(sc, quiet("clear_least", "clearance wanted beside a dial", "", unit.MM), 1, "common practice, no source: 1 mm")
	sc.Check(sheet.Check{Key: "room_check", Label: "Dial clear of what is beside it", Figure: "clear", Limit: "clear_least", Level: sheet.Stop,
		Sentence: "{figure} is left between the dial and what it passes, and {limit} is wanted.", Source: "geometry"})
}
