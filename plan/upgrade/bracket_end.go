package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/bearing"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// What several kinds bore into the bracket's ends, and put on the screw beyond them.

// recessLeaf is the depth of the thrust set's recess in an end of the bracket,
// nothing as found.
func recessLeaf(l *axis.Layout, b *axis.Part, at string) string {
	key := "thrust.recess_" + at
	if !l.Scope.Has(key) {
		l.Scope.In("thrust").Measure(sheet.Q{Key: "recess_" + at, Label: "recess for the thrust set, " + b.Label + "'s " + bracketEnds[at], Symbol: "a", Unit: unit.MM, Quiet: true},
			sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	}
	return key
}

var bracketEnds = map[string]string{"outer": "outer end", "inner": "inner end"}

// outerEnd takes the bracket's outer end, which holds one bearing.
func (s *Site) outerEnd(b *axis.Part) { s.claim("bracket_outer", "the "+b.Label+"'s outer end") }

// outerHeld tells whether an upgrade made before holds the screw at the
// bracket's outer end already.
func outerHeld(l *axis.Layout) bool {
	return l.Scope.Has("bearing_pair.od") || l.Scope.Has("outer_support.od")
}

// seat is a bore in the bracket for what carries the screw there.
type seat struct {
	what   string // that sits in it: "support bearing"
	od     string // key of its diameter
	needed string // key of the figure that is above nothing where it is bored; "" where it is in any case
}

// seatWalls keeps metal around a seat, and between it and the bolt holes. What
// was not measured gives no check, and what is not bored fails none.
func seatWalls(s *Site, sc *sheet.Scope, b *axis.Part, x seat) {
	l := s.Layout
	names := sheet.With{"od": x.od, "body": b.Key + ".dia", "offset": b.Key + ".bolt_offset", "bolt": b.Key + ".bolt_dia"}
	guard := func(text string) string { return text }
	if x.needed != "" {
		names["needed"] = x.needed
		guard = func(text string) string { return "when(needed > 0, " + text + ", inf)" }
	}
	if l.Scope.Has(b.Key + ".dia") {
		sc.Formula(quiet("wall", "wall around the "+x.what, "t", unit.MM), guard(bearing.SeatWall.Text), bearing.SeatWall.Source, names)
		l.Assume(sc, quiet("share", "wall wanted, share of the outside diameter", "k", unit.One), bearing.WallShare(b.Material), bearing.SeatWallLeast.Source)
		l.Limit(sc, quiet("wall_least", "least wall around the "+x.what, "t_min", unit.MM), bearing.SeatWallLeast, names)
		sc.Check(sheet.Check{Key: "wall_check", Label: "Wall around the " + x.what, Figure: "wall", Limit: "wall_least", Level: sheet.Rule,
			Sentence: "{figure} of the " + b.Label + " is left around the " + x.what + ", and {limit} is wanted.", Source: bearing.SeatWallLeast.Source})
	}
	if l.Scope.Has(b.Key+".bolt_offset") && l.Scope.Has(b.Key+".bolt_dia") {
		sc.Formula(quiet("bolts_apart", x.what+" to the bolt holes", "c", unit.MM), guard("offset - bolt / 2 - od / 2"), "geometry", names)
		l.Assume(sc, quiet("bolts_least", "metal wanted beside a bolt hole", "c_min", unit.MM), besideHole, besideHoleSource)
		sc.Check(sheet.Check{Key: "bolts_check", Label: capital(x.what) + " clear of the bolt holes", Figure: "bolts_apart", Limit: "bolts_least", Level: sheet.Rule,
			Sentence: "{figure} is left between the " + x.what + " and the bolt holes, and {limit} is wanted.", Source: besideHoleSource})
	}
}

// besideHole is the metal wanted between a bolt's hole, or the tapped one below
// it, and what is cut beside it, in mm.
const (
	besideHole       = 3.0
	besideHoleSource = "common practice, no source: 3 mm"
)

// beyondBracket are what stands out of the bracket's outer end before the
// dial, and what an adjuster of the end float takes beyond that.
var beyondBracket = []sheet.Q{
	quiet("stands", "thrust bearing out of the bracket's end", "s_b", unit.MM),
	quiet("adjuster", "adjuster of the end float, with the clearance beyond it", "s_a", unit.MM),
}

// putBeyond puts something onto the screw between bracket and dial: what of it
// stands out there moves dial and handle outwards, whichever came first.
func putBeyond(s *Site, b *axis.Part, name, text, source string, with sheet.With) {
	l := s.Layout
	on := onBracket(l, b)
	if on == nil {
		return
	}
	s.Scope.Fix(quiet("stands", "stands out of the "+b.Label, "", unit.MM), text, source, with)
	for _, q := range beyondBracket {
		if !l.Scope.Has("shaft_end." + q.Key) {
			l.Scope.In("shaft_end").Measure(q, sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
		}
	}
	l.Scope.Change("shaft_end."+name, "stands", "as chosen", sheet.With{"stands": s.Scope.Key("stands")})
	l.Scope.Change(on.Key+".gap", "max(was, bearing + adjuster)", "geometry: they stand between the two", sheet.With{"bearing": "shaft_end.stands", "adjuster": "shaft_end.adjuster"})
}

// screwGoesIn moves the screw inwards by what there is no room for between its
// shoulder and the bracket.
func screwGoesIn(s *Site, b, shank *axis.Part, what, thick, sunk string) {
	s.Scope.Fix(quiet("back", "screw goes in for the "+what, "", unit.MM), "max(0, thickness - recess - max(0, bracket_from - shoulder))", "geometry: from the screw's shoulder to the "+b.Label,
		sheet.With{"thickness": thick, "recess": sunk, "bracket_from": b.Key + ".from", "shoulder": shank.Key + ".from"})
	for _, p := range carried(s.Layout, b)[1:] {
		move(s, p, "-", s.Scope.Key("back"))
	}
}

// screwEnd tells what an upgrade asks of the screw and of its end, and whether
// it asks for anything.
func (t *teller) screwEnd(s *Site, r *sheet.Result, what string) (any bool) {
	more := func(key string) (float64, bool) {
		f, ok := r.Figure(key, sheet.Planned)
		return f.Value, ok && f.Known() && f.Value > shownLength
	}
	if stands, ok := more(s.Scope.Key("stands")); ok {
		b, _ := s.Layout.WithRole("bracket")
		t.text(" " + what + " stands ").strong(show(s, stands)).text(" out of the " + b.Label + ".")
		any = true
	}
	if back, ok := more(s.Scope.Key("back")); ok {
		t.text(" The screw goes ").strong(show(s, back)).text(" further in.")
		any = true
	}
	if long, again := s.replaced(r); again {
		t.text(" The extension made before is replaced by one of ").strong(show(s, long)).text(" over all.")
		return true
	}
	return t.extension(s, r) || any
}

// extension tells how far the screw's end is to be made longer, and whether it is.
func (t *teller) extension(s *Site, r *sheet.Result) bool {
	key := s.Layout.Find("extension.visible")
	f, ok := r.Figure(key, sheet.Planned)
	if !ok || !f.Known() {
		return false
	}
	now, _ := r.Figure(key, sheet.Now)
	if f.Value-now.Value <= shownLength {
		return false
	}
	t.text(" The screw's end then needs an extension of ").strong(show(s, f.Value)).text(".")
	return true
}
