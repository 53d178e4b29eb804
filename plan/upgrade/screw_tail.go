package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// screwTail: a bush that holds the free end of a screw. What is computed is how much
// less it sags.
var screwTail = &guided{
	about: About{
		Key: "screw_tail", Label: "Support for the screw's free end",
		Words:   []string{"tail bearing", "outboard support", "steady bearing", "screw whip", "droop", "end bush"},
		Purpose: "The free end of a long screw neither hangs down nor whips, and no longer wears its nut oval.",
		Measure: []string{"Run-out of the screw's free end, the slide at either end.", "Room behind the free end, and what it could be fixed to."},
		Cautions: []string{"Isolate the machine before you work at it.", "A third bearing that is out of line bends the screw at every turn: leave it 0.1 mm of play a side, and set it with the slide next to it.",
			"It stands where the screw's end went: see that the slide does not run into it."},
		Proof: "Run-out in the middle at most 0.05 mm; no tight place from end to end, with the support tight and with it slack.",
		Hours: [2]float64{2, 6}, Risk: MediumRisk, Undo: UndonePart, Needs: []part.Capability{part.Turning, part.Milling}, Own: true,
		Cures: []string{"jams.bent", "lost_motion.nut"},
	},
	suits: func(l *axis.Layout) bool { return screwed(l) && has(l, "bracket") },
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		t, _ := l.WithRole("thread")
		if s.input(Decided, "no") == "yes" {
			s.claim("screw_tail", "the screw's free end")
		}
		free := s.measuredOr("screw_line.free", quiet("free", "free end of the screw beyond the nut", "L", unit.MM), Field{Name: "free", Label: "Free end of the screw beyond the nut, at its longest"}, "", 1, 3000)
		root := t.Key + ".root"
		if !l.Scope.Has(root) {
			sc.Method(quiet("root", "root of the screw's thread", "d_3", unit.MM), screw.Root, sheet.With{"dia": t.Key + ".dia", "pitch": t.Key + ".pitch"})
			root = sc.Key("root")
		}
		names := sheet.With{"root": root, "free": free, "length": free}
		l.Assume(sc, quiet("modulus", "modulus of steel", "E", unit.MPa), screw.SteelModulus, screw.SteelModulusSource)
		l.Assume(sc, quiet("density", "density of steel", "ρ", unit.Density), screw.SteelDensity/unit.Density.Scale, screw.SteelDensitySource)
		sc.Method(quiet("second_moment", "second moment of the screw's root", "I", unit.MM4), screw.SecondMoment, names)
		sc.Method(quiet("weight", "screw's weight by length", "w", lineLoad), screw.Weight, names)
		sc.Method(sheet.Q{Key: "hangs", Label: "free end hangs down, without support", Symbol: "f", Unit: unit.Micrometre, Decimals: 2}, screw.Sag, names)
		sc.Method(sheet.Q{Key: "hangs_held", Label: "the same stretch sags with its end held", Symbol: "f", Unit: unit.Micrometre, Decimals: 2}, screw.SagPropped, names)
		s.given(given{"runout", "Run-out of the screw's end, as found", "", unit.MM, "dial gauge on the free end", "", 0, 5})
		l.Assume(sc, quiet("runout_most", "most run-out for a third bearing", "", unit.MM), 0.1, "common practice, no source: straighten it first")
		sc.Check(sheet.Check{Key: "straight_check", Label: "Screw straight enough for a third bearing", Figure: "runout", Limit: "runout_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The screw's end runs out by {figure}, and beyond {limit} a support bends it at every turn: straighten it first.", Source: "common practice, no source"})
	},
	says: []says{{"The free end hangs ", "hangs", " low at its longest."}, {"With its end held that stretch sags ", "hangs_held", "."}},
	make: func(m *making) {
		t, _ := m.Layout.WithRole("thread")
		d := m.or(t.Key+".dia", 12)
		bore := m.limits(want{part: "bush", name: "bore", label: "bore, for the thread's outside turned smooth", key: t.Key + ".dia", nominal: d, grows: true}, 0.25, 0.2, "common practice, no source: 0.1 mm a side, so that it guides and does not force")
		outside := m.class(want{part: "bush", name: "outside", label: "outside", nominal: d + 8}, "h7")
		long := m.general(want{part: "bush", name: "length", label: "length", nominal: 1.5 * d})
		m.add(part.Part{Key: "bush", Label: "bush for the screw's free end", Material: "c93200", Round: &part.Round{Length: long, Outside: []part.Step{{Label: "bush", Length: drawn("", long.Nominal), Dia: outside, Chamfer: 0.5}},
			Left: []part.Step{{Label: "bore", Length: drawn("", long.Nominal), Dia: bore, Through: true, Chamfer: 0.5}}}, Notes: []string{"In a plate with slotted screw holes, so that it can be set.", "Oil hole from above."}})
		m.step(measured, "", part.Operation{Key: "measure_tail", Do: "Wind the slide to both ends and measure what the screw's end leaves free each time; read its run-out.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "room behind the screw, run-out",
			Asks: []string{"What does the slide, or the nut, meet first when a plate stands there?"}})
		m.step(made, "bush", part.Operation{Key: "turn_bush", Do: "Turn and bore the bush, and make its plate.", Needs: []part.Capability{part.Turning, part.Milling}, After: []string{"measure_tail"}, Envelope: [2]float64{long.Nominal, outside.Nominal}, Minutes: [2]float64{60, 180}, Record: "bore", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "set_tail", Do: "Wind the nut up to the support, let the bush find its place on the screw, tighten its plate there; wind away and back.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 120}, Record: "push on the handle at three places", Cautions: []string{isolate},
			Asks: []string{"Does it wind as lightly with the plate tight as with it slack?"}})
	},
}
