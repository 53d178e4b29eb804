package web_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	methods "fettle/plan/bench"
	"fettle/plan/exchange"
)

func TestBenchIndex(t *testing.T) {
	s, _ := newServer(t)
	for _, tc := range []struct {
		path     string
		says     []string
		saysNot  []string
		replaces string
	}{
		{"/bench", []string{"<h2 id=\"field-1\">Limits and fits</h2>", `<a href="/bench/fit">`, `<a href="/bench/side_force">`}, nil, "/bench"},
		{"/bench?q=dovetail", []string{`href="/bench/dovetail_male"`, `value="dovetail"`}, []string{`href="/bench/fit"`, "Limits and fits</h2>"}, "/bench?q=dovetail"},
		{"/bench?q=Roller+MALE", []string{`href="/bench/dovetail_male"`}, []string{`href="/bench/thread"`}, "/bench?q=Roller+MALE"},
		{"/bench?q=dial", []string{`href="/bench/vernier"`}, []string{`href="/bench/bearing_life"`}, "/bench?q=dial"}, // not the "dial" of "radial"
		{"/bench?q=+", []string{`href="/bench/fit"`}, nil, "/bench"},
		{"/bench?q=zeppelin", []string{"Nothing is called that."}, []string{"<h2"}, "/bench?q=zeppelin"},
		{"/bench?q=%3Cb%3E", []string{`value="&lt;b&gt;"`}, []string{"<b>"}, "/bench?q=%3Cb%3E"},
	} {
		t.Run(tc.path, func(t *testing.T) {
			w := send(s.Handler(), request(http.MethodGet, tc.path, nil))
			require.Equal(t, http.StatusOK, w.Code)
			says(t, w.Body.String(), tc.says...)
			saysNot(t, w.Body.String(), tc.saysNot...)
			require.Equal(t, tc.replaces, w.Header().Get("HX-Replace-Url"))
		})
	}
}

func TestBenchIndexAsPartAndAsJSON(t *testing.T) {
	s, _ := newServer(t)
	r := request(http.MethodGet, "/bench?q=vernier", nil)
	r.Header.Set("HX-Request", "true")
	part := send(s.Handler(), r).Body.String()
	require.True(t, strings.HasPrefix(part, `<div id="methods">`), part)
	r.Header.Del("HX-Request")
	r.Header.Set("Accept", "application/json")
	var told struct {
		Fields []struct {
			Field   string
			Methods []struct{ Key, Href string }
		}
	}
	require.NoError(t, json.Unmarshal(send(s.Handler(), r).Body.Bytes(), &told))
	require.Equal(t, "Dials", told.Fields[0].Field)
	require.Equal(t, "/bench/vernier", told.Fields[0].Methods[0].Href)
}

// Every method can be opened with nothing typed, and gives all of its figures, with their sources, for
// its example: as a page, as a part, and as JSON.
func TestBenchEveryMethod(t *testing.T) {
	s, _ := newServer(t)
	for _, m := range methods.Methods() {
		t.Run(m.Key, func(t *testing.T) {
			w := send(s.Handler(), request(http.MethodGet, "/bench/"+m.Key, nil))
			require.Equal(t, http.StatusOK, w.Code, "opening a page is no mistake")
			page := w.Body.String()
			saysNot(t, page, `aria-invalid`, "%!")
			for _, in := range m.Inputs {
				says(t, page, `id="in-`+in.Key+`"`, `name="`+in.Key+`"`)
			}

			path := "/bench/" + m.Key + "?" + query(m.Example)
			c, err := m.Run(m.Example)
			require.NoError(t, err)
			w = send(s.Handler(), request(http.MethodGet, path, nil))
			require.Equal(t, http.StatusOK, w.Code)
			page = w.Body.String()
			for _, f := range c.Outputs() {
				says(t, page, `id="f-`+strings.ReplaceAll(f.Key, ".", "-")+`"`)
			}
			for key, typed := range m.Example {
				if in := inputOf(m, key); len(in.Options) == 0 {
					says(t, page, `value="`+attribute(typed)+`"`)
				}
			}
			require.Equal(t, len(c.Outputs()), strings.Count(figuresOf(page), `class="num"`))
			for _, link := range within.FindAllStringSubmatch(page, -1) {
				says(t, page, `id="`+link[1]+`"`)
			}
			require.GreaterOrEqual(t, strings.Count(page, `Source: `)+strings.Count(page, "Assumed: ")+strings.Count(page, "Chosen."), len(c.Outputs()))

			var told exchange.Figures
			r := request(http.MethodGet, path, nil)
			r.Header.Set("Accept", "application/json")
			w = send(s.Handler(), r)
			require.Equal(t, http.StatusOK, w.Code)
			require.NoError(t, json.Unmarshal(w.Body.Bytes(), &told))
			require.Equal(t, exchange.FiguresOf(c, nil), told, "what the command line prints")
		})
	}
}

// within is a link that leads elsewhere on the same page.
var within = regexp.MustCompile(`href="#([^"]+)"`)

func query(typed map[string]string) string {
	values := url.Values{}
	for key, value := range typed {
		values.Set(key, value)
	}
	return values.Encode()
}

func inputOf(m methods.Method, key string) methods.Input {
	for _, in := range m.Inputs {
		if in.Key == key {
			return in
		}
	}
	return methods.Input{}
}

func attribute(text string) string {
	return strings.NewReplacer("&", "&amp;", `"`, "&#34;", "<", "&lt;", ">", "&gt;", "'", "&#39;").Replace(text)
}

// figuresOf is the page's list of outputs.
func figuresOf(page string) string {
	_, after, _ := strings.Cut(page, `<section id="figures"`)
	list, _, _ := strings.Cut(after, "</section>")
	list, _, _ = strings.Cut(list, `id="between"`)
	return list
}

func methodPage(t *testing.T, path string) *httptest.ResponseRecorder {
	t.Helper()
	s, _ := newServer(t)
	return send(s.Handler(), request(http.MethodGet, "/bench/"+path, nil))
}

// ISO 286-2:2010: 25 H7 is +21/0 µm, 25 g6 is −7/−20 µm; the rest is arithmetic.
func TestBenchFit(t *testing.T) {
	w := methodPage(t, "fit?size=25&hole=H7&shaft=g6")
	require.Equal(t, http.StatusOK, w.Code)
	says(t, w.Body.String(), "Greatest clearance <b>0.041 mm</b>; least clearance <b>0.007 mm</b>.", "ISO 286-2", "Zones of hole H7 and shaft g6", `<svg id="picture"`)
	require.Equal(t, "/bench/fit?hole=H7&shaft=g6&size=25", w.Header().Get("HX-Replace-Url"))

	// Interference is below 0: 25 s6 is +48/+35 µm.
	says(t, methodPage(t, "fit?size=25&hole=H7&shaft=s6").Body.String(), "−0.014 mm", "−0.048")
}

// Geometry: 40 + 6 (1 + √3) = 56.392.
func TestBenchLengthsAsSaidInAWorkshop(t *testing.T) {
	for typed, want := range map[string]string{
		"6": "56.392 mm", "6 mm": "56.392 mm", "0.006 m": "56.392 mm", `15/64"`: "56.264 mm", "1/4 in": "57.349 mm",
	} {
		w := methodPage(t, "dovetail_male?narrow=40&roller="+url.QueryEscape(typed))
		require.Equal(t, http.StatusOK, w.Code, typed)
		says(t, w.Body.String(), "<b>"+want+"</b>", `value="`+attribute(typed)+`"`)
	}
}

func TestBenchAssumptionsAreMarked(t *testing.T) {
	page := methodPage(t, "dovetail_male?narrow=40&roller=6").Body.String()
	says(t, page, `placeholder="60"`, "60° is usual", "origin-assumed")
	saysNot(t, methodPage(t, "dovetail_male?narrow=40&roller=6&angle=60").Body.String(), "origin-assumed")
}

// A word stands in its field to be changed, until it is rubbed out.
func TestBenchWordsStandInTheirFields(t *testing.T) {
	says(t, methodPage(t, "fit").Body.String(), `name="hole" value="H7"`)
	says(t, methodPage(t, "fit?hole=").Body.String(), `name="hole" value=""`, `placeholder="H7"`)
}

// What is not typed yet is asked for; what cannot be taken is said at its field, and nothing is shown
// as its answer.
func TestBenchProblems(t *testing.T) {
	for _, tc := range []struct {
		path    string
		code    int
		says    []string
		saysNot []string
	}{
		{"dovetail_male", http.StatusOK, []string{"Still to be given: ", "the diameter of the rollers", "An example"}, []string{"message-problem", `class="problem"`}},
		{"dovetail_male?roller=&narrow=+&over=&angle=&depth=", http.StatusOK, []string{"Still to be given: "}, []string{`class="problem"`, "message-problem"}},
		{"dovetail_male?roller=6", http.StatusOK, []string{"the narrow width, or the reading over the rollers"}, []string{`class="problem"`, `id="figures"`}},
		{"dovetail_male?roller=six&narrow=40", http.StatusUnprocessableEntity, []string{`value="six"`, `value="40"`, `id="in-roller-problem"`, `aria-invalid="true"`, "What is marked cannot be taken."}, []string{`id="figures"`, "56.392"}},
		{"dovetail_male?roller=6&narrow=40&angle=10", http.StatusUnprocessableEntity, []string{"Give an angle from 30° to 80°"}, []string{`id="figures"`}},
		{"dovetail_male?roller=-6&narrow=40", http.StatusUnprocessableEntity, []string{"Give a figure above 0."}, nil},
		{"dovetail_angle?kind=both&small_roller=5", http.StatusUnprocessableEntity, []string{"Choose one of male, female.", `<option value="both" selected>`}, nil},
		{"fit?size=501", http.StatusUnprocessableEntity, []string{"500"}, []string{`id="figures"`}},
		{"fit?hole=H77", http.StatusUnprocessableEntity, []string{`value="H77"`, `id="in-hole-problem"`}, []string{`id="figures"`}},
		{"fit?colour=red", http.StatusUnprocessableEntity, []string{"“colour”: fit has no such input."}, []string{`id="figures"`}},
		{"fit?size=%22%3E%3Cscript%3E", http.StatusUnprocessableEntity, []string{"&lt;script&gt;"}, []string{"<script>"}},
		{"polish", http.StatusNotFound, []string{"There is no such bench figure."}, nil},
		{"fit?size=%ff", http.StatusBadRequest, nil, nil},
	} {
		t.Run(tc.path, func(t *testing.T) {
			w := methodPage(t, tc.path)
			require.Equal(t, tc.code, w.Code)
			says(t, w.Body.String(), tc.says...)
			saysNot(t, w.Body.String(), tc.saysNot...)
		})
	}
}

// A program that asks for figures is told why it gets none.
func TestBenchProblemsAsJSON(t *testing.T) {
	s, _ := newServer(t)
	r := request(http.MethodGet, "/bench/dovetail_male?narrow=40", nil)
	r.Header.Set("Accept", "application/json")
	w := send(s.Handler(), r)
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	var told exchange.Figures
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &told))
	require.Equal(t, []exchange.Problem{{Field: "roller", Say: "give the diameter of the rollers"}}, told.Problems)
	require.Empty(t, told.Outputs)
}

func TestBenchPart(t *testing.T) {
	s, _ := newServer(t)
	r := request(http.MethodGet, "/bench/vernier?divisions=50", nil)
	r.Header.Set("HX-Request", "true")
	w := send(s.Handler(), r)
	require.True(t, strings.HasPrefix(w.Body.String(), "<form"))
	saysNot(t, w.Body.String(), "<html")
	require.Contains(t, w.Header().Values("Vary"), "HX-Request, Accept")
}

// Where it can hurt somebody, it says so with the answer.
func TestBenchCautions(t *testing.T) {
	for _, m := range methods.Methods() {
		page := methodPage(t, m.Key+"?"+query(m.Example)).Body.String()
		require.Equal(t, len(m.Cautions), strings.Count(page, "message-caution"), m.Key)
	}
}

// Every page leads to the bench figures.
func TestBenchIsFound(t *testing.T) {
	s, _ := newServer(t)
	says(t, send(s.Handler(), request(http.MethodGet, "/", nil)).Body.String(), `<a class="head-link" href="/bench">Bench figures</a>`)
	says(t, methodPage(t, "fit").Body.String(), `<a href="/bench">Bench figures</a>`)
}
