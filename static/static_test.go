package static_test

import (
	"net/http"
	"net/http/httptest"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/static"
)

func get(t *testing.T, target string) *httptest.ResponseRecorder {
	t.Helper()
	w := httptest.NewRecorder()
	static.Handler(http.NotFoundHandler()).ServeHTTP(w, httptest.NewRequest(http.MethodGet, target, nil))
	return w
}

func TestFilesAreKeptForEver(t *testing.T) {
	for name, contentType := range map[string]string{
		"app.css":                               "text/css; charset=utf-8",
		"app.js":                                "text/javascript; charset=utf-8",
		"log.js":                                "text/javascript; charset=utf-8",
		"outbox.js":                             "text/javascript; charset=utf-8",
		"htmx.min.js":                           "text/javascript; charset=utf-8",
		"htmx.LICENSE":                          "text/plain; charset=utf-8",
		"icon.svg":                              "image/svg+xml",
		"fonts/OFL.txt":                         "text/plain; charset=utf-8",
		"fonts/barlow-400.woff2":                "font/woff2",
		"fonts/barlow-semi-condensed-600.woff2": "font/woff2",
	} {
		t.Run(name, func(t *testing.T) {
			w := get(t, static.URL(name))
			require.Equal(t, http.StatusOK, w.Code)
			require.Equal(t, contentType, w.Header().Get("Content-Type"))
			require.Contains(t, w.Header().Get("Cache-Control"), "immutable")
			require.NotZero(t, w.Body.Len())
		})
	}
}

func TestNothingElseIsServed(t *testing.T) {
	folder := path.Dir(static.URL("app.css"))
	for _, target := range []string{
		"/static/",
		folder,
		folder + "/",
		folder + "/fonts",
		folder + "/fonts/",
		folder + "/static.go",
		folder + "/nothing.css",
		"/static/000000000000/app.css",
		"/static/app.css",
	} {
		t.Run(target, func(t *testing.T) {
			require.Equal(t, http.StatusNotFound, get(t, target).Code)
		})
	}
}

func TestUnknownNameIsAMistake(t *testing.T) {
	require.Panics(t, func() { static.URL("nothing.css") })
}

// A script that asks for another, asks for one that is there, beside it.
func TestScriptsNameFilesThatExist(t *testing.T) {
	for _, script := range []string{"log.js", "outbox.js", "kept.js", "sending.js", "waiting.js", "photo-rows.js", "compare.js"} {
		for _, match := range regexp.MustCompile(`from "([^"]+)"`).FindAllStringSubmatch(get(t, static.URL(script)).Body.String(), -1) {
			name, beside := strings.CutPrefix(match[1], "./")
			require.True(t, beside, "%s: %s", script, match[1])
			require.NotPanics(t, func() { static.URL(name) }, "%s: %s", script, name)
		}
	}
}

// Everything that the stylesheet asks for is in the program: a page fetches nothing from elsewhere.
func TestStylesheetNamesFilesThatExist(t *testing.T) {
	sheet := get(t, static.URL("app.css")).Body.String()
	named := regexp.MustCompile(`url\("([^"]+)"\)`).FindAllStringSubmatch(sheet, -1)
	require.Len(t, named, strings.Count(sheet, "url("))
	require.NotEmpty(t, named)
	for _, match := range named {
		require.NotPanics(t, func() { static.URL(match[1]) }, match[1])
	}
}
