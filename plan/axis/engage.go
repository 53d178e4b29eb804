package axis

import (
	"maps"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// defineEngagements lays out every pair that must overlap.
func (l *Layout) defineEngagements() {
	for _, g := range l.Arr.Engages {
		inner, okI := l.WithRole(g.Inner)
		outer, okO := l.WithRole(g.Outer)
		if !okI || !okO || (inner.Side == Moving) == (outer.Side == Moving) {
			continue
		}
		switch g.Kind {
		case OnThread:
			l.threadWindow(inner, outer)
		case OnWays:
			l.cover(inner, outer)
		case Held:
			l.least(g, inner, outer)
		case Within:
			l.within(g, inner, outer)
		}
	}
}

// pair is an inner part and the one that it lies in, with the words of their faces.
type pair struct {
	inner, outer *Part
	faces        sheet.With
}

func pairOf(inner, outer *Part) pair {
	return pair{inner, outer, sheet.With{
		"inner_from": inner.Key + ".from", "inner_to": inner.Key + ".to",
		"outer_from": outer.Key + ".from", "outer_to": outer.Key + ".to"}}
}

// at is the words of the faces, with s for the position at an end.
func (p pair) at(e end) sheet.With {
	with := maps.Clone(p.faces)
	with["s"] = e.asked
	return with
}

// leaves tells whether the inner part comes to the outer one's end at its "to"
// face. The moving part leaves at the end to which it moves, the fixed one is left there.
func (p pair) leaves(e end) (to bool) { return (e.End == Plus) == (p.inner.Side == Moving) }

// beyond is the formula of how far the inner part is from the outer one's end
// at s = 0: how far the slide can still go until it comes there.
func (p pair) beyond(e end) string {
	if p.leaves(e) {
		return "outer_to - inner_to"
	}
	return "inner_from - outer_from"
}

// spare is what of that is left at the position where the travel is asked to end.
func (p pair) spare(e end) string {
	if e.End == Plus {
		return p.beyond(e) + " - asked_plus"
	}
	return p.beyond(e) + " + asked_minus"
}

// overlap is the formula of how much of the two lies side by side there.
func (p pair) overlap() string {
	text := "max(0, min(inner_to + s, outer_to) - max(inner_from + s, outer_from))"
	if p.inner.Side != Moving {
		text = "max(0, min(inner_to, outer_to + s) - max(inner_from, outer_from + s))"
	}
	return text
}

// lasts is the formula of the position at which the inner part is still held
// over a length.
func (p pair) lasts(e end, held string) string {
	text := "inner_to - outer_from - " + held
	if p.leaves(e) {
		text = "outer_to - inner_from - " + held
	}
	if e.End == Plus {
		return text
	}
	return "0 - (" + text + ")"
}

// holds keeps the position up to which something is held, at an end: of use
// only as far as that, where a capacity says so.
func (l *Layout) holds(sc *sheet.Scope, p pair, e end, label string) {
	key := "lasts_" + string(e.End)
	sc.Formula(quiet(key, label+" at its least", "", unit.MM), p.lasts(e, "least"), "geometry: where no more than the least is held", p.faces)
	l.held[e.at] = append(l.held[e.at], sc.Key(key))
}

// least: a pair that must overlap by so much.
func (l *Layout) least(g Engagement, inner, outer *Part) {
	sc := l.Scope.In(inner.Key + "_on_" + outer.Key)
	p := pairOf(inner, outer)
	names := sheet.With{"length": inner.Key + ".length"}
	if strings.Contains(g.Least.Text, "dia") {
		names["dia"] = inner.Key + ".dia"
	}
	l.Limit(sc, quiet("least", g.Label+": least", "least", unit.MM), g.Least, names)
	for _, e := range l.ends() {
		k := string(e.End)
		sc.Formula(quiet("engaged_"+k, g.Label+", "+e.name, "engaged", unit.MM), p.overlap(), "geometry", p.at(e))
		sc.Check(sheet.Check{Key: "least_" + k, Label: capital(g.Label) + ", " + e.name, Figure: "engaged_" + k, Limit: "least", Level: sheet.Rule,
			Sentence: "{figure} of the " + inner.Label + " is held, and {limit} is the least.", Source: g.Least.Source})
		l.holds(sc, p, e, g.Label)
	}
}

// within: a pair of which the inner one never leaves the outer one. The outer
// one's ends are stops.
func (l *Layout) within(g Engagement, inner, outer *Part) {
	p := pairOf(inner, outer)
	at, in := l.place[outer.Key], l.place[inner.Key]
	for _, e := range l.ends() {
		s := Stop{Key: l.stopKey(inner.Key + "_" + outer.Key + "_" + string(e.End)), Label: inner.Label + " at the end of the " + outer.Label,
			Says: "the " + inner.Label + " comes to the end of the " + outer.Label, End: e.End, Fixed: inner.Key, Moving: outer.Key, Kind: RunsOut}
		s.Found = in[0] - at[0]
		if p.leaves(e) {
			s.Found = at[1] - in[1]
		}
		if e.End == Minus {
			s.Found = -s.Found
		}
		if inner.Side == Moving {
			s.Fixed, s.Moving = outer.Key, inner.Key
		}
		text := p.beyond(e)
		if e.End == Minus {
			text = "0 - (" + text + ")"
		}
		if s.Unmeasured = math.IsNaN(s.Found); s.Unmeasured {
			text = e.most + "(" + e.found + ", " + text + ")"
		}
		l.Scope.In(s.Key).Formula(quiet("bound", s.Label+", "+l.Moves()+" at", s.Label, unit.MM), text, "geometry: "+g.Label+", and no further", p.faces)
		l.stop(s, e, "for the "+inner.Label+" to the end of the "+outer.Label)
	}
}

// capital writes s with a capital first letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
