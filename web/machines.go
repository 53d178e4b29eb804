package web

import (
	"fmt"
	"net/http"
	"strconv"
	"time"

	"fettle/store"
	"fettle/web/ui"
)

// machinesView is the first page: the machines, and the ways to get one.
type machinesView struct {
	Machines []machineCard `json:"machines"`
	Demos    []demoCard    `json:"demos"`
	Deleted  []machineCard `json:"deleted"`
	New      []kindCard    `json:"new"`                      // what a machine can begin with
	Import   string        `json:"import_problem,omitempty"` // what is wrong with the file
	Notices  []undo        `json:"-"`
	Photos   ui.Notice     `json:"-"` // what is wrong with the files of photos
}

// machineCard is a machine on the list.
type machineCard struct {
	ID      int64  `json:"id"`
	Name    string `json:"name"`
	Href    string `json:"href"`
	Kind    string `json:"kind"`
	Has     string `json:"has"` // "2 axes, 1 upgrade, 1 draft"
	Changed string `json:"changed"`
	Export  string `json:"export"`
}

// undo is news of something that was taken away, and how to have it back.
type undo struct {
	Notice ui.Notice
	Action string // address to post to; "" where nothing is to be undone
}

// home lists the machines.
func (s *Server) home(w http.ResponseWriter, r *http.Request) error {
	view, err := s.machinesView(r)
	if err != nil {
		return err
	}
	return s.reply(w, r, http.StatusOK, view)
}

// machinesView is the list, with the ways to begin a new machine.
func (s *Server) machinesView(r *http.Request) (machinesView, error) {
	list, err := s.store.Machines(r.Context())
	if err != nil {
		return machinesView{}, err
	}
	deleted, err := s.store.DeletedMachines(r.Context())
	if err != nil {
		return machinesView{}, err
	}
	view := machinesView{Machines: s.cards(list), Deleted: s.cards(deleted), New: kindCards(), Demos: demoCards(),
		Photos: photoTrouble(s.photos.Load())}
	for _, card := range view.Deleted {
		if strconv.FormatInt(card.ID, 10) == r.URL.Query().Get("deleted") {
			view.Notices = append(view.Notices, undo{
				Notice: ui.Notice{Word: "Deleted.", Say: "“" + card.Name + "” is off the list."},
				Action: card.Href + "/restore",
			})
		}
	}
	return view, nil
}

func (s *Server) cards(list []store.Listed) []machineCard {
	cards := make([]machineCard, len(list))
	for i, m := range list {
		href := machineURL(m.ID)
		cards[i] = machineCard{ID: m.ID, Name: m.Name, Href: href, Kind: kindLabel(m.Kind), Changed: s.day(m.Changed),
			Has: count(m.Axes, "axis", "axes"), Export: href + "/export"}
		if m.Upgrades > 0 {
			cards[i].Has += ", " + count(m.Upgrades, "upgrade", "upgrades")
		}
		if m.Drafts > 0 {
			cards[i].Has += ", " + count(m.Drafts, "draft", "drafts")
		}
	}
	return cards
}

func machineURL(id int64) string { return fmt.Sprintf("/machines/%d", id) }

// day says when something was, as seen from where the program runs.
func (s *Server) day(t time.Time) string {
	now := s.now()
	t = t.In(now.Location())
	if t.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return "today, " + t.Format("15:04")
	}
	return t.Format("2 January 2006")
}

// count says how many there are of something.
func count(n int, one, many string) string {
	switch n {
	case 0:
		return "no " + many
	case 1:
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
