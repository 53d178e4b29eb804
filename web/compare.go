package web

import (
	"errors"
	"net/http"
	"slices"

	"github.com/go-chi/chi/v5"

	"fettle/plan/buildlog"
	"fettle/store"
	"fettle/web/form"
	"fettle/web/ui"
)

// comparison is two photos side by side, or one over the other.
type comparison struct {
	Before photoShown `json:"before"`
	After  photoShown `json:"after"`
}

// compareView is the page on which any two photos of an entry, or of all entries of an upgrade, are chosen
// and laid side by side. Which they are stands in its address.
type compareView struct {
	Machine string       `json:"machine"`
	Of      string       `json:"of"`
	Compare *comparison  `json:"compare,omitempty"`
	Problem string       `json:"problem,omitempty"`
	Entries []photoEntry `json:"entries"`
	Next    string       `json:"next,omitempty"` // address of the page that follows

	Newest string `json:"-"` // address of the first page; "": it is this one
	After  string `json:"-"` // where this page begins
	URL    string `json:"-"`
	chosen comparison
	crumbs []ui.Link
}

// photoEntry is the photos of an entry, to choose from.
type photoEntry struct {
	When   string        `json:"when"`
	Href   string        `json:"href,omitempty"`
	Photos []photoChoice `json:"photos"`
}

// photoChoice is a photo that may be one of the two.
type photoChoice struct {
	photoShown
	Before bool `json:"-"`
	After  bool `json:"-"`
}

func (s *Server) compareEntry(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, e, err := s.entryAt(r)
	if err != nil {
		return err
	}
	line := entryLineOf(m, e)
	v := compareView{Machine: m.Name, Of: "entry of " + line.When, URL: line.Href + "/compare", Entries: photoEntries(m, e),
		crumbs: []ui.Link{{Text: "Machines", Href: "/"}, {Text: m.Name, Href: machineURL(m.ID)}, {Text: "Build log", Href: logURL(m.ID)},
			{Text: line.When, Href: line.Href}, {Text: "Before and after"}}}
	c := choice{marked: markedPair(e.Photos), find: func(sha256 string) (buildlog.Photo, error) {
		i := slices.IndexFunc(e.Photos, func(p buildlog.Photo) bool { return p.SHA256 == sha256 })
		if i < 0 {
			return buildlog.Photo{}, store.ErrNotFound
		}
		return e.Photos[i], nil
	}}
	if err := v.choose(f, c); err != nil {
		return err
	}
	return s.reply(w, r, http.StatusOK, v)
}

func (s *Server) compareUpgrade(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	of, after := chi.URLParam(r, "upgrade"), f.Value("earlier")
	page, err := s.store.Log(r.Context(), store.LogQuery{MachineID: m.ID, Upgrade: of, Pictured: true, After: after})
	if err != nil {
		return err
	}
	marked, err := s.store.Comparison(r.Context(), m.ID, of)
	if err != nil {
		return err
	}
	name, back := aboutLinks(m, buildlog.Entry{Upgrade: of})[0].Text, logOfURL(m.ID, of)
	v := compareView{Machine: m.Name, Of: name, URL: planPath(m.ID, of) + "/compare", After: after, Entries: photoEntries(m, page.Entries...),
		crumbs: []ui.Link{{Text: "Machines", Href: "/"}, {Text: m.Name, Href: machineURL(m.ID)}, {Text: "Build log", Href: logURL(m.ID)},
			{Text: name, Href: back}, {Text: "Before and after"}}}
	c := choice{find: func(sha256 string) (buildlog.Photo, error) {
		return s.store.UpgradePhoto(r.Context(), m.ID, of, sha256)
	}}
	if marked.Before != nil && marked.After != nil {
		c.marked = &comparison{Before: shown(*marked.Before), After: shown(*marked.After)}
	}
	if err := v.choose(f, c); err != nil {
		return err
	}
	if page.Next != "" {
		v.Next = v.pageAfter(page.Next)
	}
	if after != "" {
		v.Newest = v.pageAfter("")
	}
	return s.reply(w, r, http.StatusOK, v)
}

func photoEntries(m store.Stored, entries ...store.LogEntry) (all []photoEntry) {
	for _, e := range entries {
		line := entryLineOf(m, e)
		of := photoEntry{When: line.When, Href: line.Href}
		for _, p := range line.Photos {
			of.Photos = append(of.Photos, photoChoice{photoShown: p})
		}
		if len(of.Photos) > 0 {
			all = append(all, of)
		}
	}
	return all
}

// markedPair is the photos of an entry that are marked as before and after; nil: they are not both there.
func markedPair(photos []buildlog.Photo) *comparison {
	roles := map[buildlog.Role]photoShown{}
	for _, p := range photos {
		roles[p.Role] = shown(p)
	}
	before, after := roles[buildlog.Before], roles[buildlog.After]
	if before.SHA256 == "" || after.SHA256 == "" {
		return nil
	}
	return &comparison{Before: before, After: after}
}

// choice is where the two photos can be.
type choice struct {
	marked *comparison // is shown until two are chosen; may be nil
	find   func(sha256 string) (buildlog.Photo, error)
}

// choose lays the photos side by side that the address names, or those that are marked.
func (v *compareView) choose(f *form.Form, from choice) error {
	v.Compare = from.marked
	if f.Has("before") || f.Has("after") {
		var c comparison
		for name, to := range map[string]*photoShown{"before": &c.Before, "after": &c.After} {
			switch p, err := from.find(f.Value(name)); {
			case errors.Is(err, store.ErrNotFound) && f.Value(name) != "":
				v.Problem = "A photo that was chosen is not there any more; choose another."
			case err != nil && !errors.Is(err, store.ErrNotFound):
				return err
			case err == nil:
				*to = shown(p)
			}
		}
		v.Compare = &c
	}
	if v.Compare == nil {
		return nil
	}
	v.mark(*v.Compare)
	switch {
	case v.Compare.Before.SHA256 == "" || v.Compare.After.SHA256 == "":
		if v.Problem == "" {
			v.Problem = "Choose two photos: one as before, one as after."
		}
		v.Compare = nil
	case v.Compare.Before.SHA256 == v.Compare.After.SHA256:
		v.Problem, v.Compare = "Before and after are the same photo; choose another for one of them.", nil
	}
	return nil
}

// mark ticks the photos that are chosen. Those that stand on another page are added, so that they stay chosen.
func (v *compareView) mark(c comparison) {
	v.chosen = c
	elsewhere := photoEntry{When: "Chosen, of another page"}
	for _, p := range []photoShown{c.Before, c.After} {
		has := func(e photoEntry) bool {
			return slices.ContainsFunc(e.Photos, func(is photoChoice) bool { return is.SHA256 == p.SHA256 })
		}
		if p.SHA256 != "" && !slices.ContainsFunc(v.Entries, has) && !has(elsewhere) {
			elsewhere.Photos = append(elsewhere.Photos, photoChoice{photoShown: p})
		}
	}
	if len(elsewhere.Photos) > 0 {
		v.Entries = slices.Insert(v.Entries, 0, elsewhere)
	}
	for _, e := range v.Entries {
		for i := range e.Photos {
			p := &e.Photos[i]
			p.Before, p.After = p.SHA256 == c.Before.SHA256, p.SHA256 == c.After.SHA256
		}
	}
}

// pageAfter is the address of another page, with the photos that are chosen.
func (v *compareView) pageAfter(after string) string {
	return v.URL + "?" + query("before", v.chosen.Before.SHA256, "after", v.chosen.After.SHA256, "earlier", after)
}
