package web

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"github.com/go-chi/chi/v5"

	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/store"
	"fettle/web/ui"
)

// mostTrials is how many trials are made at one request at most: well under a second's work.
const mostTrials = 100_000

// figureView is a figure opened: how it came about, and how well it is known.
type figureView struct {
	Key       string         `json:"key"`
	Label     string         `json:"label"`
	Symbol    string         `json:"symbol,omitempty"`
	Stage     string         `json:"stage"`
	Value     string         `json:"value"`
	PlusMinus string         `json:"plus_minus,omitempty"` // "± 0.2 mm"
	Explain   ui.Explanation `json:"explain"`
	Stages    []figureStage  `json:"stages"`
	Spread    []string       `json:"spread,omitempty"` // how well it is known, in sentences
	Shares    []figureShare  `json:"shares,omitempty"` // what makes it uncertain, the largest first
	Missing   []ui.Input     `json:"missing,omitempty"`
	Trials    []string       `json:"trials,omitempty"`
	TrialsAt  string         `json:"-"` // address that makes trials; "" where there is nothing to try
	SheetAt   string         `json:"-"` // address of the measuring sheet; "" for a figure that is no axis's
	Crumbs    []ui.Link      `json:"-"`
}

// figureStage is the figure as found, now or planned.
type figureStage struct {
	Name  string `json:"name"`
	Value string `json:"value"`
	Href  string `json:"href"`
	Here  bool   `json:"here,omitempty"`
}

// stagesTitle names the stages: "As found, now, planned".
func (v figureView) stagesTitle() string {
	words := make([]string, len(v.Stages))
	for i, s := range v.Stages {
		words[i] = s.Name
	}
	return capital(strings.Join(words, ", "))
}

// figureShare is what one measurement contributes to an uncertainty.
type figureShare struct {
	Label string `json:"label"`
	Part  string `json:"part"`
	Href  string `json:"href"`
}

// figure explains one figure of a machine.
func (s *Server) figure(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	at, err := stageNamed(r.URL.Query().Get("stage"))
	if err != nil {
		return err
	}
	trials, err := trialsAsked(r.URL.Query().Get("trials"))
	if err != nil {
		return err
	}
	draft := r.URL.Query().Get("draft")
	p, err := worked(m, draft)
	if err != nil {
		return err
	}
	key := chi.URLParam(r, "*")
	if _, ok := p.Result.Figure(key, at); !ok {
		return notFound(fmt.Sprintf("There is no figure “%s” %s. What it belongs to may have been taken out of the plan.", key, at))
	}
	o := opened{stored: m, Plan: p, key: key, at: at, draft: draft}
	view := o.view()
	if check := r.URL.Query().Get("check"); check != "" {
		all := p.Result.Checks()
		if i := slices.IndexFunc(all, func(c sheet.CheckResult) bool { return c.Key == check }); i >= 0 {
			view.Explain.Held = o.held(all[i])
		}
	}
	if trials > 0 {
		view.Trials = o.trials(trials)
	}
	return s.reply(w, r, http.StatusOK, view)
}

func stageNamed(name string) (sheet.Stage, error) {
	for at, is := range stageNames {
		if is == name || name == "" && at == sheet.Planned {
			return at, nil
		}
	}
	return 0, badRequest("A figure is looked at as found, now or planned.")
}

func trialsAsked(number string) (int, error) {
	if number == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(number)
	if err != nil || n < 2 || n > mostTrials {
		return 0, badRequest(fmt.Sprintf("Ask for 2 to %d trials.", mostTrials))
	}
	return n, nil
}

// opened is a figure of a machine that is worked out.
type opened struct {
	stored store.Stored
	*machine.Plan
	key   string
	at    sheet.Stage
	draft string // as for [worked]
	axis  string // key of the axis that the page is about; "" where it is about all
}

func (o opened) link(key string) string { return figureURL(o.stored.ID, key, o.at, o.draft) }

func (o opened) view() figureView {
	e, _ := o.Result.Explain(o.key, o.at)
	v := figureView{
		Key: o.key, Label: capital(e.Label), Stage: o.stageWord(o.at), Value: figureText(o.Result, o.Units, e.Figure),
		Explain: explained(o.Result, e, o.Units, o.link),
	}
	if e.Symbol != e.Label {
		v.Symbol = e.Symbol
	}
	title := ui.Link{Text: capital(e.Label)}
	v.Crumbs = []ui.Link{{Text: o.stored.Name, Href: machineURL(o.stored.ID)}, title}
	if l := o.Layout(strings.Split(o.key, ".")[0]); l != nil {
		v.SheetAt = axisURL(o.stored.ID, l.Key)
		v.Crumbs = []ui.Link{v.Crumbs[0], {Text: l.Label, Href: v.SheetAt}, title}
	}
	for _, at := range []sheet.Stage{sheet.Found, sheet.Now, sheet.Planned} {
		if f, ok := o.Result.Figure(o.key, at); ok {
			v.Stages = append(v.Stages, figureStage{Name: o.stageWord(at), Value: figureText(o.Result, o.Units, f),
				Href: figureURL(o.stored.ID, o.key, at, o.draft), Here: at == o.at})
		}
	}
	for _, f := range o.Result.Missing(o.key, o.at) {
		v.Missing = append(v.Missing, ui.Input{Label: f.Label, Value: "not measured", Href: o.link(f.Key)})
	}
	o.spread(e.Figure, &v)
	return v
}

// spread tells how well the figure is known.
func (o opened) spread(f sheet.Figure, v *figureView) {
	if !f.Known() {
		return
	}
	u := o.Result.Uncertainty(o.key, o.at)
	if u.Std == 0 {
		return
	}
	shown := in(o.Units, f)
	unit := shown.Unit.Symbol
	text := func(u sheet.Uncertainty) string { return strings.TrimSpace(shown.TextPlusMinus(u) + " " + unit) }
	v.PlusMinus = text(u)
	if u.Capped() {
		v.Spread = append(v.Spread, "Within "+v.PlusMinus+", at the very worst: all errors one way. The usual 95 times in 100 (JCGM 100:2008) would come to "+
			text(sheet.Uncertainty{Std: u.Std})+", which is more than it can be off.")
	} else {
		v.Spread = append(v.Spread, "Within "+v.PlusMinus+", 95 times in 100 (JCGM 100:2008).",
			"At the very worst, all errors one way: "+text(sheet.Uncertainty{Std: u.Worst / 2})+".") // written as any other, to two figures
	}
	if u.Bent {
		v.Spread = append(v.Spread, "It bends within that, so trials were made instead of the usual sum (JCGM 101:2008).")
	}
	for i, share := range u.Shares {
		if i == 6 || share.Part < 0.01 {
			break
		}
		v.Shares = append(v.Shares, figureShare{Label: share.Label, Part: percent(share.Part), Href: o.link(share.Key)})
	}
	v.TrialsAt = with(o.link(o.key), "trials", strconv.Itoa(mostTrials))
}

func percent(part float64) string { return fmt.Sprintf("%.0f %%", 100*part) }

// seed makes trials come out the same each time.
const seed = 1

func (o opened) trials(n int) []string {
	d, ok := o.Result.Trials(o.key, o.at, n, seed)
	if !ok {
		return []string{"Nothing can be tried: the figure is not known yet."}
	}
	f, _ := o.Result.Figure(o.key, o.at)
	f = in(o.Units, f)
	show := func(x float64) string { return f.Unit.Text(x, f.Decimals+1) }
	return []string{
		fmt.Sprintf("%d trials, each with every measurement somewhere within its limits (JCGM 101:2008).", d.Trials),
		strings.TrimSpace(fmt.Sprintf("In 95 of 100 it comes to %s to %s %s", show(d.Low), show(d.High), f.Unit.Symbol)) + ".",
		strings.TrimSpace(fmt.Sprintf("Mean %s, standard deviation %s %s", show(d.Mean), f.Unit.Text(d.Std, f.Decimals+2), f.Unit.Symbol)) + ".",
	}
}
