package web

import (
	"net/http"
	"strconv"
)

// machineDelete takes a machine off the list. The list then offers to bring it back.
func (s *Server) machineDelete(w http.ResponseWriter, r *http.Request) error {
	id, err := pathID(r, "machine")
	if err != nil {
		return err
	}
	if err := s.store.DeleteMachine(r.Context(), id); err != nil {
		return err
	}
	goTo(w, r, "/?deleted="+strconv.FormatInt(id, 10))
	return nil
}

// machineRestore brings a deleted machine back as it was.
func (s *Server) machineRestore(w http.ResponseWriter, r *http.Request) error {
	id, err := pathID(r, "machine")
	if err != nil {
		return err
	}
	if err := s.store.RestoreMachine(r.Context(), id); err != nil {
		return err
	}
	goTo(w, r, machineURL(id))
	return nil
}
