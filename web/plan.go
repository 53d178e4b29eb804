package web

import (
	"crypto/rand"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strconv"

	"github.com/go-chi/chi/v5"

	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/form"
)

// planAt reads the machine that the path names, and which of its upgrades.
func (s *Server) planAt(r *http.Request) (m store.Stored, at int, err error) {
	if m, err = s.machine(r); err != nil {
		return m, 0, err
	}
	at = slices.IndexFunc(m.Upgrades, func(u upgrade.Upgrade) bool { return u.ID == chi.URLParam(r, "upgrade") })
	if at < 0 {
		return m, 0, notFound("This machine has no such upgrade. It may have been dropped, in another window for one.")
	}
	return m, at, nil
}

func (s *Server) planShow(w http.ResponseWriter, r *http.Request) error {
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	view, err := s.plan(m, at, planForm{
		revision: m.UpgradeRevisions[m.Upgrades[at].ID],
		window:   rand.Text(),
		saved:    "saved " + hour(m.Changed, s.now()),
	})
	if err != nil {
		return err
	}
	return s.reply(w, r, http.StatusOK, view)
}

func (s *Server) planSave(w http.ResponseWriter, r *http.Request) error {
	return s.planPost(w, r, "")
}

func (s *Server) planAdd(w http.ResponseWriter, r *http.Request) error {
	return s.planPost(w, r, upgrade.Planned)
}

func (s *Server) planBackToDraft(w http.ResponseWriter, r *http.Request) error {
	return s.planPost(w, r, upgrade.Draft)
}

// planPost keeps what was typed, works it out and shows it. With a state, the upgrade gets that too:
// but nothing is added to the plan that cannot be read.
func (s *Server) planPost(w http.ResponseWriter, r *http.Request, to upgrade.State) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	if m.Upgrades[at].State == upgrade.Finished {
		return conflict("This upgrade is fitted, and its page is the record of it: it cannot be changed. Put it back to planned first.")
	}
	if f.Has("answer") {
		return s.planAnswer(w, r, m, at, f)
	}
	was := m.Upgrades[at]
	typed := planFormOf(f)
	m.Upgrades[at].Inputs = typed.over(was.Inputs)
	if to == upgrade.Draft {
		m.Upgrades[at].State = to
	}
	// What was typed is kept whatever comes of it, so that is written while it is worked out.
	save := func() (int64, error) { return s.keepPlan(r, m, m.Upgrades[at], was, typed) }
	if to != upgrade.Planned {
		save = beside(save)
	}
	view, failed := s.plan(m, at, typed)
	if failed == nil && to == upgrade.Planned && !view.asked() {
		view.askFirst()
	} else if failed == nil && to == upgrade.Planned && !view.Unreadable {
		m.Upgrades[at].State = to
	}
	revision, err := save()
	if failed != nil {
		return failed
	}
	switch stale := (*store.StaleError[upgrade.Upgrade])(nil); {
	case errors.As(err, &stale):
		view.changedMeanwhile(stale.Current, stale.Revision, m.Upgrades[at])
		return s.reply(w, r, http.StatusConflict, view)
	case err != nil:
		return err
	}
	view.Revision = revision
	view.Saved = "saved " + hour(s.now(), s.now())
	switch done := to == "" || m.Upgrades[at].State == to; {
	case view.Unreadable || !done:
		return s.reply(w, r, http.StatusUnprocessableEntity, view)
	case wantsJSON(r) || to == "" && isPart(r) && !typed.whole:
		return s.reply(w, r, http.StatusOK, view)
	}
	goTo(w, r, planPath(m.ID, was.ID))
	return nil
}

// keepPlan saves the upgrade, unless it is what is stored already, and gives its revision.
func (s *Server) keepPlan(r *http.Request, m store.Stored, u, was upgrade.Upgrade, typed planForm) (int64, error) {
	if u.State == was.State && maps.Equal(u.Inputs, was.Inputs) {
		return m.UpgradeRevisions[u.ID], nil
	}
	return s.writers.save(planPath(m.ID, u.ID), typed, func(revision int64) (int64, error) {
		_, revision, err := s.store.SaveUpgrade(r.Context(), m.ID, revision, u)
		return revision, err
	})
}

// planAnswer keeps the answer to a question of the axis.
func (s *Server) planAnswer(w http.ResponseWriter, r *http.Request, m store.Stored, at int, f *form.Form) error {
	u := m.Upgrades[at]
	for _, a := range m.Axes {
		if a.Key != u.Axis {
			continue
		}
		question, answer, ok := cutName(f.Value("answer"))
		if !ok || answer != "yes" && answer != "no" {
			return badRequest("Answer yes or no.")
		}
		a.Answers = maps.Clone(a.Answers)
		if a.Answers == nil {
			a.Answers = map[string]string{}
		}
		a.Answers[question] = answer
		if _, err := s.store.SaveAxis(r.Context(), m.ID, m.AxisRevisions[a.Key], a); err != nil {
			return err
		}
	}
	goTo(w, r, planPath(m.ID, u.ID))
	return nil
}

// planDrop takes the upgrade off the machine; the page that follows brings it back.
func (s *Server) planDrop(w http.ResponseWriter, r *http.Request) error {
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	if m.Upgrades[at].State == upgrade.Finished {
		return conflict("This upgrade is fitted, and part of the machine: it cannot be dropped. Put it back to planned first.")
	}
	if err := s.store.DeleteUpgrade(r.Context(), m.ID, m.Upgrades[at].ID); err != nil {
		return err
	}
	goTo(w, r, planPath(m.ID, m.Upgrades[at].ID)+"/dropped")
	return nil
}

func (s *Server) planDropped(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	id := chi.URLParam(r, "upgrade")
	if slices.ContainsFunc(m.Upgrades, func(u upgrade.Upgrade) bool { return u.ID == id }) {
		goTo(w, r, planPath(m.ID, id)) // it is there again
		return nil
	}
	if _, err := strconv.ParseUint(id, 10, 32); err != nil {
		return notFound("")
	}
	return s.reply(w, r, http.StatusOK, droppedView{
		Title: "Dropped", Machine: m.Name, MachineURL: machineURL(m.ID), RestoreURL: planPath(m.ID, id) + "/restore",
	})
}

func (s *Server) planRestore(w http.ResponseWriter, r *http.Request) error {
	id, err := pathID(r, "machine")
	if err != nil {
		return err
	}
	if err := s.store.RestoreUpgrade(r.Context(), id, chi.URLParam(r, "upgrade")); err != nil {
		return err
	}
	goTo(w, r, planPath(id, chi.URLParam(r, "upgrade")))
	return nil
}

// droppedView says that an upgrade was dropped, and offers it back.
type droppedView struct {
	Title      string `json:"title"`
	Machine    string `json:"machine"`
	MachineURL string `json:"machine_url"`
	RestoreURL string `json:"restore_url"`
}

func planPath(machine int64, upgrade string) string {
	return fmt.Sprintf("/machines/%d/upgrades/%s", machine, upgrade)
}
