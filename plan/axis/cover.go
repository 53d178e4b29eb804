package axis

import (
	"fmt"
	"maps"

	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// cover: how much of a slide lies on its ways at either end, and what hangs over.
// Of a table that is longer than what it runs on, that is the shorter one: the ways
// stay, and the table goes along over them.
func (l *Layout) cover(sl, ways *Part) {
	sc := l.Scope.In(sl.Key + "_on_" + ways.Key)
	if sl.Side == ways.Side {
		return
	}
	names := sheet.With{"from": sl.Key + ".from", "to": sl.Key + ".to", "length": sl.Key + ".length", "ways_from": ways.Key + ".from", "ways_to": ways.Key + ".to"}
	l.Assume(sc, quiet("overhang_most", sl.Label+": share of it that may hang over", "k", unit.One), 1.0/3, "common practice, no source: two thirds stay supported when cutting")
	l.Assume(sc, quiet("overhang_near", sl.Label+": share of it within which the overhang is tight", "k", unit.One), 0.03, "common practice, no source")
	l.Assume(sc, quiet("gib_least", sl.Label+": gib screws that must bear", "n", unit.Count), 2, "common practice, no source: two at the least, three where cutting is done there")
	sc.Method(quiet("hangs_most", sl.Label+": most that may hang over", "limit", unit.MM), slide.OverhangMost, names)
	sc.Method(quiet("hangs_near", sl.Label+": overhang tight within", "", unit.MM), slide.OverhangNear, names)
	l.defineGibScrews(sl, ways)
	for _, e := range l.ends() {
		k := string(e.End)
		at := maps.Clone(names)
		at["s"] = e.asked
		if sl.Side != Moving {
			at["s"] = "seen_" + k
			sc.Formula(quiet("seen_"+k, sl.Label+" as seen from the "+ways.Label+", "+e.name, "s", unit.MM), "0 - s", "geometry: what stays goes the other way", sheet.With{"s": e.asked})
		}
		sc.Method(shown("supported_"+k, sl.Label+" on its ways, "+e.name, "supported", unit.MM), slide.Supported, at)
		sc.Method(quiet("hangs_"+k, sl.Label+" overhang, "+e.name, "overhang", unit.MM), slide.Overhang,
			sheet.With{"supported": "supported_" + k, "length": sl.Key + ".length"})
		sc.Check(sheet.Check{Key: "overhang_" + k, Label: capital(sl.Label) + " overhang, " + e.name, Figure: "hangs_" + k, Limit: "hangs_most", AtMost: true,
			Tight: "hangs_near", Level: sheet.Rule, Sentence: "{figure} of the " + sl.Label + " hangs over, and {limit} is the most.", Source: "common practice, no source: two thirds stay supported when cutting"})
		l.gibScrews(sc, sl, ways, e)
	}
	if sl.Side == Moving {
		l.tips(sc, sl, names)
	} else {
		l.tips(sc, ways, sheet.With{"from": ways.Key + ".from", "to": ways.Key + ".to", "ways_from": sl.Key + ".from", "ways_to": sl.Key + ".to"})
	}
	l.jam(sc, sl)
}

// gibScrews counts the screws that still bear on the ways.
func (l *Layout) gibScrews(sc *sheet.Scope, sl, ways *Part, e end) {
	k := string(e.End)
	if len(l.GibRow) == 0 {
		return
	}
	for i, g := range l.GibRow {
		l.GibBears(sc, sl, ways, e.End, g, i+1)
		sc.Family("gib_bearing_"+k, "gib screws, "+e.name, unit.Count, fmt.Sprintf("gib_screw_%d_%s", i+1, k))
	}
	sc.Formula(sheet.Q{Key: "gib_screws_" + k, Label: "gib screws that bear, " + e.name, Unit: unit.Count, Quiet: true, Whole: true},
		"sum(gib_bearing_"+k+")", "geometry: each screw that lies over the ways")
	sc.Check(sheet.Check{Key: "gib_check_" + k, Label: "Gib screws that bear, " + e.name, Figure: "gib_screws_" + k, Limit: "gib_least", Level: sheet.Rule,
		Sentence: "{figure} of the gib screws lie over the ways, and {limit} must.", Source: "common practice, no source"})
}

// jam: a slide that is driven off its line of friction needs a long guide.
func (l *Layout) jam(sc *sheet.Scope, sl *Part) {
	if !l.Scope.Has("drive_offset") {
		return
	}
	l.Assume(sc, quiet("friction", "friction of the ways", "µ", unit.One), slide.Friction, slide.FrictionSource)
	l.Limit(sc, quiet("jam_length", sl.Label+": guided length at which it jams", "L_j", unit.MM), slide.JamGuide, sheet.With{"offset": "drive_offset"})
	l.Limit(sc, quiet("jam_near", sl.Label+": guided length above that, below which it is tight", "", unit.MM), slide.JamNear)
	for _, e := range l.ends() {
		k := string(e.End)
		sc.Check(sheet.Check{Key: "jam_" + k, Label: capital(sl.Label) + " jams, " + e.name, Figure: "supported_" + k, Limit: "jam_length", Tight: "jam_near", Level: sheet.Rule,
			Sentence: "{figure} of the " + sl.Label + " is guided; it jams at {limit}.", Source: slide.JamGuide.Source})
	}
}
