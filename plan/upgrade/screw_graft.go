package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// made asks how the new screw is made: whole, or its thread on the old shank.
func (newFeed) made(s *Site, t *axis.Part) {
	how := s.choose(Field{Name: "how", Label: "Made", Options: []Option{{"whole", "whole, from one bar"}, {"graft", "threaded bar, its spigot in the old shank"}}}, "whole")
	if how == "whole" {
		turnScrew(s)
		return
	}
	graft(s, t)
}

// graft is a threaded bar whose end is turned to a spigot, in a socket bored into
// the old shank.
func graft(s *Site, t *axis.Part) {
	l, sc := s.Layout, s.Scope.In("graft")
	shank, _ := l.WithRole("shank")
	b, _ := l.WithRole("bracket")
	const group = "Graft"
	thin := math.Floor(0.6 * asFound(l, shank.Key+".dia"))
	s.typed(sc, quiet("spigot", "spigot of the graft", "d_g", unit.MM), Field{Name: "spigot", Label: "Spigot, diameter", Group: group}, s.proposed(thin), 1, 100, nan)
	s.typed(sc, quiet("lap", "spigot in its socket", "L_g", unit.MM), Field{Name: "spigot_long", Label: "Spigot, length in the socket", Group: group}, s.proposed(math.Ceil(1.5*thin)), 1, 200, nan)
	names := sheet.With{"outside": shank.Key + ".dia", "dia": "spigot", "root": t.Key + ".root"}
	sc.Method(quiet("wall", "wall around the spigot", "t", unit.MM), joint.SleeveWall, names)
	l.Limit(sc, quiet("wall_least", "least wall around a spigot", "t_min", unit.MM), joint.SleeveWallLeast, sheet.With{"dia": shank.Key + ".dia"})
	sc.Check(sheet.Check{Key: "wall_check", Label: "Wall of the socket", Figure: "wall", Limit: "wall_least", Level: sheet.Rule,
		Sentence: "{figure} of the old shank is left around the spigot, and {limit} is the least.", Source: joint.SleeveWallLeast.Source})
	sc.Check(sheet.Check{Key: "root_check", Label: "Spigot within the thread's root", Figure: "spigot", Limit: t.Key + ".root", AtMost: true, Level: sheet.Stop,
		Sentence: "The spigot is {figure}, and under the thread there is {limit} to turn it from.", Source: "geometry"})
	l.Limit(sc, quiet("lap_least", "least length of a spigot", "", unit.MM), joint.StubEngagement, names)
	sc.Check(sheet.Check{Key: "lap_check", Label: "Spigot long enough", Figure: "lap", Limit: "lap_least", Level: sheet.Rule,
		Sentence: "The spigot goes in by {figure}, and {limit} is the least.", Source: joint.StubEngagement.Source})
	// The socket's end of the shank, thread's side first: no part of it may run in the bracket.
	text, faces := "bracket_face - begins - lap", sheet.With{"bracket_face": b.Key + ".from", "begins": shank.Key + ".from"}
	if handleSign(l) == "-" {
		text, faces = "begins - lap - bracket_face", sheet.With{"bracket_face": b.Key + ".to", "begins": shank.Key + ".to"}
	}
	sc.Formula(quiet("clear", "joint clear of the journal", "c", unit.MM), text, "geometry", faces)
	sc.Check(sheet.Check{Key: "clear_check", Label: "Graft clear of the journal", Figure: "clear", Limit: l.Find("touching"), Level: sheet.Rule,
		Sentence: "The joint ends {figure} before the bracket: no part of it may run in the bearing.", Source: "common practice, no source"})
	if !l.Scope.Has("hand_torque") {
		return
	}
	l.Assume(sc, quiet("factor", "factor on the hand's torque", "k", unit.One), joint.HandFactor, joint.HandFactorSource)
	l.Limit(sc, quiet("torque_wanted", "torque wanted of the graft", "T", unit.NewtonMetre), joint.TorqueWanted)
	for _, c := range []struct {
		key, label, wanted, says string
		shear                    float64
		source                   string
		m                        sheet.Method
	}{
		{"braze", "silver-brazed joint", "torque_wanted", "The brazed joint carries {figure}, and {limit} is wanted.", joint.BrazedShear, joint.BrazedShearSource, joint.BrazedLap},
		{"core", "spigot's section", "hand_torque", "The spigot itself carries {figure} at half of its yield, and a hand gives {limit}.", joint.SteelShear, joint.SteelShearSource, joint.CoreTorque},
	} {
		l.Assume(sc, quiet(c.key+"_shear", "allowable shear, "+c.label, "τ", unit.MPa), c.shear, c.source)
		sc.Method(quiet(c.key, "torque that the "+c.label+" carries", "T_j", unit.NewtonMetre), c.m, sheet.With{"shear": c.key + "_shear", "dia": "spigot", "root": "spigot"})
		sc.Check(sheet.Check{Key: c.key + "_check", Label: "Torque of the " + c.label, Figure: c.key, Limit: c.wanted, Level: sheet.Rule, Sentence: c.says, Source: c.m.Source})
	}
}

// graftParts are the threaded bar and the old shank that it goes into.
func graftParts(m *making, t *axis.Part) {
	l := m.Layout
	shank, _ := l.WithRole("shank")
	own := sheet.Local(m.Scope.Key("graft."), l.Key)
	spigot, lap := m.or(own+"spigot", 6), m.or(own+"lap", 9)
	long, dia := m.or(t.Key+".length", 100), m.or(t.Key+".dia", 12)
	in := m.class(want{part: "threaded_bar", name: "spigot", label: "spigot", key: own + "spigot"}, "h6")
	bar := part.Part{Key: "threaded_bar", Label: "threaded bar for the old shank", Replaces: t.Key, Material: stock(t.Material, "c45"), Round: &part.Round{
		Outside: []part.Step{{Label: "feed thread", Length: m.general(want{part: "threaded_bar", name: "thread", label: "feed thread", key: t.Key + ".length"}), Dia: drawn("", dia), Chamfer: m.or(t.Key+".pitch", 1), Thread: feedThread(m, t)},
			{Label: "spigot", Length: m.general(want{part: "threaded_bar", name: "spigot_long", label: "spigot", key: own + "lap"}), Dia: in, Chamfer: 0.5}},
		Length: m.general(want{part: "threaded_bar", label: "length over all", nominal: long + lap})},
		Notes: []string{"Turn the spigot true to the thread: run-out under 0.02 mm.", "Straight to 0.03 mm once it is joined."}}
	m.add(bar)
	hole := m.limits(want{part: "old_shank", name: "socket", label: "socket for the spigot", nominal: spigot, grows: true}, 2*joint.BrazeGapMost, 2*joint.BrazeGapLeast, joint.BrazeGapSource)
	hole = m.suitsMade(hole, "the spigot as made", "threaded_bar.spigot")
	m.add(part.Part{Key: "old_shank", Label: "old screw, its thread cut off", Altered: true, Replaces: shank.Key, Material: stock(shank.Material, "c45"), Round: &part.Round{
		Outside: []part.Step{{Label: "shank", Old: true, Length: drawn("", m.or(shank.Key+".length", 60)), Dia: drawn("", m.or(shank.Key+".dia", 10))}},
		Left:    []part.Step{{Label: "socket", Length: m.general(want{part: "old_shank", name: "deep", label: "socket, depth", nominal: lap + 1, grows: true}), Dia: hole, New: true}}},
		Notes: []string{"Cut the old thread off where the shank begins, and keep it: it is the pattern of the lead.", "Drill a vent of 1.5 mm into the bottom of the socket: closed air bursts when it is heated."}})
	m.step(made, "threaded_bar", part.Operation{Key: "turn_screw", Do: "Cut the threaded bar to length and turn its spigot, true to the thread.", Needs: []part.Capability{part.Turning}, Envelope: [2]float64{long + lap, dia}, After: []string{"measure_screw"}, Minutes: [2]float64{60, 120}, Record: "spigot, by micrometer", Cautions: []string{eyes}})
	m.step(fitted, "old_shank", part.Operation{Key: "bore_shank", Do: "Cut the old thread off and bore the socket, set true by the journal within 0.01 mm.", Needs: []part.Capability{part.Boring}, Envelope: [2]float64{m.or(shank.Key+".length", 60), m.or(shank.Key+".dia", 10)}, Minutes: [2]float64{45, 90}, Record: "socket, by the spigot itself", Cautions: []string{eyes}})
	m.step(fitted, "threaded_bar", part.Operation{Key: "braze_screw", Do: "Silver-braze the spigot into its socket, cool slowly, wash the flux off.", Needs: []part.Capability{part.Heat}, After: []string{"turn_screw", "bore_shank"}, Minutes: [2]float64{45, 90}, Record: "a photo of the fillet all round", Cautions: joint.BrazeCautions})
	m.step(fitted, "threaded_bar", part.Operation{Key: "true_screw", Do: "Straighten the screw on blocks until its run-out is 0.03 mm at the most, from end to end.", Needs: []part.Capability{part.Bench}, After: []string{"braze_screw"}, Minutes: [2]float64{30, 90}, Record: "run-out at three places", Cautions: []string{"A bar under a press springs back: stand aside of its ends."}})
	m.buy(part.Bought{Key: "screw_bar", Label: "threaded bar, straight to 0.1 mm", Quantity: 1, For: "threaded_bar", Confirm: "measure_screw", Source: "common practice, no source"})
	m.buy(part.Bought{Key: "silver_solder", Label: "silver solder, cadmium-free, melting at 630 to 660 °C, with its flux", Designation: "ISO 17672 Ag 155", Quantity: 1, For: "braze_screw", Source: "ISO 17672, from memory, unchecked"})
}
