package browsertest_test

import (
	"bytes"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/store"
	"fettle/web"
	"fettle/web/browsertest"
)

// planned serves the program with the demo lathe in it, and gives the address of its planning page.
func planned(t *testing.T) (page string, kept *store.Store) {
	t.Helper()
	return plannedHeld(t, "", nil)
}

// plannedHeld is planned, with the answer to a form that contains text held back until held is closed.
func plannedHeld(t *testing.T, text string, held <-chan struct{}) (page string, kept *store.Store) {
	t.Helper()
	kept = newStore(t)
	mux := http.NewServeMux()
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	own, err := web.New(web.Options{Listen: server.Listener.Addr().String(), Log: slog.New(slog.DiscardHandler), Store: kept, Now: time.Now})
	require.NoError(t, err)
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		if held != nil && r.Method == http.MethodPost {
			body, err := io.ReadAll(r.Body)
			if err != nil {
				return // the visitor has left
			}
			r.Body = io.NopCloser(bytes.NewReader(body))
			if strings.Contains(string(body), text) {
				select {
				case <-held:
				case <-r.Context().Done():
					return
				}
			}
		}
		own.Handler().ServeHTTP(w, r)
	})
	id, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	return fmt.Sprintf("%s/machines/%d/upgrades/1", server.URL, id), kept
}

// amountOf is the amount as it is on disk.
func amountOf(t *testing.T, kept *store.Store) string {
	t.Helper()
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	return m.Upgrades[0].Inputs["amount"]
}

const shownFor = `document.querySelector("#amount").getAttribute("value") === %q && !document.querySelector(".htmx-request")`

// answered waits until the page has been worked out for an amount.
func answered(tab *browsertest.Tab, amount string) { tab.Wait(fmt.Sprintf(shownFor, amount)) }

// The main job, from an empty folder to the figure.
func TestNewUserPlansMoreTravel(t *testing.T) {
	kept := newStore(t)
	mux := http.NewServeMux()
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	own, err := web.New(web.Options{Listen: server.Listener.Addr().String(), Log: slog.New(slog.DiscardHandler), Store: kept, Now: time.Now})
	require.NoError(t, err)
	mux.Handle("/", own.Handler())

	tab := browsertest.Open(t, server.URL+"/", browsertest.Screen{})
	tab.Click(`form[action="/demo/lathe"] button`)
	tab.Click(`a[href="/machines/1/upgrades/1"]`)
	tab.WaitText("#answer", "Say how much further")
	tab.Fill("#amount", "12")
	tab.WaitText("#answer", "grows by 10.5 mm")
	tab.WaitText("#k-cross-bracket-length", "36.5 mm")
	tab.WaitText("#k-cross-bracket-length", "+10.5")
	tab.WaitText("#saved", "saved ")
	require.Equal(t, "12", amountOf(t, kept))
	tab.Reload()
	tab.WaitText("#answer", "grows by 10.5 mm")
}

func TestPlanTypingWithASlowAnswer(t *testing.T) {
	held := make(chan struct{})
	page, kept := plannedHeld(t, "amount=1&", held)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Fill("#amount", "1")
	tab.Wait(`document.querySelector(".htmx-request") !== null`)
	tab.Type("2.75")
	tab.Press("ArrowLeft")
	tab.Press("ArrowLeft")
	close(held)
	answered(tab, "12.75")
	require.Equal(t, "12.75", tab.Value("#amount"))
	require.Equal(t, "amount", tab.Focus())
	var caret int
	tab.Eval(`document.querySelector("#amount").selectionStart`, &caret)
	require.Equal(t, 3, caret)
	tab.Type("0")
	answered(tab, "12.075")
	require.Equal(t, "12.075", amountOf(t, kept))
	require.False(t, tab.Has("#stale"), "a request of its own that was given up is no conflict")
}

// Typed and left at once: the last key is not lost, and the new field takes the keys that follow.
func TestPlanTypingAndTabbingOn(t *testing.T) {
	page, kept := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Fill("#amount", "12")
	answered(tab, "12")
	tab.Fill("#sleeve", "16")
	tab.Press("Tab")
	tab.Type("18")
	answered(tab, "12")
	tab.Wait(`document.querySelector("#lap").getAttribute("value") === "18" && document.querySelector("#sleeve").getAttribute("value") === "16"`)
	require.Equal(t, "lap", tab.Focus())
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, "16", m.Upgrades[0].Inputs["sleeve"])
	require.Equal(t, "18", m.Upgrades[0].Inputs["lap"])
}

func TestPlanUnreadable(t *testing.T) {
	page, kept := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Allow("status of 422")
	tab.Fill("#amount", "12")
	answered(tab, "12")
	tab.Type(" banana")
	answered(tab, "12 banana")
	tab.WaitVisible("#unreadable")
	tab.WaitVisible("#amount-problem")
	require.False(t, tab.Has("#knock-ons"), "no figures for what cannot be read")
	require.Equal(t, "12 banana", tab.Value("#amount"))
	require.Equal(t, "12 banana", amountOf(t, kept))
	for range " banana" {
		tab.Press("Backspace")
	}
	answered(tab, "12")
	tab.WaitText("#k-cross-bracket-length", "36.5 mm")
}

func TestPlanFigureOpens(t *testing.T) {
	page, _ := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Fill("#amount", "12")
	tab.WaitText("#k-cross-bracket-length", "36.5 mm")
	tab.Click("#k-cross-bracket-length > details > summary")
	tab.WaitText("#k-cross-bracket-length .explain", "Source: geometry")
	tab.WaitText("#k-cross-bracket-length .explain", "= 36.5 mm")
	tab.Fill("#amount", "13")
	tab.WaitText("#k-cross-bracket-length .explain", "= 37.5 mm")
	require.True(t, tab.Has("#k-cross-bracket-length > details[open]"), "it stays open")
	tab.Axe()
	tab.Click("#k-cross-bracket-length > details > summary")
	tab.Fill("#amount", "14")
	tab.WaitText("#k-cross-bracket-length", "38.5 mm")
	require.False(t, tab.Has("#k-cross-bracket-length > details[open]"))
	require.False(t, tab.Has("#k-cross-bracket-length .explain"), "what is closed is not explained")
}

func TestPlanSlideMoves(t *testing.T) {
	page, kept := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Fill("#amount", "12")
	answered(tab, "12")
	tab.Fill("#lap", "14.5") // leaves the amount, so that the fields that have appeared are saved as they stand
	tab.Wait(`document.querySelector("#lap").getAttribute("value") === "14.5" && !document.querySelector(".htmx-request")`)
	tab.Press("Tab")
	tab.Wait(`!document.querySelector(".htmx-request")`)
	before, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, "12", before.Upgrades[0].Inputs["amount"])
	tab.Choose("#slide-at", "40")
	require.Equal(t, "40", tab.Text("#slide-at-value"))
	tab.Wait(`document.querySelector("#side-moving").getAttribute("transform") === "translate(-60.000 0)"`)
	tab.Eval(`document.querySelector("#slide-at").focus()`, nil)
	tab.Press("ArrowRight")
	require.Equal(t, "40.5", tab.Value("#slide-at"))
	after, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, before.UpgradeRevisions, after.UpgradeRevisions, "a look at the picture saves nothing")
	// The picture is drawn anew at the same place when something else changes.
	tab.Fill("#lap", "15")
	tab.Wait(`document.querySelector("#lap").getAttribute("value") === "15"`)
	tab.Wait(`document.querySelector("#side-moving").getAttribute("transform") === "translate(-59.500 0)"`)
}

func TestPlanRemedyByButton(t *testing.T) {
	page, _ := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Fill("#amount", "17")
	tab.WaitText("#checks", "short by 2")
	tab.Choose(`[name="do.front_wall_nut"]`, "shorten_nut") // by hand first: the list must still follow the button
	tab.Choose(`[name="do.front_wall_nut"]`, "cut_front_wall")
	tab.WaitText("#checks", "short by 2")
	tab.Click(`button[value="do.front_wall_nut=move_nut"]`)
	tab.Wait(`document.querySelector('[name="do.front_wall_nut"]')?.value === "move_nut"`)
	tab.Wait(`!document.querySelector("#checks").innerText.includes("short by 2")`)
	require.Equal(t, "17", tab.Value("#amount"))
}

func TestPlanByKeyboard(t *testing.T) {
	page, kept := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Press("Tab") // to the way past the head
	tab.Press("Enter")
	reach := func(id string) {
		for range 60 {
			if tab.Focus() == id {
				return
			}
			tab.Press("Tab")
		}
		require.Equal(t, id, tab.Focus(), "it is never reached")
	}
	reach("amount")
	tab.Type("12")
	tab.Press("Enter")
	answered(tab, "12")
	tab.Wait(`document.activeElement.id === "amount"`) // the focus comes back once the part is in its place
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, "draft", string(m.Upgrades[0].State), "Enter works it out, and adds nothing")
	reach("slide-at")
	tab.Press("Home")
	require.Equal(t, "0", tab.Text("#slide-at-value"))
	onto := func(condition string) {
		for range 80 {
			var is bool
			if tab.Eval(condition, &is); is {
				return
			}
			tab.Press("Tab")
		}
		require.Fail(t, "never reached: "+condition)
	}
	onto(`document.activeElement.matches("#k-cross-bracket-length > details > summary")`)
	tab.Press("Enter")
	tab.WaitText("#k-cross-bracket-length .explain", "Source: geometry")
	tab.Eval(`document.querySelector("#amount").focus()`, nil)
	onto(`document.activeElement.innerText === "Add to the plan"`)
	tab.Press("Space")
	tab.WaitText("#plan-actions + p", "in the plan")
}

func TestPlanWithoutScripts(t *testing.T) {
	page, kept := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{NoScript: true})
	tab.Allow("status of 422")
	tab.Fill("#amount", "12")
	tab.Press("Enter")
	tab.WaitText("#answer", "grows by 10.5 mm")
	require.False(t, tab.Visible(".slide-control"))
	require.Equal(t, "12", amountOf(t, kept))

	tab.Fill("#amount", "a lot")
	tab.Click(".no-script-only")
	tab.WaitVisible("#amount-problem")
	require.Equal(t, "a lot", tab.Value("#amount"))

	tab.Fill("#amount", "13")
	tab.Click(".no-script-only")
	tab.WaitText("#k-cross-bracket-length", "37.5 mm")
	tab.Click("#k-cross-bracket-length > details > summary")
	tab.Click("#k-cross-bracket-length a.how")
	tab.WaitText("main", "Source: geometry")

	tab.Go(page)
	tab.Click("#plan-actions .main-action")
	tab.WaitText("#plan-actions + p", "in the plan")
	tab.Click(`#plan-actions button[formaction$="/drop"]`)
	tab.WaitText("h1", "Dropped")
	tab.Click("main button")
	tab.WaitText("#answer", "grows by 11.5 mm")
}

func TestPlanInTwoBrowsers(t *testing.T) {
	page, kept := planned(t)
	one := browsertest.Open(t, page, browsertest.Screen{})
	two := browsertest.Open(t, page, browsertest.Screen{})
	two.Allow("status of 409")
	one.Fill("#amount", "9")
	answered(one, "9")
	one.WaitText("#saved", "saved ")

	two.Fill("#amount", "12")
	two.WaitVisible("#stale")
	two.WaitText("#stale", "Amount")
	two.WaitText("#stale", "9")
	two.WaitText("#saved", "not saved")
	two.WaitText("#answer", "grows by 10.5 mm")
	two.Axe()
	two.Screenshot("plan-stale.png")
	require.Equal(t, "12", two.Value("#amount"))
	require.Equal(t, "9", amountOf(t, kept))
	two.Type("5") // typing on loses nothing either
	answered(two, "125")
	require.Equal(t, "9", amountOf(t, kept))
	two.Press("Backspace")
	answered(two, "12")
	two.Click(`#stale button[name="over"]`)
	two.Wait(`!document.querySelector("#stale")`)
	two.WaitText("#saved", "saved ")
	require.Equal(t, "12", two.Value("#amount"))
	require.Equal(t, "12", amountOf(t, kept))

	one.Allow("status of 409")
	one.Fill("#amount", "10")
	one.WaitVisible("#stale")
	one.Click("#stale a.button")
	one.Wait(`document.querySelector("#amount")?.value === "12"`)
	require.Equal(t, "12", amountOf(t, kept))
}

func TestPlanIsAccessible(t *testing.T) {
	page, _ := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Allow("status of 422")
	for name, amount := range map[string]string{"blank": "", "asked": "12", "too-far": "30", "unreadable": "much"} {
		tab.Fill("#amount", amount)
		answered(tab, amount)
		tab.OnEveryScreen("plan-" + name)
	}
}

// On a phone the answer and the picture come right under the amount, and the picture shows the end
// where things meet.
func TestPlanOnAPhone(t *testing.T) {
	page, _ := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{Width: 360, Height: 740, Touch: true})
	tab.Fill("#amount", "12")
	answered(tab, "12")
	tab.Wait(`["#amount", "#answer", ".picture", "#slide-at", "#how-far", "#met", "#knock-ons", "#checks"]
		.map(at => document.querySelector(at).getBoundingClientRect().top).every((top, i, all) => !i || top > all[i - 1])`)
	tab.Wait(`(() => {
		const frame = document.querySelector(".picture-scroll").getBoundingClientRect();
		const dial = document.querySelector("#side .new, #side .fill-new").getBoundingClientRect();
		return dial.left >= frame.left && dial.right <= frame.right;
	})()`)
	var type12 float64
	tab.Eval(`(() => { const svg = document.querySelector("#side"); const t = svg.querySelector("text");
		return t.getBoundingClientRect().height })()`, &type12)
	require.GreaterOrEqual(t, type12, 10.0, "type in the picture can be read")
}

func TestPlanOnPaper(t *testing.T) {
	page, _ := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{Width: 700, Height: 1000, Print: true})
	tab.Fill("#amount", "12")
	answered(tab, "12")
	tab.FitsWidth()
	for _, selector := range []string{"button", ".slide-control", ".skip"} {
		require.False(t, tab.Visible(selector), selector)
	}
	tab.Wait(`(() => { const frame = document.querySelector(".picture").getBoundingClientRect(), svg = document.querySelector("#side").getBoundingClientRect();
		return svg.left >= frame.left - 1 && svg.right <= frame.right + 1 })()`)
	require.Contains(t, string(tab.PDF()[:5]), "%PDF-")
}

// The program was stopped: what was typed stays, the page says that it is not saved.
func TestPlanWithNobodyThere(t *testing.T) {
	page, kept := planned(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Allow("net::ERR")
	tab.Allow("htmx:error")
	tab.Fill("#amount", "12")
	answered(tab, "12")
	tab.Offline(true)
	tab.Type("0")
	tab.WaitText("#notices", "Not saved.")
	require.Equal(t, "120", tab.Value("#amount"))
	tab.Offline(false)
	tab.Press("Backspace")
	tab.Type(".5")
	answered(tab, "12.5")
	tab.Wait(`document.querySelector("#notices").childElementCount === 0`)
	require.Equal(t, "12.5", amountOf(t, kept))
}
