package bench

import (
	"fettle/plan/joint"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// jointMethods are the calculations of plan/joint.
var jointMethods = []Method{
	sleevePinned, sleeveTaperPin, sleeveThreaded, sleeveBonded, sleeveBrazed, grubScrew, splitClamp, spigot,
}

var (
	handTorque = Input{Key: "hand_torque", Label: "torque of the hand", Symbol: "T_h", Unit: unit.NewtonMetre, Default: "3", Source: "common practice, no source: 50 N on a wheel of 60 mm radius; 200 N, 12 N·m, at the worst", Positive: true}
	handFactor = Input{Key: "factor", Label: "factor on it", Symbol: "k", Unit: unit.One, Default: "3", Source: joint.HandFactorSource + "; 5 for a tailstock", Positive: true}
	shaftDia   = Input{Key: "dia", Label: "diameter of the shaft in the joint", Symbol: "D", Unit: unit.MM, Positive: true}
	pinShear   = Input{Key: "shear", Label: "shear to allow in the pin", Symbol: "τ", Unit: unit.MPa, Default: "70", Source: joint.PinShearSource + "; silver steel 100 to 120, a hardened dowel 200", Positive: true}
	sleeveSize = Input{Key: "outside", Label: "outside of the sleeve", Symbol: "D_o", Unit: unit.MM, Optional: true, Positive: true}
)

// torqueQ is a torque.
func torqueQ(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.NewtonMetre}
}

// stressQ is a stress, to a tenth.
func stressQ(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.MPa, Decimals: 1}
}

// wanted is the torque that a joint must carry.
func wanted(sc *sheet.Scope) {
	sc.Method(torqueQ("torque_wanted", "torque wanted of the joint", "T_w"), joint.TorqueWanted)
}

// carries checks a torque against that.
func carries(sc *sheet.Scope, torque string) {
	sc.Formula(sheet.Q{Key: "torque_near", Label: "margin at which the torque is tight", Unit: unit.NewtonMetre, Quiet: true}, "torque_wanted / 4", practice)
	sc.Check(sheet.Check{Key: "carries", Label: "Joint carries the torque", Figure: torque, Limit: "torque_wanted", Tight: "torque_near", Level: sheet.Rule,
		Sentence: "The joint carries {figure}, and {limit} is wanted of it.", Source: joint.TorqueWanted.Source})
}

// sleeveWall checks what is left around the bore of a sleeve.
func sleeveWall(sc *sheet.Scope, with sheet.With) {
	sc.Method(sheet.Q{Key: "wall", Label: "wall of the sleeve", Symbol: "t", Unit: unit.MM}, joint.SleeveWall, with)
	sc.Method(sheet.Q{Key: "wall_least", Label: "least wall of a sleeve", Symbol: "t_min", Unit: unit.MM, Quiet: true}, joint.SleeveWallLeast, with)
	sc.Check(sheet.Check{Key: "sleeve_wall", Label: "Wall of the sleeve", Figure: "wall", Limit: "wall_least", Level: sheet.Rule,
		Sentence: "The sleeve's wall is {figure}, and {limit} is the least.", Source: joint.SleeveWallLeast.Source})
}

// layPin lays what a cylindrical and a taper pin have in common; pin is the key of
// the pin's diameter in shear, named of its nominal diameter.
func layPin(sc *sheet.Scope, pin, named string) {
	with := sheet.With{"pin": pin, "torque": "torque_wanted"}
	sc.Method(torqueQ("torque", "torque that the pin carries", "T"), joint.PinnedSleeve, with)
	sc.Method(sheet.Q{Key: "thrust", Label: "thrust that it carries", Symbol: "F", Unit: unit.Newton}, joint.PinThrust, with)
	sc.Method(stressQ("bears_shaft", "pressure on the hole in the shaft, at the torque wanted", "p"), joint.PinBearsShaft, with)
	sc.Method(stressQ("bears_sleeve", "pressure on the holes in the sleeve", "p_s"), joint.PinBearsSleeve, with)
	sc.Method(stressQ("shaft_stress", "shear in the shaft beside the hole", "τ_s"), joint.PinnedShaft, with)
	carries(sc, "torque")
	sc.Check(sheet.Check{Key: "pin_size", Label: "Pin leaves enough of the shaft", Figure: named, Limit: "pin_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The pin is {figure} thick, and {limit} is the most that leaves enough of the shaft.", Source: joint.PinMost.Source})
	for _, b := range []struct{ key, figure, label string }{{"bearing_shaft", "bears_shaft", "the hole in the shaft"}, {"bearing_sleeve", "bears_sleeve", "the holes in the sleeve"}} {
		bound(sc, sheet.Check{Key: b.key, Label: "Pressure on " + b.label, Figure: b.figure, AtMost: true, Level: sheet.Rule,
			Sentence: "The pin presses on " + b.label + " with {figure}, and {limit} is the most.", Source: joint.PinBearingSource}, stressQ("", "", ""), 0.8*joint.PinBearing, joint.PinBearing)
	}
	bound(sc, sheet.Check{Key: "shaft", Label: "Shaft beside the hole", Figure: "shaft_stress", AtMost: true, Level: sheet.Rule,
		Sentence: "The shaft bears {figure} in shear beside the hole, and {limit} is the most.", Source: joint.SteelShearSource}, stressQ("", "", ""), 0.8*joint.SteelShear, joint.SteelShear)
	sleeveWall(sc, sheet.With{"outside": outsideKey(sc)})
}

// outsideKey is the sleeve's outside: as typed, or as proposed.
func outsideKey(sc *sheet.Scope) string {
	if sc.Has("outside") {
		return "outside"
	}
	return "outside_proposed"
}

// proposePin lays the sizes that follow from the torque wanted.
func proposePin(sc *sheet.Scope) {
	sc.Sheet().Register(joint.StockPin())
	wanted(sc)
	sc.Method(sheet.Q{Key: "pin_least", Label: "thinnest pin that carries it", Symbol: "d_min", Unit: unit.MM}, joint.PinLeast, sheet.With{"torque": "torque_wanted"})
	sc.Method(sheet.Q{Key: "pin_most", Label: "thickest pin that leaves enough of the shaft", Symbol: "d_max", Unit: unit.MM}, joint.PinMost)
	sc.Method(sheet.Q{Key: "pin_proposed", Label: "pin to take", Symbol: "d", Unit: unit.MM}, joint.PinProposed)
	sc.Method(sheet.Q{Key: "outside_proposed", Label: "outside of the sleeve to take", Symbol: "D_o", Unit: unit.MM}, joint.PinnedOutside)
}

// pinProblem is a problem where pin, shaft and sleeve do not go together at all.
func pinProblem(sc *sheet.Scope, pin string) error {
	switch dia := typedValue(sc, "dia"); {
	case sc.Has(pin) && typedValue(sc, pin) >= dia:
		return refuse(pin, "the pin must be thinner than the shaft")
	case sc.Has("outside") && typedValue(sc, "outside") <= dia:
		return refuse("outside", "the sleeve must be larger than the shaft")
	case sc.Has("length") && typedValue(sc, "length") > 10*dia:
		return refuse("length", "give the length in the sleeve: at most ten times the shaft's diameter")
	}
	return nil
}

var sleevePinned = Method{
	Key: "sleeve_pinned", Label: "Sleeve with a cross pin", Field: "Joints",
	Purpose: "What a pin through sleeve and shaft carries, and the pin to take. Reamed in place, or a grooved pin: one that is loose works looser.",
	Example: map[string]string{"dia": "12", "pin": "3", "shear": "110", "hand_torque": "2"},
	Inputs:  []Input{shaftDia, {Key: "pin", Label: "pin; nothing means the one proposed", Symbol: "d", Unit: unit.MM, Optional: true, Positive: true}, sleeveSize, pinShear, handTorque, handFactor},
	Outputs: []string{"torque", "thrust", "torque_wanted", "pin_least", "pin_proposed", "pin_most", "outside_proposed", "wall", "bears_shaft", "bears_sleeve", "shaft_stress"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := pinProblem(sc, "pin"); err != nil {
			return err
		}
		proposePin(sc)
		if sc.Has("pin") {
			layPin(sc, "pin", "pin")
		} else {
			layPin(sc, "pin_proposed", "pin_proposed")
		}
		return nil
	},
}

var sleeveTaperPin = Method{
	Key: "sleeve_taper_pin", Label: "Sleeve with a taper pin", Field: "Joints",
	Purpose: "What a taper pin carries, and its diameters: drill for the small end, which names the pin, and ream to its depth in place.",
	Example: map[string]string{"dia": "12", "small": "3", "outside": "20", "shear": "110", "hand_torque": "2"},
	Inputs: []Input{shaftDia,
		{Key: "small", Label: "small end; nothing means the pin proposed", Symbol: "d", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "length", Label: "length of the pin; nothing means the sleeve's outside", Symbol: "l", Unit: unit.MM, Optional: true, Positive: true},
		sleeveSize, pinShear, handTorque, handFactor},
	Outputs: []string{"torque", "thrust", "torque_wanted", "pin_least", "pin_proposed", "pin_most", "large", "mean", "outside_proposed", "wall", "bears_shaft", "bears_sleeve", "shaft_stress"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := pinProblem(sc, "small"); err != nil {
			return err
		}
		proposePin(sc)
		with := sheet.With{"small": "small", "length": "length"}
		if !sc.Has("small") {
			with["small"] = "pin_proposed"
		}
		if !sc.Has("length") {
			with["length"] = outsideKey(sc)
		}
		sc.Method(lengthQ("large", "large end", "d_l"), joint.TaperPinLarge, with)
		sc.Method(lengthQ("mean", "half-way", "d_m"), joint.TaperPinMean, with)
		layPin(sc, "mean", with["small"])
		return nil
	},
}

var sleeveThreaded = Method{
	Key: "sleeve_threaded", Label: "Screwed stub", Field: "Joints",
	Purpose: "What a stub that is screwed into the other part carries in its root. Turned against its hand it unscrews: pin or bond it, with shoulders square within 0.01 mm.",
	Example: map[string]string{"dia": "12", "pitch": "1.75", "engagement": "20"},
	Inputs: []Input{
		{Key: "dia", Label: "outside of the thread", Symbol: "d", Unit: unit.MM, Positive: true},
		{Key: "pitch", Label: "pitch", Symbol: "P", Unit: unit.MM, Positive: true},
		{Key: "engagement", Label: "thread engaged", Symbol: "L_e", Unit: unit.MM, Positive: true},
		{Key: "shear", Label: "shear to allow", Symbol: "τ", Unit: unit.MPa, Default: "70", Source: "common practice, no source: 60 to 80 MPa in mild steel, notched by a thread", Positive: true},
		{Key: "tension", Label: "tension to allow", Symbol: "σ", Unit: unit.MPa, Default: "120", Source: joint.StubTensionSource, Positive: true},
		handTorque, handFactor,
	},
	Outputs: []string{"root", "torque", "thrust", "torque_wanted", "engagement_least"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if typedValue(sc, "pitch")*1.25 >= typedValue(sc, "dia") {
			return refuse("pitch", "a thread of that pitch has no core left: give less than 0.8 of the outside")
		}
		sc.Method(lengthQ("root", "root of the thread", "d_3"), screw.Root)
		wanted(sc)
		sc.Method(torqueQ("torque", "torque that the root carries", "T"), joint.CoreTorque)
		sc.Method(sheet.Q{Key: "thrust", Label: "thrust that it carries", Symbol: "F", Unit: unit.Newton}, joint.CoreThrust)
		sc.Method(sheet.Q{Key: "engagement_least", Label: "thread to engage", Symbol: "L_min", Unit: unit.MM}, joint.StubEngagement)
		carries(sc, "torque")
		sc.Check(sheet.Check{Key: "engaged", Label: "Thread engaged", Figure: "engagement", Limit: "engagement_least", Level: sheet.Rule,
			Sentence: "{figure} of thread is engaged, and {limit} is the least.", Source: joint.StubEngagement.Source})
		return nil
	},
}

// lapInput is the length of a lap joint.
var lapInput = Input{Key: "lap", Label: "length of the lap; nothing means the one proposed", Symbol: "L", Unit: unit.MM, Optional: true, Positive: true}

// lapKey is the lap: as typed, or as proposed.
func lapKey(sc *sheet.Scope) string {
	if sc.Has("lap") {
		return "lap"
	}
	return "lap_proposed"
}

var sleeveBonded = Method{
	Key: "sleeve_bonded", Label: "Sleeve held by retaining compound", Field: "Joints",
	Purpose:  "What a sleeve carries that is held by retaining compound, less what gap, surface and the unknown take.",
	Example:  map[string]string{"dia": "10", "lap": "15"},
	Cautions: joint.BondCautions,
	Inputs: []Input{shaftDia, lapInput,
		{Key: "class", Label: "compound", Word: true, Default: "high", Options: bondClasses()},
		{Key: "strength", Label: "its shear strength, if known", Symbol: "τ", Unit: unit.MPa, Optional: true, Positive: true},
		{Key: "gap", Label: "sleeve larger than the shaft by", Symbol: "g", Unit: tenths, Default: "0.05", Source: "common practice: a slip fit of 0.02 to 0.05 mm"},
		{Key: "surface", Label: "surfaces", Word: true, Default: "steel", Options: bondSurfaces()},
		{Key: "derate", Label: "share counted on", Symbol: "f", Unit: unit.One, Default: "0.5", Source: joint.BondDerateSource, Positive: true},
		{Key: "safety", Label: "factor of safety", Symbol: "S", Unit: unit.One, Default: "2", Source: joint.BondSafetySource, Positive: true},
		handTorque, handFactor},
	Outputs: []string{"force", "torque", "torque_allowed", "torque_wanted", "share", "lap_least", "lap_proposed"},
	Define: func(sc *sheet.Scope, words Words) error {
		switch gap := typedValue(sc, "gap"); {
		case gap < 0:
			return refuse("gap", "give a figure that is not negative: a compound needs a gap")
		case gap >= 0.25:
			return refuse("gap", "give less than 0.25 mm: what a compound does in wider gaps is not known here")
		}
		strength := "strength"
		if !sc.Has(strength) {
			strength = "class_strength"
			for _, c := range joint.BondStrengths {
				if c.Key == words["class"] {
					assumedIn(sc, stressQ(strength, "shear strength of the compound", "τ"), c.Strength, "ISO 10123, "+c.Label+"; from memory, unchecked")
				}
			}
		}
		for _, s := range joint.BondSurfaces {
			if s.Key == words["surface"] {
				assumedIn(sc, sheet.Q{Key: "surface_share", Label: "share that the surfaces leave", Unit: unit.One}, s.Share, s.Label+": from memory, unchecked")
			}
		}
		sc.Method(shareQ("gap_share", "share that the gap leaves"), joint.BondedGapShare)
		sc.Method(shareQ("share", "share of the strength counted on"), joint.BondedShare, sheet.With{"surface": "surface_share"})
		sc.Formula(stressQ("shear", "shear counted on", "τ_f"), "strength * share", practice, sheet.With{"strength": strength})
		sc.Method(stressQ("allowable", "shear to allow", "τ_allow"), joint.BondedAllowable, sheet.With{"strength": strength})
		wanted(sc)
		sc.Method(sheet.Q{Key: "lap_least", Label: "lap that carries the torque wanted", Symbol: "L_min", Unit: unit.MM}, joint.LapLeast, sheet.With{"torque": "torque_wanted", "shear": "allowable"})
		sc.Method(sheet.Q{Key: "lap_proposed", Label: "lap to take", Symbol: "L", Unit: unit.MM}, joint.LapProposed)
		with := sheet.With{"lap": lapKey(sc)}
		sc.Method(sheet.Q{Key: "force", Label: "thrust at which it lets go", Symbol: "F", Unit: unit.Newton}, joint.BondedForce, with)
		sc.Method(torqueQ("torque", "torque at which it lets go", "T"), joint.BondedLap, with)
		sc.Method(torqueQ("torque_allowed", "torque to allow", "T_allow"), joint.Allowed, sheet.With{"carries": "torque"})
		carries(sc, "torque_allowed")
		bound(sc, sheet.Check{Key: "gap_most", Label: "Gap for the compound", Figure: "gap", AtMost: true, Level: sheet.Rule,
			Sentence: "The gap is {figure}, and a compound fills {limit}.", Source: joint.BondGapMostSource}, lengthQ("", "", ""), 0.1, joint.BondGapMost)
		return nil
	},
}

func bondClasses() (all []Option) {
	for _, c := range joint.BondStrengths {
		all = append(all, Option{c.Key, c.Label})
	}
	return all
}

func bondSurfaces() (all []Option) {
	for _, s := range joint.BondSurfaces {
		all = append(all, Option{s.Key, s.Label})
	}
	return all
}

var sleeveBrazed = Method{
	Key: "sleeve_brazed", Label: "Silver-brazed sleeve", Field: "Joints",
	Purpose:  "What a silver-brazed sleeve carries, and the lap to give it.",
	Example:  map[string]string{"dia": "10", "wall": "2", "tensile": "460"},
	Cautions: joint.BrazeCautions,
	Inputs: []Input{shaftDia, lapInput,
		{Key: "wall", Label: "thinner part's wall: usually the sleeve's", Symbol: "t", Unit: unit.MM, Positive: true},
		{Key: "gap", Label: "gap on a side, at brazing heat", Symbol: "g", Unit: tenths, Default: "0.05", Source: joint.BrazeGapSource},
		{Key: "strength", Label: "shear strength of the joint", Symbol: "τ", Unit: unit.MPa, Default: "130", Source: joint.BrazeStrengthSource, Positive: true},
		{Key: "safety", Label: "factor of safety", Symbol: "S", Unit: unit.One, Default: "4", Source: joint.BrazeSafetySource, Positive: true},
		{Key: "tensile", Label: "tensile strength of the thinner part, for a joint as strong as it", Symbol: "R_m", Unit: unit.MPa, Optional: true, Positive: true},
		{Key: "integrity", Label: "share of the lap that is sound", Symbol: "C", Unit: unit.One, Default: "0.8", Source: joint.BrazeIntegritySource, Positive: true},
		handTorque, handFactor},
	Outputs: []string{"torque", "thrust", "torque_wanted", "lap_least", "least", "lap_proposed", "lap_as_strong", "allowable"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := notNegative(sc, "gap"); err != nil {
			return err
		}
		mm := func(key, label, symbol string) sheet.Q {
			return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.MM}
		}
		sc.Method(stressQ("allowable", "shear to allow", "τ_allow"), joint.BrazedAllowable)
		wanted(sc)
		sc.Method(mm("lap_least", "lap that carries the torque wanted", "L_T"), joint.LapLeast, sheet.With{"torque": "torque_wanted", "shear": "allowable"})
		sc.Method(mm("least", "least lap", "L_min"), joint.BrazedLeast)
		sc.Method(mm("lap_proposed", "lap to take", "L"), joint.BrazedProposed)
		with := sheet.With{"lap": lapKey(sc), "shear": "allowable"}
		sc.Method(torqueQ("torque", "torque that it carries", "T"), joint.BrazedLap, with)
		sc.Method(sheet.Q{Key: "thrust", Label: "thrust that it carries", Symbol: "F", Unit: unit.Newton}, joint.BrazedForce, with)
		if sc.Has("tensile") {
			sc.Method(lengthQ("lap_as_strong", "lap as strong as the thinner part", "X"), joint.BrazedAsStrong)
		}
		carries(sc, "torque")
		quiet := func(key, label string, m sheet.Method) {
			sc.Method(sheet.Q{Key: key, Label: label, Unit: unit.MM, Quiet: true}, m)
		}
		quiet("lap_fails", "lap at which it fails", joint.BrazedFails)
		quiet("lap_most", "most lap that gains", joint.BrazedMost)
		sc.Formula(sheet.Q{Key: "lap_near", Label: "margin at which the lap is tight", Unit: unit.MM, Quiet: true}, "max(0, least - lap_fails - mm(0.001))", joint.BrazedLeast.Source)
		lap := lapKey(sc)
		sc.Check(sheet.Check{Key: "lap_long", Label: "Lap long enough", Figure: lap, Limit: "lap_fails", Tight: "lap_near", Level: sheet.Rule,
			Sentence: "The lap is {figure}; under {limit}, twice the thinner wall, it fails.", Source: joint.BrazedFails.Source})
		sc.Check(sheet.Check{Key: "lap_short", Label: "Lap no longer than it gains", Figure: lap, Limit: "lap_most", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "The lap is {figure}; beyond {limit}, six times the thinner wall, nothing is gained.", Source: joint.BrazedMost.Source})
		bound(sc, sheet.Check{Key: "gap_wide", Label: "Gap not too wide", Figure: "gap", AtMost: true, Level: sheet.Rule,
			Sentence: "The gap is {figure} a side, and {limit} is the most that fills well.", Source: joint.BrazeGapSource}, lengthQ("", "", ""), joint.BrazeGapMost, 0.125)
		bound(sc, sheet.Check{Key: "gap_close", Label: "Gap not too close", Figure: "gap", Level: sheet.Rule,
			Sentence: "The gap is {figure} a side; under {limit} the alloy does not run in.", Source: joint.BrazeGapSource}, lengthQ("", "", ""), joint.BrazeGapLeast, 0.015)
		return nil
	},
}

var grubScrew = Method{
	Key: "grub_screw", Label: "Grub screw on a shaft", Field: "Joints",
	Purpose: "What a grub screw holds on a shaft that is softer than it, tightened as it should be. A flat under it saves the shaft.",
	Example: map[string]string{"screw": "M6", "dia": "14", "hand_torque": "1"},
	Inputs: []Input{
		{Key: "screw", Label: "screw", Word: true, Default: "M5", Options: grubSizes()},
		shaftDia,
		{Key: "point", Label: "point", Word: true, Default: "cup", Options: grubPoints()},
		{Key: "screws", Label: "screws", Word: true, Default: "1", Options: []Option{{"1", "one"}, {"2", "two, at 90° to 120°"}}},
		{Key: "held", Label: "share of the handbook's holding power counted on", Symbol: "f", Unit: unit.One, Default: "0.4", Source: joint.GrubHeldSource, Positive: true},
		{Key: "safety", Label: "factor of safety", Symbol: "S", Unit: unit.One, Default: "4", Source: joint.GrubSafetySource, Positive: true},
		handTorque, {Key: "factor", Label: "factor on it", Symbol: "k", Unit: unit.One, Default: "1", Source: "assumed: the factor of safety is in what is allowed", Positive: true},
	},
	Outputs: []string{"seating", "holding_power", "holding", "torque", "torque_allowed", "torque_wanted"},
	Define: func(sc *sheet.Scope, words Words) error {
		g, _ := joint.GrubNamed(words["screw"])
		force := func(key, label, symbol string) sheet.Q {
			return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.Newton}
		}
		assumedIn(sc, torqueQ("seating", "torque to tighten it with", "T_s"), g.Seating, g.Source)
		assumedIn(sc, force("holding_power", "holding power of a cup point", "F_0"), g.Holding, g.Source)
		assumedIn(sc, sheet.Q{Key: "screw_dia", Label: "diameter of the screw", Symbol: "d", Unit: unit.MM, Quiet: true}, g.Dia, "its name")
		for _, p := range joint.GrubPoints {
			if p.Key == words["point"] {
				assumedIn(sc, sheet.Q{Key: "point_share", Label: "share of that with this point", Unit: unit.One, Quiet: true}, p.Share, "a screw maker's engineering guide, read: "+p.Label+" against cup")
			}
		}
		number, source := 1.0, "one screw"
		if words["screws"] == "2" {
			number, source = joint.GrubSecond, joint.GrubSecondSource
		}
		assumedIn(sc, sheet.Q{Key: "number", Label: "times what one screw holds", Unit: unit.One, Quiet: true}, number, source)
		sc.Method(force("holding", "thrust that it holds", "F"), joint.GrubHolding, sheet.With{"point": "point_share"})
		sc.Method(torqueQ("torque", "torque at which it slips", "T"), joint.GrubTorque)
		sc.Method(torqueQ("torque_allowed", "torque to allow", "T_allow"), joint.Allowed, sheet.With{"carries": "torque"})
		wanted(sc)
		carries(sc, "torque_allowed")
		sc.Method(sheet.Q{Key: "screw_most", Label: "largest screw for the shaft", Unit: unit.MM, Quiet: true}, joint.GrubMost)
		sc.Check(sheet.Check{Key: "screw_size", Label: "Screw not too large for the shaft", Figure: "screw_dia", Limit: "screw_most", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "The screw is {figure} and half the shaft is {limit}.", Source: joint.GrubMost.Source})
		return nil
	},
}

func grubSizes() (all []Option) {
	for _, g := range joint.GrubScrews {
		all = append(all, Option{g.Key, g.Key})
	}
	return all
}

func grubPoints() (all []Option) {
	for _, p := range joint.GrubPoints {
		all = append(all, Option{p.Key, p.Label})
	}
	return all
}

var splitClamp = Method{
	Key: "clamp", Label: "Split clamp on a shaft", Field: "Joints",
	Purpose: "The torque and thrust that a split clamp holds by friction.",
	Example: map[string]string{"dia": "12", "bolt_dia": "6"},
	Inputs: []Input{shaftDia,
		{Key: "bolt_dia", Label: "diameter of the bolts", Symbol: "d_b", Unit: unit.MM, Default: "5", Source: "assumed", Positive: true},
		{Key: "bolts", Label: "bolts", Symbol: "n", Unit: unit.Count, Default: "1", Source: "assumed", Whole: true, Positive: true},
		{Key: "bolt_torque", Label: "bolts tightened with; nothing means as usual for class 8.8", Symbol: "T_b", Unit: unit.NewtonMetre, Optional: true, Positive: true},
		{Key: "friction", Label: "friction", Symbol: "µ", Unit: unit.One, Default: "0.15", Source: joint.ClampFrictionSource, Positive: true},
		{Key: "share", Label: "share of the bolts' pull that gets to the shaft", Symbol: "f", Unit: unit.One, Default: "0.5", Source: joint.ClampShareSource, Positive: true},
		handTorque, handFactor},
	Outputs: []string{"bolt_force", "torque", "thrust", "torque_wanted"},
	Define: func(sc *sheet.Scope, _ Words) error {
		with := sheet.With{"bolt_torque": "bolt_torque"}
		if !sc.Has("bolt_torque") {
			usual, ok := joint.BoltTorques[typedValue(sc, "bolt_dia")]
			if !ok {
				return refuse("bolt_torque", "what a bolt of that size is usually tightened with is known for 4, 5, 6 and 8 mm: give the torque")
			}
			assumedIn(sc, torqueQ("usual_torque", "bolts are usually tightened with", "T_b"), usual, "common practice for class 8.8, friction 0.14; 70 % of it into iron, 60 % into aluminium")
			with["bolt_torque"] = "usual_torque"
		}
		sc.Method(sheet.Q{Key: "bolt_force", Label: "pull of a bolt", Symbol: "F_b", Unit: unit.Newton}, joint.BoltForce, with)
		sc.Method(torqueQ("torque", "torque that it holds", "T"), joint.ClampTorque)
		sc.Method(sheet.Q{Key: "thrust", Label: "thrust that it holds", Symbol: "F", Unit: unit.Newton}, joint.ClampThrust)
		wanted(sc)
		carries(sc, "torque")
		return nil
	},
}

var spigot = Method{
	Key: "spigot", Label: "Spigot on an old shaft end", Field: "Joints",
	Purpose: "The largest spigot that can be turned on an old end, the torque that it carries, and the wall of the sleeve around it.",
	Example: map[string]string{"shank": "10", "thread_dia": "10", "pitch": "1", "outside": "14"},
	Inputs: []Input{
		{Key: "shank", Label: "smallest plain diameter of the old end, in the spigot's length", Symbol: "D", Unit: unit.MM, Positive: true},
		{Key: "thread_dia", Label: "outside of an old thread in it", Symbol: "d", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "pitch", Label: "its pitch", Symbol: "P", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "spigot", Label: "spigot; nothing means the largest", Symbol: "d_s", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "outside", Label: "outside of the sleeve", Symbol: "D_o", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "shear", Label: "shear to allow in the spigot", Symbol: "τ", Unit: unit.MPa, Default: "70", Source: "common practice, no source: 60 to 80 MPa in mild steel with a shoulder", Positive: true},
		handTorque, handFactor,
	},
	Outputs: []string{"root", "spigot_most", "torque", "torque_wanted", "wall"},
	Define: func(sc *sheet.Scope, _ Words) error {
		most := "shank"
		switch dia, pitch := sc.Has("thread_dia"), sc.Has("pitch"); {
		case dia != pitch:
			return refuse("pitch", "give both the outside and the pitch of the old thread, or neither")
		case dia && typedValue(sc, "pitch")*1.25 >= typedValue(sc, "thread_dia"):
			return refuse("pitch", "a thread of that pitch has no core left: give less than 0.8 of the outside")
		case dia:
			sc.Method(lengthQ("root", "root of the old thread", "d_3"), screw.Root, sheet.With{"dia": "thread_dia"})
			sc.Method(lengthQ("spigot_most", "largest spigot", "d_max"), joint.SpigotMost)
			most = "spigot_most"
		default:
			sc.Formula(lengthQ("spigot_most", "largest spigot", "d_max"), "shank", joint.SpigotMost.Source)
		}
		size := most
		if sc.Has("spigot") {
			size = "spigot"
			sc.Check(sheet.Check{Key: "metal", Label: "Metal for the spigot", Figure: "spigot", Limit: most, AtMost: true, Level: sheet.Stop,
				Sentence: "The spigot is {figure}, and the old end gives {limit}.", Source: joint.SpigotMost.Source})
		}
		wanted(sc)
		sc.Method(torqueQ("torque", "torque that the spigot carries", "T"), joint.CoreTorque, sheet.With{"root": size})
		carries(sc, "torque")
		if sc.Has("outside") {
			sleeveWall(sc, sheet.With{"dia": size})
		}
		return nil
	},
}
