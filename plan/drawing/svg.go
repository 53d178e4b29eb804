package drawing

import (
	"errors"
	"io"
	"math"
	"strconv"
	"unicode/utf8"
)

// ErrNumber is a coordinate that is no number: a fault of the program.
var ErrNumber = errors.New("a coordinate is not a number")

// SVG writes the drawing as an SVG element that can stand in a page: classes
// and presentation attributes only, two decimals. It returns [ErrNumber]
// before anything is written, or the error of the writer.
func (d *Drawing) SVG(w io.Writer) error {
	b, err := d.AppendSVG(make([]byte, 0, 16<<10))
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

// AppendSVG is [Drawing.SVG] at the end of b.
func (d *Drawing) AppendSVG(b []byte) ([]byte, error) {
	p := pen{buf: b}
	p.svg(d)
	if p.bad {
		return b, ErrNumber
	}
	return p.buf, nil
}

type pen struct {
	buf  []byte
	bad  bool
	inks bool // each shape carries the width of its line, for a file that stands alone
}

func (p *pen) str(s string) { p.buf = append(p.buf, s...) }

func (p *pen) svg(d *Drawing) {
	p.str("<svg")
	p.attr("id", d.ID)
	p.attr("class", d.Class)
	p.str(` viewBox="`)
	p.nums(d.X, d.Y, d.Width, d.Height)
	p.str(`" width="`)
	if d.Paper != nil {
		p.num(d.Width)
		p.str(`mm" height="`)
		p.num(d.Height)
		p.str(`mm`)
	} else {
		p.num(math.Round(d.Width * d.PxPerUnit))
		p.str(`" height="`)
		p.num(math.Round(d.Height * d.PxPerUnit))
	}
	p.str(`" role="img"`)
	if d.Paper != nil {
		p.str(` xmlns="http://www.w3.org/2000/svg" fill="none" stroke="none" font-family="Barlow Semi Condensed, Arial Narrow, sans-serif" font-weight="500"`)
	}
	if d.ID != "" {
		p.attr("aria-labelledby", d.ID+"-title")
		p.attr("aria-describedby", d.ID+"-desc")
	}
	p.str(">")
	p.element("title", d.ID, "-title", d.Title)
	p.element("desc", d.ID, "-desc", d.Desc)
	p.inks = d.Paper != nil
	p.shapes(d.Shapes)
	p.str("</svg>")
}

func (p *pen) element(name, id, end, text string) {
	p.str("<")
	p.str(name)
	if id != "" {
		p.attr("id", id+end)
	}
	p.str(">")
	p.text(text)
	p.str("</")
	p.str(name)
	p.str(">")
}

func (p *pen) shapes(all []Shape) {
	for _, s := range all {
		switch s := s.(type) {
		case Lines:
			p.lines(s)
		case Path:
			p.path(s)
		case Circle:
			p.str("<circle")
			p.class(s.Class)
			p.length("cx", s.X)
			p.length("cy", s.Y)
			p.length("r", s.R)
			p.str("/>")
		case Arc:
			p.arc(s)
		case Text:
			p.textLine(s)
		case Group:
			p.str("\n<g")
			p.attr("id", s.ID)
			p.attr("class", s.Class)
			p.attr("data-part", s.Part)
			p.str(">")
			p.shapes(s.Shapes)
			p.str("</g>")
		}
	}
}

func (p *pen) lines(l Lines) {
	if len(l.Segments) == 0 {
		return
	}
	p.str("<path")
	p.class(l.Class)
	p.str(` d="`)
	for _, s := range l.Segments {
		p.str("M")
		p.nums(s.A.X, s.A.Y)
		p.step(s.A, s.B)
	}
	p.str(`"/>`)
}

func (p *pen) path(s Path) {
	if len(s.Loops) == 0 {
		return
	}
	p.str("<path")
	p.class(s.Class)
	p.str(` d="`)
	for _, loop := range s.Loops {
		for i, q := range loop {
			if i == 0 {
				p.str("M")
				p.nums(q.X, q.Y)
				continue
			}
			p.step(loop[i-1], q)
		}
		if !s.Open {
			p.str("z")
		}
	}
	p.str(`"/>`)
}

func (p *pen) step(from, to Point) {
	switch {
	case from.Y == to.Y:
		p.str("H")
		p.num(to.X)
	case from.X == to.X:
		p.str("V")
		p.num(to.Y)
	default:
		p.str("L")
		p.nums(to.X, to.Y)
	}
}

func (p *pen) textLine(t Text) {
	p.str("<text")
	p.class(t.Class)
	p.length("x", t.X)
	p.length("y", t.Y)
	p.length("font-size", t.Size)
	if t.Upright {
		p.str(` transform="rotate(-90 `)
		p.nums(t.X, t.Y)
		p.str(`)"`)
	}
	if t.Inverted {
		p.str(` transform="rotate(180 `)
		p.nums(t.X, t.Y)
		p.str(`)"`)
	}
	switch t.Anchor {
	case Middle:
		p.str(` text-anchor="middle"`)
	case End:
		p.str(` text-anchor="end"`)
	}
	p.str(">")
	if t.Figure == "" {
		p.text(t.Text)
	} else {
		p.str(`<tspan class="figure">`)
		p.text(t.Figure)
		p.str("</tspan><tspan")
		p.length("dx", textGap*t.Size)
		p.str(">")
		p.text(t.Text)
		p.str("</tspan>")
	}
	if t.Old != "" {
		p.str(`<tspan class="dim-old"`)
		p.length("dx", textGap*t.Size)
		p.str(">")
		p.text(t.Old)
		p.str("</tspan>")
	}
	p.str("</text>")
}

func (p *pen) attr(name, value string) {
	if value == "" {
		return
	}
	p.str(" ")
	p.str(name)
	p.str(`="`)
	p.text(value)
	p.str(`"`)
}

func (p *pen) length(name string, v float64) {
	p.str(" ")
	p.str(name)
	p.str(`="`)
	p.num(v)
	p.str(`"`)
}

func (p *pen) nums(v ...float64) {
	for i, x := range v {
		if i > 0 {
			p.str(" ")
		}
		p.num(x)
	}
}

// num writes two decimals, none of them where they are nothing.
func (p *pen) num(v float64) {
	if !(math.Abs(v) < 1e12) {
		p.bad = true
		return
	}
	n := int64(math.Round(v * 100))
	b := p.buf
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	whole, part := n/100, n%100
	switch {
	case whole < 10:
		b = append(b, digit(whole))
	case whole < 100:
		b = append(b, digit(whole/10), digit(whole%10))
	case whole < 1000: // nearly all are
		b = append(b, digit(whole/100), digit(whole/10%10), digit(whole%10))
	default:
		b = strconv.AppendInt(b, whole, 10)
	}
	switch {
	case part == 0:
	case part%10 == 0:
		b = append(b, '.', digit(part/10))
	default:
		b = append(b, '.', digit(part/10), digit(part%10))
	}
	p.buf = b
}

func digit(n int64) byte { return byte('0' + n) }

// text escapes what has a meaning in XML, and drops what must not be in it.
func (p *pen) text(s string) {
	from := 0 // of what goes in as it is
	for i, r := range s {
		if r > '>' && r < utf8.RuneSelf || r == ' ' {
			continue // a letter, as most are
		}
		as, size := "", 1
		switch {
		case r == '&':
			as = "&amp;"
		case r == '<':
			as = "&lt;"
		case r == '>':
			as = "&gt;"
		case r == '"':
			as = "&#34;"
		case r == 0xfffe, r == 0xffff:
			size = 3
		case r == utf8.RuneError:
			as = string(r)
			_, size = utf8.DecodeRuneInString(s[i:])
		case r < ' ' && r != '\t' && r != '\n' && r != '\r':
		default:
			continue
		}
		p.str(s[from:i])
		p.str(as)
		from = i + size
	}
	p.str(s[from:])
}
