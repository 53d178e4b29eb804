package web

import (
	"slices"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/web/form"
	"fettle/web/ui"
)

// sheetRow is one figure to measure: its letter on the picture, what to measure with what, and what was
// found. Its fields are called Name, Name.spread and so on; see axisIn.
type sheetRow struct {
	Letter    string      `json:"letter,omitempty"`
	Label     string      `json:"label"`
	How       string      `json:"how,omitempty"`
	Name      string      `json:"name"`
	Value     string      `json:"value"`
	Unit      string      `json:"unit,omitempty"`
	Otherwise string      `json:"otherwise,omitempty"` // what counts while nothing is given
	Spread    string      `json:"plus_minus"`
	SpreadIs  string      `json:"plus_minus_otherwise,omitempty"`
	With      []ui.Option `json:"-"`
	WithWord  string      `json:"with"`
	Origins   []ui.Option `json:"-"`
	Origin    string      `json:"origin"` // as for [ui.OriginMark]
	Source    string      `json:"source,omitempty"`
	On        string      `json:"on,omitempty"`
	Note      string      `json:"note,omitempty"`
	Choices   []ui.Option `json:"-"` // one of these words, not a figure
	List      bool        `json:"-"` // several figures in one field
	Exact     bool        `json:"-"` // nothing to be off by
	Problem   string      `json:"problem,omitempty"`
	Theirs    string      `json:"theirs,omitempty"` // what another window has saved
}

// sheetWriter arranges an axis on its sheet.
type sheetWriter struct {
	view     *sheetView
	form     *form.Form // as sent
	axis     axis.Axis
	layout   *axis.Layout // nil where the axis cannot be worked out
	units    unit.Unit
	letters  map[string]string
	problems map[string]string // by the field
}

func (w *sheetWriter) rows() {
	v := w.view
	v.Own, v.OwnMore = w.asked("", ownSizes(w.axis), w.axis.Entries)
	for i, p := range w.axis.Parts {
		v.Parts = append(v.Parts, w.part(i, p))
	}
	for _, o := range w.axis.Obstructions() {
		v.Obstacles = append(v.Obstacles, w.obstacle(o))
	}
	v.Left = v.unmeasured()
}

// unmeasured counts what is asked for and not given.
func (v *sheetView) unmeasured() int {
	n := 0
	count := func(rows []sheetRow) {
		for _, r := range rows {
			if r.Origin == string(sheet.Unknown) {
				n++
			}
		}
	}
	count(v.Own)
	for _, p := range v.Parts {
		count(p.Rows)
	}
	for _, o := range v.Obstacles {
		if !o.Clear.On {
			count([]sheetRow{o.Gap})
		}
	}
	return n
}

// row is one figure of the axis, or of a part where prefix is the part's key and a dot.
func (w *sheetWriter) row(prefix string, s axis.Size, e plan.Entry) sheetRow {
	name := prefix + s.Key
	r := sheetRow{
		Letter: w.letters[name], Label: s.Label, How: s.How, Name: name, Value: e.Typed, Spread: e.Spread, On: e.On, Note: e.Note,
		List: s.List, Exact: s.List || s.Unit == unit.Count, Unit: s.Unit.Symbol, Problem: w.problem(name, e), Origin: rowOrigin(s, e), Source: e.Note,
	}
	if s.Unit.Dim == unit.LengthD {
		r.Unit = w.units.Symbol
	}
	if s.Unit == unit.Count {
		r.Unit = ""
	}
	for _, c := range s.Choices {
		r.Choices = append(r.Choices, ui.Option{Value: c.Value, Text: c.Label, Chosen: c.Value == e.Typed})
	}
	if !e.Given() && s.Default != "" {
		r.Otherwise, r.Source = s.Default, s.Source
		if s.Unit == unit.MM && w.units != unit.MM {
			r.Otherwise += " mm"
		}
	}
	w.instruments(&r, s, e)
	for _, o := range origins {
		r.Origins = append(r.Origins, ui.Option{Value: string(o), Text: originWord(o), Chosen: o == e.Origin})
	}
	return r
}

// problem is what is wrong with a figure, or with what goes with it.
func (w *sheetWriter) problem(name string, e plan.Entry) string {
	if say := w.problems[name]; say != "" {
		return say
	}
	if say := w.problems[name+".spread"]; say != "" {
		return "plus or minus: " + say
	}
	if _, ok := dayTyped(e.On); !ok {
		return "give the day as 2026-03-14"
	}
	return ""
}

// rowOrigin is how a figure is marked on the sheet.
func rowOrigin(s axis.Size, e plan.Entry) string {
	switch {
	case e.Given() && e.Origin == sheet.AsMade:
		return "made"
	case e.Given() && (e.Origin == sheet.Assumed || e.Origin == sheet.Unknown):
		return string(e.Origin)
	case e.Given():
		return ""
	case s.Default != "":
		return string(sheet.Assumed)
	case s.Optional:
		return ""
	}
	return string(sheet.Unknown)
}

func originWord(o sheet.Origin) string {
	switch o {
	case "":
		return "measured"
	case sheet.Measured:
		return "measured, as said"
	case sheet.Unknown:
		return "doubtful: as if not measured"
	}
	return string(o)
}

// instruments are those that a figure can be measured with, the usual one first; and how far off a
// reading with the one that counts can be.
func (w *sheetWriter) instruments(r *sheetRow, s axis.Size, e plan.Entry) {
	usual, known := plan.InstrumentNamed(s.With)
	text := "not said"
	if known {
		text = usual.Label + ", as usual"
	}
	r.With = []ui.Option{{Value: "", Text: text, Chosen: e.With == ""}}
	for _, i := range plan.Instruments {
		r.With = append(r.With, ui.Option{Value: i.Key, Text: i.Label, Chosen: i.Key == e.With})
	}
	counts, ok := plan.InstrumentNamed(e.With)
	if !ok {
		counts, ok = usual, known && e.Origin == ""
	}
	if r.WithWord = usual.Label; e.With != "" {
		r.WithWord = counts.Label
	}
	if ok && s.Unit.Dim == unit.LengthD && counts.Within > 0 {
		r.SpreadIs = w.units.Text(counts.Within, w.units.Decimals+1)
	}
}

// asked parts what is asked for, or given, from what can be given beside it.
func (w *sheetWriter) asked(prefix string, sizes []axis.Size, entries map[string]plan.Entry) (rows, more []sheetRow) {
	for _, s := range sizes {
		row := w.row(prefix, s, entries[s.Key])
		beside := s.Optional && entries[s.Key] == (plan.Entry{})
		if w.form.Has(row.Name) { // it stays where it is while it is typed
			beside = slices.Contains(w.form.Values("also"), row.Name)
		}
		if beside {
			more = append(more, row)
		} else {
			rows = append(rows, row)
		}
	}
	return rows, more
}
