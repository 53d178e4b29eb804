package web

import (
	"math"
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
	if w.layout != nil {
		for _, t := range w.layout.Thresholds() {
			v.Limits = append(v.Limits, w.limit(t))
		}
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

// part is one part: what is asked first, and what can be given beside it.
func (w *sheetWriter) part(i int, p axis.Part) sheetPart {
	role, _ := axis.RoleNamed(p.Role)
	sp := sheetPart{Key: p.Key, Label: p.Label, Role: role.Label, Side: sideWord(p.Side), Words: w.partWords(i, p),
		Up: i > 0, Down: i < len(w.axis.Parts)-1}
	sp.Rows, sp.More = w.asked(p.Key+".", p.Sizes(), p.Entries)
	return sp
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

func sideWord(s axis.Side) string {
	if s == axis.Moving {
		return "moves with the slide"
	}
	return "stays"
}

// materials are those that a part is made of, as the axis tells them apart.
var materials = []ui.Option{
	{Value: "", Text: "not said"}, {Value: "cast_iron", Text: "cast iron"}, {Value: "steel", Text: "steel"},
	{Value: "aluminium", Text: "aluminium"}, {Value: "bronze", Text: "bronze"}, {Value: "brass", Text: "brass"},
}

func (w *sheetWriter) partWords(i int, p axis.Part) partWords {
	at := p.Key + "."
	problem := func(name string) string { return w.problems[at+name] }
	role, _ := axis.RoleNamed(p.Role)
	usual := "as usual for its role: " + lanesOut(role.Lanes)
	if len(role.Lanes) == 0 {
		usual = "as usual for its role: none"
	}
	made := materials
	if !slices.ContainsFunc(made, func(o ui.Option) bool { return o.Value == p.Material }) {
		made = append(slices.Clone(made), ui.Option{Value: p.Material, Text: p.Material})
	}
	words := partWords{
		Label: ui.Field{Name: at + "label", Label: "Name", Value: p.Label},
		Role:  ui.Choice{Name: at + "role", Label: "What it is", Options: roleOptions(p.Role), Problem: problem("role")},
		Side: ui.Choice{Name: at + "side", Label: "It", Options: chosen([]ui.Option{
			{Value: string(axis.Fixed), Text: sideWord(axis.Fixed)}, {Value: string(axis.Moving), Text: sideWord(axis.Moving)}}, string(p.Side))},
		Tie:      ui.Choice{Name: at + "tie", Label: "Where it lies", Options: w.ties(i, p), Problem: problem("tie")},
		Material: ui.Choice{Name: at + "material", Label: "Made of", Options: chosen(made, p.Material)},
		Lanes: ui.Field{Name: at + "lanes", Label: "Lanes", Value: lanesOut(p.Lanes),
			Hint: "parts that share one can meet; blank: " + usual},
	}
	words.Open = words.Role.Problem != "" || words.Tie.Problem != "" || problem("key") != ""
	return words
}

// ties are the faces that a part can follow: those of the parts above it.
func (w *sheetWriter) ties(i int, p axis.Part) []ui.Option {
	is := ""
	if p.Tie != nil {
		is = p.Tie.Part + "." + p.Tie.Face
	}
	options := []ui.Option{{Value: "", Text: "measured from the datum face"}}
	for _, on := range w.axis.Parts[:i] {
		options = append(options,
			ui.Option{Value: on.Key + ".to", Text: "follows the end of the " + on.Label},
			ui.Option{Value: on.Key + ".from", Text: "follows the start of the " + on.Label})
	}
	if !slices.ContainsFunc(options, func(o ui.Option) bool { return o.Value == is }) {
		options = append(options, ui.Option{Value: is, Text: "follows " + is})
	}
	return chosen(options, is)
}

func roleOptions(is string) []ui.Option {
	options := make([]ui.Option, 0, len(axis.Roles)+1)
	for _, r := range axis.Roles {
		options = append(options, ui.Option{Value: r.Key, Text: r.Label})
	}
	if _, known := axis.RoleNamed(is); !known && is != "" {
		options = append(options, ui.Option{Value: is, Text: is})
	}
	return chosen(options, is)
}

func endOptions(a axis.Axis, is axis.End) []ui.Option {
	return chosen([]ui.Option{
		{Value: string(axis.Plus), Text: capital(a.EndName(axis.Plus)) + " end"},
		{Value: string(axis.Minus), Text: capital(a.EndName(axis.Minus)) + " end"}}, string(is))
}

// gapSize is what is asked of an obstacle.
var gapSize = axis.Size{Key: "gap", Label: "gap that is left at the end of the travel", Unit: unit.MM, With: "rule",
	How: "wind the slide right to that end, and measure what is still free"}

func (w *sheetWriter) obstacle(o axis.Obstacle) sheetObstacle {
	arrangement, _ := axis.ArrangementNamed(w.axis.Arrangement)
	so := sheetObstacle{Key: o.Key,
		Label: ui.Field{Name: o.Key + ".label", Label: "What", Value: o.Label},
		End:   ui.Choice{Name: o.Key + ".end", Label: "At the", Options: endOptions(w.axis, o.End)},
		Clear: ui.Tick{Name: o.Key + ".clear", Label: "there is none, or it cannot be met", On: o.Clear},
		Gap:   w.row(o.Key+".", gapSize, o.Gap),
		Own:   !slices.ContainsFunc(arrangement.Obstacles, func(u axis.Usual) bool { return u.Key == o.Key }),
	}
	if so.Clear.On {
		so.Gap.Origin = ""
	}
	return so
}

func (w *sheetWriter) limit(t axis.Threshold) sheetLimit {
	u := t.Unit
	if u == unit.MM {
		u = w.units
	}
	e := w.axis.Entries[t.Key]
	otherwise := "as worked out"
	if !math.IsNaN(t.Default) {
		otherwise = u.With(t.Default)
	}
	return sheetLimit{Key: t.Key, Label: capital(t.Label), Changed: t.Changed, Source: t.Source,
		Value: ui.Field{Name: t.Key, Label: capital(t.Label), Value: e.Typed, Unit: u.Symbol, Otherwise: otherwise, Problem: w.problem(t.Key, e)},
		Note:  ui.Field{Name: t.Key + ".note", Label: "Why it was changed", Value: e.Note},
	}
}
