package web

import (
	"bytes"
	"mime"
	"net/http"
	"strconv"

	"fettle/plan/axis"
	"fettle/plan/exchange"
)

// machineExport gives a machine as a file to keep, or to send to somebody.
func (s *Server) machineExport(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	var file bytes.Buffer
	log, err := s.store.WholeLog(r.Context(), m.ID)
	if err != nil {
		return err
	}
	if err := exchange.Write(&file, exchange.File{Machine: m.Machine, Log: log}); err != nil {
		return err
	}
	header := w.Header()
	header.Set("Content-Type", "application/json")
	header.Set("Content-Length", strconv.Itoa(file.Len()))
	header.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": axis.NewKey(m.Name, nil) + ".json"}))
	header.Set("Cache-Control", "no-store")
	if _, err := file.WriteTo(w); err != nil {
		s.log.DebugContext(r.Context(), "visitor left", "path", r.URL.Path, "err", err)
	}
	return nil
}
