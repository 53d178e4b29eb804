package bench

import (
	"errors"
	"fmt"

	"fettle/plan"
	"fettle/plan/fit"
	"fettle/plan/material"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// fitMethods are the calculations of plan/fit.
var fitMethods = []Method{limitsAndFit, bearingSeat, fitTemperature, pressFit, assemblyTemperature, generalTolerance}

const example = "an example"

// kelvin is a difference of temperatures.
var kelvin = unit.Unit{Symbol: "K", Dim: unit.TempD, Scale: 1, Decimals: 0}

func sizeIn(label, usual string) Input {
	return Input{Key: "size", Label: label, Symbol: "d", Unit: unit.MM, Default: usual, Source: example, Positive: true}
}

func classIn(key, label, usual string) Input {
	return Input{Key: key, Label: label, Word: true, Default: usual}
}

// held refuses a figure that is not between two others, at its field.
func held(sc *sheet.Scope, key string, u unit.Unit, least, most float64) error {
	if l, ok := sc.Leaf(key); ok && !(l.Value >= least && l.Value <= most) {
		return plan.Problem{Field: key, Say: fmt.Sprintf("give a figure from %s to %s", u.With(least), u.With(most))}
	}
	return nil
}

// fitProblem puts what plan/fit says at the field that it is about.
func fitProblem(err error, class string) error {
	switch {
	case errors.Is(err, fit.ErrRange), errors.Is(err, fit.ErrRing), errors.Is(err, fit.ErrGeneral):
		return plan.Problem{Field: "size", Say: err.Error()}
	case errors.Is(err, fit.ErrClass):
		return plan.Problem{Field: class, Say: err.Error()}
	}
	return err
}

// fineQ is a length shown to the tenth of a micrometre.
func fineQ(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.MM, Decimals: 4}
}

// limited is what has limits: a scope of its own for them.
type limited struct {
	key, label string
	hole       bool
}

// layLimits lays the deviations of a hole, a shaft, a seat or a ring.
func layLimits(sc *sheet.Scope, what limited, l fit.Limits, source string) {
	upper, lower := "es", "ei"
	if what.hole {
		upper, lower = "ES", "EI"
	}
	in := sc.In(what.key)
	in.Measure(fineQ("upper", "upper deviation of the "+what.label, upper), sheet.Leaf{Value: l.Upper / 1000, Origin: sheet.Chosen, Note: source})
	in.Measure(fineQ("lower", "lower deviation of the "+what.label, lower), sheet.Leaf{Value: l.Lower / 1000, Origin: sheet.Chosen, Note: source})
}

func layClass(sc *sheet.Scope, field string, read func(string) (fit.Class, error), words Words) error {
	size, _ := sc.Leaf("size")
	c, err := read(words[field])
	if err != nil {
		return fitProblem(err, field)
	}
	l, err := c.At(size.Value)
	if err != nil {
		return fitProblem(err, field)
	}
	layLimits(sc, limited{field, field, c.Hole()}, l, "ISO 286-2: "+c.String())
	return nil
}

// layFit lays the deviations of a hole and a shaft by their classes, and the
// clearance between them.
func layFit(sc *sheet.Scope, words Words) error {
	if err := layClass(sc, "hole", fit.HoleClass, words); err != nil {
		return err
	}
	if err := layClass(sc, "shaft", fit.ShaftClass, words); err != nil {
		return err
	}
	layClearance(sc, nil)
	return nil
}

func layClearance(sc *sheet.Scope, with sheet.With) {
	in := sc.In("clearance")
	in.Method(fineQ("max", "greatest clearance", "c_max"), fit.ClearanceMost, with)
	in.Method(fineQ("min", "least clearance; below 0 interference", "c_min"), fit.ClearanceLeast, with)
}

var limitsAndFit = Method{
	Key: "fit", Label: "Limits and fit of a hole and a shaft", Field: "Limits and fits",
	Purpose: "The limits of size of both, the clearance or interference between them, and the sizes to aim for.",
	Inputs: []Input{
		sizeIn("nominal size", "20"),
		classIn("hole", "class of the hole, as H7", "H7"),
		classIn("shaft", "class of the shaft, as g6", "g6"),
		{Key: "made", Label: "how the last of the two is made", Word: true, Default: "turned", Options: []Option{{"turned", "turned to size"}, {"fitted", "lapped or filed until it goes"}}},
	},
	Outputs: []string{"clearance.max", "clearance.min", "likely.max", "likely.min", "hole.upper", "hole.lower", "shaft.upper", "shaft.lower",
		"hole.largest", "hole.smallest", "shaft.largest", "shaft.smallest", "hole.aim", "shaft.aim"},
	Define: func(sc *sheet.Scope, words Words) error {
		if err := layFit(sc, words); err != nil {
			return err
		}
		likely := sc.In("likely")
		with := sheet.With{"most": "clearance.max", "least": "clearance.min"}
		likely.Method(fineQ("max", "greatest clearance that is likely", "c_1"), fit.LikelyMost, with)
		likely.Method(fineQ("min", "least clearance that is likely", "c_2"), fit.LikelyLeast, with)
		share := fit.AimTurned
		if words["made"] == "fitted" {
			share = fit.AimFitted
		}
		sc.Measure(sheet.Q{Key: "share", Label: "share of the zone at which to aim, from the least metal", Symbol: "q", Unit: unit.One, Quiet: true},
			sheet.Leaf{Value: share, Origin: sheet.Assumed, Note: fit.HoleAim.Source})
		for what, aim := range map[string]sheet.Method{"hole": fit.HoleAim, "shaft": fit.ShaftAim} {
			in := sc.In(what)
			in.Method(fineQ("largest", "largest "+what, ""), fit.LimitOfSize, sheet.With{"deviation": what + ".upper"})
			in.Method(fineQ("smallest", "smallest "+what, ""), fit.LimitOfSize, sheet.With{"deviation": what + ".lower"})
			in.Method(fineQ("aim", what+": size to aim for", ""), aim)
		}
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		size := r.Value("size", sheet.Planned)
		t := Table{Caption: "This fit, and fits by purpose at this size", Header: []string{"fit", "kind", "clearance at the most, mm", "at the least, mm", "for"}, Source: fit.PreferredSource}
		add := func(hole, shaft, use string) {
			f, err := fit.Fit(hole, shaft, size)
			if err != nil {
				return // not at this size
			}
			t.Rows = append(t.Rows, []string{hole + "/" + shaft, string(f.Kind), unit.MM.Text(f.Max/1000, 4), unit.MM.Text(f.Min/1000, 4), use})
		}
		hole, _ := fit.HoleClass(words["hole"])
		shaft, _ := fit.ShaftClass(words["shaft"])
		add(hole.String(), shaft.String(), "as asked for")
		for _, p := range fit.PreferredFits {
			add(p.Hole, p.Shaft, p.Use)
		}
		return t
	},
}

var bearingSeat = Method{
	Key: "fit_seat", Label: "Seat for a rolling bearing", Field: "Limits and fits",
	Purpose: "The class for a bearing's seat by how the load turns, and how tight or loose the ring then sits.",
	Inputs: []Input{
		{Key: "ring", Label: "what sits on the seat", Word: true, Default: "inner", Options: []Option{
			{"inner", "inner ring on its shaft"}, {"outer", "outer ring in its housing"}, {"shaft_washer", "shaft washer of a thrust ball bearing"},
			{"housing_washer", "housing washer of a thrust ball bearing"}, {"needle_inner", "needle thrust cage on its shaft"}, {"needle_outer", "needle thrust cage in its housing"}}},
		sizeIn("diameter of the seat", "12"),
		{Key: "load", Label: "how the ring stands to its load", Word: true, Default: "screw", Options: []Option{
			{"screw", "feed screw: thrust by hand, little else"}, {"still", "the load stands still on the ring"},
			{"turning_light", "the ring turns under a light load, up to 0.06 of its rating"}, {"turning", "the ring turns under its load"}}},
		{Key: "housing", Label: "seat is in", Word: true, Default: "steel", Options: []Option{{"steel", "steel"}, {"iron", "cast iron"}, {"aluminium", "aluminium"}}},
		{Key: "class", Label: "class of the seat; nothing means the one proposed", Word: true, Optional: true},
	},
	Outputs: []string{"clearance.max", "clearance.min", "seat.upper", "seat.lower", "ring_size.upper", "ring_size.lower", "seat.largest", "seat.smallest"},
	Define: func(sc *sheet.Scope, words Words) error {
		size, _ := sc.Leaf("size")
		ring := fit.Ring(words["ring"])
		limits, source, err := fit.RingLimits(ring, size.Value)
		if err != nil {
			return fitProblem(err, "size")
		}
		seat := seatsFor(words, size.Value)[0]
		read, class, why := fit.HoleClass, seat.Class, seat.Why+"; "+seat.Source
		with := sheet.With{"hole.upper": "seat.upper", "hole.lower": "seat.lower", "shaft.upper": "ring_size.upper", "shaft.lower": "ring_size.lower"}
		if ring.OnShaft() {
			read = fit.ShaftClass
			with = sheet.With{"hole.upper": "ring_size.upper", "hole.lower": "ring_size.lower", "shaft.upper": "seat.upper", "shaft.lower": "seat.lower"}
		}
		if words["class"] != "" {
			class, why = words["class"], "as asked for"
		}
		c, err := read(class)
		if err != nil {
			return fitProblem(err, "class")
		}
		l, err := c.At(size.Value)
		if err != nil {
			return fitProblem(err, "class")
		}
		layLimits(sc, limited{"seat", "seat", c.Hole()}, l, "ISO 286-2: "+c.String()+": "+why)
		layLimits(sc, limited{"ring_size", "ring", !c.Hole()}, limits, source)
		layClearance(sc, with)
		in := sc.In("seat")
		in.Method(fineQ("largest", "largest seat", ""), fit.LimitOfSize, sheet.With{"deviation": "seat.upper"})
		in.Method(fineQ("smallest", "smallest seat", ""), fit.LimitOfSize, sheet.With{"deviation": "seat.lower"})
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		t := Table{Caption: "Classes for this seat, the first to be taken first", Header: []string{"class", "because", "source"}, Source: "each in its row"}
		for _, s := range seatsFor(words, r.Value("size", sheet.Planned)) {
			t.Rows = append(t.Rows, []string{s.Class, s.Why, s.Source})
		}
		return t
	},
}

func seatsFor(words Words, size float64) []fit.Seat {
	return fit.Seats(fit.Ring(words["ring"]), fit.Load(words["load"]), size, words["housing"] == "aluminium")
}

// materialIn is an input that takes a material.
func materialIn(key, label, usual string) Input {
	in := Input{Key: key, Label: label, Word: true, Default: usual}
	for _, m := range material.All {
		in.Options = append(in.Options, Option{m.Key, m.Name})
	}
	return in
}

// layExpansion lays a material's expansion, unless it was given.
func layExpansion(sc *sheet.Scope, key, label, symbol, name string) {
	if m, ok := material.Named(name); ok && !sc.Has(key) {
		sc.Measure(sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: material.Expansion}, sheet.Leaf{Value: m.Expansion, Origin: sheet.Assumed, Note: m.Name + ": " + m.Source})
	}
}

func expansionIn(key, label, symbol string) Input {
	return Input{Key: key, Label: label + "; nothing means its material's", Symbol: symbol, Unit: material.Expansion, Optional: true}
}

var fitTemperature = Method{
	Key: "fit_temperature", Label: "What temperature does to a fit", Field: "Limits and fits",
	Purpose: "The clearance between unlike materials when both are warm: why a ring turns in an aluminium housing.",
	Inputs: []Input{
		sizeIn("nominal size", "22"),
		classIn("hole", "class of the hole", "H7"),
		classIn("shaft", "class of the shaft", "h6"),
		{Key: "clearance", Label: "clearance at 20 °C, below 0 interference; nothing means that of the classes", Symbol: "c", Unit: unit.MM, Optional: true},
		materialIn("hole_material", "hole is in", "6082"),
		materialIn("shaft_material", "shaft or ring is of", "c45"),
		expansionIn("hole_expansion", "expansion of the hole's material", "α_h"),
		expansionIn("shaft_expansion", "expansion of the shaft's material", "α_s"),
		{Key: "temperature", Label: "temperature of both", Symbol: "T", Unit: unit.Celsius, Default: "60", Source: example},
	},
	Outputs: []string{"hot.max", "hot.min", "cold.max", "cold.min", "loose_at"},
	Define: func(sc *sheet.Scope, words Words) error {
		if err := held(sc, "temperature", unit.Celsius, unit.Celsius.Inside(-200), unit.Celsius.Inside(500)); err != nil {
			return err
		}
		most, least := "clearance.max", "clearance.min"
		if sc.Has("clearance") {
			most, least = "clearance", "clearance"
		} else if err := layFit(sc, words); err != nil {
			return err
		}
		layExpansion(sc, "hole_expansion", "expansion of the hole's material", "α_h", words["hole_material"])
		layExpansion(sc, "shaft_expansion", "expansion of the shaft's material", "α_s", words["shaft_material"])
		for name, key := range map[string]string{"max": most, "min": least} {
			say := map[string]string{"max": "greatest clearance", "min": "least clearance"}[name]
			sc.In("cold").Formula(fineQ(name, say+" at 20 °C", "c"), "clearance", "as given or by the classes", sheet.With{"clearance": key})
			sc.In("hot").Method(fineQ(name, say+" at the temperature", "c_T"), fit.HotClearance, sheet.With{"clearance": key})
		}
		hole, _ := sc.Leaf("hole_expansion")
		shaft, _ := sc.Leaf("shaft_expansion")
		if hole.Value != shaft.Value {
			sc.Method(sheet.Q{Key: "loose_at", Label: "temperature at which the tightest pair just touches", Symbol: "T_0", Unit: unit.Celsius}, fit.LooseAt, sheet.With{"clearance": least})
		}
		return nil
	},
}

var pressFit = Method{
	Key: "fit_press", Label: "Press fit", Field: "Limits and fits",
	Purpose: "Pressure, stress and pressing force at the greatest interference, and the torque that holds at the least.",
	Inputs: []Input{
		sizeIn("diameter of the joint", "40"),
		classIn("hole", "class of the hole", "H7"),
		classIn("shaft", "class of the shaft", "s6"),
		{Key: "interference", Label: "interference on the diameter; nothing means that of the classes", Symbol: "δ", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "outside", Label: "outside diameter of the hub", Symbol: "D", Unit: unit.MM, Default: "80", Source: example, Positive: true},
		{Key: "bore", Label: "bore of a hollow shaft, 0 where it is solid", Symbol: "d_i", Unit: unit.MM, Default: "0", Source: "a solid shaft"},
		{Key: "length", Label: "length of the joint", Symbol: "L", Unit: unit.MM, Default: "30", Source: example, Positive: true},
		materialIn("hub_material", "hub is of", "c45"),
		materialIn("shaft_material", "shaft is of", "c45"),
		{Key: "friction", Label: "friction in the joint", Symbol: "µ", Unit: unit.One, Default: "0.12", Source: fit.FrictionSource, Positive: true},
		{Key: "hub_roughness", Label: "roughness Rz of the bore", Symbol: "Rz_h", Unit: unit.Micrometre, Default: "6", Source: fit.RoughnessSource},
		{Key: "shaft_roughness", Label: "roughness Rz of the shaft", Symbol: "Rz_s", Unit: unit.Micrometre, Default: "6", Source: fit.RoughnessSource},
		{Key: "smoothing", Label: "share of the roughness that is pressed flat", Symbol: "k", Unit: unit.One, Default: "0.8", Source: fit.SmoothingSource},
	},
	Outputs: []string{"most.overlap", "most.pressure", "most.hoop", "most.equivalent", "most.shaft_stress", "most.force",
		"least.overlap", "least.effective", "least.pressure", "least.force", "least.torque"},
	Cautions: []string{"A press stores force: guard it, keep hands and face out of line, and wear eye protection; a hub of cast iron can burst."},
	Define:   definePress,
}

func definePress(sc *sheet.Scope, words Words) error {
	size, _ := sc.Leaf("size")
	outside, _ := sc.Leaf("outside")
	bore, _ := sc.Leaf("bore")
	switch {
	case outside.Value <= size.Value:
		return plan.Problem{Field: "outside", Say: "give more than the diameter of the joint"}
	case bore.Value < 0 || bore.Value >= size.Value:
		return plan.Problem{Field: "bore", Say: "give 0 or more, and less than the diameter of the joint"}
	}
	for _, key := range []string{"hub_roughness", "shaft_roughness"} {
		if err := held(sc, key, unit.Micrometre, 0, 0.2); err != nil {
			return err
		}
	}
	if err := held(sc, "smoothing", unit.One, 0, 1); err != nil {
		return err
	}
	most, least := sc.In("most"), sc.In("least")
	if sc.Has("interference") {
		most.Formula(fineQ("overlap", "greatest interference", "δ"), "interference", "as given")
		least.Formula(fineQ("overlap", "least interference", "δ"), "interference", "as given")
	} else {
		if err := layFit(sc, words); err != nil {
			return err
		}
		most.Formula(fineQ("overlap", "greatest interference", "δ"), "-clearance.min", "interference is clearance below 0")
		least.Formula(fineQ("overlap", "least interference", "δ"), "-clearance.max", "interference is clearance below 0")
	}
	hub, _ := material.Named(words["hub_material"])
	shaft, _ := material.Named(words["shaft_material"])
	for part, m := range map[string]material.Material{"hub": hub, "shaft": shaft} {
		sc.Measure(sheet.Q{Key: part + "_modulus", Label: "modulus of the " + part, Symbol: "E", Unit: unit.GPa}, sheet.Leaf{Value: m.Modulus, Origin: sheet.Assumed, Note: m.Name + ": " + m.Source})
		sc.Measure(sheet.Q{Key: part + "_poisson", Label: "Poisson's ratio of the " + part, Symbol: "ν", Unit: unit.One}, sheet.Leaf{Value: m.Poisson, Origin: sheet.Assumed, Note: m.Name + ": " + m.Source})
	}
	give := unit.Unit{Symbol: "1/MPa", Dim: unit.Number.Per(unit.MPa.Dim), Scale: 1, Decimals: 8}
	sc.Method(sheet.Q{Key: "hub_give", Label: "give of the hub", Symbol: "c_h", Unit: give, Quiet: true}, fit.HubGive)
	sc.Method(sheet.Q{Key: "shaft_give", Label: "give of the shaft", Symbol: "c_s", Unit: give, Quiet: true}, fit.ShaftGive)
	most.Formula(fineQ("effective", "interference that presses at the most", "δ_e"), "max(0, overlap)", "the worst for the hub: nothing is pressed flat")
	least.Method(fineQ("effective", "interference that is left at the least", "δ_e"), fit.Effective, sheet.With{"interference": "least.overlap"})
	for _, in := range []*sheet.Scope{most, least} {
		in.Method(sheet.Q{Key: "pressure", Label: "pressure in the joint", Symbol: "p", Unit: unit.MPa, Decimals: 1}, fit.Pressure)
	}
	most.Method(sheet.Q{Key: "hoop", Label: "pull around the hub's bore", Symbol: "σ_t", Unit: unit.MPa, Decimals: 1}, fit.HubHoop)
	most.Method(sheet.Q{Key: "equivalent", Label: "stress of the hub to compare with its yield", Symbol: "σ_v", Unit: unit.MPa, Decimals: 1}, fit.HubEquivalent)
	most.Method(sheet.Q{Key: "shaft_stress", Label: "push in the shaft", Symbol: "σ_s", Unit: unit.MPa, Decimals: 1}, fit.ShaftStress)
	most.Method(sheet.Q{Key: "force", Label: "force to press it on, at the most", Symbol: "F", Unit: unit.Newton}, fit.AxialHold)
	least.Method(sheet.Q{Key: "force", Label: "push along the axis that holds at the least", Symbol: "F", Unit: unit.Newton}, fit.AxialHold)
	least.Method(sheet.Q{Key: "torque", Label: "torque that holds at the least", Symbol: "T", Unit: unit.NewtonMetre}, fit.TorqueHold)
	pressChecks(sc, hub, shaft)
	return nil
}

func pressChecks(sc *sheet.Scope, hub, shaft material.Material) {
	limit := func(key, label string, value float64, source string) {
		sc.Measure(sheet.Q{Key: key, Label: label, Unit: unit.MPa}, sheet.Leaf{Value: value, Origin: sheet.Assumed, Note: source})
	}
	figure, say := "most.equivalent", "The hub is strained to {figure}, and yields at {limit}."
	limit("hub_limit", "stress that the hub may have", hub.Yield, hub.Name+": "+hub.Source)
	if hub.Brittle() {
		limit("hub_brittle", "pull that the hub may have", hub.Strength/3, "common practice: a third of the strength of what breaks without yielding; "+hub.Name+": "+hub.Source)
		sc.Check(sheet.Check{Key: "hub", Label: "Hub does not burst", Figure: "most.hoop", Limit: "hub_brittle", AtMost: true, Level: sheet.Rule,
			Sentence: "The hub is pulled to {figure}, and may be to {limit}.", Source: "common practice: brittle hubs on their pull"})
	} else {
		sc.Check(sheet.Check{Key: "hub", Label: "Hub stays elastic", Figure: figure, Limit: "hub_limit", AtMost: true, Level: sheet.Rule, Sentence: say, Source: "greatest shear (Tresca) against yield"})
	}
	limit("shaft_limit", "stress that the shaft may have", shaft.Yield, shaft.Name+": "+shaft.Source)
	sc.Check(sheet.Check{Key: "shaft_elastic", Label: "Shaft stays elastic", Figure: "most.shaft_stress", Limit: "shaft_limit", AtMost: true, Level: sheet.Rule,
		Sentence: "The shaft is pressed to {figure}, and yields at {limit}.", Source: "pressure against yield"})
}

var assemblyTemperature = Method{
	Key: "fit_assembly_temperature", Label: "Warming or cooling to assemble", Field: "Limits and fits",
	Purpose: "How warm a hub or ring, or how cold a shaft, has to be to go together without force.",
	Inputs: []Input{
		sizeIn("diameter of the joint", "25"),
		classIn("hole", "class of the hole", "H7"),
		classIn("shaft", "class of the shaft", "p6"),
		{Key: "interference", Label: "interference on the diameter; nothing means the greatest of the classes", Symbol: "δ", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "clearance", Label: "clearance to slide on with; nothing means a thousandth of the diameter, 0.01 mm at least", Symbol: "c", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "way", Label: "what is done", Word: true, Default: "warm", Options: []Option{{"warm", "warm the hub"}, {"cool", "cool the shaft"}}},
		materialIn("material", "the part that is warmed or cooled is of", "c45"),
		expansionIn("expansion", "expansion of that material", "α"),
		heatedIn(),
	},
	Outputs:  []string{"temperature", "warming", "needs", "room", "freezer"},
	Cautions: []string{"Wear gloves against heat and cold and eye protection. Warm evenly in an oven or hot oil bath below its flash point, never a bearing with a flame. Dry ice and liquid nitrogen burn the skin and drive out the air: only outdoors or well ventilated."},
	Define: func(sc *sheet.Scope, words Words) error {
		if sc.Has("interference") {
			sc.Formula(fineQ("needs", "interference to overcome", "δ"), "interference", "as given")
		} else {
			if err := layFit(sc, words); err != nil {
				return err
			}
			sc.Formula(fineQ("needs", "interference to overcome", "δ"), "max(0, -clearance.min)", "the greatest of the classes")
		}
		if sc.Has("clearance") {
			sc.Formula(fineQ("room", "clearance to slide on with", "c"), "clearance", "as given")
		} else {
			sc.Method(fineQ("room", "clearance to slide on with", "c"), fit.ClearanceToAssemble)
		}
		layExpansion(sc, "expansion", "expansion of the part", "α", words["material"])
		if err := held(sc, "expansion", material.Expansion, 1e-7, 1e-3); err != nil {
			return err
		}
		sc.Method(sheet.Q{Key: "warming", Label: "difference of temperature", Symbol: "ΔT", Unit: kelvin}, fit.Warming, sheet.With{"interference": "needs", "clearance": "room"})
		temperature := sheet.Q{Key: "temperature", Label: "temperature to bring it to", Symbol: "T", Unit: unit.Celsius, Decimals: 0}
		if words["way"] == "cool" {
			sc.Formula(temperature, "-warming", "from 20 °C, the other part kept at it")
			sc.Measure(sheet.Q{Key: "coldest", Label: "as cold as a household freezer makes it", Unit: unit.Celsius}, sheet.Leaf{Value: unit.Celsius.Inside(-18), Origin: sheet.Assumed, Note: "common practice: −18 °C"})
			sc.Formula(sheet.Q{Key: "cold", Label: "cooling in a household freezer", Symbol: "ΔT_f", Unit: kelvin, Quiet: true}, "-coldest", "from 20 °C")
			sc.Method(fineQ("freezer", "what a household freezer shrinks it by", "s"), fit.Shrink)
			sc.Check(sheet.Check{Key: "freezer_does", Label: "A household freezer is cold enough", Figure: "temperature", Limit: "coldest", Level: sheet.Rule, Advice: true,
				Sentence: "It has to be {figure}, and a freezer gives {limit}: warm the hub as well, or use dry ice at −78 °C.", Source: "common practice"})
			return nil
		}
		sc.Formula(temperature, "warming", "from 20 °C, the other part kept at it")
		for _, l := range fit.HeatLimits {
			if l.Key == words["part"] {
				sc.Measure(sheet.Q{Key: "hottest", Label: "as warm as a " + l.Label + " may be made", Unit: unit.Celsius}, sheet.Leaf{Value: unit.Celsius.Inside(l.Celsius), Origin: sheet.Assumed, Note: l.Source})
				sc.Check(sheet.Check{Key: "not_too_hot", Label: "The part is not harmed", Figure: "temperature", Limit: "hottest", AtMost: true, Level: sheet.Rule,
					Sentence: "It has to be {figure}, and may be {limit} at the most.", Source: l.Source})
			}
		}
		return nil
	},
}

func heatedIn() Input {
	in := Input{Key: "part", Label: "the part that is warmed is", Word: true, Default: "steel"}
	for _, l := range fit.HeatLimits {
		in.Options = append(in.Options, Option{l.Key, l.Label})
	}
	return in
}

var generalTolerance = Method{
	Key: "general_tolerance", Label: "General tolerance", Field: "Limits and fits",
	Purpose: "What a size without a tolerance of its own may be off by.",
	Inputs: []Input{
		sizeIn("nominal size; of an angle the length of its shorter leg", "50"),
		{Key: "class", Label: "class", Word: true, Default: "m", Options: []Option{{"f", "f, fine"}, {"m", "m, medium"}, {"c", "c, coarse"}, {"v", "v, very coarse"}}},
		{Key: "of", Label: "of", Word: true, Default: "length", Options: []Option{{"length", "a length or diameter"}, {"edge", "an outside radius or chamfer"}, {"angle", "an angle"}}},
	},
	Outputs: []string{"tolerance", "largest", "smallest", "angle"},
	Define: func(sc *sheet.Scope, words Words) error {
		size, _ := sc.Leaf("size")
		note := fit.GeneralSource + ", class " + words["class"]
		if words["of"] == "angle" {
			degrees, err := fit.GeneralAngle(words["class"], size.Value)
			if err != nil {
				return fitProblem(err, "size")
			}
			sc.Measure(sheet.Q{Key: "angle", Label: "either way", Symbol: "t", Unit: unit.Degree, Decimals: 3}, sheet.Leaf{Value: unit.Degree.Inside(degrees), Origin: sheet.Chosen, Note: note})
			return nil
		}
		look := fit.GeneralLength
		if words["of"] == "edge" {
			look = fit.GeneralEdge
		}
		plus, err := look(words["class"], size.Value)
		if err != nil {
			return fitProblem(err, "size")
		}
		sc.Measure(sheet.Q{Key: "tolerance", Label: "either way", Symbol: "t", Unit: unit.MM}, sheet.Leaf{Value: plus, Origin: sheet.Chosen, Note: note})
		sc.Formula(sheet.Q{Key: "largest", Label: "largest", Unit: unit.MM}, "size + tolerance", geometry)
		sc.Formula(sheet.Q{Key: "smallest", Label: "smallest", Unit: unit.MM}, "size - tolerance", geometry)
		return nil
	},
}
