package web

import (
	"net/http"
	"slices"
	"strings"

	"fettle/plan/machine"
	"fettle/plan/preset"
	"fettle/web/form"
	"fettle/web/ui"
)

// nothingYet is the size of a machine of which nothing is assumed.
const nothingYet = "nothing"

// machineNewView is the page on which a machine is begun: what it is, then how large.
type machineNewView struct {
	Kinds []kindCard `json:"kinds,omitempty"` // to choose from, where none is chosen
	Kind  string     `json:"kind,omitempty"`  // what is chosen, as it is called
	Axes  []string   `json:"axes,omitempty"`  // with which it begins

	start string // key of the chosen kind; "" for another machine
	of    string // of [machine.Machine]
	size  ui.Radios
	words machineFields
}

// kindCard is a kind of machine to begin with.
type kindCard struct {
	Text string `json:"text"`
	Says string `json:"says"`
	Href string `json:"href"`
}

// kindCards are the kinds that there are presets of, and any other.
func kindCards() []kindCard {
	var cards []kindCard
	for _, k := range preset.Kinds {
		says := k.Says
		if says != "" {
			says += "; "
		}
		cards = append(cards, kindCard{Text: k.Label, Says: capital(says + listed(axisLabels(k.Axes))), Href: "/machines/new?kind=" + k.Key})
	}
	return append(cards, kindCard{Text: "Another machine", Says: "Nothing is assumed of it: describe its axes one by one", Href: "/machines/new?kind=other"})
}

func axisLabels(keys []string) []string {
	labels := make([]string, len(keys))
	for i, key := range keys {
		label, _, _ := preset.Label(key)
		labels[i] = lowered(label)
	}
	return labels
}

// listed joins words as they stand in a sentence: "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// machineNew asks what machine it is, and how large.
func (s *Server) machineNew(w http.ResponseWriter, r *http.Request) error {
	key := r.URL.Query().Get("kind")
	if key == "" {
		return s.reply(w, r, http.StatusOK, machineNewView{Kinds: kindCards()})
	}
	k, ok := preset.KindNamed(key)
	if !ok && key != "other" {
		return notFound("There is no such kind of machine to begin with.")
	}
	typed := map[string][]string{"kind": {"other"}}
	if ok {
		typed = map[string][]string{"start": {key}, "name": {k.Label}}
	}
	return s.reply(w, r, http.StatusOK, newMachineView(form.New(typed)))
}

// newMachineView is the form for a new machine as it was typed.
func newMachineView(f *form.Form) machineNewView {
	v := machineNewView{Kind: "Another machine", words: newMachineFields(f)}
	k, ok := preset.KindNamed(f.Value("start"))
	if !ok {
		return v
	}
	v.start, v.Kind, v.of, v.Axes = k.Key, k.Label, k.Machine, axisLabels(k.Axes)
	v.size = sizeRadios(f, k.Means, ui.Option{Value: nothingYet, Text: "Begin with nothing", Says: "its axes are described and measured one by one"})
	return v
}

// sizeRadios asks for a class of size, each with what it means.
func sizeRadios(f *form.Form, means []string, more ...ui.Option) ui.Radios {
	var options []ui.Option
	for i, class := range preset.Classes {
		options = append(options, ui.Option{Value: class, Text: capital(class), Says: means[i]})
	}
	return ui.Radios{Name: "size", Label: "How large?", Options: chosen(append(options, more...), f.Value("size")), Problem: f.Problem("size")}
}

// machineAdd keeps a new machine: with the usual axes of its kind and size, all assumed, or with nothing measured.
func (s *Server) machineAdd(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	k, usual := preset.KindNamed(f.Value("start"))
	if f.Value("start") != "" && !usual {
		return badRequest("There is no such kind of machine to begin with.")
	}
	h := headOf(f)
	size := nothingYet
	if usual {
		size = f.Choice("size", append(slices.Clone(preset.Classes), nothingYet)...)
	}
	if !f.OK() {
		return s.reply(w, r, f.Status(), newMachineView(f))
	}
	m := machine.Machine{Name: h.Name, Kind: h.Kind, Units: h.Units, Note: h.Note}
	if of, ok := preset.Machine(k.Key, size); ok {
		if of.Name = m.Name; m.Note == "" {
			m.Note = of.Note
		}
		of.Note, of.Kind = m.Note, h.Kind
		m = of.In(h.Units)
	}
	id, err := s.store.AddMachine(r.Context(), m)
	if err != nil {
		return err
	}
	goTo(w, r, machineURL(id))
	return nil
}
