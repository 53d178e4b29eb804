package web

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"fettle/plan/buildlog"
	"fettle/store"
	"fettle/store/photo"
	"fettle/web/form"
	"fettle/web/ui"
)

// entryForm is an entry as it is typed.
type entryForm struct {
	Key      string        `json:"key"`
	Revision int64         `json:"revision"`
	At       string        `json:"at"`
	Text     ui.Area       `json:"text"`
	Hours    ui.Field      `json:"hours"`
	Cost     ui.Field      `json:"cost"`
	Photos   []photoFields `json:"photos,omitempty"`
	Problems []string      `json:"problems,omitempty"` // of photos
	Stale    bool          `json:"changed_meanwhile,omitempty"`

	AtProblem    string       `json:"at_problem,omitempty"`
	AboutProblem string       `json:"about_problem,omitempty"`
	About        []aboutGroup `json:"-"`
	Currency     string       `json:"-"`
	In           string       `json:"-"` // the upgrade whose log it is typed on
	New          bool         `json:"-"`
	Typed        bool         `json:"-"` // it holds what was sent, which no draft replaces
	Open         bool         `json:"-"` // all of its fields are to be seen
	Action       string       `json:"-"`
	Log          string       `json:"-"` // address of the log
}

// photoFields are a photo of an entry that is typed.
type photoFields struct {
	photoShown
	First, Last bool
}

const (
	mostText = 100_000 // characters of an entry: a small book
	partCost = 256     // bytes that a field counts beside its text: so that there are not too many
)

// newEntryForm is the form of a new entry, about something.
func (s *Server) newEntryForm(r *http.Request, m store.Stored, about buildlog.Entry) (*entryForm, error) {
	sh, _, err := s.store.Shopping(r.Context(), m.ID)
	if err != nil {
		return nil, err
	}
	about.Key, about.At, about.Currency = store.NewLogKey(), s.now().Format(buildlog.TimeLayout), currencyOf(sh.Currency)
	f := entryFormOf(m, store.LogEntry{MachineID: m.ID, Entry: about})
	f.In = about.Upgrade
	return f, nil
}

// entryFormOf is the form of an entry as it is; a new one has no revision.
func entryFormOf(m store.Stored, e store.LogEntry) *entryForm {
	f := &entryForm{Key: e.Key, Revision: e.Revision, At: e.At, Currency: e.Currency, About: aboutList(m, e.Entry), New: e.Revision == 0,
		Log: logURL(m.ID), Action: logURL(m.ID),
		Text:  ui.Area{Name: "text", Label: "What was done", Value: e.Text},
		Hours: ui.Field{Name: "hours", Label: "Time spent", Value: e.Hours, Hint: "such as 1.5, 1:30 or 45 min"},
		Cost:  ui.Field{Name: "cost", Label: "Cost", Value: e.Cost, Hint: "such as 12.50 EUR or £7"},
	}
	if !f.New {
		f.Action, f.Open = f.Log+"/"+f.Key, true
		f.Text.Hint = "Markdown: *stressed*, **strong**, - a list, # a heading, [a link](https://example.org)"
	}
	if f.Currency != "" {
		f.Cost.Hint = "in " + f.Currency + " unless you say otherwise: 12.50, £7"
	}
	for i, p := range e.Photos {
		f.Photos = append(f.Photos, photoFields{shown(p), i == 0, i == len(e.Photos)-1})
	}
	return f
}

// entryPost is an entry as it was sent.
type entryPost struct {
	*form.Form
	entry    buildlog.Entry
	revision int64
	refused  []string // what is wrong with photos that came with it
}

// readEntry reads an entry that was sent, in place of e, and keeps the photos that came with it.
func (s *Server) readEntry(r *http.Request, m store.Stored, e store.LogEntry) (*entryPost, error) {
	p := &entryPost{entry: e.Entry}
	var came []buildlog.Photo
	err := error(nil)
	if strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data") {
		came, err = s.receive(r, m.ID, e.Key, p)
	} else {
		r.Body = http.MaxBytesReader(nil, r.Body, formLimit) // it is held in memory
		p.Form, err = form.Read(r)
	}
	if err != nil {
		return nil, arriving(readOn(r, err))
	}
	if e.Key == "" {
		if p.entry.Key = p.Value("key"); !isEntryKey(p.entry.Key) {
			return nil, badRequest("An entry has a key of letters and digits.")
		}
	}
	p.revision = number(p.Value("revision"))
	p.read()
	return p, s.photosOf(r, m.ID, p, came)
}

// receive reads a form with photos, and keeps each photo while it arrives: none is held in memory. The
// entry's key stands in the form before them.
func (s *Server) receive(r *http.Request, machine int64, key string, p *entryPost) (came []buildlog.Photo, err error) {
	parts, err := r.MultipartReader()
	if err != nil {
		return nil, fmt.Errorf("%w: %w", form.ErrUnreadable, err)
	}
	values, left := url.Values{}, int64(formLimit)
	for {
		part, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			p.Form, err = form.Of(values)
			return came, err
		}
		if err != nil {
			return nil, unreadable(err)
		}
		if part.FileName() == "" {
			text, err := io.ReadAll(io.LimitReader(part, left+1))
			if left -= int64(len(text)) + partCost; left < 0 {
				return nil, &http.MaxBytesError{Limit: formLimit}
			}
			if err != nil {
				return nil, unreadable(err)
			}
			if part.FormName() != "files" { // no file was chosen
				values.Add(part.FormName(), string(text))
			}
			continue
		}
		if key = cmp.Or(key, values.Get("key")); !isEntryKey(key) {
			return nil, badRequest("The entry's key has to come before its photos.")
		}
		if came, err = s.receivePhoto(r, machine, key, p, part, came); err != nil {
			return nil, err
		}
	}
}

func (s *Server) receivePhoto(r *http.Request, machine int64, key string, p *entryPost, part *multipart.Part, came []buildlog.Photo) ([]buildlog.Photo, error) {
	if len(came) >= mostPhotos {
		p.refused = append(p.refused, fmt.Sprintf("“%s”: an entry has at most %d photos", part.FileName(), mostPhotos))
		return came, nil
	}
	is, err := s.store.AddPhoto(r.Context(), machine, key, part)
	switch refused := (*photo.RefusedError)(nil); {
	case errors.As(err, &refused):
		p.refused = append(p.refused, "“"+part.FileName()+"”: "+refused.Say)
		return came, nil
	case err != nil:
		return nil, err
	}
	return append(came, is), nil
}

// unreadable tells apart a body that is too large, late or cut short from one that is no form.
func unreadable(err error) error {
	if tooLarge := (*http.MaxBytesError)(nil); errors.As(err, &tooLarge) || arriving(err) != err || isLate(err) {
		return err
	}
	return fmt.Errorf("%w: %w", form.ErrUnreadable, err)
}

// read takes the entry from the form.
func (p *entryPost) read() {
	e := &p.entry
	e.At = strings.TrimSpace(p.Value("at"))
	if len(e.At) > len(buildlog.TimeLayout) { // with seconds
		e.At = e.At[:len(buildlog.TimeLayout)]
	}
	if at, err := time.Parse(buildlog.TimeLayout, e.At); err != nil || at.Format(buildlog.TimeLayout) != e.At || at.Year() < 1 {
		p.Fail("at", "give a day and a time such as 2026-03-14 15:09")
	}
	e.Text = strings.ReplaceAll(p.Value("text"), "\r\n", "\n")
	if n := len([]rune(e.Text)); n > mostText {
		p.Fail("text", fmt.Sprintf("an entry has at most %d characters; this has %d", mostText, n))
	}
	e.Hours, e.Cost, e.Currency = strings.TrimSpace(p.Value("hours")), strings.TrimSpace(p.Value("cost")), p.Value("currency")
	if _, err := buildlog.ParseHours(e.Hours); err != nil {
		p.Fail("hours", err.Error())
	}
	if len(e.Hours) > 100 {
		p.Fail("hours", buildlog.ErrHours.Error())
	}
	if _, err := e.Price(); err != nil {
		p.Fail("cost", err.Error())
	}
	if e.Currency = currencyOf(e.Currency); e.Cost == "" {
		e.Currency = ""
	}
	if !setAbout(e, p.Value("about")) {
		p.Fail("about", "choose one of the list")
	}
}

// photosOf takes the entry's photos from the form, in its order, and after them those that came with it.
func (s *Server) photosOf(r *http.Request, machine int64, p *entryPost, came []buildlog.Photo) error {
	staged, err := s.store.StagedPhotos(r.Context(), machine, p.entry.Key)
	if err != nil {
		return err
	}
	known := map[string]buildlog.Photo{}
	for _, is := range slices.Concat(p.entry.Photos, staged, came) {
		known[is.SHA256] = is
	}
	p.entry.Photos = nil
	used := map[string]bool{}
	add := func(sha256 string) error {
		is, ok := known[sha256]
		if !ok {
			if is, err = s.store.Photo(r.Context(), sha256); errors.Is(err, store.ErrNotFound) {
				p.refused = append(p.refused, "a photo is no longer there; add it again")
				return nil
			} else if err != nil {
				return err
			}
		}
		if used[sha256] {
			return nil
		}
		used[sha256] = true
		is.Caption, is.Role = strings.TrimSpace(p.Value("caption."+sha256)), buildlog.Role(p.Value("role."+sha256))
		p.entry.Photos = append(p.entry.Photos, is)
		return nil
	}
	for _, sha256 := range p.Values("photo") {
		if err := add(sha256); err != nil {
			return err
		}
	}
	for _, is := range came {
		if err := add(is.SHA256); err != nil {
			return err
		}
	}
	p.checkPhotos()
	return nil
}

// checkPhotos finds what is wrong with the photos together.
func (p *entryPost) checkPhotos() {
	roles := map[buildlog.Role]int{}
	for i, is := range p.entry.Photos {
		if is.Role != buildlog.Before && is.Role != buildlog.After {
			p.entry.Photos[i].Role = ""
			continue
		}
		if roles[is.Role]++; roles[is.Role] == 2 {
			p.refused = append(p.refused, fmt.Sprintf("only one photo of an entry is the one %s; choose which", is.Role))
		}
	}
	for _, is := range p.entry.Photos {
		if len([]rune(is.Caption)) > 500 {
			p.refused = append(p.refused, "a caption has at most 500 characters")
		}
	}
	if len(p.entry.Photos) > mostPhotos {
		p.refused = append(p.refused, fmt.Sprintf("an entry has at most %d photos; take %d away", mostPhotos, len(p.entry.Photos)-mostPhotos))
	}
	if len(p.refused) > 0 {
		p.Fail("photos", p.refused[0])
	}
	e := p.entry
	if strings.TrimSpace(e.Text) == "" && len(e.Photos) == 0 && e.Hours == "" && e.Cost == "" && p.OK() && !strings.HasPrefix(p.Value("do"), "drop") {
		p.Fail("text", "write a line, or add a photo")
	}
}

// shownAgain is the form with what was sent in it.
func (p *entryPost) shownAgain(m store.Stored) *entryForm {
	f := entryFormOf(m, store.LogEntry{MachineID: m.ID, Entry: p.entry, Revision: p.revision})
	f.Text.Value, f.Hours.Value, f.Cost.Value, f.At, f.Currency = p.Value("text"), p.Value("hours"), p.Value("cost"), p.Value("at"), p.Value("currency")
	f.Text.Problem, f.Hours.Problem, f.Cost.Problem = sentence(p.Problem("text")), sentence(p.Problem("hours")), sentence(p.Problem("cost"))
	f.AtProblem, f.AboutProblem = sentence(p.Problem("at")), sentence(p.Problem("about"))
	for _, say := range p.refused {
		f.Problems = append(f.Problems, sentence(say))
	}
	f.In, f.Typed = p.Value("in"), true
	f.Open = f.Open || f.AtProblem+f.AboutProblem+f.Hours.Problem+f.Cost.Problem != ""
	return f
}
