package web

import (
	"errors"
	"net/http"
	"net/url"
	"strings"
	"time"

	"fettle/static"
)

const (
	signinLimit = 8 << 10          // bytes of a form that a stranger sends
	signinTime  = 10 * time.Second // for it to arrive in
)

// admit lets nobody past who is not let in. A page that is asked for becomes the way to sign in, and comes
// after it; what was to be changed is refused, so that what was typed stays where it is.
func (s *Server) admit(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if isForStrangers(r.URL.Path) {
			next.ServeHTTP(w, r)
			return
		}
		visitor, err := s.guard.Visitor(r)
		switch {
		case err != nil:
			s.fail(w, r, err)
		case visitor.IsKnown():
			next.ServeHTTP(w, r)
		case (r.Method == http.MethodGet || r.Method == http.MethodHead) && !isPart(r) && !wantsJSON(r):
			http.Redirect(w, r, signinPath+"?"+url.Values{"then": {r.URL.RequestURI()}}.Encode(), http.StatusSeeOther)
		default:
			w.Header().Set("WWW-Authenticate", `Session realm="Fettle"`) // RFC 9110 section 15.5.2 wants one
			s.fail(w, r, refusal{
				status: http.StatusUnauthorized,
				title:  "Not signed in",
				say: "This device is not signed in, or no longer. Nothing was changed. Open Fettle in another tab and sign in there, " +
					"then send this again.",
			})
		}
	})
}

// isForStrangers tells whether a path is of what everybody is shown: the ways in, and how they look.
func isForStrangers(path string) bool {
	return path == signinPath || path == pairPath || strings.HasPrefix(path, static.Prefix)
}

// limitBodyTime gives a body a short time to arrive in.
func (s *Server) limitBodyTime(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		err := http.NewResponseController(w).SetReadDeadline(time.Now().Add(s.signinTime))
		if err != nil && !errors.Is(err, http.ErrNotSupported) { // such as a test's, whose bodies are there
			s.fail(w, r, err)
			return
		}
		next.ServeHTTP(w, r)
	})
}
