package web

import (
	"fmt"
	"strings"

	"fettle/plan/drawing"
	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/upgrade"
	"fettle/web/ui"
)

// partItem is one part.
type partItem struct {
	Key      string      `json:"key"`
	Label    string      `json:"label"`
	What     string      `json:"what"` // a new part, or an old one that is altered
	Material string      `json:"material"`
	Source   string      `json:"material_source,omitempty"`
	Quantity int         `json:"quantity"`
	Finish   string      `json:"finish,omitempty"`
	Notes    []string    `json:"notes,omitempty"`
	Rows     []partRow   `json:"sizes"`
	Made     []madeRow   `json:"as_made"`
	Steps    []partStep  `json:"steps"`
	Sheets   []partSheet `json:"sheets"`
	Dial     *partDial   `json:"dial,omitempty"`
	URL      string      `json:"url"` // of its files, less the ending
}

// partRow is one size as it stands on the drawing.
type partRow struct {
	Number  int             `json:"number"`
	Label   string          `json:"label"`
	Nominal string          `json:"nominal"`
	Upper   string          `json:"upper,omitempty"`
	Lower   string          `json:"lower,omitempty"`
	Limits  string          `json:"limits,omitempty"`
	Source  string          `json:"source,omitempty"`
	Suits   string          `json:"suits,omitempty"`
	Awaits  *ui.Link        `json:"awaits,omitempty"` // what settles it; nil where it is settled
	Key     string          `json:"key,omitempty"`
	Href    string          `json:"href,omitempty"` // where the figure is explained
	Explain *ui.Explanation `json:"explain,omitempty"`
	id      string
}

// partStep is one operation.
type partStep struct {
	Number   int      `json:"number"`
	Do       string   `json:"do"`
	Needs    string   `json:"needs,omitempty"`
	Takes    string   `json:"takes,omitempty"` // what the machine must be large enough for
	Out      string   `json:"out,omitempty"`   // what is out of use meanwhile
	After    string   `json:"after,omitempty"`
	Minutes  string   `json:"minutes,omitempty"`
	Record   string   `json:"record,omitempty"`
	Asks     []string `json:"asks,omitempty"` // questions to answer before it is begun
	Cautions []string `json:"cautions,omitempty"`
}

// partDial is how a dial is divided.
type partDial struct {
	Says  []string   `json:"says"`
	Lines []dialLine `json:"lines"`
	URL   string     `json:"url"`
	strip []byte
}

type dialLine struct {
	Number  int    `json:"number"`
	Numeral string `json:"numeral,omitempty"`
	Angle   string `json:"degrees"`
	Arc     string `json:"arc"`
	Length  string `json:"length"`
}

func (w *partsWriter) parts() {
	for i, o := range w.set.make.Steps {
		w.steps[o.Key] = i + 1
	}
	for i := range w.set.make.Parts {
		w.view.Parts = append(w.view.Parts, w.part(&w.set.make.Parts[i]))
	}
}

func (w *partsWriter) part(p *part.Part) partItem {
	item := partItem{Key: p.Key, Label: capital(p.Label), What: "new part", Quantity: p.Quantity, Finish: p.Finish, Notes: p.Notes,
		Material: "not chosen yet", URL: w.view.file(p.Key)}
	if p.Altered {
		item.What = "old part, altered"
	}
	if m, ok := material.Named(p.Material); ok {
		item.Material, item.Source = m.Name, m.Source
	}
	for _, d := range sheetsOf(w.sheets, p.Key) {
		item.Sheets = append(item.Sheets, sheetOf(d, ""))
	}
	if len(item.Sheets) > 0 {
		item.Sheets[0].Large = item.URL + ".svg"
	}
	for _, row := range drawing.Rows(p, drawing.SheetOptions{Units: w.Units}) {
		item.Rows = append(item.Rows, w.row(p, row))
	}
	for _, s := range p.Measured() {
		item.Made = append(item.Made, w.made(p, s))
	}
	for _, o := range p.Steps {
		item.Steps = append(item.Steps, w.step(o))
	}
	item.Dial = w.dial(p)
	return item
}

func (w *partsWriter) row(p *part.Part, r drawing.Row) partRow {
	row := partRow{Number: r.Number, Label: capital(r.Label), Nominal: r.Nominal, Upper: r.Upper, Lower: r.Lower, Limits: r.Limits, Source: r.Source,
		Suits: r.Suits, id: fmt.Sprintf("size-%s-%d", p.Key, r.Number)}
	if f, ok := w.Result.Figure(r.Key, w.at); ok {
		row.Key, row.Href, row.Explain = f.Key, w.link(f.Key), w.explain(f.Key)
	}
	if r.Awaits != "" {
		row.Awaits = w.awaited(r.Awaits)
	}
	return row
}

// awaited is what has to be measured before a size is settled: a figure of the machine, or a size as made.
func (w *partsWriter) awaited(key string) *ui.Link {
	if f, ok := w.Result.Figure(key, w.at); ok {
		return &ui.Link{Text: "measure the " + lowered(f.Label), Href: w.fieldURL(key)}
	}
	of, name, _ := strings.Cut(key, ".")
	for _, site := range append([]*upgrade.Site{w.site}, w.Sites...) { // its own part, or one of another upgrade
		mk := site.Make(w.Result)
		p, ok := mk.Part(of)
		if !ok {
			continue
		}
		for _, s := range p.Measured() {
			if s.Name != name {
				continue
			}
			l := ui.Link{Text: "measure the " + lowered(p.Label) + ", " + s.Label + ", as made", Href: "#made." + key}
			if site != w.site {
				l.Href = planPath(w.stored.ID, site.ID) + "/parts" + l.Href
			}
			return &l
		}
	}
	return &ui.Link{Text: "measure what it must suit"}
}

func (w *partsWriter) step(o part.Operation) partStep {
	s := partStep{Number: w.steps[o.Key], Do: o.Do, Record: o.Record, Asks: o.Asks, Cautions: o.Cautions}
	var needs []string
	for _, c := range o.Needs {
		needs = append(needs, string(c))
	}
	s.Needs = joined(needs)
	if o.Envelope[0] > 0 && o.Envelope[1] > 0 {
		s.Takes = w.Units.Text(o.Envelope[0], w.Units.Decimals) + " × " + w.length(o.Envelope[1])
	}
	if l := w.Layout(o.Out); l != nil {
		s.Out = lowered(l.Label)
		if w.site.Kind.About().Whole {
			s.Out = "the whole machine"
		}
	}
	var after []string
	for _, key := range o.After {
		if n := w.steps[key]; n > 0 {
			after = append(after, fmt.Sprint(n))
		}
	}
	s.After = joined(after)
	if o.Minutes[1] > 0 {
		s.Minutes = fmt.Sprintf("%g to %g min", o.Minutes[0], o.Minutes[1])
	}
	return s
}
