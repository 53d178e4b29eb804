package web

import (
	"errors"
	"maps"
	"net/http"
	"regexp"
	"slices"
	"strconv"

	"fettle/plan"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/form"
	"fettle/web/ui"
)

// waysView is which upgrades, one or up to three together, bring a figure to a goal.
type waysView struct {
	Machine string    `json:"machine"`
	Units   string    `json:"units"`
	Figure  ui.Choice `json:"figure"`
	To      ui.Field  `json:"to"`
	Now     string    `json:"now,omitempty"`
	Asked   bool      `json:"-"`
	Say     string    `json:"say,omitempty"`
	Tried   string    `json:"tried,omitempty"`
	Ways    []wayLine `json:"ways"`
	URL     string    `json:"-"`

	status int
}

// wayLine is one set of upgrades.
type wayLine struct {
	Number  int        `json:"number"` // from 1, as it is chosen by
	Steps   []wayStep  `json:"upgrades"`
	Is      string     `json:"is"`
	Hours   string     `json:"hours"`
	Risk    string     `json:"risk"`
	Undo    string     `json:"undo"`
	AtMost  bool       `json:"at_most"`
	Missing []ui.Link  `json:"missing,omitempty"`
	Tight   []ui.Check `json:"tight,omitempty"`
}

type wayStep struct {
	Label string `json:"label"`
	With  string `json:"with,omitempty"` // what was typed for it, in words
}

// ways looks which upgrades would reach a goal.
func (s *Server) ways(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	v, _, err := s.waysOf(m, form.New(r.URL.Query()))
	if err != nil {
		return err
	}
	return s.reply(w, r, v.status, v)
}

// wayTake makes drafts of the upgrades of one way.
func (s *Server) wayTake(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	_, found, err := s.waysOf(m, f)
	if err != nil {
		return err
	}
	n, err := strconv.Atoi(f.Value("way"))
	if err != nil || n < 1 || n > len(found) {
		return conflict("The machine was changed meanwhile: look at the ways again.")
	}
	first := ""
	for _, u := range found[n-1].Upgrades {
		u.ID = ""
		made, _, err := s.store.SaveUpgrade(r.Context(), m.ID, 0, u)
		if err != nil {
			return err
		}
		if first == "" {
			first = made.ID
		}
	}
	goTo(w, r, planPath(m.ID, first))
	return nil
}

// waysOf asks for the ways to what was typed.
func (s *Server) waysOf(m store.Stored, f *form.Form) (*waysView, []machine.Way, error) {
	all, o, err := s.offersOf(m)
	if err != nil {
		return nil, nil, err
	}
	p := o.Plan
	v := &waysView{Machine: m.Name, Units: unitWords(m.Units), URL: machineURL(m.ID), status: http.StatusOK}
	goals := o.goals(all)
	v.Figure = ui.Choice{Name: "figure", Label: "Figure"}
	var goal sheet.Goal
	for i, g := range goals {
		x, _ := p.Result.Figure(g.Key, sheet.Planned)
		a, _ := o.axisOf(g.Key)
		on := g.Key == f.Value("figure") || f.Value("figure") == "" && i == 0
		if on {
			goal = g
			v.Now = figureText(p.Result, o.Units, x)
		}
		v.Figure.Options = append(v.Figure.Options, ui.Option{Value: g.Key, Text: a.Label + ": " + lowered(x.Label), Chosen: on})
	}
	v.To = ui.Field{Name: "to", Label: "It is to be", Value: f.Value("to")}
	x, ok := p.Result.Figure(goal.Key, sheet.Planned)
	if !ok {
		if f.Has("figure") && len(goals) > 0 {
			v.Figure.Problem, v.status = "choose one of the list", http.StatusUnprocessableEntity
		}
		return v, nil, nil
	}
	u := o.unitOf(x)
	v.To.Label = "It is to be at least"
	if goal.Less {
		v.To.Label = "It is to be at most"
	}
	v.To.Unit = u.Symbol
	if f.Blank("to") {
		if f.Has("to") {
			v.To.Problem, v.status = "give what it is to come to", http.StatusUnprocessableEntity
		}
		return v, nil, nil
	}
	v.Asked = true
	to, err := wantedValue(f.Value("to"), u)
	if err != nil {
		v.To.Problem, v.status, v.Asked = err.Error(), http.StatusUnprocessableEntity, false
		return v, nil, nil
	}
	found, err := m.Ways(machine.Wanted{Goal: goal, To: to})
	if err != nil {
		return nil, nil, err
	}
	v.told(o, x, found)
	return v, toTell(found), nil
}

// toTell are the ways, or what comes nearest to one.
func toTell(found machine.Search) []machine.Way {
	if found.Nearest != nil {
		return []machine.Way{*found.Nearest}
	}
	return found.Ways
}

func wantedValue(typed string, u unit.Unit) (float64, error) {
	leaf, err := plan.Entry{Typed: typed}.Leaf(u)
	var p plan.Problem
	if errors.As(err, &p) {
		return 0, errors.New(p.Say)
	}
	return leaf.Value, err
}

// told puts what was found into words.
func (v *waysView) told(o opened, goal sheet.Figure, found machine.Search) {
	switch {
	case found.Met:
		v.Say = "It is there already."
	case len(found.Ways) == 0 && found.Kinds == 0:
		v.Say = "Nothing that this program knows changes it on this machine."
	case found.Nearest != nil:
		v.Say = "No set of up to three upgrades reaches that here. This comes nearest."
	case len(found.Ways) == 0:
		v.Say = "No set of up to three upgrades reaches that here. Measure what is missing, or set a goal nearer to what it is."
	default:
		v.Say = count(len(found.Ways), "way reaches it.", "ways reach it, least work first.")
	}
	if found.Tried > 0 {
		v.Tried = count(found.Tried, "set", "sets") + " of up to three were built and checked, out of " + count(found.Kinds, "kind", "kinds") + " that can move it or clear its way."
	}
	u := o.unitOf(goal)
	for i, w := range toTell(found) {
		line := wayLine{Number: i + 1, Is: u.With(w.Is), Hours: hoursText(w.Hours), Risk: w.Risk.String(), Undo: w.Undo.String(), AtMost: w.AtMost}
		for j, up := range w.Upgrades {
			line.Steps = append(line.Steps, o.wayStep(up, w.Says[j]))
		}
		line.Missing = o.toMeasure(w.Missing)
		for _, c := range w.Tight {
			line.Tight = append(line.Tight, ui.Check{ID: "w" + strconv.Itoa(i) + "-" + c.Key, Name: c.Label, Verdict: ui.Verdict{Word: string(c.Verdict), Margin: c.Phrase}})
		}
		v.Ways = append(v.Ways, line)
	}
}

// figureTyped is a figure with its unit.
var figureTyped = regexp.MustCompile(`^[−-]?[0-9].* `)

func (o opened) wayStep(u upgrade.Upgrade, says string) wayStep {
	step := wayStep{Label: u.Kind, With: says}
	k, ok := upgrade.KindNamed(u.Kind)
	if !ok {
		return step
	}
	step.Label = k.About().Label
	for _, name := range slices.Sorted(maps.Keys(u.Inputs)) {
		if value := u.Inputs[name]; figureTyped.MatchString(value) { // what is chosen is said in words, by its way
			if step.With != "" {
				step.With += ", "
			}
			step.With += value
		}
	}
	return step
}

// goals are the figures that any kind betters on this machine, those first that the axes are for.
func (o opened) goals(all []machine.Offer) []sheet.Goal {
	var goals []sheet.Goal
	for _, x := range all {
		g := sheet.Goal{Key: x.Goal.Key, Less: x.Less}
		if _, ok := o.Result.Figure(g.Key, sheet.Planned); ok && !slices.Contains(goals, g) {
			goals = append(goals, g)
		}
	}
	return goals
}

// chosenOf is the value of the line that is chosen.
func chosenOf(c ui.Choice) string {
	for _, o := range c.Options {
		if o.Chosen {
			return o.Value
		}
	}
	return ""
}
