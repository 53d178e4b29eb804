package web

import (
	"net/http"

	"fettle/plan/machine"
	"fettle/plan/unit"
	"fettle/store"
)

// machine reads the machine that the path names, whole.
func (s *Server) machine(r *http.Request) (store.Stored, error) {
	id, err := pathID(r, "machine")
	if err != nil {
		return store.Stored{}, err
	}
	return s.store.Machine(r.Context(), id)
}

// lengthUnit is the unit that a machine's lengths are shown in, and that a bare number is taken for.
func lengthUnit(m machine.Machine) unit.Unit {
	if m.Units == "in" {
		return unit.Inch
	}
	return unit.MM
}
