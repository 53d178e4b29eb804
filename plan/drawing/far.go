package drawing

import (
	"math"
	"slices"
	"strings"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Sizes of the bar, in CSS pixels: it is drawn as wide as the column it stands in.
const (
	farWide   = 312.0
	farTop    = 24.0
	farHigh   = 8.0
	farRow    = 20.0
	farLead   = 15.0 // from one line of a text to the next
	farLeast  = 84.0 // room for a text in several lines
	farType   = 13.0
	farAsked  = 15.0
	farMost   = 7 // marks; what lies further is of no interest yet
	farAround = 6.0
)

// FarBar draws "how far could I go?" as a bar: filled as far as every stop and
// rule holds, a mark for each limit, and the amount that is asked above it.
func FarBar(id string, reach sheet.Reach, amount float64, u unit.Unit) *Drawing {
	d := &Drawing{ID: id, Class: "far", Title: "How far could I go", PxPerUnit: 1, Width: farWide}
	limits := farLimits(reach)
	b := bar{unit: u, most: farthestShown(reach, limits, amount)}
	var g Shapes
	g.add(rectangle("far-track", 0, farWide, farTop, farTop+farHigh))
	from, to := b.x(reach.From), b.x(reach.To)
	if reach.To >= reach.From && to > from {
		g.add(rectangle("far-can", from, to, farTop, farTop+farHigh))
	}
	for _, i := range reach.Again {
		if from, to := b.x(i.From), b.x(i.To); to > from {
			g.add(rectangle("far-can", from, to, farTop, farTop+farHigh))
		}
	}
	rows := b.marks(&g, limits)
	if shown(amount) {
		x := b.x(amount)
		g.line("far-mark", x, farTop-6, x, farTop+farHigh+3)
		t := Text{Class: "far-asked", Y: farTop - 10, Size: farAsked, Text: b.number(amount)}
		half := t.width() / 2
		t.X = min(max(x, half), farWide-half)
		g.add(t)
	}
	d.Shapes = g
	d.Height = farTop + farHigh + 8 + rows
	d.Desc = b.describe(reach, limits, amount)
	return d
}

func shown(x float64) bool { return math.Abs(x) <= farthest }

func rectangle(class string, x0, x1, y0, y1 float64) Path {
	return Path{Class: class, Loops: [][]Point{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}}}
}

// farLimits are the limits that end somewhere, those at one place as one, nearest first.
func farLimits(r sheet.Reach) []sheet.Limit {
	var all []sheet.Limit
	for _, l := range r.Limits {
		if l.AsFound || l.Never || !shown(l.To) {
			continue
		}
		same := slices.IndexFunc(all, func(o sheet.Limit) bool { return math.Abs(o.To-l.To) < moved && o.Level == l.Level })
		if same >= 0 {
			all[same].Label += ", " + lower(l.Label)
			continue
		}
		all = append(all, l)
	}
	return all[:min(len(all), farMost)]
}

// farthestShown is the amount at the bar's right end: a round one beyond all that is shown.
func farthestShown(r sheet.Reach, limits []sheet.Limit, amount float64) float64 {
	most := 0.0
	for _, l := range limits {
		most = max(most, l.To)
	}
	if shown(amount) {
		most = max(most, amount)
	}
	if shown(r.To) && len(limits) == 0 {
		most = max(most, r.To)
	}
	if !(most > 0) {
		return 1
	}
	most *= 1.06
	step := math.Pow(10, math.Floor(math.Log10(most))) / 2
	return math.Ceil(most/step) * step
}

type bar struct {
	unit unit.Unit
	most float64
}

func (b bar) x(amount float64) float64 {
	if math.IsNaN(amount) {
		return 0
	}
	return min(max(amount/b.most, 0), 1) * farWide
}

func (b bar) number(v float64) string { return b.unit.Text(v, b.unit.Decimals) }

// farMark is a limit with its text, in as many lines as it takes.
type farMark struct {
	x     float64
	rule  bool
	lines []Text
}

// marks puts each limit on rows of its own: the text to the left of its line
// where there is room, so that lines further right pass it; else to the right,
// below all lines further right. It gives the height of it all.
func (b bar) marks(g *Shapes, limits []sheet.Limit) float64 {
	var left, right []farMark
	from := 0.0 // lines of texts to the right go down as far as here
	for _, l := range limits {
		m := farMark{x: b.x(l.To), rule: l.Level == sheet.Rule || l.Level == sheet.Note}
		t := Text{Size: farType, Figure: b.number(l.To), Text: lower(l.Label), Anchor: End}
		if l.Level == sheet.Use {
			t.Text += " (use)"
		}
		before, beyond := m.x-from-farAround, farWide-m.x-farAround
		if t.width() <= before || before >= farLeast || before > beyond {
			m.lines = t.broken(before)
			left = append(left, m)
		} else {
			t.Anchor = Start
			m.lines = t.broken(beyond)
			right = append(right, m)
			from = m.x + 2
		}
	}
	slices.Reverse(right)
	y := farTop + farHigh
	var lines, texts Shapes
	for _, m := range append(left, right...) {
		class := "far-line"
		if m.rule {
			class = "far-line far-rule"
		}
		foot := y + farRow + float64(len(m.lines)-1)*farLead
		lines.line(class, m.x, farTop+farHigh, m.x, foot)
		for i, t := range m.lines {
			t.X, t.Y = m.x+farAround-2, y+farRow-4+float64(i)*farLead
			if t.Anchor == End {
				t.X = m.x - farAround + 2
			}
			texts.add(t)
		}
		y = foot
	}
	g.add(lines...)
	g.add(texts...)
	return y - farTop - farHigh
}

// broken is the text in lines no wider than the room, broken between words; a
// word that is too long for itself is shortened.
func (t Text) broken(room float64) []Text {
	words := strings.Fields(t.Text)
	t.Text = ""
	lines := []Text{t}
	for _, word := range words {
		last := &lines[len(lines)-1]
		longer := *last
		longer.Text = strings.TrimSpace(longer.Text + " " + word)
		if longer.width() <= room || last.Text == "" && len(lines) > 1 {
			*last = longer.fitted(room)
			continue
		}
		t.Figure, t.Text = "", word
		lines = append(lines, t.fitted(room))
	}
	return lines
}

// fitted is the text, shortened until it is no wider than the room.
func (t Text) fitted(room float64) Text {
	r := []rune(t.Text)
	for len(r) > 1 && t.width() > room {
		r = r[:len(r)-1]
		t.Text = string(r[:len(r)-1]) + "…"
	}
	return t
}

func (b bar) describe(r sheet.Reach, limits []sheet.Limit, amount float64) string {
	say := ""
	if shown(amount) {
		say = b.unit.With(amount) + " asked. "
	}
	switch {
	case r.To < r.From || math.IsInf(r.To, -1):
		say += "There is no amount at which every check holds."
	case r.From > moved:
		say += "Every check holds from " + b.unit.With(r.From) + " to " + b.unit.With(r.To) + "."
	default:
		say += "Every check holds up to " + b.unit.With(r.To) + "."
	}
	if r.AtMost {
		say += " That is at most: something in the way is not measured."
	}
	for _, l := range limits {
		say += " At " + b.unit.With(l.To) + ": " + lower(l.Label)
		if l.Level != "" {
			say += " (" + string(l.Level) + ")"
		}
		say += "."
	}
	return say
}
