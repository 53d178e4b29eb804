package upgrade

import (
	"math"
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

// thick is how much of the shaft a set takes at one place: a pair of angular
// contact bearings takes both directions there.
func thick(b bearing.Bearing) float64 {
	if b.Kind == bearing.AngularContact {
		return 2 * b.Width
	}
	return b.Height()
}

func thrustLabel(b bearing.Bearing) string {
	size := bare(b.Bore) + " × " + bare(b.OD) + " × " + bare(b.Width)
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
	l := s.Layout
	b, _ := l.WithRole("bracket")
	shank, _ := l.WithRole("shank")
	list := thrustBearings(l)
	var options []Option
	for _, x := range list {
		options = append(options, Option{x.Designation, thrustLabel(x)})
	}
	chosen := list[0]
	name := s.choose(Field{Name: "set", Label: "Bearing", Options: options}, chosen.Designation)
	for _, x := range list {
		if x.Designation == name {
			chosen = x
		}
	}
	sides := []Option{{"both", "either side of the bracket"}, {"outer", "at its outer end, towards the handle"}, {"inner", "at its inner end, towards the nut"}}
	if chosen.Kind == bearing.AngularContact {
		sides = []Option{{"outer", "at its outer end, locked by a nut"}}
	}
	side := s.choose(Field{Name: "side", Label: "Where", Options: sides}, sides[0].Value)

	s.typed(s.Scope, quiet("end_float", "end float wanted", "f_e", unit.MM), Field{Name: "end_float", Label: "End float wanted", Hint: "0.01; what is measured now is before it"}, "", 0, 0.5, 0.01)
	s.Amount, s.Most = s.Scope.Key("end_float"), 0.1
	l.DefineEndFloat()
	s.aim("end_float", unit.MM, true)
	l.Scope.Change("end_float", "wanted", "as asked", sheet.With{"wanted": s.Amount})
	least, most, why := floats(chosen)
	l.Assume(s.Scope, quiet("float_most", "most end float with such bearings", "", unit.MM), most, why)
	s.Scope.Check(sheet.Check{Key: "float_check", Label: "End float", Figure: "end_float", Limit: "float_most", AtMost: true, Level: sheet.Rule,
		Sentence: "An end float of {figure} is asked for, and {limit} is what they give.", Source: why})
	if least > 0 {
		l.Assume(s.Scope, quiet("float_least", "least end float with plain faces", "", unit.MM), least, why)
		s.Scope.Check(sheet.Check{Key: "oil_check", Label: "End float leaves room for the oil", Figure: "end_float", Limit: "float_least", Level: sheet.Rule,
			Sentence: "An end float of {figure} is asked for, and plain faces want {limit} for the oil.", Source: why})
	}

	// The set's own sizes stand in one place of the axis: a second set takes
	// the place of the first, and the two are named.
	sc := l.Scope.In("thrust")
	own := func(key, label, symbol string, u unit.Unit, value float64, note string) {
		leaf := sheet.Leaf{Value: value, Origin: sheet.Chosen, Note: note}
		q := quiet(key, label, symbol, u)
		s.Scope.In("set").Measure(q, leaf)
		if !l.Scope.Has("thrust." + key) {
			sc.Measure(q, sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
		}
		l.Scope.Change("thrust."+key, "chosen", "as chosen", sheet.With{"chosen": s.Scope.In("set").Key(key)})
	}
	source := thrustSource(chosen)
	own("od", "thrust set, outside", "D", unit.MM, chosen.OD, source)
	own("thickness", "thrust set, thickness", "t", unit.MM, thick(chosen), source)
	if chosen.Kind != plainWasher {
		own("static", "thrust set, static rating", "C0", unit.Newton, chosen.Static*bearing.Spread, chosen.RatingSource()+"; "+bearing.SpreadSource)
	}
	k.seat(s, b, "outer", side != "inner")
	k.seat(s, b, "inner", side != "outer")
	k.load(s, chosen, side)
	k.walls(s, b, chosen)

	k.shift(s, b, shank, chosen, side)
	lengthenScrew(s)
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
func (thrustSet) load(s *Site, b bearing.Bearing, side string) {
	l, sc := s.Layout, s.Scope
	if !l.Scope.Has("hand_torque") {
		return
	}
	t, _ := l.WithRole("thread")
	l.Assume(sc, quiet("efficiency", "efficiency of the screw", "η", unit.One), 0.3, "common practice, no source: 0.2 to 0.4 of a plain feed screw")
	sc.Formula(quiet("thrust", "thrust that a hand gives", "F", unit.Newton), "2 * pi * hand_torque * efficiency / lead", "definition of the efficiency: F = 2 π T η / l", sheet.With{"lead": t.Key + ".pitch"})
	if b.Kind == plainWasher {
		plainLoad(s, b)
		return
	}
	sc.Formula(quiet("safety", "static safety of the thrust set", "s0", unit.One), bearing.StaticSafety.Text, bearing.StaticSafety.Source, sheet.With{"static": "thrust.static", "equivalent": sc.Key("thrust")})
	wanted, source := bearing.SafetyWanted(b.Kind)
	l.Assume(sc, quiet("safety_least", "static safety wanted", "s0", unit.One), wanted, source)
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
	list := thrustBearings(s.Layout)
	chosen := list[0]
	for _, b := range list {
		if b.Designation == s.input("set", "") {
			chosen = b
		}
	}
	if strings.TrimSpace(s.input("end_float", "")) == "" {
		say.text("Say how little end float the screw should have, and everything that follows from ").strong(thrustLabel(chosen)).text(" is shown here.")
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

// Parts of a thrust set: the bracket with its recesses; bearings, washers.
func (k thrustSet) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if s.input("end_float", "") == "" {
		return Make{}
	}
	b, _ := s.Layout.WithRole("bracket")
	inner, outer := m.more(s.Layout.Find("thrust.recess_inner")), m.more(s.Layout.Find("thrust.recess_outer"))
	if inner || outer {
		p := bracket(m, b, true)
		p.Label += ", recessed for the thrust set"
		m.add(p)
		recessStep(m, b, fitted, "check_thrust")
	}
	for _, ask := range s.asks {
		ask(m)
	}
	k.buys(m)
	if x, ok := angularPair(m); ok {
		angularParts(m, b, x)
	}
	m.step(measured, "", part.Operation{Key: "readings_before", Do: "Take the readings: end float by push and pull, torque at the handle, lost motion at three places.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "readings, before"})
	m.step(stripped, "", part.Operation{Key: "take_off", Do: "Take handle, dial and bracket off, and the screw out where something is done to it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate}})
	m.step(assembled, "", part.Operation{Key: "fit_thrust", Do: "Fit the set, greased, its washers on clean flat faces; set the end float with the nut, lock it, then fit dial and handle so that they squeeze nothing. Shield it from swarf. A pair is tightened until an even drag is just felt all round.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "end float, and the drag all round", Cautions: []string{isolate, "Press on the ring that has the tight fit, and never through the balls."},
		Asks: []string{"Are the washers under needles hard, 58 HRC and more, where a file slides off? Soft ones are rolled to grooves.", "Is there a shield or a ring of felt between it and the swarf?", "With the handle's nut tight: does the dial still turn? If not, the nut squeezes it."}})
	m.step(proved, "", part.Operation{Key: "readings_after", Do: "Take the same readings; wind for ten minutes and feel whether the bracket gets hot.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "readings, after, and how warm the bracket is every five minutes",
		Asks: []string{"After 20 minutes: is it no more than hand-warm? Hotter, and the preload is too high: slacken it before it seizes."}})
	return m.finish()
}

// buys are the bearings and their washers.
func (thrustSet) buys(m *making) {
	list := thrustBearings(m.Layout)
	b := list[0]
	for _, x := range list {
		if x.Designation == m.input("set", "") {
			b = x
		}
	}
	n := 1
	if m.input("side", "both") == "both" || b.Kind == bearing.AngularContact {
		n = 2
	}
	size := sized(b)
	standard := map[bearing.Kind]string{bearing.NeedleThrust: "ISO 3031 ", bearing.ThrustBall: "ISO 104 ", bearing.AngularContact: "ISO 15 ", bearing.SmallThrust: ""}[b.Kind]
	label, named := string(b.Kind)+" bearing", standard+size
	switch {
	case b.Kind == plainWasher:
		label, named = "plain thrust washer "+size+", bronze; or turned from bar", ""
	case standard == "":
		label, named = label+" "+size, ""
	}
	m.buy(part.Bought{Key: "thrust_bearing", Label: label, Designation: named, Quantity: n, For: "fit_thrust", Confirm: "check_thrust", Source: thrustSource(b)})
	if b.Kind == bearing.NeedleThrust {
		m.buy(part.Bought{Key: "thrust_washers", Label: "hard thrust washers, " + bare(b.Washer) + " mm thick", Designation: "ISO 3031 " + bare(b.Bore) + " × " + bare(b.OD) + " × " + bare(b.Washer), Quantity: 2 * n, For: "fit_thrust", Source: "ISO 3031"})
	}
	m.step(atHand, "", part.Operation{Key: "check_thrust", Do: "Measure the thrust set in the hand, washers and all: heights of the trade differ by half a millimetre.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{5, 10}, Record: "height and outside",
		Asks: []string{"Is the set in the hand of the size that the recess is drawn for? Cut nothing before it is."}})
}
