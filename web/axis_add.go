package web

import (
	"net/http"

	"fettle/plan/axis"
	"fettle/web/form"
	"fettle/web/ui"
)

// axisFields are the words of an axis, as a form.
type axisFields struct {
	Label       ui.Field
	Arrangement ui.Radios
	Capacity    ui.Choice
	Plus, Minus ui.Field
	Datum       ui.Field
	Open        bool
}

// What is asked to learn how an axis is driven. Never assumed from the sort of machine: the same change
// has opposite effects.
const driveAsk = "When you wind it, does the handle stay where it is or go with the slide?"

func newAxisFields(f *form.Form) axisFields {
	arrangements := make([]ui.Option, len(axis.Arrangements))
	for i, a := range axis.Arrangements {
		arrangements[i] = ui.Option{Value: a.Key, Text: a.Answer}
	}
	capacities := []ui.Option{{Value: "", Text: "nothing that is worked out here"}}
	for _, c := range axis.Capacities {
		capacities = append(capacities, ui.Option{Value: c.Key, Text: c.Label})
	}
	field := func(name, label, hint string) ui.Field {
		return ui.Field{Name: name, Label: label, Hint: hint, Value: f.Value(name), Problem: f.Problem(name)}
	}
	return axisFields{
		Label:       field("label", "Name of the axis", "such as cross slide, table X, tailstock barrel"),
		Arrangement: ui.Radios{Name: "arrangement", Label: driveAsk, Options: chosen(arrangements, f.Value("arrangement")), Problem: f.Problem("arrangement")},
		Capacity: ui.Choice{Name: "capacity", Label: "What its travel decides", Options: chosen(capacities, f.Value("capacity")), Problem: f.Problem("capacity"),
			Hint: "the work that more travel would let you do"},
		Plus:  field("plus", "The end on the handle's side is called", "such as outward, towards the operator"),
		Minus: field("minus", "The other end is called", "such as inward"),
		Datum: field("datum", "Positions are measured from", "one face that stays, such as the saddle's rear face"),
		Open:  !f.OK(),
	}
}

// axisOf reads the words of an axis over those of a, and marks what cannot be taken.
func axisOf(f *form.Form, a axis.Axis) axis.Axis {
	a.Label = f.Text("label", "a name", longestName)
	if _, ok := axis.ArrangementNamed(f.Value("arrangement")); !ok {
		f.Fail("arrangement", "choose what the handle does")
	}
	if _, ok := axis.CapacityNamed(f.Value("capacity")); !ok && f.Value("capacity") != "" {
		f.Fail("capacity", "choose one of the list")
	}
	a.Arrangement, a.Capacity = f.Value("arrangement"), f.Value("capacity")
	words := func(name, otherwise string) string {
		if f.Blank(name) {
			return otherwise
		}
		return f.Text(name, "a name", longestName)
	}
	a.Plus, a.Minus, a.Datum = words("plus", "outward"), words("minus", "inward"), words("datum", "")
	return a
}

// axisAdd begins the measuring sheet of a new axis, with the parts that such an axis usually has.
func (s *Server) axisAdd(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	a := axisOf(f, axis.Axis{})
	if !f.OK() {
		view, err := s.machineView(m)
		if err != nil {
			return err
		}
		view.NewAxis = newAxisFields(f)
		return s.reply(w, r, f.Status(), view)
	}
	var taken []string
	for _, other := range m.Axes {
		taken = append(taken, other.Key)
	}
	a.Key = axis.NewKey(a.Label, taken)
	arrangement, _ := axis.ArrangementNamed(a.Arrangement)
	a.Parts, a.Obstacles = arrangement.UsualParts(), arrangement.UsualObstacles()
	if _, err := s.store.SaveAxis(r.Context(), m.ID, 0, a); err != nil {
		return err
	}
	goTo(w, r, axisURL(m.ID, a.Key))
	return nil
}
