package drawing

import "unicode/utf8"

// textWidth is how wide a text is at a size, a little more rather than less:
// the advances of the program's narrow type at 600, and what is wider for the
// rest of the world's letters.
func textWidth(s string, size float64) float64 {
	w := 0.0
	for _, r := range s {
		switch {
		case r >= 0x2e80:
			w += 1.05
		case r == 'm', r == 'w', r == 'M', r == 'W', r == '%', r == '@', r == '…', r == '½', r == '¼', r == '¾':
			w += 0.8
		case r == 'i', r == 'j', r == 'l', r == 'I', r == '.', r == ',', r == ':', r == ';', r == ' ', r == '\'', r == '!', r == '(', r == ')', r == '|':
			w += 0.31
		case r == '⌀', r == 'N', r == '&':
			w += 0.64
		default:
			w += 0.545
		}
	}
	return w * size
}

// longest is how many letters of a name stand in a drawing.
const longest = 30

// cut shortens a name that is too long to stand in a drawing.
func cut(s string) string {
	if utf8.RuneCountInString(s) <= longest {
		return s
	}
	r := []rune(s)
	return string(r[:longest-1]) + "…"
}
