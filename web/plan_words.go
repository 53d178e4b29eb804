package web

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
)

// capital begins text with a capital.
func capital(text string) string {
	first, length := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[length:]
}

// lowered begins text as it stands within a sentence; "Y axis" stays as it is.
func lowered(text string) string {
	first, length := utf8.DecodeRuneInString(text)
	if second, _ := utf8.DecodeRuneInString(text[length:]); !unicode.IsLower(second) {
		return text
	}
	return string(unicode.ToLower(first)) + text[length:]
}

// the puts the article before a label.
func the(label string) string {
	label = lowered(label)
	for _, as := range []string{"the ", "a ", "an ", "something ", "what ", "which "} {
		if strings.HasPrefix(label, as) {
			return label
		}
	}
	return "the " + lowered(label)
}

// joined lists words as a sentence does: "a, b and c".
func joined(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func labels(figures []sheet.Figure) []string {
	words := make([]string, len(figures))
	for i, f := range figures {
		words[i] = lowered(f.Label)
	}
	return words
}

// bare writes the number of a figure's value without its unit.
func bare(u unit.Unit, f sheet.Figure, value float64) string {
	f = in(u, f)
	return f.Unit.Text(value, f.Decimals)
}

// moved writes a difference with its sign: "+10.5", "−12", "0".
func moved(u unit.Unit, f sheet.Figure, by float64) string {
	text := bare(u, f, by)
	if by > 0 && text != "0" {
		return "+" + text
	}
	return text
}

// plain writes a number as a program reads it.
func plain(x float64) string {
	return strconv.FormatFloat(math.Round(x*1e6)/1e6, 'f', -1, 64)
}

// endless reports whether a figure stands for "not in the way".
func endless(f sheet.Figure) bool { return f.Known() && math.IsInf(f.Value, 0) }

// inUnit puts a phrase that the sheet made, with a figure in it, into the machine's own unit.
func inUnit(u unit.Unit, phrase string, f sheet.Figure) string {
	own := in(u, f)
	if own.Unit == f.Unit {
		return phrase
	}
	for _, value := range []float64{f.Lo, f.Hi} {
		said := unit.Unit{Symbol: f.Unit.Symbol, Scale: f.Unit.Scale, Decimals: f.Decimals}.With(math.Abs(value))
		phrase = strings.ReplaceAll(phrase, said, own.Unit.With(math.Abs(value)))
	}
	return phrase
}

// stateWords says how far an upgrade has got.
func stateWords(s upgrade.State) string {
	switch s {
	case upgrade.Draft:
		return "a draft: kept as you type it, and not counted until it is added"
	case upgrade.Planned:
		return "in the plan: it counts"
	case upgrade.Finished:
		return "fitted: part of the machine as it is now"
	}
	return "of no known state"
}

// howMany counts checks.
func howMany(checks int) string { return count(checks, "check", "checks") }
