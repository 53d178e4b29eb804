package upgrade

import (
	"math"
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/bearing"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// thrustSet: rolling bearings that take the screw's thrust at the bracket.
type thrustSet struct{}

func (thrustSet) About() About {
	return About{
		Key: "thrust_set", Label: "Thrust bearings on the screw",
		Purpose: "The screw is held endways between rolling bearings instead of plain faces: less end float, at less drag.",
		Cautions: []string{
			"Isolate the machine before the handle comes off.",
			"Hard washers on both sides of needles, 58 HRC and more: soft ones are rolled to grooves.",
			"Swarf ruins needles: a shield with a gap under 0.3 mm, or a ring of felt.",
			"The nut that sets the end float must not squeeze dial or handle as well.",
			"A vertical or spring-loaded slide that plain faces held may run down by itself on rolling bearings.",
		},
		Proof: "End float at most 0.02 mm at no drag that is felt; torque at the handle before and after; bracket warm and not hot after ten minutes of winding.",
		Words: []string{"bronze washers", "preloaded pair", "needle thrust", "thrust washers", "ball thrust", "angular contact", "bearings", "end play", "axial play"},
		Hours: [2]float64{2, 14}, Risk: LowRisk, Undo: UndonePart, Own: true,
		Needs: []part.Capability{part.Turning, part.Boring},
		Cures: []string{"lost_motion.end_float", "stiff.thrust"},
	}
}

// Trials of a thrust set: the end float that rolling bearings give.
func (thrustSet) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"end_float": "0.01 mm"}}}
}

// Suits an axis whose screw is held by a bracket and carries something beyond it.
func (thrustSet) Suits(l *axis.Layout) bool {
	b, okB := l.WithRole("bracket")
	shank, okS := l.WithRole("shank")
	_, okT := l.WithRole("thread")
	return okB && okS && okT && onBracket(l, b) != nil && known(l, shank.Key+".dia") && len(thrustBearings(l)) > 0
}

// onBracket is what stands against the bracket's outer end.
func onBracket(l *axis.Layout, b *axis.Part) *axis.Part {
	for i := range l.Parts {
		if p := &l.Parts[i]; p.Tie != nil && p.Tie.Part == b.Key && p.Tie.Face == "to" {
			return p
		}
	}
	return nil
}

// thrustBearings are those whose bore is the shank's diameter, needles first.
func thrustBearings(l *axis.Layout) []bearing.Bearing {
	shank, _ := l.WithRole("shank")
	dia := asFound(l, shank.Key+".dia")
	var list []bearing.Bearing
	for _, kind := range []bearing.Kind{bearing.NeedleThrust, bearing.ThrustBall, bearing.SmallThrust, bearing.AngularContact} {
		for _, b := range bearing.Catalogue {
			if b.Kind == kind && math.Abs(b.Bore-dia) < 0.01 {
				list = append(list, b)
			}
		}
	}
	return append(list, plainFor(dia))
}

// thrustBearing is the one that was chosen, the first of them where none was.
func (s *Site) thrustBearing() bearing.Bearing {
	list := thrustBearings(s.Layout)
	i := slices.IndexFunc(list, func(b bearing.Bearing) bool { return b.Designation == s.input("set", "") })
	return list[max(i, 0)]
}

// thick is how much of the shaft a set takes at one place: a pair of angular
// contact bearings takes both directions there.
func thick(b bearing.Bearing) float64 {
	if b.Kind == bearing.AngularContact {
		return 2 * b.Width
	}
	return b.Height()
}

func thrustLabel(b bearing.Bearing) string {
	size := sized(b)
	switch b.Kind {
	case bearing.NeedleThrust:
		return "needles " + size + ", two washers of 1 mm: " + bare(b.Height()) + " mm thick"
	case plainWasher:
		return "plain bronze washers " + size
	case bearing.AngularContact:
		return "pair of angular contact bearings " + size + ": " + bare(2*b.Width) + " mm"
	}
	return string(b.Kind) + " bearing " + size
}

// recessOver is how much larger than a bearing its recess is.
const recessOver = 0.2

func (k thrustSet) Apply(s *Site) {
	b, _ := s.Layout.WithRole("bracket")
	shank, _ := s.Layout.WithRole("shank")
	chosen, side := k.choice(s)
	k.float(s, chosen)
	k.sizes(s, chosen)
	k.seat(s, b, "outer", side != "inner")
	k.seat(s, b, "inner", side != "outer")
	k.load(s, chosen)
	k.walls(s, b, chosen)
	k.shift(s, b, shank, chosen, side)
	lengthenScrew(s)
}

// choice asks which bearing, and at which end of the bracket.
func (thrustSet) choice(s *Site) (chosen bearing.Bearing, side string) {
	var options []Option
	for _, x := range thrustBearings(s.Layout) {
		options = append(options, Option{x.Designation, thrustLabel(x)})
	}
	s.choose(Field{Name: "set", Label: "Bearing", Options: options}, options[0].Value)
	chosen = s.thrustBearing()
	sides := []Option{{"both", "either side of the bracket"}, {"outer", "at its outer end, towards the handle"}, {"inner", "at its inner end, towards the nut"}}
	if chosen.Kind == bearing.AngularContact {
		sides = []Option{{"outer", "at its outer end, locked by a nut"}}
	}
	return chosen, s.choose(Field{Name: "side", Label: "Where", Options: sides}, sides[0].Value)
}

// float asks how much end float is wanted, and checks that such bearings give it.
func (thrustSet) float(s *Site, chosen bearing.Bearing) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("end_float", "end float wanted", "f_e", unit.MM), Field{Name: "end_float", Label: "End float wanted", Hint: "0.01; what is measured now is before it"}, "", 0, 0.5, 0.01)
	s.Amount, s.Most = sc.Key("end_float"), 0.1
	l.DefineEndFloat()
	s.aim("end_float", unit.MM, true)
	l.Scope.Change("end_float", "wanted", "as asked", sheet.With{"wanted": s.Amount})
	least, most, why := floats(chosen)
	l.Assume(sc, quiet("float_most", "most end float with such bearings", "", unit.MM), most, why)
	sc.Check(sheet.Check{Key: "float_check", Label: "End float", Figure: "end_float", Limit: "float_most", AtMost: true, Level: sheet.Rule,
		Sentence: "An end float of {figure} is asked for, and {limit} is what they give.", Source: why})
	if least > 0 {
		l.Assume(sc, quiet("float_least", "least end float with plain faces", "", unit.MM), least, why)
		sc.Check(sheet.Check{Key: "oil_check", Label: "End float leaves room for the oil", Figure: "end_float", Limit: "float_least", Level: sheet.Rule,
			Sentence: "An end float of {figure} is asked for, and plain faces want {limit} for the oil.", Source: why})
	}
}

// sizes are the set's own. They stand in one place of the axis: a second set
// takes the place of the first, and the two are named.
func (thrustSet) sizes(s *Site, chosen bearing.Bearing) {
	l, set := s.Layout, s.Scope.In("set")
	own := func(key, label, symbol string, u unit.Unit, value float64, note string) {
		q := quiet(key, label, symbol, u)
		set.Measure(q, sheet.Leaf{Value: value, Origin: sheet.Chosen, Note: note})
		if !l.Scope.Has("thrust." + key) {
			l.Scope.In("thrust").Measure(q, sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
		}
		l.Scope.Change("thrust."+key, "chosen", "as chosen", sheet.With{"chosen": set.Key(key)})
	}
	source := thrustSource(chosen)
	own("od", "thrust set, outside", "D", unit.MM, chosen.OD, source)
	own("thickness", "thrust set, thickness", "t", unit.MM, thick(chosen), source)
	if chosen.Kind != plainWasher {
		own("static", "thrust set, static rating", "C0", unit.Newton, chosen.Static*bearing.Spread, chosen.RatingSource()+"; "+bearing.SpreadSource)
	}
}

// seat asks how deep the set is sunk into a face of the bracket.
func (thrustSet) seat(s *Site, b *axis.Part, at string, used bool) {
	l := s.Layout
	where := bracketEnds[at]
	asked := quiet("asked_"+at, "recess asked for in the "+b.Label+"'s "+where, "a", unit.MM)
	if used {
		s.typed(s.Scope, asked, Field{Name: "recess_" + at, Label: "Sunk into the " + b.Label + "'s " + where + " by", Hint: "0: it stands on the face, and takes its thickness of the screw's end"}, "0", 0, 100, 0)
	} else {
		s.Scope.Measure(asked, sheet.Leaf{Origin: sheet.Chosen, Note: "no bearing there"})
	}
	l.Scope.Change(recessLeaf(l, b, at), "asked", "as asked", sheet.With{"asked": s.Scope.Key(asked.Key)})
}

// load compares the thrust of a hand with what the set carries.
func (thrustSet) load(s *Site, b bearing.Bearing) {
	l, sc := s.Layout, s.Scope
	if !l.Scope.Has("hand_torque") {
		return
	}
	t, _ := l.WithRole("thread")
	handThrust(s, t)
	if b.Kind == plainWasher {
		plainLoad(s, b)
		return
	}
	sc.Formula(quiet("safety", "static safety of the thrust set", "s0", unit.One), bearing.StaticSafety.Text, bearing.StaticSafety.Source, sheet.With{"static": "thrust.static", "equivalent": sc.Key("thrust")})
	wanted, source := bearing.SafetyWanted(b.Kind)
	l.Assume(sc, quiet("safety_least", "static safety wanted", "s_min", unit.One), wanted, source)
	sc.Check(sheet.Check{Key: "load_check", Label: "Thrust set under a hand's thrust", Figure: "safety", Limit: "safety_least", Level: sheet.Rule,
		Sentence: "Its static rating is {figure} times a hand's thrust, and {limit} is wanted.", Source: source})
}

// walls keeps metal beside the recesses and between them.
func (thrustSet) walls(s *Site, b *axis.Part, chosen bearing.Bearing) {
	l, sc := s.Layout, s.Scope
	if !l.Scope.Has(b.Key + ".dia") {
		return
	}
	names := sheet.With{"body": b.Key + ".dia", "long": b.Key + ".length", "od": "thrust.od", "outer": "thrust.recess_outer", "inner": "thrust.recess_inner"}
	least, why := 3.0, "3 mm in cast iron"
	switch b.Material {
	case "aluminium":
		least, why = 2.5, "2.5 mm in aluminium"
	case "steel":
		least, why = 2, "2 mm in steel"
	}
	over, whyOver := recessOver, "common practice, no source: 0.1 to 0.3 mm"
	if chosen.Kind == bearing.AngularContact {
		over, whyOver = 0, "ISO 286: the outer rings are seated"
	}
	l.Assume(sc, quiet("over", "recess larger than the bearing", "", unit.MM), over, whyOver)
	l.Assume(sc, quiet("wall_least", "least wall around a recess", "", unit.MM), least, "common practice, no source: "+why)
	sc.Formula(quiet("wall", "wall around the thrust set", "t_w", unit.MM), "when(max(outer, inner) > 0, (body - od - over) / 2, inf)", "geometry", names)
	sc.Check(sheet.Check{Key: "wall_check", Label: "Wall around the thrust set", Figure: "wall", Limit: "wall_least", Level: sheet.Rule,
		Sentence: "{figure} of the " + b.Label + " is left around the recess, and {limit} is the least.", Source: "common practice, no source"})
	// What stays between the two ends carries the journal; a support bearing takes its width of it.
	text := "long - outer - inner"
	if l.Scope.Has("support.seat") {
		text += " - when(seat > 0, width, 0)"
		names["seat"], names["width"] = "support.seat", "support.width"
	}
	sc.Formula(quiet("floor", "metal between the recesses of the "+b.Label, "t_f", unit.MM), text, "geometry", names)
	l.Assume(sc, quiet("floor_least", "least metal between the recesses", "", unit.MM), 3, "common practice, no source: 3 mm between two recesses")
	sc.Check(sheet.Check{Key: "floor_check", Label: "Metal between the " + b.Label + "'s recesses", Figure: "floor", Limit: "floor_least", Level: sheet.Rule,
		Sentence: "{figure} of the " + b.Label + " stays between its recesses, and {limit} is the least.", Source: "common practice, no source"})
	sc.Formula(quiet("face", "the "+b.Label+"'s face under the set", "D_f", unit.MM), "body - od", "geometry", names)
	sc.Check(sheet.Check{Key: "face_check", Label: "Thrust set on the " + b.Label + "'s face", Figure: "face", Limit: "touching", Level: sheet.Rule,
		Sentence: "The " + b.Label + " is {figure} larger than the thrust set that it backs.", Source: "common practice, no source: washers are backed all over"})
}

// shift makes room for the set: outside, what stands against the bracket goes
// outwards; inside, the screw goes inwards by what there was no room for.
func (thrustSet) shift(s *Site, b, shank *axis.Part, chosen bearing.Bearing, side string) {
	l, sc := s.Layout, s.Scope
	t, _ := l.WithRole("thread")
	if side != "outer" && l.Scope.Has(t.Key+".dia") {
		least, why := thrustShoulder(chosen)
		sc.Measure(quiet("backed", "shoulder that the inner washer wants behind it", "D_a", unit.MM), sheet.Leaf{Value: least, Origin: sheet.Chosen, Note: why})
		sc.Check(sheet.Check{Key: "shoulder_check", Label: "Screw's shoulder behind the inner washer", Figure: t.Key + ".dia", Limit: "backed", Level: sheet.Rule, Advice: true,
			Sentence: "The screw's shoulder is {figure}, and the washer wants {limit} behind it: put a hard collar between them, or leave the inner side plain.", Source: why})
	}
	if side != "inner" {
		names := sheet.With{"thickness": "thrust.thickness", "recess": "thrust.recess_outer", "beyond": "touching"}
		if chosen.Kind == bearing.AngularContact {
			names["beyond"] = angular(s, chosen)
		}
		putBeyond(s, b, "stands", "max(0, thickness - recess) + beyond", "geometry", names)
	}
	if side != "outer" {
		screwGoesIn(s, b, shank, "inner set", "thrust.thickness", "thrust.recess_inner")
	}
}

func (k thrustSet) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("end_float", "")) == "" {
		say.text("Say how little end float the screw should have, and everything that follows from ").strong(thrustLabel(s.thrustBearing())).text(" is shown here.")
		return say.runs
	}
	f, _ := r.Figure(s.Amount, sheet.Planned)
	say.text("End float comes to ").strong(show(s, f.Value))
	if now, ok := r.Figure(s.Layout.Find("end_float"), sheet.Now); ok && now.Known() {
		say.text(", where it is " + show(s, now.Value) + " now")
	}
	say.text(".")
	if preload, ok := s.figured(r, s.Scope.Key("preload")); ok {
		say.text(" The two are set back to back and preloaded by about ").strong(preload).text(": a drag that is just felt.")
	}
	say.screwEnd(s, r, "The set")
	return say.runs
}
