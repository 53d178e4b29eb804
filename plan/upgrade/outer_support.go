package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/bearing"
	"fettle/plan/fit"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// outerSupport: a bush or a ball bearing that carries the screw at the
// bracket's outer end, next to the handle.
type outerSupport struct{}

func (outerSupport) About() About {
	return About{
		Key: "outer_support", Label: "Bush or bearing at the bracket's outer end",
		Words:   []string{"bushing", "second bush", "support bearing", "sleeve bearing", "bronze bush", "screw bearing", "wobbly handle", "reamed in line"},
		Purpose: "The screw is carried next to the handle as well: the handle no longer shakes it in a worn bore.",
		Cautions: []string{
			"Isolate the machine before the handle comes off.",
			"A bush closes in by about its interference when it is pressed in: it is reamed afterwards, in line with the old bore.",
			"A press stores energy: stand clear of what can fly, and never press on a screw that is in place.",
		},
		Proof: "Side play at the handle at most 0.03 mm, push and pull across; the screw turns as lightly as before.",
		Hours: [2]float64{1, 3}, Risk: LowRisk, Undo: UndonePart, Own: true,
		Needs: []part.Capability{part.Turning, part.Boring, part.Reaming, part.Pressing},
		Cures: []string{"lost_motion.handle", "jams.bent"},
	}
}

// Suits an axis whose screw runs in a bracket and has a handle beyond it.
func (outerSupport) Suits(l *axis.Layout) bool {
	b, okB := l.WithRole("bracket")
	h, okH := l.WithRole("handle")
	shank, okS := l.WithRole("shank")
	return okB && okH && okS && hangsOn(l, h, "bracket") && known(l, shank.Key+".dia") && l.Scope.Has(b.Key+".length")
}

// Trials of a support: a bush with the play of a close fit.
func (outerSupport) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"play": "0.02 mm"}}}
}

func (k outerSupport) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	b, _ := l.WithRole("bracket")
	h, _ := l.WithRole("handle")
	shank, _ := l.WithRole("shank")
	k.shake(s, b, h)
	s.aim("shaft_end.shake", unit.MM, true)
	s.outerEnd(b)
	x, ball := k.bearing(s, b, shank)
	s.typed(sc, quiet("play", "play of the screw in the new support", "c_2", unit.MM), Field{Name: "play", Label: "Play of the screw in it", Hint: "a reamed bush 0.015 to 0.03; a ball bearing about 0.01"}, "", 0, 0.5, nan)
	s.Amount, s.Most = sc.Key("play"), 0.2
	l.Scope.Change("shaft_end.supported", "1 + 0 * was", "as chosen")
	l.Scope.Change("shaft_end.outer_play", "play", "as asked", sheet.With{"play": s.Amount})

	in := l.Scope.In("outer_support")
	if l.Scope.Has("outer_support.od") {
		in = sc.In("outer_support") // there is one already: the claim names both
	}
	names := sheet.With{"od": in.Key("od"), "long": in.Key("long"), "shaft": shank.Key + ".dia", "bracket_long": b.Key + ".length", "recess": recessLeaf(l, b, "outer"), "recess_inner": recessLeaf(l, b, "inner")}
	k.reaction(s, b, h)
	if ball {
		in.Measure(quiet("od", "bearing's outside", "D", unit.MM), sheet.Leaf{Value: x.OD, Origin: sheet.Chosen, Note: x.DimensionSource()})
		in.Measure(quiet("long", "bearing's width", "B", unit.MM), sheet.Leaf{Value: x.Width, Origin: sheet.Chosen, Note: x.DimensionSource()})
		k.ball(s, x)
	} else {
		dia := asFound(l, shank.Key+".dia")
		s.typed(in, quiet("od", "bush's outside", "D", unit.MM), Field{Name: "od", Label: "Bush, outside", Hint: "a wall of 2 mm is usual"}, s.proposed(dia+4), 1, 200, nan)
		s.typed(in, quiet("long", "bush's length", "L", unit.MM), Field{Name: "long", Label: "Bush, length", Hint: "one and a half diameters at the least"}, s.proposed(math.Ceil(1.5*dia)), 1, 300, nan)
		k.bush(s, in, names)
	}
	seatWalls(s, sc, b, seat{what: map[bool]string{true: "support bearing", false: "bush"}[ball], od: names["od"]})
	sc.Formula(quiet("room", "bracket left inside it", "c", unit.MM), "bracket_long - recess - recess_inner - long", "geometry", names)
	sc.Check(sheet.Check{Key: "room_check", Label: "Room for it in the bracket", Figure: "room", Limit: "touching", Level: sheet.Stop,
		Sentence: "{figure} of the " + b.Label + " is left inside it.", Source: "geometry"})
	l.Assume(sc, quiet("play_least", "least play of a screw in its support", "", unit.MM), 0.005, "ISO 286-2: H7/g6 at 10 to 18 mm, 0.006 mm at the least, rounded")
	sc.Check(sheet.Check{Key: "play_check", Label: "Screw runs free in it", Figure: "play", Limit: "play_least", Level: sheet.Rule,
		Sentence: "A play of {figure} is asked for, and {limit} is the least.", Source: "ISO 286-2, H7/g6"})
}

// bearing asks which, and gives the ball bearing where one is chosen.
func (outerSupport) bearing(s *Site, b, shank *axis.Part) (x bearing.Bearing, ball bool) {
	options := []Option{{"bush", "a bronze bush, pressed in and reamed"}}
	list := pairBearings(s.Layout)
	for _, x := range list {
		options = append(options, Option{x.Designation, "ball bearing " + sized(x) + ", series " + x.Series})
	}
	name := s.choose(Field{Name: "what", Label: "Carried by", Options: options}, "bush")
	for _, x := range list {
		if x.Designation == name {
			return x, true
		}
	}
	return bearing.Bearing{}, false
}

// shake defines how far the handle shakes across: by the play at both ends of the
// bracket, and further with its overhang.
func (outerSupport) shake(s *Site, b, h *axis.Part) {
	l := s.Layout
	if l.Scope.Has("shaft_end.shake") {
		return
	}
	in := l.Scope.In("shaft_end")
	s.typed(in, quiet("journal_play", "play of the screw in the "+b.Label+"'s bore, now", "c_1", unit.MM), Field{Name: "journal_play", Label: "Play of the screw in the bore now", Hint: "push and pull across next to the " + b.Label + ", a dial gauge on the screw"}, "", 0, 2, nan)
	in.Measure(quiet("supported", "carried at the outer end", "", unit.One), sheet.Leaf{Origin: sheet.Chosen, Note: "not as found"})
	in.Measure(quiet("outer_play", "play at the outer end", "c_2", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "nothing is there as found"})
	names := sheet.With{"handle_from": h.Key + ".from", "handle_to": h.Key + ".to", "bracket_to": b.Key + ".to", "guide": b.Key + ".length"}
	in.Formula(quiet("overhang", "handle's middle beyond the "+b.Label, "a", unit.MM), "(handle_from + handle_to) / 2 - bracket_to", "geometry", names)
	in.Formula(quiet("shake_plain", "shake in the old bore", "", unit.MM), strings.ReplaceAll(slide.PlaySwing.Text, "play", "journal_play"), slide.PlaySwing.Source, names)
	in.Formula(shown("shake", "handle shakes across by", "w", unit.MM), "when(supported > 0, outer_play + (outer_play + journal_play) * overhang / guide, shake_plain)",
		"geometry: across the play at the outer end, and its slope between both ends of the "+b.Label, names)
}

// reaction is what a hand that leans on the handle presses on the support.
func (outerSupport) reaction(s *Site, b, h *axis.Part) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("lean", "push on the handle, across", "F", unit.Newton), 100, "common practice, no source: a hand that leans on the handle")
	sc.Formula(quiet("reaction", "load on the support", "R", unit.Newton), "lean * (1 + overhang / guide)", "statics: a bar on two supports, pushed beyond one of them", sheet.With{"overhang": "shaft_end.overhang", "guide": b.Key + ".length"})
}

func (outerSupport) ball(s *Site, x bearing.Bearing) {
	l, sc := s.Layout, s.Scope
	wanted, source := bearing.SafetyWanted(x.Kind)
	sc.Measure(quiet("static", "static rating", "C0", unit.Newton), sheet.Leaf{Value: x.Static * bearing.Spread, Origin: sheet.Chosen, Note: x.RatingSource() + "; " + bearing.SpreadSource})
	sc.Method(quiet("safety", "static safety of the support bearing", "s0", unit.One), bearing.StaticSafety, sheet.With{"equivalent": sc.Key("reaction")})
	l.Assume(sc, quiet("safety_least", "static safety wanted", "s_min", unit.One), wanted, source)
	sc.Check(sheet.Check{Key: "load_check", Label: "Support bearing under the hand", Figure: "safety", Limit: "safety_least", Level: sheet.Rule,
		Sentence: "Its static rating is {figure} times what a hand presses on it, and {limit} is wanted.", Source: source})
}

func (outerSupport) bush(s *Site, in *sheet.Scope, names sheet.With) {
	l, sc := s.Layout, s.Scope
	sc.Formula(quiet("pressure", "pressure in the bush", "p", unit.MPa), "reaction / (shaft * long)", "definition: load over the projected area", names)
	l.Assume(sc, quiet("pressure_most", "pressure that a bush takes", "p_max", unit.MPa), plainPressure, plainPressureSource)
	sc.Check(sheet.Check{Key: "pressure_check", Label: "Pressure in the bush", Figure: "pressure", Limit: "pressure_most", AtMost: true, Level: sheet.Rule,
		Sentence: "A hand presses {figure} on the bush, and {limit} is the most.", Source: plainPressureSource})
	l.Limit(sc, quiet("long_least", "least length of a bush", "L_min", unit.MM), sheet.Method{Text: "1.5 * shaft", Source: "common practice, no source: one and a half diameters"}, names)
	sc.Check(sheet.Check{Key: "long_check", Label: "Bush long enough", Figure: names["long"], Limit: "long_least", Level: sheet.Rule,
		Sentence: "The bush is {figure} long, and {limit} is the least.", Source: "common practice, no source"})
	sc.Formula(quiet("bush_wall", "bush's wall", "t", unit.MM), "(od - shaft) / 2", "geometry", names)
	l.Limit(sc, quiet("bush_least", "least wall of a bush", "t_min", unit.MM), joint.SleeveWallLeast, sheet.With{"dia": names["shaft"]})
	sc.Check(sheet.Check{Key: "bush_check", Label: "Bush's wall", Figure: "bush_wall", Limit: "bush_least", Level: sheet.Rule,
		Sentence: "The bush's wall is {figure}, and {limit} is the least.", Source: joint.SleeveWallLeast.Source})
	// It closes in as it is pressed.
	sc.Sheet().Register(pressMost())
	sc.Formula(quiet("closes", "bush closes in by, at the most", "δ", unit.Micrometre), "press_most(od)", "ISO 286-2: interference of H7/p6; common practice, no source: the bore closes by about as much", names)
}

// pressMost gives formulas press_most(dia): the most interference of H7/p6.
func pressMost() *sheet.Func {
	return &sheet.Func{Name: "press_most", Args: []unit.Dim{unit.LengthD}, Result: unit.LengthD, Source: "ISO 286-2, H7/p6",
		F: func(args []float64) float64 {
			shaft, errS := fit.Deviations("p6", args[0])
			hole, errH := fit.Deviations("H7", args[0])
			if errS != nil || errH != nil {
				return nan
			}
			return (shaft.Upper - hole.Lower) / 1000
		}}
}

func (k outerSupport) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("play", "")) == "" {
		say.text("Say with how much play the screw should run in the new support, and what becomes of the handle's shake is shown here.")
		return say.runs
	}
	say.failures(s, r)
	say.became("The handle shakes across by ", "", s, r, s.Goals[0].Key)
	if left, ok := s.figured(r, s.Scope.Key("wall")); ok {
		say.text(" ").strong(left).text(" of the bracket is left around it.")
	}
	return say.runs
}

// Parts of a support: the bracket with its seat, and the bush or bearing.
func (k outerSupport) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if strings.TrimSpace(s.input("play", "")) == "" {
		return Make{}
	}
	b, _ := s.Layout.WithRole("bracket")
	p := bracket(m, b, true)
	p.Label += ", bored for the support"
	m.add(p)
	m.step(stripped, "", part.Operation{Key: "take_off", Do: "Take handle, dial and bracket off, and the screw out.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate}})
	what := s.input("what", "bush")
	if x, err := bearing.Lookup(what); err == nil {
		m.buy(part.Bought{Key: "outer_bearing", Label: "support bearing, deep groove", Designation: "ISO 15 " + sized(x), Quantity: 1, For: "bore_support", Source: x.DimensionSource()})
		m.step(atHand, "", part.Operation{Key: "check_support", Do: "Measure the bearing in the hand: bore, outside and width.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{5, 10}, Record: "bore, outside and width", Asks: []string{"Is it the size that the seat is drawn for? Bore nothing before it is in hand."}})
	} else {
		bush(m)
	}
	supportStep(m, b, fitted)
	if what == "bush" {
		pressBush(m)
	}
	m.step(assembled, "", part.Operation{Key: "fit_support", Do: "Oil it, fit screw, dial and handle, and set the end float anew.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "side play at the handle", Cautions: []string{isolate},
		Asks: []string{"Does the screw turn as lightly as with the handle off? If not, the support is out of line."}})
	m.proofOf(k.About())
	return m.finish()
}

// supportStep bores the seat.
func supportStep(m *making, b *axis.Part, when phase) {
	m.step(when, b.Key, part.Operation{Key: "bore_support", Do: "Set the " + b.Label + " true by its old bore within 0.01 mm and bore the seat in its outer end.", Needs: []part.Capability{part.Boring}, Envelope: [2]float64{m.or(b.Key+".length", 0), m.or(b.Key+".dia", 0)}, After: []string{"check_support", "turn_bush", "turn_" + b.Key}, Minutes: [2]float64{40, 80}, Record: "diameter and depth of the seat", Cautions: []string{eyes}})
}

// bush is turned with its bore left for the reamer.
func bush(m *making) {
	dia := m.or(m.shank()+".dia", 10)
	play := m.or("shaft_end.outer_play", 0.02)
	long := m.general(want{part: "bush", name: "length", label: "length", key: "outer_support.long"})
	od := m.class(want{part: "bush", name: "outside", label: "outside", key: "outer_support.od"}, "p6")
	bore := m.limits(want{part: "bush", name: "bore", label: "bore, before it is pressed in", nominal: dia - 0.2, grows: true}, 0.05, -0.05, "common practice, no source: 0.2 mm is left for the reamer, and it closes in")
	m.add(part.Part{Key: "bush", Label: "bush for the outer end", Material: "c93200", Notes: []string{
		"A lead of 15° at the end that goes in first. Pressed in, it closes by about its interference: ream it then, in line with the old bore, to the screw and " + show(m.Site, play) + " more.",
		"Drill the oil hole through bracket and bush together, and file its burr off inside."},
		Round: &part.Round{Length: long, Outside: []part.Step{{Label: "bush", Length: drawn("", long.Nominal), Dia: od, Chamfer: 0.5}}, Left: []part.Step{{Label: "bore", Length: drawn("", long.Nominal), Dia: bore, Through: true, Chamfer: 0.5}},
			Cross: []part.CrossHole{{At: drawn("", long.Nominal/2), Dia: drawn("oil hole", 2.5), Label: "oil hole, with the bracket"}}}})
	m.step(made, "bush", part.Operation{Key: "turn_bush", Do: "Turn the bush, its bore left for the reamer.", Needs: []part.Capability{part.Turning}, Envelope: [2]float64{long.Nominal, od.Nominal}, Minutes: [2]float64{30, 60}, Record: "outside, by micrometer", Cautions: []string{eyes}})
}

// pressBush: into its seat, and reamed then.
func pressBush(m *making) {
	m.step(fitted, "", part.Operation{Key: "press_bush", Do: "Press the bush in square, by a screw and washers or in a vice; drill the oil hole; then ream it from the other end, guided by the old bore, so that both are in line.", Needs: []part.Capability{part.Pressing, part.Reaming}, After: []string{"bore_support"}, Minutes: [2]float64{30, 60}, Record: "bore at both ends, and the screw's play in it", Cautions: []string{"A press stores energy: stand clear of what can fly."},
		Asks: []string{"Which size of reamer is in hand? Ream to the screw as it measures, not to its nominal size."}})
}

// outerSeat is what is bored into the bracket's outer end for the support.
func outerSeat(m *making, b *axis.Part) []part.Step {
	od, ok := m.figure("outer_support.od")
	long, okL := m.figure("outer_support.long")
	if !ok || !okL {
		return nil
	}
	seat := m.class(want{part: b.Key, name: "support", label: "seat of the support", key: "outer_support.od", nominal: od, grows: true}, "H7")
	seat.Suits = "the bush or bearing, which is in hand before it is bored"
	return []part.Step{{Label: "seat of the support", Length: m.limits(want{part: b.Key, name: "support_deep", label: "depth of the seat", key: "outer_support.long", nominal: long, grows: true}, 0.2, 0, "common practice, no source: 0 to 0.2 mm below the face"), Dia: seat, Chamfer: 0.5, New: true}}
}
