package web

import (
	"errors"
	"net/http"
	"regexp"
	"slices"
	"strings"

	"github.com/go-chi/chi/v5"

	"fettle/plan/buildlog"
	"fettle/store"
)

// entryView is one entry, with its photos large.
type entryView struct {
	entryLine
	Machine string      `json:"machine"`
	Compare *comparison `json:"compare,omitempty"`
	Changed string      `json:"-"`
	Place   string      `json:"-"` // where its photos say that they were taken; for the owner alone
	URL     string      `json:"-"` // of the log
	machine string
}

// entryKeys are keys of entries, which whoever writes one gives.
var entryKeys = regexp.MustCompile(`^[A-Za-z0-9_-]{1,64}$`)

func isEntryKey(key string) bool { return entryKeys.MatchString(key) }

// entryKey reads which entry of which machine the path names.
func entryKey(r *http.Request) (machine int64, key string, err error) {
	if machine, err = pathID(r, "machine"); err != nil {
		return 0, "", err
	}
	if key = chi.URLParam(r, "entry"); !isEntryKey(key) {
		return 0, "", notFound("")
	}
	return machine, key, nil
}

var noEntry = notFound("The log has no such entry. It may have been deleted: “Deleted entries” beside the log lists those that can be had back.")

// entryAt reads the machine and the entry that the path names.
func (s *Server) entryAt(r *http.Request) (m store.Stored, e store.LogEntry, err error) {
	id, key, err := entryKey(r)
	if err != nil {
		return m, e, err
	}
	if m, err = s.store.Machine(r.Context(), id); err != nil {
		return m, e, err
	}
	e, err = s.store.LogEntry(r.Context(), id, key)
	if errors.Is(err, store.ErrNotFound) {
		err = noEntry
	}
	return m, e, err
}

func (s *Server) entryShow(w http.ResponseWriter, r *http.Request) error {
	m, e, err := s.entryAt(r)
	if err != nil {
		return err
	}
	return s.reply(w, r, http.StatusOK, s.entryView(m, e))
}

func (s *Server) entryView(m store.Stored, e store.LogEntry) entryView {
	v := entryView{entryLine: *entryLineOf(m, e), Machine: m.Name, URL: logURL(m.ID), machine: machineURL(m.ID), Changed: s.day(e.Changed)}
	if v.pair {
		v.Compare = markedPair(e.Photos)
	}
	return v
}

func (s *Server) entryEdit(w http.ResponseWriter, r *http.Request) error {
	m, e, err := s.entryAt(r)
	if err != nil {
		return err
	}
	staged, err := s.store.StagedPhotos(r.Context(), m.ID, e.Key)
	if err != nil {
		return err
	}
	for _, p := range staged { // that came while it was edited before
		if !slices.ContainsFunc(e.Photos, func(has buildlog.Photo) bool { return has.SHA256 == p.SHA256 }) {
			e.Photos = append(e.Photos, p)
		}
	}
	return s.reply(w, r, http.StatusOK, editView{Machine: m.Name, Form: entryFormOf(m, e), machine: machineURL(m.ID), URL: logURL(m.ID)})
}

// editView is the page on which an entry is changed.
type editView struct {
	Machine string     `json:"machine"`
	Form    *entryForm `json:"entry"`
	URL     string     `json:"-"`
	machine string
}

// entryAdd keeps a new entry.
func (s *Server) entryAdd(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	p, err := s.readEntry(r, m, store.LogEntry{MachineID: m.ID})
	if err != nil {
		return err
	}
	return s.keepEntry(w, r, m, p, func(f *entryForm) (View, error) {
		view, err := s.logOf(r, m, store.LogQuery{MachineID: m.ID, Upgrade: p.Value("in")})
		if err == nil {
			view.Form = f
		}
		return view, err
	})
}

// entrySave keeps a change of one.
func (s *Server) entrySave(w http.ResponseWriter, r *http.Request) error {
	m, e, err := s.entryAt(r)
	if err != nil {
		return err
	}
	p, err := s.readEntry(r, m, e)
	if err != nil {
		return err
	}
	return s.keepEntry(w, r, m, p, func(f *entryForm) (View, error) {
		return editView{Machine: m.Name, Form: f, machine: machineURL(m.ID), URL: logURL(m.ID)}, nil
	})
}

// keepEntry saves what was sent; or shows it again, for page to put into a whole, where it cannot be
// saved, or where only its photos were moved.
func (s *Server) keepEntry(w http.ResponseWriter, r *http.Request, m store.Stored, p *entryPost, page func(*entryForm) (View, error)) error {
	again := func(status int, stale bool) error {
		f := p.shownAgain(m)
		f.Stale = stale
		view, err := page(f)
		if err != nil {
			return err
		}
		return s.reply(w, r, status, view)
	}
	moved, err := s.movePhotos(r, m, p)
	if err != nil {
		return err
	}
	if moved || !p.OK() {
		return again(p.Status(), false)
	}
	saved, err := s.store.SaveLogEntry(r.Context(), m.ID, p.revision, p.entry)
	switch stale := (*store.StaleError[store.LogEntry])(nil); {
	case errors.As(err, &stale) && !stale.Current.Deleted.IsZero():
		p.Fail("text", "this entry was deleted meanwhile; bring it back from the list of deleted entries, or begin another with what stands here")
		return again(http.StatusConflict, false)
	case errors.As(err, &stale):
		p.revision = stale.Revision
		return again(http.StatusConflict, true)
	case errors.Is(err, store.ErrNotFound):
		p.Fail("about", "what it is about, or a photo of it, is no longer there; choose something else")
		return again(http.StatusUnprocessableEntity, false)
	case err != nil:
		return err
	case wantsJSON(r):
		return s.reply(w, r, http.StatusOK, s.entryView(m, saved))
	}
	goTo(w, r, logOfURL(m.ID, p.Value("in"))+"?"+query("saved", saved.Key))
	return nil
}

// movePhotos does what the buttons at the photos say, where no script does; nothing is saved by it.
func (s *Server) movePhotos(r *http.Request, m store.Stored, p *entryPost) (moved bool, err error) {
	do, sha256, _ := strings.Cut(p.Value("do"), ".")
	photos := p.entry.Photos
	at := slices.IndexFunc(photos, func(p buildlog.Photo) bool { return p.SHA256 == sha256 })
	switch {
	case do == "add":
		return true, nil
	case do == "up" && at > 0:
		photos[at-1], photos[at] = photos[at], photos[at-1]
	case do == "down" && at >= 0 && at+1 < len(photos):
		photos[at+1], photos[at] = photos[at], photos[at+1]
	case do == "drop" && at >= 0:
		p.entry.Photos = slices.Delete(photos, at, at+1)
		return true, s.unstage(r, m.ID, p.entry.Key, sha256)
	default:
		return do == "up" || do == "down" || do == "drop", nil
	}
	return true, nil
}

// unstage takes back a photo that came for an entry; one that is of a saved entry stays with it.
func (s *Server) unstage(r *http.Request, machine int64, key, sha256 string) error {
	err := s.store.UnstagePhoto(r.Context(), machine, key, sha256)
	if errors.Is(err, store.ErrNotFound) {
		return nil
	}
	return err
}
