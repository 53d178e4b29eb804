package web

import (
	"errors"
	"fmt"
	"net/http"

	"fettle/plan/exchange"
	"fettle/web/form"
)

// uploadLimit is the largest body of an upload: a file, and the form around it.
const uploadLimit = exchange.MostBytes + 64<<10

// machineImport keeps the machine of a file that was sent. The list says what is wrong with a file, and
// where in it.
func (s *Server) machineImport(w http.ResponseWriter, r *http.Request) error {
	if _, err := form.Read(r); err != nil {
		return err
	}
	m, say := uploaded(r)
	if say != "" {
		view, err := s.machinesView(r)
		if err != nil {
			return err
		}
		view.Import = say
		return s.reply(w, r, http.StatusUnprocessableEntity, view)
	}
	id, err := s.store.AddMachine(r.Context(), m.Machine, m.Log...)
	if err != nil {
		return err
	}
	goTo(w, r, machineURL(id))
	return nil
}

// uploaded reads the machine of the file that was sent, or says why it cannot.
func uploaded(r *http.Request) (m exchange.File, say string) {
	file, _, err := r.FormFile("file")
	if err != nil {
		return m, "choose a file that was exported from Fettle"
	}
	defer file.Close()
	m, err = exchange.Read(file)
	var fault *exchange.Fault
	switch {
	case errors.As(err, &fault) && fault.Path != "":
		return m, fmt.Sprintf("line %d, column %d, at %s: %s", fault.Line, fault.Column, fault.Path, fault.Say)
	case errors.As(err, &fault):
		return m, fmt.Sprintf("line %d, column %d: %s", fault.Line, fault.Column, fault.Say)
	case err != nil:
		return m, err.Error()
	}
	return m, ""
}
