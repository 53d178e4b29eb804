package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// newNut: a new nut on the screw that there is.
type newNut struct{}

func (newNut) About() About {
	return About{
		Key: "new_nut", Label: "New feed nut",
		Words:   []string{"feed nut", "backlash", "worn nut", "bronze nut", "acetal nut", "plastic nut", "cross slide nut", "tapping"},
		Purpose: "The nut fits its screw again, so that less of the handle's turn is lost.",
		Cautions: []string{
			"Isolate the machine before the slide is taken off its screw.",
			"Try the thread on the screw's least worn stretch: a nut bored to fit the worst of it is loose everywhere else.",
			"Bronze dust: mask, and a damp cloth.",
		},
		Proof: "Lost motion and end float at three places; the push on the handle at three places; no place where it goes hard.",
		Hours: [2]float64{3, 8}, Risk: LowRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Turning, part.Threads},
		Cures: []string{"lost_motion.nut"},
	}
}

// Suits an axis with a nut on a screw.
func (newNut) Suits(l *axis.Layout) bool {
	_, okN := l.WithRole("nut")
	_, okT := l.WithRole("thread")
	return okN && okT
}

// Trials of a nut: the play that a new one has.
func (newNut) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"play": "0.05 mm"}}}
}

// nutMaterials are what a nut is made of, the usual first, and what presses on
// its flanks without wearing them.
var nutMaterials = []struct {
	key      string
	pressure float64 // MPa
}{{"c93200", screw.NutPressureBronze}, {"gjl250", screw.NutPressureIron}, {"pom_c", screw.NutPressureAcetal}}

func (k newNut) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	nut, _ := l.WithRole("nut")
	t, _ := l.WithRole("thread")
	l.DefineLostMotion()
	s.aim("lost_motion_all", unit.MM, true)
	s.claim("nut", "the "+nut.Label)

	s.typed(sc, quiet("play", "play of the new nut where the screw is least worn", "b_n", unit.MM), Field{Name: "play", Label: "Play wanted, where the screw is least worn", Hint: "0.05; 0.03 to 0.1 is usual"}, "", 0, 1, nan)
	s.Amount, s.Most = sc.Key("play"), 0.3
	evenScrew(s)
	more := "0" // of wear that was not looked for, nothing is taken off: the check asks for it
	if l.Scope.Has("lost_motion_spread") {
		more = "lost_motion_spread"
	}
	l.Scope.Change("nut_play_less", "nut_play_found - play - "+more, "as asked; where the screw is worn, so much more is left", sheet.With{"play": s.Amount})
	runsFree(s, "play")

	k.length(s, nut, t)
	k.pressure(s, nut, t)
}

// length asks how long the new nut is, and which way it grows.
func (newNut) length(s *Site, nut, t *axis.Part) {
	l, sc := s.Layout, s.Scope
	old, proposal := nan, ""
	if known := foundLength(l, nut); nut.Tie == nil && !math.IsNaN(known) {
		old, proposal = known, s.proposed(known)
	}
	s.typed(sc, quiet("length", "length of the new nut", "L_n", unit.MM), Field{Name: "length", Label: "Length of the new nut", Hint: "the old one is as long; 1.5 to 2.5 diameters"}, proposal, 1, 300, old)
	grows := s.choose(Field{Name: "grows", Label: "Where it is longer or shorter", Options: []Option{
		{"to", "at the end " + l.EndName(axis.Plus)}, {"from", "at the end " + l.EndName(axis.Minus)}}}, "to")
	if nut.Tie == nil {
		sc.Fix(quiet("more", "nut longer by", "", unit.MM), "length - nut_long", "geometry", sheet.With{"nut_long": nut.Key + ".length"})
		shift(s, nut, grows, map[string]string{"to": "+", "from": "-"}[grows], sc.Key("more"))
	}
	l.Limit(sc, quiet("length_least", "least length of a nut", "", unit.MM), screw.NutLeast, threadOf(l, t))
	sc.Check(sheet.Check{Key: "length_check", Label: "Nut long enough", Figure: nut.Key + ".length", Limit: "length_least", Level: sheet.Rule,
		Sentence: "The nut is {figure} long, and {limit} is the least.", Source: screw.NutLeast.Source})
}

// pressure compares a hand's thrust on the flanks with what the material takes.
func (newNut) pressure(s *Site, nut, t *axis.Part) {
	chosen := nutMaterial(s)
	if !s.Layout.Scope.Has("hand_torque") {
		return
	}
	handThrust(s, t)
	flankPressure(s, t, chosen, nut.Key+".length", "thrust")
}

// nutMaterial asks what a nut is made of.
func nutMaterial(s *Site) string {
	var options []Option
	for _, x := range nutMaterials {
		if stuff, ok := material.Named(x.key); ok {
			options = append(options, Option{x.key, stuff.Name})
		}
	}
	return s.choose(Field{Name: "material", Label: "Made of", Options: options}, nutMaterials[0].key)
}

// flankPressure compares a force, given by its formula, on the flanks of what
// bears over a length with what the material takes.
func flankPressure(s *Site, t *axis.Part, stuff, long, force string) {
	l, sc := s.Layout, s.Scope
	for _, x := range nutMaterials {
		if x.key == stuff {
			l.Assume(sc, quiet("pressure_most", "pressure that the nut's flanks take", "p_max", unit.MPa), x.pressure, screw.NutPressureSource)
		}
	}
	sc.Formula(quiet("pressure", "pressure on the nut's flanks", "p", unit.MPa), "("+force+") / (pi * (dia - pitch / 2) * pitch / 2 * min(10, bears / pitch))",
		screw.NutPressure.Source+"; pitch diameter d − P/2, flanks P/2 high, as in ISO 2904", sheet.With{"dia": t.Key + ".dia", "pitch": profileOf(l, t), "bears": long})
	sc.Check(sheet.Check{Key: "pressure_check", Label: "Pressure on the nut's flanks", Figure: "pressure", Limit: "pressure_most", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "A hand's thrust presses {figure} on the flanks, and {limit} is what wears slowly.", Source: screw.NutPressureSource})
}

// handThrust is the thrust that a hand gives through the screw, in the
// upgrade's own scope.
func handThrust(s *Site, t *axis.Part) {
	s.Layout.Assume(s.Scope, quiet("efficiency", "efficiency of the screw", "η", unit.One), 0.3, "common practice, no source: 0.2 to 0.4 of a plain feed screw")
	s.Scope.Formula(quiet("thrust", "thrust that a hand gives", "F", unit.Newton), "2 * pi * hand_torque * efficiency / lead", "definition of the efficiency: F = 2 π T η / l", sheet.With{"lead": t.Key + ".pitch"})
}

func (newNut) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("play", "")) == "" {
		say.text("Say how much play the new nut should have, and what becomes of the lost motion is shown here.")
		return say.runs
	}
	say.failures(s, r)
	say.became("Lost motion comes to ", "", s, r, s.Goals[0].Key)
	if f, ok := r.Figure(s.Layout.Find("lost_motion_spread"), sheet.Planned); ok && f.Known() && f.Value > shownLength {
		say.text(" Of that ").strong(show(s, f.Value)).text(" is the screw's own wear, which a nut cannot take away.")
	}
	return say.runs
}

// Parts of a nut: the nut itself.
func (newNut) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if strings.TrimSpace(s.input("play", "")) == "" {
		return Make{}
	}
	nut, _ := s.Layout.WithRole("nut")
	t, _ := s.Layout.WithRole("thread")
	feedNut(m, nut, t, s.input("material", nutMaterials[0].key))
	m.proofOf(newNut{}.About())
	return m.finish()
}

// feedNut is a nut made anew, with its steps.
func feedNut(m *making, nut, t *axis.Part, stuff string) {
	dia, pitch := m.or(t.Key+".dia", 12), m.or(profileOf(m.Layout, t), 2)
	w := want{part: nut.Key, name: "length", label: "length", key: nut.Key + ".length", nominal: 2 * dia}
	if nut.Tie == nil {
		w.leaf, w.formula = nut.Key+".to", "from + made"
	}
	length := m.general(w)
	outside := drawn("across, as the old nut", 1.8*dia)
	outside.Suits, outside.Limits = "the nut's place in its slide", toSuit
	p := part.Part{Key: nut.Key, Label: "new " + nut.Label, Replaces: nut.Key, Material: stuff,
		Round: &part.Round{Length: length, Outside: []part.Step{{Label: "nut", Length: drawn("", length.Nominal), Dia: outside, Chamfer: 0.5}},
			Left: []part.Step{{Label: "thread", Length: drawn("", length.Nominal), Dia: drawn("", dia-pitch), Thread: strings.NewReplacer("-7e", "-7H", "-6g", "-6H").Replace(feedThread(m, t)), Through: true, Chamfer: pitch}}},
		Notes: []string{"Outside, spigot and fixing hole: copy the old nut, measured off its slide.", "The thread is the screw's: try it on the stretch that is least worn.", "Break the first half turn of the thread at both ends."}}
	m.add(p)
	m.step(measured, "", part.Operation{Key: "measure_nut", Do: "Take the slide off its screw and the nut out. Measure how it is held, how high its axis stands, and the screw's thread at the middle and at both ends. Put all back: the machine is needed.", Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, After: []string{"readings_before"},
		Minutes: [2]float64{45, 90}, Record: "the nut's sizes, and a photo of how it sits", Cautions: []string{isolate}, Asks: []string{"Which hand is the thread? Held upright, a right-hand thread climbs to the right.", "Is the screw worn in the middle only?"}})
	m.step(made, nut.Key, part.Operation{Key: "turn_" + nut.Key, Do: "Bore and screwcut the new nut, or tap it in two or three stages, until the screw's least worn stretch runs in it without shake; then bring its outside to the old one's.", Needs: []part.Capability{part.Turning, part.Threads},
		Envelope: [2]float64{length.Nominal, outside.Nominal}, After: []string{"measure_nut"}, Minutes: [2]float64{120, 300}, Record: "length, and how it runs on the screw", Cautions: []string{eyes}})
	m.step(stripped, "", part.Operation{Key: "nut_out", Do: "Take the slide off its screw and the old nut out; keep it until the new one is proved.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "where shims lay, with a photo", Cautions: []string{isolate}})
	m.step(assembled, "", part.Operation{Key: "fit_" + nut.Key, Do: "Fit the new nut with its screws just nipped; wind the slide to the end nearest the bracket, pinch the nut up there, wind out and tighten. Oil it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "push on the handle at three places",
		Asks: []string{"Does it wind as lightly next to the bracket as at the far end? If not, the nut is out of line: shim it."}})
}
