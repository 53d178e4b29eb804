package unit

import (
	"math"
	"strconv"
	"strings"
)

// Text writes v, an inside value, as a number of u with at most the given
// decimals and no trailing zeros: "36.5", "−12", "∞".
func (u Unit) Text(v float64, decimals int) string {
	s := u.Fixed(v, decimals)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "−0" || s == "−" {
		return "0"
	}
	return s
}

// Fixed is [Unit.Text] with exactly the given decimals, for columns.
func (u Unit) Fixed(v float64, decimals int) string {
	x := u.In(v)
	switch {
	case math.IsNaN(x):
		return "–"
	case math.IsInf(x, 1):
		return "∞"
	case math.IsInf(x, -1):
		return "−∞"
	}
	s := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	// A value that rounds to nothing has no sign.
	if x < 0 && strings.Trim(s, "0.") != "" {
		s = "−" + s
	}
	return s
}

// With writes v with its unit: "36.5 mm", "0.25", "12 %".
func (u Unit) With(v float64) string {
	s := u.Text(v, u.Decimals)
	switch u.Symbol {
	case "":
		return s
	case "°":
		return s + u.Symbol
	}
	return s + " " + u.Symbol
}

// Exact writes v so that [Parse] gives the very same value back: the shortest
// decimal of the inside value, with its inside unit for a length.
func (u Unit) Exact(v float64) string {
	s := strconv.FormatFloat(v, 'g', -1, 64)
	if u.Dim == LengthD {
		return s + " mm"
	}
	return strconv.FormatFloat(u.In(v), 'g', -1, 64)
}
