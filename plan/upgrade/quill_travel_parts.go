package upgrade

import (
	"math"
	"strings"

	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Parts of each way: tools without tangs, a quill, a nut, a screw's tip.
func (k quillTravel) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if !m.more(s.Amount) {
		return Make{}
	}
	l := s.Layout
	nut, _ := l.WithRole("nut")
	t, _ := l.WithRole("thread")
	by := m.Units.With(m.or(sheet.Local(s.Amount, l.Key), 0))
	switch s.input("way", quillWays[0].Value) {
	case "shank":
		m.step(made, "", part.Operation{Key: "cut_tangs", Do: "Grind or cut the shanks of the tools that you use most in the tailstock " + by + " shorter, square, and break the edge; or buy them tapped for a drawbar.",
			Needs: []part.Capability{part.Grinding}, Minutes: [2]float64{15, 60}, Record: "length of each shank left", Cautions: []string{eyes, "Keep the taper cool: a blue shank has gone soft."},
			Asks: []string{"Which drills need their tang to be driven? Leave it on above half the taper's diameter.", "Does each taper still hold when twisted by hand?"}})
	case "tip":
		shorterTip(m, t, s.Amount)
	case "longer":
		m.newQuill(t.Key)
	case "nut_back":
		m.quillNut(nut.Key, t.Key)
	}
	m.tipPad(t.Key)
	if len(m.steps) == 0 {
		return Make{}
	}
	if keyway, ok := l.WithRole("keyway"); ok && s.input("way", "") == "nut_back" {
		longer(m, keyway, "cut the keyway further")
	}
	if way := s.input("way", quillWays[0].Value); len(m.out.Parts) > 0 || way == "tip" {
		m.quillApart()
	}
	m.proofOf(k.About())
	return m.finish()
}

// newQuill is a longer quill, with its nut's seat, its socket and its keyway.
func (m *making) newQuill(thread string) {
	quill, _ := m.Layout.WithRole("quill")
	long := m.or(quill.Key+".length", 140)
	length := m.general(want{part: quill.Key, name: "length", label: "length", key: quill.Key + ".length"})
	dia := m.limits(want{part: quill.Key, name: "dia", label: "outside", key: quill.Key + ".dia", leaf: quill.Key + ".dia", formula: "made"}, -0.01, -0.02, "common practice, no source: 0.01 to 0.02 mm less than its bore")
	dia = m.suits(dia, "the body's bore, measured in the middle and at both ends", quill.Key+".dia", micrometer)
	taper := m.quillTaper()
	nut, _ := m.Layout.WithRole("nut")
	bore := m.or(thread+".dia", 12)
	r := &part.Round{Length: length, Outside: []part.Step{{Label: "quill", Length: drawn("", long), Dia: dia, Chamfer: 1}},
		Left:  []part.Step{{Label: "nut's seat, as the old quill's", Length: m.general(want{part: quill.Key, label: "depth of the nut's seat", nominal: m.or(nut.Key+".length", 20), grows: true}), Dia: drawn("", bore+8)}, {Label: "clear of the screw", Length: drawn("", long), Dia: drawn("", bore+1), Through: true}},
		Right: []part.Step{{Label: "Morse taper " + taper.Size + ", reamed", Length: m.general(want{part: quill.Key, label: "depth of the socket", nominal: taper.Drawbar, grows: true}), Dia: drawn("socket", taper.Large), Taper: taper.Ratio}}}
	m.add(part.Part{Key: quill.Key, Label: "longer " + quill.Label, Replaces: quill.Key, Material: quillStock(quill.Material), Round: r,
		Notes: []string{"Socket: Morse taper " + taper.Size + ", bored, then reamed with two reamers; true to the outside within 0.01 mm.", "Keyway: width and depth as the old one, and as long as the plan's keyway.", "Bore for the screw and socket meet: a tool's shank reaches the screw's tip."}})
	m.step(made, quill.Key, part.Operation{Key: "make_" + quill.Key, Do: "Turn the quill between centres and finish its outside to the body's bore; bore and ream the taper with its outside running true; then the nut's seat and the keyway. All of it while the old quill still works.",
		Needs: []part.Capability{part.Turning, part.Boring, part.Reaming, part.Milling}, Envelope: [2]float64{long, dia.Nominal}, Minutes: [2]float64{600, 1500}, Record: "outside at three places; run-out in the taper", Cautions: []string{eyes},
		Asks: []string{"Is the body's bore round, and as wide in the middle as at its ends?"}})
}

// quillNut is a nut that stands out behind the quill.
func (m *making) quillNut(nut, thread string) {
	bore, pitch := m.or(thread+".dia", 12), m.or(thread+".pitch", 2)
	t, _ := m.Layout.Part(thread)
	n, _ := m.Layout.Part(nut)
	long := m.or(nut+".length", 20)
	by := m.or(sheet.Local(m.Amount, m.Layout.Key), 0)
	length := m.general(want{part: nut, name: "length", label: "length over all: the seat, and what stands out", nominal: long + by})
	outside := drawn("seat in the quill, as the old nut's", bore+8)
	outside.Suits, outside.Limits = "the nut's seat in the quill", toSuit
	m.add(part.Part{Key: nut, Label: "nut that stands out behind the quill", Replaces: nut, Material: stock(n.Material, "c93200"),
		Round: &part.Round{Length: length, Outside: []part.Step{{Label: "nut", Length: drawn("", long+by), Dia: outside, Chamfer: 0.5}},
			Left:  []part.Step{{Label: "thread, in its rear", Length: drawn("", long), Dia: drawn("", bore-pitch), Thread: strings.NewReplacer("-7e", "-7H", "-6g", "-6H").Replace(feedThread(m, t)), Chamfer: pitch}},
			Right: []part.Step{{Label: "clear of the screw", Length: m.general(want{part: nut, label: "clear of the screw", nominal: by, grows: true}), Dia: drawn("", bore+1), Through: true}}},
		Notes: []string{"Threaded in the part that stands out behind, clear before it.", "Pinned or screwed in its seat as the old one: it takes the whole thrust of a drill."}})
	m.step(made, nut, part.Operation{Key: "turn_" + nut, Do: "Turn the nut to the quill's seat and screwcut or tap its rear to the screw.", Needs: []part.Capability{part.Turning, part.Threads}, Envelope: [2]float64{long + by, outside.Nominal},
		Minutes: [2]float64{120, 240}, Record: "how it runs on the screw", Cautions: []string{eyes}})
}

// tipPad is the pad that pushes short shanks out.
func (m *making) tipPad(thread string) {
	pad := "upgrade_" + m.ID + ".pad"
	if !m.more(m.Layout.Find(pad)) {
		return
	}
	root := m.or(thread+".root", 8)
	long := m.or(pad, 5)
	const over = 8
	length := m.limits(want{part: "pad", name: "length", label: "stands before the screw's tip", key: pad}, 0.5, 0, "common practice, no source: longer pushes earlier, shorter not at all")
	m.add(part.Part{Key: "pad", Label: "pad for the screw's tip", Material: "11smn30",
		Round: &part.Round{Length: drawn("", long+over), Outside: []part.Step{{Label: "before the tip", Length: length, Dia: drawn("", 0.8*root), Chamfer: 0.5},
			{Label: "over the tip", Length: m.general(want{part: "pad", label: "over the tip", nominal: over}), Dia: m.limits(want{part: "pad", label: "outside", nominal: 0.95 * root}, 0, -0.2, "geometry: it passes the nut"), Chamfer: 0.3}},
			Right: []part.Step{{Label: "over a spigot on the tip", Length: m.general(want{part: "pad", label: "depth over the spigot", nominal: over, grows: true}), Dia: m.class(want{part: "pad", label: "bore over the spigot", nominal: math.Round(0.55 * root), grows: true}, "H7")}}},
		Notes: []string{"Slips over a spigot turned on the screw's tip, held by a grub screw, and comes off for long shanks. It passes the nut: no larger than the screw's root."}})
	m.step(made, "pad", part.Operation{Key: "turn_pad", Do: "Turn the pad to slip over the screw's tip and to pass through the nut.", Needs: []part.Capability{part.Turning}, Minutes: [2]float64{30, 60}, Record: "length", Cautions: []string{eyes}})
}

// quillApart are the operations around: the tailstock apart, and together again.
func (m *making) quillApart() {
	m.step(stripped, "", part.Operation{Key: "strip_tailstock", Do: "Take the tailstock off the bed and the quill out of its body. A photo before each thing comes off; key and shims in numbered bags.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate}})
	m.step(assembled, "", part.Operation{Key: "fit_quill", Do: "Fit key, quill, nut and screw, oil them, and wind from end to end; set the key so that the quill does not turn.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "where the quill lets its tool go, and how far it stands out",
		Asks: []string{"Does the key still lie in its keyway at both ends?"}})
}
