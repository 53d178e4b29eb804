package chain

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/plan"
	"fettle/plan/unit"
)

// Shape is how the sizes of a part fall within its tolerance.
type Shape string

// The shapes.
const (
	Normal     Shape = "normal"     // middle most, three standard deviations to the limit
	Uniform    Shape = "uniform"    // anywhere alike
	Triangular Shape = "triangular" // middle most, falling evenly to the limits
	Large      Shape = "large"      // most at the upper limit: a shaft that is turned down until it goes
	Small      Shape = "small"      // most at the lower limit: a bore that is opened until it goes
)

// Shapes lists them, with words for people.
var Shapes = []struct {
	Shape Shape
	Label string
}{
	{Uniform, "anywhere in the tolerance alike"},
	{Normal, "middle most, three standard deviations to the limit"},
	{Triangular, "middle most, falling evenly to the limits"},
	{Large, "most at the upper limit, as a shaft turned down until it goes"},
	{Small, "most at the lower limit, as a bore opened until it goes"},
}

// Link is one part of a chain.
type Link struct {
	Name         string
	Size         float64 // mm
	Upper, Lower float64 // deviations from it, mm; Upper is not below Lower
	Factor       float64 // how much the closing size grows with it: 1 or −1 in a plain chain
	Shape        Shape
}

// MostLinks bounds a chain.
const MostLinks = 20

// Parse reads a chain: links apart by semicolons or lines. A link is its size and
// tolerance, as "52 ±0.03" or "52 +0.05 -0.01"; a minus before the size closes the
// gap; before it may stand a name with a colon, after it a factor, as x0.5, and a
// shape. A number without a unit is in u.
//
// It returns a [plan.Problem] with no field that says what is accepted.
func Parse(text string, u unit.Unit, usual Shape) ([]Link, error) {
	var links []Link
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		if strings.TrimSpace(part) == "" {
			continue
		}
		l, err := parseLink(part, u, usual)
		if err != nil {
			return nil, err
		}
		links = append(links, l)
		if len(links) > MostLinks {
			return nil, problem("give at most %d links", MostLinks)
		}
	}
	if len(links) < 2 {
		return nil, problem("give at least two links, such as 52 ±0.03; -14 ±0.02: a minus closes the gap")
	}
	if !slices.ContainsFunc(links, func(l Link) bool { return l.Half() >= 1e-9 }) {
		return nil, problem("give at least one link a tolerance, as 52 ±0.03")
	}
	return links, nil
}

func problem(format string, args ...any) error {
	return plan.Problem{Say: fmt.Sprintf(format, args...)}
}

func parseLink(text string, u unit.Unit, usual Shape) (Link, error) {
	l := Link{Factor: 1, Shape: usual}
	rest := text
	if name, after, ok := strings.Cut(text, ":"); ok {
		l.Name, rest = strings.TrimSpace(name), after
	}
	accepted := func(word string) error {
		return problem("%q in %q cannot be read; give a size and its tolerance, as 52 ±0.03 or 52 +0.05 -0.01, a minus where it closes the gap", word, strings.TrimSpace(text))
	}
	var numbers []float64
	plusMinus := false
	for _, word := range strings.Fields(rest) {
		word = strings.TrimSuffix(word, ",")
		if k := slices.IndexFunc(Shapes, func(s struct {
			Shape Shape
			Label string
		}) bool {
			return string(s.Shape) == word
		}); k >= 0 {
			l.Shape = Shapes[k].Shape
			continue
		}
		if factor, ok := strings.CutPrefix(strings.Replace(word, "×", "x", 1), "x"); ok {
			x, err := unit.Parse(factor, unit.One)
			if err != nil || math.Abs(x) < 1e-6 || math.Abs(x) > 1e6 {
				return l, accepted(word)
			}
			l.Factor *= x
			continue
		}
		bare, ok := strings.CutPrefix(strings.Replace(word, "+-", "±", 1), "±")
		x, err := unit.Parse(bare, u)
		if err != nil || len(numbers) == 3 || ok && (len(numbers) != 1 || x < 0) {
			return l, accepted(word)
		}
		plusMinus = plusMinus || ok
		numbers = append(numbers, x)
	}
	switch {
	case len(numbers) == 2 && (plusMinus || numbers[1] >= 0):
		l.Upper, l.Lower = numbers[1], -numbers[1]
	case len(numbers) == 3 && !plusMinus:
		l.Upper, l.Lower = max(numbers[1], numbers[2]), min(numbers[1], numbers[2])
	default:
		return l, accepted(strings.TrimSpace(rest))
	}
	l.Size = numbers[0]
	if l.Size < 0 {
		l.Size, l.Factor = -l.Size, -l.Factor
	}
	return l, nil
}

// Half is half the tolerance, mm.
func (l Link) Half() float64 { return (l.Upper - l.Lower) / 2 }

// Suited is the link that it does most for to be made to suit: that with the
// largest share of the worst. Better still is the one that is made last and comes
// down easily.
func Suited(links []Link) int {
	best := 0
	for i, l := range links {
		if math.Abs(l.Factor)*l.Half() > math.Abs(links[best].Factor)*links[best].Half() {
			best = i
		}
	}
	return best
}
