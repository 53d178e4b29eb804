package web

import (
	"net/http"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/preset"
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
const driveAsk = "How is it driven? When you wind it, does the handle stay where it is or go with the slide?"

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

// usualFields are the presets of axes, as a form.
type usualFields struct {
	Ask     ui.Radios   // the question, and what is wrong with the answer
	Here    []ui.Option // those of such a machine
	Others  []ui.Option // those of other machines
	Size    ui.Radios
	Another bool // one of others is chosen
	Open    bool
}

// Sizes of a machine of which it is not said what they are.
var sizesOfAny = []string{"of a small bench machine", "of a bench machine that two can lift", "of a machine that stands on the floor"}

// newUsualFields lists the presets for a kind of machine.
func newUsualFields(f *form.Form, kind string) usualFields {
	u := usualFields{Ask: ui.Radios{Name: "usual", Label: "Which axis?", Problem: f.Problem("usual")}, Open: f.Has("usual_axis")}
	here, of := map[string]bool{}, map[string]string{}
	var means []string
	for _, k := range preset.Kinds {
		such := k.Machine == kind && kind != "other"
		if such && means == nil {
			means = k.Means
		}
		for _, key := range slices.Concat(k.Axes, k.More) {
			here[key] = here[key] || such
			if of[key] == "" {
				of[key] = k.Label
			}
		}
	}
	for _, key := range preset.Axes() {
		label, says, _ := preset.Label(key)
		option := ui.Option{Value: key, Text: label, Says: says, Chosen: key == f.Value("usual")}
		if here[key] {
			u.Here = append(u.Here, option)
		} else {
			option.Says = of[key] + ": " + says // several machines call an axis the same
			u.Others = append(u.Others, option)
			u.Another = u.Another || option.Chosen
		}
	}
	if means == nil {
		means = sizesOfAny
	}
	u.Size = sizeRadios(f, means)
	return u
}

// usualAxis is the preset that a form chooses, in the units of the machine.
func usualAxis(f *form.Form, m machine.Machine) (a axis.Axis) {
	key := f.Choice("usual", preset.Axes()...)
	size := f.Choice("size", preset.Classes...)
	if a, ok := preset.Axis(key, size); ok {
		return machine.Machine{Name: m.Name, Kind: m.Kind, Units: "mm", Axes: []axis.Axis{a}}.In(m.Units).Axes[0]
	}
	return a
}

// describedAxis is an axis as it is described, with the parts that such an axis usually has.
func describedAxis(f *form.Form) axis.Axis {
	a := axisOf(f, axis.Axis{})
	arrangement, _ := axis.ArrangementNamed(a.Arrangement)
	a.Parts, a.Obstacles = arrangement.UsualParts(), arrangement.UsualObstacles()
	return a
}

// axisAdd begins the measuring sheet of a new axis: one that is usual, all of it assumed, or one that is
// described and not measured yet.
func (s *Server) axisAdd(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	var a axis.Axis
	usual := f.Has("usual_axis")
	if usual {
		a = usualAxis(f, m.Machine)
	} else {
		a = describedAxis(f)
	}
	if !f.OK() {
		view, err := s.machineView(m)
		if err != nil {
			return err
		}
		if usual {
			view.Usual = newUsualFields(f, m.Kind)
		} else {
			view.NewAxis = newAxisFields(f)
		}
		return s.reply(w, r, f.Status(), view)
	}
	var taken []string
	for _, other := range m.Axes {
		taken = append(taken, other.Key)
	}
	a.Key = axis.NewKey(a.Label, taken)
	if _, err := s.store.SaveAxis(r.Context(), m.ID, 0, a); err != nil {
		return err
	}
	goTo(w, r, axisURL(m.ID, a.Key))
	return nil
}
