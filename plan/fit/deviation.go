package fit

import (
	"fmt"
	"slices"
	"strings"

	"fettle/plan/table"
)

// Limits are the limit deviations of a class at a size, in µm from nominal.
// Upper is never below Lower.
type Limits struct{ Upper, Lower float64 }

// Width is the tolerance, in µm.
func (l Limits) Width() float64 { return l.Upper - l.Lower }

// fundamental is ISO 286-1:2010 tables 2 to 5 for shafts, in µm, a row a letter
// and a column a step; "" where there is none. Upper deviations from a to h,
// lower ones from j on. Holes follow from shafts by rule, but for J6, J7 and J8.
var deviationSteps, fundamental = readDeviations()

func readDeviations() (s steps, rows map[string][]string) {
	cells := table.Cells(deviationText)
	for _, cell := range cells[0][1:] {
		s = append(s, table.Number(cell))
	}
	rows = map[string][]string{}
	for _, row := range cells[1:] {
		rows[row[0]] = row[1:]
	}
	return s, rows
}

// Deviations returns the limit deviations of a class, such as "H7" or "g6", at a
// nominal size in mm, in µm: +21 and 0 for "H7" at 25.
//
// It returns [ErrRange] above 500 mm, and [ErrClass] for a class that does not
// exist, or not at this size.
//
// Source: ISO 286-1:2010 tables 1 to 5; ISO 286-2:2010 has the results.
func Deviations(class string, nominal float64) (Limits, error) {
	c, err := ParseClass(class)
	if err != nil {
		return Limits{}, err
	}
	return c.At(nominal)
}

// At is [Deviations] of a class that was read already.
func (c Class) At(nominal float64) (Limits, error) {
	width, err := Tolerance(c.Grade, nominal)
	if err != nil {
		return Limits{}, err
	}
	if err := c.exists(nominal); err != nil {
		return Limits{}, err
	}
	small := strings.ToLower(c.Letter)
	if small == "js" {
		return Limits{width / 2, -width / 2}, nil
	}
	d, err := c.deviation(nominal)
	if err != nil {
		return Limits{}, err
	}
	switch {
	case c.Hole() && small <= "h": // the lower deviation
		return Limits{d + width, d}, nil
	case c.Hole(), small <= "h": // the upper
		return Limits{d, d - width}, nil
	}
	return Limits{d + width, d}, nil
}

// grade counts the grades: 01 is −1, 0 is 0, 7 is 7.
func (c Class) grade() int { return slices.Index(Grades, c.Grade) - 1 }

// exists refuses what the tables leave out though the letter and the grade exist.
func (c Class) exists(nominal float64) error {
	g := c.grade()
	refuse := func(say string) error { return fmt.Errorf("%w: %s", ErrClass, say) }
	switch small := strings.ToLower(c.Letter); {
	case (small == "a" || small == "b") && nominal <= 1:
		return refuse(c.Letter + " is for sizes above 1 mm")
	case c.Letter == "j" && (g < 5 || g > 8):
		return refuse("j has the grades 5 to 8; js has them all")
	case c.Letter == "J" && (g < 6 || g > 8):
		return refuse("J has the grades 6 to 8; JS has them all")
	case c.Letter == "K" && g > 8 && nominal > 3:
		return refuse("K above grade 8 is for sizes up to 3 mm")
	case c.Letter == "N" && g > 8 && nominal <= 1:
		return refuse("N above grade 8 is for sizes above 1 mm")
	case c.Hole() && small > "js" && g < 3 && nominal > 3:
		return refuse("holes K to ZC have limits from grade 3 on")
	}
	return nil
}

// deviation is the fundamental deviation: the one that lies nearer to nominal.
func (c Class) deviation(nominal float64) (float64, error) {
	g := c.grade()
	small := strings.ToLower(c.Letter)
	row := small
	switch {
	case c.Letter == "J":
		return c.tabled(c.String(), nominal)
	case small == "j" && g <= 6:
		row = "j5" // j5 and j6 share one
	case small == "j":
		row = c.String()
	}
	d, err := c.tabled(row, nominal)
	if err != nil {
		return 0, err
	}
	if small == "k" && !c.Hole() && (g < 4 || g > 7) {
		return 0, nil
	}
	if !c.Hole() {
		return d, nil
	}
	switch {
	case small == "h":
		return 0, nil // and not −0
	case small < "h":
		return -d, nil
	case small == "k" && g > 8:
		return 0, nil // only up to 3 mm
	case small == "n" && g > 8 && nominal > 3:
		return 0, nil
	case c.String() == "M6" && nominal > 250 && nominal <= 315:
		return -9, nil // by the standard, where the rule gives −11
	case g > 8, small >= "p" && g > 7:
		return -d, nil
	}
	delta, err := c.delta(nominal)
	return -d + delta, err
}

// delta is what makes a fit the same on the hole basis and on the shaft basis:
// the grade less the next finer; nothing up to 3 mm.
func (c Class) delta(nominal float64) (float64, error) {
	if nominal <= 3 {
		return 0, nil
	}
	own, err := Tolerance(c.Grade, nominal)
	if err != nil {
		return 0, err
	}
	finer, err := Tolerance(Grades[slices.Index(Grades, c.Grade)-1], nominal)
	return own - finer, err
}

func (c Class) tabled(row string, nominal float64) (float64, error) {
	cells := fundamental[row]
	i := deviationSteps.of(nominal)
	if cells[i] != "" {
		return table.Number(cells[i]), nil
	}
	first, last := 0, len(cells)-1
	for cells[first] == "" {
		first++
	}
	for cells[last] == "" {
		last--
	}
	if i < first {
		return 0, fmt.Errorf("%w: %s begins above %g mm", ErrClass, c, deviationSteps[first-1])
	}
	return 0, fmt.Errorf("%w: %s is for sizes up to %g mm", ErrClass, c, deviationSteps[last])
}
