// Package table reads the tables that are embedded beside the code that looks
// things up in them: CSV whose first line names the columns.
//
//	//go:embed pins.csv
//	var pins string
//
//	for _, row := range table.Rows(pins) {
//		row["standard"], row.Number("dia") // "ISO 2338", 4
//	}
//
// They are a part of the program, and so is a fault in one: it panics, in any
// test of the room that the table belongs to.
package table

import (
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

// Row is a line of a table: its cells by the names of their columns.
type Row map[string]string

// Rows are the lines of a table below the names of its columns.
func Rows(text string) []Row {
	cells := Cells(text)
	all := make([]Row, 0, len(cells)-1)
	for _, line := range cells[1:] {
		row := make(Row, len(line))
		for i, name := range cells[0] {
			row[name] = line[i]
		}
		all = append(all, row)
	}
	return all
}

// Number is a figure of a line; an empty cell is 0.
func (r Row) Number(column string) float64 {
	cell, ok := r[column]
	switch {
	case !ok:
		panic(fmt.Sprintf("embedded table: no column %q", column))
	case cell == "":
		return 0
	}
	return Number(cell)
}

// Cells are all of a table, the names of its columns too.
func Cells(text string) [][]string {
	cells, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("embedded table: %v", err))
	}
	return cells
}

// Number is the figure in a cell.
func Number(cell string) float64 {
	x, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		panic(fmt.Sprintf("embedded table: %v", err))
	}
	return x
}
