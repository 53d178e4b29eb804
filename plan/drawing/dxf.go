package drawing

import (
	"io"
	"math"
	"strconv"
	"strings"
)

// DXF writes the drawing as a DXF file of release 12, in plain ASCII, for a CAD,
// CAM or laser program. A sheet's parts are in it at 1 : 1 in mm, whatever the
// sheet's scale, with the paper around them larger or smaller accordingly; each
// sort of line is on a layer of its own. It returns [ErrNumber] before anything
// is written, or the writer's error.
//
// Source: the DXF reference of release 12 (AC1009): group codes 0, 2, 8, 10 to
// 50, 62, 66, 70, with CRLF after each.
func (d *Drawing) DXF(w io.Writer) error {
	p := plotter{k: 1, foot: d.Y + d.Height, left: d.X, buf: make([]byte, 0, 32<<10)}
	if d.Paper != nil && d.Paper.Scale > 0 {
		p.k = 1 / d.Paper.Scale
	}
	p.header(d)
	p.tables()
	p.pair(0, "SECTION")
	p.pair(2, "ENTITIES")
	p.shapes(d.Shapes)
	p.pair(0, "ENDSEC")
	p.pair(0, "EOF")
	if p.bad {
		return ErrNumber
	}
	_, err := w.Write(p.buf)
	return err
}

// plotter writes groups; y upwards from the foot of the paper.
type plotter struct {
	buf        []byte
	k          float64 // mm of the part to a mm of paper
	left, foot float64
	bad        bool
}

func (p *plotter) pair(code int, value string) {
	p.buf = strconv.AppendInt(p.buf, int64(code), 10)
	p.buf = append(p.buf, "\r\n"...)
	p.buf = append(p.buf, value...)
	p.buf = append(p.buf, "\r\n"...)
}

func (p *plotter) whole(code, value int) { p.pair(code, strconv.Itoa(value)) }

func (p *plotter) num(code int, v float64) {
	if !(math.Abs(v) < 1e12) {
		p.bad = true
		return
	}
	s := strconv.FormatFloat(v, 'f', 4, 64)
	if s == "-0.0000" {
		s = "0.0000"
	}
	p.pair(code, s)
}

func (p *plotter) at(code int, q Point) {
	p.num(code, (q.X-p.left)*p.k)
	p.num(code+10, (p.foot-q.Y)*p.k)
	p.num(code+20, 0)
}

func (p *plotter) header(d *Drawing) {
	p.pair(0, "SECTION")
	p.pair(2, "HEADER")
	p.pair(9, "$ACADVER")
	p.pair(1, "AC1009")
	p.pair(9, "$INSUNITS")
	p.whole(70, 4) // mm; not of release 12, and read by those that know it
	p.pair(9, "$MEASUREMENT")
	p.whole(70, 1)
	p.pair(9, "$LTSCALE")
	p.num(40, p.k)
	p.pair(9, "$EXTMIN")
	p.at(10, Point{d.X, d.Y + d.Height})
	p.pair(9, "$EXTMAX")
	p.at(10, Point{d.X + d.Width, d.Y})
	p.pair(0, "ENDSEC")
}

// layers of a file, with their colours by the usual numbers and their lines.
var layers = []struct {
	name, line string
	colour     int
}{
	{"0", "CONTINUOUS", 7},
	{"VISIBLE", "CONTINUOUS", 7},
	{"THIN", "CONTINUOUS", 7},
	{"CENTRE", "CENTRE", 1},
	{"HIDDEN", "HIDDEN", 8},
	{"HATCH", "CONTINUOUS", 8},
	{"DIM", "CONTINUOUS", 5},
	{"TEXT", "CONTINUOUS", 7},
	{"MARK", "CONTINUOUS", 3},
	{"OLD", "CONTINUOUS", 8},
	{"CUT", "CUT", 1},
	{"NEW", "CONTINUOUS", 6},
	{"FRAME", "CONTINUOUS", 8},
}

var lineTypes = []struct {
	name, say string
	dash      []float64 // mm of paper; gaps below 0
}{
	{"CONTINUOUS", "Solid line", nil},
	{"CENTRE", "__ . __ . __", []float64{6, -0.75, 0.25, -0.75}},
	{"HIDDEN", "_ _ _ _ _", []float64{3, -0.75}},
	{"CUT", "__  __  __", []float64{3, -1.5}},
}

func (p *plotter) tables() {
	p.pair(0, "SECTION")
	p.pair(2, "TABLES")
	p.table("LTYPE", len(lineTypes))
	for _, l := range lineTypes {
		p.pair(0, "LTYPE")
		p.pair(2, l.name)
		p.whole(70, 64)
		p.pair(3, l.say)
		p.whole(72, 65)
		p.whole(73, len(l.dash))
		all := 0.0
		for _, x := range l.dash {
			all += math.Abs(x)
		}
		p.num(40, all)
		for _, x := range l.dash {
			p.num(49, x)
		}
	}
	p.pair(0, "ENDTAB")
	p.table("LAYER", len(layers))
	for _, l := range layers {
		p.pair(0, "LAYER")
		p.pair(2, l.name)
		p.whole(70, 64)
		p.whole(62, l.colour)
		p.pair(6, l.line)
	}
	p.pair(0, "ENDTAB")
	p.table("STYLE", 1)
	p.pair(0, "STYLE")
	p.pair(2, "STANDARD")
	p.whole(70, 0)
	p.num(40, 0)
	p.num(41, 1)
	p.num(50, 0)
	p.whole(71, 0)
	p.num(42, 2.5)
	p.pair(3, "txt")
	p.pair(4, "")
	p.pair(0, "ENDTAB")
	p.pair(0, "ENDSEC")
}

func (p *plotter) table(name string, n int) {
	p.pair(0, "TABLE")
	p.pair(2, name)
	p.whole(70, n)
}

func (p *plotter) shapes(all []Shape) {
	for _, s := range all {
		switch s := s.(type) {
		case Lines:
			if layer := InkOf(s.Class).Layer; layer != "" {
				for _, l := range s.Segments {
					p.line(layer, l.A, l.B)
				}
			}
		case Path:
			p.path(s)
		case Circle:
			if k := InkOf(s.Class); k.Layer != "" && s.R > 0 {
				p.pair(0, "CIRCLE")
				p.pair(8, k.Layer)
				p.at(10, Point{s.X, s.Y})
				p.num(40, s.R*p.k)
			}
		case Arc:
			if k := InkOf(s.Class); k.Layer != "" && s.R > 0 {
				p.pair(0, "ARC")
				p.pair(8, k.Layer)
				p.at(10, Point{s.X, s.Y})
				p.num(40, s.R*p.k)
				p.num(50, turn(s.From))
				p.num(51, turn(s.To))
			}
		case Text:
			p.text(s)
		case Group:
			p.shapes(s.Shapes)
		}
	}
}

// turn is an angle from 0 to 360.
func turn(degrees float64) float64 {
	a := math.Mod(degrees, 360)
	if a < 0 {
		a += 360
	}
	return a
}

func (p *plotter) line(layer string, a, b Point) {
	p.pair(0, "LINE")
	p.pair(8, layer)
	p.at(10, a)
	p.at(11, b)
}

func (p *plotter) path(s Path) {
	k := InkOf(s.Class)
	if k.Layer == "" {
		return
	}
	for _, l := range s.Loops {
		if len(l) == 3 && k.Fill == Black { // an arrow head
			p.pair(0, "SOLID")
			p.pair(8, k.Layer)
			for i, q := range [...]Point{l[0], l[1], l[2], l[2]} {
				p.at(10+i, q)
			}
			continue
		}
		if k.Width == 0 || len(l) < 2 {
			continue
		}
		p.pair(0, "POLYLINE")
		p.pair(8, k.Layer)
		p.whole(66, 1)
		p.at(10, Point{p.left, p.foot})
		closed := 1
		if s.Open {
			closed = 0
		}
		p.whole(70, closed)
		for _, q := range l {
			p.pair(0, "VERTEX")
			p.pair(8, k.Layer)
			p.at(10, q)
		}
		p.pair(0, "SEQEND")
		p.pair(8, k.Layer)
	}
}

// capShare is how high capitals are in the program's type, of its size.
const capShare = 0.7

func (p *plotter) text(t Text) {
	s := t.Text
	if t.Figure != "" {
		s = t.Figure + " " + s
	}
	if t.Old != "" {
		s += " (" + t.Old + ")"
	}
	if s = ascii(s); s == "" || !(t.Size > 0) {
		return
	}
	p.pair(0, "TEXT")
	p.pair(8, InkOf(t.Class).Layer)
	at := Point{t.X, t.Y}
	p.at(10, at)
	p.num(40, t.Size*capShare*p.k)
	p.pair(1, s)
	switch {
	case t.Upright:
		p.num(50, 90)
	case t.Inverted:
		p.num(50, 180)
	}
	anchor := 0
	switch t.Anchor {
	case Middle:
		anchor = 1
	case End:
		anchor = 2
	}
	if anchor > 0 {
		p.whole(72, anchor)
		p.at(11, at)
	}
}

// longestText is how many letters a text may have in release 12.
const longestText = 250

// ascii writes a text so that every program reads it: the format's own signs
// for ⌀, ° and ±, plain letters where there are some, \U+ and the letter's
// number for the rest.
func ascii(s string) string {
	var b strings.Builder
	for _, r := range s {
		if b.Len() > longestText-8 {
			break
		}
		switch {
		case r < ' ' || r == 0x7f || r == 0xfffd:
		case r == '%':
			if strings.HasSuffix(b.String(), "%") { // two of them begin a sign
				b.WriteByte(' ')
			}
			b.WriteByte('%')
		case r == '^':
			b.WriteString("^ ")
		case r == '\\':
			b.WriteByte('/') // a backslash begins a sign too
		case r < 0x7f:
			b.WriteByte(byte(r))
		default:
			if t, ok := signs[r]; ok {
				b.WriteString(t)
			} else if r <= 0xffff {
				b.WriteString(`\U+` + strings.ToUpper(strconv.FormatInt(0x10000+int64(r), 16)[1:]))
			} else {
				b.WriteByte('?')
			}
		}
	}
	return b.String()
}

var signs = map[rune]string{
	'⌀': "%%c", '∅': "%%c", '°': "%%d", '±': "%%p", '×': "x", '−': "-", '–': "-", '—': "-", '…': "...", '’': "'", '‘': "'", '“': `"`, '”': `"`, '½': "1/2", '¼': "1/4", '¾': "3/4",
	'π': "pi", '·': "*", '≈': "~", '\u00a0': " ", '\u2009': " ", '\u202f': " ",
}
