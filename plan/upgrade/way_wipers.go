package upgrade

import (
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// wayWipers: felts at a slide's ends that keep swarf off its ways, and rings of
// felt at its nut's.
type wayWipers struct{}

func (wayWipers) About() About {
	return About{
		Key: "way_wipers", Label: "Way wipers and screw felts",
		Words:   []string{"felt wipers", "way covers", "swarf shields", "chip guards", "scrapers", "nut wipers"},
		Purpose: "Swarf is wiped off the ways before the slide runs over it, and off the screw before it gets into the nut.",
		Cautions: []string{
			"Isolate the machine before the slide is taken off.",
			"A chip that is trapped under a wiper scores the way: take the felts out and wash them when they are grey.",
			"Brush swarf away, never by hand and never with an air line.",
		},
		Proof: "Travel at both ends by gauge; a white cloth on the ways after a day's work, before and after.",
		Hours: [2]float64{1, 3}, Risk: LowRisk, Undo: Undone, Own: false,
		Needs: []part.Capability{part.Bench},
		Cures: []string{"wears.swarf"},
	}
}

// Suits any slide on ways.
func (wayWipers) Suits(l *axis.Layout) bool { return sliding(l) }

// Trials of wipers: at both ends, as thick as is usual.
func (wayWipers) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"felt": "3 mm"}}}
}

// The ends at which there is a wiper.
var wiped = map[string][]axis.End{"both": {axis.Plus, axis.Minus}, "plus": {axis.Plus}, "minus": {axis.Minus}}

func (k wayWipers) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	sl, _ := l.OnWays()
	unwiped := sl.Key + ".unwiped"
	if !l.Scope.Has(unwiped) {
		l.Assume(l.Scope.In(sl.Key), sheet.Q{Key: "unwiped", Label: sl.Label + ": ends under which swarf gets", Unit: unit.Count, Whole: true}, 2, "taken: nothing wipes the ways as found")
	}
	s.aim(unwiped, unit.Count, true)
	s.claim("wipers", "the ends of the "+sl.Label)
	s.typed(sc, quiet("felt", "felt, along the travel", "t_f", unit.MM), Field{Name: "felt", Label: "Felt, along the travel", Hint: "3 to 6"}, "", 0, 30, 0)
	s.Amount, s.Most = sc.Key("felt"), 15
	s.typed(sc, quiet("plate", "plate that holds it", "t_p", unit.MM), Field{Name: "plate", Label: "Plate that holds it, thickness"}, s.proposed(1.5), 0, 20, 0)
	ends := s.choose(Field{Name: "ends", Label: "At", Options: []Option{
		{"both", "both ends of the " + sl.Label}, {"plus", "its end " + l.EndName(axis.Plus)}, {"minus", "its end " + l.EndName(axis.Minus)}}}, "both")
	sc.Formula(shown("stands", "wiper stands out of the "+sl.Label, "t", unit.MM), "felt + plate", "geometry")
	nut, okN := l.WithRole("nut")
	if okN {
		s.typed(sc, quiet("ring", "felt ring at either end of the nut", "t_r", unit.MM), Field{Name: "ring", Label: "Felt ring at either end of the nut, thickness", Hint: "0 for none; 2 to 5", Group: "The screw"}, "0", 0, 20, 0)
	}
	t := s.takes(axis.Plus, axis.Minus)
	if sl.Side == axis.Moving {
		for _, e := range wiped[ends] {
			t.by(sc.Key("stands"), e, sl)
			t.nearer(sc.Key("stands"), e, "the wiper")
		}
	}
	if okN {
		for _, e := range t.ends {
			t.by(sc.Key("ring"), e, nut)
		}
	}
	t.giveUp()
	l.Assume(sc, quiet("felt_least", "least felt of a wiper", "", unit.MM), 3, "common practice, no source: 3 to 6 mm at each end")
	s.own(quiet("wiped", "ends that get a wiper", "n", unit.Count), float64(len(wiped[ends])), "as chosen")
	l.Scope.Change(unwiped, "when(felt >= felt_least, max(0, was - wiped), was)", "definition: a felt that is thick enough wipes its end", sheet.With{"felt": s.Amount, "felt_least": sc.Key("felt_least"), "wiped": sc.Key("wiped")})
	sc.Check(sheet.Check{Key: "felt_check", Label: "Wiper thick enough", Figure: "felt", Limit: "felt_least", Level: sheet.Rule,
		Sentence: "The felt is {figure} along the travel, and {limit} is the least that wipes.", Source: "common practice, no source"})
	l.Assume(sc, quiet("felt_most", "most felt of a wiper", "", unit.MM), 6, "common practice, no source: 3 to 6 mm at each end; more drags")
	sc.Check(sheet.Check{Key: "drag_check", Label: "Wiper does not drag", Figure: "felt", Limit: "felt_most", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "The felt is {figure} along the travel; more than {limit} drags, and holds swarf.", Source: "common practice, no source"})
}

func (wayWipers) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("felt", "")) == "" {
		say.text("Say how thick the felt is along the travel, and what the wipers cost of it is shown here.")
		return say.runs
	}
	say.failures(s, r)
	if t, ok := s.figured(r, s.Scope.Key("stands")); ok {
		say.text("The wipers stand out ").strong(t).text(".")
	}
	say.costs(s, r)
	return say.runs
}

// Parts of wipers: their plates; felt.
func (k wayWipers) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if !m.more(s.Amount) {
		return Make{}
	}
	sl, _ := s.Layout.OnWays()
	own := "upgrade_" + s.ID + "."
	n := len(wiped[s.input("ends", "both")])
	long := m.or(sl.Key+".width", 80)
	if m.more(s.Scope.Key("plate")) {
		wide := drawn("width", long)
		wide.Suits, wide.Limits = "the end of the "+sl.Label, toSuit
		high := drawn("height", 20)
		high.Suits, high.Limits = "the end of the "+sl.Label+", clear of the ways by 0.5 mm", toSuit
		m.add(part.Part{Key: "wiper_plate", Label: "plate of a way wiper", Material: "6082", Quantity: max(n, 1),
			Flat:  &part.Flat{Length: wide, Width: high, Thickness: m.general(want{part: "wiper_plate", name: "thickness", label: "thickness", key: own + "plate", nominal: 1.5, leaf: own + "plate", formula: "made"}), Angle: 90},
			Notes: []string{"Its lower edge to the shape of the ways, with 0.5 mm of room.", "Two holes for M3, slotted so that it can be set down as the felt wears."}})
		m.step(made, "wiper_plate", part.Operation{Key: "cut_wiper_plate", Do: "Saw and file the plates to the ends of the " + sl.Label + ".", Needs: []part.Capability{part.Bench}, Envelope: [2]float64{long, 20}, Minutes: [2]float64{30, 75}, Record: "a plate in its place, with a photo", Cautions: []string{eyes}})
	}
	m.buy(part.Bought{Key: "felt", Label: "hard felt, " + s.Units.With(m.or(own+"felt", 3)) + " thick", Quantity: max(n, 1), For: "fit_wipers", Source: "common practice, no source"})
	m.buy(part.Bought{Key: "wiper_screws", Label: "screws for the plates", Designation: "ISO 4762 M3 × 8", Quantity: 2 * max(n, 1), For: "fit_wipers", Source: "ISO 4762"})
	if m.more(s.Scope.Key("ring")) {
		m.buy(part.Bought{Key: "felt_rings", Label: "felt rings for the nut, slit, " + s.Units.With(m.or(own+"ring", 3)) + " thick", Quantity: 2, For: "fit_wipers", Source: "common practice, no source"})
	}
	m.step(stripped, "", part.Operation{Key: "slide_off", Do: "Take the " + sl.Label + " off, and clean its ends and the ways.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "the ends of the " + sl.Label + ", with a photo", Cautions: []string{isolate}})
	m.step(assembled, "", part.Operation{Key: "fit_wipers", Do: "Tap two holes at each end, soak the felts in way oil, and set them so that they are squeezed by a tenth.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 75}, Record: "the wipers, with a photo", Cautions: []string{eyes},
		Asks: []string{"What is behind each hole: a gib, an oil way?", "Does anything set by the slide's end, a stop or a scale's reader, have to move?"}})
	m.proofOf(k.About())
	return m.finish()
}
