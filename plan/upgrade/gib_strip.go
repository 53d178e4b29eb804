package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// gibStrip: a new straight gib for a dovetail slide.
type gibStrip struct{}

func (gibStrip) About() About {
	return About{
		Key: "gib_strip", Label: "New gib strip",
		Purpose: "A strip that fills the gap beside the slide all along, so that the slide neither rocks nor binds.",
		Cautions: []string{
			"Isolate the machine before the slide is taken off.",
			"Cast iron and bronze dust: mask, extraction or a damp cloth, never an air line.",
			"Scrapers are sharp: cut away from the hand that holds the work.",
		},
		Proof: "Lift and yaw at the slide's ends at most 0.02 mm by gauge; the push on the free slide at three places.",
		Words: []string{"gib", "jib", "gib key", "flat gib", "slide packing", "straight gib"},
		Hours: [2]float64{3, 8}, Risk: LowRisk, Undo: Undone, Own: false,
		Needs: []part.Capability{part.Milling, part.Scraping},
		Cures: []string{"rocks.gib", "jams.gib"},
	}
}

// Trials of a gib strip: the usual clearance.
func (gibStrip) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"oil": "0.02 mm"}}}
}

// Suits a slide on dovetail ways.
func (gibStrip) Suits(l *axis.Layout) bool { return sliding(l) }

// gibLong is the length of a gib: that of what is guided over its whole length.
func gibLong(l *axis.Layout) string {
	short, _, _ := l.Guided()
	return short.Key + ".length"
}

// gibMaterials are what a strip is made of, the usual first.
var gibMaterials = []string{"gjl250", "c93200", "o1_hard"}

func (k gibStrip) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	sl, _ := l.OnWays()
	s.claim("gib", "the gib of the "+sl.Label)
	s.typed(sc, quiet("oil", "clearance wanted for the oil", "c", unit.MM), Field{Name: "oil", Label: "Clearance for the oil", Hint: "0.02; 0.01 to 0.03 is usual"}, "", 0.001, 0.5, slide.GibClearance)
	s.Amount, s.Most = sc.Key("oil"), 0.05
	var options []Option
	for _, key := range gibMaterials {
		x, _ := material.Named(key)
		options = append(options, Option{key, x.Name})
	}
	stuff, _ := material.Named(s.choose(Field{Name: "material", Label: "Made of", Options: options}, gibMaterials[0]))

	names := sheet.With{
		"gap":   s.measuredOr(sl.Key+".gib_gap", quiet("gap", "gap for the gib, at its narrower end", "g", unit.MM), Field{Name: "gap", Label: "Gap between the flanks, narrower end", Hint: "square to the flank, the old gib out"}, "", 0.5, 50),
		"depth": s.measuredOr(sl.Key+".gib_depth", quiet("depth", "flank's height, square to the flat", "h", unit.MM), Field{Name: "depth", Label: "Flank's height, square to the flat"}, "", 1, 200),
		"angle": k.angle(s, sl), "length": gibLong(l), "clearance": s.Amount,
	}
	in := l.Scope.In("gib")
	if l.Scope.Has("gib.thickness") {
		in = sc // there is a strip already: this one is worked out beside it, and the play names both
	}
	in.Method(shown("thickness", "gib strip's thickness", "t", unit.MM), slide.GibThickness, names)
	in.Method(quiet("blank", "gib strip's width along the flank", "b", unit.MM), slide.GibBlank, names)
	play := shown("play", "play of the gib strip in its gap", "p", unit.MM)
	in.Formula(play, "gap - thickness", "geometry", names)
	s.Goals = []sheet.Goal{{Key: in.Key("play"), Less: true}}
	if l.Scope.Has(sl.Key + ".gib_play") {
		l.Scope.Change(sl.Key+".gib_play", "clearance", "as asked: what the strip leaves", names)
		s.Goals = []sheet.Goal{{Key: l.Find(sl.Key + ".gib_play"), Less: true}, {Key: in.Key("play"), Less: true}}
	}
	names["thickness"], names["blank"], names["play"] = in.Key("thickness"), in.Key("blank"), in.Key("play")
	k.checks(s, sl, names)
	k.between(s, sl, names, stuff)
	k.rollOver(s, names)
}

// own is where the strip's own figures stand, with a dot: the last goal is its play.
func (gibStrip) own(s *Site) string { return strings.TrimSuffix(s.Goals[len(s.Goals)-1].Key, "play") }

// measuredOr is the key of a figure of the measuring sheet, or of one that the
// form asks for where the sheet has none.
func (s *Site) measuredOr(name string, q sheet.Q, f Field, proposal string, least, most float64) string {
	if s.Layout.Scope.Has(name) {
		return s.Layout.Find(name)
	}
	s.typed(s.Scope, q, f, proposal, least, most, nan)
	return s.Scope.Key(q.Key)
}

// angle is the dovetail's: measured, or chosen among the usual.
func (gibStrip) angle(s *Site, sl *axis.Part) string {
	if s.Layout.Scope.Has(sl.Key + ".gib_angle") {
		return s.Layout.Find(sl.Key + ".gib_angle")
	}
	chosen := s.choose(Field{Name: "angle", Label: "Dovetail's angle", Options: []Option{{"60", "60°"}, {"55", "55°"}, {"50", "50°"}, {"45", "45°"}}}, "60")
	degrees := map[string]float64{"60": 60, "55": 55, "50": 50, "45": 45}[chosen]
	s.Scope.Measure(quiet("angle", "dovetail's angle", "A", unit.Degree), sheet.Leaf{Value: unit.Degree.Inside(degrees), Origin: sheet.Chosen, Note: "as chosen; measure it over two sizes of roller"})
	return s.Scope.Key("angle")
}

func (gibStrip) checks(s *Site, sl *axis.Part, names sheet.With) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("thin", "least thickness of a gib strip", "", unit.MM), 3, "common practice, no source: 3 mm, to be stiff between its screws")
	sc.Check(sheet.Check{Key: "thin_check", Label: "Gib strip thick enough", Figure: names["thickness"], Limit: "thin", Level: sheet.Rule,
		Sentence: "The strip is {figure} thick, and {limit} is the least.", Source: "common practice, no source"})
	l.Assume(sc, quiet("play_least", "least play of a gib strip", "", unit.MM), 0.01, "common practice, no source: 0.01 to 0.03 mm")
	l.Assume(sc, quiet("play_most", "most play of a gib strip", "", unit.MM), 0.03, "common practice, no source: 0.01 to 0.03 mm")
	sc.Check(sheet.Check{Key: "free_check", Label: "Slide runs free", Figure: names["play"], Limit: "play_least", Level: sheet.Rule,
		Sentence: "The strip leaves {figure} for the oil, and {limit} is the least.", Source: "common practice, no source"})
	sc.Check(sheet.Check{Key: "steady_check", Label: "Slide does not rock", Figure: names["play"], Limit: "play_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The strip leaves {figure}, and {limit} is the most.", Source: "common practice, no source"})
	if l.Scope.Has(sl.Key + ".gib_gap_other") {
		sc.Formula(quiet("uneven", "gap wider at its other end", "", unit.MM), "abs(other - gap)", "geometry", sheet.With{"other": sl.Key + ".gib_gap_other", "gap": names["gap"]})
		l.Assume(sc, quiet("uneven_most", "most that a gap may widen", "", unit.MM), 0.03, "common practice, no source: more is scraped off the flank, or the strip made to taper")
		sc.Check(sheet.Check{Key: "uneven_check", Label: "Gap as wide at either end", Figure: "uneven", Limit: "uneven_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The gap is {figure} wider at one end, and {limit} is what screws make up for.", Source: "common practice, no source"})
	}
}

// between: the strip gives between two of its screws.
func (gibStrip) between(s *Site, sl *axis.Part, names sheet.With, stuff material.Material) {
	l, sc := s.Layout, s.Scope
	if !l.Scope.Has(sl.Key + ".gib_widest") {
		return
	}
	l.Limit(sc, quiet("apart_most", "most between two gib screws", "", unit.MM), slide.GibSpacingMost, names)
	sc.Check(sheet.Check{Key: "apart_check", Label: "Gib screws near enough", Figure: sl.Key + ".gib_widest", Limit: "apart_most", AtMost: true, Level: sheet.Rule, Advice: true, // as found: how far the strip gives is the rule
		Sentence: "Two gib screws are {figure} apart, and {limit} is usual for a strip so thick: more gib screws, while the slide is off.", Source: "common practice, no source"})
	l.Assume(sc, quiet("load", "side load on the slide", "F", unit.Newton), 100, "common practice, no source: a light cut")
	sc.Measure(quiet("modulus", "modulus of the strip", "E", unit.MPa), sheet.Leaf{Value: stuff.Modulus, Origin: sheet.Chosen, Note: stuff.Name + "; " + stuff.Source})
	names["spacing"] = l.Find(sl.Key + ".gib_widest")
	sc.Method(quiet("second_moment", "second moment of the strip", "I", unit.MM4), slide.StripSecondMoment, names)
	sc.Method(quiet("give", "strip gives between two screws", "f", unit.Micrometre), slide.GibGivePoint, names)
	l.Assume(sc, quiet("give_most", "most that a strip may give", "f_max", unit.Micrometre), unit.Micrometre.In(slide.GibGiveMost), slide.GibGiveMostSource)
	sc.Check(sheet.Check{Key: "give_check", Label: "Gib strip stiff between its screws", Figure: "give", Limit: "give_most", AtMost: true, Level: sheet.Rule,
		Sentence: "Between two screws the strip gives {figure} under a light cut, and {limit} is the most.", Source: slide.GibGiveMostSource})
}

// rollOver: a screw that pushes along the base must not tip the strip.
func (gibStrip) rollOver(s *Site, names sheet.With) {
	sc := s.Scope
	const group = "Gib screws"
	square := s.choose(Field{Name: "screws", Label: "The screws push", Options: []Option{{"base", "along the base of the dovetail"}, {"flank", "square to the flank"}}, Group: group}, "base") == "flank"
	s.typed(sc, quiet("below", "screws off the middle of the flank, to the root", "e", unit.MM), Field{Name: "below", Label: "Off the flank's middle, towards the root of the dovetail", Hint: "0 where they meet its middle", Group: group}, "0", -100, 100, 0)
	shift := quiet("shift", "push shifted along the flank, to the root", "t cot A", unit.MM)
	if square {
		sc.Measure(shift, sheet.Leaf{Origin: sheet.Chosen, Note: "statics: a screw square to the flank has no shift"})
	} else {
		sc.Method(shift, slide.RollShift, names)
	}
	// The dovetail is narrow at its root: carried on level through the strip, the
	// push comes out nearer to the root than it went in.
	names["offset"], names["shift"] = sc.Key("below"), sc.Key("shift")
	sc.Method(quiet("off", "push off the middle of the contact", "e_c", unit.MM), slide.RollOffset, names)
	sc.Formula(quiet("most", "push at which the strip tips", "", unit.MM), "blank / 2", slide.RollMost.Source, names)
	sc.Formula(quiet("near", "push within that at which one edge opens", "", unit.MM), "blank / 6", slide.RollNear.Source, names)
	sc.Check(sheet.Check{Key: "roll_check", Label: "Gib strip does not roll over", Figure: "off", Limit: "most", AtMost: true, Tight: "near", Level: sheet.Rule,
		Sentence: "The screws push {figure} off the middle of the contact, and at {limit} the strip tips over.", Source: slide.RollMost.Source})
}

func (k gibStrip) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	figure := func(key string) (float64, bool) {
		f, ok := r.Figure(key, sheet.Planned)
		return f.Value, ok && f.Known()
	}
	own := k.own(s)
	thick, ok := figure(own + "thickness")
	if !ok {
		say.text("Measure the gap for the strip at both ends, the old one out: its thickness follows from it.")
		return say.runs
	}
	blank, _ := figure(own + "blank")
	sl, _ := s.Layout.OnWays()
	if strings.TrimSpace(s.input("oil", "")) == "" {
		say.text("Say how much is left for the oil; with the usual ").strong(show(s, slide.GibClearance)).text(" the strip is ").strong(s.thin(thick)).text(" thick.")
		return say.runs
	}
	say.text("The strip is ").strong(s.thin(thick)).text(" thick, ").strong(show(s, blank)).text(" wide along the flank")
	if long, ok := figure(s.Layout.Find(gibLong(s.Layout))); ok {
		say.text(" and ").strong(show(s, long)).text(" long")
	}
	say.text(".")
	if now, ok := r.Figure(s.Layout.Find(sl.Key+".gib_play"), sheet.Now); ok && now.Known() {
		plan, _ := figure(s.Layout.Find(sl.Key + ".gib_play"))
		say.text(" Sideways play comes to ").strong(show(s, plan)).text(", where it is " + show(s, now.Value) + " now.")
	}
	return say.runs
}

// thin writes a thickness to the thousandth of a millimetre.
func (s *Site) thin(mm float64) string {
	u := s.Units
	u.Decimals++
	return u.With(mm)
}

// Parts of a gib strip.
func (k gibStrip) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if s.input("oil", "") == "" {
		return Make{}
	}
	l := s.Layout
	sl, _ := l.OnWays()
	short, _, _ := l.Guided()
	scope := sheet.Local(k.own(s), l.Key)
	thickness := want{part: "gib", name: "thickness", label: "thickness", key: scope + "thickness", nominal: 4, leaf: scope + "thickness", formula: "made"}
	if play := sl.Key + ".gib_play"; l.Scope.Has(play) {
		thickness.also = []part.Made{{Leaf: play, Formula: "was + planned - made"}}
	}
	thick := m.limits(thickness, 0.005, -0.005, "common practice, no source: finished by scraping")
	gap := sl.Key + ".gib_gap"
	if l.Scope.Has(gap) {
		thick = m.suits(thick, "the gap at its narrower end", gap, micrometer)
	}
	degrees := 60.0
	if a, ok := m.figure(sl.Key + ".gib_angle"); ok {
		degrees = unit.Degree.In(a)
	} else if a, ok := m.figure("upgrade_" + s.ID + ".angle"); ok {
		degrees = unit.Degree.In(a)
	}
	f := &part.Flat{Thickness: thick, Angle: degrees,
		Length: m.general(want{part: "gib", name: "length", label: "length, as the " + short.Label, key: short.Key + ".length", nominal: 100}),
		Width:  m.limits(want{part: "gib", name: "width", label: "width along the flank", key: scope + "blank", nominal: 12}, -0.2, -0.5, "common practice, no source: clear of both flats")}
	from, okFrom := m.figure(short.Key + ".from")
	for _, g := range l.GibRow {
		at, ok := m.figure(sheet.Local(g.Key, l.Key))
		if !ok || !okFrom {
			break
		}
		x := drawn("", at-from)
		x.Suits, x.Limits = "the screw, spotted through its hole with the strip in place", toSuit
		f.Features = append(f.Features, part.Feature{Kind: part.Dimple, Label: "dimple", X: x, Y: drawn("", f.Width.Nominal/2), Dia: drawn("dimple", 4), Depth: drawn("", math.Min(1.5, thick.Nominal/3))})
	}
	stuff := s.input("material", gibMaterials[0])
	p := part.Part{Key: "gib", Label: "gib strip", Material: stuff, Flat: f,
		Notes: []string{"Both long edges bevelled to the dovetail's angle, edges broken.", "The face that runs on the way scraped to 10 to 15 spots in 25 mm square.", "Dimples spotted in place, at the middle of the contact and never above it."}}
	m.add(p)
	env := [2]float64{f.Length.Nominal, f.Width.Nominal}
	m.step(measured, "", part.Operation{Key: "readings_before", Do: "Take the readings: lift and yaw at the slide's ends by gauge, the push on the free slide at three places.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "readings, before"})
	m.step(measured, "", part.Operation{Key: "measure_gap", Do: "Take the slide off its screw and the old gib out; measure the gap at both ends and in the middle, square to the flank, with slips or feelers. Put the old gib back.", Needs: []part.Capability{part.Bench}, Out: l.Key, After: []string{"readings_before"}, Minutes: [2]float64{45, 90}, Record: "gap at three places", Cautions: []string{isolate}})
	needs := []part.Capability{part.Milling}
	if stuff == "o1_hard" {
		needs = append(needs, part.Grinding)
	}
	m.step(made, "gib", part.Operation{Key: "mill_gib", Do: "Mill the strip on both sides, turning it over often so that it stays straight; leave 0.1 mm. Bevel both long edges.", Needs: needs, Envelope: env, After: []string{"measure_gap"}, Minutes: [2]float64{90, 240}, Record: "thickness at five places", Cautions: []string{eyes}})
	m.step(stripped, "", part.Operation{Key: "slide_off", Do: "Take the slide off and clean both flanks.", Needs: []part.Capability{part.Bench}, After: []string{"mill_gib"}, Minutes: [2]float64{20, 40}, Record: "which gib screw goes where, with a photo", Cautions: []string{isolate}})
	m.step(fitted, "gib", part.Operation{Key: "scrape_gib", Do: "Blue the strip in its gap and scrape it until it bears all along and goes in with the clearance for the oil; spot the dimples through the screw holes with the strip in place.", Needs: []part.Capability{part.Scraping}, Minutes: [2]float64{60, 180}, Record: "thickness at five places, and the last blue, with a photo", Cautions: []string{"Scrapers are sharp: cut away from the hand that holds the work."}})
	m.step(assembled, "", part.Operation{Key: "fit_gib", Do: "Oil and assemble; set the screws from the middle outwards until the slide drags evenly, then lock them without turning them.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "push at three places"})
	m.step(proved, "", part.Operation{Key: "readings_after", Do: "Take the same readings, at both ends of the travel.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "readings, after"})
	return m.finish()
}
