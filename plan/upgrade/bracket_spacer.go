package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// bracketSpacer: a plate between the bracket and what it is bolted to.
type bracketSpacer struct{}

func (bracketSpacer) About() About {
	return About{
		Key: "bracket_spacer", Label: "Spacer under the bracket",
		Words:   []string{"packing", "packer", "spacer plate", "shim plate", "end plate", "bearing block", "reach", "shift the travel", "thread window"},
		Purpose: "Bracket and screw move along the axis together, so that the slide goes further at one end. The travel as a whole gets no longer.",
		Cautions: []string{
			"Isolate the machine before the bracket comes off.",
			"What one end gains, the other one loses: with the slide off, see for yourself how much of the nut is left on the thread there.",
			"Bolts that are too short strip, and ones that are too long bottom in their holes and hold nothing.",
			"A gear on the screw moves with it: half in mesh, its teeth break.",
		},
		Proof: "Engagement of the nut at both ends, seen with the slide off; travel by gauge at both ends; a facing cut that is still square.",
		Hours: [2]float64{2, 4}, Risk: LowRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Turning},
		Cures: []string{"reach.window"},
	}
}

// Suits a screw that a bracket holds, with a nut on it.
func (bracketSpacer) Suits(l *axis.Layout) bool {
	b, okB := l.WithRole("bracket")
	_, okN := l.WithRole("nut")
	_, okT := l.WithRole("thread")
	return okB && okN && okT && b.Tie == nil
}

func (bracketSpacer) Trials(*axis.Layout) []Trial { return asUsual }

// gainsAt is the end that gains: a screw that is held carries the handle out of
// the slide's way, one that travels lets its slide in.
func (bracketSpacer) gainsAt(l *axis.Layout) axis.End {
	if nut, _ := l.WithRole("nut"); nut.Side == axis.Moving {
		return handleAt(l)
	}
	return opposite(handleAt(l))
}

func (k bracketSpacer) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	b, _ := l.WithRole("bracket")
	gains := k.gainsAt(l)
	s.aimAt(gains)
	s.typed(sc, quiet("amount", "thickness of the spacer asked for", "S", unit.MM), Field{Name: "amount", Label: "Thickness of the spacer", Hint: `6, 1/4", 0.25 in`}, "", 0, mostTravel, 0)
	s.Amount, s.Most = sc.Key("amount"), 40
	shifts(s, gains, s.Amount, func() { spacer.apply(s, axis.Stop{}, s.Amount) })
	k.bolts(s, b)
	k.web(s, b)
}

// bolts finds the length to buy, where the measuring sheet has not said what
// the bolts are: else the bracket's own checks watch them.
func (bracketSpacer) bolts(s *Site, b *axis.Part) {
	l, sc := s.Layout, s.Scope
	if l.Scope.Has(b.Key + ".bolt_least") {
		return
	}
	const group = "Bolts of the bracket"
	names := sheet.With{
		"flange":   s.measuredOr(b.Key+".flange", quiet("flange", "what the bolts go through now", "t_f", unit.MM), Field{Name: "flange", Label: "What they go through now", Hint: "under the head, to the casting", Group: group}, "", 0.5, 200),
		"bolt_dia": s.measuredOr(b.Key+".bolt_dia", quiet("bolt_dia", "bolts' diameter", "d_b", unit.MM), Field{Name: "bolt_dia", Label: "Their diameter", Group: group}, "", 1, 40),
		"deep":     s.measuredOr(b.Key+".tapped_depth", quiet("tapped_depth", "depth of the tapped holes", "t_h", unit.MM), Field{Name: "tapped_depth", Label: "Depth of the tapped holes", Hint: "to the end of the thread", Group: group}, "", 1, 200),
		"plate":    b.Key + ".spacer",
	}
	l.Limit(sc, quiet("bolt_least", "least engagement of the bolts", "l_min", unit.MM), joint.BoltInIron, names)
	sc.Formula(shown("bolt", "bolts to get, length", "l_b", unit.MM), "when(plate > 0, stock_bolt(flange + plate + bolt_least), 0)", "geometry: grip and engagement; ISO 888: preferred lengths of bolts", names)
	sc.Formula(quiet("below", "room below the bolts", "c_b", unit.MM), "when(plate > 0, deep - (bolt - flange - plate), inf)", "geometry", names)
	l.Assume(sc, quiet("below_least", "room wanted below the bolts", "", unit.MM), 1, "common practice, no source")
	sc.Check(sheet.Check{Key: "below_check", Label: "Bolts clear of the holes' bottom", Figure: "below", Limit: "below_least", Level: sheet.Rule,
		Sentence: "{figure} is left below the bolts, and {limit} is wanted.", Source: "common practice, no source"})
}

// web keeps metal between the spacer's bore and its bolt holes.
func (bracketSpacer) web(s *Site, b *axis.Part) {
	l, sc := s.Layout, s.Scope
	t, _ := l.WithRole("thread")
	if !l.Scope.Has(b.Key+".bolt_offset") || !l.Scope.Has(b.Key+".bolt_dia") {
		return
	}
	l.Assume(sc, quiet("room", "spacer's bore larger than the screw", "", unit.MM), screwRoom, "common practice, no source: 1 mm")
	sc.Formula(quiet("web", "metal between the spacer's bore and its bolt holes", "w", unit.MM), "offset - bolt / 2 - (dia + room) / 2", "geometry",
		sheet.With{"offset": b.Key + ".bolt_offset", "bolt": b.Key + ".bolt_dia", "dia": t.Key + ".dia"})
	l.Assume(sc, quiet("web_least", "least metal between bore and bolt holes", "w_min", unit.MM), besideHole, besideHoleSource)
	sc.Check(sheet.Check{Key: "web_check", Label: "Spacer's bore clear of its bolt holes", Figure: "web", Limit: "web_least", Level: sheet.Rule,
		Sentence: "{figure} stays between the bore and the bolt holes, and {limit} is the least.", Source: besideHoleSource})
}

func (k bracketSpacer) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	amount, ok := r.Figure(s.Amount, sheet.Planned)
	if !ok || !(amount.Value > 0) {
		say.text("Say how thick the spacer should be, and what is gained at one end and lost at the other is shown here.")
		return say.runs
	}
	say.shiftTold(s, r, k.gainsAt(s.Layout), amount.Value)
	if text, ok := s.figured(r, s.Layout.Find("gear_mesh.overlap")); ok {
		say.text(" Of the power feed's gears ").strong(text).text(" stays in mesh.")
	}
	return say.runs
}

// Parts of a spacer: the plate, and longer bolts.
func (k bracketSpacer) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if !m.more(s.Amount) {
		return Make{}
	}
	b, _ := s.Layout.WithRole("bracket")
	for _, ask := range s.asks {
		ask(m)
	}
	if f, ok := r.Figure(s.Scope.Key("bolt"), m.stage()); ok && f.Known() {
		dia := m.or(b.Key+".bolt_dia", m.or(sheet.Local(s.Scope.Key("bolt_dia"), s.Layout.Key), 0))
		m.buy(part.Bought{Key: b.Key + "_bolts", Label: "longer bolts for the " + b.Label, Designation: "ISO 4762 " + metric(dia) + " × " + bare(f.Value),
			Quantity: int(m.or(b.Key+".bolts", 2)), For: "spacer", Confirm: "turn_spacer", Source: "ISO 4762; the shortest standard length with grip and engagement"})
	}
	around(m, "travel by gauge at both ends, engagement of the nut at both ends with the slide off, the push on the handle at three places")
	o := part.Operation{Key: "fit_spacer", Do: "Put the spacer under the " + b.Label + ", its bolts just nipped. Wind the nut to the end nearest the " + b.Label + ", tighten there, and see that the screw winds as lightly as before.",
		Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "push on the handle next to the bracket and at the far end", Cautions: []string{isolate}}
	if b.Side != axis.Moving && !s.Layout.Scope.Has("gear_mesh.overlap") {
		o.Asks = append(o.Asks, "Does a gear on the screw drive the power feed? It has moved with the screw: how much of its face is still in mesh?")
	}
	o.Asks = append(o.Asks, "With the slide off: is the nut on the thread at both ends by as much as is planned?")
	m.step(assembled, "", o)
	return m.finish()
}
