package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/fastener"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// floatAdjuster: nuts of their own that set the screw's end float, and squeeze
// neither dial nor handle.
type floatAdjuster struct{}

func (floatAdjuster) About() About {
	return About{
		Key: "float_adjuster", Label: "End-float adjuster of its own",
		Words:   []string{"end play", "axial play", "thrust adjustment", "ring nut", "locknut", "disc spring", "Belleville washer"},
		Purpose: "Two nuts on the screw, between bracket and dial, set the end float and nothing else: the handle can be tight and the dial free.",
		Cautions: []string{
			"Isolate the machine before the handle comes off.",
			"The slide may run down by itself where plain faces held it and their drag is taken away.",
			"A nut that is set with no float at all and no spring goes hard as the screw warms.",
		},
		Proof: "End float by push and pull; the dial turns freely with the handle's nut tight; the same after twenty reversals.",
		Hours: [2]float64{1, 3}, Risk: LowRisk, Undo: UndonePart, Own: true,
		Needs: []part.Capability{part.Turning, part.Threads},
		Cures: []string{"setting.squeezed", "lost_motion.end_float"},
	}
}

// Suits an axis whose screw is held by a bracket and carries something beyond it.
func (floatAdjuster) Suits(l *axis.Layout) bool {
	b, okB := l.WithRole("bracket")
	shank, okS := l.WithRole("shank")
	return okB && okS && onBracket(l, b) != nil && known(l, shank.Key+".dia") && len(adjusterThreads(l)) > 0
}

// Trials of an adjuster: the end float that plain faces run with.
func (floatAdjuster) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"end_float": "0.02 mm"}}}
}

// adjusterThreads are the fine threads that the shank has metal for, the largest first.
func adjusterThreads(l *axis.Layout) (list []fastener.RingNut) {
	shank, _ := l.WithRole("shank")
	dia := asFound(l, shank.Key+".dia")
	for _, d := range []float64{20, 18, 16, 15, 14, 12, 10, 8, 6} {
		pitch := 1.0
		if d < 8 {
			pitch = 0.75
		}
		if d <= dia+0.01 && d > 0.7*dia {
			list = append(list, fastener.RingNut{Dia: d, Pitch: pitch})
		}
	}
	return list
}

// adjusterSprings are the disc springs whose hole goes over a thread, closely enough to be guided.
func adjusterSprings(dia float64) (list []fastener.Disc) {
	for _, d := range fastener.Discs {
		if d.Inside > dia && d.Inside < dia+0.6 {
			list = append(list, d)
		}
	}
	return list
}

// adjusterClear is what is left between the adjuster and the dial, in mm.
const adjusterClear = 0.5

func (k floatAdjuster) Apply(s *Site) {
	l := s.Layout
	b, _ := l.WithRole("bracket")
	l.DefineEndFloat()
	s.aim("end_float", unit.MM, true)
	s.claim("shaft_end_nut", "the screw's length beyond the "+b.Label)
	nut := k.nuts(s)
	spring, sprung := k.spring(s, nut.Dia)
	if sprung {
		k.press(s, spring)
	} else {
		k.set(s)
	}
	k.thread(s, b)
	lengthenScrew(s)
	k.joint(s, b)
}

// nuts asks how the float is set, and gives the thread.
func (floatAdjuster) nuts(s *Site) fastener.RingNut {
	l, sc := s.Layout, s.Scope
	threads := adjusterThreads(l)
	var sizes []Option
	for _, t := range threads {
		sizes = append(sizes, Option{metric(t.Dia) + "x" + bare(t.Pitch), metric(t.Dia) + " × " + bare(t.Pitch)})
	}
	nut := threads[0]
	options := []Option{{"nuts", "two thin nuts, one locking the other"}}
	ring, ok := fastener.RingNutFor(threads[0].Dia)
	if ok {
		options = append(options, Option{"ring", "slotted ring nut " + metric(ring.Dia) + " × " + bare(ring.Pitch) + " with its lock washer"})
	}
	length := quiet("nuts", "nuts of the adjuster", "h", unit.MM)
	if s.choose(Field{Name: "by", Label: "Set by", Options: options}, "nuts") == "ring" {
		sc.Measure(length, sheet.Leaf{Value: ring.Width + ring.Washer, Origin: sheet.Chosen, Note: "ISO 2982-2, from memory, unchecked: measure them"})
		nut = ring
	} else {
		size := s.choose(Field{Name: "thread", Label: "Thread on the screw", Options: sizes}, sizes[0].Value)
		for i, o := range sizes {
			if o.Value == size {
				nut = threads[i]
			}
		}
		s.typed(sc, quiet("thin", "height of one thin nut", "m", unit.MM), Field{Name: "thin", Label: "Height of each nut", Hint: "three pitches at the least; four tenths of the diameter is usual"}, s.proposed(math.Max(3, 0.4*nut.Dia)), 1, 20, nan)
		sc.Formula(length, "2 * thin", "geometry: two of them")
	}
	sc.Measure(quiet("thread_dia", "thread of the adjuster", "d", unit.MM), sheet.Leaf{Value: nut.Dia, Origin: sheet.Chosen, Note: "as chosen"})
	sc.Measure(quiet("pitch", "pitch of the adjuster's thread", "P", unit.MM), sheet.Leaf{Value: nut.Pitch, Origin: sheet.Chosen, Note: "as chosen"})
	l.Assume(sc, quiet("washer", "washer with a tab under the nut, so that it does not turn it", "", unit.MM), 1, "common practice, no source: 1 mm of steel, its tab in a slot along the thread")
	return nut
}

// spring asks for a disc spring under the nuts.
func (floatAdjuster) spring(s *Site, dia float64) (fastener.Disc, bool) {
	list := adjusterSprings(dia)
	options := []Option{{"none", "none: the nut sets a float"}}
	for _, d := range list {
		options = append(options, Option{d.Series + bare(d.Outside), "disc spring " + bare(d.Outside) + " × " + bare(d.Inside) + " × " + bare(d.Thickness) + ", series " + d.Series})
	}
	chosen := s.choose(Field{Name: "spring", Label: "Disc spring under them", Options: options}, "none")
	for _, d := range list {
		if d.Series+bare(d.Outside) == chosen {
			return d, true
		}
	}
	return fastener.Disc{}, false
}

// set: the nuts leave a float.
func (floatAdjuster) set(s *Site) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("end_float", "end float wanted", "f_e", unit.MM), Field{Name: "end_float", Label: "End float wanted", Hint: "plain faces 0.01 to 0.03; rolling bearings down to nothing"}, "", 0, 0.5, 0.02)
	s.Amount, s.Most = sc.Key("end_float"), 0.1
	l.Scope.Change("end_float", "wanted", "as asked", sheet.With{"wanted": s.Amount})
	least, why := 0.01, "common practice, no source: 0.01 mm for the oil between plain faces"
	if l.Scope.Has("thrust.od") || l.Scope.Has("bearing_pair.od") {
		least, why = 0, "common practice, no source: rolling bearings need none"
	}
	l.Assume(sc, quiet("float_least", "least end float", "", unit.MM), least, why)
	sc.Check(sheet.Check{Key: "float_check", Label: "End float leaves room for the oil", Figure: "end_float", Limit: "float_least", Level: sheet.Rule,
		Sentence: "An end float of {figure} is asked for, and {limit} is the least.", Source: why})
	sc.Formula(quiet("stack", "adjuster along the screw", "L_a", unit.MM), "washer + nuts + clear", "geometry")
}

// press: a disc spring takes the float up as long as it pulls harder than the slide pushes.
func (floatAdjuster) press(s *Site, d fastener.Disc) {
	l, sc := s.Layout, s.Scope
	in := sc.In("disc")
	for _, x := range []struct {
		q sheet.Q
		v float64
	}{{quiet("outside", "disc spring, outside", "D", unit.MM), d.Outside}, {quiet("inside", "disc spring, inside", "d", unit.MM), d.Inside},
		{quiet("thick", "disc spring, thickness", "t", unit.MM), d.Thickness}, {quiet("cone", "disc spring, height of its cone", "h0", unit.MM), d.Cone}} {
		in.Measure(x.q, sheet.Leaf{Value: x.v, Origin: sheet.Chosen, Note: d.Designation()})
	}
	l.Assume(in, quiet("modulus", "modulus of spring steel", "E", unit.MPa), 206000, "DIN 2093: 206 GPa")
	l.Assume(in, quiet("poisson", "Poisson's ratio of spring steel", "µ", unit.One), 0.3, "DIN 2093: 0.3")
	s.typed(in, quiet("press", "disc spring pressed by", "s", unit.MM), Field{Name: "press", Label: "Spring pressed by", Hint: "up to three quarters of its cone: " + show(s, 0.75*d.Cone)}, "", 0, 5, 0)
	s.Amount, s.Most = in.Key("press"), d.Cone
	in.Method(quiet("shape", "factor of the spring's diameters", "K1", unit.One), fastener.DiscShape)
	in.Method(shown("load", "pull of the disc spring", "F", unit.Newton), fastener.DiscLoad)
	in.Formula(quiet("press_most", "most that the spring is pressed", "", unit.MM), "0.75 * cone", "DIN 2093: up to three quarters of the cone")
	in.Check(sheet.Check{Key: "press_check", Label: "Disc spring not pressed flat", Figure: "press", Limit: "press_most", AtMost: true, Level: sheet.Stop,
		Sentence: "The spring is pressed by {figure}, and {limit} is three quarters of its cone.", Source: "DIN 2093"})
	s.typed(sc, quiet("push", "push of cut and ways", "F_w", unit.Newton), Field{Name: "push", Label: "Push of cut and ways", Hint: "common practice, no source: 100 to 300 N of a light cut and oiled ways"}, "200", 1, 20000, nan)
	in.Check(sheet.Check{Key: "load_check", Label: "Spring pulls harder than the slide pushes", Figure: "load", Limit: sc.Key("push"), Level: sheet.Rule,
		Sentence: "The spring pulls with {figure}; a push of {limit} would lift the screw off its face.", Source: "statics"})
	l.Scope.Change("end_float", "when(pull > push, 0, was)", "statics: none as long as the spring pulls harder", sheet.With{"pull": in.Key("load"), "push": sc.Key("push")})
	if l.Scope.Has("hand_torque") {
		l.Assume(in, quiet("collar_friction", "friction at the thrust face", "µ", unit.One), 0.12, "common practice: oiled steel on iron or bronze 0.1 to 0.15")
		in.Formula(quiet("collar_dia", "middle of the thrust face", "d_c", unit.MM), "(outside + inside) / 2", "geometry: under the spring")
		in.Method(quiet("drag", "drag of the adjuster", "T", unit.NewtonMetre), screw.CollarTorque, sheet.With{"force": in.Key("load")})
		l.Limit(in, quiet("drag_most", "most drag of an adjuster", "", unit.NewtonMetre), sheet.Method{Text: "hand_torque / 10", Source: "common practice, no source: a tenth of the torque at the handle is hardly felt"})
		in.Check(sheet.Check{Key: "drag_check", Label: "Drag of the adjuster", Figure: "drag", Limit: "drag_most", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "The spring drags with {figure} at the handle, and {limit} is hardly felt.", Source: "common practice, no source"})
	}
	sc.Formula(quiet("stack", "adjuster along the screw", "L_a", unit.MM), "washer + nuts + thick + cone - press + clear", "geometry", sheet.With{"thick": in.Key("thick"), "cone": in.Key("cone"), "press": in.Key("press")})
}

// thread makes room on the screw's end.
func (floatAdjuster) thread(s *Site, b *axis.Part) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("clear", "clearance between adjuster and dial", "", unit.MM), adjusterClear, "common practice, no source: 0.5 mm")
	putBeyond(s, b, "adjuster", "stack", "geometry: washer, nuts, and clear of the dial", nil)
	sc.Formula(quiet("engaged", "turns of thread in one nut", "", unit.One), "nuts / 2 / pitch", "geometry")
	l.Assume(sc, quiet("engaged_least", "least turns of thread in a thin nut", "", unit.One), 3, "common practice, no source: 3 turns")
	sc.Check(sheet.Check{Key: "turns_check", Label: "Thread in each nut", Figure: "engaged", Limit: "engaged_least", Level: sheet.Rule,
		Sentence: "Each nut has {figure} turns of thread, and {limit} is the least.", Source: "common practice, no source"})
}

// joint keeps an extension's joint off the adjuster's thread.
func (floatAdjuster) joint(s *Site, b *axis.Part) {
	l, sc := s.Layout, s.Scope
	if !l.Scope.Has("extension.joint_from") {
		return
	}
	sc.Formula(quiet("joint_clear", "joint of the extension beyond the adjuster", "c", unit.MM), "when(sleeve > 0, joint_from - bracket_to - bearing - adjuster, inf)", "geometry",
		sheet.With{"sleeve": "extension.sleeve", "joint_from": "extension.joint_from", "bracket_to": b.Key + ".to", "bearing": "shaft_end.stands", "adjuster": "shaft_end.adjuster"})
	sc.Check(sheet.Check{Key: "joint_check", Label: "Extension's joint clear of the adjuster", Figure: "joint_clear", Limit: "touching", Level: sheet.Rule,
		Sentence: "The joint begins {figure} beyond the adjuster: its thread must be whole.", Source: "geometry"})
}

func (k floatAdjuster) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	sprung := s.input("spring", "none") != "none"
	if !sprung && strings.TrimSpace(s.input("end_float", "")) == "" || sprung && strings.TrimSpace(s.input("press", "")) == "" {
		say.text("Say ").strong(map[bool]string{true: "how far the spring is pressed", false: "how much end float the screw should have"}[sprung]).text(", and everything that follows from nuts of their own is shown here.")
		return say.runs
	}
	say.failures(s, r)
	say.became("End float comes to ", "", s, r, s.Goals[0].Key)
	if load, ok := s.figured(r, s.Scope.Key("disc.load")); ok {
		say.text(" The spring pulls with ").strong(load).text(".")
	}
	if takes, ok := s.figured(r, s.Scope.Key("stack")); ok {
		say.text(" Nuts and washer take ").strong(takes).text(" of the screw's end.")
	}
	say.extension(s, r)
	say.text(" Dial and handle are outside what sets the float.")
	return say.runs
}

// Parts of an adjuster: its nuts and washer, and the thread on the screw.
func (k floatAdjuster) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	up := sheet.Local(s.Scope.Key(""), s.Layout.Key)
	takes, ok := m.figure(up + "stack")
	if s.input("end_float", "") == "" && s.input("press", "") == "" || !ok {
		return Make{}
	}
	for _, ask := range s.asks {
		ask(m)
	}
	dia, pitch := m.or(up+"thread_dia", 10), m.or(up+"pitch", 1)
	thread := metric(dia) + "×" + bare(pitch)
	m.add(adjusterThread(m, thread, dia, takes))
	m.add(part.Part{Key: "tab_washer", Label: "washer with a tab", Material: "11smn30", Notes: []string{"Its tab runs in the slot along the thread; faces parallel within 0.01 mm."},
		Round: &part.Round{Outside: []part.Step{{Label: "washer", Length: m.limits(want{part: "tab_washer", name: "thickness", label: "thickness", key: up + "washer"}, 0.05, -0.05, "common practice, no source"), Dia: m.general(want{part: "tab_washer", label: "outside", nominal: 1.8 * dia})}},
			Left: []part.Step{{Label: "bore", Length: drawn("", 1), Dia: m.general(want{part: "tab_washer", label: "over the thread", nominal: dia + 0.2, grows: true}), Through: true}}}})
	if thin, ok := m.figure(up + "thin"); ok {
		high := m.general(want{part: "thin_nut", name: "height", label: "height", key: up + "thin"})
		m.add(part.Part{Key: "thin_nut", Label: "thin nut", Material: "11smn30", Quantity: 2, Notes: []string{"One face square to the thread: face it on a threaded stub. Two flats, or four holes for a pin spanner."},
			Round: &part.Round{Outside: []part.Step{{Label: "nut", Length: high, Dia: m.general(want{part: "thin_nut", name: "outside", label: "outside", nominal: 1.8 * dia}), Chamfer: 0.5}},
				Left: []part.Step{{Label: "thread", Length: drawn("", thin), Dia: drawn("", dia-pitch), Thread: thread + "-6H", Through: true, Chamfer: pitch / 2}}}})
		m.step(made, "thin_nut", part.Operation{Key: "turn_nuts", Do: "Turn and tap two thin nuts and the washer with its tab. Two bought thin nuts do as well, faced to their height.", Needs: []part.Capability{part.Turning}, Envelope: [2]float64{thin, 1.8 * dia}, Minutes: [2]float64{40, 90}, Record: "height of both", Cautions: []string{eyes}})
	} else {
		m.buy(part.Bought{Key: "ring_nut", Label: "slotted ring nut " + thread + " and its lock washer", Designation: "ISO 2982-2 " + thread, Quantity: 1, For: "fit_adjuster", Confirm: "measure_end", Source: "ISO 2982-2"})
	}
	for _, d := range adjusterSprings(dia) {
		if d.Series+bare(d.Outside) == s.input("spring", "none") {
			m.buy(part.Bought{Key: "disc_spring", Label: "disc spring " + bare(d.Outside) + " × " + bare(d.Inside) + " × " + bare(d.Thickness), Designation: d.Designation(), Quantity: 1, For: "fit_adjuster", Source: "DIN 2093"})
		}
	}
	m.step(measured, "", part.Operation{Key: "measure_end", Do: "Measure the screw beyond the bracket by micrometer, and see what the handle's nut squeezes now.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "diameter at three places, a photo of the end",
		Asks: []string{"Tighten the handle's nut: does the dial lock? Slacken it: does the screw get end float? Then one nut does both, and this cures it.", "Which thread is on the screw's end already: pitch by a thread gauge, inch or metric?"}})
	m.step(fitted, "shank_thread", part.Operation{Key: "cut_adjuster_thread", Do: "Between centres, cut the thread for the adjuster on the screw, up to the bracket's face, and file the slot for the washer's tab along it.", Needs: []part.Capability{part.Turning, part.Threads}, Envelope: [2]float64{m.or(m.shank()+".to", 0), dia}, Minutes: [2]float64{40, 90}, Record: "how the nuts run on it", Cautions: []string{eyes},
		Asks: []string{"Which hand? Cut it so that feeding in does not unwind the nut, or lock it by its tab."}})
	m.step(stripped, "", part.Operation{Key: "take_off", Do: "Take handle, dial and bracket off, and the screw out.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate}})
	m.step(assembled, "", part.Operation{Key: "fit_adjuster", Do: "Fit washer and nuts, oiled. Run the first nut up until the float is gone, back by the float wanted, hold it and lock it with the second. Then dial and handle, whose nut is tightened against the screw and not against the adjuster.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "end float", Cautions: []string{isolate},
		Asks: []string{"With the handle's nut tight: does the dial still turn by itself, and is the float as it was set?"}})
	m.proofOf(k.About())
	return m.finish()
}

// adjusterThread is the screw beyond the bracket with its new thread.
func adjusterThread(m *making, thread string, dia, takes float64) part.Part {
	shank := m.shank()
	shankDia := m.or(shank+".dia", dia)
	long := m.general(want{part: "shank_thread", name: "thread", label: "thread, up to the bracket", nominal: takes - adjusterClear})
	return part.Part{Key: "shank_thread", Label: "screw beyond the bracket", Altered: true, Replaces: shank, Material: "c45", Notes: []string{"The thread begins where the bracket ends, undercut to its root there.", "Measure bracket and thrust bearing as fitted before it is cut."},
		Round: &part.Round{Outside: []part.Step{
			{Label: "journal", Old: true, Length: drawn("", 2*shankDia), Dia: drawn("journal", shankDia)},
			{Label: "thread for the adjuster", Length: long, Dia: drawn("", dia), Thread: thread + "-6g", Chamfer: 0.5},
			{Label: "for dial and handle", Old: true, Length: drawn("", max(5, m.or("shaft_end.out", 30)-takes)), Dia: drawn("", min(shankDia, dia))},
		}}}
}
