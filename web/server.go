// Package web turns requests into calls and results into pages. It computes nothing.
//
// A page is one view value. [Server.reply] writes it as a whole page, as the part of it that htmx
// replaces, or as JSON, whichever was asked for. A handler returns its error, and handle turns it
// into a page that people can read. Every route is a line in routes.go.
package web

import (
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"time"

	"fettle/store"
)

// Options is what a server is made of. All of it is needed.
type Options struct {
	Listen string       // host:port that is listened on, as the listener tells it
	Log    *slog.Logger // requests and faults
	Store  *store.Store // open; who opened it closes it, after the last request
	Now    func() time.Time
}

// Server answers requests. Make one with [New]; it may be used by many requests at once.
type Server struct {
	log     *slog.Logger
	store   *store.Store
	now     func() time.Time
	hosts   hosts
	writers writers // which window wrote what last
	plans   plans   // that were worked out last
	handler http.Handler
}

// New makes a server. It returns an error for options that no server can be made of.
func New(options Options) (*Server, error) {
	if options.Log == nil || options.Store == nil || options.Now == nil {
		return nil, errors.New("web: a log, a store and a clock are needed")
	}
	known, err := hostsOf(options.Listen)
	if err != nil {
		return nil, fmt.Errorf("web: listen address %q: %w", options.Listen, err)
	}
	s := &Server{log: options.Log, store: options.Store, now: options.Now, hosts: known}
	s.handler = s.routes()
	return s, nil
}

// Handler gives the whole of the server: middleware, pages and static files.
func (s *Server) Handler() http.Handler { return s.handler }
