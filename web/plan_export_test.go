package web

import (
	"github.com/a-h/templ"

	"fettle/store"
)

// PlanPart is the part of the planning page that changes, worked out and ready to be written, for the
// upgrade that is the first of m and the amount given.
func PlanPart(m store.Stored, amount string) (templ.Component, error) {
	m.Upgrades[0].Inputs["amount"] = amount
	view, err := planOf(m, 0, planForm{revision: 2, window: "window", saved: "saved 12:00"})
	if err != nil {
		return nil, err
	}
	return view.Part(), nil
}
