package web

import (
	"errors"
	"maps"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"time"

	"fettle/plan"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/form"
)

// madeField is a field of a size as made: the key of the size, and which of its words it is.
var madeField = regexp.MustCompile(`^made\.([a-z_][a-z0-9_]{0,60}\.[a-z_][a-z0-9_]{0,60})(\.spread|\.with)?$`)

// madeOver gives the sizes as made as stored, with what was typed in their place. What was rubbed out is
// gone. A size that is typed anew is of today.
func madeOver(stored map[string]plan.Entry, f *form.Form, today time.Time) (map[string]plan.Entry, error) {
	made := maps.Clone(stored)
	if made == nil {
		made = map[string]plan.Entry{}
	}
	for _, name := range f.Names() {
		field := madeField.FindStringSubmatch(name)
		if field == nil {
			continue
		}
		e, value := made[field[1]], f.Value(name)
		switch field[2] {
		case ".spread":
			e.Spread = value
		case ".with":
			if _, ok := plan.InstrumentNamed(value); !ok && value != "" {
				return nil, badRequest("Choose an instrument of the list.")
			}
			e.With = value
		default:
			if e.Typed != value {
				e.On = today.Format(time.DateOnly)
			}
			e.Typed = value
		}
		if e.Typed == "" {
			e.On = ""
		}
		made[field[1]] = e
	}
	maps.DeleteFunc(made, func(_ string, e plan.Entry) bool { return e == plan.Entry{} })
	return made, nil
}

// partsSave keeps the sizes as made that were typed, and shows what follows from them.
func (s *Server) partsSave(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	was, typed := m.Upgrades[at], planFormOf(f)
	made, err := madeOver(was.Made, f, s.now())
	if err != nil {
		return err
	}
	m.Upgrades[at].Made = made
	view, err := s.partsOf(m, at, partsChoiceOf(r, m.LengthUnit()), typed)
	if err != nil {
		return err
	}
	revision, err := s.keepMade(r, m, m.Upgrades[at], was, typed)
	switch stale := (*store.StaleError[upgrade.Upgrade])(nil); {
	case errors.As(err, &stale):
		view.changedMeanwhile(stale.Current, stale.Revision, made)
		return s.reply(w, r, http.StatusConflict, view)
	case err != nil:
		return err
	}
	view.Revision = revision
	view.Saved = "saved " + hour(s.now(), s.now())
	switch {
	case view.Unreadable:
		return s.reply(w, r, http.StatusUnprocessableEntity, view)
	case wantsJSON(r) || isPart(r) && !typed.whole:
		return s.reply(w, r, http.StatusOK, view)
	}
	goTo(w, r, view.path+view.choice.query()+"#as-made")
	return nil
}

// keepMade saves the upgrade with its sizes as made, unless they are what is stored already.
func (s *Server) keepMade(r *http.Request, m store.Stored, u, was upgrade.Upgrade, typed planForm) (int64, error) {
	if maps.Equal(u.Made, was.Made) {
		return m.UpgradeRevisions[u.ID], nil
	}
	return s.writers.save(planPath(m.ID, u.ID), typed, func(revision int64) (int64, error) {
		_, revision, err := s.store.SaveUpgrade(r.Context(), m.ID, revision, u)
		return revision, err
	})
}

// changedMeanwhile sets the sizes that are stored beside those that were typed, of which nothing was saved.
func (v *partsView) changedMeanwhile(theirs upgrade.Upgrade, revision int64, mine map[string]plan.Entry) {
	v.Saved = "not saved"
	v.Stale = &planStale{Revision: revision, State: theirs.State}
	keys := map[string]bool{}
	for key := range theirs.Made {
		keys[key] = true
	}
	for key := range mine {
		keys[key] = true
	}
	said := func(e plan.Entry) string {
		words := []string{e.Typed}
		if e.Spread != "" {
			words = append(words, "± "+e.Spread)
		}
		if in, ok := plan.InstrumentNamed(e.With); ok {
			words = append(words, "by "+in.Label)
		}
		if text := strings.TrimSpace(strings.Join(words, " ")); text != "" {
			return text
		}
		return "blank"
	}
	for _, key := range slices.Sorted(maps.Keys(keys)) {
		a, b := mine[key], theirs.Made[key]
		if said(a) != said(b) {
			v.Stale.Theirs = append(v.Stale.Theirs, planDifference{Label: v.sizeLabel(key), Mine: said(a), Theirs: said(b)})
		}
	}
}

// sizeLabel is what a size is called on the page; its own key where no part has it.
func (v *partsView) sizeLabel(key string) string {
	for _, p := range v.Parts {
		for _, row := range p.Made {
			if row.Name == "made."+key {
				return p.Label + ", " + row.Label
			}
		}
	}
	return key
}
