package web

import (
	"context"
	"errors"
	"net/http"
	"strconv"

	"github.com/go-chi/chi/v5"
)

// handle makes a handler of one that returns an error, and is the one place where an error becomes a
// reply. What went wrong inside is logged, and never shown.
func (s *Server) handle(h func(http.ResponseWriter, *http.Request) error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if err := h(w, r); err != nil {
			s.fail(w, r, err)
		}
	}
}

// fail replies with the page of err, unless the visitor has left or the reply has begun.
func (s *Server) fail(w http.ResponseWriter, r *http.Request, err error) {
	if errors.Is(err, context.Canceled) && r.Context().Err() != nil {
		return
	}
	page := errorPageOf(err)
	if page.Status >= http.StatusInternalServerError {
		s.log.ErrorContext(r.Context(), "request failed", "method", r.Method, "path", r.URL.Path, "err", err)
	}
	if begun(w) {
		return
	}
	if isPart(r) {
		// The form that was sent stays as it is, with all that was typed: the message goes above it.
		w.Header().Set("HX-Retarget", "#notices")
		w.Header().Set("HX-Reswap", "innerHTML")
	}
	if err := s.reply(w, r, page.Status, page); err != nil {
		s.log.ErrorContext(r.Context(), "error page failed", "path", r.URL.Path, "err", err)
		http.Error(w, page.Title, page.Status)
	}
}

// pathID reads the part of the path called name as a row's number; anything else is no such page.
func pathID(r *http.Request, name string) (int64, error) {
	id, err := strconv.ParseInt(chi.URLParam(r, name), 10, 64)
	if err != nil || id < 1 {
		return 0, notFound("")
	}
	return id, nil
}

func noSuchPage(http.ResponseWriter, *http.Request) error { return notFound("") }

// noSuchMethod tells which methods an address does take: chi tells them only in its own plain reply.
func noSuchMethod(routes chi.Routes) func(http.ResponseWriter, *http.Request) error {
	return func(w http.ResponseWriter, r *http.Request) error {
		if routes.Match(chi.NewRouteContext(), http.MethodGet, r.URL.Path) {
			w.Header().Add("Allow", "GET, HEAD")
		}
		if routes.Match(chi.NewRouteContext(), http.MethodPost, r.URL.Path) {
			w.Header().Add("Allow", "POST")
		}
		return refusal{
			status: http.StatusMethodNotAllowed,
			title:  "Not done this way",
			say:    "This address exists, but it does not take a request of this kind.",
		}
	}
}
