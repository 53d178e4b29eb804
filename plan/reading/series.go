package reading

import (
	"fmt"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Formulas of a series of readings; readings and squares are families.
var (
	// Mean is the arithmetic mean.
	Mean = sheet.Method{Text: "sum(readings) / count(readings)", Source: "JCGM 100:2008, 4.2.1"}

	// Square is how far a reading is from the mean, squared.
	Square = sheet.Method{Text: "pow(reading - mean, 2)", Source: "JCGM 100:2008, 4.2.2"}

	// Deviation is the sample standard deviation.
	Deviation = sheet.Method{Text: "when(sum(squares) > 0, sqrt(sum(squares) / (count(squares) - 1)), 0)", Source: "JCGM 100:2008, 4.2.2: over n − 1"}

	// Scatter is that, but never less than what the steps of the reading hide.
	Scatter = sheet.Method{Text: "max(deviation, resolution / sqrt(12))", Source: "JCGM 100:2008, 4.2.2 and F.2.2.1: readings that agree are known no better than their resolution"}
)

// fine is micrometres to a hundredth.
var fine = unit.Unit{Symbol: unit.Micrometre.Symbol, Dim: unit.LengthD, Scale: unit.Micrometre.Scale, Decimals: 2}

// squared is what squares of small lengths are shown in.
var squared = unit.Unit{Symbol: "µm²", Dim: unit.MM2.Dim, Scale: 1e-6, Decimals: 3}

// Series lays readings in mm onto sc, shown in u: the leaves name_1 and so on,
// the family name, name_mean and name_deviation. Each reading carries the spread.
// One reading has no deviation.
func Series(sc *sheet.Scope, name, label string, u unit.Unit, readings []float64, spread sheet.Spread) {
	var squares []string
	for i, x := range readings {
		key := fmt.Sprintf("%s_%d", name, i+1)
		sc.Measure(sheet.Q{Key: key, Label: fmt.Sprintf("%s, reading %d", label, i+1), Symbol: fmt.Sprintf("x_%d", i+1), Unit: u, Quiet: true},
			sheet.Leaf{Value: x, Origin: sheet.Measured, Spread: spread, Note: "as read"})
		sc.Family(name, label, u, key)
	}
	sc.Method(sheet.Q{Key: name + "_mean", Label: label + ", mean", Symbol: "x̄_" + name, Unit: u, Quiet: true}, Mean, sheet.With{"readings": name})
	if len(readings) < 2 {
		return
	}
	for i := range readings {
		key := fmt.Sprintf("%s_square_%d", name, i+1)
		sc.Method(sheet.Q{Key: key, Label: fmt.Sprintf("%s, square %d", label, i+1), Symbol: fmt.Sprintf("(x_%d − x̄)²", i+1), Unit: squared, Quiet: true}, Square,
			sheet.With{"reading": fmt.Sprintf("%s_%d", name, i+1), "mean": name + "_mean"})
		squares = append(squares, key)
	}
	sc.Family(name+"_squares", label+", squares", squared, squares...)
	sc.Method(sheet.Q{Key: name + "_deviation", Label: label + ", standard deviation", Symbol: "s_" + name, Unit: fine, Quiet: true}, Deviation, sheet.With{"squares": name + "_squares"})
}
