package browsertest

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// Screen is how a page is looked at.
type Screen struct {
	Width, Height int  // in CSS pixels; 1280 × 800 where left out
	Dark          bool // the system prefers dark
	NoScript      bool // scripts are off
	Touch         bool // a finger, not a mouse
	Print         bool // as on paper
}

// Tab is one page in the browser, with cookies and storage of its own. All its methods end the test
// when they cannot do what they say.
type Tab struct {
	t   *testing.T
	ctx context.Context

	mu      sync.Mutex
	console []string
	allowed []string
}

// Open opens url in a new tab that is closed when the test ends.
func Open(t *testing.T, url string, screen Screen) *Tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(running(t), chromedp.WithNewBrowserContext())
	t.Cleanup(cancel)
	tab := &Tab{t: t, ctx: ctx}
	require.NoError(t, chromedp.Listen(ctx, tab.hear))
	tab.look(screen)
	t.Cleanup(tab.requireQuiet)
	tab.Go(url)
	return tab
}

// hear notes what the page says on the console, and what went wrong with it.
func (tab *Tab) hear(event any) {
	var said string
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		said = "console." + e.Type.String() + ":"
		for _, arg := range e.Args {
			said += fmt.Sprintf(" %s%s", arg.Value, arg.Description)
		}
	case *runtime.EventExceptionThrown:
		said = "exception: " + e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			said += " " + e.ExceptionDetails.Exception.Description
		}
	case *log.EventEntryAdded:
		said = fmt.Sprintf("%s %s: %s %s", e.Entry.Source, e.Entry.Level, e.Entry.Text, e.Entry.URL)
	default:
		return
	}
	tab.mu.Lock()
	defer tab.mu.Unlock()
	tab.console = append(tab.console, said)
}

// Allow lets the page say what contains text on its console. The browser itself notes there, for one,
// every reply of 400 and above: Allow("status of 422").
func (tab *Tab) Allow(text string) { tab.allowed = append(tab.allowed, text) }

// Heard gives what the page wrote on its console so far.
func (tab *Tab) Heard() []string {
	tab.t.Helper()
	tab.Eval("1", nil) // every message that was sent before this has arrived with its answer
	tab.mu.Lock()
	defer tab.mu.Unlock()
	return slices.Clone(tab.console)
}

// Forget drops what was heard so far.
func (tab *Tab) Forget() {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	tab.console = nil
}

// requireQuiet fails the test for whatever the console holds and the test did not allow.
func (tab *Tab) requireQuiet() {
	for _, said := range tab.Heard() {
		if !slices.ContainsFunc(tab.allowed, func(text string) bool { return strings.Contains(said, text) }) {
			tab.t.Error("the page wrote on its console: " + said)
		}
	}
}

func (tab *Tab) look(screen Screen) {
	tab.t.Helper()
	if screen.Width == 0 {
		screen.Width, screen.Height = 1280, 800
	}
	scheme, medium := "light", ""
	if screen.Dark {
		scheme = "dark"
	}
	if screen.Print {
		medium = "print"
	}
	ctx, cancel := context.WithTimeout(tab.ctx, limit)
	defer cancel()
	_, err := chromedp.Call(ctx, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: int64(screen.Width), Height: int64(screen.Height), DeviceScaleFactor: 1, Mobile: screen.Touch,
	})
	require.NoError(tab.t, err)
	_, err = chromedp.Call(ctx, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: screen.Touch})
	require.NoError(tab.t, err)
	_, err = chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Media: medium,
		Features: []*emulation.MediaFeature{
			{Name: "prefers-color-scheme", Value: scheme},
			{Name: "prefers-reduced-motion", Value: "reduce"}, // no colour is caught half way
		},
	})
	require.NoError(tab.t, err)
	if screen.NoScript {
		_, err = chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		require.NoError(tab.t, err)
	}
}

// do runs steps within the limit.
func (tab *Tab) do(what string, steps ...chromedp.Action[chromedp.Void]) {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, limit)
	defer cancel()
	require.NoError(tab.t, chromedp.Do(ctx, steps...), what)
}

// Go opens url in the tab.
func (tab *Tab) Go(url string) {
	tab.t.Helper()
	tab.do("go to "+url, chromedp.Navigate(url))
}

// Reload loads the page anew.
func (tab *Tab) Reload() {
	tab.t.Helper()
	tab.do("reload", chromedp.Reload())
}

// Click clicks the first element that matches selector, once it is visible.
func (tab *Tab) Click(selector string) {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, limit)
	defer cancel()
	for {
		// A page on its way out takes the element with it, before it is clicked; the next page's is.
		err := chromedp.Do(ctx, chromedp.Click(chromedp.CSS(selector)))
		if err != nil && ctx.Err() == nil && gone(err) {
			continue
		}
		require.NoError(tab.t, err, "click "+selector)
		return
	}
}

// gone tells whether an element left the page between being found and being used.
func gone(err error) bool {
	return strings.Contains(err.Error(), "Could not find node") || strings.Contains(err.Error(), "detached from document")
}

// Fill replaces the text of a field by typing text, key by key, once the page
// and its scripts are there: what is typed before is not sent by itself.
func (tab *Tab) Fill(selector, text string) {
	tab.t.Helper()
	tab.Wait(fmt.Sprintf(`document.readyState === "complete" && document.querySelector(%s) !== null`, quote(selector)))
	tab.Eval(fmt.Sprintf("{ const field = document.querySelector(%s); field.focus(); field.select() }", quote(selector)), nil)
	if text == "" {
		text = kb.Delete
	}
	tab.do("fill "+selector, chromedp.KeyEvent(text))
}

// Type presses the keys of text wherever the focus is.
func (tab *Tab) Type(text string) {
	tab.t.Helper()
	tab.do("type "+text, chromedp.KeyEvent(text))
}

// Press presses one key by its name: Tab, Enter, Space, Escape, ArrowRight, Home, End and so on.
func (tab *Tab) Press(name string) {
	tab.t.Helper()
	key, ok := map[string]string{
		"Tab": kb.Tab, "Enter": kb.Enter, "Space": " ", "Escape": kb.Escape, "Backspace": kb.Backspace, "Delete": kb.Delete,
		"ArrowLeft": kb.ArrowLeft, "ArrowRight": kb.ArrowRight, "ArrowUp": kb.ArrowUp, "ArrowDown": kb.ArrowDown,
		"Home": kb.Home, "End": kb.End, "PageUp": kb.PageUp, "PageDown": kb.PageDown,
	}[name]
	require.True(tab.t, ok, "no key is called "+name)
	tab.do("press "+name, chromedp.KeyEvent(key))
}

// Choose chooses the line with value of a list, or moves a slider to value, as a hand would.
func (tab *Tab) Choose(selector, value string) {
	tab.t.Helper()
	tab.Wait(fmt.Sprintf("document.querySelector(%s) !== null", quote(selector)))
	tab.Eval(fmt.Sprintf(`{
		const field = document.querySelector(%s);
		field.focus();
		field.value = %s;
		field.dispatchEvent(new Event("input", {bubbles: true}));
		field.dispatchEvent(new Event("change", {bubbles: true}));
	}`, quote(selector), quote(value)), nil)
	require.Equal(tab.t, value, tab.Value(selector), "%s does not take it", selector)
}

// Files chooses files of this computer, by their paths, for a field that takes them.
func (tab *Tab) Files(selector string, paths ...string) {
	tab.t.Helper()
	tab.do("choose files for "+selector, chromedp.SetUploadFiles(chromedp.CSS(selector), paths))
}

// Text gives the text of the first element that matches selector, as it is read.
func (tab *Tab) Text(selector string) string {
	tab.t.Helper()
	var text string
	tab.Eval(fmt.Sprintf(`document.querySelector(%s)?.innerText ?? "nothing matches " + %[1]s`, quote(selector)), &text)
	return text
}

// Value gives what stands in the field that matches selector.
func (tab *Tab) Value(selector string) string {
	tab.t.Helper()
	var value string
	tab.Eval(fmt.Sprintf(`document.querySelector(%s)?.value ?? "no field matches " + %[1]s`, quote(selector)), &value)
	return value
}

// Has reports whether an element matches selector now.
func (tab *Tab) Has(selector string) bool {
	tab.t.Helper()
	var has bool
	tab.Eval(fmt.Sprintf("document.querySelector(%s) !== null", quote(selector)), &has)
	return has
}

// Visible reports whether an element that matches selector is shown now.
func (tab *Tab) Visible(selector string) bool {
	tab.t.Helper()
	var visible bool
	tab.Eval(fmt.Sprintf("document.querySelector(%s)?.checkVisibility() ?? false", quote(selector)), &visible)
	return visible
}

// Focus gives the id of the element that has the focus, or "".
func (tab *Tab) Focus() string {
	tab.t.Helper()
	var id string
	tab.Eval("document.activeElement?.id ?? ''", &id)
	return id
}

// WaitText waits until the text of an element that matches selector contains want.
func (tab *Tab) WaitText(selector, want string) {
	tab.t.Helper()
	if !tab.until(fmt.Sprintf("[...document.querySelectorAll(%s)].some(e => e.innerText.includes(%s))", quote(selector), quote(want))) {
		require.Contains(tab.t, tab.Text(selector), want, "%s never said so", selector)
	}
}

// WaitVisible waits until an element that matches selector is on the page and not hidden.
func (tab *Tab) WaitVisible(selector string) {
	tab.t.Helper()
	tab.Wait(fmt.Sprintf("document.querySelector(%s)?.checkVisibility() === true", quote(selector)))
}

// Wait waits until condition, a JavaScript expression, is true.
func (tab *Tab) Wait(condition string) {
	tab.t.Helper()
	require.True(tab.t, tab.until(condition), "never came true: "+condition)
}

// until asks again and again, in this loop rather than in the page, so that it outlives navigation and
// works with scripts off.
func (tab *Tab) until(condition string) bool {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, limit)
	defer cancel()
	again := time.NewTicker(15 * time.Millisecond)
	defer again.Stop()
	for {
		// An error here is a page on its way out; the next one is asked.
		if is, err := chromedp.Run(ctx, chromedp.Evaluate[bool](condition)); err == nil && is {
			return true
		}
		select {
		case <-ctx.Done():
			return false
		case <-again.C:
		}
	}
}

// Eval runs a JavaScript expression and decodes its value into to, which may be nil. The page's
// content policy does not hold for it.
func (tab *Tab) Eval(expression string, to any) {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, limit)
	defer cancel()
	if to == nil {
		_, err := chromedp.Run(ctx, chromedp.Evaluate[chromedp.Void](expression, chromedp.EvalAwaitPromise))
		if err != nil && strings.Contains(err.Error(), "navigated or closed") {
			return // where it went on to another page, that may come before its answer
		}
		require.NoError(tab.t, err, expression)
		return
	}
	raw, err := chromedp.Run(ctx, chromedp.Evaluate[[]byte](expression, chromedp.EvalAwaitPromise))
	require.NoError(tab.t, err, expression)
	require.NoError(tab.t, json.Unmarshal(raw, to), expression)
}

// Offline cuts the tab off the network, or connects it again.
func (tab *Tab) Offline(cut bool) {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, limit)
	defer cancel()
	everything := &network.Conditions{Offline: cut, DownloadThroughput: -1, UploadThroughput: -1}
	_, err := chromedp.Call(ctx, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
		MatchedNetworkConditions: []*network.Conditions{everything},
	})
	require.NoError(tab.t, err)
}

// FitsWidth fails the test when the page is wider than the screen and would have to be scrolled sideways.
func (tab *Tab) FitsWidth() {
	tab.t.Helper()
	var page, screen float64
	tab.Eval("document.documentElement.scrollWidth", &page)
	tab.Eval("document.documentElement.clientWidth", &screen)
	require.LessOrEqual(tab.t, page, screen, "the page is wider than the screen")
}

// Screenshot writes the whole page as a PNG called name to the folder FETTLE_SCREENSHOTS, if that is set.
func (tab *Tab) Screenshot(name string) {
	tab.t.Helper()
	folder := os.Getenv("FETTLE_SCREENSHOTS")
	if folder == "" {
		return
	}
	tab.Wait("document.fonts.status === 'loaded'")
	ctx, cancel := context.WithTimeout(tab.ctx, limit)
	defer cancel()
	picture, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
	require.NoError(tab.t, err)
	require.NoError(tab.t, os.MkdirAll(folder, 0o755))
	require.NoError(tab.t, os.WriteFile(filepath.Join(folder, name), picture, 0o644))
}

// PDF gives the page as it would be printed, on the paper that its style asks for.
func (tab *Tab) PDF() []byte {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, limit)
	defer cancel()
	paper, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
	require.NoError(tab.t, err)
	return paper
}

// quote gives text as a JavaScript string.
func quote(text string) string {
	quoted, err := json.Marshal(text)
	if err != nil {
		panic(err) // a string always has a JSON form
	}
	return string(quoted)
}
