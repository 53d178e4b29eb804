package upgrade

import (
	"fmt"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/fastener"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// gibScrews: more screws on a straight gib, between those that there are and
// beyond them.
type gibScrews struct{}

func (gibScrews) About() About {
	return About{
		Key: "gib_screws", Label: "More gib screws",
		Words:   []string{"gib", "jib screws", "gib adjusting screws", "grub screws", "set screws", "lock nuts", "rocking slide"},
		Purpose: "The gib is backed at more places, so that it gives less and enough screws bear with the slide at either end.",
		Cautions: []string{
			"Isolate the machine before the slide is drilled.",
			"Drill with the slide off its ways: a drill that breaks through marks the way or the gib.",
			"Cast-iron dust: mask, extraction or a magnet, never an air line.",
			"A lock nut turns its screw with it: hold the screw while the nut is tightened, and feel the slide again.",
		},
		Proof: "Lift and yaw of the slide at both ends of the travel by gauge; the push on the free slide at three places.",
		Hours: [2]float64{1, 3}, Risk: LowRisk, Undo: UndonePart, Own: true,
		Needs: []part.Capability{part.Bench, part.Milling},
		Cures: []string{"rocks.few_screws"},
	}
}

// Suits a slide on dovetail ways.
func (gibScrews) Suits(l *axis.Layout) bool { return gibStrip{}.Suits(l) }

// Trials of more screws: between those that there are, and beyond them.
func (gibScrews) Trials(*axis.Layout) []Trial {
	return []Trial{{"between those that there are", map[string]string{"where": "between"}}, {"between and at both ends", map[string]string{"where": "both"}}}
}

func (k gibScrews) Apply(s *Site) {
	l := s.Layout
	sl, ways, _ := l.Guided()
	where := s.choose(Field{Name: "where", Label: "Added", Options: []Option{
		{"none", "not decided"}, {"between", "one between each two"}, {"ends", "one beyond the first and one beyond the last"}, {"both", "between them and beyond"},
	}}, "none")
	size := s.choose(Field{Name: "screw", Label: "Size", Options: screwSizes("M4", "M5", "M6")}, "M5")
	s.own(quiet("bolt_dia", "diameter of a gib screw", "d", unit.MM), coarse(size).Dia, size)
	l.DefineGibRow(sl)
	s.aim(sl.Key+".gib_widest", unit.MM, true)
	s.claim("gib_screws", "the row of gib screws")
	k.row(s, sl, where)
	k.spacing(s, sl)
	k.bearing(s, sl, ways)
	k.holes(s, sl)
}

// row adds the screws to those that there are.
func (gibScrews) row(s *Site, sl *axis.Part, where string) {
	l, sc := s.Layout, s.Scope
	family, old := l.Scope.In(sl.Key), l.GibRow
	var row []axis.GibScrew
	put := func(key, text string, with sheet.With) axis.GibScrew {
		sc.Fix(quiet("at_"+key, "added gib screw "+key, "", unit.MM), text, "decided: where it is put", with)
		return axis.GibScrew{Key: sc.Key("at_" + key), Label: "added gib screw " + key}
	}
	// after adds a screw and the space to the one before it.
	after := func(g axis.GibScrew) {
		if n := len(row); n > 0 && g.Space == "" {
			g.Space = l.GibSpace(sc, fmt.Sprintf("space_%d", n), row[n-1], g)
			family.Family("gib_spaces", "", unit.MM, g.Space)
		}
		row = append(row, g)
	}
	with := sheet.With{"from": sl.Key + ".from", "to": sl.Key + ".to", "first": old[0].Key, "last": old[len(old)-1].Key}
	ends, between := where == "ends" || where == "both", where == "between" || where == "both"
	if ends {
		s.typed(sc, quiet("end", "first and last screw from the slide's ends", "a", unit.MM), Field{Name: "end", Label: "First and last from the slide's ends", Hint: "10 to 20"}, s.proposed(slide.GibEnd), 3, 100, slide.GibEnd)
		after(put("first", "when(first < last, from + end, to - end)", with))
	}
	for i, g := range old {
		if i > 0 && between {
			family.Drop("gib_spaces", g.Space)
			g.Space = ""
			after(put(fmt.Sprint(i), "(a + b) / 2", sheet.With{"a": old[i-1].Key, "b": g.Key}))
		}
		after(g)
	}
	if ends {
		after(put("last", "when(first < last, to - end, from + end)", with))
	}
	l.GibRow = row
}

// spacing compares the spaces with what the strip wants, and how far it gives there.
func (gibScrews) spacing(s *Site, sl *axis.Part) {
	l, sc := s.Layout, s.Scope
	const group = "The gib strip"
	names := sheet.With{"length": sl.Key + ".length", "spacing": l.Find(sl.Key + ".gib_widest"),
		"thickness": s.measuredOr("gib.thickness", quiet("thickness", "gib strip's thickness", "t", unit.MM), Field{Name: "thickness", Label: "Thickness of the strip", Hint: "as it is, out of its gap", Group: group}, "", 0.5, 50),
		"blank":     s.measuredOr("gib.blank", quiet("blank", "gib strip's width along the flank", "b", unit.MM), Field{Name: "blank", Label: "Width along the flank", Group: group}, "", 1, 200)}
	l.Limit(sc, quiet("apart_most", "most between two gib screws", "", unit.MM), slide.GibSpacingMost, names)
	sc.Check(sheet.Check{Key: "apart_check", Label: "Gib screws near enough", Figure: sl.Key + ".gib_widest", Limit: "apart_most", AtMost: true, Level: sheet.Rule,
		Sentence: "Two gib screws are {figure} apart, and {limit} is the most for a strip so thick.", Source: slide.GibSpacingMost.Source})
	l.Assume(sc, quiet("ends_at", "first and last screw from the ends, usual", "a", unit.MM), slide.GibEnd, slide.GibEndSource)
	names["end"], names["spacing_most"] = sc.Key("ends_at"), sc.Key("apart_most")
	sc.Method(quiet("wanted", "screws that a strip so thick wants", "n", unit.Count), slide.GibScrews, names)
	l.Assume(sc, quiet("load", "side load on the slide", "F", unit.Newton), 100, "common practice, no source: a light cut")
	l.Assume(sc, quiet("modulus", "modulus of the strip", "E", unit.GPa), 110, "grey cast iron EN-GJL-250, handbook value 103 to 118 GPa (EN 1561)")
	sc.Method(quiet("second_moment", "second moment of the strip", "I", unit.MM4), slide.StripSecondMoment, names)
	sc.Method(shown("give", "strip gives between two screws", "f", unit.Micrometre), slide.GibGivePoint, names)
	l.Assume(sc, quiet("give_most", "most that a strip may give", "f_max", unit.Micrometre), unit.Micrometre.In(slide.GibGiveMost), slide.GibGiveMostSource)
	sc.Check(sheet.Check{Key: "give_check", Label: "Gib strip stiff between its screws", Figure: "give", Limit: "give_most", AtMost: true, Level: sheet.Rule,
		Sentence: "Between two screws the strip gives {figure} under a light cut, and {limit} is the most.", Source: slide.GibGiveMostSource})
}

// bearing counts the screws that lie over the ways at either end, those of the
// axis and those that are added.
func (gibScrews) bearing(s *Site, sl, ways *axis.Part) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("cutting", "gib screws that bear where cutting is done", "n_min", unit.Count), 3, "common practice, no source: two at the least, three where cutting is done there")
	cover := l.Scope.In(sl.Key + "_on_" + ways.Key)
	counts := l.Scope.Has(sl.Key + "_on_" + ways.Key + ".gib_screws_plus")
	for _, e := range []axis.End{axis.Plus, axis.Minus} {
		end, name := string(e), l.EndName(e)
		for i, g := range l.GibRow {
			l.GibBears(sc, sl, ways, e, g, i+1)
			key := sc.Key(fmt.Sprintf("gib_screw_%d_%s", i+1, end))
			sc.Family("bears_"+end, "gib screws, "+name, unit.Count, key)
			if counts && strings.HasPrefix(g.Key, sc.Key("")) {
				cover.Family("gib_bearing_"+end, "", unit.Count, key)
			}
		}
		sc.Formula(shown("bear_"+end, "gib screws over the ways, "+name, "n", unit.Count), "sum(bears_"+end+")", "geometry: each screw that lies over the ways")
		sc.Check(sheet.Check{Key: "cutting_" + end, Label: "Gib screws for cutting, " + name, Figure: "bear_" + end, Limit: "cutting", Level: sheet.Rule, Advice: true,
			Sentence: "{figure} of the gib screws lie over the ways there; to cut there, {limit} are wanted.", Source: "common practice, no source"})
	}
}

// holes are tapped in the slide's side.
func (gibScrews) holes(s *Site, sl *axis.Part) {
	l, sc := s.Layout, s.Scope
	const group = "The slide's side"
	s.typed(sc, quiet("wall", "slide's side where it is tapped", "w", unit.MM), Field{Name: "wall", Label: "Thickness where it is tapped", Group: group}, "", 1, 200, nan)
	s.typed(sc, quiet("edge", "middle of the holes from the nearest edge", "e", unit.MM), Field{Name: "edge", Label: "Middle of the holes from the nearest edge", Hint: "underside, top, oil hole or T-slot", Group: group}, "", 0.5, 200, nan)
	l.Limit(sc, quiet("wall_least", "least thread of a gib screw", "", unit.MM), joint.BoltInIron)
	sc.Check(sheet.Check{Key: "wall_check", Label: "Gib screws' thread", Figure: "wall", Limit: "wall_least", Level: sheet.Rule,
		Sentence: "The side gives {figure} of thread, and {limit} is the least in cast iron: take a smaller screw.", Source: joint.BoltInIron.Source})
	l.Limit(sc, quiet("edge_least", "least from a tapped hole's middle to an edge", "", unit.MM), sheet.Method{Text: "1.5 * bolt_dia", Source: "common practice, no source: 1.5 diameters from a tapped hole's middle to an edge"})
	sc.Check(sheet.Check{Key: "edge_check", Label: "Metal beside the holes", Figure: "edge", Limit: "edge_least", Level: sheet.Rule,
		Sentence: "The holes' middle is {figure} from an edge, and {limit} is the least.", Source: "common practice, no source"})
	sc.Formula(quiet("nearest", "two gib screws apart, nearest", "", unit.MM), "min("+sl.Key+".gib_spaces)", "geometry")
	l.Limit(sc, quiet("nearest_least", "least between two tapped holes", "", unit.MM), sheet.Method{Text: "3 * bolt_dia", Source: "common practice, no source: 3 diameters from middle to middle"})
	sc.Check(sheet.Check{Key: "nearest_check", Label: "Metal between the holes", Figure: "nearest", Limit: "nearest_least", Level: sheet.Rule,
		Sentence: "Two holes are {figure} apart, and {limit} is the least.", Source: "common practice, no source"})
}

func (gibScrews) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if s.input("where", "none") == "none" {
		say.text("Say where screws are to be added, and how many bear at either end is shown here.")
		return say.runs
	}
	for i, e := range []axis.End{axis.Plus, axis.Minus} {
		if n, ok := s.figured(r, s.Scope.Key("bear_"+string(e))); ok {
			say.text([]string{"", " "}[i] + capital(s.Layout.EndName(e)) + ", ").strong(n).text(" screws lie over the ways.")
		}
	}
	if len(say.runs) > 0 {
		say.text(" ")
	}
	say.became("The widest space comes to ", "", s, r, s.Goals[0].Key)
	say.text(" Nothing else follows.")
	return say.runs
}

// Parts of more gib screws: the slide's side, screws, lock nuts.
func (k gibScrews) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if s.input("where", "none") == "none" {
		return Make{}
	}
	sl, _, _ := s.Layout.Guided()
	size := s.input("screw", "M5")
	own := "upgrade_" + s.ID + "."
	from, _ := m.figure(sl.Key + ".from")
	long := m.or(sl.Key+".length", 150)
	wall := m.or(own+"wall", 12)
	f := &part.Flat{Length: drawn("", long), Width: drawn("", max(20, 2*m.or(own+"edge", 10))), Thickness: drawn("slide's side", wall), Angle: 90, Outline: true}
	var n int
	for _, g := range s.Layout.GibRow {
		if !strings.HasPrefix(g.Key, s.Scope.Key("")) {
			continue
		}
		n++
		x := m.general(want{part: "gib_side", label: "from the slide's end", nominal: 0})
		at, ok := m.figure(sheet.Local(g.Key, s.Layout.Key))
		if !ok {
			continue
		}
		x.Nominal = at - from
		f.Features = append(f.Features, part.Feature{Kind: part.Hole, Label: "gib screw", X: x, Y: drawn("", m.or(own+"edge", 10)), Dia: drawn("", coarse(size).Tap), Thread: size})
	}
	m.add(part.Part{Key: "gib_side", Label: "side of the " + sl.Label + ", with more gib screws", Altered: true, Replaces: sl.Key, Material: casting(sl.Material), Flat: f,
		Notes: []string{"The new holes in the line of the old ones, square to the same face.", "Break the edges of the holes inside, so that no burr lifts the gib."}})
	k.buys(m, size, n, wall)
	m.step(stripped, "", part.Operation{Key: "slide_off", Do: "Take the slide off, and gib and screws out of it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "which gib screw goes where, with a photo", Cautions: []string{isolate}})
	m.step(cut, "gib_side", part.Operation{Key: "drill_gib_side", Do: "Mark the holes out from the old ones; drill to just short of breaking through, then through by hand feed, and tap. Nothing behind them: no way, no gib.", Needs: []part.Capability{part.Milling}, Envelope: [2]float64{long, 0}, Minutes: [2]float64{30, 90}, Record: "the holes, with a photo", Cautions: []string{eyes, ironDust},
		Asks: []string{"What is behind each hole: an oil hole, a T-slot, a bolt? Probe with a thin drill where you cannot see."}})
	m.step(fitted, "", part.Operation{Key: "dimple_gib", Do: "With the gib in its place and pushed home, spot it through each new hole; deepen the dimples to the screws' points, at the middle of the contact and never above it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "the dimples, with a photo", Cautions: []string{eyes},
		Asks: []string{"Does each screw meet the middle of its dimple? One beside it pushes the gib along."}})
	m.step(assembled, "", part.Operation{Key: "set_gib", Do: "Oil and assemble; set the screws from the middle outwards until the slide drags evenly, then lock each without turning it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "push at three places"})
	m.proofOf(k.About())
	return m.finish()
}

// buys are the screws, as long as the wall, their nuts and a little more.
func (gibScrews) buys(m *making, size string, n int, wall float64) {
	if n == 0 {
		return
	}
	b := part.Bought{Key: "gib_screws", Label: "grub screws with a dog point", Quantity: n, For: "set_gib", Confirm: "drill_gib_side", Source: "ISO 4028"}
	nut, _ := fastener.NutNamed("ISO 4032", size)
	if screw, ok := fastener.ScrewNamed("ISO 4028", size); ok {
		if length, err := screw.Length(wall+nut.Height+1, wall+nut.Height+8); err == nil {
			b.Designation = screw.Designation(length)
		}
	}
	m.buy(b)
	m.buy(part.Bought{Key: "gib_nuts", Label: "nuts to lock them", Designation: "ISO 4032 " + size, Quantity: n, For: "set_gib", Source: "ISO 4032"})
}
