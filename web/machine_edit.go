package web

import (
	"errors"
	"net/http"

	"fettle/store"
	"fettle/web/form"
	"fettle/web/ui"
)

// machineEdit changes the words of a machine, and the units in which it is shown.
func (s *Server) machineEdit(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	h := headOf(f)
	stale := (*store.StaleError[store.Head])(nil)
	if f.OK() {
		err = s.keepHead(r, m, number(f.Value("revision")), h)
		if err == nil {
			goTo(w, r, machineURL(m.ID))
			return nil
		} else if !errors.As(err, &stale) {
			return err
		}
	}
	view, viewErr := s.machineView(m)
	if viewErr != nil {
		return viewErr
	}
	view.Edit = newMachineFields(f)
	view.Editing.Open = true
	if f.OK() {
		view.Editing.Stale = differing(h, stale.Current)
		view.Editing.Revision = stale.Revision
		return s.reply(w, r, http.StatusConflict, view)
	}
	view.Editing.Revision = number(f.Value("revision"))
	return s.reply(w, r, f.Status(), view)
}

// keepHead saves the words of a machine. In other units every figure stays what it is; so those that
// were typed without a unit get theirs first, which changes nothing if the program should end half way.
func (s *Server) keepHead(r *http.Request, m store.Stored, revision int64, h store.Head) error {
	if revision == m.Revision && h.Units != m.Units {
		other := m.Machine.In(h.Units)
		for _, a := range other.Axes {
			if _, err := s.store.SaveAxis(r.Context(), m.ID, m.AxisRevisions[a.Key], a); err != nil {
				return err
			}
		}
		for _, u := range other.Upgrades {
			if _, _, err := s.store.SaveUpgrade(r.Context(), m.ID, m.UpgradeRevisions[u.ID], u); err != nil {
				return err
			}
		}
	}
	_, err := s.store.UpdateMachine(r.Context(), m.ID, revision, h)
	return err
}

// differing lists what was saved elsewhere that is not as typed here.
func differing(typed, saved store.Head) []ui.Input {
	var all []ui.Input
	for _, f := range []struct{ label, typed, saved string }{
		{"Name", typed.Name, saved.Name}, {"Kind", typed.Kind, saved.Kind}, {"Units", typed.Units, saved.Units}, {"Note", typed.Note, saved.Note},
	} {
		if f.typed != f.saved {
			all = append(all, ui.Input{Label: f.label, Value: f.saved})
		}
	}
	return all
}
