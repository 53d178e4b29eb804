package web

import (
	"math"
	"net/http"
	"net/url"

	"fettle/plan/sheet"
	"fettle/store"
	"fettle/web/form"
	"fettle/web/ui"
)

// machineView is one machine: its axes with their figures, what is wrong or missing, and its upgrades.
type machineView struct {
	ID        int64         `json:"id"`
	Name      string        `json:"name"`
	Kind      string        `json:"kind"`
	Note      string        `json:"note,omitempty"`
	Units     string        `json:"units"`
	Fault     string        `json:"fault,omitempty"` // why nothing can be worked out
	Axes      []axisCard    `json:"axes"`
	Upgrades  []upgradeLine `json:"upgrades"`
	Conflicts []string      `json:"conflicts,omitempty"`
	Problems  []ui.Link     `json:"problems,omitempty"` // measurements that cannot be read
	Findings  []string      `json:"findings,omitempty"` // measurements that do not agree
	Add       []ui.Link     `json:"add,omitempty"`      // axes of which no part stops them at an end
	AsFound   []string      `json:"as_found,omitempty"` // rules that the machine breaks as found
	Next      measureNext   `json:"measure_next,omitzero"`
	Questions []question    `json:"questions,omitempty"`
	Tally     []tally       `json:"tally,omitempty"` // of the checks of the whole plan

	Edit    machineFields  `json:"-"`
	Editing editing        `json:"-"`
	NewAxis axisFields     `json:"-"`
	Usual   usualFields    `json:"-"`
	Notices []undo         `json:"-"`
	Deleted []deletedThing `json:"-"`
	URL     string         `json:"-"`
}

// tally is how many checks come to the same, and which.
type tally struct {
	ui.Verdict
	Checks []ui.Check `json:"checks"`
}

// editing is the state of the form for the machine's own words.
type editing struct {
	Revision int64
	Open     bool
	Stale    []ui.Input // what the other window has saved, field by field
}

// deletedThing can be brought back.
type deletedThing struct{ Label, Action string }

func (s *Server) machinePage(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	view, err := s.machineView(m)
	if err != nil {
		return err
	}
	view.notice(r)
	return s.reply(w, r, http.StatusOK, view)
}

// machineView works the machine out and arranges what came of it.
func (s *Server) machineView(m store.Stored) (*machineView, error) {
	words := formOf(head(m.Machine))
	v := &machineView{ID: m.ID, Name: m.Name, Kind: kindLabel(m.Kind), Note: m.Note, Units: "millimetres", URL: machineURL(m.ID),
		Edit: newMachineFields(words), Editing: editing{Revision: m.Revision}, NewAxis: newAxisFields(form.New(nil)), Usual: newUsualFields(form.New(nil), m.Kind)}
	if m.Units == "in" {
		v.Units = "inches"
	}
	p, err := m.Build("")
	if err != nil {
		s.log.Error("machine cannot be worked out", "machine", m.ID, "err", err)
		v.Fault = err.Error()
		for _, a := range m.Axes {
			v.Axes = append(v.Axes, axisCard{Key: a.Key, Label: a.Label, Href: axisURL(m.ID, a.Key)})
		}
		return v, nil
	}
	o := opened{stored: m, Plan: p, at: sheet.Planned}
	for _, l := range p.Layouts {
		v.Axes = append(v.Axes, o.card(l))
		v.Questions = append(v.Questions, questionsOf(m.ID, l)...)
	}
	v.told(o)
	v.Upgrades = s.upgradeLines(m, p)
	return v, nil
}

// told says what is wrong, and what is missing.
func (v *machineView) told(o opened) {
	for _, c := range o.Result.Conflicts() {
		v.Conflicts = append(v.Conflicts, sentence(c.Error()))
	}
	v.Findings = append(o.Findings, o.Result.Faults()...)
	for _, l := range o.Layouts {
		if what := addWhat(l); what != "" {
			v.Add = append(v.Add, ui.Link{Text: l.Label + ": " + lowered(what), Href: axisURL(o.stored.ID, l.Key) + "#add"})
		}
	}
	for _, p := range o.Problems {
		v.Problems = append(v.Problems, ui.Link{Text: sentence(o.fieldLabel(p.Field) + ": " + p.Say), Href: o.fieldURL(p.Field)})
	}
	lists := map[sheet.Verdict][]ui.Check{}
	for _, c := range o.Result.Checks() {
		switch {
		case c.AsFound:
			v.AsFound = append(v.AsFound, o.checkName(c)+". "+o.sentenceOf(c))
		case c.Was == "" && endless(c.Margin): // of a part that is not needed
		case !c.Touched() && math.Abs(c.Margin.Lo) < c.Margin.Unit.Step()/2: // what ends the travel just touches: so it always did
		default:
			lists[c.Verdict] = append(lists[c.Verdict], o.checkLine(c))
		}
	}
	for _, word := range []sheet.Verdict{sheet.Fails, sheet.Unmeasured, sheet.Tight, sheet.Holds} {
		if list := lists[word]; len(list) > 0 {
			v.Tally = append(v.Tally, tally{Verdict: ui.Verdict{Word: string(word), Margin: count(len(list), "check", "checks")}, Checks: list})
		}
	}
	v.Next = o.measureNext("")
}

// notice tells what was deleted just now, from the address that deleting leads to.
func (v *machineView) notice(r *http.Request) {
	if key := r.URL.Query().Get("deleted"); key != "" {
		v.Notices = append(v.Notices, undo{
			Notice: ui.Notice{Word: "Deleted.", Say: "The axis is off the machine, with its measurements."},
			Action: axisURL(v.ID, url.PathEscape(key)) + "/restore",
		})
	}
}

// formOf is the form that the words of a machine would have been typed into.
func formOf(h store.Head) *form.Form {
	return form.New(map[string][]string{"name": {h.Name}, "kind": {h.Kind}, "units": {h.Units}, "note": {h.Note}})
}
