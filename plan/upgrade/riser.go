package upgrade

import (
	"math"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/fastener"
	"fettle/plan/part"
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
		Words: []string{"raising block", "lift block", "packing block", "spacer under the column", "daylight", "height"},
		Hours: [2]float64{8, 20}, Risk: MediumRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Milling, part.Scraping, part.Reaming},
		Cures: []string{"height.column"},
	}
}

// Trials of a riser: as high as all that is asked of it allows.
func (riser) Trials(*axis.Layout) []Trial { return asUsual }

func (riser) Suits(l *axis.Layout) bool { return l.Arr.Key != "" && upright(l) }

func (riser) Apply(s *Site) {
	l := s.Layout
	s.typed(s.Scope, quiet("amount", "height of the riser", "R", unit.MM),
		Field{Name: "amount", Label: "Height of the riser", Hint: `50, 2 in, 1-1/2"`}, "", 0, mostTravel, 0)
	s.Amount = s.Scope.Key("amount")
	for _, g := range l.Capacity.Goals {
		s.Goals = append(s.Goals, sheet.Goal{Key: l.Find(g.Key), Less: g.Small})
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

// Parts of a riser: the block, longer bolts, dowels that bring it back to its place.
func (riser) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if !m.more(s.Amount) {
		return Make{}
	}
	amount := sheet.Local(s.Amount, s.Layout.Key)
	high := m.limits(want{part: "riser", name: "height", label: "height", key: amount, leaf: "riser", formula: "was + made - planned"}, 0.1, -0.1, "common practice, no source: the height itself matters little, that its faces are parallel does")
	foot := func(name, label string, guess float64) part.Size {
		w := want{part: "riser", name: name, label: label, key: "foot_" + name, nominal: guess}
		if !m.Layout.Scope.Has(w.key) {
			w.key = ""
		}
		size := m.suits(m.general(w), "the foot of the column: "+label, "foot_"+name, 1)
		return size
	}
	block := part.Part{Key: "riser", Label: "riser block", Material: "gjl250", Quantity: 1,
		Flat:  &part.Flat{Length: foot("length", "front to back", 160), Width: foot("width", "side to side", 120), Thickness: high, Angle: 90},
		Notes: []string{"Top and bottom parallel within 0.01 mm over the foot: what they are off, over the foot, tilts the head; flat so that a feeler of 0.03 mm does not enter.", "A full section, or ribs under at least 60 % of the foot.", "Bolt holes: spot through the column's foot."}}
	dia := m.or("foot_bolt_dia", 0)
	if c, ok := fastener.ClearanceFor(metric(dia)); ok {
		n := m.or("foot_bolts", 4)
		long, wide := block.Flat.Length.Nominal, block.Flat.Width.Nominal
		hole := m.general(want{part: "riser", label: "bolt hole", nominal: c.Medium, grows: true})
		for i := range int(min(n, 4)) {
			x, y := 1.5*dia, 1.5*dia
			if i%2 == 1 {
				x = long - x
			}
			if i > 1 || n == 2 && i == 1 {
				y = wide - y
			}
			block.Flat.Features = append(block.Flat.Features, part.Feature{Kind: part.Hole, Label: "bolt, spotted through the foot", X: drawn("", x), Y: drawn("", y), Dia: hole})
		}
	}
	m.add(block)
	m.riserBolts(dia)
	m.buy(part.Bought{Key: "dowels", Label: "dowels, so that the column comes back to its place", Designation: "ISO 8734 8 × 30", Quantity: 4, For: "riser", Confirm: "tram", Source: "ISO 8734"})

	const heavy = "A head and column weigh 40 to 120 kg: a hoist or a second pair of hands, never a lift alone."
	m.step(measured, "", part.Operation{Key: "readings_before", Do: "Take the readings: tram in two directions, the nose's range above the table, and how far the nose gives under a push of 200 N.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "readings, before"})
	m.step(made, "riser", part.Operation{Key: "mill_riser", Do: "Mill the block's top and bottom parallel while the machine still stands; then grind or scrape them to the feet.", Needs: []part.Capability{part.Milling},
		Envelope: [2]float64{block.Flat.Length.Nominal, block.Flat.Width.Nominal}, Minutes: [2]float64{120, 360}, Record: "height at the four corners, by micrometer", Cautions: []string{eyes, ironDust}})
	m.step(stripped, "", part.Operation{Key: "lift_column", Do: "Lock the head, let the strut's or the weight's pull off, take the column off its foot.", Needs: []part.Capability{part.Bench}, After: []string{"mill_riser"}, Minutes: [2]float64{60, 120}, Record: "shims and where they lay, with a photo", Cautions: []string{isolate, heavy, "A gas strut holds stored energy: lock the head before it is taken off."}})
	m.step(fitted, "riser", part.Operation{Key: "drill_riser", Do: "Spot the bolt holes through the foot and drill them; scrape the joints until neither rocks.", Needs: []part.Capability{part.Scraping}, Minutes: [2]float64{90, 240}, Record: "blue on both joints, with a photo", Cautions: []string{eyes}})
	m.step(assembled, "", part.Operation{Key: "tram", Do: "Set block and column on, tighten crosswise, tram the head in two directions with shims in the joint; then ream for the dowels and put them in. Lengthen cables, hoses and covers.", Needs: []part.Capability{part.Reaming}, Minutes: [2]float64{120, 240}, Record: "tram in two directions", Cautions: []string{heavy, "The machine is top-heavy now: bolt it down anew."}})
	m.step(proved, "", part.Operation{Key: "readings_after", Do: "Take the same readings, with the nose as high above the table as before.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "readings, after"})
	return m.finish()
}

// riserBolts are the bolts of the column, longer by the riser.
func (m *making) riserBolts(dia float64) {
	b := part.Bought{Key: "foot_bolts", Label: "longer bolts for the column's foot: as much longer as the riser is high", Quantity: int(m.or("foot_bolts", 4)), For: "riser", Confirm: "drill_riser", Source: "ISO 4762"}
	length, ok := m.figure("foot_bolt_planned")
	if ok && dia > 0 {
		b.Designation = "ISO 4762 " + metric(dia) + " × " + bare(length)
		if s, ok := fastener.ScrewNamed("ISO 4762", metric(dia)); ok && !slices.Contains(s.Lengths(), length) {
			b.Label += "; not made so long: studs of that thread, or bolts in two tiers"
			b.Designation = ""
		}
	}
	m.buy(b)
}
