package bench

import (
	"errors"
	"fmt"
	"math"

	"fettle/plan"
	"fettle/plan/sheet"
	"fettle/plan/thread"
	"fettle/plan/unit"
)

// threadMethods are the calculations of plan/thread.
var threadMethods = []Method{
	threadData, threadLimits, tappingDrill, threadEngagement, threeWires, threadInfeed, whichThread, threadGears,
}

// threadNamed is an input that takes a designation.
func threadNamed(usual string) Input {
	return Input{Key: "thread", Label: "thread, as M12x1.5, Tr12x3 LH, 1/4-20 UNC, 2BA, 1/4 BSF or 3/8x32 ME", Default: usual, Word: true}
}

// threadOf is the thread that was typed; the error is a problem at its field.
func threadOf(words Words) (thread.Thread, error) {
	t, err := thread.Parse(words["thread"])
	if errors.Is(err, thread.ErrDesignation) || errors.Is(err, thread.ErrSize) {
		return t, plan.Problem{Field: "thread", Say: err.Error()}
	}
	return t, err
}

// classAt makes an error of a class of tolerance a problem at its field.
func classAt(field string, err error) error {
	if errors.Is(err, thread.ErrClass) {
		return plan.Problem{Field: field, Say: err.Error()}
	}
	return err
}

// lengthQ is a length shown to the micrometre.
func lengthQ(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.MM, Decimals: 3}
}

// shareQ is a share shown as a percentage.
func shareQ(key, label string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Unit: unit.Percent, Decimals: 1}
}

// bound adds a check against thresholds of common practice, inside values:
// fails past fail, tight from caution on. An input with the check's key and "_limit" takes the
// place of fail.
func bound(sc *sheet.Scope, c sheet.Check, q sheet.Q, caution, fail float64) {
	c.Limit, c.Tight = c.Key+"_limit", c.Key+"_caution"
	if !sc.Has(c.Limit) {
		q.Key, q.Label, q.Symbol = c.Limit, "limit of: "+c.Label, ""
		sc.Measure(q, sheet.Leaf{Value: fail, Origin: sheet.Assumed, Note: c.Source})
	}
	q.Key, q.Label, q.Symbol, q.Quiet = c.Tight, "margin at which it is tight: "+c.Label, "", true
	sc.Measure(q, sheet.Leaf{Value: math.Abs(fail - caution), Origin: sheet.Assumed, Note: c.Source})
	sc.Check(c)
}

// tried is a figure for each value of a leaf, one after the other, and then as it was.
func tried(r *sheet.Result, key string, values []float64, each func(i int)) {
	was := r.Value(key, sheet.Planned)
	for i, v := range values {
		r.Try(key, v)
		each(i)
	}
	r.Try(key, was)
}

// cell writes a figure of r for a table.
func cell(r *sheet.Result, key string, decimals int) string {
	f, ok := r.Figure(key, sheet.Planned)
	if !ok {
		return "–"
	}
	return f.Unit.Text(f.Value, decimals)
}

const (
	practice = "common practice, no source"
	geometry = "geometry"
)

var threadData = Method{
	Key: "thread", Label: "A thread's sizes", Field: "Threads",
	Purpose: "The diameters, lead, depth and stress area of a thread by its designation, standard or not.",
	Inputs:  []Input{threadNamed("M10")},
	Outputs: []string{"dia", "pitch", "tpi", "starts", "lead", "lead_angle", "pitch_dia", "root", "depth", "bore", "nut_major", "stress_area", "pilot_drill"},
	Define: func(sc *sheet.Scope, words Words) error {
		t, err := threadOf(words)
		if err != nil {
			return err
		}
		t.Lay(sc)
		pilot(sc, t)
		return nil
	},
}

func pilot(sc *sheet.Scope, t thread.Thread) {
	if t.Tap > 0 {
		sc.Measure(sheet.Q{Key: "pilot_drill", Label: "usual drill before the tap", Unit: unit.MM},
			sheet.Leaf{Value: t.Tap, Origin: sheet.Chosen, Note: "ISO 2306 (agrees with a general-purpose CAD package's table)"})
	}
}

var threadLimits = Method{
	Key: "thread_limits", Label: "A thread's limits", Field: "Threads",
	Purpose: "The largest and smallest diameters of a screw or nut in a class of tolerance.",
	Inputs: []Input{
		threadNamed("M10"),
		{Key: "class", Label: "class, as 6g, 4g6g, 6H, 2A, 2B, 3B, 7e, 7H, 2G; nothing means the usual one of a screw", Word: true, Optional: true},
	},
	Outputs: []string{"major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min", "position", "pitch_tolerance", "crest_tolerance"},
	Define: func(sc *sheet.Scope, words Words) error {
		t, err := threadOf(words)
		if err != nil {
			return err
		}
		class := words["class"]
		if class == "" {
			class = t.Class
		}
		if class == "" {
			class, _ = t.Series.Form.UsualClass()
		}
		t.Lay(sc)
		return classAt("class", t.LayLimits(sc, class))
	},
}

var tappingDrill = Method{
	Key: "tapping_drill", Label: "Drill before the tap", Field: "Threads",
	Purpose: "The drill for a share of a full thread, the stock drills near it, and what each leaves, by both meanings of 100 %.",
	Inputs: []Input{
		threadNamed("M10"),
		{Key: "percent", Label: "share of a full thread", Unit: unit.Percent, Default: "80", Source: practice + ": 80 % of 5/8 H, which charts call 67 %; more taps hard and holds little more", Positive: true},
		{Key: "full", Label: "what 100 % means", Word: true, Default: "standard", Options: []Option{
			{"standard", "the basic profile, 5/8 H a side: the standards' meaning"},
			{"chart", "3/4 H a side: the meaning of many trade charts, 60° only"},
		}},
		{Key: "drill", Label: "a drill in hand", Unit: unit.MM, Optional: true, Positive: true},
	},
	Cautions: []string{"Eye protection; clamp the work, since a drill that breaks through pulls it round. No gloves, rings or loose sleeves at a turning spindle. A broken tap has edges like glass."},
	Outputs:  []string{"tapping_drill", "full_depth", "share_standard", "share_chart", "pilot_drill", "minor_min", "minor_max", "drill_standard", "drill_chart"},
	Define: func(sc *sheet.Scope, words Words) error {
		t, err := threadOf(words)
		if err != nil {
			return err
		}
		if p, _ := sc.Leaf("percent"); p.Value > 1 {
			return plan.Problem{Field: "percent", Say: "a share of thread is at most 100 %"}
		}
		sixty := t.Series.Form.Angle == 60
		if words["full"] == "chart" && !sixty {
			return plan.Problem{Field: "full", Say: "3/4 H is of 60° threads; this is " + t.Series.Form.Label}
		}
		t.Lay(sc)
		pilot(sc, t)
		sc.Method(lengthQ("standard_depth", "full thread on the diameter, by the standards", ""), thread.FullDepth)
		if sixty {
			sc.Method(lengthQ("chart_depth", "full thread on the diameter, by trade charts", ""), thread.ChartDepth)
		}
		sc.Formula(lengthQ("full_depth", "full thread on the diameter", ""), words["full"]+"_depth", "as chosen")
		sc.Method(lengthQ("tapping_drill", "drill for this share", ""), thread.TappingDrill)
		shares := func(key, of, label string) {
			sc.Method(shareQ(key+"_standard", label+", of 5/8 H a side"), thread.ThreadShare, sheet.With{"drill": of, "full_depth": "standard_depth"})
			if sixty {
				sc.Method(shareQ(key+"_chart", label+", of 3/4 H a side"), thread.ThreadShare, sheet.With{"drill": of, "full_depth": "chart_depth"})
			}
		}
		shares("share", "tapping_drill", "thread with it")
		if sc.Has("drill") {
			shares("drill", "drill", "thread with the drill in hand")
		}
		sc.Measure(sheet.Q{Key: "trial", Label: "a stock drill", Unit: unit.MM, Quiet: true}, sheet.Leaf{Value: t.Dia, Origin: sheet.Assumed, Note: thread.DrillSource})
		shares("trial", "trial", "thread")
		if _, nut := t.Series.Form.UsualClass(); nut != "" && t.LayLimits(sc, nut) == nil {
			sc.Check(sheet.Check{Key: "bore_limit", Label: "bore within class " + nut, Figure: "tapping_drill", Limit: "minor_max", AtMost: true, Level: sheet.Rule, Advice: true,
				Sentence: "The drill of {figure} is held against the largest bore of class " + nut + ", {limit}; a larger one taps more easily and holds less.", Source: "limits of the thread"})
		}
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		near := thread.NearestDrills(r.Value("tapping_drill", sheet.Planned), 4)
		table := Table{Caption: "stock drills near it", Header: []string{"drill", "mm", "in", "of 5/8 H", "of 3/4 H"}, Source: thread.DrillSource}
		values := make([]float64, len(near))
		for i, d := range near {
			values[i] = d.Dia
		}
		tried(r, "trial", values, func(i int) {
			table.Rows = append(table.Rows, []string{near[i].Name, unit.MM.Fixed(near[i].Dia, 3), unit.Inch.Fixed(near[i].Dia, 4),
				cell(r, "trial_standard", 0) + " %", cell(r, "trial_chart", 0) + " %"})
		})
		return table
	},
}

var threadEngagement = Method{
	Key: "thread_engagement", Label: "Length of thread that holds", Field: "Threads",
	Purpose: "How long the nut or tapped hole must be for the screw to break before the thread strips, in unlike materials.",
	Inputs: []Input{
		threadNamed("M6"),
		{Key: "screw_strength", Label: "tensile strength of the screw", Symbol: "R_m,s", Unit: unit.MPa, Default: "800", Source: "property class 8.8, ISO 898-1", Positive: true},
		{Key: "nut_strength", Label: "tensile strength of the nut's material", Symbol: "R_m,n", Unit: unit.MPa, Default: "250", Source: "grey iron EN-GJL-250, EN 1561; less in a thick casting", Positive: true},
		{Key: "screw_shear_ratio", Label: "shear over tensile strength, screw", Symbol: "τ/R_m,s", Unit: unit.One, Default: "0.6", Source: "steel 0.58 to 0.65 (VDI 2230, from memory)", Positive: true},
		{Key: "nut_shear_ratio", Label: "shear over tensile strength, nut", Symbol: "τ/R_m,n", Unit: unit.One, Default: "0.75", Source: "grey iron 0.9, taken as 0.75 to be safe; steel, aluminium and brass 0.6 (VDI 2230, from memory)", Positive: true},
		{Key: "engaged", Label: "length of thread there is", Symbol: "L", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "screw_class", Label: "class of the screw; nothing means the usual one", Word: true, Optional: true},
		{Key: "nut_class", Label: "class of the nut; nothing means the usual one", Word: true, Optional: true},
	},
	Outputs: []string{"least_engagement", "useful_engagement", "equal_engagement", "strength_ratio", "stress_area", "breaking_load", "stripping_load", "screw_shear", "nut_shear"},
	Define: func(sc *sheet.Scope, words Words) error {
		t, err := threadOf(words)
		if err != nil {
			return err
		}
		t.Lay(sc)
		if err := layMating(sc, t, words["screw_class"], words["nut_class"]); err != nil {
			return err
		}
		if !sc.Has("engaged") {
			sc.Measure(lengthQ("engaged", "length of thread there is", "L"), sheet.Leaf{Value: t.Dia, Origin: sheet.Assumed, Note: "one diameter, as none was given"})
		}
		area := func(key, label string) sheet.Q { return sheet.Q{Key: key, Label: label, Unit: unit.MM2} }
		load := func(key, label string) sheet.Q { return sheet.Q{Key: key, Label: label, Unit: unit.Newton} }
		sc.Method(area("screw_shear", "area on which the screw's thread strips"), thread.ScrewShear)
		sc.Method(area("nut_shear", "area on which the nut's thread strips"), thread.NutShear)
		sc.Method(sheet.Q{Key: "strength_ratio", Label: "how much weaker the nut is", Symbol: "J", Unit: unit.One}, thread.StrengthRatio)
		sc.Method(sheet.Q{Key: "equal_engagement", Label: "length if the nut were as strong", Symbol: "L_e", Unit: unit.MM}, thread.EqualEngagement)
		sc.Method(sheet.Q{Key: "least_engagement", Label: "length from which the screw breaks first", Symbol: "Q", Unit: unit.MM}, thread.LeastEngagement)
		sc.Method(sheet.Q{Key: "useful_engagement", Label: "longest that is worth counting", Unit: unit.MM}, thread.UsefulEngagement)
		sc.Method(load("breaking_load", "load that breaks the screw"), thread.BreakingLoad)
		sc.Method(load("stripping_load", "load that strips a thread, at this length"), thread.StrippingLoad)
		sc.Check(sheet.Check{Key: "long_enough", Label: "length of thread", Figure: "engaged", Limit: "least_engagement", Level: sheet.Rule,
			Sentence: "{figure} of thread are held against {limit}, from which the screw breaks before a thread strips.", Source: "FED-STD-H28"})
		sc.Check(sheet.Check{Key: "worth_it", Label: "length that carries", Figure: "least_engagement", Limit: "useful_engagement", AtMost: true, Level: sheet.Rule, Advice: true,
			Sentence: "It would take {figure}; beyond {limit} the further turns carry little: take a weaker screw, a larger one, or an insert.", Source: practice})
		return nil
	},
	Table: func(_ Words, r *sheet.Result) Table {
		d := r.Value("dia", sheet.Planned)
		t := Table{Caption: "rules of thumb, to compare", Header: []string{"nut of", "diameters", "mm"}, Source: practice}
		for _, m := range []struct {
			of      string
			lengths float64
		}{{"steel", 1}, {"brass", 1.25}, {"grey iron", 1.5}, {"aluminium", 2}, {"acetal", 2.5}} {
			t.Rows = append(t.Rows, []string{m.of, unit.One.Text(m.lengths, 2), unit.MM.Text(m.lengths*d, 1)})
		}
		return t
	},
}

// layMating lays the limits of screw and nut in scopes of their own, and the four
// diameters of the shear areas; the basic sizes where a form has no limits here.
func layMating(sc *sheet.Scope, t thread.Thread, screwClass, nutClass string) error {
	usualScrew, usualNut := t.Series.Form.UsualClass()
	if usualScrew == "" && (screwClass != "" || nutClass != "") {
		field := "screw_class"
		if screwClass == "" {
			field = "nut_class"
		}
		return plan.Problem{Field: field, Say: "there are no limits here for " + t.Series.Label + " threads: leave it empty, and the basic sizes are taken"}
	}
	source, keys := "limits of the thread", map[string]string{"nut_bore_max": "nut.minor_max", "nut_pitch_max": "nut.pitch_max", "screw_major_min": "screw.major_min", "screw_pitch_min": "screw.pitch_min"}
	if usualScrew == "" {
		source = "basic sizes, as there are no limits here: a loose fit holds less"
		keys = map[string]string{"nut_bore_max": "bore", "nut_pitch_max": "pitch_dia", "screw_major_min": "dia", "screw_pitch_min": "pitch_dia"}
	} else {
		for _, part := range []struct {
			name, class, usual string
			nut                bool
		}{{"screw", screwClass, usualScrew, false}, {"nut", nutClass, usualNut, true}} {
			class := part.class
			if class == "" {
				class = part.usual
			}
			if thread.Nut(class) != part.nut {
				return plan.Problem{Field: part.name + "_class", Say: fmt.Sprintf("%s is no class of a %s: give one such as %s", class, part.name, part.usual)}
			}
			if err := classAt(part.name+"_class", t.LayLimits(sc.In(part.name), class)); err != nil {
				return err
			}
		}
	}
	for _, q := range []sheet.Q{
		lengthQ("nut_bore_max", "largest bore of the nut", "K"), lengthQ("nut_pitch_max", "largest pitch diameter of the nut", "E_n"),
		lengthQ("screw_major_min", "smallest outside diameter of the screw", "D_s"), lengthQ("screw_pitch_min", "smallest pitch diameter of the screw", "E_s"),
	} {
		sc.Formula(q, keys[q.Key], source)
	}
	return nil
}

var threeWires = Method{
	Key: "three_wires", Label: "Thread over three wires", Field: "Threads",
	Purpose: "What a micrometer reads over three wires on a screw, and the pitch diameter from a reading.",
	Inputs: []Input{
		threadNamed("M10"),
		{Key: "wire", Label: "diameter of the wires; nothing means the best", Symbol: "w", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "reading", Label: "reading over the wires", Symbol: "M", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "class", Label: "class of the screw; nothing means the usual one", Word: true, Optional: true},
		{Key: "lead_corrected", Label: "correction for the lead angle", Word: true, Default: "yes", Options: []Option{{"yes", "with it"}, {"no", "without it, as many tables"}}},
	},
	Outputs: []string{"over_wires", "over_wires_max", "over_wires_min", "best_wire", "wire_dia", "correction", "contact", "measured_pitch_dia", "pitch_dia"},
	Define: func(sc *sheet.Scope, words Words) error {
		t, err := threadOf(words)
		if err != nil {
			return err
		}
		if t.Series.Form.Angle == 0 {
			return plan.Problem{Field: "thread", Say: "wires find no flanks to rest on in a square thread"}
		}
		t.Lay(sc)
		sc.Method(lengthQ("best_wire", "best wire", "w_b"), thread.BestWire)
		wire := "best_wire"
		if sc.Has("wire") {
			wire = "wire"
		}
		sc.Formula(lengthQ("wire_dia", "wires used", "w"), wire, "as given, or the best")
		with := sheet.With{"wire": "wire_dia"}
		if words["lead_corrected"] == "yes" {
			sc.Method(sheet.Q{Key: "correction", Label: "correction for the lead angle", Symbol: "c", Unit: unit.MM, Decimals: 4}, thread.WireCorrection, with)
		} else {
			sc.Measure(sheet.Q{Key: "correction", Label: "correction for the lead angle", Symbol: "c", Unit: unit.MM, Decimals: 4}, sheet.Leaf{Origin: sheet.Chosen, Note: "left out, as chosen"})
		}
		sc.Method(lengthQ("over_wires", "over the wires, at the basic pitch diameter", "M"), thread.OverWires, with)
		sc.Method(lengthQ("contact", "diameter on which the wires touch", ""), thread.WireContact, with)
		if sc.Has("reading") {
			sc.Method(lengthQ("measured_pitch_dia", "pitch diameter by the reading", "d2"), thread.PitchDiaOverWires, with)
		}
		class := words["class"]
		if class == "" {
			class, _ = t.Series.Form.UsualClass()
		}
		if class != "" {
			limits := sc.In("limits")
			err := t.LayLimits(limits, class)
			if err == nil && thread.Nut(class) {
				return plan.Problem{Field: "class", Say: class + " is a nut's class, and wires go on a screw"}
			}
			if err == nil {
				sc.Method(lengthQ("over_wires_max", "over the wires, most for class "+class, "M_max"), thread.OverWires, sheet.With{"wire": "wire_dia", "pitch_dia": "limits.pitch_max"})
				sc.Method(lengthQ("over_wires_min", "over the wires, least for class "+class, "M_min"), thread.OverWires, sheet.With{"wire": "wire_dia", "pitch_dia": "limits.pitch_min"})
			} else if words["class"] != "" {
				return classAt("class", err)
			}
		}
		sc.Check(sheet.Check{Key: "above_crest", Label: "wires stand out of the thread", Figure: "over_wires", Limit: "dia", Level: sheet.Stop,
			Sentence: "Over the wires it is {figure}, and the crests are at {limit}: smaller wires would be lost between them.", Source: geometry})
		sc.Check(sheet.Check{Key: "below_crest", Label: "wires touch the flanks", Figure: "contact", Limit: "dia", AtMost: true, Level: sheet.Stop,
			Sentence: "The wires touch at {figure}, and the flanks end at {limit}: larger wires would ride on the crests.", Source: geometry})
		sc.Check(sheet.Check{Key: "above_root", Label: "wires clear the root", Figure: "contact", Limit: "root", Level: sheet.Stop,
			Sentence: "The wires touch at {figure}, and the flanks begin at {limit}.", Source: geometry})
		return nil
	},
}

// mostPasses bounds the table of passes, and with it the patience asked for.
const mostPasses = 200

var threadInfeed = Method{
	Key: "thread_infeed", Label: "Cutting a thread with a single point", Field: "Threads",
	Purpose: "How deep to go in all, along the top slide set over, and in how many passes of one chip.",
	Inputs: []Input{
		threadNamed("M10"),
		{Key: "part", Label: "what is cut", Word: true, Default: "screw", Options: []Option{{"screw", "a screw"}, {"nut", "a nut, from its bore"}}},
		{Key: "set_over", Label: "top slide set over by; nothing means half a degree under the flank, 0 means straight in", Symbol: "θ", Unit: unit.Degree, Optional: true},
		{Key: "first_cut", Label: "first cut, along the slide", Symbol: "a_1", Unit: unit.MM, Default: "0.2", Source: practice + ": 0.1 to 0.25 mm on a small lathe", Positive: true},
	},
	Cautions: []string{"Eye protection; no gloves, rings or loose sleeves. Turn the spindle slowly enough to disengage with time to spare, and try the run of the carriage to shoulder and chuck by hand first. Chips of a thread are long and sharp: a hook, never fingers."},
	Outputs:  []string{"depth_cut", "infeed", "passes", "side_step", "set_over_used"},
	Define: func(sc *sheet.Scope, words Words) error {
		t, err := threadOf(words)
		if err != nil {
			return err
		}
		t.Lay(sc)
		half := unit.Degree.Inside(t.Series.Form.Angle / 2)
		l, given := sc.Leaf("set_over")
		switch {
		case given && (l.Value < 0 || l.Value > half+1e-9):
			return plan.Problem{Field: "set_over", Say: fmt.Sprintf("give 0 to %s, half of the flank angle: past it the tool would cut the finished flank away", unit.Degree.With(half))}
		case given:
			sc.Formula(sheet.Q{Key: "set_over_used", Label: "set over", Symbol: "θ", Unit: unit.Degree, Decimals: 2}, "set_over", "as given")
		default:
			sc.Formula(sheet.Q{Key: "set_over_used", Label: "set over", Symbol: "θ", Unit: unit.Degree, Decimals: 2}, "max(0, flank - deg(0.5))", practice+": half a degree less than the flank, so that the tool wipes the other one")
		}
		if words["part"] == "nut" {
			sc.Formula(lengthQ("depth_cut", "depth on the radius", "h"), "(nut_major - bore) / 2", geometry)
		} else {
			sc.Formula(lengthQ("depth_cut", "depth on the radius", "h"), "depth", geometry)
		}
		sc.Method(lengthQ("infeed", "depth along the slide", "a"), thread.Infeed, sheet.With{"depth": "depth_cut", "set_over": "set_over_used"})
		sc.Formula(lengthQ("side_step", "that moves the tool sideways by", ""), "depth_cut * tan(set_over_used)", geometry)
		sc.Method(sheet.Q{Key: "passes", Label: "passes, and one or two more without infeed", Symbol: "n", Unit: unit.Count}, thread.Passes)
		sc.Measure(sheet.Q{Key: "pass", Label: "pass", Symbol: "k", Unit: unit.Count, Quiet: true}, sheet.Leaf{Value: 1, Origin: sheet.Assumed, Note: "each in turn"})
		sc.Method(sheet.Q{Key: "pass_depth", Label: "end of the pass", Unit: unit.MM, Decimals: 3, Quiet: true}, thread.PassDepth)
		return nil
	},
	Table: func(_ Words, r *sheet.Result) Table {
		n := int(min(mostPasses, r.Value("passes", sheet.Planned)))
		t := Table{Caption: "slide readings, from touching", Header: []string{"pass", "to mm", "by mm", "to in"}, Source: thread.PassDepth.Source}
		values := make([]float64, n)
		for i := range values {
			values[i] = float64(i + 1)
		}
		before := 0.0
		tried(r, "pass", values, func(i int) {
			to := r.Value("pass_depth", sheet.Planned)
			t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), unit.MM.Fixed(to, 3), unit.MM.Fixed(to-before, 3), unit.Inch.Fixed(to, 4)})
			before = to
		})
		return t
	},
}

var flankAngles = []Option{{"unknown", "not looked at"}, {"60", "60°: ISO, Unified"}, {"55", "55°: Whitworth, BSF, pipe, Model Engineer"}, {"47.5", "47½°: BA"}, {"30", "30°: trapezoidal"}, {"29", "29°: Acme"}}

var whichThread = Method{
	Key: "which_thread", Label: "Which thread is this?", Field: "Threads",
	Purpose: "The threads that a measured diameter and pitch fit, the nearest first, and their near twins.",
	Example: map[string]string{"dia": "5.96", "pitch": "1"},
	Inputs: []Input{
		{Key: "dia", Label: "outside of the screw, or bore of the nut", Symbol: "d", Unit: unit.MM, Positive: true},
		{Key: "pitch", Label: "pitch", Symbol: "P", Unit: unit.MM, Optional: true, Positive: true},
		{Key: "tpi", Label: "or threads to the inch", Symbol: "n", Unit: unit.One, Optional: true, Positive: true},
		{Key: "part", Label: "what was measured", Word: true, Default: "screw", Options: []Option{{"screw", "a screw"}, {"nut", "a nut"}}},
		{Key: "angle", Label: "angle of the flanks", Word: true, Default: "unknown", Options: flankAngles},
	},
	Outputs: []string{"dia_inch", "pitch_mm", "per_inch", "ten_turns"},
	Define: func(sc *sheet.Scope, _ Words) error {
		const inch = "definition: 25.4 mm to the inch"
		sc.Formula(sheet.Q{Key: "dia_inch", Label: "diameter in inches", Unit: unit.Inch, Decimals: 4}, "dia", inch)
		text := "pitch"
		switch {
		case sc.Has("pitch") && sc.Has("tpi"):
			return plan.Problem{Field: "tpi", Say: "give the pitch or the threads to the inch, not both"}
		case sc.Has("tpi"):
			text = "mm(25.4) / tpi"
		case !sc.Has("pitch"):
			return nil
		}
		sc.Formula(lengthQ("pitch_mm", "pitch", "P"), text, inch)
		sc.Formula(sheet.Q{Key: "per_inch", Label: "threads to the inch", Symbol: "n", Unit: unit.One, Decimals: 3}, "mm(25.4) / pitch_mm", inch)
		sc.Formula(lengthQ("ten_turns", "ten turns, to measure with a rule", ""), "10 * pitch_mm", geometry)
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		m := thread.Measured{Dia: r.Value("dia", sheet.Planned), Nut: words["part"] == "nut"}
		if p := r.Value("pitch_mm", sheet.Planned); p > 0 {
			m.Pitch = p
		}
		if v, err := unit.Parse(words["angle"], unit.One); err == nil {
			m.Angle = v
		}
		t := Table{
			Caption: "threads that it may be", Header: []string{"thread", "series", "flanks", "diameter mm", "off by mm", "pitch mm", "to the inch", "ten turns mm", ""},
			Source: "tables of threads by " + thread.AllSeries[0].Source + " and the others' standards; a screw up to 0.15 of the pitch under size, pitch within 1 % (" + practice + ")",
		}
		found := thread.Identify(m)
		for _, c := range found[:min(24, len(found))] {
			dia := c.Thread.Dia
			if m.Nut {
				dia = c.Basic.Bore
			}
			verdict := "fits"
			switch {
			case c.Twin && math.Abs(c.PitchOff) > 0.01:
				verdict = "near twin: pitch " + unit.Percent.Text(math.Abs(c.PitchOff), 1) + " % off"
			case c.Twin:
				verdict = "near twin"
			}
			flanks := unit.One.Text(c.Thread.Series.Form.Angle, 1) + "°"
			t.Rows = append(t.Rows, []string{c.Thread.String(), c.Thread.Series.Label, flanks, unit.MM.Fixed(dia, 3), unit.MM.Fixed(c.DiaOff, 3),
				unit.MM.Fixed(c.Thread.Pitch, 3), unit.One.Text(25.4/c.Thread.Pitch, 2), unit.MM.Fixed(10*c.Thread.Pitch, 2), verdict})
		}
		return t
	},
}

var threadGears = Method{
	Key: "thread_gears", Label: "Change wheels for a thread", Field: "Threads",
	Purpose: "The wheels between spindle and lead screw that cut a thread, and how far off its pitch is where none cuts it exactly.",
	Inputs: []Input{
		threadNamed("M10"),
		{Key: "screw_lead", Label: "lead of the lead screw", Symbol: "l_s", Unit: unit.MM, Default: "1/8 in", Source: "assumed: 8 threads to the inch, as on many small lathes; common practice, no source", Positive: true},
		{Key: "largest", Label: "largest wheel, in teeth", Unit: unit.Count, Default: "127", Source: "assumed: 127 teeth turn inches into millimetres exactly", Whole: true, Positive: true},
	},
	Cautions: []string{"Isolate the machine before the cover of the wheels is opened, turn it by hand once around, and close the cover before it is switched on."},
	Outputs:  []string{"gear_ratio", "lead"},
	Define: func(sc *sheet.Scope, words Words) error {
		t, err := threadOf(words)
		if err != nil {
			return err
		}
		if l, _ := sc.Leaf("largest"); l.Value > 1000 {
			return plan.Problem{Field: "largest", Say: "give at most 1000 teeth"}
		}
		t.Lay(sc)
		sc.Formula(sheet.Q{Key: "gear_ratio", Label: "turns of the lead screw to one of the spindle", Unit: unit.One, Decimals: 5}, "lead / screw_lead", "definition: lead wanted / lead of the screw")
		return nil
	},
	Table: func(_ Words, r *sheet.Result) Table {
		t := Table{Caption: "ratios in lowest terms, driver on the spindle's side", Header: []string{"driver", "driven", "pitch is off by", "over 25 mm"}, Source: "arithmetic: the nearest fractions with no number above the largest wheel"}
		v := func(key string) float64 { return r.Value(key, sheet.Planned) }
		for _, g := range thread.Gears(v("lead"), v("screw_lead"), int(v("largest")), 8) {
			off, over := "exact", "0"
			if g.PPM != 0 {
				off = fmt.Sprintf("%s ppm", unit.One.Text(g.PPM, 0))
				over = unit.Micrometre.Text(25*g.PPM*1e-6, 2) + " µm"
			}
			t.Rows = append(t.Rows, []string{fmt.Sprint(g.Driver), fmt.Sprint(g.Driven), off, over})
		}
		return t
	},
}
