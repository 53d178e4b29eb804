package unit

import (
	"bytes"
	"math"
	"strconv"
)

// Text writes v, an inside value, as a number of u with at most the given
// decimals and no trailing zeros: "36.5", "−12", "∞". A small length in inches has more of
// them than it would have: end float of 0.01 mm is 0.0004 in, and not 0.
func (u Unit) Text(v float64, decimals int) string {
	var room [64]byte
	return string(u.text(room[:0], v, decimals))
}

// text adds what Text gives to b, which is empty.
func (u Unit) text(b []byte, v float64, decimals int) []byte {
	if u == Inch && decimals == u.Decimals {
		decimals = tenths(u.In(v), decimals)
	}
	b = u.fixed(b, v, decimals)
	if bytes.IndexByte(b, '.') < 0 {
		return b
	}
	for b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	return bytes.TrimSuffix(b, []byte("."))
}

// tenths is how many decimals show an inch value as small as x: of what is below 20
// thousandths the tenths of them, and below one tenth its tenths in turn.
func tenths(x float64, decimals int) int {
	switch x = math.Abs(x); {
	case x >= 0.02:
		return decimals
	case x >= 0.0001:
		return decimals + 1
	}
	return decimals + 2
}

// Fixed is [Unit.Text] with exactly the given decimals, for columns.
func (u Unit) Fixed(v float64, decimals int) string {
	var room [64]byte
	return string(u.fixed(room[:0], v, decimals))
}

func (u Unit) fixed(b []byte, v float64, decimals int) []byte {
	x := u.In(v)
	switch {
	case math.IsNaN(x):
		return append(b, "–"...)
	case math.IsInf(x, 1):
		return append(b, "∞"...)
	case math.IsInf(x, -1):
		return append(b, "−∞"...)
	}
	if !(x < 0) {
		return strconv.AppendFloat(b, math.Abs(x), 'f', decimals, 64) // −0 has no sign either
	}
	const minus = "−"
	b = strconv.AppendFloat(append(b, minus...), -x, 'f', decimals, 64)
	if bytes.IndexFunc(b[len(minus):], func(r rune) bool { return r != '0' && r != '.' }) < 0 {
		return b[len(minus):] // a value that rounds to nothing has no sign
	}
	return b
}

// With writes v with its unit: "36.5 mm", "0.25", "12 %".
func (u Unit) With(v float64) string {
	var room [64]byte
	b := u.text(room[:0], v, u.Decimals)
	switch u.Symbol {
	case "":
	case "°":
		b = append(b, u.Symbol...)
	default:
		b = append(append(b, ' '), u.Symbol...)
	}
	return string(b)
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
