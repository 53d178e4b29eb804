package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// taking is what takes room at the ends of the travel: pads on a slide, switches.
type taking struct {
	s    *Site
	ends []axis.End
	held map[axis.End][]string // keys of the room that there was, by the stop
}

// takes notes what room there is at some ends, before anything is put there.
func (s *Site) takes(ends ...axis.End) *taking {
	t := &taking{s: s, ends: ends, held: map[axis.End][]string{}}
	for _, e := range ends {
		for _, st := range s.Layout.Stops {
			if st.End != e || st.Key == "unnamed_"+string(e) {
				continue
			}
			sc := s.Scope.In(st.Key)
			sc.Fix(quiet("before", "room where "+st.Says+", before", "", unit.MM), "min(0, gap)", "decided: as it stood", sheet.With{"gap": st.Key + ".gap"})
			t.held[e] = append(t.held[e], st.Key)
		}
	}
	return t
}

// by puts a thickness in between where a part meets something at an end.
func (t *taking) by(key string, e axis.End, p *axis.Part) {
	l := t.s.Layout
	for _, st := range l.Stops {
		if st.End == e && (st.Moving == p.Key || st.Fixed == p.Key) && l.Scope.Has(st.Key+".clearance") {
			l.Scope.Change(st.Key+".clearance", "was + thick", "geometry: it stands in between", sheet.With{"thick": key})
		}
	}
}

// nearer brings what was measured by its gap at an end nearer, where the form says
// that it is met there.
func (t *taking) nearer(key string, e axis.End, what string) {
	l := t.s.Layout
	for _, o := range l.Obstacles {
		if o.End != e || o.Clear {
			continue
		}
		f := Field{Name: "at." + o.Key, Label: "The " + o.Label, Group: "What else is there", Options: []Option{{"met", "is met by " + what}, {"clear", "is clear of " + what}}}
		if t.s.choose(f, "met") == "met" {
			l.Scope.Change(o.Key+".gap_left", "was - thick", "geometry: it stands in between", sheet.With{"thick": key})
		}
	}
}

// giveUp gives that much travel up at each end, and defines what it comes to as
// "lost_plus", "lost_minus" and "lost".
func (t *taking) giveUp() {
	l, sc := t.s.Layout, t.s.Scope
	sum := "0"
	for _, e := range t.ends {
		name, family := "lost_"+string(e), "takes_"+string(e)
		sc.Measure(quiet("none_"+string(e), "nothing in the way", "", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "no stop is met there"})
		sc.Family(family, "travel taken, "+l.EndName(e), unit.MM, "none_"+string(e))
		for _, key := range t.held[e] {
			sc.In(key).Fix(quiet("taken", "travel taken there", "", unit.MM), "max(0, before - gap)", "geometry", sheet.With{"gap": key + ".gap"})
			sc.Family(family, "", unit.MM, sc.In(key).Key("taken"))
		}
		sc.Fix(shown(name, "travel given up, "+l.EndName(e), "", unit.MM), "max("+family+")", "geometry: as much as the nearest stop takes")
		l.Scope.Change("extra_"+string(e), "was - by", "decided: given up", sheet.With{"by": sc.Key(name)})
		sum += " + " + name
	}
	sc.Formula(shown("lost", "travel that it costs", "", unit.MM), sum, "geometry: both ends together")
}

// costs tells what of the travel was given up.
func (t *teller) costs(s *Site, r *sheet.Result) {
	var any bool
	for _, e := range []axis.End{axis.Plus, axis.Minus} {
		f, ok := r.Figure(s.Scope.Key("lost_"+string(e)), sheet.Planned)
		switch {
		case !ok:
		case !f.Known():
			any = true
			t.text(" " + capital(s.Layout.EndName(e)) + ", what it costs is told when " + missing(r, s.Layout, []axis.End{e}) + ".")
		case f.Value > shownLength:
			any = true
			t.text(" " + capital(s.Layout.EndName(e)) + ", it costs ").strong(show(s, f.Value)).text(" of the travel.")
		}
	}
	if !any {
		t.text(" No travel is lost. Nothing else follows.")
	}
}
