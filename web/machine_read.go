package web

import (
	"net/http"

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
