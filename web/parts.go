package web

import (
	"crypto/rand"
	"net/http"
	"strings"

	"fettle/plan/drawing"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/ui"
)

// partsView is what an upgrade asks the workshop for, on paper, and what came out.
type partsView struct {
	Title      string        `json:"title"`
	Machine    string        `json:"machine"`
	Axis       string        `json:"axis"`
	State      upgrade.State `json:"state"`
	Units      string        `json:"units"`
	Saved      string        `json:"saved"`
	Revision   int64         `json:"revision"`
	Stale      *planStale    `json:"changed_meanwhile,omitempty"`
	Unreadable bool          `json:"unreadable"`
	Empty      []string      `json:"empty,omitempty"` // why no part is drawn, and what to do
	Came       []string      `json:"came,omitempty"`  // sizes that are not what was planned
	So         []string      `json:"so,omitempty"`    // what is to be made otherwise for it
	Follows    []partsShift  `json:"follows,omitempty"`
	Checks     planChecks    `json:"checks"`
	Parts      []partItem    `json:"parts"`
	Steps      []partStep    `json:"steps"`
	Sheets     []partSheet   `json:"sheets,omitempty"` // of the whole: assembly, order of fitting
	Kept       []planKept    `json:"kept,omitempty"`   // sizes as made of parts that are not needed now
	Findings   []string      `json:"findings,omitempty"`
	Picture    planPicture   `json:"-"`

	At         ui.Field `json:"-"`
	choice     partsChoice
	window     string
	path       string
	planURL    string
	machineURL string
}

// partsShift is a figure that came out otherwise for a size as made.
type partsShift struct {
	Label string `json:"label"`
	Was   string `json:"was"`
	Now   string `json:"now"`
	Href  string `json:"href"`
}

func (s *Server) partsShow(w http.ResponseWriter, r *http.Request) error {
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	view, err := s.partsOf(m, at, partsChoiceOf(r, m.LengthUnit()), planForm{
		revision: m.UpgradeRevisions[m.Upgrades[at].ID],
		window:   rand.Text(),
		saved:    "saved " + hour(m.Changed, s.now()),
	})
	if err != nil {
		return err
	}
	return s.reply(w, r, http.StatusOK, view)
}

// partsWriter puts one upgrade's parts into words and pictures.
type partsWriter struct {
	planWriter
	set    partsSet
	sheets []*drawing.Drawing
	view   *partsView
	steps  map[string]int // number of an operation by its key
}

// partsOf works the machine out with the upgrade counting, and arranges what it asks for.
func (s *Server) partsOf(m store.Stored, at int, choice partsChoice, typed planForm) (*partsView, error) {
	u := m.Upgrades[at]
	draft := ""
	if u.State == upgrade.Draft {
		draft = u.ID
	}
	p, err := m.Build(draft)
	if err != nil {
		return nil, err
	}
	v := &partsView{
		Title: u.Kind, Machine: m.Name, Axis: u.Axis, State: u.State, Units: "millimetres", Revision: typed.revision, Saved: typed.saved,
		choice: choice, window: typed.window, path: planPath(m.ID, u.ID) + "/parts", planURL: planPath(m.ID, u.ID), machineURL: machineURL(m.ID),
		Findings: findings(p, u.Axis),
	}
	if p.Units == unit.Inch {
		v.Units = "inches"
	}
	if kind, ok := upgrade.KindNamed(u.Kind); ok {
		v.Title = kind.About().Label
	}
	site := p.Site(u.ID)
	if site == nil {
		v.Empty = append([]string{"It cannot be worked out on this machine."}, v.Findings...)
		v.Findings = nil
		return v, nil
	}
	v.Axis = site.Layout.Label
	w := partsWriter{view: v, steps: map[string]int{},
		planWriter: planWriter{opened: opened{stored: m, Plan: p, at: sheet.Planned, draft: draft, axis: u.Axis}, site: site, open: typed.open, inputs: u.Inputs},
		set:        partsSet{stored: m, plan: p, site: site, make: site.Make(p.Result), choice: choice, today: s.now()}}
	if u.State == upgrade.Finished {
		w.at = sheet.Now
	}
	w.sheets = w.set.sheets()
	v.choice = w.set.choice
	v.Unreadable = len(site.Problems) > 0
	w.parts()
	w.kept()
	if len(v.Parts) == 0 {
		w.empty()
		return v, nil
	}
	w.whole()
	follows, err := m.Follows(p, u.ID, draft)
	if err != nil {
		return nil, err
	}
	w.follows(follows)
	if v.Checks = w.checks(p.Result.Checks()); len(u.Made) == 0 {
		v.Checks.Unchanged = nil
	}
	for _, all := range [][]ui.Check{v.Checks.Touched, v.Checks.Unchanged} {
		for i := range all {
			all[i].Actions = nil // they are the planning page's
		}
	}
	return v, nil
}

// empty says why there is nothing to make.
func (w *partsWriter) empty() {
	v := w.view
	for _, p := range w.site.Problems {
		if !strings.HasPrefix(p.Field, "made.") {
			v.Empty = []string{"A field of the plan cannot be read or is blank. Fill it in first; the parts follow from it."}
			return
		}
	}
	if f, ok := w.Result.Figure(w.site.Amount, sheet.Planned); w.site.Amount != "" && (!ok || !f.Known() || f.Value == 0) {
		v.Empty = []string{"Nothing is asked for yet. Say how much first; the parts follow from it."}
		return
	}
	switch {
	case len(w.set.make.Steps) > 0:
		v.Empty = []string{"No part is drawn for this. What is done, and in which order, is below."}
		w.work()
	case w.site.Kind.About().Guided:
		v.Empty = []string{"Whether it is to be done is not decided yet. Say so in the plan, and how it is done is shown here."}
	default:
		v.Empty = []string{"Nothing has to be made for this: what is there is enough."}
	}
}

// work is the order of work.
func (w *partsWriter) work() {
	for _, o := range w.set.make.Steps {
		w.view.Steps = append(w.view.Steps, w.step(o))
	}
}

// kept are sizes as made that no field of the page shows. They must not be lost.
func (w *partsWriter) kept() {
	shown := map[string]bool{}
	for _, p := range w.view.Parts {
		for _, row := range p.Made {
			shown[row.Name] = true
		}
	}
	for key, e := range w.site.Made {
		if !shown["made."+key] && e.Given() {
			w.view.Kept = append(w.view.Kept, planKept{Name: key, Value: e.Typed})
		}
	}
}

// whole is what is of all parts together: the assembly, and the order of work.
func (w *partsWriter) whole() {
	v := w.view
	v.Picture = w.picture()
	if w.set.choice.at != "" && w.set.choice.problem == "" {
		v.Picture = w.pictureAt(w.set.view("side"))
	}
	v.At = ui.Field{Name: "at", Label: "Assembly drawn with the " + w.site.Layout.Moves() + " at", Value: w.set.choice.at, Problem: w.set.choice.problem, Unit: w.Units.Symbol}
	if v.Picture.Slider != nil {
		v.At.Otherwise = v.Picture.Slider.Value
		v.At.Hint = v.Picture.Slider.Of
	}
	for i, d := range sheetsOf(w.sheets, "") {
		v.Sheets = append(v.Sheets, sheetOf(d, v.wholeFile(i)+".svg"))
	}
	w.work()
}

// file is the address of a file, less its ending and the choice.
func (v *partsView) file(name string) string { return v.path + "/" + name }

// wholeFile is the address of the files of the assembly, and of the order of fitting.
func (v *partsView) wholeFile(i int) string {
	if i == 0 {
		return v.file(assemblyFile)
	}
	return v.file(fittingFile)
}
