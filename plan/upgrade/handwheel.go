package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// handwheel: a handle or handwheel of another size.
type handwheel struct{}

func (handwheel) About() About {
	return About{
		Key: "handwheel", Label: "Handle or handwheel",
		Words:   []string{"hand wheel", "crank", "ball handle", "balanced handle", "ball crank", "knob", "spinner", "spindle handle"},
		Purpose: "A wheel that the hand turns lightly, clear of what stands around it, and fast on its screw.",
		Cautions: []string{
			"Isolate the machine before the old handle comes off.",
			"A fixed spinning knob on a screw that power can drive strikes the hand: it must fold away, or the wheel disengage.",
			"A wheel out of balance winds itself: balance the knob, above all on an upright screw.",
			"A larger wheel lets the hand push harder against a stop than before.",
		},
		Proof: "Force at the rim by a spring balance, before and after; a finger's room all round, slide at both ends; no creep in ten minutes.",
		Hours: [2]float64{2, 6}, Risk: LowRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Turning, part.Boring},
		Cures: []string{"stiff.handle", "lost_motion.handle"},
	}
}

// Suits an axis with a handle on a screw.
func (handwheel) Suits(l *axis.Layout) bool {
	h, okH := l.WithRole("handle")
	_, okS := l.WithRole("shank")
	return okH && okS && h.Tie != nil && l.Scope.Has("hand_torque") && l.Scope.Has(h.Key+".length")
}

// Trials of a wheel: one of 120 mm, with which a hand gives 50 N for 3 N·m; a smaller
// one where there is no room for it.
func (handwheel) Trials(l *axis.Layout) []Trial {
	dia := 120.0
	if h, ok := l.WithRole("handle"); ok {
		if room := asFound(l, h.Key+".room"); room > besideWheel {
			dia = min(dia, math.Floor(2*(room-besideWheel)))
		}
	}
	return []Trial{{"", map[string]string{"dia": unit.MM.With(dia)}}}
}

// besideWheel is the clearance wanted around a wheel, in mm.
const besideWheel = 2

// comfortable are the forces that a hand gives at a rim without tiring, in N.
const (
	rimMost   = 60.0
	rimLeast  = 20.0
	rimSource = "common practice, no source: 20 to 60 N at the rim is comfortable"
)

func (k handwheel) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	h, _ := l.WithRole("handle")
	rimForce(l, h)
	s.aim(h.Key+".rim_force", unit.Newton, true)
	s.typed(sc, quiet("dia", "handle's diameter asked for", "D", unit.MM), Field{Name: "dia", Label: "Diameter at the rim", Hint: "of a crank: twice its radius"}, "", 20, 500, asFound(l, h.Key+".dia"))
	s.Amount, s.Most = sc.Key("dia"), 300
	l.Scope.Change(h.Key+".dia", "asked", "as asked", sheet.With{"asked": s.Amount})
	long := asFound(l, h.Key+".length")
	s.typed(sc, quiet("boss", "boss along the screw, asked for", "L_b", unit.MM), Field{Name: "boss", Label: "Boss, along the screw", Hint: "the old one is as long"}, s.proposed(long), 3, 200, long)
	l.Scope.Change(h.Key+".length", "asked", "as asked", sheet.With{"asked": sc.Key("boss")})

	l.Assume(sc, quiet("rim_most", "most at the rim", "F_max", unit.Newton), rimMost, rimSource)
	l.Assume(sc, quiet("rim_least", "least at the rim", "F_min", unit.Newton), rimLeast, rimSource)
	sc.Check(sheet.Check{Key: "force_check", Label: "Force at the rim", Figure: h.Key + ".rim_force", Limit: "rim_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The hand gives {figure} at the rim, and {limit} is comfortable.", Source: rimSource})
	sc.Check(sheet.Check{Key: "light_check", Label: "Feel at the rim", Figure: h.Key + ".rim_force", Limit: "rim_least", Level: sheet.Rule, Advice: true,
		Sentence: "The hand gives {figure} at the rim; below {limit} it no longer feels what the tool does.", Source: rimSource})
	k.room(s, h)
	k.spinner(s, h)
	k.fixing(s, h)
	lengthenScrew(s)
	k.nutThread(s)
	k.keyway(s, h)
}

// rimForce defines what a hand gives at the handle's rim, unless that is done.
func rimForce(l *axis.Layout, h *axis.Part) {
	if l.Scope.Has(h.Key + ".rim_force") {
		return
	}
	if !l.Scope.Has(h.Key + ".dia") {
		dia := sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)}
		if rim, ok := l.Scope.Leaf(h.Key + ".rim"); ok && rim.Origin != sheet.Unknown {
			dia = rim
			dia.Value, dia.Spread.Std, dia.Spread.Half = 2*rim.Value, 2*rim.Spread.Std, 2*rim.Spread.Half
			dia.Note = "twice the radius at which the hand holds it"
		}
		l.Scope.In(h.Key).Measure(sheet.Q{Key: "dia", Label: h.Label + " outside diameter", Symbol: "D", Unit: unit.MM, Quiet: true}, dia)
	}
	l.RimForce(h)
}

// room keeps the circle of the wheel, and the hand on it, clear of what is around.
func (handwheel) room(s *Site, h *axis.Part) {
	l, sc := s.Layout, s.Scope
	room := s.measuredOr(h.Key+".room", quiet("room", "room around the handle, from the screw's axis", "r_o", unit.MM),
		Field{Name: "room", Label: "Room around it, from the screw's axis", Hint: "to tray, apron, bench or the next handle, slide at both ends"}, "", 1, 1000)
	sc.Formula(quiet("clear", "handle clear of what is around it", "c", unit.MM), "room - radius", "geometry", sheet.With{"room": room, "radius": h.Key + ".radius"})
	l.Assume(sc, quiet("clear_least", "clearance wanted around a handle", "", unit.MM), besideWheel, "common practice, no source: 2 mm")
	sc.Check(sheet.Check{Key: "room_check", Label: "Handle clear of what is around it", Figure: "clear", Limit: "clear_least", Level: sheet.Stop,
		Sentence: "{figure} is left between the handle's circle and the nearest thing, and {limit} is wanted.", Source: "geometry"})
	l.Assume(sc, quiet("knuckles", "room for the knuckles", "", unit.MM), 30, "common practice, no source: 30 mm around a rim that is gripped")
	sc.Check(sheet.Check{Key: "knuckles_check", Label: "Room for the knuckles", Figure: "clear", Limit: "knuckles", Level: sheet.Use, Advice: true,
		Sentence: "{figure} is left around the rim, and knuckles want {limit}.", Source: "common practice, no source"})
}

// spinner asks for a knob to spin the wheel by, and what it pulls with.
func (handwheel) spinner(s *Site, h *axis.Part) {
	l, sc := s.Layout, s.Scope
	knob := s.choose(Field{Name: "spinner", Label: "Knob to spin it by", Options: []Option{{"none", "none"}, {"folding", "one that folds away"}, {"fixed", "a fixed one"}}}, "none")
	powered := s.choose(Field{Name: "powered", Label: "Power can turn this screw", Options: []Option{{"no", "no"}, {"yes", "yes"}}}, "no")
	if knob == "none" {
		return
	}
	if knob == "fixed" {
		strikes := 0.0
		if powered == "yes" {
			strikes = 1
		}
		sc.Measure(sheet.Q{Key: "strikes", Label: "fixed knobs that power can swing round", Symbol: "n", Unit: unit.Count, Quiet: true, Whole: true}, sheet.Leaf{Value: strikes, Origin: sheet.Chosen, Note: "as answered"})
		l.Assume(sc, quiet("strikes_most", "fixed knobs on a driven screw", "", unit.Count), 0, "common practice, no source: none, it strikes the hand")
		sc.Check(sheet.Check{Key: "strikes_check", Label: "No fixed knob on a driven screw", Figure: "strikes", Limit: "strikes_most", AtMost: true, Level: sheet.Stop,
			Sentence: "Fixed knobs that power would swing round: {figure}; they strike the hand, so {limit} it is to be. Take one that folds away.", Source: "common practice, no source"})
	}
	s.typed(sc, quiet("knob", "knob's mass", "m", unit.Kilogram), Field{Name: "knob", Label: "Mass of the knob with its pin", Hint: "on the kitchen scales; 0 where it is balanced"}, "0.05", 0, 2, 0)
	sc.Formula(quiet("creeps", "torque of the knob's weight", "T_k", unit.NewtonMetre), "knob * gravity(9.80665) * radius", "statics: m g R, knob level with the axis", sheet.With{"radius": h.Key + ".radius"})
	l.Limit(sc, quiet("stays", "drag that holds the wheel still", "", unit.NewtonMetre), sheet.Method{Text: "hand_torque / 10", Source: "common practice, no source: a tenth of the torque at the handle stays in screw and gib"})
	sc.Check(sheet.Check{Key: "balance_check", Label: "Wheel stays where it is left", Figure: "creeps", Limit: "stays", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "The knob's weight turns the wheel with {figure}, and {limit} holds it: put a weight opposite.", Source: "statics"})
}

func (k handwheel) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("dia", "")) == "" {
		say.text("Say how large the handle should be, and the force at its rim and all that follows is shown here.")
		return say.runs
	}
	say.failures(s, r)
	say.became("At the rim a hand gives ", "", s, r, s.Goals[0].Key)
	if could, ok := s.figured(r, s.Scope.Key("could")); ok {
		say.text(" Pulled hard it gives the screw ").strong(could).text(".")
	}
	if carries, ok := s.figured(r, s.Scope.Key("carries")); ok {
		say.text(" The fixing carries ").strong(carries).text(".")
	}
	say.extension(s, r)
	return say.runs
}

// Parts of a handle: the wheel, and what holds it.
func (k handwheel) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	h, _ := s.Layout.WithRole("handle")
	if strings.TrimSpace(s.input("dia", "")) == "" {
		return Make{}
	}
	for _, ask := range s.asks {
		ask(m)
	}
	p := wheel(m, h)
	held(m, h, &p)
	m.add(p)
	knob := m.input("spinner", "none")
	if knob != "none" {
		m.buy(part.Bought{Key: "knob", Label: map[string]string{"folding": "folding knob", "fixed": "knob that turns on its pin"}[knob], Designation: "M8, or as you like it", Quantity: 1, For: "fit_" + h.Key, Source: "trade sizes, no standard"})
	}
	m.step(measured, "", part.Operation{Key: "handle_before", Do: "Take the force at the rim by a spring balance, slide in the middle and at both ends, and the room around the handle all the way round. Wind the slide to both ends: what comes near?", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "force and radius, nearest thing and its distance",
		Asks: []string{"Can power turn this screw? Then a knob must fold away, or the wheel disengage.", "Which thread has the nut: its pitch by a thread gauge, its hand, inch or metric? Buy and cut nothing by eye."}})
	m.step(made, h.Key, part.Operation{Key: "turn_" + h.Key, Do: "Bore the wheel and turn boss and rim at one setting; break every edge that a hand meets.", Needs: []part.Capability{part.Turning, part.Boring}, Envelope: [2]float64{m.or(h.Key+".length", 0), m.or(h.Key+".dia", 0)}, After: []string{"handle_before"},
		Minutes: [2]float64{90, 200}, Record: "bore, and run-out of the rim", Cautions: []string{eyes, "A large casting in a chuck: low speed, and nothing within its circle."}, Asks: []string{"Is the wheel within the swing of your lathe, above the cross slide where it must be?"}})
	m.step(assembled, "", part.Operation{Key: "fit_" + h.Key, Do: "Fit the wheel with its key, pin or screws and its nut; wind from end to end and look all round. With a knob, put it level and let go: it stays, or it is balanced by a weight opposite.", Needs: []part.Capability{part.Bench}, After: []string{"turn_" + h.Key}, Minutes: [2]float64{20, 45}, Record: "room left at the nearest place", Cautions: []string{isolate},
		Asks: []string{"Does the nut stand on its thread with all its turns, and tighten before the thread ends?"}})
	m.proofOf(k.About())
	return m.finish()
}

// wheel is the blank of the handle.
func wheel(m *making, h *axis.Part) part.Part {
	long := m.general(want{part: h.Key, name: "length", label: "boss, over all", key: h.Key + ".length", leaf: h.Key + ".length", formula: "made"})
	bore := m.class(want{part: h.Key, name: "bore", label: "bore", key: h.Key + ".bore", leaf: h.Key + ".bore", nominal: m.or(m.shank()+".dia", 10), formula: "made", grows: true}, "H7")
	if !m.Layout.Scope.Has(h.Key + ".bore") {
		bore = m.class(want{part: h.Key, name: "bore", label: "bore", key: m.shank() + ".dia", grows: true}, "H7")
	}
	if m.more(m.Layout.Find("extension.sleeve")) {
		bore = m.suitsMadeBy(bore, "the extension's outside as made", "extension.outside")
	} else {
		bore = m.suits(bore, "the screw's end, measured by micrometer", m.shank()+".dia", micrometer)
	}
	rim := m.general(want{part: h.Key, name: "dia", label: "rim", key: h.Key + ".dia", leaf: h.Key + ".dia", formula: "made"})
	boss := m.general(want{part: h.Key, label: "boss", nominal: min(2*bore.Nominal+6, rim.Nominal)})
	web := min(12, long.Nominal/2)
	return part.Part{Key: h.Key, Label: "new " + h.Label, Replaces: h.Key, Material: stock(h.Material, "6082"), Notes: []string{"Rim rounded, no sharp edge anywhere; lighten the web as you like."},
		Round: &part.Round{Length: long, Outside: []part.Step{{Label: "boss", Length: drawn("", long.Nominal-web), Dia: boss, Chamfer: 0.5}, {Label: "rim", Length: drawn("", web), Dia: rim, Chamfer: 2}},
			Left: []part.Step{{Label: "bore", Length: drawn("", long.Nominal), Dia: bore, Through: true, Chamfer: 0.5}}}}
}

// held is what holds the wheel on its shaft, as a part sees it.
func held(m *making, h *axis.Part, p *part.Part) {
	shaft := m.or(h.Key+".bore", m.or(m.shank()+".dia", 10))
	boss := p.Round.Outside[0].Length.Nominal
	switch m.input("fixed", handleFixings[0].Value) {
	case "pin":
		d := m.or("upgrade_"+m.ID+".pin", 3)
		p.Round.Cross = append(p.Round.Cross, part.CrossHole{At: drawn("", boss/2), Dia: m.class(want{part: h.Key, name: "pin", label: "cross pin", nominal: d, grows: true}, "H7"), Through: true, Label: "reamed with the screw in place"})
		m.buy(part.Bought{Key: "handle_pin", Label: "cross pin", Designation: "ISO 2338 " + bare(d) + " × " + bare(math.Floor(p.Round.Outside[0].Dia.Nominal/2)*2), Quantity: 1, For: "fit_" + h.Key, Confirm: "turn_" + h.Key, Source: "ISO 2338"})
	case "grub":
		if g, ok := joint.GrubNamed(m.input("grub", "M5")); ok {
			p.Round.Cross = append(p.Round.Cross, part.CrossHole{At: drawn("", boss/2), Dia: drawn(g.Key, g.Dia), Thread: g.Key, Label: "grub screw"})
			p.Notes = append(p.Notes, "A second grub screw at 90° to the first.")
			m.buy(part.Bought{Key: "grub_screws", Label: "grub screws " + g.Key + ", cup point", Quantity: 2, For: "fit_" + h.Key, Source: "ISO 4029"})
		}
	default:
		if key, ok := joint.KeyFor(shaft); ok {
			p.Notes = append(p.Notes, "Keyway "+bare(key.Wide)+" wide, "+bare(key.InHub)+" deep above the bore; in the shaft "+bare(key.InShaft)+" deep. "+joint.KeySource+".")
			m.buy(part.Bought{Key: "key", Label: "parallel key " + bare(key.Wide) + " × " + bare(key.High) + ", cut to length", Quantity: 1, For: "fit_" + h.Key, Confirm: "turn_" + h.Key, Source: joint.KeySource})
		}
	}
}
