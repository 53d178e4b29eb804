package web

import (
	"net/http"

	"fettle/plan/upgrade"
	"fettle/web/form"
)

// upgradeMove puts an upgrade one place up or down.
func (s *Server) upgradeMove(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	by := map[string]int{"up": -1, "down": 1}[f.Value("by")]
	if by == 0 {
		return badRequest("An upgrade is moved up or down.")
	}
	if err := s.store.MoveUpgrade(r.Context(), m.ID, m.Upgrades[at].ID, max(0, at+by)); err != nil {
		return err
	}
	goTo(w, r, machineURL(m.ID)+"#upgrades")
	return nil
}

// upgradeFitted says that a planned upgrade is part of the machine now, and since when.
func (s *Server) upgradeFitted(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	u := m.Upgrades[at]
	if u.State != upgrade.Planned {
		return conflict("Only an upgrade that is in the plan can be marked as fitted.")
	}
	on, ok := dayTyped(f.Value("on"))
	if !ok {
		return &form.Problem{Field: "on", Say: "give the day as 2026-03-14"}
	}
	// What is fitted goes before what is not: those planned before it are then made on top of it.
	_, err = s.store.SetUpgradeState(r.Context(), m.ID, u.ID, number(f.Value("revision")), upgrade.Finished, on)
	if err != nil {
		return err
	}
	goTo(w, r, machineURL(m.ID)+"#upgrades")
	return nil
}

// upgradeNotFitted takes that back.
func (s *Server) upgradeNotFitted(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	u := m.Upgrades[at]
	if u.State != upgrade.Finished {
		return conflict("This upgrade is not marked as fitted.")
	}
	if _, err := s.store.SetUpgradeState(r.Context(), m.ID, u.ID, number(f.Value("revision")), upgrade.Planned, ""); err != nil {
		return err
	}
	if f.Value("back") == "plan" { // asked for on its own page
		goTo(w, r, planPath(m.ID, u.ID))
		return nil
	}
	goTo(w, r, machineURL(m.ID)+"#upgrades")
	return nil
}
