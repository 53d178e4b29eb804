package upgrade

import (
	"strings"

	"fettle/plan/axis"
	"fettle/plan/fastener"
	"fettle/plan/joint"
	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// slideLock: a screw with a soft pad that clamps a slide to its ways.
type slideLock struct{}

func (slideLock) About() About {
	return About{
		Key: "slide_lock", Label: "Slide lock",
		Words:   []string{"table lock", "saddle lock", "carriage lock", "clamp", "locking lever", "gib lock"},
		Purpose: "A slide that is not fed stands still during a cut.",
		Cautions: []string{
			"Isolate the machine before the slide is drilled.",
			"Drill with the slide off its ways: a drill that breaks through marks the way or the gib.",
			"Cast-iron dust: mask, extraction or a magnet, never an air line.",
			"Never start a power feed with the lock on: something breaks. Hang a tag on the lever, or let the lock stop the feed.",
		},
		Proof: "A dial gauge on the slide: it shifts and rises at most 0.01 mm when it is locked, and stays when it is pushed by twice the cutting force.",
		Hours: [2]float64{1, 4}, Risk: LowRisk, Undo: UndonePart, Own: false,
		Needs: []part.Capability{part.Bench, part.Turning},
		Cures: []string{"rocks.unlocked"},
	}
}

// Suits any slide on ways.
func (slideLock) Suits(l *axis.Layout) bool { return sliding(l) }

// Trials of a lock: a hand's torque on a small lever.
func (slideLock) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"torque": "4 N·m"}}}
}

// The depth of a pad that does not tip in its hole, as a share of its diameter.
const padLong = 1.0

func (k slideLock) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	sl, _ := l.OnWays()
	s.claim("lock", "the lock of the "+sl.Label)
	s.typed(sc, quiet("torque", "torque of a hand at the lever", "T", unit.NewtonMetre), Field{Name: "torque", Label: "Torque at the lever", Hint: "4 N·m: 80 N on a lever of 50 mm"}, "", 0, 60, nan)
	s.Amount, s.Most = sc.Key("torque"), unit.NewtonMetre.Inside(20)
	size := s.choose(Field{Name: "screw", Label: "Screw", Options: screwSizes("M5", "M6", "M8", "M10")}, "M8")
	s.own(quiet("bolt_dia", "diameter of the lock's screw", "d", unit.MM), coarse(size).Dia, size)
	sc.Method(quiet("lock_force", "force of the lock's screw", "F", unit.Newton), joint.BoltForce, sheet.With{"bolt_torque": "torque"})
	l.Assume(sc, quiet("friction", "friction of pad and ways", "µ", unit.One), slide.Friction, slide.FrictionSource)
	sc.Method(shown("hold", "push that the lock holds", "H", unit.Newton), slide.LockHold)
	l.Assume(sc, quiet("cutting", "push of a cut along the ways", "F_c", unit.Newton), 300, "common practice, no source: 100 to 500 N at the tool of a bench lathe or mill")
	l.Limit(sc, quiet("hold_least", "push to be held, at the least", "", unit.Newton), sheet.Method{Text: "2 * cutting", Source: "common practice, no source: twice the cut"})
	sc.Check(sheet.Check{Key: "hold_check", Label: "Lock holds the cut", Figure: "hold", Limit: "hold_least", Level: sheet.Rule,
		Sentence: "It holds {figure}, and {limit} is wanted.", Source: "common practice, no source: twice the cut"})
	s.Goals = []sheet.Goal{{Key: sc.Key("hold")}}
	k.pad(s)
	k.where(s, sl)
	k.hole(s)
}

// pad is what the screw presses on the way with.
func (slideLock) pad(s *Site) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("pad", "pad's diameter", "D", unit.MM), Field{Name: "pad", Label: "Pad, brass: diameter"}, s.proposed(8), 1, 40, 8)
	l.Assume(sc, quiet("pad_least", "least diameter of a pad", "", unit.MM), 6, "common practice, no source: 6 mm, so that it leaves no mark")
	sc.Check(sheet.Check{Key: "pad_check", Label: "Pad large enough", Figure: "pad", Limit: "pad_least", Level: sheet.Rule,
		Sentence: "The pad is {figure} across, and {limit} is the least.", Source: "common practice, no source"})
	brass, _ := material.Named("cuzn39pb3")
	sc.Method(quiet("pressure", "pressure under the pad", "p", unit.MPa), slide.PadPressure)
	sc.Measure(quiet("pressure_most", "pressure that the pad takes", "p_max", unit.MPa), sheet.Leaf{Value: brass.Bending, Origin: sheet.Assumed, Note: brass.Name + ", allowable; " + brass.Source})
	sc.Check(sheet.Check{Key: "pressure_check", Label: "Pressure under the pad", Figure: "pressure", Limit: "pressure_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The pad presses {figure} on the way, and {limit} is the most that brass takes.", Source: brass.Source})
}

// where the pad bears: on a gib it bends it, on the flat it lifts the slide.
func (slideLock) where(s *Site, sl *axis.Part) {
	l, sc := s.Layout, s.Scope
	on := s.choose(Field{Name: "on", Label: "The pad bears on", Options: []Option{
		{"flank", "the way's flank, opposite the gib or beside it"}, {"flat", "the way's flat, from above"}, {"gib", "the gib"},
	}}, "flank")
	switch on {
	case "flat":
		names := sheet.With{"play": gibPlay(s, sl), "angle": gibStrip{}.angle(s, sl)}
		sc.Method(shown("lift", "slide lifted by its lock", "v", unit.MM), slide.LockLift, names)
		l.Assume(sc, quiet("lift_most", "most that a lock may lift", "", unit.MM), 0.01, "common practice, no source: 0.01 mm")
		sc.Check(sheet.Check{Key: "lift_check", Label: "Slide not lifted by its lock", Figure: "lift", Limit: "lift_most", AtMost: true, Level: sheet.Rule,
			Sentence: "From above it lifts the slide by {figure}, and {limit} is the most: press on a flank, or take the play away first.", Source: slide.LockLift.Source})
	case "gib":
		const group = "The gib that it presses on"
		names := sheet.With{"load": "lock_force",
			"thickness": s.measuredOr("gib.thickness", quiet("thickness", "gib strip's thickness", "t", unit.MM), Field{Name: "thickness", Label: "Thickness of the strip", Group: group}, "", 0.5, 50),
			"blank":     s.measuredOr("gib.blank", quiet("blank", "gib strip's width along the flank", "b", unit.MM), Field{Name: "blank", Label: "Width along the flank", Group: group}, "", 1, 200),
			"spacing":   s.measuredOr(sl.Key+".gib_widest", quiet("spacing", "gib screws apart", "s", unit.MM), Field{Name: "spacing", Label: "Gib screws apart, where the lock is", Group: group}, "", 1, 500)}
		l.Assume(sc, quiet("modulus", "modulus of the strip", "E", unit.GPa), 110, "grey cast iron EN-GJL-250, handbook value 103 to 118 GPa (EN 1561)")
		sc.Method(quiet("second_moment", "second moment of the strip", "I", unit.MM4), slide.StripSecondMoment, names)
		sc.Method(shown("bent", "gib bent by the lock", "f", unit.Micrometre), slide.GibGivePoint, names)
		l.Assume(sc, quiet("bent_most", "most that a strip may give", "f_max", unit.Micrometre), unit.Micrometre.In(slide.GibGiveMost), slide.GibGiveMostSource)
		sc.Check(sheet.Check{Key: "bent_check", Label: "Gib not bent by the lock", Figure: "bent", Limit: "bent_most", AtMost: true, Level: sheet.Rule,
			Sentence: "Between its screws the gib is bent by {figure}, and {limit} is the most: let the pad bear on the way itself.", Source: slide.GibGiveMostSource})
	}
}

// hole is tapped in the slide's side, and bored for the pad.
func (slideLock) hole(s *Site) {
	l, sc := s.Layout, s.Scope
	const group = "The slide where it is tapped"
	s.typed(sc, quiet("wall", "slide's wall where it is tapped", "w", unit.MM), Field{Name: "wall", Label: "Thickness where it is tapped", Group: group}, "", 1, 200, nan)
	s.typed(sc, quiet("edge", "middle of the hole from the nearest edge", "e", unit.MM), Field{Name: "edge", Label: "Middle of the hole from the nearest edge", Hint: "underside, top, oil hole, gib screw or T-slot", Group: group}, "", 0.5, 200, nan)
	l.Assume(sc, quiet("pad_long", "pad long, times its diameter", "", unit.One), padLong, "common practice, no source: as long as it is wide, so that it does not tip")
	sc.Formula(quiet("thread_left", "thread for the lock's screw", "", unit.MM), "wall - pad_long * pad", "geometry: what the pad's hole leaves")
	l.Limit(sc, quiet("thread_least", "least thread for the lock's screw", "", unit.MM), joint.BoltInIron)
	sc.Check(sheet.Check{Key: "thread_check", Label: "Thread for the lock's screw", Figure: "thread_left", Limit: "thread_least", Level: sheet.Rule,
		Sentence: "Beyond the pad {figure} of thread is left, and {limit} is the least in cast iron.", Source: joint.BoltInIron.Source})
	l.Limit(sc, quiet("edge_least", "least from the hole's middle to an edge", "", unit.MM), sheet.Method{Text: "max(1.5 * bolt_dia, pad / 2 + mm(5))", Source: "common practice, no source: 1.5 diameters, and 5 mm of a casting beside the pad's hole"})
	sc.Check(sheet.Check{Key: "edge_check", Label: "Metal beside the lock's hole", Figure: "edge", Limit: "edge_least", Level: sheet.Rule,
		Sentence: "The hole's middle is {figure} from an edge, and {limit} is the least.", Source: "common practice, no source"})
}

func (slideLock) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("torque", "")) == "" {
		say.text("Say how hard the lever is turned, and what the lock holds is shown here.")
		return say.runs
	}
	say.failures(s, r)
	say.became("It holds a push of ", "", s, r, s.Goals[0].Key)
	if p, ok := s.figured(r, s.Scope.Key("pressure")); ok {
		say.text(" The pad presses " + p + " on the way.")
	}
	say.text(" Nothing else follows.")
	return say.runs
}

// Parts of a lock: the pad; a screw and a lever.
func (k slideLock) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if strings.TrimSpace(s.input("torque", "")) == "" {
		return Make{}
	}
	own := "upgrade_" + s.ID + "."
	size := s.input("screw", "M8")
	dia := m.class(want{part: "lock_pad", name: "dia", label: "outside", key: own + "pad", nominal: 8}, "f7")
	long := m.general(want{part: "lock_pad", name: "length", label: "length", nominal: padLong * m.or(own+"pad", 8)})
	m.add(part.Part{Key: "lock_pad", Label: "pad of the lock", Material: "cuzn39pb3", Round: &part.Round{Length: long, Outside: []part.Step{{Label: "pad", Length: drawn("", long.Nominal), Dia: dia, Chamfer: 0.5}}},
		Notes: []string{"On a dovetail's flank its end is filed to the flank's angle, with the pad in its place, so that it bears all over.", "Nylon does too, for a light hold."}})
	b := part.Bought{Key: "lock_screw", Label: "grub screw with a flat point, its head end held by the lever", Quantity: 1, For: "fit_lock", Confirm: "drill_lock", Source: "ISO 4026"}
	if screw, ok := fastener.ScrewNamed("ISO 4026", size); ok {
		if length, err := screw.Length(m.or(own+"wall", 20)-padLong*m.or(own+"pad", 8)+10, 60); err == nil {
			b.Designation = screw.Designation(length)
		}
	}
	m.buy(b)
	m.buy(part.Bought{Key: "lock_lever", Label: "lever that can be set to another angle, " + size, Quantity: 1, For: "fit_lock", Source: "common practice, no source"})
	m.step(made, "lock_pad", part.Operation{Key: "turn_lock_pad", Do: "Turn the pad to slide in its hole without shake, and part it off.", Needs: []part.Capability{part.Turning}, Envelope: [2]float64{long.Nominal, dia.Nominal}, Minutes: [2]float64{15, 30}, Record: "its diameter", Cautions: []string{eyes}})
	m.step(stripped, "", part.Operation{Key: "slide_off", Do: "Take the slide off its ways.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "how it came apart, with a photo", Cautions: []string{isolate}})
	m.step(cut, "", part.Operation{Key: "drill_lock", Do: "Drill and tap the hole from outside; bore its inner end for the pad, square to the face that the pad bears on. Break the edges.", Needs: []part.Capability{part.Milling}, Minutes: [2]float64{30, 75}, Record: "the hole, with a photo", Cautions: []string{eyes, ironDust},
		Asks: []string{"Does the pad meet the way itself, clear of the gib and its screws, with the slide at either end?", "What is behind the hole: an oil hole, a T-slot, a bolt?"}})
	m.step(assembled, "", part.Operation{Key: "fit_lock", Do: "Put pad, screw and lever in; set the lever so that it is tight where it fouls nothing, with the slide at both ends.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "the lever, locked and free, with a photo"})
	m.proofOf(k.About())
	return m.finish()
}
