package axis

import (
	"fmt"
	"math"
	"strings"

	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// GibScrew is one screw of the row along a slide's gib.
type GibScrew struct {
	Key   string // of its place
	Label string
	Space string // key of the space to the one before it; "" of the first
}

// mostGibScrews is more than any slide has.
const mostGibScrews = 20

// defineGibScrews reads the positions of the gib screws: lengths apart by
// semicolons or spaces, as "-60; -28; 3". Those of a table are asked with the
// table, and sit in what it runs on.
func (l *Layout) defineGibScrews(sl, ways *Part) {
	asked := sl
	if ways.Slides() {
		asked = ways
	}
	e := asked.Entries["gib_screws"]
	typed := strings.FieldsFunc(e.Typed, func(r rune) bool { return r == ';' || r == ' ' })
	if len(typed) > mostGibScrews {
		l.problem(asked.Key+".gib_screws", fmt.Sprintf("give at most %d positions", mostGibScrews))
		typed = nil
	}
	leaves := make([]sheet.Leaf, len(typed))
	for i, t := range typed {
		e.Typed = t
		if e.With == "" {
			e.With = "rule"
		}
		leaves[i] = l.read(asked.Key+".gib_screws", e, l.units)
	}
	l.gibRow(sl, leaves)
}

// DefineGibRow gives a slide of which no gib screw was measured two of them, at
// places that are not known.
func (l *Layout) DefineGibRow(sl *Part) {
	if len(l.GibRow) == 0 {
		nowhere := sheet.Leaf{Origin: sheet.Unknown, Min: math.Inf(-1), Max: math.Inf(1)}
		l.gibRow(sl, []sheet.Leaf{nowhere, nowhere})
	}
}

func (l *Layout) gibRow(sl *Part, leaves []sheet.Leaf) {
	sc := l.Scope.In(sl.Key)
	for i, leaf := range leaves {
		g := GibScrew{Key: sc.Key(fmt.Sprintf("gib_screw_%d", i+1)), Label: fmt.Sprintf("%s gib screw %d", sl.Label, i+1)}
		sc.Measure(quiet(fmt.Sprintf("gib_screw_%d", i+1), g.Label, g.Label, unit.MM), leaf)
		if i > 0 {
			g.Space = l.GibSpace(sc, fmt.Sprintf("gib_space_%d", i+1), l.GibRow[i-1], g)
			sc.Family("gib_spaces", sl.Label+" gib screws apart", unit.MM, g.Space)
		}
		l.GibRow = append(l.GibRow, g)
	}
	if len(leaves) > 1 {
		sc.Formula(shown("gib_widest", sl.Label+" gib screws apart, widest", "s", unit.MM), "max(gib_spaces)", "geometry")
	}
}

// GibSpace defines how far two screws are apart, and gives its key.
func (l *Layout) GibSpace(sc *sheet.Scope, key string, a, b GibScrew) string {
	sc.Formula(quiet(key, a.Label+" and "+b.Label+" apart", "", unit.MM), "abs(b - a)", "geometry", sheet.With{"a": a.Key, "b": b.Key})
	return sc.Key(key)
}

// GibBears defines whether a screw bears on the ways at an end, the nth of those
// in the scope, as "gib_screw_3_plus".
func (l *Layout) GibBears(sc *sheet.Scope, sl, ways *Part, at End, g GibScrew, n int) {
	e := l.end(at)
	s := l.Find(e.asked)
	if sl.Side != Moving {
		s = l.Find(sl.Key + "_on_" + ways.Key + ".seen_" + string(at))
	}
	sc.Method(quiet(fmt.Sprintf("gib_screw_%d_%s", n, at), fmt.Sprintf("gib screw %d bears, %s", n, e.name), "", unit.Count), slide.GibScrewBears,
		sheet.With{"at": g.Key, "s": s, "from": l.Find(sl.Key + ".from"), "to": l.Find(sl.Key + ".to"), "ways_from": l.Find(ways.Key + ".from"), "ways_to": l.Find(ways.Key + ".to")})
}
