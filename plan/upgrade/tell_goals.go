package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/sheet"
)

// goals tells in one sentence what became of the figures that the upgrade is for.
func (t *teller) goals(s *Site, r *sheet.Result) {
	var clauses [][]Run
	for _, g := range s.Layout.Capacity.Goals {
		if c := goal(s, r, g); c != nil {
			clauses = append(clauses, c)
		}
	}
	for i, c := range clauses {
		if i == 0 {
			t.text(" ")
			c[0].Text = capital(c[0].Text)
		} else {
			t.text("; ")
		}
		t.runs = append(t.runs, c...)
		if i == len(clauses)-1 {
			t.text(".")
		}
	}
}

// goal tells what became of one of them, and what swallowed a gain.
func goal(s *Site, r *sheet.Result, g axis.Goal) []Run {
	key := s.Layout.Find(g.Key)
	plan, ok := r.Figure(key, sheet.Planned)
	now, okNow := r.Figure(key, sheet.Now)
	was, best := sheet.Compare(now, plan)
	if !ok || !okNow || math.IsNaN(best) {
		return nil
	}
	var say teller
	by := swallowed(s, r, g)
	d := best - was
	if math.Abs(d) < plan.Unit.Step()/2 {
		say.text(g.For + " nothing is gained")
		if by != "" {
			say.text(": the limit is the " + by)
		}
		return say.runs
	}
	before, after, _ := strings.Cut(g.Says, "{}")
	if before != "" {
		say.text(before)
	}
	say.strong(show(s, best)).text(after)
	if d > 0 {
		say.text(", " + show(s, d) + " " + g.More)
	} else {
		say.text(", " + show(s, -d) + " " + g.Less)
	}
	if by != "" {
		say.text(", where the limit is the " + by)
	}
	return say.runs
}

// swallowed names what keeps a goal from growing with the travel: a member of
// the min or max that gives it, other than how far the slide reaches.
func swallowed(s *Site, r *sheet.Result, g axis.Goal) string {
	for _, name := range g.Limits {
		e, ok := r.Explain(s.Layout.Find(name), sheet.Planned)
		if !ok {
			continue
		}
		reaches, by := false, ""
		for _, in := range e.Inputs {
			switch {
			case !near(in.Best(e.Value), e.Best(in.Value)):
			case strings.HasPrefix(sheet.Local(in.Key, s.Layout.Key), "reach_"), in.Key == s.Layout.Find("start_reach"):
				reaches = true
			case by == "":
				by = in.Label
			}
		}
		if by != "" && !reaches {
			return by
		}
	}
	return ""
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-6 }

// lost tells what the change takes from the end that was not asked for.
func (t *teller) lost(s *Site, r *sheet.Result, e axis.End) {
	l := s.Layout
	ends := []axis.End{e}
	if more, _ := gained(r, l, ends); more < -shownLength {
		t.text(" " + capital(l.EndName(e)) + ", ").strong(show(s, -more)).text(" is lost" + limitedBy(r, l, ends) + ".")
	}
}

// limitedBy names all that the travel ends at as planned.
func limitedBy(r *sheet.Result, l *axis.Layout, ends []axis.End) string {
	var says []string
	for _, e := range ends {
		reach, _ := r.Figure(l.Find("reach_"+string(e)), sheet.Planned)
		for _, st := range l.Stops {
			bound, ok := r.Figure(l.Find(st.Key+".bound"), sheet.Planned)
			if st.End == e && ok && bound.Known() && near(bound.Value, reach.Best(0)) {
				says = append(says, st.Says)
			}
		}
	}
	if len(says) == 0 {
		return ""
	}
	return ": there " + strings.Join(says, ", and ")
}

// missing says what is to be measured before the travel is known.
func missing(r *sheet.Result, l *axis.Layout, ends []axis.End) string {
	var names []string
	for _, e := range ends {
		for _, f := range r.Missing(l.Find("reach_"+string(e)), sheet.Planned) {
			name := "the " + f.Label
			if strings.HasPrefix(f.Label, "what") {
				name = f.Label
			}
			names = append(names, name)
		}
	}
	switch len(names) {
	case 0:
		return "what is in the way is measured"
	case 1:
		return names[0] + " is measured"
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1] + " are measured"
}
