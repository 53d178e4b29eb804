package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/bearing"
	"fettle/plan/fit"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// bearingPair: a deep groove bearing sunk into either end of the bracket. They
// carry the screw, and of its thrust what such bearings may take.
type bearingPair struct{}

func (bearingPair) About() About {
	return About{
		Key: "bearing_pair", Label: "Pair of ball bearings in the bracket",
		Words:   []string{"deep groove", "thin section bearings", "radial bearings", "ball races", "end play", "screw bearing"},
		Purpose: "The screw runs in two thin ball bearings, one in either end of its bracket: no play across, little end float, and little drag. They take a light thrust, each in one direction.",
		Cautions: []string{
			"Isolate the machine before the handle comes off.",
			"A hand on the wheel gives more thrust than it seems: wound hard against a stop it can dent the balls' tracks for good.",
			"Press on the ring that has the tight fit, and never through the balls; no hammer.",
			"Preload turns to heat: after ten minutes of winding the bracket is no more than hand-warm, or the sleeve is too short.",
		},
		Proof: "End float, side play at the handle and torque at the handle before and after; bracket no more than warm after ten minutes of winding.",
		Hours: [2]float64{5, 12}, Risk: MediumRisk, Undo: UndonePart, Own: true,
		Needs: []part.Capability{part.Turning, part.Boring, part.Pressing},
		Cures: []string{"lost_motion.end_float", "stiff.thrust"},
	}
}

// Suits an axis whose screw is held by a bracket, and has the bore of such bearings.
func (bearingPair) Suits(l *axis.Layout) bool {
	b, okB := l.WithRole("bracket")
	_, okT := l.WithRole("thread")
	return okB && okT && onBracket(l, b) != nil && l.Scope.Has(b.Key+".length") && len(pairBearings(l)) > 0
}

// Trials of a pair: the end float that its sleeve is ground for.
func (bearingPair) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"end_float": "0.01 mm"}}}
}

// pairBearings are the deep groove bearings whose bore is the shank's diameter,
// thinnest first.
func pairBearings(l *axis.Layout) (list []bearing.Bearing) {
	shank, ok := l.WithRole("shank")
	if !ok {
		return nil
	}
	dia := asFound(l, shank.Key+".dia")
	for _, b := range bearing.Catalogue {
		if b.Kind == bearing.DeepGroove && math.Abs(b.Bore-dia) < 0.01 {
			list = append(list, b)
		}
	}
	return list
}

// pair is the bearing that was chosen: proposed is the strongest that leaves
// wall enough, the thinnest where none does or nothing of the bracket is known.
func (bearingPair) pair(s *Site) (chosen bearing.Bearing, options []Option) {
	l := s.Layout
	b, _ := l.WithRole("bracket")
	body := asFound(l, b.Key+".dia")
	list := pairBearings(l)
	chosen = list[0]
	for _, x := range list {
		says := sized(x) + ", series " + x.Series
		switch {
		case math.IsNaN(body): // nobody can tell
		case fits(x, body, b.Material):
			chosen = x
		default:
			says += ": too little wall"
		}
		options = append(options, Option{x.Designation, says})
	}
	name := s.input("pair", chosen.Designation)
	for _, x := range list {
		if x.Designation == name {
			chosen = x
		}
	}
	return chosen, options
}

func fits(x bearing.Bearing, body float64, material string) bool {
	place := bearing.Place{Shaft: x.Bore, Body: body, Material: material}
	all, _ := bearing.Choose(place, bearing.Demand{})
	for _, c := range all {
		if c.Designation == x.Designation {
			return c.Suits()
		}
	}
	return false
}

func sized(x bearing.Bearing) string {
	return bare(x.Bore) + " × " + bare(x.OD) + " × " + bare(x.Width)
}

func (k bearingPair) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	b, _ := l.WithRole("bracket")
	shank, _ := l.WithRole("shank")
	l.DefineEndFloat()
	s.aim("end_float", unit.MM, true)
	s.outerEnd(b)
	s.claim("bracket_inner", "the "+b.Label+"'s inner end")
	chosen, options := k.pair(s)
	s.choose(Field{Name: "pair", Label: "Bearings", Options: options}, chosen.Designation)
	s.typed(sc, quiet("end_float", "end float wanted", "f_e", unit.MM), Field{Name: "end_float", Label: "End float wanted", Hint: "0.01; the sleeve between the bearings is ground for it"}, "", 0, 0.5, 0.01)
	s.Amount, s.Most = sc.Key("end_float"), 0.1
	l.Scope.Change("end_float", "wanted", "as asked", sheet.With{"wanted": s.Amount})
	l.Assume(sc, quiet("float_most", "most end float with ball bearings", "", unit.MM), 0.02, "common practice, no source: 0.02 mm at no drag")
	sc.Check(sheet.Check{Key: "float_check", Label: "End float", Figure: "end_float", Limit: "float_most", AtMost: true, Level: sheet.Rule,
		Sentence: "An end float of {figure} is asked for, and {limit} is what ball bearings give.", Source: "common practice, no source"})

	in := l.Scope.In("bearing_pair")
	if l.Scope.Has("bearing_pair.od") {
		in = sc.In("bearing_pair") // a pair is there already: the claims name both
	}
	size := func(q sheet.Q, value float64, note string) {
		in.Measure(q, sheet.Leaf{Value: q.Unit.Inside(value), Origin: sheet.Chosen, Note: note})
	}
	size(quiet("od", "bearings' outside diameter", "D", unit.MM), chosen.OD, chosen.DimensionSource())
	size(quiet("width", "bearings' width", "B", unit.MM), chosen.Width, chosen.DimensionSource())
	size(quiet("static", "static rating of one", "C0", unit.Newton), chosen.Static*bearing.Spread, chosen.RatingSource()+"; "+bearing.SpreadSource)
	flush := s.proposed(chosen.Width)
	for _, at := range []string{"outer", "inner"} {
		s.typed(in, quiet("deep_"+at, "seat in the "+b.Label+"'s "+bracketEnds[at]+", depth", "a", unit.MM), Field{Name: "deep_" + at, Label: "Sunk into the " + b.Label + "'s " + bracketEnds[at] + " by",
			Hint: "the bearing's width: flush with the face"}, flush, 0.5, 100, chosen.Width)
	}
	names := sheet.With{"od": in.Key("od"), "width": in.Key("width"), "static": in.Key("static"), "outer": in.Key("deep_outer"), "inner": in.Key("deep_inner")}
	k.sleeve(s, b, in, names)
	k.load(s, chosen, names)
	seatWalls(s, sc, b, seat{what: "bearings' seats", od: names["od"]})
	k.shoulder(s, chosen)
	putBeyond(s, b, "stands", "max(0, width - outer)", "geometry", names)
	screwGoesIn(s, b, shank, "inner bearing", names["width"], names["inner"])
	lengthenScrew(s)
}

// sleeve is what stands between the two inner rings, and sets the float: what
// stays of the bracket between the outer rings, and the float more.
func (bearingPair) sleeve(s *Site, b *axis.Part, in *sheet.Scope, names sheet.With) {
	l, sc := s.Layout, s.Scope
	with := sheet.With{"long": b.Key + ".length", "outer": names["outer"], "inner": names["inner"], "wanted": s.Amount,
		"recess_outer": recessLeaf(l, b, "outer"), "recess_inner": recessLeaf(l, b, "inner")}
	in.Formula(quiet("floor", "metal between the bearings' seats", "t_f", unit.MM), "long - outer - inner - recess_outer - recess_inner", "geometry", with)
	s.settling(in)(quiet("sleeve", "sleeve between the inner rings", "L_s", unit.MM), "floor + wanted", "geometry: as long as what stays between the outer rings, and the end float more", with)
	l.Assume(sc, quiet("floor_least", "least metal between the bearings' seats", "", unit.MM), 3, "common practice, no source: 3 mm; it takes the thrust")
	sc.Check(sheet.Check{Key: "floor_check", Label: "Metal between the bearings' seats", Figure: in.Key("floor"), Limit: "floor_least", Level: sheet.Rule,
		Sentence: "{figure} of the " + b.Label + " stays between the seats, and {limit} is the least.", Source: "common practice, no source"})
}

// load compares what the bearings may take with the thrust of work, and with
// that of a hand that winds against a stop.
func (bearingPair) load(s *Site, x bearing.Bearing, names sheet.With) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("work", "thrust of the work", "F_w", unit.Newton), Field{Name: "work", Label: "Thrust of cut and ways", Hint: "common practice, no source: 100 to 300 N of a light cut and oiled ways"}, "200", 1, 20000, nan)
	share, source := x.AxialShare()
	l.Assume(sc, quiet("axial_share", "share of the static rating that may be thrust", "", unit.One), share, source)
	l.Limit(sc, quiet("axial_most", "thrust that one bearing may take", "F_a", unit.Newton), bearing.AxialMost, names)
	sc.Check(sheet.Check{Key: "axial_check", Label: "Thrust within what such a bearing may take", Figure: "work", Limit: "axial_most", AtMost: true, Level: sheet.Rule,
		Sentence: "Work pushes with {figure}, and one bearing may take {limit}: at each moment one of the two takes it all.", Source: source})
	t, _ := l.WithRole("thread")
	if !l.Scope.Has("hand_torque") {
		return
	}
	handThrust(s, t)
	x0, y0 := bearing.StaticFactors(x.Kind)
	const factors = "ISO 76: one row of balls, deep groove"
	sc.Measure(quiet("x0", "static factor X0", "X0", unit.One), sheet.Leaf{Value: x0, Origin: sheet.Chosen, Note: factors})
	sc.Measure(quiet("y0", "static factor Y0", "Y0", unit.One), sheet.Leaf{Value: y0, Origin: sheet.Chosen, Note: factors})
	l.Assume(sc, quiet("radial", "push on the handle, across", "F_r", unit.Newton), 100, "common practice, no source: a hand that leans on the handle")
	sc.Method(quiet("equivalent", "static load of a hand against a stop", "P0", unit.Newton), bearing.StaticEquivalent)
	sc.Method(quiet("safety", "static safety when a hand winds against a stop", "s0", unit.One), bearing.StaticSafety, names)
	l.Assume(sc, quiet("safety_least", "static safety wanted against a stop", "s_min", unit.One), 1, "ISO 76: at C0 balls begin to dent their tracks; 1 for what happens now and then (guidance, from memory, unchecked)")
	sc.Check(sheet.Check{Key: "hand_check", Label: "Bearings when a hand winds against a stop", Figure: "safety", Limit: "safety_least", Level: sheet.Rule,
		Sentence: "Wound hard against a stop, a hand leaves a static safety of {figure}; below {limit} the balls dent their tracks: take a larger bearing, or thrust bearings.", Source: "ISO 76"})
}

// shoulder: the inner bearing's inner ring stands against the screw's shoulder.
func (bearingPair) shoulder(s *Site, x bearing.Bearing) {
	sc := s.Scope
	t, _ := s.Layout.WithRole("thread")
	if !s.Layout.Scope.Has(t.Key + ".dia") {
		return
	}
	a := x.Shoulders()
	sc.Measure(quiet("shoulder_least", "shoulder that the inner ring wants", "d_a", unit.MM), sheet.Leaf{Value: a.ShaftLeast, Origin: sheet.Chosen, Note: x.ShoulderSource()})
	sc.Measure(quiet("shoulder_most", "largest shoulder at the inner ring", "d_a", unit.MM), sheet.Leaf{Value: a.ShaftMost, Origin: sheet.Chosen, Note: x.ShoulderSource()})
	sc.Check(sheet.Check{Key: "shoulder_check", Label: "Screw's shoulder holds the inner ring", Figure: t.Key + ".dia", Limit: "shoulder_least", Level: sheet.Rule, Advice: true,
		Sentence: "The screw's shoulder is {figure}, and the ring wants {limit}: put a collar between them.", Source: x.ShoulderSource()})
	sc.Check(sheet.Check{Key: "high_check", Label: "Screw's shoulder clear of the outer ring", Figure: t.Key + ".dia", Limit: "shoulder_most", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "The screw's shoulder is {figure}; above {limit} it rubs on the cage or the outer ring: put a collar of that size between them.", Source: x.ShoulderSource()})
}

func (k bearingPair) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	chosen, _ := k.pair(s)
	if strings.TrimSpace(s.input("end_float", "")) == "" {
		say.text("Say how little end float the screw should have, and everything that follows from two bearings ").strong(sized(chosen)).text(" is shown here.")
		return say.runs
	}
	say.failures(s, r)
	say.became("End float comes to ", "", s, r, s.Goals[0].Key)
	if most, ok := s.figured(r, s.Scope.Key("axial_most")); ok {
		say.text(" The bearing in the inner end takes what pulls the screw outwards, the one in the outer end what pushes it in, each ").strong(most).text(" at the most.")
	}
	if !say.screwEnd(s, r, "The outer bearing") {
		say.text(" Nothing else follows: they are sunk into the bracket.")
	}
	return say.runs
}

// Parts of a pair: the bracket with its seats, the sleeve, and the bearings.
func (k bearingPair) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if strings.TrimSpace(s.input("end_float", "")) == "" {
		return Make{}
	}
	x, _ := k.pair(s)
	b, _ := s.Layout.WithRole("bracket")
	p := bracket(m, b, true)
	p.Label += ", bored for two bearings"
	m.add(p)
	m.add(pairSleeve(m, b, x))
	for _, ask := range s.asks {
		ask(m)
	}
	m.buy(part.Bought{Key: "bearing_pair", Label: "deep groove bearing, shielded where that is as wide", Designation: "ISO 15 " + sized(x), Quantity: 2, For: "fit_pair", Source: x.DimensionSource()})
	m.step(atHand, "", part.Operation{Key: "check_pair", Do: "Measure both bearings in the hand, bore, outside and width, and the screw's shank where they go. Open and shielded ones of one size differ in width.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{10, 20}, Record: "bore, outside and width; shank at three places",
		Asks: []string{"Are the bearings in the hand the size that the seats are drawn for? Bore nothing before they are."}})
	m.step(stripped, "", part.Operation{Key: "take_off", Do: "Take handle, dial and bracket off, and the screw out.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate}})
	pairStep(m, b, fitted, "check_pair")
	m.step(fitted, "pair_sleeve", part.Operation{Key: "grind_sleeve", Do: "Leave the sleeve 0.1 mm long. Assemble bearings, sleeve and screw in the " + b.Label + ", clamp them, and measure the end float; rub that much less the float wanted off the sleeve's end on a flat stone.", Needs: []part.Capability{part.Turning, part.Bench},
		Envelope: [2]float64{m.or("bearing_pair.sleeve", 0), x.Shoulders().ShaftMost}, After: []string{"bore_pair"}, Minutes: [2]float64{45, 90}, Record: "length of the sleeve, by micrometer", Cautions: []string{eyes}})
	m.step(assembled, "", part.Operation{Key: "fit_pair", Do: "Fit the bearings greased, press on the ring that is tight; screw, inner bearing, sleeve, outer bearing, then the dial's sleeve. The nut clamps the inner rings on the sleeve: it may be tight, since the sleeve sets the float. Shield them from swarf.", Needs: []part.Capability{part.Pressing}, Minutes: [2]float64{40, 80}, Record: "end float", Cautions: []string{isolate, "Never press through the balls."},
		Asks: []string{"Wind for ten minutes: is the bracket no more than hand-warm? Hotter, and the sleeve is too short."}})
	m.proofOf(k.About())
	return m.finish()
}

// pairStep is how the seats are bored: in a new bracket before it is fitted, in
// the old one while it is off.
func pairStep(m *making, b *axis.Part, when phase, after string) {
	m.step(when, b.Key, part.Operation{Key: "bore_pair", Do: "Set the " + b.Label + " true by its journal within 0.01 mm and bore the first seat and the hole between; turn it round on a stub turned to that seat, and bore the second. Try each bearing in its seat before it comes off.", Needs: []part.Capability{part.Boring},
		Envelope: [2]float64{m.or(b.Key+".length", 0), m.or(b.Key+".dia", 0)}, After: []string{after}, Minutes: [2]float64{90, 180}, Record: "both depths, and what is left between the seats", Cautions: []string{eyes}})
}

// pairSeat is the seat in one end of the bracket; the hole between the two
// clears the inner rings, and backs the outer ones.
func pairSeat(m *making, b *axis.Part, at string) []part.Step {
	key := "bearing_pair.deep_" + at
	if !m.more(m.Layout.Find(key)) {
		return nil
	}
	od := m.or("bearing_pair.od", 0)
	seat := m.class(want{part: b.Key, name: "pair_" + at, label: "seat of the ball bearing", nominal: od, grows: true}, fit.Seats(fit.Outer, fit.FeedScrew, od, b.Material == "aluminium")[0].Class)
	seat.Suits = "the bearing, which is in hand before it is bored"
	w := want{part: b.Key, name: "deep_" + at, label: "depth of the seat", key: key, leaf: key, formula: "made", grows: true}
	if on := onBracket(m.Layout, b); at == "outer" && on != nil && m.or("bearing_pair.width", 0) > m.or(key, 0) {
		w.also = []part.Made{{Leaf: on.Key + ".gap", Formula: "was + planned - made"}}
	}
	return []part.Step{{Label: "seat of the ball bearing", Length: m.limits(w, 0.05, 0, "common practice, no source"), Dia: seat, Chamfer: 0.5, New: true}}
}

// pairHole is the hole between the seats of a pair, where there is one: it backs
// the outer rings and clears the inner ones.
func pairHole(m *making, b *axis.Part) (part.Size, bool) {
	if _, ok := m.figure("bearing_pair.od"); !ok {
		return part.Size{}, false
	}
	for _, x := range pairBearings(m.Layout) {
		if x.OD == m.or("bearing_pair.od", 0) && x.Width == m.or("bearing_pair.width", 0) {
			a := x.Shoulders()
			mid := (a.HousingLeast + a.HousingMost) / 2
			return m.limits(want{part: b.Key, name: "between", label: "hole between the seats", nominal: mid, grows: true}, a.HousingMost-mid, a.HousingLeast-mid, x.ShoulderSource()), true
		}
	}
	return part.Size{}, false
}

// pairSleeve is what keeps the inner rings apart.
func pairSleeve(m *making, b *axis.Part, x bearing.Bearing) part.Part {
	a := x.Shoulders()
	w := want{part: "pair_sleeve", name: "length", label: "length", key: "bearing_pair.sleeve", leaf: "bearing_pair.sleeve", formula: "made",
		also: []part.Made{{Leaf: "end_float", Formula: "max(0, was + made - planned)"}}}
	long := m.suitsMade(m.limits(w, 0.1, 0, "common practice, no source: ground to its length when all is assembled"), "what stays between the seats as bored", b.Key+".deep_outer")
	mid := (a.ShaftLeast + a.ShaftMost) / 2
	outside := m.limits(want{part: "pair_sleeve", name: "outside", label: "outside", nominal: mid}, a.ShaftMost-mid, a.ShaftLeast-mid, x.ShoulderSource())
	bore := m.suits(m.class(want{part: "pair_sleeve", name: "bore", label: "bore, on the screw", nominal: x.Bore, grows: true}, "H8"), "the screw's shank, measured by micrometer", m.shank()+".dia", micrometer)
	return part.Part{Key: "pair_sleeve", Label: "sleeve between the bearings", Material: "11smn30", Notes: []string{"End faces parallel within 0.005 mm, and square to the bore.", "It backs the inner rings and touches no outer one."},
		Round: &part.Round{Length: long, Outside: []part.Step{{Label: "sleeve", Length: drawn("", long.Nominal), Dia: outside}}, Left: []part.Step{{Label: "bore", Length: drawn("", long.Nominal), Dia: bore, Through: true, Chamfer: 0.2}}}}
}
