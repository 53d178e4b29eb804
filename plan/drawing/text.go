package drawing

import "unicode/utf8"

// textWidth is how wide a text is at a size, a little more rather than less:
// the advances of the program's narrow type at 600, and what is wider for the
// rest of the world's letters.
func textWidth(s string, size float64) float64 {
	w := 0.0
	for _, r := range s {
		switch {
		case int(r) < len(advances):
			w += advances[r]
		case r >= 0x2e80:
			w += 1.05
		case r == '…', r == '½', r == '¼', r == '¾':
			w += 0.8
		case r == '⌀':
			w += 0.64
		default:
			w += usual
		}
	}
	return w * size
}

// usual is the advance of most letters, of the size.
const usual = 0.545

// advances are those of the letters of ASCII.
var advances = func() (w [utf8.RuneSelf]float64) {
	for r := range w {
		w[r] = usual
	}
	for letters, of := range map[string]float64{"mwMW%@": 0.8, "ijlI.,:; '!()|": 0.31, "N&": 0.64} {
		for _, r := range letters {
			w[r] = of
		}
	}
	return w
}()

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
