package upgrade

import (
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// adjustableNut: a nut that takes up its backlash again and again.
type adjustableNut struct{}

// The ways in which a nut takes up backlash.
const (
	byWedge  = "wedge"
	byTwo    = "two"
	bySpring = "spring"
	byTilt   = "tilt"
)

func (adjustableNut) About() About {
	return About{
		Key: "adjustable_nut", Label: "Adjustable nut",
		Words:   []string{"anti-backlash nut", "split nut", "wedge nut", "backlash eliminator", "take-up", "spring-loaded nut", "double nut", "tilted nut", "feed nut"},
		Purpose: "A nut in two bearing parts that are set against each other, so that backlash is taken up now and whenever it has grown again.",
		Cautions: []string{
			"Isolate the machine before the slide is taken off its screw.",
			"Set it where the screw is least worn: taken up in the worn middle, it goes hard at the ends, and wears itself and the screw.",
			"Springs fly: press disc springs together in a vice, on a guide, never between fingers.",
			"Bronze dust: mask, and a damp cloth.",
		},
		Proof: "Lost motion at three places, twenty reversals apart; no tight spot from end to end; the push on the handle at three places.",
		Hours: [2]float64{2, 6}, Risk: LowRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Turning, part.Threads, part.Milling},
		Cures: []string{"lost_motion.nut"},
	}
}

// Suits an axis with a nut on a screw.
func (adjustableNut) Suits(l *axis.Layout) bool { return newNut{}.Suits(l) }

// Trials: as it is usually made; pressed by a spring; the old nut tilted.
func (adjustableNut) Trials(*axis.Layout) []Trial {
	return []Trial{
		{"split, set by a wedge", map[string]string{"how": byWedge, "left": "0.03 mm"}},
		{"two parts and a spring", map[string]string{"how": bySpring, "spring": "200"}},
		{"the old nut, tilted", map[string]string{"how": byTilt, "left": "0.03 mm"}},
	}
}

func (k adjustableNut) Apply(s *Site) {
	l := s.Layout
	nut, _ := l.WithRole("nut")
	t, _ := l.WithRole("thread")
	l.DefineLostMotion()
	s.aim("lost_motion_all", unit.MM, true)
	s.claim("nut", "the "+nut.Label)
	switch how := s.choose(Field{Name: "how", Label: "Backlash taken up by", Options: []Option{
		{byWedge, "a slot in the nut, and a wedge that a screw draws into it"}, {byTwo, "a second part, turned and clamped"},
		{bySpring, "a second part, pressed away by springs"}, {byTilt, "the old nut, tilted about its fixing screw"}}}, byWedge); how {
	case bySpring:
		k.parts(s, nut, t, 4)
		k.sprung(s, nut, t)
	case byTilt:
		take := k.set(s)
		k.tilted(s, nut, t, take)
	default:
		k.parts(s, nut, t, map[string]float64{byWedge: 2, byTwo: 3}[how])
		take := k.set(s)
		k.adjusted(s, t, how, take)
		k.pressure(s, t, s.Scope.Key("bearing"), "thrust")
	}
}

// set asks what play is left where the screw is least worn, and gives the key of
// what is taken up.
func (adjustableNut) set(s *Site) (take string) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("left", "play left where the screw is least worn", "b_n", unit.MM), Field{Name: "left", Label: "Play left, where the screw is least worn", Hint: "0.03; 0.02 to 0.05 is usual"}, "", 0, 1, nan)
	s.Amount, s.Most = sc.Key("left"), 0.3
	worn := evenScrew(s)
	if !l.Scope.Has("lost_motion_spread") {
		worn = "touching" // what is not measured elsewhere is not taken off here
	}
	l.Scope.Change("nut_play_less", "nut_play_found - left - worn", "as asked; where the screw is worn, so much more is left", sheet.With{"left": s.Amount, "worn": worn})
	runsFree(s, "left")
	sc.Formula(quiet("take", "backlash that is taken up", "b", unit.MM), "max(0, nut_play_found - left - worn)", "definition", sheet.With{"worn": worn})
	return sc.Key("take")
}

// parts asks how long the nut is over both parts, and what lies between them.
func (adjustableNut) parts(s *Site, nut, t *axis.Part, between float64) {
	l, sc := s.Layout, s.Scope
	newNut{}.length(s, nut, t)
	s.typed(sc, quiet("between", "between the nut's two parts", "g", unit.MM), Field{Name: "between", Label: "Between its two parts", Hint: "the slot, or the room for springs"}, s.proposed(between), 0.2, 100, between)
	sc.Formula(quiet("bearing", "each bearing part of the nut", "L_1", unit.MM), "(nut_long - between) / 2", "geometry", sheet.With{"nut_long": nut.Key + ".length"})
	l.Limit(sc, quiet("bearing_least", "least length of a bearing part", "", unit.MM), sheet.Method{Text: "dia", Source: "common practice, no source: one diameter each"}, sheet.With{"dia": t.Key + ".dia"})
	sc.Check(sheet.Check{Key: "bearing_check", Label: "Each part of the nut long enough", Figure: "bearing", Limit: "bearing_least", Level: sheet.Rule,
		Sentence: "Each part of the nut bears over {figure}, and {limit} is the least: a longer nut costs as much of the thread's window.", Source: "common practice, no source"})
}

// adjusted tells how finely the parts are set.
func (adjustableNut) adjusted(s *Site, t *axis.Part, how, take string) {
	l, sc := s.Layout, s.Scope
	if how == byTwo {
		sc.Formula(shown("turned", "second part of the nut turned by", "φ", unit.Degree), "2 * pi * take / lead", "definition of the lead", sheet.With{"lead": t.Key + ".pitch"})
		return
	}
	const group = "Wedge"
	s.typed(sc, quiet("wedge_angle", "angle of the wedge", "β", unit.Degree), Field{Name: "wedge_angle", Label: "Angle of its sloping face", Group: group}, "10", 1, 45, nan)
	s.typed(sc, quiet("wedge_pitch", "pitch of the screw that draws the wedge", "P", unit.MM), Field{Name: "wedge_pitch", Label: "Pitch of the screw that draws it", Group: group}, s.proposed(0.8), 0.2, 3, nan)
	sc.Formula(quiet("per_turn", "taken up by a turn of the wedge's screw", "", unit.MM), "wedge_pitch * tan(wedge_angle)", "geometry: the sloping face rises by tan β of the way")
	sc.Formula(shown("wedge_turns", "turns of the wedge's screw", "", unit.One), "take / per_turn", "definition")
	sc.Formula(quiet("step", "taken up by an eighth of a turn", "", unit.MM), "per_turn / 8", "common practice, no source: an eighth of a turn is what a hand sets")
	l.Assume(sc, quiet("step_most", "coarsest step of an adjustment", "", unit.MM), 0.02, "common practice, no source: the least play of a nut")
	sc.Check(sheet.Check{Key: "step_check", Label: "Wedge fine enough", Figure: "step", Limit: "step_most", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "An eighth of a turn takes up {figure}, and more than {limit} is coarse.", Source: "common practice, no source"})
}

// pressure compares thrust on one part's flanks with what its material takes: each
// direction has a part of its own.
func (adjustableNut) pressure(s *Site, t *axis.Part, long, force string) {
	chosen := nutMaterial(s)
	if !s.Layout.Scope.Has("hand_torque") {
		return
	}
	handThrust(s, t)
	flankPressure(s, t, chosen, long, force)
}

// sprung: springs that take up all play, as long as nothing overcomes them.
func (k adjustableNut) sprung(s *Site, nut, t *axis.Part) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("spring", "force of the springs", "F_s", unit.Newton), Field{Name: "spring", Label: "Force of the springs", Hint: "200"}, "", 0, 5000, nan)
	s.Amount, s.Most = sc.Key("spring"), 1000
	l.Scope.Change("nut_play_less", "nut_play_found", "as asked: all of it, while the springs hold")
	l.Assume(sc, quiet("cut", "force of a cut along the slide", "F_c", unit.Newton), 100, "common practice, no source: a light cut on a small machine")
	l.Assume(sc, quiet("drag", "push that moves the free slide", "F_r", unit.Newton), 40, "common practice, no source: 10 to 40 N, the screw out")
	sc.Formula(quiet("against", "what the springs must hold against", "F", unit.Newton), "cut + drag", "statics")
	sc.Check(sheet.Check{Key: "spring_check", Label: "Springs hold the slide against the cut", Figure: "spring", Limit: "against", Level: sheet.Rule,
		Sentence: "The springs press with {figure}, and cut and slide pull with {limit}: less, and the backlash opens in the cut.", Source: "statics"})
	flanks(s, t)
	turned(s, sc.Key("spring"), t.Key+".pitch")
	sc.Formula(shown("drags", "torque that the springs add at the handle", "T_s", unit.NewtonMetre), "max(0, thread_against + thread_with)", "statics: one part is driven against the springs, the other with them")
	if l.Scope.Has("hand_torque") {
		l.Limit(sc, quiet("drags_most", "most torque that springs may add", "", unit.NewtonMetre), sheet.Method{Text: "hand_torque / 3", Source: "common practice, no source: a third of the hand's torque"})
		sc.Check(sheet.Check{Key: "drags_check", Label: "It still winds lightly", Figure: "drags", Limit: "drags_most", AtMost: true, Level: sheet.Rule,
			Sentence: "The springs add {figure} at the handle, and {limit} is the most.", Source: "common practice, no source"})
	}
	k.pressure(s, t, sc.Key("bearing"), "thrust + spring")
}

// tilted: the nut's two ends bear on opposite flanks. Each end goes aside by
// half its length times the tilt, which the flanks' slope turns into endways
// play, and the tilt itself takes up as much again across the thread.
func (k adjustableNut) tilted(s *Site, nut, t *axis.Part, take string) {
	l, sc := s.Layout, s.Scope
	flanks(s, t)
	names := sheet.With{"nut_long": nut.Key + ".length", "lead": t.Key + ".pitch", "dia": t.Key + ".dia"}
	tilt := shown("tilt", "nut tilted by", "θ", unit.Degree)
	tilt.Decimals = 2
	sc.Formula(tilt, "take / (nut_long * tan(flank) + pitch_dia)", "geometry: at one end, aside by θ L/2 on flanks of slope tan α and askew by θ d_2/2 across the thread, take up half of the play each", names)
	sc.Formula(quiet("aside", "nut's ends go aside by", "", unit.MM), "tilt * nut_long / 2", "geometry", names)
	sc.Formula(quiet("bearing", "nut bears at either end over", "", unit.MM), "lead", "common practice, no source: about one turn", names)
	l.Limit(sc, quiet("bearing_least", "length that a nut is to bear over", "", unit.MM), sheet.Method{Text: "dia", Source: "common practice, no source: one diameter"}, names)
	sc.Check(sheet.Check{Key: "bearing_check", Label: "Tilted nut bears at its ends only", Figure: "bearing", Limit: "bearing_least", Level: sheet.Rule, Advice: true,
		Sentence: "It bears over {figure} at either end, where {limit} is good: it wears fast there, and is a stop-gap until a nut in two parts is made.", Source: "common practice, no source"})
	if !l.Scope.Has("hand_torque") {
		return
	}
	handThrust(s, t)
	stuff := nutMaterials[0].key
	for _, m := range nutMaterials {
		if stock(nut.Material, "") == m.key {
			stuff = m.key
		}
	}
	flankPressure(s, t, stuff, sc.Key("bearing"), "thrust")
}

func (k adjustableNut) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	how := s.input("how", byWedge)
	f, ok := r.Figure(s.Amount, sheet.Planned)
	if !ok || !f.Known() {
		if how == bySpring {
			say.text("Say how hard the springs should press, and what becomes of the lost motion is shown here.")
		} else {
			say.text("Say how much play should be left, and what becomes of the lost motion is shown here.")
		}
		return say.runs
	}
	say.failures(s, r)
	say.became("Lost motion comes to ", "", s, r, s.Goals[0].Key)
	told := func(before, key, after string) {
		if text, ok := s.figured(r, s.Scope.Key(key)); ok {
			say.text(before).strong(text).text(after)
		}
	}
	switch how {
	case byTilt:
		told(" The nut is tilted by ", "tilt", ".")
		told(" Its ends then stand ", "aside", " aside.")
		told(" It bears over ", "bearing", " at either end and nowhere between: a stop-gap.")
	case bySpring:
		told(" It stays so while cut and slide pull with less than ", "spring", ".")
		told(" The handle goes harder by ", "drags", ".")
	case byTwo:
		told(" The second part is turned by ", "turned", " and clamped.")
	default:
		told(" The wedge's screw takes it up in ", "wedge_turns", " turns.")
		told(" An eighth of a turn takes up ", "step", ".")
	}
	if how != byTilt {
		told(" Each direction is borne by one part, ", "bearing", " long.")
	}
	return say.runs
}

// Parts of an adjustable nut.
func (k adjustableNut) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	how := s.input("how", byWedge)
	if name := map[string]string{bySpring: "spring"}[how]; strings.TrimSpace(s.input(name, s.input("left", ""))) == "" {
		return Make{}
	}
	nut, _ := s.Layout.WithRole("nut")
	t, _ := s.Layout.WithRole("thread")
	m.proofOf(k.About())
	if how == byTilt {
		m.step(assembled, "", part.Operation{Key: "tilt_nut", Do: "Slacken the " + nut.Label + "'s fixing screw, wind the slide to where the screw is least worn, and turn the nut about that screw until the play is gone but for what is to be left; pin or shim it there and tighten.",
			Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 90}, Record: "lost motion at three places", Cautions: []string{isolate},
			Asks: []string{"Does one screw hold the nut, with room beside it to turn? Two screws or a spigot must be eased first.", "Does it wind from end to end without a tight spot?"}})
		return m.finish()
	}
	feedNut(m, nut, t, s.input("material", nutMaterials[0].key))
	k.pieces(m, nut, t, how)
	m.step(assembled, "", part.Operation{Key: "set_nut", Do: "With the slide wound to where the screw is least worn, " + map[string]string{
		byWedge: "draw the wedge in until the play is what is to be left, and lock its screw.", byTwo: "turn the second part until the play is what is to be left, and clamp it.",
		bySpring: "let the springs press the parts apart; the second part must slide, and not turn."}[how] + " Wind from end to end.",
		Needs: []part.Capability{part.Bench}, After: []string{"fit_" + nut.Key}, Minutes: [2]float64{20, 60}, Record: "lost motion at three places", Cautions: []string{isolate},
		Asks: []string{"Is there no place where it goes hard? If there is, the screw is worn elsewhere: give more play, or make a new screw."}})
	return m.finish()
}

// pieces are what makes two parts of a nut, and sets them.
func (adjustableNut) pieces(m *making, nut, t *axis.Part, how string) {
	own := sheet.Local(m.Scope.Key(""), m.Layout.Key)
	dia, between := m.or(t.Key+".dia", 12), m.or(own+"between", 3)
	cut := "Saw the " + nut.Label + " in two after it is threaded, so that both parts have one thread, and face the cut: " + m.Units.With(between) + " stays between them."
	if how == byWedge {
		cut = "After it is threaded, mill or saw a slot of " + m.Units.With(between) + " through the " + nut.Label + ", and leave a fifth of its height as the spring that joins the halves; file one side of the slot to the wedge."
		m.add(part.Part{Key: "wedge", Label: "wedge for the nut's slot", Material: "11smn30",
			Flat: &part.Flat{Length: m.general(want{part: "wedge", name: "length", label: "length", nominal: 1.5 * dia}), Width: m.general(want{part: "wedge", name: "width", label: "width", nominal: dia}), Thickness: drawn("", between+2), Angle: 90,
				Features: []part.Feature{{Kind: part.Hole, Label: "for its screw", X: drawn("", 0.75*dia), Y: drawn("", dia/2), Dia: drawn("", 4.2), Thread: "M5"}}},
			Notes: []string{"One face slopes by " + m.angle(own+"wedge_angle") + "; its thin edge suits the slot."}})
		m.step(made, "wedge", part.Operation{Key: "make_wedge", Do: "Mill the wedge, its sloping face last, and tap it for its screw.", Needs: []part.Capability{part.Milling}, Envelope: [2]float64{1.5 * dia, dia}, Minutes: [2]float64{30, 60}, Record: "how far it goes into the slot", Cautions: []string{eyes}})
		m.buy(part.Bought{Key: "wedge_screw", Label: "screw that draws the wedge", Designation: "ISO 4762 M5 × 20", Quantity: 1, For: "wedge", Source: "ISO 4762"})
	}
	m.step(made, nut.Key, part.Operation{Key: "split_" + nut.Key, Do: cut, Needs: []part.Capability{part.Milling}, Envelope: [2]float64{m.or(nut.Key+".length", 24), 1.8 * dia}, After: []string{"turn_" + nut.Key}, Minutes: [2]float64{30, 75}, Record: "length of each part", Cautions: []string{eyes}})
	switch how {
	case byTwo:
		m.buy(part.Bought{Key: "clamp_screws", Label: "screws that clamp the second part, through slots", Designation: "ISO 4762 M4 × 16", Quantity: 2, For: "set_nut", Confirm: "split_" + nut.Key, Source: "ISO 4762"})
	case bySpring:
		force, _ := m.figure(own + "spring")
		m.buy(part.Bought{Key: "disc_springs", Label: "disc springs that go over the screw, " + unit.Newton.Text(force, 0) + " N together when half pressed", Quantity: 4, For: "set_nut", Source: "disc springs by EN 16983, from memory, unchecked: read force and travel off the table of those that you buy"})
		m.buy(part.Bought{Key: "nut_key", Label: "pin that keeps the second part from turning", Designation: "ISO 8734 4 × 24", Quantity: 1, For: "set_nut", Source: "ISO 8734"})
	}
}

// angle writes an angle within the axis.
func (m *making) angle(name string) string {
	v, _ := m.figure(name)
	return unit.Degree.With(v)
}
