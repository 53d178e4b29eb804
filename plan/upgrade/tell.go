package upgrade

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"fettle/plan/sheet"
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
func (t *teller) list(clauses [][]Run) {
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
}

// goal tells what became of a figure that the upgrade is for.
func (t *teller) goal(s *Site, r *sheet.Result, key string) {
	plan, ok := r.Figure(key, sheet.Planned)
	now, okNow := r.Figure(key, sheet.Now)
	if !ok || !okNow {
		return
	}
	best := plan.Best(now.Value)
	if math.IsNaN(best) {
		return
	}
	d := best - now.Value
	t.text(" " + capital(plan.Label) + ": ").strong(show(s, best))
	switch {
	case math.Abs(d) < plan.Unit.Step()/2:
		t.text(", nothing gained")
	case d > 0:
		t.text(", " + show(s, d) + " more")
	default:
		t.text(", " + show(s, -d) + " less")
	}
	t.text(".")
}

// consequences are the clauses of what an upgrade asks for.
func consequences(s *Site, r *sheet.Result) [][]Run {
	l := s.Layout
	var all [][]Run
	figure := func(key string) (plan, now float64, ok bool) {
		p, okP := r.Figure(key, sheet.Planned)
		n, okN := r.Figure(key, sheet.Now)
		if !okN {
			n.Value = 0
		}
		return p.Value, n.Value, okP && p.Known()
	}
	if b, ok := l.WithRole("bracket"); ok {
		if p, n, ok := figure(l.Find(b.Key + ".length")); ok && p-n > 0.005 {
			all = append(all, []Run{{Text: "the " + b.Label + " grows by "}, {show(s, p-n), true}})
		}
		if p, n, ok := figure(l.Find(b.Key + ".spacer")); ok && p-n > 0.005 {
			all = append(all, []Run{{Text: "a spacer of "}, {show(s, p-n), true}, {Text: " goes under the " + b.Label}})
		}
	}
	if p, _, ok := figure(l.Find("extension.visible")); ok && p > 0.005 {
		c := []Run{{Text: "the screw needs an extension of "}, {show(s, p), true}}
		if seat, _, ok := figure(l.Find("support.seat")); ok && seat > 0 {
			c = append(c, Run{Text: " and a support bearing"})
		}
		all = append(all, c)
	}
	for i := range l.Parts {
		p := &l.Parts[i]
		if !l.Scope.Has(p.Key + ".left_least") {
			continue
		}
		if left, now, ok := figure(l.Find(p.Key + ".length")); ok && now-left > 0.005 {
			all = append(all, []Run{{show(s, left), true}, {Text: " of the " + p.Label + " is left"}})
		}
	}
	return all
}

// show writes a length in the machine's units.
func show(s *Site, mm float64) string { return s.Units.With(mm) }

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

func lower(s string) string {
	// "Y axis" stays as it is.
	if len(s) > 1 && s[1] == ' ' {
		return s
	}
	return strings.ToLower(s[:min(1, len(s))]) + s[min(1, len(s)):]
}
