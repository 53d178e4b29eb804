package axis

import (
	"fmt"
	"strings"

	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// defineEngagements lays out every pair that must overlap.
func (l *Layout) defineEngagements() {
	for _, g := range l.Arr.Engages {
		inner, okI := l.WithRole(g.Inner)
		outer, okO := l.WithRole(g.Outer)
		if !okI || !okO || inner.Side == outer.Side {
			continue
		}
		switch g.Kind {
		case "thread":
			l.threadWindow(inner, outer)
		case "cover":
			l.cover(inner, outer)
		default:
			l.least(g, inner, outer)
		}
	}
}

// moved is how a part's face moves with the slide: its formula at a position.
func moved(p *Part, key, at string) string {
	if p.Side == Moving {
		return "(" + key + " + " + at + ")"
	}
	return key
}

// spare defines how far the inner part still is from the outer one's end, at
// both ends of the travel as asked: negative where it stands out.
func (l *Layout) spare(sc *sheet.Scope, inner, outer *Part) {
	faces := sheet.With{"inner_from": inner.Key + ".from", "inner_to": inner.Key + ".to", "outer_from": outer.Key + ".from", "outer_to": outer.Key + ".to"}
	for _, e := range l.ends() {
		// The moving part leaves at the end to which it moves, the fixed one is left there.
		last := (e.End == Plus) == (inner.Side == Moving)
		text := moved(inner, "inner_from", e.asked) + " - " + moved(outer, "outer_from", e.asked)
		if last {
			text = moved(outer, "outer_to", e.asked) + " - " + moved(inner, "inner_to", e.asked)
		}
		label := fmt.Sprintf("%s beyond the %s, %s", outer.Label, inner.Label, e.name)
		sc.Formula(quiet("spare_"+string(e.End), label, "spare", unit.MM), text, "geometry", faces)
		sc.Formula(quiet("engaged_"+string(e.End), fmt.Sprintf("%s engaged, %s", inner.Label, e.name), "engaged", unit.MM),
			"max(0, min(length, length + spare_"+string(e.End)+"))", "geometry", sheet.With{"length": inner.Key + ".length"})
	}
}

// threadWindow: full engagement, and part engagement down to the least.
func (l *Layout) threadWindow(nut, thread *Part) {
	sc := l.Scope.In(nut.Key + "_on_" + thread.Key)
	l.spare(sc, nut, thread)
	names := sheet.With{"dia": thread.Key + ".dia", "pitch": thread.Key + ".pitch", "nut_length": nut.Key + ".length", "thread_length": thread.Key + ".length"}
	trapezoidal := strings.EqualFold(strings.TrimSpace(thread.Entries["form"].Typed), "tr")
	in := l.Scope.In(thread.Key)
	if trapezoidal {
		in.Method(quiet("crest_clearance", "crest clearance", "a_c", unit.MM), screw.CrestClearance)
		in.Method(quiet("root", "root diameter of the screw", "d_3", unit.MM), screw.RootTrapezoidal)
	} else {
		in.Method(quiet("root", "root diameter of the screw", "d_3", unit.MM), screw.Root)
	}
	if bore := l.Scope.In(nut.Key); !l.Scope.Has(nut.Key + ".bore") {
		m := screw.NutBore
		if trapezoidal {
			m = screw.NutBoreTrapezoidal
		}
		bore.Method(quiet("bore", nut.Label+" minor diameter", "D_1", unit.MM), m, names)
	}
	sc.Formula(quiet("window", "most travel with the nut fully on the thread", "window", unit.MM), "thread_length - nut_length",
		"geometry: a spacer moves this window and does not widen it", names)
	sc.Formula(quiet("least", "least engagement of the nut", "e", unit.MM), "min(nut_length, max(1.5 * dia, 5 * pitch))",
		"common practice, no source: the larger of 1.5 diameters and 5 pitches, never more than the nut", names)
	sc.Formula(quiet("least_tight", "engagement above the least that is preferred", "", unit.MM), "max(0, 2 / 3 * nut_length - least)",
		"common practice, no source: two thirds of the nut preferred", names)
	for _, e := range l.ends() {
		k := string(e.End)
		sc.Check(sheet.Check{Key: "full_" + k, Label: "Nut on full thread, " + e.name, Figure: "spare_" + k, Limit: "touching", Level: sheet.Rule, Advice: true,
			Sentence: "{figure} of full thread is left beyond the nut; past that the engagement falls.", Source: "geometry"})
		sc.Check(sheet.Check{Key: "least_" + k, Label: "Nut engaged, " + e.name, Figure: "engaged_" + k, Limit: "least", Tight: "least_tight", Level: sheet.Rule,
			Sentence: "{figure} of the nut is on full thread, and {limit} is the least.", Source: "common practice, no source"})
	}
	l.shankJam(sc, nut, thread)
}

// shankJam: a shank larger than the nut's bore is a stop at the thread's end;
// a smaller one lets the nut run out over it, and engagement falls.
func (l *Layout) shankJam(sc *sheet.Scope, nut, thread *Part) {
	shank, ok := l.WithRole("shank")
	if !ok {
		return
	}
	e, text := l.ends()[0], "when(shank_dia > nut_bore, thread_to - nut_to, inf)"
	if nut.Side == Fixed {
		e, text = l.ends()[1], "when(shank_dia > nut_bore, nut_to - thread_to, -inf)"
	}
	s := Stop{Key: "thread_end", Label: "nut jams at the thread's end", End: e.End, Fixed: thread.Key, Moving: nut.Key, Jam: true}
	if nut.Side == Fixed {
		s.Fixed, s.Moving = nut.Key, thread.Key
	}
	s.Found = l.place[thread.Key][1] - l.place[nut.Key][1]
	if nut.Side == Fixed {
		s.Found = -s.Found
	}
	l.Scope.In(s.Key).Formula(quiet("bound", "thread's end in the nut, slide at", "thread's end", unit.MM), text,
		"geometry: a shank larger than the nut's bore does not enter it",
		sheet.With{"shank_dia": shank.Key + ".dia", "nut_bore": nut.Key + ".bore", "thread_to": thread.Key + ".to", "nut_to": nut.Key + ".to"})
	l.stop(s, e)
}

// cover: how much of a slide lies on its ways at either end, and what hangs over.
func (l *Layout) cover(sl, ways *Part) {
	sc := l.Scope.In(sl.Key + "_on_" + ways.Key)
	names := sheet.With{"from": sl.Key + ".from", "to": sl.Key + ".to", "length": sl.Key + ".length", "ways_from": ways.Key + ".from", "ways_to": ways.Key + ".to"}
	assumed(sc, quiet("overhang_most", "most of the slide that may hang over", "limit", unit.One), 1.0/3, "common practice, no source: two thirds stay supported when cutting")
	assumed(sc, quiet("overhang_tight", "tight within", "", unit.One), 0.03, "common practice, no source")
	assumed(sc, quiet("gib_least", "gib screws that must bear", "n", unit.Count), 2, "common practice, no source: two at the least, three where cutting is done there")
	for _, e := range l.ends() {
		k := string(e.End)
		names["s"] = e.asked
		sc.Method(shown("supported_"+k, sl.Label+" supported, "+e.name, "supported", unit.MM), slide.Supported, clone(names))
		sc.Method(quiet("overhang_"+k, sl.Label+" overhang, share of its length, "+e.name, "overhang", unit.One), slide.OverhangShare,
			sheet.With{"supported": "supported_" + k, "length": sl.Key + ".length"})
		sc.Check(sheet.Check{Key: "overhang_check_" + k, Label: "Slide overhang, share of its length, " + e.name, Figure: "overhang_" + k, Limit: "overhang_most", AtMost: true,
			Tight: "overhang_tight", Level: sheet.Rule, Sentence: "{figure} of the slide hangs over, and {limit} is the most.", Source: "common practice, no source"})
		l.gibScrews(sc, sl, ways, e)
	}
	l.jam(sc)
}

func clone(w sheet.With) sheet.With {
	c := sheet.With{}
	for k, v := range w {
		c[k] = v
	}
	return c
}

// gibScrews counts the screws that still bear on the ways.
func (l *Layout) gibScrews(sc *sheet.Scope, sl, ways *Part, e end) {
	if !l.Scope.Has(sl.Key + ".gib_screw_1") {
		l.defineGibScrews(sl)
	}
	k := string(e.End)
	count := sheet.Q{Key: "gib_screws_" + k, Label: "gib screws that bear, " + e.name, Unit: unit.Count, Quiet: true, Whole: true}
	if !l.Scope.Has(sl.Key + ".gib_screw_1") {
		return
	}
	for i := 1; l.Scope.Has(fmt.Sprintf("%s.gib_screw_%d", sl.Key, i)); i++ {
		key := fmt.Sprintf("gib_screw_%d_%s", i, k)
		sc.Formula(quiet(key, fmt.Sprintf("gib screw %d bears, %s", i, e.name), "", unit.Count),
			"when(at + s < ways_from, 0, when(at + s > ways_to, 0, 1))", "geometry",
			sheet.With{"at": fmt.Sprintf("%s.gib_screw_%d", sl.Key, i), "s": e.asked, "ways_from": ways.Key + ".from", "ways_to": ways.Key + ".to"})
		sc.Family("gib_bearing_"+k, "gib screws, "+e.name, unit.Count, key)
	}
	sc.Formula(count, "sum(gib_bearing_"+k+")", "geometry: each screw that lies over the ways")
	sc.Check(sheet.Check{Key: "gib_check_" + k, Label: "Gib screws that bear, " + e.name, Figure: "gib_screws_" + k, Limit: "gib_least", Level: sheet.Rule,
		Sentence: "{figure} of the gib screws lie over the ways, and {limit} must.", Source: "common practice, no source"})
}

// defineGibScrews reads the positions of the gib screws: lengths apart by
// semicolons or spaces, as "−60; −28; 3".
func (l *Layout) defineGibScrews(sl *Part) {
	typed := strings.FieldsFunc(sl.Entries["gib_screws"].Typed, func(r rune) bool { return r == ';' || r == ' ' })
	for i, t := range typed {
		e := sl.Entries["gib_screws"]
		e.Typed = t
		l.leaf(l.Scope.In(sl.Key), sl.Label, Size{Key: fmt.Sprintf("gib_screw_%d", i+1), Label: fmt.Sprintf("gib screw %d at", i+1), Unit: unit.MM, With: "rule"}, e, sl.Key+".")
	}
}

// jam: a slide that is driven off its line of friction needs a long guide.
func (l *Layout) jam(sc *sheet.Scope) {
	e := l.Entries["drive_offset"]
	if !e.Given() {
		return
	}
	l.leaf(sc, "", Size{Key: "offset", Label: "screw off the middle of the ways", Symbol: "e", Unit: unit.MM, With: "rule"}, e, "drive_offset")
	assumed(sc, quiet("friction", "friction of the ways", "µ", unit.One), 0.15, "oiled iron on iron, 0.12 to 0.2: common practice, no source")
	sc.Method(quiet("jam_length", "length of guide at which it jams", "L_j", unit.MM), slide.JamGuide)
	sc.Formula(quiet("jam_tight", "tight within", "", unit.MM), "jam_length", "common practice: twice that length runs freely")
	for _, e := range l.ends() {
		k := string(e.End)
		sc.Check(sheet.Check{Key: "jam_check_" + k, Label: "Slide jams, " + e.name, Figure: "supported_" + k, Limit: "jam_length", Tight: "jam_tight", Level: sheet.Rule,
			Sentence: "{figure} of the slide is guided; it jams at {limit}.", Source: slide.JamGuide.Source})
	}
}

// least: any other pair that must overlap by so much.
func (l *Layout) least(g Engagement, inner, outer *Part) {
	sc := l.Scope.In(inner.Key + "_on_" + outer.Key)
	names := sheet.With{"length": inner.Key + ".length"}
	if strings.Contains(g.Least, "dia") {
		if !l.Scope.Has(inner.Key + ".dia") {
			l.Findings = append(l.Findings, fmt.Sprintf("Measure the diameter of the %s: how much of it must stay guided depends on it.", inner.Label))
			return
		}
		names["dia"] = inner.Key + ".dia"
	}
	sc.Formula(quiet("least", g.Label+": least", "least", unit.MM), g.Least, g.Source, names)
	faces := sheet.With{"from": inner.Key + ".from", "to": inner.Key + ".to", "ways_from": outer.Key + ".from", "ways_to": outer.Key + ".to"}
	text := slide.Supported.Text
	if inner.Side == Fixed {
		text = "max(0, min(to, ways_to + s) - max(from, ways_from + s))"
	}
	for _, e := range l.ends() {
		k := string(e.End)
		faces["s"] = e.asked
		sc.Formula(quiet("engaged_"+k, g.Label+", "+e.name, "engaged", unit.MM), text, "geometry", clone(faces))
		sc.Check(sheet.Check{Key: "least_" + k, Label: capital(g.Label) + ", " + e.name, Figure: "engaged_" + k, Limit: "least", Level: sheet.Rule,
			Sentence: "{figure} of the " + inner.Label + " is held, and {limit} is the least.", Source: g.Source})
	}
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
