package web

import (
	"net/http"

	"fettle/plan/machine"
	"fettle/web/form"
)

// machineAdd keeps a new machine, with nothing measured yet.
func (s *Server) machineAdd(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	h := headOf(f)
	if !f.OK() {
		view, err := s.machinesView(r, f)
		if err != nil {
			return err
		}
		return s.reply(w, r, f.Status(), view)
	}
	id, err := s.store.AddMachine(r.Context(), machine.Machine{Name: h.Name, Kind: h.Kind, Units: h.Units, Note: h.Note})
	if err != nil {
		return err
	}
	goTo(w, r, machineURL(id))
	return nil
}
