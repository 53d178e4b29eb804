package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// guided is a kind that tells how: what to measure, what to look out for, what
// to make and to buy, how to prove it. It computes where a formula suffices.
type guided struct {
	about  About
	suits  func(*axis.Layout) bool             // nil: any axis
	lay    func(*Site)                         // what it computes; nil: nothing
	answer func(*Site, *sheet.Result, *teller) // what came of that, after its purpose; nil: nothing
	make   func(*making)                       // parts, things to buy, steps of its own
	trial  map[string]string
}

func (k *guided) About() About {
	a := k.about
	a.Guided = true
	return a
}

func (k *guided) Suits(l *axis.Layout) bool { return l.Arr.Key != "" && (k.suits == nil || k.suits(l)) }

func (k *guided) Trials(*axis.Layout) []Trial { return []Trial{{Inputs: k.trial}} }

// Apply asks whether it is wanted, so that nothing is listed to make or to buy
// before that, and computes what it can.
func (k *guided) Apply(s *Site) {
	s.choose(Field{Name: "wanted", Label: "To be done", Options: []Option{{"no", "not decided"}, {"yes", "yes"}}}, "no")
	if k.lay != nil {
		k.lay(s)
	}
}

func (k *guided) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	say.text(k.about.Purpose)
	if k.answer != nil {
		say.text(" ")
		k.answer(s, r, &say)
	}
	return say.runs
}

func (k *guided) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if s.input("wanted", "no") != "yes" {
		return Make{}
	}
	if k.make != nil {
		k.make(m)
	}
	m.proofOf(k.about)
	return m.finish()
}

// proofOf are the readings before and after that a kind names as its proof.
func (m *making) proofOf(a About) {
	before := part.Operation{Key: "readings_before", Do: "Before anything is touched, take the readings that tell afterwards whether it is better: " + lower(a.Proof), Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "readings, before"}
	m.step(measured, "", before)
	m.step(proved, "", part.Operation{Key: "readings_after", Do: "Take the same readings at the same places with the same instruments.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "readings, after"})
}

// figured writes a figure of a result for a sentence, and whether it has one value.
func (s *Site) figured(r *sheet.Result, key string) (string, bool) {
	f, ok := r.Figure(key, sheet.Planned)
	if !ok || !f.Known() {
		return "", false
	}
	u := f.Unit
	if f.Decimals > 0 {
		u.Decimals = f.Decimals
	}
	if u.Symbol == unit.MM.Symbol && u.Scale == 1 && s.Units.Symbol != u.Symbol {
		u = s.Units
	}
	return u.With(f.Value), true
}
