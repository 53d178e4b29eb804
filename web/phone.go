package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"github.com/go-chi/chi/v5"

	"fettle/store"
	"fettle/web/access"
	"fettle/web/ui"
)

// phoneRoutes are of the page on devices, below /phone.
func (s *Server) phoneRoutes(r chi.Router) {
	r.Get("/", s.handle(s.phone))
	r.Post("/code", s.handle(s.phoneCode))
	r.Post("/devices/{device}/shut-out", s.handle(s.phoneShutOut))
	r.Post("/sign-out", s.handle(s.phoneSignOut))
}

const phonePath = "/phone"

// phoneView is the page by which devices are let in and shut out.
type phoneView struct {
	Manages    bool        `json:"manages"`             // the visitor may do so
	Here       bool        `json:"here"`                // the visitor is at this computer
	Passphrase bool        `json:"passphrase"`          // one is set
	TLS        bool        `json:"tls"`                 // nobody on the way can read along
	Addresses  []phoneAt   `json:"addresses,omitempty"` // none: other computers do not reach the program
	Code       *phoneCode  `json:"code,omitempty"`
	Devices    []deviceRow `json:"devices"`
	Notices    []ui.Notice `json:"notices,omitempty"`
	Again      string      `json:"-"` // where the page is asked for again while a code waits
}

// phoneAt is an address of the pages.
type phoneAt struct {
	Address string `json:"address"`
	Href    string `json:"-"` // the page with this one in the picture
	Shown   bool   `json:"shown"`
}

// phoneCode is a code that waits for a device.
type phoneCode struct {
	Text  string    `json:"text"`
	Link  string    `json:"link"` // what the picture says
	Until string    `json:"until"`
	QR    qrPicture `json:"-"`
}

// deviceRow is a device that is let in.
type deviceRow struct {
	ID      int64  `json:"id"`
	Name    string `json:"name"`
	Way     string `json:"way"`
	Paired  string `json:"paired"`
	Seen    string `json:"seen"`
	Expires string `json:"expires"`
	Own     bool   `json:"own"` // the one that asks
	Action  string `json:"-"`
}

func (s *Server) phone(w http.ResponseWriter, r *http.Request) error {
	visitor, err := s.guard.Visitor(r)
	if err != nil {
		return err
	}
	view, err := s.phoneView(r, visitor)
	if err != nil {
		return err
	}
	return s.reply(w, r, http.StatusOK, view)
}

func (s *Server) phoneView(r *http.Request, visitor access.Visitor) (view phoneView, err error) {
	view = phoneView{Manages: visitor.Manages(), Here: visitor.Here, TLS: s.site.tls, Again: r.URL.RequestURI()}
	hash, err := s.store.Passphrase(r.Context())
	if err != nil {
		return view, err
	}
	view.Passphrase = hash != ""
	devices, err := s.store.Devices(r.Context())
	if err != nil {
		return view, err
	}
	view.Devices = s.deviceRows(devices, visitor)
	if r.URL.Query().Has("out") {
		view.Notices = append(view.Notices, ui.Notice{Kind: "saved", Word: "Shut out.", Say: "That device gets the page to sign in from now on, and nothing else."})
	}
	if !view.Manages {
		return view, nil
	}
	at, _ := strconv.Atoi(r.URL.Query().Get("at")) // the first, for anything else
	return view, s.addressed(&view, at)
}

// addressed adds the addresses, and the code that waits with the one in its picture that is at the index.
func (s *Server) addressed(view *phoneView, at int) error {
	addresses, err := s.site.network()
	if err != nil {
		return fmt.Errorf("addresses of this computer: %w", err)
	}
	if at < 0 || at >= len(addresses) {
		at = 0
	}
	for i, address := range addresses {
		view.Addresses = append(view.Addresses, phoneAt{address, fmt.Sprintf("%s?at=%d", phonePath, i), i == at})
	}
	code, ok := s.guard.Code()
	if !ok || len(addresses) == 0 {
		return nil
	}
	link := strings.TrimSuffix(addresses[at], "/") + pairPath + "?" + url.Values{"code": {code.Text}}.Encode()
	picture, err := qrOf(link)
	view.Code = &phoneCode{code.Text, link, code.Expires.In(s.now().Location()).Format("15:04"), picture}
	return err
}

// deviceRows lists the devices for one who manages them, and for another its own.
func (s *Server) deviceRows(devices []store.Device, visitor access.Visitor) []deviceRow {
	rows := []deviceRow{}
	for _, d := range devices {
		own := d.ID == visitor.Device.ID
		if !own && !visitor.Manages() {
			continue
		}
		rows = append(rows, deviceRow{ID: d.ID, Name: d.Name, Way: map[store.Way]string{store.ByCode: "code", store.ByPassphrase: "passphrase"}[d.Way],
			Paired: s.day(d.Paired), Seen: s.day(d.Seen), Expires: s.day(d.Expires), Own: own,
			Action: fmt.Sprintf("%s/devices/%d/shut-out", phonePath, d.ID)})
	}
	return rows
}

// deviceMark is the id of a device's line on the page.
func deviceMark(d deviceRow) string { return fmt.Sprintf("device-%d", d.ID) }

// manager gives who asks, and refuses one who may not let devices in or shut them out.
func (s *Server) manager(r *http.Request) (access.Visitor, error) {
	visitor, err := s.guard.Visitor(r)
	if err == nil && !visitor.Manages() {
		err = refusal{status: http.StatusForbidden, title: "Not from this device",
			say: "A device that came by a code lets no others in and shuts none out. Do it at the computer, or sign in with the passphrase."}
	}
	return visitor, err
}

func (s *Server) phoneCode(w http.ResponseWriter, r *http.Request) error {
	if _, err := s.manager(r); err != nil {
		return err
	}
	addresses, err := s.site.network()
	if err != nil {
		return err
	}
	if len(addresses) == 0 {
		return conflict("No other computer reaches Fettle as it was started, so a code would let nobody in.")
	}
	_, err = s.guard.NewCode(r.Context())
	if errors.Is(err, access.ErrNoPassphrase) {
		return conflict("No passphrase is set. Set one where Fettle runs, with: fettle passphrase")
	}
	if err != nil {
		return err
	}
	goTo(w, r, phonePath+"#code")
	return nil
}

func (s *Server) phoneShutOut(w http.ResponseWriter, r *http.Request) error {
	if _, err := s.manager(r); err != nil {
		return err
	}
	id, err := pathID(r, "device")
	if err != nil {
		return err
	}
	err = s.guard.ShutOut(r.Context(), id)
	if errors.Is(err, store.ErrNotFound) {
		return notFound("There is no such device. It may have been shut out already.")
	}
	if err != nil {
		return err
	}
	goTo(w, r, phonePath+"?out")
	return nil
}

func (s *Server) phoneSignOut(w http.ResponseWriter, r *http.Request) error {
	if err := s.guard.SignOut(w, r); err != nil {
		return err
	}
	goTo(w, r, signinPath)
	return nil
}
