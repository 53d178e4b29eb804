package unit

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// What [Parse] says of a text that it cannot take. Each is a sentence for the
// person who typed it.
var (
	ErrEmpty  = errors.New("nothing was typed")
	ErrRange  = errors.New("that is too large to be meant")
	ErrLength = errors.New(`give a length such as 12, 12.5 mm, 0.5 in, 1-1/4" or 15 thou`)
	ErrNumber = errors.New("give a number such as 3 or 0.15")
)

// MaxLength is the largest length that [Parse] takes, in mm: no bench machine
// has one of 100 m.
const MaxLength = 1e5

// lengthWords are the ways in which a length's unit is written.
var lengthWords = map[string]Unit{
	"mm": MM, "millimetre": MM, "millimetres": MM, "millimeter": MM, "millimeters": MM,
	"cm": {Dim: LengthD, Scale: 10}, "m": {Dim: LengthD, Scale: 1000},
	"µm": Micrometre, "μm": Micrometre, "um": Micrometre, "micron": Micrometre, "microns": Micrometre,
	"in": Inch, "in.": Inch, "inch": Inch, "inches": Inch, `"`: Inch, "″": Inch, "”": Inch, "''": Inch,
	"thou": Thou, "thousandth": Thou, "thousandths": Thou, "mil": Thou,
}

// glyphs are the fractions that a phone's keyboard offers as one character.
var glyphs = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"−", "-", "–", "-", "\u00a0", " ", "\u202f", " ")

// Parse reads text as said in a workshop and gives its inside value. u is what
// a number without a unit is taken for.
//
// Lengths: 12, 12.5 mm, 9,5 (a decimal comma), 0.5 in, 15 thou, 3/8, 1-1/4",
// 1 1/4 in. A fraction without a unit is in inches, whatever u is: nobody says
// three eighths of a millimetre. Other units: a number, with or without the
// symbol of u or of a unit of the same dimension, as 1.2 kN, 45 lbf, 36 lbf·in
// or 70 °F; dots and raised figures can be left out of it.
//
// It returns [ErrEmpty], [ErrLength], [ErrNumber] or [ErrRange]; after a unit
// that is not known ErrNumber tells which are.
func Parse(text string, u Unit) (float64, error) {
	say := ErrNumber
	if u.Dim == LengthD {
		say = ErrLength
	}
	s := strings.TrimSpace(glyphs.Replace(text))
	if s == "" {
		return 0, ErrEmpty
	}
	if len(s) > 40 {
		return 0, say
	}
	number, word := split(s)
	x, fraction, ok := parseNumber(number)
	if !ok {
		return 0, say
	}
	if word == "" {
		if fraction && u.Dim == LengthD {
			u = Inch
		}
	} else if v, ok := unitSaid(word, u); ok {
		u = v
	} else if u.Symbol != "" && u.Dim != LengthD && u.Dim != Number {
		return 0, fmt.Errorf("%w, in %s", say, accepted(u))
	} else {
		return 0, say
	}
	v := u.Inside(x)
	if math.Abs(v) > 1e12 || u.Dim == LengthD && math.Abs(v) > MaxLength {
		return 0, ErrRange
	}
	return v, nil
}

// split parts a number from the unit after it.
func split(s string) (number, word string) {
	i := strings.IndexFunc(s, func(r rune) bool { return !strings.ContainsRune("+-0123456789.,/ eE", r) })
	// An e belongs to the number only as an exponent.
	if e := strings.IndexAny(s, "eE"); e >= 0 && (i < 0 || e < i) &&
		(e+1 >= len(s) || !strings.ContainsRune("+-0123456789", rune(s[e+1]))) {
		i = e
	}
	if i < 0 {
		return s, ""
	}
	return strings.TrimSpace(s[:i]), strings.ToLower(strings.TrimSpace(s[i:]))
}

// parseNumber reads 12, 12.5, 9,5, 1e3, 3/8, 1-1/4 and 1 1/4, each with a sign.
func parseNumber(s string) (x float64, fraction, ok bool) {
	sign := 1.0
	if rest, neg := strings.CutPrefix(s, "-"); neg {
		sign, s = -1, strings.TrimSpace(rest)
	} else {
		s = strings.TrimSpace(strings.TrimPrefix(s, "+"))
	}
	if strings.HasPrefix(s, "-") || strings.HasPrefix(s, "+") {
		return 0, false, false
	}
	if !strings.Contains(s, "/") {
		x, ok = decimal(s)
		return sign * x, false, ok
	}
	var total float64
	if i := strings.IndexAny(s, "- "); i >= 0 {
		w, err := strconv.ParseUint(s[:i], 10, 32)
		if err != nil {
			return 0, false, false
		}
		total, s = float64(w), strings.TrimSpace(s[i+1:])
	}
	above, below, _ := strings.Cut(s, "/")
	a, errA := strconv.ParseUint(strings.TrimSpace(above), 10, 32)
	b, errB := strconv.ParseUint(strings.TrimSpace(below), 10, 32)
	if errA != nil || errB != nil || b == 0 {
		return 0, false, false
	}
	return sign * (total + float64(a)/float64(b)), true, true
}

func decimal(s string) (float64, bool) {
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	// ParseFloat also takes hexadecimal, underscores, "inf" and "nan".
	if s == "" || strings.Trim(s, "0123456789.eE+-") != "" {
		return 0, false
	}
	x, err := strconv.ParseFloat(s, 64)
	return x, err == nil
}

// Named is the unit with the symbol; it returns an error that names an unknown one.
func Named(symbol string) (Unit, error) {
	for _, u := range All {
		if u.Symbol == symbol {
			return u, nil
		}
	}
	return Unit{}, fmt.Errorf("unknown unit %q", symbol)
}
