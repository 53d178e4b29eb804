package upgrade

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// teller puts sentences together from words and figures.
type teller struct{ runs []Run }

func (t *teller) text(s string) *teller {
	t.runs = append(t.runs, Run{Text: s})
	return t
}

func (t *teller) strong(s string) *teller {
	t.runs = append(t.runs, Run{Text: s, Strong: true})
	return t
}

// list joins clauses to "A, b, and c", the first with a capital.
func (t *teller) list(clauses [][]Run) *teller {
	for i, c := range clauses {
		switch {
		case i > 0 && i == len(clauses)-1 && len(clauses) > 2:
			t.text(", and ")
		case i > 0 && i == len(clauses)-1:
			t.text(" and ")
		case i > 0:
			t.text(", ")
		}
		if i == 0 && len(c) > 0 {
			c[0].Text = capital(c[0].Text)
		}
		t.runs = append(t.runs, c...)
	}
	return t
}

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

// failures tells first what does not hold, nearest limit first, and what would:
// no figure after it can be had as long as that is so.
func (t *teller) failures(s *Site, r *sheet.Result) (any bool) {
	l := s.Layout
	var failing []sheet.CheckResult
	for _, c := range r.Checks() {
		if !c.Charged() || !strings.HasPrefix(c.Key, l.Key+".") {
			continue
		}
		// Where it stops is told by itself.
		if !slices.ContainsFunc(l.Stops, func(st axis.Stop) bool { return c.Key == l.Find(st.Key+".check") }) {
			failing = append(failing, c)
		}
	}
	if len(failing) == 0 {
		return false
	}
	reach := r.HowFar(s.Amount, s.Goals[0], s.Most)
	place := func(c sheet.CheckResult) int {
		i := slices.IndexFunc(reach.Limits, func(l sheet.Limit) bool { return l.Key == c.Key })
		if i < 0 {
			return len(reach.Limits) // it fails at any amount
		}
		return i
	}
	slices.SortStableFunc(failing, func(a, b sheet.CheckResult) int { return place(a) - place(b) })
	var fail []string
	for _, c := range failing {
		by, over := -c.Margin.Best(math.NaN()), "short by "
		if c.AtMost {
			over = "over by "
		}
		amount := c.Margin.Unit.With(by)
		if c.Margin.Unit.Symbol == unit.MM.Symbol {
			amount = show(s, by)
		}
		fail = append(fail, lower(c.Label)+", "+over+amount)
	}
	t.strong("This does not hold").text(": " + strings.Join(fail[:min(len(fail), 3)], "; "))
	if more := len(fail) - 3; more > 0 {
		t.text(fmt.Sprintf("; and %d more", more))
	}
	if reach.To > reach.From && reach.To > shownLength {
		t.text(". ")
		if reach.From > shownLength {
			t.strong(wished(s, reach.From)).text(" to ")
		}
		t.strong(wished(s, reach.To)).text(" would hold")
	}
	t.text(". ")
	return true
}

// wished writes a value of the wish, in its own unit.
func wished(s *Site, v float64) string {
	for _, f := range s.Fields {
		if f.Leaf == s.Amount && f.Unit.Dim != unit.LengthD {
			return f.Unit.With(v)
		}
	}
	return show(s, v)
}

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

// consequences are the clauses of what an upgrade asks for.
func consequences(s *Site, r *sheet.Result) [][]Run {
	l := s.Layout
	var all [][]Run
	// moved is a figure as planned and how much more it is than now.
	moved := func(name string) (plan, more float64) {
		p, ok := r.Figure(l.Find(name), sheet.Planned)
		if !ok || !p.Known() {
			return 0, 0
		}
		n, ok := r.Figure(l.Find(name), sheet.Now)
		if !ok {
			return p.Value, p.Value
		}
		return p.Value, p.Value - n.Value
	}
	if b, ok := l.WithRole("bracket"); ok {
		if _, more := moved(b.Key + ".length"); more > shownLength {
			all = append(all, []Run{{Text: "the " + b.Label + " grows by "}, {show(s, more), true}})
		}
		if _, more := moved(b.Key + ".spacer"); more > shownLength {
			all = append(all, []Run{{Text: "a spacer of "}, {show(s, more), true}, {Text: " goes under the " + b.Label}})
		}
	}
	if long, again := s.replaced(r); again {
		all = append(all, []Run{{Text: "the extension made before is replaced by one of "}, {show(s, long), true}, {Text: " over all"}})
	} else if visible, more := moved("extension.visible"); more > shownLength {
		c := []Run{{Text: "the screw needs an extension of "}, {show(s, visible), true}}
		if sleeve, _ := moved("extension.sleeve"); sleeve <= shownLength {
			c = []Run{{Text: "the new screw is "}, {show(s, visible), true}, {Text: " longer"}}
		}
		if seat, _ := moved("support.seat"); seat > 0 {
			c = append(c, Run{Text: " and a support bearing"})
		}
		all = append(all, c)
	}
	for i := range l.Parts {
		p := &l.Parts[i]
		left, more := moved(p.Key + ".length")
		role, _ := axis.RoleNamed(p.Role)
		switch {
		case role.Cut && more < -shownLength && left <= shownLength:
			all = append(all, []Run{{Text: "the " + p.Label + " is "}, {"cut right through", true}})
		case role.Cut && more < -shownLength:
			all = append(all, []Run{{show(s, left), true}, {Text: " of the " + p.Label + " is left"}})
		case p.Slides() && more < -shownLength:
			all = append(all, []Run{{show(s, -more), true}, {Text: " is cut off the " + p.Label}})
		case (role.Longer != "" || p.Role == "quill" || p.Role == "thread") && more > shownLength:
			all = append(all, []Run{{Text: "the " + p.Label + " is "}, {show(s, more), true}, {Text: " longer"}})
		}
	}
	return all
}

// show writes a length in the machine's units.
func show(s *Site, mm float64) string { return s.Units.With(mm) }

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// lower writes a label as it stands within a sentence: "Y axis" stays as it is.
func lower(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || strings.HasPrefix(s[n:], " ") {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// became tells what a figure comes to, where it is something now.
func (t *teller) became(before, after string, s *Site, r *sheet.Result, key string) {
	text, ok := s.figured(r, key)
	if !ok {
		var names []string
		for _, f := range r.Missing(key, sheet.Planned) {
			names = append(names, "the "+lower(f.Label))
		}
		if len(names) > 0 {
			t.text("What it comes to is told when " + strings.Join(names, " and ") + map[bool]string{true: " is", false: " are"}[len(names) == 1] + " measured.")
		}
		return
	}
	t.text(before).strong(text).text(after)
	now, ok := r.Figure(key, sheet.Now)
	if !ok && len(s.Goals) > 0 && key == s.Goals[0].Key { // a figure that the kind brings along
		now, ok = r.Figure(s.Scope.Key("stood"), sheet.Planned)
	}
	if ok && now.Known() {
		u := now.Unit
		if now.Decimals > 0 {
			u.Decimals = now.Decimals
		}
		if u.Symbol == unit.MM.Symbol && s.Units.Symbol != u.Symbol {
			u = s.Units
		}
		t.text(", where it is " + u.With(now.Value) + " now")
	}
	t.text(".")
}
