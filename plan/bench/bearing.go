package bench

import (
	"errors"
	"fmt"
	"strings"

	"fettle/plan"
	"fettle/plan/bearing"
	"fettle/plan/fit"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// bearingMethods are the calculations of plan/bearing.
var bearingMethods = []Method{bearingSizes, bearingSelect, bearingStatic, bearingAxial, bearingLife, bearingStiffness, bearingClearance}

var (
	bearingIn = Input{Key: "bearing", Label: "bearing, as 6001, 7001, 51101, F8-16M or AXK1226", Word: true, Default: "6001"}
	staticIn  = Input{Key: "static", Label: "its static rating by its maker's list; nothing means the catalogue's", Symbol: "C_0", Unit: unit.Newton, Optional: true, Positive: true}
	dynamicIn = Input{Key: "dynamic", Label: "its dynamic rating by its maker's list; nothing means the catalogue's", Symbol: "C", Unit: unit.Newton, Optional: true, Positive: true}
	radialIn  = Input{Key: "radial", Label: "radial load", Symbol: "F_r", Unit: unit.Newton, Default: "50", Source: "assumed: the pull of a hand on the handle; common practice, no source"}
	axialIn   = Input{Key: "thrust", Label: "thrust", Symbol: "F_a", Unit: unit.Newton, Default: "300", Source: "assumed: a feed screw of a small machine, turned by hand; common practice, no source"}
	turnsUnit = unit.Unit{Symbol: "million turns", Dim: unit.Number, Scale: 1e6, Decimals: 1}
	hoursUnit = unit.Unit{Symbol: "h", Dim: unit.TimeD, Scale: 3600, Decimals: 0}
)

// layBearing finds the bearing that was typed and lays what is known of it.
func layBearing(sc *sheet.Scope, words Words) (bearing.Bearing, error) {
	b, err := bearing.Lookup(words["bearing"])
	if errors.Is(err, bearing.ErrUnknown) {
		return b, plan.Problem{Field: "bearing", Say: err.Error()}
	}
	if err != nil {
		return b, err
	}
	size := func(key, label, symbol string, v float64) {
		sc.Measure(sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.MM}, sheet.Leaf{Value: v, Origin: sheet.Chosen, Note: b.Designation + ": " + b.DimensionSource()})
	}
	size("bore", "bore", "d", b.Bore)
	size("od", "outside diameter", "D", b.OD)
	size("width", "length on the shaft", "B", b.Height())
	share, why := bearing.Spread, bearing.SpreadSource
	if sc.Has("static") {
		share, why = 1, "the rating is its maker's own"
	}
	sc.Measure(sheet.Q{Key: "spread", Label: "share of the rating that is relied on", Symbol: "k", Unit: unit.One, Quiet: true}, sheet.Leaf{Value: share, Origin: sheet.Assumed, Note: why})
	rating := func(key, label, symbol string, v float64) {
		if !sc.Has(key) {
			sc.Measure(sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.Newton}, sheet.Leaf{Value: v, Origin: sheet.Assumed, Note: b.Designation + ": " + b.RatingSource()})
		}
	}
	rating("static", "static rating", "C_0", b.Static)
	rating("dynamic", "dynamic rating", "C", b.Dynamic)
	sc.Formula(sheet.Q{Key: "static_sure", Label: "static rating that is relied on", Symbol: "C_0'", Unit: unit.Newton}, "spread * static", bearing.SpreadSource)
	return b, nil
}

// loaded refuses loads that a bearing cannot have, and no load at all.
func loaded(sc *sheet.Scope, b bearing.Bearing) error {
	radial, _ := sc.Leaf("radial")
	thrust, _ := sc.Leaf("thrust")
	switch {
	case radial.Value < 0:
		return plan.Problem{Field: "radial", Say: "give 0 or more"}
	case thrust.Value < 0:
		return plan.Problem{Field: "thrust", Say: "give 0 or more"}
	case b.Thrust() && radial.Value > 0:
		return plan.Problem{Field: "radial", Say: "a thrust bearing carries no radial load: give 0, and carry it beside"}
	case radial.Value == 0 && thrust.Value == 0:
		return plan.Problem{Field: "thrust", Say: "give a load above 0"}
	}
	return nil
}

func plainQ(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.One}
}

func forceQ(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.Newton}
}

var bearingStatic = Method{
	Key: "bearing_static", Label: "Static safety of a bearing", Field: "Rolling bearings",
	Purpose: "How far a bearing that hardly turns is from dents under its balls.",
	Inputs:  []Input{bearingIn, radialIn, axialIn, staticIn},
	Outputs: []string{"safety", "equivalent", "static", "static_sure"},
	Define: func(sc *sheet.Scope, words Words) error {
		b, err := layBearing(sc, words)
		if err != nil {
			return err
		}
		if err := loaded(sc, b); err != nil {
			return err
		}
		if b.Thrust() {
			sc.Method(forceQ("equivalent", "equivalent static load", "P_0"), bearing.StaticEquivalentThrust)
		} else {
			x0, y0 := bearing.StaticFactors(b.Kind)
			sc.Measure(plainQ("x0", "radial factor", "X_0"), sheet.Leaf{Value: x0, Origin: sheet.Chosen, Note: "ISO 76, " + string(b.Kind)})
			sc.Measure(plainQ("y0", "thrust factor", "Y_0"), sheet.Leaf{Value: y0, Origin: sheet.Chosen, Note: "ISO 76, " + string(b.Kind)})
			sc.Method(forceQ("equivalent", "equivalent static load", "P_0"), bearing.StaticEquivalent)
		}
		sc.Method(plainQ("safety", "static safety", "s_0"), bearing.StaticSafety, sheet.With{"static": "static_sure"})
		quiet, source := bearing.SafetyWanted(b.Kind)
		bound(sc, sheet.Check{Key: "safe", Label: "Static safety", Figure: "safety", Level: sheet.Rule,
			Sentence: "The static safety is {figure}; {limit} is the least for slow turning by hand.", Source: source}, plainQ("", "", ""), quiet, quiet/2)
		return nil
	},
}

var bearingAxial = Method{
	Key: "bearing_axial", Label: "Thrust on a bearing", Field: "Rolling bearings",
	Purpose: "The thrust that may be asked of a bearing: much less of a radial one than its rating suggests.",
	Inputs:  []Input{bearingIn, axialIn, staticIn},
	Outputs: []string{"axial_most", "axial_sure", "axial_share", "static"},
	Define: func(sc *sheet.Scope, words Words) error {
		b, err := layBearing(sc, words)
		if err != nil {
			return err
		}
		if err := loaded(sc, b); err != nil {
			return err
		}
		share, source := b.AxialShare()
		sc.Measure(plainQ("axial_share", "share of the static rating", "k_a"), sheet.Leaf{Value: share, Origin: sheet.Assumed, Note: source})
		sc.Method(forceQ("axial_most", "thrust that may be asked of it", "F_a"), bearing.AxialMost)
		sc.Method(forceQ("axial_sure", "the same, of the rating that is relied on", "F_a'"), bearing.AxialMost, sheet.With{"static": "static_sure"})
		sc.Formula(sheet.Q{Key: "axial_reserve", Label: "margin at which thrust is tight", Unit: unit.Newton, Quiet: true}, "0.3 * axial_sure", practice+": 70 % of it")
		sc.Check(sheet.Check{Key: "carries", Label: "Thrust on the bearing", Figure: "thrust", Limit: "axial_sure", AtMost: true, Tight: "axial_reserve", Level: sheet.Rule,
			Sentence: "{figure} of thrust, and the bearing may carry {limit}.", Source: source})
		return nil
	},
}

var bearingLife = Method{
	Key: "bearing_life", Label: "Life of a bearing", Field: "Rolling bearings",
	Purpose: "The turns and hours that nine of ten bearings outlast. Of a screw turned by hand it is hardly ever what limits.",
	Inputs: []Input{bearingIn, radialIn, axialIn,
		{Key: "speed", Label: "speed", Symbol: "n", Unit: unit.RPM, Default: "60", Source: "assumed: a brisk hand on a handle; common practice, no source", Positive: true},
		{Key: "geometry_factor", Label: "factor of its inside", Symbol: "f_0", Unit: unit.One, Default: "14", Source: bearing.GeometryFactorSource, Positive: true},
		dynamicIn, staticIn},
	Outputs: []string{"hours", "life", "equivalent", "relative", "e", "x", "y", "dynamic"},
	Define: func(sc *sheet.Scope, words Words) error {
		b, err := layBearing(sc, words)
		if err != nil {
			return err
		}
		if err := loaded(sc, b); err != nil {
			return err
		}
		if err := held(sc, "geometry_factor", unit.One, 8, 20); err != nil {
			return err
		}
		switch {
		case b.Thrust():
			sc.Method(forceQ("equivalent", "equivalent load", "P"), bearing.EquivalentThrust)
		case b.Kind == bearing.AngularContact:
			e, x, y, err := bearing.LifeFactors(b.Kind, 0)
			if err != nil {
				return err
			}
			for key, v := range map[string]float64{"e": e, "x": x, "y": y} {
				sc.Measure(plainQ(key, "factor "+key, key), sheet.Leaf{Value: v, Origin: sheet.Chosen, Note: "ISO 281 table 3, contact angle 30°"})
			}
			sc.Method(forceQ("equivalent", "equivalent load", "P"), bearing.Equivalent)
		default:
			if err := deepGrooveFactors(sc); err != nil {
				return err
			}
			sc.Method(forceQ("equivalent", "equivalent load", "P"), bearing.Equivalent)
		}
		life := bearing.LifeBalls
		if b.Kind == bearing.NeedleThrust {
			life = bearing.LifeRollers
		}
		sc.Method(sheet.Q{Key: "life", Label: "life that nine of ten outlast", Symbol: "L_10", Unit: turnsUnit}, life)
		sc.Measure(sheet.Q{Key: "enough", Label: "life above which it does not limit", Unit: hoursUnit, Quiet: true},
			sheet.Leaf{Value: hoursUnit.Inside(10000), Origin: sheet.Assumed, Note: practice + ": 10 000 h"})
		sc.Method(sheet.Q{Key: "hours", Label: "life in hours, counted up to 10 000: above, life does not limit", Symbol: "L_10h", Unit: hoursUnit}, bearing.LifeTime)
		return nil
	},
}

func deepGrooveFactors(sc *sheet.Scope) error {
	thrust, _ := sc.Leaf("thrust")
	static, _ := sc.Leaf("static")
	f0, _ := sc.Leaf("geometry_factor")
	if _, _, _, err := bearing.LifeFactors(bearing.DeepGroove, f0.Value*thrust.Value/static.Value); err != nil {
		return plan.Problem{Field: "thrust", Say: err.Error()}
	}
	bearing.RegisterLife(sc.Sheet())
	sc.Method(plainQ("relative", "thrust by which the factors go", "f_0 F_a / C_0"), bearing.Relative)
	sc.Method(plainQ("e", "factor e", "e"), bearing.FactorE)
	sc.Measure(plainQ("x", "factor x", "X"), sheet.Leaf{Value: 0.56, Origin: sheet.Chosen, Note: bearing.LifeFactorSource})
	sc.Method(plainQ("y", "factor y", "Y"), bearing.FactorY)
	return nil
}

var bearingStiffness = Method{
	Key: "bearing_stiffness", Label: "Axial stiffness and preload of a bearing", Field: "Rolling bearings",
	Purpose: "How far a bearing gives way along the axis, alone or as a preloaded pair: an order of magnitude.",
	Inputs: []Input{bearingIn,
		{Key: "thrust", Label: "thrust, or the preload of a pair", Symbol: "F", Unit: unit.Newton, Default: "100", Source: "assumed: a third to a half of the usual thrust; common practice, no source", Positive: true},
		{Key: "angle", Label: "angle at which the balls carry; nothing means that of its kind", Symbol: "α", Unit: unit.Degree, Optional: true, Positive: true},
		staticIn},
	Outputs: []string{"stiffness", "pair", "approach", "ideal", "preload_lost", "preload_most", "balls", "ball", "ball_load"},
	Define: func(sc *sheet.Scope, words Words) error {
		b, err := layBearing(sc, words)
		if err != nil {
			return err
		}
		if b.Kind == bearing.NeedleThrust {
			return plan.Problem{Field: "bearing", Say: "no estimate for needle thrust bearings: the flatness of the faces beside them decides"}
		}
		if err := held(sc, "angle", unit.Degree, unit.Degree.Inside(5), unit.Degree.Inside(90)); err != nil {
			return err
		}
		if !sc.Has("angle") {
			degrees, source := b.Kind.ContactAngle()
			sc.Measure(sheet.Q{Key: "angle", Label: "angle at which the balls carry", Symbol: "α", Unit: unit.Degree}, sheet.Leaf{Value: unit.Degree.Inside(degrees), Origin: sheet.Assumed, Note: source})
		}
		many := bearing.BallsMany
		if b.Kind == bearing.DeepGroove {
			many = bearing.BallsFew
		}
		stiff := func(key, label, symbol string) sheet.Q {
			return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.NewtonPerMicrometre}
		}
		sc.Method(sheet.Q{Key: "ball", Label: "balls, about", Symbol: "D_w", Unit: unit.MM}, bearing.Ball)
		sc.Method(sheet.Q{Key: "balls", Label: "number of balls, about", Symbol: "Z", Unit: unit.Count}, many)
		sc.Method(forceQ("ball_load", "load on a ball", "Q"), bearing.BallLoad)
		sc.Method(sheet.Q{Key: "approach", Label: "how far it gives way", Symbol: "δ_a", Unit: unit.Micrometre}, bearing.Approach)
		sc.Method(stiff("ideal", "stiffness of the contacts alone", "k"), bearing.Ideal)
		sc.Measure(plainQ("in_service", "share that is left in service", "q"), sheet.Leaf{Value: bearing.InServiceShare, Origin: sheet.Assumed, Note: bearing.InServiceSource})
		sc.Method(stiff("stiffness", "stiffness in service, about", "k_a"), bearing.InService)
		sc.Method(stiff("pair", "stiffness of a pair with this preload, about", "k_2"), bearing.PairStiffness)
		sc.Method(forceQ("preload_lost", "load at which a pair runs loose", "F_2"), bearing.PreloadLost)
		sc.Method(forceQ("preload_most", "preload not to exceed", "F_p"), bearing.PreloadMost)
		sc.Check(sheet.Check{Key: "preload", Label: "Preload", Figure: "thrust", Limit: "preload_most", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "{figure}; as a preload not more than {limit}.", Source: bearing.PreloadMost.Source})
		return nil
	},
}

var bearingClearance = Method{
	Key: "bearing_clearance_left", Label: "Internal clearance left by the seats", Field: "Rolling bearings",
	Purpose: "What a tight seat takes from the clearance inside a deep groove bearing, and whether any is left.",
	Inputs: []Input{
		{Key: "bore", Label: "bore of the bearing", Symbol: "d", Unit: unit.MM, Default: "12", Source: example, Positive: true},
		{Key: "outside", Label: "its outside diameter", Symbol: "D", Unit: unit.MM, Default: "28", Source: example, Positive: true},
		classIn("shaft", "class of the shaft's seat", "h6"),
		classIn("hole", "class of the housing's seat", "H7"),
		{Key: "share", Label: "share of the interference that is taken", Symbol: "q", Unit: unit.One, Default: "0.8", Source: fit.PlayShareSource, Positive: true},
		{Key: "smoothed", Label: "interference that is pressed flat", Symbol: "s", Unit: unit.Micrometre, Default: "2", Source: fit.PlaySmoothedWhy},
	},
	Outputs: []string{"left.max", "left.min", "made.max", "made.min", "inner.interference", "inner.taken", "outer.interference", "outer.taken"},
	Define:  defineClearanceLeft,
}

func defineClearanceLeft(sc *sheet.Scope, words Words) error {
	bore, _ := sc.Leaf("bore")
	outside, _ := sc.Leaf("outside")
	if outside.Value <= bore.Value {
		return plan.Problem{Field: "outside", Say: "give more than the bore"}
	}
	if err := held(sc, "share", unit.One, 0, 1); err != nil {
		return err
	}
	if err := held(sc, "smoothed", unit.Micrometre, 0, 0.05); err != nil {
		return err
	}
	least, most, err := bearing.Clearance(bore.Value)
	if err != nil {
		return plan.Problem{Field: "bore", Say: err.Error()}
	}
	made := sc.In("made")
	made.Measure(fineQ("min", "least clearance as made", "G"), sheet.Leaf{Value: least / 1000, Origin: sheet.Chosen, Note: bearing.ClearanceSource})
	made.Measure(fineQ("max", "greatest clearance as made", "G"), sheet.Leaf{Value: most / 1000, Origin: sheet.Chosen, Note: bearing.ClearanceSource})
	for _, ring := range []struct {
		key, label, size, class string
		of                      fit.Ring
		read                    func(string) (fit.Class, error)
		most, least             string // interference from the deviations
		symbol                  string
	}{
		{"inner", "inner ring", "bore", "shaft", fit.Inner, fit.ShaftClass, "seat.upper - ring.lower", "seat.lower - ring.upper", "Δ_i"},
		{"outer", "outer ring", "outside", "hole", fit.Outer, fit.HoleClass, "ring.upper - seat.lower", "ring.lower - seat.upper", "Δ_e"},
	} {
		size, _ := sc.Leaf(ring.size)
		limits, source, err := fit.RingLimits(ring.of, size.Value)
		if err != nil {
			return plan.Problem{Field: ring.size, Say: err.Error()}
		}
		c, err := ring.read(words[ring.class])
		if err != nil {
			return plan.Problem{Field: ring.class, Say: err.Error()}
		}
		seat, err := c.At(size.Value)
		if err != nil {
			return fitProblem(err, ring.class)
		}
		in := sc.In(ring.key)
		layLimits(in, limited{"ring", ring.label, !c.Hole()}, limits, source)
		layLimits(in, limited{"seat", "seat of the " + ring.label, c.Hole()}, seat, "ISO 286-2: "+c.String())
		in.Formula(fineQ("interference", "greatest interference of the "+ring.label, "δ"), ring.most, fit.ClearanceLeast.Source)
		in.Formula(fineQ("interference_least", "least interference of the "+ring.label, "δ"), ring.least, fit.ClearanceMost.Source)
		in.Method(fineQ("taken", "clearance that the "+ring.label+" takes at the most", ring.symbol), fit.PlayTaken)
		in.Method(fineQ("taken_least", "clearance that the "+ring.label+" takes at the least", ring.symbol), fit.PlayTaken, sheet.With{"interference": ring.key + ".interference_least"})
	}
	left := sc.In("left")
	left.Method(fineQ("min", "least clearance left", "G_r"), fit.PlayLeft, sheet.With{"play": "made.min", "inner_taken": "inner.taken", "outer_taken": "outer.taken"})
	left.Method(fineQ("max", "greatest clearance left", "G_r"), fit.PlayLeft, sheet.With{"play": "made.max", "inner_taken": "inner.taken_least", "outer_taken": "outer.taken_least"})
	bound(sc, sheet.Check{Key: "runs_free", Label: "Clearance left in the bearing", Figure: "left.min", Level: sheet.Rule,
		Sentence: "{figure} is left at the least; below {limit} the bearing is preloaded too hard.", Source: practice + ": 0, and not below −5 µm"}, fineQ("", "", ""), 0, -0.005)
	return nil
}

var bearingSelect = Method{
	Key: "bearing_select", Label: "Which bearing suits", Field: "Rolling bearings",
	Purpose: "Every bearing of a bore weighed against the place and the load, the best first, with what is against the others.",
	Example: map[string]string{"body": "40"},
	Inputs: []Input{
		{Key: "shaft", Label: "diameter of the journal", Symbol: "d", Unit: unit.MM, Default: "12", Source: example, Positive: true},
		{Key: "space", Label: "largest seat that there is room for; nothing means any", Symbol: "D", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "body", Label: "diameter of the bracket around the seat; nothing means large enough", Symbol: "D_b", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "material", Label: "bracket is of", Word: true, Default: "iron", Options: []Option{{"iron", "cast iron"}, {"steel", "steel"}, {"aluminium", "aluminium"}}},
		{Key: "width", Label: "length for it along the shaft", Symbol: "B", Unit: unit.MM, Default: "12", Source: example, Positive: true},
		axialIn,
		{Key: "radial", Label: "radial load", Symbol: "F_r", Unit: unit.Newton, Default: "0", Source: "a feed screw that is carried by its nut and a bush"},
		{Key: "ways", Label: "thrust comes", Word: true, Default: "both", Options: []Option{{"both", "both ways, as of a feed screw"}, {"one", "one way"}}},
		{Key: "safety", Label: "static safety wanted", Symbol: "s_0", Unit: unit.One, Default: "2", Source: "ISO 76:2006, guidance, from memory, unchecked: 2 for quiet running", Positive: true},
		{Key: "shaft_shoulder", Label: "diameter of the shaft's shoulder, where it stands already", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "housing_shoulder", Label: "diameter of the housing's shoulder, where it stands already", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "closed", Label: "bearings are", Word: true, Default: "shielded", Options: []Option{{"shielded", "shielded or sealed"}, {"open", "open"}}},
	},
	Outputs: selectOutputs(),
	Define:  defineSelect,
	Table: func(words Words, r *sheet.Result) Table {
		t := Table{Caption: "Bearings of this bore, the best first", Source: "ISO 15 and ISO 104 boundary dimensions; ratings typical of published lists, their lower end; walls: common practice",
			Header: []string{"bearing", "d × D × B, mm", "needed", "takes, mm", "wall, mm", "may carry, N", "of it used", "against it"}}
		place, d := asked(words, func(key string) float64 { return valueOf(r, key) })
		list, err := bearing.Choose(place, d)
		if err != nil {
			return t // refused already, where the bore is typed
		}
		for _, c := range list {
			wall := "–"
			if valueOf(r, "body") > 0 {
				wall = unit.MM.Text(c.Wall, 1)
			}
			used := "–"
			if c.Allowed > 0 {
				used = unit.Percent.With(c.Used(d))
			}
			against := strings.Join(c.Against, "; ")
			if c.Suits() {
				against = "nothing"
			}
			t.Rows = append(t.Rows, []string{c.Designation + ", " + string(c.Kind), fmt.Sprintf("%g × %g × %g", c.Bore, c.OD, c.Height()), fmt.Sprint(c.Pieces),
				unit.MM.Text(c.Needs, 1), wall, unit.Newton.Text(c.Allowed, 0), used, against})
		}
		return t
	},
}

// choices is how many of the bearings that suit are given as figures.
const choices = 3

func selectOutputs() []string {
	keys := []string{"suiting", "weighed"}
	for i := range choices {
		for _, k := range []string{"od", "needs", "wall", "allowed", "used", "shaft_shoulder_least", "housing_shoulder_most"} {
			keys = append(keys, fmt.Sprintf("choice_%d.%s", i+1, k))
		}
	}
	return keys
}

func valueOf(r *sheet.Result, key string) float64 {
	if f, ok := r.Figure(key, sheet.Planned); ok {
		return f.Value
	}
	return 0
}

// asked is the place and the load, by what was typed.
func asked(words Words, value func(string) float64) (bearing.Place, bearing.Demand) {
	return bearing.Place{
		Shaft: value("shaft"), Width: value("width"), Space: value("space"), Body: value("body"), Material: words["material"],
		ShaftShoulder: value("shaft_shoulder"), HousingShoulder: value("housing_shoulder"), Shielded: words["closed"] == "shielded",
	}, bearing.Demand{Thrust: value("thrust"), Radial: value("radial"), BothWays: words["ways"] == "both", Safety: value("safety")}
}

func defineSelect(sc *sheet.Scope, words Words) error {
	if err := loaded(sc, bearing.Bearing{}); err != nil {
		return err
	}
	value := func(key string) float64 {
		l, _ := sc.Leaf(key)
		return l.Value
	}
	place, demand := asked(words, value)
	list, err := bearing.Choose(place, demand)
	if errors.Is(err, bearing.ErrUnknown) {
		return plan.Problem{Field: "shaft", Say: err.Error()}
	}
	if err != nil {
		return err
	}
	suiting := 0
	for _, c := range list {
		if !c.Suits() {
			continue
		}
		suiting++
		if suiting <= choices {
			layChoice(sc, fmt.Sprintf("choice_%d", suiting), c)
		}
	}
	count := func(key, label string, n int) {
		sc.Measure(sheet.Q{Key: key, Label: label, Unit: unit.Count, Whole: true}, sheet.Leaf{Value: float64(n), Origin: sheet.Chosen, Note: "counted in the catalogue"})
	}
	count("suiting", "bearings that fit and carry", suiting)
	count("weighed", "bearings of this bore", len(list))
	return nil
}

func layChoice(sc *sheet.Scope, key string, c bearing.Candidate) {
	in := sc.In(key)
	name := c.Designation
	if c.Pieces > 1 {
		name = fmt.Sprintf("%d × %s", c.Pieces, c.Designation)
	}
	leaf := func(q sheet.Q, v float64, note string) {
		q.Label = name + ": " + q.Label
		in.Measure(q, sheet.Leaf{Value: v, Origin: sheet.Chosen, Note: note})
	}
	leaf(sheet.Q{Key: "od", Label: "outside diameter", Symbol: "D", Unit: unit.MM}, c.OD, c.DimensionSource())
	leaf(sheet.Q{Key: "needs", Label: "length that it takes of the shaft", Symbol: "B", Unit: unit.MM}, c.Needs, c.DimensionSource())
	if sc.Has("body") {
		in.Method(sheet.Q{Key: "wall", Label: name + ": wall around the seat", Symbol: "t", Unit: unit.MM}, bearing.SeatWall)
	}
	leaf(forceQ("allowed", "thrust that it may carry", "F_max"), c.Allowed, c.RatingSource()+"; "+bearing.SpreadSource)
	in.Formula(sheet.Q{Key: "used", Label: name + ": share of it that is used", Unit: unit.Percent}, "thrust / allowed", "geometry of the loads")
	s := c.Shoulders()
	leaf(sheet.Q{Key: "shaft_shoulder_least", Label: "shaft's shoulder at least", Symbol: "d_a", Unit: unit.MM}, s.ShaftLeast, c.ShoulderSource())
	leaf(sheet.Q{Key: "housing_shoulder_most", Label: "housing's shoulder at most", Symbol: "D_a", Unit: unit.MM}, s.HousingMost, c.ShoulderSource())
}
