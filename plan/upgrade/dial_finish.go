package upgrade

import (
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
