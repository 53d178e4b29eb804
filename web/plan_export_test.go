package web

import (
	"github.com/a-h/templ"

	"fettle/store"
)

// PlanPart is the part of the planning page that changes, worked out and ready to be written, for the
// upgrade that is the first of m and the amount given.
func PlanPart(m store.Stored, amount string) (templ.Component, error) {
	m.Upgrades[0].Inputs["amount"] = amount
	p, err := worked(m, m.Upgrades[0].ID)
	if err != nil {
		return nil, err
	}
	return planOf(p, m, 0, planForm{revision: 2, window: "window", saved: "saved 12:00"}).Part(), nil
}

// Beside runs do beside the caller.
func Beside(do func() (int, error)) (wait func() (int, error)) { return beside(do) }
