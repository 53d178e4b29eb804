package web

import (
	"slices"
	"strconv"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/ui"
)

// planView is the planning page: one upgrade, and all that follows from it.
type planView struct {
	Title      string        `json:"title"`
	Machine    string        `json:"machine"`
	Axis       string        `json:"axis"`
	State      upgrade.State `json:"state"`
	Since      string        `json:"since,omitempty"` // when it was fitted: "on 2 March 2026"
	Units      string        `json:"units"`
	Saved      string        `json:"saved"`
	Revision   int64         `json:"revision"`
	Purpose    string        `json:"purpose"`
	Stale      *planStale    `json:"changed_meanwhile,omitempty"`
	Top        []planRow     `json:"fields"`
	Sizes      []planRow     `json:"sizes,omitempty"` // further fields, where there are too many to stand on top
	Groups     []planGroup   `json:"groups"`
	Record     []ui.Input    `json:"record,omitempty"`   // in place of the fields, where it is fitted
	Kept       []planKept    `json:"kept,omitempty"`     // typed before, and of no effect at the present amount
	Unreadable bool          `json:"unreadable"`         // a field cannot be read, so that nothing is worked out
	Doubtful   []ui.Link     `json:"doubtful,omitempty"` // measurements that cannot be read, and so count as not measured
	Answer     string        `json:"answer"`
	Picture    planPicture   `json:"-"`
	Reach      *planReach    `json:"reach,omitempty"`
	KnockOns   []ui.KnockOn  `json:"knock_ons"`
	Checks     planChecks    `json:"checks"`
	Questions  []planAsk     `json:"questions,omitempty"`
	Findings   []string      `json:"findings,omitempty"`
	With       string        `json:"with,omitempty"` // the other upgrades that are planned
	Cautions   []string      `json:"cautions,omitempty"`
	Proof      string        `json:"proof,omitempty"`
	Guided     bool          `json:"guided"`            // it tells how, and computes no more than it has formulas for
	Measure    []string      `json:"measure,omitempty"` // what to measure first
	Rest       []ui.KnockOn  `json:"rest_of_the_plan,omitempty"`

	runs       []upgrade.Run // of the answer
	window     string
	path       string
	machineURL string
	axisURL    string
	whole      bool      // of the whole machine
	wish       *ui.Field // the field that says how much; nil where the kind has none
	blank      bool      // and it is not said yet
}

// planAsk is a question that no sum can answer.
type planAsk struct {
	Key    string `json:"key"`
	Ask    string `json:"ask"`
	Answer string `json:"answer,omitempty"`
	Advice string `json:"advice,omitempty"` // what follows from a yes
}

// plan works the machine out with the upgrade at counting, and puts it into words.
func (s *Server) plan(m store.Stored, at int, typed planForm) (*planView, error) {
	k, err := s.plans.take(m, at)
	if err != nil {
		return nil, err
	}
	v := planOf(k.Plan, m, at, typed)
	s.plans.give(k)
	return v, nil
}

// planOf puts a machine that is worked out into words.
func planOf(p *machine.Plan, m store.Stored, at int, typed planForm) *planView {
	u := m.Upgrades[at]
	v := planHead(p, m, u, typed)
	site := p.Site(u.ID)
	if site == nil { // the findings say why
		return v
	}
	if !v.whole {
		v.Axis = site.Layout.Label
	}
	w := planWriter{opened: opened{stored: m, Plan: p, at: sheet.Planned, draft: own(u), axis: u.Axis}, site: site, open: typed.open, inputs: u.Inputs}
	w.fields(v)
	if u.State == upgrade.Finished {
		v.Title += ", as made"
		v.recorded()
	}
	v.Doubtful = w.doubtful()
	v.With = w.others()
	if !v.whole {
		v.Questions = w.questions()
		v.Picture = w.picture()
		if v.Unreadable || !v.asked() {
			v.Picture.Frame.Caption = "As it is now."
		}
	}
	if v.Unreadable {
		return v
	}
	v.runs = site.Kind.Answer(site, p.Result)
	v.Answer = upgrade.Text(v.runs)
	results := p.Result.Checks()
	if u.State != upgrade.Finished {
		v.Reach = w.reach(results, v.asked())
	}
	if !v.asked() {
		return v
	}
	if v.With != "" {
		w.follows = p.Result.FollowsFrom(site.Author)
	}
	v.KnockOns, v.Rest = w.knockOns()
	v.Checks = w.checks(results)
	for _, c := range p.Result.Conflicts() {
		v.Findings = append(v.Findings, sentence(c.Error()))
	}
	v.Findings = append(v.Findings, p.Result.Faults()...)
	return v
}

// planHead is what of the page is there whatever comes of the upgrade.
func planHead(p *machine.Plan, m store.Stored, u upgrade.Upgrade, typed planForm) *planView {
	v := &planView{
		Title: u.Kind, Machine: m.Name, Axis: u.Axis, State: u.State, Since: since(u), Units: "millimetres",
		Revision: typed.revision, Saved: typed.saved, Findings: findings(p, u.Axis),
		window: typed.window, path: planPath(m.ID, u.ID), machineURL: machineURL(m.ID), axisURL: axisURL(m.ID, u.Axis),
	}
	if p.Units == unit.Inch {
		v.Units = "inches"
	}
	if kind, ok := upgrade.KindNamed(u.Kind); ok {
		about := kind.About()
		v.Title, v.Purpose, v.Cautions, v.Proof = about.Label, about.Purpose, about.Cautions, about.Proof
		v.Guided, v.Measure, v.whole = about.Guided, about.Measure, about.Whole
	}
	if v.whole { // no axis is meant
		v.Axis = ""
	}
	return v
}

// findings are those that are not about another axis.
func findings(p *machine.Plan, key string) []string {
	var all []string
	for _, say := range p.Findings {
		if !slices.ContainsFunc(p.Layouts, func(l *axis.Layout) bool { return l.Key != key && strings.HasPrefix(say, l.Label+", ") }) {
			all = append(all, say)
		}
	}
	return all
}

// planWriter puts one upgrade's results into words. It computes nothing.
type planWriter struct {
	opened
	site   *upgrade.Site
	open   []string          // keys of the figures that are explained at once
	inputs map[string]string // as typed

	follows func(key string) bool // of planned figures, whether this upgrade can move them; nil where it is the only one
}

// text writes a figure in the machine's units.
func (w *planWriter) text(f sheet.Figure, was float64) string { return in(w.Units, f).Text(was) }

// length writes a length in the machine's units.
func (w *planWriter) length(mm float64) string { return w.Units.With(mm) }

// explain opens a figure at once where the page says that it is open.
func (w *planWriter) explain(key string) *ui.Explanation {
	if !slices.Contains(w.open, key) {
		return nil
	}
	if _, ok := w.Result.Figure(key, sheet.Planned); !ok {
		return nil
	}
	o := w.opened
	o.key = key
	x := o.view().brief()
	return &x
}

// mostNamed is how many upgrades a sentence names; of more it gives the number.
const mostNamed = 3

// others names what else is planned: it counts in every figure of the page.
func (w *planWriter) others() string {
	var names []string
	for _, s := range w.Sites {
		if s.State == upgrade.Planned && s.ID != w.site.ID {
			name := lowered(s.Kind.About().Label)
			if !s.Kind.About().Whole {
				name += ", " + lowered(s.Layout.Label)
			}
			names = append(names, name)
		}
	}
	switch n := len(names); {
	case n == 0:
		return ""
	case n > mostNamed:
		return "Counted with the " + strconv.Itoa(n) + " other upgrades that are planned."
	}
	return "Counted with what is planned already: " + joined(names) + "."
}

// doubtful are the measurements that cannot be read; those of this axis without its name.
func (w *planWriter) doubtful() (all []ui.Link) {
	for _, problem := range w.Problems {
		link := ui.Link{Text: w.fieldLabel(problem.Field), Href: w.fieldURL(problem.Field)}
		if a, _ := w.axisOf(problem.Field); a != nil && a.Key == w.axis {
			link.Text = strings.TrimPrefix(link.Text, a.Label+": ")
		}
		all = append(all, link)
	}
	return all
}

// questions are those that the owner did not answer with no.
func (w *planWriter) questions() []planAsk {
	var asks []planAsk
	if w.site.Kind.About().Whole { // they are about the axis that it is kept with
		return nil
	}
	for _, q := range w.site.Layout.Arr.Questions {
		ask := planAsk{Key: q.Key, Ask: q.Ask, Answer: w.site.Layout.Answers[q.Key]}
		if ask.Answer == "yes" {
			ask.Advice = q.Advice
		}
		if ask.Answer != "no" {
			asks = append(asks, ask)
		}
	}
	return asks
}

// asked reports whether anything is asked for, which must be before the upgrade can be added.
func (v *planView) asked() bool { return !v.blank }

// askFirst marks the field that says how much.
func (v *planView) askFirst() { v.wish.Problem = "Say how much first: 12, 0.5 in or 15 thou." }
