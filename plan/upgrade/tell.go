package upgrade

import (
	"strings"
	"unicode"
	"unicode/utf8"

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

// wished writes a value of the wish, in its own unit.
func wished(s *Site, v float64) string {
	for _, f := range s.Fields {
		if f.Leaf == s.Amount && f.Unit.Dim != unit.LengthD {
			return f.Unit.With(v)
		}
	}
	return show(s, v)
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
		t.text(", where it is " + s.written(now) + " now")
	}
	t.text(".")
}

// figured writes a figure of a result for a sentence, and whether it has one value.
func (s *Site) figured(r *sheet.Result, key string) (string, bool) {
	f, ok := r.Figure(key, sheet.Planned)
	if !ok || !f.Known() {
		return "", false
	}
	return s.written(f), true
}

// written is a figure in its own unit, and a length in that of the machine.
func (s *Site) written(f sheet.Figure) string {
	u := f.Unit
	if f.Decimals > 0 {
		u.Decimals = f.Decimals
	}
	if u.Symbol == unit.MM.Symbol && s.Units.Symbol != u.Symbol {
		u = s.Units
	}
	return u.With(f.Value)
}
