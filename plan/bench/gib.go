package bench

import (
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

var gibThickness = Method{
	Key: "gib_thickness", Label: "A gib from its slot", Field: "Slides",
	Purpose: "The thickness of a gib that fills the slot beside a dovetail slide, the flat stock for it, and what metal taken off the ways adds.",
	Example: map[string]string{"slot": "64", "slide_width": "60", "depth": "9"},
	Inputs: []Input{
		flankAngle,
		{Key: "slot", Label: "wide width of the slot", Symbol: "b_s", Unit: tenths, Positive: true},
		{Key: "slide_width", Label: "wide width of the slide, at the same level", Symbol: "b", Unit: tenths, Positive: true},
		{Key: "clearance", Label: "clearance for the oil", Symbol: "c", Unit: tenths, Default: "0.02", Source: slide.GibClearanceSource},
		{Key: "width_removed", Label: "metal to come off the flanks, along the base", Symbol: "x", Unit: tenths, Default: "0", Source: "assumed: none"},
		{Key: "flat_removed", Label: "metal to come off the flats", Symbol: "y", Unit: tenths, Default: "0", Source: "assumed: none"},
		{Key: "depth", Label: "height of the flank, square to the base", Symbol: "h", Unit: unit.MM, Optional: true, Positive: true},
	},
	Outputs: []string{"gap", "thickness", "opened", "thickness_after", "blank"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := dovetailAngles(sc); err != nil {
			return err
		}
		if typedValue(sc, "slot") <= typedValue(sc, "slide_width") {
			return refuse("slot", "the slot must be wider than the slide")
		}
		if err := notNegative(sc, "clearance"); err != nil {
			return err
		}
		sc.Method(lengthQ("gap", "gap, square to the flank", "g"), slide.GibGap)
		sc.Method(lengthQ("thickness", "thickness of the gib", "t"), slide.GibThickness)
		sc.Method(lengthQ("opened", "gap opens by", "Δg"), slide.GapOpened)
		sc.Formula(lengthQ("thickness_after", "thickness with that metal off", "t'"), "thickness + opened", geometry)
		if sc.Has("depth") {
			sc.Method(sheet.Q{Key: "blank", Label: "width of the flat stock", Unit: unit.MM}, slide.GibBlank)
		}
		bound(sc, sheet.Check{Key: "stiff", Label: "Gib stiff between its screws", Figure: "thickness", Level: sheet.Rule,
			Sentence: "The gib is {figure} thick, and {limit} is the least that is stiff between its screws.", Source: "common practice, no source: 3 mm at the least, 0.08 to 0.1 of the dovetail's width"},
			lengthQ("", "", ""), 3, 2)
		return nil
	},
}

var taperGib = Method{
	Key: "taper_gib", Label: "Travel of a taper gib", Field: "Slides",
	Purpose: "How far a taper gib is driven to take up play.",
	Example: map[string]string{"left": "20"},
	Inputs: []Input{
		{Key: "taper", Label: "taper, the n of 1 : n", Symbol: "n", Unit: unit.One, Default: "60", Source: "assumed: 1 : 50 to 1 : 100 are usual", Positive: true},
		{Key: "closing", Label: "play to take up", Symbol: "Δg", Unit: tenths, Default: "0.1", Source: "assumed"},
		{Key: "left", Label: "travel that its screw has left", Symbol: "s_left", Unit: unit.MM, Optional: true},
	},
	Outputs: []string{"travel", "closing_left"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := notNegative(sc, "closing", "left"); err != nil {
			return err
		}
		sc.Method(sheet.Q{Key: "travel", Label: "gib is driven by", Symbol: "s", Unit: unit.MM}, slide.TaperTravel)
		if sc.Has("left") {
			sc.Method(lengthQ("closing_left", "play that what is left takes up", ""), slide.TaperClosing, sheet.With{"travel": "left"})
			sc.Check(sheet.Check{Key: "reaches", Label: "Travel of the gib", Figure: "travel", Limit: "left", AtMost: true, Level: sheet.Stop,
				Sentence: "The gib must be driven {figure}, and {limit} is left.", Source: slide.TaperTravel.Source})
		}
		return nil
	},
}

var gibScrews = Method{
	Key: "gib_screws", Label: "Screws of a straight gib", Field: "Slides",
	Purpose: "How many screws a straight gib wants, how far apart, and how far it gives between them.",
	Example: map[string]string{"length": "150", "thickness": "4", "blank": "10"},
	Inputs: []Input{
		{Key: "length", Label: "length of the gib", Symbol: "L", Unit: unit.MM, Positive: true},
		{Key: "thickness", Label: "thickness", Symbol: "t", Unit: unit.MM, Positive: true},
		{Key: "blank", Label: "width, along the flank", Symbol: "b", Unit: unit.MM, Positive: true},
		{Key: "end", Label: "first and last screw from the ends", Symbol: "a", Unit: unit.MM, Default: "15", Source: slide.GibEndSource, Positive: true},
		{Key: "load", Label: "side load between two screws", Symbol: "F", Unit: unit.Newton, Default: "300", Source: "common practice, no source: 100 to 500 N at the tool of a bench lathe"},
		gibModulus,
	},
	Outputs: []string{"screws", "spacing", "spacing_most", "give_point", "give_even"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := notNegative(sc, "load"); err != nil {
			return err
		}
		length := typedValue(sc, "length")
		switch {
		case 2*typedValue(sc, "end") >= length:
			return refuse("end", "give less than half the gib's length")
		case length/typedValue(sc, "thickness") > 1000:
			return refuse("thickness", "a gib so thin for its length has no stiffness: give at least a thousandth of it")
		}
		sc.Method(sheet.Q{Key: "spacing_most", Label: "most between two screws", Symbol: "s_max", Unit: unit.MM}, slide.GibSpacingMost)
		sc.Method(sheet.Q{Key: "screws", Label: "screws", Symbol: "n", Unit: unit.Count, Whole: true}, slide.GibScrews)
		sc.Method(sheet.Q{Key: "spacing", Label: "screws apart", Symbol: "s", Unit: unit.MM}, slide.GibSpacing)
		sc.Method(sheet.Q{Key: "second_moment", Label: "second moment of the strip", Symbol: "I", Unit: unit.MM4, Decimals: 1, Quiet: true}, slide.StripSecondMoment)
		sc.Method(sheet.Q{Key: "give_point", Label: "gives between screws, load in the middle", Symbol: "δ", Unit: unit.Micrometre, Decimals: 2}, slide.GibGivePoint)
		sc.Method(sheet.Q{Key: "give_even", Label: "gives between screws, load spread evenly", Unit: unit.Micrometre, Decimals: 2}, slide.GibGiveEven)
		bound(sc, sheet.Check{Key: "give", Label: "Gib between its screws", Figure: "give_point", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "The gib gives {figure} between two screws; {limit} is the most that is not felt.", Source: slide.GibGiveMostSource}, sheet.Q{Unit: unit.Micrometre}, slide.GibGiveMost, slide.GibGiveMost)
		return nil
	},
}

var gibRollover = Method{
	Key: "gib_rollover", Label: "Does a gib roll over?", Field: "Slides",
	Purpose: "Whether a gib tips or slides up its flank when its screws are tightened. Heights are along the flank.",
	Example: map[string]string{"thickness": "4", "contact": "12"},
	Inputs: []Input{
		flankAngle,
		{Key: "thickness", Label: "thickness of the gib", Symbol: "t", Unit: unit.MM, Positive: true},
		{Key: "contact", Label: "height of the contact, along the flank", Symbol: "h_f", Unit: unit.MM, Positive: true},
		{Key: "offset", Label: "screw meets the gib off the middle by, in the sense in which it shifts", Symbol: "e", Unit: unit.MM, Default: "0", Source: "assumed: at the middle of the contact"},
		{Key: "direction", Label: "screw", Word: true, Default: "base", Options: []Option{{"base", "parallel to the base"}, {"flank", "square to the flank"}}},
		{Key: "push", Label: "push of a screw", Symbol: "F", Unit: unit.Newton, Default: "200", Source: "assumed: a small screw, set by feel"},
		frictionInput,
	},
	Outputs: []string{"offset_at_contact", "shift", "flank_push", "flank_slip"},
	Define: func(sc *sheet.Scope, words Words) error {
		if err := dovetailAngles(sc); err != nil {
			return err
		}
		if err := notNegative(sc, "push"); err != nil {
			return err
		}
		if words["direction"] == "base" {
			sc.Method(lengthQ("shift", "push moves along the flank by", "t cot A"), slide.RollShift)
			sc.Method(sheet.Q{Key: "flank_push", Label: "onto the flank", Unit: unit.Newton}, slide.FlankPush)
			sc.Method(sheet.Q{Key: "flank_slip", Label: "along the flank", Unit: unit.Newton}, slide.FlankSlip)
			sc.Method(sheet.Q{Key: "slip_ratio", Label: "push along the flank to that onto it", Unit: unit.One}, slide.SlipRatio)
			sc.Check(sheet.Check{Key: "slips", Label: "Gib slides along the flank", Figure: "slip_ratio", Limit: "friction", AtMost: true, Level: sheet.Rule, Advice: true,
				Sentence: "The screw pushes {figure} times as hard along the flank as onto it, and friction holds {limit}: a dimple for each screw, a ledge or the floor must hold the gib.", Source: slide.SlipRatio.Source})
		} else {
			sc.Formula(lengthQ("shift", "push moves along the flank by", "0"), "mm(0)", "statics: a screw square to the flank pushes straight through")
		}
		sc.Method(lengthQ("offset_at_contact", "push off the middle of the contact by", "e_c"), slide.RollOffset)
		sc.Method(sheet.Q{Key: "roll_most", Label: "where the gib tips", Unit: unit.MM, Quiet: true}, slide.RollMost)
		sc.Method(sheet.Q{Key: "roll_near", Label: "margin at which it is tight", Unit: unit.MM, Quiet: true}, slide.RollNear)
		sc.Check(sheet.Check{Key: "rolls", Label: "Gib rolls over", Figure: "offset_at_contact", Limit: "roll_most", AtMost: true, Tight: "roll_near", Level: sheet.Rule,
			Sentence: "The push comes out {figure} off the middle of the contact; it tips the gib at {limit}.", Source: slide.RollOffset.Source})
		return nil
	},
}
