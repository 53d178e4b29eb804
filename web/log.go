package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"github.com/go-chi/chi/v5"

	"fettle/plan/buildlog"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/form"
	"fettle/web/ui"
)

// dayAndTime is how an entry's time is said.
const dayAndTime = "2 January 2006, 15:04"

// logRoutes lists the addresses of the build log that take no photos.
func (s *Server) logRoutes(r chi.Router) {
	r.Get("/machines/{machine}/log", s.handle(s.logShow))
	r.Get("/machines/{machine}/deleted-entries", s.handle(s.logDeleted))
	r.Get("/machines/{machine}/log/{entry}", s.handle(s.entryShow))
	r.Get("/machines/{machine}/log/{entry}/compare", s.handle(s.compareEntry))
	r.Get("/machines/{machine}/log/{entry}/edit", s.handle(s.entryEdit))
	r.Post("/machines/{machine}/log/{entry}/delete", s.handle(s.entryDelete))
	r.Post("/machines/{machine}/log/{entry}/restore", s.handle(s.entryRestore))
	r.Post("/machines/{machine}/log/{entry}/photos/{photo}/remove", s.handle(s.photoUnstage))
	r.Get("/photos/{photo}/{size}", s.handle(s.photoShow))
	r.Get("/data", s.handle(s.dataShow))
	r.Post("/data", s.handle(s.dataRemove))
}

// logUploadRoutes lists those that do, each with limits of its own.
func (s *Server) logUploadRoutes(r chi.Router) {
	r.With(s.limitUploads(photosLimit)).Post("/machines/{machine}/log", s.handle(s.entryAdd))
	r.With(s.limitUploads(photosLimit)).Post("/machines/{machine}/log/{entry}", s.handle(s.entrySave))
	r.With(s.limitUploads(photoLimit)).Post("/machines/{machine}/log/{entry}/photos", s.handle(s.photoAdd))
}

// logView is a page of a machine's build log, or of what it says of one of its upgrades.
type logView struct {
	Machine string      `json:"machine"`
	Upgrade string      `json:"upgrade,omitempty"` // of which alone it tells, in words
	Lines   []logLine   `json:"lines"`
	Next    string      `json:"next,omitempty"` // address of the page that follows
	Told    string      `json:"told"`
	Totals  []logTotal  `json:"totals,omitempty"`
	Compare *comparison `json:"compare,omitempty"`

	Search  ui.Field   `json:"-"`
	Of      ui.Choice  `json:"-"`
	First   bool       `json:"-"` // it is the first page
	Form    *entryForm `json:"-"`
	Notices []undo     `json:"-"`
	URL     string     `json:"-"`
	machine string     // address of its page
	compare string     // where photos of the upgrade are laid side by side; "": there are not two here
}

// logLine is an entry, or an upgrade that was fitted: one of them.
type logLine struct {
	Entry  *entryLine  `json:"entry,omitempty"`
	Fitted *fittedLine `json:"fitted,omitempty"`
}

// entryLine is an entry as the list shows it.
type entryLine struct {
	Key    string       `json:"key"`
	Href   string       `json:"href"`
	At     string       `json:"at"`
	When   string       `json:"-"`
	Text   string       `json:"text"` // Markdown
	Hours  string       `json:"hours,omitempty"`
	Cost   string       `json:"cost,omitempty"`
	About  []ui.Link    `json:"about,omitempty"`
	Photos []photoShown `json:"photos,omitempty"`

	hit  *store.LogHit // where a search was met; nil: it was not searched
	pair bool          // it has a photo before and one after
}

// fittedLine says that an upgrade became part of the machine.
type fittedLine struct {
	Upgrade string `json:"upgrade"`
	On      string `json:"on"`
	Href    string `json:"href"`
	Write   string `json:"-"` // where an entry about it is begun
	When    string `json:"-"`
}

func (s *Server) logShow(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	q := store.LogQuery{MachineID: m.ID, Upgrade: cmp.Or(chi.URLParam(r, "upgrade"), f.Value("upgrade")), Search: f.Value("q"), After: f.Value("after")}
	view, err := s.logOf(r, m, q)
	if err != nil {
		return err
	}
	about := buildlog.Entry{Upgrade: q.Upgrade}
	if f.Has("about") {
		setAbout(&about, f.Value("about"))
	}
	if view.Form, err = s.newEntryForm(r, m, about); err != nil {
		return err
	}
	view.notice(f)
	return s.reply(w, r, http.StatusOK, view)
}

func logURL(machine int64) string { return machineURL(machine) + "/log" }

// logOfURL is the log of one upgrade, or of the machine where it is "".
func logOfURL(machine int64, upgrade string) string {
	if upgrade == "" {
		return logURL(machine)
	}
	return planPath(machine, upgrade) + "/log"
}

// logOf reads a page of the log, and puts it into words.
func (s *Server) logOf(r *http.Request, m store.Stored, q store.LogQuery) (*logView, error) {
	page, err := s.store.Log(r.Context(), q)
	if err != nil {
		return nil, err
	}
	totals, err := s.store.LogTotals(r.Context(), m.ID)
	if err != nil {
		return nil, err
	}
	v := &logView{Machine: m.Name, URL: logURL(m.ID), machine: machineURL(m.ID), First: q.After == ""}
	v.Search = ui.Field{Name: "q", Label: "Search the log", Value: q.Search, InputMode: "search"}
	v.Of = logChoice(m, q.Upgrade)
	for i, e := range page.Entries {
		line := entryLineOf(m, e)
		if page.Hits != nil {
			line.hit = &page.Hits[i]
		}
		v.Lines = append(v.Lines, logLine{Entry: line})
	}
	if strings.TrimSpace(q.Search) == "" {
		v.Lines = withFitted(m, q, page, v.Lines)
	}
	if page.Next != "" {
		v.Next = v.URL + "?" + query("upgrade", q.Upgrade, "q", q.Search, "after", page.Next)
	}
	v.Totals = logTotals(m, totals, q.Upgrade)
	v.Told = toldOf(q, page, totals)
	if q.Upgrade != "" {
		return v, s.logOfUpgrade(r, v, m, q)
	}
	return v, nil
}

// logOfUpgrade adds what is told of one upgrade alone.
func (s *Server) logOfUpgrade(r *http.Request, v *logView, m store.Stored, q store.LogQuery) error {
	v.Upgrade = aboutLinks(m, buildlog.Entry{Upgrade: q.Upgrade})[0].Text
	photos := 0
	for _, line := range v.Lines {
		if line.Entry != nil {
			photos += len(line.Entry.Photos)
		}
	}
	c, err := s.store.Comparison(r.Context(), m.ID, q.Upgrade)
	if photos > 1 || c.Before != nil && c.After != nil {
		v.compare = planPath(m.ID, q.Upgrade) + "/compare"
	}
	if err == nil && c.Before != nil && c.After != nil {
		v.Compare = &comparison{Before: shown(*c.Before), After: shown(*c.After)}
	}
	return err
}

// logChoice chooses of which upgrade the log is to tell.
func logChoice(m store.Stored, chosen string) ui.Choice {
	c := ui.Choice{Name: "upgrade", Label: "About", Options: []ui.Option{{Value: "", Text: "everything"}}}
	known := chosen == ""
	for _, u := range m.Upgrades {
		c.Options = append(c.Options, ui.Option{Value: u.ID, Text: upgradeLabel(m, u), Chosen: u.ID == chosen})
		known = known || u.ID == chosen
	}
	if !known {
		c.Options = append(c.Options, ui.Option{Value: chosen, Text: "an upgrade that was dropped", Chosen: true})
	}
	return c
}

func entryLineOf(m store.Stored, e store.LogEntry) *entryLine {
	line := &entryLine{Key: e.Key, Href: logURL(m.ID) + "/" + e.Key, At: e.At, When: e.At, Text: e.Text, Hours: e.Hours, Cost: e.Cost,
		About: aboutLinks(m, e.Entry)}
	if at, err := time.Parse(buildlog.TimeLayout, e.At); err == nil {
		line.When = at.Format(dayAndTime)
	}
	if spent, err := buildlog.ParseHours(e.Hours); err == nil {
		line.Hours = spentText(spent)
	}
	if price, err := e.Price(); err == nil && price.Known() {
		line.Cost = price.String()
	}
	roles := map[buildlog.Role]bool{}
	for _, p := range e.Photos {
		line.Photos = append(line.Photos, shown(p))
		roles[p.Role] = true
	}
	line.pair = roles[buildlog.Before] && roles[buildlog.After]
	return line
}

// caption is what stands below a photo of the entry, in runs.
func (l *entryLine) caption(i int) []store.Run {
	if l.hit != nil && i < len(l.hit.Captions) {
		return l.hit.Captions[i]
	}
	return []store.Run{{Text: l.Photos[i].Caption}}
}

// withFitted adds the upgrades that were fitted in the time that a page tells of, each above what was
// entered on its day.
func withFitted(m store.Stored, q store.LogQuery, page store.LogPage, lines []logLine) []logLine {
	for _, u := range m.Upgrades {
		if u.State != upgrade.Finished || u.On == "" || q.Upgrade != "" && q.Upgrade != u.ID {
			continue
		}
		day, err := time.Parse(time.DateOnly, u.On)
		end := u.On + "T24:00" // after every entry of the day
		later := q.After != "" && end > q.After
		earlier := page.Next != "" && end < page.Entries[len(page.Entries)-1].At
		if err != nil || later || earlier {
			continue
		}
		line := logLine{Fitted: &fittedLine{Upgrade: upgradeLabel(m, u), On: u.On, When: day.Format("2 January 2006"), Href: planPath(m.ID, u.ID),
			Write: logOfURL(m.ID, u.ID) + "#entry"}}
		at := slices.IndexFunc(lines, func(l logLine) bool { return l.time() < end })
		if at < 0 {
			at = len(lines)
		}
		lines = slices.Insert(lines, at, line)
	}
	return lines
}

// time orders the lines of a page.
func (l logLine) time() string {
	if l.Fitted != nil {
		return l.Fitted.On + "T24:00"
	}
	return l.Entry.At
}

func toldOf(q store.LogQuery, page store.LogPage, totals map[string]buildlog.Totals) string {
	switch {
	case strings.TrimSpace(q.Search) != "" && page.Next != "":
		return fmt.Sprintf("The newest %d entries that say so", len(page.Entries))
	case strings.TrimSpace(q.Search) != "" && q.After == "":
		return sentence(count(len(page.Entries), "entry says so", "entries say so"))
	case q.After != "":
		return "Earlier entries"
	case q.Upgrade != "":
		return sentence(count(totals[q.Upgrade].Entries, "entry", "entries"))
	}
	return sentence(count(sumOf(totals).Entries, "entry", "entries"))
}

// notice tells what was done just now, from the address that doing it leads to.
func (v *logView) notice(f *form.Form) {
	if isEntryKey(f.Value("deleted")) {
		v.Notices = append(v.Notices, undo{
			Notice: ui.Notice{Word: "Deleted.", Say: "The entry is off the log, with its photos."},
			Action: v.URL + "/" + f.Value("deleted") + "/restore",
		})
	}
	if key := f.Value("saved"); isEntryKey(key) {
		v.Notices = append(v.Notices, undo{Notice: ui.Notice{Kind: "saved", Word: "Saved.", Say: "The entry is in the log."}})
	}
}

// query writes pairs of name and value as the query of an address, without those that are empty.
func query(pairs ...string) string {
	values := url.Values{}
	for i := 0; i < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			values.Set(pairs[i], pairs[i+1])
		}
	}
	return values.Encode()
}
