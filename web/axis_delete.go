package web

import (
	"net/http"

	"github.com/go-chi/chi/v5"
)

// axisDelete takes an axis off its machine. The machine's page then offers to bring it back.
func (s *Server) axisDelete(w http.ResponseWriter, r *http.Request) error {
	m, a, err := s.axis(r)
	if err != nil {
		return err
	}
	if err := s.store.DeleteAxis(r.Context(), m.ID, a.Key); err != nil {
		return err
	}
	goTo(w, r, machineURL(m.ID)+"?deleted="+a.Key)
	return nil
}

// axisRestore brings a deleted axis back as it was.
func (s *Server) axisRestore(w http.ResponseWriter, r *http.Request) error {
	id, err := pathID(r, "machine")
	if err != nil {
		return err
	}
	key := chi.URLParam(r, "axis")
	if err := s.store.RestoreAxis(r.Context(), id, key); err != nil {
		return err
	}
	goTo(w, r, axisURL(id, key))
	return nil
}
