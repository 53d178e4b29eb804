package upgrade

import (
	"math"
	"strconv"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// oilWays: oil points with grooves in a slide, and a passage for oil through the
// screw that holds its nut.
type oilWays struct{}

func (oilWays) About() About {
	return About{
		Key: "oil_ways", Label: "Oil points and grooves",
		Words:   []string{"oiling", "lubrication", "oil grooves", "oilers", "oil nipples", "ball oilers", "one-shot oiler", "way oil", "drilled screw", "oil cup"},
		Purpose: "Oil comes to where metal rubs: along the ways, and through its fixing screw to the nut.",
		Cautions: []string{
			"Isolate the machine before the slide is taken off.",
			"Cast-iron dust: mask, extraction or a magnet, never an air line.",
			"Oil runs down onto the floor: a tray under it, and sawdust where it drips. A wet floor throws people.",
			"Oil on the skin every day: wash, and see that it cannot be sprayed.",
			"A drilled screw is weaker: tighten it with less, and never put a plain one's torque on it.",
		},
		Proof: "Oil comes out at each way after three strokes, or after a filling of each point; the push on the free slide at three places, before and after.",
		Hours: [2]float64{4, 14}, Risk: MediumRisk, Undo: UndonePart, Own: true,
		Needs: []part.Capability{part.Milling, part.Turning},
		Cures: []string{"stiff.oil", "wears.oil"},
	}
}

// Suits any slide on ways.
func (oilWays) Suits(l *axis.Layout) bool { return sliding(l) }

// mostPoints is as many oil points as a way is given.
const mostPoints = 9

// Trials of oil ways: as few points as are near enough, and one more, each with a
// groove of 70 % of its share, or as much as keeps off the slide's ends.
func (oilWays) Trials(l *axis.Layout) []Trial {
	sl, _ := l.OnWays()
	long := foundLength(l, sl)
	if math.IsNaN(long) {
		return []Trial{{pointsOn(2), map[string]string{"points": "2"}}, {pointsOn(3), map[string]string{"points": "3"}}}
	}
	least := min(mostPoints, max(1, int(math.Ceil(long/slide.OilApartMost))))
	var all []Trial
	for n := least; n <= min(least+1, mostPoints); n++ {
		share := long / float64(n)
		groove := math.Floor(min((slide.GrooveShareLeast+slide.GrooveShareMost)/2*share, share-2*slide.GrooveEdgeLeast))
		all = append(all, Trial{pointsOn(n), map[string]string{"points": strconv.Itoa(n), "groove": unit.MM.With(groove)}})
	}
	return all
}

func pointsOn(n int) string {
	return [...]string{"", "one point", "two points", "three points", "four points", "five points", "six points", "seven points", "eight points", "nine points"}[n] + " on each way"
}

func (k oilWays) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	sl, _ := l.OnWays()
	s.typed(sc, shown("apart", sl.Label+": longest way between two oil points", "a", unit.MM), Field{Name: "now", Label: "Longest way between two oil points, as it is", Hint: "the slide's length where oil is put on at its ends alone"}, "", 1, 2000, nan)
	s.aim("upgrade_"+s.ID+".apart", unit.MM, true)
	s.claim("oil", "the oil ways of the "+sl.Label)
	s.typed(sc, quiet("groove", "length of a groove", "l_g", unit.MM), Field{Name: "groove", Label: "Length of each groove", Hint: "one through each oil point"}, "", 0, 500, nan)
	s.Amount, s.Most = sc.Key("groove"), 150
	points := s.choose(Field{Name: "points", Label: "Oil points on each way", Options: counts(mostPoints)}, "2")
	s.own(quiet("points", "oil points on each way", "n", unit.Count), float64(few(points)), "as chosen")
	rows := s.choose(Field{Name: "rows", Label: "Ways that get them", Options: counts(4)}, "2")
	s.own(quiet("rows", "ways that get grooves", "", unit.Count), float64(few(rows)), "as chosen")
	names := sheet.With{"length": sl.Key + ".length"}
	sc.Change("apart", slide.OilApart.Text, slide.OilApart.Source, names)
	l.Assume(sc, quiet("apart_most", "most between two oil points", "", unit.MM), slide.OilApartMost, slide.OilApartMostSource)
	sc.Check(sheet.Check{Key: "apart_check", Label: "Oil points near enough", Figure: "apart", Limit: "apart_most", AtMost: true, Level: sheet.Rule,
		Sentence: "Two oil points are {figure} apart, and {limit} is the most.", Source: slide.OilApartMostSource})
	k.grooves(s, names)
	k.edges(s, sl)
	k.oil(s)
	if _, ok := l.WithRole("nut"); ok {
		oilScrew(s)
	}
}

// grooves: how much of the length they cover, and the land at their ends.
func (oilWays) grooves(s *Site, names sheet.With) {
	l, sc := s.Layout, s.Scope
	percent := unit.Percent
	sc.Method(shown("share", "slide's length with a groove", "k", percent), slide.GrooveShare, names)
	s.Goals = append(s.Goals, sheet.Goal{Key: sc.Key("share")})
	l.Assume(sc, quiet("share_least", "least of the length with a groove", "", percent), percent.In(slide.GrooveShareLeast), slide.GrooveShareSource)
	l.Assume(sc, quiet("share_most", "most of the length with a groove", "", percent), percent.In(slide.GrooveShareMost), slide.GrooveShareSource)
	sc.Check(sheet.Check{Key: "share_check", Label: "Grooves long enough", Figure: "share", Limit: "share_least", Level: sheet.Rule,
		Sentence: "Along {figure} of the slide there is a groove, and {limit} is the least.", Source: slide.GrooveShareSource})
	sc.Check(sheet.Check{Key: "land_check", Label: "Land left between grooves", Figure: "share", Limit: "share_most", AtMost: true, Level: sheet.Rule,
		Sentence: "Along {figure} of the slide there is a groove, and {limit} is the most: the rest carries.", Source: slide.GrooveShareSource})
	sc.Method(quiet("end", "groove's end from the slide's end", "e", unit.MM), slide.GrooveEnd, names)
	l.Assume(sc, quiet("edge_least", "least from a groove to an edge", "", unit.MM), slide.GrooveEdgeLeast, slide.GrooveEdgeSource)
	sc.Check(sheet.Check{Key: "end_check", Label: "Grooves clear of the slide's ends", Figure: "end", Limit: "edge_least", Level: sheet.Rule,
		Sentence: "A groove ends {figure} from the slide's end, and {limit} is the least.", Source: slide.GrooveEdgeSource})
}

// edges: the groove within its way, the metal above it, and what of it hangs over.
func (oilWays) edges(s *Site, sl *axis.Part) {
	l, sc := s.Layout, s.Scope
	const group = "The groove"
	s.typed(sc, quiet("way_width", "width of the narrowest way that gets one", "b_w", unit.MM), Field{Name: "way_width", Label: "Width of the narrowest way that gets one", Group: group}, "", 1, 300, nan)
	s.typed(sc, quiet("groove_width", "width of a groove", "b", unit.MM), Field{Name: "groove_width", Label: "Width", Hint: "2 to 3", Group: group}, s.proposed(2.5), 1, 6, 2.5)
	s.typed(sc, quiet("groove_depth", "depth of a groove", "t", unit.MM), Field{Name: "groove_depth", Label: "Depth", Hint: "1 to 1.5", Group: group}, s.proposed(1.2), 0.5, 4, 1.2)
	s.typed(sc, quiet("metal", "metal of the slide above its ways", "h", unit.MM), Field{Name: "metal", Label: "Slide's thickness above the ways", Hint: "down to a T-slot, if there is one", Group: group}, "", 1, 300, nan)
	sc.Formula(quiet("side", "groove from the way's edges, at the most", "", unit.MM), "(way_width - groove_width) / 2", "geometry: a straight groove along the middle")
	sc.Check(sheet.Check{Key: "side_check", Label: "Grooves clear of the ways' edges", Figure: "side", Limit: "edge_least", Level: sheet.Rule,
		Sentence: "A groove along the middle has {figure} to the way's edges, and {limit} is the least.", Source: slide.GrooveEdgeSource})
	sc.Formula(shown("span", "zigzag across the way", "", unit.MM), "max(groove_width, way_width - 2 * edge_least)", "geometry: within the least to the edges")
	sc.Formula(quiet("left", "metal left above a groove", "", unit.MM), "metal - groove_depth", "geometry")
	l.Assume(sc, quiet("left_least", "least metal above a groove", "", unit.MM), 5, "common practice, no source: 5 mm of a casting's floor")
	sc.Check(sheet.Check{Key: "left_check", Label: "Metal left above the grooves", Figure: "left", Limit: "left_least", Level: sheet.Rule,
		Sentence: "{figure} is left above a groove, and {limit} is the least.", Source: "common practice, no source"})
	ways, _ := l.WithRole("ways")
	if cover := sl.Key + "_on_" + ways.Key; l.Scope.Has(cover + ".hangs_plus") {
		sc.Formula(quiet("open", "groove off the ways, slide at its end", "", unit.MM), "max(out, in) - end", "geometry: what hangs over, less the land at the slide's end",
			sheet.With{"out": cover + ".hangs_plus", "in": cover + ".hangs_minus"})
		sc.Check(sheet.Check{Key: "open_check", Label: "Grooves covered at the ends of the travel", Figure: "open", Limit: "touching", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "With the slide at its end {figure} of a groove stands off the ways, and oil runs out there: begin that groove further in, or oil it there last.", Source: "geometry"})
	}
}

// oil: how much, which, and the tube that brings it.
func (oilWays) oil(s *Site) {
	l, sc := s.Layout, s.Scope
	const group = "The oil"
	upright := s.choose(Field{Name: "stands", Label: "The ways", Options: []Option{{"level", "lie, or lean"}, {"upright", "stand upright"}}, Group: group}, "level") == "upright"
	vg, why := 68.0, "common practice, no source: slideway oil of VG 68 for ways that lie"
	if upright {
		vg, why = 220, "from memory, unchecked: slideway oil of VG 220 for ways that stand, so that it stays there"
	}
	l.Assume(sc, quiet("vg", "viscosity of the oil at 40 °C", "ν", viscosity), vg, why)
	sc.Method(shown("volume", "oil that fills the grooves", "V", cubicCM), slide.GrooveVolume)
	fed := s.choose(Field{Name: "fed", Label: "Brought by", Options: []Option{{"hand", "an oil can, at each point"}, {"pump", "a hand pump, through a tube"}}, Group: group}, "hand")
	if fed != "pump" {
		return
	}
	l.Assume(sc, quiet("stroke", "oil that a stroke of the pump gives", "", cubicCM), 2, "common practice, no source: 1 to 3 cm³ a stroke")
	sc.Formula(shown("strokes", "strokes of the pump to fill the grooves", "", unit.Count), "ceil(volume / stroke)", "definition")
	l.Assume(sc, quiet("bend", "least radius of the tube", "r", unit.MM), 25, "common practice, no source: 25 mm for a nylon tube of 4 mm")
	l.Assume(sc, quiet("spare", "straight ends of the tube", "", unit.MM), 60, "common practice, no source")
	sc.Method(shown("hose", "tube to the slide", "L", unit.MM), slide.HoseLength)
}

// counts are the choices from 1 to most.
func counts(most int) (all []Option) {
	for n := 1; n <= most; n++ {
		all = append(all, Option{strconv.Itoa(n), strconv.Itoa(n)})
	}
	return all
}

// few is a count from 1 to 9, as it was chosen; 2 where it is none of them.
func few(chosen string) int {
	if n, err := strconv.Atoi(chosen); err == nil && n >= 1 && n <= 9 {
		return n
	}
	return 2
}

// Units of oil.
var (
	cubicCM   = unit.Unit{Symbol: "cm³", Dim: unit.MM2.Dim.Times(unit.LengthD), Scale: 1000, Decimals: 2}
	viscosity = unit.Unit{Symbol: "mm²/s", Dim: unit.MM2.Dim.Per(timeD), Scale: 1, Decimals: 0}
)

func (oilWays) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("groove", "")) == "" {
		say.text("Say how long the grooves are, and how much of the slide they oil is shown here.")
		return say.runs
	}
	say.failures(s, r)
	share, okS := s.figured(r, s.Scope.Key("share"))
	apart, okA := s.figured(r, s.Scope.Key("apart"))
	if okS && okA {
		say.text("Along ").strong(share).text(" of the slide there is a groove, with an oil point every ").strong(apart).text(".")
	}
	if v, ok := s.figured(r, s.Scope.Key("volume")); ok {
		say.text(" They hold " + v + " of oil.")
	}
	if hose, ok := s.figured(r, s.Scope.Key("hose")); ok {
		say.text(" The tube to the slide is ").strong(hose).text(" long, for the travel as it is planned.")
	}
	if t, ok := s.figured(r, s.Scope.Key("oil_screw.torque")); ok {
		say.text(" The nut's screw, drilled, is tightened with ").strong(t).text(" and no more.")
	}
	if !strings.Contains(Text(say.runs), "tube") && !strings.Contains(Text(say.runs), "screw") {
		say.text(" Nothing else follows.")
	}
	return say.runs
}
