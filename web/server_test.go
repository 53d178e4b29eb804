package web_test

import (
	"bytes"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/static"
	"fettle/store"
	"fettle/web"
)

const listen = "127.0.0.1:8270"

// newServer gives a server on an empty data folder, and what it logs.
func newServer(t *testing.T) (*web.Server, *bytes.Buffer) {
	t.Helper()
	return serverOf(t, newStore(t))
}

// serverOf gives a server of what is in kept, and what it logs.
func serverOf(t *testing.T, kept *store.Store) (*web.Server, *bytes.Buffer) {
	t.Helper()
	var log bytes.Buffer
	s, err := web.New(web.Options{Listen: listen, Log: slog.New(slog.NewTextHandler(&log, nil)), Store: kept, Now: noon})
	require.NoError(t, err)
	return s, &log
}

// request gives a request for this program, as a browser on this computer would send it.
func request(method, target string, form url.Values) *http.Request {
	r := httptest.NewRequest(method, target, strings.NewReader(form.Encode()))
	r.Host = listen
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	return r
}

func send(h http.Handler, r *http.Request) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestNewRefusesNonsense(t *testing.T) {
	log, kept := slog.New(slog.DiscardHandler), newStore(t)
	for _, address := range []string{"", "127.0.0.1", ":8270", "127.0.0.1:", "127.0.0.1:0"} {
		_, err := web.New(web.Options{Listen: address, Log: log, Store: kept, Now: noon})
		require.Error(t, err, address)
	}
	for name, options := range map[string]web.Options{
		"no log":   {Listen: listen, Store: kept, Now: noon},
		"no store": {Listen: listen, Log: log, Now: noon},
		"no clock": {Listen: listen, Log: log, Store: kept},
	} {
		_, err := web.New(options)
		require.Error(t, err, name)
	}
}

func TestEveryReplyIsGuarded(t *testing.T) {
	s, _ := newServer(t)
	for _, target := range []string{"/", "/nothing-here", static.URL("app.css"), "/static/"} {
		t.Run(target, func(t *testing.T) {
			header := send(s.Handler(), request(http.MethodGet, target, nil)).Header()
			for name, want := range map[string]string{
				"Content-Security-Policy":      "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'",
				"X-Content-Type-Options":       "nosniff",
				"X-Frame-Options":              "DENY",
				"Referrer-Policy":              "same-origin",
				"Cross-Origin-Opener-Policy":   "same-origin",
				"Cross-Origin-Resource-Policy": "same-origin",
			} {
				require.Equal(t, want, header.Get(name), name)
			}
			require.Contains(t, header.Get("Permissions-Policy"), "camera=()")
		})
	}
}

func TestPagesAreNotStoredAndFilesAre(t *testing.T) {
	s, _ := newServer(t)
	page := send(s.Handler(), request(http.MethodGet, "/", nil))
	require.Equal(t, http.StatusOK, page.Code)
	require.Equal(t, "no-store", page.Header().Get("Cache-Control"))
	require.Equal(t, "HX-Request, Accept", page.Header().Get("Vary"))
	require.NotContains(t, page.Body.String(), "style=")
	require.NotContains(t, page.Body.String(), "<style")

	file := send(s.Handler(), request(http.MethodGet, static.URL("app.css"), nil))
	require.Equal(t, http.StatusOK, file.Code)
	require.Contains(t, file.Header().Get("Cache-Control"), "immutable")
}

func TestHost(t *testing.T) {
	for _, tc := range []struct {
		listen, host string
		want         int
	}{
		{listen, "127.0.0.1:8270", http.StatusOK},
		{listen, "localhost:8270", http.StatusOK},
		{listen, "LocalHost:8270", http.StatusOK},
		{listen, "[::1]:8270", http.StatusOK},
		{"[::1]:8270", "127.0.0.1:8270", http.StatusOK},
		{"127.0.0.1:80", "localhost", http.StatusOK},
		{"127.0.0.1:80", "[::1]", http.StatusOK},
		{listen, "localhost", http.StatusMisdirectedRequest},
		{listen, "localhost:8271", http.StatusMisdirectedRequest},
		{listen, "127.0.0.2:8270", http.StatusMisdirectedRequest},
		{listen, "rebound.example:8270", http.StatusMisdirectedRequest},
		{listen, "localhost:8270.example", http.StatusMisdirectedRequest},
		{listen, "", http.StatusMisdirectedRequest},
		{"192.0.2.7:8270", "192.0.2.7:8270", http.StatusSeeOther}, // to sign in
		{"192.0.2.7:8270", "localhost:8270", http.StatusMisdirectedRequest},
	} {
		t.Run(tc.listen+" asked as "+tc.host, func(t *testing.T) {
			s, err := web.New(web.Options{Listen: tc.listen, Log: slog.New(slog.DiscardHandler), Store: newStore(t), Now: noon})
			require.NoError(t, err)
			for _, target := range []string{"/", static.URL("app.css")} {
				r := request(http.MethodGet, target, nil)
				r.Host = tc.host
				want := tc.want
				if target != "/" && want == http.StatusSeeOther {
					want = http.StatusOK // how pages look is no secret
				}
				require.Equal(t, want, send(s.Handler(), r).Code, target)
			}
		})
	}
}

func TestNoFolderIsListed(t *testing.T) {
	s, _ := newServer(t)
	for _, target := range []string{"/static", "/static/", "/static/fonts/", strings.TrimSuffix(static.URL("fonts/OFL.txt"), "OFL.txt")} {
		w := send(s.Handler(), request(http.MethodGet, target, nil))
		require.Equal(t, http.StatusNotFound, w.Code, target)
		require.NotContains(t, w.Body.String(), "woff2\">", target)
		require.NotContains(t, w.Body.String(), "OFL.txt", target)
	}
}

func TestMethods(t *testing.T) {
	s, _ := newServer(t)
	w := send(s.Handler(), request(http.MethodHead, "/", nil))
	require.Equal(t, http.StatusOK, w.Code)

	w = send(s.Handler(), request(http.MethodDelete, "/", nil))
	require.Equal(t, http.StatusMethodNotAllowed, w.Code)
	require.Equal(t, "GET, HEAD", w.Header().Get("Allow"))
	require.Contains(t, w.Body.String(), "Not done this way")
}
