package drawing

import (
	"math"
	"slices"
	"strings"

	"fettle/plan/dial"
	"fettle/plan/part"
	"fettle/plan/unit"
)

// DialLine is one line of a dial, counted from the zero line the way the
// numerals grow.
type DialLine struct {
	Number  int
	Angle   float64 // degrees from the zero line
	Arc     float64 // mm along the strip from the zero line
	Length  float64 // mm
	Width   float64 // mm
	Height  float64 // of the numeral in mm; 0 where there is none
	Numeral string
}

// DialTable is how to divide a dial: its lines, and what a dividing head does
// from each to the next. Moves is nil where plain indexing cannot do it with
// those circles; Around then says what can.
type DialTable struct {
	Lines  []DialLine
	Ratio  int
	Moves  []dial.Move
	Around []dial.Around
}

// mostLines is how many lines of a dial are drawn.
const mostLines = 2000

// DialLines are the lines of a dial, the zero line first.
func DialLines(d *part.Dial) []DialLine {
	n := min(d.Divisions, mostLines)
	if n < 1 {
		return nil
	}
	lines := make([]DialLine, n)
	long := stripLength(d)
	for i := range lines {
		lines[i] = DialLine{Number: i, Angle: float64(i) * 360 / float64(n), Arc: float64(i) * long / float64(n)}
		for _, m := range d.Every {
			if m.Divisions > 0 && i%m.Divisions == 0 {
				lines[i].Length, lines[i].Width = finite(m.Length), finite(m.Width)
				if m.Numeral > 0 {
					lines[i].Height = finite(m.Numeral)
					lines[i].Numeral = unit.One.Text(float64(i/m.Divisions)*m.Step, 4)
				}
				break
			}
		}
	}
	return lines
}

func finite(v float64) float64 {
	if !(v > 0) {
		return 0
	}
	return min(v, 1000)
}

// Dividing is a dial's table for a dividing head: ratio is that of its worm, 40
// for most; circles are the holes of its plates.
func Dividing(d *part.Dial, ratio int, circles []int) DialTable {
	t := DialTable{Lines: DialLines(d), Ratio: ratio}
	if t.Moves = dial.Turns(d.Divisions, ratio, circles); t.Moves == nil {
		t.Around = dial.Differential(d.Divisions, ratio, circles, nil, 3)
	}
	return t
}

// stripLength is π D: what the strip measures around the dial.
func stripLength(d *part.Dial) float64 { return math.Pi * size(d.Dia) }

// rim is a dial's rim laid flat, the bracket's side above and the handle's
// below, from 0 to its length. It begins half way between two lines, as far as
// may be from a numeral.
type rim struct {
	d          *part.Dial
	lines      []DialLine
	long, wide float64
	start      float64 // of the zero line
}

func rimOf(d *part.Dial) *rim {
	s := &rim{d: d, lines: DialLines(d), long: stripLength(d), wide: size(d.Width)}
	numbered := 1
	for _, m := range d.Every {
		if m.Numeral > 0 && m.Divisions > 0 {
			numbered = m.Divisions
		}
	}
	if n := len(s.lines); n > 0 {
		last := n % numbered // lines from the last numeral to the zero
		if last == 0 {
			last = numbered
		}
		s.start = (float64(min(last, n)/2) + 0.5) * s.long / float64(n)
	}
	return s
}

// at is where a line stands on the strip.
func (s *rim) at(l DialLine) float64 {
	x := s.start + l.Arc
	if !s.d.Clockwise { // they grow to the left with the handle's side below
		x = s.start - l.Arc
	}
	x = math.Mod(x, s.long)
	if x < 0 {
		x += s.long
	}
	return x
}

// between draws the lines and numerals from a to b, from x on.
func (s *rim) between(g *Shapes, a, b, x float64) {
	byWidth := map[float64]*Lines{}
	var widths []float64
	var texts []Shape
	draw := func(l DialLine, at float64) {
		if at < a-same || at > b+same {
			return
		}
		if byWidth[l.Width] == nil {
			byWidth[l.Width] = &Lines{Class: "ln-mark"}
			widths = append(widths, l.Width)
		}
		at += x - a
		w := byWidth[l.Width]
		long := min(l.Length, s.wide)
		w.Segments = append(w.Segments, Segment{Point{at, 0}, Point{at, long}})
		if l.Numeral != "" {
			t := Text{Class: "numeral", X: at, Y: long + numeralApart + l.Height, Size: l.Height / capShare, Text: l.Numeral}
			if !s.d.Upright {
				t.Y, t.Inverted = long+numeralApart, true
			}
			// A numeral that the end of a piece would cut stands whole on the next.
			if x0, x1, _, _ := t.Box(); b-a >= s.long-same || x0 >= x-same && x1 <= x+b-a+same {
				texts = append(texts, t)
			}
		}
	}
	for _, l := range s.lines {
		at := s.at(l)
		draw(l, at)
		draw(l, at+s.long) // beyond the end: what the overlap covers
	}
	slices.Sort(widths)
	for _, w := range widths {
		g.add(*byWidth[w])
	}
	g.add(texts...)
}

// DialStrip is a dial's rim laid flat at true size, for engraving, cutting or
// printing: its lines, its numerals and its outline, and nothing else. nil
// where there is nothing marked.
func DialStrip(p *part.Part, id string) *Drawing {
	if p.Dial == nil || len(DialLines(p.Dial)) == 0 || stripLength(p.Dial) == 0 {
		return nil
	}
	s := rimOf(p.Dial)
	d := &Drawing{ID: id, Class: "drawing dial-strip", Title: p.Label + ", strip", Desc: strings.Join(s.says(), " "), Width: s.long, Height: s.foot(), PxPerUnit: 96 / 25.4,
		Paper: &Sheet{Scale: 1, Part: p.Key, Label: p.Label + ", strip", Frame: [4]float64{0, 0, s.long, s.foot()}, Number: 1, Of: 1}}
	var g Shapes
	g.add(edgesOf("ln-thin", [][]Point{corners(box{0, s.long, 0, s.wide})}))
	s.between(&g, 0, s.long, 0)
	d.Shapes = g
	return d
}

// says are what a reader of the strip must know.
func (s *rim) says() []string {
	n := len(s.lines)
	grow, stand := "to the right, so clockwise seen from the handle", "upright with the handle towards the reader"
	if !s.d.Clockwise {
		grow = "to the left, so anticlockwise seen from the handle"
	}
	if !s.d.Upright {
		stand = "upright with the handle away from the reader"
	}
	value := ""
	if s.d.Value != "" {
		value = " of " + s.d.Value
	}
	say := []string{
		itoa(n) + " divisions" + value + ", " + unit.One.Text(360/float64(n), 4) + "° apart; on the strip " + unit.MM.Text(s.long/float64(n), 4) + " mm.",
		"The handle's side is below. Numerals grow " + grow + "; they are " + stand + ".",
		"The strip is π × " + unit.MM.Text(s.d.Dia.Nominal, 3) + " = " + unit.MM.Text(s.long, 3) + " mm long. A printed one that is wrapped around must be longer by π times its thickness.",
	}
	if over := s.foot() - s.wide; over > same {
		say = append(say, "With these sizes the numerals reach "+unit.MM.Text(over, 1)+" mm over the handle's edge.")
	}
	return say
}

// foot is the lower edge of the strip, or of its numerals where they reach over it.
func (s *rim) foot() float64 {
	foot := s.wide
	for _, l := range s.lines {
		if l.Numeral != "" {
			foot = max(foot, min(l.Length, s.wide)+numeralApart+l.Height)
		}
	}
	return foot
}

// Of strips on paper, in mm.
const (
	numeralApart = 0.8 // from a line to its numeral
	stripOverlap = 10.0
	stripApart   = 26.0 // from one piece to the next, with what is written between
)

// dialPages are the strip at true size, in pieces where it is longer than the paper.
func dialPages(p *part.Part, n int, opt SheetOptions) []*page {
	if DialStrip(p, "") == nil {
		return nil
	}
	s := rimOf(p.Dial)
	wide := func(across bool) float64 {
		g := newPage(p, n, 1, across, opt)
		return g.free.x1 - g.free.x0
	}
	across := s.long+stripOverlap > wide(false)
	room := wide(across)
	// As many pieces as are needed, of one length, each with a tab under the next.
	count := max(1, int(math.Ceil(s.long/(room-stripOverlap)-same)))
	step := s.long / float64(count)
	var pages []*page
	start := func() *page {
		g := newPage(p, n, 1, across, opt)
		g.label = capital(p.Label) + ", strip"
		g.fill.title = g.label
		g.fill.kind = "strip at true size"
		say := s.says()
		if count > 1 {
			say = append(say, "Cut out, lay each piece over the tab of the one before, line on line.")
		}
		g.write(append(say, "Print at 100 %, not fitted to the page, and measure the check line."))
		pages = append(pages, g)
		return g
	}
	g := start()
	y := g.free.y0 + 10
	for i := range count {
		if y+s.foot()+14 > g.free.y1 && y > g.free.y0+10 {
			g = start()
			y = g.free.y0 + 10
		}
		g.strip(s, float64(i)*step, float64(i+1)*step+stripOverlap, y, i, count)
		y += s.foot() + stripApart
	}
	return pages
}

// strip puts one piece of a strip on the page, its bracket side at y.
func (g *page) strip(s *rim, a, b, y float64, i, n int) {
	var all Shapes
	x := g.free.x0
	s.between(&all, a, b, 0)
	long := b - a
	end := long - stripOverlap // the tab under the next piece, or under the first
	all.add(edgesOf("ln-thin", [][]Point{corners(box{0, long, 0, s.wide})}),
		Lines{"ln-hidden", []Segment{{Point{end, -3}, Point{end, s.wide + 3}}}},
		Path{Class: "dim-arrow", Loops: [][]Point{{{end, -1}, {end - 1, -3}, {end + 1, -3}}}})
	if i > 0 {
		all.add(Path{Class: "dim-arrow", Loops: [][]Point{{{0, -1}, {-1, -3}, {1, -3}}}})
	}
	tab := "tab, under " + letter(i+1)
	if i == n-1 {
		tab = "tab, under the start"
	}
	name := ""
	if n > 1 {
		name = letter(i) + "   "
	}
	line := -1.6
	if long < 64 { // no room for both beside one another
		line -= noteHigh
	}
	all.add(Text{Class: "sheet-text", X: 3, Y: -1.6, Size: noteSize, Anchor: Start, Text: name + "bracket's side"},
		Text{Class: "sheet-text", X: max(end-2, textWidth(tab, noteSize)), Y: line, Size: noteSize, Anchor: End, Text: tab},
		Text{Class: "sheet-text", X: 3, Y: s.foot() + 4, Size: noteSize, Anchor: Start, Text: "handle's side"})
	if n == 1 {
		v := &view{k: 1, words: &words{units: unit.MM}, body: box{0, long, 0, s.foot() + 3}}
		v.put(mark{size: part.Size{Label: "length of the strip", Nominal: s.long}, text: v.words.length(s.long) + " = π × " + v.words.length(size(s.d.Dia)), side: below, a: 0, b: s.long, fa: s.wide, fb: s.wide}, nil)
		g.place(v, x, y)
	}
	g.shapes = append(g.shapes, all.shifted(x, y)...)
}

// dialLines draws the lines that are seen on the rim of a dial from the side,
// below the axis, as far as they stand apart there.
func (v *view) dialLines(d *part.Dial, t *turning) {
	r := size(d.Dia) / 2
	for _, s := range t.steps {
		if math.Abs(size(s.Dia)/2-r) > same || r == 0 {
			continue
		}
		x := s.from
		if s.chamfered[0] {
			x += s.chamfer()
		}
		marks := Lines{Class: "ln-mark"}
		last := math.Inf(-1)
		for _, l := range DialLines(d) {
			if l.Angle > 90 {
				break
			}
			y := v.k * r * math.Sin(l.Angle*math.Pi/180)
			if y-last < 0.7 && l.Numeral == "" {
				continue
			}
			last = y
			marks.Segments = append(marks.Segments, Segment{Point{v.k * x, y}, Point{v.k * min(x+l.Length, s.to), y}})
		}
		v.lines.add(marks)
		return
	}
}
