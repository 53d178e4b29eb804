package thread

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

var (
	// ErrDesignation is returned for a text that names no thread.
	ErrDesignation = errors.New("give a thread such as M12x1.5, Tr12x3 LH, 1/4-20 UNC, 2BA, 1/4 BSF or 3/8x32 ME")

	// ErrSize is what an error is where the series is known and has no such
	// size; the error itself is a sentence that says what there is.
	ErrSize = errors.New("no such size")
)

type sizeError string

func (e sizeError) Error() string        { return string(e) }
func (e sizeError) Is(target error) bool { return target == ErrSize }

func noSize(format string, args ...any) error { return sizeError(fmt.Sprintf(format, args...)) }

const (
	decimal = `(\d*\.?\d+)`
	size    = `(\d+[ -]\d+/\d+|\d+/\d+|\d*\.\d+|\d+)`
)

var (
	plain = strings.NewReplacer("×", "x", "✕", "x", "*", "x", `"`, "", "″", "", "”", "", "“", "", "−", "-", "–", "-", "\u00a0", " ", "\t", " ",
		"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

	handWord  = regexp.MustCompile(`(?i)[ -]*\b(LH|RH|left(?:[ -]hand(?:ed)?)?|right(?:[ -]hand(?:ed)?)?)$`)
	gluedHand = regexp.MustCompile(`(?i)([\d)])(LH|RH)$`)
	startWord = regexp.MustCompile(`(?i)[ ,-]*(\d{1,2})[ -]?starts?$`)
	classWord = regexp.MustCompile(`[ -]+(\d[a-hA-H](?:\d[a-hA-H])?)$`)

	metricText   = regexp.MustCompile(`^M ?` + decimal + `(?: ?[X-] ?` + decimal + `)?$`)
	metricMany   = regexp.MustCompile(`^M ?` + decimal + ` ?X ?PH ?` + decimal + ` ?P ?` + decimal + `$`)
	trapText     = regexp.MustCompile(`^TR ?` + decimal + ` ?X ?` + decimal + `(?: ?\(? ?P ?` + decimal + ` ?\)?)?$`)
	squareText   = regexp.MustCompile(`^SQ(?:UARE)? ?` + decimal + ` ?X ?` + decimal + `$`)
	baText       = regexp.MustCompile(`^(?:NO\.? ?)?(\d{1,2}) ?BA$`)
	pipeText     = regexp.MustCompile(`^(?:G|BSPP?) ?` + size + `$|^` + size + ` ?BSPP?$`)
	inchText     = regexp.MustCompile(`^(#|NO\.? ?)?` + size + `(?: ?(?:IN|INCH))?(?: ?[- X] ?` + decimal + ` ?(?:TPI)?)? ?-?(UNC|UNF|UNEF|UN|BSW|BSF|BSB|WHIT|WHITWORTH|ME|ACME)$`)
	inchNoWord   = regexp.MustCompile(`^(#|NO\.? ?)?` + size + ` ?[-X] ?` + decimal + `$`)
	decimalComma = regexp.MustCompile(`(\d),(\d)`)
)

// Parse reads a designation as it is said: M12, M12x1.5 LH, M16xPh3P1.5, Tr12x3,
// Tr40x14(P7)LH, 1/4-20 UNC, #10-32 UNF, 2BA, 1/4 BSF, 3/8x32 ME, G 1/8,
// 1/2-10 Acme, Sq 12x3; a class may follow (M8x1-6g), and a number of starts
// (1/2-10 Acme 2 starts). It returns [ErrDesignation], or an error that is
// [ErrSize] and says which sizes there are.
func Parse(text string) (Thread, error) {
	s := strings.Join(strings.Fields(plain.Replace(text)), " ")
	if s == "" || len(s) > 40 {
		return Thread{}, ErrDesignation
	}
	s = decimalComma.ReplaceAllString(s, "$1.$2")
	end := endings(&s)
	t, err := parseBody(strings.ToUpper(s), end.starts)
	if err != nil {
		return Thread{}, err
	}
	t.Left, t.Class = end.left, end.class
	if t.Starts < 1 || t.Starts > 12 {
		return Thread{}, noSize("a lead is a whole number of pitches, 1 to 12 of them: say it as Tr40x14(P7)")
	}
	b, err := t.Basic()
	if err != nil {
		return Thread{}, err
	}
	if !(b.Root > 0.25*t.Dia) || t.Dia > 320 || t.Dia < 0.2 {
		return Thread{}, noSize("a pitch of %s mm does not go on a diameter of %s mm", short(t.Pitch), short(t.Dia))
	}
	return t, nil
}

type ending struct {
	left   bool
	starts int
	class  string
}

// endings cuts hand, starts and class off the end, in whatever order they stand.
func endings(s *string) ending {
	e := ending{starts: 1}
	for {
		before := *s
		*s = gluedHand.ReplaceAllString(*s, "$1 $2")
		if m := handWord.FindStringSubmatchIndex(*s); m != nil {
			e.left = strings.ToUpper((*s)[m[2]:m[2]+1]) == "L"
			*s = (*s)[:m[0]]
		}
		if m := startWord.FindStringSubmatchIndex(*s); m != nil {
			e.starts, _ = strconv.Atoi((*s)[m[2]:m[3]]) // the pattern is of digits
			*s = (*s)[:m[0]]
		}
		if m := classWord.FindStringSubmatchIndex(*s); m != nil {
			e.class = (*s)[m[2]:m[3]]
			*s = (*s)[:m[0]]
		}
		*s = strings.TrimSpace(*s)
		if *s == before {
			return e
		}
	}
}

func parseBody(s string, starts int) (Thread, error) {
	if m := metricMany.FindStringSubmatch(s); m != nil {
		return metric(num(m[1]), num(m[3]), whole(num(m[2])/num(m[3])))
	}
	if m := metricText.FindStringSubmatch(s); m != nil {
		return metric(num(m[1]), num(m[2]), starts)
	}
	if m := trapText.FindStringSubmatch(s); m != nil {
		if m[3] != "" {
			return millimetres("Tr", num(m[1]), num(m[3]), whole(num(m[2])/num(m[3])))
		}
		return millimetres("Tr", num(m[1]), num(m[2]), starts)
	}
	if m := squareText.FindStringSubmatch(s); m != nil {
		return millimetres("Sq", num(m[1]), num(m[2]), starts)
	}
	if m := baText.FindStringSubmatch(s); m != nil {
		return tabulated("BA", short(num(m[1])), starts)
	}
	if m := pipeText.FindStringSubmatch(s); m != nil {
		return tabulated("G", mixed(m[1]+m[2]), starts)
	}
	if m := inchText.FindStringSubmatch(s); m != nil {
		return inches(m[1] != "", m[2], num(m[3]), m[4], starts)
	}
	if m := inchNoWord.FindStringSubmatch(s); m != nil {
		return unnamed(m[1] != "", m[2], num(m[3]), starts)
	}
	return Thread{}, ErrDesignation
}

// num is a number that a pattern matched; "" is 0.
func num(s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0
	}
	return x
}

func whole(x float64) int {
	n := math.Round(x)
	if math.Abs(x-n) > 1e-6 || n < 1 || n > 99 {
		return 0
	}
	return int(n)
}

func same(a, b float64) bool { return math.Abs(a-b) < 1e-4 }

func metric(dia, pitch float64, starts int) (Thread, error) {
	for _, t := range sizes() {
		if t.Series.Form == Metric && same(t.Dia, dia) && (same(t.Pitch, pitch) || pitch == 0 && t.Series.Key == "M") {
			t.Starts = starts
			return t, nil
		}
	}
	if pitch == 0 {
		return Thread{}, noSize("there is no coarse pitch for M%s in ISO 261: give the pitch, as in M%sx1", short(dia), short(dia))
	}
	return millimetres("MF", dia, pitch, starts)
}

// millimetres is a thread of a series that counts in mm, listed or not.
func millimetres(key string, dia, pitch float64, starts int) (Thread, error) {
	s, _ := SeriesNamed(key)
	if dia == 0 || pitch == 0 {
		return Thread{}, ErrDesignation
	}
	t := Thread{Series: s, Size: short(dia), Dia: dia, Pitch: pitch, Starts: starts}
	if key == "Tr" && (pitch < 1.5 || pitch > 44) {
		return Thread{}, noSize("pitches of trapezoidal threads are 1.5 to 44 mm (ISO 2902)")
	}
	for _, l := range sizes() {
		if l.Series == s && same(l.Dia, dia) && same(l.Pitch, pitch) {
			t.Listed = true
		}
	}
	return t, nil
}

// tabulated is a thread of a series that has nothing but its table.
func tabulated(key, size string, starts int) (Thread, error) {
	var have []string
	for _, t := range sizes() {
		if t.Series.Key != key {
			continue
		}
		if t.Size == size {
			t.Starts = starts
			return t, nil
		}
		have = append(have, t.Size)
	}
	s, _ := SeriesNamed(key)
	return Thread{}, noSize("there is no %s in the %s series: it has %s", size, s.Label, strings.Join(have, ", "))
}

var inchSeries = map[string]string{"WHITWORTH": "Whit", "WHIT": "Whit", "ACME": "Acme"}

// fixedPitch are the series in which a size has one pitch; anyPitch is what to
// say for another.
var (
	fixedPitch = map[string]bool{"UNC": true, "UNF": true, "UNEF": true, "BSW": true, "BSF": true}
	anyPitch   = map[*Form]string{Unified: "UN", Whitworth: "Whit"}
)

// mixed writes a size as the tables do: "1 1/8" as "1-1/8".
func mixed(size string) string { return strings.Replace(size, " ", "-", 1) }

// inchesOf is a size in inches: 1/4, 1-1/8, 0.375, 2; 0 where it is none.
func inchesOf(size string) float64 {
	var total float64
	if i := strings.IndexByte(size, '-'); i >= 0 {
		total, size = num(size[:i]), size[i+1:]
	}
	above, below, fraction := strings.Cut(size, "/")
	if !fraction {
		return total + num(size)
	}
	if num(below) == 0 {
		return 0
	}
	return total + num(above)/num(below)
}

// numberDia is the diameter of a numbered size, in inches (ASME B1.1).
func numberDia(n float64) float64 { return 0.060 + 0.013*n }

func inches(numbered bool, text string, tpi float64, word string, starts int) (Thread, error) {
	key := word
	if k, ok := inchSeries[word]; ok {
		key = k
	}
	s, _ := SeriesNamed(key)
	name := mixed(text)
	dia := inchesOf(name)
	n, isWhole := num(name), !strings.ContainsAny(name, "/.-")
	if s.Form == Unified && isWhole && n <= 12 && (numbered || tpi > 0 && 1/tpi < numberDia(n)/3 || tpi == 0 && n > 4) {
		numbered, dia = true, numberDia(n)
	} else if numbered {
		return Thread{}, noSize("numbered sizes are 0 to 12 of UNC, UNF and UNEF, and those of BA")
	}
	if dia <= 0 {
		return Thread{}, ErrDesignation
	}
	var pitches []string
	for _, t := range sizes() {
		if t.Series.Form != s.Form || !same(t.Dia, dia*inch) || t.Series != s && key != "UN" && key != "Whit" {
			continue
		}
		pitches = append(pitches, short(t.TPI))
		if same(t.TPI, tpi) || tpi == 0 && t.Series == s && key != "ME" {
			t.Starts = starts
			return t, nil
		}
	}
	t := Thread{Series: s, Size: name, Dia: dia * inch, TPI: tpi, Starts: starts}
	if numbered {
		t.Size = "#" + name
	}
	switch {
	case tpi == 0 && key == "BSB":
		t.TPI = 26
	case tpi == 0 && len(pitches) > 0:
		return Thread{}, noSize("%s %s has %s threads to the inch: say which, as in %sx%s %s", name, key, strings.Join(pitches, " or "), name, pitches[0], key)
	case fixedPitch[key] && len(pitches) == 0:
		return Thread{}, noSize("there is no %s in the %s series", name, s.Label)
	case fixedPitch[key]:
		return Thread{}, noSize("%s %s has %s threads to the inch; for another pitch say %s-%s %s", name, key, pitches[0], name, short(tpi), anyPitch[s.Form])
	case tpi == 0:
		return Thread{}, noSize("give the threads to the inch, as in %s-20 %s", name, key)
	case tpi < 1 || tpi > 200:
		return Thread{}, noSize("threads to the inch are 1 to 200")
	case key == "BSB" && tpi != 26:
		return Thread{}, noSize("brass thread has 26 threads to the inch in every size")
	}
	t.Pitch = inch / t.TPI
	return t, nil
}

// unnamed is a size and a pitch in inches without the name of a series: one if
// only one has it.
func unnamed(numbered bool, text string, tpi float64, starts int) (Thread, error) {
	name := mixed(text)
	var found []Thread
	for _, t := range sizes() {
		if t.Series.Inch && t.Size == name && same(t.TPI, tpi) && t.Series.Key != "G" && (!numbered || t.Series.Form == Unified) {
			found = append(found, t)
		}
	}
	switch len(found) {
	case 0:
		return Thread{}, ErrDesignation
	case 1:
		found[0].Starts = starts
		return found[0], nil
	}
	names := make([]string, len(found))
	for i, t := range found {
		names[i] = t.String()
	}
	return Thread{}, noSize("say which of these is meant: %s", strings.Join(names, ", "))
}
