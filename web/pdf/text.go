package pdf

import (
	"strings"

	"fettle/plan/drawing"
)

// capHeight of the standard font is near that of the program's own at this share.
const typeShare = 0.97

// text writes one line. The standard font is wider than the program's: a line
// that would be wider than it was laid out is drawn narrower.
func (p *page) text(t drawing.Text) {
	if !p.checked(t.X, t.Y, t.Size) || !(t.Size > 0) {
		return
	}
	s := t.Text
	if t.Figure != "" {
		s = t.Figure + " " + s
	}
	bytes := Latin(s)
	old := ""
	if t.Old != "" {
		old = " " + Latin(t.Old)
	}
	if bytes == "" && old == "" {
		return
	}
	style := ""
	switch t.Class {
	case "dim-text", "sheet-title", "view-name", "letter":
		style = "B"
	}
	p.SetFont("Helvetica", style, 10)
	p.SetFontUnitSize(t.Size * typeShare * 0.94)
	p.SetTextColor(0, 0, 0)
	wide := p.GetStringWidth(bytes + old)
	x0, x1, y0, y1 := t.Box()
	room := x1 - x0
	if t.Upright {
		room = y1 - y0
	}
	narrow := 1.0
	if wide > room && wide > 0 {
		narrow = room / wide
	}
	x, y := t.X-p.x, t.Y-p.y
	at := x
	switch t.Anchor {
	case drawing.Middle:
		at -= wide * narrow / 2
	case drawing.End:
		at -= wide * narrow
	}
	p.TransformBegin()
	switch {
	case t.Upright:
		p.TransformRotate(90, x, y)
	case t.Inverted:
		p.TransformRotate(180, x, y)
	}
	if narrow < 1 {
		p.TransformScaleX(narrow*100, at, y)
	}
	p.Text(at, y, bytes)
	if old != "" {
		from := at + p.GetStringWidth(bytes+" ")
		p.Text(at+p.GetStringWidth(bytes), y, old)
		p.SetLineWidth(0.2)
		p.SetDashPattern(nil, 0)
		p.Line(from, y-0.3*t.Size, at+wide, y-0.3*t.Size)
	}
	p.TransformEnd()
}

// Latin writes a text in code page 1252, in which the standard fonts are:
// ⌀ as Ø, − as the dash of the same width, and what is not there as "?".
func Latin(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < 0x20 || r == 0x7f:
		case r < 0x7f || r >= 0xa0 && r <= 0xff:
			b.WriteByte(byte(r))
		default:
			if c, ok := cp1252[r]; ok {
				b.WriteByte(c)
			} else if t, ok := spelt[r]; ok {
				b.WriteString(t)
			} else {
				b.WriteByte('?')
			}
		}
	}
	return b.String()
}

// Source: the code page's own table, of which 0x80 to 0x9f differ from ISO 8859-1.
var cp1252 = map[rune]byte{
	'€': 0x80, '‚': 0x82, 'ƒ': 0x83, '„': 0x84, '…': 0x85, '†': 0x86, '‡': 0x87, 'ˆ': 0x88, '‰': 0x89, 'Š': 0x8a, '‹': 0x8b, 'Œ': 0x8c, 'Ž': 0x8e,
	'‘': 0x91, '’': 0x92, '“': 0x93, '”': 0x94, '•': 0x95, '–': 0x96, '—': 0x97, '˜': 0x98, '™': 0x99, 'š': 0x9a, '›': 0x9b, 'œ': 0x9c, 'ž': 0x9e, 'Ÿ': 0x9f,
	'⌀': 0xd8, '∅': 0xd8, '−': 0x96, '‐': '-', '‑': '-', 'μ': 0xb5, '∙': 0xb7, '⋅': 0xb7, '′': '\'', '″': '"', '\u2009': ' ', '\u202f': ' ',
}

// spelt are signs that are written in letters.
var spelt = map[rune]string{
	'≈': "~", '≤': "<=", '≥': ">=", '≠': "<>", '→': "->", '←': "<-", 'π': "pi", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅓': "1/3", '⅔': "2/3", 'α': "alpha", 'φ': "phi", '∞': "inf",
}
