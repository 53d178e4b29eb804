package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/fit"
	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// film asks how the dial is finished: an anodised film grows into its bore.
func (s *Site) film() {
	l, sc := s.Layout, s.Scope
	const group = "Finish"
	options := []Option{{"paint", "lines filled with paint"}}
	for _, f := range material.Films {
		options = append(options, Option{f.Key, "anodised, " + f.Label})
	}
	chosen := s.choose(Field{Name: "finish", Label: "Finished", Options: options, Group: group}, "paint")
	if chosen == "paint" {
		return
	}
	in := sc.In("film")
	thick := map[string]string{"usual": "15", "hard": "40"}[chosen]
	s.typed(in, quiet("film", "thickness of the film", "t", unit.Micrometre), Field{Name: "film", Label: "Film", Hint: "usual 5 to 25, hard 25 to 75", Group: group}, thick, 0, 200, nan)
	for _, f := range material.Films {
		if f.Key == chosen {
			in.Measure(quiet("share", "part of the film that grows outward", "", unit.One), sheet.Leaf{Value: f.Share, Spread: sheet.Within(material.FilmShareWithin * f.Share), Origin: sheet.Assumed, Note: material.FilmShareSource})
		}
	}
	in.Method(quiet("growth", "surface moves out by", "g", unit.Micrometre), material.FilmGrowth)
	in.Method(quiet("closes", "bore closes by", "δ", unit.Micrometre), material.FilmOnDiameter)
	if s.choose(Field{Name: "bored", Label: "Its bore", Options: []Option{{"masked", "masked, or bored afterwards"}, {"before", "bored before, and anodised with it"}}, Group: group}, "masked") == "masked" {
		return
	}
	l.Assume(in, quiet("play", "clearance that the bore has at the least", "", unit.Micrometre), 1000*leastClearance, "ISO 286-2: H7/g6 from 10 to 18 mm, 0.006 mm")
	in.Check(sheet.Check{Key: "check", Label: "Dial still goes onto its sleeve", Figure: "closes", Limit: "play", AtMost: true, Level: sheet.Rule,
		Sentence: "The film closes the bore by {figure}, and the fit leaves {limit} at the least: mask it, or bore it afterwards.", Source: material.FilmShareSource})
}

// leastClearance is the least of H7/g6 from 10 to 18 mm, in mm.
var leastClearance = func() float64 {
	c, err := fit.Deviations("g6", 14)
	if err != nil {
		return 0
	}
	return -c.Upper / 1000
}()

// filmNote is what the finish asks of the part.
func (m *making) filmNote(p *part.Part) string {
	up := sheet.Local(m.Scope.Key(""), m.Layout.Key)
	closes, ok := m.figure(up + "film.closes")
	if !ok {
		return "If it is anodised, mask the bore or bore it afterwards: the film takes room there."
	}
	p.Finish = "anodised " + unit.Micrometre.With(m.or(up+"film.film", 0)) + ", lines filled afterwards"
	return "The film closes a bore by about " + unit.Micrometre.With(closes) + ", and makes the outside as much larger: cut the lines first, mask the bore or bore it afterwards."
}

// bothWays says what a line is worth on the slide and on the work.
func (m *making) bothWays(d *axis.Part) string {
	line := m.or(d.Key+".per_line", 0)
	four := unit.MM
	four.Decimals = 4
	return "A line is " + four.With(line) + " that the slide moves; on the diameter of turned work it is " + four.With(2*line) + "."
}

// replaced is the part of the axis that a dial takes the place of; "" for none.
func (m *making) replaced(d *axis.Part) string {
	if _, ok := m.Layout.Part(d.Key); !ok {
		return ""
	}
	return d.Key
}

// indexPlate carries the index line out to a dial that is larger than what it
// turns beside.
func (m *making) indexPlate(d *axis.Part) {
	b, ok := m.Layout.WithRole("bracket")
	if !ok {
		return
	}
	body, okB := m.figure(b.Key + ".dia")
	dia, okD := m.figure(d.Key + ".dia")
	if !okB || !okD || math.Abs(dia-body) < 1 {
		return
	}
	high := math.Max(8, math.Abs(dia-body)/2+6)
	suits := func(label string, mm float64) part.Size {
		x := drawn(label, mm)
		x.Suits, x.Limits = "the bracket and the dial as fitted", toSuit
		return x
	}
	m.add(part.Part{Key: "index_plate", Label: "index plate on the " + b.Label, Material: "cuzn39pb3", Notes: []string{"The index line as wide as a line of the dial, sharp, no more than 0.3 mm from it, level with its face so that the eye sees no step."},
		Flat: &part.Flat{Length: suits("height", high), Width: suits("width", 12), Thickness: suits("thickness", 2), Angle: 90, Features: []part.Feature{{Kind: part.Hole, Label: "to the " + b.Label, X: drawn("", 3), Y: drawn("", 6), Dia: drawn("", 3.2)}}}})
	m.step(made, "index_plate", part.Operation{Key: "file_index", Do: "Cut and bend the index plate, and scribe its line when it is on.", Needs: []part.Capability{part.Bench}, Envelope: [2]float64{high, 12}, Minutes: [2]float64{20, 40}, Record: "gap to the dial"})
}

// rises are where the slide goes when the handle is turned clockwise, and where
// it goes as the figures rise.
func (s *Site) rises(t *axis.Part) (clockwise, rises string) {
	by, ok := clockwiseGoes(s.Layout, t)
	if !ok {
		by = opposite(handleAt(s.Layout))
	}
	clockwise = s.input("clockwise", string(by))
	return clockwise, s.input("rises", clockwise)
}
