package web_test

import (
	"bufio"
	"crypto/rand"
	"encoding/base64"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/store"
	"fettle/web"
)

func TestStrangerIsShownTheWayInAlone(t *testing.T) {
	s := newWorkshop(t)
	page := s.send(byPhone(http.MethodGet, "/machines/1?x=1&y=2", nil))
	require.Equal(t, http.StatusSeeOther, page.Code)
	require.Equal(t, "/signin?then=%2Fmachines%2F1%3Fx%3D1%26y%3D2", page.Header().Get("Location"))
	says(t, s.send(byPhone(http.MethodGet, page.Header().Get("Location"), nil)).Body.String(),
		"<h1>Sign in</h1>", `name="then" value="/machines/1?x=1&amp;y=2"`, `autocomplete="current-password"`)

	change := s.send(byPhone(http.MethodPost, "/machines", url.Values{"name": {"Lathe"}, "kind": {"lathe"}, "units": {"mm"}}))
	require.Equal(t, http.StatusUnauthorized, change.Code)
	require.NotEmpty(t, change.Header().Get("WWW-Authenticate"))
	says(t, change.Body.String(), "Nothing was changed.")
	list, err := s.kept.Machines(t.Context())
	require.NoError(t, err)
	require.Empty(t, list)

	live := byPhone(http.MethodPost, "/machines", url.Values{})
	live.Header.Set("HX-Request", "true")
	w := s.send(live)
	require.Equal(t, http.StatusUnauthorized, w.Code)
	require.Equal(t, "#notices", w.Header().Get("HX-Retarget"), "what was typed stays")

	program := byPhone(http.MethodGet, "/", nil)
	program.Header.Set("Accept", "application/json")
	w = s.send(program)
	require.Equal(t, http.StatusUnauthorized, w.Code)
	says(t, w.Body.String(), `"status": 401`)
}

func TestOwnerIsAskedNothing(t *testing.T) {
	s := newWorkshop(t)
	require.Equal(t, http.StatusOK, s.send(atDesk(http.MethodGet, "/", nil)).Code)
	w := s.send(atDesk(http.MethodGet, "/signin?then=/bench", nil))
	require.Equal(t, "/bench", w.Header().Get("Location"))
}

// Behind a proxy everybody looks as if at the desk, and nobody is.
func TestEverybodySignsInBehindAProxy(t *testing.T) {
	s := newWorkshop(t, func(o *web.Options) { o.Listen = "127.0.0.1:8270" })
	for _, host := range []string{"127.0.0.1:8270", "workshop.example", "workshop.example:8270"} {
		r := atDesk(http.MethodGet, "/", nil)
		r.Host = host
		require.Equal(t, http.StatusSeeOther, s.send(r).Code, host)
	}
	r := atDesk(http.MethodGet, "/", nil)
	r.AddCookie(session(t, s.send(atDesk(http.MethodPost, "/signin", url.Values{"passphrase": {passphrase}}))))
	require.Equal(t, http.StatusOK, s.send(r).Code)
}

func TestSignIn(t *testing.T) {
	for _, tc := range []struct {
		name string
		form url.Values
		code int
		says string // where it leads, or what the page says
	}{
		{"right", url.Values{"passphrase": {passphrase}, "name": {"Old phone"}, "then": {"/bench"}}, http.StatusSeeOther, "/bench"},
		{"typed on a telephone", url.Values{"passphrase": {passphrase + " "}}, http.StatusSeeOther, "/"},
		{"wrong", url.Values{"passphrase": {"a wrong guess"}, "name": {"Old <phone>"}, "then": {"/bench"}}, http.StatusUnprocessableEntity, "that is not the passphrase"},
		{"none", url.Values{"passphrase": {" "}}, http.StatusUnprocessableEntity, "give the passphrase"},
		{"long name", url.Values{"passphrase": {passphrase}, "name": {strings.Repeat("x", 61)}}, http.StatusUnprocessableEntity, "at most 60 characters; this has 61"},
		{"name that turns the line round", url.Values{"passphrase": {passphrase}, "name": {"phone\u202e"}}, http.StatusUnprocessableEntity, "printable"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s := newWorkshop(t)
			w := s.send(byPhone(http.MethodPost, "/signin", tc.form))
			require.Equal(t, tc.code, w.Code)
			if tc.code == http.StatusSeeOther {
				require.Equal(t, tc.says, w.Header().Get("Location"))
				require.True(t, s.isIn(t, session(t, w)))
				want := tc.form.Get("name")
				if want == "" {
					want = "Phone at 192.168.7.23"
				}
				require.Equal(t, []string{want}, s.devices(t))
				return
			}
			says(t, w.Body.String(), tc.says)
			if name := tc.form.Get("name"); tc.name == "wrong" {
				require.Equal(t, strings.NewReplacer("<", "&lt;", ">", "&gt;").Replace(name), value(w.Body.String(), "name"), "what was typed stays")
				require.Equal(t, "/bench", value(w.Body.String(), "then"))
			}
			saysNot(t, w.Body.String(), `value="`+passphrase, "a wrong guess")
			require.Empty(t, w.Result().Cookies())
			require.Empty(t, s.devices(t))
		})
	}
}

// A link that was made elsewhere leads nowhere else by way of us.
func TestSignInLeadsToOurPagesAlone(t *testing.T) {
	for then, want := range map[string]string{
		"/machines/1?a=b#c": "/machines/1?a=b#c", "": "/", "machines": "/", "//elsewhere.example": "/", "https://elsewhere.example/": "/",
		`/\elsewhere.example`: "/", "/\t/elsewhere.example": "/", "javascript:alert(1)": "/", "/\r\nSet-Cookie: x=y": "/", "/%": "/",
	} {
		s := newWorkshop(t)
		w := s.send(byPhone(http.MethodPost, "/signin", url.Values{"passphrase": {passphrase}, "then": {then}}))
		require.Equal(t, want, w.Header().Get("Location"), "%q", then)
	}
}

func TestPairingTakesAButton(t *testing.T) {
	s := newWorkshop(t)
	code := s.code(t)
	for range 3 { // a preview of the link, and its reader
		w := s.send(byPhone(http.MethodGet, "/pair?code="+code, nil))
		require.Equal(t, http.StatusOK, w.Code)
		require.Empty(t, w.Result().Cookies())
		require.Equal(t, code, value(w.Body.String(), "code"))
	}
	require.Empty(t, s.devices(t))
	require.True(t, s.isIn(t, session(t, s.send(byPhone(http.MethodPost, "/pair", url.Values{"code": {code}})))))
	require.Equal(t, []string{"Phone at 192.168.7.23"}, s.devices(t))
}

func TestCodeThatDoesNotWork(t *testing.T) {
	for name, code := range map[string]func(s *workshop) string{
		"used": func(s *workshop) string {
			code := s.code(t)
			require.Equal(t, http.StatusSeeOther, s.send(byPhone(http.MethodPost, "/pair", url.Values{"code": {code}})).Code)
			return code
		},
		"late": func(s *workshop) string {
			code := s.code(t)
			s.now = s.now.Add(10 * time.Minute)
			return code
		},
		"voided by a newer one": func(s *workshop) string { code := s.code(t); s.code(t); return code },
		"guessed":               func(s *workshop) string { s.code(t); return "AAAA-AAAA-AAAA-AAAA" },
		"where none was shown":  func(*workshop) string { return "----" },
		"of before the passphrase was changed": func(s *workshop) string {
			code := s.code(t)
			require.NoError(t, s.kept.SetPassphrase(t.Context(), strings.Replace(passphraseHash, "t=2", "t=3", 1)))
			return code
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := newWorkshop(t)
			text := code(s)
			before := len(s.devices(t))
			w := s.send(byPhone(http.MethodPost, "/pair", url.Values{"code": {text}, "name": {"Thief"}}))
			require.Equal(t, http.StatusUnprocessableEntity, w.Code)
			says(t, w.Body.String(), "this code does not work")
			require.Empty(t, w.Result().Cookies())
			require.Len(t, s.devices(t), before)
		})
	}
}

// Of many devices that send one code at once, exactly one is in.
func TestOneCodeLetsOneDeviceIn(t *testing.T) {
	s := newWorkshop(t)
	code := s.code(t)
	var in, refused atomic.Int32
	var all sync.WaitGroup
	for i := range 40 {
		all.Go(func() {
			r := between(fmt.Sprintf("192.168.7.%d:40000", 100+i), "192.168.7.7:8270", http.MethodPost, "/pair", url.Values{"code": {code}})
			switch s.send(r).Code {
			case http.StatusSeeOther:
				in.Add(1)
			case http.StatusUnprocessableEntity:
				refused.Add(1)
			}
		})
	}
	all.Wait()
	require.EqualValues(t, 1, in.Load())
	require.EqualValues(t, 39, refused.Load())
	require.Len(t, s.devices(t), 1)
}

// Whoever guesses keeps out those who would sign in anew from his address, and nobody else: neither the owner
// nor who is in.
func TestGuessingLocksNobodyOut(t *testing.T) {
	s := newWorkshop(t)
	cookie := s.signIn(t)
	codes := map[int]int{}
	for i := range 200 {
		r := between(fmt.Sprintf("192.168.8.%d:40000", i), "192.168.7.7:8270", http.MethodPost, "/signin", url.Values{"passphrase": {fmt.Sprint("guess ", i)}})
		codes[s.send(r).Code]++
	}
	require.Equal(t, map[int]int{http.StatusUnprocessableEntity: 20, http.StatusTooManyRequests: 180}, codes)
	w := s.send(byPhone(http.MethodPost, "/signin", url.Values{"passphrase": {passphrase}}))
	require.Equal(t, http.StatusTooManyRequests, w.Code, "nor with the right one, or guessing would go on")
	require.Equal(t, "61", w.Header().Get("Retry-After"))
	says(t, w.Body.String(), "try again in a minute")

	require.Equal(t, http.StatusOK, s.send(atDesk(http.MethodGet, "/", nil)).Code)
	require.True(t, s.isIn(t, cookie))
	require.NotNil(t, s.pair(t), "and a new phone is let in")
	s.now = s.now.Add(time.Minute)
	require.NotNil(t, s.signIn(t), "and in a minute by the passphrase")
}

func TestGuessingCodesIsLimited(t *testing.T) {
	s := newWorkshop(t)
	s.code(t)
	for range 10 {
		require.Equal(t, http.StatusUnprocessableEntity, s.send(byPhone(http.MethodPost, "/pair", url.Values{"code": {"AAAA-AAAA-AAAA-AAAA"}})).Code)
	}
	require.Equal(t, http.StatusTooManyRequests, s.send(byPhone(http.MethodPost, "/pair", url.Values{"code": {s.code(t)}})).Code)
	require.NotNil(t, s.signIn(t), "the passphrase is counted apart")
}

func TestCookieThatIsNotOurs(t *testing.T) {
	s := newWorkshop(t)
	cookie := s.signIn(t)
	require.True(t, s.isIn(t, cookie))
	bits := make([]byte, 32)
	_, err := rand.Read(bits)
	require.NoError(t, err)
	for name, text := range map[string]string{
		"empty": "", "short": cookie.Value[:42], "long": cookie.Value + "A", "other": base64.RawURLEncoding.EncodeToString(bits),
		"one bit": flipped(cookie.Value), "its case": strings.ToUpper(cookie.Value), "SQL": "' OR 1=1 --" + cookie.Value[:32],
		"zeros": strings.Repeat("A", 43), "very long": strings.Repeat("A", 1<<16),
	} {
		require.False(t, s.isIn(t, &http.Cookie{Name: cookie.Name, Value: text}), name)
	}
	require.False(t, s.isIn(t, &http.Cookie{Name: "session", Value: cookie.Value}), "by another name")
	require.True(t, s.isIn(t, cookie), "none of it harmed the one that is in")
}

// flipped changes the last bit of the first letter.
func flipped(text string) string {
	if text[0] == 'A' {
		return "B" + text[1:]
	}
	return "A" + text[1:]
}

func TestStolenCookieIsWorthNothingOnceShutOut(t *testing.T) {
	s := newWorkshop(t)
	phone, laptop := s.pair(t), s.signIn(t)
	all, err := s.kept.Devices(t.Context())
	require.NoError(t, err)
	require.Equal(t, "Phone", all[1].Name)
	w := s.send(atDesk(http.MethodPost, fmt.Sprintf("/phone/devices/%d/shut-out", all[1].ID), url.Values{}))
	require.Equal(t, http.StatusSeeOther, w.Code)
	says(t, s.send(atDesk(http.MethodGet, w.Header().Get("Location"), nil)).Body.String(), "Shut out.")
	require.False(t, s.isIn(t, phone))
	require.True(t, s.isIn(t, laptop), "the other is still in")
	require.Equal(t, http.StatusNotFound, s.send(atDesk(http.MethodPost, fmt.Sprintf("/phone/devices/%d/shut-out", all[1].ID), url.Values{})).Code)

	require.NoError(t, s.kept.SetPassphrase(t.Context(), passphraseHash))
	require.False(t, s.isIn(t, laptop), "a new passphrase shuts everybody out")
}

func TestFormsOfStrangersAreSmall(t *testing.T) {
	s := newWorkshop(t)
	for _, path := range []string{"/signin", "/pair"} {
		w := s.send(byPhone(http.MethodPost, path, url.Values{"passphrase": {strings.Repeat("x", 8<<10)}}))
		require.Equal(t, http.StatusRequestEntityTooLarge, w.Code, path)
		says(t, w.Body.String(), "at most 8 KB")
	}
	require.Equal(t, http.StatusBadRequest, s.send(byPhone(http.MethodPost, "/signin", url.Values{"passphrase": {"\xff"}})).Code)
}

// What a stranger sends to another page is not even read.
func TestBodyOfAStrangerIsNotRead(t *testing.T) {
	s := newWorkshop(t)
	r := byPhone(http.MethodPost, "/import", nil)
	r.Body = io.NopCloser(unread{t})
	require.Equal(t, http.StatusUnauthorized, s.send(r).Code)
}

type unread struct{ t *testing.T }

func (u unread) Read([]byte) (int, error) {
	u.t.Error("the body was read")
	return 0, io.EOF
}

// A form that does not arrive holds nothing up for long.
func TestSlowFormOfAStranger(t *testing.T) {
	s := newWorkshop(t)
	s.SetSigninTime(time.Millisecond)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.RemoteAddr, r.Host = "192.168.7.23:40000", "workshop.example:8270"
		s.Handler().ServeHTTP(w, r)
	}))
	defer server.Close()
	c, err := net.Dial("tcp", server.Listener.Addr().String())
	require.NoError(t, err)
	defer c.Close()
	_, err = io.WriteString(c, "POST /signin HTTP/1.1\r\nHost: workshop.example:8270\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100\r\n\r\npassphrase=")
	require.NoError(t, err)
	reply, err := http.ReadResponse(bufio.NewReader(c), nil)
	require.NoError(t, err)
	defer reply.Body.Close()
	require.Equal(t, http.StatusRequestTimeout, reply.StatusCode)
	require.True(t, reply.Close, "and the connection is given up")
}

func TestNoPassphraseLetsNobodyIn(t *testing.T) {
	kept := newStore(t)
	s := newWorkshop(t, func(o *web.Options) { o.Store = kept })
	w := s.send(byPhone(http.MethodPost, "/signin", url.Values{"passphrase": {passphrase}}))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "fettle passphrase")
	w = s.send(atDesk(http.MethodPost, "/phone/code", url.Values{}))
	require.Equal(t, http.StatusConflict, w.Code)
	says(t, w.Body.String(), "No passphrase is set.")
}

// A device that signs in again does not become two.
func TestSigningInAgain(t *testing.T) {
	s := newWorkshop(t)
	first := s.signIn(t)
	second := s.signIn(t, first)
	require.NotEqual(t, first.Value, second.Value)
	require.False(t, s.isIn(t, first))
	require.True(t, s.isIn(t, second))
	require.Len(t, s.devices(t), 1)
}

func TestLastSeenIsNotedEachMinute(t *testing.T) {
	s := newWorkshop(t)
	cookie := s.pair(t)
	seen := func() time.Time {
		all, err := s.kept.Devices(t.Context())
		require.NoError(t, err)
		require.Equal(t, store.ByCode, all[0].Way)
		return all[0].Seen
	}
	s.now = noon().Add(59 * time.Second)
	require.True(t, s.isIn(t, cookie))
	require.Equal(t, noon(), seen(), "a page costs no write")
	s.now = noon().Add(time.Hour)
	require.True(t, s.isIn(t, cookie))
	require.Equal(t, noon().Add(time.Hour), seen())
}

func FuzzStranger(f *testing.F) {
	f.Add("/signin", "passphrase=x&then=//x", "fettle=abc")
	f.Add("/pair?code=%zz", "code=AAAA", "a=b; fettle=")
	f.Add("/machines/1", "", "")
	f.Fuzz(func(t *testing.T, target, body, cookie string) {
		to, err := url.ParseRequestURI(target)
		if err != nil || !strings.HasPrefix(target, "/") {
			return
		}
		s := newWorkshop(t)
		for _, method := range []string{http.MethodGet, http.MethodPost} {
			r := byPhone(method, "/", nil)
			r.URL, r.RequestURI, r.Body = to, target, io.NopCloser(strings.NewReader(body))
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			r.Header["Cookie"] = []string{cookie}
			w := s.send(r)
			require.Less(t, w.Code, 500)
			require.NotContains(t, w.Header().Get("Set-Cookie"), "fettle=")
			require.Empty(t, s.devices(t), "nobody guesses the passphrase")
		}
	})
}
