package bench

import (
	"math"

	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

var flankAngle = Input{Key: "angle", Label: "angle from the flat to the flank", Symbol: "A", Unit: unit.Degree, Default: "60", Source: "assumed: 60° is usual; 55°, 50° and 45° are found"}

var rollerInput = Input{Key: "roller", Label: "diameter of the rollers", Symbol: "D", Unit: tenths, Positive: true}

// dovetailAngles are those of dovetails: outside them something else is meant.
func dovetailAngles(sc *sheet.Scope) error {
	if a := typedValue(sc, "angle") * 180 / math.Pi; a < 30 || a > 80 {
		return refuse("angle", "give an angle from 30° to 80°, from the flat to the flank")
	}
	return nil
}

// fitsFlank checks that the rollers touch the flank, and not its edge.
func fitsFlank(sc *sheet.Scope) {
	sc.Method(lengthQ("roller_touches", "rollers touch the flank at a height of", ""), slide.RollerTouches)
	if !sc.Has("depth") {
		return
	}
	sc.Method(sheet.Q{Key: "roller_most", Label: "largest rollers", Symbol: "D_max", Unit: unit.MM}, slide.RollerMost)
	sc.Check(sheet.Check{Key: "touches", Label: "Rollers touch the flank", Figure: "roller_touches", Limit: "depth", AtMost: true, Level: sheet.Stop,
		Sentence: "The rollers touch at a height of {figure}, and the flank ends at {limit}; above it they touch the edge.", Source: slide.RollerTouches.Source})
}

// positiveWidth checks a width that was found from a reading.
func positiveWidth(sc *sheet.Scope, figure, label string) {
	bound(sc, sheet.Check{Key: figure + "_is", Label: label, Figure: figure, Level: sheet.Stop,
		Sentence: "The " + label + " comes to {figure}; at {limit} and below no dovetail with these rollers gives that reading.", Source: geometry}, lengthQ("", "", ""), 0, 0)
}

var dovetailMale = Method{
	Key: "dovetail_male", Label: "Male dovetail over rollers", Field: "Slides",
	Purpose: "The reading over two rollers for a width to make, or the width from a reading.",
	Example: map[string]string{"roller": "6", "narrow": "40", "over": "56.4", "depth": "9"},
	Inputs: []Input{
		flankAngle, rollerInput,
		{Key: "narrow", Label: "narrow width, at the flat where the rollers lie", Symbol: "a", Unit: tenths, Optional: true, Positive: true},
		{Key: "over", Label: "or the reading over the rollers", Symbol: "M", Unit: tenths, Optional: true, Positive: true},
		{Key: "depth", Label: "height of the dovetail", Symbol: "h", Unit: unit.MM, Optional: true, Positive: true},
	},
	Outputs: []string{"over_rollers", "narrow_width", "wide_width", "roller_touches", "roller_least", "roller_most"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := dovetailAngles(sc); err != nil {
			return err
		}
		narrow := "narrow"
		switch {
		case sc.Has("narrow"):
			sc.Method(lengthQ("over_rollers", "reading over the rollers", "M"), slide.OverRollers)
		case !sc.Has("over"):
			return refuse("narrow", "give the narrow width, or the reading over the rollers")
		}
		if sc.Has("over") {
			sc.Method(lengthQ("narrow_width", "narrow width", "a"), slide.NarrowOverRollers)
			positiveWidth(sc, "narrow_width", "narrow width")
			if !sc.Has("narrow") {
				narrow = "narrow_width"
			}
		}
		fitsFlank(sc)
		if sc.Has("depth") {
			sc.Method(lengthQ("wide_width", "wide width", "b"), slide.WideOfNarrow, sheet.With{"narrow": narrow})
			sc.Method(sheet.Q{Key: "roller_least", Label: "smallest rollers that stand out", Symbol: "D_min", Unit: unit.MM}, slide.RollerLeast)
			sc.Check(sheet.Check{Key: "stands_out", Label: "Rollers stand out beyond the edges", Figure: "roller", Limit: "roller_least", Level: sheet.Rule, Advice: true,
				Sentence: "The rollers are {figure}; from {limit} on they stand out beyond the edges, where flat jaws reach them.", Source: slide.RollerLeast.Source})
		}
		return nil
	},
}

var dovetailFemale = Method{
	Key: "dovetail_female", Label: "Female dovetail between rollers", Field: "Slides",
	Purpose: "The reading between two rollers for a width to make, or the width from a reading.",
	Example: map[string]string{"roller": "6", "wide": "60", "between": "43.6", "depth": "9"},
	Inputs: []Input{
		flankAngle, rollerInput,
		{Key: "wide", Label: "wide width, at the flat where the rollers lie", Symbol: "b", Unit: tenths, Optional: true, Positive: true},
		{Key: "between", Label: "or the reading between the rollers", Symbol: "M", Unit: tenths, Optional: true, Positive: true},
		{Key: "depth", Label: "depth of the dovetail", Symbol: "h", Unit: unit.MM, Optional: true, Positive: true},
	},
	Outputs: []string{"between_rollers", "wide_width", "narrow_width", "roller_touches", "roller_most"},
	Define: func(sc *sheet.Scope, _ Words) error {
		if err := dovetailAngles(sc); err != nil {
			return err
		}
		wide := "wide"
		switch {
		case sc.Has("wide"):
			sc.Method(lengthQ("between_rollers", "reading between the rollers", "M"), slide.BetweenRollers)
			bound(sc, sheet.Check{Key: "apart", Label: "Rollers lie apart", Figure: "between_rollers", Level: sheet.Stop,
				Sentence: "{figure} is left between the rollers; below {limit} they do not both go in.", Source: geometry}, lengthQ("", "", ""), 0, 0)
		case !sc.Has("between"):
			return refuse("wide", "give the wide width, or the reading between the rollers")
		}
		if sc.Has("between") {
			sc.Method(lengthQ("wide_width", "wide width", "b"), slide.WideBetweenRollers)
			if !sc.Has("wide") {
				wide = "wide_width"
			}
		}
		fitsFlank(sc)
		if sc.Has("depth") {
			sc.Method(lengthQ("narrow_width", "narrow width", "a"), slide.NarrowOfWide, sheet.With{"wide": wide})
			positiveWidth(sc, "narrow_width", "narrow width")
		}
		return nil
	},
}

var dovetailAngle = Method{
	Key: "dovetail_angle", Label: "A dovetail's angle by two sizes of rollers", Field: "Slides",
	Purpose: "The angle and the width of a dovetail from two readings, over or between small and large rollers.",
	Example: map[string]string{"small_roller": "5", "small_reading": "53.66", "large_roller": "6", "large_reading": "56.39"},
	Inputs: []Input{
		{Key: "kind", Label: "dovetail", Word: true, Default: "male", Options: []Option{{"male", "male, measured over the rollers"}, {"female", "female, measured between them"}}},
		{Key: "small_roller", Label: "diameter of the small rollers", Symbol: "D_1", Unit: tenths, Positive: true},
		{Key: "small_reading", Label: "reading with them", Symbol: "M_1", Unit: tenths, Positive: true},
		{Key: "large_roller", Label: "diameter of the large rollers", Symbol: "D_2", Unit: tenths, Positive: true},
		{Key: "large_reading", Label: "reading with them", Symbol: "M_2", Unit: tenths, Positive: true},
	},
	Outputs: []string{"angle", "narrow_width", "wide_width", "roller_touches"},
	Define: func(sc *sheet.Scope, words Words) error {
		rollers := typedValue(sc, "large_roller") - typedValue(sc, "small_roller")
		readings := typedValue(sc, "large_reading") - typedValue(sc, "small_reading")
		switch {
		case rollers <= 0:
			return refuse("large_roller", "give larger rollers than the small ones")
		case words["kind"] == "male" && readings <= 2*rollers:
			return refuse("large_reading", "over the larger rollers a male dovetail reads more, by over twice what the rollers differ")
		case words["kind"] == "female" && readings >= -2*rollers:
			return refuse("large_reading", "between the larger rollers a female dovetail reads less, by over twice what the rollers differ")
		}
		sc.Method(sheet.Q{Key: "angle", Label: "angle from the flat to the flank", Symbol: "A", Unit: unit.Degree, Decimals: 3}, slide.DovetailAngle)
		with := sheet.With{"roller": "large_roller", "over": "large_reading", "between": "large_reading"}
		if words["kind"] == "male" {
			sc.Method(lengthQ("narrow_width", "narrow width", "a"), slide.NarrowOverRollers, with)
		} else {
			sc.Method(lengthQ("wide_width", "wide width", "b"), slide.WideBetweenRollers, with)
		}
		sc.Method(lengthQ("roller_touches", "large rollers touch the flank at a height of", ""), slide.RollerTouches, with)
		return nil
	},
}
