package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/thread"
	"fettle/plan/unit"
)

// gibPlay is the name of a slide's play sideways within its axis, which is not
// known where it was not measured.
func gibPlay(s *Site, sl *axis.Part) string {
	name := sl.Key + ".gib_play"
	if !s.Layout.Scope.Has(name) {
		s.Layout.Scope.In(sl.Key).Measure(shown("gib_play", sl.Label+" play sideways", "p", unit.MM), sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
	}
	return name
}

// oilClearance asks how much a gib leaves for the oil: it is how far one can go.
func oilClearance(s *Site) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("oil", "clearance wanted for the oil", "c", unit.MM), Field{Name: "oil", Label: "Clearance for the oil", Hint: "0.02; 0.01 to 0.03 is usual"}, "", 0.001, 0.5, slide.GibClearance)
	s.Amount, s.Most = sc.Key("oil"), 0.05
	l.Assume(sc, quiet("oil_least", "least clearance of a gib", "", unit.MM), 0.01, "common practice, no source: 0.01 to 0.03 mm")
	l.Assume(sc, quiet("oil_most", "most clearance of a gib", "", unit.MM), 0.03, "common practice, no source: 0.01 to 0.03 mm")
	sc.Check(sheet.Check{Key: "free_check", Label: "Slide runs free", Figure: "oil", Limit: "oil_least", Level: sheet.Rule,
		Sentence: "The gib leaves {figure} for the oil, and {limit} is the least.", Source: "common practice, no source"})
	sc.Check(sheet.Check{Key: "steady_check", Label: "Slide does not rock", Figure: "oil", Limit: "oil_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The gib leaves {figure}, and {limit} is the most.", Source: "common practice, no source"})
}

// coarse is the metric thread of a size, such as "M5".
func coarse(size string) thread.Thread {
	t, err := thread.Parse(size)
	if err != nil {
		panic(err) // a programming error: the sizes are those of a form
	}
	return t
}

// screwSizes are the choices of a screw's size.
func screwSizes(sizes ...string) (options []Option) {
	for _, size := range sizes {
		options = append(options, Option{size, size})
	}
	return options
}
