package web

import (
	"math"
	"net/http"
	"slices"

	"fettle/plan/drawing"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/web/ui"
)

// rangeView is how far each figure that was typed for an upgrade could go, and what its goal costs.
type rangeView struct {
	Title   string      `json:"title"`
	Machine string      `json:"machine"`
	Units   string      `json:"units"`
	Goal    string      `json:"goal,omitempty"`
	Curve   *rangeCurve `json:"curve,omitempty"`
	Rows    []rangeRow  `json:"figures"`
	Found   []string    `json:"as_found,omitempty"` // rules that the machine breaks as found: no end of any range
	URL     string      `json:"-"`                  // of the planning page
	Home    string      `json:"-"`                  // of the machine
}

// rangeCurve is the goal against its prices.
type rangeCurve struct {
	Along  string     `json:"varied"`
	Prices []string   `json:"prices"`
	Points [][]string `json:"points"` // the wish, the goal, then each price
	Frame  ui.Picture `json:"-"`
	svg    []byte
}

// rangeRow is one figure that was typed.
type rangeRow struct {
	Name   string   `json:"name"`
	Label  string   `json:"label"`
	Is     string   `json:"is"`
	From   string   `json:"from"`
	To     string   `json:"to"`
	Best   string   `json:"best,omitempty"` // the smallest that is as good as it gets
	None   bool     `json:"none,omitempty"` // no value does it all
	AtMost bool     `json:"at_most,omitempty"`
	Ends   []string `json:"ends"` // what stops it, nearest first
}

// planRange shows how far each input of an upgrade could go.
func (s *Server) planRange(w http.ResponseWriter, r *http.Request) error {
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	u := m.Upgrades[at]
	p, err := worked(m, u.ID)
	if err != nil {
		return err
	}
	site := p.Site(u.ID)
	if site == nil {
		return notFound("That upgrade cannot be worked out as it is.")
	}
	v := &rangeView{Title: site.Kind.About().Label, Machine: m.Name, Units: unitWords(m.Units), URL: planPath(m.ID, u.ID), Home: machineURL(m.ID)}
	o := opened{stored: m, Plan: p}
	if len(site.Goals) > 0 {
		if f, ok := p.Result.Figure(site.Goals[0].Key, sheet.Planned); ok {
			v.Goal = f.Label
		}
	}
	for _, x := range p.Reaches(site) {
		v.Rows = append(v.Rows, o.rangeRow(x))
		for _, l := range x.Limits {
			if l.AsFound && !slices.Contains(v.Found, l.Label) {
				v.Found = append(v.Found, l.Label)
			}
		}
	}
	if c, ok := p.Curve(site); ok {
		v.Curve = o.rangeCurve(c)
	}
	return s.reply(w, r, http.StatusOK, v)
}

func (o opened) rangeRow(x machine.InputReach) rangeRow {
	u := x.Field.Unit
	if u.Dim == unit.LengthD && u.Scale == unit.MM.Scale {
		u = o.Units
	}
	text := func(v float64) string { return u.With(v) }
	row := rangeRow{Name: x.Field.Name, Label: x.Field.Label, Is: text(x.Value), AtMost: x.AtMost}
	if x.Field.Group != "" && x.Field.Group != x.Field.Label {
		row.Label = x.Field.Group + ": " + lowered(x.Field.Label)
	}
	if x.To < x.From {
		row.None = true
	} else {
		row.From, row.To = text(x.From), text(x.To)
	}
	if x.Best > x.From && x.Best < x.To-u.Step() {
		row.Best = text(x.Best)
	}
	for _, l := range x.Limits {
		if !binds(l) {
			continue
		}
		switch {
		case l.Never:
			row.Ends = append(row.Ends, "never: "+lowered(l.Label))
		case l.From > 0 && !math.IsInf(l.To, 0):
			row.Ends = append(row.Ends, "from "+text(l.From)+" to "+text(l.To)+": "+lowered(l.Label))
		case l.From > 0:
			row.Ends = append(row.Ends, "from "+text(l.From)+" on: "+lowered(l.Label))
		default:
			row.Ends = append(row.Ends, "up to "+text(l.To)+": "+lowered(l.Label))
		}
	}
	return row
}

func (o opened) rangeCurve(c machine.Curve) *rangeCurve {
	out := &rangeCurve{Along: c.Amount.Label}
	var err error
	if out.svg, err = drawing.Curve("cost", c, o.Units).AppendSVG(nil); err != nil {
		return nil // the table says it all
	}
	out.Frame = ui.Picture{Label: "What " + lowered(c.Goal.Label) + " costs", Caption: "Blue: what comes with what. Red, dashed: the limit. The dot is what is asked."}
	for _, p := range c.Prices {
		out.Prices = append(out.Prices, p.Label)
	}
	text := func(f sheet.Figure, v float64) string {
		if math.IsNaN(v) {
			return "–"
		}
		return o.unitOf(f).With(v)
	}
	for i, p := range c.Points {
		if i%4 != 0 {
			continue
		}
		row := []string{text(c.Amount, p.Amount), text(c.Goal, p.Goal)}
		for j, v := range p.Prices {
			row = append(row, text(c.Prices[j].Figure, v))
		}
		out.Points = append(out.Points, row)
	}
	return out
}

// stop is how the sentence about a range ends.
func (r rangeRow) stop() string {
	if r.AtMost {
		return ", as far as is measured."
	}
	return "."
}
