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
)

// Options is what a server is made of. All of it is needed.
type Options struct {
	Listen string       // host:port that is listened on, as the listener tells it
	Log    *slog.Logger // requests and faults
}

// Server answers requests. Make one with [New]; it may be used by many requests at once.
type Server struct {
	log     *slog.Logger
	hosts   hosts
	handler http.Handler
}

// New makes a server. It returns an error for options that no server can be made of.
func New(options Options) (*Server, error) {
	if options.Log == nil {
		return nil, errors.New("web: no log given")
	}
	known, err := hostsOf(options.Listen)
	if err != nil {
		return nil, fmt.Errorf("web: listen address %q: %w", options.Listen, err)
	}
	s := &Server{log: options.Log, hosts: known}
	s.handler = s.routes()
	return s, nil
}

// Handler gives the whole of the server: middleware, pages and static files.
func (s *Server) Handler() http.Handler { return s.handler }
