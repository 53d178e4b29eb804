package upgrade

import (
	"strings"

	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Parts of a quill without play: a sleeve or a quill, or the slit and its screw;
// the depth nut.
func (k quillPlay) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if strings.TrimSpace(s.input("wanted", "")) == "" {
		return Make{}
	}
	l := s.Layout
	q, _ := l.WithRole("quill")
	g, _ := l.WithRole("guide")
	own := "upgrade_" + s.ID + "."
	dia, long := m.or(q.Key+".dia", 40), m.or(g.Key+".length", 100)
	const wound = "The return spring is wound up: hold its cap and let it go turn by turn, with eye protection."
	careful, out, noted := []string{isolate, wound, "The quill drops when its pinion is drawn: hold it."}, "Let the return spring off, draw the pinion, and take the quill out.", "how many turns the spring was wound, with a photo"
	_, sprung := l.WithRole("pinion")
	if !sprung { // a tailstock's: a screw draws it, and nothing pulls it back
		careful, out, noted = []string{isolate}, "Take the key out, wind the quill off its screw, and take it out.", "which way round key and quill stood, with a photo"
	}
	m.step(measured, "", part.Operation{Key: "measure_quill", Do: "Take the quill out. Measure it with a micrometer and its bore with a telescopic gauge, at the nose's end, half way and at the far end, each across two ways. Put it back.", Needs: []part.Capability{part.Bench}, Out: l.Key, After: []string{"readings_before"}, Minutes: [2]float64{60, 150}, Record: "six diameters of each", Cautions: careful})
	m.step(stripped, "", part.Operation{Key: "quill_out", Do: out, Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: noted, Cautions: careful})
	switch s.input("way", "clamp") {
	case "clamp":
		m.buy(part.Bought{Key: "pinch_screw", Label: "screw that pinches the casting, with a nut to lock it", Designation: "ISO 4762 M8 × 40", Quantity: 1, For: "split_head", Confirm: "measure_quill", Source: "ISO 4762"})
		m.step(cut, "", part.Operation{Key: "split_head", Do: "Drill for the pinch screw across where the slit will be, tap the far side, and then saw the slit with a slitting saw, from the nose's end over two thirds of the guide, into the bore. Deburr it.", Needs: []part.Capability{part.Milling}, Minutes: [2]float64{90, 240}, Record: "the slit, with a photo", Cautions: []string{eyes, ironDust},
			Asks: []string{"Does the slit keep clear of rack, keyway, lock and oil holes?", "Is there a stop, a shim as thick as the slit is to stay, so that nobody pinches it further?"}})
	case "sleeve":
		window := "A slot for the key, spotted through, cut when it is in."
		if sprung {
			window = "A window for the pinion, spotted through, cut when it is in."
		}
		outside := m.class(want{part: "quill_sleeve", name: "outside", label: "outside, pressed into the casting", nominal: dia + 2*m.or(own+"thick", 3)}, "p6")
		bore := m.limits(want{part: "quill_sleeve", name: "bore", label: "bore, honed when it is in", nominal: dia + m.or(own+"wanted", 0.015), grows: true}, 0.005, -0.005, "common practice, no source: honed to the quill")
		bore = m.suits(bore, "the quill, by micrometer", q.Key+".dia", micrometer)
		length := m.general(want{part: "quill_sleeve", name: "length", label: "length, as the guide", key: g.Key + ".length", nominal: long})
		m.add(part.Part{Key: "quill_sleeve", Label: "sleeve for the quill", Material: "gjl250", Round: &part.Round{Length: length, Outside: []part.Step{{Label: "sleeve", Length: drawn("", length.Nominal), Dia: outside, Chamfer: 1}}, Left: []part.Step{{Label: "bore", Length: drawn("", length.Nominal), Dia: bore, Through: true}}},
			Notes: []string{"Bored 0.2 mm under size before it is pressed in: it closes in by about the interference.", window}})
		m.step(made, "quill_sleeve", part.Operation{Key: "turn_quill_sleeve", Do: "Bore and turn the sleeve in one setting, 0.2 mm under size inside.", Needs: []part.Capability{part.Turning}, Envelope: [2]float64{length.Nominal, outside.Nominal}, After: []string{"measure_quill"}, Minutes: [2]float64{90, 200}, Record: "outside, by micrometer", Cautions: []string{eyes, ironDust}})
		m.step(fitted, "quill_sleeve", part.Operation{Key: "bore_head", Do: "Bore the casting out in line with the old bore for the sleeve, H7; press the sleeve in, cut what has to go through it, and hone it to the quill.", Needs: []part.Capability{part.Boring, part.Pressing}, Envelope: [2]float64{length.Nominal, outside.Nominal}, Minutes: [2]float64{240, 480}, Record: "bore at three places", Cautions: []string{eyes, ironDust, "Honing slurry: wash everything out before the bearings go back."},
			Asks: []string{"Who bores it, if this is the machine that bores?"}})
	default:
		outside := m.limits(want{part: q.Key, name: "dia", label: "outside, ground or lapped", key: own + "dia", nominal: dia + 0.1}, 0, -0.01, "common practice, no source: ground or lapped to its bore")
		outside.Suits, outside.Awaits = "the bore, when it is honed true", l.Find(q.Key+".dia")
		length := m.general(want{part: q.Key, name: "length", label: "length", key: q.Key + ".length", nominal: 120})
		m.add(part.Part{Key: q.Key, Label: "new " + q.Label, Replaces: q.Key, Material: quillStock(q.Material), Round: &part.Round{Length: length, Outside: []part.Step{{Label: "quill", Length: drawn("", length.Nominal), Dia: outside, Chamfer: 1}}},
			Notes: []string{"Bores, seats, rack or keyway: copy the old one's.", "Bored first, then turned on a mandrel, ground, and lapped to its bore."}})
		m.step(made, q.Key, part.Operation{Key: "turn_" + q.Key, Do: "Bore, turn and mill the new quill, with 0.2 mm left on its outside.", Needs: []part.Capability{part.Turning, part.Boring, part.Milling}, Envelope: [2]float64{length.Nominal, outside.Nominal}, After: []string{"measure_quill"}, Minutes: [2]float64{360, 900}, Record: "seats and outside, by micrometer", Cautions: []string{eyes}})
		m.step(fitted, q.Key, part.Operation{Key: "hone_head", Do: "Hone the bore until it is true; grind or lap the quill to it.", Needs: []part.Capability{part.Grinding}, Minutes: [2]float64{180, 420}, Record: "bore and quill at three places", Cautions: []string{"Honing slurry: wash everything out before the bearings go back."}})
	}
	k.depthNut(m)
	back := part.Operation{Key: "fit_quill", Do: "Oil and fit the quill; wind the spring as it was, turn by turn, or to the torque of the plan. Run it in and out by hand over all its travel.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "the spring's turns; where it goes hard, if anywhere", Cautions: []string{isolate, wound},
		Asks: []string{"Does the quill come back up by itself from right out, and not fast?"}}
	if !sprung {
		back.Do, back.Record, back.Cautions = "Oil the quill, fit its key, and wind it in and out by hand over all its travel.", "where it goes hard, if anywhere", []string{isolate}
		back.Asks = []string{"Does it go as lightly right in as right out, with its clamp off?"}
	}
	m.step(assembled, "", back)
	m.proofOf(k.About())
	return m.finish()
}

// depthNut is turned and divided.
func (quillPlay) depthNut(m *making) {
	pitch := m.input("depth_pitch", "none")
	if pitch == "none" {
		return
	}
	own := "upgrade_" + m.ID + "."
	thread := map[string]string{"1": "M10×1-6H", "1.25": "M10×1.25-6H", "1.5": "M12×1.5-6H"}[pitch]
	dia := m.general(want{part: "depth_nut", name: "dia", label: "outside", key: own + "nut_dia", nominal: 30, leaf: own + "nut_dia", formula: "made"})
	m.add(part.Part{Key: "depth_nut", Label: "depth nut with marks", Material: "cuzn39pb3", Round: &part.Round{Length: m.general(want{part: "depth_nut", name: "length", label: "length", nominal: 16}),
		Outside: []part.Step{{Label: "nut", Length: drawn("", 16), Dia: dia, Chamfer: 0.5}}, Left: []part.Step{{Label: "thread", Length: drawn("", 16), Dia: drawn("", map[string]float64{"1": 9, "1.25": 8.75, "1.5": 10.5}[pitch]), Thread: thread, Through: true, Chamfer: 1}}},
		Notes: []string{m.countOf(own+"marks", 20) + " marks round its edge, every fifth longer; a flat along the rod carries the line to read against.", "A second nut below it locks it."}})
	m.step(made, "depth_nut", part.Operation{Key: "turn_depth_nut", Do: "Turn, bore and screwcut the nut, knurl it, and divide its edge.", Needs: []part.Capability{part.Turning, part.Threads, part.Dividing}, Envelope: [2]float64{16, dia.Nominal}, Minutes: [2]float64{90, 180}, Record: "the last space, which shows the dividing's error", Cautions: []string{eyes}})
}

// countOf writes a count of a result, or a guess.
func (m *making) countOf(name string, guess float64) string {
	return unit.Count.Text(m.or(name, guess), 0)
}
