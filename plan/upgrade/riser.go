package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// riser: a block under a column or headstock.
type riser struct{}

func (riser) About() About {
	return About{
		Key: "riser", Label: "Riser under the column",
		Purpose: "The spindle goes higher above the table. A riser lifts the lowest position as much as the highest.",
		Cautions: []string{
			"Isolate the machine. A head and column weigh 40 to 120 kg: a hoist or a second pair of hands, never a lift alone.",
			"A gas strut holds stored energy: lock the head before it is taken off.",
			"The machine becomes top-heavy: bolt it down anew.",
		},
		Proof: "Tram in two axes; the nose's range; a push of 200 N at the spindle, before and after, at the same nose height.",
	}
}

func (riser) Suits(l *axis.Layout) bool { return l.Arr.Key == "spaced" && l.Capacity.Key == "daylight" }

func (riser) Apply(s *Site) {
	l := s.Layout
	s.length(s.Scope, quiet("amount", "height of the riser", "R", unit.MM),
		Field{Name: "amount", Label: "Height of the riser", Hint: `50, 2 in, 1-1/2"`}, "", 0, mostTravel, 0)
	s.Amount = s.Scope.Key("amount")
	for _, g := range l.Capacity.Goals {
		s.Goals = append(s.Goals, l.Find(g))
	}
	s.Most = 300
	l.Scope.Change("riser", "was + amount", "as asked", sheet.With{"amount": s.Amount})
}

func (riser) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	amount, _ := r.Figure(s.Amount, sheet.Planned)
	if !(amount.Value > 0) {
		say.text("Say how high the riser should be, and everything that follows from it is shown here.")
		return say.runs
	}
	say.text("A riser of ").strong(show(s, amount.Value)).text(" lifts the spindle's lowest position as much as its highest.")
	for _, g := range s.Goals {
		say.goal(s, r, g)
	}
	if f, ok := r.Figure(s.Layout.Find("softer"), sheet.Planned); ok && f.Known() {
		say.text(" The column bends ").strong(unit.One.Text(f.Value, 2)).text(" times as much.")
	}
	reach := r.HowFar(s.Amount, s.Goals[0], s.Most)
	switch {
	case reach.To < reach.From || math.IsInf(reach.To, -1):
		say.text(" No height of riser does all that you asked for: a sub-table or a second set-up is the way out.")
	case amount.Value < reach.From-1e-6:
		say.text(" It takes ").strong(show(s, reach.From)).text(" at the least for your tallest work.")
	}
	return say.runs
}
