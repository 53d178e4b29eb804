package web

import (
	"net/http"

	"github.com/go-chi/chi/v5"

	"fettle/plan/demo"
)

// demoCard is a machine that comes with the program.
type demoCard struct {
	Name   string `json:"name"`
	Kind   string `json:"kind"`
	Has    string `json:"has"`
	Note   string `json:"note"`
	Action string `json:"action"`
}

func demoCards() []demoCard {
	var cards []demoCard
	for _, d := range demo.Machines() {
		cards = append(cards, demoCard{Name: d.Name, Kind: kindLabel(d.Kind), Note: d.Note, Action: "/demo/" + d.Key,
			Has: count(len(d.Axes), "axis", "axes") + ", measured"})
	}
	return cards
}

// demoAdd keeps a copy of a machine that comes with the program.
func (s *Server) demoAdd(w http.ResponseWriter, r *http.Request) error {
	for _, d := range demo.Machines() {
		if d.Key != chi.URLParam(r, "name") {
			continue
		}
		id, err := s.store.AddMachine(r.Context(), d.Machine)
		if err != nil {
			return err
		}
		goTo(w, r, machineURL(id))
		return nil
	}
	return notFound("No machine of this name comes with the program.")
}
