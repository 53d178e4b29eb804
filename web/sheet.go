package web

import (
	"bytes"
	"crypto/rand"
	"fmt"
	"math"
	"net/http"
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/drawing"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/store"
	"fettle/web/form"
	"fettle/web/ui"
)

// sheetView is the measuring sheet of one axis.
type sheetView struct {
	Machine   string           `json:"machine"`
	Label     string           `json:"label"`
	Units     string           `json:"units"`
	Datum     string           `json:"datum,omitempty"`
	Stands    string           `json:"stands,omitempty"` // how the axis stands while it is measured
	Revision  int64            `json:"revision"`
	Saved     string           `json:"saved"`
	Fault     string           `json:"fault,omitempty"`
	Tells     []sheetFigure    `json:"tells"` // what follows from the measurements
	Findings  []string         `json:"findings,omitempty"`
	Add       string           `json:"add,omitempty"`      // which part is missing: the one that stops it at an end
	Problems  []ui.Link        `json:"problems,omitempty"` // what cannot be read
	Next      measureNext      `json:"measure_next,omitzero"`
	Left      int              `json:"left_to_measure"`
	Own       []sheetRow       `json:"own"`
	OwnMore   []sheetRow       `json:"own_also,omitempty"` // not asked for by themselves
	Parts     []sheetPart      `json:"parts"`
	Obstacles []sheetObstacle  `json:"obstacles"`
	Limits    []sheetLimit     `json:"limits"`
	Questions []question       `json:"questions,omitempty"`
	Stale     []sheetDiffering `json:"changed_meanwhile,omitempty"`

	words     axisFields
	roles     []ui.Option
	ends      []ui.Option
	gone      []goneThing
	svg       []byte
	wide      float64 // of the picture, in mm of the machine
	desc      string
	drawAt    func(scale float64) (*drawing.Drawing, map[string]string)
	url       string
	window    string
	over      int64 // the revision that saving over it has to name
	machineAt string
}

// sheetFigure is a figure that follows from what was measured.
type sheetFigure struct {
	Label string `json:"label"`
	Value string `json:"value"`
	Href  string `json:"href"`
}

func (s *Server) sheet(w http.ResponseWriter, r *http.Request) error {
	m, a, err := s.axis(r)
	if err != nil {
		return err
	}
	view := s.sheetView(m, *a, form.New(nil), planForm{
		revision: m.AxisRevisions[a.Key], window: rand.Text(), saved: "saved " + hour(m.Changed, s.now()),
	})
	if r.URL.Query().Get("blank") != "" {
		view.onPaper()
		return s.reply(w, r, http.StatusOK, blankSheet{view})
	}
	return s.reply(w, r, http.StatusOK, view)
}

// sheetView arranges the sheet of an axis as typed, with what follows from it.
func (s *Server) sheetView(m store.Stored, a axis.Axis, f *form.Form, typed planForm) *sheetView {
	v := &sheetView{
		Machine: m.Name, Label: a.Label, Units: unitsName(m.Machine), Datum: a.Datum, Stands: a.Stands(), Revision: typed.revision, Saved: typed.saved,
		words: sheetWords(a, f), url: axisURL(m.ID, a.Key), window: typed.window, machineAt: machineURL(m.ID),
	}
	w := sheetWriter{view: v, form: f, axis: a, units: m.LengthUnit(), problems: map[string]string{}}
	for _, p := range f.Problems() {
		w.problems[p.Field] = p.Say
	}
	w.work(m)
	w.rows()
	v.Questions = w.questions()
	v.roles = roleOptions("other")
	v.ends = endOptions(a, axis.Plus)
	return v
}

func unitsName(m machine.Machine) string {
	if m.Units == "in" {
		return "inches"
	}
	return "millimetres"
}

// sheetWords is the form for the words of an axis.
func sheetWords(a axis.Axis, f *form.Form) axisFields {
	if f.Has("label") {
		return newAxisFields(f)
	}
	return newAxisFields(form.New(map[string][]string{"label": {a.Label}, "arrangement": {a.Arrangement}, "capacity": {a.Capacity},
		"plus": {a.Plus}, "minus": {a.Minus}, "datum": {a.Datum}}))
}

// work works the axis out, by itself: other axes have no say in what is measured here.
func (w *sheetWriter) work(m store.Stored) {
	v := w.view
	alone := machine.Machine{Name: m.Name, Kind: m.Kind, Units: m.Units, Axes: []axis.Axis{w.axis}}
	for _, u := range m.Upgrades {
		if u.Axis == w.axis.Key {
			alone.Upgrades = append(alone.Upgrades, u)
		}
	}
	p, err := alone.Build("")
	if err != nil {
		v.Fault = err.Error()
		return
	}
	w.layout = p.Layouts[0]
	o := opened{stored: m, Plan: p, at: sheet.Found}
	for _, name := range sheetFigures(w.layout) {
		key := w.layout.Find(name)
		if f, ok := p.Result.Figure(key, sheet.Found); ok {
			v.Tells = append(v.Tells, sheetFigure{Label: capital(f.Label), Value: figureText(p.Result, p.Units, f), Href: o.link(key)})
		}
	}
	v.Findings = p.Findings
	v.Add = addWhat(w.layout)
	for _, problem := range p.Problems {
		local := sheet.Local(problem.Field, w.axis.Key)
		if w.problems[local] == "" {
			w.problems[local] = problem.Say
		}
		v.Problems = append(v.Problems, ui.Link{Text: o.fieldLabel(problem.Field), Href: "#" + anchor(local)})
	}
	v.Next = o.measureNext(w.axis.Key)
	w.limits(alone, p)
	w.draw(p)
}

// draw makes the picture, with its letters.
func (w *sheetWriter) draw(p *machine.Plan) {
	layout := w.layout
	w.view.drawAt = func(scale float64) (*drawing.Drawing, map[string]string) {
		return drawing.MeasureView(layout, p.Result, drawing.Options{ID: "measures", Units: p.Units, Scale: scale})
	}
	d, letters := w.view.drawAt(0)
	w.letters = letters
	w.view.picture(d)
}

func (v *sheetView) picture(d *drawing.Drawing) {
	var svg bytes.Buffer
	if d.SVG(&svg) == nil {
		v.svg, v.desc = svg.Bytes(), d.Title
		v.wide = d.Width
	}
}

// paperWide is what a sheet of A4 takes between its margins, in mm.
const paperWide = 186

// onPaper draws the picture as large as the paper takes it, so that its letters are as large as they are meant.
func (v *sheetView) onPaper() {
	if v.drawAt == nil || v.svg == nil {
		return
	}
	scale := 0.0
	for range 3 { // what stands around the parts takes room too, less of it the larger they are
		if scale = paperWide / v.wide; math.IsInf(scale, 0) {
			return
		}
		d, _ := v.drawAt(scale)
		v.picture(d)
	}
}

func (w *sheetWriter) questions() []question {
	arrangement, _ := axis.ArrangementNamed(w.axis.Arrangement)
	var all []question
	for _, q := range arrangement.Questions {
		ask := question{Key: q.Key, Ask: q.Ask, Answer: w.axis.Answers[q.Key]}
		if ask.Answer == "yes" {
			ask.Advice = q.Advice
		}
		all = append(all, ask)
	}
	return all
}

func orDash(text string) string {
	if text == "" {
		return "–"
	}
	return text
}

// addWhat asks for the part that stops an axis where none on its sheet does; "" where they all may.
func addWhat(l *axis.Layout) string {
	var ends []string
	for _, e := range []axis.End{axis.Minus, axis.Plus} {
		if l.Unexplained(e) {
			ends = append(ends, l.EndName(e))
		}
	}
	if ends == nil {
		return ""
	}
	return "Add what stops it " + strings.Join(ends, " and ")
}

// begun tells whether anything of the parts was measured.
func (v *sheetView) begun() bool {
	return slices.ContainsFunc(v.Parts, func(p sheetPart) bool { return p.Begun })
}

// caption is what is said under the picture.
func (v *sheetView) caption() string {
	say := "The letters are those of the list below."
	if bytes.Contains(v.svg, []byte("ln-guessed")) {
		say += " In dashes: the outline only, not measured yet, where such a part usually is."
	}
	return say
}

// alsoWords names what else can be measured of a part.
func alsoWords(rows []sheetRow) string {
	words := make([]string, len(rows))
	for i, r := range rows {
		words[i] = r.Label
	}
	return "Also: " + strings.Join(words, ", ")
}

// fresh is an id that no other number of parts and obstacles has.
func (v *sheetView) fresh(id string) string {
	return fmt.Sprintf("%s-%d-%d", id, len(v.Parts), len(v.Obstacles))
}

// about says what the page is, under its title.
func (v *sheetView) about() string {
	if v.Datum == "" {
		return "measuring sheet"
	}
	return "measuring sheet, positions from " + v.Datum
}
