package upgrade

import (
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/thread"
	"fettle/plan/unit"
)

// guided is a kind that tells how: what to measure, what to look out for, what
// to make and to buy, how to prove it. It computes where a formula suffices.
type guided struct {
	about About
	suits func(*axis.Layout) bool // nil: any axis
	lay   func(*Site)             // what it computes; nil: nothing
	says  []says                  // what came of that, after its purpose
	make  func(*making)           // parts, things to buy, steps of its own
}

// Decided is the input of a kind that tells how which says, with "yes", that it is to be done.
const Decided = "wanted"

// says is a sentence about a figure of the upgrade's own, by its key there: what
// stands before it, and after it.
type says struct{ before, key, after string }

func (k *guided) About() About {
	a := k.about
	a.Guided = true
	return a
}

func (k *guided) Suits(l *axis.Layout) bool { return l.Arr.Key != "" && (k.suits == nil || k.suits(l)) }

func (k *guided) Trials(*axis.Layout) []Trial { return asUsual }

// Apply asks whether it is wanted, so that nothing is listed to make or to buy
// before that, and computes what it can.
func (k *guided) Apply(s *Site) {
	s.choose(Field{Name: Decided, Label: "To be done", Options: []Option{{"no", "not decided"}, {"yes", "yes"}}}, "no")
	if k.lay != nil {
		k.lay(s)
	}
}

func (k *guided) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	say.text(k.about.Purpose)
	say.broken(s, r)
	say.figures(s, r, k.says)
	return say.runs
}

// broken names the checks of the upgrade's own that fail.
func (t *teller) broken(s *Site, r *sheet.Result) {
	var fail []string
	for _, c := range r.Checks() {
		if c.Charged() && strings.HasPrefix(c.Key, s.Scope.Key("")) {
			fail = append(fail, lower(c.Label))
		}
	}
	if len(fail) > 0 {
		t.text(" ").strong("This does not hold").text(": " + strings.Join(fail, "; ") + ".")
	}
}

// figures tells the figures that are known, and what is to be given for the others.
// Nothing of nothing is not told as long as nothing was typed.
func (t *teller) figures(s *Site, r *sheet.Result, all []says) {
	wants := map[string]bool{}
	typed := slices.ContainsFunc(s.Fields, func(f Field) bool { return f.Leaf != "" && f.Value != "" })
	told := false
	for _, say := range all {
		key := s.Scope.Key(say.key)
		text, ok := s.figured(r, key)
		switch f, _ := r.Figure(key, sheet.Planned); {
		case ok && (typed || f.Value != 0):
			t.text(" " + say.before).strong(text).text(say.after)
			told = true
		case ok:
			for _, f := range s.Fields {
				wants[f.Leaf] = f.Leaf != ""
			}
		default:
			for _, f := range r.Missing(key, sheet.Planned) {
				wants[f.Key] = true
			}
		}
	}
	t.ask(s.wanted(r, all, wants), told)
}

// wanted names the figures, those of the form first and in its order, then those of
// the measuring sheet.
func (s *Site) wanted(r *sheet.Result, all []says, wants map[string]bool) []string {
	var names []string
	name := func(key, label string) {
		if wants[key] && key != "" {
			names = append(names, "the "+lower(label))
			delete(wants, key)
		}
	}
	for _, f := range s.Fields {
		name(f.Leaf, f.Label)
	}
	for _, say := range all {
		for _, f := range r.Missing(s.Scope.Key(say.key), sheet.Planned) {
			name(f.Key, f.Label)
		}
	}
	return names
}

// ask says what is to be given, where anything is.
func (t *teller) ask(names []string, told bool) {
	n := len(names)
	if n == 0 {
		return
	}
	list := names[0]
	if n > 1 {
		list = strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	t.text(" Give " + list + ", and " + map[bool]string{true: "the rest", false: "what follows from it"}[told] + " is shown here.")
}

func (k *guided) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if s.input(Decided, "no") != "yes" {
		return Make{}
	}
	m.readingsBefore(k.about)
	if k.make != nil {
		k.make(m)
	}
	m.readingsAfter()
	return m.finish()
}

// proofOf are the readings before and after that a kind names as its proof.
func (m *making) proofOf(a About) {
	m.readingsBefore(a)
	m.readingsAfter()
}

func (m *making) readingsBefore(a About) {
	m.step(measured, "", part.Operation{Key: "readings_before", Do: "Before anything is touched, take the readings that tell afterwards whether it is better: " + lower(a.Proof), Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "readings, before"})
}

func (m *making) readingsAfter() {
	m.step(proved, "", part.Operation{Key: "readings_after", Do: "Take the same readings at the same places with the same instruments.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "readings, after"})
}

// given is a figure that the form asks for: what it is called in formulas and on
// the form, and within what it can be, in its unit.
type given struct {
	key, label, symbol string
	unit               unit.Unit
	hint, proposal     string
	least, most        float64
}

// given asks for figures of which nothing is known before.
func (s *Site) given(all ...given) {
	for _, g := range all {
		s.typed(s.Scope, quiet(g.key, lower(g.label), g.symbol, g.unit), Field{Name: g.key, Label: g.label, Hint: g.hint}, g.proposal, g.least, g.most, nan)
	}
}

// parses tells whether a thread's designation can be read.
func parses(designation string) bool {
	_, err := thread.Parse(designation)
	return err == nil
}
