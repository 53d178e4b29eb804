package exchange

import (
	"go/token"
	"strings"
)

const (
	keySay   = "give a key: a word of a-z, 0-9 and _ that does not begin with a digit and is no Go keyword"
	namesSay = "give a key: words of a-z, 0-9 and _ joined by dots, none beginning with a digit, none a Go keyword"
)

// isKey tells whether s is a key, as formulas take it.
func isKey(s string) bool {
	return s != "" && strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789_") == "" &&
		(s[0] < '0' || s[0] > '9') && !token.IsKeyword(s)
}

// areKeys tells whether s is keys joined by dots.
func areKeys(s string) bool {
	for word := range strings.SplitSeq(s, ".") {
		if !isKey(word) {
			return false
		}
	}
	return true
}
