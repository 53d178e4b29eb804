package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/part"
)

// thrustRecess is what is bored into a face of the bracket for a thrust set.
func thrustRecess(m *making, b *axis.Part, at string) []part.Step {
	key := "thrust.recess_" + at
	if !m.more(m.Layout.Find(key)) {
		return nil
	}
	label := "recess for the thrust set"
	dia := seatOf(m, b, want{part: b.Key, name: "recess_dia_" + at, label: label, nominal: m.or("thrust.od", 0), grows: true})
	w := want{part: b.Key, name: "recess_" + at, label: label + ", depth", key: key, leaf: key, formula: "made", grows: true}
	if on := onBracket(m.Layout, b); at == "outer" && on != nil && m.or("thrust.thickness", 0) > m.or(key, 0) {
		w.also = []part.Made{{Leaf: on.Key + ".gap", Formula: "was + planned - made"}} // it stands out by so much less
	}
	deep := m.limits(w, 0.05, 0, "common practice, no source")
	return []part.Step{{Label: label, Length: deep, Dia: dia, New: true}}
}

// recessStep is how the recesses are made: in a new bracket before it is
// fitted, in the old one while it is off.
func recessStep(m *making, b *axis.Part, when phase, after string) {
	m.step(when, b.Key, part.Operation{Key: "recess_" + b.Key, Do: "Recess the " + b.Label + " for the thrust set, set true by its journal within 0.01 mm; the floor square to it.", Needs: []part.Capability{part.Boring},
		Envelope: [2]float64{m.or(b.Key+".length", 0), m.or(b.Key+".dia", 0)}, After: []string{after}, Minutes: [2]float64{60, 120}, Record: "depth and diameter of the recess", Cautions: []string{eyes}})
}
