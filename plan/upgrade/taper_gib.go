package upgrade

import (
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// taperGib: a gib that tapers along its length, and is driven in to take up play.
type taperGib struct{}

func (taperGib) About() About {
	return About{
		Key: "taper_gib", Label: "Taper gib",
		Words:   []string{"tapered gib", "gib key", "jib", "adjustable gib", "dovetail", "slideway packing"},
		Purpose: "A gib that bears all along, and takes up wear by being driven in: two screws set it, none presses on its side.",
		Cautions: []string{
			"Isolate the machine before the slide is taken off.",
			"A milled blank warps: leave stock on both sides and let it lie before the last cuts.",
			"Cast iron and bronze dust: mask, extraction or a damp cloth, never an air line.",
			"A taper multiplies force: a turn of its screw closes hundredths of a millimetre, and can lock the slide or spread it.",
			"Scrapers are sharp: cut away from the hand that holds the work.",
		},
		Proof: "The push on the free slide the same at both ends and in the middle; lift and yaw at the slide's ends at most 0.02 mm by gauge.",
		Hours: [2]float64{8, 20}, Risk: MediumRisk, Undo: UndonePart, Own: true,
		Needs: []part.Capability{part.Milling, part.Scraping},
		Cures: []string{"rocks.gib", "jams.gib"},
	}
}

// Suits a slide on dovetail ways.
func (taperGib) Suits(l *axis.Layout) bool { return gibStrip{}.Suits(l) }

// Trials of a taper gib: the usual clearance.
func (taperGib) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"oil": "0.02 mm"}}}
}

func (k taperGib) Apply(s *Site) {
	l := s.Layout
	sl, _ := l.OnWays()
	s.aim(gibPlay(s, sl), unit.MM, true)
	s.claim("gib", "the gib of the "+sl.Label)
	oilClearance(s)
	l.Scope.Change(sl.Key+".gib_play", "clearance", "as asked: what the gib leaves", sheet.With{"clearance": s.Amount})

	names := sheet.With{
		"gap":   s.measuredOr(sl.Key+".gib_gap", quiet("gap", "gap for the gib, at its narrower end", "g", unit.MM), Field{Name: "gap", Label: "Gap between the flanks, narrower end", Hint: "square to the flank, the old gib out"}, "", 0.5, 50),
		"depth": s.measuredOr(sl.Key+".gib_depth", quiet("depth", "flank's height, square to the flat", "h", unit.MM), Field{Name: "depth", Label: "Flank's height, square to the flat"}, "", 1, 200),
		"angle": gibStrip{}.angle(s, sl), "length": gibLong(l), "clearance": s.Amount,
	}
	k.taper(s, sl, names)
	k.sizes(s, names)
	k.rules(s)
}

// taper is milled into the slide's side, or is there already.
func (taperGib) taper(s *Site, sl *axis.Part, names sheet.With) {
	l, sc := s.Layout, s.Scope
	copied := s.choose(Field{Name: "gap_is", Label: "The gap for it", Options: []Option{
		{"parallel", "is as wide at both ends: the slide's side is milled to the taper"}, {"tapers", "tapers already: the new gib is made to it"},
	}}, "parallel") == "tapers"
	if copied {
		names["other"] = s.measuredOr(sl.Key+".gib_gap_other", quiet("other", "gap for the gib, at its other end", "g_2", unit.MM), Field{Name: "other", Label: "Gap between the flanks, wider end"}, "", 0.5, 60)
		sc.Formula(quiet("opens", "gap opens along the slide by", "Δg", unit.MM), "abs(other - gap)", "geometry", names)
		sc.Formula(shown("taper", "taper of the gib, 1 in", "n", unit.One), "when(opens > 0, length / opens, inf)", "definition of a taper 1 : n", names)
		return
	}
	s.typed(sc, shown("taper", "taper of the gib, 1 in", "n", unit.One), Field{Name: "taper", Label: "Taper, 1 in", Hint: "60; 50 to 100 are usual"}, "60", 20, 500, nan)
	sc.Formula(quiet("opens", "metal off the slide's side, at the wider end", "Δg", unit.MM), "length / taper", "definition of a taper 1 : n", names)
	s.typed(sc, quiet("wall", "slide's side beside the gib, as it is", "w", unit.MM), Field{Name: "wall", Label: "Slide's side beside the gib, thickness", Hint: "square to the flank, where it is thinnest"}, "", 1, 200, nan)
	sc.Formula(shown("left", "slide's side beside the gib, left", "w", unit.MM), "wall - opens", "geometry: milled to the taper")
	l.Assume(sc, quiet("left_least", "least thickness of the slide's side", "", unit.MM), 6, "common practice, no source: 6 mm of a casting that carries screws, never under 5")
	sc.Check(sheet.Check{Key: "left_check", Label: "Slide's side beside the gib", Figure: "left", Limit: "left_least", Level: sheet.Rule,
		Sentence: "{figure} of the slide's side is left at the wider end, and {limit} is the least.", Source: "common practice, no source"})
}

// sizes of the gib, which is new when it stands at the wider end, and worn out
// when it comes to the narrower one.
func (taperGib) sizes(s *Site, names sheet.With) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("moves", "room for the gib to be driven along", "m", unit.MM), Field{Name: "moves", Label: "Room to drive it along", Hint: "so much shorter than the slide it is made; 8 to 15 is usual"}, "10", 0, 100, nan)
	sc.Formula(shown("long", "taper gib's length", "L_g", unit.MM), "length - moves", "geometry: within the slide wherever it is driven to", names)
	sc.Formula(shown("thick", "taper gib's thick end", "t_2", unit.MM), "gap + opens - clearance", "geometry: at the wider end of its gap, with room for the oil", names)
	sc.Formula(shown("thin", "taper gib's thin end", "t_1", unit.MM), "thick - long / taper", "definition of a taper 1 : n")
	sc.Method(quiet("blank", "taper gib's width along the flank", "b", unit.MM), slide.GibBlank, names)
	l.Assume(sc, quiet("skin", "stock to leave on either side of the blank", "", unit.MM), 0.3, "common practice, no source: a milled blank warps; 0.3 mm a side come off when it has lain")
	sc.Formula(quiet("rough", "blank's thick end, as first milled", "", unit.MM), "thick + 2 * skin", "geometry: stock on both sides")
	sc.Method(shown("take_up", "wear that the gib can take up", "Δ", unit.MM), slide.TaperClosing, sheet.With{"travel": "moves"})
	size := s.choose(Field{Name: "screw", Label: "Its screws", Options: screwSizes("M4", "M5", "M6", "M8")}, "M5")
	s.own(quiet("pitch", "pitch of its screws", "P", unit.MM), coarse(size).Pitch, size+", ISO 261")
	sc.Formula(quiet("turn", "play that a turn of its screws takes", "", unit.Micrometre), slide.TaperClosing.Text, slide.TaperClosing.Source, sheet.With{"travel": "pitch"})
	s.Goals = append(s.Goals, sheet.Goal{Key: sc.Key("take_up")})
}

func (taperGib) rules(s *Site) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("thin_least", "least thickness of a taper gib", "", unit.MM), 3, "common practice, no source: 3 mm at its thin end")
	sc.Check(sheet.Check{Key: "thin_check", Label: "Taper gib thick enough", Figure: "thin", Limit: "thin_least", Level: sheet.Rule,
		Sentence: "Its thin end is {figure}, and {limit} is the least.", Source: "common practice, no source"})
	l.Assume(sc, quiet("take_up_least", "wear to be taken up, at the least", "", unit.MM), 0.1, "common practice, no source: as much as a slide that is wound by hand wears before it is scraped again")
	sc.Check(sheet.Check{Key: "take_up_check", Label: "Taper gib can be set again", Figure: "take_up", Limit: "take_up_least", Level: sheet.Rule,
		Sentence: "Driven home it has taken up {figure}, and {limit} is the least: more room, or a steeper taper.", Source: "common practice, no source"})
	l.Assume(sc, quiet("steepest", "steepest taper of a gib, 1 in", "", unit.One), 50, "common practice, no source: 1 in 50 to 1 in 100")
	l.Assume(sc, quiet("flattest", "flattest taper of a gib, 1 in", "", unit.One), 100, "common practice, no source: 1 in 50 to 1 in 100")
	sc.Check(sheet.Check{Key: "steep_check", Label: "Taper not too steep", Figure: "taper", Limit: "steepest", Level: sheet.Rule, Advice: true,
		Sentence: "It tapers 1 in {figure}; steeper than 1 in {limit} it is hard to set, and wants more metal off the slide.", Source: "common practice, no source"})
	sc.Check(sheet.Check{Key: "flat_check", Label: "Taper not too flat", Figure: "taper", Limit: "flattest", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "It tapers 1 in {figure}; flatter than 1 in {limit} it has to be driven far for little.", Source: "common practice, no source"})
}

func (taperGib) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	thick, okThick := s.figured(r, s.Scope.Key("thick"))
	thin, okThin := s.figured(r, s.Scope.Key("thin"))
	if strings.TrimSpace(s.input("oil", "")) == "" {
		say.text("Say how much is left for the oil, and the gib's sizes and what becomes of the play are shown here.")
		return say.runs
	}
	say.failures(s, r)
	if okThick && okThin {
		say.text("The gib is ").strong(thick).text(" at its thick end and ").strong(thin).text(" at its thin one")
		if long, ok := s.figured(r, s.Scope.Key("long")); ok {
			say.text(", ").strong(long).text(" long")
		}
		say.text(". ")
	}
	if up, ok := s.figured(r, s.Scope.Key("take_up")); ok {
		say.text("Driven home it takes up ").strong(up).text(" of wear")
		if turn, ok := s.figured(r, s.Scope.Key("turn")); ok {
			say.text(", " + turn + " a turn")
		}
		say.text(". ")
	}
	say.became("Sideways play comes to ", "", s, r, s.Goals[0].Key)
	return say.runs
}
