package fit

import (
	_ "embed"
	"errors"
	"fmt"
	"slices"
	"strings"

	"fettle/plan/table"
)

// Largest is the largest nominal size of the tables, in mm.
const Largest = 500

// ErrRange is returned for a nominal size that the tables do not hold. It is a
// sentence for whoever typed it.
var ErrRange = errors.New("the tables are for sizes above 0 and up to 500 mm")

// Grades are the standard tolerance grades in order, as they are written after
// a letter: "01", "0", "1" … "18".
var Grades = strings.Split("01 0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18", " ")

//go:embed it.csv
var gradeText string

//go:embed deviations.csv
var deviationText string

// steps are size steps by their upper ends, in mm: over the one before, up to
// and including its own.
type steps []float64

func (s steps) of(nominal float64) int {
	return slices.IndexFunc(s, func(to float64) bool { return nominal <= to })
}

// widths is ISO 286-1:2010 table 1, in µm, a row for each step.
var gradeSteps, widths = readGrades()

func readGrades() (s steps, w [][]float64) {
	for _, row := range table.Cells(gradeText)[1:] {
		s = append(s, table.Number(row[1]))
		var line []float64
		for _, cell := range row[2:] {
			line = append(line, table.Number(cell))
		}
		w = append(w, line)
	}
	return s, w
}

// Tolerance is the width of a standard tolerance grade at a nominal size in mm,
// in µm: 21 for "7" at 25. Sizes at the end of a step belong to it.
//
// It returns [ErrRange], or [ErrClass] for a grade that does not exist, or not
// at this size (14 and coarser begin above 1 mm).
//
// Source: ISO 286-1:2010 table 1.
func Tolerance(grade string, nominal float64) (float64, error) {
	if !(nominal > 0 && nominal <= Largest) {
		return 0, ErrRange
	}
	i := slices.Index(Grades, grade)
	switch {
	case i < 0:
		return 0, fmt.Errorf("%w: grades go from 01 and 0 to 18, and %q is none", ErrClass, grade)
	case i >= slices.Index(Grades, "14") && nominal <= 1:
		return 0, fmt.Errorf("%w: grades 14 to 18 are for sizes above 1 mm", ErrClass)
	}
	return widths[gradeSteps.of(nominal)][i], nil
}
