package browsertest_test

import (
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/bench"
	"fettle/web"
	"fettle/web/browsertest"
)

// benched serves the program, and gives the address of the bench figures.
func benched(t *testing.T) string {
	t.Helper()
	mux := http.NewServeMux()
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	own, err := web.New(web.Options{Listen: server.Listener.Addr().String(), Log: slog.New(slog.DiscardHandler), Store: newStore(t), Now: time.Now})
	require.NoError(t, err)
	mux.Handle("/", own.Handler())
	return server.URL + "/bench"
}

// exampleOf is the part of an address that makes a method answer.
func exampleOf(m bench.Method) string {
	query := url.Values{}
	for key, value := range m.Example {
		query.Set(key, value)
	}
	return "/" + m.Key + "?" + query.Encode()
}

// Every page, with all that opens opened.
func TestBenchIsAccessible(t *testing.T) {
	address := benched(t)
	paths := []string{"", "?q=dial"}
	for _, m := range bench.Methods() {
		paths = append(paths, exampleOf(m))
	}
	for half := range 2 { // a tab each, which goes from page to page: a new one for each would take longer than the looking
		t.Run(fmt.Sprint(half), func(t *testing.T) {
			t.Parallel()
			tab := browsertest.Open(t, address, browsertest.Screen{})
			for i := half; i < len(paths); i += 2 {
				key, _, _ := strings.Cut(strings.TrimPrefix(paths[i], "/"), "?")
				tab.Go(address + paths[i])
				tab.Eval(`document.querySelectorAll("details").forEach(d => d.open = true)`, nil)
				tab.OnEveryScreen("bench-" + key)
			}
		})
	}
}

// benchSettled waits until nothing is on its way and a field's attribute says what was typed.
func benchSettled(tab *browsertest.Tab, field, typed string) {
	tab.Wait(fmt.Sprintf(`document.getElementById("in-%s").getAttribute("value") === %q && !document.querySelector(".htmx-request")`, field, typed))
}

func addressOf(tab *browsertest.Tab) string {
	var address string
	tab.Eval("location.pathname + location.search", &address)
	return address
}

// Figures follow as one types; the caret stays, and the address carries what was typed.
func TestBenchFollowsTyping(t *testing.T) {
	tab := browsertest.Open(t, benched(t)+"/fit", browsertest.Screen{})
	tab.Allow("status of 422")
	tab.Fill("#in-size", "2")
	tab.WaitText("#answer", "0.018 mm") // ISO 286-2: up to 3 mm H7 is +10/0 µm and g6 −2/−8 µm
	tab.Type("5")
	tab.WaitText("#answer", "0.041 mm")
	benchSettled(tab, "size", "25")
	require.Equal(t, "in-size", tab.Focus())
	require.Equal(t, "25", tab.Value("#in-size"))
	tab.Press("ArrowLeft")
	tab.Type("1")
	benchSettled(tab, "size", "215")
	tab.Type("0") // at the caret, before the 5: 2105 is out of range
	tab.WaitText("#in-size-problem", "500")
	require.Equal(t, "2105", tab.Value("#in-size"))
	require.Contains(t, addressOf(tab), "size=2105")
}

// A problem is said at its field, takes the figures away, and goes when the field can be read.
func TestBenchProblemAtItsField(t *testing.T) {
	tab := browsertest.Open(t, benched(t)+"/dovetail_male", browsertest.Screen{Width: 360, Height: 740, Touch: true})
	tab.Allow("status of 422")
	tab.WaitText("#answer", "Still to be given")
	require.False(t, tab.Has(".problem"))
	tab.Fill("#in-roller", "6")
	tab.Fill("#in-narrow", "40")
	tab.WaitText("#answer", "56.392 mm")
	tab.Fill("#in-roller", "6 apples")
	tab.WaitText("#in-roller-problem", "Cannot be read; give a length")
	require.Equal(t, "6 apples", tab.Value("#in-roller"))
	require.Equal(t, "40", tab.Value("#in-narrow"))
	require.False(t, tab.Has("#figures"))
	require.NotContains(t, tab.Text("#answer"), "56.392")
	tab.Axe()
	tab.Screenshot("bench-problem-360.png")
	tab.Fill("#in-roller", "6")
	tab.WaitText("#answer", "56.392 mm")
	require.False(t, tab.Has(".problem"))
}

// A link carries its inputs: back, forward and a new tab show the same.
func TestBenchLinkAndBackButton(t *testing.T) {
	address := benched(t)
	tab := browsertest.Open(t, address+"?q=fit", browsertest.Screen{})
	tab.Click(`a[href="/bench/fit"]`)
	tab.Fill("#in-size", `1-1/4"`)
	tab.Fill("#in-shaft", "s6")
	benchSettled(tab, "shaft", "s6")
	link := addressOf(tab)
	require.Contains(t, link, "shaft=s6")
	said := tab.Text("#answer")
	tab.Eval("history.back()", nil)
	tab.WaitVisible("#methods")
	require.Equal(t, "/bench?q=fit", addressOf(tab), "typing did not pile up in the history")
	tab.Eval("history.forward()", nil)
	tab.WaitText("#answer", said)
	require.Equal(t, `1-1/4"`, tab.Value("#in-size"))
	require.Equal(t, "s6", tab.Value("#in-shaft"))
	other := browsertest.Open(t, address[:len(address)-len("/bench")]+link, browsertest.Screen{})
	require.Equal(t, said, other.Text("#answer"))
}

// What is opened stays open while one types, and follows.
func TestBenchOpenedFigureStaysOpen(t *testing.T) {
	tab := browsertest.Open(t, benched(t)+"/dovetail_male?roller=6&narrow=40", browsertest.Screen{})
	tab.Click("#f-over_rollers > summary")
	tab.WaitVisible("#f-over_rollers .explain")
	tab.Fill("#in-narrow", "41")
	tab.WaitText("#f-over_rollers .explain", "57.392 mm")
}

// On a phone the answer is in sight while a field far above it is filled in, and hides no field.
func TestBenchAnswerStaysInSight(t *testing.T) {
	tab := browsertest.Open(t, benched(t)+"/lost_motion", browsertest.Screen{Width: 360, Height: 740, Touch: true})
	var answer, field, screen float64
	tab.Eval(`document.getElementById("in-thread").focus()`, nil)
	tab.Eval(`document.getElementById("answer").getBoundingClientRect().bottom`, &answer)
	tab.Eval(`innerHeight`, &screen)
	require.LessOrEqual(t, answer, screen+1)
	tab.Eval(`(() => {
		const inputs = [...document.querySelectorAll(".field input")];
		inputs.at(-1).focus();
		return inputs.at(-1).getBoundingClientRect().bottom;
	})()`, &field)
	tab.Eval(`document.getElementById("answer").getBoundingClientRect().top`, &answer)
	require.LessOrEqual(t, field, answer)
}

func TestBenchListFollowsTyping(t *testing.T) {
	tab := browsertest.Open(t, benched(t), browsertest.Screen{})
	tab.Fill("#q", "dovetail rol")
	tab.Wait(`document.querySelectorAll(".bench-methods li").length === 3`)
	require.Equal(t, "q", tab.Focus())
	require.Equal(t, "/bench?q=dovetail+rol", addressOf(tab))
	tab.Fill("#q", "zeppelin")
	tab.WaitText("#found", "Nothing is called that.")
	tab.Axe()
}

func TestBenchWithoutScripts(t *testing.T) {
	tab := browsertest.Open(t, benched(t), browsertest.Screen{NoScript: true})
	tab.Fill("#q", "printed strip")
	tab.Press("Enter")
	tab.WaitText("#found", "1 of ")
	tab.Click(`a[href="/bench/dial_strip"]`)
	tab.WaitVisible("#in-dial_dia")
	tab.Fill("#in-dial_dia", "50")
	tab.Click("button")
	tab.WaitText("#answer", "157.551 mm") // π × 50.15
	require.Equal(t, "50", tab.Value("#in-dial_dia"))
	tab.Click("#f-strip_length > summary")
	tab.WaitVisible("#f-strip_length .explain")
}

// On paper the strip and its bar are as long as they say, at 96 pixels an inch.
func TestBenchStripOnPaper(t *testing.T) {
	tab := browsertest.Open(t, benched(t)+"/dial_strip?dial_dia=40&divisions=50&thickness=0.1", browsertest.Screen{Print: true, Dark: true, Width: 794, Height: 1100})
	var bar float64
	tab.Eval(`(() => {
		const box = document.querySelector(".drawing .dim").getBoundingClientRect();
		return box.width;
	})()`, &bar)
	require.InDelta(t, 100/25.4*96, bar, 0.5)
	require.False(t, tab.Visible("button"))
	tab.PDF()
	tab.Screenshot("bench-strip-print.png")
}
