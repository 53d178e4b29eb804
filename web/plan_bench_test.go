package web_test

import (
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strconv"
	"testing"
	"time"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"
	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/store"
	"fettle/web"
)

// BenchmarkPlanningPage is one recompute of the planning page through the whole handler: the form is
// read, the machine is read from disk, the draft is written to disk, all is worked out and written as
// the part of the page that changes. Each time another amount is asked.
func BenchmarkPlanningPage(b *testing.B) { benchTyping(b, "amount", 5) }

// BenchmarkPlanningPageAnew is the same with another size typed each time, for which all is laid out anew.
func BenchmarkPlanningPageAnew(b *testing.B) { benchTyping(b, "lap", 10) }

// benchTyping types one figure after another into a field, from one on.
func benchTyping(b *testing.B, field string, from int) {
	handler, kept, path := benchPage(b)
	form := formOf(b, handler, path)
	form.Set("amount", "12")
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		form.Set(field, strconv.Itoa(from+i%9))
		r := request(http.MethodPost, path, form)
		r.Header.Set("HX-Request", "true")
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			b.Fatal(w.Code, w.Body.String())
		}
	}
	require.NoError(b, kept.Close())
}

// BenchmarkBareHandler is the same page from memory: a bare chi router and a templ handler that read
// the form and write the components, with everything worked out before.
func BenchmarkBareHandler(b *testing.B) {
	handler, kept, path := benchPage(b)
	form := formOf(b, handler, path)
	form.Set("amount", "12")
	m, err := kept.Machine(b.Context(), 1)
	require.NoError(b, err)
	require.NoError(b, kept.Close())
	page, err := web.PlanPart(m, "12")
	require.NoError(b, err)

	bare := chi.NewRouter()
	bare.Post("/machines/{machine}/upgrades/{upgrade}", func(w http.ResponseWriter, r *http.Request) {
		if err := r.ParseForm(); err != nil {
			http.Error(w, err.Error(), http.StatusBadRequest)
			return
		}
		templ.Handler(page).ServeHTTP(w, r)
	})
	b.ReportAllocs()
	for b.Loop() {
		w := httptest.NewRecorder()
		bare.ServeHTTP(w, request(http.MethodPost, path, form))
		if w.Code != http.StatusOK {
			b.Fatal(w.Code)
		}
		b.SetBytes(int64(w.Body.Len()))
	}
}

// formOf is what the page sends that was just opened.
func formOf(b *testing.B, handler http.Handler, path string) url.Values {
	b.Helper()
	f := url.Values{"end": {"plus"}}
	for _, field := range hidden.FindAllStringSubmatch(send(handler, request(http.MethodGet, path, nil)).Body.String(), -1) {
		f.Set(field[1], field[2])
	}
	require.Contains(b, f, "revision")
	return f
}

func benchPage(b *testing.B) (http.Handler, *store.Store, string) {
	b.Helper()
	kept, err := store.Open(b.Context(), b.TempDir(), time.Now)
	require.NoError(b, err)
	server, err := web.New(web.Options{Listen: listen, Log: slog.New(slog.DiscardHandler), Store: kept, Now: time.Now})
	require.NoError(b, err)
	id, err := kept.AddMachine(b.Context(), demo.Lathe())
	require.NoError(b, err)
	return server.Handler(), kept, fmt.Sprintf("/machines/%d/upgrades/1", id)
}
