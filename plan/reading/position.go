package reading

import (
	"fmt"

	"fettle/plan"
	"fettle/plan/sheet"
)

const iso230 = "ISO 230-2:2014, from memory, checked by an independent computation"

// Formulas of one target position of ISO 230-2; up and down are the two
// directions of approach.
var (
	targetMean     = sheet.Method{Text: "(mean_up + mean_down) / 2", Source: iso230 + ": mean of both directions"}
	targetReversal = sheet.Method{Text: "mean_up - mean_down", Source: iso230 + ": B_i, with its sign"}
	targetOneWay   = sheet.Method{Text: "4 * deviation", Source: iso230 + ": R_i = 4 s_i of one direction"}
	targetBothWays = sheet.Method{Text: "max(2 * deviation_up + 2 * deviation_down + abs(reversal), repeat_up, repeat_down)", Source: iso230 + ": R_i, the largest of three"}
	targetHigh     = sheet.Method{Text: "mean + 2 * deviation", Source: iso230 + ": mean and 2 s"}
	targetLow      = sheet.Method{Text: "mean - 2 * deviation", Source: iso230 + ": mean and 2 s"}
)

// Positioning is a test of an axis by ISO 230-2: how far each reading was from
// its target, in mm. A row is a target, its numbers are the runs. Down may be
// empty; else it has as many rows and runs as Up.
type Positioning struct {
	Up, Down   [][]float64
	Resolution float64 // mm: the step of the reading
}

// Targets and runs that the standard asks for, up to 2 m.
const (
	TargetsLeast = 5
	RunsLeast    = 5
)

// Problem tells what is wrong with the rows: a [plan.Problem] of the field "up" or
// "down", or nil.
func (p Positioning) Problem() error {
	runs := len(p.Up[0])
	if runs < 2 {
		return plan.Problem{Field: "up", Say: "give at least two runs: numbers in a row are the runs to one target, semicolons part the targets"}
	}
	for i, row := range p.Up {
		if len(row) != runs {
			return plan.Problem{Field: "up", Say: fmt.Sprintf("target %d has %d readings, and target 1 has %d: give as many for each", i+1, len(row), runs)}
		}
	}
	if len(p.Down) == 0 {
		return nil
	}
	if len(p.Down) != len(p.Up) {
		return plan.Problem{Field: "down", Say: fmt.Sprintf("there are %d targets downwards and %d upwards: give the same", len(p.Down), len(p.Up))}
	}
	for i, row := range p.Down {
		if len(row) != runs {
			return plan.Problem{Field: "down", Say: fmt.Sprintf("target %d has %d readings, and there are %d upwards: give as many for each", i+1, len(row), runs)}
		}
	}
	return nil
}

// Lay puts the test and all of the standard's figures onto sc: accuracy (A),
// repeatability (R), systematic (E), each also with _up and _down for one
// direction of approach; mean_systematic (M), reversal (B), reversal_mean. Of each
// target, in the scope target_1 and so on, the means, deviations and reversal.
// Without Down there are only those of one direction.
func (p Positioning) Lay(sc *sheet.Scope) {
	for i := range p.Up {
		t := sc.In(fmt.Sprintf("target_%d", i+1))
		label := fmt.Sprintf("target %d", i+1)
		oneWay(t, "up", label+" upwards", p.Up[i], p.Resolution)
		if len(p.Down) > 0 {
			oneWay(t, "down", label+" downwards", p.Down[i], p.Resolution)
			bothWays(t, label)
		}
	}
	of := func(family, label string, keys ...string) {
		for i := range p.Up {
			for _, k := range keys {
				sc.Family(family, label, fine, fmt.Sprintf("target_%d.%s", i+1, k))
			}
		}
	}
	total := func(key, label, symbol, text, source string) {
		sc.Formula(sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: fine}, text, iso230+": "+source)
	}
	directions := []struct{ key, arrow, words string }{{"up", "↑", "approached upwards"}, {"down", "↓", "approached downwards"}}
	if len(p.Down) == 0 {
		directions = directions[:1]
	}
	for _, d := range directions {
		of("means_"+d.key, "means "+d.words, d.key+"_mean")
		of("repeats_"+d.key, "4 s "+d.words, "repeat_"+d.key)
		of("highs_"+d.key, "means and 2 s "+d.words, "high_"+d.key)
		of("lows_"+d.key, "means less 2 s "+d.words, "low_"+d.key)
		total("accuracy_"+d.key, "accuracy, "+d.words, "A"+d.arrow, "max(highs_"+d.key+") - min(lows_"+d.key+")", "A of one direction")
		total("repeatability_"+d.key, "repeatability, "+d.words, "R"+d.arrow, "max(repeats_"+d.key+")", "R of one direction")
		total("systematic_"+d.key, "systematic deviation, "+d.words, "E"+d.arrow, "max(means_"+d.key+") - min(means_"+d.key+")", "E of one direction")
	}
	if len(p.Down) == 0 {
		return
	}
	of("highs", "means and 2 s", "high_up", "high_down")
	of("lows", "means less 2 s", "low_up", "low_down")
	of("ends", "means of either direction", "up_mean", "down_mean")
	of("middles", "means of both directions", "mean")
	of("repeats", "repeatability of the targets", "repeat")
	of("reversals", "reversal", "reversal")
	of("reversal_sizes", "size of the reversal", "reversal_size")
	total("accuracy", "accuracy, both directions", "A", "max(highs) - min(lows)", "A")
	total("repeatability", "repeatability, both directions", "R", "max(repeats)", "R, the largest R_i")
	total("systematic", "systematic deviation, both directions", "E", "max(ends) - min(ends)", "E")
	total("mean_systematic", "range of the means of both directions", "M", "max(middles) - min(middles)", "M")
	total("reversal", "reversal, the largest", "B", "max(reversal_sizes)", "B = max |B_i|")
	total("reversal_mean", "reversal, mean", "B̄", "sum(reversals) / count(reversals)", "mean of B_i, with its sign")
}

func oneWay(t *sheet.Scope, way, label string, readings []float64, resolution float64) {
	Series(t, way, label, fine, readings, sheet.Within(resolution/2))
	with := sheet.With{"mean": way + "_mean", "deviation": way + "_deviation"}
	quiet := func(key, words, symbol string, m sheet.Method) {
		t.Method(sheet.Q{Key: key + "_" + way, Label: label + ", " + words, Symbol: symbol, Unit: fine, Quiet: true}, m, with)
	}
	quiet("repeat", "4 s", "4 s_"+way, targetOneWay)
	quiet("high", "mean and 2 s", "x̄_"+way+" + 2 s", targetHigh)
	quiet("low", "mean less 2 s", "x̄_"+way+" − 2 s", targetLow)
}

func bothWays(t *sheet.Scope, label string) {
	with := sheet.With{"mean_up": "up_mean", "mean_down": "down_mean", "deviation_up": "up_deviation", "deviation_down": "down_deviation"}
	quiet := func(key, words, symbol string, m sheet.Method) {
		t.Method(sheet.Q{Key: key, Label: label + ", " + words, Symbol: symbol, Unit: fine, Quiet: true}, m, with)
	}
	quiet("mean", "mean of both directions", "x̄_i", targetMean)
	quiet("reversal", "reversal", "B_i", targetReversal)
	quiet("repeat", "repeatability", "R_i", targetBothWays)
	t.Formula(sheet.Q{Key: "reversal_size", Label: label + ", size of the reversal", Symbol: "|B_i|", Unit: fine, Quiet: true}, "abs(reversal)", iso230)
}
