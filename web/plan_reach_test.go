package web_test

import (
	"fmt"
	"slices"
	"testing"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
)

// A wall of 23 that is to stay 30 can be cut by nothing. No limit that begins at 0 asks for more.
func TestPlanReachNamesOnlyTheCulprits(t *testing.T) {
	m := demo.Lathe()
	wall, _ := m.Axes[0].Part("front_wall")
	wall.Entries["keep"] = plan.Entry{Typed: "30"}
	b := benchOf(t, m)
	w := b.post(b.path, b.form("amount", "12"))
	says(t, said(w), "No amount does it all: whatever it is, the front wall metal left is less than 30 mm.")
	saysNot(t, said(w), "with less than 0 mm", "with more than", "third")
}

// A riser of 80 at least for work of 390 (310 as found), and of 50 at most for work of 110 (60 as found).
func TestPlanReachThatContradictsItself(t *testing.T) {
	m := demo.Mill()
	head := &m.Axes[1]
	head.Entries["tallest_job"] = plan.Entry{Typed: "390"}
	b := benchOf(t, m)
	b.path = fmt.Sprintf("/machines/%d/upgrades/2", b.id)
	w := b.post(b.path, b.form("amount", "60"))
	says(t, said(w), "No amount does it all", "80 mm", "50 mm")
	saysNot(t, said(w), "0 mm, with", "less than 0 mm")
}

// An end that no part explains is a stop of its own, and is said in a sentence.
func TestPlanReachStoppedByWhatIsNotNamed(t *testing.T) {
	m := demo.Lathe()
	m.Axes[0].Parts = slices.DeleteFunc(m.Axes[0].Parts, func(p axis.Part) bool {
		return slices.Contains([]string{"front_wall", "dial", "handle", "lock_nut"}, p.Key)
	})
	b := benchOf(t, m)
	w := b.post(b.path, b.form("amount", "12"))
	says(t, said(w), "You asked for 12 mm; nothing can be had, because something is met that is not named.")
	saysNot(t, said(w), "the what", "you can have 0 mm")
	says(t, said(b.post(b.path, b.form("amount", ""))), "Nothing can be had as it is, because something is met that is not named.")
}

// What stops is told as what happens.
func TestPlanReachStoppedByAPart(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	w := b.post(b.path, b.form("amount", "12", "do.front_wall_nut", "none"))
	says(t, said(w), "nothing can be had, because the nut meets the front wall.")
}

// Bolts are sold in steps: under the bracket, its wall out of the way, up to 3 of spacer
// do, and from 4 to 6 again, where bolts of 25 no longer bottom in holes of 14: 25 − 8 − 4
// = 13. At 6 the nut has no more to give.
func TestPlanReachHoldsAgain(t *testing.T) {
	m := demo.Lathe()
	wall, _ := m.Axes[0].Part("front_wall")
	wall.Entries["from"] = plan.Entry{Typed: "132"}
	m.Axes[0].Entries["travel_found"] = plan.Entry{Typed: "89.5", With: "dial_gauge"}
	m.Upgrades[0].Kind, m.Upgrades[0].Inputs = "bracket_spacer", map[string]string{"other": "keep"}
	b := benchOf(t, m)
	again := "It holds again from 4 mm to 6 mm."
	says(t, said(b.post(b.path, b.form("amount", "3.5", "other", "keep"))), "You asked for 3.5 mm; you can have 3 mm, because then", again)
	says(t, said(b.post(b.path, b.form("amount", "5", "other", "keep"))), "You asked for 5 mm, and it holds. Just beyond 3 mm it does not", again)
	says(t, said(b.post(b.path, b.form("amount", "", "other", "keep"))), "You could have 3 mm; then", again)
}
