package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/go-chi/chi/v5"

	"fettle/web/access"
	"fettle/web/form"
	"fettle/web/ui"
)

// strangersRoutes are the ways in, which whoever is not let in may ask for.
func (s *Server) strangersRoutes(r chi.Router) {
	r.Use(limitBody(signinLimit), s.limitBodyTime)
	r.Get(signinPath, s.handle(s.signin))
	r.Post(signinPath, s.handle(s.signinTry))
	r.Get(pairPath, s.handle(s.pair))
	r.Post(pairPath, s.handle(s.pairTry))
}

const (
	signinPath = "/signin"
	pairPath   = "/pair"
	nameLimit  = 60 // characters of a device's name
)

// signinView is the page by which a device is let in, by the passphrase or by a code.
type signinView struct {
	Then       string   `json:"then"` // page that was asked for
	ByCode     bool     `json:"byCode"`
	Passphrase string   `json:"-"` // what is wrong with it; it is never told again itself
	Code       ui.Field `json:"code,omitzero"`
	Name       ui.Field `json:"name"`
}

func (s *Server) signin(w http.ResponseWriter, r *http.Request) error {
	visitor, err := s.guard.Visitor(r)
	if err != nil {
		return err
	}
	then := ownPath(r.URL.Query().Get("then"))
	if visitor.IsKnown() {
		goTo(w, r, then)
		return nil
	}
	return s.reply(w, r, http.StatusOK, signinView{Then: then, Name: nameField(r, form.New(nil))})
}

func (s *Server) signinTry(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	view := signinView{Then: ownPath(f.Value("then"))}
	name := deviceName(r, f)
	if f.Blank("passphrase") {
		f.Fail("passphrase", "give the passphrase")
	}
	return s.letIn(w, r, f, &view, "passphrase", func() error {
		return s.guard.SignIn(w, r, f.Value("passphrase"), name)
	})
}

// pair is where the picture on the page of the owner leads. It lets nobody in by itself: a preview that a
// telephone makes of a link would use the code up.
func (s *Server) pair(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	return s.reply(w, r, http.StatusOK, signinView{Then: "/", ByCode: true, Code: codeField(f), Name: nameField(r, f)})
}

func (s *Server) pairTry(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	view := signinView{Then: "/", ByCode: true}
	name := deviceName(r, f)
	if f.Blank("code") {
		f.Fail("code", "give the code that is shown under “Use your phone”")
	}
	return s.letIn(w, r, f, &view, "code", func() error { return s.guard.Pair(w, r, f.Value("code"), name) })
}

// letIn tries, and says at the field of the secret why not.
func (s *Server) letIn(w http.ResponseWriter, r *http.Request, f *form.Form, view *signinView, secret string, try func() error) error {
	status := f.Status()
	if f.OK() {
		err := try()
		var limit *access.LimitError
		switch {
		case err == nil:
			goTo(w, r, view.Then)
			return nil
		case errors.Is(err, access.ErrWrong) && view.ByCode:
			f.Fail(secret, "this code does not work: it works once, within 10 minutes, and a newer one voids it; have a new one shown")
		case errors.Is(err, access.ErrWrong):
			f.Fail(secret, "that is not the passphrase")
		case errors.Is(err, access.ErrNoPassphrase):
			f.Fail(secret, "no passphrase is set; set one at the computer that Fettle runs on, with: fettle passphrase")
		case errors.As(err, &limit):
			w.Header().Set("Retry-After", strconv.Itoa(int(limit.Wait/time.Second)+1))
			f.Fail(secret, "too many attempts have failed; try again in "+waitWords(limit.Wait))
		default:
			return err
		}
		status = f.Status()
		if limit != nil {
			status = http.StatusTooManyRequests
		}
	}
	view.Passphrase, view.Name = f.Problem("passphrase"), nameField(r, f)
	if view.ByCode {
		view.Code = codeField(f)
	}
	return s.reply(w, r, status, *view)
}

func waitWords(wait time.Duration) string {
	if wait <= time.Minute {
		return "a minute"
	}
	return fmt.Sprintf("%d minutes", int((wait+time.Minute-1)/time.Minute))
}

func codeField(f *form.Form) ui.Field {
	return ui.Field{Name: "code", Label: "Code", Value: f.Value("code"), Problem: f.Problem("code"),
		Hint: "Shown at the computer, under “Use your phone”. It lets one device in."}
}

func nameField(r *http.Request, f *form.Form) ui.Field {
	return ui.Field{Name: "name", Label: "Name of this device", Value: f.Value("name"), Problem: f.Problem("name"),
		Otherwise: deviceWords(r), Hint: "To tell it from others when one is to be shut out."}
}

// deviceName is what a device is called, by who uses it or by what it tells of itself.
func deviceName(r *http.Request, f *form.Form) string {
	if f.Blank("name") {
		return deviceWords(r)
	}
	name := f.Text("name", "a name", nameLimit)
	if strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) {
		f.Fail("name", "give a name of printable characters")
	}
	return name
}

// deviceWords tells a device's kind, by the word that browsers on telephones have in common, and where it is.
func deviceWords(r *http.Request) string {
	agent, kind := r.UserAgent(), "Computer"
	switch {
	case strings.Contains(agent, "Tablet"):
		kind = "Tablet"
	case strings.Contains(agent, "Mobi"):
		kind = "Phone"
	}
	if peer := access.Peer(r); peer.IsValid() {
		return kind + " at " + peer.String()
	}
	return kind
}

// ownPath is a page of ours to go on to, and the first one for anything else: a link that was made
// elsewhere does not lead there by way of us.
func ownPath(then string) string {
	to, err := url.Parse(then)
	if err != nil || to.Scheme != "" || to.Host != "" || to.Opaque != "" || !strings.HasPrefix(then, "/") ||
		strings.HasPrefix(then, "//") || strings.ContainsAny(then, "\\\r\n\t") {
		return "/"
	}
	return then
}
