package web

import (
	"net/http"
	"strings"

	"fettle/plan/upgrade"
	"fettle/web/form"
)

// upgradeAdd begins a draft of a kind on an axis, and leads to its page.
func (s *Server) upgradeAdd(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	p, err := m.Build("")
	if err != nil {
		return err
	}
	kind, known := upgrade.KindNamed(f.Value("kind"))
	l := p.Layout(f.Value("axis"))
	if !known || l == nil || !kind.Suits(l) {
		return badRequest("This kind of upgrade does not fit that axis.")
	}
	u, _, err := s.store.SaveUpgrade(r.Context(), m.ID, 0,
		upgrade.Upgrade{Kind: f.Value("kind"), Axis: l.Key, State: upgrade.Draft, Inputs: begunWith(f)})
	if err != nil {
		return err
	}
	goTo(w, r, planPath(m.ID, u.ID))
	return nil
}

// begunWith are the inputs that a draft begins with: fields whose names begin with "in.". What cannot be
// taken is said on the draft's own page.
func begunWith(f *form.Form) map[string]string {
	inputs := map[string]string{}
	for _, name := range f.Names() {
		if local, ok := strings.CutPrefix(name, "in."); ok && local != "" && f.Value(name) != "" {
			inputs[local] = f.Value(name)
		}
	}
	return inputs
}
