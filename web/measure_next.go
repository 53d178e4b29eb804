package web

import "strconv"

// mostNext is how many measurements are shown before the rest has to be opened.
const mostNext = 5

// measureNext is what to measure next, what could change most first.
type measureNext struct {
	First []nextLine `json:"first,omitempty"`
	Rest  []nextLine `json:"rest,omitempty"`
}

// nextLine is one measurement that is missing, assumed or rough.
type nextLine struct {
	Text string `json:"text"`
	Href string `json:"href"`
	Why  string `json:"why"`
	How  string `json:"how"`
}

// measureNext lists what to measure next, of all axes, or on the sheet of the axis with a key.
func (o opened) measureNext(axis string) (m measureNext) {
	for _, n := range o.Plan.MeasureNext() {
		line := nextLine{Text: n.Label, Href: o.fieldURL(n.Key), Why: n.Why, How: n.How}
		if n.With != "" && n.With != "counted or read off" {
			line.How = n.With + ": " + n.How
		}
		switch {
		case axis != "" && n.Axis != axis:
			continue
		case axis != "":
			line.Href = "#" + anchor(n.Field)
		case len(o.Layouts) > 0:
			line.Text = o.Layout(n.Axis).Label + ": " + n.Label
		}
		if len(m.First) < mostNext {
			m.First = append(m.First, line)
		} else {
			m.Rest = append(m.Rest, line)
		}
	}
	return m
}

// more says how many are not in sight.
func (m measureNext) more() string { return "and " + strconv.Itoa(len(m.Rest)) + " more" }
