package web

import (
	"errors"
	"net/http"

	"fettle/store"
)

// deletedView lists what was deleted and can be had back.
type deletedView struct {
	Machine string         `json:"machine"`
	Entries []deletedEntry `json:"entries"`
	URL     string         `json:"-"` // of the log
	machine string
}

type deletedEntry struct {
	entryLine
	Deleted string `json:"deleted"`
	Final   string `json:"final"` // the day from which on it is gone
	Restore string `json:"-"`
}

func (s *Server) logDeleted(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	deleted, err := s.store.DeletedLog(r.Context(), m.ID)
	if err != nil {
		return err
	}
	v := deletedView{Machine: m.Name, URL: logURL(m.ID), machine: machineURL(m.ID)}
	for _, e := range deleted {
		line := entryLineOf(m, e)
		v.Entries = append(v.Entries, deletedEntry{entryLine: *line, Deleted: s.day(e.Deleted),
			Final: e.Deleted.Add(store.KeptDeleted).In(s.now().Location()).Format("2 January 2006"), Restore: line.Href + "/restore"})
	}
	return s.reply(w, r, http.StatusOK, v)
}

// entryDelete takes an entry off the log, which then offers to bring it back, and makes final what was
// deleted long enough ago.
func (s *Server) entryDelete(w http.ResponseWriter, r *http.Request) error {
	id, key, err := entryKey(r)
	if err != nil {
		return err
	}
	if err := s.store.DeleteLogEntry(r.Context(), id, key); errors.Is(err, store.ErrNotFound) {
		return noEntry
	} else if err != nil {
		return err
	}
	if _, err := s.store.PurgeLog(r.Context()); err != nil {
		return err
	}
	goTo(w, r, logURL(id)+"?"+query("deleted", key))
	return nil
}

func (s *Server) entryRestore(w http.ResponseWriter, r *http.Request) error {
	id, key, err := entryKey(r)
	if err != nil {
		return err
	}
	if err := s.store.RestoreLogEntry(r.Context(), id, key); errors.Is(err, store.ErrNotFound) {
		return noEntry
	} else if err != nil {
		return err
	}
	goTo(w, r, logURL(id)+"/"+key)
	return nil
}
