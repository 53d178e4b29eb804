package bench

import (
	"fettle/plan/material"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// minutes is a time at the machine.
var minutes = unit.Unit{Symbol: "min", Dim: unit.TimeD, Scale: 60, Decimals: 1}

// cutOptions are the choices of metals, or of works.
func cutOptions(choices []material.CutChoice) (all []Option) {
	for _, c := range choices {
		all = append(all, Option{c.Key, c.Label})
	}
	return all
}

var cuttingSpeed = Method{
	Key: "cutting_speed", Label: "Speed and time of a cut", Field: "Materials and stock",
	Purpose: "How fast to turn the work or the cutter for a metal, and how long the tool is in the cut.",
	Inputs: []Input{
		{Key: "metal", Label: "what is cut", Word: true, Default: "mild_steel", Options: cutOptions(material.CutMetals)},
		{Key: "work", Label: "by", Word: true, Default: "turning", Options: cutOptions(material.CutWorks)},
		{Key: "tool", Label: "tool of", Word: true, Default: "hss", Options: []Option{{"hss", "high-speed steel"}, {"carbide", "carbide"}}},
		{Key: "cut", Label: "cut", Word: true, Default: "plain", Options: []Option{{"plain", "plain"}, {"slow", "parting, reaming or threading"}}},
		{Key: "dia", Label: "diameter of the work turned, or of the cutter", Symbol: "d", Unit: unit.MM, Default: "25", Source: example, Positive: true},
		{Key: "speed", Label: "cutting speed; nothing means the tables' lower end", Symbol: "v", Unit: material.MetrePerMinute, Optional: true, Positive: true},
		{Key: "most", Label: "fastest that the machine turns", Symbol: "n_max", Unit: unit.RPM, Optional: true, Positive: true},
		{Key: "feed", Label: "feed a turn", Symbol: "f", Unit: unit.MM, Default: "0.1", Source: practice + ": 0.1 mm, about half of what tables give, on a small machine", Positive: true},
		{Key: "length", Label: "length of the cut", Symbol: "L", Unit: unit.MM, Default: "80", Source: example, Positive: true},
		{Key: "approach", Label: "run-in before it", Symbol: "a", Unit: unit.MM, Default: "2", Source: practice},
		{Key: "passes", Label: "passes", Symbol: "i", Unit: unit.Count, Default: "1", Source: example, Whole: true, Positive: true},
	},
	Outputs: []string{"turns", "cutting_speed", "turns_wanted", "turns_most", "time"},
	Cautions: []string{
		"Eye protection; no gloves, rings or loose sleeves at a turning spindle; chuck key out, guard down, work and tool tight before it is switched on.",
		"A chuck, a face plate or a large cutter has a highest speed of its own, which may be lower: never above what is written on it.",
	},
	Define: defineCut,
}

func defineCut(sc *sheet.Scope, words Words) error {
	if err := notNegative(sc, "approach"); err != nil {
		return err
	}
	speeds, ok := material.SpeedOf(words["metal"], words["work"])
	speedQ := func(key, label string) sheet.Q {
		return sheet.Q{Key: key, Label: label, Symbol: "v", Unit: material.MetrePerMinute}
	}
	switch {
	case sc.Has("speed"):
		sc.Formula(speedQ("cutting_speed", "cutting speed"), "speed", "as given")
	case !ok:
		return refuse("speed", "give the cutting speed: the tables here have none for this metal and this work")
	default:
		sc.Measure(speedQ("table_least", "speed by the tables, from"), sheet.Leaf{Value: material.MetrePerMinute.Inside(speeds.Least), Origin: sheet.Assumed, Note: material.SpeedSource})
		sc.Measure(speedQ("table_most", "speed by the tables, to"), sheet.Leaf{Value: material.MetrePerMinute.Inside(speeds.Most), Origin: sheet.Assumed, Note: material.SpeedSource})
		factor := func(key, label, word, when string, value float64, source string) {
			if words[word] != when {
				value, source = 1, "as the tables are meant"
			}
			sc.Measure(sheet.Q{Key: key, Label: label, Unit: unit.One, Quiet: true}, sheet.Leaf{Value: value, Origin: sheet.Assumed, Note: source})
		}
		factor("tool_factor", "factor of the tool", "tool", "carbide", material.CarbideFactor, material.CarbideSource)
		factor("cut_factor", "factor of the cut", "cut", "slow", material.SlowFactor, material.SlowSource)
		sc.Formula(speedQ("cutting_speed", "cutting speed"), "table_least * tool_factor * cut_factor", material.SpeedSource)
		sc.Formula(speedQ("speed_most", "fastest cutting speed"), "table_most * tool_factor * cut_factor", material.SpeedSource)
	}
	turns := func(key, label, symbol string) sheet.Q {
		return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.RPM}
	}
	sc.Method(turns("turns_wanted", "turns for that speed", "n"), material.TurnSpeed)
	if sc.Has("speed_most") {
		sc.Method(turns("turns_most", "turns at the tables' upper end", "n"), material.TurnSpeed, sheet.With{"cutting_speed": "speed_most"})
	}
	if sc.Has("most") {
		sc.Formula(turns("turns", "turns to set", "n"), "min(turns_wanted, most)", "no more than the machine has")
	} else {
		sc.Formula(turns("turns", "turns to set", "n"), "turns_wanted", "as wanted: take the next lower step of the machine")
	}
	sc.Method(sheet.Q{Key: "time", Label: "tool in the cut", Symbol: "t", Unit: minutes}, material.CutTime)
	return nil
}

var anodise = Method{
	Key: "anodise", Label: "Growth by anodising", Field: "Materials and stock",
	Purpose: "How much an aluminium part grows when it is anodised, and what to make it to before.",
	Inputs: []Input{
		{Key: "kind", Label: "anodising", Word: true, Default: "usual", Options: filmOptions()},
		{Key: "film", Label: "film", Symbol: "t", Unit: unit.Micrometre, Default: "15", Source: practice + ": 5 to 25 µm, hard 25 to 50", Positive: true},
		{Key: "share", Label: "share of it that grows outward; nothing means the kind's", Symbol: "s", Unit: unit.Percent, Optional: true, Positive: true},
		{Key: "size", Label: "diameter wanted afterwards", Symbol: "d", Unit: tenths, Optional: true, Positive: true},
		{Key: "surface", Label: "which is", Word: true, Default: "outside", Options: []Option{{"outside", "an outside"}, {"bore", "a bore"}}},
	},
	Outputs:  []string{"growth", "on_diameter", "make_to"},
	Cautions: material.FilmCautions,
	Define: func(sc *sheet.Scope, words Words) error {
		if err := held(sc, "film", unit.Micrometre, 0, 0.2); err != nil {
			return err
		}
		if err := held(sc, "share", unit.Percent, 0, 1); err != nil {
			return err
		}
		for _, f := range material.Films {
			if f.Key == words["kind"] && !sc.Has("share") {
				sc.Measure(sheet.Q{Key: "share", Label: "share of it that grows outward", Symbol: "s", Unit: unit.Percent},
					sheet.Leaf{Value: f.Share, Spread: sheet.Within(material.FilmShareWithin * f.Share), Origin: sheet.Assumed, Note: f.Label + ": " + material.FilmShareSource})
			}
		}
		sc.Method(microns("growth", "surface moves out by", "g"), material.FilmGrowth)
		sc.Method(microns("on_diameter", "outside grows, or bore closes, by", "Δd"), material.FilmOnDiameter)
		if !sc.Has("size") {
			return nil
		}
		text := "size - on_diameter"
		if words["surface"] == "bore" {
			text = "size + on_diameter"
		}
		sc.Formula(sheet.Q{Key: "make_to", Label: "make it to", Unit: tenths}, text, geometry)
		return nil
	},
}

func filmOptions() (all []Option) {
	for _, f := range material.Films {
		all = append(all, Option{f.Key, f.Label})
	}
	return all
}
