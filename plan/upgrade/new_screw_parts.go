package upgrade

import (
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Parts of a new screw: the screw, or a threaded bar on the old shank; its nut.
func (k newFeed) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if f, ok := r.Figure(s.Amount, m.stage()); !ok || !f.Known() || s.input("more", asLong) != asLong && f.Value <= shownLength {
		return Make{}
	}
	nut, _ := s.Layout.WithRole("nut")
	t, _ := s.Layout.WithRole("thread")
	around(m, strings.ToLower(k.About().Proof[:1])+strings.TrimSuffix(k.About().Proof[1:], "."))
	measureScrew(m)
	if _, tail := s.Layout.WithRole("tail_bearing"); tail && s.input("more", asLong) != asLong {
		m.step(assembled, "", part.Operation{Key: "move_tail", Do: "Set the bearing at the screw's far end to the longer screw: slide wound right up to it, its bolts just nipped, then tighten.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "push on the handle next to that bearing", Cautions: []string{isolate},
			Asks: []string{"Can the bearing at the far end stand as much further out as the screw is longer?"}})
	}
	if s.input("how", "whole") == "graft" {
		graftParts(m, t)
	} else {
		feedScrew(m)
	}
	if s.input("nut", "new") == "new" {
		feedNut(m, nut, t, s.input("material", nutMaterials[0].key))
	}
	for _, ask := range s.asks {
		ask(m)
	}
	m.step(proved, "", part.Operation{Key: "prove_lead", Do: "Against blocks or a scale, wind over the whole travel and write down what the dial says at each tenth of it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "travel by the dial and by the blocks"})
	return m.finish()
}

// measureScrew is the old screw measured whole, before a new one is begun.
func measureScrew(m *making) {
	m.step(measured, "", part.Operation{Key: "measure_screw", Do: "With the slide off, measure the old screw whole: thread, collar, journal, flats or key, end thread, each with its length from the collar's face; its lead over ten turns; and its run-out between centres. Put it back.",
		Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, After: []string{"readings_before"}, Minutes: [2]float64{45, 90}, Record: "a drawing of the old screw, and a photo beside a rule", Cautions: []string{isolate},
		Asks: []string{"Which way does the slide go when the handle is turned clockwise? Write it beside the drawing before a bar is ordered.", "Is ten turns ten times the lead, or is the thread an inch one?"}})
}

// holeFor is the hole that the longer screw's tip goes through.
func (newFeed) holeFor(m *making, wall, t *axis.Part) {
	if !m.more(m.Amount) {
		return
	}
	m.step(cut, "", part.Operation{Key: "bore_" + wall.Key, Do: "Drill the " + wall.Label + " for the screw's tip, in line with the bracket's bore, to " + m.Units.With(m.or(t.Key+".dia", 12)+2) + ": a thin drill first.",
		Needs: []part.Capability{part.Milling}, Minutes: [2]float64{45, 120}, Record: "how far the hole is from the screw all round, with a photo", Cautions: []string{eyes, ironDust},
		Asks: []string{"What is behind the wall there: an oil way, a tapped hole, a cable?"}})
}
