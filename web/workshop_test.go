package web_test

import (
	"bytes"
	"context"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/store"
	"fettle/web"
)

// What lets a device in: argon2id of "password", of the reference implementation's tests. A cheap one, so
// that tests are not about it; fettle passphrase would not take it.
const (
	passphrase     = "password"
	passphraseHash = "$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4"
)

// workshop is a server that the network reaches, with a passphrase.
type workshop struct {
	*web.Server
	kept   *store.Store
	folder string
	log    *bytes.Buffer
	now    time.Time
}

// newWorkshop gives one that listens at all addresses of its computer, unless change says otherwise.
func newWorkshop(t *testing.T, change ...func(*web.Options)) *workshop {
	t.Helper()
	s := &workshop{folder: t.TempDir(), log: &bytes.Buffer{}, now: noon()}
	var err error
	s.kept, err = store.Open(t.Context(), s.folder, func() time.Time { return s.now })
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.kept.Close()) })
	require.NoError(t, s.kept.SetPassphrase(t.Context(), passphraseHash))
	options := web.Options{Listen: "0.0.0.0:8270", Log: slog.New(slog.NewTextHandler(s.log, nil)), Store: s.kept,
		Now: func() time.Time { return s.now }, Hosts: []string{"workshop.example"},
		Addresses: func() ([]netip.Addr, error) {
			return []netip.Addr{netip.MustParseAddr("127.0.0.1"), netip.MustParseAddr("fe80::1"), netip.MustParseAddr("198.51.100.7"), netip.MustParseAddr("192.168.7.7")}, nil
		}}
	for _, c := range change {
		c(&options)
	}
	s.Server, err = web.New(options)
	require.NoError(t, err)
	return s
}

// between gives a request from peer to local, an address of ours, by that address.
func between(peer, local, method, target string, form url.Values) *http.Request {
	r := request(method, target, form)
	at := net.TCPAddrFromAddrPort(netip.MustParseAddrPort(local))
	r = r.WithContext(context.WithValue(r.Context(), http.LocalAddrContextKey, net.Addr(at)))
	r.RemoteAddr, r.Host = peer, local
	return r
}

// byPhone gives a request of a phone in the network, with the cookies that it has.
func byPhone(method, target string, form url.Values, cookies ...*http.Cookie) *http.Request {
	r := between("192.168.7.23:40000", "192.168.7.7:8270", method, target, form)
	r.Header.Set("User-Agent", "Browser/1.0 (Handheld; Mobile)")
	for _, c := range cookies {
		r.AddCookie(c)
	}
	return r
}

// atDesk gives a request of the owner at the computer itself.
func atDesk(method, target string, form url.Values) *http.Request {
	return between("127.0.0.1:40000", "127.0.0.1:8270", method, target, form)
}

// send gives the reply to a request.
func (s *workshop) send(r *http.Request) *httptest.ResponseRecorder { return send(s.Handler(), r) }

// code has a pairing code shown at the desk, and reads it off the page.
func (s *workshop) code(t *testing.T) string {
	t.Helper()
	require.Equal(t, http.StatusSeeOther, s.send(atDesk(http.MethodPost, "/phone/code", url.Values{})).Code)
	found := codeText.FindString(s.send(atDesk(http.MethodGet, "/phone", nil)).Body.String())
	require.NotEmpty(t, found, "the page shows the code")
	return found
}

var codeText = regexp.MustCompile(`[A-Z2-7]{4}-[A-Z2-7]{4}-[A-Z2-7]{4}-[A-Z2-7]{4}`)

// pair lets a phone in by a code.
func (s *workshop) pair(t *testing.T) *http.Cookie {
	t.Helper()
	return session(t, s.send(byPhone(http.MethodPost, "/pair", url.Values{"code": {s.code(t)}, "name": {"Phone"}})))
}

// signIn lets a device in by the passphrase.
func (s *workshop) signIn(t *testing.T, with ...*http.Cookie) *http.Cookie {
	t.Helper()
	return session(t, s.send(byPhone(http.MethodPost, "/signin", url.Values{"passphrase": {passphrase}, "name": {"Laptop"}}, with...)))
}

// session gives the cookie that a reply lets a device in with.
func session(t *testing.T, w *httptest.ResponseRecorder) *http.Cookie {
	t.Helper()
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	cookies := w.Result().Cookies()
	require.Len(t, cookies, 1)
	return cookies[0]
}

// isIn reports whether a device with the cookie is let in.
func (s *workshop) isIn(t *testing.T, cookie *http.Cookie) bool {
	t.Helper()
	w := s.send(byPhone(http.MethodGet, "/", nil, cookie))
	if w.Code == http.StatusOK {
		return true
	}
	require.Equal(t, http.StatusSeeOther, w.Code)
	require.Equal(t, "/signin?then=%2F", w.Header().Get("Location"))
	require.NotContains(t, w.Body.String(), "Machines")
	return false
}

// devices lists the names of those that are let in.
func (s *workshop) devices(t *testing.T) (names []string) {
	t.Helper()
	all, err := s.kept.Devices(t.Context())
	require.NoError(t, err)
	for _, d := range all {
		names = append(names, d.Name)
	}
	return names
}

// value gives the value of a form field on a page.
func value(page, name string) string {
	_, rest, _ := strings.Cut(page, `name="`+name+`" value="`)
	v, _, _ := strings.Cut(rest, `"`)
	return v
}

func quiet() *slog.Logger { return slog.New(slog.DiscardHandler) }
