package web_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/a-h/templ"
	"github.com/stretchr/testify/require"

	"fettle/web"
	"fettle/web/form"
)

// note is a small page with a part.
type note struct {
	Amount string `json:"amount"`
}

func (n note) Page() templ.Component { return raw("<html><p id=amount>" + n.Amount + "</p></html>") }
func (n note) Part() templ.Component { return raw("<p id=amount>" + n.Amount + "</p>") }

func raw(html string) templ.Component {
	return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
		_, err := io.WriteString(w, html)
		return err
	})
}

// broken is a page that fails while it is written.
type broken struct{ Say string }

func (broken) Page() templ.Component {
	return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
		if _, err := io.WriteString(w, "half a page"); err != nil {
			return err
		}
		return errors.New("the rest is missing")
	})
}

func failing(err error) func(http.ResponseWriter, *http.Request) error {
	return func(http.ResponseWriter, *http.Request) error { return err }
}

func TestErrorsBecomePages(t *testing.T) {
	for _, tc := range []struct {
		name   string
		err    error
		status int
		title  string
		logged bool
	}{
		{"not found", web.NotFound(""), http.StatusNotFound, "Not found", false},
		{"wrapped", fmt.Errorf("open axis 7: %w", web.NotFound("")), http.StatusNotFound, "Not found", false},
		{"conflict", web.Conflict("Somebody else saved this plan."), http.StatusConflict, "Changed meanwhile", false},
		{"bad request", web.BadRequest("No axis was named."), http.StatusBadRequest, "Not understood", false},
		{"unreadable form", fmt.Errorf("read: %w", form.ErrUnreadable), http.StatusBadRequest, "Not understood", false},
		{"problem", &form.Problem{Field: "amount", Say: "give a length"}, http.StatusUnprocessableEntity, "Not accepted", false},
		{"too large", &http.MaxBytesError{Limit: 1 << 20}, http.StatusRequestEntityTooLarge, "Too large", false},
		{"fault", errors.New("the secret path of a file"), http.StatusInternalServerError, "Fettle failed", true},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s, log := newServer(t)
			h := s.Guarded("/", failing(tc.err))

			page := send(h, request(http.MethodGet, "/", nil))
			require.Equal(t, tc.status, page.Code)
			require.Contains(t, page.Body.String(), "<!doctype html>")
			require.Contains(t, page.Body.String(), "<h1>"+tc.title+"</h1>")
			require.Empty(t, page.Header().Get("HX-Retarget"))

			asked := request(http.MethodGet, "/", nil)
			asked.Header.Set("HX-Request", "true")
			part := send(h, asked)
			require.Equal(t, tc.status, part.Code)
			require.Equal(t, "#notices", part.Header().Get("HX-Retarget"), "the form that was sent stays")
			require.Contains(t, part.Body.String(), tc.title+".")
			require.NotContains(t, part.Body.String(), "<html")

			asked = request(http.MethodGet, "/", nil)
			asked.Header.Set("Accept", "application/json")
			reply := send(h, asked)
			require.Equal(t, tc.status, reply.Code)
			require.Equal(t, "application/json", reply.Header().Get("Content-Type"))
			var told web.ErrorPage
			require.NoError(t, json.Unmarshal(reply.Body.Bytes(), &told))
			require.Equal(t, tc.status, told.Status)
			require.Equal(t, tc.title, told.Title)
			require.NotEmpty(t, told.Say)

			require.NotContains(t, page.Body.String()+part.Body.String()+reply.Body.String(), "secret")
			require.Equal(t, tc.logged, strings.Contains(log.String(), "level=ERROR"), log.String())
		})
	}
}

func TestOneViewThreeWays(t *testing.T) {
	s, _ := newServer(t)
	h := s.Guarded("/", func(w http.ResponseWriter, r *http.Request) error {
		return s.Reply(w, r, http.StatusOK, note{Amount: "10.5 mm"})
	})
	for _, tc := range []struct{ name, header, value, contentType, body string }{
		{"page", "Accept", "text/html,application/xhtml+xml,*/*;q=0.8", "text/html; charset=utf-8", "<html><p id=amount>10.5 mm</p></html>"},
		{"anything", "Accept", "*/*", "text/html; charset=utf-8", "<html><p id=amount>10.5 mm</p></html>"},
		{"part", "HX-Request", "true", "text/html; charset=utf-8", "<p id=amount>10.5 mm</p>"},
		{"json", "Accept", "application/json", "application/json", "{\n  \"amount\": \"10.5 mm\"\n}\n"},
		{"json rather", "Accept", "text/html;q=0.5, application/json", "application/json", "{\n  \"amount\": \"10.5 mm\"\n}\n"},
		{"html rather", "Accept", "application/json;q=0.5, text/html", "text/html; charset=utf-8", "<html><p id=amount>10.5 mm</p></html>"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := request(http.MethodGet, "/", nil)
			r.Header.Set(tc.header, tc.value)
			w := send(h, r)
			require.Equal(t, http.StatusOK, w.Code)
			require.Equal(t, tc.contentType, w.Header().Get("Content-Type"))
			require.Equal(t, tc.body, w.Body.String())
			require.Equal(t, "HX-Request, Accept", w.Header().Get("Vary"))
			require.Equal(t, "no-store", w.Header().Get("Cache-Control"))
		})
	}
}

// A page that Back opens again is a whole page, although htmx asks for it.
func TestHistoryIsGivenWholePages(t *testing.T) {
	s, _ := newServer(t)
	h := s.Guarded("/", func(w http.ResponseWriter, r *http.Request) error {
		return s.Reply(w, r, http.StatusOK, note{})
	})
	r := request(http.MethodGet, "/", nil)
	r.Header.Set("HX-Request", "true")
	r.Header.Set("HX-History-Restore-Request", "true")
	require.Contains(t, send(h, r).Body.String(), "<html>")
}

func TestHalfAPageIsNeverSent(t *testing.T) {
	s, log := newServer(t)
	w := send(s.Guarded("/", func(w http.ResponseWriter, r *http.Request) error {
		return s.Reply(w, r, http.StatusOK, broken{})
	}), request(http.MethodGet, "/", nil))
	require.Equal(t, http.StatusInternalServerError, w.Code)
	require.NotContains(t, w.Body.String(), "half a page")
	require.Contains(t, w.Body.String(), "Fettle failed")
	require.Contains(t, log.String(), "the rest is missing")
}

func TestPanicBecomesThePage(t *testing.T) {
	s, log := newServer(t)
	w := send(s.Guarded("/", func(http.ResponseWriter, *http.Request) error {
		panic("a formula that does not compile")
	}), request(http.MethodGet, "/", nil))
	require.Equal(t, http.StatusInternalServerError, w.Code)
	require.Contains(t, w.Body.String(), "Fettle failed")
	require.NotContains(t, w.Body.String(), "formula")
	require.Contains(t, log.String(), "a formula that does not compile")
	require.Contains(t, log.String(), "handle_test.go", "the log says where")
	require.Contains(t, log.String(), "status=500")
}

func TestPanicAfterTheFirstByteCutsTheReplyShort(t *testing.T) {
	s, log := newServer(t)
	h := s.Guarded("/", func(w http.ResponseWriter, _ *http.Request) error {
		_, err := io.WriteString(w, "half")
		require.NoError(t, err)
		panic("late")
	})
	require.PanicsWithValue(t, http.ErrAbortHandler, func() { send(h, request(http.MethodGet, "/", nil)) })
	require.Contains(t, log.String(), "panic: late")
}

func TestVisitorWhoLeftIsNoFault(t *testing.T) {
	s, log := newServer(t)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	send(s.Guarded("/", failing(fmt.Errorf("read axis: %w", context.Canceled))),
		request(http.MethodGet, "/", nil).WithContext(ctx))
	require.NotContains(t, log.String(), "level=ERROR")
}

func TestCrossOriginChangeIsRefused(t *testing.T) {
	s, _ := newServer(t)
	changed := 0
	h := s.Guarded("/", func(w http.ResponseWriter, r *http.Request) error {
		changed++
		web.GoTo(w, r, "/done")
		return nil
	})
	for _, tc := range []struct {
		name, header, value string
		want                int
	}{
		{"another site", "Sec-Fetch-Site", "cross-site", http.StatusForbidden},
		{"another port of this computer", "Sec-Fetch-Site", "same-site", http.StatusForbidden},
		{"another origin, older browser", "Origin", "https://elsewhere.example", http.StatusForbidden},
		{"our own page", "Sec-Fetch-Site", "same-origin", http.StatusSeeOther},
		{"our own page, older browser", "Origin", "http://" + listen, http.StatusSeeOther},
		{"a program", "User-Agent", "a program", http.StatusSeeOther},
	} {
		t.Run(tc.name, func(t *testing.T) {
			changed = 0
			r := request(http.MethodPost, "/", url.Values{"amount": {"12"}})
			r.Header.Set(tc.header, tc.value)
			w := send(h, r)
			require.Equal(t, tc.want, w.Code)
			if tc.want == http.StatusForbidden {
				require.Zero(t, changed)
				require.Contains(t, w.Body.String(), "Nothing was changed.")
			} else {
				require.Equal(t, 1, changed)
				require.Equal(t, "/done", w.Header().Get("Location"))
			}
		})
	}
}

func TestBodyTooLarge(t *testing.T) {
	s, _ := newServer(t)
	h := s.Guarded("/", func(w http.ResponseWriter, r *http.Request) error {
		f, err := form.Read(r)
		if err != nil {
			return err
		}
		return s.Reply(w, r, http.StatusOK, note{Amount: fmt.Sprint(len(f.Value("note")))})
	})
	fits := strings.Repeat("x", 1<<20-len("note="))
	w := send(h, request(http.MethodPost, "/", url.Values{"note": {fits}}))
	require.Equal(t, http.StatusOK, w.Code)

	w = send(h, request(http.MethodPost, "/", url.Values{"note": {fits + "x"}}))
	require.Equal(t, http.StatusRequestEntityTooLarge, w.Code)
	require.Contains(t, w.Body.String(), "at most 1 MB")
}

func TestGoToTellsHtmxInItsOwnWay(t *testing.T) {
	s, _ := newServer(t)
	h := s.Guarded("/", func(w http.ResponseWriter, r *http.Request) error {
		web.GoTo(w, r, "/machines/1")
		return nil
	})
	r := request(http.MethodPost, "/", nil)
	r.Header.Set("HX-Request", "true")
	w := send(h, r)
	require.Equal(t, http.StatusNoContent, w.Code)
	require.Equal(t, "/machines/1", w.Header().Get("HX-Redirect"))
}

func TestPathID(t *testing.T) {
	s, _ := newServer(t)
	h := s.Guarded("/axes/{axis}", func(w http.ResponseWriter, r *http.Request) error {
		id, err := web.PathID(r, "axis")
		if err != nil {
			return err
		}
		return s.Reply(w, r, http.StatusOK, note{Amount: fmt.Sprint(id)})
	})
	for path, want := range map[string]int{
		"/axes/7":                    http.StatusOK,
		"/axes/0":                    http.StatusNotFound,
		"/axes/-1":                   http.StatusNotFound,
		"/axes/seven":                http.StatusNotFound,
		"/axes/99999999999999999999": http.StatusNotFound,
	} {
		require.Equal(t, want, send(h, request(http.MethodGet, path, nil)).Code, path)
	}
}
