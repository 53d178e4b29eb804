package bench

import (
	"errors"
	"fmt"
	"strings"

	"fettle/plan"
	"fettle/plan/reading"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// readingMethods are the calculations of plan/reading.
var readingMethods = []Method{positioning, straightness, squareness, readingUncertainty, combinedUncertainty, beforeAfter}

var (
	readingUnit = Input{Key: "unit", Label: "readings are in", Word: true, Default: "mm", Options: []Option{{"mm", "mm"}, {"um", "µm"}, {"in", "inches"}, {"thou", "thou"}}}
	stepOfDial  = Input{Key: "resolution", Label: "step of the reading", Symbol: "q", Unit: tenths, Default: "0.002", Source: "common practice: a dial of 0.01 mm, read to a fifth of a division", Positive: true}
	coverLevel  = Input{Key: "level", Label: "coverage", Symbol: "p", Unit: unit.Percent, Default: "95", Source: "as usual"}
	limitInput  = Input{Key: "limit", Label: "limit to hold", Symbol: "L_max", Unit: tenths, Optional: true, Positive: true}
)

// readingUnits are the units of the words of readingUnit.
var readingUnits = map[string]unit.Unit{"mm": unit.MM, "um": unit.Micrometre, "in": unit.Inch, "thou": unit.Thou}

// microns shows a small length.
func microns(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.Micrometre, Decimals: 2}
}

// squareMicrons is what squares of small lengths are shown in.
var squareMicrons = unit.Unit{Symbol: "µm²", Dim: unit.MM2.Dim, Scale: 1e-6, Decimals: 3}

// fourthMicrons is what their fourth powers are shown in.
var fourthMicrons = unit.Unit{Symbol: "µm⁴", Dim: unit.MM4.Dim, Scale: 1e-12, Decimals: 3}

// tenths is a length shown to a tenth of a micrometre.
var tenths = unit.Unit{Symbol: unit.MM.Symbol, Dim: unit.LengthD, Scale: 1, Decimals: 4}

// at puts a problem at a field.
func at(field string, err error) error {
	var p plan.Problem
	if errors.As(err, &p) && p.Field == "" {
		p.Field = field
		return p
	}
	return err
}

// rowOf reads an input that is one row of numbers.
func rowOf(words Words, field string, least int) ([]float64, error) {
	row, err := reading.Row(words[field], readingUnits[words["unit"]], least)
	return row, at(field, err)
}

// rowsOf reads an input that is rows of numbers; nothing typed is no rows.
func rowsOf(words Words, field string) ([][]float64, error) {
	if words[field] == "" {
		return nil, nil
	}
	rows, err := reading.Rows(words[field], readingUnits[words["unit"]])
	return rows, at(field, err)
}

// coverage refuses a level that is none.
func coverage(sc *sheet.Scope) error {
	if p := typedValue(sc, "level"); p < 0.5 || p > 0.999 {
		return refuse("level", "give a coverage from 50 to 99.9 %%")
	}
	sc.Sheet().Register(reading.CoverageFunc())
	return nil
}

// checkLimit compares a figure with a limit where one was typed.
func checkLimit(sc *sheet.Scope, figure, label string) {
	if sc.Has("limit") {
		sc.Check(sheet.Check{Key: "within", Label: label, Figure: figure, Limit: "limit", AtMost: true, Level: sheet.Rule,
			Sentence: label + " is {figure}, and {limit} is the limit.", Source: "as given"})
	}
}

var positioning = Method{
	Key: "positioning", Label: "Positioning of an axis (ISO 230-2)", Field: "Readings",
	Purpose: "Accuracy, repeatability, systematic deviation and reversal of an axis from readings at targets, approached from one side or from both.",
	Example: map[string]string{"unit": "um", "up": "1 0 2 1 0; -1 0 -1 -1 -1; -5 -6 -5 -5 -3; 3 3 2 2 3; 8 7 9 7 9", "down": "-8 -8 -9 -9 -8; -11 -10 -11 -9 -9; -16 -15 -12 -14 -14; -7 -6 -6 -6 -7; -3 0 -2 -3 -2"},
	Inputs: []Input{
		{Key: "up", Label: "deviations approached upwards: runs apart by spaces, targets by semicolons", Word: true},
		{Key: "down", Label: "deviations approached downwards, in the same order of targets", Word: true, Optional: true},
		readingUnit, stepOfDial,
	},
	Outputs: []string{
		"accuracy", "accuracy_up", "accuracy_down", "repeatability", "repeatability_up", "repeatability_down",
		"systematic", "systematic_up", "systematic_down", "mean_systematic", "reversal", "reversal_mean",
	},
	Define: func(sc *sheet.Scope, words Words) error {
		p, err := positions(words)
		if err != nil {
			return err
		}
		p.Resolution = typedValue(sc, "resolution")
		p.Lay(sc)
		for _, n := range []struct {
			key, label string
			is, least  int
		}{{"targets", "targets", len(p.Up), reading.TargetsLeast}, {"runs", "runs to each", len(p.Up[0]), reading.RunsLeast}} {
			q := sheet.Q{Key: n.key, Label: n.label, Unit: unit.Count, Whole: true, Quiet: true}
			sc.Measure(q, sheet.Leaf{Value: float64(n.is), Origin: sheet.Measured, Note: "as given"})
			enough(sc, sheet.Check{Key: "enough_" + n.key, Label: "Enough " + n.label, Figure: n.key, Level: sheet.Rule,
				Sentence: "{figure} " + n.label + ", and {limit} are asked for.", Source: "ISO 230-2:2014, for axes up to 2 m; from memory, unchecked"}, float64(n.least))
		}
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		t := Table{Caption: "Each target, µm", Header: []string{"target", "mean ↑", "s ↑", "mean ↓", "s ↓", "reversal", "repeatability"}, Source: "ISO 230-2:2014, from memory"}
		for i := 1; ; i++ {
			key := fmt.Sprintf("target_%d.", i)
			if _, ok := r.Figure(key+"up_mean", sheet.Planned); !ok {
				return t
			}
			row := []string{fmt.Sprint(i)}
			for _, k := range []string{"up_mean", "up_deviation", "down_mean", "down_deviation", "reversal", "repeat"} {
				row = append(row, cell(r, key+k, 2))
			}
			t.Rows = append(t.Rows, row)
		}
	},
}

func positions(words Words) (p reading.Positioning, err error) {
	if p.Up, err = rowsOf(words, "up"); err != nil {
		return p, err
	}
	if p.Down, err = rowsOf(words, "down"); err != nil {
		return p, err
	}
	if len(p.Up) == 0 {
		return p, refuse("up", "give the deviations from each target, such as 1 0 2; -1 0 -1: runs apart by spaces, targets by semicolons")
	}
	return p, p.Problem()
}

// along is where readings were taken.
var along = Input{Key: "along", Label: "length over which they were taken, evenly; or the position of each", Word: true}

// lineOf reads a line of readings; their positions are in mm unless they say
// otherwise.
func lineOf(sc *sheet.Scope, words Words, field string, least int) (l reading.Line, err error) {
	if l.Heights, err = rowOf(words, field, least); err != nil {
		return l, err
	}
	l.Resolution = typedValue(sc, "resolution")
	n := len(l.Heights)
	typed := words["along"]
	if typed == "" {
		return l, refuse("along", "give the length over which the readings were taken, such as 200")
	}
	x, err := reading.Row(typed, unit.MM, 1)
	switch {
	case err != nil:
		return l, at("along", err)
	case len(x) == 1 && x[0] <= 0:
		return l, refuse("along", "give a length above 0")
	case len(x) == 1:
		l.Positions = reading.Even(n, x[0]/float64(n-1))
		return l, nil
	case len(x) != n:
		return l, refuse("along", "there are %d positions and %d readings: give as many, or only the whole length", len(x), n)
	}
	for i := range n - 1 {
		// Positions closer than a micrometre are one, and no slope can be told.
		if x[i+1]-x[i] < 0.001 {
			return l, refuse("along", "give the positions in rising order")
		}
	}
	l.Positions = x
	return l, nil
}

var straightness = Method{
	Key: "straightness", Label: "Straightness from indicator readings", Field: "Readings",
	Purpose: "How straight a slide runs, or a surface is, from readings along it: against the line through the ends, the line of least squares, and the narrowest strip.",
	Example: map[string]string{"unit": "um", "readings": "0 4 9 9 6 2"},
	Inputs: []Input{
		{Key: "readings", Label: "readings, apart by spaces", Word: true},
		withDefault(along, "100"), readingUnit, stepOfDial, limitInput,
	},
	Outputs: []string{"end_point", "least_squares", "minimum_zone", "slope"},
	Define: func(sc *sheet.Scope, words Words) error {
		l, err := lineOf(sc, words, "readings", 3)
		if err != nil {
			return err
		}
		l.LayStraightness(sc)
		checkLimit(sc, "least_squares", "Straightness")
		return nil
	},
	Table: func(words Words, r *sheet.Result) Table {
		t := Table{Caption: "Each point", Header: []string{"position mm", "reading µm", "from the ends µm", "from least squares µm"}, Source: "ISO 230-1"}
		for i := 1; ; i++ {
			key := func(what string) string { return fmt.Sprintf("%s_%d", what, i) }
			if _, ok := r.Figure(key("height"), sheet.Planned); !ok {
				return t
			}
			t.Rows = append(t.Rows, []string{cell(r, key("position"), 2), cell(r, key("height"), 1), cell(r, key("from_ends"), 2), cell(r, key("from_squares"), 2)})
		}
	},
}

// withDefault is an input with a default.
func withDefault(in Input, value string) Input {
	in.Default = value
	return in
}

var squareness = Method{
	Key: "squareness", Label: "Squareness from indicator readings", Field: "Readings",
	Purpose: "How square a slide runs to a face, from readings along a square's blade; turned over and read again, the square's own error drops out.",
	Example: map[string]string{"readings": "0 0.004 0.011", "turned": "0 -0.002 -0.003", "along": "100"},
	Inputs: []Input{
		{Key: "readings", Label: "readings along the blade, apart by spaces", Word: true},
		{Key: "turned", Label: "readings with the square turned over, from the same end, plus where the plunger is pressed in", Word: true, Optional: true},
		along, readingUnit, stepOfDial,
		{Key: "over", Label: "tell it over", Symbol: "L", Unit: unit.MM, Default: "300", Source: "as usual in tables of limits", Positive: true},
		limitInput,
	},
	Outputs: []string{"out_of_square", "slope", "square_itself"},
	Define: func(sc *sheet.Scope, words Words) error {
		l, err := lineOf(sc, words, "readings", 2)
		if err != nil {
			return err
		}
		l.Name = "1"
		l.Lay(sc.In("first"))
		q := sheet.Q{Key: "slope", Label: "out of square", Symbol: "α", Unit: milliradian}
		if words["turned"] == "" {
			sc.Formula(q, "first_slope", "the blade is taken as square; turn it over to be sure", sheet.With{"first_slope": "first.slope"})
		} else {
			turned, err := lineOf(sc, words, "turned", 2)
			if err != nil {
				return err
			}
			turned.Name = "2"
			turned.Lay(sc.In("second"))
			with := sheet.With{"first_slope": "first.slope", "second_slope": "second.slope"}
			const reversal = "reversal: turned over, the machine's error changes its sign and the square's does not"
			sc.Formula(q, "(first_slope - second_slope) / 2", reversal, with)
			sc.Formula(sheet.Q{Key: "square_itself", Label: "the square itself is out by", Unit: milliradian}, "(first_slope + second_slope) / 2", reversal, with)
		}
		sc.Formula(microns("out_of_square", "out of square, over that length", "Δ"), "abs(slope) * over", "ISO 230-1: slope times length")
		checkLimit(sc, "out_of_square", "Squareness")
		return nil
	},
}

var readingUncertainty = Method{
	Key: "uncertainty", Label: "Uncertainty of a reading", Field: "Readings",
	Purpose: "What a measurement is known to, from repeated readings and what is known of the instrument (JCGM 100).",
	Example: map[string]string{"readings": "25.003 25.004 25.002", "within": "0.004", "certificate": "0.002"},
	Inputs: []Input{
		{Key: "readings", Label: "readings, apart by spaces", Word: true},
		readingUnit, stepOfDial,
		{Key: "within", Label: "instrument is right within", Symbol: "a", Unit: tenths, Optional: true, Positive: true},
		{Key: "certificate", Label: "expanded uncertainty of its certificate", Symbol: "U_c", Unit: tenths, Optional: true, Positive: true},
		{Key: "certificate_factor", Label: "with the factor", Symbol: "k_c", Unit: unit.One, Default: "2", Source: "as usual on certificates", Positive: true},
		coverLevel,
	},
	Outputs: []string{"mean", "deviation", "type_a", "type_b_resolution", "type_b_limit", "type_b_certificate", "combined", "degrees", "factor", "expanded"},
	Define: func(sc *sheet.Scope, words Words) error {
		if err := coverage(sc); err != nil {
			return err
		}
		row, err := rowOf(words, "readings", 1)
		if err != nil {
			return err
		}
		reading.Series(sc, "readings", "readings", tenths, row, sheet.Spread{})
		sc.Formula(sheet.Q{Key: "mean", Label: "mean", Symbol: "x̄", Unit: tenths}, "readings_mean", reading.Mean.Source)
		var parts []string
		part := func(key, label, symbol string, m sheet.Method, with sheet.With) {
			sc.Method(microns(key, label, symbol), m, with)
			sc.Formula(sheet.Q{Key: key + "_square", Label: label + ", squared", Symbol: symbol + "²", Unit: squareMicrons, Quiet: true}, "pow(part, 2)", reading.Combined.Source, sheet.With{"part": key})
			parts = append(parts, key+"_square")
		}
		if len(row) > 1 {
			sc.Measure(sheet.Q{Key: "number", Label: "readings", Symbol: "n", Unit: unit.Count, Whole: true, Quiet: true}, sheet.Leaf{Value: float64(len(row)), Origin: sheet.Measured, Note: "as given"})
			sc.Formula(microns("deviation", "standard deviation of the readings", "s"), "readings_deviation", reading.Deviation.Source)
			part("type_a", "u of the mean, by repeating", "u_A", reading.TypeA, sheet.With{})
		}
		part("type_b_resolution", "u of the step of the reading", "u_q", reading.TypeBResolution, sheet.With{})
		if sc.Has("within") {
			part("type_b_limit", "u of the instrument's limit", "u_a", reading.TypeBLimit, sheet.With{"limit": "within"})
		}
		if sc.Has("certificate") {
			part("type_b_certificate", "u of the certificate", "u_U", reading.TypeBCertificate, sheet.With{"expanded": "certificate", "factor": "certificate_factor"})
		}
		sc.Family("parts", "parts", squareMicrons, parts...)
		sc.Method(microns("combined", "combined standard uncertainty", "u_c"), reading.Combined, sheet.With{"squares": "parts"})
		degrees := sheet.Q{Key: "degrees", Label: "effective degrees of freedom", Symbol: "ν", Unit: unit.One, Decimals: 1}
		if len(row) > 1 {
			sc.Method(degrees, reading.Degrees)
		} else {
			assumedIn(sc, degrees, reading.ManyDegrees, "one reading: what is known of the instrument is taken as well known")
		}
		expand(sc)
		return nil
	},
}

// expand lays the coverage factor and the expanded uncertainty.
func expand(sc *sheet.Scope) {
	sc.Method(sheet.Q{Key: "factor", Label: "coverage factor", Symbol: "k", Unit: unit.One, Decimals: 3}, reading.Factor)
	sc.Method(microns("expanded", "expanded uncertainty, ±", "U"), reading.Expanded)
}

var combinedUncertainty = Method{
	Key: "combine", Label: "Uncertainties put together", Field: "Readings",
	Purpose: "The combined and the expanded uncertainty of independent parts, each with its degrees of freedom (JCGM 100).",
	Example: map[string]string{"parts": "0.004:4 0.0006"},
	Inputs: []Input{
		{Key: "parts", Label: "standard uncertainties apart by spaces, each with its degrees of freedom after a colon where they are few, as 0.004:4 0.0006", Word: true},
		readingUnit, coverLevel,
	},
	Outputs: []string{"combined", "degrees", "factor", "expanded"},
	Define: func(sc *sheet.Scope, words Words) error {
		if err := coverage(sc); err != nil {
			return err
		}
		values, degrees, err := parts(words)
		if err != nil {
			return err
		}
		for i := range values {
			key := func(what string) string { return fmt.Sprintf("%s_%d", what, i+1) }
			label := func(what string) string { return fmt.Sprintf("%s %d", what, i+1) }
			sc.Measure(microns(key("part"), label("part"), key("u")), sheet.Leaf{Value: values[i], Origin: sheet.Chosen, Note: "as given"})
			sc.Measure(sheet.Q{Key: key("part_degrees"), Label: label("degrees of freedom of part"), Symbol: key("ν"), Unit: unit.One, Quiet: true}, sheet.Leaf{Value: degrees[i], Origin: sheet.Chosen, Note: "as given"})
			with := sheet.With{"part": key("part"), "degrees": key("part_degrees")}
			sc.Formula(sheet.Q{Key: key("square"), Label: label("square of part"), Symbol: key("u²"), Unit: squareMicrons, Quiet: true}, "pow(part, 2)", reading.Combined.Source, with)
			sc.Method(sheet.Q{Key: key("degrees_share"), Label: label("share of part"), Symbol: key("u⁴/ν"), Unit: fourthMicrons, Quiet: true}, reading.DegreesShare, with)
			sc.Family("squares", "squares of the parts", squareMicrons, key("square"))
			sc.Family("shares", "shares of the parts", fourthMicrons, key("degrees_share"))
		}
		sc.Method(microns("combined", "combined standard uncertainty", "u_c"), reading.Combined)
		sc.Method(sheet.Q{Key: "degrees", Label: "effective degrees of freedom", Symbol: "ν", Unit: unit.One, Decimals: 1}, reading.DegreesOf)
		expand(sc)
		return nil
	},
}

// parts reads uncertainties with their degrees of freedom.
func parts(words Words) (values, degrees []float64, err error) {
	u := readingUnits[words["unit"]]
	fields := strings.Fields(words["parts"])
	if len(fields) == 0 || len(fields) > reading.MostInRow {
		return nil, nil, refuse("parts", "give up to %d standard uncertainties apart by spaces, such as 0.004:4 0.0006", reading.MostInRow)
	}
	for _, f := range fields {
		size, few, has := strings.Cut(f, ":")
		x, err := unit.Parse(size, u)
		if err != nil || x < 1e-9 {
			return nil, nil, refuse("parts", "%q cannot be read; give a standard uncertainty above 0, such as 0.004, with its degrees of freedom after a colon where they are few", f)
		}
		n := float64(reading.ManyDegrees)
		if has {
			if n, err = unit.Parse(few, unit.One); err != nil || n < 1 || n > reading.ManyDegrees {
				return nil, nil, refuse("parts", "%q cannot be read; degrees of freedom are 1 or more", f)
			}
		}
		values, degrees = append(values, x), append(degrees, n)
	}
	return values, degrees, nil
}

var beforeAfter = Method{
	Key: "before_after", Label: "Before against after", Field: "Readings",
	Purpose: "Whether the difference between readings before and after a change is real, or no more than they scatter anyway.",
	Example: map[string]string{"before": "0.12 0.13 0.11 0.12", "after": "0.04 0.05 0.04"},
	Inputs: []Input{
		{Key: "before", Label: "readings before, apart by spaces", Word: true},
		{Key: "after", Label: "readings after", Word: true},
		readingUnit, stepOfDial, coverLevel,
	},
	Outputs: []string{"difference", "expanded", "before_mean", "after_mean", "before_scatter", "after_scatter", "difference_std", "degrees", "times", "factor", "chance"},
	Define: func(sc *sheet.Scope, words Words) error {
		if err := coverage(sc); err != nil {
			return err
		}
		sc.Sheet().Register(reading.ChanceFunc())
		for _, when := range []string{"before", "after"} {
			row, err := rowOf(words, when, 2)
			if err != nil {
				return err
			}
			reading.Series(sc, when, when, tenths, row, sheet.Spread{})
			sc.Measure(sheet.Q{Key: when + "_number", Label: "readings " + when, Symbol: "n_" + when, Unit: unit.Count, Whole: true, Quiet: true}, sheet.Leaf{Value: float64(len(row)), Origin: sheet.Measured, Note: "as given"})
			sc.Method(microns(when+"_scatter", "scatter "+when, "s_"+when), reading.Scatter, sheet.With{"deviation": when + "_deviation"})
		}
		sc.Method(microns("difference", "difference, after less before", "Δ"), reading.Difference)
		sc.Method(microns("difference_std", "standard uncertainty of the difference", "u"), reading.DifferenceStd)
		sc.Method(sheet.Q{Key: "degrees", Label: "degrees of freedom", Symbol: "ν", Unit: unit.One}, reading.DifferenceDegrees)
		sc.Method(sheet.Q{Key: "times", Label: "difference by its uncertainty", Symbol: "t", Unit: unit.One, Decimals: 3}, reading.DifferenceTimes)
		sc.Method(sheet.Q{Key: "factor", Label: "beyond which it is real", Symbol: "t_p", Unit: unit.One, Decimals: 3}, reading.Factor)
		sc.Method(microns("expanded", "difference is known within ±", "U"), reading.Expanded, sheet.With{"combined": "difference_std"})
		sc.Method(sheet.Q{Key: "chance", Label: "chance that chance alone gives so much", Unit: unit.Percent, Decimals: 3}, reading.DifferenceChance)
		sc.Check(sheet.Check{Key: "real", Label: "Difference is real", Figure: "times", Limit: "factor", Level: sheet.Note, Advice: true,
			Sentence: "The difference is {figure} times its standard uncertainty; beyond {limit} it is real, and within that it may be chance.", Source: reading.DifferenceTimes.Source})
		return nil
	},
}
