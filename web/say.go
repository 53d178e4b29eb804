package web

import (
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// sentence begins text with a capital and ends it with a stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	first, length := utf8.DecodeRuneInString(text)
	text = string(unicode.ToUpper(first)) + text[length:]
	if last, _ := utf8.DecodeLastRuneInString(text); unicode.IsPunct(last) && last != '"' && last != ')' {
		return text
	}
	return text + "."
}

// size says a number of bytes as people do.
func size(bytes int64) string {
	switch {
	case bytes >= 1<<20:
		return fmt.Sprintf("%.3g MB", float64(bytes)/(1<<20))
	case bytes >= 1<<10:
		return fmt.Sprintf("%.3g KB", float64(bytes)/(1<<10))
	default:
		return fmt.Sprintf("%d bytes", bytes)
	}
}

// dayTyped gives a day as it is kept, or "" for one that is not said; ok is false for what is no day.
func dayTyped(typed string) (on string, ok bool) {
	if typed = strings.TrimSpace(typed); typed == "" {
		return "", true
	}
	d, err := time.Parse(time.DateOnly, typed)
	if err != nil {
		return "", false
	}
	return d.Format(time.DateOnly), true
}
