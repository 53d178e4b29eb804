package browsertest_test

import (
	"bytes"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web"
	"fettle/web/browsertest"
)

// serveStore serves what is kept.
func serveStore(t *testing.T, kept *store.Store) (url string) {
	t.Helper()
	mux := http.NewServeMux()
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	own, err := web.New(web.Options{Listen: server.Listener.Addr().String(), Log: slog.New(slog.DiscardHandler), Store: kept, Now: time.Now})
	require.NoError(t, err)
	mux.Handle("/", own.Handler())
	return server.URL
}

// named matches the field with the name.
func named(name string) string { return fmt.Sprintf(`[name=%q]`, name) }

func axisOf(t *testing.T, kept *store.Store) axis.Axis {
	t.Helper()
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	return m.Axes[0]
}

// typedOf is a figure of a part as it is on disk.
func typedOf(t *testing.T, kept *store.Store, part, size string) string {
	t.Helper()
	a := axisOf(t, kept)
	p, ok := a.Part(part)
	require.True(t, ok, part)
	return p.Entries[size].Typed
}

// settled waits until no reply is outstanding and the sheet is saved.
func settled(tab *browsertest.Tab, field, value string) {
	tab.Wait(fmt.Sprintf(`document.querySelector('%s').getAttribute("value") === %q && !document.querySelector(".htmx-request")`, named(field), value))
}

// A new user measures a machine of his own, by keyboard, from an empty folder to a travel that agrees.
func TestNewUserMeasuresAnAxisByKeyboard(t *testing.T) {
	kept := newStore(t)
	tab := browsertest.Open(t, serveStore(t, kept)+"/machines/new?kind=other", browsertest.Screen{})
	tab.Fill("#name", "Shed lathe")
	tab.Press("Enter")
	tab.WaitText("h1", "Shed lathe")
	tab.Click("#described-axis summary")
	tab.Fill("#label", "Cross slide")
	tab.Press("Tab")
	tab.Press("Space") // the handle stays where it is
	tab.Press("Enter")
	tab.WaitText("h1", "Cross slide")
	tab.Wait(`document.querySelector(".picture svg") !== null`)

	tab.Fill(named("travel_found"), "88")
	settled(tab, "travel_found", "88")
	tab.WaitText("#saved", "saved ")
	for _, figure := range [][2]string{{"front_wall.from", "118"}, {"front_wall.to", "5-35/64\""}, {"rear_wall.from", "0"}, {"rear_wall.to", "6"},
		{"nut.from", "6"}, {"nut.to", "30"}} {
		tab.Eval(fmt.Sprintf(`document.querySelector('%s').focus()`, named(figure[0])), nil)
		tab.Type(figure[1])
		tab.Press("Tab") // to how far off it can be
		require.Equal(t, figure[0]+".spread", tab.Focus())
	}
	settled(tab, "nut.to", "30")
	require.Equal(t, "5-35/64\"", typedOf(t, kept, "front_wall", "to"))
	tab.Wait(`document.querySelector("#follows output").innerText.includes("88 mm")`)
	tab.Reload()
	require.Equal(t, "118", tab.Value(named("front_wall.from")))
	require.Equal(t, "5-35/64\"", tab.Value(named("front_wall.to")))
	tab.Axe()
}

// What cannot be read is marked at its field while it is typed, and is there again when the page is.
func TestSheetMarksWhatCannotBeRead(t *testing.T) {
	kept := newStore(t)
	_, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	page := serveStore(t, kept) + "/machines/1/axes/cross"
	tab := browsertest.Open(t, page, browsertest.Screen{Width: 360, Height: 740, Touch: true})
	tab.Fill(named("bracket.to"), "about 167")
	tab.WaitText(`[id="bracket.to-problem"]`, "Cannot be read; give a length such as 12")
	require.Equal(t, "bracket.to", tab.Focus())
	require.Equal(t, "about 167", typedOf(t, kept, "bracket", "to"))
	tab.Axe()
	tab.FitsWidth()
	tab.Reload()
	require.Equal(t, "about 167", tab.Value(named("bracket.to")))
	tab.Fill(named("bracket.to"), "167")
	tab.Wait(`document.getElementById("bracket.to-problem") === null`)
}

// A figure that is typed stays where it stands, and so do the focus and the caret in it.
func TestSheetFieldDoesNotMoveWhileTyped(t *testing.T) {
	kept := newStore(t)
	_, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	tab := browsertest.Open(t, serveStore(t, kept)+"/machines/1/axes/cross", browsertest.Screen{})
	tab.Click("#rear_wall-also summary")
	tab.Fill(named("rear_wall.keep"), "6")
	settled(tab, "rear_wall.keep", "6")
	require.Equal(t, "rear_wall.keep", tab.Focus())
	require.True(t, tab.Has(`#rear_wall-also [name="rear_wall.keep"]`))
	tab.Type(".5")
	settled(tab, "rear_wall.keep", "6.5")
	require.Equal(t, "6.5", typedOf(t, kept, "rear_wall", "keep"))
}

func TestSheetWithoutScripts(t *testing.T) {
	kept := newStore(t)
	_, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	tab := browsertest.Open(t, serveStore(t, kept)+"/machines/1/axes/cross", browsertest.Screen{NoScript: true})
	tab.Fill(named("nut.to"), "29.5")
	require.Equal(t, "30", typedOf(t, kept, "nut", "to"), "nothing happens by itself")
	tab.Press("Enter")
	tab.Wait(`document.querySelector('[name="nut.to"]').getAttribute("value") === "29.5"`)
	require.Equal(t, "29.5", typedOf(t, kept, "nut", "to"))
	tab.Click("#nut-words summary")
	tab.Click(`[value="take_off_part:nut"]`)
	tab.WaitText("#sheet", "“nut” is off the sheet.")
	tab.Click(`[value="put_back_part:nut"]`)
	tab.Wait(`document.querySelector('[name="nut.to"]')?.value === "29.5"`)
}

// Two windows on one sheet: the later is told, sees what the other saved, and loses nothing it typed.
func TestSheetInTwoWindows(t *testing.T) {
	kept := newStore(t)
	_, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	page := serveStore(t, kept) + "/machines/1/axes/cross"
	one, two := browsertest.Open(t, page, browsertest.Screen{}), browsertest.Open(t, page, browsertest.Screen{})
	two.Allow("status of 409")
	one.Fill(named("bracket.to"), "168")
	settled(one, "bracket.to", "168")
	two.Fill(named("bracket.to"), "166")
	two.WaitText("#stale", "has saved this sheet")
	two.WaitText(`[id="bracket.to-row"]`, "saved there: 168")
	require.Equal(t, "166", two.Value(named("bracket.to")))
	require.Equal(t, "168", typedOf(t, kept, "bracket", "to"))
	two.Type(".2")
	two.Axe()
	two.Wait(`document.querySelector('[name="bracket.to"]').getAttribute("value") === "166.2"`)
	two.Click(`[value="mine"]`)
	two.Wait(`document.getElementById("stale") === null`)
	require.Equal(t, "166.2", typedOf(t, kept, "bracket", "to"))
	require.Equal(t, "166.2", two.Value(named("bracket.to")))
}

func TestSheetPartsComeAndGo(t *testing.T) {
	kept := newStore(t)
	_, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	tab := browsertest.Open(t, serveStore(t, kept)+"/machines/1/axes/cross", browsertest.Screen{})
	tab.Fill(named("new_label"), "Stop rod")
	tab.Press("Enter") // saves; the button adds
	tab.Click(`[value="add_part"]`)
	tab.WaitVisible("#stop_rod")
	require.Empty(t, tab.Value(named("new_label")))
	tab.Fill(named("stop_rod.from"), "150")
	settled(tab, "stop_rod.from", "150")
	tab.Click("#stop_rod-words summary")
	tab.Click(`[value="take_off_part:stop_rod"]`)
	tab.WaitText("#sheet", "“Stop rod” is off the sheet.")
	tab.Click(`[value="put_back_part:stop_rod"]`)
	tab.WaitVisible("#stop_rod")
	require.Equal(t, "150", typedOf(t, kept, "stop_rod", "from"))
	tab.Choose(named("stop_rod.tie"), "bracket.to")
	tab.WaitVisible(named("stop_rod.gap"))
}

func TestSheetOnPaper(t *testing.T) {
	kept := newStore(t)
	_, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	page := serveStore(t, kept) + "/machines/1/axes/cross"
	const box = 13 / 25.4 * 96 // 13 mm to write in, at 96 pixels an inch
	for path, field := range map[string]string{page: named("bracket.to"), page + "?blank=1": ".box"} {
		tab := browsertest.Open(t, path, browsertest.Screen{Print: true, Dark: true})
		require.False(t, tab.Visible("button"))
		var height, line float64
		tab.Eval(fmt.Sprintf(`document.querySelector('%s').getBoundingClientRect().height`, field), &height)
		require.GreaterOrEqual(t, height, box-0.5)
		tab.Eval(`document.querySelector(".check-line").getBoundingClientRect().width`, &line)
		require.InDelta(t, 100/25.4*96, line, 0.5, "100 mm")
		require.True(t, bytes.HasPrefix(tab.PDF(), []byte("%PDF-")))
	}
}

func TestTouchTargets(t *testing.T) {
	kept := newStore(t)
	_, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	url := serveStore(t, kept)
	for _, path := range []string{"/", "/machines/1", "/machines/1/axes/cross"} {
		tab := browsertest.Open(t, url+path, browsertest.Screen{Width: 360, Height: 740, Touch: true})
		tab.Eval(`document.querySelectorAll("details").forEach(d => d.open = true)`, nil)
		var small []string
		tab.Eval(`[...document.querySelectorAll("button, .button, select, input:not([type=hidden], [type=checkbox], [type=radio]), .head a, .tick, summary")]
			.filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 43.5).map(e => e.outerHTML)`, &small)
		require.Empty(t, small, path)
	}
}

// The machine's page does its job by keyboard: a question answered, an upgrade begun, one fitted.
func TestMachinePageInABrowser(t *testing.T) {
	kept := newStore(t)
	lathe := demo.Lathe()
	lathe.Axes[0].Answers = map[string]string{}
	lathe.Upgrades[0].State, lathe.Upgrades[0].Inputs["amount"] = upgrade.Planned, "12"
	_, err := kept.AddMachine(t.Context(), lathe)
	require.NoError(t, err)
	tab := browsertest.Open(t, serveStore(t, kept)+"/machines/1", browsertest.Screen{})
	tab.Click(`[name=answer][value=yes]`)
	tab.WaitText("#questions", "Tightening it locks the dial")
	tab.Click("summary:has(+ .explain)")
	tab.WaitVisible(".stages .explain")
	tab.Click("#upgrade-1 .inline summary")
	tab.Click("#upgrade-1 form[action$=fitted] button")
	tab.WaitText("#upgrade-1", "fitted on ")
	tab.WaitText(".axis", "100 mm")
	tab.Click(`[name=kind][value=extend_travel]`)
	tab.WaitText("h1", "More travel")
}

// Every page of a machine is readable by everybody, on a phone and on a desk, in light and dark.
func TestMachinePagesAreAccessible(t *testing.T) {
	kept := newStore(t)
	lathe := demo.Lathe()
	lathe.Upgrades[0].State, lathe.Upgrades[0].Inputs["amount"] = upgrade.Planned, "12"
	fitted := demo.Lathe()
	fitted.Upgrades[0].State, fitted.Upgrades[0].Inputs["amount"] = upgrade.Finished, "12"
	travelling, _ := axis.ArrangementNamed("travelling_screw")
	fitted.Axes = append(fitted.Axes, axis.Axis{Key: "top", Label: "Top slide", Arrangement: travelling.Key, Plus: "outward", Minus: "inward",
		Parts: travelling.UsualParts(), Obstacles: travelling.UsualObstacles()})
	for _, m := range []machine.Machine{lathe, demo.Mill(), fitted} {
		_, err := kept.AddMachine(t.Context(), m)
		require.NoError(t, err)
	}
	url := serveStore(t, kept)
	for _, path := range []string{"/", "/machines/1", "/machines/2", "/machines/1/axes/cross", "/machines/2/axes/head", "/machines/1/axes/cross?blank=1",
		"/machines/1/figures/cross.start_disc", "/machines/1/figures/cross.travel?stage=found&trials=1000",
		"/machines/1/figures/cross.front_wall.length?check=cross.front_wall.left_check", "/machines/3", "/machines/3/upgrades/1", "/machines/3/axes/top", "/machines/3/axes/top?blank=1"} {
		t.Run(path, func(t *testing.T) {
			t.Parallel()
			name := strings.NewReplacer("/", "-", "?", "-", "&", "-", "=", "-").Replace(path)
			browsertest.Open(t, url+path, browsertest.Screen{}).OnEveryScreen("page" + name)
		})
	}
}

// A part that the machine has not got goes at its heading, and comes back with what was typed meanwhile.
func TestSheetPartStruckOut(t *testing.T) {
	kept := newStore(t)
	travelling, _ := axis.ArrangementNamed("travelling_screw")
	_, err := kept.AddMachine(t.Context(), machine.Machine{Name: "Lathe", Kind: "lathe", Units: "mm", Axes: []axis.Axis{{
		Key: "top", Label: "Top slide", Arrangement: travelling.Key, Plus: "outward", Minus: "inward", Parts: travelling.UsualParts()}}})
	require.NoError(t, err)
	tab := browsertest.Open(t, serveStore(t, kept)+"/machines/1/axes/top", browsertest.Screen{})
	tab.Fill("#travel_found", "90")
	tab.Wait(`document.querySelector("#travel_found").getAttribute("value") === "90"`)
	tab.Click(`button.part-not[value="take_off_part:rear_web"]`)
	tab.WaitText("#sheet", "“rear web” is off the sheet.")
	tab.Wait(`!document.querySelector("#rear_web, .htmx-request")`)
	require.Equal(t, "90", tab.Value("#travel_found"))
	tab.Click(`button[value="put_back_part:rear_web"]`)
	tab.Wait(`document.querySelector("#rear_web") !== null`)
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, "90", m.Axes[0].Entries["travel_found"].Typed)
	require.Len(t, m.Axes[0].Parts, len(travelling.UsualParts()))
}

// A check in the tally of a machine opens to its figure and its limit, and leads to where that is changed.
func TestTallyOpensToTheLimit(t *testing.T) {
	kept := newStore(t)
	_, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	tab := browsertest.Open(t, serveStore(t, kept)+"/machines/1", browsertest.Screen{})
	tab.Click("#checks-holds > summary")
	tab.Click("#c-cross-nut_on_thread-least_plus summary")
	tab.WaitText("#c-cross-nut_on_thread-least_plus .held", "Limit: at least 18 mm")
	tab.Click(`#c-cross-nut_on_thread-least_plus .held a[href$="#nut_on_thread.least"]`)
	tab.Wait(`document.getElementById("nut_on_thread.least")?.checkVisibility()`)
}
