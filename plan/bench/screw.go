package bench

import (
	"fmt"
	"math"

	"fettle/plan"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/thread"
	"fettle/plan/unit"
)

// feedScrews are the calculations of plan/screw.
var feedScrews = []Method{
	screwTorque, screwBuckling, screwWhirl, screwSag, screwWindup, screwStiffness, sideForce, lostMotion,
}

// screwNamed is the screw's thread, of which a figure can be put in the place of the thread's.
func screwNamed() Input { return threadNamed("Tr12x3") }

var (
	rootGiven  = Input{Key: "root", Label: "root diameter, if not the thread's", Symbol: "d_3", Unit: unit.MM, Optional: true, Positive: true}
	modulusIn  = Input{Key: "modulus", Label: "modulus of the screw", Symbol: "E", Unit: unit.GPa, Default: "206", Source: screw.SteelModulusSource, Positive: true}
	shearIn    = Input{Key: "shear_modulus", Label: "shear modulus of the screw", Symbol: "G", Unit: unit.GPa, Default: "79", Source: screw.ShearModulusSource, Positive: true}
	densityIn  = Input{Key: "density", Label: "density of the screw", Symbol: "ρ", Unit: unit.Density, Default: "7850", Source: screw.SteelDensitySource, Positive: true}
	leadGiven  = Input{Key: "lead", Label: "lead, if not the thread's", Symbol: "l", Unit: unit.MM, Optional: true, Positive: true}
	flankGiven = Input{Key: "flank", Label: "half of the flank angle, if not the thread's; 0 for a square thread", Symbol: "α", Unit: unit.Degree, Optional: true}
)

func thrust(usual, source string) Input {
	return Input{Key: "force", Label: "thrust", Symbol: "F", Unit: unit.Newton, Default: usual, Source: source, Positive: true}
}

func screwLength(label, usual string) Input {
	return Input{Key: "length", Label: label, Symbol: "L", Unit: unit.MM, Default: usual, Source: "assumed: a small lathe's cross slide", Positive: true}
}

// layScrew lays the thread in a scope of its own, and from it each figure that
// was not given.
func layScrew(sc *sheet.Scope, words Words, figures ...string) (thread.Thread, error) {
	t, err := threadOf(words)
	if err != nil {
		return t, err
	}
	t.Lay(sc.In("thread"))
	labels := map[string]sheet.Q{
		"root":      lengthQ("root", "root diameter", "d_3"),
		"pitch_dia": lengthQ("pitch_dia", "pitch diameter", "d_2"),
		"lead":      lengthQ("lead", "lead", "l"),
		"flank":     {Key: "flank", Label: "half of the flank angle", Symbol: "α", Unit: unit.Degree, Decimals: 2},
	}
	for _, key := range figures {
		if !sc.Has(key) {
			sc.Formula(labels[key], "thread."+key, "of the thread")
		}
	}
	if l, ok := sc.Leaf("flank"); ok && (l.Value < 0 || l.Value > unit.Degree.Inside(45)) {
		return t, plan.Problem{Field: "flank", Say: "give 0 to 45°"}
	}
	return t, nil
}

func screwTorqueQ(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.NewtonMetre, Decimals: 3}
}

func angleQ(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.Degree, Decimals: 2}
}

var screwTorque = Method{
	Key: "screw_torque", Label: "Torque and thrust of a feed screw", Field: "Feed screws",
	Purpose: "The torque for a thrust and the thrust from a hand, both ways, with the efficiency, and whether the thread holds its load by itself.",
	Inputs: []Input{
		screwNamed(),
		thrust("300", "assumed: cross slide of a bench lathe, 100 to 500 N; drilling from a tailstock 500 to 2000 N (common practice, no source)"),
		{Key: "friction", Label: "friction of the thread", Symbol: "µ", Unit: unit.One, Default: "0.15", Source: "steel on bronze 0.10 to 0.15 oiled, 0.15 to 0.20 dry; on iron 0.15 to 0.20: handbook values, from memory", Positive: true},
		{Key: "collar_friction", Label: "friction of the thrust face or bearing", Symbol: "µ_c", Unit: unit.One, Default: "0.15", Source: "plain collar 0.12 to 0.17, ball thrust bearing 0.0015 to 0.003: handbook values, from memory"},
		{Key: "collar_dia", Label: "mean diameter of that face", Symbol: "d_c", Unit: unit.MM, Default: "14", Source: "assumed: a collar on a 12 mm screw", Positive: true},
		{Key: "radius", Label: "radius of the handle", Symbol: "R", Unit: unit.MM, Default: "30", Source: "assumed: a small hand wheel", Positive: true},
		{Key: "hand", Label: "force of a hand on the rim", Symbol: "F_h", Unit: unit.Newton, Default: "30", Source: practice + ": 10 to 30 N is comfortable, 100 N strong", Positive: true},
		{Key: "pitch_dia", Label: "pitch diameter, if not the thread's", Symbol: "d_2", Unit: unit.MM, Optional: true, Positive: true},
		leadGiven, flankGiven,
		{Key: "nut_length", Label: "length of the nut, for the pressure in it", Unit: unit.MM, Optional: true, Positive: true},
	},
	Outputs: []string{"torque_against", "torque_with", "rim_force", "thrust_from_hand", "efficiency", "holding", "lead_angle", "friction_angle", "thread_against", "thread_with", "collar_torque", "nut_pressure"},
	Define: func(sc *sheet.Scope, words Words) error {
		if l, _ := sc.Leaf("collar_friction"); l.Value < 0 {
			return plan.Problem{Field: "collar_friction", Say: "give 0 or more"}
		}
		_, err := layScrew(sc, words, "pitch_dia", "lead", "flank")
		if err != nil {
			return err
		}
		sc.Method(screwTorqueQ("thread_against", "of that, the thread", ""), screw.ThreadAgainst)
		sc.Method(screwTorqueQ("thread_with", "thread alone, with the load", ""), screw.ThreadWith)
		sc.Method(screwTorqueQ("collar_torque", "of that, the thrust face", ""), screw.CollarTorque)
		sc.Method(screwTorqueQ("torque_against", "torque against the load", "T"), screw.TorqueAgainst)
		sc.Method(screwTorqueQ("torque_with", "torque with the load", "T_w"), screw.TorqueWith)
		sc.Method(shareQ("efficiency", "efficiency"), screw.Efficiency)
		sc.Method(angleQ("lead_angle", "lead angle", "λ"), screw.LeadAngle)
		sc.Method(angleQ("friction_angle", "friction angle", "ρ"), screw.FrictionAngle)
		sc.Method(sheet.Q{Key: "holding", Label: "friction over lead: above 1 the thread holds by itself", Unit: unit.One}, screw.Holding)
		sc.Method(sheet.Q{Key: "rim_force", Label: "force on the rim", Symbol: "F_r", Unit: unit.Newton, Decimals: 1}, screw.RimForce)
		sc.Method(sheet.Q{Key: "thrust_from_hand", Label: "thrust from the hand's force", Unit: unit.Newton}, screw.ThrustFrom)
		if sc.Has("nut_length") {
			sc.Formula(lengthQ("flank_height", "height of the flanks that bear", "H_1"), "(thread.dia - thread.bore) / 2", geometry)
			sc.Method(sheet.Q{Key: "nut_pressure", Label: "pressure on the nut's flanks", Symbol: "p", Unit: unit.MPa, Decimals: 2}, screw.NutPressure, sheet.With{"pitch": "thread.pitch"})
			bound(sc, sheet.Check{Key: "wear", Label: "pressure in the nut", Figure: "nut_pressure", AtMost: true, Level: sheet.Rule, Advice: true,
				Sentence: "The flanks carry {figure}; up to {limit} a bronze nut lasts, 4 MPa an iron one, 3 MPa acetal.", Source: screw.NutPressureSource},
				sheet.Q{Unit: unit.MPa, Decimals: 1}, screw.NutPressureGood, screw.NutPressureBronze)
		}
		bound(sc, sheet.Check{Key: "by_hand", Label: "force on the rim", Figure: "rim_force", AtMost: true, Level: sheet.Rule,
			Sentence: "It takes {figure} on the rim, against at most {limit} of a hand.", Source: practice}, sheet.Q{Unit: unit.Newton}, 60, 120)
		bound(sc, sheet.Check{Key: "stays_put", Label: "thread holds by itself", Figure: "holding", Level: sheet.Rule,
			Sentence: "Friction is {figure} of what the lead would need to run back, against {limit}: a thread that does not hold lets a vertical or sprung slide creep once a ball bearing takes the place of a plain collar.", Source: "statics; a fifth above is " + practice},
			sheet.Q{Unit: unit.One}, 1.2, 1)
		bound(sc, sheet.Check{Key: "wasted", Label: "efficiency", Figure: "efficiency", Level: sheet.Note, Advice: true,
			Sentence: "{figure} of the work reaches the slide; under {limit} the screw is heavy to turn.", Source: practice}, sheet.Q{Unit: unit.Percent}, 0.15, 0.15)
		return nil
	},
}

func endsIn(usual string) Input {
	in := Input{Key: "ends", Label: "how the screw is held", Word: true, Default: usual}
	for _, e := range screw.Held {
		in.Options = append(in.Options, Option{e.Key, e.Label})
	}
	return in
}

var screwBuckling = Method{
	Key: "screw_buckling", Label: "Buckling of a screw", Field: "Feed screws",
	Purpose: "The thrust at which the longest part in compression buckles: Euler's for slender screws, Johnson's for stout ones.",
	Inputs: []Input{
		screwNamed(), rootGiven,
		{Key: "hole", Label: "hole through it", Symbol: "d_i", Unit: unit.MM, Default: "0", Source: "assumed: none"},
		screwLength("longest part in compression; none, if the screw is pulled", "250"),
		endsIn("supported-supported"),
		thrust("500", "assumed: a hard cut or a drill; common practice, no source"),
		modulusIn,
		{Key: "yield", Label: "yield strength of the screw", Symbol: "S_y", Unit: unit.MPa, Default: "375", Source: screw.YieldSource, Positive: true},
	},
	Outputs: []string{"critical", "safety", "slenderness", "transition", "euler_load", "chart_load", "area", "second_moment"},
	Define: func(sc *sheet.Scope, words Words) error {
		t, err := layScrew(sc, words, "root")
		if err != nil {
			return err
		}
		hole, _ := sc.Leaf("hole")
		root, given := sc.Leaf("root")
		if !given {
			b, err := t.Basic()
			if err != nil {
				return err
			}
			root.Value = b.Root
		}
		if hole.Value < 0 || hole.Value >= root.Value {
			return plan.Problem{Field: "hole", Say: "give 0, or a hole smaller than the root of the thread"}
		}
		ends, _ := screw.HeldNamed(words["ends"])
		sc.Measure(sheet.Q{Key: "fixity", Label: "factor of the ends", Symbol: "C", Unit: unit.One}, sheet.Leaf{Value: ends.Fixity, Origin: sheet.Chosen, Note: screw.FixitySource})
		load := func(key, label string) sheet.Q { return sheet.Q{Key: key, Label: label, Unit: unit.Newton} }
		sc.Method(sheet.Q{Key: "area", Label: "section", Symbol: "A", Unit: unit.MM2}, screw.Area)
		sc.Method(sheet.Q{Key: "second_moment", Label: "second moment", Symbol: "I", Unit: unit.MM4, Decimals: 1}, screw.HollowMoment)
		sc.Method(sheet.Q{Key: "slenderness", Label: "slenderness", Symbol: "L/k", Unit: unit.One, Decimals: 1}, screw.Slenderness)
		sc.Method(sheet.Q{Key: "transition", Label: "slenderness from which Euler holds", Unit: unit.One, Decimals: 1}, screw.Transition)
		sc.Method(load("euler_load", "Euler's load"), screw.EulerLoad)
		sc.Method(load("johnson_load", "Johnson's load"), screw.JohnsonLoad)
		sc.Method(load("critical", "load at which it buckles"), screw.CriticalLoad)
		sc.Method(load("chart_load", "what charts of ball screws would allow, their margin in it"), screw.ChartLoad)
		sc.Method(sheet.Q{Key: "safety", Label: "margin against buckling", Unit: unit.One, Decimals: 1}, screw.SafetyOf)
		bound(sc, sheet.Check{Key: "safety_check", Label: "margin against buckling", Figure: "safety", Level: sheet.Rule,
			Sentence: "The screw buckles at {figure} times the thrust; {limit} is the least, 3 is good.", Source: practice}, sheet.Q{Unit: unit.One}, 3, 2)
		return nil
	},
}

var screwWhirl = Method{
	Key: "screw_whirl", Label: "Whirling of a screw", Field: "Feed screws",
	Purpose: "The speed at which a free length of screw or shaft whirls, and what is safe under power.",
	Inputs: []Input{
		screwNamed(), rootGiven, screwLength("free length", "300"), endsIn("fixed-supported"), modulusIn, densityIn,
		{Key: "speed", Label: "speed it turns at", Symbol: "n", Unit: unit.RPM, Default: "150", Source: "assumed: the fastest that a hand turns; common practice, no source", Positive: true},
	},
	Outputs:  []string{"whirl", "whirl_safe"},
	Cautions: []string{"A bar that whirls bends and flails at once: support what stands out of a spindle, keep bystanders out of line, and bring the speed up slowly behind a guard."},
	Define: func(sc *sheet.Scope, words Words) error {
		if _, err := layScrew(sc, words, "root"); err != nil {
			return err
		}
		ends, _ := screw.HeldNamed(words["ends"])
		sc.Measure(sheet.Q{Key: "lambda", Label: "eigenvalue of the ends", Symbol: "λ", Unit: unit.One, Decimals: 4}, sheet.Leaf{Value: ends.Lambda, Origin: sheet.Chosen, Note: screw.LambdaSource})
		sc.Method(sheet.Q{Key: "whirl", Label: "whirling speed", Symbol: "n_c", Unit: unit.RPM}, screw.Whirl)
		sc.Method(sheet.Q{Key: "whirl_safe", Label: "safe up to", Unit: unit.RPM}, screw.WhirlSafe)
		sc.Formula(sheet.Q{Key: "whirl_near", Label: "margin at which it is tight", Unit: unit.RPM, Quiet: true}, "0.1 * whirl", practice+": from 70 % of the whirling speed on")
		sc.Check(sheet.Check{Key: "whirl_check", Label: "clear of whirling", Figure: "speed", Limit: "whirl_safe", Tight: "whirl_near", AtMost: true, Level: sheet.Rule,
			Sentence: "It turns at {figure}, and is safe up to {limit}.", Source: practice + ": 80 % of the whirling speed"})
		return nil
	},
}

var screwSag = Method{
	Key: "screw_sag", Label: "Sag of a screw", Field: "Feed screws",
	Purpose: "How far a free length hangs through under its own weight, and under a load from the side.",
	Inputs: []Input{
		screwNamed(), rootGiven, screwLength("free length", "300"), endsIn("supported-supported"), modulusIn, densityIn,
		{Key: "side_load", Label: "load from the side, in the middle or at the free end", Symbol: "F", Unit: unit.Newton, Default: "0", Source: "assumed: none"},
	},
	Outputs: []string{"sag", "bend", "off_line", "weight", "second_moment"},
	Define: func(sc *sheet.Scope, words Words) error {
		if l, _ := sc.Leaf("side_load"); l.Value < 0 {
			return plan.Problem{Field: "side_load", Say: "give 0 or more"}
		}
		if _, err := layScrew(sc, words, "root"); err != nil {
			return err
		}
		methods := map[string][2]sheet.Method{
			"fixed-free": {screw.Sag, screw.BendFree}, "supported-supported": {screw.SagSupported, screw.BendSupported},
			"fixed-supported": {screw.SagPropped, screw.BendPropped}, "fixed-fixed": {screw.SagFixed, screw.BendFixed},
		}[words["ends"]]
		q := func(key, label string) sheet.Q {
			return sheet.Q{Key: key, Label: label, Unit: unit.MM, Decimals: 4}
		}
		sc.Method(sheet.Q{Key: "second_moment", Label: "second moment of the root", Symbol: "I", Unit: unit.MM4, Decimals: 1}, screw.SecondMoment)
		sc.Method(sheet.Q{Key: "weight", Label: "weight by length", Symbol: "w", Unit: unit.NewtonPerMM, Decimals: 5}, screw.Weight)
		sc.Method(q("sag", "sag under its own weight"), methods[0], sheet.With{"free": "length"})
		sc.Method(q("bend", "bend under the side load"), methods[1])
		sc.Formula(q("off_line", "both together"), "sag + bend", "sum")
		bound(sc, sheet.Check{Key: "off_line_check", Label: "screw stays in line", Figure: "off_line", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "It hangs {figure} off its line; past {limit}, or past the play of thread and nut, it rubs.", Source: practice}, sheet.Q{Unit: unit.MM, Decimals: 3}, 0.03, 0.05)
		return nil
	},
}

var screwWindup = Method{
	Key: "screw_windup", Label: "Wind-up and stretch of a screw", Field: "Feed screws",
	Purpose: "How far a screw twists and stretches before the slide moves.",
	Inputs: []Input{
		screwNamed(), rootGiven, leadGiven, screwLength("handle or bearing to nut", "200"),
		{Key: "torque", Label: "torque", Symbol: "T", Unit: unit.NewtonMetre, Default: "1", Source: "assumed: a firm turn of a small hand wheel", Positive: true},
		thrust("300", "assumed: cross slide of a bench lathe; common practice, no source"), modulusIn, shearIn,
	},
	Outputs: []string{"wind_up", "wind_up_lost", "stretch", "both", "polar_moment", "area"},
	Define: func(sc *sheet.Scope, words Words) error {
		if _, err := layScrew(sc, words, "root", "lead"); err != nil {
			return err
		}
		um := func(key, label string) sheet.Q {
			return sheet.Q{Key: key, Label: label, Unit: unit.Micrometre, Decimals: 2}
		}
		sc.Method(sheet.Q{Key: "polar_moment", Label: "polar moment of the root", Symbol: "J", Unit: unit.MM4, Decimals: 1}, screw.PolarMoment)
		sc.Method(sheet.Q{Key: "area", Label: "section of the root", Symbol: "A", Unit: unit.MM2}, screw.BarArea)
		sc.Method(sheet.Q{Key: "wind_up", Label: "wind-up", Symbol: "φ", Unit: unit.Degree, Decimals: 3}, screw.WindUp)
		sc.Method(um("wind_up_lost", "that is, at the slide"), screw.WindUpLost)
		sc.Method(um("stretch", "stretch"), screw.Stretch)
		sc.Formula(um("both", "both together, at the slide"), "wind_up_lost + stretch", "sum: the worst case")
		return nil
	},
}

// compliance is how far something gives, by force.
var compliance = unit.Unit{Symbol: "µm/N", Dim: unit.LengthD.Per(unit.ForceD), Scale: 0.001, Decimals: 4}

func stiffnessIn(key, label, usual, source string) Input {
	return Input{Key: key, Label: label, Unit: unit.NewtonPerMicrometre, Default: usual, Source: source, Optional: usual == "", Positive: true}
}

var screwStiffness = Method{
	Key: "screw_stiffness", Label: "Stiffness of screw, bearing, nut and bracket", Field: "Feed screws",
	Purpose: "How stiff the whole is against thrust, what gives most, and how far it gives under a cut.",
	Inputs: []Input{
		screwNamed(), rootGiven, screwLength("thrust bearing to nut", "200"),
		{Key: "between", Label: "length between thrust bearings, if there is one at either end", Unit: unit.MM, Optional: true, Positive: true},
		modulusIn,
		stiffnessIn("bearing_stiffness", "stiffness of the thrust bearing", "30", "estimate: deep groove 8, one angular contact 40, a preloaded pair 80, thrust ball 140 N/µm, halved for faces and washers (from memory)"),
		stiffnessIn("nut_stiffness", "stiffness of the nut and its seat", "60", "assumed; common practice, no source"),
		stiffnessIn("bracket_stiffness", "stiffness of the bracket and its joint; nothing leaves it out", "", ""),
		thrust("300", "assumed: cross slide of a bench lathe; common practice, no source"),
	},
	Outputs: []string{"stiffness", "gives", "screw_stiffness"},
	Define: func(sc *sheet.Scope, words Words) error {
		if _, err := layScrew(sc, words, "root"); err != nil {
			return err
		}
		stiff := func(key, label string) sheet.Q {
			return sheet.Q{Key: key, Label: label, Symbol: "k", Unit: unit.NewtonPerMicrometre}
		}
		sc.Method(sheet.Q{Key: "area", Label: "section of the root", Symbol: "A", Unit: unit.MM2}, screw.BarArea)
		if between, ok := sc.Leaf("between"); ok {
			if l, _ := sc.Leaf("length"); between.Value <= l.Value {
				return plan.Problem{Field: "between", Say: "the nut lies between the bearings: give more than its distance from the first"}
			}
			sc.Method(stiff("screw_stiffness", "of the screw"), screw.ScrewStiffnessBoth)
		} else {
			sc.Method(stiff("screw_stiffness", "of the screw"), screw.ScrewStiffness)
		}
		for _, spring := range []string{"screw", "bearing", "nut", "bracket"} {
			if sc.Has(spring + "_stiffness") {
				key := spring + "_gives"
				sc.Formula(sheet.Q{Key: key, Label: "what the " + spring + " gives, by force", Unit: compliance}, "1 / spring", "definition", sheet.With{"spring": spring + "_stiffness"})
				sc.Family("compliances", "what gives", compliance, key)
			}
		}
		sc.Method(stiff("stiffness", "of the whole"), screw.InSeries)
		sc.Method(sheet.Q{Key: "gives", Label: "gives under the thrust", Unit: unit.Micrometre}, screw.GivesWay)
		bound(sc, sheet.Check{Key: "stiff_enough", Label: "stiffness", Figure: "stiffness", Level: sheet.Note, Advice: true,
			Sentence: "The whole has {figure}; under {limit} it chatters and creeps. Bench machines have 5 to 30.", Source: practice}, sheet.Q{Unit: unit.NewtonPerMicrometre}, unit.NewtonPerMicrometre.Inside(5), unit.NewtonPerMicrometre.Inside(5))
		return nil
	},
	Table: func(_ Words, r *sheet.Result) Table {
		t := Table{Caption: "what gives", Header: []string{"part", "N/µm", "share"}, Source: screw.InSeries.Source}
		whole := r.Value("stiffness", sheet.Planned)
		for _, spring := range []string{"screw", "bearing", "nut", "bracket"} {
			if k := r.Value(spring+"_stiffness", sheet.Planned); !math.IsNaN(k) {
				t.Rows = append(t.Rows, []string{spring, cell(r, spring+"_stiffness", 1), unit.Percent.Text(whole/k, 0) + " %"})
			}
		}
		return t
	},
}

var sideForce = Method{
	Key: "side_force", Label: "Side force of a nut off the screw's line", Field: "Feed screws",
	Purpose: "What a nut that is not in line with the bracket presses on the screw with, and why a screw binds at one end.",
	Example: map[string]string{"root": "9", "distance": "40"},
	Inputs: []Input{
		{Key: "root", Label: "root diameter of the screw", Symbol: "d_3", Unit: unit.MM, Positive: true},
		{Key: "distance", Label: "bracket to the middle of the nut", Symbol: "a", Unit: unit.MM, Positive: true},
		{Key: "misalignment", Label: "nut off the line by", Symbol: "e", Unit: unit.MM, Default: "0.1", Source: "assumed: as found on many small machines; common practice, no source"},
		modulusIn,
	},
	Outputs: []string{"side_force", "second_moment"},
	Define: func(sc *sheet.Scope, _ Words) error {
		sc.Method(sheet.Q{Key: "second_moment", Label: "second moment of the root", Symbol: "I", Unit: unit.MM4}, screw.SecondMoment)
		sc.Method(sheet.Q{Key: "side_force", Label: "side force", Symbol: "F", Unit: unit.Newton}, screw.SideForce)
		return nil
	},
}

// lostShares are the parts of lost motion, in the order in which they are shown.
var lostShares = []struct{ key, label string }{
	{"thread_share", "clearance of the thread"}, {"wear_share", "wear of the nut"}, {"float_share", "end float of the screw"},
	{"bearing_share", "play of the bearing"}, {"handle_share", "slack of handle, key or dial"}, {"twist_share", "wind-up of the screw"},
	{"stretch_share", "stretch of the screw"}, {"bracket_share", "bracket and its joint"},
}

var lostMotion = Method{
	Key: "lost_motion", Label: "Lost motion, share by share", Field: "Feed screws",
	Purpose: "Where the turn of the handle goes before the slide moves, and what of a measured backlash is not explained.",
	Inputs: []Input{
		screwNamed(), rootGiven, leadGiven, flankGiven,
		{Key: "clearance", Label: "clearance at the pitch diameter; on a square thread the gap between flanks", Symbol: "Δd_2", Unit: unit.MM, Default: "0.1", Source: "assumed: a new screw and nut; common practice, no source"},
		{Key: "wear", Label: "wear of the nut, along the screw", Unit: unit.MM, Default: "0", Source: "assumed: none"},
		{Key: "end_float", Label: "end float of the screw", Unit: unit.MM, Default: "0.02", Source: practice + ": 0.01 to 0.03 mm with plain collars"},
		{Key: "bearing_play", Label: "play of the thrust bearing, along the screw", Unit: unit.MM, Default: "0", Source: "assumed: none"},
		{Key: "handle_slack", Label: "slack of handle, key or dial", Unit: unit.Degree, Default: "0.5", Source: "assumed; common practice, no source"},
		{Key: "torque", Label: "torque while it takes up", Symbol: "T", Unit: unit.NewtonMetre, Default: "0.5", Source: "assumed: a light turn"},
		{Key: "force", Label: "thrust while it takes up", Symbol: "F", Unit: unit.Newton, Default: "100", Source: "assumed: slides in good order; common practice, no source"},
		screwLength("thrust bearing to nut", "200"), modulusIn, shearIn,
		stiffnessIn("bracket_stiffness", "stiffness of the bracket and its joint", "20", "assumed; common practice, no source"),
		{Key: "measured", Label: "lost motion as measured at the slide", Unit: unit.MM, Optional: true},
	},
	Outputs: []string{"lost", "likely", "unexplained", "thread_share", "wear_share", "float_share", "bearing_share", "handle_share", "twist_share", "stretch_share", "bracket_share", "lost_angle"},
	Define: func(sc *sheet.Scope, words Words) error {
		for _, key := range []string{"clearance", "wear", "end_float", "bearing_play", "handle_slack", "torque", "force", "measured"} {
			if l, _ := sc.Leaf(key); l.Value < 0 {
				return plan.Problem{Field: key, Say: "give 0 or more"}
			}
		}
		t, err := layScrew(sc, words, "root", "lead", "flank")
		if err != nil {
			return err
		}
		play := screw.ThreadPlay
		if l, given := sc.Leaf("flank"); given && l.Value == 0 || !given && t.Series.Form.Angle == 0 {
			play = sheet.Method{Text: "clearance", Source: "geometry: on a square thread the gap between flanks itself"}
		}
		sc.Method(sheet.Q{Key: "polar_moment", Label: "polar moment of the root", Symbol: "J", Unit: unit.MM4, Decimals: 1}, screw.PolarMoment)
		sc.Method(sheet.Q{Key: "area", Label: "section of the root", Symbol: "A", Unit: unit.MM2}, screw.BarArea)
		given := func(key string) sheet.Method { return sheet.Method{Text: key, Source: "as given"} }
		methods := map[string]sheet.Method{
			"thread_share": play, "wear_share": given("wear"), "float_share": given("end_float"), "bearing_share": given("bearing_play"),
			"handle_share": screw.HandleLost, "twist_share": screw.TwistLost, "stretch_share": screw.Stretch, "bracket_share": screw.BracketLost,
		}
		for _, s := range lostShares {
			sc.Method(sheet.Q{Key: s.key, Label: s.label, Unit: unit.MM, Decimals: 4}, methods[s.key])
			sc.Family("shares", "shares of the lost motion", unit.MM, s.key)
		}
		sc.Method(lengthQ("lost", "lost motion at the slide, at worst", ""), screw.LostWorst)
		sc.Method(lengthQ("likely", "likely", ""), screw.LostLikely)
		sc.Formula(angleQ("lost_angle", "that is a turn of the handle by", ""), "lost / lead * 2 * pi", "definition of the lead")
		if sc.Has("measured") {
			sc.Method(lengthQ("unexplained", "measured, and not explained", ""), screw.Unexplained)
		}
		bound(sc, sheet.Check{Key: "lost_check", Label: "lost motion", Figure: "lost", AtMost: true, Level: sheet.Note, Advice: true,
			Sentence: "{figure} is lost; past {limit} it is a nuisance. It matters where the feed turns back: climb cuts, and boring to a stop.", Source: practice + ": new 0.05 to 0.15, worn 0.5, after good work 0.02 to 0.04 mm"},
			sheet.Q{Unit: unit.MM}, 0.2, 0.2)
		return nil
	},
	Table: func(_ Words, r *sheet.Result) Table {
		t := Table{Caption: "shares", Header: []string{"from", "mm", "share"}, Source: screw.LostWorst.Source}
		whole := r.Value("lost", sheet.Planned)
		for _, s := range lostShares {
			share := 0.0
			if whole > 0 {
				share = r.Value(s.key, sheet.Planned) / whole
			}
			t.Rows = append(t.Rows, []string{s.label, cell(r, s.key, 4), fmt.Sprint(unit.Percent.Text(share, 0), " %")})
		}
		return t
	},
}
