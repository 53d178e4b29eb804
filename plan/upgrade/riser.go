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
		s.Goals = append(s.Goals, l.Find(g.Key))
	}
	s.Most = 300
	l.Scope.Change("riser", "was + amount", "as asked", sheet.With{"amount": s.Amount})
	jobs(l)
}

// jobs are what the spindle is wanted to reach. They are asked of a riser, not
// of the machine as found: so each bounds the height that the riser can have.
func jobs(l *axis.Layout) {
	sc := l.Scope
	if sc.Has("tallest_job") && !sc.Has("tallest_check.margin") {
		sc.Check(sheet.Check{Key: "tallest_check", Label: "Tallest work goes under the spindle", Figure: "highest", Limit: "tallest_job", Level: sheet.Rule,
			Sentence: "The spindle's nose goes up to {figure} above the table, and your tallest work needs {limit}.", Source: "the work that you named"})
	}
	if sc.Has("lowest_job") && !sc.Has("lowest_check.margin") {
		sc.Check(sheet.Check{Key: "lowest_check", Label: "Lowest work can be reached", Figure: "lowest_planned", Limit: "lowest_job", AtMost: true, Level: sheet.Rule,
			Sentence: "The spindle's nose comes down to {figure} above the table, and your lowest work needs {limit}.", Source: "the work that you named"})
	}
}

func (riser) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	amount, _ := r.Figure(s.Amount, sheet.Planned)
	if !(amount.Value > 0) {
		say.text("Say how high the riser should be, and everything that follows from it is shown here.")
	} else {
		say.text("A riser of ").strong(show(s, amount.Value)).text(" lifts the spindle's lowest position as much as its highest.")
		say.goals(s, r)
		if f, ok := r.Figure(s.Layout.Find("softer"), sheet.Planned); ok && f.Known() {
			say.text(" The column bends ").strong(unit.One.Text(f.Value, 2)).text(" times as much.")
		}
	}
	least, okLeast := r.Figure(s.Layout.Find("riser_least"), sheet.Planned)
	most, okMost := r.Figure(s.Layout.Find("riser_most"), sheet.Planned)
	okLeast, okMost = okLeast && least.Known(), okMost && most.Known()
	switch {
	case okLeast && okMost && least.Value > most.Value+shownLength:
		say.text(" No height of riser does all that you asked for: your tallest work needs ").strong(show(s, least.Value)).
			text(" at least, and your lowest allows ").strong(show(s, math.Max(0, most.Value))).text(" at most. A sub-table for the low work is the way out.")
	case okLeast && amount.Value < least.Value-shownLength:
		say.text(" Your tallest work needs ").strong(show(s, least.Value)).text(" at least.")
	case okMost && amount.Value > most.Value+shownLength:
		say.text(" Your lowest work allows ").strong(show(s, math.Max(0, most.Value))).text(" at most.")
	}
	return say.runs
}
