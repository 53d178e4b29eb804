package axis

import (
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// gearSizes are those of a gear on the screw, by which power feed drives it.
var gearSizes = []Size{
	{Key: "gear_width", Label: "power feed: face of the gear on the screw", Symbol: "b_1", Unit: unit.MM, Optional: true, How: "along the screw, over the teeth; leave out where there is no such gear", With: "caliper"},
	{Key: "driver_width", Label: "power feed: face of the gear that drives it", Symbol: "b_2", Unit: unit.MM, Optional: true, How: "along the screw, over the teeth", With: "caliper"},
	{Key: "gear_out", Label: "power feed: gear on the screw stands out beyond its driver by", Symbol: "o_g", Unit: unit.MM, Least: AnyFigure, Optional: true, How: "at its face to which positions rise; negative where it stands back", With: "depth_gauge"},
}

// defineGearMesh: a gear on the screw goes where the screw goes, and its driver
// stays. How far it went shows in the shank's end, which nothing but a move of
// the screw shifts.
func (l *Layout) defineGearMesh() {
	shank, ok := l.WithRole("shank")
	for _, s := range gearSizes {
		ok = ok && l.Scope.Has(s.Key)
	}
	if !ok || shank.Tie != nil || shank.Side == Moving {
		return
	}
	sc := l.Scope.In("gear_mesh")
	end := sheet.With{"end": shank.Key + ".to"}
	sc.Fix(quiet("end_found", "screw's end, as found", "", unit.MM), "end", "decided: as it stood", end)
	sc.Formula(quiet("moved", "screw moved along its axis", "Δ", unit.MM), "end - end_found", "geometry", end)
	sc.Formula(shown("overlap", "teeth of the power feed in mesh", "b", unit.MM),
		"max(0, min(gear_out + moved, mm(0)) - max(gear_out + moved - gear_width, 0 - driver_width))", "geometry: both faces from the driver's outer one")
	l.Assume(sc, quiet("share_least", "share of the narrower gear's face that must mesh", "k", unit.One), 2.0/3, "common practice, no source: two thirds of the narrower face carry the feed's load")
	l.Limit(sc, quiet("least", "least mesh of the power feed's gears", "b", unit.MM), sheet.Method{Text: "share_least * min(gear_width, driver_width)", Source: "common practice, no source"})
	sc.Check(sheet.Check{Key: "check", Label: "Power feed's gears in mesh", Figure: "overlap", Limit: "least", Level: sheet.Rule,
		Sentence: "{figure} of the teeth mesh, and {limit} is wanted: the gear went with the screw.", Source: "common practice, no source"})
}

// tipSizes are the load that tips a slide where it stands out beyond its ways.
var tipSizes = []Size{
	{Key: "load_mass", Label: "heaviest load at the slide's end", Symbol: "m_l", Unit: unit.Kilogram, Optional: true, How: "a vice and its work, a dividing head", With: "rule"},
	{Key: "load_inset", Label: "middle of that load from the slide's end", Symbol: "i_l", Unit: unit.MM, Least: NothingOrMore, Optional: true, How: "along the slide", With: "rule"},
}

// tips: the load at the slide's end, and the slide, about the end of the ways
// over which it stands out.
func (l *Layout) tips(sc *sheet.Scope, sl *Part, names sheet.With) {
	if !l.Scope.Has("moving_mass") || !l.Scope.Has("load_mass") || !l.Scope.Has("load_inset") || l.Upright() {
		return
	}
	for _, e := range l.ends() {
		k := string(e.End)
		inside, out := "ways_to - (from + to) / 2 - s", "to + s - load_inset - ways_to"
		if e.End == Minus {
			inside, out = "(from + to) / 2 + s - ways_from", "ways_from - from - s - load_inset"
		}
		with := sheet.With{"s": e.asked}
		for name, key := range names {
			with[name] = key
		}
		sc.Formula(quiet("inside_"+k, sl.Label+"'s middle within the end of the ways, "+e.name, "a", unit.MM), inside, "geometry", with)
		sc.Formula(quiet("load_out_"+k, "load beyond the end of the ways, "+e.name, "b", unit.MM), out, "geometry", with)
		sc.Method(shown("tips_"+k, "load at the "+sl.Label+"'s end that tips it, "+e.name, "m_t", unit.Kilogram), slide.TipLoad,
			sheet.With{"mass": "moving_mass", "inside": "inside_" + k, "out": "load_out_" + k})
		sc.Check(sheet.Check{Key: "tip_" + k, Label: capital(sl.Label) + " stays down under its load, " + e.name, Figure: "tips_" + k, Limit: "load_mass", Tight: "load_mass", Level: sheet.Rule,
			Sentence: "{figure} at the " + sl.Label + "'s end tips it, and {limit} is to stand there: only the gib holds it down then.", Source: slide.TipLoad.Source})
	}
}
