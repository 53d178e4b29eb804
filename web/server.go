// Package web turns requests into calls and results into pages. It computes nothing.
//
// A page is one view value. [Server.reply] writes it as a whole page, as the part of it that htmx
// replaces, or as JSON, whichever was asked for. A handler returns its error, and handle turns it
// into a page that people can read. Every route is a line in routes.go.
package web

import (
	"crypto/rand"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"sync/atomic"
	"time"

	"fettle/store"
	"fettle/web/access"
)

// Options is what a server is made of. The first four are needed.
//
// A server that listens beyond this computer, or has further names there, lets only those in who sign
// in: see [access.Reach].
type Options struct {
	Listen string       // host:port that is listened on, as the listener tells it
	Log    *slog.Logger // requests and faults
	Store  *store.Store // open; who opened it closes it, after the last request
	Now    func() time.Time

	Hosts     []string                     // further names that it is asked for by, with a port or without
	TLS       bool                         // it is answered with TLS
	Addresses func() ([]netip.Addr, error) // of this computer on its networks, for the page that tells them
	Photos    store.PhotoReport            // what was found of them at the start, for the first page
}

// Server answers requests. Make one with [New]; it may be used by many requests at once.
type Server struct {
	log     *slog.Logger
	store   *store.Store
	now     func() time.Time
	hosts   hosts
	guard   *access.Guard
	site    site                              // where the pages are, for people
	writers writers                           // which window wrote what last
	plans   plans                             // that were worked out last
	offered offered                           // what machines could become
	uploads chan struct{}                     // holds one for each that is arriving
	photos  atomic.Pointer[store.PhotoReport] // as they were found last
	handler http.Handler

	signinTime time.Duration
}

// New makes a server. It returns an error for options that no server can be made of.
func New(options Options) (*Server, error) {
	if options.Log == nil || options.Store == nil || options.Now == nil {
		return nil, errors.New("web: a log, a store and a clock are needed")
	}
	known, err := hostsOf(options.Listen, options.Hosts, options.TLS)
	if err != nil {
		return nil, fmt.Errorf("web: listen address %q: %w", options.Listen, err)
	}
	s := &Server{log: options.Log, store: options.Store, now: options.Now, hosts: known, site: siteOf(options),
		signinTime: signinTime, uploads: make(chan struct{}, mostUploads)}
	s.guard = access.New(access.Options{Store: options.Store, Log: options.Log, Now: options.Now, Random: rand.Reader,
		Reach: reachOf(options), TLS: options.TLS})
	s.photos.Store(&options.Photos)
	s.handler = s.routes()
	return s, nil
}

// reachOf tells from where a server can be asked.
func reachOf(options Options) access.Reach {
	host, _, _ := net.SplitHostPort(options.Listen) // hostsOf has read it
	switch {
	case !access.IsLoopbackName(host):
		return access.Network
	case len(options.Hosts) > 0:
		return access.Fronted
	default:
		return access.ThisComputer
	}
}

// Handler gives the whole of the server: middleware, pages and static files.
func (s *Server) Handler() http.Handler { return s.handler }
