package upgrade

import (
	"slices"
	"strconv"

	"fettle/plan/axis"
	"fettle/plan/fastener"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/thread"
	"fettle/plan/unit"
)

// metric is the size of a metric thread: "M6".
func metric(dia float64) string { return "M" + bare(dia) }

// bare is a number without zeros that say nothing.
func bare(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// sleeve is the piece that lengthens the screw, and the old end that it goes on.
// Where again names a scope, it takes the place of one that was made before.
func sleeve(m *making, kind, again string) {
	l := m.Layout
	if !m.more(l.Find("extension.sleeve")) {
		return
	}
	shank, _ := l.WithRole("shank")
	scope, label := "extension", "extension of the screw's end"
	if again != "" {
		scope, label = again, "new "+label+", in place of the one made before"
	}
	length := m.general(want{part: "extension", name: "length", label: "length over all", key: scope + ".length", leaf: scope + ".length", formula: "made"})
	if b, ok := l.WithRole("bracket"); ok {
		if _, new := m.out.Part(b.Key); new { // what it makes up for is made first
			length = m.suitsMade(length, "the new "+b.Label+": its length as made", b.Key+".length")
		}
	}
	r := &part.Round{Length: length}
	end := m.or("extension.thread", 0)
	outside := m.class(want{part: "extension", name: "outside", label: "outside", key: "extension.outside", leaf: "extension.outside", formula: "made"}, "h6")
	r.Outside = append(r.Outside, part.Step{Label: "sleeve", Length: drawn("", length.Nominal-end), Dia: outside, Chamfer: 0.3})
	if nut, ok := l.WithRole("lock_nut"); ok && end > 0 {
		pitch, dia := m.or(nut.Key+".pitch", 1), m.or(nut.Key+".thread_dia", m.or(shank.Key+".dia", 10))
		r.Outside = append(r.Outside, part.Step{Label: "thread for the " + nut.Label, Dia: drawn("", dia), Chamfer: pitch, Thread: metric(dia) + "×" + bare(pitch) + "-6g",
			Length: m.general(want{part: "extension", name: "thread", label: "thread", key: "extension.thread"})})
		r.Grooves = append(r.Grooves, undercut(length.Nominal-end, dia, pitch))
	}
	bore := want{part: "extension", name: "bore", label: "over the old end", key: shank.Key + ".dia", grows: true}
	lap := m.general(want{part: "extension", name: "lap", label: "depth over the old end", key: "extension.lap", leaf: "extension.lap", formula: "made", grows: true})
	hole := part.Step{Label: "over the old end", Length: lap, Chamfer: 0.3}
	var notes []string
	switch kind {
	case "brazed":
		hole.Dia = m.limits(bore, 2*joint.BrazeGapMost, 2*joint.BrazeGapLeast, joint.BrazeGapSource)
		notes = append(notes, "Leave 0.4 mm on the outside and 0.3 mm at the end; finish both when it is on the screw and straight.", "Drill a vent of 1.5 mm into the bottom of the bore: closed air bursts when it is heated.")
		r.Cross = append(r.Cross, part.CrossHole{At: drawn("", lap.Nominal-1), Dia: drawn("vent", 1.5), Label: "vent"})
	case "bonded":
		hole.Dia = m.limits(bore, 0.05, 0.02, "common practice, no source: 0.02 to 0.05 mm of clearance for retaining compound")
		notes = append(notes, "Degrease both; surfaces left as turned, Ra 0.8 to 1.6.")
	default:
		hole.Dia = m.class(bore, "H7")
		r.Cross = append(r.Cross, part.CrossHole{At: m.general(want{part: "extension", name: "pin_at", label: "cross pin", nominal: lap.Nominal / 2}), Through: true, Label: "reamed with the screw in place",
			Dia: m.class(want{part: "extension", name: "pin", label: "cross pin", key: "extension.pin", grows: true}, "H7")})
		notes = append(notes, "Drill and ream for the pin through both together.")
	}
	hole.Dia = m.suits(hole.Dia, "the old end of the screw, measured by micrometer", shank.Key+".dia", micrometer)
	r.Left = []part.Step{hole}
	m.add(part.Part{Key: "extension", Label: label, Material: "11smn30", Round: r, Notes: notes})
	if again == "" {
		m.add(oldEnd(m, shank, kind))
	} else {
		takeOffSteps(m, kind)
	}
	sleeveSteps(m, kind, length.Nominal, outside.Nominal)
	boredOut(m)
}

// undercut lets a nut or a shoulder come up to where a thread begins.
func undercut(at, dia, pitch float64) part.Groove {
	const why = "common practice, no source: three pitches wide, 0.2 mm below the root"
	root := dia - 1.226869*pitch - 0.2
	g := part.Groove{Form: "undercut", At: drawn("", at), Width: drawn("undercut", 3*pitch), Dia: drawn("undercut", root)}
	g.Width.Source, g.Dia.Source = why, why
	g.Width.Upper, g.Dia.Lower = 0.2, -0.2
	return g
}

// oldEnd is the screw as it is, with what is done to its end.
func oldEnd(m *making, shank *axis.Part, kind string) part.Part {
	p := part.Part{Key: "screw", Label: "old screw, its end", Replaces: shank.Key, Altered: true, Material: stock(shank.Material, "c45"), Round: &part.Round{}}
	if t, ok := m.Layout.WithRole("thread"); ok {
		p.Round.Outside = append(p.Round.Outside, part.Step{Label: "feed thread", Old: true, Length: drawn("", m.or(t.Key+".length", 100)), Dia: drawn("", m.or(t.Key+".dia", 12)), Thread: feedThread(m, t)})
	}
	end := m.or(shank.Key+".end_thread", 0)
	dia := m.or(shank.Key+".dia", 10)
	p.Round.Outside = append(p.Round.Outside, part.Step{Label: "shank", Old: true, Length: drawn("shank", m.or(shank.Key+".length", 60)-end), Dia: drawn("shank", dia)})
	if back := m.or("extension.cut_back", 0); back > shownLength {
		shortenedEnd(m, &p, back, end)
	} else if end > 0 {
		s := part.Step{Label: "old end thread, left as it is", Old: true, Length: drawn("old thread", end), Dia: drawn("", dia)}
		if nut, ok := m.Layout.WithRole("lock_nut"); ok {
			s.Thread = metric(m.or(nut.Key+".thread_dia", dia)) + "×" + bare(m.or(nut.Key+".pitch", 1))
		}
		p.Round.Outside = append(p.Round.Outside, s)
		p.Notes = append(p.Notes, "The old thread is left: its crests centre the sleeve. It is not counted as lap.")
	}
	if kind == "pinned" {
		p.Notes = append(p.Notes, "Drilled and reamed for the pin together with the extension.")
		p.Round.Cross = append(p.Round.Cross, part.CrossHole{Through: true, Label: "with the extension", Dia: drawn("cross pin", m.or("extension.pin", 3)),
			At: drawn("", m.roundLength(p.Round)-m.or("extension.lap", 14)/2)})
	} else {
		p.Notes = append(p.Notes, "Clean the lap to bright metal, free of oil, just before it is joined.")
	}
	return p
}

// shortenedEnd takes metal off the old end, its thread first.
func shortenedEnd(m *making, p *part.Part, back, end float64) {
	shank := &p.Round.Outside[len(p.Round.Outside)-1]
	was := &part.Round{Outside: slices.Clone(p.Round.Outside)}
	if end > 0 {
		was.Outside = append(was.Outside, part.Step{Label: "old thread", Length: drawn("", end), Dia: shank.Dia})
	}
	p.Round.Was = was
	left := end - back
	if left <= shownLength {
		shank.Length.Nominal += left
	} else {
		p.Round.Outside = append(p.Round.Outside, part.Step{Label: "old end thread, what is left of it", Old: true, Length: drawn("old thread", left), Dia: shank.Dia})
		p.Notes = append(p.Notes, "What is left of the old thread stays: its crests centre the sleeve. It is not counted as lap.")
	}
	p.Label += ", cut back"
	p.Notes = append(p.Notes, "Cut "+m.Units.With(back)+" off the old end and face it square, so that the sleeve stays whole between its bore and its thread.")
	m.step(fitted, "screw", part.Operation{Key: "cut_back_screw", Do: "Cut " + m.Units.With(back) + " off the old end of the screw, face it square and break its edge.",
		Needs: []part.Capability{part.Turning}, Envelope: [2]float64{was.Outside[len(was.Outside)-1].Length.Nominal, shank.Dia.Nominal}, After: []string{"measure_shank"}, Minutes: [2]float64{15, 30}, Record: "length of the shank left", Cautions: []string{eyes}})
}

func (m *making) roundLength(r *part.Round) float64 {
	long := 0.0
	for _, s := range r.Outside {
		long += s.Length.Nominal
	}
	return long
}

// feedThread is the designation of a feed screw's thread.
func feedThread(m *making, t *axis.Part) string {
	dia, okD := m.figure(t.Key + ".dia")
	pitch, okP := m.figure(t.Key + ".pitch")
	if !okD || !okP {
		return ""
	}
	letter, class := "M", "-6g"
	if t.Entries["form"].Typed == "trapezoidal" {
		letter, class = "Tr", "-7e"
	}
	if t.Entries["hand"].Typed == "left" {
		class = "-LH" + class
	}
	lead := unit.MM.Text(pitch, 3)
	if starts := m.or(t.Key+".starts", 1); starts > 1 {
		profile := unit.MM.Text(pitch/starts, 3)
		lead = map[string]string{"M": "Ph" + lead + "P" + profile, "Tr": lead + "(P" + profile + ")"}[letter]
	}
	name := letter + bare(dia) + "×" + lead + class
	if _, err := thread.Parse(name); err != nil {
		return "" // so deep a thread is none: the checks say so
	}
	return name
}

// sleeveSteps: made whole, joined with the screw out, and finished true to it.
func sleeveSteps(m *making, kind string, length, outside float64) {
	b, _ := m.Layout.WithRole("bracket")
	m.step(atHand, "", part.Operation{Key: "measure_shank", Do: "Take handle and dial off and measure the screw's end by micrometer; look whether it is round and straight. Put them back.",
		Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "diameter at three places, length of the old thread"})
	m.step(made, "extension", part.Operation{Key: "turn_extension", Do: "Turn the extension: bore it over the old end, screwcut its end with an undercut behind the thread.",
		Needs: []part.Capability{part.Turning, part.Threads}, Envelope: [2]float64{length, outside}, After: []string{"measure_shank", "turn_" + b.Key}, Minutes: [2]float64{60, 120},
		Record: "bore, depth and length over all", Cautions: []string{eyes}})
	long := length + m.or(m.shank()+".length", 0)
	if t, ok := m.Layout.WithRole("thread"); ok {
		long += m.or(t.Key+".length", 0)
	}
	switch kind {
	case "brazed":
		m.buy(part.Bought{Key: "silver_solder", Label: "silver solder, cadmium-free, melting at 630 to 660 °C, with its flux", Designation: "ISO 17672 Ag 155", Quantity: 1, For: "extension", Source: "ISO 17672, from memory, unchecked"})
		m.step(fitted, "extension", part.Operation{Key: "braze", Do: "Silver-braze the extension onto the old end: heat both, let the solder run in from the mouth, cool slowly, wash the flux off.",
			Needs: []part.Capability{part.Heat}, After: []string{"turn_extension"}, Minutes: [2]float64{45, 90}, Record: "a photo of the fillet all round", Cautions: joint.BrazeCautions})
		m.step(fitted, "extension", part.Operation{Key: "true_extension", Do: "Straighten the screw to 0.03 mm of run-out at its end, then turn the extension's outside and end to size between centres.",
			Needs: []part.Capability{part.Turning}, Envelope: [2]float64{long, outside}, After: []string{"braze"}, Minutes: [2]float64{45, 90}, Record: "run-out at the end and outside of the extension", Cautions: []string{eyes}})
	case "bonded":
		m.buy(part.Bought{Key: "retaining_compound", Label: "retaining compound, high strength, for a gap up to 0.05 mm", Designation: "", Quantity: 1, For: "extension", Source: "strength classes by ISO 10123"})
		m.step(fitted, "extension", part.Operation{Key: "bond", Do: "Degrease both, bond the extension on, and leave it a day before it is turned by hand.",
			Needs: []part.Capability{part.Bench}, After: []string{"turn_extension"}, Minutes: [2]float64{20, 40}, Record: "run-out at the end", Cautions: []string{"Solvent: no flame, fresh air.", "Retaining compound irritates the skin: gloves, away from the spindle."}})
	default:
		m.buy(part.Bought{Key: "cross_pin", Label: "cross pin", Designation: "ISO 8734 " + bare(m.or("extension.pin", 3)) + " × " + bare(pinLength(m.or("extension.pin", 3), outside)), Quantity: 1, For: "extension", Confirm: "turn_extension", Source: "ISO 8734"})
		m.step(fitted, "extension", part.Operation{Key: "pin", Do: "Push the extension home, drill and ream for the pin through both, drive the pin in.",
			Needs: []part.Capability{part.Reaming}, After: []string{"turn_extension"}, Minutes: [2]float64{30, 60}, Record: "run-out at the end", Cautions: []string{eyes}})
	}
}

// boredOut: what stands over the sleeve is bored out to it.
func boredOut(m *making) {
	for i := range m.Layout.Parts {
		p := &m.Layout.Parts[i]
		was, ok := m.earlier(p.Key + ".bore")
		bore, known := m.figure(p.Key + ".bore")
		if p.Role != "dial" && p.Role != "handle" || !ok || !known || bore < was+shownLength {
			continue
		}
		if p.Role == "dial" && m.replacedDial() {
			continue // a new dial is made with the bore that it needs
		}
		outside := m.or(p.Key+".dia", 2.5*bore)
		long := m.or(p.Key+".length", 15)
		size := m.class(want{part: p.Key, name: "bore", label: "bore", key: p.Key + ".bore", leaf: p.Key + ".bore", formula: "made", grows: true}, "H7")
		size = m.suitsMade(size, "the extension's outside as made", "extension.outside")
		m.add(part.Part{Key: p.Key, Label: p.Label + ", bored out", Replaces: p.Key, Altered: true, Material: stock(p.Material, "11smn30"), Round: &part.Round{
			Outside: []part.Step{{Label: p.Label, Length: drawn("", long), Dia: drawn("", outside), Old: true}},
			Left:    []part.Step{{Label: "bore", Length: drawn("", long), Dia: size, Through: true, New: true}},
			Was: &part.Round{
				Outside: []part.Step{{Length: drawn("", long), Dia: drawn("", outside)}},
				Left:    []part.Step{{Length: drawn("", long), Dia: drawn("", was), Through: true}},
			},
		}, Notes: []string{"Set true by its outside within 0.02 mm before it is bored."}})
		m.step(fitted, p.Key, part.Operation{Key: "bore_" + p.Key, Do: "Bore the " + p.Label + " out to the extension, set true by its outside.",
			Needs: []part.Capability{part.Boring}, Envelope: [2]float64{long, outside}, After: []string{"true_extension", "turn_extension"}, Minutes: [2]float64{30, 60}, Record: "bore, by the extension itself", Cautions: []string{eyes}})
	}
}

// replacedDial tells whether another upgrade of the axis makes a new dial.
func (m *making) replacedDial() bool {
	return slices.ContainsFunc(m.beside, func(o *Site) bool { return o.Upgrade.Kind == newDialKey && o.State != Finished })
}

// pinLength is the longest standard length that does not stand out of a sleeve.
func pinLength(dia, outside float64) float64 {
	p, ok := fastener.PinNamed("ISO 8734", dia)
	if !ok {
		return outside
	}
	longest := p.Shortest
	for _, l := range p.Lengths() {
		if l <= outside {
			longest = l
		}
	}
	return longest
}
