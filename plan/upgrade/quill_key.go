package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// quillKey: a key that fits its slot, and a clamp that does not shift the barrel.
// What is computed is how far a tool can turn.
var quillKey = &guided{
	about: About{
		Key: "quill_key", Label: "Key and clamp of a barrel or quill",
		Words:   []string{"quill key", "barrel key", "anti-rotation", "split cotter", "quill lock", "quill clamp", "slot play", "drill wanders"},
		Purpose: "The barrel no longer turns in its bore when a drill breaks through, and its clamp holds it without pushing it aside.",
		Measure: []string{"Play: turn the barrel to and fro by a bar in its taper, a dial gauge 50 mm off its axis.", "Width of the slot at both ends and in the middle.", "Shift of the nose when the clamp is tightened, from above and from the side."},
		Cautions: []string{"Isolate the machine before the barrel comes out.", "A quill with a return spring: let the spring's tension off first, hold its cap with a rag and both hands, face away.", "Fine bores: no abrasive left in them, wash and wash again.",
			"A key that is driven in too tight bows a thin barrel."},
		Proof: "Turns at most 0.05 mm at 50 mm from its axis, in and out; clamped, the nose shifts at most 0.01 mm.",
		Hours: [2]float64{2, 6}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Milling, part.Reaming}, Own: true,
		Cures: []string{"rocks.quill", "rocks.unlocked"},
	},
	suits: func(l *axis.Layout) bool { return has(l, "quill") },
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		quill, _ := l.WithRole("quill")
		s.given(given{"slot", "Least width of the slot", "b", unit.MM, "slips or feelers, both ends and the middle", "", 1, 40}, given{"slot_wide", "Greatest width of the slot", "b", unit.MM, "the same", "", 1, 40})
		l.Assume(sc, quiet("fit", "play of a new key in its slot", "c", unit.MM), 0.02, "common practice, no source: 0.01 to 0.03 mm")
		l.Assume(sc, quiet("at", "radius at which turning is judged", "R", unit.MM), 50, "common practice, no source")
		sc.Formula(shown("key_width", "new key, width", "", unit.MM), "slot - fit", "geometry: it must pass where the slot is narrowest")
		sc.Formula(shown("turns", "a tool can turn, 50 mm off the axis, by", "", unit.MM), "(slot_wide - key_width) * at / (dia / 2)", "geometry: the play at the barrel's outside, carried out", sheet.With{"dia": quill.Key + ".dia"})
		l.Assume(sc, quiet("turns_most", "most that a tool may turn", "", unit.MM), 0.1, "common practice, no source: 0.05 mm wanted, twice that lived with")
		sc.Check(sheet.Check{Key: "turns_check", Label: "Slot even enough for a new key alone", Figure: "turns", Limit: "turns_most", AtMost: true, Level: sheet.Rule,
			Sentence: "Where the slot is widest a tool can still turn {figure}, and {limit} is the most: mill the slot true and make the key wider.", Source: "geometry"})
	},
	says: []says{{"The new key is ", "key_width", " wide."}, {"Where the slot is widest a tool can turn ", "turns", "."}},
	make: func(m *making) {
		wide := m.limits(want{part: "key", name: "width", label: "width, in the slot", key: m.mine("key_width"), nominal: 6}, 0, -0.01, "common practice, no source: 0.02 mm of play in the slot")
		m.add(part.Part{Key: "key", Label: "new key", Material: "silver_steel", Flat: &part.Flat{Length: drawn("as long as the body allows", 20), Width: wide, Thickness: drawn("as the old one", 8), Angle: 90},
			Notes: []string{"Width: rubbed down on oilstone to the slot, tried from end to end.", "Ends rounded; it must not touch the slot's bottom."}})
		m.step(measured, "", part.Operation{Key: "measure_slot", Do: "Read the play, then take the barrel out and measure slot, key and bore. Put all back until the key is made.", Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, Minutes: [2]float64{45, 90}, Record: "slot at three places", Cautions: []string{isolate, "A return spring: tension off first."}})
		m.step(made, "key", part.Operation{Key: "make_key", Do: "Mill the key and bring its width to the slot; make the two halves of the clamp, bored in place with the barrel's size.", Needs: []part.Capability{part.Milling, part.Reaming}, After: []string{"measure_slot"}, Envelope: [2]float64{20, 10}, Minutes: [2]float64{60, 180}, Record: "width of the key", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "fit_key", Do: "Fit the key, oil, run the barrel in and out by hand; set the clamp so that a quarter turn locks.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 90}, Record: "shift of the nose when it is clamped",
			Asks: []string{"Does the nose move when the clamp is tightened? Then its halves do not bear evenly."}})
	},
}
