package reading

import (
	"fmt"
	"strings"

	"fettle/plan"
	"fettle/plan/unit"
)

// MostRows and MostInRow bound what [Rows] takes.
const (
	MostRows  = 40
	MostInRow = 40
)

// Rows reads rows of numbers: numbers apart by spaces, rows by semicolons or
// lines, as "0.01 0.02; 0.03 0.01". A number without a unit is in u; one with a
// unit is written together with it, as 15µm. Empty rows are left out.
//
// It returns inside values, or a [plan.Problem] with no field that says what is
// accepted.
func Rows(text string, u unit.Unit) ([][]float64, error) {
	var rows [][]float64
	for _, line := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		var row []float64
		for _, word := range strings.Fields(line) {
			word = strings.TrimSuffix(word, ",")
			x, err := unit.Parse(word, u)
			if err != nil {
				return nil, plan.Problem{Say: fmt.Sprintf("%q cannot be read; give numbers apart by spaces, such as 0.01 -0.02; a semicolon begins the next row", word)}
			}
			row = append(row, x)
		}
		if len(row) > MostInRow {
			return nil, plan.Problem{Say: fmt.Sprintf("give at most %d numbers in a row", MostInRow)}
		}
		if len(row) > 0 {
			rows = append(rows, row)
		}
	}
	switch {
	case len(rows) == 0:
		return nil, plan.Problem{Say: "give numbers apart by spaces, such as 0.01 -0.02"}
	case len(rows) > MostRows:
		return nil, plan.Problem{Say: fmt.Sprintf("give at most %d rows", MostRows)}
	}
	return rows, nil
}

// Row reads one row of at least so many numbers; see [Rows].
func Row(text string, u unit.Unit, least int) ([]float64, error) {
	rows, err := Rows(text, u)
	switch {
	case err != nil:
		return nil, err
	case len(rows) > 1:
		return nil, plan.Problem{Say: "give one row of numbers"}
	case len(rows[0]) < least:
		return nil, plan.Problem{Say: fmt.Sprintf("give at least %d numbers", least)}
	}
	return rows[0], nil
}
