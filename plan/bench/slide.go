package bench

import (
	"fmt"

	"fettle/plan"
	"fettle/plan/material"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// slideMethods are the calculations of plan/slide.
var slideMethods = []Method{
	dovetailMale, dovetailFemale, dovetailAngle,
	gibThickness, taperGib, gibScrews, gibRollover,
	slideSupport, slideJam, wayPressure, slideOverhang, wallThinned, playSwing, riserCompliance,
}

// typedValue is the inside value of an input that is a figure.
func typedValue(sc *sheet.Scope, key string) float64 {
	l, _ := sc.Leaf(key)
	return l.Value
}

// refuse is a problem at an input.
func refuse(field, format string, args ...any) error {
	return plan.Problem{Field: field, Say: fmt.Sprintf(format, args...)}
}

// notNegative is a problem at the first of the inputs that is below nothing.
func notNegative(sc *sheet.Scope, keys ...string) error {
	for _, k := range keys {
		if typedValue(sc, k) < 0 {
			return refuse(k, "give a figure that is not negative")
		}
	}
	return nil
}

// assumedIn defines a figure that is assumed, where it is not an input already.
func assumedIn(sc *sheet.Scope, q sheet.Q, value float64, source string) {
	if !sc.Has(q.Key) {
		sc.Measure(q, sheet.Leaf{Value: value, Origin: sheet.Assumed, Note: source})
	}
}

// enough advises where a count is below what is asked for, or above where c is AtMost.
func enough(sc *sheet.Scope, c sheet.Check, asked float64) {
	c.Limit, c.Tight, c.Advice = c.Key+"_limit", c.Key+"_short", true
	assumedIn(sc, sheet.Q{Key: c.Limit, Label: "asked for: " + c.Label, Unit: unit.Count, Whole: true}, asked, c.Source)
	assumedIn(sc, sheet.Q{Key: c.Tight, Label: "margin at which it is not: " + c.Label, Unit: unit.Count, Whole: true, Quiet: true}, -1, c.Source)
	sc.Check(c)
}

var frictionInput = Input{Key: "friction", Label: "friction of the ways", Symbol: "µ", Unit: unit.One, Default: "0.15", Source: slide.FrictionSource, Positive: true}

var slideSupport = Method{
	Key: "slide_support", Label: "How much of a slide is supported", Field: "Slides",
	Purpose: "The part of a slide that lies on its ways when one end stands past theirs.",
	Example: map[string]string{"length": "150", "ways": "141", "past": "25", "width": "60"},
	Inputs: []Input{
		{Key: "length", Label: "length of the slide", Symbol: "L", Unit: unit.MM, Positive: true},
		{Key: "ways", Label: "length of the ways", Symbol: "L_w", Unit: unit.MM, Positive: true},
		{Key: "past", Label: "slide past the end of the ways by (negative: still inside)", Symbol: "x", Unit: unit.MM},
		{Key: "width", Label: "width over the ways", Symbol: "b", Unit: unit.MM, Optional: true, Positive: true},
	},
	Outputs: []string{"supported", "overhang", "share", "ratio"},
	Define: func(sc *sheet.Scope, _ Words) error {
		quiet := func(key, label, text, source string) {
			sc.Formula(sheet.Q{Key: key, Label: label, Unit: unit.MM, Quiet: true}, text, source)
		}
		quiet("to", "end of the slide", "ways + past", geometry)
		quiet("from", "other end of the slide", "to - length", geometry)
		quiet("ways_from", "beginning of the ways", "mm(0)", "the datum")
		quiet("s", "slide moved by", "mm(0)", "the datum")
		sc.Method(sheet.Q{Key: "supported", Label: "on the ways", Symbol: "L_on", Unit: unit.MM}, slide.Supported, sheet.With{"ways_to": "ways"})
		sc.Method(sheet.Q{Key: "overhang", Label: "hangs over", Unit: unit.MM}, slide.Overhang)
		sc.Method(shareQ("share", "share on the ways"), slide.SupportShare)
		bound(sc, sheet.Check{Key: "support", Label: "Slide on its ways", Figure: "share", Level: sheet.Rule,
			Sentence: "{figure} of the slide lies on the ways, and {limit} is the least.", Source: slide.SupportLeastSource + "; " + slide.SupportGoodSource},
			shareQ("", ""), slide.SupportGood, slide.SupportLeast)
		if sc.Has("width") {
			sc.Method(sheet.Q{Key: "ratio", Label: "supported length by width", Unit: unit.One}, slide.GuideRatio, sheet.With{"length": "supported"})
			bound(sc, sheet.Check{Key: "support_ratio", Label: "Supported length against the width", Figure: "ratio", Level: sheet.Rule, Advice: true,
				Sentence: "What is supported is {figure} times as long as wide, and {limit} is the least that is steady.", Source: slide.RatioLeastSource},
				sheet.Q{Unit: unit.One}, slide.RatioLeast, slide.RatioLeast)
		}
		return nil
	},
}

var slideJam = Method{
	Key: "slide_jam", Label: "Does a slide jam?", Field: "Slides",
	Purpose: "Whether a slide that is driven off its line of friction turns on its guide until it locks.",
	Example: map[string]string{"length": "120", "offset": "60", "width": "60"},
	Inputs: []Input{
		{Key: "length", Label: "length that is guided", Symbol: "L", Unit: unit.MM, Positive: true},
		{Key: "offset", Label: "drive off the line of friction by", Symbol: "e", Unit: unit.MM},
		frictionInput,
		{Key: "width", Label: "width of the guide", Symbol: "b", Unit: unit.MM, Optional: true, Positive: true},
	},
	Outputs: []string{"limit_offset", "jam_length", "free_length", "ratio"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := notNegative(sc, "offset"); err != nil {
			return err
		}
		sc.Method(sheet.Q{Key: "limit_offset", Label: "offset at which it jams", Symbol: "e_max", Unit: unit.MM}, slide.JamOffset)
		sc.Method(sheet.Q{Key: "jam_length", Label: "length at which it jams", Symbol: "L_j", Unit: unit.MM}, slide.JamGuide)
		sc.Method(sheet.Q{Key: "jam_near", Label: "more than that, below which it is tight", Unit: unit.MM, Quiet: true}, slide.JamNear)
		sc.Method(sheet.Q{Key: "free_length", Label: "length with which it runs freely", Symbol: "L_f", Unit: unit.MM}, slide.JamFree)
		sc.Check(sheet.Check{Key: "jam", Label: "Slide jams", Figure: "length", Limit: "jam_length", Tight: "jam_near", Level: sheet.Rule,
			Sentence: "{figure} of the slide is guided; it jams at {limit}.", Source: slide.JamGuide.Source})
		if sc.Has("width") {
			sc.Method(sheet.Q{Key: "ratio", Label: "length by width", Unit: unit.One}, slide.GuideRatio)
			bound(sc, sheet.Check{Key: "jam_ratio", Label: "Guide's length against its width", Figure: "ratio", Level: sheet.Rule,
				Sentence: "The guide is {figure} times as long as wide, and {limit} is the least.", Source: slide.RatioLeastSource + "; " + slide.RatioGoodSource},
				sheet.Q{Unit: unit.One}, slide.RatioGood, slide.RatioLeast)
		}
		return nil
	},
}

var wayPressure = Method{
	Key: "way_pressure", Label: "Pressure on the ways", Field: "Slides",
	Purpose: "The mean pressure under a slide, that at the edge it leans on, and whether the other edge lifts.",
	Example: map[string]string{"load": "300", "width": "30", "length": "120", "offset": "15"},
	Inputs: []Input{
		{Key: "load", Label: "load on the ways", Symbol: "F", Unit: unit.Newton, Positive: true},
		{Key: "width", Label: "width of all the ways together", Symbol: "b", Unit: unit.MM, Positive: true},
		{Key: "length", Label: "length on the ways", Symbol: "L", Unit: unit.MM, Positive: true},
		{Key: "offset", Label: "load off the middle by", Symbol: "e", Unit: unit.MM, Default: "0", Source: "assumed: over the middle"},
	},
	Outputs: []string{"pressure", "edge", "lift"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := notNegative(sc, "offset"); err != nil {
			return err
		}
		if typedValue(sc, "offset") >= typedValue(sc, "length")/2 {
			return refuse("offset", "the load lies beyond the slide's end, and tips it: give less than half the length")
		}
		mpa := unit.MPa
		mpa.Decimals = 3
		sc.Method(sheet.Q{Key: "pressure", Label: "mean pressure", Symbol: "p", Unit: mpa}, slide.WayPressure)
		sc.Method(sheet.Q{Key: "edge", Label: "pressure at the edge", Symbol: "p_max", Unit: mpa}, slide.EdgePressure)
		sc.Method(sheet.Q{Key: "lift", Label: "pressure left at the other edge", Symbol: "p_min", Unit: mpa}, slide.LiftPressure)
		bound(sc, sheet.Check{Key: "mean", Label: "Mean pressure", Figure: "pressure", AtMost: true, Level: sheet.Rule,
			Sentence: "{figure} on the ways, and {limit} is the most.", Source: slide.PressureMostSource}, sheet.Q{Unit: mpa}, 0.4, slide.PressureMost)
		bound(sc, sheet.Check{Key: "peak", Label: "Pressure at the edge", Figure: "edge", AtMost: true, Level: sheet.Rule,
			Sentence: "{figure} at the edge, and {limit} is the most.", Source: slide.EdgeMostSource}, sheet.Q{Unit: mpa}, 1.2, slide.EdgeMost)
		bound(sc, sheet.Check{Key: "lifts", Label: "The other edge lifts", Figure: "lift", Level: sheet.Rule,
			Sentence: "{figure} is left at the other edge; below {limit} it lifts, and the gib must hold it down.", Source: slide.LiftPressure.Source}, sheet.Q{Unit: mpa}, 0, 0)
		return nil
	},
}

// perMPa is a length given for a pressure.
var perMPa = unit.Unit{Symbol: "µm/MPa", Dim: unit.LengthD.Per(unit.MPa.Dim), Scale: 0.001, Decimals: 2}

var (
	contactInput = Input{Key: "give_ref", Label: "faces give at 1 kgf/cm² (0.098 MPa)", Symbol: "λ_1", Unit: unit.Unit{Symbol: "µm", Dim: unit.LengthD, Scale: 0.001, Decimals: 2}, Default: "1.15", Source: slide.ContactRefSource, Positive: true}
	ironModulus  = Input{Key: "modulus", Label: "modulus of the iron", Symbol: "E", Unit: unit.GPa, Default: "100", Source: "grey cast iron, handbook value 88 to 113 GPa for EN-GJL-200 (EN 1561)", Positive: true}
)

var slideOverhang = Method{
	Key: "slide_overhang", Label: "A slide that stands out", Field: "Slides",
	Purpose: "How far the tool gives way when the slide stands out beyond its ways, and how much stiffness that costs.",
	Example: map[string]string{"overhang": "37", "supported": "113", "width": "60", "height": "20", "ways_width": "30", "overhang_before": "25"},
	Inputs: []Input{
		{Key: "force", Label: "force at the tool", Symbol: "F", Unit: unit.Newton, Default: "300", Source: "common practice, no source: 100 to 500 N at the tool of a bench lathe", Positive: true},
		{Key: "overhang", Label: "slide beyond its ways", Symbol: "L", Unit: unit.MM, Positive: true},
		{Key: "arm", Label: "tool beyond the slide's end", Symbol: "a", Unit: unit.MM, Default: "0", Source: "assumed: at its end"},
		{Key: "supported", Label: "slide on its ways", Symbol: "L_on", Unit: unit.MM, Positive: true},
		{Key: "width", Label: "width of the slide", Symbol: "b", Unit: unit.MM, Positive: true},
		{Key: "height", Label: "height of the slide, as if solid", Symbol: "h", Unit: unit.MM, Positive: true},
		{Key: "ways_width", Label: "width of all the ways together", Symbol: "b_w", Unit: unit.MM, Positive: true},
		{Key: "press", Label: "ways pressed together with", Symbol: "p", Unit: unit.MPa, Default: "0.1", Source: "assumed: weight, gib and cut on small ways", Positive: true},
		contactInput, ironModulus,
		{Key: "overhang_before", Label: "slide beyond its ways before the change", Symbol: "L_0", Unit: unit.MM, Optional: true},
	},
	Outputs: []string{"moves", "bend", "sink", "slope", "stiffness", "stiffness_share"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := notNegative(sc, "arm", "overhang_before"); err != nil {
			return err
		}
		fine := unit.Micrometre
		sc.Method(sheet.Q{Key: "second_moment", Label: "second moment of the slide", Symbol: "I", Unit: unit.MM4, Quiet: true}, slide.BlockSecondMoment)
		sc.Method(sheet.Q{Key: "give", Label: "give of the ways", Symbol: "k", Unit: perMPa}, slide.ContactGive)
		lay := func(suffix, when string, with sheet.With) {
			w := func(more ...string) sheet.With {
				all := sheet.With{}
				for k, v := range with {
					all[k] = v
				}
				for _, k := range more {
					all[k] = k + suffix
				}
				return all
			}
			sc.Method(sheet.Q{Key: "bend" + suffix, Label: "by bending" + when, Symbol: "δ_b", Unit: fine}, slide.OverhangBend, w())
			sc.Method(sheet.Q{Key: "sink" + suffix, Label: "by the give of the ways" + when, Symbol: "δ_w", Unit: fine}, slide.WaysSink, w())
			sc.Method(sheet.Q{Key: "moves" + suffix, Label: "tool moves" + when, Symbol: "δ" + suffix, Unit: fine}, slide.ToolMoves, w("bend", "sink"))
		}
		lay("", "", sheet.With{})
		sc.Method(sheet.Q{Key: "slope", Label: "slide's end turns by", Unit: milliradian}, slide.OverhangSlope)
		sc.Method(sheet.Q{Key: "stiffness", Label: "stiffness at the tool", Symbol: "c", Unit: unit.NewtonPerMicrometre}, slide.Stiffness)
		if !sc.Has("overhang_before") {
			return nil
		}
		if typedValue(sc, "supported")+typedValue(sc, "overhang") <= typedValue(sc, "overhang_before") {
			return refuse("overhang_before", "that is longer than the slide")
		}
		sc.Formula(sheet.Q{Key: "supported_before", Label: "slide on its ways before", Symbol: "L_on0", Unit: unit.MM, Quiet: true}, "supported + overhang - overhang_before", geometry)
		lay("_before", " before", sheet.With{"overhang": "overhang_before", "supported": "supported_before"})
		sc.Method(shareQ("stiffness_share", "stiffness left"), slide.StiffnessShare)
		bound(sc, sheet.Check{Key: "stiff", Label: "Stiffness left", Figure: "stiffness_share", Level: sheet.Rule,
			Sentence: "{figure} of the stiffness before the change is left, and {limit} is the least.", Source: slide.StiffSource}, shareQ("", ""), slide.StiffGood, slide.StiffLeast)
		return nil
	},
}

// milliradian is a small angle: 1 mm in a metre.
var milliradian = unit.Unit{Symbol: "mm/m", Dim: unit.Number, Scale: 0.001, Decimals: 3}

// walls are the least that may be left of a wall, mm, and what is tight, by
// where it is.
var walls = map[string]struct{ least, good float64 }{
	"bench": {5, 6}, "middle": {5, 8}, "large": {5, 10}, "bore": {4, 6},
}

var wallThinned = Method{
	Key: "wall_thinned", Label: "A wall cut thinner", Field: "Slides",
	Purpose: "What is left of the strength and stiffness of a cast wall that is cut back, and whether it bears the load.",
	Example: map[string]string{"before": "23", "after": "11", "width": "28", "reach": "20", "force": "300", "iron": "gjl200"},
	Inputs: []Input{
		{Key: "before", Label: "wall before", Symbol: "h_0", Unit: unit.MM, Positive: true},
		{Key: "after", Label: "wall after", Symbol: "h", Unit: unit.MM, Positive: true},
		{Key: "width", Label: "width of the wall that bears", Symbol: "b", Unit: unit.MM, Positive: true},
		{Key: "reach", Label: "load away from the root by", Symbol: "L", Unit: unit.MM, Positive: true},
		{Key: "force", Label: "load", Symbol: "F", Unit: unit.Newton, Positive: true},
		{Key: "iron", Label: "iron", Word: true, Default: "old_iron", Options: []Option{{"old_iron", "an old casting of unknown grade"}, {"gjl200", "EN-GJL-200"}, {"gjl250", "EN-GJL-250"}}},
		{Key: "place", Label: "where the wall is", Word: true, Default: "bench", Options: []Option{{"bench", "under a slide, on a bench machine"}, {"middle", "under a slide, on a middling machine"}, {"large", "under a slide, on a large machine"}, {"bore", "around a bore"}}},
		{Key: "allowable", Label: "stress to allow, if known", Symbol: "σ_allow", Unit: unit.MPa, Optional: true, Positive: true},
		ironModulus,
	},
	Outputs: []string{"strength_left", "stiffness_left", "stress", "allowable_stress", "bend"},
	Define: func(sc *sheet.Scope, words Words) error {
		if typedValue(sc, "after") > typedValue(sc, "before") {
			return refuse("after", "give no more than the wall before")
		}
		mpa := unit.MPa
		mpa.Decimals = 1
		sc.Method(shareQ("strength_left", "strength left"), slide.StrengthLeft)
		sc.Method(shareQ("stiffness_left", "stiffness left"), slide.StiffnessLeft)
		sc.Method(sheet.Q{Key: "stress", Label: "stress at the root", Symbol: "σ", Unit: mpa}, slide.WallStress)
		sc.Method(sheet.Q{Key: "bend", Label: "wall gives under the load", Symbol: "δ", Unit: unit.Micrometre}, slide.WallBend)
		limit := "allowable"
		if !sc.Has(limit) {
			limit = "allowable_stress"
			if err := ironAllowable(sc, words["iron"], mpa); err != nil {
				return err
			}
		}
		sc.Formula(sheet.Q{Key: "stress_near", Label: "margin at which the stress is tight", Unit: mpa, Quiet: true}, "allowable / 5", practice, sheet.With{"allowable": limit})
		sc.Check(sheet.Check{Key: "bears", Label: "Wall bears the load", Figure: "stress", Limit: limit, AtMost: true, Tight: "stress_near", Level: sheet.Rule,
			Sentence: "The load bends the wall with {figure}, and {limit} is the most.", Source: slide.IronAllowable.Source})
		least := walls[words["place"]]
		bound(sc, sheet.Check{Key: "wall", Label: "Wall left", Figure: "after", Level: sheet.Rule,
			Sentence: "{figure} of the wall is left, and {limit} is the least.", Source: "common practice, no source: 5 under a slide at the least, 6, 8 or 10 by the size of machine; 4 around a bore, better 6"},
			sheet.Q{Unit: unit.MM}, least.good, least.least)
		return nil
	},
}

// ironAllowable is the stress that a wall of the iron is to bear. The wall as it
// was cast counts, not what is left of it: it made the iron what it is.
func ironAllowable(sc *sheet.Scope, iron string, mpa unit.Unit) error {
	m, _ := material.Named(iron)
	q := sheet.Q{Key: "allowable_stress", Label: "stress to allow", Symbol: "σ_allow", Unit: mpa}
	if iron == "old_iron" {
		sc.Measure(q, sheet.Leaf{Value: m.Bending, Origin: sheet.Assumed, Note: "an old casting: assume the worst until proved; " + m.Source})
		return nil
	}
	if _, ok := m.StrengthInWall(typedValue(sc, "before")); !ok {
		return refuse("before", "the strength of cast iron is known for walls from 5 to 80 mm; outside them give the stress to allow")
	}
	sc.Sheet().Register(&sheet.Func{
		Name: "strength_in_wall", Args: []unit.Dim{unit.LengthD}, Result: unit.MPa.Dim, Source: m.Source,
		F: func(x []float64) float64 {
			s, _ := m.StrengthInWall(x[0])
			return s
		},
	})
	sc.Formula(sheet.Q{Key: "strength", Label: "strength of " + m.Name + " in a wall cast so thick", Symbol: "R_m", Unit: unit.MPa}, "strength_in_wall(before)", "EN 1561: strength falls with the wall as cast; "+m.Source)
	sc.Method(q, slide.IronAllowable)
	return nil
}

var playSwing = Method{
	Key: "play_swing", Label: "Swing of a quill or slide from its play", Field: "Slides",
	Purpose: "How far the end of a quill or slide swings with the play in its guide.",
	Example: map[string]string{"play": "0.03", "overhang": "60", "guide": "50"},
	Inputs: []Input{
		{Key: "play", Label: "play across the guide", Symbol: "c", Unit: tenths, Positive: true},
		{Key: "overhang", Label: "end beyond the guide", Symbol: "a", Unit: unit.MM},
		{Key: "guide", Label: "length of the guide", Symbol: "G", Unit: unit.MM, Positive: true},
	},
	Outputs: []string{"swing", "slope"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := notNegative(sc, "overhang"); err != nil {
			return err
		}
		sc.Method(lengthQ("swing", "swing from side to side", "w"), slide.PlaySwing)
		sc.Method(sheet.Q{Key: "slope", Label: "turns to either side by", Unit: milliradian}, slide.PlaySlope)
		return nil
	},
}

var riserCompliance = Method{
	Key: "riser_compliance", Label: "A riser under a column", Field: "Slides",
	Purpose: "How much softer a column gets when a block raises it, and what its joints add.",
	Example: map[string]string{"before": "180", "riser": "60", "face_length": "80", "face_width": "60"},
	Inputs: []Input{
		{Key: "before", Label: "load above the column's foot", Symbol: "L_0", Unit: unit.MM, Positive: true},
		{Key: "riser", Label: "height of the block", Symbol: "R", Unit: unit.MM, Positive: true},
		{Key: "force", Label: "load", Symbol: "F", Unit: unit.Newton, Default: "300", Source: "common practice, no source: 100 to 500 N at the tool of a bench machine", Positive: true},
		{Key: "face_length", Label: "length of the joint's face, along the bending", Symbol: "l", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "face_width", Label: "width of the joint's face", Symbol: "b", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "press", Label: "bolts press the faces together with", Symbol: "p", Unit: unit.MPa, Default: "1", Source: "assumed: bolts of 10 kN on 100 by 100 mm", Positive: true},
		contactInput,
	},
	Outputs: []string{"after", "bend_ratio", "slope_ratio", "frequency_ratio", "joint_give", "one_joint", "two_joints"},
	Define: func(sc *sheet.Scope, _ Words) error {
		ratio := func(key, label string, m sheet.Method) {
			sc.Method(sheet.Q{Key: key, Label: label, Unit: unit.One, Decimals: 3}, m)
		}
		sc.Method(sheet.Q{Key: "after", Label: "load above the foot, raised", Symbol: "L", Unit: unit.MM}, slide.RaisedHeight)
		ratio("bend_ratio", "bending, to that before", slide.BendRatio)
		ratio("slope_ratio", "top turns, to that before", slide.SlopeRatio)
		ratio("frequency_ratio", "lowest frequency, to that before", slide.FrequencyRatio)
		bound(sc, sheet.Check{Key: "bending", Label: "Column bends more", Figure: "bend_ratio", AtMost: true, Level: sheet.Rule,
			Sentence: "The column bends {figure} times as much, and {limit} times is the most.", Source: slide.BendRatioSource}, sheet.Q{Unit: unit.One}, slide.BendRatioGood, slide.BendRatioMost)
		if !sc.Has("face_length") || !sc.Has("face_width") {
			return nil
		}
		sc.Method(sheet.Q{Key: "give", Label: "give of the faces", Symbol: "k", Unit: perMPa, Quiet: true}, slide.ContactGive)
		sc.Method(sheet.Q{Key: "joint_give", Label: "a joint turns", Symbol: "c", Unit: jointTurns}, slide.JointGive)
		sc.Method(sheet.Q{Key: "one_joint", Label: "load moves by one joint's give", Unit: unit.Micrometre}, slide.OneJoint)
		sc.Method(sheet.Q{Key: "two_joints", Label: "by both joints, raised", Unit: unit.Micrometre}, slide.TwoJoints)
		return nil
	},
}

// jointTurns is an angle for a moment.
var jointTurns = unit.Unit{Symbol: "µrad/(N·m)", Dim: unit.Number.Per(unit.NewtonMetre.Dim), Scale: 1e-9, Decimals: 3}

// gibModulus is that of a strip of steel; of iron it gives twice as much.
var gibModulus = Input{Key: "modulus", Label: "modulus of the strip", Symbol: "E", Unit: unit.GPa, Default: "206", Source: screw.SteelModulusSource + "; iron 100, bronze 105", Positive: true}
