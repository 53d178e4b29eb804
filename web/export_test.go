package web

import (
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"
)

// What tests need of the inside.
var (
	NotFound   = notFound
	BadRequest = badRequest
	Conflict   = conflict
	GoTo       = goTo
	PathID     = pathID
)

// Guarded gives h behind every guard of s and a body limit, at each path below root.
func (s *Server) Guarded(root string, h func(http.ResponseWriter, *http.Request) error) http.Handler {
	r := chi.NewRouter()
	r.Use(s.guards()...)
	r.Use(limitBody(formLimit))
	r.HandleFunc(root, s.handle(h))
	return r
}

// Reply is reply.
func (s *Server) Reply(w http.ResponseWriter, r *http.Request, status int, view View) error {
	return s.reply(w, r, status, view)
}

// SetSigninTime gives the forms of strangers another time to arrive in.
func (s *Server) SetSigninTime(d time.Duration) { s.signinTime = d }
