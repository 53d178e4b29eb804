package web

import (
	"errors"
	"net/http"
	"reflect"
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/store"
	"fettle/web/form"
)

// sheetEdit keeps what was typed on a measuring sheet, works it out, and shows it. All of it is kept,
// also what cannot be read: that is marked at its field.
func (s *Server) sheetEdit(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, was, err := s.axis(r)
	if err != nil {
		return err
	}
	typed := planForm{revision: number(f.Value("revision")), window: f.Value("window"), turn: number(f.Value("turn")), saved: "not saved"}
	a, err := changed(f, axisIn(f, *was))
	if err != nil {
		return err
	}
	if f.Value("do") == "mine" { // having seen what another window has saved
		typed.revision, typed.window = number(f.Value("over")), ""
	}
	revision, err := s.keepSheet(r, m, *was, a, typed)
	var stale *store.StaleError[axis.Axis]
	switch {
	case errors.As(err, &stale):
		view := s.sheetView(m, a, f, typed)
		view.putAside(f, a)
		view.changedMeanwhile(a, stale)
		return s.reply(w, r, http.StatusConflict, view)
	case err != nil:
		return err
	case !isPart(r) && f.OK() && len(goneKeys(f, a)) == 0:
		goTo(w, r, axisURL(m.ID, a.Key)+backTo(f, a))
		return nil
	}
	typed.revision, typed.window, typed.saved = revision, f.Value("window"), "saved "+hour(s.now(), s.now())
	view := s.sheetView(m, a, f, typed)
	view.putAside(f, a)
	return s.reply(w, r, f.Status(), view)
}

// keepSheet saves an axis, unless it is what is stored already, and gives its revision.
func (s *Server) keepSheet(r *http.Request, m store.Stored, was, a axis.Axis, typed planForm) (int64, error) {
	if reflect.DeepEqual(was, a) {
		return m.AxisRevisions[a.Key], nil
	}
	return s.writers.save(axisURL(m.ID, a.Key), typed, func(revision int64) (int64, error) {
		return s.store.SaveAxis(r.Context(), m.ID, revision, a)
	})
}

// changed does what a button of the sheet asks for, beside saving it.
func changed(f *form.Form, a axis.Axis) (axis.Axis, error) {
	do, key, _ := strings.Cut(f.Value("do"), ":")
	part := func(p axis.Part) bool { return p.Key == key }
	obstacle := func(o axis.Obstacle) bool { return o.Key == key }
	switch do {
	case "", "save", "mine":
	case "up":
		a.Parts = swapped(a.Parts, slices.IndexFunc(a.Parts, part), -1)
	case "down":
		a.Parts = swapped(a.Parts, slices.IndexFunc(a.Parts, part), 1)
	case "take_off_part":
		a.Parts = slices.DeleteFunc(slices.Clone(a.Parts), part)
	case "take_off_obstacle":
		a.Obstacles = slices.DeleteFunc(slices.Clone(a.Obstacles), obstacle)
	case "put_back_part":
		if axis.IsKey(key) && !slices.ContainsFunc(a.Parts, part) {
			place := min(number(f.Value(key+".place")), int64(len(a.Parts)))
			a.Parts = slices.Insert(slices.Clone(a.Parts), int(max(0, place)), partIn(f, axis.Part{Key: key, Side: axis.Fixed}))
		}
	case "put_back_obstacle":
		if axis.IsKey(key) && !slices.ContainsFunc(a.Obstacles, obstacle) {
			a.Obstacles = append(slices.Clone(a.Obstacles), obstacleIn(f, axis.Obstacle{Key: key, End: axis.Plus}))
		}
	case "add_part":
		a.Parts = append(slices.Clone(a.Parts), newPart(f, a))
	case "add_obstacle":
		a.Obstacles = append(slices.Clone(a.Obstacles), newObstacle(f, a))
	default:
		return a, badRequest("The sheet has no such button.")
	}
	return a, nil
}

// swapped puts the part at i one place up or down, where there is one.
func swapped(parts []axis.Part, i, by int) []axis.Part {
	if i < 0 || i+by < 0 || i+by >= len(parts) {
		return parts
	}
	parts = slices.Clone(parts)
	parts[i], parts[i+by] = parts[i+by], parts[i]
	return parts
}

// keysOf are the keys that parts and obstacles of an axis have, or had while the page is open.
func keysOf(f *form.Form, a axis.Axis) []string {
	keys := slices.Concat(f.Values("gone_part"), f.Values("gone_obstacle"))
	for _, p := range a.Parts {
		keys = append(keys, p.Key)
	}
	for _, o := range a.Obstructions() {
		keys = append(keys, o.Key)
	}
	return keys
}

func newPart(f *form.Form, a axis.Axis) axis.Part {
	role, known := axis.RoleNamed(f.Value("new_role"))
	if !known {
		role, _ = axis.RoleNamed("other")
	}
	label := strings.TrimSpace(f.Value("new_label"))
	if label == "" {
		label = role.Label
	}
	arrangement, _ := axis.ArrangementNamed(a.Arrangement)
	return axis.Part{Key: axis.NewKey(label, keysOf(f, a)), Label: label, Role: role.Key, Side: arrangement.SideOf(role.Key)}
}

func newObstacle(f *form.Form, a axis.Axis) axis.Obstacle {
	o := axis.Obstacle{Label: strings.TrimSpace(f.Value("new_obstacle")), End: axis.Plus}
	if o.Label == "" {
		o.Label = "obstacle"
	}
	if f.Value("new_end") == string(axis.Minus) {
		o.End = axis.Minus
	}
	o.Key = axis.NewKey(o.Label, keysOf(f, a))
	return o
}

// backTo is where on the sheet its reader is led after a button, or "".
func backTo(f *form.Form, a axis.Axis) string {
	switch do, key, _ := strings.Cut(f.Value("do"), ":"); {
	case do == "add_part":
		return "#" + a.Parts[len(a.Parts)-1].Key
	case do == "add_obstacle":
		return "#" + a.Obstacles[len(a.Obstacles)-1].Key
	case axis.IsKey(key):
		return "#" + key
	}
	return ""
}
