package access

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// How long a passphrase is, in characters: OWASP ASVS 4.0.3, 2.1.1 and 2.1.2.
const (
	leastLong = 12
	mostLong  = 128
)

// Weakness says what is wrong with a passphrase that is to be set, in a sentence that says what is
// accepted; "" where nothing is. Any characters will do, and none has to be among them: length is what
// counts (ASVS 2.1.9).
func Weakness(passphrase string) string {
	long := utf8.RuneCountInString(strings.Join(strings.Fields(passphrase), " "))
	switch {
	case !utf8.ValidString(passphrase) || strings.ContainsFunc(passphrase, unicode.IsControl):
		return "give a passphrase of printable characters"
	case long < leastLong:
		return fmt.Sprintf("give a passphrase of at least %d characters, such as four words that do not belong together; this has %d", leastLong, long)
	case utf8.RuneCountInString(passphrase) > mostLong:
		return fmt.Sprintf("give a passphrase of at most %d characters", mostLong)
	case isCommon(passphrase):
		return "that one is among the first to be guessed; give four words that do not belong together"
	}
	return ""
}

// rows are what fingers and tongues run along. A list of passphrases that were found out is not at hand
// without a network; those of this length are nearly all runs, repetitions and the words below.
var rows = []string{"abcdefghijklmnopqrstuvwxyz", "01234567890", "qwertyuiop", "qwertzuiop", "azertyuiop", "asdfghjkl", "zxcvbnm", "yxcvbnm",
	"1q2w3e4r5t6z7u8i9o0p", "1q2w3e4r5t6y7u8i9o0p", "1qaz2wsx3edc4rfv5tgb6yhn7ujm8ik9ol0p"}

var guessed = []string{"passphrase", "password", "passwort", "secret", "letmein", "welcome", "fettle", "workshop", "machine", "lathe", "milling",
	"mill", "admin", "administrator", "default", "changeme", "iloveyou", "correct", "horse", "battery", "staple", "the", "my", "is", "me", "in"}

// isCommon reports whether nothing is left of a passphrase once what everybody thinks of first is gone:
// such words, runs of a row of keys either way, years, one thing again and again.
func isCommon(passphrase string) bool {
	rest := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, passphrase)
	if rest == "" {
		rest = passphrase
	}
	rest = period(rest)
	for _, word := range guessed {
		rest = strings.ReplaceAll(rest, word, "")
	}
	for rest != "" {
		run := leadingRun(rest)
		if run < 3 {
			run = leadingYear(rest)
		}
		if run == 0 {
			break
		}
		rest = rest[run:]
	}
	return utf8.RuneCountInString(rest) < 5
}

// period gives the shortest text of which text is a repetition, be the last one cut short.
func period(text string) string {
	for n := 1; n < len(text); n++ {
		if strings.HasPrefix(text, text[n:]) {
			return text[:n]
		}
	}
	return text
}

// leadingRun tells how many bytes of text's beginning run along a row of keys, forwards or backwards.
func leadingRun(text string) int {
	longest := 0
	for _, row := range rows {
		for _, way := range []string{row, reversed(row)} {
			n := longest
			for n < len(text) && strings.Contains(way, text[:n+1]) {
				n++
			}
			longest = max(longest, n)
		}
	}
	return longest
}

// leadingYear tells how many digits text begins with, where they are no more than a year has.
func leadingYear(text string) int {
	digits := len(text) - len(strings.TrimLeft(text, "0123456789"))
	if digits > len("2026") {
		return 0
	}
	return digits
}

func reversed(text string) string {
	b := []byte(text)
	for i, j := 0, len(b)-1; i < j; i, j = i+1, j-1 {
		b[i], b[j] = b[j], b[i]
	}
	return string(b)
}
