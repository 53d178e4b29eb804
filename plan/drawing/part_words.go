package drawing

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"fettle/plan/part"
	"fettle/plan/unit"
)

// words writes sizes as they stand on a drawing, and keeps those that are to
// suit something, in the order in which they are written.
type words struct {
	units   unit.Unit
	general string
	suits   []part.Size
	fits    bool // a class of fit stands on the drawing
}

// The prefixes of sizes, ISO 129-1.
const (
	diaSign    = "⌀"
	radiusSign = "R"
)

// size writes a size with its limits: "⌀19 H7 (+0.021/0)", "36.5", "12 ±0.05",
// "10.5 to suit (1)". One that takes the general tolerance stands alone.
func (w *words) size(sign string, s part.Size) string {
	t := sign + w.nominal(s)
	if s.Suits != "" || s.Awaits != "" || s.Limits == toSuit {
		return t + " to suit (" + strconv.Itoa(w.suit(s)) + ")"
	}
	if l := w.limits(s); l != "" {
		t += " " + l
	}
	return t
}

const toSuit = "to suit"

func (w *words) nominal(s part.Size) string {
	if s.Angle {
		return unit.One.Text(s.Nominal, 2) + "°"
	}
	return w.units.Text(s.Nominal, w.decimals(s.Upper-s.Lower))
}

// length writes a length on a drawing, of no close limits.
func (w *words) length(mm float64) string { return w.units.Text(mm, w.decimals(0)) }

// decimals are those of a size that may vary by so much, in mm; by 0 where the
// general tolerance holds. A tenth of what it may vary by is not written.
func (w *words) decimals(varies float64) int {
	n, wide := 2, 0.1
	if w.units.Symbol == unit.Inch.Symbol {
		n, wide = 3, 0.2
	}
	if varies > 0 && varies < wide {
		n++
	}
	return n
}

// limits is what stands beside a nominal size; "" where the title block says it.
func (w *words) limits(s part.Size) string {
	switch {
	case strings.HasPrefix(s.Limits, "ISO 2768"):
		if strings.HasSuffix(s.Limits, "-"+w.general) {
			return ""
		}
	case class(s.Limits):
		w.fits = true
		return s.Limits + " (" + w.deviations(s) + ")"
	}
	if s.Upper == 0 && s.Lower == 0 {
		return ""
	}
	return w.deviations(s)
}

// class tells whether limits are a class of ISO 286: "H7", "js6".
func class(s string) bool {
	digits := strings.TrimLeft(s, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ")
	if n := len(s) - len(digits); n == 0 || n > 2 || digits == "" {
		return false
	}
	_, err := strconv.Atoi(digits)
	return err == nil
}

// deviations writes both: "+0.021/0", "±0.1".
func (w *words) deviations(s part.Size) string {
	if s.Upper > 0 && math.Abs(s.Upper+s.Lower) < 1e-9 {
		return "±" + w.bare(s, s.Upper)
	}
	return w.deviation(s, s.Upper) + "/" + w.deviation(s, s.Lower)
}

func (w *words) deviation(s part.Size, d float64) string {
	t := w.bare(s, d)
	if d > 0 && t != "0" {
		t = "+" + t
	}
	return t
}

func (w *words) bare(s part.Size, d float64) string {
	if s.Angle {
		return unit.One.Text(d, 2) + "°"
	}
	return w.units.Text(d, 4)
}

// suit is the number of what a size must suit.
func (w *words) suit(s part.Size) int {
	same := func(o part.Size) bool {
		return o.Suits == s.Suits && o.Awaits == s.Awaits && (s.Key == "" || o.Key == s.Key)
	}
	if i := slices.IndexFunc(w.suits, same); i >= 0 {
		return i + 1
	}
	w.suits = append(w.suits, s)
	return len(w.suits)
}

// named tells whether there is anything to write of a size.
func named(s part.Size) bool {
	return s.Nominal != 0 && (s.Label != "" || s.Limits != "" || s.Key != "" || s.Suits != "")
}

// bracketed is an auxiliary size, which is not to be checked (ISO 129-1).
func (w *words) bracketed(sign string, mm float64) string { return "(" + sign + w.length(mm) + ")" }
