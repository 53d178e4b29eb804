package dial

import (
	"math"
	"slices"
)

// Value is a figure that a line may stand for.
type Value struct {
	MM    float64
	Said  string // "0.02 mm", "0.001 in"
	Inch  bool
	Lines float64 // lines all round for a lead; see [Value.Whole]
}

// Whole tells whether the lines are a whole number.
func (v Value) Whole() bool {
	return v.Lines > 1.5 && math.Abs(v.Lines-math.Round(v.Lines)) < 1e-6*v.Lines
}

// Off is what a dial with the next whole number of lines shows too much, as a
// share; 0 where the number is whole. 83⅓ lines become 84: 0.8 % too much.
func (v Value) Off(lines int) float64 {
	if v.Whole() {
		return 0
	}
	return float64(lines)/v.Lines - 1
}

var round = []Value{
	{MM: 0.001, Said: "0.001 mm"}, {MM: 0.002, Said: "0.002 mm"}, {MM: 0.005, Said: "0.005 mm"}, {MM: 0.01, Said: "0.01 mm"},
	{MM: 0.0125, Said: "0.0125 mm"}, {MM: 0.02, Said: "0.02 mm"}, {MM: 0.025, Said: "0.025 mm"}, {MM: 0.04, Said: "0.04 mm"},
	{MM: 0.05, Said: "0.05 mm"}, {MM: 0.1, Said: "0.1 mm"},
	{MM: 0.0001 * inch, Said: "0.0001 in", Inch: true}, {MM: 0.0002 * inch, Said: "0.0002 in", Inch: true},
	{MM: 0.0005 * inch, Said: "0.0005 in", Inch: true}, {MM: 0.001 * inch, Said: "0.001 in", Inch: true},
	{MM: 0.002 * inch, Said: "0.002 in", Inch: true}, {MM: 0.0025 * inch, Said: "0.0025 in", Inch: true},
	{MM: 0.005 * inch, Said: "0.005 in", Inch: true},
}

const inch = 25.4

// least and most lines that a dial is divided into.
const (
	leastLines = 20
	mostLines  = 400
)

// Counts lists, for a lead in mm, the round values a line can stand for and the
// lines that each asks for, metric ones first; those that ask for fewer than 20
// or more than 400 are left out. A value whose lines are no whole number cannot
// be had with this screw, and is listed to say so.
func Counts(lead float64) []Value {
	var all []Value
	for _, v := range round {
		v.Lines = lead / v.MM
		if v.Lines >= leastLines && v.Lines <= mostLines {
			all = append(all, v)
		}
	}
	slices.SortStableFunc(all, func(a, b Value) int {
		switch {
		case a.Inch != b.Inch && b.Inch:
			return -1
		case a.Inch != b.Inch:
			return 1
		case a.MM < b.MM:
			return -1
		}
		return 1
	})
	return all
}
